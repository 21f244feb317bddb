//! How values stand in files: as a text, on one line, in a list of sound
//! length. Domain types say with it, field by field, how the current format
//! writes them; which files there are and how they are opened and saved is
//! `store`'s. Knows nothing of the other rooms.

mod expected;
mod layout;

pub(crate) use expected::{Expected, as_text};
pub(crate) use layout::{
    Inline, MOST_LISTED, a_line_each, bounded, is_usual, maybe_on_one_line, on_one_line, options,
    pretty,
};
