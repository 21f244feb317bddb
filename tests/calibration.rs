//! Whether stated chances come true: simulated presses, pieces whose true
//! spread is known, and the chances stated from their readings, band by band.
//!
//! The presses are drawn from a fixed seed. A quarter is of the family that the
//! prior is made of, a quarter of another (jaw thicker in the middle, uneven
//! arms, rods that may go slack; see `presses/mod.rs`), and half owe nothing to
//! the program's beam and normal scatter (`presses/foreign.rs`).

mod presses;

use jawtrue::plan::{
    ChoiceWorkspace, DRIFT_NM, Effort, FoundAndLeft, Layout, Model, Noise, PastPiece, Piece,
    PlanError, Posterior, PredictiveScratch, PriorDraws, ResponsePrior, Stiffness, Task, TestPass,
    TurnBounds, choose, press_chances,
};
use jawtrue::splice::Verdict;
use jawtrue::stats::{Draws, Purpose};
use presses::foreign::{AS_FOUND_NM, KINDS};
use presses::{INCH, NOTCH, Press, Scatter, TOLERANCE, even_layout, pass, spread};
use std::sync::atomic::{AtomicUsize, Ordering};

include!("support/standing.rs");

/// A stated chance and whether it came true.
#[derive(Clone, Copy)]
struct Stated {
    chance: f64,
    inside: bool,
}

/// What was stated of pieces and presses.
#[derive(Clone, Default)]
struct Population {
    pieces: Vec<Stated>,
    presses: Vec<Stated>,
}

impl Population {
    fn extend(&mut self, other: &Self) {
        self.pieces.extend(&other.pieces);
        self.presses.extend(&other.presses);
    }
}

#[derive(Clone, Default)]
struct Populations {
    /// First pieces of a first visit.
    as_found: Population,
    /// Pieces after turns that were planned.
    as_left: Population,
    /// First pieces of later visits to a press that was left level and has
    /// crept off a little.
    found_again: Population,
}

impl Populations {
    fn extend(&mut self, other: &Self) {
        self.as_found.extend(&other.as_found);
        self.as_left.extend(&other.as_left);
        self.found_again.extend(&other.found_again);
    }
}

/// The confidence of verdicts, at first (ISO 14253-1).
const CONFIDENCE: f64 = 0.95;

struct Shop {
    scatter: Scatter,
    noise: Noise,
    arms: usize,
    /// What is believed of a press with even arms.
    even: ResponsePrior,
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
            even: prior_of(&even_layout(arms)),
            choice: ChoiceWorkspace::default(),
            scratch: PredictiveScratch::default(),
            found: Populations::default(),
        }
    }

    /// Whole visits to one press: a first piece as found, then pieces after
    /// the turns the program recommends, until one passes by plain comparison.
    fn visits(&mut self, kind: usize, number: u64, visits: usize) {
        let seed = 1_000 + number * KINDS.len() as u64 + kind as u64;
        let mut draws = Draws::new(Purpose::Simulation(seed));
        let mut press = (KINDS[kind].0)(&mut draws, self.arms, AS_FOUND_NM);
        let prior = if press.layout == even_layout(self.arms) {
            self.even.clone()
        } else {
            prior_of(&press.layout)
        };
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

fn prior_of(layout: &Layout) -> ResponsePrior {
    let effects = vec![NOTCH; layout.arms_nm().len()];
    ResponsePrior::from_layout(layout, &effects, Stiffness::Unknown, &PriorDraws::default())
        .unwrap()
}

const BANDS: [f64; 8] = [0.0, 0.05, 0.2, 0.4, 0.6, 0.8, 0.95, 1.0];
/// How far a band's rate may be from the mean chance stated, in binomial
/// standard deviations: one band in a thousand is further off by luck.
const FARTHEST: f64 = 3.3;

/// How far a band of presses unlike those believed in may be off beyond luck.
const UNLIKE: f64 = 0.05;

/// Compares stated chances with what came of them, band by band; tells the
/// table and what is off.
///
/// `allowed` is how much further off than by luck a band's rate may be, where
/// the presses are none that the program believes in; it asks for 25 cases.
fn compare(name: &str, stated: &[Stated], allowed: f64) -> Vec<String> {
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
        let beyond = (came - expected).abs() / n - FARTHEST * variance.sqrt() / n;
        let believed_in = allowed == 0.0;
        if z > FARTHEST && (believed_in || n >= 25.0 && beyond > allowed) {
            off.push(line.clone());
        }
        println!("{line}");
    }
    // A verdict is wrong no oftener than its confidence allows, nor than the
    // chances themselves say.
    for verdict in [Verdict::Outside, Verdict::Inside] {
        let called = stated
            .iter()
            .filter(|s| Verdict::at(s.chance, CONFIDENCE) == verdict);
        let wrong = |s: &&Stated| s.inside == (verdict == Verdict::Outside);
        let called: Vec<Stated> = called.copied().collect();
        let came = called.iter().filter(wrong).count() as f64;
        let risk = |s: &Stated| s.chance.min(1.0 - s.chance);
        let expected: f64 = called.iter().map(risk).sum();
        let variance: f64 = called.iter().map(|s| risk(s) * (1.0 - risk(s))).sum();
        let called = called.len() as f64;
        let at_most = |expected: f64, variance: f64| expected + 0.5 + FARTHEST * variance.sqrt();
        let by_confidence = (1.0 - CONFIDENCE) * called;
        let most = if allowed == 0.0 {
            at_most(expected, variance).min(by_confidence + 1.0)
        } else {
            at_most(by_confidence, CONFIDENCE * by_confidence)
        };
        let line =
            format!("{name}: called {verdict:?} {called}, wrongly {came}, expected {expected:.1}");
        println!("{line}");
        if came > most {
            off.push(line);
        }
    }
    off
}

/// Presses of each kind and gauge.
const PRESSES: u64 = 60;
/// Steps and repeatabilities: calipers of a thousandth and of half a
/// thousandth, a micrometer; inches.
const GAUGES: [(f64, f64); 3] = [(0.001, 0.0005), (0.0005, 0.0004), (0.0001, 0.0002)];

/// Every kind of press with every gauge, over two threads.
fn simulated() -> Vec<(usize, usize, Populations)> {
    let next = AtomicUsize::new(0);
    let work = || {
        let mut done = Vec::new();
        loop {
            let job = next.fetch_add(1, Ordering::Relaxed);
            let (gauge, kind) = (job / KINDS.len(), job % KINDS.len());
            let Some((step, repeatability)) = GAUGES.get(gauge) else {
                return done;
            };
            let mut shop = Shop::new(4, *step, *repeatability);
            for number in 0..PRESSES {
                shop.visits(kind, number, 3);
            }
            done.push((gauge, kind, shop.found));
        }
    };
    std::thread::scope(|scope| {
        let threads = [scope.spawn(work), scope.spawn(work)];
        threads
            .into_iter()
            .flat_map(|t| t.join().unwrap())
            .collect()
    })
}

/// `cargo test --test calibration -- --nocapture` prints the tables.
#[test]
fn chances_come_true_for_every_gauge_and_every_kind_of_press() {
    let simulated = simulated();
    let mut off = Vec::new();
    let mut check = |name: &str, allowed: f64, of: &dyn Fn(usize, usize) -> bool| {
        let mut all = Populations::default();
        for (gauge, kind, found) in &simulated {
            if of(*gauge, *kind) {
                all.extend(found);
            }
        }
        for (when, population) in [
            ("as found", &all.as_found),
            ("as left", &all.as_left),
            ("found again", &all.found_again),
        ] {
            off.extend(compare(
                &format!("{name}, {when}, piece"),
                &population.pieces,
                allowed,
            ));
            off.extend(compare(
                &format!("{name}, {when}, press"),
                &population.presses,
                allowed,
            ));
        }
    };
    for (gauge, (step, _)) in GAUGES.iter().enumerate() {
        check(&format!("step {step}"), 0.0, &|of, _| of == gauge);
    }
    for (kind, (_, name)) in KINDS.iter().enumerate() {
        check(name, if kind == 0 { 0.0 } else { UNLIKE }, &|_, of| {
            of == kind
        });
    }
    check("all", 0.0, &|_, _| true);
    assert!(off.is_empty(), "{off:#?}");
}
