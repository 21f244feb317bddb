//! What of the visit is ticked off: by whom, when, and what no longer counts.

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::codec::{a_line_each, as_text, is_usual, on_one_line};
use crate::press::{ArmIndex, CountQuantity, LengthQuantity, PressProblem};
use crate::units::{MaybeLength, TypedLength, holds};

use crate::session::procedure::stages::{Hands, Stage, Step};
use crate::session::{Session, SessionProblem};

/// A step of the visit: a fixed one, or the shop's own by its place in
/// [`Checklist::own`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StepId {
    /// A fixed step.
    Fixed(Step),
    /// One of the shop's own.
    Own(usize),
}

// The shop's own steps are numbered from 1 in the order of the list.
as_text!(
    StepId,
    Step,
    |step| match step {
        Self::Fixed(step) => step.key().to_owned(),
        Self::Own(index) => format!("own {}", index + 1),
    },
    |text| {
        let own = || {
            text.strip_prefix("own ")?
                .parse::<usize>()
                .ok()?
                .checked_sub(1)
        };
        Step::from_key(text)
            .map(Self::Fixed)
            .or_else(|| own().map(Self::Own))
    }
);

holds! { StepId { Fixed(Step) } }

impl StepId {
    /// Whether it may be left out, for a press does not have what it is about.
    pub fn may_be_absent(self) -> bool {
        match self {
            Self::Fixed(step) => step.may_be_absent(),
            Self::Own(_) => true,
        }
    }
}

/// A step that a shop added.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OwnStep {
    /// The stage it stands at the end of.
    pub stage: Stage,
    /// What it asks for, in the shop's own words.
    pub text: String,
}

/// Whether a step was done or left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(from = "bool", into = "bool")]
pub enum MarkKind {
    /// Done.
    #[default]
    Done,
    /// Left out; the note gives the reason.
    Skipped,
}

// Files say whether a step was skipped.
impl From<bool> for MarkKind {
    fn from(skipped: bool) -> Self {
        if skipped { Self::Skipped } else { Self::Done }
    }
}

impl From<MarkKind> for bool {
    fn from(kind: MarkKind) -> Self {
        kind == MarkKind::Skipped
    }
}

/// A step ticked off or left out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Mark {
    /// The step.
    pub step: StepId,
    /// Done or left out.
    #[serde(rename = "skipped", default, skip_serializing_if = "is_usual")]
    pub kind: MarkKind,
    /// Who says so.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub who: String,
    /// When, as the user or the program wrote it.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub when: String,
    /// Whatever should be remembered; the reason where it was left out.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub note: String,
    /// How many passes had been opened by then.
    #[serde(default)]
    pub passes: usize,
    /// Set once the mark no longer counts: power was on since, or the next
    /// pass began. It is kept as a record.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub lapsed: bool,
}

impl Mark {
    /// Whether both say the same: by another name too, but of what is
    /// everybody's own.
    fn is_of(&self, other: &Self) -> bool {
        let own = matches!(self.step, StepId::Fixed(step) if step.is_everybodys_own());
        self.step == other.step && (!own || self.who == other.who)
    }
}

/// The steps of the visit: what was ticked off, and how the shop has changed
/// the list.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Checklist {
    /// Gap between the jaws at every arm at full stroke; shorter than there
    /// are arms, or none at an arm, where it was not measured.
    #[serde(
        skip_serializing_if = "is_usual",
        serialize_with = "write_gaps",
        deserialize_with = "read_gaps"
    )]
    pub coarse_gap: Vec<Option<TypedLength>>,
    /// The shop's own steps. None is ever taken out, so that marks keep
    /// their place; one that is not wanted is hidden.
    #[serde(
        rename = "own_steps",
        skip_serializing_if = "is_usual",
        serialize_with = "a_line_each::serialize"
    )]
    pub own: Vec<OwnStep>,
    /// Steps that the shop does not want to see. One that makes the press
    /// safe stays in sight all the same.
    #[serde(skip_serializing_if = "is_usual", serialize_with = "on_one_line")]
    pub hidden: Vec<StepId>,
    /// All marks, oldest first. At most one of a step has not lapsed; of what is
    /// everybody's own, one of each name.
    #[serde(
        skip_serializing_if = "is_usual",
        serialize_with = "a_line_each::serialize"
    )]
    pub marks: Vec<Mark>,
}

fn write_gaps<S: Serializer>(
    gaps: &[Option<TypedLength>],
    serializer: S,
) -> Result<S::Ok, S::Error> {
    let gaps: Vec<MaybeLength> = gaps.iter().cloned().map(MaybeLength).collect();
    on_one_line(&gaps, serializer)
}

fn read_gaps<'de, D: Deserializer<'de>>(
    deserializer: D,
) -> Result<Vec<Option<TypedLength>>, D::Error> {
    let gaps = Vec::<MaybeLength>::deserialize(deserializer)?;
    let mut gaps: Vec<_> = gaps.into_iter().map(|gap| gap.0).collect();
    // Nothing in memory keeps unmeasured arms at the end.
    while gaps.last() == Some(&None) {
        gaps.pop();
    }
    Ok(gaps)
}

/// Why a checklist, or a change of it, cannot be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChecklistProblem {
    /// A step that makes the press safe always stays in sight.
    StaysInSight(Step),
    /// A step that makes the press safe is left out, though every press has
    /// what it is about.
    NeverLeftOut(Step),
    /// A step is left out without a reason.
    NoReason,
    /// A step without a text.
    NoText,
    /// A step that is not on the list.
    NoSuchStep,
    /// Two marks of one step that both count.
    MarkedTwice(StepId),
    /// A coarse gap at an arm that the press does not have.
    GapAtNoArm(ArmIndex),
}

holds! { SessionProblem { Checklist(ChecklistProblem) } }

impl Checklist {
    /// The same list for the next visit: the shop's changes without marks and
    /// measurements.
    pub fn for_next_visit(&self) -> Self {
        Self {
            own: self.own.clone(),
            hidden: self.hidden.clone(),
            ..Self::default()
        }
    }

    /// The steps of a stage that are in sight, in order.
    pub fn steps(&self, stage: Stage) -> Vec<StepId> {
        self.all_steps(stage)
            .filter(|step| !self.is_hidden(*step))
            .collect()
    }

    /// The steps that make the press safe for such hands, in order.
    pub fn safe_steps(&self, hands: Hands) -> Vec<StepId> {
        let asked = |step: &StepId| match step {
            StepId::Fixed(step) => step.is_asked_of(hands),
            StepId::Own(_) => true,
        };
        let steps = self.steps(Stage::MakeSafe);
        steps.into_iter().filter(asked).collect()
    }

    fn is_hidden(&self, step: StepId) -> bool {
        let makes_safe = matches!(step, StepId::Fixed(step) if step.stage() == Stage::MakeSafe);
        !makes_safe && self.hidden.contains(&step)
    }

    /// The steps of a stage that are hidden, in order.
    pub fn hidden_steps(&self, stage: Stage) -> Vec<StepId> {
        self.all_steps(stage)
            .filter(|step| self.is_hidden(*step))
            .collect()
    }

    fn all_steps(&self, stage: Stage) -> impl Iterator<Item = StepId> {
        let own = self.own.iter().enumerate();
        stage.steps().map(StepId::Fixed).chain(
            own.filter(move |(_, own)| own.stage == stage)
                .map(|(index, _)| StepId::Own(index)),
        )
    }

    /// The stage of a step; none for a step that is not on the list.
    pub fn stage_of(&self, step: StepId) -> Option<Stage> {
        match step {
            StepId::Fixed(step) => Some(step.stage()),
            StepId::Own(index) => self.own.get(index).map(|own| own.stage),
        }
    }

    /// The mark of a step that counts now.
    pub fn mark(&self, step: StepId) -> Option<&Mark> {
        self.marks
            .iter()
            .rev()
            .find(|mark| mark.step == step && !mark.lapsed)
    }

    /// Whether any mark of a stage has lapsed.
    pub fn has_lapsed(&self, stage: Stage) -> bool {
        self.marks
            .iter()
            .any(|mark| mark.lapsed && self.stage_of(mark.step) == Some(stage))
    }

    /// Sets the mark of a step, over one that counts now.
    pub(in crate::session) fn set_mark(&mut self, mark: Mark) {
        self.marks
            .retain(|other| other.lapsed || !other.is_of(&mark));
        self.marks.push(mark);
    }

    /// Takes the mark of a step that counts now away; whether there was one.
    pub(in crate::session) fn clear_mark(&mut self, step: StepId) -> bool {
        let before = self.marks.len();
        self.marks.retain(|mark| mark.step != step || mark.lapsed);
        self.marks.len() < before
    }

    /// Lets the marks of some steps lapse, by their stage and themselves.
    pub(in crate::session) fn lapse(&mut self, lapses: impl Fn(Stage, StepId) -> bool) {
        let own = &self.own;
        for mark in &mut self.marks {
            let stage = match mark.step {
                StepId::Fixed(step) => Some(step.stage()),
                StepId::Own(index) => own.get(index).map(|own| own.stage),
            };
            mark.lapsed |= stage.is_some_and(|stage| lapses(stage, mark.step));
        }
    }
}

impl Session {
    /// Checks the list against itself and the press.
    pub(in crate::session) fn check_checklist(&self) -> Result<(), SessionProblem> {
        let list = &self.checklist;
        CountQuantity::OwnSteps.check(list.own.len() as i64)?;
        if list.own.iter().any(|own| own.text.trim().is_empty()) {
            return Err(ChecklistProblem::NoText.into());
        }
        for step in &list.hidden {
            match step {
                StepId::Fixed(step) if step.isolates_energy() => {
                    return Err(ChecklistProblem::StaysInSight(*step).into());
                }
                _ if list.stage_of(*step).is_none() => {
                    return Err(ChecklistProblem::NoSuchStep.into());
                }
                _ => {}
            }
        }
        let mut counting: Vec<&Mark> = Vec::new();
        for mark in &list.marks {
            if list.stage_of(mark.step).is_none() {
                return Err(ChecklistProblem::NoSuchStep.into());
            }
            if mark.kind == MarkKind::Skipped && mark.note.trim().is_empty() {
                return Err(ChecklistProblem::NoReason.into());
            }
            if !mark.lapsed {
                if counting.iter().any(|other| other.is_of(mark)) {
                    return Err(ChecklistProblem::MarkedTwice(mark.step).into());
                }
                counting.push(mark);
            }
        }
        for (gap, arm) in list.coarse_gap.iter().zip((0..).map(ArmIndex)) {
            if arm.0 >= self.press.arms.len() {
                return Err(ChecklistProblem::GapAtNoArm(arm).into());
            }
            if let Some(gap) = gap {
                LengthQuantity::CoarseGap
                    .check(gap.length())
                    .map_err(|problem| PressProblem::ArmLength(arm, problem))?;
            }
        }
        Ok(())
    }
}
