//! What somebody sees who started the program from the desktop where no window
//! can be opened: without a terminal nobody reads what a terminal would show.

use std::io::IsTerminal;

use crate::words::Language;

use super::StartError;

/// Says in a message of the desktop why no window was opened, where there is a
/// desktop and nobody at a terminal. Waits until it has been read; where the
/// desktop offers no messages nothing happens, and the text commands go on.
pub fn tell_desktop(language: Language, error: &StartError) {
    let read_elsewhere = std::io::stderr().is_terminal() || std::io::stdout().is_terminal();
    if read_elsewhere || matches!(error, StartError::NoDisplay(_)) {
        return;
    }
    rfd::MessageDialog::new()
        .set_level(rfd::MessageLevel::Error)
        .set_title("Jawtrue")
        .set_description(language.cli_no_window(error.to_string()))
        .show();
}
