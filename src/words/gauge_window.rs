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
        en: "What the gauge can tell decides how far a spread can be trusted.",
        es: "Lo que el instrumento distingue decide cuánto se puede confiar en una diferencia."
    }
    gauge_name_short { en: "Name", es: "Nombre" }
    gauge_kind_label { en: "Kind", es: "Tipo" }
    gauge_kind_named(kind) { en: "Kind: {kind}", es: "Tipo: {kind}" }
    gauge_step_short { en: "Step", es: "Paso" }
    gauge_limit_short { en: "Limit of error", es: "Límite de error" }
    gauge_repeatability_short { en: "Repeatability", es: "Repetibilidad" }
    calibration_due_hint { en: "such as 2026-11-25", es: "como 2026-11-25" }
    limit_of_error_hint {
        en: "The limit of error matters to the level only; in the spread an error that all readings share cancels. Repeatability and scatter are standard deviations.",
        es: "El límite de error solo cuenta para el nivel; en la diferencia se cancela el error que comparten todas las lecturas. Repetibilidad y dispersión son desviaciones estándar."
    }
    calibration_holds(due) {
        en: "The calibration holds until {due}.",
        es: "La calibración vale hasta el {due}."
    }
    calibration_unknown {
        en: "No date is set: nothing will warn when the calibration runs out.",
        es: "No hay fecha: nada avisará cuando venza la calibración."
    }
    scatter_in_force(what, sd, source) {
        en: "{what}: {sd} ({source})",
        es: "{what}: {sd} ({source})"
    }
    gauge_library { en: "Start from a kind of gauge", es: "Partir de un tipo de instrumento" }
    gauge_library_hint {
        en: "Steps and limits of error as published; every figure can be changed afterwards.",
        es: "Pasos y límites de error publicados; después se puede cambiar cada valor."
    }
    preset_from(line, source) { en: "{line} ({source})", es: "{line} ({source})" }
    preset_overwrites(preset) {
        en: "{preset}: this takes the place of kind, step and limit of error, and forgets the repeatability. The name and the date stay.",
        es: "{preset}: esto reemplaza tipo, paso y límite de error, y olvida la repetibilidad. El nombre y la fecha quedan."
    }
    preset_take { en: "Take it", es: "Tomarlo" }
    preset_keep { en: "Keep what is there", es: "Dejar lo que hay" }
    gauge_share_heading { en: "Is it fine enough?", es: "¿Es bastante fino?" }
    gauge_share_how {
        en: "Six standard deviations of a reading, step included, against the tolerance.",
        es: "Seis desviaciones estándar de una lectura, con el paso, frente a la tolerancia."
    }
}
