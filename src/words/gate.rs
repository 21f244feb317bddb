//! Sentences about what stands between readings and a judgement, and why there
//! are no turns.

use crate::plan::PlanError;
use crate::session::{Gate, PlanningProblem, Session, Stands};
use crate::splice::{Cell, Doubtful, WhyDoubtful};
use crate::units::{Sign, TypedLength};

use super::Figures;
use super::lengths::shortened;

impl Figures {
    /// Why a reading of a pass needs a second look.
    pub fn doubt_sentence(&self, session: &Session, pass: usize, doubt: &Doubtful) -> String {
        let words = self.language;
        let station = session.station_name(doubt.station);
        let place = words.cli_reading_place(&station, doubt.repeat + 1);
        let Some(laced) = session.passes.get(pass) else {
            return place;
        };
        let cell = laced.cell(doubt.station, doubt.repeat);
        let found = cell.reading().map_or_else(
            || shortened(cell.text()).to_string(),
            |reading| self.typed(&reading.typed),
        );
        match (doubt.why, &doubt.likely) {
            (WhyDoubtful::Unreadable, _) => self.unreadable_sentence(session, &place, cell),
            (_, Some(likely)) => words.doubt_likely(place, found, self.typed(likely)),
            (WhyDoubtful::Before, _) => words.doubt_before(place, found, station),
            (WhyDoubtful::Repeats, _) => {
                let cells = laced.rows.get(doubt.station).into_iter().flatten();
                let lengths = || {
                    let counting = cells.clone().filter_map(Cell::counting);
                    counting.map(|reading| reading.typed.length())
                };
                let apart = lengths().max().zip(lengths().min());
                let apart = apart.map(|(most, least)| self.plain(most.minus(least)));
                let limit = self.limit(session.tolerance.length());
                words.doubt_repeats(station, apart.unwrap_or_default(), limit)
            }
            (WhyDoubtful::Piece, _) => words.doubt_piece(place, found, station),
            (_, None) => words.doubt_thickness(place, found, station),
        }
    }

    fn unreadable_sentence(&self, session: &Session, place: &str, cell: &Cell) -> String {
        match TypedLength::parse(cell.text(), session.unit, Sign::None) {
            Err(problem) => self.language.length_problem(place, &problem, self.unit),
            Ok(typed) => self.reading_refused(place, typed.length()),
        }
    }

    /// A length as it was typed, in its own unit; inches by their sign, so that
    /// nobody takes them for IN.
    pub fn typed(&self, typed: &TypedLength) -> String {
        match typed.text().strip_suffix("in") {
            Some(inches) => format!("{}″", inches.trim_end()),
            None => typed.text().to_owned(),
        }
    }

    /// The cure that is one click: what a reading likely was meant to be.
    pub fn likely_cure(&self, likely: &TypedLength) -> String {
        self.language.make_it(self.typed(likely))
    }

    /// What is missing or doubtful in a pass, a sentence each; empty where it
    /// is clear.
    pub fn gate_sentences(&self, session: &Session, gate: &Gate) -> Vec<String> {
        let words = self.language;
        let Some(pass) = gate.pass else {
            return vec![words.no_pass_yet().to_owned()];
        };
        let mut sentences: Vec<String> = gate
            .whole_piece_unit()
            .map(|unit| words.whole_piece_looks(words.unit_plural(unit)))
            .into_iter()
            .collect();
        let mut doubts: Vec<String> = gate
            .doubtful
            .iter()
            .map(|doubt| self.doubt_sentence(session, pass, doubt))
            .collect();
        doubts.dedup();
        sentences.extend(doubts);
        if gate.stands == Stands::Unread {
            sentences.push(words.nothing_read().to_owned());
        } else if !gate.missing.is_empty() {
            sentences.push(self.missing_sentence(session, gate));
        } else if sentences.is_empty() && !gate.is_clear() {
            sentences.push(words.nothing_to_compare().to_owned());
        }
        sentences
    }

    /// Which counting stations are not read.
    pub fn missing_sentence(&self, session: &Session, gate: &Gate) -> String {
        let missing = gate.missing.iter();
        let missing: Vec<String> = missing.map(|at| session.station_name(*at)).collect();
        let missing = missing.join(", ");
        if gate.stands == Stands::Outside {
            self.language.outside_and_missing(missing)
        } else {
            self.language.missing(missing)
        }
    }

    /// Why there is no plan for a session.
    pub fn planning_problem(&self, session: &Session, problem: &PlanningProblem) -> String {
        let words = self.language;
        match problem {
            PlanningProblem::NotClear(gate) => self.gate_sentences(session, gate).join(" "),
            PlanningProblem::NutsLost(arms) => self.nuts_lost(arms),
            PlanningProblem::NoTurnAllowed(arm) => words.no_turn_allowed(arm),
            PlanningProblem::NothingAllowed => words.nothing_allowed().to_owned(),
            PlanningProblem::OtherShape => {
                words.response_other_shape(session.stations.len(), session.press.arms.len())
            }
            PlanningProblem::Learning(PlanError::Crowded) => words.arms_crowded().to_owned(),
            PlanningProblem::Search(_) | PlanningProblem::Learning(_) => {
                words.figures_refused().to_owned()
            }
        }
    }
}

texts! {
    no_pass_yet {
        en: "There is no pass yet. Lace a test piece and enter its readings.",
        es: "Aún no hay ninguna pasada. Engrape una pieza de prueba y anote sus lecturas."
    }
    doubt_likely(place, found, likely) {
        en: "{place}: {found} can't be right here. It looks like {likely}.",
        es: "{place}: {found} no puede ser correcto aquí. Parece {likely}."
    }
    doubt_thickness(place, found, station) {
        en: "{place}: {found}. No laced splice is that thick or that thin. Measure {station} again.",
        es: "{place}: {found}. Ningún empalme es tan grueso o tan delgado. Mida {station} otra vez."
    }
    doubt_piece(place, found, station) {
        en: "{place}: {found} is far from the rest. Measure {station} again.",
        es: "{place}: {found} está lejos de las demás. Mida {station} otra vez."
    }
    doubt_before(place, found, station) {
        en: "{place}: {found} is further from the piece before than the turns can have moved it. Measure {station} again.",
        es: "{place}: {found} está más lejos de la pieza anterior de lo que pudieron moverla los giros. Mida {station} otra vez."
    }
    doubt_repeats(station, apart, limit) {
        en: "The readings at {station} are {apart} apart, more than the whole limit of {limit}. Measure {station} again.",
        es: "Las lecturas en {station} difieren {apart}, más que todo el límite de {limit}. Mida {station} otra vez."
    }
    whole_piece_looks(unit) {
        en: "The whole piece looks as if it was typed in {unit}.",
        es: "Toda la pieza parece escrita en {unit}."
    }
    whole_piece_cure(unit) {
        en: "Read the whole piece in {unit}",
        es: "Leer toda la pieza en {unit}"
    }
    make_it(likely) { en: "Change it to {likely}", es: "Cambiarla a {likely}" }
    keep_as_right { en: "It is right: keep it", es: "Es correcta: dejarla" }
    keep_all_as_right { en: "They are right: keep them", es: "Son correctas: dejarlas" }
    kept_as_right(place, reading, who) {
        en: "{place}: {reading} was doubted and kept by {who}.",
        es: "{place}: se dudó de {reading} y la dejó {who}."
    }
    kept_by_nobody(place, reading) {
        en: "{place}: {reading} was doubted and kept.",
        es: "{place}: se dudó de {reading} y se dejó."
    }
    missing(stations) {
        en: "Not judged yet. Still to measure: {stations}.",
        es: "Aún sin juzgar. Falta medir: {stations}."
    }
    outside_and_missing(stations) {
        en: "Already outside the tolerance. Still to measure: {stations}.",
        es: "Ya está fuera de la tolerancia. Falta medir: {stations}."
    }
    nothing_to_compare {
        en: "Fewer than two measuring points count, so nothing can be compared. Measure another arm.",
        es: "Cuentan menos de dos puntos de medición: no hay nada que comparar. Mida otro brazo."
    }
    no_turn_allowed(arm) {
        en: "Arm {arm}: its nut limits and the opening margin leave no position at all. Check both.",
        es: "Brazo {arm}: los límites de la tuerca y el margen de apertura no dejan ninguna posición. Revise ambos."
    }
    nothing_allowed {
        en: "No turns stay within all limits together. Allow more nuts, or check the limits.",
        es: "Ningún giro respeta todos los límites a la vez. Permita más tuercas o revise los límites."
    }
    response_other_shape(stations, arms) {
        en: "The response table does not fit this press: it needs {stations} measuring points (rows) and {arms} arms (columns).",
        es: "La tabla de respuesta no corresponde a esta prensa: necesita {stations} puntos de medición (filas) y {arms} brazos (columnas)."
    }
    arms_crowded {
        en: "The arms stand too close together for so long a jaw: nothing can be planned. Check the arm positions, their unit and the jaw length.",
        es: "Los brazos están demasiado juntos para una mordaza tan larga: no se puede planear. Revise las posiciones de los brazos, su unidad y el largo de la mordaza."
    }
    figures_refused {
        en: "These figures are too large to plan with. Check the readings and the press.",
        es: "Estas cifras son demasiado grandes para planear. Revise las lecturas y la prensa."
    }
}
