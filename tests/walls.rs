//! The walls between the rooms: no room knows what stands above it, the lower
//! rooms know no screen, file or clock, sentences stand in `words` alone,
//! colours in the window's theme, and no file grows without end.
//!
//! Rust checks nothing of this within one crate, so this test reads the
//! sources. What differs from machine to machine or outlives a call (hash maps,
//! logarithms of the system, global state) is refused by clippy: `clippy.toml`.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use proc_macro2::{Delimiter, TokenStream, TokenTree};

/// A room, and what its sources may name.
struct Room {
    name: &'static str,
    /// Of the rooms before it in the table, those that it must not know.
    not: &'static [&'static str],
    /// Packages it may use.
    packages: &'static [&'static str],
    /// Whether it computes only: no file, clock or thread.
    computes_only: bool,
}

/// A room of the table.
const fn room(
    name: &'static str,
    not: &'static [&'static str],
    packages: &'static [&'static str],
    computes_only: bool,
) -> Room {
    Room {
        name,
        not,
        packages,
        computes_only,
    }
}

/// The rooms, in the order in which they may know each other.
const ROOMS: [Room; 14] = [
    room("codec", &[], &["ron", "serde"], true),
    room("units", &[], &["serde"], true),
    room(
        "stats",
        &["codec", "units"],
        &["libm", "rand_core", "rand_pcg"],
        true,
    ),
    room(
        "press",
        &["stats"],
        &["fearless_simd", "libm", "serde"],
        true,
    ),
    room("splice", &[], &["libm", "serde"], true),
    room("plan", &[], &["libm", "serde"], true),
    room("session", &[], &["jiff", "libm", "serde"], true),
    room("practice", &[], &["libm"], true),
    room("shop", &[], &["libm", "serde"], true),
    room(
        "store",
        &[],
        &[
            "csv",
            "directories",
            "jiff",
            "notify",
            "postcard",
            "ron",
            "rustix",
            "serde",
            "serde_json",
        ],
        false,
    ),
    room("words", &["codec"], &[], false),
    room(
        "report",
        &["codec", "practice", "shop", "store"],
        &[
            "epaint_default_fonts",
            "krilla",
            "libm",
            "skrifa",
            "tiny_skia",
        ],
        true,
    ),
    room("cli", &["codec"], &["lexopt", "serde", "serde_json"], false),
    room(
        "window",
        &["cli"],
        &[
            "eframe",
            "egui",
            "egui_plot",
            "pollster",
            "rfd",
            "serde",
            "serial2",
            "viewer",
            "wgpu",
        ],
        false,
    ),
];

/// The outer world, which rooms that compute only must not name: modules of
/// `std`.
const OUTER_WORLD: [&str; 7] = ["fs", "io", "env", "net", "process", "thread", "time"];

/// Most lines of one source file.
const MOST_LINES: usize = 600;

/// A word, sign, bracket or text of a source.
#[derive(Debug)]
struct Token {
    text: String,
    in_attribute: bool,
}

/// A source file, taken apart by the parser of the compiler's own macros.
struct Source {
    path: PathBuf,
    text: String,
    /// All but the comments.
    tokens: Vec<Token>,
    /// Which of them are no tests.
    no_tests: usize,
}

impl Source {
    fn read(path: PathBuf) -> Self {
        let text = fs::read_to_string(&path).unwrap();
        assert!(
            text.starts_with("//!"),
            "{path:?}: expected a line at its head that says what it is"
        );
        let tokens = taken_apart(&text);
        let tests = ["#", "[", "cfg", "(", "test", ")", "]"];
        let is_tests = |at: &[Token]| at.iter().map(|token| &*token.text).eq(tests);
        Self {
            path,
            text,
            no_tests: tokens
                .windows(tests.len())
                .position(is_tests)
                .unwrap_or(tokens.len()),
            tokens,
        }
    }

    /// What is no test.
    fn no_tests(&self) -> &[Token] {
        &self.tokens[..self.no_tests]
    }

    /// A fault about `name`, and the line on which that first stands.
    fn fault(&self, name: &str, what: &str) -> String {
        let line = self.text.lines().position(|line| line.contains(name));
        let line = line.map_or(0, |index| index + 1);
        format!("{}:{line}: {what}", self.path.display())
    }
}

fn taken_apart(text: &str) -> Vec<Token> {
    let mut tokens = Vec::new();
    take_apart(text.parse().unwrap(), false, &mut tokens);
    tokens
}

fn take_apart(stream: TokenStream, in_attribute: bool, into: &mut Vec<Token>) {
    for tree in stream {
        let TokenTree::Group(group) = tree else {
            let text = tree.to_string();
            into.push(Token { text, in_attribute });
            continue;
        };
        let (opens, closes) = match group.delimiter() {
            Delimiter::Parenthesis => ("(", ")"),
            Delimiter::Brace => ("{", "}"),
            Delimiter::Bracket => ("[", "]"),
            Delimiter::None => ("", ""),
        };
        let after_mark = matches!(into.last(), Some(token) if ["#", "!"].contains(&&*token.text));
        let in_attribute = in_attribute || opens == "[" && after_mark;
        let bracket = |text: &str| Token {
            text: text.to_owned(),
            in_attribute,
        };
        into.push(bracket(opens));
        let begins = into.len();
        take_apart(group.stream(), in_attribute, into);
        // What is said in comments is no code.
        if in_attribute && into.get(begins).is_some_and(|name| name.text == "doc") {
            into.truncate(begins);
        }
        into.push(bracket(closes));
    }
}

fn is_name(token: &Token) -> bool {
    token
        .text
        .starts_with(|c: char| c == '_' || c.is_alphabetic())
        && !token.text.contains('"')
}

/// The names that stand at the head of a path.
fn heads_of_paths(tokens: &[Token]) -> impl Iterator<Item = &str> {
    let is = |at: usize, text: &str| tokens.get(at).is_some_and(|token| token.text == text);
    (0..tokens.len()).filter_map(move |at| {
        let within = at > 1 && is(at - 1, ":") && is(at - 2, ":");
        let heads = is_name(&tokens[at]) && is(at + 1, ":") && is(at + 2, ":");
        (heads && !within).then_some(&*tokens[at].text)
    })
}

/// The names that follow `head::` at once, or in braces.
fn names_after<'a>(tokens: &'a [Token], head: &str) -> Vec<&'a str> {
    let mut found = Vec::new();
    for (at, path) in tokens.windows(4).enumerate() {
        if path[0].text != head || path[1].text != ":" || path[2].text != ":" {
            continue;
        }
        if path[3].text != "{" {
            found.push(&*path[3].text);
            continue;
        }
        let mut depth = 0;
        for pair in tokens[at + 3..].windows(2) {
            match &*pair[0].text {
                "{" => depth += 1,
                "}" => depth -= 1,
                _ => {}
            }
            if depth == 0 {
                break;
            }
            if depth == 1 && ["{", ","].contains(&&*pair[0].text) && is_name(&pair[1]) {
                found.push(&*pair[1].text);
            }
        }
    }
    found
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

fn packages() -> BTreeSet<String> {
    let manifest = Path::new(env!("CARGO_MANIFEST_DIR")).join("Cargo.toml");
    let manifest = fs::read_to_string(manifest).unwrap();
    let mut packages: BTreeSet<String> = manifest
        .lines()
        .skip_while(|line| *line != "[dependencies]")
        .skip(1)
        .take_while(|line| !line.starts_with('['))
        .filter_map(|line| line.split_once(" = "))
        .map(|(name, _)| name.replace('-', "_"))
        .collect();
    // The toolkit reaches the sources through eframe.
    packages.insert("egui".into());
    assert!(packages.len() > 5, "{packages:?}");
    packages
}

fn report(faults: &[String]) {
    assert!(faults.is_empty(), "\n{}\n", faults.join("\n"));
}

#[test]
fn every_room_stands_in_the_table() {
    let mut found: Vec<String> = fs::read_dir(source_folder())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    found.sort();
    let mut named: Vec<&str> = ROOMS.iter().map(|room| room.name).collect();
    named.extend(["lib.rs", "main.rs"]);
    named.sort_unstable();
    assert_eq!(found, named);
}

#[test]
fn no_room_knows_what_it_must_not() {
    let packages = packages();
    let mut faults = Vec::new();
    for (place, room) in ROOMS.iter().enumerate() {
        let above = &ROOMS[place + 1..];
        let must_not_know: Vec<&str> = above.iter().map(|above| above.name).collect();
        for source in sources(&source_folder().join(room.name)) {
            for other in names_after(&source.tokens, "crate") {
                if must_not_know.contains(&other) || room.not.contains(&other) {
                    let what = format!("`{}` must not know `{other}`", room.name);
                    faults.push(source.fault(other, &what));
                }
            }
            for package in heads_of_paths(source.no_tests()) {
                if packages.contains(package) && !room.packages.contains(&package) {
                    let what = format!("`{}` must not use the package {package}", room.name);
                    faults.push(source.fault(package, &what));
                }
            }
            let outer = names_after(source.no_tests(), "std").into_iter();
            for name in outer.filter(|_| room.computes_only) {
                if OUTER_WORLD.contains(&name) {
                    let what = format!("`{}` must not use `std::{name}`", room.name);
                    faults.push(source.fault(name, &what));
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
            // Attributes speak to programmers.
            let texts = source.no_tests().iter();
            for token in texts.filter(|token| token.text.contains('"') && !token.in_attribute) {
                if reads_like_a_sentence(&token.text) {
                    faults.push(source.fault(&token.text, &token.text));
                }
            }
        }
    }
    report(&faults);
}

#[test]
fn colours_stand_in_the_theme_alone() {
    let named = ["BLACK", "WHITE", "RED", "GREEN", "BLUE", "YELLOW", "GRAY"];
    let made = |name: &str| {
        let made = ["from_rgb", "from_gray", "hex_color"];
        made.iter().any(|begins| name.starts_with(begins))
    };
    let mut faults = Vec::new();
    let sources = sources(&source_folder().join("window")).into_iter();
    for source in sources.filter(|source| !source.path.ends_with("theme.rs")) {
        let colours = names_after(source.no_tests(), "Color32").into_iter();
        let colours = colours.filter(|name| named.contains(name) || name.starts_with("from_"));
        let names = source.no_tests().iter().map(|token| &*token.text);
        let colours = colours.chain(names.filter(|name| made(name)));
        faults.extend(colours.map(|name| source.fault(name, name)));
    }
    report(&faults);
}

#[test]
fn no_file_grows_without_end() {
    let faults: Vec<String> = sources(&source_folder())
        .into_iter()
        .map(|source| (source.text.lines().count(), source.path))
        .filter(|(lines, _)| *lines > MOST_LINES)
        .map(|(lines, path)| format!("{}: {lines} lines", path.display()))
        .collect();
    report(&faults);
}

#[test]
fn the_test_itself_can_see() {
    let tokens = taken_apart(
        "// std::fs \"x\n/// std::io\nlet x = egui::Ui::new(crate::words::Language::English);
         #[expect(lint, reason = \"said to programmers\")]
         use crate::{store::{self, open}, window::App};\nuse std::{fmt, env};",
    );
    let heads: Vec<&str> = heads_of_paths(&tokens).collect();
    assert_eq!(heads, ["egui", "crate", "crate", "store", "window", "std"]);
    let rooms = names_after(&tokens, "crate");
    assert_eq!(rooms, ["words", "store", "window"]);
    assert_eq!(names_after(&tokens, "std"), ["fmt", "env"]);
    let mut texts = tokens.iter().filter(|token| token.text.contains('"'));
    assert!(texts.all(|text| text.in_attribute));
    assert!(reads_like_a_sentence("Not saved: the disk is full."));
    assert!(!reads_like_a_sentence("{name} {unit} x"));
    assert!(!reads_like_a_sentence("../sample-sessions/bow.jawtrue"));
}
