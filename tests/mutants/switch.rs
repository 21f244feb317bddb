//! Which mutant is on: put beside the rooms by `mutants.py` in its own copy of
//! the sources, never part of the program.

use std::cell::RefCell;
use std::collections::HashSet;
use std::fs::OpenOptions;
use std::io::Write;
use std::sync::atomic::{AtomicU32, Ordering};

const NOT_ASKED: u32 = u32::MAX;
const NONE: u32 = u32::MAX - 1;
const RECORD: u32 = u32::MAX - 2;

static CHOSEN: AtomicU32 = AtomicU32::new(NOT_ASKED);

thread_local! {
    static TOUCHED: RefCell<HashSet<u32>> = RefCell::default();
}

/// Whether mutant `id` is the one chosen by `MUTANT`; where that is `record`,
/// none is, and what each thread comes by is added to the file `MUTANT_LOG`.
#[inline(always)]
pub fn on(id: u32) -> bool {
    let chosen = CHOSEN.load(Ordering::Relaxed);
    if chosen >= RECORD { ask(id) } else { chosen == id }
}

#[inline(never)]
fn ask(id: u32) -> bool {
    let mut chosen = CHOSEN.load(Ordering::Relaxed);
    if chosen == NOT_ASKED {
        chosen = match setting("MUTANT").as_deref() {
            Some("record") => RECORD,
            Some(number) => number.parse().unwrap_or(NONE),
            None => NONE,
        };
        CHOSEN.store(chosen, Ordering::Relaxed);
    }
    if chosen == RECORD {
        // A thread that is ending has no record any more: what it does then
        // is written down again, which does no harm.
        let new = TOUCHED.try_with(|touched| touched.borrow_mut().insert(id));
        if new.unwrap_or(true) {
            write_down(id);
        }
    }
    chosen == id
}

/// A variable of this process or, as tests start the program with an empty
/// environment, of the process that started it.
fn setting(name: &str) -> Option<String> {
    std::env::var(name).ok().or_else(|| {
        let parent = std::os::unix::process::parent_id();
        let all = std::fs::read(format!("/proc/{parent}/environ")).ok()?;
        let mut all = all.split(|byte| *byte == 0);
        all.find_map(|one| Some(std::str::from_utf8(one).ok()?.strip_prefix(name)?.strip_prefix('=')?.into()))
    })
}

fn write_down(id: u32) {
    let Some(path) = setting("MUTANT_LOG") else {
        return;
    };
    let thread = std::thread::current();
    let line = format!("{id} {}\n", thread.name().unwrap_or("?"));
    if let Ok(mut log) = OpenOptions::new().append(true).create(true).open(path) {
        let _ = log.write_all(line.as_bytes());
    }
}
