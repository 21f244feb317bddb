//! Why it is this many notches: what one more or one less would do.

use eframe::egui::Ui;

use crate::window::action::Action;

use crate::window::views::Scene;
use crate::window::views::explaining::plan_row::{Line, plan_row};
use crate::window::views::widgets::strong;

/// What is recommended between turns a notch away from it, with what comes of
/// them: why it is this many notches.
pub fn close_by(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let preview = scene.preview();
    let close = scene.outlook.close_by().into_iter();
    let close = close.map(|(turns, arm, more)| {
        let note = match more {
            true => words.one_notch_more(arm),
            false => words.one_notch_less(arm),
        };
        (turns, note)
    });
    let mut close: Vec<_> = close
        .filter_map(|(turns, note)| Some((scene.outlook.forecast(&turns)?, turns, note)))
        .collect();
    close.sort_by(|one, other| other.0.chance.total_cmp(&one.0.chance));
    close.truncate(CLOSE_BY);
    if close.is_empty() {
        return;
    }
    ui.label(strong(words.close_by()));
    let turns = scene.outlook.recommended_turns().unwrap_or_default();
    let forecast = scene.outlook.forecast(&turns);
    let plan = forecast.map(|it| (it, turns, words.kind_recommended().to_owned()));
    for (forecast, turns, note) in plan.into_iter().chain(close) {
        let line = Line {
            turns: &turns,
            forecast,
            note,
            shown: turns == preview,
            said: false,
        };
        if plan_row(ui, scene, &line) {
            scene.ask(Action::Preview(turns));
        }
    }
}

/// Ways a notch away that are on show.
const CLOSE_BY: usize = 3;
