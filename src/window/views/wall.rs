//! What is read across a shop: letters as large as that takes, and buttons
//! that go with them.

use eframe::egui::{Button, RichText, Role, Ui, Vec2, WidgetInfo};

use crate::window::theme;

/// Height of a capital letter, as a share of the size of its font (1493 of
/// 2048 units in both fonts of the window).
const CAPITAL: f32 = 1493.0 / 2048.0;

/// Height of letters, as a share of the height of the window: a twentieth,
/// and a little for rounding to whole pixels. Letters of an inch are legible at
/// 30 feet by the rule for road signs (MUTCD, section 2A; from memory), so
/// that a screen 560 mm high is read at ten metres.
const LETTERS: f32 = 1.06 / 20.0;

/// The size of the font in this window.
pub fn font(ui: &Ui) -> f32 {
    ui.ctx().content_rect().height() * LETTERS / CAPITAL
}

/// Height of a button.
pub fn height(font: f32) -> f32 {
    (font * 1.2).max(theme::TARGET)
}

/// A button with a mark and a name for screen readers; whether it was pressed.
pub fn button(ui: &mut Ui, font: f32, mark: &str, name: &str, enabled: bool) -> bool {
    ui.spacing_mut().button_padding = Vec2::new(font * 0.25, 0.0);
    let text = RichText::new(mark).font(theme::bold(font));
    let button = Button::new(text).min_size(Vec2::splat(height(font)));
    let response = ui.add_enabled(enabled, button);
    response.widget_info(|| WidgetInfo::labeled(Role::Button, enabled, name));
    response.clicked()
}
