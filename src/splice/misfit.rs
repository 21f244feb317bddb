//! Readings and stations that do not fit the others. They are marked and
//! kept; the user decides.

use crate::units::Length;

use super::budget::{MeanVariance, step_u_nm};
use super::measured::STANDS_OUT;
use super::{Cell, Pooled, Sample, Scatter, StationMean};
use crate::stats::median;
use crate::stats::student_critical;
use crate::stats::{Furthest, generalised_esd, grubbs};

/// Something that does not fit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Misfit {
    /// The station.
    pub station: usize,
    /// The reading among its cells; `None` for the station as a whole.
    pub repeat: Option<usize>,
    /// Why.
    pub why: WhyMisfit,
}

/// Why something does not fit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum WhyMisfit {
    /// Too far from the other readings of its station by Grubbs' test, or its
    /// generalised form from 15 readings up.
    AmongRepeats(Furthest),
    /// Further from the other readings of its station than readings scatter
    /// at the other stations; both of a pair, since either may be wrong.
    Disagrees {
        /// Distance from the mean of the others, in nanometres.
        apart_nm: f64,
        /// What scatter alone exceeds in one pass of sixty.
        allowed_nm: f64,
    },
    /// The station is too far from the other stations by Grubbs' test.
    AmongStations(Furthest),
}

/// Probability of a mark in a pass where there is but scatter, shared evenly
/// (Bonferroni) among the three tests that make marks; each shares it further
/// among the stations or readings it looks at.
const ALPHA: f64 = 0.05 / 3.0;

/// Fewest readings that Grubbs' test takes.
const FEWEST_FOR_GRUBBS: usize = 3;

/// Repeats from which several strays are looked for at once.
const SEVERAL_FROM: usize = 15;

/// Most strays looked for among the repeats of one station.
const MOST_STRAYS: usize = 3;

/// Fewest stations that are compared with each other. Of three, two are
/// nearly always much closer to each other than to the third.
const FEWEST_STATIONS: usize = 4;

/// Everything that does not fit in one pass; `rows` are its cells by station,
/// struck and unreadable ones left out of account, slips of the keyboard taken
/// out before ([`doubtful`](super::doubtful)), `counts` says which
/// stations count towards the spread.
///
/// Per reading the first reason that holds is given, in the order of
/// [`WhyMisfit`]. The comparison with the scatter at other stations is a
/// Student test of the externally studentised deviation with the probability
/// shared among all readings (Barnett & Lewis, Outliers in Statistical Data,
/// 3rd ed. 1994, chapter 6):
///
/// |x - mean of others| <= t(alpha / readings; f) s sqrt(n / (n - 1)),
///
/// with s and f from [`Scatter::of_gauge`] over the other stations.
pub fn misfits(
    rows: &[Vec<Cell>],
    counts: &[bool],
    stated: Option<Scatter>,
    step: Length,
) -> Vec<Misfit> {
    let stations: Vec<Vec<(usize, Length)>> = rows.iter().map(|row| counting(row)).collect();
    let all: usize = stations.iter().map(Vec::len).sum();
    let tested = stations.iter().filter(|own| own.len() >= FEWEST_FOR_GRUBBS);
    let alpha_each = ALPHA / tested.count().max(1) as f64;
    let mut found = Vec::new();
    for (station, own) in stations.iter().enumerate() {
        let others = stations.iter().enumerate().filter(|(at, _)| *at != station);
        let others: Vec<&Vec<(usize, Length)>> = others.map(|(_, readings)| readings).collect();
        let scatter = Scatter::of_gauge(stated, pooled(&others), step.nm_f64());
        let mut whys: Vec<Option<WhyMisfit>> = vec![None; own.len()];
        for (index, stray) in strays(own, step, alpha_each) {
            if let Some(why) = whys.get_mut(index) {
                *why = Some(WhyMisfit::AmongRepeats(stray));
            }
        }
        for (index, why) in disagreeing(own, scatter, step, all) {
            if let Some(place) = whys.get_mut(index) {
                place.get_or_insert(why);
            }
        }
        let marked = own.iter().zip(whys);
        found.extend(marked.filter_map(|(&(repeat, _), why)| {
            let repeat = Some(repeat);
            why.map(|why| Misfit {
                station,
                repeat,
                why,
            })
        }));
    }
    found.extend(stray_station(rows, counts, stated, step));
    found
}

fn counting(row: &[Cell]) -> Vec<(usize, Length)> {
    let cells = row.iter().enumerate();
    cells
        .filter_map(|(repeat, cell)| Some((repeat, cell.counting()?.typed.length())))
        .collect()
}

fn pooled(stations: &[&Vec<(usize, Length)>]) -> Pooled {
    let samples = stations.iter();
    Pooled::of(
        samples.filter_map(|readings| Sample::of(readings.iter().map(|(_, length)| *length))),
    )
}

/// Strays among the repeats of one station: their places among `own`.
fn strays(own: &[(usize, Length)], step: Length, alpha: f64) -> Vec<(usize, Furthest)> {
    let values: Vec<f64> = own.iter().map(|(_, length)| length.nm_f64()).collect();
    let rounding = step_u_nm(step);
    let found = if values.len() >= SEVERAL_FROM {
        generalised_esd(&values, rounding, MOST_STRAYS, alpha)
    } else {
        grubbs(&values, rounding, alpha)
            .filter(Furthest::does_not_fit)
            .into_iter()
            .collect()
    };
    found
        .into_iter()
        .map(|stray| (stray.index, stray))
        .collect()
}

/// The reading furthest from the mean of the others of its station, when it
/// disagrees; of a pair, both.
fn disagreeing(
    own: &[(usize, Length)],
    scatter: Scatter,
    step: Length,
    all: usize,
) -> Vec<(usize, WhyMisfit)> {
    let count = own.len();
    if count < 2 {
        return Vec::new();
    }
    let n = count as f64;
    let Some(t) = student_critical(ALPHA / all.max(1) as f64, scatter.dof) else {
        return Vec::new();
    };
    let reading = MeanVariance::of(scatter.sd_nm, step.nm_f64(), 1).total_nm2();
    let allowed_nm = t * (reading * n / (n - 1.0)).sqrt();
    let origin = own.first().map_or(0.0, |(_, length)| length.nm_f64());
    let sum: f64 = own.iter().map(|(_, length)| length.nm_f64() - origin).sum();
    let apart = own.iter().enumerate().map(|(index, (_, length))| {
        let value = length.nm_f64() - origin;
        (index, (value - (sum - value) / (n - 1.0)).abs())
    });
    let apart: Vec<(usize, f64)> = apart.collect();
    let most = apart
        .iter()
        .fold(0.0_f64, |most, (_, apart)| most.max(*apart));
    apart
        .into_iter()
        .filter(|(_, apart_nm)| *apart_nm > allowed_nm && *apart_nm >= most * (1.0 - 1e-12))
        .map(|(index, apart_nm)| {
            (
                index,
                WhyMisfit::Disagrees {
                    apart_nm,
                    allowed_nm,
                },
            )
        })
        .collect()
}

/// The counting station furthest from the others, when it does not fit, by
/// more than its own uncertainty.
fn stray_station(
    rows: &[Vec<Cell>],
    counts: &[bool],
    stated: Option<Scatter>,
    step: Length,
) -> Option<Misfit> {
    let means: Vec<(usize, StationMean)> = rows
        .iter()
        .zip(counts)
        .enumerate()
        .filter(|(_, (_, counts))| **counts)
        .filter_map(|(station, (row, _))| Some((station, StationMean::of(row)?)))
        .collect();
    if means.len() < FEWEST_STATIONS {
        return None;
    }
    let values: Vec<f64> = means.iter().map(|(_, mean)| mean.mean.nm_f64()).collect();
    let stray = grubbs(&values, step_u_nm(step), ALPHA).filter(Furthest::does_not_fit)?;
    let (station, mean) = means.get(stray.index)?;
    let samples = rows
        .iter()
        .map(|row| Sample::of(counting(row).into_iter().map(|(_, l)| l)));
    let scatter = Scatter::of_gauge(stated, Pooled::of(samples.flatten()), step.nm_f64());
    let u = MeanVariance::of(scatter.sd_nm, step.nm_f64(), mean.repeats);
    let u = u.total_nm2().sqrt();
    let away = (mean.mean.nm_f64() - median(values)?).abs();
    (away > STANDS_OUT * u).then_some(Misfit {
        station: *station,
        repeat: None,
        why: WhyMisfit::AmongStations(stray),
    })
}
