//! Pages and pictures from a session: the turn card, the report of a visit,
//! the profile. No window and no disk: what is drawn is a list of marks on a
//! page ([`Page`]), which [`pdf`], [`svg`] and [`png`] each write in their own
//! way, so that every picture exists once.

mod card;
mod castle_nut;
mod curve;
mod facts;
mod fonts;
mod ink;
mod page;
mod paper;
mod pdf;
mod png;
mod printed;
mod profile;
mod rows;
mod sheet;
mod svg;
mod table;
mod visit;

pub use card::turn_card;
pub use castle_nut::{NUT_REACH, NutTurn, SLOTS, castle_nut};
pub use curve::{curve, profile_curve};
pub use facts::Facts;
pub use fonts::{BOLD, Face, Fonts, REGULAR};
pub use ink::Ink;
pub use page::{Mark, Page, Part, Pen, Point};
pub use paper::{Paper, Setting};
pub use pdf::{About, PdfProblem, pdf};
pub use png::{PngProblem, png};
pub use printed::Printed;
pub use profile::{grid_step, profile_picture};
pub use rows::{COLUMNS, Field, ReadingRow, csv_heads, csv_line, reading_rows};
pub use svg::svg;
pub use visit::session_report;
