//! The row of stages, always in sight: where the visit stands, and the way to
//! every stage.

use eframe::egui::{
    Align, Align2, Button, Color32, CornerRadius, Pos2, Rect, Response, Role, ScrollArea, Sense,
    StrokeKind, Ui, Vec2, WidgetInfo,
};

use crate::session::{NextAct, Pass, PathState, Stage, StageState};
use crate::window::state::Pane;
use crate::window::theme::{self, Palette, TARGET, size};
use crate::words::Language;

use crate::window::views::Scene;
use crate::window::views::hint::Hint;
use crate::window::views::visit::noting::hands_go_in;

/// Distance between chips, and between a chip's edge and its words.
const CHIP_GAP: f32 = 4.0;
const CHIP_PADDING: f32 = 8.0;

/// Width of the button that changes between picture and steps.
const SWITCH_WIDTH: f32 = 84.0;

/// Size of a chip's name and of the words below it.
const NAME_SIZE: f32 = size::SMALL + 0.5;
const STATE_SIZE: f32 = size::LEAST;

/// Every stage and how it stands, with one next act: where hands wait for it that is
/// making safe, which is done with the answer to it and not with its last box; and
/// where a reading is taken again before nuts are turned, measuring.
pub fn path(scene: &Scene<'_>) -> Vec<StageState> {
    let mut path = scene.outlook.path.clone();
    let session = scene.session;
    let mut first = session.current_stage();
    if let Some(now) = first {
        let again = matches!(
            scene.next_step().act,
            NextAct::Measure(_) | NextAct::MeasureAgain(_) | NextAct::Mend { .. }
        );
        // So does whoever is to clear up readings before turns; once it is made safe
        // they chose otherwise.
        let doubt = scene.turn_doubt().filter(|_| !session.made_safe_now());
        let again = again || doubt.is_some_and(|doubt| doubt.is_of_readings());
        // Whoever takes readings arm by arm is there until none is left.
        let guided = scene.view.guided.as_ref();
        let reads = guided.is_some_and(|guided| !guided.left(session).is_empty());
        let answered = scene.view.visit.answered && session.is_made_safe_for(now.hands());
        let lacing = matches!(now, Stage::TestLace | Stage::Relace);
        if reads || (now == Stage::Turn && again) {
            first = Some(Stage::Measure);
        } else if !answered && !lacing && hands_go_in(scene, now) {
            first = Some(Stage::MakeSafe);
        }
    }
    for at in &mut path {
        if Some(at.stage) == first {
            at.state = PathState::Current;
        } else if at.state == PathState::Current {
            at.state = PathState::Next;
        } else if at.stage == Stage::MakeSafe
            && at.state == PathState::Done
            && !scene.view.visit.answered
        {
            at.state = PathState::Todo;
        }
    }
    path
}

/// Draws the row.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    scene.view.visit.answered &= scene.session.made_safe_now();
    let path = path(scene);
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = CHIP_GAP;
        let room = ui.available_width() - SWITCH_WIDTH - CHIP_GAP;
        let chips = chips(ui, scene.words(), &path, room);
        // Where the window is too narrow for all of them, the row scrolls.
        ScrollArea::horizontal()
            .id_salt("path")
            .max_width(room)
            .auto_shrink([false, true])
            .show(ui, |ui| {
                ui.horizontal(|ui| {
                    for (at, chip) in path.iter().zip(chips) {
                        if draw(ui, scene, at, &chip).clicked() {
                            scene.view.visit.go_to(at.stage);
                            scene.view.pane = Pane::Middle;
                        }
                    }
                    let visit = &mut scene.view.visit;
                    let seen = std::mem::replace(&mut visit.seen, visit.stage);
                    // Whichever way one comes to measure for the first time, the
                    // first cell has the keyboard.
                    let other = seen.is_some() && seen != visit.stage;
                    let comes = other && visit.stage == Some(Stage::Measure);
                    if comes && !scene.session.passes.iter().any(Pass::has_readings) {
                        scene.view.ask_reading(0, 0);
                    }
                });
            });
        switch(ui, scene);
    });
}

/// A chip's words and its width.
struct Chip {
    name: &'static str,
    state: String,
    width: f32,
}

/// The chips of all stages, by their full names where these fit; room that is
/// left is shared equally.
fn chips(ui: &Ui, words: Language, path: &[StageState], room: f32) -> Vec<Chip> {
    let measure = |text: &str, font| {
        let galley = ui
            .painter()
            .layout_no_wrap(text.to_owned(), font, ui.visuals().text_color());
        galley.size().x
    };
    let with_names = |name: &dyn Fn(Stage) -> &'static str| -> (Vec<Chip>, f32) {
        let chips: Vec<Chip> = path
            .iter()
            .map(|at| {
                let (name, state) = (name(at.stage), state_words(words, at.state));
                let width = measure(name, theme::bold(NAME_SIZE))
                    .max(measure(&state, theme::regular(STATE_SIZE)))
                    + 2.0 * CHIP_PADDING;
                Chip { name, state, width }
            })
            .collect();
        let count = chips.len().max(1) as f32;
        let all = chips.iter().map(|chip| chip.width).sum::<f32>() + (count - 1.0) * CHIP_GAP;
        (chips, (room - all) / count)
    };
    let (mut chips, mut share) = with_names(&|stage| words.stage(stage));
    if share < 0.0 {
        (chips, share) = with_names(&|stage| words.stage_short(stage));
    }
    for chip in &mut chips {
        chip.width += share.max(0.0);
    }
    chips
}

/// The mark and words of a state: none is told apart by colour alone.
fn state_words(words: Language, state: PathState) -> String {
    format!("{} {}", mark(state), words.path_state(state))
}

/// The mark of a state.
pub fn mark(state: PathState) -> &'static str {
    match state {
        PathState::Done | PathState::Recorded => "✓",
        PathState::Current => "▶",
        PathState::Todo | PathState::Next => "○",
        PathState::Again => "↻",
        PathState::Skipped => "–",
        PathState::NotNeeded | PathState::Passed => "·",
    }
}

/// The colour of a state's words on a card.
pub fn state_ink(palette: &Palette, state: PathState) -> Color32 {
    match state {
        PathState::Done => palette.good,
        PathState::Current | PathState::Next => palette.present,
        PathState::Again => palette.caution,
        PathState::Recorded
        | PathState::Passed
        | PathState::Todo
        | PathState::Skipped
        | PathState::NotNeeded => palette.muted,
    }
}

fn draw(ui: &mut Ui, scene: &mut Scene<'_>, at: &StageState, chip: &Chip) -> Response {
    let palette = scene.palette;
    let words = scene.words();
    let on_show = scene.view.visit.stage == Some(at.stage);
    let in_front = scene.view.visit.in_front(scene.session);
    let (rect, response) = ui.allocate_exact_size(Vec2::new(chip.width, TARGET), Sense::click());
    response.widget_info(|| WidgetInfo::selected(Role::Tab, true, on_show, words.stage_label(at)));
    let unseen = on_show && scene.view.visit.seen != Some(at.stage);
    if response.gained_focus() || unseen {
        response.scroll_to_me(Some(Align::Center));
    }
    let touched = response.hovered();
    // Filled is where the work is, and nothing else.
    let now = at.state == PathState::Current;
    let (fill, ink, state_ink) = if now {
        (palette.present, palette.on_present, palette.on_present)
    } else if touched {
        (palette.button_hover, palette.ink, palette.ink)
    } else {
        (palette.card, palette.ink, state_ink(palette, at.state))
    };
    let edge = match at.state {
        PathState::Again => theme::stroke(1.5, palette.caution),
        _ => theme::stroke(1.0, palette.line),
    };
    let round = CornerRadius::same((TARGET / 2.0) as u8);
    let painter = ui.painter();
    painter.rect(rect, round, fill, edge, StrokeKind::Inside);
    if in_front == Some(at.stage) {
        // The stage whose steps stand below: a thick ring, parted from a filled
        // chip, and a foot that points to them.
        let ring = theme::stroke(3.0, palette.present);
        painter.rect_stroke(rect, round, ring, StrokeKind::Inside);
        let parting = theme::stroke(2.0, palette.card);
        painter.rect_stroke(rect.shrink(3.0), round, parting, StrokeKind::Inside);
        let foot = Rect::from_center_size(
            rect.center_bottom() + Vec2::new(0.0, 3.0),
            Vec2::new(rect.width() * 0.6, 4.0),
        );
        painter.rect_filled(foot, 2.0, palette.present);
    }
    let middle = rect.center();
    painter.text(
        Pos2::new(middle.x, middle.y - 7.5),
        Align2::CENTER_CENTER,
        chip.name,
        theme::bold(NAME_SIZE),
        ink,
    );
    painter.text(
        Pos2::new(middle.x, middle.y + 8.5),
        Align2::CENTER_CENTER,
        &chip.state,
        theme::regular(STATE_SIZE),
        state_ink,
    );
    let hint = format!(
        "{} {}",
        words.stage_purpose(at.stage),
        words.checked_off(at)
    );
    response.hint(hint)
}

/// The button that changes between the picture and the steps of the stage.
fn switch(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let steps_on_show = scene.view.visit.in_front(scene.session).is_some();
    let (text, hint) = if steps_on_show {
        (words.show_picture(), words.show_picture_hint())
    } else {
        (words.show_steps(), words.show_steps_hint())
    };
    let size = Vec2::new(SWITCH_WIDTH, TARGET);
    let (rect, _) = ui.allocate_exact_size(size, Sense::hover());
    let button = ui.put(rect, Button::new(text).min_size(size));
    if button.hint(hint).clicked() {
        scene.view.visit.switch();
        scene.view.pane = Pane::Middle;
    }
}
