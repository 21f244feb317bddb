//! Names in the order in which people count them: Press 2 before Press 10.

/// A part of a name: figures as the number they are, anything else as it
/// stands.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
enum Part {
    /// How many figures without leading zeros, and these.
    Number(usize, String),
    Text(String),
}

/// What names are sorted by.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Counted(Vec<Part>, String);

/// What a name is sorted by: runs of figures as numbers of any length, all
/// else letter by letter; names that count alike by their letters.
pub fn counted(name: &str) -> Counted {
    let mut parts = Vec::new();
    let mut rest = name;
    while let Some(first) = rest.chars().next() {
        let is_figure = first.is_ascii_digit();
        let end = rest.find(|next: char| next.is_ascii_digit() != is_figure);
        let (part, after) = rest.split_at(end.unwrap_or(rest.len()));
        rest = after;
        parts.push(match is_figure {
            true => {
                let figures = part.trim_start_matches('0');
                Part::Number(figures.len(), figures.to_owned())
            }
            false => Part::Text(part.to_owned()),
        });
    }
    Counted(parts, name.to_owned())
}
