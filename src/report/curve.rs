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
    let Ok(spline) = NaturalSpline::new(&xs) else {
        return nothing;
    };
    let Ok(smooth) = spline.curve(&ys) else {
        return nothing;
    };
    let piece = |from: f64, to: f64, points: usize| -> Vec<[f64; 2]> {
        (0..points)
            .map(|index| from + (to - from) * index as f64 / (points - 1) as f64)
            .map(|x| [x, smooth.at(x)])
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
