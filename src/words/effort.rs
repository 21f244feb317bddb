//! What the work is reckoned at, and how long until a piece passes.

use super::{Figures, Language};
use crate::plan::{Chore, PlanOption};

/// Pieces up to which it is said between which two a mean lies.
const FEW: f64 = 4.0;

impl Figures {
    /// What is to be expected of an option until a piece passes: pieces and
    /// minutes.
    pub fn until_a_piece_passes(&self, option: &PlanOption) -> String {
        let words = self.language;
        if option.nuts == 0 {
            // Turns come after that piece; counting them here would read as if
            // leaving the nuts alone did it.
            return words.laced_again_unchanged().to_owned();
        }
        let minutes = self.decimal(option.minutes, 0);
        // Nobody laces half a piece.
        let nearest = option.pieces.round();
        let between = option.pieces < FEW && (option.pieces - nearest).abs() > 0.15;
        let [least, nearest, most] = [option.pieces.floor(), nearest, option.pieces.ceil()]
            .map(|pieces| self.decimal(pieces, 0));
        match nearest.as_str() {
            _ if between => words.more_pieces_between(least, most, minutes),
            "1" => words.one_more_piece(minutes),
            _ => words.more_pieces(nearest, minutes),
        }
    }
}

impl Language {
    /// A text that is no time for a chore.
    pub(super) fn no_minutes(self, chore: Chore, found: &str) -> String {
        let bounds = chore.bounds();
        self.expected_minutes(self.field_effort(chore), bounds.least, bounds.most, found)
    }
}

names! {
    /// The name of the field of a chore.
    pub(super) field_effort(Chore) {
        Piece { en: "One test piece, min", es: "Una pieza de prueba, min" }
        Nut { en: "Turning one nut, min", es: "Girar una tuerca, min" }
        Inward { en: "Extra per nut turned IN, min", es: "Extra por tuerca al CERRAR, min" }
        Measuring { en: "Measuring again, min", es: "Medir otra vez, min" }
    }
}

texts! {
    laced_again_unchanged { en: "lace one more, nothing turned", es: "engrapar otra, sin girar nada" }
    one_more_piece(minutes) { en: "≈ 1 piece, {minutes} min", es: "≈ 1 pieza, {minutes} min" }
    more_pieces(pieces, minutes) { en: "≈ {pieces} pieces, {minutes} min", es: "≈ {pieces} piezas, {minutes} min" }
    more_pieces_between(least, most, minutes) { en: "{least} or {most} pieces, {minutes} min", es: "{least} o {most} piezas, {minutes} min" }
    column_until { en: "until one passes", es: "hasta que una pase" }
    minutes_hint {
        en: "Plans are ranked by the minutes until a piece passes. The usual ones are common practice, no source.",
        es: "Los planes se ordenan por los minutos hasta que pase una pieza. Los usuales son práctica común, sin referencia."
    }
    ranked_first(turns, until) { en: "Now ranked first: {turns}, {until}.", es: "Ahora va primero: {turns}, {until}." }
    minutes_usual { en: "Back to the usual minutes", es: "Volver a los minutos usuales" }
    expected_minutes(field, least, most, found) {
        en: "{field}: enter {least} to {most}; “{found}” is not that.",
        es: "{field}: escriba de {least} a {most}; «{found}» no sirve."
    }
}
