//! How far the readings of a session can be trusted: what the rooms below
//! say, asked with this session's gauge and passes.

use crate::splice::{
    ASSUMED_LACING, BeltVariation, Budget, Cell, Drift, DriftProblem, FlipProblem, FlipStation,
    FlipTest, GaugeShare, LevelStanding, Measured, Misfit, Pooled, Profile, Sample, Scatter, Shape,
    TimedReading, Walk, misfits, station_budgets,
};
use crate::units::Length;

use super::{KnownScatter, Session};

/// Whose spread an uncertainty is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Whose {
    /// This piece: only the gauge is in doubt.
    Piece,
    /// This press: another lacing would come out differently too.
    Press,
}

impl Session {
    /// Scatter of repeated readings, pooled over every station of every pass.
    pub fn pooled_repeats(&self) -> Pooled {
        let rows = self.passes.iter().flat_map(|pass| &pass.rows);
        Pooled::of(rows.filter_map(|row| {
            let counting: Vec<Length> = row
                .iter()
                .filter_map(Cell::counting)
                .map(|reading| reading.typed.length())
                .collect();
            Sample::of(counting)
        }))
    }

    /// The repeatability readings are judged with: the gauge's own where it
    /// is known, else from the repeats of this session.
    pub fn repeatability(&self) -> Scatter {
        let stated = self.gauge.repeatability.as_ref();
        Scatter::of_gauge(
            stated.map(KnownScatter::scatter),
            self.pooled_repeats(),
            self.gauge.step.length().nm_f64(),
        )
    }

    /// The scatter from one lacing to the next: what is known, else what is
    /// customarily assumed.
    pub fn lacing(&self) -> Scatter {
        let known = self.lacing_scatter.as_ref();
        known.map_or(ASSUMED_LACING, KnownScatter::scatter)
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

    /// The shape of a pass over the arms, with the uncertainty of its means.
    pub fn shape_of(&self, pass: usize, whose: Whose) -> Shape {
        let profile = self.sound_profile(pass);
        let budgets = self.budgets(pass, whose);
        let arms = self.press.arms.len();
        let mut means = vec![None; arms];
        let mut u = vec![0.0; arms];
        for (index, station) in self.stations.iter().enumerate() {
            if let Some(arm) = station.arm()
                && let Some(mean) = means.get_mut(arm.0)
                && let Some(u) = u.get_mut(arm.0)
                && let Some(Some(budget)) = budgets.get(index)
            {
                *mean = profile.mean(index).map(|mean| mean.nm_f64());
                *u = budget.u_nm;
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
        let mut rows = self
            .passes
            .get(pass)
            .map_or_else(Vec::new, |pass| pass.rows.clone());
        for doubt in self.gate(pass).doubtful {
            let row = rows.get_mut(doubt.station);
            if let Some(cell) = row.and_then(|row| row.get_mut(doubt.repeat)) {
                *cell = Cell::Empty;
            }
        }
        let counts: Vec<bool> = self.stations.iter().map(|station| station.counts).collect();
        let stated = self.gauge.repeatability.as_ref();
        misfits(
            &rows,
            &counts,
            stated.map(KnownScatter::scatter),
            self.gauge.step.length(),
        )
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
        let repeatability = self.repeatability().sd_nm;
        Some(Drift::of(&readings, self.stations.len(), repeatability))
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
