//! Readings by keyboard alone and by mouse alone, from the start of the
//! program on; nothing that has the keyboard is out of sight.

use eframe::egui::{self, Key, Modifiers, Rect, Role};
use egui_kittest::kittest::{NodeT, Queryable};
use jawtrue::session::Session;
use jawtrue::window::Preferences;
use jawtrue::words::Language;

#[path = "support/hand.rs"]
mod hand;

use hand::{Opening, Window, click_on, enter_at, open, press, push, type_at, type_text, unread};

const ENGLISH: Language = Language::English;
const NONE: Modifiers = Modifiers::NONE;

/// A window of a size, its zoom in the preferences, on a session of one's own.
fn on(folder: &tempfile::TempDir, session: &Session, size: [f32; 2]) -> Window {
    let mut harness = open(
        folder.path(),
        Opening {
            size,
            file: Some(hand::file_of(folder.path(), session)),
            ..Opening::default()
        },
    );
    hand::until_opened(&mut harness);
    harness
}

fn focused(harness: &Window) -> Option<(String, Rect)> {
    let all = harness.root();
    let found = all.children_recursive().find(|node| node.is_focused())?;
    let label = found.accesskit_node().label().unwrap_or_default();
    Some((label, found.rect()))
}

fn focus_label(harness: &Window) -> String {
    focused(harness).map_or_else(String::new, |(label, _)| label)
}

fn read(harness: &mut Window, text: &str) {
    type_text(harness, text);
    press(harness, NONE, Key::Enter);
}

/// The readings of the first pass.
fn cells(harness: &Window) -> String {
    hand::cells(harness.state().session(), 0)
}

#[test]
fn enter_in_the_last_cell_goes_on_and_nothing_sticks() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = on(&folder, &unread(), [1400.0, 900.0]);
    press(&mut harness, Modifiers::COMMAND, Key::R);
    for repeat in 0..4 {
        for arm in ["A", "B", "C", "D"] {
            let cell = ENGLISH.reading_label(repeat + 1, arm);
            assert_eq!(focus_label(&harness), cell);
            read(&mut harness, "0.2500");
        }
    }
    assert_eq!(focus_label(&harness), ENGLISH.reading_label(5, "A"));
    // Side by side is there at once, and stays.
    press(&mut harness, Modifiers::COMMAND, Key::B);
    harness.run_steps(5);
    assert!(harness.query_by_label_contains("Reading 1 at A").is_none());
    press(&mut harness, Modifiers::COMMAND, Key::B);
    press(&mut harness, Modifiers::COMMAND, Key::T);
    assert!(focus_label(&harness).starts_with("Castle nut A"));
}

#[test]
fn a_wish_that_cannot_be_granted_lapses() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = on(&folder, &unread(), [700.0, 450.0]);
    // Arm by arm hides grid, nuts and plan; asking for them holds nothing.
    press(&mut harness, NONE, Key::F2);
    for key in [Key::R, Key::T, Key::L] {
        press(&mut harness, Modifiers::COMMAND, key);
    }
    press(&mut harness, NONE, Key::Escape);
    press(&mut harness, Modifiers::COMMAND, Key::B);
    harness.run_steps(5);
    assert!(harness.query_by_label_contains("Reading 1 at A").is_none());
    assert!(harness.query_by_label_contains("Castle nut A").is_none());
}

#[test]
fn tab_and_escape_leave_the_grid() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = on(&folder, &unread(), [1400.0, 900.0]);
    press(&mut harness, Modifiers::COMMAND, Key::R);
    // Tab through every cell, and out to what stands beside the grid.
    for arm in ["A", "B", "C", "D"] {
        for repeat in 1..=2 {
            assert_eq!(focus_label(&harness), ENGLISH.reading_label(repeat, arm));
            press(&mut harness, NONE, Key::Tab);
        }
    }
    assert_eq!(focus_label(&harness), ENGLISH.keypad());
    press(&mut harness, Modifiers::SHIFT, Key::Tab);
    assert_eq!(focus_label(&harness), ENGLISH.reading_label(2, "D"));
    // Back out at the front.
    press(&mut harness, Modifiers::COMMAND, Key::R);
    assert_eq!(focus_label(&harness), ENGLISH.reading_label(1, "A"));
    press(&mut harness, Modifiers::SHIFT, Key::Tab);
    let before = focus_label(&harness);
    assert!(
        !before.is_empty() && !before.starts_with("Reading"),
        "{before}"
    );
    // Escape gives up what was typed, and the next one the grid.
    press(&mut harness, Modifiers::COMMAND, Key::R);
    type_text(&mut harness, "0.24");
    press(&mut harness, NONE, Key::Escape);
    assert_eq!(focus_label(&harness), ENGLISH.reading_label(1, "A"));
    assert_eq!(cells(&harness), " |  |  | ");
    press(&mut harness, NONE, Key::Escape);
    assert_eq!(focus_label(&harness), ENGLISH.keypad());
}

#[test]
fn a_cell_left_for_one_above_it_keeps_what_was_typed() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = on(&folder, &unread(), [1400.0, 900.0]);
    click_on(&mut harness, &ENGLISH.reading_label(1, "C"));
    type_text(&mut harness, "0.2490");
    click_on(&mut harness, &ENGLISH.reading_label(1, "A"));
    assert_eq!(cells(&harness), " |  | 0.2490 | ");
}

/// Sizes in points at which columns scroll: the least, it and the shop screen
/// at 150 %, and 1400x900 at 200 %.
const LOW: [[f32; 2]; 4] = [
    [1024.0, 640.0],
    [682.0, 426.0],
    [910.0, 453.0],
    [700.0, 450.0],
];

#[test]
fn what_has_the_keyboard_is_in_sight() {
    for size in LOW {
        let folder = tempfile::tempdir().unwrap();
        let mut harness = on(&folder, &unread(), size);
        let screen = Rect::from_min_size(egui::Pos2::ZERO, size.into());
        let in_sight = |harness: &Window, what: &str| {
            let id = harness.ctx.memory(|memory| memory.focused());
            let id = id.unwrap_or_else(|| panic!("{size:?} {what}: nothing has the keyboard"));
            let seen = harness.ctx.read_response(id).unwrap();
            assert!(
                seen.interact_rect.contains_rect(seen.rect.shrink(1.5))
                    && screen.contains_rect(seen.rect),
                "{size:?} {what}: {:?} of {:?}",
                seen.interact_rect,
                seen.rect
            );
        };
        press(&mut harness, Modifiers::COMMAND, Key::R);
        for arm in ["A", "B", "C", "D"] {
            in_sight(&harness, arm);
            let cell = ENGLISH.reading_label(1, arm);
            assert_eq!(focus_label(&harness), cell, "{size:?}");
            read(&mut harness, "0.2500");
        }
        // Round the whole window by Tab, the columns below the grid included.
        press(&mut harness, NONE, Key::Escape);
        for step in 0..60 {
            press(&mut harness, NONE, Key::Tab);
            if harness.ctx.memory(|memory| memory.focused()).is_some() {
                in_sight(&harness, &format!("Tab {step} {}", focus_label(&harness)));
            }
        }
        // A dialog that scrolls.
        press(&mut harness, Modifiers::COMMAND, Key::Comma);
        for step in 0..40 {
            press(&mut harness, NONE, Key::Tab);
            // A long form may take some frames to scroll.
            harness.run_steps(12);
            in_sight(
                &harness,
                &format!("properties {step} {}", focus_label(&harness)),
            );
        }
    }
}

/// Types a reading on the keypad.
fn tap(harness: &mut Window, reading: &str) {
    for figure in reading.chars() {
        match figure {
            '.' => push(harness, ENGLISH.keypad_point()),
            figure => push(harness, &figure.to_string()),
        }
    }
}

#[test]
fn a_whole_pass_is_read_with_the_mouse_alone() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = on(&folder, &unread(), [1400.0, 900.0]);
    push(&mut harness, ENGLISH.guided_button());
    let digit = harness.get_by_role_and_label(Role::Button, "7").rect();
    assert!(digit.width() >= 56.0 && digit.height() >= 56.0, "{digit:?}");
    let next = ENGLISH.keypad_next();
    for reading in ["0.2500", "0.2480"] {
        tap(&mut harness, reading);
        push(&mut harness, next);
    }
    // A slip is taken back, and the other unit is a key.
    tap(&mut harness, "6.39");
    push(&mut harness, ENGLISH.keypad_back());
    tap(&mut harness, "2");
    let mm = ENGLISH.keypad_unit("millimeter");
    push(&mut harness, &mm);
    push(&mut harness, next);
    tap(&mut harness, "0.2510");
    push(&mut harness, next);
    assert_eq!(cells(&harness), "0.2500 | 0.2480 | 6.32 mm | 0.2510");
}

#[test]
fn any_cell_takes_the_keypad() {
    for size in [[1400.0, 900.0], [700.0, 900.0]] {
        let folder = tempfile::tempdir().unwrap();
        let mut harness = on(&folder, &unread(), size);
        press(&mut harness, Modifiers::COMMAND, Key::R);
        push(&mut harness, ENGLISH.keypad());
        for reading in ["0.2500", "0.2480", "0.2490"] {
            tap(&mut harness, reading);
            push(&mut harness, ENGLISH.keypad_next());
        }
        tap(&mut harness, "0.2");
        // Nothing is noted key by key.
        assert_eq!(cells(&harness), "0.2500 | 0.2480 | 0.2490 | ");
        // A click elsewhere takes up what was typed; the cell chosen next gets
        // the keys, in place of what stands there.
        click_on(&mut harness, &ENGLISH.reading_label(1, "B"));
        assert_eq!(cells(&harness), "0.2500 | 0.2480 | 0.2490 | 0.2");
        tap(&mut harness, ".2485");
        push(&mut harness, ENGLISH.keypad_next());
        assert_eq!(cells(&harness), "0.2500 | .2485 | 0.2490 | 0.2");
        press(&mut harness, Modifiers::COMMAND, Key::Z);
        assert_eq!(cells(&harness), "0.2500 | 0.2480 | 0.2490 | 0.2");
    }
}

#[test]
fn a_finger_on_a_cell_brings_the_keypad() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = on(&folder, &unread(), [1400.0, 900.0]);
    assert!(harness.query_by_role_and_label(Role::Button, "7").is_none());
    let cell = ENGLISH.reading_label(1, "A");
    let at = harness.get_by_label(&cell).rect().center();
    let touch = |phase| egui::Event::Touch {
        device_id: egui::TouchDeviceId(1),
        id: egui::TouchId(1),
        phase,
        pos: at,
        force: None,
    };
    let pointer = |pressed| egui::Event::PointerButton {
        pos: at,
        button: egui::PointerButton::Primary,
        pressed,
        modifiers: NONE,
    };
    harness.event(touch(egui::TouchPhase::Start));
    harness.event(egui::Event::PointerMoved(at));
    harness.event(pointer(true));
    harness.run_steps(2);
    harness.event(touch(egui::TouchPhase::End));
    harness.event(pointer(false));
    harness.run_steps(3);
    tap(&mut harness, "0.2500");
    push(&mut harness, ENGLISH.keypad_next());
    assert_eq!(cells(&harness), "0.2500 |  |  | ");
}

#[test]
fn arrows_move_along_the_nuts_and_turn_them() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = open(folder.path(), Opening::default());
    hand::settle(&mut harness, ENGLISH);
    click_on(&mut harness, "leave as is: spread");
    press(&mut harness, Modifiers::COMMAND, Key::T);
    press(&mut harness, NONE, Key::ArrowRight);
    assert_eq!(focus_label(&harness), "Castle nut B: leave, stays at -4");
    press(&mut harness, NONE, Key::ArrowRight);
    press(&mut harness, NONE, Key::ArrowUp);
    press(&mut harness, NONE, Key::Plus);
    assert!(focus_label(&harness).starts_with("Castle nut C: OUT 2 notches"));
    press(&mut harness, NONE, Key::Minus);
    press(&mut harness, NONE, Key::ArrowDown);
    press(&mut harness, NONE, Key::ArrowDown);
    assert!(focus_label(&harness).starts_with("Castle nut C: IN 1 notch"));
    // The row ends at its ends.
    for _ in 0..5 {
        press(&mut harness, NONE, Key::ArrowLeft);
    }
    assert!(focus_label(&harness).starts_with("Castle nut A: leave"));
}

#[test]
fn a_nut_is_dragged_around_its_centre() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = open(folder.path(), Opening::default());
    hand::settle(&mut harness, ENGLISH);
    click_on(&mut harness, "leave as is: spread");
    let plate = harness.get_by_label_contains("Castle nut B").rect();
    let centre = egui::pos2(plate.center().x, plate.top() + 32.0);
    // From the top of the rim against the clock to the bottom: half a turn,
    // three notches of 60 degrees, out.
    let rim = |degrees: f32| centre + 20.0 * egui::Vec2::angled(-degrees.to_radians());
    harness.drag_at(rim(90.0));
    harness.run_steps(2);
    for degrees in (95..=285).step_by(5) {
        harness.hover_at(rim(degrees as f32));
        harness.run_steps(1);
    }
    harness.drop_at(rim(285.0));
    harness.run_steps(3);
    harness.get_by_label_contains("Castle nut B: OUT 3 notches");
}

#[test]
fn the_first_start_shows_an_example_and_the_way_to_ones_own_press() {
    for words in Language::ALL {
        let folder = tempfile::tempdir().unwrap();
        let preferences = format!("(look: \"light\", language: \"{}\")", words.code());
        let mut harness = open(
            folder.path(),
            Opening {
                preferences: &preferences,
                ..Opening::default()
            },
        );
        harness.get_by_label(words.example_strip());
        let start = words.start_own();
        hand::settle(&mut harness, words);
        harness.get_by_label(words.go_and_turn_all_the_same());
        push(&mut harness, start);
        harness.get_by_label(words.start_needs_length());
        press(&mut harness, NONE, Key::Escape);
        // Somebody who tries it goes on with it, and it still says what it is.
        press(&mut harness, Modifiers::COMMAND, Key::T);
        press(&mut harness, NONE, Key::ArrowUp);
        assert!(harness.query_by_label(start).is_none());
        harness.get_by_label(words.example_strip());
    }
}

#[test]
fn an_example_follows_the_language_until_somebody_works_in_it() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = open(folder.path(), Opening::default());
    let name = |harness: &Window| harness.state().session().press.name.clone();
    assert_eq!(name(&harness), "Press 2, Elm Row shop (invented)");
    push(&mut harness, Language::Spanish.own_name());
    assert_eq!(name(&harness), "Prensa 2, taller Elm Row (inventado)");
    push(&mut harness, ENGLISH.own_name());
    assert_eq!(name(&harness), "Press 2, Elm Row shop (invented)");
    enter_at(&mut harness, "Reading 1 at B", "0.2460");
    push(&mut harness, Language::Spanish.own_name());
    assert_eq!(name(&harness), "Press 2, Elm Row shop (invented)");
}

#[test]
fn later_starts_offer_the_last_session_new_open_and_an_example() {
    let folder = tempfile::tempdir().unwrap();
    let session = unread();
    drop(on(&folder, &session, [1400.0, 900.0]));
    let kept = Preferences::load(folder.path()).fields;
    assert_eq!(kept.recent.len(), 1);
    let mut harness = open(folder.path(), Opening::default());
    for label in [
        ENGLISH.command_new(),
        ENGLISH.command_open(),
        ENGLISH.look_at_example(),
    ] {
        harness.get_by_role_and_label(Role::Button, label);
    }
    // The last session has the keyboard.
    assert_eq!(
        focus_label(&harness),
        ENGLISH.go_on_with(&session.press.name)
    );
    press(&mut harness, NONE, Key::Enter);
    hand::until_opened(&mut harness);
    assert_eq!(harness.state().session(), &session);
    assert!(harness.query_by_label(ENGLISH.example_strip()).is_none());
}

/// Counts what a hand does.
struct Hand {
    harness: Window,
    keys: usize,
    clicks: usize,
}

impl Hand {
    fn click(&mut self, label: &str) {
        self.clicks += 1;
        let button = self.harness.get_by_role_and_label(Role::Button, label);
        button.click();
        self.harness.run_steps(4);
    }

    fn types(&mut self, text: &str) {
        for figure in text.chars() {
            self.keys += 1;
            type_text(&mut self.harness, &figure.to_string());
        }
    }

    fn press(&mut self, key: Key) {
        self.keys += 1;
        press(&mut self.harness, NONE, key);
    }
}

#[test]
fn from_the_start_to_the_plan_in_fifty_keys_and_two_clicks() {
    let folder = tempfile::tempdir().unwrap();
    let mut hand = Hand {
        harness: open(folder.path(), Opening::default()),
        keys: 0,
        clicks: 0,
    };
    hand.click(ENGLISH.start_own());
    // No name; a jaw of 60, five arms, the first at 6, then every 12.
    hand.press(Key::Tab);
    for (text, key) in [
        ("60", Key::Tab),
        ("5", Key::Tab),
        ("6", Key::Tab),
        ("12", Key::Enter),
    ] {
        hand.types(text);
        hand.press(key);
    }
    // A visit begins with making safe; a piece that is laced already is read at
    // once.
    hand.clicks += 1;
    let measure = hand
        .harness
        .get_by_role_and_label(Role::Tab, "Measure: to do");
    measure.click();
    hand.harness.run_steps(4);
    assert_eq!(focus_label(&hand.harness), ENGLISH.reading_label(1, "A"));
    for reading in ["0.2500", "0.2450", "0.2505", "0.2500", "0.2520"] {
        hand.types(reading);
        hand.press(Key::Enter);
    }
    // The pass is one of them.
    hand::until(&mut hand.harness, "a plan", |harness| {
        harness.query_all_by_role(Role::RadioButton).count() > 1
    });
    let session = hand.harness.state().session();
    assert_eq!(session.press.arms.len(), 5);
    assert_eq!(session.passes.len(), 1);
    assert!(hand.keys <= 50, "{} keys", hand.keys);
    assert!(hand.clicks <= 2, "{} clicks", hand.clicks);
}

#[test]
fn whoever_comes_to_measure_by_keys_has_the_first_cell() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = open(folder.path(), Opening::default());
    press(&mut harness, Modifiers::COMMAND, Key::N);
    type_text(&mut harness, "Press 9");
    press(&mut harness, NONE, Key::Tab);
    type_text(&mut harness, "48");
    press(&mut harness, NONE, Key::Enter);
    // Before that the name of whoever makes safe is asked.
    assert_eq!(focus_label(&harness), ENGLISH.field_who());
    for _ in 0..5 {
        press(&mut harness, Modifiers::COMMAND, Key::PageDown);
    }
    assert_eq!(focus_label(&harness), ENGLISH.reading_label(1, "A"));
}

#[test]
fn the_first_reading_opens_the_first_pass_arm_by_arm_too() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = open(folder.path(), Opening::default());
    press(&mut harness, Modifiers::COMMAND, Key::N);
    enter_at(&mut harness, ENGLISH.field_jaw_length(), "48");
    assert!(harness.state().session().passes.is_empty());
    // A cell left as it was opens nothing.
    press(&mut harness, NONE, Key::Enter);
    assert!(harness.state().session().passes.is_empty());
    press(&mut harness, NONE, Key::F2);
    tap(&mut harness, "0.25");
    push(&mut harness, ENGLISH.keypad_next());
    read(&mut harness, "0.2510");
    assert_eq!(cells(&harness), "0.25 | 0.2510 |  | ");
    // One step back at a time, and the last takes the pass with it.
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert!(harness.state().session().passes.is_empty());
}

#[test]
fn a_click_beside_the_dialog_throws_nothing_away() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = open(folder.path(), Opening::default());
    let beside = |harness: &mut Window| {
        let at = egui::pos2(6.0, 450.0);
        harness.hover_at(at);
        harness.run_steps(1);
        for pressed in [true, false] {
            harness.event(egui::Event::PointerButton {
                pos: at,
                button: egui::PointerButton::Primary,
                pressed,
                modifiers: NONE,
            });
            harness.run_steps(2);
        }
    };
    press(&mut harness, Modifiers::COMMAND, Key::N);
    type_at(&mut harness, ENGLISH.field_jaw_length(), "48");
    beside(&mut harness);
    let length = harness.get_by_role_and_label(Role::TextInput, ENGLISH.field_jaw_length());
    assert_eq!(length.value().as_deref(), Some("48"));
    press(&mut harness, NONE, Key::Escape);
    assert!(harness.query_by_label(ENGLISH.start_session()).is_none());
    // What only tells goes with a click beside it.
    press(&mut harness, NONE, Key::F1);
    beside(&mut harness);
    assert!(harness.query_by_label(ENGLISH.shortcuts()).is_none());
}
