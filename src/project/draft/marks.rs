//! Marks: where a builder was in a project and what they keep in view. They belong to the person and the screen, not
//! to the project: they stay out of the file, so that two builders do not meet in them and a commit holds facts only.

use std::collections::BTreeMap;
use std::path::Path;

use serde::{Deserialize, Serialize};

use super::super::store::{self, Disk};
use super::Drafts;

/// What is remembered of one project from session to session.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Marks {
    /// The figures that are pinned, by their ids.
    pub pins: Vec<String>,
    /// The panel at the bench.
    pub panel: String,
    /// The bench card that each panel was left at, by the panel's letter.
    pub cards: BTreeMap<String, String>,
    /// The row of each card, by `LETTER CARD`.
    pub rows: BTreeMap<String, usize>,
    /// The step whose time is being counted.
    pub working_on: Option<Working>,
}

/// Work that goes on.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Working {
    /// The step, as `ID` or `ID@PANEL`.
    pub step: String,
    /// When it began, in seconds of the common clock.
    pub since: u64,
}

impl Drafts {
    /// The marks of a project; none kept are empty ones.
    pub fn marks(&self, disk: &dyn Disk, project: &Path) -> Marks {
        let kept = disk.read(&self.marks_place(project)).ok();
        kept.and_then(|bytes| serde_json::from_slice(&bytes).ok()).unwrap_or_default()
    }

    /// Keeps the marks of a project, in place of older ones.
    pub fn keep_marks(&self, disk: &dyn Disk, project: &Path, marks: &Marks) -> std::io::Result<()> {
        let path = self.marks_place(project);
        if let Some(folder) = path.parent() {
            std::fs::create_dir_all(folder)?;
        }
        let seen = disk.read(&path).ok().map(|old| store::stamp(disk, &path, &old));
        let bytes = serde_json::to_vec_pretty(marks)?;
        store::save(disk, &path, &bytes, seen.as_ref()).map(drop).map_err(std::io::Error::other)
    }

    fn marks_place(&self, project: &Path) -> std::path::PathBuf {
        let place = self.place(project);
        let name = place.file_name().map(std::ffi::OsStr::to_owned).unwrap_or_default();
        self.folder.with_file_name("marks").join(name)
    }
}
