//! The walls between the rooms: no room knows what stands above it, the lower
//! rooms know no screen, file, clock or chance, sentences stand in `words`
//! alone, colours in the window's theme, and no file grows without end.
//!
//! Rust checks nothing of this within one crate, so this test reads the
//! sources.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// A room, and what its sources may name.
struct Room {
    name: &'static str,
    /// Rooms it may know.
    knows: &'static [&'static str],
    /// Packages it may use.
    packages: &'static [&'static str],
    /// Whether it computes only: no file, clock, thread or global state.
    computes_only: bool,
}

const ROOMS: [Room; 13] = [
    Room {
        name: "units",
        knows: &[],
        packages: &[],
        computes_only: true,
    },
    Room {
        name: "stats",
        knows: &[],
        packages: &["libm", "rand_core", "rand_pcg"],
        computes_only: true,
    },
    Room {
        name: "press",
        knows: &["units"],
        packages: &["libm"],
        computes_only: true,
    },
    Room {
        name: "splice",
        knows: &["units", "stats", "press"],
        packages: &["libm"],
        computes_only: true,
    },
    Room {
        name: "plan",
        knows: &["units", "stats", "press", "splice"],
        packages: &["libm"],
        computes_only: true,
    },
    Room {
        name: "session",
        knows: &["units", "stats", "press", "splice", "plan"],
        packages: &["libm"],
        computes_only: true,
    },
    Room {
        name: "practice",
        knows: &["units", "stats", "press", "splice", "plan", "session"],
        packages: &["libm"],
        computes_only: true,
    },
    Room {
        name: "shop",
        knows: &["units", "stats", "press", "splice", "plan", "session"],
        packages: &["libm"],
        computes_only: true,
    },
    Room {
        name: "store",
        knows: &[
            "units", "stats", "press", "splice", "plan", "session", "practice", "shop",
        ],
        packages: &["csv", "directories", "jiff", "ron", "rustix", "serde"],
        computes_only: false,
    },
    Room {
        name: "words",
        knows: &[
            "units", "stats", "press", "splice", "plan", "session", "practice", "shop", "store",
        ],
        packages: &[],
        computes_only: false,
    },
    Room {
        name: "report",
        knows: &[
            "units", "stats", "press", "splice", "plan", "session", "words",
        ],
        packages: &[
            "epaint_default_fonts",
            "krilla",
            "libm",
            "skrifa",
            "tiny_skia",
        ],
        computes_only: true,
    },
    Room {
        name: "cli",
        knows: &[
            "units", "stats", "press", "splice", "plan", "session", "practice", "shop", "store",
            "words", "report",
        ],
        packages: &["lexopt", "serde", "serde_json"],
        computes_only: false,
    },
    Room {
        name: "window",
        knows: &[
            "units", "stats", "press", "splice", "plan", "session", "practice", "shop", "store",
            "words", "report",
        ],
        packages: &[
            "eframe",
            "egui",
            "egui_plot",
            "pollster",
            "rfd",
            "serial2",
            "viewer",
            "wgpu",
        ],
        computes_only: false,
    },
];

/// What rooms that compute only must not name: the outer world, state that
/// outlives a call, and what differs from run to run or machine to machine.
const OUTER_WORLD: [&str; 31] = [
    "std::fs",
    "std::io",
    "std::env",
    "std::net",
    "std::process",
    "std::thread",
    "std::time",
    "static mut",
    "thread_local!",
    "OnceLock",
    "OnceCell",
    "LazyLock",
    "HashMap",
    "HashSet",
    "RandomState",
    "println!",
    "eprintln!",
    ".exp()",
    ".exp_m1()",
    ".ln()",
    ".ln_1p()",
    ".log10()",
    ".log2()",
    ".sin()",
    ".cos()",
    ".tan()",
    ".tanh()",
    ".cbrt()",
    ".hypot(",
    ".powf(",
    ".mul_add(",
];

/// Most lines of one source file.
const MOST_LINES: usize = 600;

/// A source file in pieces.
struct Source {
    path: PathBuf,
    /// The code, every comment and the inside of every text blanked out.
    code: String,
    /// The texts, with the number of the line each begins on.
    texts: Vec<(usize, String)>,
    lines: usize,
    /// The line on which its tests begin, or one after its end.
    tests_from: usize,
}

impl Source {
    fn read(path: PathBuf) -> Self {
        let text = fs::read_to_string(&path).unwrap();
        assert!(
            text.starts_with("//!"),
            "{path:?}: expected a line at its head that says what it is"
        );
        let (code, texts) = taken_apart(&text);
        let lines = text.lines().count();
        let tests_from = code
            .lines()
            .position(|line| line.trim() == "#[cfg(test)]")
            .map_or(lines + 1, |index| index + 1);
        Self {
            path,
            code,
            texts,
            lines,
            tests_from,
        }
    }

    /// The lines of code that are no tests, numbered.
    fn code_lines(&self) -> impl Iterator<Item = (usize, &str)> {
        (1..)
            .zip(self.code.lines())
            .take_while(|(line, _)| *line < self.tests_from)
    }
}

/// Code without comments and texts, and the texts.
fn taken_apart(text: &str) -> (String, Vec<(usize, String)>) {
    let letters: Vec<char> = text.chars().collect();
    let at = |index: usize| letters.get(index).copied().unwrap_or('\0');
    let (mut code, mut texts) = (String::new(), Vec::new());
    let (mut index, mut line) = (0, 1);
    while index < letters.len() {
        let letter = at(index);
        if letter == '/' && at(index + 1) == '/' {
            while index < letters.len() && at(index) != '\n' {
                index += 1;
            }
        } else if letter == '"'
            || (letter == 'r' && (at(index + 1) == '"' || at(index + 1) == '#'))
                && !is_word(code.chars().last())
                && raw_text_at(&letters, index)
        {
            let begins_on = line;
            let raw = letter == 'r';
            let mut hashes = 0;
            if raw {
                index += 1;
                while at(index) == '#' {
                    hashes += 1;
                    index += 1;
                }
            }
            index += 1;
            let mut inside = String::new();
            loop {
                assert!(index < letters.len(), "a text without end");
                if at(index) == '\n' {
                    line += 1;
                }
                if !raw && at(index) == '\\' {
                    inside.extend([at(index), at(index + 1)]);
                    line += usize::from(at(index + 1) == '\n');
                    index += 2;
                    continue;
                }
                let closes = at(index) == '"' && (1..=hashes).all(|n| at(index + n) == '#');
                if closes {
                    index += 1 + hashes;
                    break;
                }
                inside.push(at(index));
                index += 1;
            }
            code.push_str("\"\"");
            code.extend(std::iter::repeat_n('\n', line - begins_on));
            texts.push((begins_on, inside));
        } else if letter == '\'' && (at(index + 2) == '\'' || at(index + 1) == '\\') {
            // A letter in single quotes, not a lifetime.
            index += 1;
            if at(index) == '\\' {
                index += 1;
            }
            index += 1;
            while at(index) != '\'' {
                index += 1;
            }
            index += 1;
            code.push_str("' '");
        } else {
            line += usize::from(letter == '\n');
            code.push(letter);
            index += 1;
        }
    }
    (code, texts)
}

fn is_word(letter: Option<char>) -> bool {
    letter.is_some_and(|letter| letter.is_alphanumeric() || letter == '_')
}

/// Whether `r"` or `r#"` stands here, and not a raw name such as `r#type`.
fn raw_text_at(letters: &[char], index: usize) -> bool {
    letters[index..]
        .iter()
        .skip(1)
        .find(|letter| **letter != '#')
        == Some(&'"')
}

fn sources(folder: &Path) -> Vec<Source> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(sources(&path));
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(Source::read(path));
        }
    }
    found.sort_by(|left, right| left.path.cmp(&right.path));
    found
}

fn source_folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}

/// The names that stand in code right before `::` at the head of a path, or
/// after `crate::`.
fn heads_of_paths(line: &str) -> (BTreeSet<String>, BTreeSet<String>) {
    let (mut heads, mut rooms) = (BTreeSet::new(), BTreeSet::new());
    let (mut rest, mut within) = (line, false);
    while let Some((before, after)) = rest.split_once("::") {
        let name_length = before
            .chars()
            .rev()
            .take_while(|c| is_word(Some(*c)))
            .count();
        let name = &before[before.len() - name_length..];
        // What follows another name and `::` at once is no head.
        let within = std::mem::replace(&mut within, true) && name_length == before.len();
        if !within && !name.is_empty() {
            heads.insert(name.to_owned());
        }
        if name == "crate" && !within {
            let room: String = after.chars().take_while(|c| is_word(Some(*c))).collect();
            if room.is_empty() {
                // `use crate::{a, b}`: the names stand in the braces.
                let names = after.trim_start_matches('{').split([',', '}', ':']);
                rooms.extend(names.map(|name| name.trim().to_owned()));
            } else {
                rooms.insert(room);
            }
        }
        rest = after;
    }
    (heads, rooms)
}

fn packages() -> Vec<String> {
    let manifest = Path::new(env!("CARGO_MANIFEST_DIR")).join("Cargo.toml");
    let manifest = fs::read_to_string(manifest).unwrap();
    let mut packages: Vec<String> = manifest
        .lines()
        .skip_while(|line| *line != "[dependencies]")
        .skip(1)
        .take_while(|line| !line.starts_with('['))
        .filter_map(|line| line.split_once(" = "))
        .map(|(name, _)| name.replace('-', "_"))
        .collect();
    // The toolkit reaches the sources through eframe.
    packages.push("egui".into());
    assert!(packages.len() > 5, "{packages:?}");
    packages
}

fn report(faults: &[String]) {
    assert!(faults.is_empty(), "\n{}\n", faults.join("\n"));
}

#[test]
fn every_room_stands_in_the_table() {
    let mut rooms: Vec<String> = fs::read_dir(source_folder())
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.is_dir())
        .map(|path| path.file_name().unwrap().to_str().unwrap().to_owned())
        .collect();
    rooms.sort();
    let mut named: Vec<&str> = ROOMS.iter().map(|room| room.name).collect();
    named.sort_unstable();
    assert_eq!(rooms, named);
    let mut files: Vec<PathBuf> = fs::read_dir(source_folder())
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.is_file())
        .collect();
    files.sort();
    assert!(
        files
            .iter()
            .all(|file| file.ends_with("lib.rs") || file.ends_with("main.rs"))
    );
}

#[test]
fn no_room_knows_what_it_must_not() {
    let packages = packages();
    let names: BTreeSet<&str> = ROOMS.iter().map(|room| room.name).collect();
    let mut faults = Vec::new();
    for room in &ROOMS {
        for source in sources(&source_folder().join(room.name)) {
            for (number, line) in (1..).zip(source.code.lines()) {
                let (heads, rooms) = heads_of_paths(line);
                let other = rooms.iter().filter(|other| names.contains(other.as_str()));
                for other in other.filter(|other| *other != room.name) {
                    if !room.knows.contains(&other.as_str()) {
                        faults.push(format!(
                            "{}:{number}: `{}` must not know `{other}`",
                            source.path.display(),
                            room.name
                        ));
                    }
                }
                if number >= source.tests_from {
                    continue;
                }
                for package in packages.iter().filter(|package| heads.contains(*package)) {
                    if !room.packages.contains(&package.as_str()) {
                        faults.push(format!(
                            "{}:{number}: `{}` must not use the package {package}",
                            source.path.display(),
                            room.name
                        ));
                    }
                }
            }
        }
    }
    report(&faults);
}

#[test]
fn the_lower_rooms_compute_and_nothing_else() {
    let mut faults = Vec::new();
    for room in ROOMS.iter().filter(|room| room.computes_only) {
        for source in sources(&source_folder().join(room.name)) {
            for (number, line) in source.code_lines() {
                for found in OUTER_WORLD.iter().filter(|name| line.contains(**name)) {
                    faults.push(format!(
                        "{}:{number}: `{}` must not use `{found}`",
                        source.path.display(),
                        room.name
                    ));
                }
            }
        }
    }
    report(&faults);
}

/// Whether a text reads like a sentence: three words in a row, of two letters
/// or more, parted by single blanks.
fn reads_like_a_sentence(text: &str) -> bool {
    let words: Vec<bool> = text
        .split(' ')
        .map(|word| {
            // What stands in braces is filled in later.
            let word = if word.contains(['{', '}']) { "" } else { word };
            let word = word.trim_matches(|c: char| c.is_ascii_punctuation());
            word.chars().count() >= 2 && word.chars().all(char::is_alphabetic)
        })
        .collect();
    words
        .windows(3)
        .any(|three| three.iter().all(|is_word| *is_word))
}

#[test]
fn sentences_stand_in_words_alone() {
    let mut faults = Vec::new();
    for room in ROOMS.iter().filter(|room| room.name != "words") {
        for source in sources(&source_folder().join(room.name)) {
            let lines: Vec<&str> = source.code.lines().collect();
            for (number, text) in &source.texts {
                // Attributes speak to programmers.
                let attribute = lines
                    .get(number - 1)
                    .is_some_and(|line| line.trim_start().starts_with("#["));
                if *number < source.tests_from && !attribute && reads_like_a_sentence(text) {
                    faults.push(format!("{}:{number}: {text:?}", source.path.display()));
                }
            }
        }
    }
    report(&faults);
}

#[test]
fn colours_stand_in_the_theme_alone() {
    let mut faults = Vec::new();
    for source in sources(&source_folder().join("window")) {
        if source.path.ends_with("theme.rs") {
            continue;
        }
        for (number, line) in source.code_lines() {
            let made = [
                "from_rgb",
                "from_gray",
                "from_rgba",
                "Color32::from_",
                "hex_color!",
            ];
            let named = ["BLACK", "WHITE", "RED", "GREEN", "BLUE", "YELLOW", "GRAY"];
            let named = named
                .iter()
                .any(|name| line.contains(&format!("Color32::{name}")));
            if named || made.iter().any(|name| line.contains(name)) {
                faults.push(format!(
                    "{}:{number}: {}",
                    source.path.display(),
                    line.trim()
                ));
            }
        }
    }
    report(&faults);
}

#[test]
fn no_file_grows_without_end() {
    let faults: Vec<String> = sources(&source_folder())
        .into_iter()
        .filter(|source| source.lines > MOST_LINES)
        .map(|source| format!("{}: {} lines", source.path.display(), source.lines))
        .collect();
    report(&faults);
}

#[test]
fn the_test_itself_can_see() {
    let text = "// std::fs \"x\nlet a = \"two \\\" words\\\n  more\"; let b = r#\"raw \"x\"\"#;\n\
         let c = '\"'; let d: &'static str = \"\"; fn f<'a>(r: &'a str) {}\nuse crate::units::{X};";
    let (code, texts) = taken_apart(text);
    assert!(
        !code.contains("std::fs") && code.contains("crate::units"),
        "{code}"
    );
    assert_eq!(code.lines().count(), text.lines().count());
    let found: Vec<(usize, &str)> = texts.iter().map(|(n, text)| (*n, text.as_str())).collect();
    let expected = [(2, "two \\\" words\\\n  more"), (3, "raw \"x\""), (4, "")];
    assert_eq!(found, expected);
    let (heads, rooms) = heads_of_paths("let x = egui::Ui::new(crate::words::Language::English);");
    assert!(heads.contains("egui") && !heads.contains("Ui"), "{heads:?}");
    assert!(rooms.contains("words"), "{rooms:?}");
    let (_, rooms) = heads_of_paths("use crate::{store, window::App};");
    assert!(
        rooms.contains("store") && rooms.contains("window"),
        "{rooms:?}"
    );
    assert!(reads_like_a_sentence("Not saved: the disk is full."));
    assert!(!reads_like_a_sentence("{name} {unit} x"));
    assert!(!reads_like_a_sentence("../sample-sessions/bow.jawtrue"));
}
