//! What cannot be written down by hand while an exercise is under way: readings
//! and turns are acts, each takes its time, and nothing done is taken back.

use crate::session::{Edit, Field};

use super::App;
use super::action::Action;

impl App {
    /// Whether this would write into the notebook of an exercise what was not
    /// done at its press.
    pub(super) fn goes_round_practice(&self, action: &Action) -> bool {
        self.practicing.is_some()
            && match action {
                Action::Edit(edit) => !may_be_written(edit),
                Action::Import(..)
                | Action::AskImport
                | Action::ChooseReadings
                | Action::Guide
                | Action::GoAndTurnGap
                | Action::Undo
                | Action::Redo => true,
                _ => false,
            }
    }
}

/// Whether a change is a remark or a judgement of the trainee's own.
fn may_be_written(edit: &Edit) -> bool {
    match edit {
        Edit::Noted { change, .. } => may_be_written(change),
        Edit::Together(changes) => changes.iter().all(may_be_written),
        Edit::KeepDoubtful { .. }
        | Edit::Strike { .. }
        | Edit::Unstrike { .. }
        | Edit::SetWalk { .. }
        | Edit::SetPassText { .. }
        | Edit::Tick { .. }
        | Edit::Untick(_)
        | Edit::Skip { .. }
        | Edit::AddStep { .. }
        | Edit::HideStep(_)
        | Edit::ShowStep(_) => true,
        Edit::Set { field, .. } => matches!(
            field,
            Field::Who | Field::When | Field::Belt | Field::Hooks | Field::Notes
        ),
        _ => false,
    }
}
