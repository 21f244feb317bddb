//! What can be wrong with the input of this room.

use crate::press::JawError;
use crate::stats::GaussianError;
use crate::units::holds;

/// A quantity that was refused.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Quantity {
    /// Scatter from lacing to lacing.
    Lacing,
    /// Repeatability of the gauge.
    Repeatability,
    /// Step of the gauge.
    GaugeStep,
    /// Deviation of the profile from level.
    Deviation,
    /// Shift from piece to piece.
    Shift,
    /// Tilt from piece to piece.
    Tilt,
    /// Position of an arm, a station or an end of the jaw.
    Position,
    /// Notch effect, or a value of a response.
    NotchEffect,
    /// Stiffness ratio kappa, or its scatter.
    Stiffness,
    /// Position of a nut or of the handle.
    NutPosition,
    /// A reading, or its number of repeats.
    Reading,
    /// The tolerance on the spread.
    Tolerance,
    /// The turns allowed to a nut.
    Bounds,
    /// A share or confidence.
    Share,
}

/// Why a question to this room has no answer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PlanError {
    /// There must be 1 to [`super::MOST_ARMS`] arms.
    ArmCount(usize),
    /// There must be 1 to [`super::MOST_STATIONS`] stations.
    StationCount(usize),
    /// Two lists that belong together differ in length.
    Shape {
        /// Length that belongs here.
        expected: usize,
        /// Length given.
        found: usize,
    },
    /// A value is not a number, or outside what makes sense.
    OutOfRange(Quantity),
    /// Positions or stiffnesses make no jaw.
    Jaw(JawError),
    /// No pass has been laced yet.
    NoPass,
    /// No station counts.
    NothingCounts,
    /// A covariance lost its meaning: values too far apart for the arithmetic.
    Arithmetic(GaussianError),
}

holds! {
    PlanError {
        Jaw(JawError),
        Arithmetic(GaussianError),
    }
}
