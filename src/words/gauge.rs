//! Sentences about the gauge and its checks.

use crate::session::{Gauge, IsoDate, Session, TurnDoubt};
use crate::splice::{
    GaugeFitness, GaugeKind, GaugePreset, GaugeShare, PublishedIn, gauge_that_would_do,
};

use super::{Figures, Language};

impl Figures {
    /// What the gauge uses up of the tolerance, and what would do instead.
    pub fn gauge_share_sentence(
        &self,
        kind: GaugeKind,
        share: &GaugeShare,
        instead: Option<&GaugePreset>,
    ) -> String {
        let words = self.language;
        let gauge = words.this_gauge(kind);
        let percent = self.share(share.share);
        match (share.fitness, instead) {
            (GaugeFitness::Serves, _) => words.gauge_serves(gauge, percent),
            (GaugeFitness::MayDo, _) => words.gauge_may_do(gauge, percent),
            (GaugeFitness::TooCoarse, Some(preset)) if preset.kind == kind => format!(
                "{}: {}.",
                words.readings_vary(percent),
                words.measure_all_again()
            ),
            (GaugeFitness::TooCoarse, Some(preset)) => words.gauge_too_coarse_take(
                gauge,
                percent,
                words.a_gauge(preset.kind),
                self.plain(preset.step),
            ),
            (GaugeFitness::TooCoarse, None) => words.gauge_too_coarse(gauge, percent),
        }
    }

    /// What is better done before turns, and why: in a few words each.
    pub fn before_turns(&self, session: &Session, doubt: &TurnDoubt) -> [String; 2] {
        let words = self.language;
        match doubt {
            TurnDoubt::Repeats { station, by } => [
                words.first_read_again(session.station_name(*station)),
                words.readings_apart(self.plain(*by)),
            ],
            TurnDoubt::Drive { between } => [
                words.first_check_drive().to_owned(),
                words.drive_may_step(between.0, between.1),
            ],
            TurnDoubt::NoGauge => [
                words.first_choose_gauge().to_owned(),
                words.gauge_not_chosen(self.plain(session.gauge.step.length())),
            ],
            TurnDoubt::Coarse(share) => {
                let instead = gauge_that_would_do(session.tolerance.length(), self.unit);
                let kind = session.gauge.kind;
                if instead.is_some_and(|instead| instead.kind == kind) {
                    // Fine enough, but not as it was read.
                    let percent = self.share(share.share);
                    return [
                        words.first_measure_all_again().to_owned(),
                        words.readings_vary(percent),
                    ];
                }
                let gauge = words.this_gauge(kind);
                [
                    words.first_measure_with(
                        instead
                            .map_or(words.a_finer_gauge(), |instead| words.a_gauge(instead.kind)),
                    ),
                    words.gauge_uses_up(gauge, self.share(share.share)),
                ]
            }
        }
    }

    /// The same as one sentence.
    pub fn before_turns_sentence(&self, session: &Session, doubt: &TurnDoubt) -> String {
        let [first, why] = self.before_turns(session, doubt);
        format!("{first}. {why}.")
    }

    /// A gauge of the library among its kind: step and limit of error.
    pub fn preset_line(&self, preset: &GaugePreset) -> String {
        let words = self.language;
        let step = self.plain(preset.step);
        match preset.limit_of_error {
            Some(limit) => words.preset_with_limit(step, self.plain(limit)),
            None => words.preset_without_limit(step),
        }
    }

    /// That the calibration has run out; `None` while it holds.
    pub fn calibration_sentence(&self, gauge: &Gauge, today: IsoDate) -> Option<String> {
        let due = gauge.calibration_due.filter(|_| gauge.is_overdue(today))?;
        Some(self.language.calibration_overdue(due))
    }
}

impl Language {
    fn this_gauge(self, kind: GaugeKind) -> &'static str {
        match kind {
            GaugeKind::Micrometer => self.this_micrometer(),
            GaugeKind::DigitalCaliper | GaugeKind::DialCaliper => self.this_caliper(),
            GaugeKind::Other => self.this_other(),
        }
    }

    fn a_gauge(self, kind: GaugeKind) -> &'static str {
        match kind {
            GaugeKind::Micrometer => self.a_micrometer(),
            GaugeKind::DigitalCaliper | GaugeKind::DialCaliper => self.a_caliper(),
            GaugeKind::Other => self.a_finer_one(),
        }
    }

    /// Where a limit or step of the library is published.
    pub fn published_in(self, published: PublishedIn) -> &'static str {
        match published {
            PublishedIn::Din863Part1 => "DIN 863-1",
            PublishedIn::Din862 => "DIN 862",
            PublishedIn::AsmeB89_1_14 => "ASME B89.1.14",
        }
    }
}

names! {
    /// The kind of a gauge, as a heading.
    pub gauge_kind(GaugeKind) {
        Micrometer { en: "Micrometer", es: "Micrómetro" }
        DigitalCaliper { en: "Digital caliper", es: "Calibrador digital" }
        DialCaliper { en: "Dial caliper", es: "Calibrador de carátula" }
        Other { en: "Other gauge", es: "Otro instrumento" }
    }
}

texts! {
    this_micrometer { en: "This micrometer", es: "Este micrómetro" }
    this_caliper { en: "This caliper", es: "Este calibrador" }
    this_other { en: "This gauge", es: "Este instrumento" }
    a_micrometer { en: "a micrometer", es: "un micrómetro" }
    a_caliper { en: "a caliper", es: "un calibrador" }
    a_finer_one { en: "a finer one", es: "uno más fino" }
    a_finer_gauge { en: "a finer gauge", es: "un instrumento más fino" }
    first_measure_with(gauge) { en: "First use {gauge}", es: "Primero use {gauge}" }
    first_measure_all_again { en: "First measure every arm again", es: "Primero mida otra vez cada brazo" }
    measure_all_again { en: "measure every arm again", es: "mida otra vez cada brazo" }
    readings_vary(percent) { en: "The readings vary by {percent} of the tolerance", es: "Las lecturas varían el {percent} de la tolerancia" }
    first_choose_gauge { en: "First choose the gauge", es: "Primero elija el instrumento" }
    first_check_drive { en: "First check the jaw drive", es: "Primero revise la transmisión" }
    drive_may_step(left, right) { en: "It can make the step between {left} and {right}", es: "Puede causar el escalón entre {left} y {right}" }
    first_read_again(station) { en: "First measure {station} again", es: "Primero mida {station} otra vez" }
    readings_apart(by) { en: "Its readings are {by} apart", es: "Sus lecturas difieren {by}" }
    gauge_uses_up(gauge, percent) { en: "{gauge} uses up {percent} of the tolerance", es: "{gauge} consume el {percent} de la tolerancia" }
    gauge_not_chosen(step) { en: "No gauge chosen: {step} resolution assumed", es: "Instrumento sin elegir: se supone resolución {step}" }
    gauge_serves(gauge, percent) {
        en: "{gauge} uses up {percent} of the tolerance: good enough.",
        es: "{gauge} consume el {percent} de la tolerancia: basta."
    }
    gauge_may_do(gauge, percent) {
        en: "{gauge} uses up {percent} of the tolerance: usable if you read each arm several times.",
        es: "{gauge} consume el {percent} de la tolerancia: sirve si lee varias veces cada brazo."
    }
    gauge_too_coarse_take(gauge, percent, instead, step) {
        en: "{gauge} uses up {percent} of the tolerance: measure again with {instead} that reads to {step}.",
        es: "{gauge} consume el {percent} de la tolerancia: mida otra vez con {instead}, resolución de {step}."
    }
    gauge_too_coarse(gauge, percent) {
        en: "{gauge} uses up {percent} of the tolerance: measure again with a finer one.",
        es: "{gauge} consume el {percent} de la tolerancia: mida otra vez con uno más fino."
    }
    preset_with_limit(step, limit) {
        en: "reads to {step}, accuracy {limit}",
        es: "resolución {step}, exactitud {limit}"
    }
    preset_without_limit(step) { en: "reads to {step}", es: "resolución {step}" }
    calibration_overdue(due) {
        en: "The gauge's calibration ran out on {due}.",
        es: "La calibración del instrumento venció el {due}."
    }
    study_average_and_range { en: "Average and range", es: "Promedio y rango" }
    study_analysis_of_variance { en: "Analysis of variance", es: "Análisis de varianza" }
    study_categories(count) {
        en: "The gauge tells {count} groups of knuckles apart.",
        es: "El instrumento distingue {count} grupos de ojillos."
    }
    study_interaction_pooled {
        en: "No sign that some people read some knuckles differently; that part counts as reading variation.",
        es: "No hay señal de que alguien lea distinto algunos ojillos; esa parte cuenta como variación de lecturas."
    }
    study_interaction_kept {
        en: "Some people read some knuckles differently; that part counts as the people's.",
        es: "Alguien lee distinto algunos ojillos; esa parte cuenta como de las personas."
    }
    study_negative {
        en: "A part came out below zero, which chance can do, and is counted as zero.",
        es: "Una parte resultó menor que cero, lo que puede pasar por azar, y se cuenta como cero."
    }
    lacing_study_read_once {
        en: "Every knuckle was measured once, so the known repeatability of the gauge was taken off.",
        es: "Cada ojillo se midió una vez, así que se descontó la repetibilidad conocida del instrumento."
    }
}
