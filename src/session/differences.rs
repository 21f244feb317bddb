//! What differs between two states of one session, as when two people changed
//! its file.

use crate::press::{ArmIndex, NutPosition};

use super::{Field, Session};

/// Something that differs; passes, stations and repeats are counted from zero.
/// What is not there is an empty text.
#[derive(Debug, Clone, PartialEq)]
pub enum Difference {
    /// They are not the same visit at all.
    OtherVisit,
    /// How many passes there are.
    Passes {
        /// In theirs.
        theirs: usize,
        /// In one's own.
        own: usize,
    },
    /// A reading.
    Reading {
        /// The pass.
        pass: usize,
        /// The station's name.
        station: String,
        /// The repeat.
        repeat: usize,
        /// What stands in theirs.
        theirs: String,
        /// What stands in one's own.
        own: String,
    },
    /// Where a nut stood for a pass; before the first, where it started.
    Nut {
        /// The pass; none for the start.
        pass: Option<usize>,
        /// The arm.
        arm: ArmIndex,
        /// In theirs.
        theirs: NutPosition,
        /// In one's own.
        own: NutPosition,
    },
    /// What is written about the visit.
    Text {
        /// What it is about.
        field: Field,
        /// What stands in theirs.
        theirs: String,
        /// What stands in one's own.
        own: String,
    },
    /// The note of a pass.
    Note {
        /// The pass.
        pass: usize,
        /// What stands in theirs.
        theirs: String,
        /// What stands in one's own.
        own: String,
    },
    /// Press, stations, gauge, tolerance or another setting.
    Settings,
    /// What is ticked off.
    Steps,
    /// Something else in a pass: marks, corrections, bare belt, handle.
    Marks {
        /// The pass.
        pass: usize,
    },
}

impl Session {
    /// What differs from another state of this session, in the order of the
    /// visit; empty where nothing does.
    pub fn differences(&self, theirs: &Self) -> Vec<Difference> {
        if self.id != theirs.id {
            return vec![Difference::OtherVisit];
        }
        let mut found = Vec::new();
        self.texts_differ(theirs, &mut found);
        // What is told one by one is made alike; what then differs is a
        // setting.
        let settings = Self {
            notes: theirs.notes.clone(),
            checklist: theirs.checklist.clone(),
            start_nuts: theirs.start_nuts.clone(),
            passes: theirs.passes.clone(),
            ..self.clone()
        };
        if settings != *theirs {
            found.push(Difference::Settings);
        }
        if self.checklist != theirs.checklist {
            found.push(Difference::Steps);
        }
        nuts_differ(None, &theirs.start_nuts, &self.start_nuts, &mut found);
        if self.passes.len() != theirs.passes.len() {
            found.push(Difference::Passes {
                theirs: theirs.passes.len(),
                own: self.passes.len(),
            });
        }
        for pass in 0..self.passes.len().max(theirs.passes.len()) {
            self.pass_differs(theirs, pass, &mut found);
        }
        found
    }

    fn texts_differ(&self, theirs: &Self, found: &mut Vec<Difference>) {
        let (own, other) = (&self.notes, &theirs.notes);
        for (field, own, theirs) in [
            (Field::Who, &own.who, &other.who),
            (Field::When, &own.when, &other.when),
            (Field::Belt, &own.belt, &other.belt),
            (Field::Hooks, &own.hooks, &other.hooks),
            (Field::Notes, &own.notes, &other.notes),
            (Field::Repaired, &own.repaired, &other.repaired),
        ] {
            if own != theirs {
                found.push(Difference::Text {
                    field,
                    theirs: theirs.clone(),
                    own: own.clone(),
                });
            }
        }
    }

    fn pass_differs(&self, theirs: &Self, pass: usize, found: &mut Vec<Difference>) {
        let none = super::Pass::default();
        let (own, other) = (self.passes.get(pass), theirs.passes.get(pass));
        if let (Some(own), Some(other)) = (own, other) {
            nuts_differ(Some(pass), &other.nuts, &own.nuts, found);
        }
        let both = own.is_some() && other.is_some();
        let (own, other) = (own.unwrap_or(&none), other.unwrap_or(&none));
        for station in 0..own.rows.len().max(other.rows.len()) {
            let row = |rows: &[Vec<_>]| rows.get(station).map_or(0, Vec::len);
            for repeat in 0..row(&own.rows).max(row(&other.rows)) {
                let text = |pass: &super::Pass| pass.cell(station, repeat).text().to_owned();
                let (own, other) = (text(own), text(other));
                if own != other {
                    let named = match self.stations.len() > station {
                        true => self,
                        false => theirs,
                    };
                    found.push(Difference::Reading {
                        pass,
                        station: named.station_name(station),
                        repeat,
                        theirs: other,
                        own,
                    });
                }
            }
        }
        if own.note != other.note {
            found.push(Difference::Note {
                pass,
                theirs: other.note.clone(),
                own: own.note.clone(),
            });
        }
        let texts = |pass: &super::Pass| -> Vec<Vec<String>> {
            let mut rows = Vec::new();
            for cells in &pass.rows {
                rows.push(cells.iter().map(|cell| cell.text().to_owned()).collect());
            }
            rows
        };
        let told = super::Pass {
            nuts: other.nuts.clone(),
            note: other.note.clone(),
            rows: match texts(own) == texts(other) {
                true => own.rows.clone(),
                false => other.rows.clone(),
            },
            ..own.clone()
        };
        if both && told != *other {
            found.push(Difference::Marks { pass });
        }
    }
}

fn nuts_differ(
    pass: Option<usize>,
    theirs: &[NutPosition],
    own: &[NutPosition],
    found: &mut Vec<Difference>,
) {
    for (arm, (theirs, own)) in theirs.iter().zip(own).enumerate() {
        if theirs != own {
            found.push(Difference::Nut {
                pass,
                arm: ArmIndex(arm),
                theirs: *theirs,
                own: *own,
            });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests_visit::*;
    use super::*;
    use crate::session::Edit;
    use crate::units::Unit;

    #[test]
    fn what_two_people_did_is_told() {
        let mut own = press_of_four();
        lace(&mut own, &[]);
        assert_eq!(own.differences(&own.clone()), []);
        let mut theirs = own.clone();
        let read = |session: &mut Session, station, text: &str| {
            let edit = Edit::enter((0, station, 0), text, Unit::Inch);
            apply(session, edit);
        };
        read(&mut own, 0, "0.2500");
        read(&mut theirs, 0, "0.2450");
        read(&mut theirs, 2, "0.2480");
        theirs.notes.who = "M. Brook (invented)".into();
        lace(&mut theirs, &[0, 1, 0, 0]);
        let found = own.differences(&theirs);
        let reading = |station: &str, theirs: &str, own: &str| Difference::Reading {
            pass: 0,
            station: station.into(),
            repeat: 0,
            theirs: theirs.into(),
            own: own.into(),
        };
        assert_eq!(
            found,
            [
                Difference::Text {
                    field: Field::Who,
                    theirs: theirs.notes.who.clone(),
                    own: own.notes.who.clone(),
                },
                Difference::Passes { theirs: 2, own: 1 },
                reading("A", "0.2450 in", "0.2500 in"),
                reading("C", "0.2480 in", ""),
            ]
        );
        let mut other = own.clone();
        other.tolerance = crate::units::TypedLength::from_length(
            crate::units::Length::from_nm(1_000_000),
            Unit::Inch,
        );
        assert_eq!(own.differences(&other), [Difference::Settings]);
        other.id.push('x');
        assert_eq!(own.differences(&other), [Difference::OtherVisit]);
    }
}
