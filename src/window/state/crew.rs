//! The crew's view while it is on show.

use crate::press::Notches;

/// What is told of a pass, one step after the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum CrewStep {
    /// The piece as it was measured.
    #[default]
    Stands,
    /// What is wrong with it, and what that does to a joint.
    Wrong,
    /// What is turned, and why neighbours move too.
    Turns,
    /// The next piece as it is expected.
    Expected,
}

/// The passing state of the view.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CrewView {
    /// The step on show, as far as the pass has it.
    pub step: CrewStep,
    /// Pass, turns and step whose motion was started last.
    pub shown: Option<(Option<usize>, Vec<Notches>, CrewStep)>,
    /// When the motion that is under way was started.
    pub since: Option<f64>,
}
