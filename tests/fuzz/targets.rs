//! Every way in, and what must hold of whatever comes out of it.

use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};

use jawtrue::cli::{self, Console, Outcome};
use jawtrue::session::Session;
use jawtrue::store::{
    self, CsvColumns, CsvReading, Expected, GaugeLines, LineEnd, OpenProblem, PracticeFile,
    SampleSession, csv_columns, csv_lines, open_practice, open_press, practice_text,
    readings_from_csv, save_press, session_from_text, session_text,
};
use jawtrue::units::{Sign, TypedLength, Unit};
use jawtrue::words::{Figures, Language};
use serde_json::Value;

use super::mutator::Chance;

/// Longest sentence that anything is answered with, in letters: nothing typed
/// is echoed whole.
const MOST_LETTERS: usize = 2_000;

/// A way in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    Session,
    Press,
    Lesson,
    Csv,
    Pasted,
    Length,
    Gauge,
}

/// What came of one input.
#[derive(Debug, Clone, Copy, Default)]
pub struct Came {
    /// Whether it was taken.
    pub taken: bool,
    /// Lines of JSON that were read again.
    pub lines: usize,
    /// Plans whose nuts were held against their limits.
    pub plans: usize,
}

/// Where files stand that are read from the disk.
pub struct Desk {
    folder: tempfile::TempDir,
}

impl Way {
    pub const ALL: [Self; 7] = [
        Self::Session,
        Self::Press,
        Self::Lesson,
        Self::Csv,
        Self::Pasted,
        Self::Length,
        Self::Gauge,
    ];

    /// Good inputs, to be spoiled.
    pub fn seeds(self) -> Vec<Vec<u8>> {
        let bytes = |texts: &[&str]| texts.iter().map(|text| text.as_bytes().to_vec()).collect();
        match self {
            Self::Session => sessions(),
            Self::Press => {
                let folder = tempfile::tempdir().unwrap();
                let path = folder.path().join("p.jawpress");
                let visits = sessions();
                visits
                    .iter()
                    .map(|visit| {
                        let session = session_from_text(std::str::from_utf8(visit).unwrap());
                        let mut record = jawtrue::session::PressRecord::of(&session.unwrap());
                        record.repaired = Some("2026-11-02".into());
                        save_press(&path, &record, Expected::Anything).unwrap();
                        fs::read(&path).unwrap()
                    })
                    .collect()
            }
            Self::Lesson => lessons(),
            Self::Csv | Self::Pasted => bytes(&[
                "arm,reading,unit\nA,0.2500,in\nB,6.30,mm\nC,\"0.2490\",in\n",
                "A;B;C\n0,2500;0,2510;0,2490\n0,2501;0,2511;0,2489\n",
                "A\tB\tC\n6.35\t6.36\t6.34\n6.35\t6,36\t\n",
                "estación,lectura,lectura,nota\r\nA,0.25,0.251,x\r\nB,0.26,,\r\nC,1/4,0.25,\r\n",
                "0.2500,0.2510,0.2490\n",
                "0,2500,0,2510,0,2490\n0,2500,0,2510,0,2490\n",
            ]),
            Self::Length => bytes(&[
                "0.2475",
                ".2475",
                "6.29 mm",
                "6,29",
                "247.5 thou",
                "1/4",
                "1 1/8 in",
                "-0.003\"",
                "+2 mm",
                "3″",
                "1,234.5",
                "0.25e0",
                "12'",
            ]),
            Self::Gauge => bytes(&[
                "  +0.2475 in\r\n",
                "M:  6.290mm\r\n0.2500\r\n-0.0012\r\n",
                "0.25,IN\r0.26,IN\r",
                "ERR 1\r\n\r\nH0.2475\r\n",
                "1,234\n12.5\n",
            ]),
        }
    }

    /// Puts one input in.
    ///
    /// # Panics
    /// Where something does not hold that must.
    pub fn put_in(self, bytes: &[u8], desk: &Desk, chance: &mut Chance) -> Came {
        let text = String::from_utf8_lossy(bytes);
        match self {
            Self::Session => session(bytes, desk, chance.below(8) == 0),
            Self::Press => press(bytes, desk),
            Self::Lesson => lesson(bytes, desk),
            Self::Csv => table(&text, chance, true),
            Self::Pasted => table(&text, chance, false),
            Self::Length => length(&text),
            Self::Gauge => gauge(bytes, chance),
        }
    }
}

impl Default for Desk {
    fn default() -> Self {
        // In memory, where there is such a place: the disk is not what is tried.
        let folder = tempfile::tempdir_in("/dev/shm").or_else(|_| tempfile::tempdir());
        Self {
            folder: folder.unwrap(),
        }
    }
}

impl Desk {
    pub fn lay(&self, name: &str, bytes: &[u8]) -> PathBuf {
        let path = self.folder.path().join(name);
        fs::write(&path, bytes).unwrap();
        path
    }
}

fn sessions() -> Vec<Vec<u8>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-sessions");
    let mut files: Vec<PathBuf> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "jawtrue"))
        .collect();
    files.sort();
    let mut all: Vec<Vec<u8>> = files.iter().map(|path| fs::read(path).unwrap()).collect();
    let built_in = SampleSession::default().session().unwrap();
    all.push(session_text(&built_in).unwrap().into_bytes());
    all
}

fn lessons() -> Vec<Vec<u8>> {
    let folder = tempfile::tempdir().unwrap();
    let said = |arguments: &[&str]| {
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let mut console = Console::new(Language::English, &mut out, &mut err);
        let arguments = arguments.iter().map(OsString::from);
        let outcome = cli::run(arguments, &mut console);
        assert_eq!(
            outcome,
            Outcome::Done(0),
            "{}",
            String::from_utf8_lossy(&err)
        );
    };
    let mut all = Vec::new();
    for (number, arms) in [("1", "2"), ("7", "4"), ("12", "6")] {
        let path = folder.path().join(format!("{number}.jawlesson"));
        let path = path.to_str().unwrap();
        said(&["practice", path, "--exercise", number, "--arms", arms]);
        all.push(fs::read(path).unwrap());
        let turned = vec!["+1"; arms.parse().unwrap()].join(",");
        said(&["practice", path, "--turned", &turned]);
        all.push(fs::read(path).unwrap());
    }
    all
}

/// What a person would be told, in both languages: something, of bounded
/// length.
fn tell(problem: &OpenProblem) {
    for language in Language::ALL {
        let sentence = Figures::exact(language, Unit::Inch).why_not_opened(problem);
        told(&sentence);
    }
}

fn told(sentence: &str) {
    assert!(!sentence.trim().is_empty());
    assert!(sentence.chars().count() < MOST_LETTERS, "{sentence}");
}

fn session(bytes: &[u8], desk: &Desk, plans: bool) -> Came {
    let path = desk.lay("s.jawtrue", bytes);
    let opened = match store::open(&path) {
        Ok(opened) => opened.session,
        Err(problem) => {
            tell(&problem);
            return Came::default();
        }
    };
    let text = written_again(&opened);
    assert_eq!(session_from_text(&text).as_ref(), Ok(&opened), "read again");
    let mut came = Came {
        taken: true,
        ..Came::default()
    };
    if plans {
        for command in ["judge", "plan"] {
            for line in json_lines(&[command, "--json"], &path) {
                came.lines += 1;
                chances_hold(&line);
                if command == "plan" {
                    came.plans += limits_hold(&line, &opened);
                }
            }
        }
    }
    came
}

fn written_again(session: &Session) -> String {
    session.check().expect("what was opened is sound");
    session_text(session).expect("what was opened can be written")
}

/// The lines a command answers with; each has to be one JSON object.
fn json_lines(command: &[&str], path: &Path) -> Vec<Value> {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let mut console = Console::new(Language::English, &mut out, &mut err);
    let arguments = command.iter().map(OsString::from);
    let arguments = arguments.chain([path.as_os_str().to_owned()]);
    assert!(matches!(
        cli::run(arguments, &mut console),
        Outcome::Done(_)
    ));
    told(&format!("-{}", String::from_utf8(err).unwrap()));
    let out = String::from_utf8(out).unwrap();
    let lines: Vec<Value> = out
        .lines()
        .map(|line| serde_json::from_str(line).unwrap_or_else(|error| panic!("{error}: {line}")))
        .collect();
    assert_eq!(lines.len(), 1, "{out}");
    assert!(lines[0].is_object(), "{out}");
    lines
}

/// Every chance, wherever it stands, lies between 0 and 1.
fn chances_hold(value: &Value) {
    match value {
        Value::Object(fields) => {
            for (name, value) in fields {
                let is_chance = matches!(name.as_str(), "chance" | "confidence" | "next_piece");
                if let (true, Some(chance)) = (is_chance, value.as_f64()) {
                    assert!((0.0..=1.0).contains(&chance), "{name}: {chance}");
                }
                chances_hold(value);
            }
        }
        Value::Array(values) => values.iter().for_each(chances_hold),
        _ => {}
    }
}

/// No plan turns a nut beyond its limits, or further out of them than it stood.
fn limits_hold(line: &Value, session: &Session) -> usize {
    let Some(last) = session.passes.last() else {
        return 0;
    };
    let mut plans = vec![&line["turns"], &line["smallest_spread"]["turns"]];
    if let Some(options) = line["options"].as_array() {
        plans.extend(options.iter().map(|option| &option["turns"]));
    }
    let plans: Vec<&Vec<Value>> = plans.iter().filter_map(|turns| turns.as_array()).collect();
    for turns in &plans {
        assert_eq!(turns.len(), session.press.arms.len(), "{line}");
        for ((turn, nut), arm) in turns.iter().zip(&last.nuts).zip(&session.press.arms) {
            let turn = turn.as_i64().expect("whole notches");
            if turn == 0 {
                continue;
            }
            let (from, may) = (i64::from(nut.0), arm.may_stand());
            let (least, most) = (i64::from(may.most_in.0), i64::from(may.most_out.0));
            let beyond = |at: i64| (least - at).max(at - most).max(0);
            assert!(
                beyond(from + turn) == 0 || beyond(from + turn) < beyond(from),
                "{turn} from {from}, limits {least} to {most}: {line}"
            );
        }
    }
    plans.len()
}

fn press(bytes: &[u8], desk: &Desk) -> Came {
    let path = desk.lay("p.jawpress", bytes);
    match open_press(&path) {
        Ok(opened) => {
            save_press(&path, &opened.record, Expected::Anything)
                .expect("what was opened is sound");
            assert_eq!(open_press(&path).unwrap().record, opened.record);
            Came {
                taken: true,
                ..Came::default()
            }
        }
        Err(problem) => {
            tell(&problem);
            Came::default()
        }
    }
}

fn lesson(bytes: &[u8], desk: &Desk) -> Came {
    let path = desk.lay("l.jawlesson", bytes);
    match open_practice(&path) {
        Ok(opened) => {
            let text = practice_text(&opened.file).expect("what was opened can be written");
            desk.lay("l.jawlesson", text.as_bytes());
            let again = open_practice(&path)
                .expect("what was written can be opened")
                .file;
            assert_eq!(practice_text(&again).unwrap(), text);
            if let PracticeFile::Work(practice, _) = &again {
                assert!(practice.notebook(None).check().is_ok());
            }
            Came {
                taken: true,
                ..Came::default()
            }
        }
        Err(problem) => {
            tell(&problem);
            Came::default()
        }
    }
}

fn table(text: &str, chance: &mut Chance, has_header: bool) -> Came {
    let stations = ["A", "B", "C"].map(str::to_owned);
    let mut reading = CsvReading {
        stations: &stations,
        bare: [Unit::Inch, Unit::Millimetre][chance.below(2)],
        columns: None,
        has_header,
    };
    if !has_header {
        // Pasted rows need no header where the columns are mapped by hand.
        reading.columns = csv_columns(text, &reading)
            .ok()
            .or(Some(CsvColumns::ByColumn(vec![Some(0), Some(1), Some(2)])));
        reading.has_header = chance.below(2) == 0;
    }
    let (lines, width) = csv_lines(text, 20, &reading);
    assert!(lines.len() <= 20 && lines.iter().all(|line| line.fields.len() <= width));
    match readings_from_csv(text, &reading) {
        Ok(found) => {
            assert_eq!(found.rows.len(), stations.len());
            Came {
                taken: true,
                ..Came::default()
            }
        }
        Err(problem) => {
            for language in Language::ALL {
                let sentences =
                    Figures::exact(language, Unit::Inch).csv_sentences(&problem, Unit::Inch);
                assert!(!sentences.is_empty() && sentences.len() <= store::MOST_PROBLEMS + 1);
                sentences.iter().for_each(|sentence| told(sentence));
            }
            Came::default()
        }
    }
}

fn length(text: &str) -> Came {
    let mut came = Came::default();
    for unit in [Unit::Inch, Unit::Millimetre] {
        for sign in [Sign::None, Sign::Either] {
            match TypedLength::parse(text, unit, sign) {
                Ok(typed) => {
                    came.taken = true;
                    // What is kept in a file reads as the same length again.
                    let other = [Unit::Millimetre, Unit::Inch][usize::from(unit != Unit::Inch)];
                    let again = TypedLength::parse(typed.text(), other, Sign::Either);
                    assert_eq!(
                        again.map(|again| again.length()),
                        Ok(typed.length()),
                        "{text:?}"
                    );
                }
                Err(problem) => {
                    for language in Language::ALL {
                        told(&language.length_problem("x", &problem, unit));
                    }
                }
            }
        }
    }
    came
}

fn gauge(bytes: &[u8], chance: &mut Chance) -> Came {
    let ends = [LineEnd::Either, LineEnd::CarriageReturn, LineEnd::LineFeed];
    let end = ends[chance.below(ends.len())];
    let at_once = |pieces: &mut dyn Iterator<Item = &[u8]>| {
        let mut lines = GaugeLines::ending(end);
        let mut found: Vec<_> = pieces.flat_map(|piece| lines.push(piece)).collect();
        found.extend(lines.flush());
        found
    };
    let whole = at_once(&mut [bytes].into_iter());
    let size = chance.below(7) + 1;
    assert_eq!(
        whole,
        at_once(&mut bytes.chunks(size)),
        "in pieces of {size}"
    );
    // A megabyte of bare line ends would say the same a million times.
    for found in whole.iter().take(1_000) {
        if let Err(problem) = found {
            for language in Language::ALL {
                told(&language.gauge_line_problem(problem));
            }
        }
    }
    Came {
        taken: whole.iter().any(Result::is_ok),
        ..Came::default()
    }
}
