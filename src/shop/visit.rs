//! One session as the press book needs it.

use serde::{Deserialize, Serialize};

use crate::press::NutPosition;
use crate::session::{IsoDate, Session, Stands};
use crate::splice::{Band, Spread};
use crate::units::{Length, Unit};

/// What the press book keeps of a session.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct VisitSummary {
    /// The file it was read from.
    pub file: String,
    /// The session's id.
    pub id: String,
    /// Whether it is made up.
    pub invented: bool,
    /// The press by its name.
    pub press: String,
    /// Positions of its arms.
    #[serde(with = "nanometres")]
    pub arms: Vec<Length>,
    /// When, as typed.
    pub when: String,
    /// The day, where what was typed begins with one (`2026-11-25`).
    pub day: Option<IsoDate>,
    /// Who.
    pub who: String,
    /// The belt of the test pieces.
    pub belt: String,
    /// What was repaired on the press since the visit before.
    pub repaired: String,
    /// Everything that was written down in it, in small letters, to be searched.
    pub text: String,
    /// The unit the session is kept in.
    pub unit: Unit,
    /// Step of the gauge.
    pub step: Length,
    /// The tolerance.
    pub tolerance: Length,
    /// Spread of the first piece that was read.
    pub found: Option<Spread>,
    /// Spread of the last piece that was read.
    pub left: Option<Spread>,
    /// How the last piece stands by the plain comparison.
    pub stands: Stands,
    /// Test pieces laced.
    pub pieces: usize,
    /// Of them, those that were read.
    pub read: usize,
    /// The gauge by its name.
    pub gauge: String,
    /// Last day on which its calibration holds, where the visit says one.
    pub calibration_due: Option<IsoDate>,
    /// Minutes that pieces and turns took, by what the session reckons them at.
    pub minutes: f64,
    /// Notches each nut was turned, in and out together.
    pub turned: Vec<u32>,
    /// Where the nuts stood at first and at last.
    pub nuts: (Vec<NutPosition>, Vec<NutPosition>),
    /// Notches left outward and inward at each arm, where its limits are known.
    pub travel_left: Vec<Option<(i32, i32)>>,
    /// Positions of the stations.
    #[serde(with = "nanometres")]
    pub stations: Vec<Length>,
    /// Their names.
    pub station_names: Vec<String>,
    /// Deviations of the counting stations of the first piece from their mean,
    /// in nanometres; none where a station was not read.
    pub found_nm: Vec<Option<f64>>,
    /// The same of the last piece.
    pub left_nm: Vec<Option<f64>>,
}

/// Lengths as the index has them: thousands of them are read at a start.
mod nanometres {
    use serde::{Deserialize, Deserializer, Serializer};

    use crate::units::Length;

    pub fn serialize<S: Serializer>(all: &[Length], serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(all.iter().map(|length| length.nm()))
    }

    pub fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<Length>, D::Error> {
        let all = Vec::<i64>::deserialize(from)?;
        Ok(all.into_iter().map(Length::from_nm).collect())
    }
}

/// What is known of how a visit ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// No piece was read.
    NotMeasured,
    /// Something is missing or doubtful in the last piece.
    Missing,
    /// One piece was read and is outside; nothing was measured after it.
    MeasuredOnce,
    /// Pieces were read, and the last one laced was not.
    NotMeasuredSince,
    /// The one piece that was read is inside: nothing had to be done.
    InsideAsFound,
    /// The last of several is inside.
    LeftInside,
    /// The last of several is outside.
    LeftOutside,
}

impl VisitSummary {
    /// Whether the last piece read is how the press was left: not where it was
    /// found outside and nothing was measured after.
    pub fn was_left(&self) -> bool {
        self.read > 1 || self.outcome() == Outcome::InsideAsFound
    }

    /// Whether its last piece was measured through: that checks the jaws.
    pub fn checks_jaws(&self) -> bool {
        matches!(self.stands, Stands::Inside | Stands::Outside)
    }

    /// The tolerance, floating where it holds most of the last piece, or of the
    /// first where the press was not left so; over the deviations.
    pub fn band(&self) -> Option<Band> {
        let shown = match self.was_left() {
            true => &self.left_nm,
            false => &self.found_nm,
        };
        let means: Vec<f64> = shown.iter().flatten().copied().collect();
        Band::over(&means, self.tolerance.nm_f64())
    }

    /// How it ended.
    pub fn outcome(&self) -> Outcome {
        match (self.stands, self.read) {
            (Stands::NotLaced | Stands::Unread, 0) => Outcome::NotMeasured,
            (Stands::NotLaced | Stands::Unread, _) => Outcome::NotMeasuredSince,
            (Stands::Open, _) => Outcome::Missing,
            (Stands::Outside, 0 | 1) => Outcome::MeasuredOnce,
            (Stands::Outside, _) => Outcome::LeftOutside,
            (Stands::Inside, 0 | 1) => Outcome::InsideAsFound,
            (Stands::Inside, _) => Outcome::LeftInside,
        }
    }

    /// Sums a session up.
    pub fn of(session: &Session, file: String) -> Self {
        let read: Vec<usize> = session
            .passes
            .iter()
            .enumerate()
            .filter(|(_, pass)| pass.has_readings())
            .map(|(index, _)| index)
            .collect();
        let spread = |pass: Option<&usize>| session.spread_of(*pass?);
        let deviations =
            |pass: Option<&usize>| pass.map_or_else(Vec::new, |pass| deviations(session, *pass));
        let arms = session.press.arms.len();
        let mut turned = vec![0_u32; arms];
        let mut minutes = 0.0;
        for pass in 0..session.passes.len() {
            let turns = session.turns_before(pass);
            let notches: Vec<i32> = turns.iter().map(|turn| turn.0).collect();
            minutes += session.effort.piece.value() + session.effort.of_turns(&notches);
            for (sum, turn) in turned.iter_mut().zip(&turns) {
                *sum = sum.saturating_add(turn.0.unsigned_abs());
            }
        }
        let now = session.nuts_now();
        let travel = session.press.arms.iter().zip(now);
        Self {
            file,
            id: session.id.clone(),
            invented: session.invented,
            press: session.press.name.trim().to_owned(),
            arms: session.press.arm_positions(),
            when: session.notes.when.clone(),
            day: day_of(&session.notes.when),
            who: session.notes.who.trim().to_owned(),
            belt: session.notes.belt.trim().to_owned(),
            repaired: session.notes.repaired.trim().to_owned(),
            text: written_down(session),
            unit: session.unit,
            step: session.gauge.step.length(),
            tolerance: session.tolerance.length(),
            found: spread(read.first()),
            left: spread(read.last()),
            stands: session.last_gate().stands,
            pieces: session.passes.len(),
            read: read.len(),
            gauge: session.gauge.name.trim().to_owned(),
            calibration_due: session.gauge.calibration_due,
            minutes,
            turned,
            nuts: (session.start_nuts.clone(), now.to_vec()),
            travel_left: travel
                .map(|(arm, at)| {
                    let limits = arm.limits?;
                    let out = (limits.most_out - *at).0.max(0);
                    Some((out, (*at - limits.most_in).0.max(0)))
                })
                .collect(),
            stations: session
                .stations
                .iter()
                .map(|station| station.position(&session.press))
                .collect(),
            station_names: (0..session.stations.len())
                .map(|station| session.station_name(station))
                .collect(),
            found_nm: deviations(read.first()),
            left_nm: deviations(read.last()),
        }
    }
}

/// What people wrote into a session, in small letters, a line each.
fn written_down(session: &Session) -> String {
    let notes = &session.notes;
    let of_visit = [
        &session.press.name,
        &notes.who,
        &notes.when,
        &notes.belt,
        &notes.hooks,
        &notes.notes,
        &notes.repaired,
        &session.gauge.name,
    ];
    let of_passes = session
        .passes
        .iter()
        .flat_map(|pass| [&pass.laced, &pass.note]);
    let mut text = String::new();
    for line in of_visit.into_iter().chain(of_passes) {
        if !line.trim().is_empty() {
            text.push_str(&line.trim().to_lowercase());
            text.push('\n');
        }
    }
    text
}

/// The day that a text begins with.
fn day_of(when: &str) -> Option<IsoDate> {
    IsoDate::parse(when.trim().get(..10)?).ok()
}

/// Deviations of a pass from the mean over its counting stations that were
/// read.
fn deviations(session: &Session, pass: usize) -> Vec<Option<f64>> {
    let profile = session.sound_profile(pass);
    let means: Vec<Option<f64>> = session
        .stations
        .iter()
        .enumerate()
        .map(|(station, at)| profile.mean(station).filter(|_| at.counts))
        .map(|mean| mean.map(|mean| mean.nm_f64()))
        .collect();
    let read: Vec<f64> = means.iter().flatten().copied().collect();
    let middle = read.iter().sum::<f64>() / read.len().max(1) as f64;
    means
        .into_iter()
        .map(|mean| mean.map(|mean| mean - middle))
        .collect()
}
