//! Fields of the session in its forms: each shows its value in the unit on
//! show, and what was typed in the other when pointed at.

use eframe::egui::{Align, Button, Id, Layout, Response, Role, Ui, Vec2, WidgetInfo};

use crate::press::ArmIndex;
use crate::session::{Edit, Field};
use crate::units::TypedLength;
use crate::window::action::Action;
use crate::window::state::Drafts;
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::forms::draft::{Kept, draft};
use crate::window::views::widgets::{button_width, line, strong};

/// A length as its field shows it.
pub(crate) fn length(scene: &Scene<'_>, field: Field, typed: Option<&TypedLength>) -> Kept {
    let Some(typed) = typed else {
        return Kept::default();
    };
    let as_typed = scene.figures.typed(typed);
    if field == Field::Tolerance {
        return as_typed.into();
    }
    let other = typed.unit() != scene.figures.unit;
    Kept {
        text: scene.figures.in_field(typed),
        as_typed: other.then(|| scene.words().typed_as(as_typed)),
        ..Kept::default()
    }
}

/// A field below its name.
pub(crate) fn above(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    drafts: &mut Drafts,
    field: Field,
    kept: impl Into<Kept>,
    width: f32,
) {
    let name = scene.words().field(field);
    stacked(ui, &name, width, |ui, _| {
        cell(ui, scene, drafts, field, kept, width);
    });
}

/// A line to type in below its name, with what it says while it is empty.
pub(crate) fn line_below(
    ui: &mut Ui,
    name: &str,
    text: &mut String,
    (width, hint): (f32, &str),
) -> Response {
    stacked(ui, name, width, |ui, label| {
        ui.add(line(text, width).hint_text(hint)).labelled_by(label)
    })
}

/// Whatever is typed into below its name, in a row that wraps; it is told the
/// id of the name.
pub(crate) fn stacked<R>(
    ui: &mut Ui,
    name: &str,
    width: f32,
    add: impl FnOnce(&mut Ui, Id) -> R,
) -> R {
    let named = name_size(ui, name);
    let gap = 4.0;
    let room = Vec2::new(
        named.x.max(width).min(ui.available_width()),
        named.y + gap + TARGET,
    );
    ui.allocate_ui_with_layout(room, Layout::top_down(Align::LEFT), |ui| {
        ui.set_width(room.x);
        ui.spacing_mut().item_spacing.y = gap;
        let label = ui.label(name).id;
        add(ui, label)
    })
    .inner
}

/// How large a name above a field is.
pub(crate) fn name_size(ui: &Ui, name: &str) -> Vec2 {
    let font = theme::regular(size::BODY);
    let ink = ui.visuals().text_color();
    let named = ui.painter().layout_no_wrap(name.to_owned(), font, ink);
    named.size()
}

/// A place for each of so many arms, behind its letter.
pub(crate) fn per_arm(
    ui: &mut Ui,
    arms: usize,
    width: f32,
    mut add: impl FnMut(&mut Ui, ArmIndex),
) {
    ui.horizontal_wrapped(|ui| {
        for arm in (0..arms).map(ArmIndex) {
            let room = Vec2::new(width, TARGET);
            let from_left = Layout::left_to_right(Align::Center);
            ui.allocate_ui_with_layout(room, from_left, |ui| {
                ui.spacing_mut().item_spacing.x = 5.0;
                ui.label(strong(arm.to_string()));
                add(ui, arm);
            });
        }
    });
}

/// What goes by steps of one, between − and +, each named; by how much it was
/// asked to, and whether one of the two is at hand.
pub(crate) fn stepped(
    ui: &mut Ui,
    name: impl Fn(&str) -> String,
    middle: impl FnOnce(&mut Ui),
) -> (i32, bool) {
    let (mut by, mut at_hand) = (0, false);
    let mut step = |ui: &mut Ui, mark: &str, step| {
        let pressed = ui.add(Button::new(mark).min_size(Vec2::splat(TARGET)));
        pressed.widget_info(|| WidgetInfo::labeled(Role::Button, true, name(mark)));
        at_hand |= pressed.has_focus() || pressed.clicked();
        if pressed.clicked() {
            by = step;
        }
    };
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 3.0;
        step(ui, "−", -1);
        middle(ui);
        step(ui, "+", 1);
    });
    (by, at_hand)
}

/// A field that sets the document when the keyboard leaves it.
pub(crate) fn cell(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    drafts: &mut Drafts,
    field: Field,
    kept: impl Into<Kept>,
    width: f32,
) {
    let name = scene.words().field(field);
    if let Some(text) = draft(ui, drafts, &format!("{field:?}"), &name, kept, width) {
        set(scene, field, text);
    }
}

/// Asks to set a field.
pub(crate) fn set(scene: &mut Scene<'_>, field: Field, text: String) {
    let bare = scene.figures.unit;
    scene.ask(Action::Edit(Edit::Set { field, text, bare }));
}

/// The width that buttons with these texts take beside each other.
pub(crate) fn buttons_width(ui: &Ui, texts: &[impl AsRef<str>]) -> f32 {
    let gap = ui.spacing().item_spacing.x;
    let width = |text: &str| button_width(ui, text, theme::regular(size::BODY)) + gap;
    texts.iter().map(|text| width(text.as_ref())).sum()
}
