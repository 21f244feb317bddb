//! The crew's view: the whole screen, a picture and a few words that can be
//! read across a shop, told step by step.

use std::sync::Arc;

use eframe::egui::text::LayoutJob;
use eframe::egui::{
    self, Color32, CornerRadius, Galley, Key, Modifiers, Pos2, Rect, RichText, Role, Sense,
    StrokeKind, Ui, Vec2, WidgetInfo,
};

use crate::press::ArmIndex;
use crate::window::action::Action;
use crate::window::state::CrewStep;
use crate::window::theme::{self, size};

use crate::window::views::Scene;
use crate::window::views::picture::crew_story::{Story, tellings};
use crate::window::views::picture::jaw_axis::JawAxis;
use crate::window::views::picture::jaws;
use crate::window::views::picture::splice::{self, ArmMark, Shown, Splice};
use crate::window::views::picture::test_piece;
use crate::window::views::wall;

/// Share of the height that the picture is to have, and the least it keeps
/// where a sentence needs more than its line.
const PICTURE: (f32, f32) = (0.6, 0.5);

/// Size of the press's name, of what is written on the jaws and of the names of
/// the steps, in sizes of the font: they are not what the crew acts on.
const NAME: f32 = 0.5;
const SCALE: f32 = 0.35;
const STEP: f32 = 0.46;

/// Sizes of the line about safety, the least and the most.
const SAFETY: (f32, f32) = (0.42, 0.56);

/// Space at the edges and between the parts.
const SPACE: f32 = 10.0;

/// How long the jaws rest as they are before they move, and how long they
/// take, in seconds.
const REST_AND_MOVE: (f64, f64) = (1.0, 3.0);

/// Draws the view in all the room there is.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let story = Story::of(scene);
    let steps = story.steps(scene);
    let asked = scene
        .view
        .crew
        .as_ref()
        .map(|crew| crew.step)
        .unwrap_or_default();
    let step = steps
        .iter()
        .copied()
        .rfind(|step| *step <= asked)
        .unwrap_or_default();
    keys(ui, scene, &steps, step);
    let (whole, font) = (ui.ctx().content_rect().height(), wall::font(ui));
    let moved = progress(ui, scene, &story, step);
    ui.spacing_mut().item_spacing = Vec2::new(SPACE, SPACE * 0.4);
    bar(ui, scene, (&steps, step), &story, font);
    let width = ui.available_width();
    let turns = step == CrewStep::Turns && !story.made;
    let safety = safety_line(ui, scene, turns, (font, width - 2.0 * SPACE));
    let strip = safety.size().y + SPACE * 0.4 + ui.spacing().item_spacing.y;
    let free = ui.available_height() - strip;
    let height = |lines: &[(String, Color32)]| -> f32 {
        let laid = lines.iter().map(|(text, ink)| {
            let font = theme::bold(font);
            let galley = ui.painter().layout(text.clone(), font, *ink, width);
            galley.size().y + ui.spacing().item_spacing.y
        });
        laid.sum()
    };
    let fitting = |step: CrewStep| {
        let tellings = tellings(scene, &story, step);
        let fits = |share: f32| {
            let mut lines = tellings.iter();
            lines.find(|lines| height(lines) <= free - whole * share)
        };
        let told = fits(PICTURE.0).or(fits(PICTURE.1)).or(tellings.last());
        told.cloned().unwrap_or_default()
    };
    // As high at every step, or the same piece would be drawn to another scale.
    let most = steps.iter().map(|step| height(&fitting(*step)));
    let room = (free - most.fold(0.0, f32::max)).max(0.0);
    let lines = fitting(step);
    if scene.session.passes.is_empty() {
        test_piece::marked(ui, scene, room, font / size::SMALL);
    } else if picture(ui, scene, &story, step, moved, (room, font)) {
        go(scene, &steps, step, 1);
    }
    // Before what hands do stands what comes before it.
    let pins_in = scene.words().crew_pins_in();
    let hands = turns || lines.iter().any(|(text, _)| text == pins_in);
    if hands {
        say_safety(ui, scene, Arc::clone(&safety));
    }
    for (text, ink) in lines {
        ui.label(RichText::new(text).font(theme::bold(font)).color(ink));
    }
    if !hands {
        say_safety(ui, scene, safety);
    }
}

/// What comes before hands go in, the manual above all: in one line as large as
/// it can be, in two where that would be small.
fn safety_line(ui: &Ui, scene: &Scene<'_>, turns: bool, (font, room): (f32, f32)) -> Arc<Galley> {
    let ink = scene.palette.caution;
    let (least, most) = SAFETY;
    let lay = |text: &str, size: f32| {
        let font = theme::bold(size);
        ui.painter().layout_no_wrap(text.to_owned(), font, ink)
    };
    let words = scene.words();
    let said = match turns {
        true => words.crew_safe_first(),
        false => words.crew_safe_hands(),
    };
    let text = format!("⚠ {said} {}", words.crew_manual_first());
    let wide = lay(&text, font).size().x;
    let size = (room / wide).clamp(least * 0.9, most);
    let job = LayoutJob::simple(text, theme::bold(font * size), ink, room);
    ui.painter().layout_job(job)
}

fn say_safety(ui: &mut Ui, scene: &Scene<'_>, said: Arc<Galley>) {
    egui::Frame::new()
        .fill(scene.palette.caution_back)
        .inner_margin(egui::Margin::symmetric(SPACE as i8, (SPACE * 0.2) as i8))
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.label(said);
        });
}

/// Escape leaves, arrows step through the story, the space bar shows the motion
/// again.
fn keys(ui: &Ui, scene: &mut Scene<'_>, steps: &[CrewStep], step: CrewStep) {
    if scene.view.dialog.is_some() {
        return;
    }
    let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    if pressed(Key::Escape) {
        scene.ask(Action::Close);
    }
    if pressed(Key::ArrowLeft) || pressed(Key::ArrowUp) || pressed(Key::PageUp) {
        go(scene, steps, step, -1);
    }
    if pressed(Key::ArrowRight) || pressed(Key::ArrowDown) || pressed(Key::PageDown) {
        go(scene, steps, step, 1);
    }
    if pressed(Key::Space) {
        again(scene);
    }
}

/// The step after or before one, in the next pass or the one before where this
/// one has no more.
fn beyond(
    scene: &Scene<'_>,
    steps: &[CrewStep],
    step: CrewStep,
    by: isize,
) -> Option<(usize, CrewStep)> {
    let pass = scene.outlook.pass?;
    let here = steps.iter().position(|at| *at == step)?;
    let next = here.checked_add_signed(by).and_then(|at| steps.get(at));
    if let Some(next) = next {
        return Some((pass, *next));
    }
    let other = pass.checked_add_signed(by)?;
    let there = other < scene.session.passes.len();
    let enters = if by > 0 {
        CrewStep::Stands
    } else {
        CrewStep::Expected
    };
    there.then_some((other, enters))
}

fn go(scene: &mut Scene<'_>, steps: &[CrewStep], step: CrewStep, by: isize) {
    if let Some(to) = beyond(scene, steps, step, by) {
        show_step(scene, to);
    }
}

fn show_step(scene: &mut Scene<'_>, (pass, step): (usize, CrewStep)) {
    if scene.outlook.pass != Some(pass) {
        scene.ask(Action::ShowPass(Some(pass)));
    }
    if let Some(crew) = &mut scene.view.crew {
        crew.step = step;
    }
}

fn again(scene: &mut Scene<'_>) {
    if let Some(crew) = &mut scene.view.crew {
        crew.shown = None;
    }
}

/// How far the jaws have moved from before to what is expected, 0 to 1. They
/// move once after every arrival and then rest; at once where the desktop wants
/// no motion.
fn progress(ui: &Ui, scene: &mut Scene<'_>, story: &Story, step: CrewStep) -> f64 {
    let still = ui.style().animation_time <= 0.0;
    let now = ui.input(|input| input.time);
    let key = (scene.outlook.pass, story.turns.clone(), step);
    let Some(crew) = &mut scene.view.crew else {
        return 1.0;
    };
    if crew.shown.as_ref() != Some(&key) {
        crew.shown = Some(key);
        crew.since = (step == CrewStep::Expected).then_some(now);
    }
    let Some(since) = crew.since.filter(|_| !still) else {
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

/// The steps as they are told, and the buttons.
fn bar(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    (steps, step): (&[CrewStep], CrewStep),
    story: &Story,
    font: f32,
) {
    let words = scene.words();
    ui.horizontal(|ui| {
        let there = |scene: &Scene<'_>, by| beyond(scene, steps, step, by).is_some();
        let (back, on) = (there(scene, -1), there(scene, 1));
        if wall::button(ui, font, "◀", words.crew_back(), back) {
            go(scene, steps, step, -1);
        }
        if wall::button(ui, font, "▶", words.crew_on(), on) {
            go(scene, steps, step, 1);
        }
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            if wall::button(ui, font, "✕", words.crew_leave_view(), true) {
                scene.ask(Action::Close);
            }
            let moves = step == CrewStep::Expected;
            if moves && wall::button(ui, font, "⇄", words.crew_again(), true) {
                again(scene);
            }
            if let Some(pass) = scene.outlook.pass {
                let named = steps.iter().map(|at| {
                    let name = step_name(scene, *at, (pass, story.made));
                    (name, Some((pass, *at)))
                });
                let mut named: Vec<_> = named.collect();
                if steps.contains(&CrewStep::Turns) {
                    let next = Some((pass + 1, CrewStep::Stands)).filter(|_| story.made);
                    named.push((words.crew_as_it_came(), next));
                }
                if let Some(to) = pills(ui, scene, &named, (pass, step), font) {
                    show_step(scene, to);
                }
            }
        });
    });
}

/// A step by its name, and where it is told; nowhere while that piece is not
/// laced.
type Told = (&'static str, Option<(usize, CrewStep)>);

/// The steps side by side, filled where the view is; the one that was pressed.
fn pills(
    ui: &mut Ui,
    scene: &Scene<'_>,
    named: &[Told],
    here: (usize, CrewStep),
    font: f32,
) -> Option<(usize, CrewStep)> {
    let palette = scene.palette;
    let room = ui.available_width();
    let high = wall::height(font);
    let gap = SPACE * 0.6;
    let painter = ui.painter().clone();
    let lay = |text: &str, size: f32, ink| {
        let font = theme::bold(size);
        painter.layout_no_wrap(text.to_owned(), font, ink)
    };
    let pill = (room - gap * (named.len() as f32 - 1.0)) / named.len().max(1) as f32;
    let pill = pill.min(font * 7.0);
    let widest = named
        .iter()
        .map(|(name, _)| lay(name, font, palette.ink).size().x);
    let widest = widest.fold(1.0, f32::max);
    let size = ((pill - high * 0.4) / widest * font).min(font * STEP);
    // In a narrow window the others are numbers.
    let all = size >= theme::size::LEAST;
    let (area, _) = ui.allocate_exact_size(Vec2::new(room, high), Sense::hover());
    let mut left = area.left();
    let mut pressed = None;
    for (index, (name, at)) in named.iter().enumerate() {
        let current = *at == Some(here);
        let wide = match (all, current) {
            (true, _) => pill,
            (false, true) => room - (named.len() as f32 - 1.0) * (theme::TARGET + gap),
            (false, false) => theme::TARGET,
        };
        let place = Rect::from_min_size(Pos2::new(left, area.top()), Vec2::new(wide, high));
        left += wide + gap;
        let (fill, ink, edge) = match (current, at) {
            (true, _) => (palette.present, palette.on_present, palette.present),
            (false, Some(_)) => (palette.button, palette.ink, palette.edge),
            (false, None) => (palette.card, palette.muted, palette.line),
        };
        let round = CornerRadius::same((high / 2.0) as u8);
        let edge = theme::stroke(1.5, edge);
        painter.rect(place, round, fill, edge, StrokeKind::Inside);
        let size = if all { size } else { theme::size::LEAST };
        let text = match all || current {
            true => lay(name, size, ink),
            false => lay(&(index + 1).to_string(), size, ink),
        };
        let middle = place.center() - text.size() / 2.0;
        painter.galley(middle, text, ink);
        let sense = if at.is_some() {
            Sense::click()
        } else {
            Sense::hover()
        };
        let id = ui.scope_id().with(("step", index));
        let response = ui.interact(place, id, sense);
        let said = match current {
            true => scene.words().crew_pass(here.0 + 1, name),
            false => (*name).to_owned(),
        };
        response.widget_info(|| {
            let mut info = WidgetInfo::selected(Role::Tab, at.is_some(), current, &said);
            info.enabled = at.is_some();
            info
        });
        if response.clicked() {
            pressed = *at;
        }
    }
    pressed
}

fn step_name(scene: &Scene<'_>, step: CrewStep, (pass, made): (usize, bool)) -> &'static str {
    let words = scene.words();
    match (step, made) {
        (CrewStep::Stands, _) if pass == 0 => words.crew_as_found(),
        (CrewStep::Stands, _) => words.crew_as_it_came(),
        (CrewStep::Wrong, _) => words.crew_what_is_wrong(),
        (CrewStep::Turns, false) => words.crew_what_we_turn(),
        (CrewStep::Turns, true) => words.crew_what_was_turned(),
        (CrewStep::Expected, _) => words.crew_as_expected(),
    }
}

/// Draws the splice as the step has it; answers whether it was clicked.
fn picture(
    ui: &mut Ui,
    scene: &Scene<'_>,
    story: &Story,
    step: CrewStep,
    moved: f64,
    (height, font): (f32, f32),
) -> bool {
    let room = Vec2::new(ui.available_width(), height);
    let (area, response) = ui.allocate_exact_size(room, Sense::click());
    let words = scene.words();
    let figures = scene.figures;
    let next = scene.next_step();
    let sentence = scene.spoken(&next, |of| figures.headline(&next, of));
    let description = words.crew_description(sentence);
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &description));
    // Until the jaws move, what was measured is on show.
    let expected = step == CrewStep::Expected && moved > 0.0;
    let pairs = story.before.iter().zip(&story.after);
    let between = pairs.map(|(before, after)| match (before, after) {
        (Some(before), Some(after)) => Some(before + moved * (after - before)),
        (before, _) => *before,
    });
    let (means, shown) = match expected {
        true if moved >= 1.0 => (story.after.clone(), Shown::Expected),
        true => (between.collect(), Shown::Expected),
        false => (story.before.clone(), Shown::Measured),
    };
    let won = !expected && !story.found.is_empty();
    let gate = &scene.outlook.gate;
    let spread = gate
        .spread
        .as_ref()
        .filter(|_| gate.is_clear() && !expected);
    let ends = spread.map(|spread| [spread.thickest, spread.thinnest]);
    let nuts_turn = matches!(step, CrewStep::Turns | CrewStep::Expected);
    let arms: Vec<ArmMark> = jaws::arms(scene)
        .into_iter()
        .enumerate()
        .map(|(index, arm)| {
            let station = scene
                .session
                .stations
                .iter()
                .position(|station| station.arm() == Some(ArmIndex(index)));
            let mean = station.and_then(|station| *means.get(station)?);
            let turn = story.turns.get(index).filter(|turn| turn.0 != 0);
            ArmMark {
                // What is expected has one figure, its spread, below.
                reading: mean
                    .filter(|_| !expected)
                    .map(|nm| (nm, crew_reading(scene, nm))),
                turn: turn.filter(|_| nuts_turn).map(|turn| {
                    let way = scene.session.press.wrench_way(*turn);
                    let way = way.map_or("", |way| words.wrench_arrow(way));
                    let full = format!("{way} {}", figures.turn_short(*turn));
                    [full, format!("{way}{}", turn.0.unsigned_abs())]
                }),
                tag: ends.and_then(|[thickest, thinnest]| {
                    let tags = [(thickest, words.thickest()), (thinnest, words.thinnest())];
                    let tag = tags.into_iter().find(|(end, _)| Some(*end) == station);
                    tag.map(|(_, said)| said)
                }),
                ..arm
            }
        })
        .collect();
    let press = &scene.session.press.name;
    let name = match scene.outlook.pass {
        Some(pass) => format!("{press} · {}", words.pass_number(pass + 1)),
        None => press.clone(),
    };
    splice::paint(
        &ui.painter_at(area),
        area,
        font * SCALE * 1.5,
        &Splice {
            palette: scene.palette,
            axis: JawAxis {
                left: area.left(),
                right: area.right(),
                length_nm: scene.session.press.jaw_length.length().nm_f64(),
            },
            stations_nm: &scene.outlook.stations_nm,
            means_nm: &means,
            beside_nm: match expected {
                true => Some((&story.before[..], Shown::Measured)),
                false => won.then_some((&story.found[..], Shown::Measured)),
            },
            likely_nm: story.likely.as_ref().filter(|_| expected && moved >= 1.0),
            band: if expected {
                story.band_after
            } else {
                story.band
            },
            // The scale stays from step to step.
            range_nm: story.range_nm().max(scene.outlook.widest_nm),
            shown,
            bitten: step == CrewStep::Wrong,
            arms: &arms,
            marks: Some(theme::bold(font)),
            texts: [&|_| name.clone(), &|factor| match (expected, won) {
                (true, _) => words.crew_gap_before(factor),
                (_, true) => words.crew_gap_found(factor),
                _ => words.crew_gap(factor),
            }],
            fonts: [theme::bold(font * NAME), theme::regular(font * SCALE)],
            ends: [words.jaw_above(), words.moving_jaw()],
            patches: (step == CrewStep::Wrong).then(|| jaws::patches(words)),
        },
    );
    response.clicked()
}

/// A mean as it is called out: inches without the zero before the point.
fn crew_reading(scene: &Scene<'_>, nm: f64) -> String {
    let figures = scene.figures;
    let decimals = figures.reading_decimals().min(figures.mean_decimals());
    let text = scene.figures.nm(nm, decimals);
    let bare = text
        .strip_prefix('0')
        .filter(|rest| rest.starts_with(['.', ',']));
    bare.map_or(text.clone(), str::to_owned)
}
