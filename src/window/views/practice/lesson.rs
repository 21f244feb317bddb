//! A lesson, full screen: a few words, a picture, and nuts that can be turned
//! at any step.

use eframe::egui::{
    self, Align, Align2, Frame, Key, Layout, Margin, Modifiers, Panel, Pos2, Rect, RichText,
    ScrollArea, Sense, Ui, Vec2,
};

use crate::practice::{FARTHEST, LessonTopic, Says};
use crate::press::{ArmIndex, Notches};
use crate::window::action::Action;
use crate::window::practicing::PracticeWish;
use crate::window::state::LessonView;
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::dialog_room::{Answer, Foot};
use crate::window::views::picture::legend::{Key as Meaning, Legend};
use crate::window::views::practice::{lesson_picture, press_drawn};
use crate::window::views::turning::nut_buttons::one_notch;
use crate::window::views::widgets::{button, muted};

/// Lines kept for the sentence: the picture stays where it is from step to
/// step.
const LINES: f32 = 2.0;

/// Share of the width from which the signs are told beside the spread.
const BESIDE_SPREAD: f32 = 0.5;

/// Height of what is said of the piece, in letters.
const STANDS: f32 = 1.7;

/// Draws it in all the room there is.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let Some(mut view) = scene.view.lesson.take() else {
        return;
    };
    let mut ended = keys(ui, scene, &mut view);
    let foot = Frame::new().inner_margin(Margin::symmetric(0, 4));
    Panel::bottom("lesson foot")
        .frame(foot)
        .resizable(false)
        .show_separator_line(false)
        .show(ui, |ui| ended |= ways_on(ui, scene, &mut view));
    // In a low window it scrolls.
    ScrollArea::vertical()
        .auto_shrink(false)
        .show(ui, |ui| lesson(ui, scene, &mut view));
    if ended {
        scene.ask(Action::Practice(PracticeWish::EndLesson));
    }
    scene.view.lesson = Some(view);
}

fn is_gauge(view: &LessonView) -> bool {
    view.lesson.topic == LessonTopic::ReadingTheGauge
}

/// Whether the step shows a press, whose nuts can be turned.
fn shows_press(view: &LessonView, scene: &Scene<'_>) -> bool {
    view.step().is_some_and(|step| {
        let tells = scene.figures.lesson_points(&step.says).is_some();
        let press = match &step.says {
            Says::Gauge(_) => false,
            Says::Notch(_) | Says::Tight(_) => true,
        };
        press && !tells
    })
}

/// What is assumed and how it is driven, and the way to the next step, always
/// at the same place; whether the lesson ends.
fn ways_on(ui: &mut Ui, scene: &Scene<'_>, view: &mut LessonView) -> bool {
    let words = scene.words();
    let keys = match (shows_press(view, scene), view.by_hand.is_some()) {
        (false, _) => "",
        (true, true) => words.lesson_own_turns(),
        (true, false) => words.lesson_keys(),
    };
    let assumed = match (is_gauge(view), view.lesson.other_press) {
        (true, _) => words.lesson_assumed_readings(),
        (false, true) => words.lesson_other_press(),
        (false, false) => words.lesson_assumed(),
    };
    for line in [assumed, keys] {
        ui.label(muted(scene.palette, line));
    }
    let (step, of) = (view.step + 1, view.lesson.steps.len());
    let (end, back) = (words.lesson_end(), words.lesson_back());
    let last = step == of;
    let foot = Foot {
        leave: (step > 1).then_some(back),
        main: Some((if last { end } else { words.lesson_next() }, true)),
    };
    let (mut ended, mut as_step) = (false, false);
    let answer = foot.show(ui, scene.palette, |ui| {
        if !last {
            ended = button(ui, end).clicked();
        }
        as_step = view.by_hand.is_some() && button(ui, words.lesson_as_step()).clicked();
    });
    if as_step {
        view.go(0);
    }
    match answer {
        Some(Answer::Leave) => view.go(-1),
        Some(Answer::Main) if last => ended = true,
        Some(Answer::Main) => view.go(1),
        Some(Answer::Lose) | None => {}
    }
    ended
}

fn lesson(ui: &mut Ui, scene: &mut Scene<'_>, view: &mut LessonView) {
    let words = scene.words();
    // Room for the scroll bar.
    ui.set_max_width(ui.available_width() - 12.0);
    let window = ui.ctx().content_rect();
    let font = (window.height() / 42.0)
        .min(window.width() / 52.0)
        .clamp(size::BODY, 30.0);
    // What is only read needs no room for a finger.
    ui.spacing_mut().interact_size.y = font * STANDS;
    let (step, of) = (view.step + 1, view.lesson.steps.len());
    ui.horizontal_wrapped(|ui| {
        let mark = RichText::new(words.practice_mark()).font(theme::bold(font));
        ui.label(mark.color(scene.palette.present));
        let title = words.lesson_title(view.lesson.topic);
        ui.label(RichText::new(title).font(theme::bold(font)));
        ui.label(RichText::new(words.lesson_step_of(step, of)).font(theme::regular(font)));
    });
    let Some(says) = view.step().map(|step| step.says.clone()) else {
        return;
    };
    let figures = lesson_picture::figures(scene, view);
    sentence(ui, figures.lesson_says(&says), font * 1.15);
    if let Some(points) = figures.lesson_points(&says) {
        remember(ui, scene, points, font * 1.3);
        return;
    }
    let press = shows_press(view, scene);
    let gaps = 3.0 * ui.spacing().item_spacing.y;
    let below = match press {
        true => nuts_height(ui, scene, view, font) + font * STANDS + gaps,
        false => 0.0,
    };
    let height = (ui.available_height() - below - 2.0).clamp(font * 16.0, font * 40.0);
    if press {
        let keys = lesson_picture::press(ui, scene, view, (font, height));
        stands(ui, scene, view, font, keys);
        nuts(ui, scene, view, font);
    } else {
        lesson_picture::readings(ui, scene, view, (font, height));
    }
}

/// What to remember, point by point.
fn remember(ui: &mut Ui, scene: &Scene<'_>, points: Vec<&str>, font: f32) {
    ui.add_space(font * 0.4);
    for point in points {
        ui.horizontal_top(|ui| {
            let tick = RichText::new("✓").font(theme::bold(font));
            ui.label(tick.color(scene.palette.good));
            ui.vertical(|ui| ui.label(RichText::new(point).font(theme::regular(font))));
        });
        ui.add_space(font * 0.5);
    }
}

/// How the piece stands, and what the picture's signs mean.
fn stands(ui: &mut Ui, scene: &Scene<'_>, view: &LessonView, font: f32, keys: Vec<Meaning>) {
    let words = scene.words();
    let spread = view.state.as_ref().map(|state| state.spread_nm());
    let laid = |ui: &mut Ui, keys, left: f32, room: f32| {
        Legend::of_wall(ui, scene.palette, font * 0.8, room, keys).show(ui, left);
    };
    let mut keys = Some(keys);
    ui.horizontal(|ui| {
        if let Some(spread) = spread {
            let figures = scene.figures;
            let limit = view.session().tolerance.length();
            let (mark, ink) = match spread <= limit.nm_f64() {
                true => ("✓", scene.palette.good),
                false => ("✗", scene.palette.outside),
            };
            let spread = figures.with_unit(&figures.predicted(spread));
            let said = words.lesson_spread(spread, figures.limit(limit));
            ui.label(RichText::new(mark).font(theme::bold(font)).color(ink));
            ui.label(RichText::new(said).font(theme::bold(font)).color(ink));
        }
        let left = ui.cursor().left() + font;
        let room = ui.max_rect().right() - left;
        let beside = room > ui.max_rect().width() * BESIDE_SPREAD;
        if let Some(keys) = keys.take_if(|_| beside) {
            laid(ui, keys, left, room);
        }
    });
    if let Some(keys) = keys {
        let (left, room) = (ui.cursor().left(), ui.available_width());
        laid(ui, keys, left, room);
    }
}

/// What a step says, in a room of its own: as large as all of it fits there.
fn sentence(ui: &mut Ui, says: String, points: f32) {
    let width = ui.available_width();
    let ink = ui.visuals().text_color();
    let lay = |points: f32| {
        let font = theme::bold(points);
        ui.painter().layout(says.clone(), font, ink, width)
    };
    let room = LINES * lay(points).rows.first().map_or(points, |row| row.height());
    let sizes = [1.0, 0.93, 0.87, 0.81].map(|share| (points * share).max(size::BODY));
    let fits = sizes.into_iter().find(|size| lay(*size).size().y <= room);
    let points = fits.unwrap_or(size::BODY);
    let room = Vec2::new(width, room);
    ui.allocate_ui_with_layout(room, Layout::top_down(Align::LEFT), |ui| {
        ui.set_min_height(room.y);
        ui.label(RichText::new(says).font(theme::bold(points)));
    });
}

/// Escape ends, arrows step.
fn keys(ui: &Ui, scene: &Scene<'_>, view: &mut LessonView) -> bool {
    if scene.view.dialog.is_some() {
        return false;
    }
    let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    if pressed(Key::ArrowLeft) || pressed(Key::PageUp) {
        view.go(-1);
    }
    if pressed(Key::ArrowRight) || pressed(Key::PageDown) {
        view.go(1);
    }
    if pressed(Key::Home) {
        view.go_to(0);
    }
    pressed(Key::Escape)
}

/// Most width of a nut's button, least where two stand beside each other, and
/// distance between them.
const NUT: f32 = 132.0;
const BESIDE: f32 = 56.0;
const BETWEEN: f32 = 4.0;
/// Height of a button, which is drawn a little smaller than its place.
const HIGH: f32 = TARGET + 4.0;

/// Where the arms are drawn, and whether IN and OUT of a nut have room beside
/// each other there.
fn places(ui: &Ui, view: &LessonView, font: f32) -> (Vec<f32>, f32) {
    let room = ui.available_rect_before_wrap();
    let places = view.state.iter().flat_map(|state| {
        let of =
            |at: &f64| press_drawn::place((room.left(), room.width()), font, (*at, state.jaw_nm));
        state.arms_nm.iter().map(of)
    });
    let places: Vec<f32> = places.collect();
    let apart = places.iter().zip(places.iter().skip(1));
    let apart = apart
        .map(|(one, next)| next - one)
        .fold(room.width(), f32::min);
    (places, apart)
}

/// Whether IN and OUT stand beside each other where nuts are so far apart.
fn are_beside(apart: f32, name: f32) -> bool {
    apart >= 2.0 * BESIDE + name + between_nuts(name)
}

/// Room between nuts whose buttons stand beside each other: more than within one.
fn between_nuts(name: f32) -> f32 {
    1.5 * name
}

/// Room between the two buttons of a nut for where it is turned to.
fn name_width(ui: &Ui, scene: &Scene<'_>) -> f32 {
    let farthest = [-FARTHEST, FARTHEST].map(|turn| {
        let said = scene.figures.turn_short(Notches(turn));
        let ink = scene.palette.ink;
        let drawn = ui
            .painter()
            .layout_no_wrap(said, theme::bold(size::SMALL), ink);
        drawn.size().x
    });
    farthest[0].max(farthest[1]) + 4.0
}

fn nuts_height(ui: &Ui, scene: &Scene<'_>, view: &LessonView, font: f32) -> f32 {
    match are_beside(places(ui, view, font).1, name_width(ui, scene)) {
        true => HIGH,
        false => 2.0 * HIGH + BETWEEN,
    }
}

/// A button in and one out below every arm; arrow up and down on either do the
/// same.
fn nuts(ui: &mut Ui, scene: &Scene<'_>, view: &mut LessonView, font: f32) {
    let words = scene.words();
    let nuts = view.nuts();
    let room = ui.available_rect_before_wrap();
    let (places, apart) = places(ui, view, font);
    let name_wide = name_width(ui, scene);
    let beside = are_beside(apart, name_wide);
    let gap = BETWEEN;
    let width = match beside {
        true => NUT.min((apart - name_wide - between_nuts(name_wide)) / 2.0),
        false => NUT.min(apart - gap).max(TARGET),
    };
    let block = if beside {
        Vec2::new(2.0 * width + name_wide, HIGH)
    } else {
        Vec2::new(width, 2.0 * HIGH + gap)
    };
    let (area, _) = ui.allocate_exact_size(Vec2::new(room.width(), block.y), Sense::hover());
    let mut turned = None;
    for ((arm, position), x) in nuts.iter().enumerate().zip(places) {
        let letter = ArmIndex(arm);
        let left = (x - block.x / 2.0)
            .min(area.right() - block.x)
            .max(area.left());
        let inward = Pos2::new(left, area.top());
        let out = match beside {
            true => inward + Vec2::new(width + name_wide, 0.0),
            false => inward + Vec2::new(0.0, HIGH + gap),
        };
        if beside {
            let ink = match position {
                0 => scene.palette.muted,
                _ => scene.palette.preview,
            };
            let middle = inward + Vec2::new(width + name_wide / 2.0, HIGH / 2.0);
            let turned = match position {
                0 => "0".to_owned(),
                _ => scene.figures.turn_short(Notches(*position)),
            };
            for (text, below) in [(letter.to_string(), -9.0), (turned, 9.0)] {
                let at = middle + Vec2::new(0.0, below);
                let font = theme::bold(size::SMALL);
                ui.painter()
                    .text(at, Align2::CENTER_CENTER, text, font, ink);
            }
        }
        let press = &view.session().press;
        for (by, at, name) in [
            (-1, inward, words.turn_one_in(letter)),
            (1, out, words.turn_one_out(letter)),
        ] {
            let may = |by: i32| (-FARTHEST..=FARTHEST).contains(&(position + by));
            let place = Rect::from_min_size(at, Vec2::new(width, HIGH));
            let way = press.wrench_way(Notches(by));
            let sense = match may(by) {
                true => Sense::click(),
                false => Sense::hover(),
            };
            let response = one_notch(ui, scene, (letter, by), place, (&name, way, sense));
            if response.clicked() {
                turned = Some((arm, by));
            }
            if response.has_focus() {
                let own = egui::EventFilter {
                    vertical_arrows: true,
                    ..egui::EventFilter::default()
                };
                ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, own));
                for (key, by) in [(Key::ArrowUp, 1), (Key::ArrowDown, -1)] {
                    let pressed = ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
                    if pressed && may(by) {
                        turned = Some((arm, by));
                    }
                }
            }
        }
    }
    if let Some((arm, by)) = turned {
        view.turn(arm, by);
    }
}
