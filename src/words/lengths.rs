//! Sentences about typed lengths.

use crate::units::{LengthProblem, Unit};

use super::Language;

impl Language {
    /// The unit in words.
    /// A unit in the plural.
    pub fn unit_plural(self, unit: Unit) -> &'static str {
        match unit {
            Unit::Inch => self.inches(),
            Unit::Millimetre => self.millimetres(),
        }
    }

    /// A unit by its name.
    pub fn unit_name(self, unit: Unit) -> &'static str {
        match unit {
            Unit::Inch => self.inch(),
            Unit::Millimetre => self.millimetre(),
        }
    }

    /// What is wrong with a length typed at `place` (a cell, a field or an
    /// option): what was expected, what was found.
    pub fn length_problem(self, place: &str, problem: &LengthProblem, bare: Unit) -> String {
        let example = match bare {
            Unit::Inch => "0.2475",
            Unit::Millimetre => "6.29",
        };
        match problem {
            LengthProblem::Empty => self.length_empty(place, example),
            LengthProblem::NotANumber(found) => {
                self.length_not_a_number(place, example, shortened(found))
            }
            LengthProblem::UnknownUnit(unit) => self.length_unknown_unit(place, shortened(unit)),
            LengthProblem::SignNotAllowed => self.length_signed(place, example),
            LengthProblem::FinerThanNanometre => self.length_too_fine(place),
            LengthProblem::ZeroDenominator => self.length_zero_denominator(place),
            LengthProblem::TooLarge => self.length_too_large(place),
        }
    }
}

/// A found text short enough for a sentence.
pub(super) fn shortened(text: &str) -> String {
    const MOST_CHARS: usize = 40;
    if text.chars().count() <= MOST_CHARS {
        return text.to_owned();
    }
    text.chars().take(MOST_CHARS).chain(['…']).collect()
}

texts! {
    inches { en: "inches", es: "pulgadas" }
    millimetres { en: "millimeters", es: "milímetros" }
    inch { en: "inch", es: "pulgadas" }
    millimetre { en: "millimetre", es: "milímetros" }
    length_empty(place, example) {
        en: "{place}: expected a length such as {example}, found nothing.",
        es: "{place}: se esperaba una medida como {example} y no hay nada."
    }
    length_not_a_number(place, example, found) {
        en: "{place}: expected a length such as {example}, found “{found}”.",
        es: "{place}: se esperaba una medida como {example} y se encontró «{found}»."
    }
    length_unknown_unit(place, found) {
        en: "{place}: expected in, thou or mm after the number, found “{found}”.",
        es: "{place}: se esperaba in, thou o mm después del número y se encontró «{found}»."
    }
    length_signed(place, example) {
        en: "{place}: expected a length without a sign, such as {example}.",
        es: "{place}: se esperaba una medida sin signo, como {example}."
    }
    length_too_fine(place) {
        en: "{place}: expected a whole number of nanometres (0.000001 mm), found something finer. Type fewer digits.",
        es: "{place}: se esperaba un número entero de nanómetros (0.000001 mm) y es más fino. Escriba menos cifras."
    }
    length_zero_denominator(place) {
        en: "{place}: expected a number other than 0 below the fraction line.",
        es: "{place}: se esperaba un número distinto de 0 bajo la raya de la fracción."
    }
    length_too_large(place) {
        en: "{place}: this number is too large to be a length here.",
        es: "{place}: este número es demasiado grande para ser una medida."
    }
}
