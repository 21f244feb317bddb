//! Files of every format there ever was: they open in memory, saving keeps
//! them as they were beside the file, and what a newer program wrote is left
//! alone. `tests/data/formats/KIND-NUMBER` is one old file of each and is never
//! changed; a new number adds a file.

mod common;

use std::fs;
use std::path::{Path, PathBuf};

use common::jawtrue;
use jawtrue::store::{
    self, FORMATS, OpenProblem, PracticeFile, backup_path, leftovers, open_practice, open_press,
    open_upkeep,
};

/// Notes a task of upkeep as done.
const UPKEEP_DONE: &[&str] = &[
    "upkeep",
    ".",
    "--press",
    "Press 9 (invented)",
    "--done",
    "dust",
    "--who",
    "S. Moss (invented)",
];

/// The old files: kind with its number, name here, and a command that writes
/// the file again with something added.
const OLD: [(&str, &str, &[&str]); 7] = [
    (
        "session-1.jawtrue",
        "s.jawtrue",
        &["record", "s.jawtrue", "--readings", "6.3,6.3,6.3,6.3,6.3"],
    ),
    (
        "press-1.jawpress",
        "p.jawpress",
        &["learn", "taught.jawtrue", "--press", "p.jawpress"],
    ),
    (
        "lesson-1.jawlesson",
        "l.jawlesson",
        &["practice", "l.jawlesson", "--turned", "0,0,+1"],
    ),
    (
        "lesson-2.jawlesson",
        "l.jawlesson",
        &["practice", "l.jawlesson", "--turned", "0,0,+1"],
    ),
    ("upkeep-1.ron", "upkeep.ron", UPKEEP_DONE),
    ("upkeep-2.ron", "upkeep.ron", UPKEEP_DONE),
    ("upkeep-3.ron", "upkeep.ron", UPKEEP_DONE),
];

/// What both lessons read on their second piece, as the program of the first
/// format did.
const LESSON_READINGS: [i64; 6] = [
    6_413_500, 6_413_500, 6_311_900, 6_311_900, 6_070_600, 6_057_900,
];

fn old(name: &str) -> String {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/formats");
    fs::read_to_string(folder.join(name)).unwrap()
}

/// A folder with a file, and a session of the same press that teaches.
fn shop_with(name: &str, text: &str) -> (tempfile::TempDir, PathBuf) {
    let shop = tempfile::tempdir().unwrap();
    let own = old("session-1.jawtrue").replace("    invented: true,\n", "");
    let other = own.replacen("session: \"", "session: \"another-", 1);
    assert_ne!(own, other);
    fs::write(shop.path().join("taught.jawtrue"), other).unwrap();
    let path = shop.path().join(name);
    fs::write(&path, text).unwrap();
    (shop, path)
}

#[test]
fn every_format_there_was_has_a_file() {
    let [session, press, lesson, upkeep] = FORMATS;
    for (kind, numbers) in [
        ("session", session),
        ("press", press),
        ("lesson", lesson),
        ("upkeep", upkeep),
    ] {
        for number in 1..=numbers {
            let begins = format!("{kind}-{number}.");
            let there = OLD.iter().any(|(name, ..)| name.starts_with(&begins));
            assert!(there, "{begins}");
        }
    }
}

#[test]
fn old_files_open_in_memory_and_saving_keeps_them() {
    for (kept, name, command) in OLD {
        let (shop, path) = shop_with(name, &old(kept));
        match name {
            "s.jawtrue" => {
                let session = store::open(&path).unwrap().session;
                assert_eq!((session.passes.len(), session.stations.len()), (2, 5));
            }
            "p.jawpress" => {
                let record = open_press(&path).unwrap().record;
                assert_eq!(record.repaired.as_deref(), Some("new chain (invented)"));
                assert_eq!(record.forgotten, ["first", "second"]);
            }
            "l.jawlesson" => match open_practice(&path).unwrap().file {
                PracticeFile::Work(work, None) => {
                    assert_eq!(work.acts().len(), 18);
                    // The same press and pieces, begun where they were begun.
                    let start = match kept {
                        "lesson-1.jawlesson" => 0,
                        _ => -7,
                    };
                    assert_eq!(work.notebook(None).start_nuts[0].0, start);
                    let shown = work.pieces()[1].readings.iter().flatten();
                    let shown: Vec<i64> = shown.map(|taken| taken.shown.nm()).collect();
                    assert_eq!(shown, LESSON_READINGS);
                }
                other => panic!("{other:?}"),
            },
            _ => assert_eq!(open_upkeep(shop.path()).unwrap().log.len(), 2),
        }
        assert_eq!(fs::read_to_string(&path).unwrap(), old(kept), "{name}");
        assert!(!backup_path(&path).exists());
        let told = jawtrue(shop.path(), command);
        assert_eq!(told.status, 0, "{name}: {}", told.err);
        assert_ne!(fs::read_to_string(&path).unwrap(), old(kept), "{name}");
        let beside = fs::read_to_string(backup_path(&path)).unwrap();
        assert_eq!(beside, old(kept), "{name}");
    }
}

/// A newer program raises the number, or adds a field under the same one. An
/// older one reads neither, says so, and writes nothing over it.
#[test]
fn what_a_newer_program_wrote_is_not_lost_by_an_older_one() {
    for (kept, name, command) in OLD {
        let text = old(kept);
        let head = text.lines().nth(1).unwrap();
        let (word, _) = head.split_once(": ").unwrap();
        let raised = format!("{word}: 99,");
        let newer = text.replacen(head, &raised, 1);
        let field = format!("{head}\n    lasers: [(\"A\", 3)],");
        let with_field = text.replacen(head, &field, 1);
        for text in [newer, with_field] {
            let (shop, path) = shop_with(name, &text);
            let told = jawtrue(shop.path(), command);
            assert_eq!(told.status, 2, "{name}: {}", told.out);
            assert!(
                told.err.contains("newer") && told.err.contains("not changed"),
                "{name}: {}",
                told.err
            );
            assert_eq!(fs::read_to_string(&path).unwrap(), text, "{name}");
            assert!(!backup_path(&path).exists(), "{name}");
        }
    }
}

#[test]
fn work_kept_aside_by_another_version_stays() {
    let home = tempfile::tempdir().unwrap();
    let path = home.path().join("1-00.kept");
    let text = old("work-1.kept");
    fs::write(&path, &text).unwrap();
    let leftover = leftovers(home.path()).pop().unwrap();
    assert_eq!(leftover.session.as_ref().unwrap().passes.len(), 2);
    assert_eq!(
        leftover.origin.path,
        Some(PathBuf::from("/shop/press 9.jawtrue"))
    );
    drop(leftover);
    let newer = text.replacen("        format: 1,", "        format: 2,", 1);
    assert_ne!(newer, text);
    fs::write(&path, &newer).unwrap();
    let leftover = leftovers(home.path()).pop().unwrap();
    assert_eq!(leftover.session, Err(OpenProblem::NewerFormat(2)));
    drop(leftover);
    assert_eq!(fs::read_to_string(&path).unwrap(), newer);
}

/// Whoever typed comments into a file is told before they go, and finds them
/// in the file beside it.
#[test]
fn comments_are_never_lost_without_a_word() {
    for (kept, name, command) in OLD {
        let text = format!("// checked by hand\n{}", old(kept));
        let (shop, path) = shop_with(name, &text);
        let told = jawtrue(shop.path(), command);
        assert_eq!(told.status, 0, "{name}: {}", told.err);
        assert!(
            told.err.contains("typed comments into this file"),
            "{name}: {}",
            told.err
        );
        assert_eq!(fs::read_to_string(backup_path(&path)).unwrap(), text);
    }
}
