//! The way on from a stage: its next true act, and the way to another stage
//! beside it.

use eframe::egui::{Response, Ui};

use crate::session::{Edit, NextAct, PathState, Stage, Stands, Step, StepId};
use crate::window::action::Action;
use crate::window::state::turn_card::{Purpose, Turning};
use crate::window::state::{Before, Dialog};

use crate::window::views::Scene;
use crate::window::views::dialog_room::Foot;
use crate::window::views::turning::make_safe;
use crate::window::views::visit::noting::{hands_wait, now};
use crate::window::views::visit::{signer, stage_records};
use crate::window::views::widgets::{button, strong};

/// What a button does.
enum Does {
    /// Asks whether the press is made safe.
    MakeSafe,
    /// Asks for something.
    Asks(Vec<Action>),
    /// Shows another stage.
    Goes(Stage),
}

/// A button of the way on.
struct Way {
    text: String,
    does: Does,
}

impl Way {
    fn new(text: impl Into<String>, does: Does) -> Self {
        let text = text.into();
        Self { text, does }
    }

    fn to(scene: &Scene<'_>, stage: Stage) -> Self {
        let words = scene.words();
        Self::new(words.next_stage(words.stage(stage)), Does::Goes(stage))
    }

    fn asks(text: impl Into<String>, action: Action) -> Self {
        Self::new(text, Does::Asks(vec![action]))
    }

    fn make_safe(scene: &Scene<'_>) -> Self {
        Self::new(scene.words().make_safe_now(), Does::MakeSafe)
    }
}

/// What may be done at a stage.
struct Ways {
    /// The act of the stage.
    act: Way,
    /// Whether that is the next true act. While boxes are open, going on is none
    /// and looks like any other button.
    is_true: bool,
    /// What else may be done.
    aside: Vec<Way>,
    /// What is missing until the act can be done.
    missing: Option<String>,
}

impl Ways {
    fn only(act: Way, is_true: bool) -> Self {
        Self {
            act,
            is_true,
            aside: Vec::new(),
            missing: None,
        }
    }

    fn beside(self, aside: impl IntoIterator<Item = Way>) -> Self {
        Self {
            aside: aside.into_iter().collect(),
            ..self
        }
    }
}

/// Draws the buttons as the foot of a dialog has them: the act at the right,
/// filled where it is the next true one.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, stage: Stage) {
    let Ways {
        act,
        is_true,
        aside,
        missing,
    } = ways(scene, stage);
    let enabled = missing.is_none();
    let plain = enabled && !is_true;
    let foot = Foot {
        leave: plain.then_some(&act.text),
        main: (!plain).then_some((&act.text, enabled)),
    };
    let mut other = None;
    let (answer, button_of_act) = foot.draw(ui, scene.palette, |ui| {
        for (place, way) in aside.iter().enumerate() {
            if button(ui, &way.text).clicked() {
                other = Some(place);
            }
        }
        missing.map(|missing| ui.label(strong(missing)));
    });
    if std::mem::take(&mut scene.view.visit.wants_focus) && enabled {
        button_of_act.iter().for_each(Response::request_focus);
    }
    let pressed = match (answer, other) {
        (Some(_), _) => Some(act.does),
        (None, Some(place)) => aside.into_iter().nth(place).map(|way| way.does),
        (None, None) => None,
    };
    match pressed {
        Some(Does::MakeSafe) => {
            let before = Box::new(Before::Hands(stage));
            scene.ask(Action::Show(Box::new(Dialog::MakeSafe(before))));
        }
        Some(Does::Asks(actions)) => actions.into_iter().for_each(|action| scene.ask(action)),
        Some(Does::Goes(stage)) => scene.view.visit.go_to(stage),
        None => {}
    }
}

/// What may be done at a stage. Where hands go in and the press is not made
/// safe, making it safe comes first.
fn ways(scene: &Scene<'_>, stage: Stage) -> Ways {
    let words = scene.words();
    let session = scene.session;
    let open = open(scene, stage).len();
    let current = session.current_stage().unwrap_or(Stage::CloseOut);
    let waits = hands_wait(scene, stage);
    let make_safe = || Ways::only(Way::make_safe(scene), true);
    let safe_first = waits.then(|| Way::make_safe(scene));
    let save = || Way::asks(words.command_save(), Action::Save);
    let later = || Way::asks(words.save_close_out_later(), Action::Save);
    match stage {
        // The answer, and back to where the work is.
        Stage::MakeSafe => {
            let next = Some(current).filter(|current| *current > Stage::MakeSafe);
            let next = next.unwrap_or(Stage::FreeNuts);
            let turns = next == Stage::Turn && scene.next_step().act == NextAct::GoAndTurn;
            let (said, before) = match turns && !scene.thinking {
                true => {
                    let (purpose, turns) = (Purpose::Splice, scene.preview().to_vec());
                    let turning = Before::Turning(Turning { purpose, turns });
                    (words.confirm_and_turn().to_owned(), turning)
                }
                false => {
                    let said = words.confirm_next(words.stage(next));
                    (said, Before::Hands(next))
                }
            };
            let on = match session.is_made_safe_for(before.hands()) || open > 0 {
                true => Way::asks(said, Action::MadeSafe(before)),
                // The jaw stands elsewhere for that: it is asked there.
                false => Way::to(scene, next),
            };
            Ways {
                missing: make_safe::missing(scene, &session.steps_now(stage)),
                ..Ways::only(on, true)
            }
        }
        Stage::Turn => match scene.next_step().act {
            NextAct::GoAndTurn if !scene.thinking => {
                let text = match waits {
                    true => words.make_safe_then_card(),
                    false => words.go_and_turn(),
                };
                Ways::only(Way::asks(text, Action::Next(NextAct::GoAndTurn)), true)
            }
            NextAct::FindNut(_) if waits => make_safe(),
            NextAct::FindNut(arm) => match scene.view.visit.found_at(arm) {
                Some(position) => {
                    let found = Edit::FindNut { arm, position };
                    let text = words.nut_found(arm, position);
                    Ways::only(Way::asks(text, Action::Edit(found)), true)
                }
                None => Ways {
                    missing: Some(words.find_nut_first().to_owned()),
                    ..Ways::only(Way::new(words.nut_found(arm, "?"), Does::Goes(stage)), true)
                },
            },
            // Lacing has a stage of its own, whose boxes come before power does.
            NextAct::LaceFirst(_) if current != Stage::Turn => {
                Ways::only(Way::to(scene, current), true).beside(safe_first)
            }
            act => {
                let gate = &scene.outlook.gate;
                let text = scene.figures.act_label(session, gate, &act);
                Ways::only(Way::asks(text, Action::Next(act)), true).beside(safe_first)
            }
        },
        Stage::CloseOut if session.last_gate().stands != Stands::Inside => {
            let back = Way::to(scene, current);
            match end_not_ready(scene) {
                None => Ways::only(save(), true).beside([back]),
                // The piece is outside: the way on is to its nuts.
                Some(end) => Ways::only(back, true).beside([end].into_iter().chain(safe_first)),
            }
        }
        Stage::CloseOut if waits => make_safe().beside([later()]),
        Stage::CloseOut if open > 0 => Ways::only(later(), false),
        Stage::CloseOut => Ways::only(save(), true),
        // Pins are put in or pulled behind the lock, before it comes off.
        Stage::TestLace if session.passes.is_empty() => {
            let lace = Way::asks(words.next_first_pass(), Action::LaceAgain);
            match waits {
                true => make_safe().beside([lace]),
                false => Ways::only(lace, open == 0),
            }
        }
        Stage::Relace => {
            let pass = session.passes.len();
            let unread = session
                .passes
                .last()
                .is_some_and(|last| !last.has_readings());
            match unread && pass > 1 {
                true => {
                    let text = words.piece_is_laced(pass);
                    let laced = Way::new(text, Does::Goes(Stage::Measure));
                    match waits {
                        true => make_safe().beside([laced]),
                        false => Ways::only(laced, open == 0),
                    }
                }
                false => Ways::only(Way::to(scene, current), true),
            }
        }
        Stage::Measure => match session.current_stage() {
            Some(Stage::CloseOut) | None => Ways::only(Way::to(scene, Stage::CloseOut), true),
            current => {
                let measured = current != Some(Stage::Measure);
                Ways::only(Way::to(scene, Stage::Turn), measured)
            }
        },
        Stage::FreeNuts | Stage::CoarseGap | Stage::JawDrive | Stage::TestLace => {
            let past = scene.outlook.path.iter().any(|at| {
                let states = [PathState::Passed, PathState::Recorded];
                at.stage == stage && states.contains(&at.state)
            });
            let following = Stage::ALL.into_iter().find(|later| *later > stage);
            let next = following.filter(|_| !past).unwrap_or(current);
            let on = Way::to(scene, next);
            match waits && open > 0 {
                // What is not done now leads on to where the work is.
                true if past => Ways::only(on, true).beside(safe_first),
                true => make_safe().beside([on]),
                false => Ways::only(on, past || open == 0),
            }
        }
    }
}

/// What ends a visit that leaves the press outside its tolerance: what was not done
/// is left out for that reason, and the record is saved. None once it is ended.
fn end_not_ready(scene: &Scene<'_>) -> Option<Way> {
    let words = scene.words();
    let mut steps = scene.session.steps_now(Stage::CloseOut);
    steps.retain(|step| !scene.session.is_settled(*step) && *step != Step::RecordFiled.into());
    if steps.is_empty() {
        return None;
    }
    let end = Edit::Skip {
        steps,
        reason: words.ended_not_ready().to_owned(),
        who: signer::name(scene),
        when: now(),
    };
    let actions = vec![Action::Edit(end), Action::Save];
    Some(Way::new(words.end_not_ready(), Does::Asks(actions)))
}

/// The boxes of a stage that are open.
fn open(scene: &Scene<'_>, stage: Stage) -> Vec<StepId> {
    let mut steps = stage_records::steps(scene, stage);
    steps.retain(|step| !scene.session.is_settled(*step));
    steps
}
