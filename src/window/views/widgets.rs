//! Small widgets used by several views.

use eframe::egui::{self, Button, Response, RichText, Role, Sense, Ui, WidgetInfo, WidgetText};

use crate::window::theme::{self, Palette, TARGET, size};
use crate::window::views::hint::keep_clear;

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

/// The one button of a card that does what the card is for. While it cannot
/// be had it is no less readable.
pub fn main_button(ui: &mut Ui, palette: &Palette, text: &str, enabled: bool) -> Response {
    let (ink, fill) = match enabled {
        true => (palette.on_present, palette.present),
        false => (palette.muted, palette.button),
    };
    let shown = RichText::new(text).font(theme::bold(size::BODY)).color(ink);
    let width = ui.available_width();
    let button = Button::new(shown)
        .fill(fill)
        .min_size(egui::vec2(width, TARGET));
    let button = ui.vertical_centered(|ui| offered(ui, button, text, enabled));
    keep_clear(ui.ctx(), button.inner.rect);
    button.inner
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
    text_width(ui, text, theme::regular(size::SMALL)).max(TARGET)
}

fn text_width(ui: &Ui, text: &str, font: egui::FontId) -> f32 {
    let ink = ui.visuals().text_color();
    let drawn = ui.painter().layout_no_wrap(text.to_owned(), font, ink);
    drawn.size().x
}

/// The answers to a dialog: leaving it on the left, then what it is for, last
/// and in the colour of cautions what loses something.
pub struct Answers<'a> {
    /// Leaves it; empty where it is left elsewhere.
    pub leave: &'a str,
    /// What it is for, and whether that can be had.
    pub act: (&'a str, bool),
    /// What loses something.
    pub lose: Option<&'a str>,
    /// Whether what it is for has the keyboard first: nothing is typed here.
    pub act_first: bool,
}

/// Which of them was given.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Answer {
    /// To leave it.
    Leave,
    /// What it is for.
    Act,
    /// What loses something.
    Lose,
}

impl Answers<'_> {
    /// Draws them in a row, or below each other where that is too narrow.
    pub fn show(&self, ui: &mut Ui, palette: &Palette) -> Option<Answer> {
        let width = |text: &str| {
            let padding = 2.0 * ui.spacing().button_padding.x;
            (text_width(ui, text, theme::bold(size::BODY)) + padding).max(TARGET)
        };
        let gap = ui.spacing().item_spacing.x;
        let lose = self.lose.map_or(0.0, |lose| width(lose) + gap);
        let left = !self.leave.is_empty();
        let beside = if left { width(self.leave) + gap } else { 0.0 } + lose;
        let room = ui.available_width();
        let mut answer = None;
        let act = |ui: &mut Ui, room: f32| {
            let size = egui::vec2(room, TARGET);
            let layout = egui::Layout::top_down(egui::Align::Min);
            let act = ui.allocate_ui_with_layout(size, layout, |ui| {
                ui.set_width(room);
                main_button(ui, palette, self.act.0, self.act.1)
            });
            let act = act.inner;
            if self.act_first && self.act.1 && ui.memory(|memory| memory.focused().is_none()) {
                act.request_focus();
            }
            act.clicked()
        };
        let lose = |ui: &mut Ui| {
            let Some(text) = self.lose else { return false };
            let text = RichText::new(text).color(palette.caution);
            let edge = theme::stroke(1.0, palette.caution);
            let least = egui::Vec2::splat(TARGET);
            ui.add(Button::new(text).stroke(edge).min_size(least))
                .clicked()
        };
        if beside + width(self.act.0) <= room {
            ui.horizontal(|ui| {
                if left && button(ui, self.leave).clicked() {
                    answer = Some(Answer::Leave);
                }
                if act(ui, room - beside) {
                    answer = Some(Answer::Act);
                }
                if lose(ui) {
                    answer = Some(Answer::Lose);
                }
            });
            return answer;
        }
        if act(ui, room) {
            answer = Some(Answer::Act);
        }
        ui.horizontal_wrapped(|ui| {
            if left && button(ui, self.leave).clicked() {
                answer = Some(Answer::Leave);
            }
            if lose(ui) {
                answer = Some(Answer::Lose);
            }
        });
        answer
    }
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

/// A button that is one of several choices, pressed down where it is chosen.
pub fn choice(ui: &mut Ui, palette: &Palette, chosen: bool, text: &str) -> Response {
    let mut choose = Button::new(text)
        .selected(chosen)
        .min_size(egui::vec2(TARGET, TARGET));
    if chosen {
        choose = choose.stroke(theme::stroke(2.0, palette.present));
    }
    ui.add(choose)
}

/// A cell of a grid that takes readings. Tab, arrows and Escape are the grid's
/// own; the edge says what is wrong.
pub fn grid_field(
    ui: &mut Ui,
    palette: &Palette,
    id: egui::Id,
    text: &mut String,
    width: f32,
    wrong: bool,
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
    let font = theme::regular(size::BODY);
    let padding = 2.0 * ui.spacing().button_padding.x;
    let gap = ui.spacing().item_spacing.x;
    let widths = buttons.iter().map(|(text, _)| {
        let drawn =
            ui.painter()
                .layout_no_wrap(text.clone(), font.clone(), ui.visuals().text_color());
        (drawn.size().x + padding).max(TARGET) + gap
    });
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
