//! `export`: every reading of a folder's sessions as one table.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use serde_json::Value;

use crate::report::{COLUMNS, Field, ReadingRow, csv_heads, csv_line, reading_rows};
use crate::store;
use crate::units::Unit;
use crate::words::{Figures, Language};

use super::options::{OptionProblem, options};
use super::sentences::option_problem;
use super::{Console, Done};

options! {
    /// Options of `export`.
    ExportOptions(folder: Option<PathBuf>) {
        /// What is written.
        out: Path = "-o" | "--output",
    }
}

/// Writes the table. Answers whether no file failed.
pub(super) fn run(options: &ExportOptions, console: &mut Console<'_>) -> Done {
    let words = console.language;
    let written = written(options, words)?;
    for sentence in &written.failed {
        console.complain(sentence);
    }
    console.say(&written.said);
    Ok(written.failed.is_empty())
}

/// What came of it.
struct Written {
    said: String,
    /// What could not be read, a sentence each.
    failed: Vec<String>,
}

fn written(options: &ExportOptions, words: Language) -> Result<Written, String> {
    let needed = |problem: OptionProblem| option_problem(words, &problem);
    let folder = options.folder.as_deref();
    let folder = folder.ok_or_else(|| needed(OptionProblem::NoFolder))?;
    let out = options.out.as_deref();
    let out = out.ok_or_else(|| needed(OptionProblem::Needed("-o")))?;
    let ending = out.extension().and_then(|ending| ending.to_str());
    let line: fn(&ReadingRow) -> String = match ending {
        Some("csv") => |row| csv_line(row),
        Some("jsonl") => json_line,
        _ => return Err(words.paper_ending(out.display(), ".csv, .jsonl")),
    };
    let refused =
        |problem, path: &Path| words.with_path(words.disk_refusal(problem), path.display());
    let found = store::session_files(folder).map_err(|problem| refused(problem, folder))?;
    if found.files.is_empty() {
        return Err(words.folder_without_sessions(folder.display()));
    }
    let closed = found.closed.iter();
    let mut failed: Vec<String> = closed.map(|(path, why)| refused(*why, path)).collect();
    let mut text = String::new();
    if ending == Some("csv") {
        text.push_str(&csv_heads());
        text.push_str("\r\n");
    }
    let (mut readings, mut sessions) = (0, 0);
    let read = |file: &PathBuf| {
        let name = file.strip_prefix(folder).unwrap_or(file);
        let name = name.to_string_lossy().replace('\\', "/");
        let opened = store::open(file)
            .map_err(|problem| Figures::exact(words, Unit::Inch).open_problem(&problem, file))?;
        let rows = reading_rows(&opened.session, &name);
        Ok::<Vec<String>, String>(rows.iter().map(line).collect())
    };
    let end = if ending == Some("csv") { "\r\n" } else { "\n" };
    store::in_order(&found.files, read, |_, rows| {
        match rows {
            Ok(rows) => {
                sessions += 1;
                readings += rows.len();
                for row in rows {
                    text.push_str(&row);
                    text.push_str(end);
                }
            }
            Err(sentence) => failed.push(sentence),
        }
        true
    });
    store::write_out(out, text.as_bytes()).map_err(|problem| refused(problem, out))?;
    Ok(Written {
        said: words.exported(readings, sessions, out.display()),
        failed,
    })
}

/// A row as one line of JSON.
fn json_line(row: &ReadingRow) -> String {
    let fields = COLUMNS.iter().zip(row).map(|(column, field)| {
        let value = match field {
            Field::Nothing => Value::Null,
            Field::Text(text) => Value::String(text.clone()),
            Field::Yes(yes) => Value::Bool(*yes),
            // Written out in decimals above: always a number of JSON.
            Field::Number(digits) => serde_json::from_str(digits).unwrap_or(Value::Null),
        };
        (*column, value)
    });
    // By name; texts, numbers and nothing always have a JSON form.
    serde_json::to_string(&fields.collect::<BTreeMap<_, _>>()).unwrap_or_default()
}
