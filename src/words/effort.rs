//! What the work is reckoned at, and how long until a piece passes.

use super::{Figures, Language};
use crate::plan::{Chore, PlanOption};

impl Figures {
    /// What is to be expected of an option until a piece passes: pieces and
    /// minutes.
    pub fn until_a_piece_passes(&self, option: &PlanOption) -> String {
        let words = self.language;
        let minutes = self.decimal(option.minutes, 0);
        match self.decimal(option.pieces, 1) {
            one if option.pieces < 1.05 => words.one_more_piece(one, minutes),
            pieces => words.more_pieces(pieces, minutes),
        }
    }
}

impl Language {
    /// The name of the field of a chore.
    pub(super) fn field_effort(self, chore: Chore) -> &'static str {
        match chore {
            Chore::Piece => self.field_minutes_piece(),
            Chore::Nut => self.field_minutes_nut(),
            Chore::Inward => self.field_minutes_inward(),
            Chore::Measuring => self.field_minutes_measuring(),
        }
    }

    /// A text that is no time for a chore.
    pub(super) fn no_minutes(self, chore: Chore, found: &str) -> String {
        let bounds = chore.bounds();
        self.expected_minutes(self.field_effort(chore), bounds.least, bounds.most, found)
    }
}

texts! {
    one_more_piece(pieces, minutes) { en: "about {pieces} more piece, {minutes} min", es: "más o menos {pieces} pieza más, {minutes} min" }
    more_pieces(pieces, minutes) { en: "about {pieces} more pieces, {minutes} min", es: "unas {pieces} piezas más, {minutes} min" }
    column_until { en: "until one passes", es: "hasta que una pase" }
    minutes_hint {
        en: "Plans are ranked by the minutes until a piece passes.",
        es: "Los planes se ordenan por los minutos hasta que pase una pieza."
    }
    field_minutes_piece { en: "One test piece, min", es: "Una pieza de prueba, min" }
    field_minutes_nut { en: "Turning one nut, min", es: "Girar una tuerca, min" }
    field_minutes_inward { en: "Extra for turning it IN, min", es: "De más si es CERRAR, min" }
    field_minutes_measuring { en: "Measuring again, min", es: "Medir otra vez, min" }
    expected_minutes(field, least, most, found) {
        en: "{field}: enter {least} to {most}; “{found}” is not that.",
        es: "{field}: escriba de {least} a {most}; «{found}» no lo es."
    }
}
