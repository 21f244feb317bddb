//! Sentences about the gauge and its checks.

use crate::session::{Gauge, IsoDate};
use crate::splice::{GaugeFitness, GaugeKind, GaugePreset, GaugeShare, PublishedIn};

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
            (GaugeFitness::TooCoarse, Some(preset)) => words.gauge_too_coarse_take(
                gauge,
                percent,
                words.a_gauge(preset.kind),
                self.plain(preset.step),
            ),
            (GaugeFitness::TooCoarse, None) => words.gauge_too_coarse(gauge, percent),
        }
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
    gauge_serves(gauge, percent) {
        en: "{gauge} uses up {percent} of the tolerance: good enough.",
        es: "{gauge} consume el {percent} de la tolerancia: basta."
    }
    gauge_may_do(gauge, percent) {
        en: "{gauge} uses up {percent} of the tolerance: usable if you read each arm several times.",
        es: "{gauge} consume el {percent} de la tolerancia: sirve si lee varias veces cada brazo."
    }
    gauge_too_coarse_take(gauge, percent, instead, step) {
        en: "{gauge} uses up {percent} of the tolerance: take {instead} that reads to {step}.",
        es: "{gauge} consume el {percent} de la tolerancia: tome {instead} con resolución de {step}."
    }
    gauge_too_coarse(gauge, percent) {
        en: "{gauge} uses up {percent} of the tolerance: take a finer one.",
        es: "{gauge} consume el {percent} de la tolerancia: tome uno más fino."
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
        es: "El instrumento distingue {count} grupos de ojales."
    }
    study_interaction_pooled {
        en: "No sign that some people read some knuckles differently; that part counts as reading variation.",
        es: "No hay señal de que alguien lea distinto algunos ojales; esa parte cuenta como variación de lecturas."
    }
    study_interaction_kept {
        en: "Some people read some knuckles differently; that part counts as the people's.",
        es: "Alguien lee distinto algunos ojales; esa parte cuenta como de las personas."
    }
    study_negative {
        en: "A part came out below zero, which chance can do, and is counted as zero.",
        es: "Una parte resultó menor que cero, lo que puede pasar por azar, y se cuenta como cero."
    }
    lacing_study_read_once {
        en: "Every knuckle was measured once, so the known repeatability of the gauge was taken off.",
        es: "Cada ojal se midió una vez, así que se descontó la repetibilidad conocida del instrumento."
    }
}
