//! A lesson, full screen: a few words, a picture, and nuts that can be turned
//! at any step.

use eframe::egui::{
    self, Key, Layout, Modifiers, Pos2, Rect, RichText, ScrollArea, Sense, Ui, UiBuilder, Vec2,
};

use crate::practice::{ASSUMED_MARGIN, FARTHEST, GaugeStep, Says};
use crate::press::{ArmIndex, Notches};
use crate::units::{ExactLength, Length};
use crate::window::action::Action;
use crate::window::practicing::PracticeWish;
use crate::window::state::LessonView;
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::picture::splice::{grouped, round_down};
use crate::window::views::practice::press_drawn::{self, PressDrawn, PressLabels};
use crate::window::views::practice::readings_drawn::{self, ReadingDrawn};
use crate::window::views::widgets::{button, muted};

/// Draws it in all the room there is.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let Some(mut view) = scene.view.lesson.take() else {
        return;
    };
    // In a low window it scrolls.
    let ended = ScrollArea::vertical()
        .auto_shrink(false)
        .show(ui, |ui| lesson(ui, scene, &mut view))
        .inner;
    if ended {
        scene.ask(Action::Practice(PracticeWish::EndLesson));
    }
    scene.view.lesson = Some(view);
}

fn lesson(ui: &mut Ui, scene: &mut Scene<'_>, view: &mut LessonView) -> bool {
    let words = scene.words();
    let mut ended = keys(ui, scene, view);
    // Room for the scroll bar.
    ui.set_max_width(ui.available_width() - 12.0);
    let window = ui.ctx().content_rect();
    let font = (window.height() / 42.0)
        .min(window.width() / 52.0)
        .clamp(size::BODY, 30.0);
    let (step, of) = (view.step + 1, view.lesson.steps.len());
    let title = words.lesson_title(view.lesson.topic);
    ui.label(RichText::new(title).font(theme::bold(font)));
    ui.horizontal_wrapped(|ui| {
        let mark = RichText::new(words.practice_mark()).font(theme::bold(font));
        ui.label(mark.color(scene.palette.present));
        ui.label(RichText::new(words.lesson_step_of(step, of)).font(theme::regular(font)));
        if ui
            .add_enabled_ui(step > 1, |ui| button(ui, words.lesson_back()))
            .inner
            .clicked()
        {
            view.go(-1);
        }
        if ui
            .add_enabled_ui(step < of, |ui| button(ui, words.lesson_next()))
            .inner
            .clicked()
        {
            view.go(1);
        }
        ended |= button(ui, words.lesson_end()).clicked();
    });
    let says = view
        .step()
        .map(|step| scene.figures.lesson_says(&step.says));
    let sentence = RichText::new(says.unwrap_or_default()).font(theme::bold(font * 1.15));
    ui.label(sentence);
    let gauge = matches!(view.step().map(|step| &step.says), Some(Says::Gauge(_)));
    let below = if gauge {
        font * 2.0
    } else {
        TARGET + font * 1.4 + 70.0
    };
    let height = (ui.available_height() - below).clamp(font * 13.0, font * 40.0);
    if gauge {
        readings(ui, scene, view, (font, height));
    } else {
        press(ui, scene, view, (font, height));
        nuts(ui, scene, view, font);
    }
    ui.label(muted(scene.palette, words.lesson_assumed()));
    ended
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

fn press(ui: &mut Ui, scene: &Scene<'_>, view: &LessonView, (font, height): (f32, f32)) {
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
    let loads = |said: &dyn Fn(String) -> String| -> Vec<String> {
        let shares = state.rod_shares.iter();
        let loads = shares.map(|share| {
            if *share > 0.0 {
                said(figures.share(*share))
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
    ui.label(RichText::new(spread).font(theme::bold(font)));
}

/// Width of a nut's button.
const NUT: f32 = 92.0;

/// A button out and one in below every arm; arrow up and down on either do the
/// same.
fn nuts(ui: &mut Ui, scene: &Scene<'_>, view: &mut LessonView, font: f32) {
    let words = scene.words();
    let nuts = view.nuts();
    let Some(state) = &view.state else { return };
    let (room, jaw_nm) = (ui.available_rect_before_wrap(), state.jaw_nm);
    let places = state
        .arms_nm
        .iter()
        .map(|at| press_drawn::place((room.left(), room.width()), font, (*at, jaw_nm)));
    let places: Vec<f32> = places.collect();
    let apart = places.iter().zip(places.iter().skip(1));
    let apart = apart
        .map(|(one, next)| next - one)
        .fold(room.width(), f32::min);
    // Beside each other where there is room, else one below the other.
    let gap = 4.0;
    let beside = apart >= 2.0 * NUT + 3.0 * gap;
    let width = if beside {
        NUT
    } else {
        NUT.min(apart - gap).max(TARGET)
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
        let out = Pos2::new(left, area.top());
        let inward = match beside {
            true => out + Vec2::new(width + gap, 0.0),
            false => out + Vec2::new(0.0, TARGET + gap),
        };
        for (by, at, mark, name) in [
            (1, out, words.lesson_out(), words.lesson_nut_out(letter)),
            (-1, inward, words.lesson_in(), words.lesson_nut_in(letter)),
        ] {
            let may = |by: i32| (-FARTHEST..=FARTHEST).contains(&(position + by));
            let text = RichText::new(mark).font(theme::regular(size::BODY.min(font)));
            let press = egui::Button::new(text).min_size(Vec2::new(width, TARGET));
            let room = Rect::from_min_size(at, Vec2::new(width, TARGET));
            let centred = Layout::centered_and_justified(egui::Direction::TopDown);
            let place = UiBuilder::new().id_salt((arm, by)).layout(centred);
            let place = place.max_rect(room);
            let mut place = ui.new_child(place);
            place.spacing_mut().button_padding.x = 2.0;
            let response = place.add_enabled(may(by), press);
            let enabled = may(by);
            response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, enabled, &name));
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
    ui.horizontal_wrapped(|ui| {
        if view.by_hand.is_some() {
            if button(ui, words.lesson_as_step()).clicked() {
                view.go(0);
            }
            ui.label(muted(scene.palette, words.lesson_own_turns()));
        } else {
            ui.label(muted(scene.palette, words.lesson_keys()));
        }
    });
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
    let limit = view.session().tolerance.length();
    let band = scene.words().lesson_band(figures.limit(limit));
    readings_drawn::show(
        ui,
        scene.palette,
        (&drawn, &band),
        tolerance,
        (&name, font, height),
    );
}
