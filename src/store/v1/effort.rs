//! What the shop reckons the work at, in format 1 of session files.

use serde::de::Deserializer;
use serde::ser::Serializer;
use serde::{Deserialize, Serialize};

use crate::plan::{Chore, Effort, Minutes};

use crate::store::damage::no_name;
use crate::store::inline::Inline;

/// Minutes of every chore.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(in crate::store) struct EffortV1 {
    piece: MinutesV1,
    nut: MinutesV1,
    inward: MinutesV1,
    measuring: MinutesV1,
}

#[derive(Debug)]
struct MinutesV1(Minutes);

impl EffortV1 {
    /// Whether it is what a session without a word about it has.
    pub(in crate::store) fn is_usual(effort: &Inline<Self>) -> bool {
        Effort::from(&effort.0) == Effort::default()
    }
}

impl Default for EffortV1 {
    fn default() -> Self {
        Effort::default().into()
    }
}

impl From<Effort> for EffortV1 {
    fn from(effort: Effort) -> Self {
        let of = |chore| MinutesV1(effort.of(chore));
        Self {
            piece: of(Chore::Piece),
            nut: of(Chore::Nut),
            inward: of(Chore::Inward),
            measuring: of(Chore::Measuring),
        }
    }
}

/// What is outside its bounds is as the trade has it: a file written by hand
/// cannot make a plan that never ends.
impl From<&EffortV1> for Effort {
    fn from(file: &EffortV1) -> Self {
        let mut effort = Self::default();
        for (chore, minutes) in [
            (Chore::Piece, &file.piece),
            (Chore::Nut, &file.nut),
            (Chore::Inward, &file.inward),
            (Chore::Measuring, &file.measuring),
        ] {
            let _ = effort.set(chore, minutes.0);
        }
        effort
    }
}

impl Serialize for MinutesV1 {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(&format_args!("{} min", self.0))
    }
}

impl<'de> Deserialize<'de> for MinutesV1 {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let found = String::deserialize(deserializer)?;
        let number = found.trim().trim_end_matches("min");
        Minutes::parse(number)
            .map(Self)
            .ok_or_else(|| no_name(&found))
    }
}
