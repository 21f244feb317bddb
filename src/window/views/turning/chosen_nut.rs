//! Which nut the keyboard and the buttons below the plates are about.

use crate::press::ArmIndex;
use crate::window::views::Scene;

/// The nut that the keyboard and the buttons below the plates are about: the one
/// last touched, else the first that turns.
pub fn chosen(scene: &Scene<'_>) -> ArmIndex {
    let turns = scene.preview();
    let first = || turns.iter().position(|turn| turn.0 != 0);
    let last = scene.session.press.arms.len().saturating_sub(1);
    ArmIndex(scene.view.nut.or_else(first).unwrap_or(0).min(last))
}

/// Goes to the nut so many to the right.
pub fn step(scene: &mut Scene<'_>, by: isize) {
    let last = scene.session.press.arms.len().saturating_sub(1);
    let next = chosen(scene).0.saturating_add_signed(by).min(last);
    scene.view.nut = Some(next);
    scene.view.nut_wants_focus = true;
}
