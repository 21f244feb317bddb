//! Sentences about the gauge and its checks.

use crate::session::{Gauge, IsoDate};
use crate::splice::{
    GaugeFitness, GaugeKind, GaugePreset, GaugeShare, GaugeStudy, LacingStudy, LacingStudyProblem,
    PublishedIn, StudyMethod, StudyProblem,
};
use crate::stats::Component;

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

    /// A gauge of the library in a list: kind, step and limit of error.
    pub fn preset_line(&self, preset: &GaugePreset) -> String {
        let words = self.language;
        let kind = words.gauge_kind(preset.kind);
        let step = self.plain(preset.step);
        match preset.limit_of_error {
            Some(limit) => words.preset_with_limit(kind, step, self.plain(limit)),
            None => words.preset_without_limit(kind, step),
        }
    }

    /// That the calibration has run out; `None` while it holds.
    pub fn calibration_sentence(&self, gauge: &Gauge, today: IsoDate) -> Option<String> {
        let due = gauge.calibration_due.filter(|_| gauge.is_overdue(today))?;
        Some(self.language.calibration_overdue(due))
    }

    /// The figures of a gauge study, a line each.
    pub fn study_lines(&self, study: &GaugeStudy) -> Vec<String> {
        let words = self.language;
        let sd = |nm: f64| self.uncertainty(nm);
        let mut lines = vec![
            match study.method {
                StudyMethod::AverageAndRange => words.study_average_and_range().to_owned(),
                StudyMethod::AnalysisOfVariance => words.study_analysis_of_variance().to_owned(),
            },
            words.study_repeatability(sd(study.repeatability_nm)),
            words.study_people(sd(study.people_nm)),
            words.study_gauge(sd(study.gauge_nm)),
            words.study_knuckles(sd(study.knuckles_nm)),
        ];
        if let Some(share) = study.share_of_total() {
            lines.push(words.study_share_of_total(self.share(share)));
        }
        if let Some(categories) = study.categories() {
            lines.push(words.study_categories(categories));
        }
        match study.interaction {
            Some(interaction) if interaction.pooled => {
                lines.push(words.study_interaction_pooled().to_owned());
            }
            Some(_) => lines.push(words.study_interaction_kept().to_owned()),
            None => {}
        }
        if study.came_out_negative {
            lines.push(words.study_negative().to_owned());
        }
        lines
    }

    /// The figures of the long check, a line each.
    pub fn lacing_study_lines(&self, study: &LacingStudy) -> Vec<String> {
        let words = self.language;
        let sd = |nm: f64| self.uncertainty(nm);
        let mut lines = Vec::new();
        match study.gauge {
            Some(gauge) => lines.push(words.study_repeatability(sd(gauge.sd_nm))),
            None => lines.push(words.lacing_study_read_once().to_owned()),
        }
        lines.push(words.lacing_study_knuckle(sd(study.knuckle.sd())));
        lines.push(words.lacing_study_lacing(sd(study.lacing.sd())));
        lines.push(words.lacing_study_next(sd(study.next_lacing.sd_nm)));
        let parts = [study.knuckle, study.lacing];
        if parts.iter().any(Component::came_out_negative) {
            lines.push(words.study_negative().to_owned());
        }
        lines
    }
}

impl Language {
    /// The kind of a gauge, as a heading.
    pub fn gauge_kind(self, kind: GaugeKind) -> &'static str {
        match kind {
            GaugeKind::Micrometer => self.kind_micrometer(),
            GaugeKind::DigitalCaliper => self.kind_digital_caliper(),
            GaugeKind::DialCaliper => self.kind_dial_caliper(),
            GaugeKind::Other => self.kind_other(),
        }
    }

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

    /// Why a study cannot be reckoned.
    pub fn study_problem(self, problem: &StudyProblem) -> String {
        match *problem {
            StudyProblem::People(found) => self.study_wants_people(found),
            StudyProblem::Rounds(found) => self.study_wants_rounds(found),
            StudyProblem::Knuckles(found) => self.study_wants_knuckles(found),
            StudyProblem::RoundsDiffer { person } => self.study_rounds_differ(person + 1),
            StudyProblem::KnucklesDiffer { person, round } => {
                self.study_knuckles_differ(person + 1, round + 1)
            }
            StudyProblem::NotANumber {
                person,
                round,
                knuckle,
            } => self.study_not_a_number(person + 1, round + 1, knuckle + 1),
        }
    }

    /// Why a long check cannot be reckoned.
    pub fn lacing_study_problem(self, problem: &LacingStudyProblem) -> String {
        match *problem {
            LacingStudyProblem::Arms(found) => self.lacing_study_wants_arms(found),
            LacingStudyProblem::Lacings(found) => self.lacing_study_wants_lacings(found),
            LacingStudyProblem::Knuckles(found) => self.lacing_study_wants_knuckles(found),
            LacingStudyProblem::Readings(found) => self.lacing_study_wants_readings(found),
            LacingStudyProblem::Unequal { arm, lacing } => {
                let arm = crate::press::ArmIndex(arm);
                self.lacing_study_unequal(arm, lacing + 1)
            }
        }
    }
}

texts! {
    kind_micrometer { en: "Micrometer", es: "Micrómetro" }
    kind_digital_caliper { en: "Digital caliper", es: "Calibrador digital" }
    kind_dial_caliper { en: "Dial caliper", es: "Calibrador de carátula" }
    kind_other { en: "Other gauge", es: "Otro instrumento" }
    this_micrometer { en: "This micrometer", es: "Este micrómetro" }
    this_caliper { en: "This caliper", es: "Este calibrador" }
    this_other { en: "This gauge", es: "Este instrumento" }
    a_micrometer { en: "a micrometer", es: "un micrómetro" }
    a_caliper { en: "a caliper", es: "un calibrador" }
    a_finer_one { en: "a finer one", es: "uno más fino" }
    gauge_serves(gauge, percent) {
        en: "{gauge} uses up {percent} of the tolerance: it serves.",
        es: "{gauge} consume el {percent} de la tolerancia: sirve."
    }
    gauge_may_do(gauge, percent) {
        en: "{gauge} uses up {percent} of the tolerance: it may do, with several readings at each arm.",
        es: "{gauge} consume el {percent} de la tolerancia: puede servir, con varias lecturas en cada brazo."
    }
    gauge_too_coarse_take(gauge, percent, instead, step) {
        en: "{gauge} uses up {percent} of the tolerance: take {instead} with a step of {step}.",
        es: "{gauge} consume el {percent} de la tolerancia: tome {instead} con paso de {step}."
    }
    gauge_too_coarse(gauge, percent) {
        en: "{gauge} uses up {percent} of the tolerance: take a finer one.",
        es: "{gauge} consume el {percent} de la tolerancia: tome uno más fino."
    }
    preset_with_limit(kind, step, limit) {
        en: "{kind}, step {step}, limit of error {limit}",
        es: "{kind}, paso {step}, límite de error {limit}"
    }
    preset_without_limit(kind, step) { en: "{kind}, step {step}", es: "{kind}, paso {step}" }
    calibration_overdue(due) {
        en: "The calibration of the gauge ran out on {due}.",
        es: "La calibración del instrumento venció el {due}."
    }
    study_average_and_range { en: "Average and range", es: "Promedio y rango" }
    study_analysis_of_variance { en: "Analysis of variance", es: "Análisis de varianza" }
    study_repeatability(sd) {
        en: "One reading to the next: standard deviation {sd}",
        es: "De una lectura a otra: desviación estándar {sd}"
    }
    study_people(sd) {
        en: "One person to the next: {sd}",
        es: "De una persona a otra: {sd}"
    }
    study_gauge(sd) {
        en: "Gauge and people together: {sd}",
        es: "Instrumento y personas juntos: {sd}"
    }
    study_knuckles(sd) {
        en: "One knuckle to the next: {sd}",
        es: "De un nudillo a otro: {sd}"
    }
    study_share_of_total(percent) {
        en: "Gauge and people make {percent} of all the scatter.",
        es: "Instrumento y personas son el {percent} de toda la dispersión."
    }
    study_categories(count) {
        en: "The gauge tells {count} groups of knuckles apart.",
        es: "El instrumento distingue {count} grupos de nudillos."
    }
    study_interaction_pooled {
        en: "No sign that some people read some knuckles differently; that part is counted with the readings.",
        es: "No hay señal de que alguien lea distinto algunos nudillos; esa parte se cuenta con las lecturas."
    }
    study_interaction_kept {
        en: "Some people read some knuckles differently; that part is counted with the people.",
        es: "Alguien lee distinto algunos nudillos; esa parte se cuenta con las personas."
    }
    study_negative {
        en: "A part came out below zero, which chance can do, and is counted as zero.",
        es: "Una parte resultó menor que cero, lo que puede pasar por azar, y se cuenta como cero."
    }
    study_wants_people(found) {
        en: "Expected one to three people, found {found}.",
        es: "Se esperaban de una a tres personas y hay {found}."
    }
    study_wants_rounds(found) {
        en: "Expected two or three rounds, found {found}.",
        es: "Se esperaban dos o tres rondas y hay {found}."
    }
    study_wants_knuckles(found) {
        en: "Expected two to ten knuckles, found {found}.",
        es: "Se esperaban de dos a diez nudillos y hay {found}."
    }
    study_rounds_differ(person) {
        en: "Person {person} measured another number of rounds than the first.",
        es: "La persona {person} midió otro número de rondas que la primera."
    }
    study_knuckles_differ(person, round) {
        en: "Person {person}, round {round}: another number of knuckles than in the first round.",
        es: "Persona {person}, ronda {round}: otro número de nudillos que en la primera ronda."
    }
    study_not_a_number(person, round, knuckle) {
        en: "Person {person}, round {round}, knuckle {knuckle}: no reading yet.",
        es: "Persona {person}, ronda {round}, nudillo {knuckle}: falta la lectura."
    }
    lacing_study_read_once {
        en: "Every knuckle was read once, so the known repeatability of the gauge was taken off the knuckles' scatter.",
        es: "Cada nudillo se leyó una vez, así que de la dispersión de los nudillos se quitó la repetibilidad conocida del instrumento."
    }
    lacing_study_knuckle(sd) {
        en: "One knuckle to its neighbour: standard deviation {sd}",
        es: "De un nudillo a su vecino: desviación estándar {sd}"
    }
    lacing_study_lacing(sd) {
        en: "One lacing to the next at the same arm: {sd}",
        es: "De un engrapado a otro en el mismo brazo: {sd}"
    }
    lacing_study_next(sd) {
        en: "What one knuckle of the next lacing can differ by: {sd}",
        es: "Lo que puede variar un nudillo del próximo engrapado: {sd}"
    }
    lacing_study_wants_arms(found) {
        en: "Expected two arms or more, found {found}.",
        es: "Se esperaban dos brazos o más y hay {found}."
    }
    lacing_study_wants_lacings(found) {
        en: "Expected two lacings or more, found {found}. Lace once more without turning a nut.",
        es: "Se esperaban dos engrapados o más y hay {found}. Engrape otra vez sin girar ninguna tuerca."
    }
    lacing_study_wants_knuckles(found) {
        en: "Expected two neighbouring knuckles or more at every arm, found {found}.",
        es: "Se esperaban dos nudillos vecinos o más en cada brazo y hay {found}."
    }
    lacing_study_wants_readings(found) {
        en: "Expected a reading of every knuckle, found {found}.",
        es: "Se esperaba una lectura de cada nudillo y hay {found}."
    }
    lacing_study_unequal(arm, lacing) {
        en: "Arm {arm}, lacing {lacing}: expected as many knuckles and readings as at the first arm.",
        es: "Brazo {arm}, engrapado {lacing}: se esperaban tantos nudillos y lecturas como en el primer brazo."
    }
}
