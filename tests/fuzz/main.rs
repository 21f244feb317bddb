//! Hostile input: good files, tables, lengths and gauge lines, spoiled in
//! seeded ways. Whatever is put in, there is an answer or a sentence, never a
//! panic; what is taken can be written and read again, plans keep their limits
//! and chances lie between 0 and 1.
//!
//! A short run is part of the tests. `JAWTRUE_FUZZ_SECONDS=3600` runs as long
//! over all ways in, with `JAWTRUE_FUZZ_SEED` for other inputs, prints what was
//! tried and leaves the slowest input of each way in the folder for such
//! things.

#[path = "../common/mod.rs"]
mod common;
mod extremes;
mod mutator;
mod targets;

use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

use mutator::{Chance, spoiled};
use targets::{Came, Desk, Way};

/// Inputs of the short run, each way in.
const FEW: usize = 400;

fn setting(name: &str) -> Option<u64> {
    std::env::var(name).ok()?.parse().ok()
}

/// Most memory that this process held at once, in megabytes.
fn peak_megabytes() -> u64 {
    std::fs::read_to_string("/proc/self/status")
        .ok()
        .and_then(|status| {
            let line = status.lines().find(|line| line.starts_with("VmHWM:"))?;
            line.split_whitespace().nth(1)?.parse::<u64>().ok()
        })
        .map_or(0, |kilobytes| kilobytes / 1024)
}

/// Time of a processor that this thread took; of the clock on the wall, where
/// the system does not count it.
fn worked(begun: Instant) -> Duration {
    // The first figure, in nanoseconds: proc(5), /proc/[pid]/schedstat.
    std::fs::read_to_string("/proc/thread-self/schedstat")
        .ok()
        .and_then(|figures| figures.split_whitespace().next()?.parse().ok())
        .map_or_else(|| begun.elapsed(), Duration::from_nanos)
}

#[test]
fn whatever_is_put_in_is_answered() {
    let long = setting("JAWTRUE_FUZZ_SECONDS").map(Duration::from_secs);
    let seed = setting("JAWTRUE_FUZZ_SEED").unwrap_or(1);
    let share = long.map(|all| all / Way::ALL.len() as u32);
    let desk = Desk::default();
    // Where it panicked: how often, and the first input that made it.
    let mut failures: BTreeMap<String, (usize, PathBuf)> = BTreeMap::new();
    let fell_at = Arc::new(Mutex::new(String::new()));
    let note = Arc::clone(&fell_at);
    let (others, own) = (std::panic::take_hook(), std::thread::current().id());
    std::panic::set_hook(Box::new(move |info| {
        if std::thread::current().id() == own {
            *note.lock().unwrap() = info.to_string().chars().take(400).collect();
        } else {
            others(info);
        }
    }));
    println!("way      inputs   taken  lines of JSON  plans  slowest (ms)  peak memory (MB)");
    for way in Way::ALL {
        let seeds = way.seeds();
        let mut chance = Chance::new(seed);
        let (begun, mut slowest) = (Instant::now(), Duration::ZERO);
        let (mut inputs, mut taken) = (0_usize, 0_usize);
        let mut all = Came::default();
        while share.map_or(inputs < FEW, |share| begun.elapsed() < share) {
            let bytes = spoiled(&seeds, &mut chance);
            let at = worked(begun);
            let came = catch_unwind(AssertUnwindSafe(|| way.put_in(&bytes, &desk, &mut chance)));
            let took = worked(begun).saturating_sub(at);
            if took > slowest {
                slowest = took;
                if long.is_some() {
                    let kept = std::env::temp_dir().join(format!("jawtrue-slowest-{way:?}"));
                    std::fs::write(kept, &bytes).unwrap();
                }
            }
            inputs += 1;
            match came {
                Ok(came) => {
                    taken += usize::from(came.taken);
                    all.lines += came.lines;
                    all.plans += came.plans;
                }
                Err(_) => {
                    let place = fell_at.lock().unwrap().clone();
                    let fallen = failures.len();
                    let (times, _) = failures.entry(place).or_insert_with(|| {
                        let kept = format!("jawtrue-fuzz-{}-{fallen}", std::process::id());
                        let kept = std::env::temp_dir().join(kept);
                        std::fs::write(&kept, &bytes).unwrap();
                        (0, kept)
                    });
                    *times += 1;
                }
            }
        }
        println!(
            "{:8} {inputs:>7} {taken:>7} {:>14} {:>6} {:>13} {:>17}",
            format!("{way:?}"),
            all.lines,
            all.plans,
            slowest.as_millis(),
            peak_megabytes()
        );
        // Most of them spoil something, but not so much that nothing is taken.
        assert!(
            taken * 50 > inputs && taken < inputs,
            "{way:?}: {taken} of {inputs}"
        );
    }
    let _ = std::panic::take_hook();
    assert!(failures.is_empty(), "{failures:#?}");
}
