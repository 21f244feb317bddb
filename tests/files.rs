//! Session files: what they look like, that nothing is lost in them, and the
//! sentence for everything that can be wrong with one.

mod common;

use std::fs;
use std::path::Path;

use common::{any_session, any_typed, any_unit, session};
use jawtrue::session::{By, CorrectedReading, Session};
use jawtrue::splice::{Cell, Struck};
use jawtrue::store::{self, OpenProblem, session_from_text, session_text};
use jawtrue::units::{Rounding, Sign, TypedLength, Unit, decimal_text, parse_length};
use jawtrue::words::{Figures, Language};
use proptest::prelude::*;

/// A session with one of everything in it.
fn full() -> Session {
    let mut session = session(&["0.2500 .2505in", "1/4 slipped", "6.29mm"]);
    session.notes.notes = "first \"line\"\nsecond".into();
    if let Some(Cell::Reading(reading)) = session.passes[0].rows[0].get_mut(1) {
        reading.struck = Some(Struck {
            by: "R. Alder".into(),
            why: "jaw moved".into(),
        });
    }
    session
}

#[test]
fn a_file_is_meant_to_be_read() {
    let text = r#"(
    format: 1,
    session: "test",
    unit: "in",
    visit: (
        who: "",
        when: "",
        belt: "",
        hooks: "",
        notes: "first \"line\"\nsecond",
    ),
    press: (
        name: "Press 9 (invented)",
        jaw_length: "36 in",
        arms: [
            (position: "6 in", notch_effect: "0.004 in"),
            (position: "18 in", notch_effect: "0.004 in"),
            (position: "30 in", notch_effect: "0.004 in"),
        ],
    ),
    gauge: (name: "", step: "0.0005 in"),
    tolerance: "0.003 in",
    stations: [
        (at: "A"),
        (at: "B"),
        (at: "C"),
    ],
    start_nuts: [0, 0, 0],
    passes: [
        (
            laced: "",
            nuts: [0, 0, 0],
            readings: [
                (station: "A", readings: ["0.2500 in", ".2505in"], struck: [(reading: 2, by: "R. Alder", why: "jaw moved")]),
                (station: "B", readings: ["1/4 in", ""], unreadable: [(reading: 2, text: "slipped")]),
                (station: "C", readings: ["6.29mm"]),
            ],
        ),
    ],
)
"#;
    assert_eq!(session_text(&full()).unwrap(), text);
    assert_eq!(session_from_text(text).unwrap(), full());
    // Empty places at the end of a row are no readings.
    let longer = text.replacen("\"6.29mm\"", "\"6.29mm\", \"\", \"\"", 1);
    assert_eq!(session_from_text(&longer).unwrap(), full());
    // What editors do to text files changes nothing.
    for edited in [
        format!("\u{feff}{text}"),
        text.replace('\n', "\r\n"),
        text.replace("    ", "\t"),
        format!("// checked by R. Alder\n{text}\n// end"),
        text.replace(",\n)", "\n)"),
    ] {
        assert_eq!(session_from_text(&edited).unwrap(), full(), "{edited}");
    }
}

/// Written before the fields of a session said themselves how they are written:
/// it has one of each, and opens and saves to the same bytes for good.
#[test]
fn a_file_with_every_field_stays_as_it_is() {
    let text = include_str!("data/every-field.jawtrue");
    let session = session_from_text(text).unwrap();
    assert_eq!(session_text(&session).unwrap(), text);
}

/// A pass may be corrected oftener than any other list is long.
#[test]
fn every_correction_is_kept() {
    let mut session = full();
    let corrections = &mut session.passes[0].corrections.readings;
    corrections.extend((0..1_500).map(|number| CorrectedReading {
        station: 1,
        repeat: 0,
        was: format!("0.2{number:04} in"),
        struck: false,
        by: By::default(),
    }));
    let text = session_text(&session).unwrap();
    assert_eq!(session_from_text(&text).unwrap(), session);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn a_session_opens_as_it_was_saved(session in any_session()) {
        session.check().unwrap();
        let text = session_text(&session).unwrap();
        prop_assert_eq!(&session_from_text(&text).unwrap(), &session);
        // And once more: the text stays letter by letter what it is.
        prop_assert_eq!(session_text(&session_from_text(&text).unwrap()).unwrap(), text);
    }

    #[test]
    fn a_damaged_text_never_panics(
        session in any_session(),
        cut in any::<prop::sample::Index>(),
        put in any::<char>(),
    ) {
        let text = session_text(&session).unwrap();
        let at = text.char_indices().nth(cut.index(text.chars().count())).unwrap().0;
        for damaged in [
            text[..at].to_owned(),
            format!("{}{put}{}", &text[..at], &text[at..]),
            text[at..].to_owned(),
        ] {
            if let Err(problem) = session_from_text(&damaged) {
                for language in Language::ALL {
                    let figures = Figures::exact(language, Unit::Inch);
                    prop_assert!(!figures.why_not_opened(&problem).is_empty());
                }
            }
        }
    }

    #[test]
    fn a_typed_length_reads_back(typed in any_typed(0, 10_000_000), unit in any_unit()) {
        let read = TypedLength::parse(typed.text(), unit, Sign::None).unwrap();
        prop_assert_eq!(read, typed);
    }

    #[test]
    fn a_printed_length_reads_back(nm in 0..10_000_000_000_i64, unit in any_unit()) {
        // A nanometre needs 6 decimals of a millimetre; of an inch it has
        // none, but every 0.000 000 1 in times 25.4 needs 7 at most.
        let (nm, decimals) = match unit {
            Unit::Millimetre => (nm, 6),
            Unit::Inch => (nm / 254 * 254, 5),
        };
        let length = jawtrue::units::Length::from_nm(nm);
        let printed = decimal_text(length, unit, decimals, Rounding::Nearest);
        prop_assert_eq!(parse_length(&printed, unit, Sign::None).unwrap().0, length);
    }
}

/// Opens `bytes` as a file and checks the sentence.
fn check(bytes: impl AsRef<[u8]>, sentence: &str) -> OpenProblem {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("press.jawtrue");
    fs::write(&path, &bytes).unwrap();
    let problem = check_path(&path, sentence);
    // Nobody touched it.
    assert_eq!(fs::read(&path).unwrap(), bytes.as_ref());
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    problem
}

fn check_path(path: &Path, sentence: &str) -> OpenProblem {
    let problem = store::open(path).unwrap_err();
    let figures = Figures::exact(Language::English, Unit::Inch);
    let said = figures.open_problem(&problem, path);
    assert_eq!(said, format!("{sentence} File: {}", path.display()));
    let spanish = Figures::exact(Language::Spanish, Unit::Inch).open_problem(&problem, path);
    assert_ne!(spanish, said);
    problem
}

/// The place at which a part of a text begins, as the sentences name it.
fn place_of(text: &str, part: &str) -> String {
    let before = &text[..text.rfind(part).unwrap()];
    let column = before.rsplit('\n').next().unwrap().chars().count() + 1;
    format!("line {}, column {column}", before.matches('\n').count() + 1)
}

const BACKUP: &str = "Look beside it for a file whose name ends in .backup.";

#[test]
fn a_newer_format_is_refused_in_words() {
    let newer = "This file has format 2; this version of the program reads format 1. Open it with a newer version. The file is not changed.";
    let text = session_text(&full()).unwrap();
    check(text.replace("format: 1,", "format: 2,"), newer);
    // Whatever a newer format may look like after its number.
    check("(format: 2, #! <<< [[[ \u{0}", newer);
    check([b"(format: 2, \xff\xfe".as_slice()].concat(), {
        "The file is damaged at line 1, column 13: there is something other than text. Look beside it for a file whose name ends in .backup."
    });
    check(
        "(format: 99999999999999999999999, x)",
        &newer.replace("format 2", &format!("format {}", u64::MAX)),
    );
}

#[test]
fn a_damaged_file_is_refused_with_its_place() {
    let text = session_text(&full()).unwrap();
    // The sentence names the place at which `at` begins.
    let damaged = |from: &str, to: &str, at: &str, what: &str| {
        assert!(text.contains(from), "{from}");
        let damaged = text.replacen(from, to, 1);
        let place = place_of(&damaged, at);
        check(damaged, &format!("The file is damaged at {place}: {what}"));
    };
    damaged(
        "\"0.2500 in\"",
        "\"0.25o0 in\"",
        "0.25o0 in",
        "length “0.25o0 in”: must be a length such as 0.2475; “0.25o0 in” is not.",
    );
    damaged(
        "\"6.29mm\"",
        "\"6.29\"",
        "6.29",
        "a length must have its unit, such as “0.2475 in” or “6.29 mm”; “6.29” has none that is known.",
    );
    damaged(
        "\"6.29mm\"",
        "\"-6.29mm\"",
        "-6.29mm",
        "length “-6.29mm”: no plus or minus sign here; write a length such as 0.2475.",
    );
    damaged(
        "tolerance: ",
        "colour: \"red\", tolerance: ",
        "colour",
        "“colour” is not known to this version; a newer one may have written it. The file is not changed.",
    );
    damaged(
        "    tolerance: \"0.003 in\",\n",
        "",
        ")\n",
        "“tolerance” is missing before this bracket.",
    );
    damaged(
        "unit: \"in\"",
        "unit: \"in\", unit: \"mm\"",
        "unit: \"mm\"",
        "“unit” is there twice.",
    );
    damaged(
        "unit: \"in\"",
        "unit: \"ft\"",
        "ft",
        "the unit must be “in” or “mm”; this is “ft”.",
    );
    damaged(
        "step: \"0.0005 in\"",
        "kind: \"ruler\", step: \"0.0005 in\"",
        "ruler",
        "“ruler” is not known here to this version; a newer one may have written it. The file is not changed.",
    );
    damaged(
        "step: \"0.0005 in\"",
        "step: \"0.0005 in\", calibration_due: \"30.2.2026\"",
        "30.2.2026",
        "must be a date such as 2026-11-25; “30.2.2026” is not.",
    );
    damaged(
        "nuts: [0, 0, 0],\n            readings",
        "nuts: [0, 0, 0], handle: \"-0.002\",\n            readings",
        "-0.002",
        "a length must have its unit, such as “0.2475 in” or “6.29 mm”; “-0.002” has none that is known.",
    );
    damaged(
        "nuts: [0, 0, 0],\n            readings",
        "nuts: [0, 0, 0], walk: \"sideways\",\n            readings",
        "sideways",
        "“sideways” is not known here to this version; a newer one may have written it. The file is not changed.",
    );
    damaged("[0, 0, 0]", "[0, x, 0]", "x, 0]", "must be a whole number.");
    damaged(
        "[0, 0, 0]",
        "[0, 9999999999, 0]",
        "9999999999",
        "must be a whole number.",
    );
    damaged(
        "[0, 0, 0]",
        "[0, 1.5, 0]",
        ".5",
        "a comma or a closing bracket is missing.",
    );
    damaged("[0, 0, 0]", "0", "0,\n    passes", "must be a list in [ ].");
    damaged(
        "visit: (",
        "visit: [",
        "[\n        who",
        "must be fields in ( ).",
    );
    damaged(
        "belt: \"\"",
        "belt: 3",
        "3,\n        hooks",
        "must be text between quotation marks.",
    );
    damaged(
        "(at: \"B\")",
        "(at: \"B\", counts: maybe)",
        "maybe",
        "must be true or false.",
    );
    damaged(
        "\"Press 9 (invented)\"",
        "\"Press \\q\"",
        "Press \\q",
        "a backslash here means nothing; write a backslash itself as \\\\.",
    );
    check(
        text.replace("(\n    format: 1,", "(\n    unit: \"in\",\n    format: 1,"),
        "The file is damaged at line 2, column 5: “format: 1” must come first.",
    );
    check(
        "(format: 0)",
        "The file is damaged at line 1, column 2: “format: 1” must come first.",
    );
    check(
        format!("{text}{text}"),
        "The file is damaged at line 41, column 1: there is more text after the last bracket.",
    );
    check(
        format!("(format: 1, session: {}", "[".repeat(100_000)),
        "The file is damaged at line 1, column 22: must be text between quotation marks.",
    );
    check(
        format!(
            "(format: 1, press: (arms: [{}",
            "(position: ".repeat(10_000)
        ),
        "The file is damaged at line 1, column 39: must be text between quotation marks.",
    );
}

#[test]
fn a_file_cut_short_is_refused() {
    let text = session_text(&full()).unwrap();
    let mut refused = 0;
    for (end, _) in text.char_indices().skip(1) {
        let cut = &text[..end];
        let complete = cut.trim_end() == text.trim_end();
        match session_from_text(cut) {
            Ok(_) => assert!(complete, "{cut}"),
            Err(OpenProblem::Damaged(..) | OpenProblem::NewerFormat(_)) => refused += 1,
            Err(problem) => panic!("{problem:?}: {cut}"),
        }
    }
    assert!(refused > 1_000);
    check(
        &text[..text.find("stations").unwrap()],
        &format!(
            "The file is damaged at line 22, column 27: the file ends in the middle. {BACKUP}"
        ),
    );
}

#[test]
fn an_empty_file_is_refused() {
    let sentence = format!("This file is empty. {BACKUP}");
    for bytes in ["", " \n\t\n", "\u{feff}", "// only a remark"] {
        check(bytes, &sentence);
    }
}

#[test]
fn another_kind_of_file_is_refused() {
    let expected = |kind: &str| {
        format!("This is not a visit file but {kind}. Choose a file whose name ends in .jawtrue.")
    };
    check(b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", &expected("a picture"));
    check(b"\xff\xd8\xff\xe0\0\x10JFIF", &expected("a picture"));
    check("%PDF-1.7\n", &expected("a PDF document"));
    check(
        b"PK\x03\x04\x14\0\x06\0\x80\x9d",
        &expected("a packed file, such as a spreadsheet"),
    );
    check(
        "arm,reading,unit\nA,0.2500,in\n",
        &expected("a table, such as CSV"),
    );
    check("A\t0.2500\n", &expected("a table, such as CSV"));
    check("Dear Sir\n", &expected("other text"));
    check(
        b"\x7fELF\x02\x01\x01\0\xff\xff",
        &expected("something other than text"),
    );
    check([0; 512], &expected("something other than text"));
    check(
        b"\xff\xfe(\0f\0o\0r\0m\0a\0t\0",
        &expected("text in UTF-16; save it as UTF-8 in the editor it comes from"),
    );
}

#[test]
fn a_name_that_is_no_file_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    check_path(
        folder.path(),
        "This is a folder. Choose a visit file (*.jawtrue).",
    );
    for missing in ["nothing.jawtrue", "no/such/folder.jawtrue"] {
        check_path(
            &folder.path().join(missing),
            "There is no such file or folder.",
        );
    }
    if cfg!(unix) {
        for device in ["/dev/null", "/dev/full", "/dev/zero"] {
            check_path(
                Path::new(device),
                "This cannot be read as a file. Choose a visit file (*.jawtrue).",
            );
        }
        // A name through a file leads nowhere; a name that is too long or
        // holds a zero byte is none.
        let through = folder.path().join("file/below");
        fs::write(folder.path().join("file"), "").unwrap();
        check_path(&through, "There is no such file or folder.");
        let no_name = "The system does not accept this name: it is too long or has a character that is not allowed. Choose a shorter one of letters and digits.";
        check_path(&folder.path().join("x".repeat(300)), no_name);
        check_path(&folder.path().join("a\0b"), no_name);
    }
}

#[test]
fn a_huge_file_is_refused_without_reading_it() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("huge.jawtrue");
    // One byte beyond 64 MiB. Sparse: it takes no room on the disk.
    let file = fs::File::create(&path).unwrap();
    file.set_len(67_108_865).unwrap();
    let problem = store::open(&path).unwrap_err();
    assert_eq!(problem, OpenProblem::TooLarge(67_108_865));
    // Far beyond.
    fs::File::create(&path).unwrap().set_len(1 << 30).unwrap();
    check_path(
        &path,
        "This file is too large to be a visit: it has 1024 MB, a visit has 16 MB at most. Choose a visit file (*.jawtrue).",
    );
}

#[test]
fn text_that_is_no_utf8_is_refused_with_its_place() {
    let text = session_text(&full()).unwrap();
    let at = text.find("jaw moved").unwrap();
    let bytes = [&text.as_bytes()[..at], b"\xe9", &text.as_bytes()[at..]].concat();
    check(
        bytes,
        &format!(
            "The file is damaged at {}: there is something other than text. {BACKUP}",
            place_of(&text, "jaw moved")
        ),
    );
}

#[test]
fn a_session_that_cannot_be_is_refused() {
    let text = session_text(&full()).unwrap();
    let unsound = |from: &str, to: &str, what: &str| {
        assert!(text.contains(from), "{from}");
        check(
            text.replacen(from, to, 1),
            &format!("The file can be read, but something in it can't be right: {what}"),
        );
    };
    unsound(
        "position: \"30 in\"",
        "position: \"40 in\"",
        "Arm C: must be on the jaw, 0 to 36″; this is 40″.",
    );
    unsound(
        "start_nuts: [0, 0, 0]",
        "start_nuts: [0, 0]",
        "Start of the visit: 3 nut positions are needed, one per arm; there are 2.",
    );
    unsound(
        "tolerance: \"0.003 in\"",
        "tolerance: \"3 in\"",
        "Tolerance on the spread: must be 0.00004″ to 0.39370″; this is 3″.",
    );
    unsound(
        "\"6.29mm\"",
        "\"62.9in\"",
        "Pass 1, measuring point 3, reading 1: must be 0.00394″ to 19.68504″; this is 62.9″.",
    );
    check(
        text.replace("\"B\"", "\"E\""),
        "The file can be read, but something in it can't be right: Arm B has no measuring point at its center; every arm needs one. Add it.",
    );
    unsound(
        "(at: \"C\"),",
        "(at: \"C\"), (at: \"D\"),",
        "A measuring point is at arm D, but the press has no such arm. Remove the point, or add the arm.",
    );
    unsound(
        "(station: \"B\"",
        "(station: \"C\"",
        "Pass 1: the readings of measuring point “B” should be here; these are for “C”.",
    );
    unsound(
        "(station: \"B\", readings",
        "(readings",
        "Pass 1: the readings of measuring point “B” should be here; these don't say of which point they are.",
    );
    unsound(
        "struck: [(reading: 2",
        "struck: [(reading: 3",
        "Pass 1, measuring point “A”: a remark is about reading 3, which is not there or already has a remark.",
    );
    unsound(
        "            ],\n        ),\n    ],\n",
        "            ],\n            bare_belt: (readings: [\"\", \"\", \"\"], struck: [(reading: 1)]),\n        ),\n    ],\n",
        "Pass 1: a remark is about reading 1 of the bare belt, which is not there or already has a remark.",
    );
    // One remark too many on a reading that is there.
    unsound(
        "struck: [(reading: 2",
        "struck: [(reading: 2), (reading: 2",
        "Pass 1, measuring point “A”: a remark is about reading 2, which is not there or already has \
         a remark.",
    );
    unsound(
        "unreadable: [(reading: 2",
        "unreadable: [(reading: 0",
        "Pass 1, measuring point “B”: a remark is about reading 0, which is not there or already has a remark.",
    );
}

#[test]
fn a_session_is_never_saved_unsound() {
    let mut session = full();
    session.start_nuts.pop();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("press.jawtrue");
    let problem = store::save(&path, &session, store::Expected::Nothing).unwrap_err();
    let figures = Figures::exact(Language::English, Unit::Inch);
    assert_eq!(
        figures.why_not_saved(&problem),
        "Not saved, because it could not be opened again. Start of the visit: 3 nut positions are needed, one per arm; there are 2."
    );
    assert!(!path.exists());
}

#[test]
fn counts_of_an_old_file_become_the_parts_of_its_jaw_drive() {
    let text = store::SampleSession::Pinched.text();
    let old = text.replace(
        "jaw_length: \"48 in\",",
        "jaw_length: \"48 in\", idler_sprockets: 3, short_chains: false,",
    );
    assert_ne!(old, text);
    let session = session_from_text(&old).unwrap();
    let noted = "idler sprockets: 3; short chains: none";
    assert_eq!(session.press.drive.parts, noted);
    let saved = session_text(&session).unwrap();
    assert_eq!(session_from_text(&saved).unwrap(), session);
    assert!(saved.contains(noted) && !saved.contains("idler_sprockets"));
}
