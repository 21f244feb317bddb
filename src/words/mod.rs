//! Every sentence for people, in English and Spanish. The rooms below return
//! typed errors and facts; this room says them.
//!
//! Texts stand in tables made with the `texts!` macro: each entry has an `en`
//! and an `es`, so a missing one does not compile, and both must use the same
//! holes, or `format!` does not compile.

#[macro_use]
mod table;

mod advice;
mod belt;
mod budget;
mod cli;
mod cli_help;
mod crew;
mod differences;
mod doctor;
mod effort;
mod entry;
mod figures;
mod form;
mod gate;
mod gauge;
mod gauge_check;
mod gauge_window;
mod glossary;
mod import;
mod keypad;
mod keys;
mod language;
mod lengths;
mod lesson;
mod next_act;
mod passes;
mod percent;
mod practice;
mod practice_cli;
mod practice_window;
mod press_record;
mod problems;
mod remainder;
mod report;
mod safety;
mod samples;
mod section;
mod shape;
mod shop;
mod shop_window;
mod start;
mod steps;
mod store;
mod strike;
mod trust;
mod turn_card;
mod upkeep;
mod verdicts;
mod visit;
mod what_if;
mod window;
mod worked_out;

pub use figures::Figures;
pub use glossary::Word;
pub use language::Language;
pub(crate) use lengths::shortened;
pub use next_act::Spoken;
pub(crate) use problems::example;
pub use shop_window::as_sentence;
pub use steps::StepWords;
pub use trust::{StationNames, in_ten};
