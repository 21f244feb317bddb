//! The gauge: what it is, what is known of it, and whether it will do.

use crate::window::state::Drafts;
use crate::window::state::GaugeForm;
use eframe::egui::{self, Button, RichText, Ui, Vec2};

use crate::press::customary;
use crate::session::{Edit, Field, Gauge, IsoDate};
use crate::splice::{GAUGE_PRESETS, GaugeKind, GaugePreset, gauge_that_would_do};
use crate::units::Unit;
use crate::window::action::Action;
use crate::window::state::Dialog;
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::dialog_room;
use crate::window::views::forms::draft::draft;
use crate::window::views::hint::Hint;
use crate::window::views::widgets::{button, choice, line, muted, name_text, strong};
use crate::words::Word;

/// Width of a field.
const FIELD_WIDTH: f32 = 190.0;

/// Draws the dialog.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut GaugeForm) {
    let words = scene.words();
    ui.label(muted(scene.palette, words.gauge_intro()));
    dialog_room::middle(ui, |ui| {
        kinds(ui, scene);
        fields(ui, scene, form);
        in_force(ui, scene);
        ui.separator();
        share(ui, scene);
        ui.separator();
        library(ui, scene, form);
    });
    ui.horizontal_wrapped(|ui| {
        if button(ui, words.gauge_check()).clicked() {
            settle(scene, form);
            crate::window::views::forms::gauge_check::open(scene);
        }
        if button(ui, words.close()).clicked() {
            settle(scene, form);
            scene.ask(Action::Close);
        }
    });
}

fn fields(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut GaugeForm) {
    let words = scene.words();
    let gauge = &scene.session.gauge;
    let optional = |typed: Option<&str>| typed.unwrap_or_default().to_owned();
    let limit = gauge.limit_of_error.as_ref().map(|limit| limit.text());
    let repeatability = gauge.repeatability.as_ref().map(|known| known.sd.text());
    let lacing = scene.session.lacing_scatter.as_ref();
    let lacing = lacing.map(|known| known.sd.text());
    let rows = [
        [
            (
                Field::GaugeName,
                words.gauge_name_short(),
                gauge.name.clone(),
            ),
            (
                Field::GaugeStep,
                words.gauge_step_short(),
                gauge.step.text().to_owned(),
            ),
        ],
        [
            (
                Field::GaugeLimit,
                words.gauge_limit_short(),
                optional(limit),
            ),
            (
                Field::GaugeRepeatability,
                words.gauge_repeatability_short(),
                optional(repeatability),
            ),
        ],
    ];
    let last = optional(lacing);
    // In a narrow window a field stands below the other.
    let narrow = ui.available_width() < 560.0;
    egui::Grid::new("gauge fields")
        .num_columns(4)
        .spacing([12.0, 6.0])
        .show(ui, |ui| {
            for row in rows {
                for (field, label, text) in row {
                    ui.label(label);
                    set_field(ui, scene, form, field, &text);
                    if narrow {
                        ui.end_row();
                    }
                }
                if !narrow {
                    ui.end_row();
                }
            }
            ui.label(words.field(Field::CalibrationDue));
            due(ui, scene, form);
            if narrow {
                ui.end_row();
            }
            let name = words.field(Field::LacingScatter);
            ui.add(egui::Label::new(name).wrap());
            set_field(ui, scene, form, Field::LacingScatter, &last);
            ui.end_row();
        });
    calibration(ui, scene, form);
    ui.label(muted(scene.palette, words.limit_of_error_hint()));
}

fn set_field(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut GaugeForm, field: Field, text: &str) {
    let name = scene.words().field(field);
    let key = format!("{field:?}");
    if let Some(text) = draft(ui, &mut form.drafts, &key, &name, text, FIELD_WIDTH) {
        let bare = scene.figures.unit;
        scene.ask(Action::Edit(Edit::Set { field, text, bare }));
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
    ui.label(muted(palette, sentence));
}

/// Warns while the calibration has run out; answers whether it has.
fn overdue(ui: &mut Ui, scene: &Scene<'_>) -> bool {
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
    ui.label(text);
    true
}

fn kinds(ui: &mut Ui, scene: &mut Scene<'_>) {
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
            if pressed.clicked() && !chosen {
                scene.ask(Action::Edit(Edit::SetGaugeKind(kind)));
            }
        }
    });
}

/// The scatters that readings are judged with, and what they rest on.
fn in_force(ui: &mut Ui, scene: &Scene<'_>) {
    let words = scene.words();
    let figures = scene.figures;
    for (field, scatter) in [
        (Field::GaugeRepeatability, scene.session.repeatability()),
        (Field::LacingScatter, scene.session.lacing()),
    ] {
        let sd = figures.uncertainty(scatter.sd_nm);
        let source = words.scatter_source(&scatter);
        let text = words.scatter_in_force(words.field(field), sd, source);
        ui.label(muted(scene.palette, text));
    }
}

/// What the gauge uses up of the tolerance, in a sentence.
fn share(ui: &mut Ui, scene: &Scene<'_>) {
    let words = scene.words();
    ui.label(strong(words.gauge_share_heading()));
    if let Some(share) = scene.session.gauge_share() {
        let instead = gauge_that_would_do(scene.session.tolerance.length(), scene.figures.unit);
        let figures = scene.figures;
        ui.label(figures.gauge_share_sentence(scene.session.gauge.kind, &share, instead.as_ref()));
    }
    ui.label(muted(scene.palette, words.gauge_share_how()));
}

fn library(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut GaugeForm) {
    let words = scene.words();
    ui.label(strong(words.gauge_library()));
    ui.label(muted(scene.palette, words.gauge_library_hint()));
    if let Some(preset) = form.chosen {
        confirm(ui, scene, form, &preset);
        return;
    }
    let width = (ui.available_width() - 8.0) / 2.0;
    let first = scene.figures.unit;
    for unit in [first, first.other()] {
        ui.horizontal_wrapped(|ui| {
            for preset in GAUGE_PRESETS.iter().filter(|preset| preset.unit == unit) {
                let text = preset_text(scene, preset);
                let size = Vec2::new(width.min(360.0), TARGET);
                let pressed = ui.add(Button::new(text).wrap().min_size(size));
                if pressed.clicked() {
                    if anything_typed(&scene.session.gauge) {
                        form.chosen = Some(*preset);
                    } else {
                        scene.ask(Action::Edit(Edit::StartFromPreset(*preset)));
                    }
                }
            }
        });
    }
}

/// A gauge of the library in its own unit, and where its figures are
/// published.
fn preset_text(scene: &Scene<'_>, preset: &GaugePreset) -> String {
    let words = scene.words();
    let mut figures = scene.figures;
    figures.unit = preset.unit;
    let text = figures.preset_line(preset);
    preset.published_in.map_or_else(
        || text.clone(),
        |published| words.preset_from(&text, words.published_in(published)),
    )
}

/// Whether the gauge is more than what a session starts with.
fn anything_typed(gauge: &Gauge) -> bool {
    let step = gauge.step.length();
    let usual = [Unit::Inch, Unit::Millimetre].map(customary::gauge_step);
    gauge.kind != GaugeKind::Other
        || gauge.limit_of_error.is_some()
        || gauge.repeatability.is_some()
        || !usual.contains(&step)
}

fn confirm(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut GaugeForm, preset: &GaugePreset) {
    let words = scene.words();
    ui.label(words.preset_overwrites(preset_text(scene, preset)));
    ui.horizontal_wrapped(|ui| {
        if button(ui, words.preset_take()).clicked() {
            form.chosen = None;
            form.drafts = Drafts::default();
            scene.ask(Action::Edit(Edit::StartFromPreset(*preset)));
        }
        if button(ui, words.preset_keep()).clicked() {
            form.chosen = None;
        }
    });
}

/// The gauge in the readings' card: what it is, the way to its dialog, and a
/// warning while its calibration has run out.
pub fn strip(ui: &mut Ui, scene: &mut Scene<'_>, line: String) {
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
            ui.add(egui::Label::new(muted(scene.palette, line)).wrap())
                .hint(words.explain(Word::Resolution));
        });
        let pressed = button(ui, text);
        let hint = shortcut_hint(ui, scene);
        if pressed.hint(hint).clicked() {
            scene.ask(Action::Show(Box::new(Dialog::Gauge(Box::default()))));
        }
    });
    overdue(ui, scene);
}

fn shortcut_hint(ui: &Ui, scene: &Scene<'_>) -> String {
    let words = scene.words();
    let command = crate::window::commands::Command::Gauge;
    let shortcut = command.shortcut();
    let keys = shortcut.map(|shortcut| ui.ctx().format_shortcut(&shortcut));
    format!("{} ({})", command.words(words), keys.unwrap_or_default())
}
