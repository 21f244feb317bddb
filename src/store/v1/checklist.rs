//! The steps of the visit in format 1 of session files.

use serde::de::Deserializer;
use serde::ser::Serializer;
use serde::{Deserialize, Serialize};

use crate::session::{Checklist, Mark, MarkKind, OwnStep, Stage, Step, StepId};

use crate::store::damage::no_step;
use crate::store::inline::Inline;
use crate::store::v1::cells::CellV1;
use crate::store::v1::is_false;

/// The steps of the visit; the shop's own are numbered from 1 in the order in
/// which they stand here.
#[derive(Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(in crate::store) struct ChecklistV1 {
    /// One entry per arm, empty text where it was not measured.
    #[serde(skip_serializing_if = "is_empty")]
    coarse_gap: Inline<Vec<CellV1>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    own_steps: Vec<Inline<OwnStepV1>>,
    #[serde(skip_serializing_if = "is_empty")]
    hidden: Inline<Vec<StepV1>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    marks: Vec<Inline<MarkV1>>,
}

#[derive(Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct OwnStepV1 {
    stage: StageV1,
    text: String,
}

#[derive(Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct MarkV1 {
    step: StepV1,
    #[serde(default, skip_serializing_if = "is_false")]
    skipped: bool,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    who: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    when: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    note: String,
    #[serde(default)]
    passes: usize,
    #[serde(default, skip_serializing_if = "is_false")]
    lapsed: bool,
}

/// A step: a fixed one by its name, the shop's own as `own 1`, `own 2` ...
#[derive(Debug, Clone, Copy, PartialEq)]
struct StepV1(StepId);

impl Serialize for StepV1 {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self.0 {
            StepId::Fixed(step) => serializer.serialize_str(step.key()),
            StepId::Own(index) => serializer.collect_str(&format_args!("own {}", index + 1)),
        }
    }
}

impl<'de> Deserialize<'de> for StepV1 {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let name = String::deserialize(deserializer)?;
        let own = || {
            let number: usize = name.strip_prefix("own ")?.parse().ok()?;
            number.checked_sub(1).map(StepId::Own)
        };
        Step::from_key(&name)
            .map(StepId::Fixed)
            .or_else(own)
            .map(Self)
            .ok_or_else(|| no_step(&name))
    }
}

/// A stage by its name.
#[derive(Debug, Clone, Copy, PartialEq)]
struct StageV1(Stage);

impl Serialize for StageV1 {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.0.key())
    }
}

impl<'de> Deserialize<'de> for StageV1 {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let name = String::deserialize(deserializer)?;
        Stage::from_key(&name)
            .map(Self)
            .ok_or_else(|| no_step(&name))
    }
}

impl ChecklistV1 {
    /// Whether there is nothing to say.
    pub(in crate::store) fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// What a shop has made of the list, as the preferences keep it.
impl ChecklistV1 {
    /// The shop's list; what cannot be in it is left out.
    pub(in crate::store) fn into_shop_list(self) -> Checklist {
        let list = Checklist::from(self);
        Checklist::of_shop(list.own, &list.hidden)
    }
}

impl From<&Checklist> for ChecklistV1 {
    fn from(list: &Checklist) -> Self {
        let own = list.own.iter().map(|own| OwnStepV1 {
            stage: StageV1(own.stage),
            text: own.text.clone(),
        });
        let marks = list.marks.iter().map(|mark| MarkV1 {
            step: StepV1(mark.step),
            skipped: mark.kind == MarkKind::Skipped,
            who: mark.who.clone(),
            when: mark.when.clone(),
            note: mark.note.clone(),
            passes: mark.passes,
            lapsed: mark.lapsed,
        });
        Self {
            coarse_gap: Inline(
                list.coarse_gap
                    .iter()
                    .map(|gap| CellV1::of(gap.as_ref()))
                    .collect(),
            ),
            own_steps: own.map(Inline).collect(),
            hidden: Inline(list.hidden.iter().copied().map(StepV1).collect()),
            marks: marks.map(Inline).collect(),
        }
    }
}

impl From<ChecklistV1> for Checklist {
    fn from(file: ChecklistV1) -> Self {
        let mut coarse_gap: Vec<_> = file
            .coarse_gap
            .0
            .into_iter()
            .map(CellV1::into_length)
            .collect();
        // Nothing in memory keeps unmeasured arms at the end.
        while coarse_gap.last() == Some(&None) {
            coarse_gap.pop();
        }
        Self {
            marks: file
                .marks
                .into_iter()
                .map(|Inline(mark)| Mark {
                    step: mark.step.0,
                    kind: if mark.skipped {
                        MarkKind::Skipped
                    } else {
                        MarkKind::Done
                    },
                    who: mark.who,
                    when: mark.when,
                    note: mark.note,
                    passes: mark.passes,
                    lapsed: mark.lapsed,
                })
                .collect(),
            own: file
                .own_steps
                .into_iter()
                .map(|Inline(own)| OwnStep {
                    stage: own.stage.0,
                    text: own.text,
                })
                .collect(),
            hidden: file.hidden.0.into_iter().map(|step| step.0).collect(),
            coarse_gap,
        }
    }
}

fn is_empty<T>(list: &Inline<Vec<T>>) -> bool {
    list.0.is_empty()
}
