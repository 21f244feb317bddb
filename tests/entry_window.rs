//! Readings arm by arm, over a serial port and from files, the window driven
//! by label and by keyboard.

use eframe::egui::{self, Key, Modifiers, Role};
use egui_kittest::kittest::{NodeT, Queryable};
use jawtrue::session::Session;
use jawtrue::splice::{Cell, Walk};
use jawtrue::store;
use jawtrue::window::Preferences;
use jawtrue::words::Language;

#[path = "support/hand.rs"]
mod hand;

use hand::{Opening, Window, cells as cells_of, file_of, open, unread};

/// A window on the sample with nothing read yet.
struct Shop {
    harness: Window,
    folder: tempfile::TempDir,
}

impl Shop {
    fn with(session: &Session) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let file = Some(file_of(folder.path(), session));
        let opening = Opening {
            file,
            ..Opening::default()
        };
        let mut harness = open(folder.path(), opening);
        hand::until_opened(&mut harness);
        Self { harness, folder }
    }

    fn session(&self) -> &Session {
        self.harness.state().session()
    }

    fn step(&mut self) {
        self.harness.run_steps(4);
    }

    /// Draws until the session is so, for some seconds at most.
    fn until(&mut self, so: impl Fn(&Session) -> bool) {
        hand::until(&mut self.harness, "the session", |harness| {
            so(harness.state().session())
        });
    }

    /// Draws until something with this label is there.
    fn until_shown(&mut self, label: &str) {
        hand::until(&mut self.harness, label, |harness| {
            hand::says(harness, label)
        });
    }

    fn press(&mut self, modifiers: Modifiers, key: Key) {
        hand::press(&mut self.harness, modifiers, key);
    }

    /// Clicks the last button of this name: the grid has some of the same.
    fn click(&mut self, label: &str) {
        let find = |harness: &Window, act: fn(&egui_kittest::Node<'_>)| {
            // One of several choices is a button to the eye.
            let buttons = harness.query_all_by_role_and_label(Role::Button, label);
            let choices = harness.query_all_by_role_and_label(Role::RadioButton, label);
            let found = buttons.chain(choices);
            act(&found.last().unwrap_or_else(|| panic!("no button {label}")));
        };
        find(&self.harness, |node| node.scroll_to_me());
        self.step();
        find(&self.harness, |node| node.click());
        self.step();
    }

    fn type_text(&mut self, text: &str) {
        hand::type_text(&mut self.harness, text);
        self.step();
    }

    fn read(&mut self, text: &str) {
        self.type_text(text);
        self.press(Modifiers::NONE, Key::Enter);
    }

    fn shows(&self, label: &str) {
        hand::shows(&self.harness, label);
    }

    fn hides(&self, label: &str) {
        hand::hides(&self.harness, label);
    }
}

/// The cells of the first pass.
fn cells(session: &Session) -> String {
    cells_of(session, 0)
}

#[test]
fn arm_by_arm_by_keyboard_alone() {
    let mut shop = Shop::with(&unread());
    shop.press(Modifiers::NONE, Key::F2);
    shop.shows("Arm by arm: pass 1");
    shop.shows("reading 1  ·  4 left  ·  then B, C, D");
    shop.read("0.2500");
    shop.shows("Last: 0.2500″ at A, reading 1");
    shop.shows("reading 1  ·  3 left  ·  then C, D");
    // Skip, and back again.
    shop.press(Modifiers::NONE, Key::ArrowDown);
    shop.shows("2 left");
    shop.read("0.2510");
    shop.read("1/4");
    assert_eq!(cells(shop.session()), "0.2500 |  | 0.2510 | 1/4");
    shop.shows("The round is over. Not measured: B.");
    shop.click("Measure what was skipped");
    shop.read(".2480");
    assert_eq!(cells(shop.session()), "0.2500 | .2480 | 0.2510 | 1/4");
    shop.shows("All arms are read.");
    // Back to the last, read it anew.
    shop.press(Modifiers::NONE, Key::ArrowUp);
    shop.shows("Already here: 0.2500″.");
    shop.read("0.2505");
    assert_eq!(cells(shop.session()), "0.2500 | .2480 | 0.2510 | 0.2505");
    // Undo takes readings back one by one and goes back with them.
    shop.press(Modifiers::COMMAND, Key::Z);
    shop.press(Modifiers::COMMAND, Key::Z);
    assert_eq!(cells(shop.session()), "0.2500 |  | 0.2510 | 1/4");
    shop.shows("Reading 1 at B, arm by arm");
    shop.press(Modifiers::NONE, Key::Escape);
    shop.hides("Arm by arm: pass 1");
}

#[test]
fn every_reading_is_kept_as_a_repeat_and_rounds_go_on() {
    let mut shop = Shop::with(&unread());
    shop.click("Arm by arm");
    shop.click("More rounds");
    shop.shows("2 rounds");
    for reading in ["1", "2", "3", "4", "5", "6", "7", "8"] {
        shop.read(&format!("0.250{reading}"));
    }
    assert_eq!(
        cells(shop.session()),
        "0.2501 0.2505 | 0.2502 0.2506 | 0.2503 0.2507 | 0.2504 0.2508"
    );
    // A reading for which no arm is due is named, not lost in silence.
    shop.read("0.2511");
    shop.shows("0.2511 was not noted: no arm is next.");
    // There is no field it could belong to, and the verdict stands there.
    let fields = shop.harness.query_all_by_role(Role::TextInput);
    let names = fields.filter_map(|field| field.accesskit_node().label());
    let strange: Vec<String> = names.filter(|name| !name.contains(" at ")).collect();
    assert!(strange.is_empty(), "{strange:?}");
    shop.shows("✓  inside");
    shop.click("One more round");
    shop.press(Modifiers::NONE, Key::Enter);
    shop.until(|session| session.passes[0].rows[0].len() == 3);
    shop.press(Modifiers::NONE, Key::Escape);
    // Started again it goes on where it stopped.
    shop.press(Modifiers::NONE, Key::F2);
    shop.shows("Reading 3 at B, arm by arm");
}

#[test]
fn there_and_back_shows_the_drift_and_cancels_it() {
    let mut shop = Shop::with(&unread());
    shop.press(Modifiers::NONE, Key::F2);
    shop.click("There and back");
    assert_eq!(shop.session().passes[0].walk, Walk::ThereAndBack);
    shop.shows("once there and back");
    // Level, and creeping up by two thousandths a reading.
    for reading in 0..8 {
        shop.read(&format!("0.{}", 2500 + 20 * reading));
    }
    assert_eq!(
        cells(shop.session()),
        "0.2500 0.2640 | 0.2520 0.2620 | 0.2540 0.2600 | 0.2560 0.2580"
    );
    shop.shows("The readings drifted up by 0.014");
    shop.shows("Measuring there and back has canceled it.");
    let spread = shop.session().spread_of(0).unwrap();
    assert_eq!(spread.value.nm_f64(), 0.0);
}

#[test]
fn odd_readings_are_asked_about_and_what_is_none_is_refused() {
    let mut shop = Shop::with(&unread());
    shop.press(Modifiers::NONE, Key::F2);
    shop.click("More rounds");
    shop.read("0.2500");
    shop.read("2.490");
    let doubt = "B, reading 1: 2.490″ can't be right here. It looks like 0.2490″.";
    shop.shows(doubt);
    shop.click("It is right: keep it");
    shop.hides(doubt);
    shop.read("0.2505");
    shop.read("6.35");
    let doubt = "D, reading 1: 6.35″ can't be right here. It looks like 6.35 mm.";
    shop.shows(doubt);
    shop.click("Change it to 6.35 mm");
    shop.hides(doubt);
    shop.read("thick");
    shop.shows("Reading 2 at A: must be a length such as 0.2475; “thick” is not");
    // What is typed next takes its place.
    shop.read("01A+0.2510");
    assert_eq!(
        cells(shop.session()),
        "0.2500 0.2510 | 2.490 | 0.2505 | 6.35 mm"
    );
    // No slip explains it.
    shop.read("0.4510");
    shop.click("Measure B again");
    shop.read("0.2510");
    assert_eq!(
        cells(shop.session()),
        "0.2500 0.2510 | 2.490 0.2510 | 0.2505 | 6.35 mm"
    );
    shop.press(Modifiers::NONE, Key::Enter);
    shop.shows("Type the reading at C, or skip it.");
}

#[test]
fn a_gauge_that_types_faster_than_frames() {
    let mut shop = Shop::with(&unread());
    shop.press(Modifiers::NONE, Key::F2);
    for reading in ["0.2501", "0.2502", "0.2503", "0.2504"] {
        shop.harness.event(egui::Event::Text(reading.to_owned()));
        shop.harness.key_press(Key::Enter);
    }
    for _ in 0..10 {
        shop.step();
    }
    assert_eq!(cells(shop.session()), "0.2501 | 0.2502 | 0.2503 | 0.2504");
    assert!(!matches!(
        shop.session().passes[0].cell(0, 1),
        Cell::Reading(_)
    ));
}

#[test]
fn it_speaks_spanish_and_rests_while_nothing_happens() {
    let mut shop = Shop::with(&unread());
    shop.click("Español");
    shop.press(Modifiers::NONE, Key::F2);
    shop.click("De ida y vuelta");
    shop.shows("desde la izquierda del operador");
    shop.read("0,2500");
    shop.shows("lectura 1  ·  faltan 7  ·  luego C, D, D");
    shop.shows("Última: 0.2500″ en A, lectura 1");
    assert_eq!(cells(shop.session()), "0,2500 |  |  | ");
    // Nothing is drawn again of itself.
    assert!(shop.harness.run_ok().is_some());
    shop.press(Modifiers::COMMAND, Key::I);
    shop.shows("Importar lecturas");
}

/// Opens the dialog and pastes into it.
fn paste_in_dialog(shop: &mut Shop, text: &str) {
    shop.press(Modifiers::COMMAND, Key::I);
    let field = Language::English.import_paste();
    hand::focus(&mut shop.harness, Role::MultilineTextInput, field);
    shop.harness.event(egui::Event::Paste(text.to_owned()));
    shop.step();
}

#[test]
fn pasted_rows_are_imported_and_one_undo_takes_them_back() {
    let session = unread();
    let mut shop = Shop::with(&session);
    let text = "A,B,C,D\n0.2500,0.2480,0.2490,0.2510\n0.2505,,0.2490,0.2510\n";
    paste_in_dialog(&mut shop, text);
    shop.shows("Column 3: C");
    shop.shows("Understood: 7 readings");
    shop.click("Import them");
    let imported = "0.2500 0.2505 | 0.2480 | 0.2490 0.2490 | 0.2510 0.2510";
    assert_eq!(cells(shop.session()), imported);
    assert_eq!(shop.session().passes.len(), 1);
    shop.press(Modifiers::COMMAND, Key::Z);
    assert_eq!(shop.session(), &session);
    shop.press(Modifiers::COMMAND, Key::Y);

    // Again into a new pass: that too is one step.
    let before = shop.session().clone();
    paste_in_dialog(&mut shop, "arm,reading,unit\nA,6.35,mm\nC,0.2490,in\n");
    shop.shows("Understood: 2 readings");
    shop.shows("No reading for B, D.");
    // Nobody but the user knows whether nuts were turned before.
    let import = |shop: &Shop| {
        let import = "Import without B, D";
        let import = shop.harness.get_by_role_and_label(Role::Button, import);
        !import.accesskit_node().is_disabled()
    };
    assert!(!import(&shop));
    let new_pass = shop.harness.query_all_by_role(Role::RadioButton);
    let new_pass = new_pass.filter_map(|node| node.accesskit_node().label());
    let new_pass: Vec<String> = new_pass
        .filter(|label| label.contains("nothing turned before it"))
        .collect();
    shop.click(&new_pass[0]);
    assert!(import(&shop));
    shop.click("Import without B, D");
    assert_eq!(shop.session().passes.len(), 2);
    assert_eq!(cells_of(shop.session(), 1), "6.35 mm |  | 0.2490 | ");
    shop.press(Modifiers::COMMAND, Key::Z);
    assert_eq!(shop.session(), &before);

    // After the readings that are there, and in their place.
    paste_in_dialog(&mut shop, "arm,reading\nB,0.2485\n");
    shop.click("pass 1, after its readings");
    shop.click("Import them");
    assert_eq!(
        cells(shop.session()),
        "0.2500 0.2505 | 0.2480 - 0.2485 | 0.2490 0.2490 | 0.2510 0.2510"
    );
    paste_in_dialog(&mut shop, "A,B,C,D\n.251,.252,.253,.254\n");
    shop.click("pass 1, in place of its 8 readings; Undo brings them back");
    shop.shows("Pass 1: its 8 readings are taken out.");
    shop.click("Replace 8 readings");
    assert_eq!(cells(shop.session()), ".251 | .252 | .253 | .254");
}

/// The same digits in the wrong unit are 25 times off what was read before: said,
/// with the unit to choose, and not as understood.
#[test]
fn the_other_unit_is_doubted_before_it_is_imported() {
    let mut shop = Shop::with(&unread());
    paste_in_dialog(&mut shop, "A 6.35\nB 6.30");
    shop.shows("✓ Understood: 2 readings");
    shop.press(Modifiers::NONE, Key::Escape);
    paste_in_dialog(&mut shop, "A 0.2500\nB 0.2480\nC 0.2490\nD 0.2510");
    shop.click("Import them");
    paste_in_dialog(&mut shop, "A 6.35\nB 6.30");
    shop.shows("⚠ These look like millimeters, not inches.");
    shop.shows("⚠ Understood: 2 readings");
    // Nothing is taken until the unit is settled: that is the one act.
    shop.hides("Import them");
    shop.hides("pass 1, after its readings");
    shop.click("Read them as millimeters");
    assert_eq!(cells(shop.session()), "0.2500 | 0.2480 | 0.2490 | 0.2510");
    shop.shows("✓ Understood: 2 readings");
    // What is replaced is shown, at the arm that gets none too.
    shop.hides("taken out");
    shop.click("pass 1, in place of its 4 readings; Undo brings them back");
    shop.shows("taken out");
    shop.shows("0.2510″");
    // The button says what is lost by it.
    shop.shows("No reading for C, D.");
    shop.shows("Replace 4, none for C, D");
    shop.press(Modifiers::NONE, Key::Escape);
    // One of them alone is no matter of the unit of all.
    paste_in_dialog(&mut shop, "A 0.2500\nB 2.480");
    shop.shows("⚠ B, reading 1: 2.480″ can't be right here. It looks like 0.2480″.");
}

#[test]
fn lines_as_people_write_them_are_shown_as_understood_and_imported() {
    let mut shop = Shop::with(&unread());
    paste_in_dialog(&mut shop, "A 0.2500 0.2505\nB 0.2480\nC 0.2490\nD 0.2510");
    shop.shows("Understood: 5 readings");
    shop.shows("0.2505″");
    shop.click("Import them");
    assert_eq!(
        cells(shop.session()),
        "0.2500 0.2505 | 0.2480 | 0.2490 | 0.2510"
    );
    paste_in_dialog(&mut shop, "A 0.2500\nF 0.2480");
    shop.shows("Line 2, column 1: this press has no arm or measuring point “F”.");
}

#[test]
fn wrong_places_are_told_and_nothing_is_imported() {
    let session = unread();
    let mut shop = Shop::with(&session);
    paste_in_dialog(
        &mut shop,
        "arm,reading,unit\nA,0.25,in\nB,thick,in\nE,0.25,in\n",
    );
    shop.shows("Nothing can be imported yet:");
    shop.shows("Line 3, column 2 (reading): must be a length");
    shop.shows("Line 4, column 1 (arm): this press has no arm or measuring point “E”.");
    let import = "Import them";
    let import = shop.harness.get_by_role_and_label(Role::Button, import);
    assert!(import.accesskit_node().is_disabled());
    shop.press(Modifiers::NONE, Key::Escape);
    assert_eq!(shop.session(), &session);
    // Garbage.
    let garbage: String = (0..3_000_u32)
        .filter_map(|n| char::from_u32(33 + n * n % 94))
        .collect();
    paste_in_dialog(&mut shop, &garbage);
    shop.shows("Nothing can be imported yet:");
}

#[test]
fn columns_are_named_by_hand() {
    let mut shop = Shop::with(&unread());
    paste_in_dialog(&mut shop, "20 deg;0.2500;A\n21 deg;6.35 mm;B\n");
    shop.shows("The readings could not be told apart.");
    shop.shows("Or say what each column holds:");
    let name = |shop: &mut Shop, column: &str, role: &str| {
        shop.click(column);
        shop.click(role);
    };
    name(&mut shop, "Column 2: left out", "reading");
    name(&mut shop, "Column 3: left out", "arm");
    shop.shows("Understood: 2 readings");
    shop.click("Import without C, D");
    assert_eq!(cells(shop.session()), "0.2500 | 6.35 mm |  | ");
}

#[test]
fn a_file_is_chosen_by_its_path() {
    let mut shop = Shop::with(&unread());
    let file = shop.folder.path().join("r.csv");
    let path = file.display().to_string();
    let choose = |shop: &mut Shop| {
        shop.press(Modifiers::COMMAND, Key::I);
        shop.click(Language::English.import_choose());
        shop.until_shown("Name");
        hand::enter_at(&mut shop.harness, "Name", &path);
    };
    choose(&mut shop);
    shop.until_shown("There is no such file or folder.");
    shop.press(Modifiers::NONE, Key::Escape);
    std::fs::write(&file, "brazo;lectura\nA;0,2500\nB;0,2505\n").unwrap();
    choose(&mut shop);
    shop.until_shown("Understood: 2 readings");
    shop.click("Import without C, D");
    assert_eq!(cells(shop.session()), "0,2500 | 0,2505 |  | ");
}

/// The far end of a pseudo-terminal, in the gauge's place.
#[cfg(target_os = "linux")]
mod over_a_serial_port {
    use super::*;
    use std::fs::File;
    use std::io::Write;

    use rustix::pty::{OpenptFlags, grantpt, openpt, ptsname, unlockpt};

    fn gauge() -> (File, String) {
        let gauge = openpt(OpenptFlags::RDWR | OpenptFlags::NOCTTY).unwrap();
        grantpt(&gauge).unwrap();
        unlockpt(&gauge).unwrap();
        let name = ptsname(&gauge, Vec::new()).unwrap();
        (File::from(gauge), name.into_string().unwrap())
    }

    fn listen(shop: &mut Shop, port: &str, ending: &str) {
        shop.press(Modifiers::NONE, Key::F2);
        shop.click("Serial port");
        hand::focus(&mut shop.harness, Role::TextInput, "Port");
        shop.press(Modifiers::COMMAND, Key::A);
        shop.type_text(port);
        // A pseudo-terminal knows no other bits and parity.
        shop.click("8N1");
        shop.click(ending);
        shop.click("Connect");
    }

    #[test]
    fn lines_become_readings_whatever_else_is_sent() {
        let (mut gauge, port) = gauge();
        let mut shop = Shop::with(&unread());
        listen(&mut shop, &port, "CR or LF");
        shop.until_shown("✓ Receiving from");
        gauge.write_all(b"\r\n0.2501\r\n").unwrap();
        shop.until(|session| cells(session).starts_with("0.2501"));
        // A reading in pieces, then two at once.
        gauge.write_all(b"01A+0.2").unwrap();
        shop.step();
        gauge.write_all(b"502 in\r0.2503\r").unwrap();
        shop.until(|session| cells(session) == "0.2501 | 0.2502 | 0.2503 | ");
        // Garbage is told and passed over.
        gauge.write_all(b"\x7f\x01#!?\r\n").unwrap();
        shop.until_shown("no number in it");
        gauge.write_all(&[b'9'; 3_000]).unwrap();
        shop.until_shown("without an end of line");
        gauge.write_all(&[b'9'; 3_000]).unwrap();
        gauge.write_all(b"\r6.35 mm\r").unwrap();
        shop.until(|session| cells(session) == "0.2501 | 0.2502 | 0.2503 | 6.35 mm");
        shop.shows("All arms are read.");
        // Nothing is due any more.
        gauge.write_all(b"0.2511\r").unwrap();
        shop.until_shown("0.2511 was not noted");
        // The plug is pulled.
        drop(gauge);
        shop.until_shown("is gone: unplugged, or the gauge is off");
        assert_eq!(cells(shop.session()), "0.2501 | 0.2502 | 0.2503 | 6.35 mm");
    }

    #[test]
    fn the_plug_pulled_in_the_middle_of_a_reading() {
        let (mut gauge, port) = gauge();
        let mut shop = Shop::with(&unread());
        listen(&mut shop, &port, "LF");
        shop.until_shown("✓ Receiving from");
        gauge.write_all(b"0.2501\n0.24").unwrap();
        shop.until(|session| cells(session).starts_with("0.2501"));
        drop(gauge);
        shop.until_shown("was lost in the middle of a reading");
        assert_eq!(cells(shop.session()), "0.2501 |  |  | ");
        // Work goes on by hand, and the gauge may come back.
        shop.press(Modifiers::NONE, Key::F2);
        shop.press(Modifiers::NONE, Key::F2);
        shop.read("0.2502");
        assert_eq!(cells(shop.session()), "0.2501 | 0.2502 |  | ");
    }

    #[test]
    fn a_pause_may_end_a_line_and_the_settings_are_kept() {
        let (mut gauge, port) = gauge();
        let mut shop = Shop::with(&unread());
        listen(&mut shop, &port, "a pause");
        shop.until_shown("✓ Receiving from");
        gauge.write_all(b"0.2501").unwrap();
        shop.until(|session| cells(session).starts_with("0.2501"));
        let kept = Preferences::load(shop.folder.path()).fields;
        let kept = kept.port.unwrap();
        assert_eq!((kept.port, kept.speed), (port, 9_600));
        assert_eq!(kept.ending, store::LineEnding::Pause);
        assert_eq!(kept.framing, store::Framing::EightNone1);
        assert!(kept.in_use);
        // Ended and begun again it listens of itself.
        shop.press(Modifiers::NONE, Key::F2);
        shop.press(Modifiers::NONE, Key::F2);
        shop.until_shown("✓ Receiving from");
        gauge.write_all(b"0.2502").unwrap();
        shop.until(|session| cells(session).starts_with("0.2501 | 0.2502"));
    }

    #[test]
    fn a_port_that_is_none_is_a_sentence() {
        let mut shop = Shop::with(&unread());
        listen(&mut shop, "/dev/no-such-port", "CR");
        shop.until_shown("There is no port /dev/no-such-port");
        shop.read("0.2500");
        assert_eq!(cells(shop.session()), "0.2500 |  |  | ");
    }
}
