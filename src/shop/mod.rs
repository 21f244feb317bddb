//! What many sessions say together: the book of each press, and how it drifts
//! from visit to visit. No window and no disk: sessions come in as
//! they were read, everything here is derived from them and can be made anew.

mod book;
mod changed;
mod drift;
mod due;
mod find;
mod months;
mod taught;
mod visit;

pub use book::{NutBook, PressBook, press_books};
pub use changed::ChangedAnswer;
pub use drift::{
    CONFIDENCE, Drift, FEWEST as FEWEST_CHANGES, NextCheck, NoDrift, Pair, StationDrift,
};
pub use due::{FEWEST_FOUND, Trend, by_need};
pub use find::Wanted;
pub use months::{Month, months};
pub use taught::{FEWEST_COMPARED, Gain, NINETY_FIVE, Taught};
pub use visit::VisitSummary;
