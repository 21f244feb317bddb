//! A session as a document, from facts to bytes.

use crate::press::Notches;
use crate::session::{PriorShelf, Session};
use crate::words::Language;

use super::{About, Facts, Fonts, PdfProblem, PngProblem, Setting, pdf, session_report, turn_card};

/// What is put on paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Printed {
    /// The turn card of the last pass.
    TurnCard,
    /// The report of the visit.
    Report,
}

impl Printed {
    /// What the document is called.
    pub fn title(self, words: Language) -> &'static str {
        match self {
            Self::TurnCard => words.card_heading(),
            Self::Report => words.report_heading(),
        }
    }

    /// The document as PDF. A card is of the turns that somebody chose, or of
    /// those that are advised.
    ///
    /// # Errors
    /// See [`PdfProblem`].
    pub fn document(
        self,
        session: &Session,
        chosen: Option<&[Notches]>,
        setting: &Setting,
        shelf: &PriorShelf,
    ) -> Result<Vec<u8>, PdfProblem> {
        let fonts = Fonts::new();
        let facts = Facts::of(session, chosen, shelf);
        let pages = match self {
            Self::TurnCard => turn_card(session, &facts, setting, &fonts),
            Self::Report => session_report(session, &facts, setting, &fonts),
        };
        let words = setting.figures.language;
        let about = About {
            title: format!("{}, {}", self.title(words), session.press.name),
            language: words.code(),
            author: session.notes.who.clone(),
        };
        pdf(&pages, &fonts, &about)
    }
}

impl PdfProblem {
    /// Why there is no document, in a sentence.
    pub fn sentence(&self, words: Language) -> String {
        words.paper_not_made(match self {
            Self::NoSize => words.paper_no_size(),
            Self::Fonts => words.paper_no_fonts(),
            Self::NotWritten(why) => why,
        })
    }
}

impl PngProblem {
    /// Why there is no picture, in a sentence.
    pub fn sentence(&self, words: Language) -> String {
        words.paper_not_made(match self {
            Self::Size => words.paper_no_size(),
            Self::NotWritten(why) => why,
        })
    }
}
