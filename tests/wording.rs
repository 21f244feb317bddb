//! What no text may say, and that every text is said somewhere: read from the
//! sources, so that a sentence nobody meets in a test is looked at too.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use jawtrue::words::Language;

#[path = "support/inches.rs"]
mod inches;

/// A text in both languages.
struct Text {
    /// Its method; of a table of names, that and what is named.
    name: String,
    file: PathBuf,
    said: [String; 2],
}

/// British spellings and stiff or private words, with what a shop says.
const PLAIN_ENGLISH: &[(&str, &str)] = &[
    ("learnt", "learned"),
    ("millimetre", "millimeter"),
    ("micrometres", "micrometers"),
    ("nanometres", "nanometers"),
    ("neighbour", "neighbor"),
    ("centre", "center"),
    ("colour", "color"),
    ("licence", "license"),
    ("per cent", "%"),
    ("tick", "check off"),
    ("ticked", "checked off"),
    ("foretold", "predicted"),
    ("reckoned", "calculated"),
    ("proud", "too open"),
    ("parted", "separated"),
    ("settle", "decide"),
    ("struck", "crossed out"),
    ("strike", "cross out"),
    ("stands at", "is at"),
    ("as they stand", "as they are now"),
    ("hangs", "is low"),
    ("presses known to us", "nothing: ask for this press"),
    ("plain comparison", "inside the tolerance"),
    ("licensed practice", "qualified people"),
    ("everybody", "everyone"),
    ("session", "visit"),
];

/// The same in Spanish, with what would be taken for tú or misread.
const PLAIN_SPANISH: &[(&str, &str)] = &[
    ("intro", "Enter"),
    ("mayús", "Shift"),
    ("la media", "el promedio"),
    ("vuelta", "ronda"),
    ("grupo", "cuadrilla"),
    ("ojal", "ojillo"),
    ("ojale", "ojillo"),
    ("sesión", "visita"),
    ("sin fuente", "sin referencia"),
    ("tosco", "de poca resolución"),
    ("tú", "usted"),
    ("tu", "su"),
    ("tus", "sus"),
    ("banda sola", "banda sin ganchos"),
    ("comparación simple", "dentro de la tolerancia"),
    ("demasiado justo", "muy cerca del límite"),
    ("prensas que conocemos", "nada: pregunte por esta prensa"),
    ("trabada", "bloqueada"),
    ("medidor", "instrumento"),
];

/// Where such a word is right.
const RIGHT_HERE: &[(&str, &str)] = &[
    // Pins kept together.
    ("step_text.PinsOut", "junta"),
    // A lock on a switch.
    ("step_watch.LockedOut", "hangs"),
    // A key of JSON.
    ("help_practice", "station"),
    // Those that are cut into a nut.
    ("out_backs_off", "slot"),
    ("in_runs_in", "slot"),
    // Of knuckles, and of users of a computer.
    ("study_categories", "grupo"),
    ("port_denied", "grupo"),
    // There and back.
    ("gauge_there_and_back", "vuelta"),
    ("guided_there_and_back", "vuelta"),
    ("guided_way_hint", "vuelta"),
    ("guided_once_there_and_back", "vuelta"),
    ("guided_times_there_and_back", "vuelta"),
    ("walk_there_and_back", "vuelta"),
    ("drift_cancelled", "vuelta"),
    ("step_text.NutsFlush", "vuelta"),
];

fn sources(folder: &str) -> Vec<(PathBuf, String)> {
    let mut found = Vec::new();
    let mut folders = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join(folder)];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|end| end == "rs") {
                let text = fs::read_to_string(&path).unwrap();
                // Tests say what they like.
                let text = text.split("#[cfg(test)]\nmod tests").next();
                // Tables of names are read as those of texts.
                found.push((path, text.unwrap().replace("\nnames! {", "\ntexts! {")));
            }
        }
    }
    found.sort();
    found
}

/// The string literal that begins in `source` after `key`, and what follows.
fn literal<'a>(source: &'a str, key: &str) -> Option<(String, &'a str)> {
    let rest = &source[source.find(key)? + key.len()..];
    let rest = rest.trim_start().strip_prefix('"')?;
    let mut escaped = false;
    let end = rest.find(|c: char| {
        let ends = c == '"' && !escaped;
        escaped = c == '\\' && !escaped;
        ends
    })?;
    Some((rest[..end].replace("\\\n", ""), &rest[end + 1..]))
}

fn texts() -> Vec<Text> {
    let mut texts = Vec::new();
    for (file, source) in sources("src/words") {
        for table in source.split("\ntexts! {").skip(1) {
            let mut rest = table;
            let mut method = String::new();
            while let Some(at) = rest.find("en:") {
                let head = rest[..at].trim_end().trim_end_matches('{').trim_end();
                let mut lines = head.lines().rev();
                let line = lines.next().unwrap_or_default().trim();
                if let Some(names) = lines.find_map(|line| line.strip_suffix(") {")) {
                    let (name, _) = names.rsplit_once('(').unwrap();
                    method = format!("{}.", name.trim().rsplit(' ').next().unwrap());
                }
                let own = line.split('(').next().unwrap().trim();
                let name = format!("{method}{own}");
                let (en, after) = literal(rest, "en:").unwrap();
                let (es, after) = literal(after, "es:").unwrap();
                rest = after;
                texts.push(Text {
                    name,
                    file: file.clone(),
                    said: [en, es],
                });
            }
        }
    }
    assert!(texts.len() > 1_000, "{}", texts.len());
    texts
}

/// What is said, without holes, options and names of fields.
fn words_of(text: &str) -> String {
    let mut plain = String::new();
    let mut depth = 0;
    for c in text.chars() {
        match c {
            '{' | '[' => depth += 1,
            '}' | ']' => depth -= 1,
            c if depth == 0 => plain.extend(c.to_lowercase()),
            _ => {}
        }
    }
    let words = plain.split_whitespace();
    let words: Vec<&str> = words.filter(|word| !word.starts_with("--")).collect();
    let spoken: String = words
        .join(" ")
        .chars()
        .map(|c| {
            if c.is_alphanumeric() || c == '-' {
                c
            } else {
                ' '
            }
        })
        .collect();
    format!(
        " {} ",
        spoken.split_whitespace().collect::<Vec<_>>().join(" ")
    )
}

/// A word or phrase, one and several, with blanks around.
fn forms(word: &str) -> [String; 4] {
    let all: Vec<String> = word.split(' ').map(|word| format!("{word}s")).collect();
    [
        format!(" {word} "),
        format!(" {word}s "),
        format!(" {} ", all.join(" ")),
        format!(" {}ones ", word.trim_end_matches("ón")),
    ]
}

#[test]
fn one_word_for_one_thing_in_plain_words() {
    let mut wrong = Vec::new();
    for text in texts() {
        if text.file.ends_with("glossary.rs") {
            continue;
        }
        for (at, language) in Language::ALL.into_iter().enumerate() {
            let said = words_of(&text.said[at]);
            let table: Vec<(&str, &str)> = language
                .glossary()
                .into_iter()
                .flat_map(|word| word.also.iter().map(move |also| (*also, word.name)))
                .collect();
            let plain = [PLAIN_ENGLISH, PLAIN_SPANISH][at];
            for (word, better) in table.iter().chain(plain) {
                let right = RIGHT_HERE.contains(&(text.name.as_str(), word));
                if !right && forms(word).iter().any(|form| said.contains(form)) {
                    let name = &text.name;
                    wrong.push(format!(
                        "{name}: “{word}”, better “{better}”: {}",
                        text.said[at]
                    ));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn closing_is_said_of_nuts_and_jaws_alone() {
    // A button that says what turns a nut IN might be pressed, or turned, for
    // the other.
    let mut wrong = Vec::new();
    for text in texts() {
        let said = words_of(&text.said[1]);
        let nuts = ["tuerca", "ranura", "mordaza", "abrir", "llave"];
        let of_nuts = nuts.iter().any(|nut| said.contains(nut));
        let closes = [" cerrar ", " cierre "].iter().any(|it| said.contains(it));
        let way = text.said[1].contains("CERRAR");
        if closes && !of_nuts && !way {
            wrong.push(format!("{}: {}", text.name, text.said[1]));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn inches_never_read_as_in() {
    assert!(
        ["48 in", "0.004 in, or"]
            .iter()
            .all(|it| inches::read_as_in(it))
    );
    assert!(
        !["48″", "9 in 10 pieces", "2 inside"]
            .iter()
            .any(|it| inches::read_as_in(it))
    );
    let mut wrong = Vec::new();
    for text in texts() {
        // What may be typed, on screen and in a terminal.
        let typed = text.file.ends_with("cli_help.rs") || text.name == "help_readings";
        if typed || text.file.ends_with("store.rs") {
            continue;
        }
        let said = text.said.iter().filter(|said| inches::read_as_in(said));
        wrong.extend(said.map(|said| format!("{}: {said}", text.name)));
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Names called in a piece of source.
fn called(source: &str) -> BTreeSet<String> {
    let mut names = BTreeSet::new();
    for sign in [".", "::"] {
        for part in source.split(sign).skip(1) {
            let end = part.find(|c: char| !(c.is_alphanumeric() || c == '_'));
            names.insert(part[..end.unwrap_or(part.len())].to_owned());
        }
    }
    names
}

#[test]
fn every_text_is_said_somewhere() {
    // Functions of the words room by name, each with what it calls.
    let mut calls: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for (_, source) in sources("src/words") {
        let code = source.split("\ntexts! {").next().unwrap();
        for function in code.split("fn ").skip(1) {
            let name = function.split(['(', '<']).next().unwrap();
            calls
                .entry(name.trim().to_owned())
                .or_default()
                .extend(called(function));
        }
    }
    let mut reached = BTreeSet::new();
    let mut waiting: Vec<String> = Vec::new();
    for (path, source) in sources("src") {
        if !path.to_string_lossy().contains("/src/words/") {
            waiting.extend(called(&source));
        }
    }
    while let Some(name) = waiting.pop() {
        if reached.insert(name.clone()) {
            waiting.extend(calls.get(&name).into_iter().flatten().cloned());
        }
    }
    let texts = texts();
    let mut left: Vec<&str> = texts.iter().map(|text| text.name.as_str()).collect();
    left.retain(|name| !reached.contains(name.split('.').next().unwrap()));
    assert!(left.is_empty(), "said nowhere: {}", left.join(", "));
}
