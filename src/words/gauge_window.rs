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
        es: "Lo fino que lee el instrumento decide cuánto se puede confiar en una diferencia. Uno más fino da una respuesta más segura."
    }
    gauge_kind_label { en: "Kind", es: "Tipo" }
    gauge_kind_named(kind) { en: "Kind: {kind}", es: "Tipo: {kind}" }
    calibration_due_hint { en: "year-month-day", es: "año-mes-día" }
    limit_of_error_hint {
        en: "Accuracy matters only for the overall thickness: an error that all readings share drops out of the spread. Leave repeatability and variation empty; the gauge check works them out (as one standard deviation).",
        es: "La exactitud solo cuenta para el espesor general: el error que comparten todas las lecturas no afecta la diferencia. Deje vacías la repetibilidad y la variación; la revisión del instrumento las calcula (como una desviación estándar)."
    }
    calibration_holds(due) {
        en: "The calibration is good until {due}.",
        es: "La calibración vale hasta el {due}."
    }
    calibration_unknown {
        en: "No date is set: nothing will warn when the calibration runs out.",
        es: "No hay fecha: nada avisará cuando venza la calibración."
    }
    scatter_in_force(what, known) {
        en: "{what}: {known}.",
        es: "{what}: {known}."
    }
    gauge_library_hint {
        en: "Choose one with its published figures, or type those of your gauge below. Accuracy that is not listed stands on the gauge's papers.",
        es: "Elija uno con los valores publicados, o escriba abajo los de su instrumento. La exactitud que no figura está en los papeles del instrumento."
    }
    preset_from(line, source) { en: "{line} ({source})", es: "{line} ({source})" }
    preset_overwrites(preset) {
        en: "{preset}: this replaces resolution and accuracy and clears the repeatability. Name and date stay.",
        es: "{preset}: esto reemplaza resolución y exactitud y borra la repetibilidad. El nombre y la fecha quedan."
    }
    preset_take { en: "Take it", es: "Tomarlo" }
    preset_keep { en: "Keep what is there", es: "Dejar lo que hay" }
    used_now(sd) { en: "used now: {sd}", es: "en uso: {sd}" }
    gauge_share_how(limit) {
        en: "How far repeated readings vary, rounding included, against the tolerance of {limit}.",
        es: "Cuánto varían las lecturas repetidas, con su redondeo, frente a la tolerancia de {limit}."
    }
}
