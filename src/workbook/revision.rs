//! What stands in the git repository around a project, read through the git program; silent where there is none.
//!
//! Nothing is ever written to the repository: a commit is the builder's own act.

use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::Arc;

use super::{Workbook, fingerprint};
use crate::stage::study::{Cancel, STUDIES};

impl Workbook {
    /// The same project as it was at a revision, with those studies back that are back here.
    pub fn as_at(&self, revision: &str) -> Option<Self> {
        let text = text_at(revision, self.path())?;
        let mut before = Self::unsaved(Arc::clone(&self.disk), self.path(), text, self.today());
        before.share_studies(self);
        Some(before)
    }

    /// Takes over the studies of another state of the project and runs those anew whose inputs differ, so that the two
    /// can be compared: what is still being computed there stays so here.
    fn share_studies(&mut self, other: &Self) {
        let drawn = Arc::clone(&self.evaluation);
        self.studies = other.studies.clone();
        self.studied.clone_from(&other.studied);
        for (index, study) in STUDIES.iter().enumerate() {
            let is_same = |known: &String| *known == fingerprint(index, &drawn.drawn.inputs);
            if self.studied[index].as_ref().is_none_or(is_same) {
                continue;
            }
            if let Some(outcome) = (study.run)(&drawn.drawn, &Cancel::default()) {
                self.lay_in(index, outcome);
            }
        }
        self.evaluate_again();
    }
}

/// The text of a file as it was at a revision, such as `HEAD` or `v1.2`; none without a repository, without git, or
/// where the file was not there.
pub fn text_at(revision: &str, file: &Path) -> Option<String> {
    if revision.starts_with('-') || revision.contains(':') {
        return None; // never an option of git's, never another file
    }
    let folder = file.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let name = file.file_name()?.to_str()?;
    let output = Command::new("git")
        .arg("-C")
        .arg(folder)
        .args(["show", &format!("{revision}:./{name}")])
        .stdin(Stdio::null())
        .stderr(Stdio::null())
        .output()
        .ok()?;
    output.status.success().then(|| String::from_utf8(output.stdout).ok()).flatten()
}
