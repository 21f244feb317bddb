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
    command_strike { en: "Strike the reading, or put it back", es: "Tachar la lectura, o devolverla" }
    strike_title { en: "Strike a reading", es: "Tachar una lectura" }
    strike_text(place, reading) {
        en: "{place}: {reading}. It stays in the file, struck, and the mean leaves it out. Strike it only if you know what went wrong; else measure again.",
        es: "{place}: {reading}. Queda en el archivo, tachada, y la media no la cuenta. Táchela solo si sabe qué salió mal; si no, mida otra vez."
    }
    strike_nothing(place) {
        en: "{place} holds no reading that could be struck.",
        es: "{place} no tiene una lectura que se pueda tachar."
    }
    strike_why { en: "Why", es: "Por qué" }
    strike_why_hint { en: "such as: gauge not square", es: "por ejemplo: instrumento inclinado" }
    strike_it { en: "Strike it", es: "Tacharla" }
    strike_place(place) { en: "Strike: {place}…", es: "Tachar: {place}…" }
    strike_no_cell {
        en: "Put the keyboard on a reading first, then strike it.",
        es: "Ponga primero el teclado en una lectura y luego táchela."
    }
    struck_by(place, reading, who, why) {
        en: "{place}: {reading}, struck by {who}: {why}",
        es: "{place}: {reading}, tachada por {who}: {why}"
    }
    struck_by_nobody(place, reading, why) {
        en: "{place}: {reading}, struck: {why}",
        es: "{place}: {reading}, tachada: {why}"
    }
    struck_put_back(place) { en: "Put back: {place}", es: "Devolver: {place}" }
    marks_more(count) { en: "And {count} more marked in the grid.", es: "Y {count} más marcadas en la tabla." }
}
