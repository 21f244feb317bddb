//! What many sessions say: the press book and drift.

use crate::shop::{Drift, NextCheck, NoDrift, NutBook, Outcome, PressBook, VisitSummary};
use crate::splice::Spread;

use super::Figures;

/// Days of a month of 30 days, in which drift is told.
pub(super) const MONTH: f64 = 30.0;

impl Figures {
    /// A visit in one line.
    pub fn visit_summary(&self, visit: &VisitSummary) -> String {
        let words = self.language;
        let who = match visit.who.as_str() {
            "" => words.marked_by_nobody(),
            who => who,
        };
        words.book_visit(&visit.when, self.outcome(visit), visit.pieces, who)
    }

    /// What is known of how a visit ended, with its spreads.
    pub fn outcome(&self, visit: &VisitSummary) -> String {
        let words = self.language;
        let figures = Self {
            step: visit.step,
            ..*self
        };
        let (found, left) = figures.found_and_left(visit);
        match visit.outcome() {
            Outcome::NotMeasured => words.ended_not_measured().to_owned(),
            Outcome::Missing => words.ended_missing(found),
            Outcome::MeasuredOnce => words.ended_once(found),
            Outcome::NotMeasuredSince => words.ended_not_since(found),
            Outcome::InsideAsFound => words.ended_as_found(found),
            Outcome::LeftInside => words.ended_inside(found, left),
            Outcome::LeftOutside => words.ended_outside(found, left),
        }
    }

    /// The spreads of a visit's first and last piece.
    pub fn found_and_left(&self, visit: &VisitSummary) -> (String, String) {
        let spread = |spread: Option<Spread>| {
            spread.map_or_else(
                || "–".to_owned(),
                |spread| self.with_unit(&self.spread(&spread, visit.tolerance)),
            )
        };
        (spread(visit.found), spread(visit.left))
    }

    /// What a nut went through.
    pub fn nut_book(&self, nut: &NutBook) -> String {
        let words = self.language;
        match nut.left {
            Some((out, inward)) => words.book_nut(nut.arm, nut.at, nut.turned, out, inward),
            None => words.book_nut_no_limits(nut.arm, nut.at, nut.turned),
        }
    }

    /// How a press drifts, and by when to check it again.
    pub fn drift_sentences(
        &self,
        book: &PressBook,
        station: &dyn Fn(usize) -> String,
    ) -> Vec<String> {
        let words = self.language;
        match &book.drift {
            Err(NoDrift::TooFew(changes)) => vec![
                words.check_unknown().to_owned(),
                words.drift_too_few(changes, crate::shop::FEWEST_CHANGES),
            ],
            Err(NoDrift::NoStations) => vec![
                words.check_unknown().to_owned(),
                words.drift_no_stations().to_owned(),
            ],
            Ok(drift) => vec![
                self.next_check(drift.next_check),
                self.drift(drift, station),
            ],
        }
    }

    fn drift(&self, drift: &Drift, station: &dyn Fn(usize) -> String) -> String {
        let words = self.language;
        let pair = drift.fastest;
        let a_month = |nm: f64| self.with_unit(&self.nm(nm * MONTH, self.mean_decimals() + 1));
        let (rate, half) = (a_month(pair.rate_nm), a_month(pair.half_nm));
        let (grows, against) = (station(pair.growing), station(pair.shrinking));
        if pair.is_sure() {
            words.drift_is(grows, against, rate, half, drift.changes, drift.days)
        } else {
            words.drift_within(rate, half, drift.changes, drift.days)
        }
    }

    fn next_check(&self, next: NextCheck) -> String {
        let words = self.language;
        match next {
            NextCheck::By(day) => words.check_by(day),
            NextCheck::NotWithin(days) => words.check_not_within(days),
            NextCheck::ScatterAlone => words.check_scatter_alone().to_owned(),
        }
    }
}

texts! {
    // The press book.
    shop_summary(presses, visits) { en: "Presses: {presses}, visits: {visits}", es: "Prensas: {presses}, visitas: {visits}" }
    shop_unreadable { en: "These files could not be read and are left as they are:", es: "Estos archivos no se pudieron leer y quedan como están:" }
    shop_practice(files) { en: "Practice, not counted in the shop's figures: {files}", es: "Práctica, no cuenta en las cifras del taller: {files}" }
    shop_copies(files) { en: "Copies of visits that stand in the book already: {files}", es: "Copias de visitas que ya están en el libro: {files}" }
    book_line(visits, pieces, minutes) { en: "visits {visits}, test pieces {pieces}, about {minutes} minutes", es: "visitas {visits}, piezas de prueba {pieces}, unos {minutes} minutos" }
    book_people(people) { en: "worked on by {people}", es: "trabajaron {people}" }
    book_visit(when, ended, pieces, who) { en: "{when}: {ended}; pieces {pieces}, {who}", es: "{when}: {ended}; piezas {pieces}, {who}" }
    ended_not_measured { en: "not measured", es: "sin medir" }
    ended_missing(found) { en: "found {found}; something is missing or doubtful", es: "inicial {found}; falta algo o hay dudas" }
    ended_once(found) { en: "found {found}, outside: measured once, not finished", es: "inicial {found}, fuera: medida una vez, sin terminar" }
    ended_not_since(found) { en: "found {found}; the last piece was not measured", es: "inicial {found}; la última pieza no se midió" }
    ended_as_found(found) { en: "inside as found, {found}", es: "dentro desde el inicio, {found}" }
    ended_inside(found, left) { en: "found {found}, left {left}: inside", es: "inicial {found}, final {left}: dentro" }
    ended_outside(found, left) { en: "found {found}, left {left}: outside", es: "inicial {found}, final {left}: fuera" }
    check_unknown { en: "Next check by: too little is known to say. Until then go by the jaw check in the upkeep, or the manual.", es: "Próxima revisión: se sabe muy poco para decir cuándo. Mientras, guíese por la revisión de mordazas del mantenimiento o por el manual." }
    book_tolerance(limit) { en: "tolerance {limit}", es: "tolerancia {limit}" }
    book_nut(arm, at, turned, out, inward) { en: "{arm} at {at}, notches turned in all: {turned}; left: OUT {out}, IN {inward}", es: "{arm} en {at}, ranuras giradas en total: {turned}; quedan: ABRIR {out}, CERRAR {inward}" }
    book_nut_no_limits(arm, at, turned) { en: "{arm} at {at}, notches turned in all: {turned}; no limits entered", es: "{arm} en {at}, ranuras giradas en total: {turned}; sin límites" }
    drift_too_few(changes, fewest) {
        en: "Drift: too little to say. It takes {fewest} changes from one visit to the next, with dates and the nuts left alone in between; there are {changes}.",
        es: "Desajuste: muy poco para decir algo. Hacen falta {fewest} cambios de una visita a la siguiente, con fechas y sin tocar las tuercas; hay {changes}."
    }
    drift_no_stations {
        en: "Drift: too little to say. No two points were measured in every visit.",
        es: "Desajuste: muy poco para decir algo. No hay dos puntos medidos en todas las visitas."
    }
    drift_is(grows, against, rate, half, changes, days) {
        en: "Drift: {grows} grows against {against} by {rate} in 30 days, ± {half} (95 %), over {changes} changes in {days} days.",
        es: "Desajuste: {grows} engruesa frente a {against} {rate} cada 30 días, ± {half} (95 %), en {changes} cambios durante {days} días."
    }
    drift_within(rate, half, changes, days) {
        en: "Drift: none that stands out, at most {rate} in 30 days, ± {half} (95 %), over {changes} changes in {days} days.",
        es: "Desajuste: ninguno que se distinga, cuando más {rate} cada 30 días, ± {half} (95 %), en {changes} cambios durante {days} días."
    }
    check_by(day) {
        en: "Next check by {day}: until then a piece is inside with 95 % confidence, as left and drifting on like this.",
        es: "Próxima revisión a más tardar el {day}: hasta entonces una pieza queda dentro con 95 % de confianza, si sigue como quedó y se desajusta así."
    }
    check_not_within(days) {
        en: "No check is due by drift within {days} days; further ahead the drift is not believed.",
        es: "Por desajuste no toca revisar en {days} días; más adelante ya no se puede calcular."
    }
    check_scatter_alone {
        en: "As it was left and as pieces vary, one may be outside at any time, drift or not: check at every visit.",
        es: "Por cómo quedó y por lo que varían las piezas, una puede quedar fuera en cualquier momento, con desajuste o sin él: revise en cada visita."
    }
}
