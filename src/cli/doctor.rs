//! `doctor`: what whoever helps from afar asks when something does not work.

use std::path::{Path, PathBuf};
use std::time::SystemTime;

use crate::store::{self, FORMATS, FolderHealth, Folders, RendererMemory};

use super::Console;

/// Lines of the log that are printed.
const MOST_LOG_LINES: usize = 40;

/// A date before this program was written: such a clock is wrong.
const EARLIEST: &str = "2026-01-01";

/// What the display is known by.
const DISPLAY: [&str; 6] = [
    "DISPLAY",
    "WAYLAND_DISPLAY",
    "XDG_SESSION_TYPE",
    "XDG_CURRENT_DESKTOP",
    "SSH_CONNECTION",
    "LIBGL_ALWAYS_SOFTWARE",
];

/// Name, version, formats and build: `jawtrue 0.1.0 (formats: session 1, press
/// 1, lesson 2, upkeep 2; build ...)`.
pub(super) fn version() -> String {
    let [session, press, lesson, upkeep] = FORMATS;
    format!(
        "{} {} (formats: session {session}, press {press}, lesson {lesson}, upkeep {upkeep}; \
         build: {})",
        env!("CARGO_PKG_NAME"),
        env!("CARGO_PKG_VERSION"),
        build()
    )
}

/// Which build this is: what the packager called it, and for which machines.
fn build() -> String {
    let called = option_env!("JAWTRUE_BUILD").unwrap_or("from source");
    let kind = if cfg!(debug_assertions) {
        "debug"
    } else {
        "release"
    };
    let (system, machine) = (std::env::consts::OS, std::env::consts::ARCH);
    format!("{called}, {kind}, {system} {machine}")
}

/// Prints everything; `graphics` is asked last, for a broken driver may bring
/// the program down. Answers the exit status.
pub fn doctor(graphics: impl FnOnce() -> Vec<String>, console: &mut Console<'_>) -> u8 {
    let words = console.language;
    console.say(&version());
    let set: Vec<String> = DISPLAY
        .iter()
        .filter_map(|name| {
            let value = std::env::var(name).ok().filter(|value| !value.is_empty())?;
            // Whose machine it is reached from is nobody's business.
            Some(match *name {
                "SSH_CONNECTION" => words.doctor_remote().to_owned(),
                _ => format!("{name}={value}"),
            })
        })
        .collect();
    let display = if set.is_empty() {
        words.doctor_no_display().to_owned()
    } else {
        set.join(", ")
    };
    console.say(&words.doctor_display(display));
    let now = store::moment_of(SystemTime::now());
    let clock = if now.as_str() < EARLIEST {
        words.doctor_clock_wrong(now)
    } else {
        words.doctor_clock(now)
    };
    console.say(&clock);
    match Folders::of_user() {
        None => console.say(words.doctor_no_folders()),
        Some(folders) => say_of_folders(&folders, console),
    }
    let found = graphics();
    let found = if found.is_empty() {
        words.doctor_no_graphics().to_owned()
    } else {
        found.join("; ")
    };
    console.say(&words.doctor_graphics(found));
    0
}

fn say_of_folders(folders: &Folders, console: &mut Console<'_>) {
    let words = console.language;
    let here = std::env::current_dir().unwrap_or_default();
    for (name, folder) in [
        (words.doctor_settings(), folders.preferences.as_path()),
        (words.doctor_kept_aside(), folders.recovery.as_path()),
        (words.doctor_here(), here.as_path()),
    ] {
        console.say(&words.doctor_folder(
            name,
            nameless(folder).display(),
            state_of(folder, console),
        ));
    }
    let memory = RendererMemory::of(&folders.preferences);
    let failed: Vec<&str> = memory.failed().iter().map(|one| one.name()).collect();
    if !failed.is_empty() {
        console.say(&words.doctor_failed(failed.join(", ")));
    }
    let log = store::log_lines(&folders.preferences);
    if !log.is_empty() {
        console.say(words.doctor_log());
        for line in log.iter().skip(log.len().saturating_sub(MOST_LOG_LINES)) {
            console.say(&format!("  {line}"));
        }
    }
}

/// A folder without the name of whoever's it is.
fn nameless(folder: &Path) -> PathBuf {
    let home = std::env::home_dir();
    let below = home.and_then(|home| folder.strip_prefix(home).ok().map(Path::to_owned));
    below.map_or_else(|| folder.to_owned(), |below| Path::new("~").join(below))
}

fn state_of(folder: &Path, console: &Console<'_>) -> String {
    let words = console.language;
    let health = FolderHealth::of(folder);
    let mut state = match health.writable {
        Ok(()) => words.doctor_writable().to_owned(),
        Err(problem) => words.disk_refusal(problem),
    };
    if let Some(bytes) = health.free_bytes {
        state = words.doctor_free(state, bytes / (1024 * 1024));
    }
    state
}
