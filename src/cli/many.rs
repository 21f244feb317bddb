//! Runs a command over many files on all cores and writes the answers in the
//! order of the arguments.

use std::collections::BTreeMap;
use std::num::NonZero;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc::channel;

use serde::Serialize;

use crate::session::Session;
use crate::store;
use crate::units::Unit;
use crate::words::{Figures, Language};

use super::Console;
use super::options::FilesOptions;

/// What a file that fails is answered with.
#[derive(Serialize)]
struct Failed<'a> {
    file: &'a str,
    error: &'a str,
}

/// The answer about one file, or a sentence on why there is none.
pub(super) type Answer = Result<String, String>;

/// Answers about every file with `answer`. Answers itself whether none failed.
pub(super) fn over_files(
    options: &FilesOptions,
    console: &mut Console<'_>,
    answer: impl Fn(&str, &Session) -> Answer + Sync,
) -> bool {
    let language = console.language;
    let mut all_done = true;
    in_order(
        &options.files,
        |file| about(file, language, &answer),
        |index, (file, answer): (String, Answer)| {
            match answer {
                Ok(text) => {
                    if index > 0 && !options.json {
                        console.say("");
                    }
                    console.say(&text);
                }
                Err(sentence) => {
                    all_done = false;
                    if options.json {
                        let failed = Failed {
                            file: &file,
                            error: &sentence,
                        };
                        console.say(&json(&failed));
                    }
                    console.complain(&language.with_path(sentence, file));
                }
            }
            !console.is_deserted()
        },
    );
    all_done
}

/// One line of JSON.
pub(super) fn json(value: &impl Serialize) -> String {
    // Plain structs of texts, numbers and lists always have a JSON form; every
    // number here is finite.
    serde_json::to_string(value).unwrap_or_default()
}

fn about(
    file: &Path,
    language: Language,
    answer: &impl Fn(&str, &Session) -> Answer,
) -> (String, Answer) {
    let name = file.to_string_lossy().into_owned();
    let answer = match store::open(file) {
        Ok(opened) => answer(&name, &opened.session),
        Err(problem) => Err(Figures::exact(language, Unit::Inch).why_not_opened(&problem)),
    };
    (name, answer)
}

/// Works on every file, several at a time, and hands the results on in order
/// as soon as they are there, until `hand_on` wants no more of them.
fn in_order<T: Send>(
    files: &[PathBuf],
    work: impl Fn(&Path) -> T + Sync,
    mut hand_on: impl FnMut(usize, T) -> bool,
) {
    let cores = std::thread::available_parallelism().map_or(1, NonZero::get);
    let next = AtomicUsize::new(0);
    let (sender, receiver) = channel();
    std::thread::scope(|scope| {
        let mut helped = false;
        for _ in 0..cores.min(files.len()) {
            let (next, work, sender) = (&next, &work, sender.clone());
            let worker = move || {
                loop {
                    let index = next.fetch_add(1, Ordering::Relaxed);
                    let Some(file) = files.get(index) else { return };
                    if sender.send((index, work(file))).is_err() {
                        return;
                    }
                }
            };
            // A system that gives no thread leaves the work to those there are.
            helped |= std::thread::Builder::new()
                .spawn_scoped(scope, worker)
                .is_ok();
        }
        drop(sender);
        if !helped {
            for (index, file) in files.iter().enumerate() {
                if !hand_on(index, work(file)) {
                    return;
                }
            }
        }
        let mut waiting = BTreeMap::new();
        let mut due = 0;
        for (index, result) in receiver {
            waiting.insert(index, result);
            while let Some(result) = waiting.remove(&due) {
                if !hand_on(due, result) {
                    return;
                }
                due += 1;
            }
        }
    });
}
