//! The laced test piece: stations, readings, spread and verdict. Knows the
//! units and the press.

mod band;
mod chi_square;
mod least_squares;
mod level;
mod normal_critical;
mod pattern;
mod profile;
mod reading;
mod shape;
mod spread;
mod station;
mod unit_slip;

pub use band::Band;
pub use level::LevelStanding;
pub use pattern::{NamedPattern, Pattern};
pub use profile::{Profile, StationMean};
pub use reading::{Cell, Reading, Struck};
pub use shape::{Beside, Measured, Outermost, STANDS_OUT, Shape};
pub use spread::{Spread, Standing};
pub use station::{Station, StationName, StationPlace};
pub use unit_slip::looks_typed_in_other_unit;
