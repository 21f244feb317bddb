//! What a shop laced and worked, month by month.

use std::collections::BTreeMap;

use crate::session::IsoDate;

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

/// Every month from the first visit on to the last or to today, whichever is
/// later, oldest first; visits without a day belong to none.
pub fn months(books: &[PressBook], today: Option<IsoDate>) -> Vec<Month> {
    let mut months: BTreeMap<String, Month> = BTreeMap::new();
    let days = books.iter().flat_map(|book| &book.visits);
    let days: Vec<IsoDate> = days.filter_map(|visit| visit.day).collect();
    let empty = |name: String| Month {
        name,
        visits: 0,
        pieces: 0,
        minutes: 0.0,
    };
    if let Some((first, last)) = days.iter().min().zip(days.iter().max()) {
        let last = today.map_or(*last, |today| today.max(*last));
        let mut day = Some(*first);
        // By 28 days none is left out.
        while let Some(at) = day.filter(|day| *day < last) {
            let name = month_of(at);
            months.insert(name.clone(), empty(name));
            day = at.later(28);
        }
        let name = month_of(last);
        months.insert(name.clone(), empty(name));
    }
    for visit in books.iter().flat_map(|book| &book.visits) {
        let Some(day) = visit.day else { continue };
        let name = month_of(day);
        let month = months.entry(name.clone()).or_insert_with(|| empty(name));
        month.visits += 1;
        month.pieces += visit.pieces;
        month.minutes += visit.minutes;
    }
    months.into_values().collect()
}

/// Year and month of a day.
fn month_of(day: IsoDate) -> String {
    let mut name = day.to_string();
    name.truncate("2026-11".len());
    name
}
