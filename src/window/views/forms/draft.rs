//! Fields over drafts, which set the document when the keyboard leaves them.

use eframe::egui::{self, Ui};

use crate::window::state::Drafts;

use crate::window::views::hint::Hint;
use crate::window::views::widgets::line;

/// What a field shows while nobody types in it.
#[derive(Debug, Clone, Default)]
pub(crate) struct Kept {
    pub(crate) text: String,
    /// What was typed, where the text is that in another unit.
    pub(crate) as_typed: Option<String>,
    /// What stands in the field while it is empty.
    pub(crate) hint: String,
}

impl Kept {
    /// The same with what stands in the field while it is empty.
    pub(crate) fn or(self, hint: impl Into<String>) -> Self {
        let hint = hint.into();
        Self { hint, ..self }
    }
}

impl<T: Into<String>> From<T> for Kept {
    fn from(text: T) -> Self {
        Self {
            text: text.into(),
            ..Self::default()
        }
    }
}

/// A text field over a draft; answers the text when the keyboard leaves it
/// changed.
pub(crate) fn draft(
    ui: &mut Ui,
    drafts: &mut Drafts,
    key: &str,
    name: &str,
    kept: impl Into<Kept>,
    width: f32,
) -> Option<String> {
    let Kept {
        text,
        as_typed,
        hint,
    } = kept.into();
    let mut typed = drafts.texts.get(key).unwrap_or(&text).clone();
    let before = typed.clone();
    let mut response = ui.add(line(&mut typed, width).id_salt(key).hint_text(hint));
    if let Some(as_typed) = as_typed {
        response = response.hint(as_typed);
    }
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
