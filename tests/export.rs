//! The exported table, counted and summed back to the sessions, and the
//! README's example queries in a real query engine (Debian's `sqlite3`).

mod common;

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use common::{jawtrue, session};
use jawtrue::report::COLUMNS;
use jawtrue::session::Session;
use jawtrue::store::{self, Expected};
use jawtrue::units::Unit;

/// The sessions that come with the program, by the names of their files.
fn samples() -> BTreeMap<String, Session> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-sessions");
    let found = store::session_files(&folder).unwrap();
    let named = |path: &PathBuf| path.file_name().unwrap().to_str().unwrap().to_owned();
    let read = |path: &PathBuf| store::open(path).unwrap().session;
    let all: BTreeMap<String, Session> = found
        .files
        .iter()
        .map(|path| (named(path), read(path)))
        .collect();
    assert!(all.len() > 5);
    all
}

/// The table of the samples, as a file.
fn exported(folder: &Path, name: &str) -> PathBuf {
    let samples = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-sessions");
    let ran = jawtrue(folder, &["export", samples.to_str().unwrap(), "-o", name]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{ran:?}");
    folder.join(name)
}

/// The README's query that begins with these words.
fn query(begins: &str) -> String {
    let readme = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md"));
    let readme = readme.unwrap();
    let mut queries = readme.split("```sql\n").skip(1);
    assert_eq!(readme.matches("```sql\n").count(), 3);
    let found = queries.find(|query| query.starts_with(begins)).unwrap();
    found.split("```").next().unwrap().to_owned()
}

/// The columns as the README names their types.
fn schema() -> String {
    let number = |column: &str| {
        column.ends_with("_mm")
            || column.ends_with("_in")
            || column.ends_with("_notches")
            || ["arms", "pass", "passes", "reading"].contains(&column)
    };
    let columns = COLUMNS.iter().map(|column| {
        let kind = if number(column) { "NUMERIC" } else { "TEXT" };
        format!("{column} {kind}")
    });
    columns.collect::<Vec<_>>().join(", ")
}

/// What the engine answers, a row each.
fn asked(table: &Path, query: &str) -> Vec<Vec<String>> {
    let output = Command::new("sqlite3")
        .args([
            ":memory:",
            "-cmd",
            &format!("CREATE TABLE readings ({})", schema()),
        ])
        .args(["-cmd", ".mode csv"])
        .args([
            "-cmd",
            &format!(".import --skip 1 {} readings", table.display()),
        ])
        .args(["-cmd", ".mode list", query])
        .output()
        .unwrap_or_else(|error| panic!("Debian's sqlite3: {error}"));
    assert!(
        output.status.success() && output.stderr.is_empty(),
        "{output:?}"
    );
    let text = String::from_utf8(output.stdout).unwrap();
    text.lines()
        .map(|line| line.split('|').map(str::to_owned).collect())
        .collect()
}

#[test]
fn the_readmes_queries_say_what_the_sessions_say() {
    let folder = tempfile::tempdir().unwrap();
    let table = exported(folder.path(), "readings.csv");
    let samples = samples();

    let mut spreads = Vec::new();
    for (file, session) in &samples {
        for pass in 0..session.passes.len() {
            if let Some(spread) = session.spread_of(pass) {
                let thou = spread.value.in_unit(Unit::Inch) * 1000.0;
                spreads.push((file.clone(), pass + 1, thou));
            }
        }
    }
    let found = asked(&table, &query("SELECT file, pass, round("));
    assert_eq!(found.len(), spreads.len());
    for (row, (file, pass, thou)) in found.iter().zip(&spreads) {
        assert_eq!((&row[0], &row[1]), (file, &pass.to_string()));
        let found: f64 = row[2].parse().unwrap();
        assert!(
            (found - thou).abs() < 0.0006,
            "{file} {pass}: {found} {thou}"
        );
    }

    let mut presses: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
    let mut turned: BTreeMap<(&str, String), i32> = BTreeMap::new();
    for session in samples.values() {
        let name = session.press.name.as_str();
        let read = session.passes.iter().filter(|pass| pass.has_readings());
        let counts = presses.entry(name).or_default();
        *counts = (counts.0 + 1, counts.1 + read.count());
        for pass in 0..session.passes.len() {
            for (arm, turn) in (0..).zip(session.turns_before(pass)) {
                let arm = jawtrue::press::ArmIndex(arm).to_string();
                *turned.entry((name, arm)).or_default() += turn.0.abs();
            }
        }
    }
    let found = asked(&table, &query("SELECT press, count("));
    let expected = presses.iter();
    let expected: Vec<Vec<String>> = expected
        .map(|(press, (visits, pieces))| {
            vec![(*press).to_owned(), visits.to_string(), pieces.to_string()]
        })
        .collect();
    assert_eq!(found, expected);
    let found = asked(&table, &query("SELECT press, arm,"));
    let expected = turned.into_iter();
    let expected: Vec<Vec<String>> = expected
        .map(|((press, arm), notches)| vec![press.to_owned(), arm, notches.to_string()])
        .collect();
    assert_eq!(found, expected);
}

#[test]
fn rows_are_counted_and_summed_back() {
    let folder = tempfile::tempdir().unwrap();
    let table = exported(folder.path(), "readings.csv");
    let (mut count, mut sum_nm) = (0, 0_i64);
    for session in samples().values() {
        for cell in session
            .passes
            .iter()
            .flat_map(|pass| pass.rows.iter().flatten())
        {
            if let Some(reading) = cell.reading() {
                count += 1;
                sum_nm += reading.typed.length().nm();
            }
        }
    }
    let all = asked(
        &table,
        "SELECT count(*), round(sum(thickness_mm) * 1000000) FROM readings",
    );
    assert_eq!(all[0][0], count.to_string());
    assert_eq!(all[0][1].parse::<f64>().unwrap(), sum_nm as f64);
    // The same rows as JSON, a line each.
    let lines = fs::read_to_string(exported(folder.path(), "readings.jsonl")).unwrap();
    let mut sum_mm = 0.0;
    for line in lines.lines() {
        let row: serde_json::Value = serde_json::from_str(line).unwrap();
        assert_eq!(row.as_object().unwrap().len(), COLUMNS.len());
        assert!(row["pass"].is_u64() && row["counts"].is_boolean(), "{line}");
        sum_mm += row["thickness_mm"].as_f64().unwrap();
    }
    assert_eq!(lines.lines().count(), count);
    assert!((sum_mm * 1e6 - sum_nm as f64).abs() < 1.0);
}

#[test]
fn cells_that_would_run_are_neutralised() {
    let folder = tempfile::tempdir().unwrap();
    let shop = folder.path().join("shop");
    fs::create_dir(&shop).unwrap();
    let mut found = session(&["0.2500", "0.2440", "o,\"25", "0.2500"]);
    for text in ["=1+1", "+1", "-2+3", "@SUM(A1)", " =1", "\t=1", "a\n=b"] {
        found.notes.who = text.into();
        store::save(&shop.join("p.jawtrue"), &found, Expected::Anything).unwrap();
        let ran = jawtrue(folder.path(), &["export", "shop", "-o", "t.csv"]);
        assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{ran:?}");
        let table = folder.path().join("t.csv");
        let who = asked(
            &table,
            "SELECT DISTINCT replace(who, char(10), ' ') FROM readings",
        );
        let kept = text.replace('\n', " ");
        let harmless = if text.starts_with('a') {
            kept
        } else {
            format!("'{kept}")
        };
        assert_eq!(who, [[harmless]], "{text:?}");
        let typed = asked(
            &table,
            "SELECT typed, state, counts FROM readings WHERE station = 'C'",
        );
        assert_eq!(typed, [["o,\"25", "unreadable", "false"]]);
    }
}

#[test]
fn damaged_files_are_told_and_the_others_written() {
    let folder = tempfile::tempdir().unwrap();
    let shop = folder.path().join("shop");
    fs::create_dir_all(shop.join("older")).unwrap();
    let found = session(&["0.2500", "0.2440"]);
    store::save(&shop.join("older/a.jawtrue"), &found, Expected::Nothing).unwrap();
    fs::write(shop.join("broken.jawtrue"), "(format: 1, session: ").unwrap();
    fs::write(shop.join("newer.jawtrue"), "(format: 999)").unwrap();
    fs::write(shop.join("notes.txt"), "no session").unwrap();
    let ran = jawtrue(folder.path(), &["export", "shop", "-o", "t.csv"]);
    assert_eq!(ran.status, 2);
    assert_eq!(ran.out, "Written: t.csv (visits: 1, readings: 2)\n");
    assert!(
        ran.err.contains("broken.jawtrue") && ran.err.contains("newer.jawtrue"),
        "{ran:?}"
    );
    let rows = fs::read_to_string(folder.path().join("t.csv")).unwrap();
    assert_eq!(rows.lines().count(), 3);
    assert!(
        rows.lines().nth(1).unwrap().starts_with("older/a.jawtrue,"),
        "{rows}"
    );
    let ran = jawtrue(folder.path(), &["export", "shop/older", "-o", "t.xlsx"]);
    assert!(
        ran.err.contains("the name must end in .csv, .jsonl"),
        "{ran:?}"
    );
    fs::create_dir(folder.path().join("empty")).unwrap();
    let ran = jawtrue(folder.path(), &["export", "empty", "-o", "t.csv"]);
    assert!(ran.err.contains("no visit files"), "{ran:?}");
}
