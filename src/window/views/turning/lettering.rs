//! Letters of the turn card, as large as the window allows.

use std::sync::Arc;

use eframe::egui::{Color32, FontId, Galley, Ui};

use crate::window::theme::{self, size};

/// A font of the card, never smaller than what the window writes elsewhere.
pub(crate) fn large(points: f32, scale: f32) -> FontId {
    theme::bold((points * scale).max(size::SMALL))
}

/// The same for what matters less.
pub(crate) fn lesser(points: f32, scale: f32) -> FontId {
    theme::regular((points * scale).max(size::SMALL))
}

/// A line laid out as large as asked for, or as fits the width.
pub(crate) fn fitting(
    ui: &Ui,
    text: String,
    font: FontId,
    ink: Color32,
    width: f32,
) -> Arc<Galley> {
    let lay = |points: f32| {
        let font = FontId::new(points, font.family.clone());
        ui.painter().layout_no_wrap(text.clone(), font, ink)
    };
    let galley = lay(font.size);
    if galley.size().x <= width {
        return galley;
    }
    lay((font.size * width / galley.size().x).floor().max(8.0))
}

/// The first of several wordings that fits the width, laid out; the last where
/// none does.
pub(crate) fn first_fitting(
    ui: &Ui,
    ways: Vec<(String, FontId)>,
    ink: Color32,
    width: f32,
) -> Option<Arc<Galley>> {
    let mut laid = ways
        .into_iter()
        .map(|(text, font)| ui.painter().layout_no_wrap(text, font, ink))
        .collect::<Vec<_>>();
    let fits = laid.iter().position(|laid| laid.size().x <= width);
    let at = fits.or(laid.len().checked_sub(1))?;
    Some(laid.swap_remove(at))
}
