//! Small widgets used by several views.

use eframe::egui::{self, Button, Response, RichText, Role, Sense, Ui, WidgetInfo, WidgetText};

use crate::window::commands::{Command, written};
use crate::window::theme::{self, Palette, TARGET, size};
use crate::window::views::hint::keep_clear;
use crate::words::Language;

/// Lesser text.
pub fn muted(palette: &Palette, text: impl Into<String>) -> RichText {
    RichText::new(text)
        .font(theme::regular(size::SMALL))
        .color(palette.muted)
}

/// Bold text of body size.
pub fn strong(text: impl Into<String>) -> RichText {
    RichText::new(text).font(theme::bold(size::BODY))
}

/// Has a screen reader say a text anew whenever it changes, once it is done
/// with what it says.
pub fn say_changes(response: &Response) {
    response.ctx.accesskit_node_builder(response.id, |node| {
        node.set_live(egui::accesskit::Live::Polite);
    });
}

/// A card's title.
pub fn title(ui: &mut Ui, text: &str) -> Response {
    ui.label(RichText::new(text).font(theme::bold(size::TITLE)))
}

/// A button as tall as a finger in a glove.
pub fn button(ui: &mut Ui, text: impl Into<WidgetText>) -> Response {
    ui.add(Button::new(text.into()).min_size(egui::vec2(TARGET, TARGET)))
}

/// The one button of a card that does what the card is for, as wide as the
/// card.
pub fn main_button(ui: &mut Ui, palette: &Palette, text: &str, enabled: bool) -> Response {
    let width = ui.available_width();
    ui.vertical_centered(|ui| main_of_width(ui, palette, (text, enabled), width))
        .inner
}

/// A wish of lesser weight than any button: words that can be pressed.
pub fn quiet(ui: &mut Ui, palette: &Palette, text: &str) -> Response {
    let text = RichText::new(text)
        .font(theme::regular(size::SMALL))
        .color(palette.present)
        .underline();
    let least = egui::Vec2::splat(TARGET);
    ui.add(Button::new(text).frame(false).min_size(least))
}

/// Width of such words.
pub fn quiet_width(ui: &Ui, text: &str) -> f32 {
    let ink = ui.visuals().text_color();
    let font = theme::regular(size::SMALL);
    let drawn = ui.painter().layout_no_wrap(text.to_owned(), font, ink);
    drawn.size().x.max(TARGET)
}

/// The main button at least as wide as given, where it stands beside others. While it
/// cannot be had it is no less readable.
pub fn main_of_width(
    ui: &mut Ui,
    palette: &Palette,
    (text, enabled): (&str, bool),
    width: f32,
) -> Response {
    let (ink, fill) = match enabled {
        true => (palette.on_present, palette.present),
        false => (palette.muted, palette.button),
    };
    let shown = RichText::new(text).font(theme::bold(size::BODY)).color(ink);
    let button = Button::new(shown)
        .fill(fill)
        .min_size(egui::vec2(width, TARGET));
    let button = offered(ui, button, text, enabled);
    keep_clear(ui.ctx(), button.rect);
    button
}

/// A button that may be out of reach, and does not fade then: what it would do
/// stays readable.
pub fn offered(ui: &mut Ui, button: Button<'_>, name: &str, enabled: bool) -> Response {
    if enabled {
        return ui.add(button);
    }
    let button = ui.add(button.sense(Sense::hover()));
    button.widget_info(|| WidgetInfo::labeled(Role::Button, false, name));
    button
}

/// What loses something: in the colour of cautions.
pub fn losing(ui: &mut Ui, palette: &Palette, text: &str) -> Response {
    let text = RichText::new(text).color(palette.caution);
    let edge = theme::stroke(1.0, palette.caution);
    let least = egui::Vec2::splat(TARGET);
    ui.add(Button::new(text).stroke(edge).min_size(least))
}

/// How wide a button with this text is.
pub fn button_width(ui: &Ui, text: &str, font: egui::FontId) -> f32 {
    let ink = ui.visuals().text_color();
    let drawn = ui.painter().layout_no_wrap(text.to_owned(), font, ink);
    (drawn.size().x + 2.0 * ui.spacing().button_padding.x).max(TARGET)
}

/// A labelled line of text to type in, named for screen readers.
pub fn field(ui: &mut Ui, label: &str, text: &mut String, width: f32) -> Response {
    let label = ui.label(label);
    ui.add(line(text, width)).labelled_by(label.id)
}

/// A line to type in, as wide as given and as tall as a finger in a glove.
pub fn line(text: &mut String, width: f32) -> egui::TextEdit<'_> {
    egui::TextEdit::singleline(text)
        .align(egui::Align2::LEFT_CENTER)
        .margin(egui::vec2(8.0, 4.0))
        .desired_width(width)
        .min_size(egui::vec2(width, TARGET))
}

/// Names a line of text for screen readers.
pub fn name_text(response: &Response, name: &str, value: &str) {
    response.widget_info(|| {
        let mut info = egui::WidgetInfo::labeled(egui::Role::TextInput, true, name);
        info.current_text_value = Some(value.to_owned());
        info
    });
}

/// One of several, of which one holds: a ring, filled where it is chosen.
pub fn choice(ui: &mut Ui, palette: &Palette, chosen: bool, text: &str) -> Response {
    let ink = if chosen { palette.ink } else { palette.muted };
    let marked = RichText::new(choice_text(chosen, text)).color(ink);
    let fill = if chosen { palette.button } else { palette.card };
    let button = Button::new(marked).fill(fill);
    let response = ui.add(button.min_size(egui::vec2(TARGET, TARGET)));
    response.widget_info(|| WidgetInfo::selected(Role::RadioButton, true, chosen, text));
    response
}

/// What a choice shows: its mark, and its text.
pub fn choice_text(chosen: bool, text: &str) -> String {
    let mark = if chosen { "●" } else { "○" };
    format!("{mark} {text}")
}

/// A command that stays pressed down while what it opened is open.
pub fn toggle(ui: &mut Ui, palette: &Palette, on: bool, text: &str) -> Response {
    let mut button = Button::new(text)
        .selected(on)
        .min_size(egui::vec2(TARGET, TARGET));
    if on {
        button = button.stroke(theme::stroke(2.0, palette.present));
    }
    ui.add(button)
}

/// Parts of which one is on show: a row of `tab`s on a rule.
pub fn tabs<R>(ui: &mut Ui, palette: &Palette, tabs: impl FnOnce(&mut Ui) -> R) -> R {
    let row = ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 2.0;
        tabs(ui)
    });
    let below = row.response.rect.bottom() - 0.5;
    let line = theme::stroke(1.0, palette.edge);
    ui.painter().hline(ui.max_rect().x_range(), below, line);
    row.inner
}

/// The name of a part, underlined while the part is on show.
pub fn tab(ui: &mut Ui, palette: &Palette, chosen: bool, text: &str) -> Response {
    let ink = if chosen { palette.ink } else { palette.muted };
    let button = Button::new(RichText::new(text).font(theme::bold(size::BODY)).color(ink))
        .fill(egui::Color32::TRANSPARENT)
        .stroke(egui::Stroke::NONE)
        .min_size(egui::vec2(TARGET, TARGET));
    let response = ui.add(button);
    response.widget_info(|| WidgetInfo::selected(Role::Tab, true, chosen, text));
    if chosen || response.hovered() {
        let ink = if chosen {
            palette.present
        } else {
            palette.edge
        };
        let across = response.rect.x_range().shrink(4.0);
        let line = theme::stroke(4.0, ink);
        ui.painter()
            .hline(across, response.rect.bottom() - 2.0, line);
    }
    response
}

/// A cell of a grid that takes readings. Tab, arrows and Escape are the grid's
/// own; the edge says what is wrong, and what is hidden is dots.
pub fn grid_field(
    ui: &mut Ui,
    palette: &Palette,
    id: egui::Id,
    text: &mut String,
    width: f32,
    (wrong, hidden): (bool, bool),
) -> Response {
    let edge = if wrong {
        theme::stroke(2.0, palette.caution)
    } else {
        theme::stroke(1.0, palette.edge)
    };
    let frame = egui::Frame::new()
        .fill(palette.field)
        .stroke(edge)
        .corner_radius(4)
        .inner_margin(egui::Margin::symmetric(4, 4));
    let output = egui::TextEdit::singleline(text)
        .id(id)
        .password(hidden)
        .frame(frame)
        .font(theme::regular(size::BODY + 0.5))
        .align(egui::Align2::CENTER_CENTER)
        .desired_width(width - 8.0)
        .min_size(egui::vec2(width, TARGET))
        .event_filter(egui::EventFilter {
            tab: true,
            horizontal_arrows: true,
            vertical_arrows: true,
            escape: true,
        })
        .show(ui);
    let response = output.response.response;
    if response.gained_focus() {
        response.scroll_to_me_animation(None, egui::style::ScrollAnimation::none());
    }
    response
}

/// A row of buttons in the middle, each with whether it can be pressed; which
/// one was.
pub fn centred(ui: &mut Ui, buttons: &[(String, bool)]) -> Option<usize> {
    let gap = ui.spacing().item_spacing.x;
    let widths = buttons
        .iter()
        .map(|(text, _)| button_width(ui, text, theme::regular(size::BODY)) + gap);
    let width: f32 = widths.sum::<f32>() - gap;
    let before = (ui.available_width() - width) / 2.0;
    let mut pressed = None;
    ui.horizontal_wrapped(|ui| {
        if before > gap {
            ui.add_space(before - gap);
        }
        for (index, (text, enabled)) in buttons.iter().enumerate() {
            let button = Button::new(text).min_size(egui::Vec2::splat(TARGET));
            if ui.add_enabled(*enabled, button).clicked() {
                pressed = Some(index);
            }
        }
    });
    pressed
}

/// A button with a name that says what it is about; whether it was pressed.
pub fn named_button(ui: &mut Ui, text: &str, name: &str) -> bool {
    let button = ui.add(Button::new(text).min_size(egui::vec2(TARGET, TARGET)));
    button.widget_info(|| WidgetInfo::labeled(Role::Button, true, name));
    button.clicked()
}

/// What a command does and its keys, for whoever points at its button.
pub fn hint_of(ui: &Ui, words: Language, command: Command) -> String {
    let keys = command.shortcut();
    let keys = keys.map(|keys| written(ui.ctx(), words, &keys));
    format!("{} ({})", command.words(words), keys.unwrap_or_default())
}
