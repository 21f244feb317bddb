//! What the sessions of one press taught, read from their files.

use std::path::PathBuf;

use crate::session::{PriorShelf, Session};
use crate::shop::Taught;

use super::in_order::in_order;
use super::open::open;

/// What the sessions in these files taught, oldest first; none where nothing
/// may be learnt from any. A file that cannot be read is passed over: the
/// folder lists it.
pub fn press_taught(paths: &[PathBuf], shelf: &PriorShelf) -> Option<Taught> {
    let mut sessions: Vec<Session> = Vec::new();
    in_order(
        paths,
        |path| open(path).ok(),
        |_, opened| {
            sessions.extend(opened.map(|opened| opened.session));
            true
        },
    );
    Taught::of(&sessions, shelf).ok().flatten()
}
