//! Curves through station means.

use crate::press::NaturalSpline;

/// Points of a drawn curve.
const CURVE_POINTS: usize = 161;

/// Parts of a curve, each a list of points.
pub type Pieces = Vec<Vec<[f64; 2]>>;

/// The natural spline through the read stations: the parts between them, and
/// the parts that no reading vouches for, beyond them and across a station that
/// was not read.
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
    let mut beyond: Pieces = [(0.0, first), (last, jaw_nm)]
        .into_iter()
        .filter(|(from, to)| to > from)
        .map(|(from, to)| piece(from, to, 2))
        .collect();
    let mut between = Pieces::new();
    let mut from = first;
    for (here, next) in xs.iter().zip(xs.iter().skip(1)) {
        let unread = |(at, mean): (&f64, &Option<f64>)| mean.is_none() && here < at && at < next;
        if stations_nm.iter().zip(means).any(unread) {
            if *here > from {
                between.push(piece(from, *here, CURVE_POINTS));
            }
            beyond.push(piece(*here, *next, CURVE_POINTS));
            from = *next;
        }
    }
    if last > from {
        between.push(piece(from, last, CURVE_POINTS));
    }
    (between, beyond)
}

/// The whole curve from one end of the jaw to the other; empty before two
/// stations are read.
pub fn profile_curve(stations_nm: &[f64], means: &[Option<f64>], jaw_nm: f64) -> Vec<[f64; 2]> {
    let (between, beyond) = curve(stations_nm, means, jaw_nm);
    let mut points: Vec<[f64; 2]> = between.into_iter().chain(beyond).flatten().collect();
    points.sort_by(|a, b| a[0].total_cmp(&b[0]));
    points
}
