//! The book of a press: its visits in order.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::press::ArmIndex;
use crate::units::Length;

use super::{ChangedAnswer, Drift, NoDrift, VisitSummary, counted};

/// The visits to one press, oldest first.
#[derive(Debug, Clone, PartialEq)]
pub struct PressBook {
    /// The press by its name; empty where it has none.
    pub press: String,
    /// Positions of its arms.
    pub arms: Vec<Length>,
    /// Its visits, oldest first; those without a day before all others.
    pub visits: Vec<Arc<VisitSummary>>,
    /// Files that hold a session that stands in the book already: copies.
    pub copies: Vec<String>,
    /// How it drifts between visits, or why that cannot be said.
    pub drift: Result<Drift, NoDrift>,
    /// The nut whose answer changed most surely, once that is worked out.
    pub changed: Option<ChangedAnswer>,
}

/// What a nut went through.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NutBook {
    /// The arm.
    pub arm: ArmIndex,
    /// Where it stands, in notches from flush.
    pub at: i32,
    /// Notches turned in all visits, in and out together.
    pub turned: u32,
    /// Notches left outward and inward, where its limits are known.
    pub left: Option<(i32, i32)>,
}

impl NutBook {
    /// Notches left outward, no further than flush, and whether its limits reach
    /// past that: nobody knows whether a pin passes there and enough thread holds.
    pub fn out_to_flush(&self) -> Option<(i32, bool)> {
        let (out, _) = self.left?;
        let flush = self.at.saturating_neg().max(0);
        Some((out.min(flush), out > flush))
    }
}

impl PressBook {
    /// Test pieces laced in all visits.
    pub fn pieces(&self) -> usize {
        self.visits.iter().map(|visit| visit.pieces).sum()
    }

    /// Minutes they and the turns took, by what the sessions reckon them at.
    pub fn minutes(&self) -> f64 {
        self.visits.iter().map(|visit| visit.minutes).sum()
    }

    /// What each nut went through.
    pub fn nuts(&self) -> Vec<NutBook> {
        let last = self.visits.last();
        (0..self.arms.len())
            .map(|arm| NutBook {
                arm: ArmIndex(arm),
                at: last
                    .and_then(|visit| visit.nuts.1.get(arm))
                    .map_or(0, |at| at.0),
                turned: self
                    .visits
                    .iter()
                    .filter_map(|visit| visit.turned.get(arm))
                    .sum(),
                left: last.and_then(|visit| visit.travel_left.get(arm).copied().flatten()),
            })
            .collect()
    }

    /// The name of a station, as the last visit has it.
    pub fn station_name(&self, station: usize) -> String {
        let last = self.visits.last();
        let name = last.and_then(|visit| visit.station_names.get(station));
        name.cloned().unwrap_or_default()
    }

    /// Those who worked on it, in the order in which they came.
    pub fn people(&self) -> Vec<&str> {
        let mut people: Vec<&str> = Vec::new();
        for visit in &self.visits {
            if !visit.who.is_empty() && !people.contains(&visit.who.as_str()) {
                people.push(&visit.who);
            }
        }
        people
    }
}

/// The visits from the last one on that followed a repair; what was before is
/// another press.
pub fn since_repair(visits: &[Arc<VisitSummary>]) -> &[Arc<VisitSummary>] {
    let repaired = |visit: &Arc<VisitSummary>| !visit.repaired.is_empty();
    let from = visits.iter().rposition(repaired).unwrap_or(0);
    visits.get(from..).unwrap_or_default()
}

/// The books of all presses, by name as people count. Visits belong to one press where its name
/// and its arms are the same; of files with one session, that with most pieces
/// stands.
pub fn press_books(
    visits: impl IntoIterator<Item = impl Into<Arc<VisitSummary>>>,
) -> Vec<PressBook> {
    let visits: Vec<Arc<VisitSummary>> = visits.into_iter().map(Into::into).collect();
    let mut books: BTreeMap<(&str, &[Length]), Vec<_>> = BTreeMap::new();
    for visit in &visits {
        let book = books.entry((&visit.press, &visit.arms)).or_default();
        book.push(Arc::clone(visit));
    }
    let mut books: Vec<_> = books.into_iter().collect();
    books.sort_by_cached_key(|((press, _), _)| counted(press));
    books
        .into_iter()
        .map(|((press, arms), mut visits)| {
            visits.sort_by(|a, b| (Reverse(a.pieces), &a.file).cmp(&(Reverse(b.pieces), &b.file)));
            let mut copies = Vec::new();
            let mut seen: BTreeSet<String> = BTreeSet::new();
            visits.retain(|visit| {
                let new = seen.insert(visit.id.clone());
                if !new {
                    copies.push(visit.file.clone());
                }
                new
            });
            // Ids sort by age; days stand before them where they are known.
            visits.sort_by(|a, b| (a.day, &a.id, &a.file).cmp(&(b.day, &b.id, &b.file)));
            let drift = Drift::of(since_repair(&visits));
            PressBook {
                press: press.to_owned(),
                arms: arms.to_vec(),
                visits,
                copies,
                drift,
                changed: None,
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn room_past_flush_is_not_counted() {
        let nut = |at, left| NutBook {
            arm: ArmIndex(0),
            at,
            turned: 0,
            left,
        };
        assert_eq!(nut(-7, Some((7, 5))).out_to_flush(), Some((7, false)));
        assert_eq!(nut(-7, Some((4, 5))).out_to_flush(), Some((4, false)));
        assert_eq!(nut(-7, Some((19, 5))).out_to_flush(), Some((7, true)));
        assert_eq!(nut(3, Some((9, 15))).out_to_flush(), Some((0, true)));
        assert_eq!(nut(-7, None).out_to_flush(), None);
    }
}
