//! How the options of commands are read, and their texts.

use std::path::PathBuf;

use lexopt::Arg;

use crate::press::{NutLimits, NutPosition};
use crate::report::Paper;
use crate::session::Confidence;
use crate::units::{LengthProblem, Sign, TypedLength, Unit};
use crate::words::Language;

use super::file_address::path_of;

/// What is wrong with the command line.
#[derive(Debug, Clone, PartialEq)]
pub enum OptionProblem {
    /// No such option; carries what was found.
    Unknown(String),
    /// An option stands without its value; carries the option.
    NoValue(String),
    /// A value for an option that takes none; option and value.
    ValueNotTaken(String, String),
    /// An option that must be given; carries it.
    Needed(&'static str),
    /// No file was named.
    NoFile,
    /// No folder was named.
    NoFolder,
    /// More than one file for a command that takes one; carries the second.
    OneFileOnly(String),
    /// An argument where none belongs; carries it.
    Extra(String),
    /// A value that is no text; carries the option.
    NotText(String),
    /// A value that is no length: the option, which value of it from 1, what
    /// is wrong and the unit of bare numbers.
    Length(&'static str, usize, LengthProblem, Unit),
    /// A value that is no whole number: the option and what was found.
    Whole(&'static str, String),
    /// A value below 0: the option and what was found.
    Negative(&'static str, String),
    /// A value that names no limits such as `-12..6`: what was found.
    Limits(String),
    /// A list of another length than there are arms: the option, arms and
    /// values.
    PerArm(&'static str, usize, usize),
    /// A confidence that is none: what was found.
    Confidence(String),
    /// An option that goes with none of what `--press` brings; carries it.
    NotWithPress(&'static str),
    /// No unit we know: what was found.
    Unit(String),
    /// No paper we know: what was found.
    Paper(String),
    /// No language we speak: what was found.
    Language(String),
    /// No way of drawing we know: what was found.
    Renderer(String),
}

impl From<lexopt::Error> for OptionProblem {
    fn from(error: lexopt::Error) -> Self {
        let text = |value: std::ffi::OsString| value.to_string_lossy().into_owned();
        match error {
            lexopt::Error::UnexpectedOption(option) => Self::Unknown(option),
            lexopt::Error::MissingValue { option } => Self::NoValue(option.unwrap_or_default()),
            lexopt::Error::UnexpectedValue { option, value } => {
                Self::ValueNotTaken(option, text(value))
            }
            lexopt::Error::UnexpectedArgument(argument) => Self::Extra(text(argument)),
            lexopt::Error::NonUnicodeValue(value) => Self::NotText(text(value)),
            other => Self::Extra(other.to_string()),
        }
    }
}

/// The options of a command, as typed.
pub(super) trait Options: Default {
    /// Where values go that stand without the name of an option.
    fn files(&mut self) -> Files<'_>;

    /// An option's first name and where its value goes; none for one that the
    /// command does not know.
    fn slot(&mut self, _option: &str) -> Option<(&'static str, Slot<'_>)> {
        None
    }

    /// The first option that was given among these.
    fn given(&self, _among: &[&'static str]) -> Option<&'static str> {
        None
    }
}

impl Options for Option<PathBuf> {
    fn files(&mut self) -> Files<'_> {
        Files::One(self)
    }
}

impl Options for Vec<PathBuf> {
    fn files(&mut self) -> Files<'_> {
        Files::Many(self)
    }
}

/// The files or the folder a command works on.
pub(super) enum Files<'a> {
    One(&'a mut Option<PathBuf>),
    Many(&'a mut Vec<PathBuf>),
}

/// What values may be, by the names that tables of options use.
pub(super) mod kind {
    pub type Flag = bool;
    pub type Text = Option<String>;
    pub type Path = Option<super::PathBuf>;
    pub type Unit = Option<super::Unit>;
    pub type Paper = Option<super::Paper>;
    pub type Confidence = Option<super::Confidence>;
    pub type Count = Option<usize>;
}

/// Where the value of an option goes.
pub(super) enum Slot<'a> {
    /// It takes none.
    Flag(&'a mut kind::Flag),
    Text(&'a mut kind::Text),
    Path(&'a mut kind::Path),
    Unit(&'a mut kind::Unit),
    Paper(&'a mut kind::Paper),
    Confidence(&'a mut kind::Confidence),
    Count(&'a mut kind::Count),
}

/// The options of a command in one table: the field a value goes to, its kind,
/// and how the option is written. The part in brackets has the files, and the
/// options that are not in the table.
macro_rules! options {
    ($(#[$about:meta])* $name:ident($part:ident: $of:ty) {
        $($(#[$what:meta])* $field:ident: $kind:ident = $first:literal $(| $other:literal)*,)*
    }) => {
        $(#[$about])*
        #[derive(Debug, Clone, PartialEq, Default)]
        pub(super) struct $name {
            pub $part: $of,
            $($(#[$what])* pub $field: $crate::cli::options::kind::$kind,)*
        }

        const _: () = {
            use $crate::cli::options::{Files, Options, Slot, kind};

            impl Options for $name {
                fn files(&mut self) -> Files<'_> {
                    self.$part.files()
                }

                fn slot(&mut self, option: &str) -> Option<(&'static str, Slot<'_>)> {
                    match option {
                        $($first $(| $other)* => Some(($first, Slot::$kind(&mut self.$field))),)*
                        other => self.$part.slot(other),
                    }
                }

                fn given(&self, among: &[&'static str]) -> Option<&'static str> {
                    let all = [$(($first, self.$field != kind::$kind::default())),*];
                    let mut given = all.into_iter().filter(|(_, given)| *given);
                    let found = given.find(|(option, _)| among.contains(option));
                    found.map(|(option, _)| option).or(self.$part.given(among))
                }
            }
        };
    };
}
pub(super) use options;

/// Reads the options of a command; none where its help is asked for.
pub(super) fn read_options<T: Options>(
    parser: &mut lexopt::Parser,
) -> Result<Option<T>, OptionProblem> {
    let mut options = T::default();
    while let Some(argument) = parser.next()? {
        let option = match argument {
            Arg::Long("help") | Arg::Short('h') => return Ok(None),
            Arg::Long("language") => {
                skip_language(parser)?;
                continue;
            }
            Arg::Value(value) => {
                match options.files() {
                    Files::Many(files) => files.push(path_of(value)),
                    Files::One(file) if file.is_none() => *file = Some(path_of(value)),
                    Files::One(_) => {
                        let second = value.to_string_lossy().into_owned();
                        return Err(OptionProblem::OneFileOnly(second));
                    }
                }
                continue;
            }
            Arg::Long(name) => format!("--{name}"),
            Arg::Short(letter) => format!("-{letter}"),
        };
        match options.slot(&option) {
            None => return Err(OptionProblem::Unknown(option)),
            Some((_, Slot::Flag(flag))) => *flag = true,
            Some((_, Slot::Path(path))) => *path = Some(PathBuf::from(parser.value()?)),
            Some((name, slot)) => fill(name, slot, text(parser, &option)?)?,
        }
    }
    match options.files() {
        Files::Many(files) if files.is_empty() => Err(OptionProblem::NoFile),
        _ => Ok(Some(options)),
    }
}

fn fill(option: &'static str, slot: Slot<'_>, found: String) -> Result<(), OptionProblem> {
    match slot {
        Slot::Flag(_) | Slot::Path(_) => {}
        Slot::Text(text) => *text = Some(found),
        Slot::Unit(unit) => {
            let read = Unit::from_mark(found.trim());
            *unit = Some(read.ok_or(OptionProblem::Unit(found))?);
        }
        Slot::Paper(paper) => {
            let read = Paper::named(&found);
            *paper = Some(read.ok_or(OptionProblem::Paper(found))?);
        }
        Slot::Confidence(confidence) => {
            let share = found.trim().parse::<f64>().ok();
            let read = share.and_then(Confidence::from_share);
            *confidence = Some(read.ok_or(OptionProblem::Confidence(found))?);
        }
        Slot::Count(count) => {
            let read = usize::try_from(whole_number(option, &found)?);
            *count = Some(read.map_err(|_| OptionProblem::Negative(option, found))?);
        }
    }
    Ok(())
}

/// The value of `--language`, which was read before anything else
/// ([`super::request::language_asked_for`]); here it is only checked.
pub(super) fn skip_language(parser: &mut lexopt::Parser) -> Result<(), OptionProblem> {
    let code = text(parser, "--language")?;
    match language(&code) {
        Some(_) => Ok(()),
        None => Err(OptionProblem::Language(code)),
    }
}

/// The language of a code such as `es`.
pub(super) fn language(code: &str) -> Option<Language> {
    Language::ALL
        .into_iter()
        .find(|language| language.code() == code)
}

/// The value of an option as text.
pub(super) fn text(parser: &mut lexopt::Parser, option: &str) -> Result<String, OptionProblem> {
    parser
        .value()?
        .into_string()
        .map_err(|_| OptionProblem::NotText(option.to_owned()))
}

/// A whole number, with or without a plus sign.
pub(super) fn whole_number(option: &'static str, found: &str) -> Result<i32, OptionProblem> {
    let digits = found.trim();
    let digits = digits.strip_prefix('+').unwrap_or(digits);
    // A second sign would be taken by the number itself.
    let wrong = || OptionProblem::Whole(option, found.to_owned());
    if digits.starts_with('+') {
        return Err(wrong());
    }
    digits.replace('−', "-").parse().map_err(|_| wrong())
}

/// Turns or positions in whole notches, one per arm, parted by commas.
pub(super) fn notches_per_arm<T>(
    option: &'static str,
    found: &str,
    arms: usize,
    of: fn(i32) -> T,
) -> Result<Vec<T>, OptionProblem> {
    let notches = found
        .split(',')
        .map(|part| whole_number(option, part).map(of))
        .collect::<Result<Vec<_>, _>>()?;
    if notches.len() != arms {
        return Err(OptionProblem::PerArm(option, arms, notches.len()));
    }
    Ok(notches)
}

/// One length.
pub(super) fn length(
    option: &'static str,
    found: &str,
    unit: Unit,
) -> Result<TypedLength, OptionProblem> {
    TypedLength::parse(found, unit, Sign::None)
        .map_err(|problem| OptionProblem::Length(option, 1, problem, unit))
}

/// Lengths parted by commas.
pub(super) fn lengths(
    option: &'static str,
    found: &str,
    unit: Unit,
) -> Result<Vec<TypedLength>, OptionProblem> {
    found
        .split(',')
        .zip(1..)
        .map(|(part, number)| {
            TypedLength::parse(part, unit, Sign::None)
                .map_err(|problem| OptionProblem::Length(option, number, problem, unit))
        })
        .collect()
}

/// Limits such as `-12..6`, one for all arms or one per arm, parted by commas.
pub(super) fn limits_per_arm(found: &str, arms: usize) -> Result<Vec<NutLimits>, OptionProblem> {
    const OPTION: &str = "--nut-limits";
    let limits = found
        .split(',')
        .map(|part| {
            let wrong = || OptionProblem::Limits(part.trim().to_owned());
            let (most_in, most_out) = part.split_once("..").ok_or_else(wrong)?;
            Ok(NutLimits {
                most_in: NutPosition(whole_number(OPTION, most_in).map_err(|_| wrong())?),
                most_out: NutPosition(whole_number(OPTION, most_out).map_err(|_| wrong())?),
            })
        })
        .collect::<Result<Vec<_>, OptionProblem>>()?;
    for_all(OPTION, limits, arms)
}

/// One value for all arms or one per arm, as one per arm.
pub(super) fn for_all<T: Clone>(
    option: &'static str,
    values: Vec<T>,
    arms: usize,
) -> Result<Vec<T>, OptionProblem> {
    match values.as_slice() {
        [one] => Ok(vec![one.clone(); arms]),
        many if many.len() == arms => Ok(values),
        many => Err(OptionProblem::PerArm(option, arms, many.len())),
    }
}
