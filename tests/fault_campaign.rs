//! Programs killed at random moments, and disks that refuse: nothing torn,
//! nothing lost, always a sentence and a way on.
//!
//! `JAWTRUE_KILLS=2000 cargo test --test fault_campaign -- --nocapture` kills
//! as often and prints what was found; without, a few times.

mod common;
#[path = "support/hand.rs"]
mod hand;

use std::fs;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::Arc;
use std::time::{Duration, Instant};

use common::{jawtrue, program, session};
use eframe::egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;
use hand::{Opening, enter_at, open_paced, press, wait};
use jawtrue::press::NutPosition;
use jawtrue::session::{Edit, Pass, Session};
use jawtrue::store::{
    self, DiskProblem, Expected, Origin, Recovery, backup_path, leftovers, session_from_text,
    session_text,
};
use jawtrue::units::Unit;
use jawtrue::words::{Figures, Language};
use proptest::test_runner::{RngAlgorithm, TestRng};
use rand_core::Rng;

/// Kills of a kind: a few, or as many as asked for.
fn kills() -> usize {
    let asked = std::env::var("JAWTRUE_KILLS").ok();
    asked.and_then(|count| count.parse().ok()).unwrap_or(90)
}

fn random() -> TestRng {
    TestRng::from_seed(RngAlgorithm::ChaCha, &[7; 32])
}

/// A share of a time, a little more than all of it at most.
fn some_of(time: Duration, random: &mut TestRng) -> Duration {
    time.mul_f64(f64::from(random.next_u32()) / f64::from(u32::MAX) * 1.2)
}

/// A session with so many passes after the first, of so many readings each at
/// twelve arms.
fn sized(passes: usize, repeats: usize) -> Session {
    let mut session = session(&["0.2500"; 12]);
    let row: Vec<String> = (0..repeats)
        .map(|n| format!("0.25{:02}", n % 100))
        .collect();
    for pass in 1..=passes {
        let fill = Edit::fill((pass, 0, 0), vec![row.clone(); 12], session.unit);
        session
            .passes
            .push(Pass::unread(vec![NutPosition(0); 12], 12));
        session = session.edited(&fill).unwrap();
    }
    session
}

fn part_files(folder: &Path) -> usize {
    let names = fs::read_dir(folder).unwrap();
    let names = names.map(|entry| entry.unwrap().file_name().into_string().unwrap());
    names.filter(|name| name.ends_with(".part")).count()
}

#[test]
fn a_program_killed_at_any_moment_leaves_the_old_file_or_the_new() {
    for (passes, repeats) in [(0, 0), (15, 40), (60, 80)] {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("press.jawtrue");
        let before = sized(passes, repeats);
        store::save(&path, &before, Expected::Nothing).unwrap();
        let old = fs::read(&path).unwrap();
        let readings = ["0.2600"; 12].join(",");
        let arguments = [
            "record",
            "press.jawtrue",
            "--laced",
            "now",
            "--readings",
            &readings,
        ];
        // One run to its end gives the new state and how long it takes.
        let started = Instant::now();
        assert_eq!(jawtrue(folder.path(), &arguments).status, 0);
        let whole_run = started.elapsed();
        let new = fs::read(&path).unwrap();
        let read = session_from_text(std::str::from_utf8(&new).unwrap()).unwrap();
        assert_eq!(read.passes.len(), before.passes.len() + 1);
        let mut random = random();
        let (mut killed, mut finished, mut renewed) = (0, 0, 0);
        for time in 0..kills() / 3 {
            fs::write(&path, &old).unwrap();
            let mut child = program()
                .current_dir(folder.path())
                .args(arguments)
                .stdout(Stdio::null())
                .stderr(Stdio::null())
                .spawn()
                .unwrap();
            std::thread::sleep(some_of(whole_run, &mut random));
            child.kill().unwrap();
            if child.wait().unwrap().success() {
                finished += 1;
            } else {
                killed += 1;
            }
            let found = fs::read(&path).unwrap();
            assert!(
                found == old || found == new,
                "time {time}: {} bytes",
                found.len()
            );
            renewed += usize::from(found == new);
            assert!(store::open(&path).is_ok(), "time {time}");
            let backup = store::open(&backup_path(&path));
            assert!(backup.is_ok(), "time {time}: {backup:?}");
        }
        println!(
            "{} bytes: {killed} killed, {} of them while writing; {finished} finished first; \
             {renewed} times the new file, otherwise the old; none torn or lost",
            old.len(),
            part_files(folder.path())
        );
        assert!(killed > 0);
    }
}

/// Keeps work aside over and over until it is killed; run by the test below.
#[test]
#[ignore = "started by another test, to be killed"]
fn keeps_aside_until_killed() {
    let folder = PathBuf::from(std::env::var_os("JAWTRUE_KEEP_IN").unwrap());
    let recovery = Recovery::start(&folder, || {}).unwrap();
    let mut work = sized(8, 40);
    loop {
        work.notes.notes.push('x');
        recovery.keep(Arc::new(work.clone()), Origin::default());
        std::thread::sleep(Duration::from_millis(2));
    }
}

#[test]
fn work_kept_aside_is_whole_whenever_the_program_is_killed() {
    let mut random = random();
    let (mut found, mut nothing_yet) = (0, 0);
    for time in 0..kills() / 3 {
        let home = tempfile::tempdir().unwrap();
        let mut child = Command::new(std::env::current_exe().unwrap())
            .args(["--ignored", "--exact", "keeps_aside_until_killed"])
            .env("JAWTRUE_KEEP_IN", home.path())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let begun = Instant::now();
        let kept = || leftovers_there(home.path());
        while !kept() && begun.elapsed() < Duration::from_secs(20) {
            std::thread::sleep(Duration::from_millis(1));
        }
        std::thread::sleep(some_of(Duration::from_millis(60), &mut random));
        child.kill().unwrap();
        child.wait().unwrap();
        match leftovers(home.path()).pop() {
            Some(leftover) => {
                let work = leftover.session.as_ref();
                assert!(work.is_ok(), "time {time}: {:?}", leftover.session);
                assert!(leftover.kept_at.is_some());
                found += 1;
            }
            None => nothing_yet += 1,
        }
    }
    println!("autosaves: {found} found whole, {nothing_yet} killed before the first; none torn");
    assert!(found > nothing_yet);
}

fn leftovers_there(folder: &Path) -> bool {
    fs::read_dir(folder).is_ok_and(|names| {
        names.flatten().any(|entry| {
            entry
                .path()
                .extension()
                .is_some_and(|ending| ending == "kept")
        })
    })
}

/// Every fault in turn: the old file stays, whole; the sentence says why; and
/// the same session can be saved elsewhere.
fn refused(path: &Path, expected: Expected, said: &str) {
    let old = fs::read(path).ok();
    let mut after = session(&["0.25", "0.25"]);
    after.notes.notes = "must not be lost".into();
    let problem = store::save(path, &after, expected).unwrap_err();
    assert_eq!(fs::read(path).ok(), old, "{path:?}");
    let sentence = Figures::exact(Language::English, Unit::Inch).save_problem(&problem, path);
    assert!(sentence.contains(said), "{path:?}: {sentence}");
    let elsewhere = tempfile::tempdir().unwrap();
    let elsewhere = elsewhere.path().join("elsewhere.jawtrue");
    store::save(&elsewhere, &after, Expected::Nothing).unwrap();
    assert_eq!(store::open(&elsewhere).unwrap().session, after);
}

/// A small file system of its own, where this user may make one.
struct Mounted(tempfile::TempDir);

impl Mounted {
    fn new(options: &str) -> Option<Self> {
        let folder = tempfile::tempdir().unwrap();
        let mounted = Command::new("mount")
            .args(["-t", "tmpfs", "-o", options, "tmpfs"])
            .arg(folder.path())
            .stderr(Stdio::null())
            .status()
            .is_ok_and(|status| status.success());
        if !mounted {
            println!("no file system may be mounted here: only the simulated disk was full");
        }
        mounted.then_some(Self(folder))
    }

    fn remount(&self, options: &str) {
        let done = Command::new("mount")
            .args(["-o", options])
            .arg(self.0.path())
            .status();
        assert!(done.unwrap().success());
    }
}

impl Drop for Mounted {
    fn drop(&mut self) {
        let _ = Command::new("umount").arg(self.0.path()).status();
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_or_read_only_disk_leaves_the_old_file_and_says_so() {
    let Some(disk) = Mounted::new("size=64k") else {
        return;
    };
    let path = disk.0.path().join("press.jawtrue");
    store::save(&path, &session(&["0.25", "0.25"]), Expected::Nothing).unwrap();
    let filling = fs::write(disk.0.path().join("filling"), vec![0; 64 * 1024]);
    assert_eq!(filling.unwrap_err().kind(), ErrorKind::StorageFull);
    refused(&path, Expected::Anything, "The disk is full");
    assert_eq!(part_files(disk.0.path()), 0);
    // Room was made.
    fs::remove_file(disk.0.path().join("filling")).unwrap();
    store::save(&path, &session(&["0.26", "0.25"]), Expected::Anything).unwrap();
    disk.remount("remount,ro");
    refused(&path, Expected::Anything, "read-only");
    let told = jawtrue(
        disk.0.path(),
        &["record", "press.jawtrue", "--readings", "0.25,0.25"],
    );
    assert!(
        told.status == 2 && told.err.contains("read-only"),
        "{}",
        told.err
    );
    // Unsaved work that cannot be kept aside there is told, too.
    let recovery = Recovery::start(&disk.0.path().join("recovery"), || {});
    assert_eq!(recovery.err(), Some(DiskProblem::ReadOnly));
}

#[test]
fn folders_that_go_and_files_that_change_lose_nothing() {
    let shop = tempfile::tempdir().unwrap();
    let folder = shop.path().join("gone");
    fs::create_dir(&folder).unwrap();
    let path = folder.join("press.jawtrue");
    let opened = store::save(&path, &session(&["0.25", "0.25"]), Expected::Nothing).unwrap();
    let unchanged = Expected::Unchanged(opened);
    fs::write(&path, "somebody else's").unwrap();
    refused(&path, unchanged, "somebody else changed the file");
    fs::remove_dir_all(&folder).unwrap();
    refused(&path, unchanged, "There is no such file or folder");
    fs::write(&folder, "a file where the folder was").unwrap();
    refused(&path, unchanged, "There is no such file or folder");
    refused(
        shop.path(),
        Expected::Anything,
        "this name is taken by a folder or a device",
    );
}

#[cfg(unix)]
#[test]
fn any_name_a_system_takes_can_be_used() {
    use std::os::unix::ffi::OsStringExt;
    let shop = tempfile::tempdir().unwrap();
    let odd = [
        "a b  c".to_owned(),
        "prensa número 4 — añil".to_owned(),
        "\u{ff30}\u{5e55}\u{202e}x".to_owned(),
        "quotes \" ' ` $HOME".to_owned(),
        "new\nline\ttab".to_owned(),
        "-rf".to_owned(),
        "*?[x]".to_owned(),
        "x".repeat(247),
    ];
    let mut names: Vec<std::ffi::OsString> = odd
        .iter()
        .map(|name| format!("{name}.jawtrue").into())
        .collect();
    // No text at all: a file from an old machine in Latin letters.
    names.push(std::ffi::OsString::from_vec(b"a\xf1o.jawtrue".to_vec()));
    for name in &names {
        let folder = shop.path().join(if name.len() > 200 {
            "long".into()
        } else {
            name.clone()
        });
        fs::create_dir_all(&folder).unwrap();
        let path = folder.join(name);
        let before = session(&["0.25", "0.25"]);
        let saved = store::save(&path, &before, Expected::Nothing).unwrap();
        let mut after = before.clone();
        after.notes.notes = "again".into();
        store::save(&path, &after, Expected::Unchanged(saved)).unwrap();
        assert_eq!(store::open(&path).unwrap().session, after, "{name:?}");
        assert_eq!(
            store::open(&backup_path(&path)).unwrap().session,
            before,
            "{name:?}"
        );
        // The text way and the crash, with the same name.
        let answered = program()
            .current_dir(&folder)
            .args(["judge", "--json", "--"])
            .arg(name)
            .output();
        assert_eq!(answered.unwrap().status.code(), Some(0), "{name:?}");
        let home = tempfile::tempdir().unwrap();
        let recovery = Recovery::start(home.path(), || {}).unwrap();
        let origin = Origin {
            path: Some(path.clone()),
            opened: Some(saved),
        };
        recovery.keep(Arc::new(after), origin.clone());
        drop(recovery);
        // A child that another test starts holds the lock for a moment.
        let found = (0..200).find_map(|_| {
            let found = leftovers(home.path()).pop();
            if found.is_none() {
                std::thread::sleep(Duration::from_millis(10));
            }
            found
        });
        let leftover = found.unwrap();
        assert_eq!(
            leftover.origin.path.is_some(),
            name.to_str().is_some(),
            "{name:?}"
        );
        if name.to_str().is_some() {
            assert_eq!(leftover.origin, origin, "{name:?}");
        }
    }
}

/// A folder that does not answer, as a network drive may: another program holds
/// the file, so that the save waits while the window's clock runs on.
#[cfg(target_os = "linux")]
#[test]
fn a_save_that_stalls_is_said_and_the_window_goes_on() {
    let shop = tempfile::tempdir().unwrap();
    let path = shop.path().join("press.jawtrue");
    store::save(
        &path,
        &session(&["0.25", "0.25", "0.25"]),
        Expected::Nothing,
    )
    .unwrap();
    // A frame a second: its patience ends long before that of the save.
    let opening = Opening {
        file: Some(path.clone()),
        ..Opening::default()
    };
    let mut window = open_paced(shop.path(), opening, 1.0);
    wait(&mut window, 40);
    enter_at(&mut window, "Reading 2 at A", "0.2533");
    let other = fs::File::open(&path).unwrap();
    other.lock().unwrap();
    press(&mut window, Modifiers::COMMAND, Key::S);
    for _ in 0..10 {
        window.step();
        if window.query_by_label_contains("Still saving").is_some() {
            break;
        }
    }
    window.get_by_label_contains("save somewhere else");
    enter_at(&mut window, "Reading 2 at B", "0.2534");
    drop(other);
    for _ in 0..400 {
        wait(&mut window, 1);
        let saved = store::open(&path).unwrap().session;
        if saved.passes[0].cell(0, 1).text() == "0.2533 in" {
            return;
        }
    }
    // Given up after a second on a slow machine: said, and nothing is lost.
    window.get_by_label_contains("Another program is using the file");
    let text = session_text(window.state().session()).unwrap();
    assert!(text.contains("0.2533 in") && text.contains("0.2534 in"));
}

/// Whenever the program is killed, what was entered half a second before is
/// kept aside: the first change at once, those that follow fast soon after.
#[cfg(target_os = "linux")]
#[test]
fn what_was_entered_is_kept_aside_within_half_a_second() {
    let shop = tempfile::tempdir().unwrap();
    let path = shop.path().join("press.jawtrue");
    let sound = session(&["0.25", "0.25", "0.25"]);
    store::save(&path, &sound, Expected::Nothing).unwrap();
    let recovery = shop.path().join("recovery");
    // Twenty frames a second.
    let step = 0.05;
    let opening = Opening {
        file: Some(path),
        ..Opening::default()
    };
    let mut window = open_paced(shop.path(), opening, step);
    wait(&mut window, 40);
    let kept = || {
        let files = fs::read_dir(&recovery)
            .unwrap()
            .map(|file| file.unwrap().path());
        let mut kept = files.filter(|path| path.extension().is_some_and(|end| end == "kept"));
        kept.next().map_or_else(String::new, |path| {
            fs::read_to_string(path).unwrap_or_default()
        })
    };
    // What the disk takes is not the window's clock.
    let kept_soon = |text: &str| {
        let begun = Instant::now();
        while !kept().contains(text) && begun.elapsed() < Duration::from_secs(10) {
            std::thread::sleep(Duration::from_millis(5));
        }
        kept().contains(text)
    };
    enter_at(&mut window, "Reading 2 at A", "0.2533");
    window.step();
    assert!(kept_soon("0.2533 in"), "the first");
    for (place, reading) in [("Reading 2 at B", "0.2534"), ("Reading 2 at C", "0.2535")] {
        enter_at(&mut window, place, reading);
    }
    for _ in 0..(0.6 / step) as usize {
        window.step();
    }
    assert!(kept_soon("0.2535 in"), "those that follow");
}

/// The 31st visit to a press takes the place of the oldest, and that is said.
#[test]
fn the_oldest_visit_does_not_go_without_a_word() {
    let shop = tempfile::tempdir().unwrap();
    let mut visit = session(&["0.2500", "0.2460", "0.2510"]);
    let mut said = Vec::new();
    for number in 1..=31 {
        visit.id = format!("visit-{number}");
        let name = format!("{number}.jawtrue");
        store::save(&shop.path().join(&name), &visit, Expected::Nothing).unwrap();
        let told = jawtrue(shop.path(), &["learn", &name, "--press", "p.jawpress"]);
        assert_eq!((told.status, told.err.as_str()), (0, ""));
        said.push(told.out);
    }
    assert!(
        said.iter().take(30).all(|line| !line.contains("oldest")),
        "{said:?}"
    );
    assert!(said[30].contains("oldest"), "{}", said[30]);
    // It still stands in the file before.
    let before = store::open_press(&backup_path(&shop.path().join("p.jawpress"))).unwrap();
    assert_eq!(before.record.next_visit.earlier[0].session, "visit-1");
}
