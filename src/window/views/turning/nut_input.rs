//! Turning a nut with mouse, wheel or keys: what every handle understands.

use std::f32::consts::{PI, TAU};

use eframe::egui::{self, Event, EventFilter, Key, Modifiers, MouseWheelUnit, Pos2, Response, Ui};

use crate::press::NutPosition;
use crate::report::SLOTS;

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

/// Angle by which a nut goes round a notch: one slot. Its slots look the same
/// after that; the painted mark shows how far it went.
pub const NOTCH_ANGLE: f32 = TAU / SLOTS as f32;

/// Where a nut is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Round {
    /// Its centre.
    pub centre: Pos2,
    /// Its radius in points.
    pub radius: f32,
    /// The way it goes round on the screen when it is turned out, seen from
    /// the rod's end: 1 with the clock, -1 against it.
    pub out: f32,
}

impl Round {
    /// Whether a drag from here goes around the nut: it was taken by its rim.
    fn is_taken_at(&self, at: Pos2) -> bool {
        let from_centre = (at - self.centre).length();
        (self.radius * 0.3..=self.radius * 1.3).contains(&from_centre)
    }
}

/// Notches asked for by dragging a handle since the last frame: around the
/// nut where it was taken by its rim, up and down anywhere else.
pub fn dragged_nut(ui: &Ui, handle: &Response, nut: Round, points_per_notch: f32) -> Option<i32> {
    let taken_at = ui.input(|input| input.pointer.press_origin());
    let Some(taken_at) = taken_at.filter(|&at| nut.is_taken_at(at)) else {
        return dragged_notches(ui, handle, points_per_notch);
    };
    let now = handle.interact_pointer_pos().filter(|_| handle.dragged())?;
    let before = if handle.drag_started() {
        taken_at
    } else {
        now - handle.drag_delta()
    };
    let angle = |at: Pos2| (at - nut.centre).angle();
    // The short way round, past the half turn too.
    let moved = (angle(now) - angle(before) + PI).rem_euclid(TAU) - PI;
    let id = handle.id.with("round");
    gathered(ui, id, nut.out * moved, NOTCH_ANGLE, handle.drag_started())
}

/// Notches asked for by keys or a screen reader while a widget has the
/// keyboard: up and plus are out, down and minus in; Home goes back to leaving
/// the nut (`leave` is the turn that does so).
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
        notches = presses(
            ui,
            &[
                (Key::ArrowUp, 1),
                (Key::Plus, 1),
                (Key::ArrowDown, -1),
                (Key::Minus, -1),
            ],
        );
        if ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Home)) {
            notches = leave;
        }
    }
    ui.input(|input| {
        use egui::accesskit::Action;
        let asked = |action| input.num_accesskit_action_requests(widget.id, action) as i32;
        notches += asked(Action::Increment) - asked(Action::Decrement);
    });
    (notches != 0).then_some(notches)
}

/// Tells a screen reader that a widget is a slider from end to end, a notch
/// at a time, and what its value means.
pub fn as_slider(ui: &Ui, id: egui::Id, said: String, ends: Option<[NutPosition; 2]>) {
    use egui::accesskit::Action;
    ui.ctx().accesskit_node_builder(id, |node| {
        for action in [Action::Increment, Action::Decrement, Action::SetValue] {
            node.add_action(action);
        }
        node.set_value(said);
        node.set_numeric_value_step(1.0);
        if let Some([least, most]) = ends {
            node.set_min_numeric_value(f64::from(least.0));
            node.set_max_numeric_value(f64::from(most.0));
        }
    });
}

/// Notches to the position that a screen reader sets, within the ends.
pub fn set_notches(
    ui: &Ui,
    widget: &Response,
    now: NutPosition,
    ends: Option<[NutPosition; 2]>,
) -> Option<i32> {
    use egui::accesskit::{Action, ActionData};
    let asked = ui.input(|input| {
        let asked = input.accesskit_action_requests(widget.id, Action::SetValue);
        asked.last().and_then(|request| request.data.clone())
    });
    let asked = match asked? {
        ActionData::NumericValue(value) => value,
        ActionData::Value(text) => text.trim().replace('−', "-").parse().ok()?,
        _ => return None,
    };
    let [least, most] = ends?;
    let asked = asked.round().clamp(f64::from(least.0), f64::from(most.0));
    Some(asked as i32 - now.0)
}

/// How many nuts to the right the keyboard is to go, by left and right.
pub fn keyed_beside(ui: &Ui, widget: &Response) -> Option<isize> {
    let by = widget.has_focus().then(|| {
        let keys = [(Key::ArrowRight, 1), (Key::ArrowLeft, -1)];
        presses(ui, &keys)
    })?;
    isize::try_from(by).ok().filter(|&by| by != 0)
}

/// Presses of keys, each worth so much.
fn presses(ui: &Ui, keys: &[(Key, i32)]) -> i32 {
    ui.input_mut(|input| {
        keys.iter()
            .map(|&(key, worth)| {
                let count = input.count_and_consume_key(Modifiers::NONE, key);
                worth * i32::try_from(count).unwrap_or(0)
            })
            .sum()
    })
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
