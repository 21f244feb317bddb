//! Sessions made in code, for tests.
#![allow(dead_code)]

use jawtrue::press::{Arm, ArmIndex, Notches, NutLimits, NutPosition, Press};
use jawtrue::session::{
    Advice, AdviceWorkspace, Edit, Field, KnownResponse, PlanningProblem, PriorShelf, Session,
    Wishes,
};
use jawtrue::units::{Sign, TypedLength, Unit};

/// An inch, in nanometres.
pub const INCH: f64 = 25.4e6;

pub fn inches(text: &str) -> TypedLength {
    TypedLength::parse(text, Unit::Inch, Sign::None).unwrap()
}

/// Arms 12 in apart, the first 6 in from the left end.
pub fn even_press(arms: usize) -> Press {
    press_at(
        &(0..arms)
            .map(|arm| 6.0 + 12.0 * arm as f64)
            .collect::<Vec<_>>(),
    )
}

/// Arms at these positions in inches, to a tenth of a thousandth; the jaw 6 in
/// longer than the last.
pub fn press_at(positions: &[f64]) -> Press {
    let inches = |value: f64| inches(&format!("{}", (value * 1e4).round() / 1e4));
    let effect = self::inches("0.004");
    let arm = |position: &f64| Arm::new(inches(*position), effect.clone());
    let last = positions.last().copied().unwrap_or(0.0);
    Press::new("", inches(last + 6.0), positions.iter().map(arm))
}

pub fn with(session: &Session, edits: &[Edit]) -> Session {
    edits.iter().fold(session.clone(), |session, edit| {
        session
            .edited(edit)
            .unwrap_or_else(|problem| panic!("{edit:?}: {problem:?}"))
    })
}

/// One more pass: turns, then the readings of each station, blanks between
/// repeats.
pub fn laced(session: &Session, turns: &[i32], readings: &[&str]) -> Session {
    let cells = |row: &&str| row.split_whitespace().map(str::to_owned).collect();
    let rows = readings.iter().map(cells);
    let edits = [
        Edit::add_pass(turns.iter().copied().map(Notches), ""),
        Edit::fill((session.passes.len(), 0, 0), rows, Unit::Inch),
    ];
    with(session, &edits)
}

/// Types into a cell of the readings.
pub fn enter(place: (usize, usize, usize), text: &str) -> Edit {
    Edit::enter(place, text, Unit::Inch)
}

/// A press of arms 12 in apart, as found.
pub fn found(readings: &[&str]) -> Session {
    let session = Session::new("a".into(), Unit::Inch, even_press(readings.len()));
    laced(&session, &[], readings)
}

/// A visit of three passes to a press of four arms.
pub fn sample_visit(id: &str) -> Session {
    let mut session = found(&["0.2500", "0.2590", "0.2540", "0.2610"]);
    session.id = id.into();
    let session = laced(
        &session,
        &[2, 0, 1, -1],
        &["0.2560", "0.2605", "0.2575", "0.2590"],
    );
    laced(
        &session,
        &[0, -1, 0, 0],
        &["0.2545", "0.2570", "0.2560", "0.2580"],
    )
}

pub fn set(field: Field, text: &str) -> Edit {
    Edit::set(field, text, Unit::Inch)
}

pub fn limits(arm: Option<usize>, most_in: i32, most_out: i32) -> Edit {
    Edit::SetLimits {
        arm: arm.map(ArmIndex),
        limits: Some(NutLimits {
            most_in: NutPosition(most_in),
            most_out: NutPosition(most_out),
        }),
    }
}

pub fn given(rows: &[Vec<f64>]) -> Edit {
    let rows: Vec<Vec<String>> = rows
        .iter()
        .map(|row| row.iter().map(f64::to_string).collect())
        .collect();
    Edit::SetKnownResponse(Some(KnownResponse::from_table(&rows, Unit::Inch).unwrap()))
}

/// Advice after the last pass, without anything kept from before.
pub fn advice(session: &Session, wishes: Wishes) -> Result<Advice, PlanningProblem> {
    let last = session.passes.len().saturating_sub(1);
    let (shelf, mut workspace) = (PriorShelf::default(), AdviceWorkspace::default());
    session.advise(last, wishes, &shelf, &mut workspace)
}

pub fn advised(session: &Session) -> Advice {
    advice(session, Wishes::default()).unwrap()
}

/// Every figure of an advice, bit by bit.
pub fn bits(advice: &Advice) -> Vec<u64> {
    let choice = &advice.choice;
    let mut figures = vec![
        advice.this_piece.unwrap_or(-1.0),
        choice.recommended as f64,
        choice.minutes_measuring_again,
        advice.smallest.spread_nm,
    ];
    for option in &choice.options {
        figures.extend(option.turns.iter().map(|turn| f64::from(*turn)));
        let forecast = &option.forecast;
        figures.extend([forecast.median_nm, forecast.p90_nm, forecast.chance]);
        figures.extend([option.pieces, option.minutes]);
    }
    figures.extend(advice.response.values());
    for station in 0..advice.response.stations() {
        let arms = 0..advice.response.arms();
        figures.extend(arms.map(|arm| advice.response_sd_nm(station, arm)));
    }
    for check in advice.changes() {
        figures.extend([check.expected_nm, check.deviation_nm, check.measured_nm]);
    }
    for station in advice.predicted(&advice.turns()) {
        figures.extend([station.mean_nm, station.sd_nm]);
    }
    figures.iter().map(|figure| figure.to_bits()).collect()
}
