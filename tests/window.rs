//! The window, driven by label through the whole way.

use std::path::Path;
use std::time::Duration;

use eframe::egui::{self, Key, Modifiers, Role};
use egui_kittest::kittest::Queryable;
use jawtrue::press::Material;

#[path = "support/hand.rs"]
mod hand;

use hand::{
    Opening, Window, click, click_on, enter_at, focus, hides, open, paste_at, press, push, shows,
    type_at, type_text, until, wait,
};

/// A window in a folder of its own.
fn window(folder: &Path, file: Option<&str>) -> Window {
    let file = file.map(|name| folder.join(name));
    open(
        folder,
        Opening {
            file,
            ..Opening::default()
        },
    )
}

/// Lets jobs on other threads finish.
fn settle(harness: &mut Window) {
    wait(harness, 80);
}

/// What the desktop is told that the window is called, within some frames.
fn title(harness: &mut Window) -> Option<String> {
    let mut told = None;
    let mut left = 600;
    // Saving may take its time; what is told once may be told anew at once.
    while left > 0 {
        left -= 1;
        std::thread::sleep(Duration::from_millis(5));
        harness.step();
        let views = harness.output().viewport_output.values();
        for command in views.flat_map(|view| &view.commands) {
            if let egui::ViewportCommand::Title(title) = command {
                told = Some(title.clone());
                left = left.min(120);
            }
        }
    }
    told
}

#[test]
fn the_desktop_is_told_what_is_open_and_whether_it_is_saved() {
    let folder = tempfile::tempdir().unwrap();
    let sample = jawtrue::store::SampleSession::default();
    let session = sample.session().unwrap();
    let file = folder.path().join("visit.jawtrue");
    jawtrue::store::save(&file, &session, jawtrue::store::Expected::Nothing).unwrap();
    let mut harness = window(folder.path(), Some("visit.jawtrue"));
    title(&mut harness);
    // Nothing new, nothing told.
    assert_eq!(title(&mut harness), None);
    type_at(&mut harness, "Reading 1 at B", "0.2460");
    harness.key_press(Key::Enter);
    assert_eq!(
        title(&mut harness).as_deref(),
        Some("*visit.jawtrue - Jawtrue")
    );
    // In one frame: what is told in the frames between events of the harness is
    // not seen, and saving may be as quick as they are.
    harness.input_mut().events.push(egui::Event::Key {
        key: Key::S,
        physical_key: None,
        pressed: true,
        repeat: false,
        modifiers: Modifiers::COMMAND,
    });
    assert_eq!(
        title(&mut harness).as_deref(),
        Some("visit.jawtrue - Jawtrue")
    );
}

#[test]
fn a_large_display_draws_larger_unless_the_user_has_a_zoom() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), None);
    // A desktop gives a window fewer points as these grow; the harness does not.
    let zoom = |harness: &mut Window, width: f32, height: f32| {
        for _ in 0..4 {
            let factor = harness.ctx.zoom_factor();
            harness.set_size(egui::Vec2::new(width, height) / factor);
            harness.step();
        }
        harness.ctx.zoom_factor()
    };
    let command = |harness: &mut Window, key| {
        harness.key_press_modifiers(Modifiers::COMMAND, key);
        harness.step();
    };
    assert_eq!(zoom(&mut harness, 1400.0, 900.0), 1.0);
    assert_eq!(zoom(&mut harness, 3840.0, 2160.0), 3.0);
    command(&mut harness, Key::Minus);
    assert_eq!(zoom(&mut harness, 3840.0, 2160.0), 2.875);
    assert_eq!(zoom(&mut harness, 1400.0, 900.0), 2.875);
    command(&mut harness, Key::Num0);
    assert_eq!(zoom(&mut harness, 1400.0, 900.0), 1.0);
}

#[test]
fn from_readings_to_turned_nuts_and_back() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), None);
    assert_eq!(harness.state().session().passes.len(), 1);

    // Typing a reading and going on with Enter.
    enter_at(&mut harness, "Reading 1 at B", "0.2460");
    enter_at(&mut harness, "Reading 1 at C", "0.2515");
    let text = |harness: &Window, station, repeat| {
        harness.state().session().passes[0]
            .cell(station, repeat)
            .text()
            .to_owned()
    };
    assert_eq!(text(&harness, 1, 0), "0.2460 in");
    assert_eq!(text(&harness, 2, 0), "0.2515 in");

    // Undo and redo.
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(text(&harness, 2, 0), "0.2510 in");
    press(&mut harness, Modifiers::COMMAND, Key::Y);
    assert_eq!(text(&harness, 2, 0), "0.2515 in");

    // Turning a nut by its button, then noting that it was turned.
    settle(&mut harness);
    click_on(&mut harness, "leave as is: spread");
    push(&mut harness, "Turn D in one notch");
    harness.get_by_label_contains("Castle nut D: IN 1 notch");
    push(&mut harness, "Make safe and turn anyway");
    // First it asks who signs, and whether the press is made safe.
    // A name is typed letter by letter, and its first opens the first box.
    type_at(&mut harness, "Who", "A");
    type_text(&mut harness, "nn");
    for step in [
        "Tell everyone affected that the press will be off",
        "Open the jaw by its controls; no belt, no hooks and no hands in it",
        "Stop the press, then cut off every supply",
        "Lock out every supply and hang your tag",
        "Release or block stored energy; lower or block whatever could move",
        "Try to start it: nothing moves. Then switch back to off",
        "Block the open jaw as the manual says",
        "Mark nut and rod with one line",
        "Pull the cotter pins and keep them together",
    ] {
        click(&mut harness, Role::CheckBox, step);
    }
    push(&mut harness, "Yes, made safe: show the turn card");
    assert_eq!(harness.state().session().passes.len(), 1);
    let marks = &harness.state().session().checklist.marks;
    assert!(marks.iter().all(|mark| mark.who == "Ann"), "{marks:?}");
    push(&mut harness, "D is turned");
    push(&mut harness, "All turned: note it");
    let session = harness.state().session();
    assert_eq!(session.passes.len(), 2);
    assert_eq!(session.turns_before(1)[3].0, -1);
    // The keyboard is where the first reading of the new pass belongs.
    assert!(harness.get_by_label("Reading 1 at A").is_focused());

    // Saving under a typed path.
    press(&mut harness, Modifiers::COMMAND, Key::S);
    settle(&mut harness);
    let path = folder.path().join("kept.jawtrue");
    focus(&mut harness, Role::TextInput, "Name");
    press(&mut harness, Modifiers::COMMAND, Key::A);
    type_text(&mut harness, &path.display().to_string());
    push(&mut harness, "Save it");
    settle(&mut harness);
    let saved = jawtrue::store::open(&path).unwrap().session;
    assert_eq!(&saved, harness.state().session());
    drop(harness);

    // And on the next day.
    let mut harness = window(folder.path(), Some("kept.jawtrue"));
    settle(&mut harness);
    assert_eq!(&saved, harness.state().session());
}

#[test]
fn a_pasted_table_fills_the_grid() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), None);
    let table = "0.2501\t0.2502\n0.2491\t0.2492\n";
    paste_at(&mut harness, "Reading 1 at A", table);
    let pass = &harness.state().session().passes[0];
    let texts: Vec<&str> = [(0, 0), (0, 1), (1, 0), (1, 1), (2, 0)]
        .map(|(station, repeat)| pass.cell(station, repeat).text())
        .to_vec();
    assert_eq!(
        texts,
        [
            "0.2501 in",
            "0.2502 in",
            "0.2491 in",
            "0.2492 in",
            "0.2510 in"
        ]
    );
}

#[test]
fn what_cannot_be_read_is_kept_and_explained() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), None);
    enter_at(&mut harness, "Reading 1 at A", "0.2x5");
    let pass = &harness.state().session().passes[0];
    assert_eq!(pass.cell(0, 0).text(), "0.2x5");
    harness.get_by_label_contains("must be a length such as 0.2475; “0.2x5” is not");
}

#[test]
fn a_reading_in_the_other_unit_is_mended_with_one_click() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), None);
    enter_at(&mut harness, "Reading 1 at A", "6.35");
    harness.get_by_label("Check the reading at A: it can't be right.");
    push(&mut harness, "Change it to 6.35 mm");
    let pass = &harness.state().session().passes[0];
    assert_eq!(pass.cell(0, 0).text(), "6.35 mm");
}

#[test]
fn a_nut_turns_by_drag_keys_and_wheel() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), None);
    settle(&mut harness);
    click_on(&mut harness, "leave as is: spread");
    let place = harness
        .get_by_label_contains("Castle nut C: leave")
        .rect()
        .center_bottom()
        - egui::vec2(0.0, 8.0);

    harness.drag_at(place);
    harness.run_steps(2);
    for step in 1..=4 {
        harness.hover_at(place - egui::vec2(0.0, 8.0 * step as f32));
        harness.run_steps(1);
    }
    harness.drop_at(place - egui::vec2(0.0, 32.0));
    harness.run_steps(3);
    harness.get_by_label_contains("Castle nut C: OUT 2 notches, from -4 to -2");

    // It has the keyboard now.
    press(&mut harness, Modifiers::NONE, Key::ArrowDown);
    harness.get_by_label_contains("Castle nut C: OUT 1 notch, from -4 to -3");
    press(&mut harness, Modifiers::NONE, Key::Home);
    harness.get_by_label_contains("Castle nut C: leave, stays at -4");

    harness.event(egui::Event::PointerMoved(place));
    harness.event(egui::Event::MouseWheel {
        unit: egui::MouseWheelUnit::Line,
        source: egui::MouseWheelSource::Wheel,
        delta: egui::vec2(0.0, -1.0),
        phase: egui::TouchPhase::Move,
        modifiers: Modifiers::NONE,
    });
    harness.run_steps(3);
    harness.get_by_label_contains("Castle nut C: IN 1 notch, from -4 to -5");
    // None of it is noted.
    assert_eq!(harness.state().session().passes.len(), 1);
}

#[test]
fn unsaved_work_is_asked_about_and_found_again_after_a_crash() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), None);
    enter_at(&mut harness, "Reading 1 at A", "0.2533");
    press(&mut harness, Modifiers::COMMAND, Key::N);
    // The dialog is named by its question.
    let question = "Save this visit before it closes?";
    shows(&harness, question);
    push(&mut harness, "Keep working");
    hides(&harness, question);

    // Kept aside with the first reading, long before two seconds; the window
    // then ends without a word.
    drop(harness);
    let mut harness = window(folder.path(), None);
    shows(&harness, "Unsaved work from last time");
    // What was kept, and when.
    harness.get_by_label_contains("passes: 1, readings: ");
    push(&mut harness, "Go on with it");
    let pass = &harness.state().session().passes[0];
    assert_eq!(pass.cell(0, 0).text(), "0.2533 in");
}

#[test]
fn it_speaks_spanish_and_shows_millimetres_at_once() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), None);
    push(&mut harness, "Español");
    harness.get_by_label("Qué hacer");
    push(&mut harness, "mm");
    harness.get_by_label("0.210");
    // The exact figure on demand: 0.00825 in are 0.20955 mm.
    harness
        .ctx
        .all_styles_mut(|style| style.interaction.tooltip_delay = 0.0);
    harness.get_by_label("0.210").hover();
    harness.run_steps(10);
    harness.get_by_label("exactamente 0.20955 mm");
    push(&mut harness, "English");
    harness.get_by_label("What to do");
}

#[test]
fn what_was_learnt_is_kept_with_the_press_and_starts_the_next_visit() {
    let folder = tempfile::tempdir().unwrap();
    let mut session = jawtrue::store::SampleSession::Taper.session().unwrap();
    session.invented = false;
    let path = folder.path().join("visit.jawtrue");
    jawtrue::store::save(&path, &session, jawtrue::store::Expected::Nothing).unwrap();
    let mut harness = window(folder.path(), Some("visit.jawtrue"));
    settle(&mut harness);
    let menu = |harness: &mut Window, entry: &str| {
        click_on(harness, "☰");
        push(harness, "Press file");
        push(harness, entry);
        settle(harness);
        if entry == "Save what this press taught" {
            push(harness, "Choose the press's file");
            settle(harness);
        }
        focus(harness, Role::TextInput, "Name");
        press(harness, Modifiers::COMMAND, Key::A);
        type_text(
            harness,
            &folder.path().join("press.jawpress").display().to_string(),
        );
    };
    menu(&mut harness, "Save what this press taught");
    push(&mut harness, "Save it");
    settle(&mut harness);
    let kept = jawtrue::store::open_press(&folder.path().join("press.jawpress")).unwrap();
    assert_eq!(kept.record.next_visit.earlier.len(), 1);

    menu(&mut harness, "Start the next visit from it");
    push(&mut harness, "Open it");
    settle(&mut harness);
    let next = harness.state().session();
    assert!(next.passes.is_empty());
    assert_eq!(next.start_nuts, session.nuts_now());
    assert_eq!(next.earlier.len(), 1);
}

#[test]
fn section_of_jaw_and_rods_is_taken_once_it_is_whole() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), None);
    press(&mut harness, Modifiers::COMMAND, Key::Comma);
    let words = jawtrue::words::Language::English;
    let part = words.part_jaw_and_rods();
    click(&mut harness, Role::Tab, part);
    let fields = words.jaw_and_rods_fields(jawtrue::units::Unit::Inch);
    // A material brings its modulus; only that of another one is typed.
    let choose = |harness: &mut Window, part: &str, material: &str| {
        let label = format!("{part}: {material}");
        let choice = harness.get_by_role_and_label(Role::RadioButton, &label);
        choice.click();
        harness.run_steps(3);
    };
    assert!(harness.query_by_label(&fields[0]).is_none());
    choose(&mut harness, words.jaw(), words.material_other());
    choose(&mut harness, words.rods(), words.material(Material::Steel));
    assert!(harness.query_by_label(&fields[3]).is_none());
    let [modulus, width, height, _, diameter, length] = fields;
    let typed = [
        (modulus, "30"),
        (width, "60 mm"),
        (height, "120 mm"),
        (diameter, "30 mm"),
        (length, "400 mm"),
    ];
    for (known, (label, text)) in typed.into_iter().enumerate() {
        assert!(harness.state().session().jaw_and_rods.is_none());
        let count = words.section_known(known + 1);
        shows(&harness, &count);
        enter_at(&mut harness, &label, text);
    }
    let known = harness.state().session().jaw_and_rods.unwrap();
    assert_eq!(known.rod_diameter_mm.value, 30.0);
    let steel = Material::Steel.modulus_gpa();
    assert!((known.rod_modulus_gpa.value - steel.value).abs() < 0.05);
    assert!((known.jaw_modulus_gpa.value - 30.0 * jawtrue::press::MILLION_PSI).abs() < 1e-9);
}

#[test]
fn the_turn_card_and_the_report_are_printed() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), None);
    settle(&mut harness);
    press(&mut harness, Modifiers::COMMAND, Key::P);
    let shift = Modifiers {
        shift: true,
        ..Modifiers::COMMAND
    };
    press(&mut harness, shift, Key::P);
    // Without a desktop nothing shows them: where they are is said.
    let pages = folder.path().join("pages");
    let written = |start: &str| {
        let names = std::fs::read_dir(&pages).ok()?;
        let mut names = names.map(|entry| entry.unwrap().path());
        names.find(|path| {
            path.file_name()
                .unwrap()
                .to_str()
                .unwrap()
                .starts_with(start)
        })
    };
    for _ in 0..200 {
        settle(&mut harness);
        if written("Turn-card").is_some() && written("Visit-report").is_some() {
            break;
        }
    }
    settle(&mut harness);
    for start in ["Turn-card", "Visit-report"] {
        let bytes = std::fs::read(written(start).unwrap()).unwrap();
        assert!(
            bytes.starts_with(b"%PDF-") && bytes.len() > 10_000,
            "{start}"
        );
    }
    harness.get_by_label_contains("No program here shows PDF.");
}

/// Where the desktop has no dialog, a file is picked from its folder: by
/// pressing it, or by the keyboard alone.
#[test]
fn a_file_is_picked_from_what_a_folder_holds() {
    let words = jawtrue::words::Language::English;
    let folder = tempfile::tempdir().unwrap();
    let visits = folder.path().join("visits");
    std::fs::create_dir(&visits).unwrap();
    let mut session = jawtrue::store::SampleSession::default().session().unwrap();
    session.invented = false;
    hand::file_of(&visits, &session);
    for beside in ["notes.doc", ".hidden.jawtrue"] {
        std::fs::write(visits.join(beside), "").unwrap();
    }
    for by_keys in [false, true] {
        let mut harness = window(folder.path(), None);
        press(&mut harness, Modifiers::COMMAND, Key::O);
        let there =
            |label: &'static str| move |harness: &Window| harness.query_by_label(label).is_some();
        until(&mut harness, "the dialog", there(words.folder_of_file()));
        let start = folder.path().display().to_string();
        type_at(&mut harness, words.folder_of_file(), &start);
        until(&mut harness, "the folder", there("visits"));
        let pick = |harness: &mut Window, role, name: &str| match by_keys {
            true => {
                focus(harness, role, name);
                press(harness, Modifiers::NONE, Key::Enter);
            }
            false => click(harness, role, name),
        };
        pick(&mut harness, Role::Button, "visits");
        until(&mut harness, "the file", there("visit.jawtrue"));
        for other in ["notes.doc", ".hidden.jawtrue"] {
            assert!(harness.query_by_label(other).is_none(), "{other}");
        }
        // Once to pick it, once more to open it.
        pick(&mut harness, Role::RadioButton, "visit.jawtrue");
        assert!(harness.query_by_label(words.open_it()).is_some());
        pick(&mut harness, Role::RadioButton, "visit.jawtrue");
        hand::until_opened(&mut harness);
        std::fs::remove_file(folder.path().join("preferences.ron")).unwrap();
    }
}

/// A folder that is not there is made when asked for, never by itself; and a visit
/// saved with a doubted reading says so.
#[test]
fn a_folder_is_made_where_it_is_asked_for_and_a_doubted_reading_is_told() {
    let words = jawtrue::words::Language::English;
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), None);
    enter_at(&mut harness, "Reading 1 at A", "2.533");
    press(&mut harness, Modifiers::COMMAND, Key::N);
    shows(&harness, &words.readings_in_doubt(1));
    push(&mut harness, words.keep_working());
    press(&mut harness, Modifiers::COMMAND, Key::S);
    until(&mut harness, "the dialog", |harness| {
        harness.query_by_label(words.folder_of_file()).is_some()
    });
    let new = folder.path().join("march");
    type_at(
        &mut harness,
        words.folder_of_file(),
        &new.display().to_string(),
    );
    until(&mut harness, "that it is missing", |harness| {
        harness.query_by_label(words.folder_make()).is_some()
    });
    assert!(!new.exists());
    push(&mut harness, words.folder_make());
    until(&mut harness, "the folder", |harness| {
        harness.query_by_label(words.folder_empty()).is_some()
    });
    push(&mut harness, words.save_it());
    until(&mut harness, "the file", |_| {
        std::fs::read_dir(&new).is_ok_and(|mut files| files.next().is_some())
    });
    until(&mut harness, "that it is in doubt", |harness| {
        harness
            .query_all_by_label_contains(&words.readings_in_doubt(1))
            .next()
            .is_some()
    });
}
