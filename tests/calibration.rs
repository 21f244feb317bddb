//! Whether stated chances come true: simulated presses, pieces whose true
//! spread is known, and the chances stated from their readings, band by band.
//!
//! The presses are drawn from a fixed seed. Half of them are of the family that
//! the prior is made of, half of another (jaw thicker in the middle, uneven
//! arms, rods that may go slack; see `presses/mod.rs`).

mod presses;

use jawtrue::plan::{
    ChoiceWorkspace, DRIFT_NM, Effort, FoundAndLeft, Model, Noise, PastPiece, Piece, PlanError,
    Posterior, PredictiveScratch, ResponsePrior, Stiffness, Task, TestPass, TurnBounds, choose,
    press_chances,
};
use jawtrue::splice::Verdict;
use jawtrue::stats::{Draws, Purpose};
use presses::{INCH, NOTCH, Press, Scatter, TOLERANCE, pass, spread};

include!("support/standing.rs");

/// A stated chance and whether it came true.
#[derive(Clone, Copy)]
struct Stated {
    chance: f64,
    inside: bool,
}

/// What was stated of pieces and presses.
#[derive(Default)]
struct Population {
    pieces: Vec<Stated>,
    presses: Vec<Stated>,
}

#[derive(Default)]
struct Populations {
    /// First pieces of a first visit.
    as_found: Population,
    /// Pieces after turns that were planned.
    as_left: Population,
    /// First pieces of later visits to a press that was left level and has
    /// crept off a little.
    found_again: Population,
}

/// The confidence of verdicts, at first (ISO 14253-1).
const CONFIDENCE: f64 = 0.95;

struct Shop {
    scatter: Scatter,
    noise: Noise,
    arms: usize,
    choice: ChoiceWorkspace,
    scratch: PredictiveScratch,
    found: Populations,
}

impl Shop {
    fn new(arms: usize, step_inch: f64, repeatability_inch: f64) -> Self {
        let scatter = Scatter {
            lacing_nm: 0.0003 * INCH,
            repeatability_nm: repeatability_inch * INCH,
            step_nm: step_inch * INCH,
            repeats: 2,
            shift_nm: 0.002 * INCH,
            tilt_nm: 0.0005 * INCH,
        };
        Self {
            scatter,
            noise: Noise {
                repeatability_nm: scatter.shown_nm(),
                ..Noise::assumed(scatter.step_nm)
            },
            arms,
            choice: ChoiceWorkspace::default(),
            scratch: PredictiveScratch::default(),
            found: Populations::default(),
        }
    }

    /// Whole visits to one press: a first piece as found, then pieces after
    /// the turns the program recommends, until one passes by plain comparison.
    fn visits(&mut self, number: u64, visits: usize) {
        let mut draws = Draws::new(Purpose::Simulation(1_000 + number));
        let mut press = if number.is_multiple_of(2) {
            Press::of_the_prior(&mut draws, self.arms, 0.004 * INCH)
        } else {
            Press::of_another_kind(&mut draws, self.arms, 0.004 * INCH)
        };
        let effects = vec![NOTCH; self.arms];
        let prior =
            ResponsePrior::from_layout(&press.layout, &effects, Stiffness::Unknown).unwrap();
        let mut nuts = vec![0; self.arms];
        let mut history = Vec::new();
        for visit in 0..visits {
            if visit > 0 {
                for start in &mut press.start_nm {
                    *start += DRIFT_NM * draws.normal();
                }
            }
            let visit = self.visit(&press, &prior, &mut nuts, &history, &mut draws);
            history.push(visit);
        }
    }

    /// One visit; answers its first and last piece.
    fn visit(
        &mut self,
        press: &Press,
        prior: &ResponsePrior,
        nuts: &mut [i32],
        history: &[FoundAndLeft],
        draws: &mut Draws,
    ) -> FoundAndLeft {
        let counting: Vec<usize> = (0..self.arms).collect();
        let bounds = vec![TurnBounds { least: -6, most: 6 }; self.arms];
        let along = press.layout.along();
        let model = Model {
            prior,
            along: &along,
            noise: self.noise.with_history(history),
        };
        let mut passes: Vec<TestPass> = Vec::new();
        let variance = self.noise.station_variance(self.scatter.repeats);
        let past = |read_nm: &[f64]| PastPiece {
            means_nm: read_nm.to_vec(),
            scatter_variance: variance,
        };
        let mut pieces = FoundAndLeft::default();
        for relace in 0..4 {
            let piece = press.lace_and_read(draws, nuts, &self.scatter);
            passes.push(pass(nuts, &piece.read_nm, self.scatter.repeats));
            let posterior = Posterior::from_passes(&model, &passes).unwrap();
            let stated = standing(&posterior, &counting, TOLERANCE, &mut self.scratch).unwrap();
            let population = match (relace, history.is_empty()) {
                (0, true) => &mut self.found.as_found,
                (0, false) => &mut self.found.found_again,
                _ => &mut self.found.as_left,
            };
            population.pieces.push(Stated {
                chance: stated.this_piece.unwrap(),
                inside: spread(&piece.true_nm) <= TOLERANCE,
            });
            population.presses.push(Stated {
                chance: stated.this_press,
                inside: spread(&press.profile(nuts)) <= TOLERANCE,
            });
            pieces.left = past(&piece.read_nm);
            if relace == 0 {
                pieces.found = pieces.left.clone();
            }
            if spread(&piece.read_nm) <= TOLERANCE + 0.5 {
                break;
            }
            let task = Task {
                posterior: &posterior,
                counting: &counting,
                tolerance_nm: TOLERANCE,
                bounds: &bounds,
                accepted: false,
                most_nuts: None,
                effort: Effort::default(),
            };
            let mut choice = choose(&task, &mut self.choice).unwrap();
            let turns = choice.options.swap_remove(choice.recommended).turns;
            nuts.iter_mut().zip(turns).for_each(|(n, k)| *n += k);
        }
        pieces
    }
}

const BANDS: [f64; 8] = [0.0, 0.05, 0.2, 0.4, 0.6, 0.8, 0.95, 1.0];
/// How far a band's rate may be from the mean chance stated, in binomial
/// standard deviations: one band in a thousand is further off by luck.
const FARTHEST: f64 = 3.3;

/// Compares stated chances with what came of them, band by band; tells the
/// table and what is off.
fn compare(name: &str, stated: &[Stated]) -> Vec<String> {
    let mut off = Vec::new();
    for ends in BANDS.windows(2) {
        let last = ends[1] == 1.0;
        let band: Vec<Stated> = stated
            .iter()
            .copied()
            .filter(|s| ends[0] <= s.chance && (s.chance < ends[1] || last))
            .collect();
        let n = band.len() as f64;
        let expected: f64 = band.iter().map(|s| s.chance).sum();
        let came = band.iter().filter(|s| s.inside).count() as f64;
        let variance: f64 = band.iter().map(|s| s.chance * (1.0 - s.chance)).sum();
        // Half a piece either way is not luck but counting.
        let z = ((came - expected).abs() - 0.5).max(0.0) / variance.sqrt().max(1e-9);
        let line = format!(
            "{name} {:.2} to {:.2}: {n:4} stated {:.3} came true {:.3}, {z:.1} sd",
            ends[0],
            ends[1],
            expected / n,
            came / n
        );
        if z > FARTHEST {
            off.push(line.clone());
        }
        println!("{line}");
    }
    let outside = || {
        let called = |s: &&Stated| Verdict::at(s.chance, CONFIDENCE) == Verdict::Outside;
        stated.iter().filter(called)
    };
    let (called, wrong) = (outside().count(), outside().filter(|s| s.inside).count());
    let line = format!("{name}: called outside {called}, wrongly {wrong}");
    println!("{line}");
    if wrong as f64 >= 0.05 * called as f64 && wrong > 0 {
        off.push(line);
    }
    off
}

/// `cargo test --test calibration -- --nocapture` prints the tables.
fn chances_come_true(step_inch: f64, repeatability_inch: f64) {
    let mut shop = Shop::new(4, step_inch, repeatability_inch);
    for number in 0..400 {
        shop.visits(number, 3);
    }
    let found = &shop.found;
    let mut off = Vec::new();
    for (name, population) in [
        ("as found", &found.as_found),
        ("as left", &found.as_left),
        ("found again", &found.found_again),
    ] {
        off.extend(compare(&format!("{name}, piece"), &population.pieces));
        off.extend(compare(&format!("{name}, press"), &population.presses));
    }
    assert!(off.is_empty(), "{off:#?}");
}

#[test]
fn with_a_caliper_of_a_thousandth() {
    chances_come_true(0.001, 0.0005);
}

#[test]
fn with_a_caliper_of_half_a_thousandth() {
    chances_come_true(0.0005, 0.0004);
}

#[test]
fn with_a_micrometer() {
    chances_come_true(0.0001, 0.0002);
}
