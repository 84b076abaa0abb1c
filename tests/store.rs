//! Saving and what can go wrong with it: a disk that fails or stops at every step, links, permissions, other
//! programs, a killed process.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::Arc;
use std::time::{Duration, Instant, SystemTime};

use sunharp::project::store::{Disk, RealDisk, Stamp, StoreError, load, save};
use sunharp::stage::study::STUDIES;
use sunharp::workbook::{ReadOnly, Workbook, sample};

const PROJECT: &str = "project.toml";
const OLD: &[u8] = b"format = 1\n[project]\nname = \"before\"\n";
const NEW: &[u8] = b"format = 1\n[project]\nname = \"after, and longer than before\"\n";

/// What happens at the step that was chosen.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Trouble {
    /// That step alone fails.
    Fails,
    /// The computer stops there: nothing works any more.
    Stops,
}

/// A disk in memory that knows what has reached the medium and what only seems so.
#[derive(Default)]
struct Memory {
    /// Name to file, as programs see it; and as it is after the power went.
    names: BTreeMap<PathBuf, usize>,
    lasting_names: BTreeMap<PathBuf, usize>,
    /// File to content, as programs see it; and what was forced to the medium.
    contents: Vec<Vec<u8>>,
    lasting_contents: Vec<Option<Vec<u8>>>,
    steps: usize,
    stopped: bool,
}

struct FakeDisk {
    memory: RefCell<Memory>,
    trouble: Trouble,
    at: usize,
}

impl FakeDisk {
    fn new(trouble: Trouble, at: usize, old: Option<&[u8]>) -> Self {
        let mut memory = Memory::default();
        if let Some(old) = old {
            memory.contents.push(old.to_vec());
            memory.lasting_contents.push(Some(old.to_vec()));
            memory.names.insert(PathBuf::from(PROJECT), 0);
            memory.lasting_names.insert(PathBuf::from(PROJECT), 0);
        }
        Self { memory: RefCell::new(memory), trouble, at }
    }

    /// Counts a step; an error if it is the one where the trouble is.
    fn step(&self) -> io::Result<()> {
        let mut memory = self.memory.borrow_mut();
        let now = memory.steps;
        memory.steps += 1;
        if memory.stopped {
            return Err(io::Error::other("stopped"));
        }
        if now == self.at {
            memory.stopped = self.trouble == Trouble::Stops;
            return Err(io::Error::other("failed on purpose"));
        }
        Ok(())
    }

    fn file(&self, path: &Path) -> io::Result<usize> {
        self.memory.borrow().names.get(path).copied().ok_or_else(|| io::ErrorKind::NotFound.into())
    }

    /// What programs see under a name.
    fn seen(&self, name: &str) -> Option<Vec<u8>> {
        let memory = self.memory.borrow();
        memory.names.get(Path::new(name)).map(|file| memory.contents[*file].clone())
    }

    /// What may be found under a name when the power comes back: the folder as it was forced to the medium, or
    /// already as it was last seen; a content that was not forced is torn.
    fn found_after_power_cut(&self, name: &str) -> Vec<Option<Vec<u8>>> {
        let memory = self.memory.borrow();
        [&memory.lasting_names, &memory.names]
            .into_iter()
            .map(|names| {
                let file = *names.get(Path::new(name))?;
                let torn = || memory.contents[file][..memory.contents[file].len() / 2].to_vec();
                Some(memory.lasting_contents[file].clone().unwrap_or_else(torn))
            })
            .collect()
    }
}

impl Disk for FakeDisk {
    fn read(&self, path: &Path) -> io::Result<Vec<u8>> {
        self.step()?;
        let file = self.file(path)?;
        Ok(self.memory.borrow().contents[file].clone())
    }

    fn changed(&self, path: &Path) -> io::Result<Option<SystemTime>> {
        self.step()?;
        self.file(path).map(|_| None)
    }

    fn resolve(&self, path: &Path) -> io::Result<PathBuf> {
        self.step()?;
        self.file(path).map(|_| path.to_owned())
    }

    fn create(&self, path: &Path) -> io::Result<()> {
        self.step()?;
        let mut memory = self.memory.borrow_mut();
        if memory.names.contains_key(path) {
            return Err(io::ErrorKind::AlreadyExists.into());
        }
        memory.contents.push(Vec::new());
        memory.lasting_contents.push(None);
        let file = memory.contents.len() - 1;
        memory.names.insert(path.to_owned(), file);
        Ok(())
    }

    fn write(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        let file = self.file(path)?;
        let done = self.step();
        // A write that fails has written some of it.
        let written = if done.is_ok() { bytes.len() } else { bytes.len() / 2 };
        let mut memory = self.memory.borrow_mut();
        memory.contents[file] = bytes[..written].to_vec();
        memory.lasting_contents[file] = None;
        done
    }

    fn copy_mode(&self, _: &Path, _: &Path) -> io::Result<()> {
        self.step()
    }

    fn sync(&self, path: &Path) -> io::Result<()> {
        self.step()?;
        let file = self.file(path)?;
        let mut memory = self.memory.borrow_mut();
        memory.lasting_contents[file] = Some(memory.contents[file].clone());
        Ok(())
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.step()?;
        let file = self.file(from)?;
        let mut memory = self.memory.borrow_mut();
        memory.names.remove(from);
        memory.names.insert(to.to_owned(), file);
        Ok(())
    }

    fn sync_folder(&self, _: &Path) -> io::Result<()> {
        self.step()?;
        let mut memory = self.memory.borrow_mut();
        memory.lasting_names = memory.names.clone();
        Ok(())
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        self.step()?;
        self.file(path)?;
        self.memory.borrow_mut().names.remove(path);
        Ok(())
    }
}

/// The stamp of the old content, taken before any trouble.
fn old_stamp() -> Stamp {
    load(&FakeDisk::new(Trouble::Fails, usize::MAX, Some(OLD)), Path::new(PROJECT)).unwrap().1
}

/// Saves over the old content once for each step at which there can be trouble; gives each disk with the result.
fn troubled(trouble: Trouble, old: Option<&[u8]>) -> Vec<(FakeDisk, Result<Stamp, StoreError>)> {
    let seen = old.map(|_| old_stamp());
    let mut runs = Vec::new();
    for at in 0.. {
        let disk = FakeDisk::new(trouble, at, old);
        let result = save(&disk, Path::new(PROJECT), NEW, seen.as_ref());
        if at >= disk.memory.borrow().steps {
            break;
        }
        runs.push((disk, result));
    }
    assert!(runs.len() >= 6, "saving has only {} steps", runs.len());
    runs
}

#[test]
fn a_step_of_saving_that_fails_leaves_the_old_file_or_the_new_one_whole() {
    for (disk, result) in troubled(Trouble::Fails, Some(OLD)) {
        let found = disk.seen(PROJECT).unwrap();
        assert!(found == OLD || found == NEW, "step {}", disk.at);
        if result.is_ok() {
            assert_eq!(found, NEW, "step {}", disk.at);
        }
        let names = disk.memory.borrow().names.len();
        assert_eq!(names, 1, "step {} leaves a file behind", disk.at);
    }
}

#[test]
fn a_power_cut_at_any_step_of_saving_leaves_the_old_file_or_the_new_one_whole() {
    for (disk, _) in troubled(Trouble::Stops, Some(OLD)) {
        for found in disk.found_after_power_cut(PROJECT) {
            let found = found.expect("the file is gone");
            assert!(found == OLD || found == NEW, "step {}: {found:?}", disk.at);
        }
    }
}

#[test]
fn a_power_cut_while_a_new_file_is_made_leaves_none_or_the_whole_one() {
    for (disk, _) in troubled(Trouble::Stops, None) {
        for found in disk.found_after_power_cut(PROJECT) {
            assert!(found.is_none_or(|found| found == NEW), "step {}", disk.at);
        }
    }
}

#[test]
fn what_was_saved_without_trouble_lasts() {
    let disk = FakeDisk::new(Trouble::Fails, usize::MAX, Some(OLD));
    save(&disk, Path::new(PROJECT), NEW, Some(&old_stamp())).unwrap();
    assert!(disk.found_after_power_cut(PROJECT).iter().all(|found| found.as_deref() == Some(NEW)));
}

/// A folder with the sample in it; the folder goes when it is dropped.
fn with_sample() -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join(PROJECT);
    fs::write(&path, sample::TEXT).unwrap();
    (folder, path)
}

fn open(path: &Path) -> Workbook {
    Workbook::open(Arc::new(RealDisk), path, "2026-05-01".parse().unwrap()).unwrap()
}

#[cfg(unix)]
#[test]
fn a_symbolic_link_is_followed_and_stays_one() {
    let (folder, path) = with_sample();
    let link = folder.path().join("link.toml");
    std::os::unix::fs::symlink(&path, &link).unwrap();
    let mut workbook = open(&link);
    workbook.set("absorber.riser_pitch", "5 in").unwrap();
    workbook.save().unwrap();
    assert!(fs::symlink_metadata(&link).unwrap().file_type().is_symlink());
    assert!(fs::read_to_string(&path).unwrap().contains("riser_pitch = \"5 in\""));
}

#[cfg(unix)]
#[test]
fn permissions_are_kept() {
    use std::os::unix::fs::PermissionsExt;
    let (_folder, path) = with_sample();
    fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
    let mut workbook = open(&path);
    workbook.set("absorber.riser_pitch", "5 in").unwrap();
    workbook.save().unwrap();
    assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o640);
}

#[test]
fn a_file_changed_by_another_program_is_not_written_over() {
    let (_folder, path) = with_sample();
    let mut workbook = open(&path);
    workbook.set("absorber.riser_pitch", "5 in").unwrap();
    let theirs = sample::TEXT.replace("Garden washroom", "Theirs");
    fs::write(&path, &theirs).unwrap();
    assert!(workbook.changed_on_disk());
    assert!(matches!(workbook.save(), Err(StoreError::ChangedElsewhere(_))));
    assert_eq!(fs::read_to_string(&path).unwrap(), theirs);
    assert!(workbook.is_dirty(), "the work is still there");
    workbook.take_theirs().unwrap();
    assert_eq!(workbook.text(), theirs);
}

/// A logger file or a weather file under its old name may hold something else by then.
#[test]
fn reading_a_file_again_runs_every_study_again() {
    let (_folder, path) = with_sample();
    let mut workbook = open(&path);
    workbook.run_studies();
    assert!(workbook.due_studies().is_empty());
    workbook.take_theirs().unwrap();
    assert_eq!(workbook.due_studies().len(), STUDIES.len());
}

#[test]
fn a_file_written_again_with_the_same_bytes_counts_as_unchanged() {
    let (_folder, path) = with_sample();
    let mut workbook = open(&path);
    workbook.set("absorber.riser_pitch", "5 in").unwrap();
    fs::write(&path, sample::TEXT).unwrap();
    assert!(!workbook.changed_on_disk());
    workbook.save().unwrap();
}

#[test]
fn saving_under_another_name_never_writes_over_a_file() {
    let (folder, path) = with_sample();
    let other = folder.path().join("other.toml");
    fs::write(&other, "theirs").unwrap();
    let mut workbook = open(&path);
    assert!(matches!(workbook.save_as(&other), Err(StoreError::AlreadyThere(_))));
    assert_eq!(fs::read_to_string(&other).unwrap(), "theirs");
    assert_eq!(workbook.path(), path);
}

#[test]
fn a_second_instance_opens_read_only_until_the_first_is_gone() {
    let (_folder, path) = with_sample();
    let mut first = open(&path);
    first.take_lock();
    assert_eq!(first.read_only(), None);
    let mut second = open(&path);
    second.take_lock();
    assert_eq!(second.read_only(), Some(&ReadOnly::Locked));
    assert!(second.set("absorber.riser_pitch", "5 in").is_err());
    drop(first);
    let mut third = open(&path);
    third.take_lock();
    assert_eq!(third.read_only(), None);
}

#[test]
fn a_process_killed_while_it_saves_leaves_one_of_the_two_files_whole() {
    let (_folder, path) = with_sample();
    let versions = ["4 in", "5 in"]
        .map(|pitch| sample::TEXT.replace("riser_pitch = \"4 in\"", &format!("riser_pitch = \"{pitch}\"")));
    let start = |pitch: &str| {
        Command::new(env!("CARGO_BIN_EXE_sunharp"))
            .args(["set", path.to_str().unwrap(), "absorber.riser_pitch", pitch])
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap()
    };
    let begun = Instant::now();
    assert!(start("5 in").wait().unwrap().success());
    let whole_run = begun.elapsed();
    // Spread over a whole run and a little more, so that some are killed early, some while saving, some never.
    for part in 0..30_u32 {
        let pitch = if part % 2 == 0 { "4 in" } else { "5 in" };
        let mut process = start(pitch);
        std::thread::sleep(whole_run.mul_f64(f64::from(part) / 26.0).min(Duration::from_secs(5)));
        let _ = process.kill();
        process.wait().unwrap();
        let found = fs::read_to_string(&path).unwrap();
        assert!(versions.contains(&found), "after part {part}:\n{found}");
    }
}
