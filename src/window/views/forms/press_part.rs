//! The press's parts of the form: its name and measures with its arms, and its
//! measuring points.

use eframe::egui::{self, Ui};

use crate::press::{Arm, ArmIndex, Notches, NutLimits, NutPosition, Press, customary};
use crate::session::{Edit, Field, Pass};
use crate::units::TypedLength;
use crate::window::action::Action;
use crate::window::state::properties::{Measure, Removing};
use crate::window::state::{Drafts, PropertiesForm};
use crate::window::theme::TARGET;

use crate::window::views::Scene;
use crate::window::views::forms::draft::{Kept, draft, is_narrow};
use crate::window::views::forms::session_field::{
    above, cell, length, name_size, stacked, stepped,
};
use crate::window::views::hint::Hint;
use crate::window::views::turning::safety::caution;
use crate::window::views::turning::thread;
use crate::window::views::widgets::{button, line, losing, muted, quiet, strong};

/// Least and most width of the press's name.
const NAME: (f32, f32) = (240.0, 420.0);

/// Draws the part.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut PropertiesForm) {
    let words = scene.words();
    let press = scene.session.press.clone();
    ui.horizontal_wrapped(|ui| {
        let all = [
            (Field::JawLength, Some(&press.jaw_length), 110.0),
            (Field::NotchEffectOfAll, of_all(&press), 136.0),
            (Field::NutTravel, press.nut_travel.as_ref(), 110.0),
        ];
        // The name has what the others leave of the row.
        let gap = ui.spacing().item_spacing.x;
        let wide = |field: Field, width: f32| name_size(ui, &words.field(field)).x.max(width);
        let others: f32 = all
            .iter()
            .map(|(of, _, width)| wide(*of, *width) + gap)
            .sum();
        let left = ui.available_width() - others - thread::choice_width(ui, scene) - 3.0 * gap;
        let width = left.clamp(NAME.0, NAME.1);
        let name = press.name.as_str();
        above(ui, scene, &mut form.drafts, Field::PressName, name, width);
        for (field, typed, width) in all {
            stacked(ui, &words.field(field), width, |ui, _| {
                measured(ui, scene, form, field, typed, width);
            });
        }
        if let Some(left) = thread::choose(ui, scene) {
            form.thread = Some(left);
        }
    });
    thread::confirm(ui, scene, &mut form.thread);
    let past = press.indexed_arms().filter(|(_, arm)| {
        let limits = arm.limits.as_ref();
        limits.is_some_and(|limits| limits.most_out > NutPosition(0))
    });
    let past: Vec<String> = past.map(|(arm, _)| arm.to_string()).collect();
    if !past.is_empty() {
        caution(ui, scene.palette, &words.limit_past_flush(past.join(", ")));
    }
    arms(ui, scene, form, &press);
    let mut remove = false;
    ui.horizontal_wrapped(|ui| {
        let add = words.add_arm();
        if let Some(text) = adder(ui, &mut form.drafts, "add arm", add, words.field_position()) {
            let bare = scene.figures.unit;
            scene.ask(Action::Edit(Edit::add_arm(text, bare)));
        }
        // Fewer than two arms are no press.
        let removable = press.arms.len() > 2;
        remove = removable && quiet(ui, scene.palette, words.remove_an_arm()).clicked();
    });
    if remove {
        form.removing = match form.removing {
            Removing::No => Removing::Which,
            _ => Removing::No,
        };
    }
    removing(ui, scene, form, &press);
}

/// Asks which arm goes, and once more where its readings go with it.
fn removing(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut PropertiesForm, press: &Press) {
    let words = scene.words();
    match form.removing {
        Removing::No => {}
        Removing::Which => {
            ui.label(words.remove_which());
            ui.horizontal_wrapped(|ui| {
                if button(ui, words.keep_arms()).clicked() {
                    form.removing = Removing::No;
                }
                for (arm, _) in press.indexed_arms() {
                    if button(ui, words.remove_arm(arm)).clicked() {
                        form.removing = match has_readings(scene, arm) {
                            true => Removing::WithReadings(arm),
                            false => {
                                scene.ask(Action::Edit(Edit::RemoveArm(arm)));
                                Removing::No
                            }
                        };
                    }
                }
            });
        }
        Removing::WithReadings(arm) => {
            caution(ui, scene.palette, &words.arm_has_readings(arm));
            ui.horizontal_wrapped(|ui| {
                if button(ui, words.keep_arm()).clicked() {
                    form.removing = Removing::No;
                }
                if losing(ui, scene.palette, &words.remove_arm(arm)).clicked() {
                    form.removing = Removing::No;
                    scene.ask(Action::Edit(Edit::RemoveArm(arm)));
                }
            });
        }
    }
}

/// Whether anything was read at an arm.
fn has_readings(scene: &Scene<'_>, arm: ArmIndex) -> bool {
    let session = scene.session;
    let mut stations = session.stations.iter().enumerate();
    stations.any(|(station, at)| {
        let read = |pass: &Pass| pass.rows.get(station).is_some_and(|row| !row.is_empty());
        at.arm() == Some(arm) && session.passes.iter().any(read)
    })
}

/// The thickness per notch that all nuts have; none where they differ.
fn of_all(press: &Press) -> Option<&TypedLength> {
    let first = &press.arms.first()?.notch_effect;
    let same = press.arms.iter().all(|arm| arm.notch_effect == *first);
    same.then_some(first)
}

/// Whether a thickness per notch is the one that everybody begins with.
fn is_usual(typed: &TypedLength) -> bool {
    typed.length() == customary::NOTCH_EFFECT
}

/// A field whose measure the picture shows while it is at hand.
fn measured(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    form: &mut PropertiesForm,
    field: Field,
    typed: Option<&TypedLength>,
    width: f32,
) {
    let kept = length(scene, field, typed);
    let kept = match field {
        // What holds for the whole press is not said again for every arm.
        Field::NotchEffect(_) => {
            let of_press = of_all(&scene.session.press);
            match of_press.map(|of_press| length(scene, field, Some(of_press)).text) {
                Some(of_press) => Kept::default().or(of_press),
                None => kept,
            }
        }
        // What nobody measured is said to be the usual one, not shown as a value.
        Field::NotchEffectOfAll if typed.is_some_and(is_usual) => {
            Kept::default().or(scene.words().usual_value(kept.text))
        }
        _ => kept.or(scene.words().not_measured()),
    };
    cell(ui, scene, &mut form.drafts, field, kept, width);
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

/// What is known of each arm: a row per arm, or a few lines where a row has no
/// room.
fn arms(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut PropertiesForm, press: &Press) {
    let words = scene.words();
    let first = ArmIndex(0);
    let headings = [
        (words.field_position(), words.means_position(first)),
        (words.if_different(), words.means_notch_effect().to_owned()),
        (words.limit_in(), words.means_limit(first)),
        (words.limit_out(), words.means_limit(first)),
        (words.quantity_opening_margin(), words.means_margin(first)),
        (words.nut_at_start(), words.means_start_nut(first)),
    ];
    if is_narrow(ui) {
        let names = headings.map(|(heading, _)| heading).join(", ");
        for (arm, properties) in press.indexed_arms() {
            ui.label(strong(arm.to_string()));
            ui.add(egui::Label::new(muted(scene.palette, &names)).wrap());
            ui.horizontal_wrapped(|ui| arm_cells(ui, scene, form, (arm, properties), NARROW));
        }
        return;
    }
    egui::Grid::new("arms")
        .num_columns(7)
        .min_row_height(20.0)
        .spacing([18.0, 3.0])
        .show(ui, |ui| {
            ui.label(muted(scene.palette, words.field_arm()));
            for (heading, meaning) in headings {
                ui.label(muted(scene.palette, heading)).hint(meaning);
            }
            ui.end_row();
            for (arm, properties) in press.indexed_arms() {
                ui.label(strong(arm.to_string()));
                arm_cells(ui, scene, form, (arm, properties), WIDE);
                ui.end_row();
            }
        });
    ui.add(egui::Label::new(muted(scene.palette, words.means_limits())).wrap());
}

/// Widths of an arm's fields: position and effect, each limit, margin.
const WIDE: [f32; 3] = [110.0, 70.0, 110.0];
const NARROW: [f32; 3] = [92.0, 44.0, 84.0];

fn arm_cells(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    form: &mut PropertiesForm,
    (arm, properties): (ArmIndex, &Arm),
    [length, limit, margin]: [f32; 3],
) {
    let position = Some(&properties.position);
    measured(ui, scene, form, Field::ArmPosition(arm), position, length);
    let effect = Some(&properties.notch_effect);
    measured(ui, scene, form, Field::NotchEffect(arm), effect, length);
    limits(ui, scene, form, (arm, properties.limits), limit);
    let typed = properties.opening_margin.as_ref();
    measured(ui, scene, form, Field::OpeningMargin(arm), typed, margin);
    start_nut(ui, scene, form, arm);
}

/// The measuring points, those that count marked.
pub fn stations(ui: &mut Ui, scene: &mut Scene<'_>, drafts: &mut Drafts) {
    let words = scene.words();
    ui.label(muted(scene.palette, words.stations_hint()));
    let session = scene.session;
    ui.horizontal_wrapped(|ui| {
        for (station, at) in session.stations.iter().enumerate() {
            let name = session.station_name(station);
            let position = scene.figures.plain(at.position(&session.press));
            let mut counts = at.counts;
            let text = words.station_counts(&name, position);
            if ui.checkbox(&mut counts, text).changed() {
                scene.ask(Action::Edit(Edit::SetCounts { station, counts }));
            }
            if at.arm().is_none() && button(ui, words.remove_station(&name)).clicked() {
                scene.ask(Action::Edit(Edit::RemoveStation(station)));
            }
        }
    });
    let add = words.add_station();
    if let Some(text) = adder(ui, drafts, "add station", add, words.field_position()) {
        let bare = scene.figures.unit;
        scene.ask(Action::Edit(Edit::add_station(text, bare)));
    }
}

fn limits(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    form: &mut PropertiesForm,
    (arm, limits): (ArmIndex, Option<NutLimits>),
    width: f32,
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
        let typed = ui.scope(|ui| {
            if end.is_some_and(|end| end > NutPosition(0)) {
                ui.visuals_mut().override_text_color = Some(scene.palette.caution);
            }
            draft(ui, &mut form.drafts, &key, &name, text(end), width)
        });
        let typed = typed.inner;
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
                // Past flush the pin may miss its hole: that is typed.
                most_out: position.max(NutPosition(0)),
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
    let (by, at_hand) = stepped(
        ui,
        |mark| words.start_nut_step(arm, mark),
        |ui| {
            ui.add_sized([30.0, TARGET], egui::Label::new(position.to_string()));
        },
    );
    if at_hand {
        form.measure = Some(Measure::StartNut(arm));
    }
    if by != 0 {
        let position = position + Notches(by);
        scene.ask(Action::Edit(Edit::set_nut(None, arm, position)));
    }
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
        let pressed = button(ui, label).clicked();
        if pressed && !ready {
            field.request_focus();
        }
        (pressed && ready).then(|| std::mem::take(text))
    })
    .inner
}
