//! How far the readings of a session can be trusted: what the rooms below
//! say, asked with this session's gauge and passes.

use crate::splice::{
    BeltVariation, Budget, Cell, Drift, DriftProblem, FlipProblem, FlipStation, FlipTest,
    GaugeShare, LacedAgain, LacedAlike, LacingStudy, LevelStanding, MeanVariance, Measured, Misfit,
    Pooled, Profile, Sample, Scatter, Shape, StationMean, StudiedOn, TimedReading, Walk, misfits,
    station_budgets,
};
use crate::units::Length;

use super::{KnownScatter, Pass, Session};

/// How many standard uncertainties of the spread beyond the tolerance a single
/// reading is not yet trusted to be outside.
const NEAR_THE_LIMIT: f64 = 2.0;

/// Whose spread an uncertainty is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Whose {
    /// This piece: only the gauge is in doubt.
    Piece,
    /// This press: another lacing would come out differently too.
    Press,
}

impl Session {
    /// Scatter of repeated readings, pooled over every station of every pass;
    /// about the drift where the order of the readings is known.
    pub fn pooled_repeats(&self) -> Pooled {
        let passes = 0..self.passes.len();
        passes
            .map(|pass| self.repeats_of(pass))
            .fold(Pooled::default(), Pooled::and)
    }

    /// The cells of a pass, empty where a reading is doubtful.
    fn rows_without_doubts(&self, pass: usize) -> Vec<Vec<Cell>> {
        let laced = self.passes.get(pass);
        let mut rows = laced.map_or_else(Vec::new, |laced| laced.rows.clone());
        for doubt in self.gate(pass).doubtful {
            let row = rows.get_mut(doubt.station);
            if let Some(cell) = row.and_then(|row| row.get_mut(doubt.repeat)) {
                *cell = Cell::Empty;
            }
        }
        rows
    }

    fn repeats_of(&self, pass: usize) -> Pooled {
        if let Some(Ok(drift)) = self.drift(pass) {
            return drift.residuals;
        }
        let rows = self.rows_without_doubts(pass);
        Pooled::of(rows.iter().filter_map(|row| {
            let counting = row.iter().filter_map(Cell::counting);
            Sample::of(counting.map(|reading| reading.typed.length()))
        }))
    }

    /// The repeatability readings are judged with: the gauge's own where it
    /// is known, else from the repeats of this session.
    pub fn repeatability(&self) -> Scatter {
        Scatter::of_gauge(
            self.gauge.stated_scatter(),
            self.pooled_repeats(),
            self.gauge.step.length().nm_f64(),
        )
    }

    /// The scatter from one lacing to the next: what is known, what passes
    /// laced again without a turn show, and what is customarily assumed.
    pub fn lacing(&self) -> Scatter {
        let known = self.lacing_scatter.as_ref();
        Scatter::of_lacing(known.map(KnownScatter::scatter), self.laced_again())
    }

    /// What passes that follow each other without a turn, a handle move or a
    /// flip say of the lacing scatter.
    fn laced_again(&self) -> LacedAgain {
        let passes = &self.passes;
        let alike = |a: &Pass, b: &Pass| {
            let known = !a.nut_lost && !b.nut_lost;
            known && a.nuts == b.nuts && b.handle.is_none() && !b.flipped
        };
        let groups = passes.chunk_by(alike).filter(|group| group.len() > 1);
        let groups: Vec<LacedAlike> = groups.map(|group| self.laced_alike(group)).collect();
        LacedAgain::of(&groups)
    }

    fn laced_alike(&self, passes: &[Pass]) -> LacedAlike {
        let (sd_nm, step_nm) = (
            self.repeatability().sd_nm,
            self.gauge.step.length().nm_f64(),
        );
        let profiles: Vec<Profile> = passes
            .iter()
            .filter(|pass| pass.has_readings())
            .map(Pass::profile)
            .collect();
        let mut group = LacedAlike {
            along: Vec::new(),
            means_nm: Vec::new(),
            reading_nm2: 0.0,
        };
        let mut means = 0.0_f64;
        for (station, place) in self.station_positions_nm().into_iter().enumerate() {
            let read = profiles.iter().map(|profile| profile.at(station));
            let Some(read) = read.collect::<Option<Vec<StationMean>>>() else {
                continue;
            };
            group.along.push(place);
            let nm = read.iter().map(|mean| mean.mean.nm_f64());
            group.means_nm.push(nm.collect());
            for mean in &read {
                let of_mean = MeanVariance::of(sd_nm, step_nm, mean.repeats).total_nm2();
                means += 1.0;
                group.reading_nm2 += (of_mean - group.reading_nm2) / means;
            }
        }
        group
    }

    /// Reckons a check by lacings that nothing was turned between, read at the
    /// arms: `readings[arm][lacing][knuckle][repeat]`, in nanometres.
    /// None where they are no such table.
    pub fn study_lacings(&self, readings: &[Vec<Vec<Vec<f64>>>]) -> Option<LacingStudy> {
        let jaw = self.press.jaw_length.length().nm_f64();
        let arms = self.press.arm_positions_nm().into_iter();
        let along: Vec<f64> = arms.map(|at| at / jaw).collect();
        let on = StudiedOn {
            along: &along,
            tilt_nm: self.noise().tilt_nm,
            gauge: self.repeatability(),
        };
        LacingStudy::of(readings, &on)
    }

    /// Uncertainty budgets of a pass's station means; `None` where nothing
    /// was read.
    pub fn budgets(&self, pass: usize, whose: Whose) -> Vec<Option<Budget>> {
        station_budgets(
            &self.sound_profile(pass),
            self.repeatability(),
            self.gauge.step.length(),
            (whose == Whose::Press).then(|| self.lacing()),
        )
    }

    /// The budget of the difference of the thickest and the thinnest station
    /// of a pass.
    pub fn spread_budget(&self, pass: usize, whose: Whose) -> Option<Budget> {
        let spread = self.spread_of(pass)?;
        let budgets = self.budgets(pass, whose);
        let at = |station: usize| budgets.get(station).and_then(Option::as_ref);
        Some(at(spread.thickest)?.of_difference(at(spread.thinnest)?))
    }

    /// Stations to read once more before a pass is called outside, by their
    /// places among the stations: where the plain comparison says outside by
    /// no more than two standard uncertainties of the spread, the counting
    /// stations read but once that are more than the tolerance from the
    /// thickest or the thinnest. Empty otherwise.
    ///
    /// One reading off by a step or two makes a good piece look bad, and a
    /// second one costs seconds; a re-lace that was not needed costs a piece.
    pub fn repeat_before_outside(&self, pass: usize) -> Vec<usize> {
        let near = || {
            let spread = self.spread_of(pass)?;
            let budget = self.spread_budget(pass, Whose::Piece)?;
            let beyond = spread.value.nm_f64() - self.tolerance.length().nm_f64();
            let near = !spread.is_within(self.tolerance.length())
                && beyond <= NEAR_THE_LIMIT * budget.u_nm;
            near.then_some(spread)
        };
        let Some(spread) = near() else {
            return Vec::new();
        };
        let profile = self.sound_profile(pass);
        let apart = |a: usize, b: usize| {
            let (a, b) = (profile.mean(a)?.nm_f64(), profile.mean(b)?.nm_f64());
            Some((a - b).abs() > self.tolerance.length().nm_f64())
        };
        let makes_it_outside = |station: usize| {
            let ends = [spread.thickest, spread.thinnest];
            ends.iter().any(|end| apart(station, *end) == Some(true))
        };
        let read_once = |station: usize| profile.at(station).is_some_and(|mean| mean.repeats == 1);
        self.counting()
            .filter(|index| read_once(*index) && makes_it_outside(*index))
            .collect()
    }

    /// The shape of a pass over the arms, with the uncertainty of its means.
    pub fn shape_of(&self, pass: usize, whose: Whose) -> Shape {
        let profile = self.sound_profile(pass);
        let budgets = self.budgets(pass, whose);
        let budgets = (0..self.stations.len()).map(|index| budgets.get(index)?.as_ref());
        let (means, u): (Vec<Option<f64>>, Vec<f64>) = budgets
            .enumerate()
            .map(|(index, budget)| match budget {
                Some(budget) => {
                    let mean = profile.mean(index).map(|mean| mean.nm_f64());
                    (mean, budget.u_nm)
                }
                None => (None, 0.0),
            })
            .unzip();
        self.shape_through(&means, &u)
    }

    /// The shape over the arms that goes through station means, in nanometres,
    /// with their standard uncertainties; those that are missing count as zero.
    pub fn shape_through(&self, means_nm: &[Option<f64>], u_nm: &[f64]) -> Shape {
        let arms = self.press.arms.len();
        let mut means = vec![None; arms];
        let mut u = vec![0.0; arms];
        for (index, station) in self.stations.iter().enumerate() {
            if let Some(arm) = station.arm()
                && let Some(mean) = means.get_mut(arm.0)
                && let Some(u) = u.get_mut(arm.0)
            {
                *mean = means_nm.get(index).copied().flatten();
                *u = u_nm.get(index).copied().unwrap_or_default();
            }
        }
        Shape::of(&self.press.arm_positions_nm(), &means, &u)
    }

    /// How the level of a pass stands against the target; an offset within
    /// the tolerance is close enough.
    pub fn level_of(&self, pass: usize) -> LevelStanding {
        let target = self.target.as_ref().map(|target| target.length().nm_f64());
        self.shape_of(pass, Whose::Press).level_against(
            target,
            self.tolerance.length().nm_f64(),
            self.gauge.scale_u_nm(),
        )
    }

    /// Readings and stations of a pass that do not fit, those left out that
    /// are doubtful anyway.
    pub fn misfits(&self, pass: usize) -> Vec<Misfit> {
        let rows = self.rows_without_doubts(pass);
        let counts: Vec<bool> = self.stations.iter().map(|station| station.counts).collect();
        let stated = self.gauge.stated_scatter();
        misfits(&rows, &counts, stated, self.gauge.step.length())
    }

    /// The counting station whose readings of a pass lie furthest apart, and by how
    /// much, where that is more than half of the tolerance (our own choice, no
    /// source): then one more reading may say something else.
    pub fn repeats_apart(&self, pass: usize) -> Option<(usize, Length)> {
        let rows = self.rows_without_doubts(pass);
        let counting = rows.iter().zip(&self.stations).enumerate();
        let counting = counting.filter(|(_, (_, station))| station.counts);
        let apart = counting.filter_map(|(station, (row, _))| {
            let read = row.iter().filter_map(Cell::counting);
            let read = || read.clone().map(|reading| reading.typed.length());
            Some((station, read().max()?.minus(read().min()?)))
        });
        let furthest = apart.max_by_key(|(station, apart)| (*apart, std::cmp::Reverse(*station)));
        furthest.filter(|(_, apart)| 2 * apart.nm() > self.tolerance.length().nm())
    }

    /// What one reading of the gauge uses up of the tolerance.
    pub fn gauge_share(&self) -> Option<GaugeShare> {
        GaugeShare::of(
            self.repeatability().sd_nm,
            self.gauge.step.length(),
            self.tolerance.length(),
        )
    }

    /// How much the bare belt of a pass varies; `None` where fewer than two
    /// counting stations were measured bare.
    pub fn belt_variation(&self, pass: usize) -> Option<BeltVariation> {
        let belt = &self.passes.get(pass)?.bare_belt;
        let rows: Vec<Vec<Cell>> = belt.iter().map(|cell| vec![cell.clone()]).collect();
        BeltVariation::of(&self.stations, &Profile::of(&rows), self.tolerance.length())
    }

    /// The drift over a pass that was measured there and back; `None` for any
    /// other, whose order is not known.
    pub fn drift(&self, pass: usize) -> Option<Result<Drift, DriftProblem>> {
        let pass = self.passes.get(pass)?;
        if pass.walk != Walk::ThereAndBack {
            return None;
        }
        let rounds = pass.rows.iter().map(Vec::len).max().unwrap_or(0);
        let places = pass.walk.places(self.stations.len(), rounds);
        let readings: Vec<TimedReading> = places
            .enumerate()
            .filter_map(|(turn, place)| {
                let reading = pass.cell(place.station, place.repeat).counting()?;
                Some(TimedReading {
                    station: place.station,
                    turn,
                    nm: reading.typed.length().nm_f64(),
                })
            })
            .collect();
        Some(Drift::of(&readings, self.stations.len()))
    }

    /// The flip test of two passes, the second with the belt end the other
    /// way round; the middle of the jaw is taken as the middle of the belt.
    ///
    /// # Errors
    /// See [`FlipProblem`].
    pub fn flip_test(&self, first: usize, flipped: usize) -> Result<FlipTest, FlipProblem> {
        let measured = |pass: usize| {
            let profile = self.sound_profile(pass);
            let budgets = self.budgets(pass, Whose::Press).into_iter().enumerate();
            let means = budgets.map(|(station, budget)| {
                Some(Measured {
                    value_nm: profile.mean(station)?.nm_f64(),
                    u_nm: budget?.u_nm,
                })
            });
            means.collect::<Vec<_>>()
        };
        let (first, flipped) = (measured(first), measured(flipped));
        let mean = |means: &[Option<Measured>], station: usize| means.get(station).copied()?;
        let stations: Vec<FlipStation> = self
            .station_positions_nm()
            .into_iter()
            .enumerate()
            .map(|(station, position_nm)| FlipStation {
                position_nm,
                first: mean(&first, station),
                flipped: mean(&flipped, station),
            })
            .collect();
        FlipTest::of(&stations, self.press.jaw_length.length().nm_f64() / 2.0)
    }
}
