//! Sentences about how far readings can be trusted: verdicts, readings that do
//! not fit, the belt, the flip test, drift.

use crate::splice::{
    Again, BeltVariation, Drift, DriftProblem, FlipProblem, FlipTest, Misfit, Scatter, Settling,
    Unsettled, Verdict, WhyMisfit,
};

use super::{Figures, Language};

/// A share of cases, as so many of ten, rounded down.
pub fn in_ten(share: f64) -> u32 {
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
        match misfit.why {
            WhyMisfit::AmongRepeats(_) => words.misfit_repeat(station, reading),
            WhyMisfit::Disagrees {
                apart_nm,
                allowed_nm,
            } => {
                let shown = |nm: f64| self.with_unit(&self.nm(nm, self.mean_decimals()));
                words.misfit_disagrees(station, reading, shown(apart_nm), shown(allowed_nm))
            }
            WhyMisfit::AmongStations(_) => words.misfit_station(station),
        }
    }

    /// The test behind a mark, for the page of details; `None` where there is
    /// none.
    pub fn misfit_test(&self, misfit: &Misfit, names: StationNames<'_>) -> Option<String> {
        let (WhyMisfit::AmongRepeats(stray) | WhyMisfit::AmongStations(stray)) = misfit.why else {
            return None;
        };
        let figure = |value: f64| self.decimal(value, 2);
        let words = self.language;
        Some(words.misfit_grubbs(
            self.misfit_sentence(misfit, names),
            figure(stray.statistic),
            figure(stray.critical),
        ))
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
}

impl Language {
    fn again(self, again: &Again, names: StationNames<'_>) -> String {
        let station = names(again.station);
        match again.times {
            1 => self.again_once(station),
            times => self.again_times(station, times),
        }
    }
}

names! {
    /// A verdict in a word or two.
    pub verdict(Verdict) {
        Inside { en: "inside", es: "dentro" }
        Outside { en: "outside", es: "fuera" }
        TooClose { en: "too close to call", es: "muy cerca del límite para decidir" }
    }

    /// Why a flip test tells nothing.
    pub flip_problem(FlipProblem) {
        NoMirrorStations {
            en: "Turning the belt end for end tells something only with two passes measured at the same distance on both sides of the middle.",
            es: "Voltear la banda solo dice algo con dos pasadas medidas a la misma distancia a ambos lados del centro."
        }
        NotANumber {
            en: "Comparing the two passes needs readings that are numbers.",
            es: "Para comparar las dos pasadas hacen falta lecturas que sean números."
        }
    }
}

texts! {
    misfit_repeat(station, reading) {
        en: "{station}, reading {reading} does not fit the others there. Measure again, or cross it out if you know why.",
        es: "{station}, lectura {reading} no concuerda con las otras de ahí. Mida otra vez, o táchela si sabe por qué."
    }
    misfit_disagrees(station, reading, apart, allowed) {
        en: "{station}, reading {reading} is {apart} from the others there, more than the {allowed} that readings vary. Measure again, or cross it out if you know why.",
        es: "{station}, lectura {reading} está a {apart} de las otras de ahí, más que los {allowed} que varían las lecturas. Mida otra vez, o táchela si sabe por qué."
    }
    misfit_station(station) {
        en: "{station} does not fit the other measuring points. Measure it again before you turn a nut.",
        es: "{station} no concuerda con los otros puntos de medición. Mídalo otra vez antes de girar una tuerca."
    }
    misfit_grubbs(sentence, statistic, critical) {
        en: "{sentence} Grubbs' test: {statistic}, limit {critical}.",
        es: "{sentence} Prueba de Grubbs: {statistic}, límite {critical}."
    }
    again_once(station) { en: "{station} once more", es: "{station} una vez más" }
    again_times(station, times) { en: "{station} {times} more times", es: "{station} {times} veces más" }
    settle_readings(stations, ten) {
        en: "Too close to call. Measure {stations}: that decides it in {ten} of 10 cases.",
        es: "Muy cerca del límite para decidir. Mida {stations}: eso lo decide en {ten} de 10 casos."
    }
    settle_finer_step(step, ten) {
        en: "Too close to call, and measuring again will hardly decide it: this gauge is too coarse. A gauge that reads to {step} would in {ten} of 10 cases.",
        es: "Muy cerca del límite para decidir, y medir otra vez difícilmente lo decide: a este instrumento le falta resolución. Uno con resolución de {step} lo haría en {ten} de 10 casos."
    }
    settle_finer_hand(step, ten) {
        en: "Too close to call, and with this gauge it would take too many readings. A gauge that reads to {step} would decide it in {ten} of 10 cases.",
        es: "Muy cerca del límite para decidir, y con este instrumento harían falta demasiadas lecturas. Uno con resolución de {step} lo decidiría en {ten} de 10 casos."
    }
    settle_one_lacing(ten) {
        en: "Measuring this piece again will not decide it: one lacing differs from the next. Lace once more without turning a nut: that decides it in {ten} of 10 cases.",
        es: "Medir otra vez esta pieza no lo decide: un engrape difiere de otro. Engrape una vez más sin girar ninguna tuerca: eso lo decide en {ten} de 10 casos."
    }
    settle_lacings(lacings, ten) {
        en: "Measuring this piece again will not decide it: one lacing differs from the next. {lacings} more lacings without turning a nut would decide it in {ten} of 10 cases.",
        es: "Medir otra vez esta pieza no lo decide: un engrape difiere de otro. {lacings} engrapes más sin girar ninguna tuerca lo decidirían en {ten} de 10 casos."
    }
    settle_at_limit {
        en: "The spread is so close to the limit that neither more readings nor a finer gauge will decide it. Spread against limit decides.",
        es: "La diferencia está tan cerca del límite que ni más lecturas ni un instrumento más fino lo deciden. Decide la diferencia contra el límite."
    }
    settle_unknown {
        en: "It is too early to say: measure first.",
        es: "Todavía no se puede decir: primero mida."
    }
    repeat_before_outside(stations) {
        en: "Just past the limit, and measured only once: measure {stations} again before you call this piece outside.",
        es: "Apenas pasa del límite y con una sola lectura: mida {stations} una vez más antes de decir que esta pieza está fuera."
    }
    belt_varies(by, thick, thin) {
        en: "The bare belt itself varies by {by}: thickest at {thick}, thinnest at {thin}.",
        es: "La banda sin ganchos varía {by}: más gruesa en {thick}, más delgada en {thin}."
    }
    belt_as_large(by, thick, thin) {
        en: "The bare belt itself varies by {by}, as much as the tolerance: thickest at {thick}, thinnest at {thin}. What looks like the jaws may be the belt: lace another belt end, or the same one turned end for end.",
        es: "La banda sin ganchos varía {by}, tanto como la tolerancia: más gruesa en {thick}, más delgada en {thin}. Lo que parece la mordaza puede ser la banda: engrape otro extremo, o el mismo volteado de lado a lado."
    }
    flip_pair(thick, thin, by) {
        en: "The belt, as first laced, is {by} thicker at {thick} than at {thin}.",
        es: "La banda, como se engrapó primero, es {by} más gruesa en {thick} que en {thin}."
    }
    flip_pair_hidden(left, right, by) {
        en: "Between {left} and {right} the belt shows no clear difference (measured {by}).",
        es: "Entre {left} y {right} la banda no muestra diferencia clara (se midió {by})."
    }
    flip_unpaired(stations) {
        en: "The matching point on the other side of {stations} was not measured: nothing can be said there.",
        es: "No se midió el punto opuesto de {stations}: ahí no se puede decir nada."
    }
    flip_even {
        en: "What is the same on both sides of the middle, such as a thick or thin middle, looks the same after turning the belt end for end: it may be belt or jaws.",
        es: "Lo que es igual a ambos lados del centro, como un centro grueso o delgado, se ve igual al voltear la banda: puede ser banda o mordazas."
    }
    drift_hidden {
        en: "No clear drift of gauge or hand.",
        es: "No se ve que las lecturas se vayan recorriendo."
    }
    drift_up(by) {
        en: "The readings drifted up by {by} from first to last.",
        es: "Las lecturas se fueron recorriendo {by} hacia arriba de la primera a la última."
    }
    drift_down(by) {
        en: "The readings drifted down by {by} from first to last.",
        es: "Las lecturas se fueron recorriendo {by} hacia abajo de la primera a la última."
    }
    drift_cancelled {
        en: "Measuring there and back has canceled it.",
        es: "La ida y vuelta lo canceló."
    }
    drift_left(left) {
        en: "Up to {left} of it is still in the differences between arms: go on until every arm is measured as often going back as going there.",
        es: "Hasta {left} de eso sigue en las diferencias entre los brazos: siga hasta medir cada brazo tantas veces de regreso como de ida."
    }
    drift_no_repeats {
        en: "Measure going back as well, to see whether gauge or hand drifts.",
        es: "Mida también de regreso, para ver si las lecturas se van recorriendo."
    }
    drift_no_number {
        en: "Drift shows only in readings that are numbers.",
        es: "Eso solo se ve en lecturas que sean números."
    }
}
