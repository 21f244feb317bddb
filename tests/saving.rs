//! Saving: whatever happens, an intact file, old or new, stands under the
//! name.

mod common;

use std::fs;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::process::Stdio;
use std::time::Duration;

use common::simulated_disk::SimulatedDisk;
use common::{program, session};
use jawtrue::press::NutPosition;
use jawtrue::session::{Pass, Session};
use jawtrue::store::{
    self, Disk, DiskProblem, Expected, Fingerprint, SaveProblem, backup_path, save_on, session_text,
};

/// Two states of one session.
fn states() -> (Session, Session) {
    let before = session(&["0.2500", "0.2470"]);
    let mut after = before.clone();
    after.passes.push(Pass::unread(vec![NutPosition(1); 2], 2));
    (before, after)
}

fn text(session: &Session) -> Vec<u8> {
    session_text(session).unwrap().into_bytes()
}

const PATH: &str = "/shop/press.jawtrue";

/// How the saving goes that is disturbed.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Case {
    /// No file is there yet.
    First,
    /// A file is there, and a backup of the state before it.
    Again,
}

fn disk_before(case: Case, first: &[u8]) -> SimulatedDisk {
    let disk = SimulatedDisk::default();
    if case == Case::Again {
        disk.lay_down(Path::new(PATH), first);
        disk.lay_down(&backup_path(Path::new(PATH)), b"older");
    }
    disk
}

fn save_second(disk: &SimulatedDisk, case: Case) -> Result<Fingerprint, SaveProblem> {
    let (before, after) = states();
    let expected = match case {
        Case::First => Expected::Nothing,
        Case::Again => Expected::Unchanged(Fingerprint::of(&text(&before))),
    };
    save_on(disk, Path::new(PATH), &after, expected)
}

/// Steps of the disk that an undisturbed save takes.
fn steps(case: Case) -> usize {
    let (before, after) = states();
    let disk = disk_before(case, &text(&before));
    save_second(&disk, case).unwrap();
    assert_eq!(disk.content(Path::new(PATH)), Some(text(&after)));
    disk.steps()
}

#[test]
fn a_loss_of_power_at_any_step_leaves_the_old_file_or_the_new() {
    let (before, after) = (text(&states().0), text(&states().1));
    let mut seen = [0_usize; 2];
    for case in [Case::First, Case::Again] {
        let steps = steps(case);
        assert!(steps >= 6, "{case:?} takes {steps} steps");
        // One step beyond the last: the power fails after a save that said it
        // was done.
        for crash_at in 0..=steps {
            for seed in 0..400 {
                let disk = disk_before(case, &before);
                disk.crash_at(crash_at, seed);
                let said = save_second(&disk, case);
                let left = disk.after_crash();
                let found = left.content(Path::new(PATH));
                let told = format!("{case:?}, step {crash_at} of {steps}, seed {seed}");
                let is_new = found.as_ref() == Some(&after);
                let is_old = match case {
                    Case::First => found.is_none(),
                    Case::Again => found.as_ref() == Some(&before),
                };
                assert!(is_new || is_old, "{told}: {found:?}");
                if said.is_ok() {
                    assert!(is_new, "{told}: said it was done");
                }
                seen[usize::from(is_new)] += 1;
                let backup = left.content(&backup_path(Path::new(PATH)));
                let whole = [None, Some(b"older".to_vec()), Some(before.clone())];
                assert!(whole.contains(&backup), "{told}: {backup:?}");
                if case == Case::Again && is_new {
                    assert_eq!(backup.as_ref(), Some(&before), "{told}");
                }
            }
        }
    }
    // Both outcomes do occur: the crashes are not all before or after it.
    assert!(seen.iter().all(|times| *times > 1_000), "{seen:?}");
}

#[test]
fn the_simulated_disk_catches_careless_saving() {
    // Each of these loses the file at some step, as it would on a real disk.
    type Careless = fn(&SimulatedDisk, &Path, &[u8]) -> io::Result<()>;
    let in_place: Careless = |disk, path, bytes| {
        disk.remove(path)?;
        let mut file = disk.create(path, None)?;
        file.append(bytes)?;
        file.sync()?;
        disk.sync_folder(Path::new("/shop"))
    };
    let unflushed: Careless = |disk, path, bytes| {
        let part = Path::new("/shop/part");
        disk.create(part, None)?.append(bytes)?;
        disk.rename(part, path)?;
        disk.sync_folder(Path::new("/shop"))
    };
    let old_moved_away: Careless = |disk, path, bytes| {
        let part = Path::new("/shop/part");
        let mut file = disk.create(part, None)?;
        file.append(bytes)?;
        file.sync()?;
        disk.rename(path, &backup_path(path))?;
        disk.rename(part, path)?;
        disk.sync_folder(Path::new("/shop"))
    };
    for (name, careless) in [
        ("in place", in_place),
        ("unflushed", unflushed),
        ("old moved away", old_moved_away),
    ] {
        let lost = (0..6)
            .flat_map(|step| (0..100).map(move |seed| (step, seed)))
            .filter(|&(step, seed)| {
                let disk = disk_before(Case::Again, b"old");
                disk.crash_at(step, seed);
                let _ = careless(&disk, Path::new(PATH), b"new and longer");
                let found = disk.after_crash().content(Path::new(PATH));
                !matches!(found.as_deref(), Some(b"old" | b"new and longer"))
            })
            .count();
        assert!(lost > 0, "{name}");
    }
}

#[test]
fn a_disk_that_refuses_any_step_leaves_the_old_file_and_no_litter() {
    let (before, after) = (text(&states().0), text(&states().1));
    let mut unconfirmed = 0;
    for case in [Case::First, Case::Again] {
        for step in 0..steps(case) {
            for kind in [ErrorKind::StorageFull, ErrorKind::Other] {
                let disk = disk_before(case, &before);
                disk.fail_at(step, kind);
                let problem = save_second(&disk, case).unwrap_err();
                let expected = match kind {
                    ErrorKind::StorageFull => DiskProblem::Full,
                    _ => DiskProblem::Other(None),
                };
                let told = format!("{case:?}, step {step}");
                let found = disk.content(Path::new(PATH));
                let old = (case == Case::Again).then(|| before.clone());
                // A user who is told "not saved" enters the pass again.
                if found.as_ref() == Some(&after) {
                    assert_eq!(problem, SaveProblem::NotConfirmed(expected), "{told}");
                    unconfirmed += 1;
                } else {
                    assert_eq!(found, old, "{told}");
                    assert_eq!(problem, SaveProblem::Disk(expected), "{told}");
                }
                let litter: Vec<PathBuf> = disk
                    .names()
                    .into_iter()
                    .filter(|name| name.to_string_lossy().ends_with(".part"))
                    .collect();
                assert!(litter.is_empty(), "{told}: {litter:?}");
                // Once the disk does as it is told, saving again succeeds,
                // also where the new file was in place already.
                if case == Case::Again {
                    save_second(&disk, case).unwrap();
                    assert_eq!(disk.content(Path::new(PATH)), Some(after.clone()), "{told}");
                }
            }
        }
    }
    assert!(unconfirmed > 0);
}

/// A folder with the first state of a session in a file.
fn folder_with_file() -> (tempfile::TempDir, PathBuf, Fingerprint) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("press.jawtrue");
    let fingerprint = store::save(&path, &states().0, Expected::Nothing).unwrap();
    (folder, path, fingerprint)
}

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

#[test]
fn the_state_before_is_kept_beside() {
    let (folder, path, fingerprint) = folder_with_file();
    assert_eq!(names(folder.path()), ["press.jawtrue"]);
    let (before, after) = states();
    let saved = store::save(&path, &after, Expected::Unchanged(fingerprint)).unwrap();
    let opened = store::open(&path).unwrap();
    assert_eq!((opened.session, opened.fingerprint), (after.clone(), saved));
    assert_eq!(
        names(folder.path()),
        ["press.jawtrue", "press.jawtrue.backup"]
    );
    let backup = store::open(&backup_path(&path)).unwrap();
    assert_eq!(backup.session, before);
    // Saving what is there already keeps the backup.
    store::save(&path, &after, Expected::Unchanged(saved)).unwrap();
    assert_eq!(store::open(&backup_path(&path)).unwrap().session, before);
}

#[test]
fn a_file_changed_by_somebody_else_is_not_written_over() {
    let (_folder, path, fingerprint) = folder_with_file();
    let (mut other, after) = states();
    other.notes.notes = "somebody else".into();
    fs::write(&path, text(&other)).unwrap();
    let changed = Err(SaveProblem::ChangedOnDisk);
    assert_eq!(
        store::save(&path, &after, Expected::Unchanged(fingerprint)),
        changed
    );
    assert_eq!(store::open(&path).unwrap().session, other);
    // The user decides to replace it; the other's work stays as the backup.
    store::save(&path, &after, Expected::Anything).unwrap();
    assert_eq!(store::open(&path).unwrap().session, after);
    assert_eq!(store::open(&backup_path(&path)).unwrap().session, other);
    // A file that is gone is made again.
    fs::remove_file(&path).unwrap();
    store::save(&path, &after, Expected::Unchanged(fingerprint)).unwrap();
    assert_eq!(store::open(&path).unwrap().session, after);
    // A new session never takes the place of a file, readable or not.
    for there in [text(&other), b"no session".to_vec()] {
        fs::write(&path, &there).unwrap();
        let exists = Err(SaveProblem::Exists);
        assert_eq!(store::save(&path, &after, Expected::Nothing), exists);
        assert_eq!(fs::read(&path).unwrap(), there);
    }
}

#[test]
fn what_is_no_file_or_cannot_be_written_is_said() {
    let (folder, path, _) = folder_with_file();
    let (_, after) = states();
    let save = |path: &Path| store::save(path, &after, Expected::Anything);
    assert_eq!(save(folder.path()), Err(SaveProblem::NotAFile));
    let missing = folder.path().join("no/such/folder/press.jawtrue");
    let no_folder = Err(SaveProblem::Disk(DiskProblem::Missing));
    assert_eq!(save(&missing), no_folder);
    let protected = fs::metadata(&path).unwrap().permissions();
    let mut read_only = protected.clone();
    read_only.set_readonly(true);
    fs::set_permissions(&path, read_only).unwrap();
    let denied = Err(SaveProblem::Disk(DiskProblem::Denied));
    assert_eq!(save(&path), denied);
    assert_eq!(store::open(&path).unwrap().session, states().0);
    assert_eq!(names(folder.path()), ["press.jawtrue"]);
    fs::set_permissions(&path, protected).unwrap();
    // A folder where the backup goes: the file itself stays as it is.
    fs::create_dir(backup_path(&path)).unwrap();
    let refused = save(&path).unwrap_err();
    assert_eq!(refused, SaveProblem::Disk(DiskProblem::Folder));
    assert_eq!(store::open(&path).unwrap().session, states().0);
}

#[cfg(unix)]
#[test]
fn links_devices_and_permissions_are_respected() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let (folder, path, fingerprint) = folder_with_file();
    let (_, after) = states();
    fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
    // A link into another folder: the file behind it is replaced, not the
    // link.
    let link = folder.path().join("elsewhere/link.jawtrue");
    fs::create_dir(link.parent().unwrap()).unwrap();
    symlink("../press.jawtrue", &link).unwrap();
    store::save(&link, &after, Expected::Unchanged(fingerprint)).unwrap();
    assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
    assert_eq!(store::open(&path).unwrap().session, after);
    for file in [&path, &backup_path(&path)] {
        let mode = fs::metadata(file).unwrap().permissions().mode();
        assert_eq!(mode & 0o777, 0o640, "{file:?}");
    }
    // A link that leads nowhere yet, and one that leads to itself.
    let dangling = folder.path().join("dangling.jawtrue");
    symlink("made-later.jawtrue", &dangling).unwrap();
    store::save(&dangling, &after, Expected::Anything).unwrap();
    assert!(folder.path().join("made-later.jawtrue").is_file());
    let ring = folder.path().join("ring.jawtrue");
    symlink("ring.jawtrue", &ring).unwrap();
    let no_name = Err(SaveProblem::Disk(DiskProblem::Name));
    assert_eq!(store::save(&ring, &after, Expected::Anything), no_name);
    for device in ["/dev/full", "/dev/null"] {
        let saved = store::save(Path::new(device), &after, Expected::Anything);
        assert_eq!(saved, Err(SaveProblem::NotAFile));
    }
}

#[test]
fn what_a_killed_save_left_is_swept_once_it_is_old() {
    let (folder, path, _) = folder_with_file();
    let old = folder.path().join(".jawtrue-1-00.part");
    let fresh = folder.path().join(".jawtrue-2-00.part");
    let other = folder.path().join("own.part");
    // The clock was set back since.
    let to_come = folder.path().join(".jawtrue-3-00.part");
    for file in [&old, &fresh, &other, &to_come] {
        fs::write(file, "").unwrap();
    }
    let (now, hour) = (std::time::SystemTime::now(), Duration::from_secs(3_600));
    for (file, date) in [
        (&old, now - hour),
        (&other, now - hour),
        (&to_come, now + hour),
    ] {
        let file = fs::File::options().write(true).open(file).unwrap();
        file.set_modified(date).unwrap();
    }
    store::save(&path, &states().1, Expected::Anything).unwrap();
    let left = [
        ".jawtrue-2-00.part",
        "own.part",
        "press.jawtrue",
        "press.jawtrue.backup",
    ];
    assert_eq!(names(folder.path()), left);
}

#[test]
fn two_programs_that_record_at_once_never_lose_a_pass() {
    let (folder, path, _) = folder_with_file();
    let record = |name: &'static str| {
        let mut program = program();
        program
            .current_dir(folder.path())
            .args([
                "record",
                "press.jawtrue",
                "--readings",
                "0.25, 0.25",
                "--note",
                name,
            ])
            .stdout(Stdio::null())
            .stderr(Stdio::piped());
        program.spawn().unwrap()
    };
    let mut recorded = 0;
    for _ in 0..40 {
        let both = [record("first"), record("second")];
        for child in both {
            let output = child.wait_with_output().unwrap();
            if output.status.success() {
                recorded += 1;
            } else {
                let said = String::from_utf8(output.stderr).unwrap();
                assert!(said.contains("somebody else changed the file"), "{said}");
            }
        }
    }
    let passes = store::open(&path).unwrap().session.passes.len();
    assert_eq!(passes, states().0.passes.len() + recorded);
    assert!(recorded >= 40, "{recorded}");
}
