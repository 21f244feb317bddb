//! The worst of each kind, as large as a file may be: bounded time and memory.

use std::fmt::Write as _;
use std::fs;
use std::process::Command;

use jawtrue::store::{MOST_BYTES, MOST_READINGS_BYTES, session_text};

use super::common::{Ran, ran, session};

/// What every one of these may take at most: address space, of which the
/// program itself needs some, and seconds of one processor in a build without
/// optimisation.
const MOST_KILOBYTES: u64 = 512 * 1024;
const MOST_SECONDS: u64 = 30;

#[cfg(target_os = "linux")]
fn within_bounds(folder: &std::path::Path, arguments: &str) -> Ran {
    let command = format!(
        "ulimit -v {MOST_KILOBYTES} -t {MOST_SECONDS}; exec {} {arguments}",
        env!("CARGO_BIN_EXE_jawtrue")
    );
    let output = Command::new("bash")
        .args(["-c", &command])
        .current_dir(folder)
        .output();
    ran(output.unwrap())
}

/// A sound session with a text put in behind a word.
fn with(behind: &str, filling: &str) -> String {
    let sound = session_text(&session(&["0.25", "0.25", "0.25"])).unwrap();
    let at = sound
        .find(behind)
        .unwrap_or_else(|| panic!("{behind}: {sound}"))
        + behind.len();
    format!("{}{filling}{}", &sound[..at], &sound[at..])
}

/// As much of a text over and over as a session file has room for.
fn filled(piece: &str) -> String {
    piece.repeat((MOST_BYTES as usize - 8 * 1024) / piece.len())
}

#[cfg(target_os = "linux")]
#[test]
fn the_largest_of_any_kind_takes_bounded_time_and_memory() {
    let shop = tempfile::tempdir().unwrap();
    let open = "readings: [";
    let worst = [
        ("brackets", with(open, &filled("("))),
        ("lists", with(open, &filled("["))),
        ("lists within lists", with(open, &filled("[[],"))),
        ("options", with(open, &filled("Some("))),
        ("comments", with(open, &filled("/*"))),
        ("closed comments", with(open, &filled("/**/"))),
        ("line comments", with(open, &filled("//\n"))),
        ("a long text", with(open, &format!("\"{}\",", filled("x")))),
        (
            "a text of controls",
            with(open, &format!("\"{}\",", filled("\u{202e}\u{9b}"))),
        ),
        ("a raw text", with(open, &format!("r{}", filled("#")))),
        ("a long number", with("format: ", &filled("9"))),
        (
            "a long fraction",
            with(open, &format!("\"0.{} in\",", filled("3"))),
        ),
        ("many texts", with(open, &filled("\"0.25 in\","))),
        (
            "many rows",
            with("readings: [", &filled("(station:\"A\",readings:[]),")),
        ),
        (
            "many passes",
            with("passes: [", &filled("(nuts:[],rows:[]),")),
        ),
        ("blanks", with(open, &filled(" "))),
        ("a field over and over", with("(", &filled("unit:in,"))),
        (
            "an unknown field",
            with("(", &format!("{}:1,", filled("q"))),
        ),
    ];
    for (name, text) in worst {
        assert!(text.len() as u64 <= MOST_BYTES, "{name}");
        fs::write(shop.path().join("s.jawtrue"), text).unwrap();
        let told = within_bounds(shop.path(), "judge s.jawtrue");
        // Blanks and comments mean nothing.
        let harmless = matches!(name, "blanks" | "closed comments" | "line comments");
        let expected = if harmless { 0 } else { 2 };
        let err: String = told.err.chars().take(300).collect();
        assert_eq!(told.status, expected, "{name}: {err}");
        assert!(
            told.err.len() < 4_000,
            "{name}: {} bytes said",
            told.err.len()
        );
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_million_readings_are_refused_within_bounds() {
    let shop = tempfile::tempdir().unwrap();
    let sound = session_text(&session(&["0.25", "0.25", "0.25"])).unwrap();
    fs::write(shop.path().join("s.jawtrue"), &sound).unwrap();
    let mut million = String::from("A,B,C\n");
    for _ in 0..333_334 {
        writeln!(million, ".25,.25,.3").unwrap();
    }
    let most = MOST_READINGS_BYTES as usize;
    let tables = [
        ("a million readings", million),
        ("a wide line", format!("A,B,C\n{}", ",".repeat(most - 100))),
        (
            "a quote never closed",
            format!("A,B,C\n\"{}", "x".repeat(most - 100)),
        ),
        (
            "quotes",
            format!("A,B,C\n{}", "\"\",".repeat(most / 3 - 100)),
        ),
        ("a header without end", "A,".repeat(most / 2 - 100)),
        (
            "as many columns as lines",
            format!(
                "arm{}\n{}",
                ",reading".repeat(most / 16 - 10),
                "A,0.25\n".repeat(most / 14)
            ),
        ),
        (
            "a long name over many lines",
            format!(
                "arm,reading,round{}\n{}",
                "1".repeat(most / 2 - 100),
                "A,0.25,\n".repeat(most / 16)
            ),
        ),
        (
            "a long unit beside many readings",
            format!(
                "arm{},unit\nA{},{}\n",
                ",reading".repeat(500),
                ",0.25".repeat(500),
                "u".repeat(most / 2)
            ),
        ),
        (
            "a cell without end",
            format!("A,B,C\n{},1,2\n", "9".repeat(most - 100)),
        ),
        (
            "decimal commas",
            format!("A,B,C\n{}", "0,25,0,25,0,25\n".repeat(most / 15 - 10)),
        ),
        (
            "controls",
            format!("A,B,C\n{}", "\u{202e}\u{9b},".repeat(most / 6 - 10)),
        ),
    ];
    for (name, table) in tables {
        assert!(table.len() <= most, "{name}: {}", table.len());
        fs::write(shop.path().join("r.csv"), table).unwrap();
        let told = within_bounds(shop.path(), "import s.jawtrue --csv r.csv");
        let err: String = told.err.chars().take(300).collect();
        assert_eq!(told.status, 2, "{name}: {err}");
        assert!(
            told.err.len() < 20_000,
            "{name}: {} bytes said",
            told.err.len()
        );
        let left = fs::read_to_string(shop.path().join("s.jawtrue")).unwrap();
        assert_eq!(left, sound, "{name}");
    }
}

/// The lists of press, practice and upkeep files are as long as their files.
#[cfg(target_os = "linux")]
#[test]
fn other_files_of_the_largest_size_are_answered_within_bounds() {
    let formats = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/formats");
    let new = "new n.jawtrue --press f";
    let practice = "practice f --turned 0,0,1";
    for (file, behind, piece, command, status) in [
        ("press-1.jawpress", "forgotten: [", "\"a\",", new, 0),
        ("press-1.jawpress", "forgotten: [", "[", new, 2),
        ("lesson-1.jawlesson", "acts: [", "\"lace\",", practice, 2),
        ("lesson-1.jawlesson", "acts: [", "\"read 0\",", practice, 2),
        ("lesson-1.jawlesson", "trainee: \"", "x", practice, 0),
        (
            "upkeep-1.ron",
            "log: [",
            "(press:\"a\",noted:laced(1),day:\"2026-11-26\",who:\"\"),",
            "upkeep . --json",
            0,
        ),
    ] {
        let shop = tempfile::tempdir().unwrap();
        let sound = fs::read_to_string(formats.join(file)).unwrap();
        let at = sound.find(behind).unwrap() + behind.len();
        let text = format!("{}{}{}", &sound[..at], filled(piece), &sound[at..]);
        assert!(text.len() as u64 <= MOST_BYTES, "{file}");
        let name = if file.ends_with(".ron") {
            "upkeep.ron"
        } else {
            "f"
        };
        fs::write(shop.path().join(name), text).unwrap();
        let told = within_bounds(shop.path(), command);
        let err: String = told.err.chars().take(300).collect();
        assert_eq!(told.status, status, "{file}, {piece}: {err}");
        assert!(told.err.len() < 4_000, "{file}, {piece}");
    }
}
