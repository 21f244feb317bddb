//! How lengths in inches may not be written on screen and paper.

/// Whether inches are written so that they read as the way a nut is turned:
/// `1 in` for 1″. `9 in 10` is neither.
pub fn read_as_in(text: &str) -> bool {
    text.match_indices(" in").any(|(at, found)| {
        let (before, after) = (&text[..at], &text[at + found.len()..]);
        let number = before.ends_with(|c: char| c.is_ascii_digit());
        let word = after.starts_with(|c: char| c.is_alphanumeric());
        let of_many =
            after.starts_with(' ') && after.trim_start().starts_with(|c: char| c.is_ascii_digit());
        number && !word && !of_many
    })
}
