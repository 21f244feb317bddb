//! Reads the command line: which command, with which options.

use std::ffi::OsString;
use std::path::PathBuf;

use lexopt::Arg;

use crate::store::Renderer;
use crate::words::Language;

use super::file_address::path_of;
use super::options::{OptionProblem, Options, language, read_options, skip_language, text};
use super::{
    Console, Done, export, import, judge, learn, new, paper, plan, practice, record, shop, upkeep,
};

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

/// What the command line asks for.
pub(super) enum Command {
    Window(Option<PathBuf>, Option<Renderer>),
    /// What a helper asks for.
    Doctor,
    /// A text command with its options.
    Run(Box<dyn FnOnce(&mut Console<'_>) -> Done>),
    Help(fn(Language) -> &'static str),
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

/// Reads the command line, without the program's own name.
pub(super) fn read(arguments: Vec<OsString>) -> Result<Command, OptionProblem> {
    let mut parser = lexopt::Parser::from_args(arguments);
    let (mut file, mut renderer) = (None, None);
    while let Some(argument) = parser.next()? {
        match argument {
            Arg::Long("help") | Arg::Short('h') => {
                return Ok(Command::Help(Language::help_program));
            }
            Arg::Long("version") | Arg::Short('V') => return Ok(Command::Version),
            Arg::Long("language") => skip_language(&mut parser)?,
            Arg::Long("renderer") => {
                let name = text(&mut parser, "--renderer")?;
                let found = Renderer::named(&name).ok_or(OptionProblem::Renderer(name))?;
                renderer = Some(found);
            }
            Arg::Value(value) if file.is_none() => {
                let parser = &mut parser;
                return match value.to_str() {
                    Some("new") => command(parser, Language::help_new, new::run),
                    Some("record") => command(parser, Language::help_record, record::run),
                    Some("import") => command(parser, Language::help_import, import::run),
                    Some("judge") => command(parser, Language::help_judge, judge::run),
                    Some("plan") => command(parser, Language::help_plan_command, plan::run),
                    Some("learn") => command(parser, Language::help_learn, learn::run),
                    Some("practice") => command(parser, Language::help_practice, practice::run),
                    Some("shop") => command(parser, Language::help_shop, shop::run),
                    Some("upkeep") => command(parser, Language::help_upkeep, upkeep::run),
                    Some("export") => command(parser, Language::help_export, export::run),
                    Some("card") => command(parser, Language::help_card, paper::card),
                    Some("report") => command(parser, Language::help_report, paper::report),
                    Some("doctor") => doctor(parser),
                    _ => {
                        file = Some(path_of(value));
                        continue;
                    }
                };
            }
            other => return Err(other.unexpected().into()),
        }
    }
    Ok(Command::Window(file, renderer))
}

/// `doctor`, which has no options of its own.
fn doctor(parser: &mut lexopt::Parser) -> Result<Command, OptionProblem> {
    while let Some(argument) = parser.next()? {
        match argument {
            Arg::Long("help") | Arg::Short('h') => {
                return Ok(Command::Help(Language::help_doctor));
            }
            Arg::Long("language") => skip_language(parser)?,
            other => return Err(other.unexpected().into()),
        }
    }
    Ok(Command::Doctor)
}

/// A command with the options that follow it, or its help.
fn command<T: Options + 'static>(
    parser: &mut lexopt::Parser,
    help: fn(Language) -> &'static str,
    run: fn(&T, &mut Console<'_>) -> Done,
) -> Result<Command, OptionProblem> {
    Ok(match read_options::<T>(parser)? {
        Some(options) => Command::Run(Box::new(move |console| run(&options, console))),
        None => Command::Help(help),
    })
}
