//! What many sessions say together: the book of each press, and how it drifts
//! from visit to visit; and its upkeep. No window and no disk: sessions come in
//! as they were read, and all but the upkeep, which has a file of its own, is
//! derived from them and can be made anew.

mod book;
mod by_name;
mod changed;
mod drift;
mod due;
mod find;
mod months;
mod taught;
mod upkeep;
mod upkeep_due;
mod visit;

pub use book::{NutBook, PressBook, press_books};
pub use by_name::{Counted, counted};
pub use changed::ChangedAnswer;
pub use drift::{
    CONFIDENCE, Drift, FEWEST as FEWEST_CHANGES, NextCheck, NoDrift, Pair, StationDrift,
};
pub use due::{FEWEST_FOUND, Need, PressOrder, Trend, by_need};
pub use find::Wanted;
pub use months::{Month, months};
pub use taught::{FEWEST_COMPARED, Gain, NINETY_FIVE, Taught, rule_turns};
pub use upkeep::{Entry, Interval, Noted, Task, Upkeep, UpkeepEdit, UpkeepRefusal, Whose};
pub use upkeep_due::{Due, DueCounts, TaskDue, When};
pub use visit::{Outcome, VisitSummary};
