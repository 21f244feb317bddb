//! How long prior, learning and choice take.
//!
//! `cargo bench --bench choice -- [sessions per row]`
//!
//! Presses of the prior's family after one and after three passes; one thread.

#[path = "../presses/mod.rs"]
mod presses;

use jawtrue::plan::{
    ChoiceWorkspace, Effort, Model, Noise, Posterior, PriorDraws, ResponsePrior, Stiffness, Task,
    TurnBounds, choose, findings,
};
use jawtrue::stats::{Draws, Purpose};
use presses::{CALIPER, INCH, NOTCH, Press, TOLERANCE, even_layout, pass};
use std::hint::black_box;
use std::time::Instant;

/// Milliseconds that something takes, and what it gives.
fn timed<T>(work: impl FnOnce() -> T) -> (f64, T) {
    let begun = Instant::now();
    let found = black_box(work());
    (begun.elapsed().as_secs_f64() * 1e3, found)
}

/// Median and 99th percentile.
fn summary(mut times: Vec<f64>) -> String {
    times.sort_by(f64::total_cmp);
    let at = |share: f64| times[((times.len() - 1) as f64 * share).round() as usize];
    format!("{:.3} / {:.3}", at(0.5), at(0.99))
}

fn main() {
    let sessions = std::env::args()
        .skip(1)
        .find_map(|a| a.parse::<u64>().ok())
        .unwrap_or(60);
    println!("{sessions} sessions a row; milliseconds, median / 99th percentile");
    println!("| arms | passes | prior | learn | findings | choose |");
    println!("|---|---|---|---|---|---|");
    for arms in [2, 3, 4, 5, 6, 8, 10, 12] {
        let layout = even_layout(arms);
        let along = layout.along();
        let counting: Vec<usize> = (0..arms).collect();
        let bounds = vec![TurnBounds { least: -6, most: 6 }; arms];
        let mut prior_times = Vec::new();
        let mut prior = None;
        for _ in 0..5 {
            let (time, built) = timed(|| {
                ResponsePrior::from_layout(
                    &layout,
                    &vec![NOTCH; arms],
                    Stiffness::Unknown,
                    &PriorDraws::default(),
                )
                .unwrap()
            });
            prior_times.push(time);
            prior = Some(built);
        }
        let prior = prior.unwrap();
        let model = Model {
            prior: &prior,
            along: &along,
            noise: Noise::assumed(CALIPER.step_nm),
        };
        let mut workspace = ChoiceWorkspace::default();
        for count in [1, 3] {
            let (mut learn, mut find, mut choice) = (Vec::new(), Vec::new(), Vec::new());
            for number in 0..sessions {
                let mut draws = Draws::new(Purpose::Simulation(number));
                let press = Press::of_the_prior(&mut draws, arms, 0.004 * INCH);
                let mut nuts = vec![0; arms];
                let mut passes = Vec::new();
                for _ in 0..count {
                    let piece = press.lace_and_read(&mut draws, &nuts, &CALIPER);
                    passes.push(pass(&nuts, &piece.read_nm, CALIPER.repeats));
                    for nut in &mut nuts {
                        *nut += draws.below(5) as i32 - 2;
                    }
                }
                let (time, posterior) = timed(|| Posterior::from_passes(&model, &passes).unwrap());
                learn.push(time);
                find.push(timed(|| findings(&model, &counting, &passes).unwrap()).0);
                let task = Task {
                    posterior: &posterior,
                    counting: &counting,
                    tolerance_nm: TOLERANCE,
                    bounds: &bounds,
                    accepted: false,
                    most_nuts: None,
                    effort: Effort::default(),
                };
                choice.push(timed(|| choose(&task, &mut workspace).unwrap()).0);
            }
            println!(
                "| {arms} | {count} | {} | {} | {} | {} |",
                summary(prior_times.clone()),
                summary(learn),
                summary(find),
                summary(choice)
            );
        }
    }
}
