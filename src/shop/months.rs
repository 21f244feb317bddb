//! What a shop laced and worked, month by month.

use std::collections::BTreeMap;

use super::PressBook;

/// A month of a shop.
#[derive(Debug, Clone, PartialEq)]
pub struct Month {
    /// Year and month, as `2026-11`.
    pub name: String,
    /// Visits that began in it.
    pub visits: usize,
    /// Test pieces laced at them.
    pub pieces: usize,
    /// Minutes that they took, by what the sessions reckon them at.
    pub minutes: f64,
}

/// The months in which presses were visited, oldest first; visits without a day
/// belong to none.
pub fn months(books: &[PressBook]) -> Vec<Month> {
    let mut months: BTreeMap<String, Month> = BTreeMap::new();
    for visit in books.iter().flat_map(|book| &book.visits) {
        let Some(day) = visit.day else { continue };
        let mut name = day.to_string();
        name.truncate("2026-11".len());
        let month = months.entry(name.clone()).or_insert(Month {
            name,
            visits: 0,
            pieces: 0,
            minutes: 0.0,
        });
        month.visits += 1;
        month.pieces += visit.pieces;
        month.minutes += visit.minutes;
    }
    months.into_values().collect()
}
