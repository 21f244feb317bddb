//! What the passes of a session teach about press and response.
//!
//! Pass p at station s reads
//!
//! ```text
//! y = c_s + sum_i B[s][i] x_i[p] + o_p + t_p xi_s + e
//! ```
//!
//! with x_i[p] the notches nut i stands further out than at the first pass, a
//! common move of the handle included (it moves every nut alike); c the profile
//! at the first pass, its level unknown, its deviations normal (of a press that
//! was left level before either small, for it has drifted, or large, for it has
//! changed: the readings say which); B the response, normal as believed before; o_p and t_p shift and tilt of the piece, xi from
//! -1/2 to 1/2 along the jaw; and e lacing and reading scatter. Everything is
//! linear and normal, so one conditional update per pass is exact. Shift and
//! tilt of a pass concern no other pass: they enter as noise that the stations
//! of the pass share.

use super::error::{PlanError, Quantity};
use super::missed::Missed;
use super::mixture::Mixture;
use super::noise::{LEVEL_DEVIATION_NM, Noise};
use super::passes::{StationReading, TestPass};
use super::prior::ResponsePrior;
use super::scales::{self, least_repeats};
use crate::press::Response;
use crate::stats::{Gaussian, Innovation, Observations, SparseRow};

mod piece_ahead;

pub(super) use piece_ahead::PieceAhead;

/// What is fixed for all passes of a session.
#[derive(Debug, Clone, Copy)]
pub struct Model<'a> {
    /// What is believed of the response before the first pass.
    pub prior: &'a ResponsePrior,
    /// Place of each station along the jaw, from -1/2 to 1/2
    /// ([`super::Layout::along`]).
    pub along: &'a [f64],
    /// The scatter assumed or known.
    pub noise: Noise,
}

/// Expected against measured change of one station from the last earlier pass
/// that read it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChangeCheck {
    /// The pass, from zero.
    pub pass: usize,
    /// The station.
    pub station: usize,
    /// Change expected from what was known before the pass, in nanometres.
    pub expected_nm: f64,
    /// Standard deviation of measured minus expected.
    pub deviation_nm: f64,
    /// Change measured.
    pub measured_nm: f64,
}

/// Means and covariance of a profile, in nanometres.
#[derive(Debug, Clone, PartialEq)]
pub struct PosteriorProfile {
    /// Mean thickness at each station.
    pub mean_nm: Vec<f64>,
    /// Covariance, row by row.
    pub covariance: Vec<f64>,
}

/// Press and response as known after the passes so far.
#[derive(Debug, Clone)]
pub struct Posterior {
    stations: usize,
    arms: usize,
    /// Response (station by station), then the first profile about
    /// `reference_nm`; a part for a press that has only drifted since the last
    /// visit and one for a press that has changed.
    state: Mixture,
    reference_nm: f64,
    first: Vec<f64>,
    moved: Vec<f64>,
    along: Vec<f64>,
    noise: Noise,
    innovations: Vec<Innovation>,
    changes: Vec<ChangeCheck>,
    last_read: Vec<Option<LastRead>>,
    last: Option<LastPass>,
    /// How many times what it is taken for the scatter of its means may be.
    scales: Vec<f64>,
}

/// The last pass and what was known before it.
#[derive(Debug, Clone)]
struct LastPass {
    before: Mixture,
    readings: Vec<Option<StationReading>>,
}

#[derive(Debug, Clone)]
struct LastRead {
    mean_nm: f64,
    variance: f64,
    moved: Vec<f64>,
}

impl Posterior {
    /// Takes in all passes of a session, in their order.
    ///
    /// # Errors
    /// [`PlanError::NoPass`] without a pass; otherwise see [`PlanError`].
    pub fn from_passes(model: &Model, passes: &[TestPass]) -> Result<Self, PlanError> {
        let (first, rest) = passes.split_first().ok_or(PlanError::NoPass)?;
        let reference_nm = passes.iter().find_map(TestPass::mean_nm).unwrap_or(0.0);
        let mut posterior = Self::start(model, first, reference_nm)?;
        posterior.observe(first)?;
        for pass in rest {
            posterior.observe(pass)?;
        }
        Ok(posterior)
    }

    /// What is known before the readings of the first pass.
    pub(super) fn start(
        model: &Model,
        first: &TestPass,
        reference_nm: f64,
    ) -> Result<Self, PlanError> {
        let (stations, arms) = (model.prior.stations(), model.prior.arms());
        model.noise.check()?;
        if model.along.len() != stations {
            return Err(PlanError::Shape {
                expected: stations,
                found: model.along.len(),
            });
        }
        if !model.along.iter().all(|xi| xi.abs() <= 1.0) {
            return Err(PlanError::OutOfRange(Quantity::Position));
        }
        first.check(stations, arms)?;
        let responses = stations * arms;
        let size = responses + stations;
        let mut mean = model.prior.gaussian().mean().to_vec();
        mean.resize(size, 0.0);
        let mut covariance = vec![0.0; size * size];
        for a in 0..responses {
            covariance[a * size..a * size + responses]
                .copy_from_slice(model.prior.gaussian().covariance_row(a));
        }
        for a in responses..size {
            covariance[a * size + responses..(a + 1) * size]
                .fill(LEVEL_DEVIATION_NM * LEVEL_DEVIATION_NM);
        }
        let changed = model.noise.changed_chance;
        let mut ways = Vec::with_capacity(2);
        for (weight, sd) in [
            (1.0 - changed, model.noise.deviation_nm),
            (changed, model.noise.changed_nm),
        ] {
            if weight > 0.0 {
                let mut covariance = covariance.clone();
                for a in responses..size {
                    covariance[a * size + a] += sd * sd;
                }
                ways.push((weight, Gaussian::new(mean.clone(), covariance)?));
            }
        }
        Ok(Self {
            stations,
            arms,
            state: Mixture::new(ways)?,
            reference_nm,
            first: first.nuts.iter().map(|n| n + first.handle).collect(),
            moved: vec![0.0; arms],
            along: model.along.to_vec(),
            noise: model.noise,
            innovations: Vec::new(),
            changes: Vec::new(),
            last_read: vec![None; stations],
            last: None,
            scales: scales::of_means(&model.noise, &[]),
        })
    }

    /// Takes in one more pass.
    ///
    /// # Errors
    /// See [`PlanError`]; nothing has then been posterior.
    pub fn observe(&mut self, pass: &TestPass) -> Result<(), PlanError> {
        pass.check(self.stations, self.arms)?;
        let moved = self.moved_at(pass);
        let observations = self.observations(&[(pass, &moved)]);
        let changes = self.changes_at(pass, &moved);
        let before = self.state.clone();
        let innovation = self.state.observe(&observations)?;
        if least_repeats(self.last_readings()) != least_repeats(&pass.readings) {
            self.scales = scales::of_means(&self.noise, &pass.readings);
        }
        self.last = Some(LastPass {
            before,
            readings: pass.readings.clone(),
        });
        self.innovations.push(innovation);
        self.changes.extend(changes);
        for (station, reading) in pass.readings.iter().enumerate() {
            if let Some(reading) = reading {
                self.last_read[station] = Some(LastRead {
                    mean_nm: reading.mean_nm,
                    variance: self.noise.station_variance(reading.repeats),
                    moved: moved.clone(),
                });
            }
        }
        self.moved = moved;
        Ok(())
    }

    /// Logarithm of the density of the readings of further passes together.
    ///
    /// # Errors
    /// See [`PlanError`].
    pub(super) fn log_density(&self, passes: &[TestPass]) -> Result<f64, PlanError> {
        let mut moved = Vec::with_capacity(passes.len());
        for pass in passes {
            pass.check(self.stations, self.arms)?;
            moved.push(self.moved_at(pass));
        }
        let pairs: Vec<(&TestPass, &[f64])> = passes
            .iter()
            .zip(&moved)
            .map(|(pass, moved)| (pass, &moved[..]))
            .collect();
        Ok(self
            .state
            .innovation(&self.observations(&pairs))?
            .log_density)
    }

    /// How far each nut stands out from its place at the first pass.
    pub(super) fn moved_at(&self, pass: &TestPass) -> Vec<f64> {
        pass.nuts
            .iter()
            .zip(&self.first)
            .map(|(nut, first)| nut + pass.handle - first)
            .collect()
    }

    /// The readings of passes as observations of the state. Stations of one
    /// pass share its shift and tilt.
    pub(super) fn observations(&self, passes: &[(&TestPass, &[f64])]) -> Observations {
        let read = |pass: &TestPass| pass.readings.iter().flatten().count();
        let total: usize = passes.iter().map(|(pass, _)| read(pass)).sum();
        let mut found = Observations {
            rows: Vec::with_capacity(total),
            values: Vec::with_capacity(total),
            noise: vec![0.0; total * total],
        };
        let (shift, tilt) = (self.noise.shift_nm, self.noise.tilt_nm);
        for (pass, moved) in passes {
            let begin = found.rows.len();
            let mut along = Vec::with_capacity(self.stations);
            for (station, reading) in pass.readings.iter().enumerate() {
                let Some(reading) = reading else { continue };
                let here = found.rows.len();
                found.rows.push(self.row(station, moved));
                found.values.push(reading.mean_nm - self.reference_nm);
                along.push(self.along[station]);
                for (there, xi) in (begin..).zip(&along) {
                    let shared = shift * shift + tilt * tilt * xi * self.along[station];
                    found.noise[here * total + there] = shared;
                    found.noise[there * total + here] = shared;
                }
                found.noise[here * total + here] += self.noise.station_variance(reading.repeats);
            }
        }
        found
    }

    /// The thickness at `station` with the nuts `moved` out, as a weighted sum
    /// of the state.
    fn row(&self, station: usize, moved: &[f64]) -> SparseRow {
        let mut row: SparseRow = (station * self.arms..).zip(moved.iter().copied()).collect();
        row.push((self.stations * self.arms + station, 1.0));
        row
    }

    fn changes_at(&self, pass: &TestPass, moved: &[f64]) -> Vec<ChangeCheck> {
        let (shift, tilt) = (self.noise.shift_nm, self.noise.tilt_nm);
        let mut checks = Vec::new();
        for (station, reading) in pass.readings.iter().enumerate() {
            let (Some(reading), Some(last)) = (reading, &self.last_read[station]) else {
                continue;
            };
            let turned = moved.iter().zip(&last.moved).map(|(now, then)| now - then);
            let row: SparseRow = (station * self.arms..).zip(turned).collect();
            let (expected_nm, variance) = self.state().project(&row);
            // Two pieces, each with its own shift and tilt.
            let xi = self.along[station];
            let pieces = 2.0 * (shift * shift + tilt * tilt * xi * xi);
            let scatter = last.variance + self.noise.station_variance(reading.repeats);
            checks.push(ChangeCheck {
                pass: self.innovations.len(),
                station,
                expected_nm,
                deviation_nm: (variance + pieces + scatter).sqrt(),
                measured_nm: reading.mean_nm - last.mean_nm,
            });
        }
        checks
    }

    /// Number of stations.
    pub fn stations(&self) -> usize {
        self.stations
    }

    /// Number of arms.
    pub fn arms(&self) -> usize {
        self.arms
    }

    /// The scatter assumed.
    pub fn noise(&self) -> &Noise {
        &self.noise
    }

    /// Places of the stations along the jaw, from -1/2 to 1/2.
    pub fn along(&self) -> &[f64] {
        &self.along
    }

    /// How surprising each pass was, given those before it.
    pub fn innovations(&self) -> &[Innovation] {
        &self.innovations
    }

    /// How far the predictions of earlier visits and of this session missed. Of
    /// the first pass nothing was predicted but the assumed deviations.
    pub fn missed(&self) -> Missed {
        let predicted = self.innovations.iter().skip(1);
        predicted.fold(self.noise.missed, |missed, innovation| {
            missed.with(innovation)
        })
    }

    /// The variance of what is said next, as a multiple of what the model gives,
    /// for what predictions missed ([`Missed::widening`]). What a scatter that is
    /// not known makes them miss the model reckons with already; that is not
    /// counted twice. Never below one.
    pub fn widening(&self) -> f64 {
        let squares: f64 = self.scales.iter().map(|scale| scale * scale).sum();
        let reckoned = squares / self.scales.len().max(1) as f64;
        (self.missed().widening() / reckoned).max(1.0)
    }

    /// How many times what it is taken for the scatter of station means may be,
    /// lacing and reading of the last piece together, each as likely.
    pub(super) fn scales(&self) -> &[f64] {
        &self.scales
    }

    /// Expected against measured changes, pass by pass and station by station.
    pub fn changes(&self) -> &[ChangeCheck] {
        &self.changes
    }

    /// The response as it is now believed: its means.
    pub fn response(&self) -> Response {
        let values = self.state().mean();
        Response::from_fn(self.stations, self.arms, |s, i| values[s * self.arms + i])
    }

    /// Standard deviation of one value of the response.
    pub fn response_deviation(&self, station: usize, arm: usize) -> f64 {
        if station >= self.stations || arm >= self.arms {
            return 0.0;
        }
        self.state().variance(station * self.arms + arm).sqrt()
    }

    /// The response as it is now believed, to be kept with the press.
    ///
    /// # Errors
    /// [`PlanError::OutOfRange`] when what was posterior is beyond any press.
    pub fn taught(&self) -> Result<ResponsePrior, PlanError> {
        let n = self.stations * self.arms;
        let mut covariance = Vec::with_capacity(n * n);
        for a in 0..n {
            covariance.extend_from_slice(&self.state().covariance_row(a)[..n]);
        }
        ResponsePrior::from_parts(
            self.stations,
            self.arms,
            self.state().mean()[..n].to_vec(),
            covariance,
        )
    }

    /// What was known before the last pass, and its readings.
    pub(super) fn last_pass(&self) -> Option<(&Mixture, &[Option<StationReading>])> {
        let last = self.last.as_ref()?;
        Some((&last.before, &last.readings))
    }

    /// The readings of the last pass that was read.
    pub(super) fn last_readings(&self) -> &[Option<StationReading>] {
        self.last.as_ref().map_or(&[], |last| &last.readings)
    }

    /// The thickness at a station with the nuts as they now stand, as a
    /// weighted sum of the state.
    pub(super) fn row_now(&self, station: usize) -> SparseRow {
        self.row(station, &self.moved)
    }

    /// This press: the mean profile after further `turns` (notches out of each
    /// nut; missing ones count as zero), known but for what the readings so
    /// far leave open.
    pub fn press_after(&self, turns: &[f64]) -> PosteriorProfile {
        let moved: Vec<f64> = self
            .moved
            .iter()
            .zip(turns.iter().copied().chain(core::iter::repeat(0.0)))
            .map(|(moved, turn)| moved + turn)
            .collect();
        let rows: Vec<SparseRow> = (0..self.stations).map(|s| self.row(s, &moved)).collect();
        let mean_nm = rows
            .iter()
            .map(|row| self.reference_nm + self.state().project(row).0)
            .collect();
        let mut covariance = Vec::with_capacity(self.stations * self.stations);
        for a in &rows {
            covariance.extend(rows.iter().map(|b| self.state().covariance_of(a, b)));
        }
        PosteriorProfile {
            mean_nm,
            covariance,
        }
    }

    /// The next piece after further `turns`: this press, with the scatter of a
    /// lacing and the tilt and shift of a piece once more.
    pub fn next_piece_after(&self, turns: &[f64]) -> PosteriorProfile {
        let mut profile = self.press_after(turns);
        let n = self.stations;
        let Noise {
            lacing_nm,
            shift_nm,
            tilt_nm,
            ..
        } = self.noise;
        for a in 0..n {
            for b in 0..n {
                profile.covariance[a * n + b] +=
                    shift_nm * shift_nm + tilt_nm * tilt_nm * self.along[a] * self.along[b];
            }
            profile.covariance[a * n + a] += lacing_nm * lacing_nm;
        }
        profile
    }

    pub(super) fn state(&self) -> &Gaussian {
        self.state.whole()
    }

    pub(super) fn moved(&self) -> &[f64] {
        &self.moved
    }

    pub(super) fn reference_nm(&self) -> f64 {
        self.reference_nm
    }
}
