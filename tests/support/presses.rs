//! Presses to plan for, drawn from a fixed seed: the jaw as a free-ended
//! Euler-Bernoulli beam (Hermite cubics, dense solve) on rods and a Winkler
//! foundation, written independently of the program's own beam.
// Every test and bench that includes this file uses another part of it.
#![allow(dead_code)]

use jawtrue::press::Response;

/// The trade's notch of 0.004 in, in nanometres (common practice, no source).
pub const NOTCH_NM: f64 = 101_600.0;

/// SplitMix64 (Steele, Lea, Flood, OOPSLA 2014).
pub struct Draw(pub u64);

impl Draw {
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// Uniform in 0..1.
    pub fn uniform(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.uniform()
    }

    pub fn whole(&mut self, low: i64, high: i64) -> i64 {
        low + (self.next() % (high - low + 1) as u64) as i64
    }

    /// Normal, by Box and Muller.
    pub fn normal(&mut self) -> f64 {
        let radius = (-2.0 * libm::log(1.0 - self.uniform())).sqrt();
        radius * libm::cos(std::f64::consts::TAU * self.uniform())
    }
}

/// Rise at each station per unit of nut movement at each arm. Arms a unit
/// apart, half a unit of jaw beyond the outer ones, EI = 1.
pub fn influence(
    arms: usize,
    stations: &[f64],
    kappa: f64,
    rho: f64,
    rods: &[f64],
) -> Vec<Vec<f64>> {
    let length = arms as f64;
    let at_arm = |i: usize| i as f64 + 0.5;
    let mut nodes = vec![0.0, length];
    nodes.extend((0..arms).map(at_arm));
    nodes.extend_from_slice(stations);
    nodes.sort_by(f64::total_cmp);
    nodes.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    let size = 2 * nodes.len();
    let mut stiffness = vec![vec![0.0; size]; size];
    let foundation = rho * kappa;
    for e in 0..nodes.len() - 1 {
        let l = nodes[e + 1] - nodes[e];
        let bend = [
            [12.0, 6.0 * l, -12.0, 6.0 * l],
            [6.0 * l, 4.0 * l * l, -6.0 * l, 2.0 * l * l],
            [-12.0, -6.0 * l, 12.0, -6.0 * l],
            [6.0 * l, 2.0 * l * l, -6.0 * l, 4.0 * l * l],
        ];
        let rest = [
            [156.0, 22.0 * l, 54.0, -13.0 * l],
            [22.0 * l, 4.0 * l * l, 13.0 * l, -3.0 * l * l],
            [54.0, 13.0 * l, 156.0, -22.0 * l],
            [-13.0 * l, -3.0 * l * l, -22.0 * l, 4.0 * l * l],
        ];
        for i in 0..4 {
            for j in 0..4 {
                stiffness[2 * e + i][2 * e + j] +=
                    bend[i][j] / (l * l * l) + foundation * l / 420.0 * rest[i][j];
            }
        }
    }
    let node_of = |x: f64| {
        nodes
            .iter()
            .position(|n| (n - x).abs() < 1e-9)
            .expect("every arm and station is a node")
    };
    for (i, rod) in rods.iter().enumerate() {
        let n = 2 * node_of(at_arm(i));
        stiffness[n][n] += kappa * rod;
    }
    let columns: Vec<Vec<f64>> = (0..arms)
        .map(|i| {
            let mut load = vec![0.0; size];
            load[2 * node_of(at_arm(i))] = kappa * rods[i];
            solve(stiffness.clone(), load)
        })
        .collect();
    stations
        .iter()
        .map(|x| columns.iter().map(|c| c[2 * node_of(*x)]).collect())
        .collect()
}

/// Gauss with row exchange.
fn solve(mut a: Vec<Vec<f64>>, mut b: Vec<f64>) -> Vec<f64> {
    let n = b.len();
    for c in 0..n {
        let pivot = (c..n)
            .max_by(|i, j| a[*i][c].abs().total_cmp(&a[*j][c].abs()))
            .unwrap_or(c);
        a.swap(c, pivot);
        b.swap(c, pivot);
        for r in c + 1..n {
            let f = a[r][c] / a[c][c];
            if f != 0.0 {
                let (top, bottom) = a.split_at_mut(r);
                for (x, y) in bottom[0].iter_mut().zip(&top[c]).skip(c) {
                    *x -= f * y;
                }
                b[r] -= f * b[c];
            }
        }
    }
    for c in (0..n).rev() {
        for j in c + 1..n {
            b[c] -= a[c][j] * b[j];
        }
        b[c] /= a[c][c];
    }
    b
}

/// A press and a test piece.
pub struct Case {
    pub kappa: f64,
    pub rho: f64,
    pub thickness: Vec<f64>,
    pub response: Response,
}

/// Kappa log-uniform on the given interval, rho uniform on [0, 0.3], rods
/// log-normal with 0.2, mean row sum one notch; deviations with a standard
/// deviation of 0.004 in.
pub fn draw(draw: &mut Draw, arms: usize, between: usize, kappa: (f64, f64)) -> Case {
    let stations: Vec<f64> = (0..=(arms - 1) * (between + 1))
        .map(|s| 0.5 + s as f64 / (between + 1) as f64)
        .collect();
    let kappa = libm::exp(draw.between(libm::log(kappa.0), libm::log(kappa.1)));
    let rho = draw.between(0.0, 0.3);
    let rods: Vec<f64> = (0..arms).map(|_| libm::exp(0.2 * draw.normal())).collect();
    let raw = influence(arms, &stations, kappa, rho, &rods);
    let mean = raw.iter().flatten().sum::<f64>() / stations.len() as f64;
    let response = Response::from_fn(stations.len(), arms, |s, a| raw[s][a] / mean * NOTCH_NM);
    let thickness = stations
        .iter()
        .map(|_| 6_350_000.0 + 101_600.0 * draw.normal())
        .collect();
    Case {
        kappa,
        rho,
        thickness,
        response,
    }
}
