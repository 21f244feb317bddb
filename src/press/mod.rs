//! The press: its arms, nuts and limits, the jaw as a beam, and how the
//! splice answers to a turned nut. Knows the units.

mod arm;
mod arm_positions;
pub mod beam;
mod bounds;
pub mod customary;
mod jaw;
mod jaw_drive;
mod jaw_family;
mod machine;
mod material;
mod notches;
mod response;
pub mod section;
mod spline;
mod wide;
mod wrench;

pub use arm::{Arm, ArmIndex};
pub use arm_positions::{
    ArmPositionsError, MAX_ARMS, MAX_POSITION_NM, MIN_ARM_SPACING_NM, MIN_ARMS, check_arm_positions,
};
pub use bounds::{
    Bounds, CountOutOfBounds, CountQuantity, LengthOutOfBounds, LengthQuantity,
    MOST_NOTCHES_PER_RELACE,
};
pub use jaw::{
    JawBeam, JawCurve, JawError, JawLayout, JawOnSlackRods, JawSection, JawStiffness, KAPPA_RANGE,
    RHO_RANGE, STIFFNESS_RATIO_RANGE,
};
pub use jaw_drive::JawDrive;
pub use jaw_family::{ABREAST, Abreast, JawFamily};
pub use machine::{Press, PressProblem};
pub use material::{MILLION_PSI, Material};
pub use notches::{Notches, NutLimits, NutPosition};
pub use response::Response;
pub use spline::{MAX_CURVE_VALUE, NaturalSpline, SplineCurve, SplineError};
pub(crate) use wide::wide;
pub use wrench::WrenchWay;
