//! What is known of the press beyond its arms: section of the jaw and rods,
//! what earlier visits taught.

use crate::window::state::PropertiesForm;
use crate::window::state::properties::Measure;
use eframe::egui::{Role, Ui, WidgetInfo};

use crate::press::section::{Estimate, JawShape};
use crate::press::{MILLION_PSI, Material};
use crate::session::{Edit, JawAndRods};
use crate::units::{Sign, TypedLength, Unit};
use crate::window::action::Action;

use crate::window::views::Scene;
use crate::window::views::forms::draft::draft;
use crate::window::views::forms::session_field::{buttons_width, stacked};
use crate::window::views::hint::Hint;
use crate::window::views::widgets::{button, choice, choice_text, muted, strong};

/// Fields of the section, in the order in which they are asked for.
const FIELDS: usize = 6;

/// Draws both sections.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut PropertiesForm) {
    section(ui, scene, form);
    if !scene.session.earlier.is_empty() {
        ui.separator();
        earlier(ui, scene);
    }
}

fn section(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut PropertiesForm) {
    let words = scene.words();
    ui.label(muted(scene.palette, words.jaw_and_rods_hint()));
    let known = scene.session.jaw_and_rods.as_ref().map(numbers);
    let mut changed = false;
    for (part, fields) in [(words.jaw(), [0, 1, 2]), (words.rods(), [3, 4, 5])] {
        ui.label(strong(part));
        let [modulus, sizes @ ..] = fields;
        ui.horizontal_wrapped(|ui| {
            changed |= materials(ui, scene, form, modulus, part);
            if is_other(scene, form, modulus) {
                changed |= one(ui, scene, form, modulus);
            }
            for index in sizes {
                changed |= one(ui, scene, form, index);
            }
        });
    }
    if changed {
        take(scene, form, known);
    }
    if known.is_some() && button(ui, words.forget_jaw_and_rods()).clicked() {
        form.drafts.forget("section kept");
        scene.ask(Action::Edit(Edit::SetJawAndRods(None)));
    }
}

/// How many of the six are known, those that wait for the others among them.
pub fn known(scene: &Scene<'_>, form: &PropertiesForm) -> usize {
    let unit = scene.figures.unit;
    let is_known = |index: &usize| number(*index, &kept(scene, form, *index), unit).is_some();
    (0..FIELDS).filter(is_known).count()
}

/// What a part may be made of: rods are not cast.
fn usual(index: usize) -> &'static [Material] {
    match index {
        0 => &Material::ALL,
        _ => &[Material::Steel, Material::Aluminium],
    }
}

/// What a part is made of, where it is one of the usual materials.
fn made_of(scene: &Scene<'_>, form: &PropertiesForm, index: usize) -> Option<Material> {
    let now = number(index, &kept(scene, form, index), scene.figures.unit)?;
    let material = Material::with_modulus(now)?;
    usual(index).contains(&material).then_some(material)
}

/// The name under which it is kept that a part is of another material.
fn other(index: usize) -> String {
    format!("other material {index}")
}

/// Whether a part is of a material whose modulus is typed.
fn is_other(scene: &Scene<'_>, form: &PropertiesForm, index: usize) -> bool {
    let typed = !kept(scene, form, index).trim().is_empty();
    form.drafts.kept(&other(index)).is_some() || (typed && made_of(scene, form, index).is_none())
}

/// The usual materials, with the modulus of each, and any other; whether a usual
/// one was chosen.
fn materials(
    ui: &mut Ui,
    scene: &Scene<'_>,
    form: &mut PropertiesForm,
    index: usize,
    part: &str,
) -> bool {
    let words = scene.words();
    let unit = scene.figures.unit;
    let is_other = is_other(scene, form, index);
    let now = made_of(scene, form, index).filter(|_| !is_other);
    let materials = usual(index).iter().map(|material| Some(*material));
    let materials: Vec<Option<Material>> = materials.chain([None]).collect();
    let name = |material: Option<Material>| {
        material.map_or(words.material_other(), |material| words.material(material))
    };
    let mut chosen = None;
    let names: Vec<String> = materials
        .iter()
        .map(|material| choice_text(true, name(*material)))
        .collect();
    let width = buttons_width(ui, &names);
    stacked(ui, words.made_of(), width, |ui, _| {
        ui.horizontal(|ui| {
            for material in materials {
                let name = name(material);
                let is_it = match material {
                    Some(_) => now == material,
                    None => is_other,
                };
                let button = choice(ui, scene.palette, is_it, name);
                button.widget_info(|| {
                    let label = format!("{part}: {name}");
                    WidgetInfo::selected(Role::RadioButton, true, is_it, label)
                });
                if button.has_focus() || button.clicked() {
                    form.measure = Some(Measure::Section(index));
                }
                let hint = material.map(|material| {
                    let gpa = material.modulus_gpa().value;
                    words.handbook_modulus(shown(index, gpa, unit), words.modulus_unit(unit))
                });
                let button = match hint {
                    Some(hint) => button.hint(hint),
                    None => button,
                };
                if button.clicked() {
                    chosen = Some(material);
                }
            }
        });
    });
    match chosen {
        None => false,
        Some(None) => {
            form.drafts.keep(&other(index), "");
            false
        }
        Some(Some(material)) => {
            form.drafts.forget(&other(index));
            let value = shown(index, material.modulus_gpa().value, unit);
            form.drafts.keep(&waiting(index), &value);
            true
        }
    }
}

/// One of the six; whether it was left changed.
fn one(ui: &mut Ui, scene: &Scene<'_>, form: &mut PropertiesForm, index: usize) -> bool {
    let fields = scene.words().jaw_and_rods_fields(scene.figures.unit);
    let Some(label) = fields.get(index) else {
        return false;
    };
    let kept = kept(scene, form, index);
    let key = format!("section {index}");
    let mut left = None;
    stacked(ui, label, 110.0, |ui, _| {
        left = draft(ui, &mut form.drafts, &key, label, kept, 110.0);
    });
    form.measures(&key, Measure::Section(index));
    let Some(left) = left else { return false };
    form.drafts.keep(&waiting(index), &left);
    true
}

/// What a field holds: what waits for the others, or what is known.
fn kept(scene: &Scene<'_>, form: &PropertiesForm, index: usize) -> String {
    let known = scene.session.jaw_and_rods.as_ref().map(numbers);
    let number = known.and_then(|known| known.get(index).copied());
    let known = number.map(|number| shown(index, number, scene.figures.unit));
    let waits = form.drafts.kept(&waiting(index));
    waits.or(known).unwrap_or_default()
}

/// The name of a text that waits for the other fields.
fn waiting(index: usize) -> String {
    format!("section kept {index}")
}

/// Whether a field asks for an elastic modulus; the others ask for lengths.
fn is_modulus(index: usize) -> bool {
    matches!(index, 0 | 3)
}

/// A number of the section as its field shows it.
fn shown(index: usize, number: f64, unit: Unit) -> String {
    let per_unit = match (is_modulus(index), unit) {
        (true, Unit::Inch) => MILLION_PSI,
        (false, Unit::Inch) => 25.4,
        (_, Unit::Millimetre) => 1.0,
    };
    // As many places as a rule or a data sheet has.
    let places = if is_modulus(index) { 1e2 } else { 1e4 };
    format!("{}", (number / per_unit * places).round() / places)
}

/// What was typed into a field: GPa, or millimetres.
fn number(index: usize, text: &str, unit: Unit) -> Option<f64> {
    if is_modulus(index) {
        let number = text.trim().replace(',', ".").parse::<f64>().ok()?;
        let in_gpa = if unit == Unit::Inch { MILLION_PSI } else { 1.0 };
        return number.is_finite().then_some(number * in_gpa);
    }
    let typed = TypedLength::parse(text, unit, Sign::None).ok()?;
    Some(typed.length().in_unit(Unit::Millimetre))
}

/// Sets the section once every field holds a number.
fn take(scene: &mut Scene<'_>, form: &mut PropertiesForm, known: Option<[f64; FIELDS]>) {
    let mut values = known.map(|known| known.map(Some)).unwrap_or_default();
    for (index, value) in values.iter_mut().enumerate() {
        let Some(text) = form.drafts.kept(&waiting(index)) else {
            continue;
        };
        *value = number(index, &text, scene.figures.unit);
        if value.is_none() && !text.trim().is_empty() {
            scene.ask(Action::Complain(scene.words().not_a_number(&text)));
            return;
        }
    }
    let [
        Some(jaw_gpa),
        Some(width),
        Some(height),
        Some(rod_gpa),
        Some(diameter),
        Some(length),
    ] = values
    else {
        return;
    };
    let edit = Edit::SetJawAndRods(Some(JawAndRods {
        jaw_modulus_gpa: modulus(jaw_gpa),
        jaw_shape: JawShape::Rectangle {
            width_mm: Estimate::exact(width),
            height_mm: Estimate::exact(height),
        },
        rod_modulus_gpa: modulus(rod_gpa),
        rod_diameter_mm: Estimate::exact(diameter),
        rod_length_mm: Estimate::exact(length),
    }));
    // What is refused stays in its field, to be mended.
    if scene.session.edited(&edit).is_ok() {
        form.drafts.forget("section kept");
    }
    scene.ask(Action::Edit(edit));
}

/// A modulus: that of a material as sure as its kinds are alike, any other
/// exact.
fn modulus(gpa: f64) -> Estimate {
    Material::with_modulus(gpa).map_or(Estimate::exact(gpa), Material::modulus_gpa)
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

#[cfg(test)]
mod tests {
    use super::{number, shown};
    use crate::units::Unit;

    #[test]
    fn an_inch_session_asks_in_inches_and_psi() {
        // NIST SP 811 (2008), appendix B.8: 1 psi = 6.894 757 E+03 Pa, 1 in =
        // 2.54 E+01 mm.
        let gpa = number(0, "30", Unit::Inch).unwrap();
        assert!((gpa - 206.842_71).abs() < 1e-5, "{gpa}");
        assert_eq!(number(1, "2.5", Unit::Inch), Some(63.5));
        assert_eq!(number(1, "60 mm", Unit::Inch), Some(60.0));
        assert_eq!(number(0, "2o5", Unit::Millimetre), None);
        assert_eq!(shown(0, gpa, Unit::Inch), "30");
        assert_eq!(shown(4, 30.0, Unit::Inch), "1.1811");
        assert_eq!(shown(3, 205.5, Unit::Millimetre), "205.5");
    }
}
