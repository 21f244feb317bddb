//! Closed loop on simulated presses: how many pieces have to be laced again
//! until one is in tolerance.
//!
//! `cargo bench --bench closed_loop -- [presses per row [arms ...]]`
//!
//! The presses are not of the family that the prior is made of: the jaw is
//! thicker in the middle, arms stand unevenly, nuts and rods differ, the notch
//! means nut travel in half of them and the effect at the splice in the others,
//! and in one of four a rod goes slack when its nut is turned out far. A session
//! stops when the readings' spread is inside the tolerance by plain comparison,
//! or after eight re-laces. The methods know nothing of the scatter but the
//! program's own assumptions.

#[path = "../presses/mod.rs"]
mod presses;

use jawtrue::plan::{
    BestAct, ChoiceWorkspace, DRIFT_NM, Effort, FoundAndLeft, Model, Noise, PastPiece, Posterior,
    PriorDraws, ResponsePrior, SearchWorkspace, Stiffness, Task, TestPass, TurnBounds, choose,
};
use jawtrue::press::Response;
use jawtrue::stats::{Draws, Purpose};
use presses::families::{Book, Desk, FAMILIES, betweens, gauges, print_bands};
use presses::{INCH, NOTCH, Press, Scatter, TOLERANCE, pass, read, spread};
use std::time::Instant;

const MOST_RELACES: usize = 8;
const MOST_TURN: i32 = 6;
/// What floating point may add to whole gauge steps, in nanometres.
const ROUNDING: f64 = 0.5;
const AS_FOUND: f64 = 0.004 * INCH;
/// Standard deviation of the logarithm of kappa as reckoned from section data.
const SECTION_ERROR: f64 = 0.3;

#[derive(Clone, Copy, PartialEq)]
enum Method {
    ArmByArm,
    FirstVisit,
    SectionKnown,
    /// After an earlier visit; the press has drifted since, or was found as far
    /// off again.
    SecondVisit {
        drifted: bool,
    },
    KnownPress,
    Perfect,
}

const METHODS: [(Method, &str); 7] = [
    (Method::ArmByArm, "arm by arm, rounded"),
    (Method::FirstVisit, "Jawtrue, first visit"),
    (Method::SectionKnown, "the same, jaw and rods measured"),
    (
        Method::SecondVisit { drifted: true },
        "Jawtrue, second visit, small change",
    ),
    (
        Method::SecondVisit { drifted: false },
        "Jawtrue, second visit, large change",
    ),
    (Method::KnownPress, "press known, not the scatter"),
    (Method::Perfect, "perfect knowledge"),
];

/// How one session went.
#[derive(Clone, Default)]
struct Outcome {
    relaces: usize,
    read_again: usize,
    passed: bool,
    truly_inside: bool,
    /// Further pieces that each piece of advice said, and re-laces before it.
    said: Vec<(f64, usize)>,
}

/// Bands of further pieces said, by their upper ends.
const BANDS: [f64; 6] = [1.1, 1.3, 1.6, 2.0, 3.0, f64::INFINITY];

/// One visit: laces, reads, turns, until a piece passes.
struct Visit<'a> {
    press: &'a Press,
    scatter: &'a Scatter,
    draws: Draws,
    nuts: Vec<i32>,
    passes: Vec<TestPass>,
}

impl<'a> Visit<'a> {
    fn new(press: &'a Press, scatter: &'a Scatter, number: u64) -> Self {
        Self {
            press,
            scatter,
            draws: Draws::new(Purpose::Simulation(number)),
            nuts: vec![0; press.arms()],
            passes: Vec::new(),
        }
    }

    fn run(&mut self, mut advice: impl FnMut(&Self, &[f64]) -> Advice) -> Outcome {
        let mut relaces = 0;
        let mut read_again = 0;
        let mut said = Vec::new();
        loop {
            let true_nm = self.press.lace_about(
                &mut self.draws,
                &self.press.profile(&self.nuts),
                self.scatter,
            );
            let mut read_nm = read(&mut self.draws, &true_nm, self.scatter);
            let mut repeats = self.scatter.repeats;
            let turns = loop {
                let passed = spread(&read_nm) <= TOLERANCE + ROUNDING;
                self.passes.push(pass(&self.nuts, &read_nm, repeats));
                if passed || relaces == MOST_RELACES {
                    return Outcome {
                        relaces,
                        read_again,
                        passed,
                        truly_inside: spread(&true_nm) <= TOLERANCE,
                        said,
                    };
                }
                let advice = advice(self, &read_nm);
                if let Advice::Turn(_, Some(pieces)) | Advice::ReadAgain(_, Some(pieces)) = &advice
                    && !matches!(&advice, Advice::ReadAgain(..) if repeats == self.scatter.repeats)
                {
                    said.push((*pieces, relaces));
                }
                match advice {
                    // Once is enough: more readings do not change the piece.
                    Advice::ReadAgain(..) if repeats == self.scatter.repeats => {
                        let again = read(&mut self.draws, &true_nm, self.scatter);
                        let pairs = read_nm.iter_mut().zip(again);
                        pairs.for_each(|(t, more)| *t = 0.5 * (*t + more));
                        repeats *= 2;
                        read_again += 1;
                        self.passes.pop();
                    }
                    Advice::ReadAgain(turns, _) | Advice::Turn(turns, _) => break turns,
                }
            };
            self.nuts.iter_mut().zip(turns).for_each(|(n, k)| *n += k);
            relaces += 1;
        }
    }

    /// Lets the program choose, from what is believed of the response.
    fn run_with(
        &mut self,
        prior: &ResponsePrior,
        noise: Noise,
        workspace: &mut ChoiceWorkspace,
    ) -> Outcome {
        let along = self.press.layout.along();
        let model = Model {
            prior,
            along: &along,
            noise,
        };
        let counting: Vec<usize> = (0..self.press.arms()).collect();
        self.run(|visit, _| {
            let posterior = Posterior::from_passes(&model, &visit.passes).unwrap();
            let choice = choose(
                &Task {
                    posterior: &posterior,
                    counting: &counting,
                    tolerance_nm: TOLERANCE,
                    bounds: &bounds(visit.press.arms()),
                    accepted: false,
                    most_nuts: None,
                    effort: Effort::default(),
                },
                workspace,
            );
            let mut choice = choice.unwrap();
            let plan = choice.options.swap_remove(choice.recommended);
            if choice.action == BestAct::MeasureAgain {
                Advice::ReadAgain(plan.turns, Some(plan.pieces))
            } else {
                Advice::Turn(plan.turns, Some(plan.pieces))
            }
        })
    }
}

/// What a method says after a piece that does not pass; and the further pieces
/// it says that takes.
enum Advice {
    /// Make these turns and lace again.
    Turn(Vec<i32>, Option<f64>),
    /// Read the piece once more; and these turns, should it have been read
    /// again already.
    ReadAgain(Vec<i32>, Option<f64>),
}

fn bounds(arms: usize) -> Vec<TurnBounds> {
    let bound = TurnBounds {
        least: -MOST_TURN,
        most: MOST_TURN,
    };
    vec![bound; arms]
}

fn prior_of(press: &Press, stiffness: Stiffness) -> ResponsePrior {
    let effects = vec![NOTCH; press.arms()];
    ResponsePrior::from_layout(&press.layout, &effects, stiffness, &PriorDraws::default()).unwrap()
}

fn session(method: Method, number: u64, arms: usize, scatter: &Scatter) -> Outcome {
    let mut draws = Draws::new(Purpose::Simulation(2 * number));
    let press = Press::of_another_kind(&mut draws, arms, AS_FOUND);
    let mut visit = Visit::new(&press, scatter, 2 * number + 1);
    let mut workspace = ChoiceWorkspace::default();
    let mut search = SearchWorkspace::default();
    let assumed = Noise::assumed(scatter.step_nm);
    match method {
        Method::ArmByArm => visit.run(|_, read| {
            let top = read.iter().copied().fold(f64::MIN, f64::max);
            Advice::Turn(
                read.iter()
                    .map(|t| ((top - t) / NOTCH).round() as i32)
                    .collect(),
                None,
            )
        }),
        Method::FirstVisit => visit.run_with(
            &prior_of(&press, Stiffness::Unknown),
            assumed,
            &mut workspace,
        ),
        Method::SectionKnown => {
            // What section and rods say is right to about 30 %.
            let kappa = press.kappa * libm::exp(SECTION_ERROR * draws.normal());
            let about = Stiffness::About {
                kappa,
                log_deviation: SECTION_ERROR,
            };
            visit.run_with(&prior_of(&press, about), assumed, &mut workspace)
        }
        Method::SecondVisit { drifted } => {
            // An earlier visit found the same press otherwise out of true.
            let mut earlier = press.clone();
            let start = earlier.start_nm.iter_mut();
            start.for_each(|t| *t = 0.25 * INCH + AS_FOUND * draws.normal());
            let prior = prior_of(&press, Stiffness::Unknown);
            let mut first = Visit::new(&earlier, scatter, 2 * number + 1_000_001);
            first.run_with(&prior, assumed, &mut workspace);
            let along = press.layout.along();
            let model = Model {
                prior: &prior,
                along: &along,
                noise: assumed,
            };
            let posterior = Posterior::from_passes(&model, &first.passes).unwrap();
            let taught = posterior.taught().unwrap().faded(&prior).unwrap();
            let piece = |pass: &TestPass| PastPiece {
                means_nm: pass.readings.iter().flatten().map(|r| r.mean_nm).collect(),
                scatter_variance: assumed.station_variance(scatter.repeats),
            };
            let history = FoundAndLeft {
                found: piece(&first.passes[0]),
                left: piece(&first.passes[first.passes.len() - 1]),
            };
            let noise = Noise {
                missed: posterior.missed(),
                ..assumed.with_history(&[history])
            };
            if drifted {
                let mut press = earlier.clone();
                let start = press.start_nm.iter_mut();
                start.for_each(|t| *t += DRIFT_NM * draws.normal());
                let mut visit = Visit::new(&press, scatter, 2 * number + 1);
                visit.nuts.clone_from(&first.nuts);
                return visit.run_with(&taught, noise, &mut workspace);
            }
            visit.run_with(&taught, noise, &mut workspace)
        }
        Method::KnownPress => {
            let known = Response::from_fn(arms, arms, |s, i| press.response[s * arms + i]);
            visit.run_with(
                &ResponsePrior::fixed(&known).unwrap(),
                assumed,
                &mut workspace,
            )
        }
        Method::Perfect => {
            let bounds = bounds(arms);
            visit.run(|visit, _| {
                let turns = press.best_turns(&visit.nuts, &bounds, &mut search);
                Advice::Turn(turns.unwrap(), None)
            })
        }
    }
}

/// Sessions of all presses, on two threads.
fn sessions(method: Method, presses: u64, arms: usize, scatter: &Scatter) -> Vec<Outcome> {
    let half = |from: u64, to: u64| {
        move || -> Vec<Outcome> {
            (from..to)
                .map(|n| session(method, n, arms, scatter))
                .collect()
        }
    };
    std::thread::scope(|scope| {
        let first = scope.spawn(half(0, presses / 2));
        let mut all = half(presses / 2, presses)();
        all.extend(first.join().unwrap());
        all
    })
}

/// What was said of plans on presses unlike the prior and what came, band by
/// band, by visits and by what happened between them; and pieces expected
/// against pieces that came.
fn said_and_came(presses: u64, arms: usize) {
    for (between, change) in betweens() {
        let books = FAMILIES.map(|(family, name)| {
            let run = move || {
                let (mut book, mut desk) = (Book::default(), Desk::default());
                for (which, (_, scatter)) in (0..).zip(gauges()) {
                    let from = 100_000 * which;
                    let numbers = from..from + presses;
                    book.presses(family, between, &scatter, arms, numbers, &mut desk);
                }
                book
            };
            (name, std::thread::spawn(run))
        });
        for (name, book) in books {
            let book = book.join().unwrap();
            for (visits, which) in [(0..1, "first visits"), (1..2, "second"), (2..3, "third")] {
                let said = book.said.iter().copied();
                let said: Vec<_> = said.filter(|s| visits.contains(&s.visit)).collect();
                let name = format!("{arms} arms, {name}, {which}, {change}");
                print_bands(&name, &said);
                let ended: Vec<_> = said
                    .iter()
                    .filter_map(|s| Some((s.pieces, s.came?)))
                    .collect();
                let n = ended.len().max(1) as f64;
                println!(
                    "{name}: pieces said {:.2}, came {:.2}",
                    ended.iter().map(|(said, _)| said).sum::<f64>() / n,
                    ended.iter().map(|(_, came)| *came as f64).sum::<f64>() / n
                );
            }
        }
    }
}

/// For every band of further pieces said: how often, what was said and what
/// came on average, with the standard error of what came.
fn print_pieces(name: &str, outcomes: &[Outcome]) {
    let all = || {
        let told = |o: &Outcome| -> Vec<(f64, f64)> {
            let one = |(said, at): &(f64, usize)| (*said, (o.relaces - at) as f64);
            o.said.iter().map(one).collect()
        };
        outcomes.iter().flat_map(told)
    };
    let mut from = 0.0;
    for to in BANDS {
        let band: Vec<(f64, f64)> = all().filter(|(s, _)| (from..to).contains(s)).collect();
        let count = band.len() as f64;
        if count > 0.0 {
            let said = band.iter().map(|b| b.0).sum::<f64>() / count;
            let came = band.iter().map(|b| b.1).sum::<f64>() / count;
            let scatter: f64 = band.iter().map(|b| (b.1 - came).powi(2)).sum();
            let error = (scatter / count / (count - 1.0).max(1.0)).sqrt();
            println!("| {name} | {from} to {to} | {count} | {said:.2} | {came:.2} | {error:.2} |");
        }
        from = to;
    }
}

fn main() {
    // cargo adds an argument of its own.
    let mut numbers = std::env::args()
        .skip(1)
        .filter_map(|a| a.parse::<u64>().ok());
    let presses = numbers.next().unwrap_or(200);
    let mut arm_counts: Vec<usize> = numbers.map(|n| n as usize).collect();
    if arm_counts.is_empty() {
        arm_counts = vec![2, 3, 4, 5, 6, 8];
    }
    let inch = |nm: f64| nm / INCH;
    for (step, repeatability) in [(0.0001, 0.0002), (0.0005, 0.0004)] {
        let scatter = Scatter {
            lacing_nm: 0.0003 * INCH,
            repeatability_nm: repeatability * INCH,
            step_nm: step * INCH,
            repeats: 2,
            shift_nm: 0.002 * INCH,
            tilt_nm: 0.0005 * INCH,
        };
        println!(
            "\n{presses} presses a row; gauge step {} in, repeatability {} in, {} repeats, lacing {} in, \
             shift {} in, tilt {} in end to end, as found {} in, tolerance {} in",
            inch(scatter.step_nm),
            inch(scatter.repeatability_nm),
            scatter.repeats,
            inch(scatter.lacing_nm),
            inch(scatter.shift_nm),
            inch(scatter.tilt_nm),
            inch(AS_FOUND),
            inch(TOLERANCE),
        );
        println!(
            "| arms | way of working | after 1 | after 2 | after 3 | mean re-laces | of perfect | read again | truly inside | s |"
        );
        println!("|---|---|---|---|---|---|---|---|---|---|");
        let mut by_method = vec![Vec::new(); METHODS.len()];
        for &arms in &arm_counts {
            let mut rows = Vec::new();
            for (method, name) in METHODS {
                let begun = Instant::now();
                let outcomes = sessions(method, presses, arms, &scatter);
                rows.push((name, outcomes, begun.elapsed().as_secs_f64()));
            }
            let mean = |outcomes: &[Outcome]| {
                outcomes.iter().map(|o| o.relaces as f64).sum::<f64>() / outcomes.len() as f64
            };
            let perfect = rows.last().map_or(1.0, |(_, outcomes, _)| mean(outcomes));
            for (name, outcomes, seconds) in &rows {
                let share = |counts: &dyn Fn(&Outcome) -> bool| {
                    let hits = outcomes.iter().filter(|o| counts(o)).count();
                    format!("{:.0} %", 100.0 * hits as f64 / outcomes.len() as f64)
                };
                let within = |n: usize| share(&move |o: &Outcome| o.passed && o.relaces <= n);
                println!(
                    "| {arms} | {name} | {} | {} | {} | {:.2} | {:.2} | {:.2} | {} | {seconds:.1} |",
                    within(1),
                    within(2),
                    within(3),
                    mean(outcomes),
                    mean(outcomes) / perfect,
                    outcomes.iter().map(|o| o.read_again as f64).sum::<f64>()
                        / outcomes.len() as f64,
                    share(&|o| o.truly_inside),
                );
            }
            for ((_, outcomes, _), all) in rows.into_iter().zip(&mut by_method) {
                all.extend(outcomes);
            }
        }
        println!("\nFurther pieces, said and come; a session cut short counts what it took");
        println!("| way of working | said | times | mean said | mean come | standard error |");
        println!("|---|---|---|---|---|---|");
        for ((_, name), outcomes) in METHODS.iter().zip(&by_method) {
            print_pieces(name, outcomes);
        }
    }
    for &arms in &arm_counts {
        said_and_came(presses, arms);
    }
}
