//! The logger file of the open project: read once as a stream, and again only when another file or column is named.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::SharedDisk;
use crate::logger::{Columns, Log, digest};
use crate::model::{Entries, Fig, Why, text::clean};
use crate::stage::commissioning::log_entries::{OF_FILE, wanted};

/// A log with what it was asked by: file and columns.
type Kept = Option<((String, Columns), Fig<Arc<Log>>)>;

/// The loaded log. A clone shares what is loaded.
#[derive(Clone)]
pub struct Logs {
    disk: SharedDisk,
    folder: PathBuf,
    loaded: Kept,
}

/// Whether the log hangs on an entry.
pub fn reads(id: &str) -> bool {
    OF_FILE.iter().any(|spec| spec.id == id)
}

impl Logs {
    /// Logs for a project file; their names are relative to its folder.
    pub fn new(disk: SharedDisk, project: &Path) -> Self {
        let folder = project.parent().map(Path::to_owned).unwrap_or_default();
        Self { disk, folder, loaded: None }
    }

    /// The log that the entries name.
    pub fn over(&mut self, entries: &Entries) -> Fig<Arc<Log>> {
        let wanted = wanted(entries)?;
        if let Some((loaded, log)) = &self.loaded
            && *loaded == wanted
        {
            return log.clone();
        }
        let log = self.read(&wanted);
        self.loaded = Some((wanted, log.clone()));
        log
    }

    /// Forgets the loaded log, so that the file is read again.
    pub fn forget(&mut self) {
        self.loaded = None;
    }

    fn read(&self, (name, columns): &(String, Columns)) -> Fig<Arc<Log>> {
        let refused = |reason: &dyn std::fmt::Display| {
            Why::out_of_range(format_args!("logger file {}: {}", clean(name), clean(&reason.to_string())))
        };
        let file = self.disk.open(&self.folder.join(name)).map_err(|error| refused(&error))?;
        digest(file, columns).map(Arc::new).map_err(|error| refused(&error))
    }
}
