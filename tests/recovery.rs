//! Work kept aside: found again after a crash, never while its window lives.

mod common;

use std::fs;
use std::path::PathBuf;
use std::sync::Arc;

use common::session;
use jawtrue::store::{DiskProblem, Fingerprint, OpenProblem, Origin, Recovery, leftovers};

fn origin() -> Origin {
    Origin {
        path: Some(PathBuf::from("/shop/press \"2\".jawtrue")),
        opened: Some(Fingerprint::of(b"as it was")),
    }
}

#[test]
fn work_is_found_once_its_window_is_gone() {
    let home = tempfile::tempdir().unwrap();
    let folder = home.path().join("made/if need be");
    assert!(leftovers(&folder).is_empty());
    let first = Recovery::start(&folder, || {}).unwrap();
    let second = Recovery::start(&folder, || {}).unwrap();
    let work = session(&["0.2500 abc", ""]);
    first.keep(Arc::new(session(&["0.25", "0.25"])), Origin::default());
    first.keep(Arc::new(work.clone()), origin());
    // Both windows are open.
    assert!(leftovers(&folder).is_empty());
    // The first one ends without a word.
    drop(first);
    let mut found = leftovers(&folder);
    assert_eq!(found.len(), 1);
    let leftover = found.pop().unwrap();
    assert_eq!(leftover.session.as_ref(), Ok(&work));
    assert_eq!(leftover.origin, origin());
    assert!(leftover.kept_at.is_some());
    // While one window offers it, no other does.
    assert!(leftovers(&folder).is_empty());
    drop(leftover);
    let leftover = leftovers(&folder).pop().unwrap();
    leftover.discard().unwrap();
    assert!(leftovers(&folder).is_empty());
    // The second one ends in good order and leaves nothing at all.
    second.keep(Arc::new(work), origin());
    second.finish();
    assert_eq!(fs::read_dir(&folder).unwrap().count(), 0);
}

/// Work of a crashed window lives on as that of the window that took it up, and
/// where that cannot be kept, it stays where it was.
#[test]
fn work_taken_up_is_never_without_a_copy() {
    let home = tempfile::tempdir().unwrap();
    let crashed = Recovery::start(home.path(), || {}).unwrap();
    let work = Arc::new(session(&["0.2500 abc", ""]));
    crashed.keep(Arc::clone(&work), origin());
    drop(crashed);
    let before = leftovers(home.path()).pop().unwrap();
    let first_copy = before.path.clone();
    // A folder that is full or protected: here its name is a file's.
    let elsewhere = tempfile::tempdir().unwrap();
    let folder = elsewhere.path().join("kept");
    let (wake, woken) = std::sync::mpsc::channel();
    let next = Recovery::start(&folder, move || wake.send(()).unwrap()).unwrap();
    fs::rename(&folder, elsewhere.path().join("gone")).unwrap();
    next.take_up(Arc::clone(&work), before);
    woken.recv().unwrap();
    assert!(first_copy.exists() && next.problem().is_some());
    fs::create_dir(&folder).unwrap();
    next.keep(Arc::clone(&work), origin());
    woken.recv().unwrap();
    drop(next);
    assert!(!first_copy.exists());
    let kept = leftovers(&folder).pop().unwrap();
    assert_eq!(
        (kept.session.as_ref(), &kept.origin),
        (Ok(&*work), &origin())
    );
}

/// What an interrupted save left in the folder of kept work goes once it is an
/// hour old.
#[test]
fn a_start_sweeps_what_an_interrupted_save_left() {
    let home = tempfile::tempdir().unwrap();
    let [old, fresh] = ["1-00", "2-00"].map(|id| home.path().join(format!(".jawtrue-{id}.part")));
    for file in [&old, &fresh] {
        fs::write(file, "").unwrap();
    }
    let hour_ago = std::time::SystemTime::now() - std::time::Duration::from_secs(3_600);
    let file = fs::File::options().write(true).open(&old).unwrap();
    file.set_modified(hour_ago).unwrap();
    let _recovery = Recovery::start(home.path(), || {}).unwrap();
    assert!(!old.exists() && fresh.exists());
}

#[test]
fn what_was_saved_is_let_go() {
    let home = tempfile::tempdir().unwrap();
    let recovery = Recovery::start(home.path(), || {}).unwrap();
    recovery.keep(Arc::new(session(&["0.25", "0.25"])), origin());
    recovery.forget();
    drop(recovery);
    assert!(leftovers(home.path()).is_empty());
    // The lock of a window that had nothing to keep is tidied away.
    assert_eq!(fs::read_dir(home.path()).unwrap().count(), 0);
}

#[test]
fn damaged_work_is_offered_with_its_problem_and_stays() {
    let home = tempfile::tempdir().unwrap();
    let recovery = Recovery::start(home.path(), || {}).unwrap();
    recovery.keep(Arc::new(session(&["0.25", "0.25"])), origin());
    drop(recovery);
    let path = leftovers(home.path()).pop().unwrap().path;
    let text = fs::read_to_string(&path).unwrap();
    fs::write(&path, &text[..text.len() / 2]).unwrap();
    let leftover = leftovers(home.path()).pop().unwrap();
    assert!(matches!(leftover.session, Err(OpenProblem::Damaged(..))));
    drop(leftover);
    assert!(path.exists());
}

#[test]
fn a_folder_that_cannot_be_made_is_said() {
    let home = tempfile::tempdir().unwrap();
    let file = home.path().join("file");
    fs::write(&file, "").unwrap();
    assert!(Recovery::start(&file.join("below"), || {}).is_err());
    // The folder vanishes while a window is open: the window is woken and told,
    // and again once work is kept aside as before.
    let folder = home.path().join("folder");
    let (wake, woken) = std::sync::mpsc::channel();
    let recovery = Recovery::start(&folder, move || wake.send(()).unwrap()).unwrap();
    fs::remove_dir_all(&folder).unwrap();
    recovery.keep(Arc::new(session(&["0.25", "0.25"])), origin());
    woken.recv().unwrap();
    assert_eq!(recovery.problem(), Some(DiskProblem::Missing));
    fs::create_dir(&folder).unwrap();
    recovery.keep(Arc::new(session(&["0.25", "0.25"])), origin());
    woken.recv().unwrap();
    assert_eq!(recovery.problem(), None);
    recovery.finish();
    assert_eq!(fs::read_dir(&folder).unwrap().count(), 0);
}
