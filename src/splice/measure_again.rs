//! What would settle a verdict that is too close to call.

use crate::units::Length;

/// A verdict at a chosen confidence.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Verdict {
    /// Inside the tolerance with the confidence.
    Inside,
    /// Outside the tolerance with the confidence.
    Outside,
    /// Neither.
    TooClose,
}

impl Verdict {
    /// The verdict for a chance of being inside. Both are between 0 and 1;
    /// anything else is too close to call.
    pub fn at(chance: f64, confidence: f64) -> Self {
        if chance >= confidence {
            Self::Inside
        } else if chance <= 1.0 - confidence {
            Self::Outside
        } else {
            Self::TooClose
        }
    }
}

/// A counting station as it was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReadStation {
    /// Which station.
    pub station: usize,
    /// Its mean, in nanometres.
    pub mean_nm: f64,
    /// How many readings that is the mean of; at least one.
    pub repeats: usize,
}

/// What is judged, and with what.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Judging<'a> {
    /// The counting stations that were read.
    pub stations: &'a [ReadStation],
    /// Step of the gauge.
    pub step: Length,
    /// The verdict as it stands.
    pub verdict: Verdict,
}

/// So many more readings of one station.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Again {
    /// The station.
    pub station: usize,
    /// How many more times.
    pub times: usize,
}

/// What would settle the verdict, and in what share of cases it would: new
/// readings may move the means, so nothing settles it for certain. What is
/// advised does in [`ENOUGH`] of them or more.
#[derive(Debug, Clone, PartialEq)]
pub enum Settling {
    /// It is settled already.
    Settled(Verdict),
    /// These readings would settle it.
    Readings {
        /// Which stations and how many more times.
        again: Vec<Again>,
        /// In what share of cases.
        cases: f64,
    },
    /// No reasonable number of readings of this piece would settle it, but a
    /// gauge with this step would, with two readings of every station.
    FinerGauge {
        /// The coarsest such step among those offered.
        step: Length,
        /// In what share of cases.
        cases: f64,
        /// Why readings with the present gauge would not.
        because: Unsettled,
    },
    /// Reading this piece further would not settle it, but so many further
    /// lacings, read alike, would.
    FurtherLacings {
        /// How many more.
        lacings: usize,
        /// In what share of cases.
        cases: f64,
    },
    /// The spread is so near the tolerance that nothing offered would settle
    /// it.
    AtTheLimit,
    /// The chance could not be reckoned: no stations, or numbers that are
    /// none.
    Unknown,
}

/// Why further readings would not settle a verdict.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unsettled {
    /// The gauge's step alone leaves too much doubt.
    Step,
    /// It would take more readings than anybody should take.
    TooManyReadings,
}

/// Advice settles the verdict in this share of cases at least: four in five.
pub const ENOUGH: f64 = 0.8;
/// Most further readings of one station that are asked for.
const MOST_AGAIN: usize = 8;
/// Most further readings of all stations together: twenty minutes at half a
/// minute each (common practice, no source), as long as another lacing takes.
const MOST_READINGS: usize = 40;
/// Most stations that further readings are dealt to, the farthest from the
/// middle between the thickest and the thinnest.
const MOST_OUTERMOST: usize = 8;
/// Readings without end.
const ENDLESS: usize = 1_000_000;
/// Readings of every station with a finer gauge that are reckoned with.
const FINER_REPEATS: usize = 2;

/// Works out the least effort that settles the verdict in [`ENOUGH`] of the
/// cases.
///
/// `variance(step, repeats)` must give the variance (nm^2) of the mean of so
/// many readings with the present gauge, or, where a step is given, with one of
/// that step; `settles(deviations)` the share of cases in which the verdict is
/// settled once the stations' means are known to these standard deviations (nm;
/// what it answers below [`ENOUGH`] need not be exact), or `None` where that
/// cannot be reckoned. `finer_steps` are the steps of gauges at hand.
///
/// Of the readings it is the fewest: for each number of outermost stations the
/// fewest readings of each, by halving, then fewer at single stations while
/// that is enough. A few dozen shares are reckoned at most.
pub fn settling(
    judging: &Judging<'_>,
    finer_steps: &[Length],
    variance: impl Fn(Option<Length>, usize) -> f64,
    settles: impl Fn(&[f64]) -> Option<f64>,
) -> Settling {
    let stations = judging.stations;
    if judging.verdict != Verdict::TooClose {
        return Settling::Settled(judging.verdict);
    }
    if stations.is_empty() || !stations.iter().all(|at| at.mean_nm.is_finite()) {
        return Settling::Unknown;
    }
    let weighing = Weighing {
        stations,
        variance,
        settles,
    };
    let endless = vec![ENDLESS; stations.len()];
    let Some(in_the_end) = weighing.with(&endless) else {
        return Settling::Unknown;
    };
    let because = if in_the_end < ENOUGH {
        Unsettled::Step
    } else if let Some((more, cases)) = weighing.fewest() {
        let again = stations.iter().zip(more).filter(|(_, times)| *times > 0);
        return Settling::Readings {
            again: again
                .map(|(at, times)| Again {
                    station: at.station,
                    times,
                })
                .collect(),
            cases,
        };
    } else {
        Unsettled::TooManyReadings
    };
    match weighing.finer_gauge(judging.step, finer_steps) {
        Some((step, cases)) => Settling::FinerGauge {
            step,
            cases,
            because,
        },
        None => Settling::AtTheLimit,
    }
}

struct Weighing<'a, V, F> {
    stations: &'a [ReadStation],
    variance: V,
    settles: F,
}

impl<V, F> Weighing<'_, V, F>
where
    V: Fn(Option<Length>, usize) -> f64,
    F: Fn(&[f64]) -> Option<f64>,
{
    /// The share of cases with so many more readings at each station.
    fn with(&self, more: &[usize]) -> Option<f64> {
        let deviations: Vec<f64> = self
            .stations
            .iter()
            .zip(more)
            .map(|(at, more)| (self.variance)(None, at.repeats.max(1) + more).sqrt())
            .collect();
        (self.settles)(&deviations)
    }

    /// The fewest further readings that are enough, and in what share of cases.
    fn fewest(&self) -> Option<(Vec<usize>, f64)> {
        let outermost = self.outermost();
        let deal = |stations: &[usize], times: usize| {
            let mut more = vec![0; self.stations.len()];
            stations.iter().for_each(|&station| more[station] = times);
            more
        };
        let mut best: Option<(Vec<usize>, f64)> = None;
        let mut fewest = MOST_READINGS + 1;
        for count in 1..=outermost.len() {
            let stations = &outermost[..count];
            // One reading fewer than the best so far, or it is no better.
            let mut most = MOST_AGAIN.min((fewest - 1) / count);
            if most == 0 {
                break;
            }
            let mut enough = deal(stations, most);
            let mut cases = self.with(&enough)?;
            if cases < ENOUGH {
                continue;
            }
            let mut too_few = 0;
            while most - too_few > 1 {
                let half = too_few.midpoint(most);
                let more = deal(stations, half);
                let share = self.with(&more)?;
                if share >= ENOUGH {
                    (most, enough, cases) = (half, more, share);
                } else {
                    too_few = half;
                }
            }
            fewest = most * count;
            best = Some((enough, cases));
        }
        let (mut more, mut cases) = best?;
        for &station in outermost.iter().rev() {
            while more[station] > 0 {
                more[station] -= 1;
                match self.with(&more)? {
                    share if share >= ENOUGH => cases = share,
                    _ => {
                        more[station] += 1;
                        break;
                    }
                }
            }
        }
        Some((more, cases))
    }

    /// The stations whose readings can move the chance most, the farthest out
    /// first.
    fn outermost(&self) -> Vec<usize> {
        let means = || self.stations.iter().map(|at| at.mean_nm);
        let thickest = means().fold(f64::NEG_INFINITY, f64::max);
        let middle = 0.5 * (thickest + means().fold(f64::INFINITY, f64::min));
        let mut outermost: Vec<usize> = (0..self.stations.len()).collect();
        let distance = |station: usize| (self.stations[station].mean_nm - middle).abs();
        outermost.sort_by(|&a, &b| distance(b).total_cmp(&distance(a)));
        outermost.truncate(MOST_OUTERMOST);
        outermost
    }

    /// The coarsest finer step that is enough.
    fn finer_gauge(&self, than: Length, steps: &[Length]) -> Option<(Length, f64)> {
        let mut finer: Vec<Length> = steps
            .iter()
            .copied()
            .filter(|step| Length::ZERO < *step && *step < than)
            .collect();
        finer.sort_unstable_by(|a, b| b.cmp(a));
        finer.into_iter().find_map(|step| {
            let deviation = (self.variance)(Some(step), FINER_REPEATS).sqrt();
            let cases = (self.settles)(&vec![deviation; self.stations.len()])?;
            (cases >= ENOUGH).then_some((step, cases))
        })
    }
}
