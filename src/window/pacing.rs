//! Lets gauges and quick hands be as fast as they like.
//!
//! A gauge that types like a keyboard sends a reading and Enter within a
//! millisecond, and perhaps the next reading too, all in one frame; a hand that
//! ticks by Tab and Space may be ahead of a slow display. The keyboard moves on
//! between frames, so what follows the key that moves it, presses what has it
//! or gives a command waits for the next frame: Space and Tab in one frame
//! would tick what comes after.

use eframe::egui::{Event, Key, Modifiers};

use crate::window::commands::{Shortcut, longest_first};

/// Whether a key does more than write into the field that has the keyboard.
fn acts(key: Key, modifiers: Modifiers) -> bool {
    let command = |(_, with, at): Shortcut| with.is_none() && at == key;
    matches!(key, Key::Enter | Key::Escape | Key::Space | Key::Tab)
        || modifiers.command
        || modifiers.alt
        || longest_first().any(command)
}

/// Parts events after the first press of a key that acts, when something
/// follows that would go astray: what to handle now, and what to keep for the
/// next frame. A key held down is not waited for, or it would go on after it is
/// let go.
pub fn part_after_step(events: Vec<Event>) -> (Vec<Event>, Vec<Event>) {
    let goes_astray = |after: Key, event: &Event| match event {
        Event::Key { pressed, .. } => *pressed,
        // The letter that a space types comes with its key.
        Event::Text(_) | Event::Paste(_) => after != Key::Space,
        _ => false,
    };
    let step = events
        .iter()
        .enumerate()
        .find_map(|(at, event)| match event {
            Event::Key {
                key,
                pressed: true,
                repeat: false,
                modifiers,
                ..
            } if acts(*key, *modifiers) => Some((at, *key)),
            _ => None,
        });
    let Some((step, key)) = step else {
        return (events, Vec::new());
    };
    let mut now = events;
    let later = now.split_off(step + 1);
    if later.iter().any(|event| goes_astray(key, event)) {
        (now, later)
    } else {
        now.extend(later);
        (now, Vec::new())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(key: Key, pressed: bool) -> Event {
        Event::Key {
            key,
            physical_key: None,
            pressed,
            repeat: false,
            modifiers: Modifiers::NONE,
        }
    }

    #[test]
    fn a_second_reading_waits_for_the_next_cell() {
        let text = |text: &str| Event::Text(text.to_owned());
        let events = vec![
            text("0.25"),
            key(Key::Enter, true),
            key(Key::Enter, false),
            text("0.26"),
        ];
        let (now, later) = part_after_step(events);
        assert_eq!(now, [text("0.25"), key(Key::Enter, true)]);
        assert_eq!(later, [key(Key::Enter, false), text("0.26")]);
        let events = vec![text("0.25"), key(Key::Enter, true), key(Key::Enter, false)];
        assert_eq!(part_after_step(events.clone()), (events, Vec::new()));
    }

    #[test]
    fn a_tick_is_made_before_the_keyboard_moves_on() {
        let events = vec![key(Key::Space, true), key(Key::Tab, true)];
        let (now, later) = part_after_step(events);
        assert_eq!(now, [key(Key::Space, true)]);
        assert_eq!(later, [key(Key::Tab, true)]);
        let typed = vec![key(Key::Space, true), Event::Text(" ".to_owned())];
        assert_eq!(part_after_step(typed.clone()), (typed, Vec::new()));
        let held = vec![
            Event::Key {
                key: Key::Tab,
                physical_key: None,
                pressed: true,
                repeat: true,
                modifiers: Modifiers::NONE,
            };
            3
        ];
        assert_eq!(part_after_step(held.clone()), (held, Vec::new()));
    }
}
