//! Comments that a person typed into a file: saving writes the file anew and
//! cannot keep them, so whoever saves is told before.

/// Whether a text in RON holds a comment, `//` or `/*`, outside its texts. (Rusty
/// Object Notation, its grammar's "Whitespace and comments" and "String".)
pub(super) fn has_comments(text: &str) -> bool {
    let mut rest = text;
    while let Some(at) = rest.find(['"', '\'', '/']) {
        let (before, found) = rest.split_at(at);
        let after = found.get(1..).unwrap_or_default();
        rest = match found.as_bytes() {
            [b'/', b'/' | b'*', ..] => return true,
            [b'"', ..] => after_text(before, after),
            // A letter by itself: a quotation mark in one begins no text.
            [b'\'', b'"', b'\'', ..] => after.get(2..).unwrap_or_default(),
            _ => after,
        };
    }
    false
}

/// What follows a text whose quotation mark was just passed.
fn after_text<'a>(before: &str, text: &'a str) -> &'a str {
    let bare = before.trim_end_matches('#');
    if bare.ends_with('r') {
        // A raw one, r#"..."#: it ends with as many signs as it began with.
        let end = format!("\"{}", "#".repeat(before.len() - bare.len()));
        return text.split_once(&end).map_or("", |(_, rest)| rest);
    }
    let mut escaped = false;
    for (at, letter) in text.char_indices() {
        match letter {
            _ if escaped => escaped = false,
            '\\' => escaped = true,
            '"' => return text.get(at + 1..).unwrap_or_default(),
            _ => {}
        }
    }
    ""
}

#[cfg(test)]
mod tests {
    use super::has_comments;

    #[test]
    fn comments_are_told_from_texts() {
        for (text, expected) in [
            ("(format: 1, name: \"a // b /* c\")", false),
            ("(format: 1, // typed by hand\n)", true),
            ("(format: 1, /* typed by hand */)", true),
            ("// first\n(format: 1)", true),
            (r#"(name: "a \" // b", size: "1/4 in")"#, false),
            (r#"(name: "a \\", /**/ b: 1)"#, true),
            (r##"(name: r#"a " // b"#)"##, false),
            (r##"(name: r#"a " b"# // c"##, true),
            ("(mark: '\"', b: 1 // c\n)", true),
            ("(mark: '\"', b: \"// c\")", false),
            ("(a: 1 / 2)", false),
            ("(name: \"never closed // b", false),
        ] {
            assert_eq!(has_comments(text), expected, "{text}");
        }
    }
}
