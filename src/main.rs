//! Starts the window or a text command; nothing else.

use std::process::ExitCode;

use jawtrue::cli::{self, Console, Outcome};
use jawtrue::window;
use jawtrue::words::Language;

fn main() -> ExitCode {
    let language = Language::of_system(|name| std::env::var(name).ok());
    // Not locked: other threads of the window may write too.
    let (mut out, mut err) = (std::io::stdout(), std::io::stderr());
    let mut console = Console::new(language, &mut out, &mut err);
    let status = match cli::run(std::env::args_os().skip(1), &mut console) {
        Outcome::Done(status) => status,
        Outcome::Window(request) => match window::run(request.file.clone()) {
            Ok(()) => 0,
            Err(error) => cli::without_window(&request, &error.to_string(), &mut console),
        },
    };
    ExitCode::from(status)
}
