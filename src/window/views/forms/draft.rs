//! Fields over drafts, which set the document when the keyboard leaves them.

use eframe::egui::{self, Ui};

use crate::window::state::Drafts;

use crate::window::views::widgets::line;

/// A text field over a draft; answers the text when the keyboard leaves it
/// changed.
pub(crate) fn draft(
    ui: &mut Ui,
    drafts: &mut Drafts,
    key: &str,
    name: &str,
    text: &str,
    width: f32,
) -> Option<String> {
    let mut typed = drafts
        .texts
        .get(key)
        .cloned()
        .unwrap_or_else(|| text.to_owned());
    let before = typed.clone();
    let response = ui.add(line(&mut typed, width).id_salt(key));
    let value = typed.clone();
    response.widget_info(|| {
        let mut info = egui::WidgetInfo::text_edit(true, &before, &value, "");
        info.label = Some(name.to_owned());
        info
    });
    if response.has_focus() && drafts.at_hand.as_deref() != Some(key) {
        drafts.at_hand = Some(key.to_owned());
        ui.ctx().request_repaint();
    }
    // A screen reader sets a text without going there.
    let set = response.changed() && !response.has_focus();
    if response.lost_focus() || set {
        drafts.texts.remove(key);
        return (typed != text).then_some(typed);
    }
    if response.changed() {
        drafts.texts.insert(key.to_owned(), typed);
    }
    None
}

/// Whether two fields with their labels have no room beside each other.
pub(crate) fn is_narrow(ui: &Ui) -> bool {
    ui.available_width() < 700.0
}
