//! The open project: its text, changes with undo, studies, and the questions that are asked of it.
//!
//! Lives here: the one mutable thing in the program. Must not live here: formulas, drawing, command lines.

pub mod change;
pub mod changes;
pub mod compare;
pub mod desk;
pub mod explain;
pub mod find;
pub mod log;
pub mod mend;
pub mod record;
pub mod revision;
pub mod sample;
pub mod settle;
pub mod sky;
pub mod sway;
pub mod today;
pub mod variant;

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use jiff::civil::Date;

pub use change::{Change, ChangeError};
pub use compare::{Differences, Flip, Moved};
pub use desk::{Desk, Report};

use crate::model::{Inputs, TypedError, Value, Why, inputs::Given};
use crate::project::draft::{Draft, Drafts, Marks};
use crate::project::store::{self, Disk, Lock, NoLock, Stamp, StoreError};
use crate::project::{Problem, Project};
use crate::solve::{Evaluation, Snapshot, evaluate};
use crate::stage::study::{Outcome, STUDIES, Studies};
use crate::stage::{self, World};
use log::Logs;
use sky::Sky;

/// A disk that can be shared with other threads.
pub type SharedDisk = Arc<dyn Disk + Send + Sync>;

/// Why a project cannot be changed at the moment.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ReadOnly {
    /// The file cannot be trusted to be written back.
    Problem(Problem),
    /// Another program has it open.
    Locked,
    /// Nothing can be written in its folder, in the system's words.
    Folder(String),
}

impl std::fmt::Display for ReadOnly {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Problem(problem) => write!(f, "line {}: {}", problem.place, problem.fault),
            Self::Locked => write!(f, "another sunharp has this project open"),
            Self::Folder(reason) => write!(f, "nothing can be written in its folder: {reason}"),
        }
    }
}

/// An open project.
pub struct Workbook {
    path: PathBuf,
    disk: SharedDisk,
    text: String,
    project: Project,
    /// What is on the disk, if it was ever saved: its stamp and text.
    saved: Option<(Stamp, String)>,
    sky: Sky,
    logs: Logs,
    today: Date,
    studies: Studies,
    /// What the studies that are laid in were computed from.
    studied: Vec<Option<String>>,
    evaluation: Arc<Evaluation>,
    /// The last evaluation in which no study was pending.
    settled: Option<Arc<Evaluation>>,
    done: Vec<Change>,
    undone: Vec<Change>,
    revision: u64,
    lock: Option<Lock>,
    read_only: Option<ReadOnly>,
}

impl Workbook {
    /// Opens a project file.
    pub fn open(disk: SharedDisk, path: &Path, today: Date) -> Result<Self, StoreError> {
        let (bytes, stamp) = store::load(&*disk, path)?;
        let (text, project) = Project::read_bytes(&bytes);
        let mut workbook = Self::of(disk, path, text.clone(), project, today);
        workbook.saved = Some((stamp, text));
        Ok(workbook)
    }

    /// Opens a text that is not on the disk yet; saving makes the file.
    pub fn unsaved(disk: SharedDisk, path: &Path, text: impl Into<String>, today: Date) -> Self {
        let text = text.into();
        let project = Project::read(&text);
        Self::of(disk, path, text, project, today)
    }

    fn of(disk: SharedDisk, path: &Path, text: String, project: Project, today: Date) -> Self {
        let read_only = project.read_only().cloned().map(ReadOnly::Problem);
        let sky = Sky::new(Arc::clone(&disk), path);
        let logs = Logs::new(Arc::clone(&disk), path);
        let empty = Snapshot {
            entries: Arc::default(),
            records: Arc::default(),
            panels: Vec::new(),
            world: World::without_weather(today),
            studies: Studies::default(),
            earlier: None,
        };
        let mut workbook = Self {
            path: path.to_owned(),
            disk,
            text,
            project,
            saved: None,
            sky,
            logs,
            today,
            studies: Studies::default(),
            studied: vec![None; STUDIES.len()],
            evaluation: Arc::new(evaluate(&empty)),
            settled: None,
            done: Vec::new(),
            undone: Vec::new(),
            revision: 0,
            lock: None,
            read_only,
        };
        workbook.renew();
        workbook
    }

    /// Takes the file for writing; without it the project stays read-only.
    pub fn take_lock(&mut self) {
        if self.saved.is_none() || self.lock.is_some() {
            return;
        }
        match Lock::take(&self.path) {
            Ok(lock) => self.lock = Some(lock),
            Err(_) if self.read_only.is_some() => {}
            Err(NoLock::Held) => self.read_only = Some(ReadOnly::Locked),
            Err(NoLock::Refused(reason)) => self.read_only = Some(ReadOnly::Folder(reason)),
        }
    }

    /// Everything that can be shown.
    pub fn evaluation(&self) -> &Arc<Evaluation> {
        &self.evaluation
    }

    /// The last evaluation with all studies back; what a screen shows as "from before your change".
    pub fn settled(&self) -> Option<&Arc<Evaluation>> {
        self.settled.as_ref()
    }

    /// The text as it is now.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The project as read from the text.
    pub fn project(&self) -> &Project {
        &self.project
    }

    /// The file.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Today, as given when it was opened.
    pub fn today(&self) -> Date {
        self.today
    }

    /// Counts up with every change of the text.
    pub fn revision(&self) -> u64 {
        self.revision
    }

    /// Why nothing can be changed, if so.
    pub fn read_only(&self) -> Option<&ReadOnly> {
        self.read_only.as_ref()
    }

    /// Whether there is work that is not on the disk.
    pub fn is_dirty(&self) -> bool {
        self.saved.as_ref().is_none_or(|(_, text)| *text != self.text)
    }

    /// What the present evaluation was computed from.
    pub fn snapshot(&self) -> Snapshot {
        Snapshot {
            entries: Arc::new(self.project.entries.clone()),
            records: Arc::new(self.project.records.clone()),
            panels: self.project.panels.clone(),
            world: self.evaluation.drawn.world.clone(),
            studies: self.studies.clone(),
            earlier: Some(Arc::clone(&self.evaluation.drawn)),
        }
    }

    /// What would come of typing this text for an entry: the value, and everything that would move.
    pub fn preview(&self, id: &str, typed: &str) -> Result<(Value, Differences), TypedError> {
        let spec = stage::entry(id).ok_or(TypedError::Empty)?;
        let value = spec.read(typed)?;
        let mut snapshot = self.snapshot();
        let given = Given { typed: typed.trim().to_owned(), value: Ok(value.clone()) };
        Arc::make_mut(&mut snapshot.entries).insert(id.to_owned(), given);
        if sky::reads(id) {
            snapshot.world.sky = self.sky.clone().over(&snapshot.entries);
        }
        if log::reads(id) {
            snapshot.world.log = self.logs.clone().over(&snapshot.entries);
        }
        let after = evaluate(&snapshot);
        Ok((value, compare::differences(&self.evaluation, &after)))
    }

    /// Saves the text in place of the file that was read; a project that is open for looking only is not written.
    pub fn save(&mut self) -> Result<(), StoreError> {
        if let Some(reason) = &self.read_only {
            return Err(StoreError::ReadOnly { path: self.path.clone(), reason: reason.to_string() });
        }
        let seen = self.saved.as_ref().map(|(stamp, _)| stamp);
        let stamp = store::save(&*self.disk, &self.path, self.text.as_bytes(), seen)?;
        self.saved = Some((stamp, self.text.clone()));
        self.take_lock();
        Ok(())
    }

    /// Saves the text under another name, which must not be taken, and goes on with that file.
    pub fn save_as(&mut self, path: &Path) -> Result<(), StoreError> {
        let stamp = store::save(&*self.disk, path, self.text.as_bytes(), None)?;
        path.clone_into(&mut self.path);
        self.saved = Some((stamp, self.text.clone()));
        self.lock = None;
        self.read_only = self.project.read_only().cloned().map(ReadOnly::Problem);
        self.take_lock();
        // Weather and logger files are named from the project's folder.
        self.sky = Sky::new(Arc::clone(&self.disk), path);
        self.logs = Logs::new(Arc::clone(&self.disk), path);
        self.renew();
        Ok(())
    }

    /// Whether the file on the disk is no longer the one that was read or saved.
    pub fn changed_on_disk(&self) -> bool {
        self.saved.as_ref().is_some_and(|(stamp, _)| {
            let same_time = self.disk.changed(&self.path).ok() == Some(stamp.changed);
            !same_time && self.disk.read(&self.path).is_ok_and(|bytes| store::hash(&bytes) != stamp.hash)
        })
    }

    /// Reads the file again and gives up what is not saved.
    pub fn take_theirs(&mut self) -> Result<(), StoreError> {
        let (bytes, stamp) = store::load(&*self.disk, &self.path)?;
        let (text, project) = Project::read_bytes(&bytes);
        self.read_only = project.read_only().cloned().map(ReadOnly::Problem);
        self.text.clone_from(&text);
        self.project = project;
        self.saved = Some((stamp, text));
        self.done.clear();
        self.undone.clear();
        self.sky.forget();
        self.logs.forget();
        // Weather and log may be other ones under the same names, which no entry tells.
        self.studies = Studies::default();
        self.studied.fill(None);
        self.renew();
        Ok(())
    }

    /// Keeps the unsaved work, and what is half typed, where a crash cannot reach it.
    pub fn keep_draft(&self, drafts: &Drafts, field: Option<(&str, &str)>) -> std::io::Result<()> {
        let draft = Draft {
            path: self.path.clone(),
            based_on: self.saved.as_ref().map_or_else(String::new, |(stamp, _)| stamp.hash.clone()),
            text: self.text.clone(),
            field: field.map(|(id, _)| id.to_owned()),
            typed: field.map_or_else(String::new, |(_, typed)| typed.to_owned()),
        };
        drafts.keep(&*self.disk, &draft)
    }

    /// The draft of this project that holds other work than the file, if there is one.
    pub fn draft(&self, drafts: &Drafts) -> Option<Draft> {
        let draft = drafts.find(&*self.disk, &self.path)?;
        (draft.text != self.text || !draft.typed.is_empty()).then_some(draft)
    }

    /// What was kept in view when this project was last open.
    pub fn marks(&self, drafts: &Drafts) -> Marks {
        drafts.marks(&*self.disk, &self.path)
    }

    /// Keeps what is in view until the project is opened again.
    pub fn keep_marks(&self, drafts: &Drafts, marks: &Marks) -> std::io::Result<()> {
        drafts.keep_marks(&*self.disk, &self.path, marks)
    }

    /// Takes this project's draft away.
    pub fn drop_draft(&self, drafts: &Drafts) {
        drafts.drop_of(&*self.disk, &self.path);
    }

    /// Runs every study here and now. For commands; a screen uses a [`Desk`].
    pub fn run_studies(&mut self) {
        let cancel = stage::study::Cancel::default();
        for (index, study) in STUDIES.iter().enumerate() {
            if let Some(outcome) = (study.run)(&self.evaluation.drawn, &cancel) {
                self.lay_in(index, outcome);
            }
        }
        self.evaluate_again();
    }

    /// The studies whose inputs have changed since they were last run.
    pub fn due_studies(&self) -> Vec<usize> {
        let inputs = &self.evaluation.drawn.inputs;
        (0..STUDIES.len()).filter(|index| self.studied[*index].as_ref() != Some(&fingerprint(*index, inputs))).collect()
    }

    /// Takes what a worker brought back; nothing happens if the inputs have changed meanwhile.
    pub fn take_report(&mut self, report: Report) {
        if report.fingerprint == fingerprint(report.study, &self.evaluation.drawn.inputs) {
            self.lay_in(report.study, report.outcome);
            self.evaluate_again();
        }
    }

    fn lay_in(&mut self, index: usize, outcome: Outcome) {
        self.studied[index] = Some(fingerprint(index, &self.evaluation.drawn.inputs));
        outcome.lay_into(&mut self.studies);
    }

    /// Evaluates the present text, forgetting studies whose inputs have changed.
    fn renew(&mut self) {
        self.revision += 1;
        self.evaluate_again();
        let due: Vec<usize> =
            self.due_studies().into_iter().filter(|index| self.studied[*index].take().is_some()).collect();
        for index in &due {
            (STUDIES[*index].failed)(Why::Pending).lay_into(&mut self.studies);
        }
        if !due.is_empty() {
            self.evaluate_again();
        }
    }

    fn evaluate_again(&mut self) {
        let world = World {
            sky: self.sky.over(&self.project.entries),
            log: self.logs.over(&self.project.entries),
            today: self.today,
        };
        let snapshot = Snapshot {
            entries: Arc::new(self.project.entries.clone()),
            records: Arc::new(self.project.records.clone()),
            panels: self.project.panels.clone(),
            world,
            studies: self.studies.clone(),
            earlier: Some(Arc::clone(&self.evaluation.drawn)),
        };
        self.evaluation = Arc::new(evaluate(&snapshot));
        if self.studied.iter().all(Option::is_some) {
            self.settled = Some(Arc::clone(&self.evaluation));
        }
    }
}

/// Everything that a study depends on, as it is understood: of several readings only their fold counts.
pub(crate) fn fingerprint(study: usize, inputs: &Inputs) -> String {
    let mut text = format!("panels={}\n", inputs.panels().len());
    for declared in STUDIES[study].group.depends() {
        for (id, _) in inputs.typed_like(declared) {
            let _ = writeln!(text, "{id}={:?}", inputs.value(id)); // a String takes everything
        }
    }
    text.extend(inputs.panels().iter().map(ToString::to_string));
    text
}
