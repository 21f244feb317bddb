//! What comes in and goes out that egui would take otherwise than other
//! programs of the desktop do.

use eframe::egui::accesskit::NodeId;
use eframe::egui::{self, Context, Event, Key, OutputCommand, PointerButton, ViewportCommand};

/// Puts right what comes in: Shift+Insert pastes and Ctrl+Insert copies; and
/// behind a dialog nothing can be pressed by a screen reader either.
pub fn mend(ctx: &Context, dialog: bool, events: &mut Vec<Event>) {
    events.retain_mut(|event| match event {
        Event::Key {
            key: Key::Insert,
            pressed: true,
            modifiers,
            ..
        } if modifiers.shift_only() => {
            ctx.send_viewport_cmd(ViewportCommand::RequestPaste);
            false
        }
        Event::Key {
            key: Key::Insert,
            pressed: true,
            modifiers,
            ..
        } if modifiers.command_only() => {
            *event = Event::Copy;
            true
        }
        Event::AccessKitActionRequest(request) => !dialog || !is_behind(ctx, request.target_node),
        _ => true,
    });
}

/// Whether something is drawn below the dialog in front.
fn is_behind(ctx: &Context, node: NodeId) -> bool {
    let layer = ctx.viewport(|viewport| {
        let drawn = viewport.prev_pass.widgets.layers();
        let mut drawn = drawn.flat_map(|(_, widgets)| widgets);
        let widget = drawn.find(|widget| widget.id.accesskit_id() == node);
        widget.map(|widget| widget.layer_id)
    });
    layer.is_some_and(|layer| ctx.memory(|memory| !memory.is_above_modal_layer(layer)))
}

/// Leaves the text for the middle button of the mouse as it is where the
/// program marked a text by itself: only what a hand has marked goes there.
pub fn keep_middle_click(ctx: &Context) {
    let by_hand = ctx.input(|input| {
        let pointer = &input.pointer;
        let twice = pointer.button_double_clicked(PointerButton::Primary)
            || pointer.button_triple_clicked(PointerButton::Primary);
        let dragged = pointer.any_released() && !pointer.any_click();
        let keyed = |event: &Event| match event {
            Event::Key {
                key,
                pressed: true,
                modifiers,
                ..
            } => modifiers.shift || modifiers.command && *key == egui::Key::A,
            _ => false,
        };
        twice || dragged || input.events.iter().any(keyed)
    });
    if !by_hand {
        ctx.output_mut(|output| {
            output
                .commands
                .retain(|command| !matches!(command, OutputCommand::TextSelectionSettled(_)));
        });
    }
}
