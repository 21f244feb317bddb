//! Reads the command line: which command, with which options.

use std::ffi::{OsStr, OsString};
use std::path::PathBuf;

use lexopt::Arg;

use crate::report::Paper;
use crate::session::Confidence;
use crate::store::Renderer;
use crate::units::Unit;
use crate::words::Language;

use super::options::{
    ExportOptions, ImportOptions, JudgeOptions, LearnOptions, NewOptions, OptionProblem,
    PaperOptions, PlanOptions, RecordOptions, ShopOptions, Topic, text, whole_number,
};
use super::practice_options::{PracticeOptions, read_practice};

/// What the window is asked to show.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WindowRequest {
    /// The session file; none for the built-in sample.
    pub file: Option<PathBuf>,
    /// Language of the command line.
    pub language: Language,
    /// How it is to be drawn; none for whatever works.
    pub renderer: Option<Renderer>,
}

/// One command with its options.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Command {
    Window(Option<PathBuf>, Option<Renderer>),
    Doctor,
    New(Box<NewOptions>),
    Record(RecordOptions),
    Import(ImportOptions),
    Judge(JudgeOptions),
    Plan(PlanOptions),
    Learn(LearnOptions),
    Practice(Box<PracticeOptions>),
    Export(ExportOptions),
    Shop(ShopOptions),
    Card(PaperOptions),
    Report(PaperOptions),
    Help(Topic),
    Version,
}

/// The language given with `--language`, wherever it stands: problems with
/// what stands before it are said in it too.
pub(super) fn language_asked_for(arguments: &[OsString]) -> Option<Language> {
    let mut arguments = arguments.iter().map(|argument| argument.to_string_lossy());
    while let Some(argument) = arguments.next() {
        let code = match argument.strip_prefix("--language") {
            Some("") => arguments.next()?.into_owned(),
            Some(rest) => rest.strip_prefix('=').unwrap_or_default().to_owned(),
            None => continue,
        };
        return language(&code);
    }
    None
}

fn language(code: &str) -> Option<Language> {
    Language::ALL
        .into_iter()
        .find(|language| language.code() == code)
}

/// Reads the command line, without the program's own name.
pub(super) fn read(arguments: Vec<OsString>) -> Result<Command, OptionProblem> {
    let mut parser = lexopt::Parser::from_args(arguments);
    let (mut file, mut renderer) = (None, None);
    while let Some(argument) = parser.next()? {
        match argument {
            Arg::Long("help") | Arg::Short('h') => return Ok(Command::Help(Topic::Program)),
            Arg::Long("renderer") => {
                let name = text(&mut parser, "--renderer")?;
                let found = Renderer::named(&name).ok_or(OptionProblem::Renderer(name))?;
                renderer = Some(found);
            }
            Arg::Long("version") | Arg::Short('V') => return Ok(Command::Version),
            Arg::Long("language") => skip_language(&mut parser)?,
            Arg::Value(value) if file.is_none() => match value.to_str() {
                Some("new") => return read_new(&mut parser),
                Some("record") => return read_record(&mut parser),
                Some("import") => return read_import(&mut parser),
                Some("judge") => return read_judge(&mut parser),
                Some("plan") => return read_plan(&mut parser),
                Some("learn") => return read_learn(&mut parser),
                Some("practice") => return read_practice(&mut parser),
                Some("shop") => return read_shop(&mut parser),
                Some("export") => return read_export(&mut parser),
                Some("card") => return read_paper(&mut parser, Topic::Card, Command::Card),
                Some("report") => return read_paper(&mut parser, Topic::Report, Command::Report),
                Some("doctor") => return read_doctor(&mut parser),
                _ => file = Some(PathBuf::from(value)),
            },
            other => return Err(other.unexpected().into()),
        }
    }
    Ok(Command::Window(file, renderer))
}

/// The value was read by [`language_asked_for`]; here it is only checked.
pub(super) fn skip_language(parser: &mut lexopt::Parser) -> Result<(), OptionProblem> {
    let code = text(parser, "--language")?;
    match language(&code) {
        Some(_) => Ok(()),
        None => Err(OptionProblem::Language(code)),
    }
}

fn read_doctor(parser: &mut lexopt::Parser) -> Result<Command, OptionProblem> {
    while let Some(argument) = parser.next()? {
        match argument {
            Arg::Long("help") | Arg::Short('h') => return Ok(Command::Help(Topic::Doctor)),
            Arg::Long("language") => skip_language(parser)?,
            other => return Err(other.unexpected().into()),
        }
    }
    Ok(Command::Doctor)
}

fn read_new(parser: &mut lexopt::Parser) -> Result<Command, OptionProblem> {
    let mut options = NewOptions::default();
    while let Some(argument) = parser.next()? {
        let (option, place) = match argument {
            Arg::Long("help") | Arg::Short('h') => return Ok(Command::Help(Topic::New)),
            Arg::Long("language") => {
                skip_language(parser)?;
                continue;
            }
            Arg::Long("invented") => {
                options.invented = true;
                continue;
            }
            Arg::Long("arms") => ("--arms", &mut options.arms),
            Arg::Long("length") => ("--length", &mut options.length),
            Arg::Long("unit") => ("--unit", &mut options.unit),
            Arg::Long("stations") => ("--stations", &mut options.stations),
            Arg::Long("notch") => ("--notch", &mut options.notch),
            Arg::Long("tolerance") => ("--tolerance", &mut options.tolerance),
            Arg::Long("gauge-step") => ("--gauge-step", &mut options.gauge_step),
            Arg::Long("nuts") => ("--nuts", &mut options.nuts),
            Arg::Long("nut-limits") => ("--nut-limits", &mut options.nut_limits),
            Arg::Long("target") => ("--target", &mut options.target),
            Arg::Long("response") => ("--response", &mut options.response),
            Arg::Long("press") => ("--press", &mut options.press),
            Arg::Long("name") => ("--name", &mut options.name),
            Arg::Long("gauge") => ("--gauge", &mut options.gauge),
            Arg::Long("who") => ("--who", &mut options.who),
            Arg::Long("when") => ("--when", &mut options.when),
            Arg::Long("belt") => ("--belt", &mut options.belt),
            Arg::Long("hooks") => ("--hooks", &mut options.hooks),
            Arg::Long("notes") => ("--notes", &mut options.notes),
            Arg::Value(value) => {
                set_file(&mut options.file, value)?;
                continue;
            }
            other => return Err(other.unexpected().into()),
        };
        *place = Some(text(parser, option)?);
    }
    Ok(Command::New(Box::new(options)))
}

fn read_record(parser: &mut lexopt::Parser) -> Result<Command, OptionProblem> {
    let mut options = RecordOptions::default();
    while let Some(argument) = parser.next()? {
        let (option, place) = match argument {
            Arg::Long("help") | Arg::Short('h') => return Ok(Command::Help(Topic::Record)),
            Arg::Long("language") => {
                skip_language(parser)?;
                continue;
            }
            Arg::Long("readings") => ("--readings", &mut options.readings),
            Arg::Long("turned") => ("--turned", &mut options.turned),
            Arg::Long("laced") => ("--laced", &mut options.laced),
            Arg::Long("note") => ("--note", &mut options.note),
            Arg::Value(value) => {
                set_file(&mut options.file, value)?;
                continue;
            }
            other => return Err(other.unexpected().into()),
        };
        *place = Some(text(parser, option)?);
    }
    Ok(Command::Record(options))
}

fn read_import(parser: &mut lexopt::Parser) -> Result<Command, OptionProblem> {
    let mut options = ImportOptions::default();
    while let Some(argument) = parser.next()? {
        let (option, place) = match argument {
            Arg::Long("help") | Arg::Short('h') => return Ok(Command::Help(Topic::Import)),
            Arg::Long("language") => {
                skip_language(parser)?;
                continue;
            }
            Arg::Long("csv") => ("--csv", &mut options.csv),
            Arg::Long("turned") => ("--turned", &mut options.turned),
            Arg::Long("laced") => ("--laced", &mut options.laced),
            Arg::Long("note") => ("--note", &mut options.note),
            Arg::Value(value) => {
                set_file(&mut options.file, value)?;
                continue;
            }
            other => return Err(other.unexpected().into()),
        };
        *place = Some(text(parser, option)?);
    }
    Ok(Command::Import(options))
}

pub(super) fn set_file(place: &mut Option<PathBuf>, value: OsString) -> Result<(), OptionProblem> {
    if place.is_some() {
        return Err(OptionProblem::OneFileOnly(shown(&value)));
    }
    *place = Some(PathBuf::from(value));
    Ok(())
}

fn shown(value: &OsStr) -> String {
    value.to_string_lossy().into_owned()
}

fn read_learn(parser: &mut lexopt::Parser) -> Result<Command, OptionProblem> {
    let mut options = LearnOptions::default();
    while let Some(argument) = parser.next()? {
        match argument {
            Arg::Long("help") | Arg::Short('h') => return Ok(Command::Help(Topic::Learn)),
            Arg::Long("language") => skip_language(parser)?,
            Arg::Long("press") => options.press = Some(text(parser, "--press")?),
            Arg::Value(value) => set_file(&mut options.file, value)?,
            other => return Err(other.unexpected().into()),
        }
    }
    Ok(Command::Learn(options))
}

fn read_shop(parser: &mut lexopt::Parser) -> Result<Command, OptionProblem> {
    let mut options = ShopOptions::default();
    while let Some(argument) = parser.next()? {
        match argument {
            Arg::Long("help") | Arg::Short('h') => return Ok(Command::Help(Topic::Shop)),
            Arg::Long("language") => skip_language(parser)?,
            Arg::Long("json") => options.json = true,
            Arg::Value(value) => set_file(&mut options.folder, value)?,
            other => return Err(other.unexpected().into()),
        }
    }
    Ok(Command::Shop(options))
}

fn read_export(parser: &mut lexopt::Parser) -> Result<Command, OptionProblem> {
    let mut options = ExportOptions::default();
    while let Some(argument) = parser.next()? {
        match argument {
            Arg::Long("help") | Arg::Short('h') => return Ok(Command::Help(Topic::Export)),
            Arg::Long("language") => skip_language(parser)?,
            Arg::Short('o') | Arg::Long("output") => {
                options.out = Some(PathBuf::from(parser.value()?));
            }
            Arg::Value(value) => set_file(&mut options.folder, value)?,
            other => return Err(other.unexpected().into()),
        }
    }
    Ok(Command::Export(options))
}

fn read_paper(
    parser: &mut lexopt::Parser,
    topic: Topic,
    command: fn(PaperOptions) -> Command,
) -> Result<Command, OptionProblem> {
    let mut options = PaperOptions::default();
    while let Some(argument) = parser.next()? {
        match argument {
            Arg::Long("help") | Arg::Short('h') => return Ok(Command::Help(topic)),
            Arg::Long("language") => skip_language(parser)?,
            Arg::Short('o') | Arg::Long("output") => {
                options.out = Some(PathBuf::from(parser.value()?));
            }
            Arg::Long("unit") => {
                let found = text(parser, "--unit")?;
                let unit = Unit::from_mark(found.trim());
                options.unit = Some(unit.ok_or(OptionProblem::Unit(found))?);
            }
            Arg::Long("paper") => {
                let found = text(parser, "--paper")?;
                let paper = Paper::named(&found);
                options.paper = Some(paper.ok_or(OptionProblem::Paper(found))?);
            }
            Arg::Value(value) => set_file(&mut options.file, value)?,
            other => return Err(other.unexpected().into()),
        }
    }
    Ok(command(options))
}

fn read_judge(parser: &mut lexopt::Parser) -> Result<Command, OptionProblem> {
    let mut options = JudgeOptions::default();
    while let Some(argument) = parser.next()? {
        match argument {
            Arg::Long("help") | Arg::Short('h') => return Ok(Command::Help(Topic::Judge)),
            Arg::Long("language") => skip_language(parser)?,
            Arg::Long("json") => options.of.json = true,
            Arg::Long("confidence") => {
                options.confidence = Some(confidence(parser)?);
            }
            Arg::Value(value) => options.of.files.push(PathBuf::from(value)),
            other => return Err(other.unexpected().into()),
        }
    }
    if options.of.files.is_empty() {
        return Err(OptionProblem::NoFile);
    }
    Ok(Command::Judge(options))
}

fn read_plan(parser: &mut lexopt::Parser) -> Result<Command, OptionProblem> {
    let mut options = PlanOptions::default();
    while let Some(argument) = parser.next()? {
        match argument {
            Arg::Long("help") | Arg::Short('h') => return Ok(Command::Help(Topic::Plan)),
            Arg::Long("language") => skip_language(parser)?,
            Arg::Long("json") => options.of.json = true,
            Arg::Long("confidence") => {
                options.confidence = Some(confidence(parser)?);
            }
            Arg::Long("outward-only") => options.wishes.outward_only = true,
            Arg::Long("most-nuts") => {
                let found = text(parser, "--most-nuts")?;
                let most = whole_number("--most-nuts", &found)?;
                let most = usize::try_from(most)
                    .map_err(|_| OptionProblem::Negative("--most-nuts", found))?;
                options.wishes.most_nuts = Some(most);
            }
            Arg::Value(value) => options.of.files.push(PathBuf::from(value)),
            other => return Err(other.unexpected().into()),
        }
    }
    if options.of.files.is_empty() {
        return Err(OptionProblem::NoFile);
    }
    Ok(Command::Plan(options))
}

/// The value of `--confidence`.
fn confidence(parser: &mut lexopt::Parser) -> Result<Confidence, OptionProblem> {
    let found = text(parser, "--confidence")?;
    let share = found.trim().parse::<f64>().ok();
    let confidence = share.and_then(Confidence::from_share);
    confidence.ok_or(OptionProblem::Confidence(found))
}
