//! Works on many files on all cores and hands the results on in order.

use std::collections::BTreeMap;
use std::num::NonZero;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc::channel;

/// Works on every file, several at a time, and hands the results on in order
/// as soon as they are there.
pub fn in_order<T: Send>(
    files: &[PathBuf],
    work: impl Fn(&Path) -> T + Sync,
    mut hand_on: impl FnMut(usize, T),
) {
    let cores = std::thread::available_parallelism().map_or(1, NonZero::get);
    if cores == 1 || files.len() == 1 {
        for (index, file) in files.iter().enumerate() {
            hand_on(index, work(file));
        }
        return;
    }
    let next = AtomicUsize::new(0);
    let (sender, receiver) = channel();
    std::thread::scope(|scope| {
        for _ in 0..cores.min(files.len()) {
            let (next, work, sender) = (&next, &work, sender.clone());
            scope.spawn(move || {
                loop {
                    let index = next.fetch_add(1, Ordering::Relaxed);
                    let Some(file) = files.get(index) else { return };
                    if sender.send((index, work(file))).is_err() {
                        return;
                    }
                }
            });
        }
        drop(sender);
        let mut waiting = BTreeMap::new();
        let mut due = 0;
        for (index, result) in receiver {
            waiting.insert(index, result);
            while let Some(result) = waiting.remove(&due) {
                hand_on(due, result);
                due += 1;
            }
        }
    });
}
