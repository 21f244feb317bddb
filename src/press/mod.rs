//! The press: its arms, nuts and limits, the jaw as a beam, and how the
//! splice answers to a turned nut. Knows the units.

mod arm;
mod bounds;
pub mod customary;
mod machine;
mod notches;
mod response;

pub use arm::{Arm, ArmIndex};
pub use bounds::{
    Bounds, CountOutOfBounds, CountQuantity, LengthOutOfBounds, LengthQuantity,
    MOST_NOTCHES_PER_RELACE,
};
pub use machine::{Press, PressProblem};
pub use notches::{Notches, NutLimits};
pub use response::Response;
