//! The crew's view: the whole screen, a picture and a few words that can be
//! read across a shop.

use eframe::egui::{self, Button, Color32, Key, Modifiers, RichText, Ui, Vec2};

use crate::session::{NextAct, Says};
use crate::window::action::Action;
use crate::window::theme;

use crate::window::views::Scene;
use crate::window::views::picture::crew_picture::{self, Story};

/// Height of a capital letter, as a share of the size of its font (1493 of
/// 2048 units in both fonts of the window).
const CAPITAL: f32 = 1493.0 / 2048.0;

/// Height of letters, as a share of the height of the window: a twentieth,
/// and a little for rounding to whole pixels.
const LETTERS: f32 = 1.06 / 20.0;

/// Least share of the height that the picture keeps.
const PICTURE: f32 = 0.27;

/// Space at the edges and between the parts.
const SPACE: f32 = 10.0;

/// How long the jaws rest as they are before they move, and how long they
/// take, in seconds.
const REST_AND_MOVE: (f64, f64) = (1.0, 3.0);

/// Draws the view in all the room there is.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    keys(ui, scene);
    let whole = ui.ctx().content_rect().height();
    let font = whole * LETTERS / CAPITAL;
    let story = Story::of(scene);
    let moved = progress(ui, scene, &story);
    ui.spacing_mut().item_spacing = Vec2::new(SPACE, SPACE * 0.5);
    bar(ui, scene, font);
    let width = ui.available_width();
    let room = ui.available_height() - whole * PICTURE - SPACE;
    let height = |lines: &[(String, Color32)]| -> f32 {
        let laid = lines.iter().map(|(text, ink)| {
            let galley = ui
                .painter()
                .layout(text.clone(), theme::bold(font), *ink, width);
            galley.size().y + ui.spacing().item_spacing.y
        });
        laid.sum()
    };
    let tellings = tellings(scene, &story);
    let fitting = tellings.iter().find(|lines| height(lines) <= room);
    let Some(lines) = fitting.or(tellings.last()) else {
        return;
    };
    let picture = (ui.available_height() - height(lines) - SPACE).max(0.0);
    crew_picture::show(ui, scene, &story, moved, (picture, font));
    for (text, ink) in lines {
        ui.label(RichText::new(text).font(theme::bold(font)).color(*ink));
    }
}

/// Escape leaves, arrows step through the passes, the space bar shows the
/// motion again.
fn keys(ui: &Ui, scene: &mut Scene<'_>) {
    if scene.view.dialog.is_some() {
        return;
    }
    let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    if pressed(Key::Escape) {
        scene.ask(Action::Close);
    }
    if pressed(Key::ArrowLeft) || pressed(Key::ArrowUp) || pressed(Key::PageUp) {
        step(scene, -1);
    }
    if pressed(Key::ArrowRight) || pressed(Key::ArrowDown) || pressed(Key::PageDown) {
        step(scene, 1);
    }
    if pressed(Key::Space) {
        again(scene);
    }
}

fn step(scene: &mut Scene<'_>, by: isize) {
    let next = scene
        .outlook
        .pass
        .and_then(|pass| pass.checked_add_signed(by));
    if let Some(next) = next.filter(|next| *next < scene.session.passes.len()) {
        scene.ask(Action::ShowPass(Some(next)));
    }
}

fn again(scene: &mut Scene<'_>) {
    if let Some(crew) = &mut scene.view.crew {
        crew.shown = None;
    }
}

/// How far the jaws have moved from before to after, 0 to 1. Moves once after
/// every arrival and then rests; at once where the desktop wants no motion.
fn progress(ui: &Ui, scene: &mut Scene<'_>, story: &Story) -> f64 {
    let still = ui.style().animation_time <= 0.0;
    let now = ui.input(|input| input.time);
    let key = (scene.outlook.pass, story.turns.clone());
    let Some(crew) = &mut scene.view.crew else {
        return 1.0;
    };
    if crew.shown.as_ref() != Some(&key) {
        crew.shown = Some(key);
        crew.since = Some(now);
    }
    let Some(since) = crew.since.filter(|_| !still && story.turns_any()) else {
        return 1.0;
    };
    let (rest, moving) = REST_AND_MOVE;
    let share = ((now - since - rest) / moving).clamp(0.0, 1.0);
    if share >= 1.0 {
        crew.since = None;
    } else {
        ui.ctx().request_repaint();
    }
    // Gently off and gently to rest.
    share * share * (3.0 - 2.0 * share)
}

/// Which pass, and the buttons.
fn bar(ui: &mut Ui, scene: &mut Scene<'_>, font: f32) {
    let words = scene.words();
    let passes = scene.session.passes.len();
    let pass = scene.outlook.pass.unwrap_or_default();
    let press = |ui: &mut Ui, mark: &str, name: &str, enabled: bool| {
        let text = RichText::new(mark).font(theme::bold(font));
        let button = Button::new(text).min_size(Vec2::splat(font * 1.25));
        let response = ui.add_enabled(enabled, button);
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, enabled, name));
        response.clicked()
    };
    ui.horizontal(|ui| {
        ui.spacing_mut().button_padding = Vec2::new(font * 0.25, 0.0);
        if press(ui, "◀", words.command_earlier_pass(), pass > 0) {
            step(scene, -1);
        }
        if passes > 0 {
            let text = words.crew_pass(pass + 1, passes);
            ui.label(RichText::new(text).font(theme::bold(font)));
        }
        let more = pass + 1 < passes;
        if press(ui, "▶", words.command_later_pass(), more) {
            step(scene, 1);
        }
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            if press(ui, "✕", words.crew_leave_view(), true) {
                scene.ask(Action::Close);
            }
            if press(ui, "↻", words.crew_again(), true) {
                again(scene);
            }
        });
    });
}

/// What is said, from the fullest to the tersest.
fn tellings(scene: &Scene<'_>, story: &Story) -> Vec<Vec<(String, Color32)>> {
    let words = scene.words();
    let palette = scene.palette;
    let figures = scene.figures;
    let ink = palette.ink;
    // With the caution where there is room for it.
    let cautioned = |lines: Vec<(String, Color32)>| {
        let mut with = lines.clone();
        with.push((words.crew_caution().to_owned(), palette.caution));
        vec![with, lines]
    };
    let tolerance = scene.session.tolerance.length();
    let step = scene.next_step();
    let gate = &scene.outlook.gate;
    let name = |station: usize| scene.session.station_name(station);
    let names = |stations: &[usize]| -> String {
        let names: Vec<String> = stations.iter().copied().map(name).collect();
        names.join(", ")
    };
    let spread = gate.spread.as_ref();
    let not_true =
        spread.map(|spread| words.crew_not_true(name(spread.thickest), name(spread.thinnest)));
    let (sentence, colour) = match step.says {
        Says::NothingLaced => (words.crew_nothing_laced().to_owned(), ink),
        Says::Unread { turned: false } => (words.crew_unread().to_owned(), ink),
        Says::Unread { turned: true } | Says::BeyondNuts => {
            (scene.spoken(&step, |of| figures.headline(&step, of)), ink)
        }
        Says::Doubtful | Says::TurnsCannotBe | Says::OutsideJust => (
            scene.spoken(&step, |of| figures.headline(&step, of)),
            palette.caution,
        ),
        Says::Missing { outside: false } => (words.crew_missing(names(&gate.missing)), ink),
        Says::NothingToCompare => (words.nothing_to_compare().to_owned(), ink),
        Says::TurnsWould => {
            let would = scene.spoken(&step, |of| figures.headline(&step, of));
            let good = step.act == NextAct::GoAndTurn;
            (would, if good { ink } else { palette.caution })
        }
        Says::Passes {
            next_is_poor: false,
        } => (words.crew_true().to_owned(), palette.good),
        Says::Passes { next_is_poor: true } => (words.crew_true_just().to_owned(), ink),
        Says::NotSureEnough => (words.crew_not_sure().to_owned(), ink),
        Says::Missing { outside: true } | Says::Outside => {
            (not_true.unwrap_or_default(), palette.preview)
        }
    };
    let Some(spread) = spread else {
        return cautioned(vec![(sentence, colour)]);
    };
    let digits = figures.spread(spread.value, tolerance);
    let spread = (words.crew_spread(digits, figures.limit(tolerance)), ink);
    let nothing_to_do = !gate.is_clear() || step.says == Says::TurnsCannotBe;
    if (story.unknown || nothing_to_do) && !story.made {
        return cautioned(vec![(sentence, colour), spread]);
    }
    if step.act == NextAct::PutBack && !story.made {
        // Turns that would do harm are shown, never told to be made.
        let lines = [
            Some((sentence, colour)),
            Some((words.crew_only_tried(figures.turns(&story.turns)), ink)),
            outcome(scene, story).map(|outcome| (outcome, ink)),
        ];
        return cautioned(lines.into_iter().flatten().collect());
    }
    let nuts = story.turns.iter().filter(|turn| turn.0 != 0).count();
    let turns = figures.turns(&story.turns);
    let (said, drawn) = match (nuts, story.made) {
        (0, false) => (words.crew_leave().to_owned(), None),
        (0, true) => (words.crew_left().to_owned(), None),
        (nuts, false) => (words.crew_turn(turns), Some(words.crew_turn_drawn(nuts))),
        (nuts, true) => (
            words.crew_turned(turns),
            Some(words.crew_turned_drawn(nuts)),
        ),
    };
    let why = why(scene, story).map(|why| (why, ink));
    let outcome = outcome(scene, story).map(|outcome| (outcome, ink));
    let drawn = drawn.unwrap_or_else(|| said.clone());
    // How it stands, what is turned and why come before the figures.
    let telling = |turns: &str, with_why: bool, figures: usize| {
        let mut lines = vec![(sentence.clone(), colour)];
        lines.extend((figures > 0).then(|| spread.clone()));
        lines.push((turns.to_owned(), ink));
        lines.extend(why.clone().filter(|_| with_why));
        lines.extend(outcome.clone().filter(|_| figures > 1));
        lines
    };
    let mut tellings = cautioned(telling(&said, true, 2));
    tellings.extend([
        telling(&said, true, 1),
        telling(&said, true, 0),
        telling(&drawn, true, 0),
        telling(&drawn, false, 0),
    ]);
    tellings
}

/// Why nuts are turned that way.
fn why(scene: &Scene<'_>, story: &Story) -> Option<String> {
    let words = scene.words();
    let out = story.turns.iter().any(|turn| turn.0 > 0);
    let inward = story.turns.iter().any(|turn| turn.0 < 0);
    let why = match (out, inward) {
        (true, true) => words.crew_why_both(),
        (true, false) => words.crew_why_out(),
        (false, true) => words.crew_why_in(),
        (false, false) => return None,
    };
    Some(why.to_owned())
}

/// What the turns should bring, or brought.
fn outcome(scene: &Scene<'_>, story: &Story) -> Option<String> {
    let words = scene.words();
    let figures = scene.figures;
    if story.made {
        let next = scene.outlook.pass? + 1;
        let spread = scene.session.spread_of(next)?;
        let tolerance = scene.session.tolerance.length();
        let digits = figures.spread(spread.value, tolerance);
        return Some(words.crew_came(figures.with_unit(&digits)));
    }
    let forecast = scene.outlook.forecast(&story.turns)?;
    let digits = figures.predicted(forecast.median_nm);
    story
        .turns_any()
        .then(|| words.crew_should_come(figures.with_unit(&digits)))
}
