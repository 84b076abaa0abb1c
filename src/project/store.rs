//! Keeping a file without ever losing it: read with a stamp, save by rename, notice changes made elsewhere.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Cursor, Read, Write};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use sha2::{Digest, Sha256};

/// What a file looked like when it was read: enough to notice that someone else changed it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stamp {
    /// The time of the last change, where the file system tells it.
    pub changed: Option<SystemTime>,
    /// The length in bytes.
    pub length: u64,
    /// The hash of the content.
    pub hash: String,
}

/// The steps that saving is made of. A test replaces them by a disk that fails or stops at any of them.
pub trait Disk {
    /// The whole content of a file.
    fn read(&self, path: &Path) -> io::Result<Vec<u8>>;
    /// A file as a stream, for files that are too long to be held whole.
    fn open(&self, path: &Path) -> io::Result<Box<dyn Read>> {
        Ok(Box::new(Cursor::new(self.read(path)?)))
    }
    /// The time of the last change.
    fn changed(&self, path: &Path) -> io::Result<Option<SystemTime>>;
    /// The file that a path leads to, symbolic links followed.
    fn resolve(&self, path: &Path) -> io::Result<PathBuf>;
    /// Makes a new file that must not exist yet.
    fn create(&self, path: &Path) -> io::Result<()>;
    /// Writes the content of a file.
    fn write(&self, path: &Path, bytes: &[u8]) -> io::Result<()>;
    /// Gives a file the permissions of another.
    fn copy_mode(&self, from: &Path, to: &Path) -> io::Result<()>;
    /// Forces a file to the medium.
    fn sync(&self, path: &Path) -> io::Result<()>;
    /// Puts a file in the place of another in one step.
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()>;
    /// Forces a folder to the medium.
    fn sync_folder(&self, path: &Path) -> io::Result<()>;
    /// Takes a file away.
    fn remove(&self, path: &Path) -> io::Result<()>;
}

/// Why saving did not happen. The old file is whole.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    /// Someone else changed the file since it was read.
    #[error("{} was changed by another program since it was opened; nothing was written", .0.display())]
    ChangedElsewhere(PathBuf),
    /// A file of that name is already there.
    #[error("{} is already there; nothing was written", .0.display())]
    AlreadyThere(PathBuf),
    /// The project is open for looking only.
    #[error("{}: read-only: {reason}; nothing was written", path.display())]
    ReadOnly {
        /// The file.
        path: PathBuf,
        /// Why.
        reason: String,
    },
    /// The file system refused.
    #[error("{}: {what} failed: {source}", path.display())]
    Refused {
        /// The file.
        path: PathBuf,
        /// Which step.
        what: &'static str,
        /// What the system said.
        source: io::Error,
    },
}

/// The stamp of a content.
pub fn stamp(disk: &dyn Disk, path: &Path, bytes: &[u8]) -> Stamp {
    Stamp { changed: disk.changed(path).ok().flatten(), length: bytes.len() as u64, hash: hash(bytes) }
}

/// The hash of a content, hexadecimal SHA-256.
pub fn hash(bytes: &[u8]) -> String {
    const DIGITS: &[u8; 16] = b"0123456789abcdef";
    Sha256::digest(bytes)
        .iter()
        .flat_map(|byte| [byte >> 4, byte & 15])
        .map(|digit| char::from(DIGITS[usize::from(digit)]))
        .collect()
}

/// Reads a file and remembers what it looked like.
pub fn load(disk: &dyn Disk, path: &Path) -> Result<(Vec<u8>, Stamp), StoreError> {
    let bytes = disk.read(path).map_err(refused(path, "reading"))?;
    let stamp = stamp(disk, path, &bytes);
    Ok((bytes, stamp))
}

/// Saves a content in place of the file that was read, or as a new file if `seen` is none.
///
/// The new content is written beside the old file, forced to the medium and put in its place by one rename: after a
/// failure or a power cut at any step there is the old file or the new one, whole.
pub fn save(disk: &dyn Disk, path: &Path, bytes: &[u8], seen: Option<&Stamp>) -> Result<Stamp, StoreError> {
    let target = match seen {
        Some(seen) => {
            let target = disk.resolve(path).map_err(refused(path, "finding the file"))?;
            let now = disk.read(&target).map_err(refused(path, "reading"))?;
            if hash(&now) != seen.hash {
                return Err(StoreError::ChangedElsewhere(path.to_owned()));
            }
            target
        }
        None => match disk.read(path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => path.to_owned(),
            Err(error) => return Err(refused(path, "reading")(error)),
            Ok(_) => return Err(StoreError::AlreadyThere(path.to_owned())),
        },
    };
    let beside = temporary(&target);
    let written = put(disk, &beside, &target, bytes, seen.is_some());
    if written.is_err() {
        let _ = disk.remove(&beside); // the first error is the one to tell
    }
    written?;
    Ok(stamp(disk, &target, bytes))
}

fn put(disk: &dyn Disk, beside: &Path, target: &Path, bytes: &[u8], replaces: bool) -> Result<(), StoreError> {
    disk.create(beside).map_err(refused(target, "making a file beside it"))?;
    disk.write(beside, bytes).map_err(refused(target, "writing"))?;
    if replaces {
        disk.copy_mode(target, beside).map_err(refused(target, "keeping its permissions"))?;
    }
    disk.sync(beside).map_err(refused(target, "forcing it to the medium"))?;
    disk.rename(beside, target).map_err(refused(target, "putting it in place"))?;
    let folder = target.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."));
    // The new file is in place already. Some file systems cannot do this; then a power cut brings the old file back.
    let _ = disk.sync_folder(folder);
    Ok(())
}

fn refused(path: &Path, what: &'static str) -> impl FnOnce(io::Error) -> StoreError {
    let path = path.to_owned();
    move |source| StoreError::Refused { path, what, source }
}

/// A hidden name in the same folder that no other process uses.
fn temporary(target: &Path) -> PathBuf {
    let name = target.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
    let moment = SystemTime::now().duration_since(SystemTime::UNIX_EPOCH).map_or(0, |since| since.as_nanos());
    target.with_file_name(format!(".{name}.{}-{moment}.saving", std::process::id()))
}

/// The real file system.
#[derive(Clone, Copy, Debug, Default)]
pub struct RealDisk;

impl Disk for RealDisk {
    fn read(&self, path: &Path) -> io::Result<Vec<u8>> {
        fs::read(path)
    }

    fn open(&self, path: &Path) -> io::Result<Box<dyn Read>> {
        Ok(Box::new(File::open(path)?))
    }

    fn changed(&self, path: &Path) -> io::Result<Option<SystemTime>> {
        Ok(fs::metadata(path)?.modified().ok())
    }

    fn resolve(&self, path: &Path) -> io::Result<PathBuf> {
        fs::canonicalize(path)
    }

    fn create(&self, path: &Path) -> io::Result<()> {
        OpenOptions::new().write(true).create_new(true).open(path).map(drop)
    }

    fn write(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        OpenOptions::new().write(true).open(path)?.write_all(bytes)
    }

    fn copy_mode(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::set_permissions(to, fs::metadata(from)?.permissions())
    }

    fn sync(&self, path: &Path) -> io::Result<()> {
        File::open(path)?.sync_all()
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::rename(from, to)
    }

    fn sync_folder(&self, path: &Path) -> io::Result<()> {
        File::open(path)?.sync_all()
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        fs::remove_file(path)
    }
}

/// Why a project is not held for writing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoLock {
    /// Another program holds it.
    Held,
    /// No file can be made beside it, in the system's words.
    Refused(String),
}

/// Holds a project for writing while it is open; a second program opens it read-only.
#[derive(Debug)]
pub struct Lock {
    _file: File,
}

impl Lock {
    /// Takes the lock beside a project file.
    ///
    /// The lock is a file of its own because saving replaces the project file itself.
    ///
    /// # Errors
    /// [`NoLock::Held`] if another program has it, [`NoLock::Refused`] if no file can be made there.
    pub fn take(path: &Path) -> Result<Self, NoLock> {
        let real = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
        let name = real.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
        let beside = real.with_file_name(format!(".{name}.lock"));
        let open = OpenOptions::new().create(true).truncate(false).write(true).open(beside);
        let file = open.map_err(|error| NoLock::Refused(error.to_string()))?;
        match file.try_lock() {
            Ok(()) => Ok(Self { _file: file }),
            Err(fs::TryLockError::WouldBlock) => Err(NoLock::Held),
            Err(fs::TryLockError::Error(error)) => Err(NoLock::Refused(error.to_string())),
        }
    }
}
