//! The shop in the window, by keyboard and label: its folder, its presses,
//! finding visits, the book of a press, the next visit; and two people at one
//! file.

use std::fs;
use std::path::{Path, PathBuf};

use eframe::egui::{Key, Modifiers, Role};
use egui_kittest::kittest::Queryable;
use jawtrue::session::{IsoDate, Session};
use jawtrue::store::{self, Expected};
use jawtrue::words::Language;

#[path = "support/hand.rs"]
mod hand;
#[path = "support/invented_shop.rs"]
mod invented_shop;

use hand::{Opening, Window, click, enter_at, focus, open, press, push, says, type_at, until};

const WORDS: Language = Language::English;

/// Chooses a folder from the shop's page, its path typed.
fn choose(window: &mut Window, folder: &Path) {
    press(window, Modifiers::NONE, Key::F7);
    push(window, WORDS.shop_choose());
    until(window, "the path", |window| {
        window.query_by_label(WORDS.folder_of_file()).is_some()
    });
    enter_at(
        window,
        WORDS.folder_of_file(),
        &folder.display().to_string(),
    );
}

fn shop(home: &Path) -> PathBuf {
    let folder = home.join("shop");
    invented_shop::make(&folder, 10);
    fs::write(folder.join("newer.jawtrue"), "(format: 999)").unwrap();
    fs::write(folder.join("lesson.jawlesson"), "(lesson_format: 1)").unwrap();
    folder
}

#[test]
fn the_shop_by_keyboard_and_label() {
    let home = tempfile::tempdir().unwrap();
    let folder = shop(home.path());
    let mut window = open(home.path(), Opening::default());
    choose(&mut window, &folder);
    let summary = WORDS.shop_summary(4, 40);
    until(&mut window, "the shop", |window| says(window, &summary));
    // A press by the keyboard alone.
    for name in ["North bay press", "Long press", "Old press", "Small press"] {
        assert!(says(&window, name), "{name}");
    }
    assert!(says(&window, WORDS.shop_months()));
    assert!(says(&window, WORDS.upkeep_page()));
    // Which to look at next, and why; the order is chosen by a button.
    let presses = |window: &Window| -> Vec<String> {
        use egui_kittest::kittest::NodeT;
        let rows = window.query_all_by_role(Role::Button);
        let rows = rows.filter_map(|node| node.accesskit_node().label());
        rows.filter(|label| label.contains("press (invented)."))
            .collect()
    };
    click(&mut window, Role::RadioButton, WORDS.press_sort_name());
    let names = ["Long", "North", "Old", "Small"];
    let rows = presses(&window);
    assert!(
        rows.iter()
            .zip(names)
            .all(|(row, name)| row.starts_with(name)),
        "{rows:?}"
    );
    click(&mut window, Role::RadioButton, WORDS.press_sort_last());
    let by_last = presses(&window);
    let day = |row: &str| row.split("last ").nth(1).unwrap()[..10].to_owned();
    assert!(by_last.windows(2).all(|two| day(&two[0]) >= day(&two[1])));
    click(&mut window, Role::RadioButton, WORDS.press_sort_need());
    let row = |window: &Window| {
        let rows = window.query_all_by_role(Role::Button);
        let label = |node: &egui_kittest::Node<'_>| {
            use egui_kittest::kittest::NodeT;
            node.accesskit_node().label().unwrap_or_default()
        };
        let mut found = rows.filter(|node| label(node).starts_with("Long press"));
        found.next().expect("the row").focus();
    };
    row(&window);
    window.run_steps(2);
    press(&mut window, Modifiers::NONE, Key::Enter);
    until(&mut window, "the book", |window| {
        says(window, WORDS.book_visits())
    });
    until(&mut window, "what it taught", |window| {
        says(window, WORDS.book_answers())
    });
    window.get_by_label(WORDS.worked_out_title()).click();
    until(&mut window, "the statistics", |window| {
        says(window, "One notch OUT thickens the splice")
    });
    assert!(says(&window, "Drift"));
    assert!(says(&window, "Worked on by"));
    // Files that are not counted are listed with their sentence.
    click(&mut window, Role::Tab, &WORDS.shop_page_folder(1));
    assert!(says(&window, "newer.jawtrue") && says(&window, WORDS.shop_do_newer()));
    assert!(says(&window, WORDS.shop_name_practice()));
    assert!(says(&window, &folder.display().to_string()));
    // Find, by words.
    click(&mut window, Role::Tab, WORDS.shop_page_find());
    type_at(&mut window, WORDS.find_words(), "small 2025-09-03");
    until(&mut window, "one visit", |window| {
        says(window, &WORDS.find_found(1))
    });
    push(&mut window, WORDS.find_clear());
    until(&mut window, "all visits", |window| {
        says(window, &WORDS.find_found(40))
    });
    // What changes on the disk shows.
    fs::remove_file(folder.join("newer.jawtrue")).unwrap();
    let some = WORDS.shop_page_folder(1);
    until(&mut window, "one file less", |window| !says(window, &some));
    // Escape: to the presses, then to the visit.
    press(&mut window, Modifiers::NONE, Key::Escape);
    until(&mut window, "the presses", |window| says(window, &summary));
    press(&mut window, Modifiers::NONE, Key::Escape);
    assert!(!says(&window, &summary));
    // The folder is remembered, and its index is of use.
    drop(window);
    let mut window = open(home.path(), Opening::default());
    press(&mut window, Modifiers::NONE, Key::F7);
    until(&mut window, "the shop again", |window| {
        says(window, &summary)
    });
    assert!(fs::read_dir(home.path().join("shops")).unwrap().count() == 1);
}

#[test]
fn the_next_visit_begins_from_what_the_folder_taught() {
    let home = tempfile::tempdir().unwrap();
    let folder = shop(home.path());
    let mut window = open(home.path(), Opening::default());
    choose(&mut window, &folder);
    let summary = WORDS.shop_summary(4, 40);
    until(&mut window, "the shop", |window| says(window, &summary));
    // What its sessions teach comes later, and puts another press on top.
    let first = WORDS.press_open_book("Long press (invented)");
    until(&mut window, "what was learnt", |window| {
        says(window, &first)
    });
    let label = window
        .query_all_by_role(Role::Button)
        .filter_map(|node| {
            use egui_kittest::kittest::NodeT;
            node.accesskit_node().label()
        })
        .find(|label| label.starts_with("Old press"))
        .expect("the row");
    push(&mut window, &label);
    push(&mut window, WORDS.book_next_visit());
    until(&mut window, "the visit", |window| {
        window.state().session().press.name.starts_with("Old press")
    });
    let session = window.state().session();
    assert_eq!((session.passes.len(), session.earlier.len()), (0, 10));
    let files = store::session_files(&folder.join("Old press"))
        .unwrap()
        .files;
    let last = store::open(files.last().unwrap()).unwrap().session;
    assert_eq!(session.start_nuts, last.nuts_now());
    assert!(!session.id.is_empty() && session.id != last.id);
}

/// A visit of the shop in a file, and what somebody else makes of it.
fn file_and_other(folder: &Path) -> (PathBuf, Session, Session) {
    let day = IsoDate::parse("2026-02-03").unwrap();
    let mut hidden = invented_shop::presses();
    let visits = hidden.remove(0).visits(1, day, 1);
    let own = visits.into_iter().next().expect("a visit");
    let path = folder.join("visit.jawtrue");
    store::save(&path, &own, Expected::Nothing).unwrap();
    let mut other = own.clone();
    other.notes.who = "L. Dale (invented)".into();
    other.notes.notes = "hooks changed".into();
    (path, own, other)
}

#[test]
fn two_people_at_one_file_both_keep_their_work() {
    let home = tempfile::tempdir().unwrap();
    let (path, own, other) = file_and_other(home.path());
    let mut window = open(
        home.path(),
        Opening {
            file: Some(path.clone()),
            ..Opening::default()
        },
    );
    until(&mut window, "the visit", |window| {
        window.state().session().id == own.id
    });
    // Somebody else saves, then this one changes and saves.
    store::save(&path, &other, Expected::Anything).unwrap();
    press(&mut window, Modifiers::COMMAND, Key::R);
    enter_at(&mut window, &WORDS.reading_label(1, "B"), "0.2460");
    press(&mut window, Modifiers::COMMAND, Key::S);
    until(&mut window, "the differences", |window| {
        says(window, "hooks changed")
    });
    for part in [
        "L. Dale (invented)",
        "reading 1",
        "0.2460",
        WORDS.save_over(),
    ] {
        assert!(says(&window, part), "{part}");
    }
    push(&mut window, WORDS.changed_keep_both());
    let beside = home.path().join("visit (2).jawtrue");
    until(&mut window, "the file beside", |_| beside.exists());
    until(&mut window, "the word", |window| {
        says(window, "visit (2).jawtrue")
    });
    assert_eq!(store::open(&path).unwrap().session, other);
    let kept = store::open(&beside).unwrap().session;
    assert_eq!(kept.id, own.id);
    assert_eq!(kept.notes, own.notes);
    assert_eq!(&kept, window.state().session());
    // It goes on in its own file.
    press(&mut window, Modifiers::COMMAND, Key::R);
    enter_at(&mut window, &WORDS.reading_label(1, "C"), "0.2470");
    press(&mut window, Modifiers::COMMAND, Key::S);
    until(&mut window, "the second save", |window| {
        store::open(&beside).unwrap().session == *window.state().session()
    });
    assert_eq!(store::open(&path).unwrap().session, other);
}

/// A message over the shop comes and goes, and whatever has the keyboard keeps
/// it: nothing becomes another widget.
#[test]
fn a_message_takes_the_keyboard_from_nothing() {
    let home = tempfile::tempdir().unwrap();
    let folder = shop(home.path());
    let mut window = open(home.path(), Opening::default());
    choose(&mut window, &folder);
    let summary = WORDS.shop_summary(4, 40);
    until(&mut window, "the shop", |window| says(window, &summary));
    click(&mut window, Role::Tab, &WORDS.shop_page_folder(1));
    let copy = WORDS.shop_copy_path();
    let copy = WORDS.upkeep_tick_of(copy, "newer.jawtrue", WORDS.shop_do_newer());
    let has = |window: &Window| {
        let button = window.get_by_role_and_label(Role::Button, &copy);
        button.is_focused()
    };
    focus(&mut window, Role::Button, &copy);
    press(&mut window, Modifiers::NONE, Key::Enter);
    assert!(says(&window, WORDS.shop_path_copied()) && has(&window));
    until(&mut window, "quiet", |window| {
        !says(window, WORDS.shop_path_copied())
    });
    assert!(has(&window));
}
