//! The crew's view while it is on show.
use crate::press::Notches;

/// The passing state of the view.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CrewView {
    /// What is being shown in motion: the pass and the turns after it.
    pub shown: Option<(Option<usize>, Vec<Notches>)>,
    /// When the motion began.
    pub since: Option<f64>,
}
