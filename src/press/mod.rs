//! The press: its arms, nuts and limits, the jaw as a beam, and how the
//! splice answers to a turned nut.

mod arm_positions;
pub mod beam;
mod jaw;
mod response;
pub mod section;
mod spline;

pub use arm_positions::{
    ArmPositionsError, MAX_ARMS, MAX_POSITION_NM, MIN_ARM_SPACING_NM, MIN_ARMS, check_arm_positions,
};
pub use jaw::{
    HangingJaw, JawBeam, JawCurve, JawError, JawLayout, JawSection, JawStiffness, KAPPA_RANGE,
    RHO_RANGE, STIFFNESS_RATIO_RANGE,
};
pub use response::Response;
pub use spline::{MAX_CURVE_VALUE, NaturalSpline, SplineCurve, SplineError};
