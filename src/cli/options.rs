//! The options of the commands, as typed, and how their texts are read.

use std::path::PathBuf;

use crate::press::{Notches, NutLimits};
use crate::report::Paper;
use crate::session::{Confidence, Wishes};
use crate::units::{LengthProblem, Sign, TypedLength, Unit};

/// What help is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Topic {
    /// The program as a whole.
    Program,
    /// `new`.
    New,
    /// `record`.
    Record,
    /// `import`.
    Import,
    /// `judge`.
    Judge,
    /// `plan`.
    Plan,
    /// `learn`.
    Learn,
    /// `practice`.
    Practice,
    /// `card`.
    Card,
    /// `report`.
    Report,
    /// `export`.
    Export,
    /// `shop`.
    Shop,
    /// `doctor`.
    Doctor,
}

/// Options of `new`.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct NewOptions {
    pub file: Option<PathBuf>,
    pub arms: Option<String>,
    pub length: Option<String>,
    pub unit: Option<String>,
    pub stations: Option<String>,
    pub notch: Option<String>,
    pub tolerance: Option<String>,
    pub gauge_step: Option<String>,
    pub nuts: Option<String>,
    pub nut_limits: Option<String>,
    pub target: Option<String>,
    pub name: Option<String>,
    pub gauge: Option<String>,
    pub who: Option<String>,
    pub when: Option<String>,
    pub belt: Option<String>,
    pub hooks: Option<String>,
    pub notes: Option<String>,
    pub invented: bool,
    /// A CSV file with a response that is given outright.
    pub response: Option<String>,
    /// A press file to start from.
    pub press: Option<String>,
}

/// Options of `learn`.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct LearnOptions {
    pub file: Option<PathBuf>,
    pub press: Option<String>,
}

/// Options of `record`.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct RecordOptions {
    pub file: Option<PathBuf>,
    pub readings: Option<String>,
    pub turned: Option<String>,
    pub laced: Option<String>,
    pub note: Option<String>,
}

/// Options of `import`.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct ImportOptions {
    pub file: Option<PathBuf>,
    /// The CSV file of readings.
    pub csv: Option<String>,
    pub turned: Option<String>,
    pub laced: Option<String>,
    pub note: Option<String>,
}

/// Options of commands that read many files.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct FilesOptions {
    pub files: Vec<PathBuf>,
    pub json: bool,
}

/// Options of `judge`.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct JudgeOptions {
    pub of: FilesOptions,
    /// Confidence of verdicts; none for the session's own.
    pub confidence: Option<Confidence>,
}

/// Options of `plan`.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct PlanOptions {
    pub of: FilesOptions,
    pub wishes: Wishes,
    /// Chance from which a plan is called sure; none for the session's own.
    pub confidence: Option<Confidence>,
}

/// Options of `shop`.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct ShopOptions {
    pub folder: Option<PathBuf>,
    pub json: bool,
}

/// Options of `export`.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct ExportOptions {
    pub folder: Option<PathBuf>,
    /// What is written.
    pub out: Option<PathBuf>,
}

/// Options of `card` and `report`.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct PaperOptions {
    pub file: Option<PathBuf>,
    /// What is written.
    pub out: Option<PathBuf>,
    /// The unit of every figure; none for the session's own.
    pub unit: Option<Unit>,
    /// The paper; none for what goes with the unit.
    pub paper: Option<Paper>,
}

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

/// The value of an option as text.
pub(super) fn text(
    parser: &mut lexopt::Parser,
    option: &'static str,
) -> Result<String, OptionProblem> {
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

/// Whole notches, one per arm, parted by commas.
pub(super) fn notches_per_arm(
    option: &'static str,
    found: &str,
    arms: usize,
) -> Result<Vec<Notches>, OptionProblem> {
    let notches = found
        .split(',')
        .map(|part| whole_number(option, part).map(Notches))
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
                most_in: Notches(whole_number(OPTION, most_in).map_err(|_| wrong())?),
                most_out: Notches(whole_number(OPTION, most_out).map_err(|_| wrong())?),
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
