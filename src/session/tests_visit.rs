//! What the tests of the visit share.

use crate::press::{Arm, Notches, Press};
use crate::units::{Sign, TypedLength, Unit};

use super::{Edit, Hands, PathState, Session, Stage, Step, StepId};

/// A press of four arms, nothing done yet.
pub(super) fn press_of_four() -> Session {
    let inch = |text: &str| TypedLength::parse(text, Unit::Inch, Sign::None).unwrap();
    let arm = |at: &str| Arm::new(inch(at), inch("0.004"));
    let press = Press::new("", inch("48"), ["6", "18", "30", "42"].map(arm));
    Session::new(String::new(), Unit::Inch, press)
}

pub(super) fn apply(session: &mut Session, edit: Edit) {
    *session = session.edited(&edit).unwrap();
}

/// Ticks every step of a stage in sight; what makes the press safe for its nuts.
pub(super) fn tick_all(session: &mut Session, stage: Stage) {
    let steps = match stage {
        Stage::MakeSafe => session.checklist.safe_steps(Hands::TurnNuts),
        stage => session.checklist.steps(stage),
    };
    let edit = Edit::Tick {
        steps,
        who: "R. Alder".into(),
        when: "2026-11-25 09:40".into(),
        note: String::new(),
    };
    apply(session, edit);
}

/// Ticks one step.
pub(super) fn tick(session: &mut Session, step: Step) {
    let edit = Edit::Tick {
        steps: vec![step.into()],
        who: "R. Alder".into(),
        when: "2026-11-25 09:40".into(),
        note: String::new(),
    };
    apply(session, edit);
}

/// Leaves steps out for a reason.
pub(super) fn skip(session: &mut Session, steps: &[StepId]) {
    let edit = Edit::Skip {
        steps: steps.into(),
        reason: "elsewhere".into(),
        who: String::new(),
        when: String::new(),
    };
    apply(session, edit);
}

/// Opens a pass after turns.
pub(super) fn lace(session: &mut Session, turns: &[i32]) {
    let edit = Edit::add_pass(turns.iter().copied().map(Notches), "");
    apply(session, edit);
}

/// Reads the last pass.
pub(super) fn read(session: &mut Session, readings: [&str; 4]) {
    let edit = Edit::fill(
        (session.passes.len() - 1, 0, 0),
        readings.map(|text| vec![text.to_owned()]),
        Unit::Inch,
    );
    apply(session, edit);
}

/// How a stage stands.
pub(super) fn state(session: &Session, stage: Stage) -> PathState {
    let path = session.visit_path();
    path.iter().find(|at| at.stage == stage).unwrap().state
}
