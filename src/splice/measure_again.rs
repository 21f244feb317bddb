//! What would settle a verdict that is too close to call.

use crate::units::Length;

use super::budget::MeanVariance;
use super::scatter::assumed_repeatability_nm;

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
    /// Standard deviation of one reading with its rounding, nm.
    pub repeatability_nm: f64,
    /// Step of the gauge.
    pub step: Length,
    /// Scatter from lacing to lacing, nm; zero when this piece is judged and
    /// not the press.
    pub lacing_nm: f64,
    /// Tolerance on the spread.
    pub tolerance: Length,
    /// Confidence asked for, above 0.5 and below 1.
    pub confidence: f64,
}

/// So many more readings of one station.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Again {
    /// The station.
    pub station: usize,
    /// How many more times.
    pub times: usize,
}

/// What would settle the verdict.
///
/// Every answer assumes that the means stay where they are; new readings may
/// move them, so it is the likely effort, not a promise.
#[derive(Debug, Clone, PartialEq)]
pub enum Settling {
    /// It is settled already.
    Settled(Verdict),
    /// These readings would settle it.
    Readings {
        /// Which stations and how many more times.
        again: Vec<Again>,
        /// What they would settle it to.
        to: Verdict,
    },
    /// No reasonable number of readings of this piece would settle it, but a
    /// gauge with this step would, with two readings of every station.
    FinerGauge {
        /// The coarsest such step among those offered.
        step: Length,
        /// What it would settle it to.
        to: Verdict,
        /// Why readings with the present gauge would not.
        because: Unsettled,
    },
    /// Reading this piece further would not settle it, but so many further
    /// lacings, read alike, would.
    FurtherLacings {
        /// How many more.
        lacings: usize,
        /// What they would settle it to.
        to: Verdict,
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

/// Most further readings of one station that are asked for.
const MOST_AGAIN: usize = 8;
/// Most further readings of all stations together.
const MOST_READINGS: usize = 40;
/// Most stations that further readings are dealt to, half of them thick ones
/// and half thin ones.
const MOST_OUTERMOST: usize = 8;
/// Most further lacings that are asked for.
const MOST_LACINGS: usize = 5;
/// Readings of every station with a finer gauge that are reckoned with.
const FINER_REPEATS: usize = 2;

/// Works out what would settle the verdict.
///
/// `chance(means, deviations, limit)` must give the probability that the range
/// of independent normal values with these means and standard deviations is
/// at most `limit`, or `None`; `finer_steps` are the steps of gauges at hand.
///
/// The variance of a station mean is lacing^2 and that of [`MeanVariance`].
/// First the limit of endless readings is looked at; only if it
/// settles the verdict are readings dealt out, each to the station where it
/// moves the chance most, and in the end those that were not needed are taken
/// back. At most about 400 chances are reckoned; of 40 stations that takes
/// seconds, so it is nothing for the thread that draws.
pub fn settling(
    judging: &Judging<'_>,
    finer_steps: &[Length],
    chance: impl Fn(&[f64], &[f64], f64) -> Option<f64>,
) -> Settling {
    let weighing = Weighing { judging, chance };
    let none = vec![0; judging.stations.len()];
    let (Some(now), Some(in_the_end)) = (weighing.with(&none), weighing.in_the_end()) else {
        return Settling::Unknown;
    };
    if now.verdict != Verdict::TooClose {
        return Settling::Settled(now.verdict);
    }
    let because = if in_the_end.verdict == Verdict::TooClose {
        Unsettled::Step
    } else if let Some(again) = weighing.deal_out(in_the_end.verdict) {
        return Settling::Readings {
            again,
            to: in_the_end.verdict,
        };
    } else {
        Unsettled::TooManyReadings
    };
    if let Some((lacings, to)) = weighing.further_lacings() {
        return Settling::FurtherLacings { lacings, to };
    }
    match weighing.finer_gauge(finer_steps) {
        Some((step, to)) => Settling::FinerGauge { step, to, because },
        None => Settling::AtTheLimit,
    }
}

struct Weighing<'a, F> {
    judging: &'a Judging<'a>,
    chance: F,
}

struct Weighed {
    chance: f64,
    verdict: Verdict,
}

impl<F: Fn(&[f64], &[f64], f64) -> Option<f64>> Weighing<'_, F> {
    /// The verdict with the stations' variances given.
    fn at(&self, variance: impl Fn(usize, &ReadStation) -> f64) -> Option<Weighed> {
        let stations = self.judging.stations;
        let means: Vec<f64> = stations.iter().map(|station| station.mean_nm).collect();
        let deviations: Vec<f64> = stations
            .iter()
            .enumerate()
            .map(|(index, station)| variance(index, station).sqrt())
            .collect();
        let sound = !means.is_empty() && means.iter().chain(&deviations).all(|x| x.is_finite());
        let limit = self.judging.tolerance.nm_f64();
        let chance = sound.then(|| (self.chance)(&means, &deviations, limit))??;
        Some(Weighed {
            chance,
            verdict: Verdict::at(chance, self.judging.confidence),
        })
    }

    /// The variance of a station mean of so many readings with a gauge.
    fn variance(&self, repeatability_nm: f64, step: Length, repeats: usize) -> f64 {
        let read = MeanVariance::of(repeatability_nm, step.nm_f64(), repeats);
        self.lacing_variance() + read.total_nm2()
    }

    fn read(&self, repeats: usize) -> f64 {
        self.variance(self.judging.repeatability_nm, self.judging.step, repeats)
    }

    fn lacing_variance(&self) -> f64 {
        self.judging.lacing_nm * self.judging.lacing_nm
    }

    fn with(&self, more: &[usize]) -> Option<Weighed> {
        self.at(|index, station| {
            let more = more.get(index).copied().unwrap_or(0);
            self.read(station.repeats.max(1) + more)
        })
    }

    /// With what no reading of this piece takes away.
    fn in_the_end(&self) -> Option<Weighed> {
        let (sd_nm, step) = (self.judging.repeatability_nm, self.judging.step);
        let read = MeanVariance::of(sd_nm, step.nm_f64(), 1);
        self.at(|_, _| self.lacing_variance() + read.stays_nm2)
    }

    /// Readings that settle the verdict to `to`, one after the other where
    /// each helps most; `None` when the limits are reached first.
    fn deal_out(&self, to: Verdict) -> Option<Vec<Again>> {
        let stations = self.judging.stations.len();
        let outermost = self.outermost();
        let mut more = vec![0; stations];
        while self.with(&more)?.verdict != to {
            if more.iter().sum::<usize>() >= MOST_READINGS {
                return None;
            }
            let mut best: Option<(usize, f64)> = None;
            for &station in &outermost {
                if more[station] >= MOST_AGAIN {
                    continue;
                }
                more[station] += 1;
                let chance = self.with(&more)?.chance;
                more[station] -= 1;
                let towards = match to {
                    Verdict::Inside => chance,
                    Verdict::Outside | Verdict::TooClose => -chance,
                };
                if best.is_none_or(|(_, most)| towards > most) {
                    best = Some((station, towards));
                }
            }
            more[best?.0] += 1;
        }
        for station in 0..stations {
            while more[station] > 0 {
                more[station] -= 1;
                if self.with(&more)?.verdict != to {
                    more[station] += 1;
                    break;
                }
            }
        }
        let again = self.judging.stations.iter().zip(more);
        Some(
            again
                .filter(|(_, times)| *times > 0)
                .map(|(at, times)| Again {
                    station: at.station,
                    times,
                })
                .collect(),
        )
    }

    /// The stations whose readings can move the chance most: the thickest and
    /// the thinnest few, in their order along the jaw.
    fn outermost(&self) -> Vec<usize> {
        let stations = self.judging.stations;
        let mut by_mean: Vec<usize> = (0..stations.len()).collect();
        by_mean.sort_by(|&a, &b| stations[a].mean_nm.total_cmp(&stations[b].mean_nm));
        let thickest = by_mean.len().saturating_sub(MOST_OUTERMOST / 2);
        let mut outermost: Vec<usize> = by_mean
            .iter()
            .enumerate()
            .filter(|(rank, _)| *rank < MOST_OUTERMOST / 2 || *rank >= thickest)
            .map(|(_, &station)| station)
            .collect();
        outermost.sort_unstable();
        outermost
    }

    /// The fewest further lacings that settle it, where lacing scatter is
    /// judged at all: the mean of several lacings, each read alike. Whole
    /// pieces differ by more than a step, so the step averages as well.
    fn further_lacings(&self) -> Option<(usize, Verdict)> {
        if self.judging.lacing_nm <= 0.0 {
            return None;
        }
        (1..=MOST_LACINGS).find_map(|lacings| {
            let weighed =
                self.at(|_, station| self.read(station.repeats) / (lacings + 1) as f64)?;
            (weighed.verdict != Verdict::TooClose).then_some((lacings, weighed.verdict))
        })
    }

    /// The coarsest finer step that settles it.
    fn finer_gauge(&self, steps: &[Length]) -> Option<(Length, Verdict)> {
        let mut finer: Vec<Length> = steps
            .iter()
            .copied()
            .filter(|step| Length::ZERO < *step && *step < self.judging.step)
            .collect();
        finer.sort_unstable_by(|a, b| b.cmp(a));
        finer.into_iter().find_map(|step| {
            let assumed = assumed_repeatability_nm(step.nm_f64());
            let weighed = self.at(|_, _| self.variance(assumed, step, FINER_REPEATS))?;
            (weighed.verdict != Verdict::TooClose).then_some((step, weighed.verdict))
        })
    }
}
