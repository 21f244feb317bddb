//! The way on from a stage: its next true act, and the way to another stage
//! beside it.

use eframe::egui::{Button, RichText, Ui, Vec2};

use crate::session::{NextAct, PathState, Stage, Stands};
use crate::window::action::Action;
use crate::window::state::{Before, Dialog};
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::visit::noting::hands_may_go_in;
use crate::window::views::visit::signer;
use crate::window::views::widgets::{button, main_button};

/// What a button does.
enum Does {
    /// Asks whether the press is made safe.
    MakeSafe,
    /// Asks for something.
    Asks(Action),
    /// Shows another stage.
    Goes(Stage),
    /// Nothing yet: something is open.
    Nothing,
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
}

/// Draws the buttons. What is filled is the next true act: while boxes are
/// open, going on is no such act and looks like any other button.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, stage: Stage) {
    let (aside, act, is_true) = ways(scene, stage);
    let mut pressed = None;
    ui.horizontal(|ui| {
        if let Some(aside) = aside
            && button(ui, &aside.text).clicked()
        {
            pressed = Some(aside.does);
        }
        let enabled = !matches!(act.does, Does::Nothing);
        let act_button = if is_true || !enabled {
            main_button(ui, scene.palette, &act.text, enabled)
        } else {
            let text = RichText::new(&act.text).font(theme::bold(size::BODY));
            let width = ui.available_width();
            ui.add(Button::new(text).min_size(Vec2::new(width, TARGET)))
        };
        if std::mem::take(&mut scene.view.visit.wants_focus) && enabled {
            act_button.request_focus();
        }
        if act_button.clicked() {
            pressed = Some(act.does);
        }
    });
    match pressed {
        Some(Does::MakeSafe) => {
            let before = Box::new(Before::Hands(stage));
            scene.ask(Action::Show(Box::new(Dialog::MakeSafe(before))));
        }
        Some(Does::Asks(action)) => scene.ask(action),
        Some(Does::Goes(stage)) => scene.view.visit.go_to(stage),
        Some(Does::Nothing) | None => {}
    }
}

/// What else may be done, the act of the stage, and whether that is the next
/// true act.
fn ways(scene: &Scene<'_>, stage: Stage) -> (Option<Way>, Way, bool) {
    let words = scene.words();
    let session = scene.session;
    let open = open(scene, stage);
    let current = session.current_stage().unwrap_or(Stage::CloseOut);
    let make_safe = || Way::new(words.make_safe_now(), Does::MakeSafe);
    let waits = stage.hands_in_press() && !hands_may_go_in(scene);
    let later = || Way::new(words.save_close_out_later(), Does::Asks(Action::Save));
    match stage {
        Stage::MakeSafe if signer::name(scene).is_empty() && open > 0 => {
            (None, Way::new(words.sign_first(), Does::Nothing), true)
        }
        Stage::MakeSafe if open > 0 => {
            let all = session.steps_now(stage).len();
            let text = words.still_open(open, all);
            (None, Way::new(text, Does::Nothing), true)
        }
        // Back to where the work is.
        Stage::MakeSafe => {
            let next = Some(current).filter(|current| *current > Stage::MakeSafe);
            (None, Way::to(scene, next.unwrap_or(Stage::FreeNuts)), true)
        }
        Stage::Turn => match scene.next_step().act {
            NextAct::GoAndTurn if !scene.thinking => {
                let text = match waits {
                    true => words.make_safe_then_card(),
                    false => words.go_and_turn(),
                };
                let go = Does::Asks(Action::Next(NextAct::GoAndTurn));
                (None, Way::new(text, go), true)
            }
            act => {
                let aside = waits.then(make_safe);
                let gate = &scene.outlook.gate;
                let text = scene.figures.act_label(session, gate, &act);
                (aside, Way::new(text, Does::Asks(Action::Next(act))), true)
            }
        },
        Stage::CloseOut if session.last_gate().stands != Stands::Inside => {
            let aside = if waits { make_safe() } else { later() };
            (Some(aside), Way::to(scene, current), true)
        }
        Stage::CloseOut if waits => (Some(later()), make_safe(), true),
        Stage::CloseOut if open > 0 => (None, later(), false),
        Stage::CloseOut => {
            let save = Way::new(words.command_save(), Does::Asks(Action::Save));
            (None, save, true)
        }
        Stage::TestLace if session.passes.is_empty() => {
            let lace = Does::Asks(Action::LaceAgain);
            (None, Way::new(words.next_first_pass(), lace), open == 0)
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
                    (None, Way::new(text, Does::Goes(Stage::Measure)), open == 0)
                }
                false => (None, Way::to(scene, current), true),
            }
        }
        Stage::Measure => match session.current_stage() {
            Some(Stage::CloseOut) | None => (None, Way::to(scene, Stage::CloseOut), true),
            current => {
                let measured = current != Some(Stage::Measure);
                (None, Way::to(scene, Stage::Turn), measured)
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
            match waits && !past {
                true => (Some(on), make_safe(), true),
                false => {
                    let aside = waits.then(make_safe);
                    (aside, on, past || open == 0)
                }
            }
        }
    }
}

/// How many boxes of a stage are open.
fn open(scene: &Scene<'_>, stage: Stage) -> usize {
    let steps = scene.session.steps_now(stage);
    let open = steps
        .iter()
        .filter(|step| !scene.session.is_settled(**step));
    open.count()
}
