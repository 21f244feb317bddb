//! Where arms and stations stand along the jaw.

use super::error::PlanError;
use super::noise::MOST_STATIONS;
use crate::press::JawLayout;

/// Where arms and stations stand along the jaw, in nanometres from any origin.
#[derive(Debug, Clone, PartialEq)]
pub struct Layout {
    ends_nm: (f64, f64),
    arms_nm: Vec<f64>,
    stations_nm: Vec<f64>,
}

impl Layout {
    /// Length of the jaw in mean distances between its arms.
    pub(super) fn jaw_in_spacings(&self) -> f64 {
        let (left_nm, right_nm) = self.ends_nm;
        let span_nm = self.arms_nm.last().unwrap_or(&0.0) - self.arms_nm.first().unwrap_or(&0.0);
        (right_nm - left_nm) * (self.arms_nm.len() as f64 - 1.0) / span_nm
    }

    /// Both ends of the jaw, arms from the operator's left, stations in any
    /// order.
    ///
    /// # Errors
    /// [`PlanError::Jaw`] for positions that make no jaw,
    /// [`PlanError::StationCount`] without a station or with more than
    /// [`MOST_STATIONS`].
    pub fn new(
        ends_nm: (f64, f64),
        arms_nm: &[f64],
        stations_nm: &[f64],
    ) -> Result<Self, PlanError> {
        if !(1..=MOST_STATIONS).contains(&stations_nm.len()) {
            return Err(PlanError::StationCount(stations_nm.len()));
        }
        JawLayout::new(ends_nm, arms_nm, stations_nm)?;
        Ok(Self {
            ends_nm,
            arms_nm: arms_nm.to_vec(),
            stations_nm: stations_nm.to_vec(),
        })
    }

    /// Both ends of the jaw.
    pub fn ends_nm(&self) -> (f64, f64) {
        self.ends_nm
    }

    /// Arm positions.
    pub fn arms_nm(&self) -> &[f64] {
        &self.arms_nm
    }

    /// Station positions.
    pub fn stations_nm(&self) -> &[f64] {
        &self.stations_nm
    }

    /// Place of each station along the jaw, from -1/2 at its left end to 1/2.
    pub fn along(&self) -> Vec<f64> {
        let (left, right) = self.ends_nm;
        self.stations_nm
            .iter()
            .map(|x| (x - left) / (right - left) - 0.5)
            .collect()
    }

    /// The station nearest to each arm.
    pub fn own_stations(&self) -> Vec<usize> {
        self.arms_nm
            .iter()
            .map(|arm| {
                let distance = |s: &usize| (self.stations_nm[*s] - arm).abs();
                (0..self.stations_nm.len())
                    .min_by(|a, b| distance(a).total_cmp(&distance(b)))
                    .unwrap_or(0)
            })
            .collect()
    }
}
