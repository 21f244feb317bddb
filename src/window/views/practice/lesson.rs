//! A lesson, full screen: a few words, a picture, and nuts that can be turned
//! at any step.

use eframe::egui::{
    self, Align, Frame, Key, Layout, Margin, Modifiers, Panel, Pos2, Rect, RichText, ScrollArea,
    Sense, Ui, Vec2,
};

use crate::practice::{ASSUMED_MARGIN, FARTHEST, GaugeStep, LessonTopic, Says};
use crate::press::{ArmIndex, Notches};
use crate::units::{ExactLength, Length};
use crate::window::action::Action;
use crate::window::practicing::PracticeWish;
use crate::window::state::LessonView;
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::dialog_room::{Answer, Foot};
use crate::window::views::picture::splice::{grouped, round_down};
use crate::window::views::practice::press_drawn::{self, PressDrawn, PressLabels};
use crate::window::views::practice::readings_drawn::{self, ReadingDrawn, Scale};
use crate::window::views::turning::nut_buttons::one_notch;
use crate::window::views::widgets::{button, muted};
use crate::words::Figures;

/// Lines kept for the sentence: the picture stays where it is from step to
/// step.
const LINES: f32 = 3.0;

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

/// What is assumed and how it is driven, and the way to the next step, always
/// at the same place; whether the lesson ends.
fn ways_on(ui: &mut Ui, scene: &Scene<'_>, view: &mut LessonView) -> bool {
    let words = scene.words();
    let keys = match (is_gauge(view), view.by_hand.is_some()) {
        (true, _) => "",
        (false, true) => words.lesson_own_turns(),
        (false, false) => words.lesson_keys(),
    };
    let assumed = match is_gauge(view) {
        true => words.lesson_assumed_readings(),
        false => words.lesson_assumed(),
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
    let mut ended = false;
    let answer = foot.show(ui, scene.palette, |ui| {
        if !last {
            ended = button(ui, end).clicked();
        }
    });
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
    let (step, of) = (view.step + 1, view.lesson.steps.len());
    ui.horizontal_wrapped(|ui| {
        let mark = RichText::new(words.practice_mark()).font(theme::bold(font));
        ui.label(mark.color(scene.palette.present));
        let title = words.lesson_title(view.lesson.topic);
        ui.label(RichText::new(title).font(theme::bold(font)));
        ui.label(RichText::new(words.lesson_step_of(step, of)).font(theme::regular(font)));
    });
    let says = view
        .step()
        .map(|step| scene.figures.lesson_says(&step.says));
    sentence(ui, says.unwrap_or_default(), font * 1.15);
    let below = if is_gauge(view) {
        0.0
    } else {
        nuts_height(ui, view, font) + TARGET + 2.0 * ui.spacing().item_spacing.y
    };
    let height = (ui.available_height() - below - 2.0).clamp(font * 13.0, font * 40.0);
    if is_gauge(view) {
        readings(ui, scene, view, (font, height));
    } else {
        press(ui, scene, view, (font, height));
        nuts(ui, scene, view, font);
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
    if pressed(Key::End) {
        view.go_to(usize::MAX);
    }
    pressed(Key::Escape)
}

/// Below which share of an even load a rod is called nearly slack. Assumed
/// (common practice, no source).
const NEARLY_SLACK: f64 = 0.4;

fn press(ui: &mut Ui, scene: &Scene<'_>, view: &mut LessonView, (font, height): (f32, f32)) {
    let words = scene.words();
    let Some(state) = &view.state else {
        ui.label(words.lesson_not_computed());
        return;
    };
    let figures = &scene.figures;
    let session = view.session();
    let travels = view.lesson.shown.travel_nm();
    let tallest = f64::from(press_drawn::tallest(height, font));
    let per_nm = f64::from(ui.available_width() - font * 0.8) / state.jaw_nm;
    let exaggeration = round_down(tallest / view.widest_nm / per_nm);
    let opening: Vec<f64> = state
        .opening_nm
        .iter()
        .zip(&travels)
        .map(|(left, travel)| left / (ASSUMED_MARGIN * travel))
        .collect();
    let retainer: Vec<String> = state
        .retainer
        .iter()
        .map(|retainer| words.retainer(*retainer).to_owned())
        .collect();
    let even = 1.0 / state.rod_shares.len().max(1) as f64;
    let loads = |said: &dyn Fn(String) -> String| -> Vec<String> {
        let shares = state.rod_shares.iter();
        let loads = shares.map(|share| {
            if *share > NEARLY_SLACK * even {
                said(figures.share(*share))
            } else if *share > 0.0 {
                words.lesson_nearly_slack(figures.share(*share))
            } else {
                words.lesson_slack().to_owned()
            }
        });
        loads.collect()
    };
    let (in_words, short) = (
        loads(&|share| words.lesson_load(share)),
        loads(&|share| words.lesson_load_short(share)),
    );
    let spread = ExactLength::from(Length::from_nm(state.spread_nm().round() as i64));
    let limit = session.tolerance.length();
    let spread = words.lesson_spread(
        figures.with_unit(&figures.spread(spread, limit)),
        figures.limit(limit),
    );
    let nuts = state.nuts.iter().enumerate().map(|(arm, turned)| {
        let arm = ArmIndex(arm);
        match turned {
            0 => arm.to_string(),
            _ => format!("{arm} {}", figures.turn_short(Notches(*turned))),
        }
    });
    let nuts: Vec<String> = nuts.collect();
    let drawn = PressDrawn {
        arms_nm: &state.arms_nm,
        jaw_nm: state.jaw_nm,
        along_nm: &state.along_nm,
        nuts: &state.nuts,
        rod_shares: &state.rod_shares,
        retainer: &state.retainer,
        opening_left: &opening,
        cuts_from_nm: view.lesson.shown.tolerance_nm(),
        exaggeration,
    };
    let labels = PressLabels {
        font,
        name: &spread,
        nuts: &nuts,
        retainer: &retainer,
        rods: [&in_words, &short],
        parts: [
            &words.stationary_jaw(grouped(exaggeration)),
            words.moving_jaw(),
            words.lesson_opened(),
        ],
    };
    press_drawn::show(ui, scene.palette, &drawn, &labels, height);
    ui.horizontal(|ui| {
        ui.set_min_height(TARGET);
        ui.label(RichText::new(spread).font(theme::bold(font)));
        if view.by_hand.is_some() && button(ui, words.lesson_as_step()).clicked() {
            view.go(0);
        }
    });
}

/// Most width of a nut's button, least where two stand beside each other, and
/// distance between them.
const NUT: f32 = 132.0;
const BESIDE: f32 = 56.0;
const BETWEEN: f32 = 4.0;

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
fn are_beside(apart: f32) -> bool {
    apart >= 2.0 * BESIDE + 3.0 * BETWEEN
}

fn nuts_height(ui: &Ui, view: &LessonView, font: f32) -> f32 {
    match are_beside(places(ui, view, font).1) {
        true => TARGET,
        false => 2.0 * TARGET + BETWEEN,
    }
}

/// A button in and one out below every arm; arrow up and down on either do the
/// same.
fn nuts(ui: &mut Ui, scene: &Scene<'_>, view: &mut LessonView, font: f32) {
    let words = scene.words();
    let nuts = view.nuts();
    let room = ui.available_rect_before_wrap();
    let (places, apart) = places(ui, view, font);
    let beside = are_beside(apart);
    let gap = BETWEEN;
    let width = match beside {
        true => NUT.min((apart - 3.0 * gap) / 2.0),
        false => NUT.min(apart - gap).max(TARGET),
    };
    let block = if beside {
        Vec2::new(2.0 * width + gap, TARGET)
    } else {
        Vec2::new(width, 2.0 * TARGET + gap)
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
            true => inward + Vec2::new(width + gap, 0.0),
            false => inward + Vec2::new(0.0, TARGET + gap),
        };
        let press = &view.session().press;
        for (by, at, name) in [
            (-1, inward, words.turn_one_in(letter)),
            (1, out, words.turn_one_out(letter)),
        ] {
            let may = |by: i32| (-FARTHEST..=FARTHEST).contains(&(position + by));
            let place = Rect::from_min_size(at, Vec2::new(width, TARGET));
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

fn readings(ui: &mut Ui, scene: &Scene<'_>, view: &LessonView, (font, height): (f32, f32)) {
    let Some(Says::Gauge(step)) = view.step().map(|step| &step.says) else {
        return;
    };
    let figures = &scene.figures;
    let of = |nm: f64, below: String| ReadingDrawn {
        value: nm,
        above: figures.nm(nm, figures.mean_decimals()),
        below,
    };
    let numbered = |shown: &[Length]| -> Vec<ReadingDrawn> {
        let shown = shown.iter().zip(1..);
        shown
            .map(|(shown, n)| of(shown.nm_f64(), n.to_string()))
            .collect()
    };
    let by_arm = |values: Vec<f64>| -> Vec<ReadingDrawn> {
        let values = values.into_iter().enumerate();
        values
            .map(|(arm, nm)| of(nm, ArmIndex(arm).to_string()))
            .collect()
    };
    let lengths = |shown: &[Length]| shown.iter().map(|shown| shown.nm_f64()).collect();
    let drawn = match step {
        GaugeStep::Once { shown } => numbered(&[*shown]),
        GaugeStep::Repeats { shown, .. } | GaugeStep::Seating { shown, .. } => numbered(shown),
        GaugeStep::ZeroOff { shown, .. } | GaugeStep::ZeroCreeps { shown, .. } => {
            by_arm(lengths(shown))
        }
        GaugeStep::ThereAndBack { mean_nm, .. } => by_arm(mean_nm.clone()),
        GaugeStep::Step { .. }
        | GaugeStep::Mean { .. }
        | GaugeStep::Unit { .. }
        | GaugeStep::Rule => view
            .lesson
            .steps
            .iter()
            .find_map(|step| match &step.says {
                Says::Gauge(GaugeStep::Repeats { shown, .. }) => Some(numbered(shown)),
                _ => None,
            })
            .unwrap_or_default(),
    };
    let tolerance = view.lesson.shown.tolerance_nm();
    let name = figures.lesson_says(&Says::Gauge(step.clone()));
    let session = view.session();
    let limit = session.tolerance.length();
    if let GaugeStep::Unit { other, unit, .. } = step {
        let foreign = Figures {
            unit: unit.other(),
            ..*figures
        };
        let bands = [
            (tolerance, figures.limit(limit)),
            (other.nm_f64(), foreign.plain(*other)),
        ];
        readings_drawn::bands(ui, scene.palette, &bands, (&name, font, height));
        return;
    }
    let words = scene.words();
    let band = words.lesson_band(figures.limit(limit));
    let of_step = session.gauge.step.length();
    let steps = words.lesson_steps(figures.plain(of_step));
    // Only readings of different arms are judged.
    let scale = match step {
        GaugeStep::ZeroOff { .. }
        | GaugeStep::ZeroCreeps { .. }
        | GaugeStep::ThereAndBack { .. } => Scale::Band(&band),
        _ => Scale::Steps(of_step.nm_f64().max(1.0), &steps),
    };
    readings_drawn::show(
        ui,
        scene.palette,
        (&drawn, &scale),
        tolerance,
        (&name, font, height),
    );
}
