//! How long a shop's folder takes. `cargo bench --bench shop -- [sessions]`
//!
//! Sessions of an invented shop, a hundred visits a press: the folder read by
//! the program against reading the same bytes and parsing them with ron alone,
//! on as many cores; the second start with the index; the longest frame of the
//! window meanwhile; memory, where the system tells it. Each figure is the
//! best of three.
//!
//! Then `judge` and `plan` with `--json` over a hundred, a tenth and all of as
//! many sessions, no two of the same geometry: seconds, on all cores.

use std::fs;
use std::hint::black_box;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::{Duration, Instant};

use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use jawtrue::store::{self, Folders, ShopReader, in_order};
use jawtrue::window::{App, Surroundings};

#[path = "../support/invented_shop.rs"]
mod invented_shop;

const TIMES: usize = 3;

fn best<T>(mut work: impl FnMut() -> T) -> f64 {
    let timed = (0..TIMES).map(|_| {
        let begun = Instant::now();
        black_box(work());
        begun.elapsed().as_secs_f64()
    });
    timed.fold(f64::INFINITY, f64::min)
}

/// Megabytes of this program that are in memory.
fn memory_mb() -> Option<u64> {
    let status = fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find(|line| line.starts_with("VmRSS:"))?;
    let kilobytes: u64 = line.split_whitespace().nth(1)?.parse().ok()?;
    Some(kilobytes / 1024)
}

fn main() {
    let mut numbers = std::env::args().filter_map(|word| word.parse().ok());
    let sessions = numbers.next_back().unwrap_or(10_000_usize);
    let home = std::env::temp_dir().join(format!("jawtrue-shop-bench-{}", std::process::id()));
    let folder = home.join("shop");
    invented_shop::make_many(&folder, sessions, 100);
    // Stamps that are too fresh to be relied on are not kept in the index.
    std::thread::sleep(Duration::from_secs(3));
    let files = store::session_files(&folder).expect("the folder").files;
    let sizes = files.iter().filter_map(|file| fs::metadata(file).ok());
    let bytes: u64 = sizes.map(|found| found.len()).sum();
    println!("{} sessions, {:.1} MB", files.len(), bytes as f64 / 1e6);

    let parsed = best(|| parse_alone(&files));
    println!("read and parsed by ron alone: {parsed:.3} s");
    let index = home.join("kept.index");
    let before = memory_mb();
    let mut kept = None;
    let read = best(|| {
        let _ = fs::remove_file(&index);
        let mut reader = ShopReader::new(&folder, None);
        reader.look(&mut |_| true).expect("a look");
        kept = Some((reader.shop(), reader));
    });
    println!(
        "read by the program: {read:.3} s, {:.2} times as long",
        read / parsed
    );
    if let (Some(before), Some(after)) = (before, memory_mb()) {
        println!("memory: {before} MB before, {after} MB with the shop");
    }
    drop(kept);
    let first = best(|| {
        let _ = fs::remove_file(&index);
        start(&folder, &index)
    });
    let second = best(|| start(&folder, &index));
    let size = fs::metadata(&index).map_or(0, |found| found.len());
    println!(
        "first start {first:.3} s, second with an index of {:.1} MB {second:.3} s: {:.3} of it",
        size as f64 / 1e6,
        second / first
    );
    frames(&home, &folder);
    commands(&home.join("other"), sessions);
    let _ = fs::remove_dir_all(&home);
}

fn start(folder: &Path, index: &Path) -> usize {
    let mut reader = ShopReader::new(folder, Some(index.to_owned()));
    reader.look(&mut |_| true).expect("a look");
    reader.shop().sessions
}

/// The bytes read and parsed, nothing made of them.
fn parse_alone(files: &[PathBuf]) -> usize {
    let mut read = 0;
    in_order(
        files,
        |file| {
            let text = fs::read_to_string(file).expect("a session");
            ron::from_str::<ron::Value>(&text).is_ok()
        },
        |_, sound| {
            read += usize::from(sound);
            true
        },
    );
    assert_eq!(read, files.len());
    read
}

/// The text commands over sessions of presses no two of which are alike.
fn commands(folder: &Path, sessions: usize) {
    invented_shop::make_many(folder, sessions, 1);
    let names = fs::read_dir(folder).expect("the folder");
    let mut names: Vec<_> = names
        .filter_map(|entry| Some(entry.ok()?.file_name()))
        .collect();
    names.sort();
    let cores = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    for command in ["judge", "plan"] {
        for count in [100, sessions / 10, sessions] {
            let count = count.min(names.len());
            let begun = Instant::now();
            let ran = Command::new(env!("CARGO_BIN_EXE_jawtrue"))
                .current_dir(folder)
                .args([command, "--json"])
                .args(names.iter().take(count))
                .output()
                .expect("the program");
            let lines = ran.stdout.iter().filter(|byte| **byte == b'\n').count();
            assert_eq!(lines, count, "{}", String::from_utf8_lossy(&ran.stderr));
            let seconds = begun.elapsed().as_secs_f64();
            println!(
                "{command} --json over {count}: {seconds:.2} s on {cores} cores, {:.2} ms each",
                1e3 * seconds / count as f64
            );
        }
    }
}

/// The longest frame while the folder is read, and how long that took.
fn frames(home: &Path, folder: &Path) {
    let surroundings = Surroundings {
        folders: Some(Folders {
            recovery: home.join("data/recovery"),
            preferences: home.join("data"),
        }),
        dialogs: false,
    };
    let mut harness = Harness::builder()
        .with_size([1400.0, 900.0])
        .build_eframe(move |cc| App::within(&cc.egui_ctx, None, surroundings));
    harness.run_steps(10);
    let ctx = harness.ctx.clone();
    harness.state_mut().open_shop(&ctx, folder.to_owned());
    let begun = Instant::now();
    let mut longest = Duration::ZERO;
    let mut frames = 0;
    loop {
        let frame = Instant::now();
        harness.step();
        let shapes = harness.output().shapes.clone();
        black_box(harness.ctx.tessellate(shapes, 1.0));
        longest = longest.max(frame.elapsed());
        frames += 1;
        let read = harness.query_by_label_contains("visits: ").is_some();
        if read || begun.elapsed() > Duration::from_secs(600) {
            break;
        }
        std::thread::sleep(Duration::from_millis(16).saturating_sub(frame.elapsed()));
    }
    println!(
        "in the window: {:.3} s, {frames} frames, the longest {:.1} ms",
        begun.elapsed().as_secs_f64(),
        longest.as_secs_f64() * 1e3
    );
}
