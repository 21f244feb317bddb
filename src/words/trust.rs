//! Sentences about how far readings can be trusted: verdicts, readings that do
//! not fit, the belt, the flip test, drift.

use crate::splice::{
    Again, BeltVariation, Drift, DriftProblem, FlipProblem, FlipTest, Misfit, Scatter, Settling,
    Unsettled, Verdict, WhyMisfit,
};
use crate::stats::Furthest;

use super::{Figures, Language};

/// A share of cases, as so many of ten, rounded down.
pub(super) fn in_ten(share: f64) -> u32 {
    (10.0 * share.clamp(0.0, 1.0) + 1e-9) as u32
}

/// Names stations for a sentence.
pub type StationNames<'a> = &'a dyn Fn(usize) -> String;

impl Figures {
    /// Why a reading or a station is marked.
    pub fn misfit_sentence(&self, misfit: &Misfit, names: StationNames<'_>) -> String {
        let words = self.language;
        let station = names(misfit.station);
        let reading = misfit.repeat.map_or(0, |repeat| repeat + 1);
        let by = |stray: Furthest| {
            let figure = |value: f64| self.plain_number(value, 2);
            (figure(stray.statistic), figure(stray.critical))
        };
        match misfit.why {
            WhyMisfit::DecimalSlip => words.misfit_decimal(station, reading),
            WhyMisfit::AmongRepeats(stray) => {
                let (statistic, critical) = by(stray);
                words.misfit_repeat(station, reading, statistic, critical)
            }
            WhyMisfit::Disagrees {
                apart_nm,
                allowed_nm,
            } => {
                let shown = |nm: f64| self.with_unit(&self.nm(nm, self.mean_decimals()));
                words.misfit_disagrees(station, reading, shown(apart_nm), shown(allowed_nm))
            }
            WhyMisfit::AmongStations(stray) => {
                let (statistic, critical) = by(stray);
                words.misfit_station(station, statistic, critical)
            }
        }
    }

    /// What would settle the verdict.
    pub fn settling_sentence(&self, settling: &Settling, names: StationNames<'_>) -> String {
        let words = self.language;
        match settling {
            Settling::Settled(verdict) => words.verdict(*verdict).to_owned(),
            Settling::Readings { again, cases } => {
                let stations: Vec<String> = again
                    .iter()
                    .map(|again| words.again(again, names))
                    .collect();
                words.settle_readings(stations.join(", "), in_ten(*cases))
            }
            Settling::FinerGauge {
                step,
                cases,
                because,
            } => {
                let step = self.plain(*step);
                match because {
                    Unsettled::Step => words.settle_finer_step(step, in_ten(*cases)),
                    Unsettled::TooManyReadings => words.settle_finer_hand(step, in_ten(*cases)),
                }
            }
            Settling::FurtherLacings { lacings: 1, cases } => {
                words.settle_one_lacing(in_ten(*cases))
            }
            Settling::FurtherLacings { lacings, cases } => {
                words.settle_lacings(lacings, in_ten(*cases))
            }
            Settling::AtTheLimit => words.settle_at_limit().to_owned(),
            Settling::Unknown => words.settle_unknown().to_owned(),
        }
    }

    /// That single readings near the limit are to be repeated before a piece
    /// is called outside.
    pub fn repeat_before_outside_sentence(
        &self,
        stations: &[usize],
        names: StationNames<'_>,
    ) -> String {
        let stations: Vec<String> = stations.iter().map(|&at| names(at)).collect();
        self.language.repeat_before_outside(stations.join(", "))
    }

    /// The bare belt's own variation, with a warning where it is as large as
    /// the tolerance.
    pub fn belt_sentence(&self, belt: &BeltVariation, names: StationNames<'_>) -> String {
        let words = self.language;
        let by = self.with_unit(&self.mean(belt.spread.value));
        let (thick, thin) = (names(belt.spread.thickest), names(belt.spread.thinnest));
        if belt.as_large_as_tolerance {
            words.belt_as_large(by, thick, thin)
        } else {
            words.belt_varies(by, thick, thin)
        }
    }

    /// What a flip test tells, a sentence each; the last says what it cannot.
    pub fn flip_sentences(&self, test: &FlipTest, names: StationNames<'_>) -> Vec<String> {
        let words = self.language;
        let mut sentences: Vec<String> = test
            .pairs
            .iter()
            .map(|pair| {
                // The two stations differ by twice the odd part.
                let twice = 2.0 * pair.odd.value_nm;
                let by = self.with_unit(&self.nm(twice.abs(), self.mean_decimals()));
                let (left, right) = (names(pair.left), names(pair.right));
                if !pair.odd.stands_out() {
                    words.flip_pair_hidden(left, right, by)
                } else if twice > 0.0 {
                    words.flip_pair(right, left, by)
                } else {
                    words.flip_pair(left, right, by)
                }
            })
            .collect();
        if !test.unpaired.is_empty() {
            let stations: Vec<String> = test.unpaired.iter().map(|&at| names(at)).collect();
            sentences.push(words.flip_unpaired(stations.join(", ")));
        }
        sentences.push(words.flip_even().to_owned());
        sentences
    }

    /// The drift over a pass, for readings that scatter so much, and whether
    /// it is out of the means.
    pub fn drift_sentence(
        &self,
        drift: &Result<Drift, DriftProblem>,
        repeatability: Scatter,
    ) -> String {
        let words = self.language;
        match drift {
            Ok(drift) if !drift.stands_out(repeatability) => words.drift_hidden().to_owned(),
            Ok(drift) => {
                let shown = |nm: f64| self.with_unit(&self.nm(nm, self.mean_decimals()));
                let by = shown(drift.over_pass_nm.abs());
                let crept = if drift.over_pass_nm > 0.0 {
                    words.drift_up(by)
                } else {
                    words.drift_down(by)
                };
                // Half a nanometre is what digits cost.
                let rest = if drift.left_nm < 0.5 {
                    words.drift_cancelled().to_owned()
                } else {
                    words.drift_left(shown(drift.left_nm))
                };
                format!("{crept} {rest}")
            }
            Err(DriftProblem::NoRepeats) => words.drift_no_repeats().to_owned(),
            Err(DriftProblem::NotANumber) => words.drift_no_number().to_owned(),
        }
    }

    /// A number without a unit, in the language's decimal sign.
    fn plain_number(&self, value: f64, decimals: usize) -> String {
        let text = format!("{value:.decimals$}");
        match self.language {
            Language::English => text,
            Language::Spanish => text.replace('.', ","),
        }
    }
}

impl Language {
    /// A verdict in a word or two.
    pub fn verdict(self, verdict: Verdict) -> &'static str {
        match verdict {
            Verdict::Inside => self.call_inside(),
            Verdict::Outside => self.call_outside(),
            Verdict::TooClose => self.call_too_close(),
        }
    }

    /// Why a flip test tells nothing.
    pub fn flip_problem(self, problem: FlipProblem) -> &'static str {
        match problem {
            FlipProblem::NoMirrorStations => self.flip_no_mirror(),
            FlipProblem::NotANumber => self.flip_no_number(),
        }
    }

    fn again(self, again: &Again, names: StationNames<'_>) -> String {
        let station = names(again.station);
        match again.times {
            1 => self.again_once(station),
            times => self.again_times(station, times),
        }
    }
}

texts! {
    call_inside { en: "inside", es: "dentro" }
    call_outside { en: "outside", es: "fuera" }
    call_too_close { en: "too close to call", es: "demasiado justo para decidir" }
    misfit_decimal(station, reading) {
        en: "{station}, reading {reading}: about ten times off the others. Is the decimal point in its place?",
        es: "{station}, lectura {reading}: unas diez veces distinta de las demás. ¿Está el punto decimal en su lugar?"
    }
    misfit_repeat(station, reading, statistic, critical) {
        en: "{station}, reading {reading} does not fit the others there (Grubbs {statistic}, limit {critical}). Measure again, or strike it if you know why.",
        es: "{station}, lectura {reading} no concuerda con las otras de ahí (Grubbs {statistic}, límite {critical}). Mida otra vez, o táchela si sabe por qué."
    }
    misfit_disagrees(station, reading, apart, allowed) {
        en: "{station}, reading {reading} is {apart} from the others there, more than the {allowed} that readings scatter. Measure again, or strike it if you know why.",
        es: "{station}, lectura {reading} está a {apart} de las otras de ahí, más que los {allowed} que se dispersan las lecturas. Mida otra vez, o táchela si sabe por qué."
    }
    misfit_station(station, statistic, critical) {
        en: "{station} does not fit the other stations (Grubbs {statistic}, limit {critical}). Measure it again before you turn a nut.",
        es: "{station} no concuerda con las otras estaciones (Grubbs {statistic}, límite {critical}). Mídala otra vez antes de girar una tuerca."
    }
    again_once(station) { en: "{station} once more", es: "{station} una vez más" }
    again_times(station, times) { en: "{station} {times} more times", es: "{station} {times} veces más" }
    settle_readings(stations, ten) {
        en: "Too close to call. Measure {stations}: that settles it in {ten} of 10 cases.",
        es: "Demasiado justo para decidir. Mida {stations}: eso lo decide en {ten} de 10 casos."
    }
    settle_finer_step(step, ten) {
        en: "Too close to call, and measuring again will hardly settle it: the step of this gauge is too coarse. A gauge with a step of {step} would in {ten} of 10 cases.",
        es: "Demasiado justo para decidir, y medir otra vez difícilmente lo decide: el paso de este instrumento es muy grueso. Un instrumento con paso de {step} lo haría en {ten} de 10 casos."
    }
    settle_finer_hand(step, ten) {
        en: "Too close to call, and it would take too many readings with this gauge to settle it. A gauge with a step of {step} would in {ten} of 10 cases.",
        es: "Demasiado justo para decidir, y con este instrumento harían falta demasiadas lecturas. Un instrumento con paso de {step} lo decidiría en {ten} de 10 casos."
    }
    settle_one_lacing(ten) {
        en: "Measuring this piece again will not settle it: one lacing differs from the next. Lace once more without turning a nut: that settles it in {ten} of 10 cases.",
        es: "Medir otra vez esta pieza no lo decide: un engrapado difiere de otro. Engrape una vez más sin girar ninguna tuerca: eso lo decide en {ten} de 10 casos."
    }
    settle_lacings(lacings, ten) {
        en: "Measuring this piece again will not settle it: one lacing differs from the next. It would take {lacings} more lacings without turning a nut, which settle it in {ten} of 10 cases.",
        es: "Medir otra vez esta pieza no lo decide: un engrapado difiere de otro. Harían falta {lacings} engrapados más sin girar ninguna tuerca, que lo deciden en {ten} de 10 casos."
    }
    settle_at_limit {
        en: "The spread is so near the limit that neither more readings nor a finer gauge will settle it. The plain comparison decides.",
        es: "La diferencia está tan cerca del límite que ni más lecturas ni un instrumento más fino lo deciden. Decide la comparación simple."
    }
    settle_unknown {
        en: "Nothing can be said about that yet: measure first.",
        es: "Todavía no se puede decir nada de eso: primero mida."
    }
    repeat_before_outside(stations) {
        en: "Just beyond the limit by single readings: measure {stations} once more before calling this piece outside.",
        es: "Apenas pasa del límite y con una sola lectura: mida {stations} una vez más antes de decir que esta pieza está fuera."
    }
    belt_varies(by, thick, thin) {
        en: "The bare belt itself varies by {by}: thickest at {thick}, thinnest at {thin}.",
        es: "La banda sola varía {by}: más gruesa en {thick}, más delgada en {thin}."
    }
    belt_as_large(by, thick, thin) {
        en: "The bare belt itself varies by {by}, as much as the tolerance: thickest at {thick}, thinnest at {thin}. What looks like the jaw may be the belt: lace another belt end, or the same one the other way round.",
        es: "La banda sola varía {by}, tanto como la tolerancia: más gruesa en {thick}, más delgada en {thin}. Lo que parece la mordaza puede ser la banda: engrape otro extremo, o el mismo volteado."
    }
    flip_pair(thick, thin, by) {
        en: "The belt, as first laced, is {by} thicker at {thick} than at {thin}.",
        es: "La banda, como se engrapó primero, es {by} más gruesa en {thick} que en {thin}."
    }
    flip_pair_hidden(left, right, by) {
        en: "Between {left} and {right} no difference of the belt stands out (found {by}).",
        es: "Entre {left} y {right} no se distingue diferencia de la banda (se encontró {by})."
    }
    flip_unpaired(stations) {
        en: "No mirror station was read for {stations}: nothing can be said there.",
        es: "No se leyó la estación opuesta de {stations}: ahí no se puede decir nada."
    }
    flip_even {
        en: "What is the same on both sides of the belt's middle, such as a thick or thin middle, no flip can tell from the jaw.",
        es: "Lo que es igual a ambos lados del centro de la banda, como un centro grueso o delgado, ningún volteo lo distingue de la mordaza."
    }
    flip_no_mirror {
        en: "The flip test needs two passes with stations at the same distance either side of the middle, read in both.",
        es: "La prueba de volteo necesita dos pasadas con estaciones a la misma distancia a cada lado del centro, leídas en ambas."
    }
    flip_no_number {
        en: "The flip test needs readings that are numbers.",
        es: "La prueba de volteo necesita lecturas que sean números."
    }
    drift_hidden {
        en: "No drift of gauge or hand stands out.",
        es: "No se distingue deriva del instrumento ni de la mano."
    }
    drift_up(by) {
        en: "The readings crept up by {by} from first to last.",
        es: "Las lecturas subieron {by} de la primera a la última."
    }
    drift_down(by) {
        en: "The readings crept down by {by} from first to last.",
        es: "Las lecturas bajaron {by} de la primera a la última."
    }
    drift_cancelled {
        en: "Going there and back has cancelled it.",
        es: "La ida y vuelta lo canceló."
    }
    drift_left(left) {
        en: "Up to {left} of it is still in the differences between the arms: measure on until every arm is read as often going back as going there.",
        es: "Hasta {left} de eso sigue en las diferencias entre los brazos: siga midiendo hasta leer cada brazo tantas veces de regreso como de ida."
    }
    drift_no_repeats {
        en: "Measure back again as well, to see whether gauge or hand drifts.",
        es: "Mida también de regreso, para ver si el instrumento o la mano derivan."
    }
    drift_no_number {
        en: "A drift can be seen only in readings that are numbers.",
        es: "Una deriva solo se ve en lecturas que sean números."
    }
}
