//! Works on many things, files above all, on all cores and hands the results
//! on in order.

use std::collections::BTreeMap;
use std::num::NonZero;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc::channel;

/// Works on each of many, several at a time, and hands the results on in order
/// as soon as they are there, until `hand_on` wants no more of them.
pub fn in_order<I: Sync, T: Send>(
    all: &[I],
    work: impl Fn(&I) -> T + Sync,
    mut hand_on: impl FnMut(usize, T) -> bool,
) {
    let cores = std::thread::available_parallelism().map_or(1, NonZero::get);
    let next = AtomicUsize::new(0);
    let (sender, receiver) = channel();
    std::thread::scope(|scope| {
        let mut helped = false;
        for _ in 0..cores.min(all.len()) {
            let (next, work, sender) = (&next, &work, sender.clone());
            let worker = move || {
                loop {
                    let index = next.fetch_add(1, Ordering::Relaxed);
                    let Some(one) = all.get(index) else { return };
                    if sender.send((index, work(one))).is_err() {
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
            for (index, one) in all.iter().enumerate() {
                if !hand_on(index, work(one)) {
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
