//! Lets gauges that type like a keyboard be as fast as they like.
//!
//! Such a gauge sends a reading and Enter within a millisecond, and perhaps
//! the next reading too, all in one frame. The keyboard moves to the next cell
//! between frames, so what follows the key that moves it waits for the next
//! frame.

use eframe::egui::{Event, Key};

/// Parts events after the first press of a key that moves on to another cell,
/// when something follows that would go astray: what to handle now, and what
/// to keep for the next frame.
pub fn part_after_step(events: Vec<Event>) -> (Vec<Event>, Vec<Event>) {
    let step = events.iter().position(|event| {
        matches!(
            event,
            Event::Key {
                key: Key::Enter | Key::Tab,
                pressed: true,
                ..
            }
        )
    });
    let Some(step) = step else {
        return (events, Vec::new());
    };
    let mut now = events;
    let later = now.split_off(step + 1);
    let matters = later.iter().any(|event| {
        matches!(
            event,
            Event::Text(_) | Event::Paste(_) | Event::Key { pressed: true, .. }
        )
    });
    if matters {
        (now, later)
    } else {
        now.extend(later);
        (now, Vec::new())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use eframe::egui::Modifiers;

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
}
