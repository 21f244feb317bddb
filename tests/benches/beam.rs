//! Time for one drawn press: factor the jaw and write the influence matrix of
//! all its nuts on as many stations. Run with `cargo bench --bench beam`.

use jawtrue::press::{JawBeam, JawLayout, JawStiffness};
use std::hint::black_box;
use std::time::Instant;

/// Draws in one timed batch, and batches whose median is shown.
const DRAWS: usize = 2_000;
const BATCHES: usize = 51;

fn main() {
    println!("arms  stations  median us per draw");
    for (arms, between) in [(4, 0), (4, 2), (12, 0), (12, 2)] {
        let (stations, median) = time(arms, between);
        println!("{arms:4}  {stations:8}  {median:.2}");
    }
}

/// Number of stations, with `between` of them in each bay besides the arms,
/// and the median time of a draw in microseconds.
fn time(arms: usize, between: usize) -> (usize, f64) {
    let bay_nm = 3.0e8;
    let arms_nm: Vec<f64> = (0..arms).map(|i| bay_nm * (i as f64 + 0.5)).collect();
    let steps = (arms - 1) * (between + 1);
    let stations_nm: Vec<f64> = (0..=steps)
        .map(|i| bay_nm * (0.5 + i as f64 / (between + 1) as f64))
        .collect();
    let layout =
        JawLayout::new((0.0, bay_nm * arms as f64), &arms_nm, &stations_nm).expect("a good layout");
    let mut jaw = JawBeam::new(layout, &JawStiffness::even(14.5, 0.15)).expect("a good jaw");
    let mut influence = vec![0.0; stations_nm.len() * arms];
    let mut rod_factors = vec![1.0; arms];

    let mut times: Vec<f64> = (0..BATCHES)
        .map(|_| {
            let start = Instant::now();
            for draw in 0..DRAWS {
                // Low-discrepancy steps over the whole prior.
                let share = |step: f64| (draw as f64 * step).fract();
                for (arm, factor) in rod_factors.iter_mut().enumerate() {
                    *factor = 0.7 + 0.6 * share(0.618 + 0.01 * arm as f64);
                }
                let stiffness = JawStiffness {
                    kappa: 3.0 + 67.0 * share(0.754_877_666),
                    rho: 0.3 * share(0.569_840_291),
                    rod_factors: &rod_factors,
                    sections: &[],
                };
                jaw.stiffen(&stiffness).expect("a good stiffness");
                jaw.influence_into(&mut influence).expect("room enough");
                black_box(&influence);
            }
            start.elapsed().as_secs_f64() * 1.0e6 / DRAWS as f64
        })
        .collect();
    times.sort_by(f64::total_cmp);
    (stations_nm.len(), times[BATCHES / 2])
}
