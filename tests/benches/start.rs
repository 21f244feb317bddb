//! From starting a program to a frame shown, and the memory that takes, for
//! each way of drawing: the window on a sample against an empty window.
//!
//! `cargo bench --bench start -- [times]`, on a display; `xvfb-run -s -noreset` makes a
//! virtual one. What the graphics driver takes is in both.

use std::fs;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use eframe::egui;

/// Said by the empty window once a frame was shown.
const SHOWN: &str = "shown";
/// How long a program may take to show one.
const PATIENCE: Duration = Duration::from_secs(60);
/// How long it is left alone before its memory is looked at.
const SETTLES: Duration = Duration::from_secs(2);

fn main() {
    let words: Vec<String> = std::env::args().collect();
    if let Some(at) = words.iter().position(|word| word == "--empty") {
        return empty_window(words.get(at + 1).map_or("", String::as_str));
    }
    let times = words.iter().rev().find_map(|word| word.parse().ok());
    let times: usize = times.unwrap_or(5);
    for renderer in ["wgpu", "glow"] {
        for (name, start) in [
            ("an empty window", empty as fn(&str) -> Option<Started>),
            ("the program", program),
        ] {
            let mut all: Vec<Started> = (0..times).filter_map(|_| start(renderer)).collect();
            all.sort_by_key(|one| one.shown_after);
            match all.get(all.len() / 2) {
                Some(one) => println!(
                    "{renderer}: {name}: {} ms to a frame, {} MB resident, {} MB at most ({} of {times})",
                    one.shown_after.as_millis(),
                    one.resident,
                    one.peak,
                    all.len()
                ),
                None => println!("{renderer}: {name}: no frame"),
            }
        }
    }
}

/// A program that showed a frame.
struct Started {
    shown_after: Duration,
    /// Megabytes once it is at rest, and at most.
    resident: u64,
    peak: u64,
}

impl Started {
    /// What a running program takes; then it is ended.
    fn of(mut child: Child, shown_after: Duration) -> Self {
        std::thread::sleep(SETTLES);
        let status = fs::read_to_string(format!("/proc/{}/status", child.id()));
        let status = status.unwrap_or_default();
        let megabytes = |name: &str| {
            let line = status.lines().find_map(|line| line.strip_prefix(name));
            let number = line.and_then(|line| line.split_whitespace().next());
            number.map_or(0, |kilobytes| kilobytes.parse().unwrap_or(0) / 1024)
        };
        let (resident, peak) = (megabytes("VmRSS:"), megabytes("VmHWM:"));
        end(&mut child);
        Self {
            shown_after,
            resident,
            peak,
        }
    }
}

fn end(child: &mut Child) {
    let _ = child.kill();
    let _ = child.wait();
}

fn empty(renderer: &str) -> Option<Started> {
    let itself = std::env::current_exe().expect("this program");
    let begun = Instant::now();
    let mut child = Command::new(itself)
        .args(["--empty", renderer])
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("this program, started again");
    let said = child.stdout.take().expect("what it says");
    let mut line = String::new();
    let _ = BufReader::new(said).read_line(&mut line);
    if line.trim() == SHOWN {
        return Some(Started::of(child, begun.elapsed()));
    }
    end(&mut child);
    None
}

/// The program says in its memory of renderers that a frame was shown.
fn program(renderer: &str) -> Option<Started> {
    let home = std::env::temp_dir().join(format!("jawtrue-start-bench-{}", std::process::id()));
    let _ = fs::remove_dir_all(&home);
    fs::create_dir_all(&home).expect("a folder for its settings");
    let sample = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-sessions/taper.jawtrue");
    let begun = Instant::now();
    let mut child = Command::new(env!("CARGO_BIN_EXE_jawtrue"))
        .args(["--renderer", renderer])
        .arg(sample)
        .env("JAWTRUE_DATA_DIR", &home)
        .stderr(Stdio::null())
        .spawn()
        .expect("the program");
    let memory = home.join("renderer.txt");
    while begun.elapsed() < PATIENCE && matches!(child.try_wait(), Ok(None)) {
        let text = fs::read_to_string(&memory).unwrap_or_default();
        if !text.is_empty() && !text.contains("trying") && !text.contains("failed") {
            return Some(Started::of(child, begun.elapsed()));
        }
        std::thread::sleep(Duration::from_millis(1));
    }
    end(&mut child);
    None
}

struct Empty;

impl eframe::App for Empty {
    fn ui(&mut self, ui: &mut egui::Ui, _frame: &mut eframe::Frame) {
        match ui.ctx().cumulative_frame_nr() {
            // As many as the program takes for a proof that it draws.
            2 => println!("{SHOWN}"),
            0 | 1 => ui.ctx().request_repaint(),
            _ => {}
        }
    }
}

fn empty_window(renderer: &str) {
    let options = eframe::NativeOptions {
        renderer: match renderer {
            "wgpu" => eframe::Renderer::Wgpu,
            _ => eframe::Renderer::Glow,
        },
        viewport: egui::ViewportBuilder::default().with_inner_size([1400.0, 900.0]),
        ..Default::default()
    };
    let shown = eframe::run_native("empty", options, Box::new(|_| Ok(Box::new(Empty))));
    if let Err(error) = shown {
        eprintln!("{error}");
    }
}
