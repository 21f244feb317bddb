//! Temporary: the jaw as a beam, until the press room has its own.

/// Rows for `places`, columns for arms; row-major.
pub fn influence(
    arms: &[f64],
    places: &[f64],
    jaw: (f64, f64),
    kappa: f64,
    rho: f64,
    rods: &[f64],
) -> Option<Vec<f64>> {
    let mut nodes: Vec<f64> = arms.iter().chain(places).copied().collect();
    nodes.push(jaw.0);
    nodes.push(jaw.1);
    nodes.sort_by(f64::total_cmp);
    nodes.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    let n = nodes.len() * 2;
    const W: usize = 4;
    let mut band = vec![0.0; n * W]; // band[i*W + (i-j)], j<=i
    let a = (arms[arms.len() - 1] - arms[0]) / (arms.len() as f64 - 1.0).max(1.0);
    let ei = a * a * a / kappa;
    let kf = rho / a;
    for e in 0..nodes.len() - 1 {
        let l = nodes[e + 1] - nodes[e];
        let b = ei / (l * l * l);
        let f = kf * l / 420.0;
        let k = [
            [12.0, 6.0 * l, -12.0, 6.0 * l],
            [6.0 * l, 4.0 * l * l, -6.0 * l, 2.0 * l * l],
            [-12.0, -6.0 * l, 12.0, -6.0 * l],
            [6.0 * l, 2.0 * l * l, -6.0 * l, 4.0 * l * l],
        ];
        let m = [
            [156.0, 22.0 * l, 54.0, -13.0 * l],
            [22.0 * l, 4.0 * l * l, 13.0 * l, -3.0 * l * l],
            [54.0, 13.0 * l, 156.0, -22.0 * l],
            [-13.0 * l, -3.0 * l * l, -22.0 * l, 4.0 * l * l],
        ];
        for i in 0..4 {
            for j in 0..=i {
                band[(2 * e + i) * W + (i - j)] += b * k[i][j] + f * m[i][j];
            }
        }
    }
    let find = |x: f64| nodes.iter().position(|n| (n - x).abs() < 1e-9).unwrap_or(0);
    let at: Vec<usize> = arms.iter().map(|&x| find(x)).collect();
    for (i, &node) in at.iter().enumerate() {
        band[2 * node * W] += rods[i];
    }
    for i in 0..n {
        for j in i.saturating_sub(3)..=i {
            let mut sum = band[i * W + i - j];
            for k in i.saturating_sub(3).max(j.saturating_sub(3))..j {
                sum -= band[i * W + i - k] * band[j * W + j - k];
            }
            if i == j {
                if !(sum > 0.0) {
                    return None;
                }
                band[i * W] = sum.sqrt();
            } else {
                band[i * W + i - j] = sum / band[j * W];
            }
        }
    }
    let mut out = vec![0.0; places.len() * arms.len()];
    let mut x = vec![0.0; n];
    let rows: Vec<usize> = places.iter().map(|&p| find(p)).collect();
    for (arm, &node) in at.iter().enumerate() {
        x.fill(0.0);
        x[2 * node] = rods[arm];
        for i in 0..n {
            let mut sum = x[i];
            for k in i.saturating_sub(3)..i {
                sum -= band[i * W + i - k] * x[k];
            }
            x[i] = sum / band[i * W];
        }
        for i in (0..n).rev() {
            let mut sum = x[i];
            for k in i + 1..(i + 4).min(n) {
                sum -= band[k * W + k - i] * x[k];
            }
            x[i] = sum / band[i * W];
        }
        for (s, &node) in rows.iter().enumerate() {
            out[s * arms.len() + arm] = x[2 * node];
        }
    }
    Some(out)
}
