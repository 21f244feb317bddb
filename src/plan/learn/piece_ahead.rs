//! Pieces and readings yet to come: what they will teach, whatever they read.

use super::Posterior;
use crate::plan::error::PlanError;
use crate::plan::noise::MOST_REPEATS;
use crate::plan::passes::{StationReading, TestPass};
use crate::stats::{Foreseen, Gaussian, NormalValue};

/// A piece whose readings are yet to come.
#[derive(Debug, Clone)]
pub(in crate::plan) struct PieceAhead {
    /// What will be known, its means as they are without these readings.
    pub posterior: Posterior,
    /// How the readings will move the means.
    pub foreseen: Foreseen,
    /// The stations that will be read.
    pub stations: Vec<usize>,
    /// The thickness expected at each of these, in nanometres.
    pub expected_nm: Vec<f64>,
}

impl PieceAhead {
    /// What is known once the readings have come, as whitened residuals.
    pub fn as_found(&self, residual: &[f64]) -> Posterior {
        Posterior {
            state: self.foreseen.as_found(residual).into(),
            ..self.posterior.clone()
        }
    }
}

impl Posterior {
    /// How well the press would be known after one more pass with `turns`
    /// made, at the stations and as often read as the last one: the means stay,
    /// the covariance shrinks.
    pub(in crate::plan) fn after_pass_as_expected(&self, turns: &[i32]) -> Result<Self, PlanError> {
        Ok(self.next_piece_ahead(turns)?.posterior)
    }

    /// The piece laced after `turns`, read at the stations and as often as the
    /// last one, before it is read.
    pub(in crate::plan) fn next_piece_ahead(&self, turns: &[i32]) -> Result<PieceAhead, PlanError> {
        let moved: Vec<f64> = self
            .moved
            .iter()
            .zip(turns)
            .map(|(moved, turn)| moved + f64::from(*turn))
            .collect();
        let readings = self.last.iter().flat_map(|last| &last.readings).copied();
        self.ahead(self.state(), moved, readings.collect())
    }

    /// The last piece, before it is read once more as often.
    pub(in crate::plan) fn rereading_ahead(&self) -> Result<PieceAhead, PlanError> {
        let readings = self.last.iter().flat_map(|last| &last.readings);
        let twice = readings.map(|reading| {
            reading.map(|reading| StationReading {
                repeats: (2 * reading.repeats).min(MOST_REPEATS),
                ..reading
            })
        });
        let before = self.last.as_ref().map_or(&self.state, |last| &last.before);
        let before = before.whole();
        self.ahead(before, self.moved.clone(), twice.collect())
    }

    fn ahead(
        &self,
        before: &Gaussian,
        moved: Vec<f64>,
        readings: Vec<Option<StationReading>>,
    ) -> Result<PieceAhead, PlanError> {
        let stations = (0..readings.len()).filter(|s| readings[*s].is_some());
        let stations: Vec<usize> = stations.collect();
        let pass = TestPass {
            nuts: Vec::new(),
            handle: 0.0,
            readings,
        };
        let observations = self.observations(&[(&pass, &moved)]);
        let rows = observations.rows.iter();
        let expected_nm = rows.map(|row| before.project(row).0 + self.reference_nm);
        let expected_nm = expected_nm.collect();
        let foreseen = before.foresee(&observations)?;
        Ok(PieceAhead {
            posterior: Self {
                state: foreseen.after.clone().into(),
                moved,
                ..self.clone()
            },
            foreseen,
            stations,
            expected_nm,
        })
    }

    /// What the means of the last piece's readings may become when it is read
    /// once more as often: about the present ones, as far apart as the shrinking
    /// variance says.
    pub(in crate::plan) fn means_when_read_again(&self) -> Vec<Option<NormalValue>> {
        let readings = self.last.iter().flat_map(|last| &last.readings);
        readings
            .map(|reading| {
                reading.map(|reading| {
                    let now = self.noise.reading_variance(reading.repeats);
                    let then = self.noise.reading_variance(2 * reading.repeats);
                    NormalValue {
                        mean: reading.mean_nm,
                        sd: (now - then).max(0.0).sqrt(),
                    }
                })
            })
            .collect()
    }
}
