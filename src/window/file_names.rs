//! Names for files, from what is in them.

use crate::session::Session;
use crate::words::Language;

use super::state::dialog::PathFor;

/// A file name for a document about a session.
pub fn printed_name(session: &Session, title: &str) -> String {
    named(
        &[title, &session.press.name, &session.notes.when],
        "page",
        "pdf",
    )
}

pub fn named(words: &[&str], otherwise: &str, ending: &str) -> String {
    let name: String = words
        .join(" ")
        .chars()
        .map(|c| {
            if c.is_alphanumeric() || c == '-' {
                c
            } else {
                ' '
            }
        })
        .collect();
    let name = name.split_whitespace().collect::<Vec<_>>().join("-");
    let name = if name.is_empty() { otherwise } else { &name };
    format!("{name}.{ending}")
}

/// What a path is asked for, as a title.
pub(super) fn path_title(words: Language, what: PathFor) -> &'static str {
    match what {
        PathFor::Open => words.command_open(),
        PathFor::SaveAs => words.command_save_as(),
        PathFor::OpenPress => words.next_visit(),
        PathFor::Readings => words.command_import(),
        PathFor::Teach => words.keep_with_press(),
        PathFor::Shop => words.shop_choose(),
    }
}
