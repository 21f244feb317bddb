//! A short log for whoever helps from afar: when the program started and how
//! it drew, what was refused, where it fell. Never a name, a path or a reading.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Sender, channel};

use super::disk::{Content, Disk};
use super::moment::moment_of;
use super::real_disk::RealDisk;
use super::replace::replace;

/// Name of the file in the preferences folder.
const FILE_NAME: &str = "log.txt";
/// Lines that are kept, and how long each may be.
const MOST_LINES: usize = 200;
const MOST_LETTERS: usize = 200;
const MOST_BYTES: u64 = 1024 * 1024;

/// Where the log is.
pub fn log_file(folder: &Path) -> PathBuf {
    folder.join(FILE_NAME)
}

/// The lines of the log, the newest last.
pub fn log_lines(folder: &Path) -> Vec<String> {
    match RealDisk.read(&log_file(folder), MOST_BYTES) {
        Ok(Content::Bytes(bytes)) => {
            let text = String::from_utf8_lossy(&bytes);
            text.lines().map(str::to_owned).collect()
        }
        _ => Vec::new(),
    }
}

/// Adds a line to the log, with the moment. Of a long log the oldest lines go.
pub fn log_line(folder: &Path, what: &str) {
    let mut lines = log_lines(folder);
    let one_line = what.replace(char::is_control, " ");
    let what: String = one_line.chars().take(MOST_LETTERS).collect();
    lines.push(format!(
        "{} {what}",
        moment_of(std::time::SystemTime::now())
    ));
    let surplus = lines.len().saturating_sub(MOST_LINES);
    let mut text = lines.split_off(surplus).join("\n");
    text.push('\n');
    // A log that cannot be written is done without.
    let _ = fs::create_dir_all(folder);
    let _ = replace(&RealDisk, &log_file(folder), text.as_bytes(), None);
}

/// Writes a log on a thread of its own, so that nobody waits for the disk.
#[derive(Debug)]
pub struct Log(Sender<String>);

impl Log {
    /// A log in a folder.
    pub fn start(folder: &Path) -> Self {
        let (sender, lines) = channel::<String>();
        let folder = folder.to_owned();
        // Without a thread there is no log.
        let _ = std::thread::Builder::new()
            .name("log".into())
            .spawn(move || {
                for line in lines {
                    log_line(&folder, &line);
                }
            });
        Self(sender)
    }

    /// Notes something.
    pub fn note(&self, what: String) {
        let _ = self.0.send(what);
    }

    /// Notes a problem by its kind alone, without what it is about.
    pub fn note_kind(&self, what: &str, problem: &impl std::fmt::Debug) {
        let shown = format!("{problem:?}");
        let kind: String = shown
            .chars()
            .take_while(|c| c.is_ascii_alphanumeric())
            .collect();
        self.note(format!("{what} {kind}"));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_log_is_short_and_says_kinds_only() {
        let folder = tempfile::tempdir().unwrap();
        let home = folder.path().join("made/if need be");
        for number in 0..MOST_LINES + 20 {
            log_line(&home, &format!("line {number}\n{}", "x".repeat(1_000)));
        }
        let lines = log_lines(&home);
        assert_eq!(lines.len(), MOST_LINES);
        assert!(lines[0].contains("line 20 xxx") && lines[0].len() < 300);
        let log = Log::start(&home);
        log.note_kind("open refused", &Some("Press 9, 0.2475 in"));
        let noted = || {
            log_lines(&home)
                .pop()
                .is_some_and(|line| line.ends_with("open refused Some"))
        };
        while !noted() {
            std::thread::yield_now();
        }
    }
}
