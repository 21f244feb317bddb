//! The gauge: what is being typed and asked about it.

use crate::splice::GaugePreset;

use super::drafts::Drafts;

/// What is being typed and asked in the dialog.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct GaugeForm {
    pub drafts: Drafts,
    /// Whether the kind that is chosen was given the keyboard.
    pub asked: bool,
    /// The date as typed, while it is no date or not yet left.
    pub due: Option<String>,
    /// The gauge of the library that is to take the place of what is there.
    pub chosen: Option<GaugePreset>,
}
