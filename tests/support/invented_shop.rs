//! An invented shop, drawn from a fixed seed: presses that drift, each visit
//! read as found and after every correction, so that a folder of sessions can
//! be made of any size. Names, people and belts are made up.
#![allow(dead_code, reason = "each test takes what it needs")]

use std::fs;
use std::path::Path;

use jawtrue::plan::{SearchProblem, SearchWorkspace, TurnBounds, smallest_spread};
use jawtrue::press::{Arm, Notches, NutLimits, NutPosition, Press, Response};
use jawtrue::session::{IsoDate, Pass, Session};
use jawtrue::splice::{Cell, Reading};
use jawtrue::stats::{Draws, Purpose};
use jawtrue::store::{self};
use jawtrue::units::{Length, TypedLength, Unit};

/// The trade's notch of 0.004 in (common practice, no source).
pub const NOTCH_NM: f64 = 101_600.0;

/// Step of the gauge: 0.0005 in.
const STEP_NM: f64 = 12_700.0;

/// Scatter of one station from lacing to lacing: 0.0003 in.
pub const LACING_NM: f64 = 7_620.0;

/// Notches that the crew turns a nut at most.
const FURTHEST: i32 = 5;

/// Where a nut may stand, the last of them flush with its rod, and where each
/// stood at first.
const LIMITS: NutLimits = NutLimits {
    most_in: NutPosition(-24),
    most_out: NutPosition(0),
};
const AT_FIRST: NutPosition = NutPosition(-12);

const PEOPLE: [&str; 4] = [
    "R. Alder (invented)",
    "M. Brook (invented)",
    "T. Cedar (invented)",
    "L. Dale (invented)",
];

const BELTS: [&str; 3] = ["PVC 120, 36″", "Rubber 2-ply, 48″", "PU food, 24″"];

/// A press of the shop, as it really is.
#[derive(Debug, Clone)]
pub struct Hidden {
    pub name: String,
    pub arms: usize,
    /// Distance of the arms, inches.
    pub spacing_in: f64,
    /// How much of a turn reaches the neighbour.
    pub spill: f64,
    /// Nanometres a day that each station drifts.
    pub drift_nm: Vec<f64>,
    /// Drift grows by this factor from visit to visit.
    pub worse: f64,
    /// From this visit on, this arm answers with this share of its turn.
    pub yields: Option<(usize, usize, f64)>,
}

impl Hidden {
    /// A press drawn from a seed.
    pub fn drawn(seed: u64, arms: usize) -> Self {
        let mut draws = Draws::new(Purpose::Simulation(seed));
        Self {
            name: format!("Press {} (invented)", seed + 1),
            arms,
            spacing_in: 10.0 + (seed % 17) as f64 * 0.25,
            spill: 0.15 + 0.02 * (seed % 8) as f64,
            drift_nm: (0..arms).map(|_| 500.0 * draws.normal()).collect(),
            worse: 1.0,
            yields: None,
        }
    }

    /// What a notch of each nut really does at every station, at a visit.
    pub fn response(&self, visit: usize) -> Response {
        Response::from_fn(self.arms, self.arms, |station, arm| {
            let answers = match self.yields {
                Some((from, weak, share)) if weak == arm && visit >= from => share,
                _ => 1.0,
            };
            let away = station.abs_diff(arm) as i32;
            NOTCH_NM * answers * self.spill.powi(away)
        })
    }

    fn press(&self) -> Press {
        let inch = |value: f64| {
            let length = Length::from_nm((value * 25.4e6).round() as i64);
            TypedLength::from_length(length, Unit::Inch)
        };
        Press::new(
            self.name.clone(),
            inch(12.0 + self.spacing_in * (self.arms - 1) as f64),
            (0..self.arms).map(|arm| Arm {
                position: inch(6.0 + self.spacing_in * arm as f64),
                notch_effect: inch(0.004),
                limits: Some(LIMITS),
                opening_margin: None,
            }),
        )
    }

    /// The visits to it, oldest first: the first on this day, so many of them.
    pub fn visits(&self, seed: u64, first: IsoDate, visits: usize) -> Vec<Session> {
        let mut draws = Draws::new(Purpose::Simulation(seed ^ 0x5EED_0000));
        let mut search = SearchWorkspace::default();
        let press = self.press();
        let mut jaw: Vec<f64> = (0..self.arms).map(|_| 120_000.0 * draws.normal()).collect();
        let mut nuts = vec![AT_FIRST; self.arms];
        let mut day = first;
        let mut grown = 1.0;
        let mut all = Vec::with_capacity(visits);
        for number in 0..visits {
            if number > 0 {
                let days = 18 + draws.below(25) as i64;
                day = day.later(days).unwrap_or(day);
                grown *= self.worse;
                for (nm, rate) in jaw.iter_mut().zip(&self.drift_nm) {
                    *nm += rate * grown * days as f64;
                }
            }
            let id = format!("{seed:06}-{number:06}");
            let mut session = Session::new(id, Unit::Inch, press.clone());
            session.notes.when = day.to_string();
            session.notes.who = PEOPLE[draws.below(PEOPLE.len())].to_owned();
            session.notes.belt = BELTS[draws.below(BELTS.len())].to_owned();
            session.notes.hooks = "No. 2, invented".to_owned();
            session.gauge.name = "Micrometer 4 (invented)".to_owned();
            session.start_nuts.clone_from(&nuts);
            let response = self.response(number);
            for piece in 0..4 {
                let rows = self.piece(&jaw, &mut draws);
                let thick: Vec<f64> = rows.iter().map(|(_, mean)| *mean).collect();
                session.passes.push(Pass {
                    rows: rows.into_iter().map(|(cells, _)| cells).collect(),
                    laced: format!("{day} 0{}:{:02}", 7 + piece / 2, 30 * (piece % 2)),
                    ..Pass::unread(nuts.clone(), self.arms)
                });
                let spread = |thick: &[f64]| {
                    let most = thick.iter().copied().fold(f64::MIN, f64::max);
                    most - thick.iter().copied().fold(f64::MAX, f64::min)
                };
                if spread(&thick) <= session.tolerance.length().nm_f64() {
                    break;
                }
                let bounds: Vec<TurnBounds> = nuts
                    .iter()
                    .map(|nut| TurnBounds {
                        least: (LIMITS.most_in.0 - nut.0).clamp(-FURTHEST, 0),
                        most: (LIMITS.most_out.0 - nut.0).clamp(0, FURTHEST),
                    })
                    .collect();
                // The crew knows the press as it was built.
                let built = Self {
                    yields: None,
                    ..self.clone()
                };
                let problem = built.response(0);
                let problem = SearchProblem::new(&thick, &problem, &bounds);
                let Ok(found) = smallest_spread(&problem, &mut search) else {
                    break;
                };
                for (station, nm) in jaw.iter_mut().enumerate() {
                    let turns = found.turns.iter().map(|turn| f64::from(*turn));
                    *nm += response.change_at(station, turns);
                }
                for (nut, turn) in nuts.iter_mut().zip(&found.turns) {
                    *nut = *nut + Notches(*turn);
                }
            }
            // What was turned after the last piece that fits into a visit.
            let last = session.passes.last().map(|pass| pass.nuts.clone());
            if last.as_ref() != Some(&nuts) {
                let rows = self.piece(&jaw, &mut draws);
                session.passes.push(Pass {
                    rows: rows.into_iter().map(|(cells, _)| cells).collect(),
                    ..Pass::unread(nuts.clone(), self.arms)
                });
            }
            all.push(session);
        }
        all
    }

    /// A piece: at every station two readings to the gauge's step, and their
    /// mean.
    fn piece(&self, jaw: &[f64], draws: &mut Draws) -> Vec<(Vec<Cell>, f64)> {
        let level = 6_350_000.0 + 30_000.0 * draws.normal();
        jaw.iter()
            .map(|nm| {
                let true_nm = level + nm + LACING_NM * draws.normal();
                let steps = (true_nm / STEP_NM).round() as i64;
                let cells = [steps, steps + i64::from(draws.below(4) == 0)];
                let mean = cells.iter().sum::<i64>() as f64 / 2.0 * STEP_NM;
                let cells = cells.map(|steps| {
                    let length = Length::from_nm(steps * 12_700);
                    Cell::Reading(Reading::new(TypedLength::from_length(length, Unit::Inch)))
                });
                (cells.to_vec(), mean)
            })
            .collect()
    }
}

/// The shop of the pictures: a press that drifts, one whose rod yields, one
/// that gets worse, one that is well, each with so many visits.
pub fn presses() -> Vec<Hidden> {
    let press = |seed: u64, name: &str, arms: usize| Hidden {
        name: format!("{name} (invented)"),
        drift_nm: vec![0.0; arms],
        ..Hidden::drawn(seed, arms)
    };
    vec![
        Hidden {
            drift_nm: vec![900.0, -300.0, -400.0, -200.0],
            ..press(1, "North bay press", 4)
        },
        Hidden {
            yields: Some((8, 2, 0.45)),
            drift_nm: vec![250.0, -500.0, 600.0, -350.0, 0.0],
            ..press(2, "Long press", 5)
        },
        Hidden {
            drift_nm: vec![300.0, -100.0, -300.0, 100.0],
            worse: 1.18,
            ..press(3, "Old press", 4)
        },
        press(4, "Small press", 4),
    ]
}

/// Writes a session as the program writes it, but without waiting for the
/// disk.
pub fn write(path: &Path, session: &Session) {
    let text = store::session_text(session).expect("a sound session");
    fs::write(path, text).expect("a file");
}

/// Makes the folder of [`presses`].
pub fn make(folder: &Path, visits: usize) {
    for (seed, press) in (1..).zip(presses()) {
        let within = folder.join(press.name.replace(" (invented)", ""));
        fs::create_dir_all(&within).expect("a folder");
        let first = IsoDate::parse("2025-09-03").expect("a day");
        for session in press.visits(seed, first, visits) {
            let name = format!("{}.jawtrue", session.notes.when);
            write(&within.join(name), &session);
        }
    }
}

/// Writes so many sessions of presses with `visits` visits each.
pub fn make_many(folder: &Path, sessions: usize, visits: usize) {
    fs::create_dir_all(folder).expect("a folder");
    let first = IsoDate::parse("2020-01-06").expect("a day");
    let mut written = 0;
    for seed in 0.. {
        let mut press = Hidden::drawn(seed, 4);
        // No two presses alike.
        press.spacing_in += seed as f64 * 0.001;
        for session in press.visits(seed, first, visits) {
            if written == sessions {
                return;
            }
            write(&folder.join(format!("{}.jawtrue", session.id)), &session);
            written += 1;
        }
    }
}
