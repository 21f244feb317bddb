//! What has the keyboard is in sight, in whatever it scrolls.

use eframe::egui::accesskit::{Action, ActionRequest, TreeId};
use eframe::egui::{self, Event, Id, Vec2};

/// What was last brought into sight, and the window it was in.
pub type InSight = Option<(Id, Vec2)>;

/// What has the keyboard now, and the window it is in.
pub fn now(ctx: &egui::Context) -> InSight {
    let focused = ctx.memory(|memory| memory.focused())?;
    Some((focused, ctx.content_rect().size()))
}

/// Asks what has the keyboard to come into sight, once, where part of it is
/// not: as a screen reader would, so that every scrolled column, present and
/// future, obeys. A pointer that is down is left alone.
pub fn bring(ctx: &egui::Context, before: &mut InSight) {
    let now = now(ctx);
    if *before == now || ctx.input(|input| input.pointer.any_down()) {
        return;
    }
    *before = now;
    let Some((id, _)) = now else { return };
    let cut_off = ctx.read_response(id).is_some_and(|response| {
        !response
            .interact_rect
            .contains_rect(response.rect.shrink(1.0))
    });
    if cut_off {
        let request = ActionRequest {
            action: Action::ScrollIntoView,
            target_tree: TreeId::ROOT,
            target_node: id.accesskit_id(),
            data: None,
        };
        ctx.input_mut(|input| input.events.push(Event::AccessKitActionRequest(request)));
    }
}
