//! Names for files, from what is in them.

use crate::session::Session;

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
