//! `import`: a pass from a CSV file of readings, all of it or nothing.

mod common;

use std::fs;
use std::path::{Path, PathBuf};

use common::{Ran, jawtrue, session};
use jawtrue::session::Session;
use jawtrue::splice::Cell;
use jawtrue::store::{self, Expected};

/// A folder with a session on a press with arms A to D.
struct Shop(common::Shop);

impl Shop {
    fn new() -> Self {
        let shop = Self(common::Shop::new());
        let mut session = session(&["0.250", "0.251", "0.249", "0.250"]);
        session.passes.clear();
        store::save(&shop.file(), &session, Expected::Nothing).unwrap();
        shop
    }

    fn path(&self) -> &Path {
        self.0.path()
    }

    fn file(&self) -> PathBuf {
        self.path().join("p.jawtrue")
    }

    fn csv(&self, text: impl AsRef<[u8]>) {
        self.0.write("r.csv", text);
    }

    fn import(&self, options: &[&str]) -> Ran {
        let mut arguments = vec!["import", "p.jawtrue", "--csv", "r.csv"];
        arguments.extend(options);
        jawtrue(self.path(), &arguments)
    }

    fn session(&self) -> Session {
        self.0.open("p.jawtrue")
    }

    /// Imports without a word on standard error.
    fn imports(&self, text: &str, options: &[&str]) -> String {
        self.csv(text);
        let ran = self.import(options);
        assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{text}");
        ran.out
    }

    /// Refuses with these lines; the session file keeps every byte.
    fn refuses(&self, options: &[&str], lines: &[&str]) {
        let before = fs::read(self.file()).unwrap();
        let ran = self.import(options);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{ran:?}");
        let said: Vec<&str> = ran.err.lines().collect();
        assert_eq!(said, lines);
        assert_eq!(fs::read(self.file()).unwrap(), before);
    }
}

/// The cells of a pass: blanks part repeats, bars stations.
fn cells(session: &Session, pass: usize) -> String {
    let rows = session.passes[pass].rows.iter();
    let texts = rows.map(|row| row.iter().map(Cell::text).collect::<Vec<_>>().join(" "));
    texts.collect::<Vec<_>>().join(" | ")
}

#[test]
fn one_file_is_one_pass() {
    let shop = Shop::new();
    let said = shop.imports(
        "arm,reading\nA,0.2500\nB,0.2480\nA,0.2505\nC,0.2490\nD,0.2510\n",
        &["--laced", "this morning", "--note", "cold belt"],
    );
    assert!(said.starts_with("Pass 1 recorded: p.jawtrue\n"), "{said}");
    let said = shop.imports(
        "A;B;C;D\n0,2500;0,2500;0,2500;0,2490\n0,2500;;0,2505;\n",
        &["--turned", "0,+1,-2,0"],
    );
    assert!(said.starts_with("Pass 2 recorded: p.jawtrue\n"), "{said}");
    let session = shop.session();
    assert_eq!(
        cells(&session, 0),
        "0.2500 in 0.2505 in | 0.2480 in | 0.2490 in | 0.2510 in"
    );
    assert_eq!(
        cells(&session, 1),
        "0,2500 in 0,2500 in | 0,2500 in | 0,2500 in 0,2505 in | 0,2490 in"
    );
    let first = &session.passes[0];
    assert_eq!(
        (first.laced.as_str(), first.note.as_str()),
        ("this morning", "cold belt")
    );
    let turns: Vec<i32> = session.turns_before(1).iter().map(|turn| turn.0).collect();
    assert_eq!(turns, [0, 1, -2, 0]);
    // A file of the same readings given to `record` makes the same pass.
    shop.0
        .out("record p.jawtrue --readings '0.2500 0.2505, 0.2480, 0.2490, 0.2510'");
    assert_eq!(cells(&shop.session(), 2), cells(&session, 0));
}

#[test]
fn units_may_be_mixed_and_programs_differ() {
    let shop = Shop::new();
    shop.imports(
        "Brazo;Lectura;Unidad\r\na;6,35;mm\r\nb;0,249;in\r\nc;247.5 thou;\r\nd;1/4;\r\n",
        &[],
    );
    assert_eq!(
        cells(&shop.session(), 0),
        "6,35 mm | 0,249 in | 247.5 thou | 1/4 in"
    );
    // UTF-16 and Latin-1, as spreadsheets write them.
    let text = "estación\tlectura\nA\t.25\nB\t.25\nC\t.25\nD\t.25\n";
    let wide: Vec<u8> = [0xff, 0xfe]
        .into_iter()
        .chain(text.encode_utf16().flat_map(u16::to_le_bytes))
        .collect();
    let narrow: Vec<u8> = text.chars().map(|c| c as u8).collect();
    for bytes in [wide, narrow] {
        shop.csv(bytes);
        assert_eq!(shop.import(&[]).status, 0);
    }
    assert_eq!(
        cells(&shop.session(), 2),
        ".25 in | .25 in | .25 in | .25 in"
    );
}

#[test]
fn what_looks_mistyped_is_asked_about_and_kept() {
    let shop = Shop::new();
    shop.csv("A,B,C,D\n0.250,6.35,2.500,0.251\n0.250,0.250,0.250,0.250\n");
    let ran = shop.import(&[]);
    assert_eq!(ran.status, 0);
    let said: Vec<&str> = ran.err.lines().collect();
    assert_eq!(
        said,
        [
            "B, reading 1: 6.35″ can't be right here. It looks like 6.35 mm.",
            "C, reading 1: 2.500″ can't be right here. It looks like 0.2500″.",
        ]
    );
    assert_eq!(shop.session().passes[0].cell(2, 0).text(), "2.500 in");
}

#[test]
fn decimal_commas_between_commas_are_read_and_said() {
    let shop = Shop::new();
    shop.csv("arm,reading\nA,0,2500\nB,0,2480\nC,0,2490\nD,0,2510\n");
    let ran = shop.import(&[]);
    assert_eq!(
        (ran.status, ran.err.as_str()),
        (
            0,
            "The file has decimal commas, and commas between its columns as well; the first reading was taken as 0,2500. Check it.\n"
        )
    );
    assert_eq!(
        cells(&shop.session(), 0),
        "0,2500 in | 0,2480 in | 0,2490 in | 0,2510 in"
    );
    shop.csv("arm,reading,note\nA,6,29\nB,6,31\n");
    shop.refuses(
        &[],
        &[
            "Nothing was imported from r.csv:",
            "Line 2, column 2 (reading): “6,29” may be cut at a decimal comma, because commas also separate the columns. Separate the columns with semicolons, or write whole numbers with a point (6.0).",
            "Line 3, column 2 (reading): “6,31” may be cut at a decimal comma, because commas also separate the columns. Separate the columns with semicolons, or write whole numbers with a point (6.0).",
        ],
    );
    shop.csv("arm,reading,reading,who\nA,.25,.26,x\nB,.25,,\nC,.25,,\nD,.25,,\n");
    let ran = shop.import(&[]);
    assert_eq!(
        (ran.status, ran.err.as_str()),
        (0, "Columns not used: who.\n")
    );
    assert_eq!(
        cells(&shop.session(), 1),
        ".25 in .26 in | .25 in | .25 in | .25 in"
    );
}

#[test]
fn an_arm_that_is_missing_is_said() {
    let shop = Shop::new();
    shop.csv("arm,reading\nA,0.250\nC,0.251\nD,0.252\n");
    let ran = shop.import(&[]);
    assert_eq!((ran.status, ran.err.as_str()), (0, "No reading for B.\n"));
    assert_eq!(
        cells(&shop.session(), 0),
        "0.250 in |  | 0.251 in | 0.252 in"
    );
}

#[test]
fn a_thousand_repeats_and_not_one_more() {
    let shop = Shop::new();
    let round = "0.2500,0.2490,0.2495,0.2505\n";
    shop.imports(&format!("A,B,C,D\n{}", round.repeat(1_000)), &[]);
    let session = shop.session();
    assert!(session.passes[0].rows.iter().all(|row| row.len() == 1_000));
    shop.csv(format!("A,B,C,D\n{}", round.repeat(1_001)));
    shop.refuses(
        &[],
        &[
            "Nothing was imported from r.csv:",
            "Line 1002, column 1 (A): too many readings at one measuring point. Import one pass at a time.",
            "Line 1002, column 2 (B): too many readings at one measuring point. Import one pass at a time.",
            "Line 1002, column 3 (C): too many readings at one measuring point. Import one pass at a time.",
            "Line 1002, column 4 (D): too many readings at one measuring point. Import one pass at a time.",
        ],
    );
}

#[test]
fn every_wrong_place_is_told_and_nothing_is_imported() {
    let shop = Shop::new();
    let nothing = "Nothing was imported from r.csv:";
    shop.csv("arm,reading,unit\nA,0.25,in\nE,0.25,in\nB,thick,in\nC,,in\nD,900,mm\n");
    let before = fs::read(shop.file()).unwrap();
    let ran = shop.import(&["--language", "es"]);
    assert_eq!(ran.status, 2);
    assert_eq!(fs::read(shop.file()).unwrap(), before);
    let said: Vec<&str> = ran.err.lines().collect();
    assert_eq!(said[0], "No se importó nada de r.csv:");
    assert!(
        said[1].starts_with("Línea 3, columna 1 (arm): "),
        "{said:?}"
    );
    assert!(said[2].starts_with("Línea 4, columna 2 (reading): "));
    assert!(said[3].starts_with("Línea 5, columna 2 (reading): "));
    assert!(said[4].starts_with("Línea 6, columna 2 (reading): "));
    assert_eq!(said.len(), 5);

    shop.csv("arm,reading\nE,0.25\n");
    shop.refuses(
        &[],
        &[
            nothing,
            "Line 2, column 1 (arm): this press has no arm or measuring point “E”. Type its letter, A for the first arm from the operator's left.",
        ],
    );
    shop.csv("0.25,0.26\n");
    let ran = shop.import(&[]);
    assert!(
        ran.err
            .contains("found 2 readings without the name of an arm")
    );
    shop.csv("");
    shop.refuses(
        &[],
        &[
            nothing,
            "The file is empty. Choose one with readings, such as a line “A 0.2500” for each arm.",
        ],
    );
    shop.csv("arm,reading\n");
    shop.refuses(
        &[],
        &[
            nothing,
            "There is a heading, but no reading below it. Add lines such as “A 0.2500”.",
        ],
    );
    let many = format!("A\n{}", "x\n".repeat(3_000));
    shop.csv(many);
    let ran = shop.import(&[]);
    assert_eq!(ran.err.lines().count(), 102);
    assert!(
        ran.err
            .ends_with("There may be more; only the first are listed.\n")
    );
}

#[test]
fn files_that_are_none_and_options_that_are_wrong() {
    let shop = Shop::new();
    shop.refuses(&[], &["There is no such file or folder. File: r.csv"]);
    fs::create_dir(shop.path().join("r.csv")).unwrap();
    shop.refuses(
        &[],
        &["This is a folder. Choose a CSV file of readings. File: r.csv"],
    );
    fs::remove_dir(shop.path().join("r.csv")).unwrap();
    shop.csv([0_u8, 1, 2, 3, 255]);
    shop.refuses(
        &[],
        &["This file is not text. Save it as CSV in the spreadsheet first. File: r.csv"],
    );
    shop.csv("A,B,C,D\n.25,.25,.25,.25\n");
    shop.0.refuses_all(
        r"
import
    The name of a visit file is missing.
import p.jawtrue
    --csv is missing; this command needs it.
import p.jawtrue --readings 1
    “--readings” is not an option of this command.
import p.jawtrue --csv
    --csv: a value is missing after it.
import none.jawtrue --csv r.csv
    There is no such file or folder. File: none.jawtrue
import p.jawtrue --csv r.csv --turned 0,1
    --turned: 4 values are needed, separated by commas, one per arm; there are 2.
import p.jawtrue --csv r.csv --turned 0,half,0,0
    --turned: must be a whole number such as -4 or +2; “half” is not.
",
    );
    for (language, begins) in [
        ("en", "jawtrue import FILE"),
        ("es", "jawtrue import ARCHIVO"),
    ] {
        let ran = shop.0.run(&format!("import --help --language {language}"));
        assert!(
            ran.status == 0 && ran.out.starts_with(begins),
            "{}",
            ran.out
        );
    }
}

/// Bytes of every kind, in the middle of a file that is otherwise sound:
/// a sentence, and the session as it was.
#[test]
fn garbage_is_refused_whole() {
    let shop = Shop::new();
    let before = fs::read(shop.file()).unwrap();
    let mut state = 7_u64;
    for _ in 0..30 {
        let mut bytes = b"arm,reading\nA,0.2500\nB,".to_vec();
        for _ in 0..200 {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            bytes.push((state >> 33) as u8);
        }
        shop.csv(bytes);
        let ran = shop.import(&[]);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""));
        assert!(
            !ran.err.is_empty() && !ran.err.contains("panicked"),
            "{}",
            ran.err
        );
        assert_eq!(fs::read(shop.file()).unwrap(), before);
    }
}
