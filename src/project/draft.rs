//! Drafts: unsaved work kept beside the program's state, so that a crash or a power cut costs a second at most.

mod marks;

use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use super::store::{self, Disk};

pub use marks::{Marks, Working};

/// Unsaved work on one project file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Draft {
    /// The project file.
    pub path: PathBuf,
    /// The hash of the file that the work began from; empty if the file was never saved.
    pub based_on: String,
    /// The whole text with the unsaved work.
    pub text: String,
    /// The id of the field that was being typed in, if any.
    pub field: Option<String>,
    /// What was typed in it so far.
    pub typed: String,
}

/// Where drafts are kept.
#[derive(Clone, Debug)]
pub struct Drafts {
    folder: PathBuf,
}

impl Drafts {
    /// Drafts in the user's state folder; none if the system tells of no such folder.
    pub fn of_user() -> Option<Self> {
        let folders = directories::ProjectDirs::from("", "", "sunharp")?;
        let state = folders.state_dir().unwrap_or_else(|| folders.data_local_dir());
        Some(Self { folder: state.join("drafts") })
    }

    /// Drafts in a folder of one's own.
    pub fn in_folder(folder: impl Into<PathBuf>) -> Self {
        Self { folder: folder.into() }
    }

    /// Keeps a draft, in place of an older one of the same project.
    pub fn keep(&self, disk: &dyn Disk, draft: &Draft) -> std::io::Result<()> {
        std::fs::create_dir_all(&self.folder)?;
        let path = self.place(&draft.path);
        let bytes = serde_json::to_vec_pretty(draft)?;
        let seen = disk.read(&path).ok().map(|old| store::stamp(disk, &path, &old));
        store::save(disk, &path, &bytes, seen.as_ref()).map(drop).map_err(std::io::Error::other)
    }

    /// The draft of a project, if there is one.
    pub fn find(&self, disk: &dyn Disk, project: &Path) -> Option<Draft> {
        serde_json::from_slice(&disk.read(&self.place(project)).ok()?).ok()
    }

    /// Takes a draft away: the work is saved or given up.
    pub fn drop_of(&self, disk: &dyn Disk, project: &Path) {
        let _ = disk.remove(&self.place(project)); // a draft that is not there is gone already
    }

    fn place(&self, project: &Path) -> PathBuf {
        let full = std::path::absolute(project).unwrap_or_else(|_| project.to_owned());
        let name = store::hash(full.to_string_lossy().as_bytes());
        self.folder.join(format!("{}.json", &name[..32]))
    }
}
