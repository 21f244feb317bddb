//! Finding visits by press, person, day, belt, result and words.

use crate::session::Stands;

use super::VisitSummary;

/// What is looked for; what is empty or none lets every visit through.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Wanted {
    /// Words that all have to stand in the visit or in the name of its file, in
    /// any order; large and small letters are alike.
    pub words: String,
    /// The press.
    pub press: Option<String>,
    /// Who worked on it.
    pub who: Option<String>,
    /// How the day begins: `2026`, `2026-11`.
    pub when: Option<String>,
    /// The belt.
    pub belt: Option<String>,
    /// How the last piece stood.
    pub stands: Option<Stands>,
}

impl Wanted {
    /// Whether anything is looked for.
    pub fn is_anything(&self) -> bool {
        let words = self.words.trim();
        Self {
            words: words.to_owned(),
            ..self.clone()
        } != Self::default()
    }

    /// Whether a visit is what is looked for.
    pub fn fits(&self, visit: &VisitSummary) -> bool {
        let is = |wanted: &Option<String>, found: &str| {
            wanted.as_ref().is_none_or(|wanted| wanted == found)
        };
        // The names of ten thousand files are made small only for words.
        let has_words = || {
            let words = self.words.to_lowercase();
            let mut words = words.split_whitespace().peekable();
            words.peek().is_none() || {
                let file = visit.file.to_lowercase();
                words.all(|word| visit.text.contains(word) || file.contains(word))
            }
        };
        is(&self.press, &visit.press)
            && is(&self.who, &visit.who)
            && is(&self.belt, &visit.belt)
            && self.stands.is_none_or(|stands| stands == visit.stands)
            && self.when.as_ref().is_none_or(|when| {
                let day = visit.day.map(|day| day.to_string());
                day.is_some_and(|day| day.starts_with(when))
            })
            && has_words()
    }
}
