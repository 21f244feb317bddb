//! What is meant to break the program, or does by bad luck: devices for files,
//! lists without end, names too long, many writers at once. Always a sentence,
//! within bounded time and memory, and nothing lost.

mod common;

use std::fs;
use std::path::Path;
use std::process::Stdio;

use common::sessions::laced;
use common::{Shop, jawtrue, program, ran, session};
use jawtrue::store::{self, Expected, OpenProblem, open_press, session_text};

/// A new session of two arms.
const NEW: &str = "new s.jawtrue --arms 6,18 --length 24 --unit in";

#[cfg(unix)]
#[test]
fn a_response_from_a_device_or_a_pipe_is_refused_at_once() {
    let shop = Shop::new();
    let made = std::process::Command::new("mkfifo")
        .arg(shop.file("pipe"))
        .status();
    assert!(made.unwrap().success());
    for file in ["pipe", "/dev/zero", "/dev/full"] {
        let told = shop.run(&format!("{NEW} --response {file}"));
        assert_eq!(told.status, 2, "{file}: {}", told.err);
        assert!(told.err.contains(file), "{}", told.err);
        assert!(!shop.file("s.jawtrue").exists());
    }
}

/// Sixteen megabytes of empty readings are 5.6 million cells; kept all, they
/// took 2.5 GB.
#[cfg(target_os = "linux")]
#[test]
fn a_list_without_end_takes_no_memory() {
    let shop = Shop::new();
    let sound = session_text(&session(&["0.25", "0.25", "0.25"])).unwrap();
    let at = sound.find(r#"readings: ["#).unwrap() + r#"readings: ["#.len();
    let endless = r#""","#.repeat(5_500_000);
    let text = format!("{}{endless}{}", &sound[..at], &sound[at..]);
    assert!(text.len() as u64 <= store::MOST_BYTES);
    fs::write(shop.file("s.jawtrue"), text).unwrap();
    // The shell counts in kilobytes: half a gigabyte of address space.
    let command = format!(
        "ulimit -v 524288; exec {} judge s.jawtrue",
        env!("CARGO_BIN_EXE_jawtrue")
    );
    let told = ran(std::process::Command::new("sh")
        .args(["-c", &command])
        .current_dir(shop.path())
        .output()
        .unwrap());
    assert_eq!(told.status, 2, "{}", told.err);
    assert!(told.err.contains("s.jawtrue"), "{}", told.err);
}

#[test]
fn names_up_to_the_longest_can_be_saved_again() {
    let shop = Shop::new();
    for (letter, lengths) in [
        ("x", [200, 247, 248, 249, 255]),
        ("é", [200, 246, 248, 250, 254]),
    ] {
        for bytes in lengths {
            let stem = letter.repeat((bytes - ".jawtrue".len()) / letter.len());
            let name = format!("{stem}.jawtrue");
            shop.out(&format!("new {name} --arms 6,18 --length 24 --unit in"));
            let recorded = shop.run(&format!("record {name} --readings 0.25,0.251"));
            assert_eq!(recorded.status, 0, "{}", recorded.err);
            let path = shop.file(&name);
            let backup = store::open(&store::backup_path(&path)).unwrap();
            assert_eq!(backup.session.passes.len(), 0);
        }
    }
}

#[test]
fn two_long_names_keep_two_backups() {
    let long = |end: &str| format!("/shop/{}{end}.jawtrue", "x".repeat(244));
    let (one, other) = (long("1"), long("2"));
    let backup = store::backup_path(Path::new(&one));
    assert_ne!(backup, store::backup_path(Path::new(&other)));
    assert!(backup.file_name().unwrap().len() <= 255);
}

#[test]
fn eight_teachers_at_once_are_all_heard() {
    let shop = Shop::new();
    let names: Vec<String> = (0..8).map(|number| format!("{number}.jawtrue")).collect();
    for (name, number) in names.iter().zip(0..) {
        let mut taught = session(&["0.2500", "0.2460", "0.2510"]);
        taught.id = format!("visit-{number}");
        let taught = laced(&taught, &[0, 1, 0], &["0.2502", "0.2492", "0.2511"]);
        store::save(&shop.file(name), &taught, Expected::Nothing).unwrap();
    }
    let at_work: Vec<_> = names
        .iter()
        .map(|name| {
            program()
                .current_dir(shop.path())
                .args(["learn", name, "--press", "p.jawpress"])
                .stdout(Stdio::piped())
                .stderr(Stdio::piped())
                .spawn()
                .unwrap()
        })
        .collect();
    for child in at_work {
        let told = ran(child.wait_with_output().unwrap());
        assert_eq!((told.status, told.err.as_str()), (0, ""));
    }
    let record = open_press(&shop.file("p.jawpress")).unwrap().record;
    assert_eq!(record.next_visit.earlier.len(), 8);
}

#[test]
fn formats_within_a_press_file_are_looked_at() {
    let shop = Shop::new();
    let path = shop.file("p.jawpress");
    let record = jawtrue::session::PressRecord::of(&session(&["0.25", "0.25", "0.25"]));
    store::save_press(&path, &record, Expected::Nothing).unwrap();
    let sound = fs::read_to_string(&path).unwrap();
    assert!(open_press(&path).is_ok());
    for (good, bad, newer) in [
        ("format: 1,", "format: 7,", Some(7)),
        ("press_format: 1,", "press_format: 2,", Some(2)),
        (
            "press_format: 1,",
            "press_format: 99999999999999999999,",
            Some(u64::MAX),
        ),
        ("press_format: 1,", "press_format: 0,", None),
    ] {
        let text = match good {
            // The inner one, the second.
            "format: 1," => sound.replacen("    format: 1,", &format!("    {bad}"), 1),
            _ => sound.replacen(good, bad, 1),
        };
        assert_ne!(text, sound, "{bad}");
        fs::write(&path, text).unwrap();
        match (open_press(&path), newer) {
            (Err(OpenProblem::NewerFormat(found)), Some(number)) => assert_eq!(found, number),
            (Err(OpenProblem::Damaged(..)), None) => {}
            (other, _) => panic!("{bad}: {other:?}"),
        }
    }
}

#[test]
fn nothing_read_is_no_pass() {
    let shop = Shop::new();
    shop.out("new s.jawtrue --arms 6,18,30,42 --length 48 --unit in");
    let told = shop.run("record s.jawtrue --readings ,,,");
    assert_eq!(told.status, 2);
    assert!(
        told.err.starts_with("--readings: no reading"),
        "{}",
        told.err
    );
    assert!(shop.open("s.jawtrue").passes.is_empty());
}

/// A table of a response may be megabytes in one cell; of that the complaint
/// says how it begins.
#[test]
fn nothing_typed_is_echoed_whole() {
    let shop = Shop::new();
    let new = |extra: &[&str]| {
        let told = shop.run(&format!("{NEW} {}", extra.join(" ")));
        assert_eq!(told.status, 2, "{}", told.err);
        told.err
    };
    for cell in [
        "x".repeat(50_000),
        "9".repeat(300),
        format!("{}e1", "9".repeat(100)),
    ] {
        fs::write(shop.file("r.csv"), format!("{cell},0\n0,0.004\n")).unwrap();
        let told = new(&["--response", "r.csv"]);
        assert!(told.contains("row 1, column 1"), "{told}");
        assert!(told.chars().count() < 300, "{told}");
    }
    let long = "y".repeat(50_000);
    for extra in [
        ["--notch", &long],
        ["--nut-limits", &long],
        ["--nuts", &long],
        ["--gauge-step", &long],
        [&long, "x"],
        ["--unit", &long],
        ["--language", &long],
    ] {
        let told = new(&extra);
        assert!(
            told.chars().count() < 1_000,
            "{} letters",
            told.chars().count()
        );
    }
    let told = new(&["--nuts", "99999999999,0"]);
    assert!(
        told.contains("99999999999 is too large a number here."),
        "{told}"
    );
    let told = new(&["--nuts", "--5,0"]);
    assert!(told.contains("“--5” is not"), "{told}");
    // A limit never reads like the figure that is below it.
    let told = new(&["--gauge-step", "0"]);
    assert!(told.contains("must be 0.000004″ to"), "{told}");
}

#[test]
fn a_name_cannot_command_the_terminal() {
    let shop = Shop::new();
    let mut named = session(&["0.25", "0.25", "0.25"]);
    named.press.name = "4\u{1b}[2J\u{202e}".into();
    store::save(&shop.file("s.jawtrue"), &named, Expected::Nothing).unwrap();
    for arguments in [
        vec!["judge", "s.jawtrue"],
        vec!["plan", "s.jawtrue"],
        vec!["judge", "\u{1b}]0;x.jawtrue"],
        vec![
            "record",
            "s.jawtrue",
            "--readings",
            "0.25,\u{1b}[31m0.3,0.25",
        ],
    ] {
        let told = jawtrue(shop.path(), &arguments);
        let all = format!("{}{}", told.out, told.err);
        assert!(
            !all.contains(|c: char| c.is_control() && c != '\n' || c == '\u{202e}'),
            "{all:?}"
        );
    }
}

/// Arms 1 mm apart on a jaw of 10 m took minutes of work; arms a hand apart on a
/// long jaw are planned for as ever.
#[cfg(target_os = "linux")]
#[test]
fn arms_too_close_together_are_said_at_once() {
    let shop = Shop::new();
    for (name, arms, planned) in [
        ("crowded", "5000mm,5001mm", false),
        ("close", "4900mm,5100mm", true),
    ] {
        let name = format!("{name}.jawtrue");
        shop.out(&format!(
            "new {name} --arms {arms} --length 10000mm --unit mm"
        ));
        let recorded = shop.run(&format!("record {name} --readings 6.35,6.60"));
        assert_eq!(recorded.status, 0, "{}", recorded.err);
        let command = format!(
            "ulimit -t 60; exec {} plan {name}",
            env!("CARGO_BIN_EXE_jawtrue")
        );
        let output = std::process::Command::new("bash")
            .args(["-c", &command])
            .current_dir(shop.path())
            .output();
        let told = ran(output.unwrap());
        assert_eq!(told.status, if planned { 0 } else { 2 }, "{}", told.err);
        assert_eq!(
            told.err.contains("too close together"),
            !planned,
            "{}",
            told.err
        );
    }
}
