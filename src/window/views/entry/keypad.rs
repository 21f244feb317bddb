//! Large keys for readings, where there is no keyboard or hands are in
//! gloves.

use crate::window::state::Keypad;
use eframe::egui::{self, Align2, Button, RichText, Role, Ui, Vec2, WidgetInfo};

use crate::units::Unit;
use crate::window::theme::{self, size};
use crate::words::Language;

use crate::window::views::Scene;

/// Side of a key, least and most, in points.
pub const KEY: (f32, f32) = (56.0, 84.0);

/// Distance between keys.
const KEY_GAP: f32 = 4.0;

/// Keys in a row.
const COLUMNS: f32 = 4.0;

/// Width of all keys, at least.
pub const WIDTH: f32 = COLUMNS * KEY.0 + (COLUMNS - 1.0) * KEY_GAP;

/// A key.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Key {
    /// A digit, 0 to 9.
    Digit(u8),
    /// The decimal mark.
    Point,
    /// The unit the reading is in.
    Unit(Unit),
    /// Deletes the last figure, or the unit.
    Back,
    /// Takes the reading and goes on.
    Next,
}

/// What the key of the decimal mark types.
const POINT: &str = ".";

/// The keys, row by row; the last one is twice as wide.
const KEYS: [&[Key]; 4] = [
    &[Key::Digit(7), Key::Digit(8), Key::Digit(9), Key::Back],
    &[
        Key::Digit(4),
        Key::Digit(5),
        Key::Digit(6),
        Key::Unit(Unit::Inch),
    ],
    &[
        Key::Digit(1),
        Key::Digit(2),
        Key::Digit(3),
        Key::Unit(Unit::Millimetre),
    ],
    &[Key::Digit(0), Key::Point, Key::Next],
];

/// Height of all keys, each so high.
pub fn height(key: f32) -> f32 {
    KEYS.len() as f32 * (key + KEY_GAP)
}

/// Draws the keys, so high, the last one with the station it goes on to;
/// answers the one that was pressed.
pub fn show(ui: &mut Ui, scene: &Scene<'_>, high: f32, next: Option<usize>) -> Option<Key> {
    let words = scene.words();
    let next = next.map(|station| scene.session.station_name(station));
    // The name of a station between arms has no room there.
    let next = next.filter(|name| name.chars().count() <= 2);
    let face = |key| match (key, &next) {
        (Key::Next, Some(name)) => words.keypad_next_to(name),
        _ => face(key, words),
    };
    let room = ui.available_width() - (COLUMNS - 1.0) * KEY_GAP;
    let side = (room / COLUMNS).clamp(KEY.0, KEY.1.max(high));
    let mut pressed = None;
    ui.spacing_mut().item_spacing = Vec2::splat(KEY_GAP);
    for row in KEYS {
        ui.horizontal(|ui| {
            for &key in row {
                let width = if key == Key::Next {
                    2.0 * side + KEY_GAP
                } else {
                    side
                };
                let letters = match key {
                    Key::Unit(_) => size::BODY,
                    _ => size::SENTENCE,
                };
                let ink = match key {
                    Key::Next => scene.palette.on_present,
                    _ => scene.palette.ink,
                };
                let text = RichText::new(face(key)).font(theme::bold(letters));
                let mut button = match key {
                    // It says in what this reading is, and changes no setting.
                    Key::Unit(_) => Button::new(""),
                    _ => Button::new(text.color(ink)),
                };
                if key == Key::Next {
                    button = button.fill(scene.palette.present);
                }
                let button = ui.add_sized([width, high], button);
                if let Key::Unit(_) = key {
                    let lines = [
                        (
                            -0.55,
                            words.keypad_as().to_owned(),
                            theme::regular(size::LEAST),
                        ),
                        (0.55, face(key), theme::bold(letters)),
                    ];
                    for (below, line, font) in lines {
                        let at = button.rect.center() + Vec2::new(0.0, below * letters);
                        ui.painter()
                            .text(at, Align2::CENTER_CENTER, line, font, ink);
                    }
                }
                let name = name(key, words);
                button.widget_info(|| WidgetInfo::labeled(Role::Button, true, &name));
                if button.clicked() {
                    pressed = Some(key);
                }
            }
        });
    }
    pressed
}

fn face(key: Key, words: Language) -> String {
    match key {
        Key::Digit(digit) => digit.to_string(),
        Key::Point => POINT.to_owned(),
        Key::Unit(unit) => words.unit_short(unit).to_owned(),
        Key::Back => "←".to_owned(),
        Key::Next => words.keypad_next().to_owned(),
    }
}

/// A key's name for screen readers.
fn name(key: Key, words: Language) -> String {
    match key {
        Key::Point => words.keypad_point().to_owned(),
        Key::Back => words.keypad_back().to_owned(),
        Key::Unit(unit) => words.keypad_unit(words.unit_name(unit)),
        Key::Digit(_) | Key::Next => face(key, words),
    }
}

/// The text after a key. In a cell that was only just entered (`fresh`) a
/// figure takes the place of what stands there, as it does when typed.
pub fn after(text: &str, key: Key, fresh: bool) -> String {
    let (figures, unit) = parted(text);
    let with_unit = |figures: String, unit: &str| match (figures.as_str(), unit) {
        ("", _) | (_, "") => figures,
        (figures, unit) => format!("{figures} {unit}"),
    };
    let (kept, of) = if fresh { ("", "") } else { (figures, unit) };
    match key {
        Key::Digit(digit) => with_unit(format!("{kept}{digit}"), of),
        Key::Point if kept.contains(['.', ',']) => text.to_owned(),
        Key::Point => with_unit(format!("{kept}{POINT}"), of),
        Key::Unit(unit) => with_unit(figures.to_owned(), unit.mark()),
        Key::Back if !unit.is_empty() => figures.to_owned(),
        Key::Back => {
            let mut rest = figures.to_owned();
            rest.pop();
            rest
        }
        Key::Next => text.to_owned(),
    }
}

/// Figures and unit of what is typed so far.
fn parted(text: &str) -> (&str, &str) {
    let text = text.trim();
    [Unit::Inch, Unit::Millimetre]
        .iter()
        .find_map(|unit| Some((text.strip_suffix(unit.mark())?.trim_end(), unit.mark())))
        .unwrap_or((text, ""))
}

/// Whether a pointer was pressed or let go on the keypad in this frame.
pub fn is_pressed(ui: &Ui, keypad: Keypad) -> bool {
    let on_it = |input: &egui::InputState| {
        let at = input.pointer.interact_pos();
        (input.pointer.any_pressed() || input.pointer.any_released())
            && keypad
                .place
                .zip(at)
                .is_some_and(|(place, at)| place.contains(at))
    };
    keypad.open && ui.input(on_it)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_make_readings() {
        let typed = |start: &str, keys: &[Key]| {
            keys.iter()
                .enumerate()
                .fold(start.to_owned(), |text, (n, key)| {
                    after(&text, *key, n == 0)
                })
        };
        let inch = Key::Unit(Unit::Inch);
        let mm = Key::Unit(Unit::Millimetre);
        use Key::{Back, Digit, Point};
        // What stood there gives way to the first figure, not to a unit.
        assert_eq!(typed("0.2500", &[Digit(6), Point, Digit(2)]), "6.2");
        assert_eq!(typed("6.29", &[mm]), "6.29 mm");
        assert_eq!(typed("6.29 mm", &[inch]), "6.29 in");
        assert_eq!(typed("6.29 mm", &[Back, Back]), "6.2");
        assert_eq!(typed("", &[Point, Point, Digit(2), Back, Back, Back]), "");
        assert_eq!(typed("", &[mm]), "");
        assert_eq!(typed("1", &[Point, Digit(5), mm, Digit(0)]), ".50 mm");
        assert_eq!(after("0", Point, false), "0.");
    }
}
