//! Readings of a session that look mistyped: in the wrong unit, or with a
//! slipped decimal point.

use crate::splice::{Reading, looks_ten_times_off, looks_typed_in_other_unit};
use crate::units::{Length, TypedLength};

use super::{Pass, Session};

/// What a reading looks like against all other readings of the session.
#[derive(Debug, Clone, PartialEq)]
pub enum Doubt {
    /// Typed in the wrong unit; the same digits in the other one.
    OtherUnit(TypedLength),
    /// Its decimal point slipped; what the others are about (their median).
    TenTimesOff(Length),
}

impl Session {
    /// Cells of a pass that look typed in the wrong unit against all other
    /// readings of the session that count: station, repeat and the reading in
    /// the other unit.
    pub fn slipped_units(&self, pass: usize) -> Vec<(usize, usize, TypedLength)> {
        let doubts = self.doubts(pass).into_iter();
        doubts
            .filter_map(|(station, repeat, doubt)| match doubt {
                Doubt::OtherUnit(other) => Some((station, repeat, other)),
                Doubt::TenTimesOff(_) => None,
            })
            .collect()
    }

    /// The reading in a cell, struck or not.
    pub fn reading_at(&self, pass: usize, station: usize, repeat: usize) -> Option<&TypedLength> {
        let cell = self.passes.get(pass)?.cell(station, repeat);
        cell.reading().map(|reading| &reading.typed)
    }

    /// Cells of a pass that look mistyped: station, repeat and why. They are
    /// only asked about, never refused or changed.
    pub fn doubts(&self, pass: usize) -> Vec<(usize, usize, Doubt)> {
        let mut all: Vec<Length> = self
            .passes
            .iter()
            .flat_map(|pass| pass.rows.iter().flatten())
            .filter_map(|cell| cell.counting())
            .map(|reading| reading.typed.length())
            .collect();
        all.sort_unstable();
        // Of two readings nobody can say which is mistyped: the later is
        // asked about.
        let before = self.passes.iter().take(pass);
        let alone = all.len() == 2 && !before.clone().any(Pass::has_readings);
        let rows = self.passes.get(pass).map_or(&[][..], |pass| &pass.rows);
        let counting = rows.iter().enumerate().flat_map(|(station, row)| {
            row.iter()
                .enumerate()
                .filter_map(move |(repeat, cell)| Some((station, repeat, cell.counting()?)))
        });
        let first = counting
            .clone()
            .map(|(station, repeat, _)| (repeat, station))
            .min();
        counting
            .filter_map(|(station, repeat, reading)| {
                let spared = alone && first == Some((repeat, station));
                Some((station, repeat, doubt(reading, &all, spared)?))
            })
            .collect()
    }
}

/// What a reading looks like. `all` holds every reading in order, this one
/// included; `spared` spares it the question about its decimal point.
fn doubt(reading: &Reading, all: &[Length], spared: bool) -> Option<Doubt> {
    let own = reading.typed.length();
    let here = all.partition_point(|length| *length < own);
    // The others, as if this one were taken out of the list.
    let other = |index: usize| all.get(index + usize::from(index >= here)).copied();
    let others = all.len().saturating_sub(1);
    let (low, high) = (other(others.saturating_sub(1) / 2), other(others / 2));
    let as_other = reading.typed.read_as(reading.typed.unit().other());
    if let Some(as_other) = as_other
        && looks_typed_in_other_unit(own, as_other.length(), high)
    {
        return Some(Doubt::OtherUnit(as_other));
    }
    // Of an even number of others both in the middle must say so.
    let far = |others: Option<Length>| others.is_some_and(|it| looks_ten_times_off(own, it));
    low.filter(|_| !spared && far(low) && far(high))
        .map(Doubt::TenTimesOff)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::press::{Arm, JawDrive, Notches, Press, customary};
    use crate::session::Edit;
    use crate::units::{Sign, Unit};

    fn doubts(readings: &[&str]) -> Vec<(usize, usize, bool)> {
        let at = |text: &str| TypedLength::parse(text, Unit::Inch, Sign::None).unwrap();
        let arms = (0..4).map(|arm| Arm {
            position: at(&format!("{}", 6 + 12 * arm)),
            notch_effect: TypedLength::from_length(customary::NOTCH_EFFECT, Unit::Inch),
            limits: None,
            opening_margin: None,
        });
        let press = Press {
            name: String::new(),
            jaw_length: at("48"),
            arms: arms.collect(),
            nut_travel: None,
            drive: JawDrive::default(),
            left_hand_thread: false,
        };
        let mut session = Session::new(String::new(), Unit::Inch, press);
        session.passes.push(Pass::unread(vec![Notches(0); 4], 4));
        for (index, text) in readings.iter().enumerate() {
            let edit = Edit::Enter {
                pass: 0,
                station: index % 4,
                repeat: index / 4,
                text: (*text).to_owned(),
                bare: Unit::Inch,
            };
            session = session.edited(&edit).unwrap();
        }
        session
            .doubts(0)
            .into_iter()
            .map(|(station, repeat, doubt)| {
                (station, repeat, matches!(doubt, Doubt::TenTimesOff(_)))
            })
            .collect()
    }

    #[test]
    fn the_odd_one_is_asked_about_and_no_other() {
        assert_eq!(doubts(&["0.25"]), []);
        assert_eq!(doubts(&["0.25", "0.26"]), []);
        assert_eq!(doubts(&["0.25", "2.49"]), [(1, 0, true)]);
        assert_eq!(doubts(&["0.25", "2.49", "0.25"]), [(1, 0, true)]);
        assert_eq!(doubts(&["2.49", "0.25", "0.25"]), [(0, 0, true)]);
        assert_eq!(
            doubts(&["0.25", "0.025", "0.25", "0.25", "0.26"]),
            [(1, 0, true)]
        );
        assert_eq!(doubts(&["0.25", "0.25", "6.35", "0.25"]), [(2, 0, false)]);
        // Two against two: nobody can say, so all are asked about.
        assert_eq!(doubts(&["0.25", "0.25", "2.5", "2.5"]).len(), 4);
    }
}
