//! The window. Views read the document and return actions; one place applies
//! them. Knows every other room.

mod act;
mod action;
mod advisor;
mod app;
mod by_acts;
mod commands;
mod dropped;
mod entry;
mod file_names;
mod files;
mod focus_ring;
mod gauge_port;
mod history;
mod in_sight;
mod input;
mod layout;
mod lessons;
mod messages;
mod next;
mod outlook;
mod pacing;
mod place;
mod practicing;
mod preferences;
mod printing;
mod saving;
mod shop;
mod shop_rules;
mod start;
mod state;
mod theme;
mod trust;
mod turning;
mod upkeep;
mod views;
mod what_if;
mod worker;

pub use app::{App, Surroundings};
pub use preferences::Preferences;
pub use start::{StartError, run};
