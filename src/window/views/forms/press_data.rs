//! What is known of the press beyond its arms: section of the jaw and rods,
//! what earlier visits taught.

use crate::window::state::Drafts;
use eframe::egui::{self, Ui};

use crate::press::section::{Estimate, JawShape};
use crate::session::{Edit, JawAndRods};
use crate::window::action::Action;

use crate::window::views::Scene;
use crate::window::views::forms::draft::draft;
use crate::window::views::widgets::{button, muted, strong};

/// Fields of the section, in the order in which they are asked for.
const FIELDS: usize = 6;

/// Draws both sections.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, drafts: &mut Drafts) {
    section(ui, scene, drafts);
    if !scene.session.earlier.is_empty() {
        ui.separator();
        earlier(ui, scene);
    }
}

fn section(ui: &mut Ui, scene: &mut Scene<'_>, drafts: &mut Drafts) {
    let words = scene.words();
    ui.label(strong(words.section_jaw_and_rods()));
    ui.label(muted(scene.palette, words.jaw_and_rods_hint()));
    let known = scene.session.jaw_and_rods.as_ref().map(numbers);
    let labels = words.jaw_and_rods_fields();
    let mut changed = false;
    let mut texts: Vec<String> = Vec::with_capacity(FIELDS);
    let narrow = crate::window::views::forms::draft::is_narrow(ui);
    egui::Grid::new("section")
        .num_columns(4)
        .spacing([10.0, 6.0])
        .show(ui, |ui| {
            for (index, label) in labels.into_iter().enumerate() {
                let number = known.and_then(|known| known.get(index).copied());
                let kept = number.map_or_else(String::new, |number| format!("{number}"));
                let key = format!("section {index}");
                ui.label(label);
                let left = draft(ui, drafts, &key, label, &kept, 110.0);
                changed |= left.is_some();
                let typed = left.unwrap_or(kept);
                // A field that was left waits for the others.
                let waiting = format!("section kept {index}");
                if changed && !typed.is_empty() {
                    drafts.keep(&waiting, &typed);
                }
                texts.push(drafts.kept(&waiting).unwrap_or(typed));
                if narrow || index % 2 == 1 {
                    ui.end_row();
                }
            }
        });
    if changed {
        take(scene, &texts);
    }
    if known.is_some() && button(ui, words.forget_jaw_and_rods()).clicked() {
        drafts.forget("section kept");
        scene.ask(Action::Edit(Edit::SetJawAndRods(None)));
    }
}

/// Sets the section once every field holds a number.
fn take(scene: &mut Scene<'_>, texts: &[String]) {
    let mut values = [0.0; FIELDS];
    for (value, text) in values.iter_mut().zip(texts) {
        let text = text.trim().replace(',', ".");
        if text.is_empty() {
            return;
        }
        match text.parse::<f64>() {
            Ok(number) if number.is_finite() => *value = number,
            _ => {
                scene.ask(Action::Complain(scene.words().not_a_number(&text)));
                return;
            }
        }
    }
    let [jaw_gpa, width, height, rod_gpa, diameter, length] = values.map(Estimate::exact);
    scene.ask(Action::Edit(Edit::SetJawAndRods(Some(JawAndRods {
        jaw_modulus_gpa: jaw_gpa,
        jaw_shape: JawShape::Rectangle {
            width_mm: width,
            height_mm: height,
        },
        rod_modulus_gpa: rod_gpa,
        rod_diameter_mm: diameter,
        rod_length_mm: length,
    }))));
}

/// The section as the fields show it. A second moment is shown as the square
/// section that has it.
fn numbers(known: &JawAndRods) -> [f64; FIELDS] {
    let (width, height) = match known.jaw_shape {
        JawShape::Rectangle {
            width_mm,
            height_mm,
        } => (width_mm.value, height_mm.value),
        JawShape::SecondMomentMm4(moment) => {
            let side = (12.0 * moment.value).sqrt().sqrt();
            (side, side)
        }
    };
    [
        known.jaw_modulus_gpa.value,
        width,
        height,
        known.rod_modulus_gpa.value,
        known.rod_diameter_mm.value,
        known.rod_length_mm.value,
    ]
}

fn earlier(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    ui.label(strong(words.section_earlier_visits()));
    for visit in &scene.session.earlier {
        ui.label(words.earlier_visit_line(&visit.when, visit.passes.len()));
    }
    if button(ui, words.forget_earlier()).clicked() {
        scene.ask(Action::Edit(Edit::ForgetEarlier));
    }
}
