//! What the window says about the gauge.

use super::Language;

impl Language {
    /// A date that is past, or a text that is none, beside the field it was
    /// typed in.
    pub fn not_a_date(self, found: &str) -> String {
        self.no_date(super::lengths::shortened(found))
    }
}

texts! {
    command_gauge { en: "Gauge", es: "Instrumento" }
    gauge_title { en: "The gauge", es: "El instrumento" }
    gauge_button { en: "Gauge…", es: "Instrumento…" }
    gauge_intro {
        en: "How finely the gauge reads decides how far a spread can be trusted. A finer gauge gives a surer answer.",
        es: "Lo fino que lee el instrumento decide cuánto se puede confiar en una diferencia. Uno más fino da una respuesta más confiable."
    }
    gauge_kind_label { en: "Kind", es: "Tipo" }
    gauge_kind_named(kind) { en: "Kind: {kind}", es: "Tipo: {kind}" }
    calibration_due_hint { en: "year-month-day", es: "año-mes-día" }
    gauge_limit_hint {
        en: "For the overall thickness only: an error that all readings share drops out of the spread.",
        es: "Solo para el espesor general: el error que comparten todas las lecturas no afecta la diferencia."
    }
    gauge_lacing { en: "The lacing", es: "El engrape" }
    gauge_left_empty {
        en: "Left empty, repeatability and variation are worked out from the readings; the gauge check does it best. Both as one standard deviation.",
        es: "Vacías, la repetibilidad y la variación se calculan de las lecturas; mejor con la revisión del instrumento. Ambas como una desviación estándar."
    }
    calibration_holds(due) {
        en: "The calibration is good until {due}.",
        es: "La calibración vale hasta el {due}."
    }
    calibration_unknown {
        en: "No date is set: nothing will warn when the calibration runs out.",
        es: "No hay fecha: nada avisará cuando venza la calibración."
    }
    gauge_library_hint {
        en: "Choose one with its published figures, or type your gauge's below. Not the one the readings were taken with? Then measure every arm again with it, and cross out the old readings.",
        es: "Elija uno con los valores publicados, o escriba abajo los de su instrumento. ¿No es el de las lecturas? Entonces mida otra vez todos los brazos con él y tache las lecturas anteriores."
    }
    preset_is(line, step) { en: "{line} ({step})", es: "{line} ({step})" }
    gauge_is_another {
        en: "The readings there were taken with the gauge before: measure every arm again with this one, and cross out the old readings.",
        es: "Las lecturas que hay son del instrumento anterior: mida otra vez todos los brazos con este y tache las lecturas anteriores."
    }
    preset_overwrites(preset) {
        en: "{preset}: this replaces resolution and accuracy and clears the repeatability. Name and date stay.",
        es: "{preset}: esto reemplaza resolución y exactitud y borra la repetibilidad. El nombre y la fecha quedan."
    }
    preset_take { en: "Take it", es: "Tomarlo" }
    preset_keep { en: "Keep what is there", es: "Dejar lo que hay" }
    used_now(sd) { en: "used now: {sd}", es: "en uso: {sd}" }
    gauge_share_how(times, sd, limit, good, fair) {
        en: "{times} × {sd} (how far repeated readings vary, rounding included) against {limit}. Up to {good} is good, up to {fair} will do.",
        es: "{times} × {sd} (lo que varían las lecturas repetidas, con su redondeo) frente a {limit}. Hasta {good} es bueno, hasta {fair} sirve."
    }
}
