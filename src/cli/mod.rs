//! Text commands: the way scripts, tests and machines without a display reach
//! the program. Knows every room but the window.

mod console;
mod doctor;
mod export;
mod figures;
mod file_address;
mod import;
mod judge;
mod learn;
mod many;
mod new;
mod new_pass;
mod options;
mod paper;
mod plan;
mod practice;
mod practice_report;
mod record;
mod request;
mod sentences;
mod shop;
mod table;
mod upkeep;

use std::ffi::OsString;

pub use console::Console;
pub use doctor::doctor;
pub use options::OptionProblem;
pub use request::WindowRequest;

use request::Command;

/// What came of the command line.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// A text command ran; the exit status: 0, or 2 when something failed.
    Done(u8),
    /// The window is asked for.
    Window(WindowRequest),
    /// What a helper asks for; what the graphics are, only the window's room
    /// knows.
    Doctor,
}

/// What came of a command: whether nothing failed, or a sentence on why it was
/// not done.
type Done = Result<bool, String>;

/// Exit status of a command of which something failed.
const FAILED: u8 = 2;

/// Runs a text command, or says that the window is asked for. The arguments
/// come without the program's own name.
pub fn run(arguments: impl IntoIterator<Item = OsString>, console: &mut Console<'_>) -> Outcome {
    let arguments: Vec<OsString> = arguments.into_iter().collect();
    if let Some(language) = request::language_asked_for(&arguments) {
        console.language = language;
    }
    let command = match request::read(arguments) {
        Ok(command) => command,
        Err(problem) => {
            console.complain(&sentences::option_problem(console.language, &problem));
            console.complain(console.language.cli_see_help());
            return Outcome::Done(FAILED);
        }
    };
    let done = match command {
        Command::Doctor => return Outcome::Doctor,
        Command::Window(file, renderer) => {
            return Outcome::Window(WindowRequest {
                file,
                renderer,
                language: console.language,
            });
        }
        Command::Help(help) => {
            console.say(help(console.language));
            true
        }
        Command::Version => {
            console.say(&doctor::version());
            true
        }
        Command::Run(run) => run(console).unwrap_or_else(|sentence| {
            console.complain(&sentence);
            false
        }),
    };
    Outcome::Done(if done && console.is_whole() {
        0
    } else {
        FAILED
    })
}

/// What the window would show first, as text, for a machine without a
/// display: says so, and prints judge and plan of the file or of the built-in
/// sample. Answers the exit status.
pub fn without_window(
    request: &WindowRequest,
    technical_cause: &str,
    console: &mut Console<'_>,
) -> u8 {
    console.language = request.language;
    console.complain(&console.language.cli_no_window(technical_cause));
    let done = match &request.file {
        Some(file) => plan::run_on_file(file, console),
        None => plan::run_on_sample(console),
    };
    if done && console.is_whole() {
        0
    } else {
        FAILED
    }
}
