//! What comes in and goes out that egui would take otherwise than other
//! programs of the desktop do.

use eframe::egui::accesskit::NodeId;
use eframe::egui::{
    Context, Event, FullOutput, Key, OutputCommand, Plugin, PointerButton, RawInput,
    ViewportCommand,
};

/// Stands between egui and the desktop.
#[derive(Debug)]
pub struct Habits;

impl Plugin for Habits {
    fn debug_name(&self) -> &'static str {
        "desktop-habits"
    }

    /// Shift+Insert pastes and Ctrl+Insert copies; and behind a dialog nothing
    /// can be pressed by a screen reader either.
    fn input_hook(&mut self, ctx: &Context, input: &mut RawInput) {
        input.events.retain_mut(|event| match event {
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
            Event::AccessKitActionRequest(request) => !is_behind(ctx, request.target_node),
            _ => true,
        });
    }

    /// The text for the middle button of the mouse stays as it is where the
    /// program marked a text by itself: only what a hand has marked goes there.
    fn output_hook(&mut self, ctx: &Context, output: &mut FullOutput) {
        if !marked_by_hand(ctx) {
            let commands = &mut output.platform_output.commands;
            commands.retain(|command| !matches!(command, OutputCommand::TextSelectionSettled(_)));
        }
    }
}

/// Whether something is drawn below a dialog in front.
fn is_behind(ctx: &Context, node: NodeId) -> bool {
    let layer = ctx.viewport(|viewport| {
        let drawn = viewport.prev_pass.widgets.layers();
        let mut drawn = drawn.flat_map(|(_, widgets)| widgets);
        let widget = drawn.find(|widget| widget.id.accesskit_id() == node);
        widget.map(|widget| widget.layer_id)
    });
    layer.is_some_and(|layer| ctx.memory(|memory| !memory.is_above_modal_layer(layer)))
}

/// Whether a hand has marked text in this frame, by dragging, clicking more
/// than once or keys.
fn marked_by_hand(ctx: &Context) -> bool {
    ctx.input(|input| {
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
            } => modifiers.shift || modifiers.command && *key == Key::A,
            _ => false,
        };
        twice || dragged || input.events.iter().any(keyed)
    })
}
