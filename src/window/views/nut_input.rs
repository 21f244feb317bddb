//! Turning a nut with mouse, wheel or keys: what every handle understands.

use eframe::egui::{self, Event, EventFilter, Key, Modifiers, MouseWheelUnit, Response, Ui};

/// Wheel travel that turns a nut by one notch, in points, for wheels and pads
/// that report points.
const WHEEL_POINTS: f32 = 40.0;

/// Notches asked for by dragging a handle up or down since the last frame;
/// up is out. Parts of a notch are kept until they make a whole one.
pub fn dragged_notches(ui: &Ui, handle: &Response, points_per_notch: f32) -> Option<i32> {
    if !handle.dragged() {
        return None;
    }
    let upward = -handle.drag_delta().y;
    gathered(
        ui,
        handle.id.with("drag"),
        upward,
        points_per_notch.max(6.0),
        handle.drag_started(),
    )
}

/// Notches asked for by the wheel over a widget; up is out. The page under it
/// does not scroll meanwhile.
pub fn scrolled_notches(ui: &Ui, widget: &Response) -> Option<i32> {
    if !widget.hovered() {
        return None;
    }
    let mut notches = 0.0;
    ui.input_mut(|input| {
        for event in &input.events {
            if let Event::MouseWheel {
                unit,
                delta,
                modifiers,
                ..
            } = event
                && !modifiers.command
            {
                notches += match unit {
                    MouseWheelUnit::Line | MouseWheelUnit::Page => delta.y,
                    MouseWheelUnit::Point => delta.y / WHEEL_POINTS,
                };
            }
        }
        input.smooth_scroll_delta = egui::Vec2::ZERO;
    });
    gathered(ui, widget.id.with("wheel"), notches, 1.0, false)
}

/// Notches asked for by arrow keys or a screen reader while a widget has the
/// keyboard: up and right are out, down and left in; Home goes back to
/// leaving the nut (`leave` is the turn that does so).
pub fn keyed_notches(ui: &Ui, widget: &Response, leave: i32) -> Option<i32> {
    let mut notches = 0;
    if widget.has_focus() {
        ui.memory_mut(|memory| {
            memory.set_focus_lock_filter(
                widget.id,
                EventFilter {
                    vertical_arrows: true,
                    horizontal_arrows: true,
                    ..EventFilter::default()
                },
            );
        });
        ui.input_mut(|input| {
            for (key, by) in [
                (Key::ArrowUp, 1),
                (Key::ArrowRight, 1),
                (Key::ArrowDown, -1),
                (Key::ArrowLeft, -1),
            ] {
                let count = input.count_and_consume_key(Modifiers::NONE, key);
                notches += by * i32::try_from(count).unwrap_or(0);
            }
            if input.consume_key(Modifiers::NONE, Key::Home) {
                notches = leave;
            }
        });
    }
    ui.input(|input| {
        use egui::accesskit::Action;
        let asked = |action| input.num_accesskit_action_requests(widget.id, action) as i32;
        notches += asked(Action::Increment) - asked(Action::Decrement);
    });
    (notches != 0).then_some(notches)
}

/// Adds up small movements and answers the whole steps among them.
fn gathered(ui: &Ui, id: egui::Id, movement: f32, per_step: f32, afresh: bool) -> Option<i32> {
    let so_far = if afresh {
        0.0
    } else {
        ui.data(|data| data.get_temp::<f32>(id)).unwrap_or(0.0)
    };
    let total = so_far + movement / per_step;
    let whole = total.trunc();
    ui.data_mut(|data| data.insert_temp(id, total - whole));
    (whole != 0.0).then_some(whole as i32)
}
