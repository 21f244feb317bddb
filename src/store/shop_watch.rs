//! Keeps a folder of sessions current while somebody looks at it, on a thread
//! of its own: the system tells of changes, and a slow look finds those it does
//! not tell of, as on shares.

use std::collections::VecDeque;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Sender, channel};
use std::thread;
use std::time::{Duration, Instant};

use notify::event::{AccessKind, AccessMode};
use notify::{Event, EventKind, RecommendedWatcher, RecursiveMode, Watcher};

use crate::session::PriorShelf;

use super::disk::DiskProblem;
use super::shop_reader::{Look, Progress, Shop, ShopReader};

/// Time between slow looks.
const SLOW: Duration = Duration::from_secs(30);

/// How long after a change others are waited for: a save is several of them.
const SETTLE: Duration = Duration::from_millis(250);

/// Time between two words about how far the reading has come.
const SAY: Duration = Duration::from_millis(100);

/// What the thread tells.
#[derive(Debug, Clone)]
pub enum ShopNews {
    /// How far the reading has come.
    Reading(Progress),
    /// The shop as it is now.
    Shop(Arc<Shop>),
    /// The folder cannot be read now; it is tried again.
    Closed(DiskProblem),
}

/// A folder that is watched until this is dropped.
#[derive(Debug)]
pub struct ShopWatch {
    wake: Sender<()>,
    stop: Arc<AtomicBool>,
}

impl ShopWatch {
    /// Starts to read and watch a folder. `tell` is called on the thread and
    /// says whether anybody still listens.
    pub fn start(
        folder: &Path,
        index: Option<PathBuf>,
        slow: Duration,
        mut tell: impl FnMut(ShopNews) -> bool + Send + 'static,
    ) -> Self {
        let (wake, woken) = channel::<()>();
        let stop = Arc::new(AtomicBool::new(false));
        let watch = Self {
            wake: wake.clone(),
            stop: Arc::clone(&stop),
        };
        let folder = folder.to_owned();
        thread::spawn(move || {
            // Watched before it is read, so that nothing is missed between.
            let watcher = watcher(&folder, wake);
            let mut reader = ShopReader::new(&folder, index);
            let mut told = VecDeque::new();
            let shelf = PriorShelf::default();
            while !stop.load(Ordering::Relaxed) {
                if !look(&mut reader, &stop, &mut told, &mut tell) {
                    break;
                }
                // What takes the sessions themselves comes after what all of them
                // say at once, and gives way to what is new.
                let mut woke = false;
                let learnt = told.back().cloned().is_some_and(|shop: Arc<Shop>| {
                    reader.learn(&shop.books, &shelf, &mut || {
                        woke |= woken.try_recv().is_ok();
                        !woke && !stop.load(Ordering::Relaxed)
                    })
                });
                if learnt && !tell_shop(&reader, &mut told, &mut tell) {
                    break;
                }
                if woke || woken.recv_timeout(slow).is_ok() {
                    thread::sleep(SETTLE);
                    while woken.try_recv().is_ok() {}
                }
            }
            drop(watcher);
        });
        watch
    }

    /// The same with the usual time between slow looks.
    pub fn usual(
        folder: &Path,
        index: Option<PathBuf>,
        tell: impl FnMut(ShopNews) -> bool + Send + 'static,
    ) -> Self {
        Self::start(folder, index, SLOW, tell)
    }

    /// Has the folder looked at now.
    pub fn look_now(&self) {
        // Without its thread nothing is looked at, and nothing is lost.
        let _ = self.wake.send(());
    }
}

impl Drop for ShopWatch {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
        self.look_now();
    }
}

/// Shops told last, kept a while so that the window, which lets go of them,
/// never has to clear them away itself.
type Told = VecDeque<Arc<Shop>>;

/// Looks once and tells; answers whether anybody still listens.
fn look(
    reader: &mut ShopReader,
    stop: &AtomicBool,
    told: &mut Told,
    tell: &mut dyn FnMut(ShopNews) -> bool,
) -> bool {
    let mut said = Instant::now();
    let mut listens = true;
    let looked = reader.look(&mut |progress| {
        if said.elapsed() >= SAY {
            said = Instant::now();
            listens = tell(ShopNews::Reading(progress));
        }
        listens && !stop.load(Ordering::Relaxed)
    });
    match looked {
        Ok(Look::Changed) => tell_shop(reader, told, tell),
        Ok(Look::Same) => listens,
        Ok(Look::BrokenOff) => false,
        Err(problem) => tell(ShopNews::Closed(problem)),
    }
}

/// Tells the shop as it is known now.
fn tell_shop(reader: &ShopReader, told: &mut Told, tell: &mut dyn FnMut(ShopNews) -> bool) -> bool {
    let shop = Arc::new(reader.shop());
    told.push_back(Arc::clone(&shop));
    if told.len() > 2 {
        told.pop_front();
    }
    tell(ShopNews::Shop(shop))
}

/// What has the system tell of changes; none where it cannot, and then the slow
/// look finds them.
fn watcher(folder: &Path, wake: Sender<()>) -> Option<RecommendedWatcher> {
    let told = move |event: notify::Result<Event>| {
        // Reading is an event too, and would have it read for ever.
        let matters = event.map_or(true, |event| match event.kind {
            EventKind::Access(access) => access == AccessKind::Close(AccessMode::Write),
            _ => true,
        });
        if matters {
            let _ = wake.send(());
        }
    };
    let mut watcher = notify::recommended_watcher(told).ok()?;
    watcher.watch(folder, RecursiveMode::Recursive).ok()?;
    Some(watcher)
}
