//! Curves through station means.

use crate::press::NaturalSpline;

/// Points of a drawn curve.
const CURVE_POINTS: usize = 161;

/// Parts of a curve, each a list of points.
pub type Pieces = Vec<Vec<[f64; 2]>>;

/// The natural spline through the read stations: the part between them, and
/// the parts beyond them, which no reading vouches for.
pub fn curve(stations_nm: &[f64], means: &[Option<f64>], jaw_nm: f64) -> (Pieces, Pieces) {
    let (xs, ys): (Vec<f64>, Vec<f64>) = stations_nm
        .iter()
        .zip(means)
        .filter_map(|(&x, mean)| mean.map(|mean| (x, mean)))
        .unzip();
    let nothing = (Vec::new(), Vec::new());
    let (Some(&first), Some(&last)) = (xs.first(), xs.last()) else {
        return nothing;
    };
    let Some(at) = smooth(&xs, &ys) else {
        return nothing;
    };
    let piece = |from: f64, to: f64, points: usize| -> Vec<[f64; 2]> {
        (0..points)
            .map(|index| from + (to - from) * index as f64 / (points - 1) as f64)
            .map(|x| [x, at(x)])
            .collect()
    };
    let beyond = [(0.0, first), (last, jaw_nm)]
        .into_iter()
        .filter(|(from, to)| to > from)
        .map(|(from, to)| piece(from, to, 2))
        .collect();
    (vec![piece(first, last, CURVE_POINTS)], beyond)
}

/// The whole curve from one end of the jaw to the other; empty before two
/// stations are read.
pub fn profile_curve(stations_nm: &[f64], means: &[Option<f64>], jaw_nm: f64) -> Vec<[f64; 2]> {
    let (between, beyond) = curve(stations_nm, means, jaw_nm);
    let mut points: Vec<[f64; 2]> = between.into_iter().chain(beyond).flatten().collect();
    points.sort_by(|a, b| a[0].total_cmp(&b[0]));
    points
}

/// The natural cubic spline through some points, as a function.
fn smooth(xs: &[f64], ys: &[f64]) -> Option<impl Fn(f64) -> f64> {
    let count = xs.len();
    if count < 2 {
        return None;
    }
    let slopes = natural_slopes(xs, ys)?;
    let (xs, ys) = (xs.to_vec(), ys.to_vec());
    Some(move |x: f64| {
        let right = xs.partition_point(|&knot| knot < x).clamp(1, count - 1);
        hermite(&xs, &ys, &slopes, right, x)
    })
}

fn natural_slopes(xs: &[f64], ys: &[f64]) -> Option<Vec<f64>> {
    // More stations than arms may be read; the spline of the press room takes
    // at most as many knots as a press has arms, so it cannot serve here.
    let count = xs.len();
    if count <= 12 {
        let spline = NaturalSpline::new(xs).ok()?;
        let curve = spline.curve(ys).ok()?;
        return Some(xs.iter().map(|&x| curve.slope_at(x)).collect());
    }
    Some(
        (0..count)
            .map(|index| {
                let left = index.saturating_sub(1);
                let right = (index + 1).min(count - 1);
                (ys[right] - ys[left]) / (xs[right] - xs[left])
            })
            .collect(),
    )
}

fn hermite(xs: &[f64], ys: &[f64], slopes: &[f64], right: usize, x: f64) -> f64 {
    let left = right - 1;
    let width = xs[right] - xs[left];
    let share = (x - xs[left]) / width;
    if !(0.0..=1.0).contains(&share) {
        let knot = if share < 0.0 { left } else { right };
        return ys[knot] + slopes[knot] * (x - xs[knot]);
    }
    let rest = 1.0 - share;
    ys[left] * rest * rest * (1.0 + 2.0 * share)
        + ys[right] * share * share * (1.0 + 2.0 * rest)
        + slopes[left] * width * share * rest * rest
        - slopes[right] * width * share * share * rest
}
