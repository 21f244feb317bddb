//! Properties of press, stations, gauge and visit: editable at any time.

use crate::window::state::Drafts;
use crate::window::state::PropertiesForm;
use crate::window::state::properties::{Measure, Part};
use crate::window::views::forms::draft::draft;
use crate::window::views::forms::draft::is_narrow;

use eframe::egui::{self, FocusDirection, Role, Ui, Vec2, WidgetInfo};

use crate::plan::Chore;
use crate::press::{Arm, ArmIndex, Notches, NutLimits, NutPosition, Press};
use crate::session::{AcceptedBy, Edit, Field};
use crate::units::Unit;
use crate::window::action::Action;
use crate::window::theme::TARGET;

use crate::window::views::Scene;
use crate::window::views::dialog_room;
use crate::window::views::forms::new_session::tolerances;
use crate::window::views::forms::press_data;
use crate::window::views::hint::Hint;
use crate::window::views::picture::press_sketch;
use crate::window::views::widgets::{button, choice, line, muted, strong};

/// Draws the dialog.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut PropertiesForm) {
    let words = scene.words();
    let mut part = form.part;
    let mut at_tab = None;
    ui.horizontal_wrapped(|ui| {
        for choose in Part::ALL {
            let name = match choose {
                Part::Press => words.part_press(),
                Part::Visit => words.part_visit(),
                Part::JawAndRods => words.part_jaw_and_rods(),
            };
            let chosen = form.part == choose;
            let tab = choice(ui, scene.palette, chosen, name);
            tab.widget_info(|| WidgetInfo::selected(Role::Tab, true, chosen, name));
            if tab.clicked() {
                part = choose;
            }
            if tab.has_focus() {
                at_tab = Some(tab.id);
            }
        }
    });
    // The form is opened for its fields: the first of them has the keyboard.
    if let Some(tab) = at_tab.filter(|_| !form.asked) {
        form.asked = true;
        ui.memory_mut(|memory| {
            memory.surrender_focus(tab);
            memory.move_focus(FocusDirection::Next);
        });
    }
    match form.part {
        Part::Press => press_sketch::press(ui, scene, form.measure),
        Part::JawAndRods => press_sketch::section(ui, scene, form.measure),
        Part::Visit => {}
    }
    dialog_room::middle(ui, |ui| match form.part {
        Part::Press => {
            press(ui, scene, form);
            ui.separator();
            stations(ui, scene, &mut form.drafts);
        }
        Part::Visit => {
            visit(ui, scene, &mut form.drafts);
            ui.separator();
            judging(ui, scene, &mut form.drafts);
        }
        Part::JawAndRods => press_data::show(ui, scene, form),
    });
    // What is typed is taken before its part goes.
    if form.part != part {
        form.part = part;
        form.measure = None;
    }
    if button(ui, words.close()).clicked() {
        scene.ask(Action::Close);
    }
}

fn visit(ui: &mut Ui, scene: &mut Scene<'_>, drafts: &mut Drafts) {
    let words = scene.words();
    let narrow = is_narrow(ui);
    ui.label(strong(words.section_visit()));
    egui::Grid::new("visit")
        .num_columns(4)
        .spacing([10.0, 6.0])
        .show(ui, |ui| {
            let notes = scene.session.notes.clone();
            for (index, (field, text)) in [
                (Field::Who, notes.who),
                (Field::When, notes.when),
                (Field::Belt, notes.belt),
                (Field::Hooks, notes.hooks),
                (Field::GaugeName, scene.session.gauge.name.clone()),
                (Field::Notes, notes.notes),
                (Field::Repaired, notes.repaired),
            ]
            .into_iter()
            .enumerate()
            {
                labelled(ui, scene, drafts, field, &text, 210.0);
                if narrow || index % 2 == 1 {
                    ui.end_row();
                }
            }
        });
    if scene.session.unit != scene.figures.unit {
        ui.label(muted(scene.palette, words.other_unit_on_show()));
    }
    ui.horizontal_wrapped(|ui| {
        ui.label(words.session_unit());
        for unit in [Unit::Inch, Unit::Millimetre] {
            if ui
                .radio(scene.session.unit == unit, words.unit_name(unit))
                .clicked()
            {
                scene.ask(Action::Edit(Edit::SetUnit(unit)));
            }
        }
    });
}

fn judging(ui: &mut Ui, scene: &mut Scene<'_>, drafts: &mut Drafts) {
    let words = scene.words();
    let narrow = is_narrow(ui);
    ui.label(strong(words.section_judging()));
    egui::Grid::new("judging")
        .num_columns(4)
        .spacing([10.0, 6.0])
        .show(ui, |ui| {
            let session = scene.session;
            let target = session
                .target
                .as_ref()
                .map_or("", |target| target.text())
                .to_owned();
            let tolerance = session.tolerance.text().to_owned();
            let step = session.gauge.step.text().to_owned();
            labelled(ui, scene, drafts, Field::Tolerance, &tolerance, 130.0);
            if narrow {
                ui.end_row();
            }
            labelled(ui, scene, drafts, Field::GaugeStep, &step, 130.0);
            ui.end_row();
            labelled(ui, scene, drafts, Field::Target, &target, 130.0);
            if narrow {
                ui.end_row();
            }
            let confidence = session.acceptance.confidence.to_string();
            labelled(ui, scene, drafts, Field::Confidence, &confidence, 130.0);
            ui.end_row();
            for (index, chore) in Chore::ALL.into_iter().enumerate() {
                let minutes = session.effort.of(chore).to_string();
                labelled(ui, scene, drafts, Field::Effort(chore), &minutes, 130.0);
                if narrow || index % 2 == 1 {
                    ui.end_row();
                }
            }
        });
    ui.label(muted(scene.palette, words.minutes_hint()));
    ui.horizontal_wrapped(|ui| {
        ui.label(words.accepted_by_label());
        for by in [AcceptedBy::PlainComparison, AcceptedBy::Confidence] {
            let chosen = scene.session.acceptance.by == by;
            if ui.radio(chosen, words.accepted_by(by)).clicked() {
                scene.ask(Action::Edit(Edit::SetAcceptedBy(by)));
            }
        }
    });
    let mut chosen = String::new();
    tolerances(ui, scene, &mut chosen);
    if !chosen.is_empty() {
        set(scene, Field::Tolerance, chosen);
    }
}

fn press(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut PropertiesForm) {
    let words = scene.words();
    let press = scene.session.press.clone();
    let narrow = is_narrow(ui);
    egui::Grid::new("press")
        .num_columns(4)
        .spacing([10.0, 6.0])
        .show(ui, |ui| {
            labelled(
                ui,
                scene,
                &mut form.drafts,
                Field::PressName,
                &press.name,
                210.0,
            );
            if narrow {
                ui.end_row();
            }
            measured(
                ui,
                scene,
                form,
                Field::JawLength,
                press.jaw_length.text(),
                130.0,
            );
            ui.end_row();
            let travel = press.nut_travel.as_ref().map_or("", |travel| travel.text());
            measured(ui, scene, form, Field::NutTravel, travel, 130.0);
            if narrow {
                ui.end_row();
            }
            let effect = press.arms.first().map_or("", |arm| arm.notch_effect.text());
            let same = press
                .arms
                .iter()
                .all(|arm| arm.notch_effect.text() == effect);
            measured(
                ui,
                scene,
                form,
                Field::NotchEffectOfAll,
                if same { effect } else { "" },
                130.0,
            );
            ui.end_row();
        });
    let mut left = press.left_hand_thread;
    if ui.checkbox(&mut left, words.left_hand_thread()).changed() {
        scene.ask(Action::Edit(Edit::SetLeftHandThread(left)));
    }
    ui.label(muted(scene.palette, words.arms_hint()));
    arms(ui, scene, form, &press, narrow);
    adder(
        ui,
        &mut form.drafts,
        "add arm",
        words.add_arm(),
        words.field_position(),
    )
    .into_iter()
    .for_each(|text| {
        scene.ask(Action::Edit(Edit::AddArm {
            text,
            bare: scene.figures.unit,
        }));
    });
}

/// What is known of each arm: a row per arm, or a few lines where a row has no
/// room.
fn arms(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    form: &mut PropertiesForm,
    press: &Press,
    narrow: bool,
) {
    let words = scene.words();
    let headings = [
        words.field_position(),
        words.field_notch_effect_of_all(),
        words.limit_in(),
        words.limit_out(),
        words.quantity_opening_margin(),
        words.nut_at_start(),
    ];
    if narrow {
        for (arm, properties) in press.indexed_arms() {
            ui.label(strong(arm.to_string()));
            ui.horizontal_wrapped(|ui| {
                ui.label(muted(scene.palette, headings.join(", ")));
            });
            ui.horizontal_wrapped(|ui| arm_cells(ui, scene, form, arm, properties, press));
        }
        return;
    }
    egui::Grid::new("arms")
        .num_columns(8)
        .spacing([8.0, 5.0])
        .show(ui, |ui| {
            ui.label(muted(scene.palette, words.column_arm()));
            for heading in headings {
                ui.label(muted(scene.palette, heading));
            }
            ui.end_row();
            for (arm, properties) in press.indexed_arms() {
                ui.label(strong(arm.to_string()));
                arm_cells(ui, scene, form, arm, properties, press);
                ui.end_row();
            }
        });
}

fn arm_cells(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    form: &mut PropertiesForm,
    arm: ArmIndex,
    properties: &Arm,
    press: &Press,
) {
    let words = scene.words();
    let position = properties.position.text();
    measured_cell(ui, scene, form, Field::ArmPosition(arm), position, 78.0);
    let effect = properties.notch_effect.text();
    measured_cell(ui, scene, form, Field::NotchEffect(arm), effect, 84.0);
    limits(ui, scene, form, arm, properties.limits);
    let margin = properties.opening_margin.as_ref();
    let margin = margin.map_or("", |margin| margin.text());
    measured_cell(ui, scene, form, Field::OpeningMargin(arm), margin, 78.0);
    start_nut(ui, scene, form, arm);
    let removable = press.arms.len() > 2;
    let remove = ui.add_enabled(
        removable,
        egui::Button::new("✕").min_size(Vec2::splat(TARGET)),
    );
    let hint = words.remove_arm(arm);
    remove.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, removable, &hint));
    if remove.hint(hint).clicked() {
        scene.ask(Action::Edit(Edit::RemoveArm(arm)));
    }
}

fn stations(ui: &mut Ui, scene: &mut Scene<'_>, drafts: &mut Drafts) {
    let words = scene.words();
    ui.label(strong(words.section_stations()));
    ui.label(muted(scene.palette, words.stations_hint()));
    for station in 0..scene.session.stations.len() {
        let Some(at) = scene.session.stations.get(station) else {
            continue;
        };
        let name = scene.session.station_name(station);
        let position = scene.figures.plain(at.position(&scene.session.press));
        let mut counts = at.counts;
        let removable = at.arm().is_none();
        ui.horizontal(|ui| {
            let text = words.station_counts(&name, position);
            if ui.checkbox(&mut counts, text).changed() {
                scene.ask(Action::Edit(Edit::SetCounts { station, counts }));
            }
            if removable && button(ui, words.remove_station(&name)).clicked() {
                scene.ask(Action::Edit(Edit::RemoveStation(station)));
            }
        });
    }
    adder(
        ui,
        drafts,
        "add station",
        words.add_station(),
        words.field_position(),
    )
    .into_iter()
    .for_each(|text| {
        scene.ask(Action::Edit(Edit::AddStation {
            text,
            bare: scene.figures.unit,
        }));
    });
}

/// A field with its label before it.
fn labelled(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    drafts: &mut Drafts,
    field: Field,
    text: &str,
    width: f32,
) {
    ui.label(scene.words().field(field));
    cell(ui, scene, drafts, field, text, width);
}

/// A field with its label before it, whose measure the picture shows.
fn measured(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    form: &mut PropertiesForm,
    field: Field,
    text: &str,
    width: f32,
) {
    ui.label(scene.words().field(field));
    measured_cell(ui, scene, form, field, text, width);
}

/// A field whose measure the picture shows.
fn measured_cell(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    form: &mut PropertiesForm,
    field: Field,
    text: &str,
    width: f32,
) {
    cell(ui, scene, &mut form.drafts, field, text, width);
    let measure = match field {
        Field::JawLength => Measure::JawLength,
        Field::ArmPosition(arm) => Measure::Position(arm),
        Field::NotchEffect(arm) => Measure::NotchEffect(Some(arm)),
        Field::NotchEffectOfAll => Measure::NotchEffect(None),
        Field::NutTravel => Measure::NutTravel,
        Field::OpeningMargin(arm) => Measure::Margin(arm),
        _ => return,
    };
    form.measures(&format!("{field:?}"), measure);
}

/// A field that sets the document when the keyboard leaves it.
fn cell(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    drafts: &mut Drafts,
    field: Field,
    text: &str,
    width: f32,
) {
    let name = scene.words().field(field);
    if let Some(text) = draft(ui, drafts, &format!("{field:?}"), &name, text, width) {
        set(scene, field, text);
    }
}

fn set(scene: &mut Scene<'_>, field: Field, text: String) {
    let bare = scene.figures.unit;
    scene.ask(Action::Edit(Edit::Set { field, text, bare }));
}

fn limits(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    form: &mut PropertiesForm,
    arm: ArmIndex,
    limits: Option<NutLimits>,
) {
    let words = scene.words();
    let text = |end: Option<NutPosition>| end.map_or_else(String::new, |end| end.to_string());
    let ends = [
        limits.map(|limits| limits.most_in),
        limits.map(|limits| limits.most_out),
    ];
    let names = [words.limit_in_of(arm), words.limit_out_of(arm)];
    for (index, (end, name)) in ends.into_iter().zip(names).enumerate() {
        let key = format!("limit {arm} {index}");
        let typed = draft(ui, &mut form.drafts, &key, &name, &text(end), 44.0);
        form.measures(&key, Measure::Limit(arm));
        let Some(typed) = typed else { continue };
        let typed = typed.trim().replace('−', "-");
        if typed.is_empty() {
            scene.ask(Action::Edit(Edit::SetLimits {
                arm: Some(arm),
                limits: None,
            }));
        } else if let Ok(position) = typed.parse::<i32>() {
            let position = NutPosition(position);
            let mut limits = limits.unwrap_or(NutLimits {
                most_in: position.min(NutPosition(-12)),
                most_out: position.max(NutPosition(12)),
            });
            if index == 0 {
                limits.most_in = position;
            } else {
                limits.most_out = position;
            }
            scene.ask(Action::Edit(Edit::SetLimits {
                arm: Some(arm),
                limits: Some(limits),
            }));
        } else {
            scene.ask(Action::Complain(words.not_whole_notches(&typed)));
        }
    }
}

fn start_nut(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut PropertiesForm, arm: ArmIndex) {
    let words = scene.words();
    let position = scene
        .session
        .start_nuts
        .get(arm.0)
        .copied()
        .unwrap_or_default();
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 3.0;
        let mut by = 0;
        for (mark, step) in [("−", -1), ("+", 1)] {
            let name = words.start_nut_step(arm, mark);
            let pressed = ui.add(egui::Button::new(mark).min_size(Vec2::splat(TARGET)));
            pressed.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &name));
            if pressed.has_focus() || pressed.clicked() {
                form.measure = Some(Measure::StartNut(arm));
            }
            if pressed.clicked() {
                by = step;
            }
            if step < 0 {
                ui.add_sized([30.0, TARGET], egui::Label::new(position.to_string()));
            }
        }
        if by != 0 {
            let position = position + Notches(by);
            scene.ask(Action::Edit(Edit::SetNut {
                pass: None,
                arm,
                position,
            }));
        }
    });
}

/// A field and a button that adds what was typed.
fn adder(ui: &mut Ui, drafts: &mut Drafts, key: &str, label: &str, hint: &str) -> Option<String> {
    ui.horizontal(|ui| {
        let text = drafts.texts.entry(key.to_owned()).or_default();
        let field = ui.add(line(text, 120.0).id_salt(key).hint_text(hint));
        field.widget_info(|| {
            let mut info =
                egui::WidgetInfo::labeled(egui::Role::TextInput, true, format!("{label}: {hint}"));
            info.current_text_value = Some(text.clone());
            info
        });
        let ready = !text.trim().is_empty();
        let pressed = ui
            .add_enabled_ui(ready, |ui| button(ui, label).clicked())
            .inner;
        (pressed && ready).then(|| std::mem::take(text))
    })
    .inner
}
