//! What has the keyboard is in sight, in whatever it scrolls.

use eframe::egui::accesskit::{Action, ActionRequest, TreeId};
use eframe::egui::{self, Event, Id, Vec2};

/// Frames for which what has just got the keyboard is looked after: what
/// scrolled before may still move it.
const LOOKS: u8 = 12;

/// Frames until it is seen what a wish to scroll did; asked again before that,
/// it would go too far.
const WAIT: u8 = 3;

/// What was last brought into sight.
#[derive(Debug, Default)]
pub struct InSight {
    /// What had the keyboard, and the size of the window.
    last: Option<(Id, Vec2)>,
    /// Frames for which it is still to be looked after.
    looks: u8,
}

impl InSight {
    /// Whether what has the keyboard is still to be looked after.
    pub fn is_due(&self, ctx: &egui::Context) -> bool {
        self.looks > 0 || self.last != now(ctx)
    }

    /// Asks what has just got the keyboard to come into sight where part of it
    /// is not: as a screen reader would, so that every scrolled column, present
    /// and future, obeys. Nothing moves under a pointer that presses or lets go.
    pub fn bring(&mut self, ctx: &egui::Context) {
        if ctx.input(|input| input.pointer.any_down() || input.pointer.any_released()) {
            return;
        }
        let now = now(ctx);
        if self.last != now {
            self.last = now;
            self.looks = LOOKS;
        }
        if self.looks == 0 {
            return;
        }
        let asks = self.looks.is_multiple_of(WAIT);
        self.looks -= 1;
        let Some((id, _)) = now.filter(|_| asks) else {
            return;
        };
        let Some(seen) = ctx.read_response(id) else {
            return;
        };
        let (whole, shown) = (seen.rect.shrink(1.0), seen.interact_rect);
        if shown.contains_rect(whole) {
            return;
        }
        // The column's end may keep it from the middle: then step by step.
        let action = if self.looks + 1 == LOOKS {
            Action::ScrollIntoView
        } else if whole.top() < shown.top() {
            Action::ScrollUp
        } else {
            Action::ScrollDown
        };
        let request = ActionRequest {
            action,
            target_tree: TreeId::ROOT,
            target_node: id.accesskit_id(),
            data: None,
        };
        ctx.input_mut(|input| input.events.push(Event::AccessKitActionRequest(request)));
    }
}

/// What has the keyboard now, and the size of the window.
fn now(ctx: &egui::Context) -> Option<(Id, Vec2)> {
    let focused = ctx.memory(|memory| memory.focused())?;
    Some((focused, ctx.content_rect().size()))
}
