//! The gauge: what it is, what is known of it, and whether it will do.

use crate::window::state::Drafts;
use crate::window::state::GaugeForm;
use eframe::egui::{self, Align, Label, Layout, RichText, Sense, Ui, Vec2};

use crate::press::customary;
use crate::session::{Edit, Field, Gauge, IsoDate, Pass};
use crate::splice::{
    GAUGE_PRESETS, GaugeFitness, GaugeKind, GaugePreset, SPREAD_OF_READINGS, gauge_that_would_do,
};
use crate::units::Unit;
use crate::window::action::Action;
use crate::window::commands::Command;
use crate::window::state::Dialog;
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::dialog_room::{self, Foot};
use crate::window::views::forms::session_field::{above, length, stacked};
use crate::window::views::hint::Hint;
use crate::window::views::widgets::{button, choice, hint_of, line, muted, name_text, strong};
use crate::words::{Word, as_sentence};

/// Width of a field.
const FIELD_WIDTH: f32 = 236.0;

/// Draws the dialog.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut GaugeForm) {
    let words = scene.words();
    share(ui, scene);
    dialog_room::middle(ui, |ui| {
        kinds(ui, scene, form);
        library(ui, scene, form);
        ui.separator();
        fields(ui, scene, form);
    });
    let foot = Foot {
        leave: None,
        main: Some((words.close(), true)),
    };
    let mut check = false;
    let answer = foot.show(ui, scene.palette, |ui| {
        check = button(ui, words.gauge_check()).clicked();
    });
    if check || answer.is_some() {
        settle(scene, form);
    }
    if check {
        crate::window::views::forms::gauge_check::open(scene);
    } else if answer.is_some() {
        scene.ask(Action::Close);
    }
}

/// A part of the form: its field below its name, what is said of it below that.
fn part(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    form: &mut GaugeForm,
    add: impl FnOnce(&mut Ui, &mut Scene<'_>, &mut GaugeForm),
) {
    let down = Layout::top_down(Align::Min);
    ui.allocate_ui_with_layout(Vec2::new(FIELD_WIDTH, 0.0), down, |ui| {
        ui.set_width(FIELD_WIDTH.min(ui.available_width()));
        ui.spacing_mut().item_spacing.y = 3.0;
        add(ui, scene, form);
    });
}

/// Parts of the form beside each other, as many as there is room for.
fn parts(ui: &mut Ui, add: impl FnOnce(&mut Ui)) {
    let row = Layout::left_to_right(Align::Min).with_main_wrap(true);
    let room = Vec2::new(ui.available_width(), 0.0);
    ui.allocate_ui_with_layout(room, row, |ui| {
        ui.spacing_mut().item_spacing.x = 14.0;
        add(ui);
    });
}

fn fields(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut GaugeForm) {
    let words = scene.words();
    parts(ui, |ui| {
        part(ui, scene, form, |ui, scene, form| {
            let name = scene.session.gauge.name.clone();
            let name = name.as_str();
            above(
                ui,
                scene,
                &mut form.drafts,
                Field::GaugeName,
                name,
                FIELD_WIDTH,
            );
        });
        part(ui, scene, form, |ui, scene, form| {
            let label = words.field(Field::CalibrationDue);
            stacked(ui, &label, FIELD_WIDTH, |ui, _| due(ui, scene, form));
            calibration(ui, scene, form);
        });
        for field in [
            Field::GaugeStep,
            Field::GaugeLimit,
            Field::GaugeRepeatability,
        ] {
            part(ui, scene, form, |ui, scene, form| {
                measure(ui, scene, form, field);
            });
        }
    });
    ui.separator();
    // How pieces vary is no property of the gauge.
    ui.label(strong(words.gauge_lacing()));
    parts(ui, |ui| {
        part(ui, scene, form, |ui, scene, form| {
            measure(ui, scene, form, Field::LacingScatter);
        });
        let room = Vec2::new(2.0 * FIELD_WIDTH, 0.0);
        ui.allocate_ui_with_layout(room, Layout::top_down(Align::Min), |ui| {
            ui.set_width(room.x.min(ui.available_width()));
            ui.add_space(24.0);
            let said = muted(scene.palette, words.gauge_left_empty());
            ui.add(Label::new(said).wrap());
        });
    });
}

/// A length of the gauge or of its scatter, and what it rests on.
fn measure(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut GaugeForm, field: Field) {
    let words = scene.words();
    let session = scene.session;
    let gauge = &session.gauge;
    let typed = match field {
        Field::GaugeStep => Some(&gauge.step),
        Field::GaugeLimit => gauge.limit_of_error.as_ref(),
        Field::GaugeRepeatability => gauge.repeatability.as_ref().map(|known| &known.sd),
        _ => session.lacing_scatter.as_ref().map(|known| &known.sd),
    };
    let used = match field {
        Field::GaugeRepeatability => Some(session.repeatability()),
        Field::LacingScatter => Some(session.lacing()),
        _ => None,
    };
    let hint = match &used {
        Some(used) => words.used_now(scene.figures.uncertainty(used.sd_nm)),
        None => words.accuracy_unknown().to_owned(),
    };
    let kept = length(scene, field, typed).or(hint);
    let as_typed = kept.as_typed.clone();
    above(ui, scene, &mut form.drafts, field, kept, FIELD_WIDTH);
    let note = match (&used, field) {
        (Some(used), _) => as_sentence(&words.scatter_known(used)),
        (None, Field::GaugeLimit) => words.gauge_limit_hint().to_owned(),
        (None, _) => as_typed.unwrap_or_default(),
    };
    if !note.is_empty() {
        let said = ui.add(Label::new(muted(scene.palette, note)).wrap());
        if let Some(used) = &used {
            said.hint(words.scatter_source(used));
        }
    }
}

/// The day the calibration runs out. What is no date stays as it was typed,
/// so that it can be mended.
fn due(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut GaugeForm) {
    let words = scene.words();
    let known = due_text(&scene.session.gauge);
    let mut typed = form.due.clone().unwrap_or_else(|| known.clone());
    let field = line(&mut typed, FIELD_WIDTH)
        .id_salt("calibration due")
        .hint_text(words.calibration_due_hint());
    let response = ui.add(field);
    name_text(&response, &words.field(Field::CalibrationDue), &typed);
    if response.changed() {
        form.due = Some(typed);
    }
    if response.lost_focus() {
        settle(scene, form);
    }
}

fn due_text(gauge: &Gauge) -> String {
    gauge
        .calibration_due
        .map_or_else(String::new, |due| due.to_string())
}

/// Takes the typed date over, where it is one or none at all.
fn settle(scene: &mut Scene<'_>, form: &mut GaugeForm) {
    let Some(text) = form.due.clone() else {
        return;
    };
    let empty = text.trim().is_empty();
    if !empty && IsoDate::parse(&text).is_err() {
        return;
    }
    form.due = None;
    if text.trim() != due_text(&scene.session.gauge) {
        let (field, bare) = (Field::CalibrationDue, scene.figures.unit);
        scene.ask(Action::Edit(Edit::Set { field, text, bare }));
    }
}

/// How the calibration stands, below its field.
fn calibration(ui: &mut Ui, scene: &Scene<'_>, form: &GaugeForm) {
    let words = scene.words();
    let palette = scene.palette;
    let typed = form.due.as_deref().map(str::trim);
    let bad = typed.filter(|text| !text.is_empty() && IsoDate::parse(text).is_err());
    if let Some(text) = bad {
        let sentence = format!("⚠ {}", words.not_a_date(text));
        ui.label(RichText::new(sentence).color(palette.caution));
        return;
    }
    if overdue(ui, scene) {
        return;
    }
    let sentence = match scene.session.gauge.calibration_due {
        Some(due) => words.calibration_holds(due),
        None => words.calibration_unknown().to_owned(),
    };
    ui.add(Label::new(muted(palette, sentence)).wrap());
}

/// Warns while the calibration has run out; answers whether it has.
pub fn overdue(ui: &mut Ui, scene: &Scene<'_>) -> bool {
    let gauge = &scene.session.gauge;
    let sentence = scene
        .today
        .and_then(|today| scene.figures.calibration_sentence(gauge, today));
    let Some(sentence) = sentence else {
        return false;
    };
    let text = RichText::new(format!("⚠ {sentence}"))
        .font(theme::bold(size::SMALL))
        .color(scene.palette.caution);
    ui.add(Label::new(text).wrap());
    true
}

fn kinds(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut GaugeForm) {
    let words = scene.words();
    ui.horizontal_wrapped(|ui| {
        ui.label(words.gauge_kind_label());
        for kind in GaugeKind::ALL {
            let name = words.gauge_kind(kind);
            let chosen = kind == scene.session.gauge.kind;
            let pressed = choice(ui, scene.palette, chosen, name);
            pressed.widget_info(|| {
                let label = words.gauge_kind_named(name);
                egui::WidgetInfo::selected(egui::Role::RadioButton, true, chosen, label)
            });
            if chosen && !std::mem::replace(&mut form.asked, true) {
                pressed.request_focus();
            }
            if pressed.clicked() && !chosen {
                scene.ask(Action::Edit(Edit::SetGaugeKind(kind)));
            }
        }
    });
}

/// What the gauge uses up of the tolerance: as a bar, and in a sentence.
fn share(ui: &mut Ui, scene: &Scene<'_>) {
    let words = scene.words();
    let palette = scene.palette;
    let Some(share) = scene.session.gauge_share() else {
        return;
    };
    let figures = scene.figures;
    let tolerance = scene.session.tolerance.length();
    let instead = gauge_that_would_do(tolerance, figures.unit);
    let kind = scene.session.gauge.kind;
    let sentence = figures.gauge_share_sentence(kind, &share, instead.as_ref());
    let size = Vec2::new(ui.available_width(), 14.0);
    let (whole, response) = ui.allocate_exact_size(size, Sense::hover());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &sentence));
    let mut used = whole;
    used.set_width(whole.width() * share.share.clamp(0.0, 1.0) as f32);
    let (mark, ink) = match share.fitness {
        GaugeFitness::Serves => ("✓", palette.good),
        GaugeFitness::MayDo => ("●", palette.ink),
        GaugeFitness::TooCoarse => ("⚠", palette.outside),
    };
    ui.painter().rect_filled(whole, 4.0, palette.button);
    ui.painter().rect_filled(used, 4.0, ink);
    let edge = theme::stroke(1.0, palette.edge);
    let inside = egui::StrokeKind::Inside;
    ui.painter().rect_stroke(whole, 4.0, edge, inside);
    // Up to where it is good, and up to where it will do.
    for most in GaugeFitness::UP_TO {
        let x = whole.left() + whole.width() * most as f32;
        let mark = theme::stroke(2.0, palette.edge);
        ui.painter().vline(x, whole.y_range(), mark);
    }
    let text = RichText::new(format!("{mark} {sentence}"));
    ui.label(text.font(theme::bold(size::BODY)).color(ink))
        .hint(words.gauge_intro());
    let sd_nm = share.share * tolerance.nm_f64() / SPREAD_OF_READINGS;
    let [good, fair] = GaugeFitness::UP_TO.map(|most| figures.share(most));
    let sd = figures.uncertainty(sd_nm);
    let how = words.gauge_share_how(SPREAD_OF_READINGS, sd, figures.limit(tolerance), good, fair);
    ui.label(muted(palette, how));
}

/// Gauges of the chosen kind to start from, those in the unit on show first.
fn library(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut GaugeForm) {
    let words = scene.words();
    if let Some(preset) = form.chosen {
        confirm(ui, scene, form, &preset);
        return;
    }
    let gauge = &scene.session.gauge;
    let mut offered: Vec<&GaugePreset> = GAUGE_PRESETS
        .iter()
        .filter(|preset| preset.kind == gauge.kind)
        .collect();
    if offered.is_empty() {
        return;
    }
    offered.sort_by_key(|preset| preset.unit != scene.figures.unit);
    ui.label(muted(scene.palette, words.gauge_library_hint()));
    ui.horizontal_wrapped(|ui| {
        for preset in offered {
            let is_it = gauge.step.length() == preset.step
                && gauge.limit_of_error.as_ref().map(|it| it.length()) == preset.limit_of_error;
            let pressed = choice(ui, scene.palette, is_it, &preset_text(scene, preset));
            let pressed = match preset.published_in {
                Some(published) => pressed.hint(words.published_in(published)),
                None => pressed,
            };
            if pressed.clicked() && !is_it {
                if anything_typed(gauge) {
                    form.chosen = Some(*preset);
                } else {
                    take(scene, preset);
                }
            }
        }
    });
}

/// A gauge of the library in its own unit, and its resolution in the one on show.
fn preset_text(scene: &Scene<'_>, preset: &GaugePreset) -> String {
    let words = scene.words();
    let mut figures = scene.figures;
    figures.unit = preset.unit;
    let text = figures.preset_line(preset);
    match preset.unit == scene.figures.unit {
        true => text,
        false => words.preset_is(text, scene.figures.plain(preset.step)),
    }
}

/// Whether the gauge is more than what a session starts with.
fn anything_typed(gauge: &Gauge) -> bool {
    let step = gauge.step.length();
    let usual = [Unit::Inch, Unit::Millimetre].map(customary::gauge_step);
    gauge.limit_of_error.is_some() || gauge.repeatability.is_some() || !usual.contains(&step)
}

/// Takes a gauge of the library; readings of another stay readings of that.
fn take(scene: &mut Scene<'_>, preset: &GaugePreset) {
    scene.ask(Action::Edit(Edit::StartFromPreset(*preset)));
    let passes = &scene.session.passes;
    if passes.last().is_some_and(Pass::has_readings) {
        let said = scene.words().gauge_is_another().to_owned();
        scene.ask(Action::Complain(said));
    }
}

fn confirm(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut GaugeForm, preset: &GaugePreset) {
    let words = scene.words();
    ui.label(words.preset_overwrites(preset_text(scene, preset)));
    ui.horizontal_wrapped(|ui| {
        if button(ui, words.preset_take()).clicked() {
            form.chosen = None;
            form.drafts = Drafts::default();
            take(scene, preset);
        }
        if button(ui, words.preset_keep()).clicked() {
            form.chosen = None;
        }
    });
}

/// The gauge in the readings' card: what it is, the way to its dialog, and a
/// warning while its calibration has run out.
pub fn strip(ui: &mut Ui, scene: &mut Scene<'_>, line: RichText) {
    let words = scene.words();
    ui.horizontal(|ui| {
        let text = words.gauge_button();
        let width = ui.available_width();
        let galley = ui.painter().layout_no_wrap(
            text.to_owned(),
            theme::regular(size::BODY),
            scene.palette.ink,
        );
        let taken = galley.size().x + 34.0;
        let size = Vec2::new((width - taken).max(60.0), TARGET);
        let layout = egui::Layout::left_to_right(egui::Align::Center);
        ui.allocate_ui_with_layout(size, layout, |ui| {
            ui.set_width(size.x);
            ui.add(egui::Label::new(line).wrap())
                .hint(words.explain(Word::Resolution));
        });
        let pressed = button(ui, text);
        let hint = hint_of(ui, words, Command::Gauge);
        if pressed.hint(hint).clicked() {
            scene.ask(Action::Show(Box::new(Dialog::Gauge(Box::default()))));
        }
    });
    overdue(ui, scene);
}
