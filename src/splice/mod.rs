//! The laced test piece: stations, readings, spread and verdict. Knows the
//! units and the press.

mod band;
mod profile;
mod reading;
mod spread;
mod station;
mod unit_slip;

pub use band::Band;
pub use profile::{Profile, StationMean};
pub use reading::{Cell, Reading, Struck};
pub use spread::{Spread, Standing};
pub use station::{Station, StationName, StationPlace};
pub use unit_slip::looks_typed_in_other_unit;
