//! The form about press and visit: which part is on show, what is typed, and
//! which measure the field at hand means.

use crate::press::ArmIndex;

use super::Drafts;

/// A part of the form.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Part {
    /// The press and its arms.
    #[default]
    Press,
    /// Where thickness is measured.
    Stations,
    /// This visit: who, when, how it is judged.
    Visit,
    /// What is known of jaw and rods, and what earlier visits taught.
    JawAndRods,
}

impl Part {
    /// All parts in the order in which they are shown.
    pub const ALL: [Self; 4] = [Self::Press, Self::Stations, Self::Visit, Self::JawAndRods];
}

/// What a field measures, as the picture beside it shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// From end to end of the jaw.
    JawLength,
    /// From the jaw's left end to an arm.
    Position(ArmIndex),
    /// What a notch of a nut does to the gap there; of every nut.
    NotchEffect(Option<ArmIndex>),
    /// How far a nut goes along its rod in a notch.
    NutTravel,
    /// How far a nut may stand from flush: furthest in or out.
    Limit(ArmIndex),
    /// How much further the jaw opens than it must.
    Margin(ArmIndex),
    /// Where a nut stood at first.
    StartNut(ArmIndex),
    /// One of the six of jaw and rods, in their order.
    Section(usize),
}

/// How far taking an arm away has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Removing {
    /// Nobody asked for it.
    #[default]
    No,
    /// It is asked which arm.
    Which,
    /// It is asked whether its readings go with this one.
    WithReadings(ArmIndex),
}

/// What passes of the form.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PropertiesForm {
    /// The part on show.
    pub part: Part,
    /// Whether the first field was given the keyboard.
    pub asked: bool,
    /// Fields being typed in.
    pub drafts: Drafts,
    /// How far taking an arm away has come.
    pub removing: Removing,
    /// The hand of the thread that was chosen and is asked about: the left or not.
    pub thread: Option<bool>,
    /// What the field at hand measures.
    pub measure: Option<Measure>,
}

impl PropertiesForm {
    /// Shows a measure while its field is the one at hand.
    pub fn measures(&mut self, key: &str, measure: Measure) {
        if self.drafts.at_hand.as_deref() == Some(key) {
            self.measure = Some(measure);
        }
    }
}
