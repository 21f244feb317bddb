//! The gauge study: several knuckles, measured by one or more people in two
//! or three rounds.

use crate::splice::budget::combined;
use crate::splice::{Scatter, ScatterSource};
use crate::stats::{Component, Squares, TwoWay, mean};

/// The readings of a study: everybody measures every knuckle in every round.
#[derive(Debug, Clone, PartialEq)]
pub struct StudyTable {
    people: usize,
    rounds: usize,
    knuckles: usize,
    /// By person, round and knuckle, in nanometres.
    readings: Vec<Vec<Vec<f64>>>,
}

/// The figures of a study, as standard deviations in nanometres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GaugeStudy {
    /// One person, one knuckle, one reading to the next (EV).
    pub repeatability_nm: f64,
    /// One person to the next (AV), interaction included.
    pub people_nm: f64,
    /// Both together: what the gauge and its use scatter (GRR).
    pub gauge_nm: f64,
    /// One knuckle to the next (PV).
    pub knuckles_nm: f64,
    /// Degrees of freedom of the repeatability.
    pub dof: f64,
    /// What two readings of one person on different knuckles differ by besides
    /// the knuckles: repeatability and interaction. A person's own offset is
    /// in both and not in their difference.
    pub in_differences: Scatter,
    /// Whether people or knuckles came out below zero and are reckoned as
    /// zero.
    pub came_out_negative: bool,
    /// The interaction of people and knuckles, where it was tested.
    pub interaction: Option<Interaction>,
}

/// The test of the interaction of people and knuckles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interaction {
    /// Probability of so large an interaction from scatter alone.
    pub chance: f64,
    /// Whether it was pooled with the repeatability because scatter explains
    /// it (chance above 0.25).
    pub pooled: bool,
}

/// Interaction is pooled with the repeatability when scatter alone would make
/// one as large with more than this probability.
const POOLED_ABOVE: f64 = 0.25;

/// Constants of the average-and-range reckoning, each 1 / d2* rounded to four
/// digits as published (AIAG, Measurement Systems Analysis, 4th ed. 2010, data
/// sheet of the gauge study; d2* after Duncan, Quality Control and Industrial
/// Statistics, appendix). K1 for 2 and 3 rounds, d2* at many ranges.
const K1: [f64; 2] = [0.8862, 0.5908];
/// K2 for 2 and 3 people: one range of people's averages.
#[allow(clippy::approx_constant, reason = "published with four digits")]
const K2: [f64; 2] = [0.7071, 0.5231];
/// K3 for 2 to 10 knuckles: one range of knuckles' averages.
#[allow(clippy::approx_constant, reason = "published with four digits")]
const K3: [f64; 9] = [
    0.7071, 0.5231, 0.4467, 0.4030, 0.3742, 0.3534, 0.3375, 0.3249, 0.3146,
];

/// The factor of the published number of distinct categories.
const CATEGORIES: f64 = 1.41;

/// Largest reading taken, in nanometres: a kilometre.
const MOST_NM: f64 = 1e12;

impl StudyTable {
    /// A table of readings in nanometres by person, round and knuckle: 1 to 3
    /// people, 2 or 3 rounds, 2 to 10 knuckles, all counts equal and every
    /// reading a number within a kilometre; none of anything else.
    pub fn new(readings: Vec<Vec<Vec<f64>>>) -> Option<Self> {
        let rounds = readings.first()?.len();
        let knuckles = readings.first()?.first()?.len();
        let sound = |row: &Vec<f64>| {
            row.len() == knuckles && row.iter().all(|reading| reading.abs() <= MOST_NM)
        };
        let equal = |own: &Vec<Vec<f64>>| own.len() == rounds && own.iter().all(sound);
        let can_be = (1..=3).contains(&readings.len())
            && (2..=3).contains(&rounds)
            && (2..=10).contains(&knuckles)
            && readings.iter().all(equal);
        can_be.then_some(Self {
            people: readings.len(),
            rounds,
            knuckles,
            readings,
        })
    }

    fn reading(&self, person: usize, round: usize, knuckle: usize) -> f64 {
        self.readings[person][round][knuckle]
    }

    /// The average-and-range reckoning of the AIAG manual:
    /// EV = K1 R, AV^2 = (K2 X_diff)^2 - EV^2 / (knuckles rounds), PV = K3 R_p
    /// with R the mean range of a person's rounds of a knuckle, X_diff the
    /// range of people's averages and R_p that of knuckles' averages. With
    /// one person there is no AV.
    pub fn average_and_range(&self) -> GaugeStudy {
        let cell = |person: usize, knuckle: usize| {
            (0..self.rounds).map(move |round| self.reading(person, round, knuckle))
        };
        let ranges = (0..self.people)
            .flat_map(|person| (0..self.knuckles).map(move |knuckle| range(cell(person, knuckle))));
        let repeatability = constant(&K1, self.rounds) * mean(ranges);
        let person_means = (0..self.people)
            .map(|person| mean((0..self.knuckles).flat_map(move |knuckle| cell(person, knuckle))));
        let knuckle_means = (0..self.knuckles)
            .map(|knuckle| mean((0..self.people).flat_map(move |person| cell(person, knuckle))));
        let between_people = if self.people > 1 {
            let apart = constant(&K2, self.people) * range(person_means);
            let readings_each = (self.knuckles * self.rounds) as f64;
            apart * apart - repeatability * repeatability / readings_each
        } else {
            0.0
        };
        let knuckles = constant(&K3, self.knuckles) * range(knuckle_means);
        GaugeStudy::from_parts(
            repeatability * repeatability,
            between_people,
            knuckles * knuckles,
        )
        .with_freedom((self.people * self.knuckles * (self.rounds - 1)) as f64)
    }

    /// The analysis of variance of the AIAG manual, random effects: knuckles
    /// crossed with people. The interaction is pooled with the repeatability
    /// when its F test gives more than 0.25; otherwise it counts with the
    /// people. With one person it is a one-way analysis over knuckles.
    pub fn analysis_of_variance(&self) -> GaugeStudy {
        let cells: Vec<Vec<Vec<f64>>> = (0..self.knuckles)
            .map(|knuckle| {
                (0..self.people)
                    .map(|person| {
                        (0..self.rounds)
                            .map(|round| self.reading(person, round, knuckle))
                            .collect()
                    })
                    .collect()
            })
            .collect();
        // The constructor has made the table balanced and finite.
        let nothing = Squares { sum: 0.0, dof: 0.0 };
        let table = TwoWay::of(&cells).unwrap_or(TwoWay {
            rows: nothing,
            columns: nothing,
            interaction: nothing,
            within: nothing,
        });
        let rounds = self.rounds;
        let tested = table.interaction.f_over(&table.within);
        let pooled = tested.is_none_or(|(_, chance)| chance > POOLED_ABOVE);
        let (scatter, below) = if pooled {
            let pool = table.within.pooled(&table.interaction);
            (pool, pool)
        } else {
            (table.within, table.interaction)
        };
        let people = Component::between(&table.columns, &below, self.knuckles * rounds);
        let knuckles = Component::between(&table.rows, &below, self.people * rounds);
        let interaction = Component::between(&below, &scatter, rounds);
        let in_differences = in_differences(&scatter, &below, rounds);
        let mut study = GaugeStudy::from_parts(
            scatter.mean(),
            people_variance(self.people, people, interaction),
            knuckles.raw_variance,
        )
        .with_freedom(scatter.dof);
        study.in_differences = in_differences;
        study.came_out_negative |= self.people > 1 && people.came_out_negative();
        study.interaction = tested.map(|(_, chance)| Interaction { chance, pooled });
        study
    }
}

/// Repeatability and interaction together: E + (I - E) / rounds of the mean
/// squares E within cells and I of the interaction, with the degrees of freedom
/// of Satterthwaite, Biometrics Bulletin 2 (1946) 110:
///
/// v^2 / sum of (weight x mean square)^2 / freedom.
///
/// Pooled, both mean squares are one.
fn in_differences(within: &Squares, interaction: &Squares, rounds: usize) -> Scatter {
    if within == interaction {
        return checked(within.mean().sqrt(), within.dof);
    }
    let share = 1.0 / rounds as f64;
    let parts = [(1.0 - share, within), (share, interaction)].into_iter();
    let (sd_nm, dof) =
        combined(parts.map(|(share, squares)| ((share * squares.mean()).sqrt(), squares.dof)));
    checked(sd_nm, dof)
}

/// A scatter found by a check.
fn checked(sd_nm: f64, dof: f64) -> Scatter {
    Scatter {
        sd_nm,
        dof: dof.max(1.0),
        source: ScatterSource::GaugeCheck,
    }
}

fn people_variance(people: usize, between: Component, interaction: Component) -> f64 {
    if people > 1 {
        between.variance() + interaction.variance()
    } else {
        0.0
    }
}

impl GaugeStudy {
    fn from_parts(repeats: f64, people: f64, knuckles: f64) -> Self {
        let gauge = repeats + people.max(0.0);
        Self {
            repeatability_nm: repeats.sqrt(),
            people_nm: people.max(0.0).sqrt(),
            gauge_nm: gauge.sqrt(),
            knuckles_nm: knuckles.max(0.0).sqrt(),
            dof: 0.0,
            in_differences: checked(repeats.sqrt(), 0.0),
            came_out_negative: people < 0.0 || knuckles < 0.0,
            interaction: None,
        }
    }

    fn with_freedom(mut self, dof: f64) -> Self {
        self.dof = dof;
        self.in_differences = checked(self.repeatability_nm, dof);
        self
    }

    /// How many groups of knuckles the gauge tells apart: 1.41 PV / GRR,
    /// rounded down; `None` when the gauge does not scatter at all.
    pub fn categories(&self) -> Option<f64> {
        (self.gauge_nm > 0.0).then(|| (CATEGORIES * self.knuckles_nm / self.gauge_nm).floor())
    }
}

/// The constant for a count of two or more; tables end where the constructor
/// does.
fn constant(table: &[f64], count: usize) -> f64 {
    count
        .checked_sub(2)
        .and_then(|index| table.get(index))
        .copied()
        .unwrap_or(0.0)
}

fn range(values: impl Iterator<Item = f64> + Clone) -> f64 {
    let most = values.clone().fold(f64::NEG_INFINITY, f64::max);
    let least = values.fold(f64::INFINITY, f64::min);
    if most >= least { most - least } else { 0.0 }
}
