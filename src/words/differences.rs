//! What differs between one's own session and what somebody else saved.

use crate::session::Difference;
use crate::units::{Sign, TypedLength};

use super::{Figures, Language};

impl Figures {
    /// One difference: what it is about, and what stands in theirs and in one's
    /// own where that can be told.
    pub fn difference(&self, difference: &Difference) -> (String, Option<[String; 2]>) {
        let words = self.language;
        let shown = |text: &str| match text {
            "" => words.differs_nothing().to_owned(),
            text => words.quoted(text),
        };
        // Both in the unit on show, or nobody sees which is larger; each as it was
        // typed where that tells them no longer apart.
        let read = |texts: [&str; 2]| {
            let shown = |show: &dyn Fn(&TypedLength) -> String| {
                texts.map(
                    |text| match TypedLength::parse(text, self.unit, Sign::None) {
                        _ if text.is_empty() => words.differs_nothing().to_owned(),
                        Ok(typed) => show(&typed),
                        Err(_) => words.quoted(text),
                    },
                )
            };
            match shown(&|typed| self.in_field(typed)) {
                [theirs, own] if theirs == own => shown(&|typed| self.typed(typed)),
                both => both,
            }
        };
        match difference {
            Difference::OtherVisit => (words.differs_visit().to_owned(), None),
            Difference::Passes { theirs, own } => (
                words.differs_passes().to_owned(),
                Some([theirs.to_string(), own.to_string()]),
            ),
            Difference::Reading {
                pass,
                station,
                repeat,
                theirs,
                own,
            } => (
                words.differs_reading(pass + 1, station, repeat + 1),
                Some(read([theirs, own])),
            ),
            Difference::Nut {
                pass,
                arm,
                theirs,
                own,
            } => {
                let place = match pass {
                    Some(pass) => words.differs_nut(pass + 1, arm),
                    None => words.differs_nut_at_first(arm),
                };
                (place, Some([theirs.to_string(), own.to_string()]))
            }
            Difference::Text { field, theirs, own } => {
                (words.field(*field), Some([shown(theirs), shown(own)]))
            }
            Difference::Note { pass, theirs, own } => {
                let place = words.differs_note(pass + 1);
                (place, Some([shown(theirs), shown(own)]))
            }
            Difference::Settings => (words.differs_settings().to_owned(), None),
            Difference::Steps => (words.differs_steps().to_owned(), None),
            Difference::Marks { pass } => (words.differs_marks(pass + 1), None),
        }
    }
}

impl Language {
    /// Who changed the file, as far as it says.
    pub fn changed_by(self, who: &str) -> String {
        match who.trim() {
            "" => self.changed_by_nobody().to_owned(),
            who => self.changed_by_name(who),
        }
    }
}

texts! {
    changed_by_name(who) { en: "Their file says who works on it: {who}.", es: "El archivo dice quién trabaja en él: {who}." }
    changed_by_nobody { en: "Their file does not say who works on it.", es: "El archivo no dice quién trabaja en él." }
    changed_what { en: "What differs", es: "Lo que es distinto" }
    differs_theirs { en: "theirs", es: "lo de la otra persona" }
    differs_theirs_at(when) { en: "theirs, saved {when}", es: "lo de la otra persona, guardado {when}" }
    differs_mine { en: "mine, not saved", es: "lo mío, sin guardar" }
    changed_comparing { en: "Comparing …", es: "Comparando …" }
    changed_nothing { en: "Nothing in it differs from mine.", es: "No hay nada distinto de lo mío." }
    changed_beside(name) { en: "Keeping both saves mine as “{name}”; theirs stays as it is.", es: "Conservar ambos guarda lo mío como «{name}»; lo de la otra persona queda como está." }
    changed_keep_both { en: "Keep both: save mine beside it", es: "Conservar ambos: guardar lo mío al lado" }
    changed_more(number) { en: "and {number} more", es: "y {number} más" }
    quoted(text) { en: "“{text}”", es: "«{text}»" }
    differs_nothing { en: "nothing", es: "nada" }
    differs_visit { en: "It holds another visit.", es: "Contiene otra visita." }
    differs_passes { en: "Passes", es: "Pasadas" }
    differs_reading(pass, station, repeat) { en: "Pass {pass}, {station}, reading {repeat}", es: "Pasada {pass}, {station}, lectura {repeat}" }
    differs_nut(pass, arm) { en: "Pass {pass}, nut {arm} at", es: "Pasada {pass}, tuerca {arm} en" }
    differs_nut_at_first(arm) { en: "Before the first pass, nut {arm} at", es: "Antes de la primera pasada, tuerca {arm} en" }
    differs_note(pass) { en: "Note of pass {pass}", es: "Nota de la pasada {pass}" }
    differs_settings { en: "Press, gauge, tolerance or another setting", es: "Prensa, instrumento, tolerancia u otro ajuste" }
    differs_steps { en: "Steps checked off", es: "Pasos marcados" }
    differs_marks(pass) { en: "Pass {pass}: readings crossed out or kept, corrections, bare belt or handle", es: "Pasada {pass}: lecturas tachadas o conservadas, correcciones, banda sin ganchos o manija" }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Unit;

    #[test]
    fn both_readings_stand_in_the_unit_on_show() {
        let figures = Figures::exact(Language::Spanish, Unit::Millimetre);
        let told = |theirs: &str, own: &str| {
            let difference = Difference::Reading {
                pass: 0,
                station: "B".into(),
                repeat: 0,
                theirs: theirs.into(),
                own: own.into(),
            };
            figures.difference(&difference).1.unwrap_or_default()
        };
        assert_eq!(told("0.2445 in", "6.21 mm"), ["6.2103 mm", "6.21 mm"]);
        assert_eq!(told("0.2445 in", ""), ["6.2103 mm", "nada"]);
        // Typed differently, and no different in size.
        assert_eq!(told("0.25 in", "6.35 mm"), ["0.25″", "6.35 mm"]);
    }
}
