//! Striking readings that do not fit, and putting them back.

use super::Language;

impl Language {
    /// A struck reading, with who and why.
    pub fn struck_because(self, place: &str, reading: &str, who: &str, why: &str) -> String {
        if who.trim().is_empty() {
            self.struck_by_nobody(place, reading, why)
        } else {
            self.struck_by(place, reading, who, why)
        }
    }
}

texts! {
    command_strike { en: "Cross out the reading, or put it back", es: "Tachar la lectura, o recuperarla" }
    strike_title { en: "Cross out a reading", es: "Tachar una lectura" }
    strike_text(place, reading) {
        en: "{place}: {reading}. It stays in the file, crossed out, and the average leaves it out. Cross it out only if you know what went wrong; otherwise measure again.",
        es: "{place}: {reading}. Queda en el archivo, tachada, y el promedio no la cuenta. Táchela solo si sabe qué salió mal; si no, mida otra vez."
    }
    strike_nothing(place) {
        en: "{place} has no reading to cross out.",
        es: "{place} no tiene lectura que tachar."
    }
    strike_why { en: "Why", es: "Por qué" }
    strike_why_hint { en: "such as: gauge not square", es: "por ejemplo: instrumento inclinado" }
    strike_it { en: "Cross it out", es: "Tacharla" }
    strike_place(place) { en: "Cross out: {place}…", es: "Tachar: {place}…" }
    strike_no_cell {
        en: "Click a reading first, then cross it out.",
        es: "Primero haga clic en una lectura y luego táchela."
    }
    struck_by(place, reading, who, why) {
        en: "{place}: {reading}, crossed out by {who}: {why}",
        es: "{place}: {reading}, tachada por {who}: {why}"
    }
    struck_by_nobody(place, reading, why) {
        en: "{place}: {reading}, crossed out: {why}",
        es: "{place}: {reading}, tachada: {why}"
    }
    struck_put_back(place) { en: "Put back: {place}", es: "Recuperar: {place}" }
    marks_more(count) { en: "And {count} more marked in the grid.", es: "Y {count} más marcadas en la tabla." }
}
