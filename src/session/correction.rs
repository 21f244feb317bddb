//! What was changed in a pass after the next one was laced.
//!
//! Turns were chosen on what a pass said. When somebody changes it later, the
//! advice and what was learnt follow the new figures; the trace keeps what
//! stood there, so that anybody can tell what the crew had before its eyes.

use crate::press::{ArmIndex, CountQuantity, NutPosition};
use crate::splice::Cell;

use super::{Pass, Session, SessionProblem};

/// Who changes something, and when.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct By {
    /// Who; as the session's notes say where this is empty.
    pub who: String,
    /// When, as the program or the user wrote it.
    pub when: String,
}

/// A reading that was changed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CorrectedReading {
    /// Station index.
    pub station: usize,
    /// Repeat index.
    pub repeat: usize,
    /// What stood in the cell; empty where nothing did.
    pub was: String,
    /// Whether it was struck.
    pub struck: bool,
    /// Who changed it, and when.
    pub by: By,
}

/// A recorded nut position that was changed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CorrectedNut {
    /// The arm.
    pub arm: ArmIndex,
    /// The position recorded before.
    pub was: NutPosition,
    /// Who changed it, and when.
    pub by: By,
}

/// What was changed in a pass after the next one was laced, oldest first.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Corrections {
    /// Readings.
    pub readings: Vec<CorrectedReading>,
    /// Nut positions.
    pub nuts: Vec<CorrectedNut>,
}

impl Corrections {
    /// Whether nothing was changed.
    pub fn is_empty(&self) -> bool {
        self.readings.is_empty() && self.nuts.is_empty()
    }

    /// How many changes.
    pub fn len(&self) -> usize {
        self.readings.len() + self.nuts.len()
    }

    /// Makes room for an arm.
    pub(super) fn make_room_for_arm(&mut self, at: usize) {
        for nut in self.nuts.iter_mut().filter(|nut| nut.arm.0 >= at) {
            nut.arm.0 += 1;
        }
    }

    /// Lets go of an arm.
    pub(super) fn drop_arm(&mut self, gone: ArmIndex) {
        self.nuts.retain(|nut| nut.arm != gone);
        for nut in self.nuts.iter_mut().filter(|nut| nut.arm > gone) {
            nut.arm.0 -= 1;
        }
    }

    /// Lets go of a station.
    pub(super) fn drop_station(&mut self, gone: usize) {
        self.readings.retain(|reading| reading.station != gone);
        for reading in &mut self.readings {
            if reading.station > gone {
                reading.station -= 1;
            }
        }
    }

    /// Follows stations into a new order: in each new place, the old index.
    pub(super) fn reorder_stations(&mut self, order: &[usize]) {
        for reading in &mut self.readings {
            if let Some(place) = order.iter().position(|old| *old == reading.station) {
                reading.station = place;
            }
        }
    }
}

impl Session {
    /// Notes what differs from `before` in passes that others follow.
    ///
    /// The first reading at a station is no correction: nothing stood there.
    /// A pass that is put in or taken out, an arm or a station that comes or
    /// goes, is no correction of a pass either.
    pub(super) fn trace_since(&mut self, before: &Self, by: &By) {
        let alike = self.passes.len() == before.passes.len()
            && self.stations == before.stations
            && self.press.arms.len() == before.press.arms.len();
        let followed = self.passes.len().saturating_sub(1);
        if !alike {
            return;
        }
        let by = By {
            who: match by.who.trim() {
                "" => self.notes.who.trim().to_owned(),
                who => who.to_owned(),
            },
            when: by.when.trim().to_owned(),
        };
        for (pass, old) in self.passes.iter_mut().zip(&before.passes).take(followed) {
            if pass.rows != old.rows {
                note_readings(pass, old, &by);
            }
            let nuts = pass.nuts.iter().zip(&old.nuts).zip((0..).map(ArmIndex));
            let changed = nuts.filter(|((now, was), _)| now != was);
            let noted = changed.map(|((_, was), arm)| CorrectedNut {
                arm,
                was: *was,
                by: by.clone(),
            });
            pass.corrections.nuts.extend(noted);
        }
    }

    /// Checks that every trace is about something that is there.
    pub(super) fn check_corrections(
        &self,
        pass: usize,
        corrections: &Corrections,
    ) -> Result<(), SessionProblem> {
        CountQuantity::Corrections.check(corrections.len() as i64)?;
        for reading in &corrections.readings {
            CountQuantity::Repeats.check(reading.repeat as i64 + 1)?;
        }
        let station_there = |at: &CorrectedReading| at.station < self.stations.len();
        let arm_there = |at: &CorrectedNut| at.arm.0 < self.press.arms.len();
        if corrections.readings.iter().all(station_there) && corrections.nuts.iter().all(arm_there)
        {
            Ok(())
        } else {
            Err(SessionProblem::TraceOfNothing(pass))
        }
    }
}

fn note_readings(pass: &mut Pass, old: &Pass, by: &By) {
    const EMPTY: &Cell = &Cell::Empty;
    for (station, (row, was)) in pass.rows.iter().zip(&old.rows).enumerate() {
        if row == was || was.is_empty() {
            continue;
        }
        for repeat in 0..row.len().max(was.len()) {
            let [now, was] = [row, was].map(|row| row.get(repeat).unwrap_or(EMPTY));
            if now == was {
                continue;
            }
            pass.corrections.readings.push(CorrectedReading {
                station,
                repeat,
                was: was.text().to_owned(),
                struck: was
                    .reading()
                    .is_some_and(|reading| reading.struck.is_some()),
                by: by.clone(),
            });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests_visit::*;
    use super::*;
    use crate::session::{Document, Edit};
    use crate::units::Unit;

    fn enter(pass: usize, station: usize, repeat: usize, text: &str) -> Edit {
        Edit::enter((pass, station, repeat), text, Unit::Inch)
    }

    fn by() -> By {
        By {
            who: "R. Alder".into(),
            when: "2026-11-25 09:12".into(),
        }
    }

    fn noted(change: Edit) -> Edit {
        Edit::Noted {
            change: Box::new(change),
            by: by(),
        }
    }

    /// Two passes, the first of them read at A.
    fn document() -> Document {
        let mut document = Document::unsaved(press_of_four());
        let add = Edit::add_pass([], "");
        document.apply(&add).unwrap();
        document.apply(&enter(0, 0, 0, "0.2500")).unwrap();
        document.apply(&add).unwrap();
        document
    }

    #[test]
    fn a_reading_changed_after_the_next_lacing_leaves_a_trace() {
        let mut document = document();
        document.apply(&noted(enter(0, 0, 0, "0.2480"))).unwrap();
        document.apply(&noted(enter(0, 0, 1, "0.2490"))).unwrap();
        document.apply(&noted(enter(0, 0, 0, ""))).unwrap();
        let trace = |was: &str, repeat| CorrectedReading {
            station: 0,
            repeat,
            was: was.into(),
            struck: false,
            by: by(),
        };
        let expected = [trace("0.2500 in", 0), trace("", 1), trace("0.2480 in", 0)];
        let corrections = &document.session().passes[0].corrections;
        assert_eq!(corrections.readings, expected);
        // Undo takes the trace away with the change.
        for left in (0..3).rev() {
            document.undo();
            assert_eq!(document.session().passes[0].corrections.len(), left);
        }
        assert_eq!(document.session().passes[0].cell(0, 0).text(), "0.2500 in");
    }

    #[test]
    fn first_readings_and_the_last_pass_leave_none() {
        let mut document = document();
        document.apply(&noted(enter(0, 1, 0, "0.2510"))).unwrap();
        document.apply(&noted(enter(1, 0, 0, "0.2510"))).unwrap();
        document.apply(&noted(enter(1, 0, 0, "0.2520"))).unwrap();
        let passes = &document.session().passes;
        assert!(passes.iter().all(|pass| pass.corrections.is_empty()));
    }

    #[test]
    fn a_nut_and_a_strike_leave_one_and_the_notes_say_who() {
        let mut document = document();
        let set = Edit::set_nut(Some(0), ArmIndex(1), NutPosition(-7));
        let was = document.session().nuts_at(0)[1];
        document.apply(&set).unwrap();
        let strike = Edit::strike((0, 0, 0), crate::splice::Struck::default());
        document.apply(&strike).unwrap();
        let unstrike = Edit::unstrike((0, 0, 0));
        document.apply(&unstrike).unwrap();
        let corrections = &document.session().passes[0].corrections;
        let who = document.session().notes.who.clone();
        let by = By {
            who,
            when: String::new(),
        };
        let nut = CorrectedNut {
            arm: ArmIndex(1),
            was,
            by,
        };
        assert_eq!(corrections.nuts, [nut]);
        let struck: Vec<bool> = corrections.readings.iter().map(|at| at.struck).collect();
        assert_eq!(struck, [false, true]);
    }

    #[test]
    fn traces_follow_arms_and_stations() {
        let mut document = document();
        document.apply(&enter(0, 1, 0, "0.2500")).unwrap();
        document.apply(&enter(0, 1, 0, "0.2510")).unwrap();
        let set = Edit::set_nut(Some(0), ArmIndex(1), NutPosition(-7));
        document.apply(&set).unwrap();
        let places = |document: &Document| {
            let corrections = &document.session().passes[0].corrections;
            let station = corrections.readings.last().map(|at| at.station);
            (station, corrections.nuts.last().map(|nut| nut.arm.0))
        };
        assert_eq!(places(&document), (Some(1), Some(1)));
        let add = Edit::add_arm("1", Unit::Inch);
        document.apply(&add).unwrap();
        assert_eq!(places(&document), (Some(2), Some(2)));
        // A trace of a station or a nut that is not there is refused.
        for of_nut in [false, true] {
            let mut session = document.session().clone();
            let corrections = &mut session.passes[0].corrections;
            match of_nut {
                false => corrections.readings[0].station = 99,
                true => corrections.nuts[0].arm = ArmIndex(25),
            }
            assert_eq!(session.check(), Err(SessionProblem::TraceOfNothing(0)));
        }
        document.apply(&Edit::RemoveArm(ArmIndex(0))).unwrap();
        assert_eq!(places(&document), (Some(1), Some(1)));
        document.apply(&Edit::RemoveArm(ArmIndex(1))).unwrap();
        assert_eq!(places(&document), (None, None));
    }
}
