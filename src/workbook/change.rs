//! Changes: every edit of the text, with its inverse.

use super::Workbook;
use crate::model::{Address, Evidence, TypedError};
use crate::project::edit::{self, Written};
use crate::project::records::value_of;
use crate::project::{EditError, Project, Splice};
use crate::solve::progress::{Standing, comes_first, held, relied_on};
use crate::stage;
use crate::stage::plumbing::mend::Edit;
use crate::stage::site::basis;
use jiff::civil::Date;

/// One edit: what it is called, and the splices in the order they are made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// What was done, for "undo" and "redo".
    pub label: String,
    /// The splices, each made on the text that the ones before it left.
    pub splices: Vec<Splice>,
}

impl Change {
    /// The change that takes this one back.
    #[must_use]
    pub fn inverse(&self) -> Self {
        Self { label: self.label.clone(), splices: self.splices.iter().rev().map(Splice::inverse).collect() }
    }
}

/// Why a change was not made. Nothing has changed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ChangeError {
    /// The project is open for looking only.
    #[error("read-only: {0}")]
    ReadOnly(String),
    /// The text typed is not a value.
    #[error("{0}")]
    Typed(#[from] TypedError),
    /// The file cannot take it.
    #[error("{0}")]
    Edit(#[from] EditError),
    /// The step wants something else first.
    #[error("{0}")]
    NotYet(String),
}

/// A reading to be recorded.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct NewReading {
    /// The value, as typed.
    pub typed: String,
    /// Who measured.
    pub by: String,
    /// With what.
    pub instrument: String,
    /// A few words.
    pub note: String,
}

/// A sign-off to be recorded.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct NewSignOff {
    /// Who.
    pub by: String,
    /// Who read it back, where a second person is needed.
    pub read_back_by: String,
    /// What shows it: words, or the value of a reading as typed.
    pub evidence: String,
}

impl Workbook {
    /// Gives an entry a new text.
    pub fn set(&mut self, id: &str, typed: &str) -> Result<(), ChangeError> {
        let spec = stage::entry(id).ok_or_else(|| EditError::Unknown(id.to_owned()))?;
        spec.read(typed)?;
        let splice = edit::set_entry(&self.text, &self.project, id, typed)?;
        self.make(Change { label: format!("{} = {}", spec.label, typed.trim()), splices: vec![splice] })
    }

    /// Takes an entry out of the file.
    pub fn unset(&mut self, id: &str) -> Result<(), ChangeError> {
        let label = stage::entry(id).map_or(id, |spec| spec.label);
        let splice = edit::unset_entry(&self.text, &self.project, id)?;
        self.make(Change { label: format!("{label} taken out"), splices: vec![splice] })
    }

    /// Gives several entries new texts, or takes them out, as one change.
    pub fn set_several(&mut self, label: &str, edits: &[Edit]) -> Result<(), ChangeError> {
        let (mut text, mut project, mut splices) = (self.text.clone(), Project::read(&self.text), Vec::new());
        for edit in edits {
            let splice = match &edit.typed {
                Some(typed) => {
                    let spec = stage::entry(&edit.id).ok_or_else(|| EditError::Unknown(edit.id.clone()))?;
                    spec.read(typed)?;
                    edit::set_entry(&text, &project, &edit.id, typed)?
                }
                // What is assumed and not in the file need not be taken out.
                None if !project.entries.contains_key(&edit.id) => continue,
                None => edit::unset_entry(&text, &project, &edit.id)?,
            };
            text = splice.apply(&text)?;
            project = Project::read(&text);
            splices.push(splice);
        }
        self.make(Change { label: label.to_owned(), splices })
    }

    /// Keeps the weather file's twelve monthly means in the project, so that it works when handed on without the file.
    pub fn keep_monthly_summary(&mut self) -> Result<(), ChangeError> {
        let climate = self.evaluation.drawn.world.sky.clone().map_err(|why| ChangeError::NotYet(why.to_string()))?;
        if !climate.station().format.is_hourly() {
            let rests_on = basis::words(climate.station().format);
            return Err(ChangeError::NotYet(format!(
                "there is no weather file to keep means of: all rests on {rests_on}"
            )));
        }
        let (mut text, mut project, mut splices) = (self.text.clone(), Project::read(&self.text), Vec::new());
        for (id, typed) in basis::summary_lines(&climate.monthly_summary()) {
            let splice = edit::set_entry(&text, &project, &id, &typed)?;
            text = splice.apply(&text)?;
            project = Project::read(&text);
            splices.push(splice);
        }
        if text == self.text {
            return Ok(()); // kept already: no change that could be taken back
        }
        self.make(Change { label: "monthly means of the weather file kept".to_owned(), splices })
    }

    /// Records a reading.
    pub fn add_reading(&mut self, of: &Address, reading: &NewReading) -> Result<(), ChangeError> {
        value_of(&of.id, &reading.typed)?;
        let label = stage::entry(&of.id).map_or(of.id.as_str(), |spec| spec.label);
        let change = format!("reading of {label}: {}", reading.typed.trim());
        let splice = self.reading_splice(&self.text, &self.project, of, reading)?;
        self.make(Change { label: change, splices: vec![splice] })
    }

    /// Signs a step off. Where its evidence is a reading, the reading is recorded with it.
    pub fn sign_off(&mut self, of: &Address, sign_off: &NewSignOff) -> Result<(), ChangeError> {
        let step = stage::step(&of.id).ok_or_else(|| EditError::Unknown(of.id.clone()))?;
        self.may_sign(of, sign_off)?;
        let mut text = self.text.clone();
        let mut splices = Vec::new();
        if let Evidence::Reading(id) = step.evidence {
            value_of(id, &sign_off.evidence)?;
            let measured = Address { id: id.to_owned(), panel: of.panel };
            let reading =
                NewReading { typed: sign_off.evidence.clone(), by: sign_off.by.clone(), ..NewReading::default() };
            let splice = self.reading_splice(&text, &self.project, &measured, &reading)?;
            text = splice.apply(&text)?;
            splices.push(splice);
        }
        let project = Project::read(&text);
        let key = free_key(&project, "sign_off", &of.to_string(), self.today);
        let fields = [
            ("by", Written::Text(sign_off.by.trim().to_owned())),
            ("read_back_by", Written::Text(sign_off.read_back_by.trim().to_owned())),
            ("evidence", Written::Text(sign_off.evidence.trim().to_owned())),
            ("saw", Written::Saw(relied_on(step, &project.entries))),
        ];
        splices.push(edit::add_table(&text, &project, &["sign_off", &of.to_string(), &key], &fields)?);
        self.make(Change { label: format!("step {of} signed off"), splices })
    }

    /// Takes a sign-off back, in writing.
    pub fn withdraw_sign_off(&mut self, of: &Address, reason: &str) -> Result<(), ChangeError> {
        if reason.trim().is_empty() {
            return Err(ChangeError::NotYet("say why it is taken back".to_owned()));
        }
        let record = self.project.records.sign_off(of).ok_or_else(|| EditError::NotThere(of.to_string()))?;
        let path = ["sign_off".to_owned(), of.to_string(), record.key.clone(), "withdrawn".to_owned()];
        let path: Vec<&str> = path.iter().map(String::as_str).collect();
        let splice = edit::add_field(&self.text, &self.project, &path, reason.trim())?;
        self.make(Change { label: format!("step {of} taken back"), splices: vec![splice] })
    }

    /// Writes a dated event into the log.
    pub fn add_log(&mut self, sort: &str, by: &str, words: &str) -> Result<(), ChangeError> {
        let key = free_key(&self.project, "log", "", self.today);
        let fields = [
            ("sort", Written::Text(sort.trim().to_owned())),
            ("by", Written::Text(by.trim().to_owned())),
            ("text", Written::Text(words.trim().to_owned())),
        ];
        let splice = edit::add_table(&self.text, &self.project, &["log", &key], &fields)?;
        self.make(Change { label: "log entry".to_owned(), splices: vec![splice] })
    }

    /// Whether there is a change to take back.
    pub fn can_undo(&self) -> bool {
        !self.done.is_empty()
    }

    /// Whether there is an undone change to make again.
    pub fn can_redo(&self) -> bool {
        !self.undone.is_empty()
    }

    /// Takes the last change back; tells what it was.
    pub fn undo(&mut self) -> Option<String> {
        let change = self.done.last()?.clone();
        self.put(&change.inverse()).ok()?;
        self.done.pop();
        self.undone.push(change.clone());
        Some(change.label)
    }

    /// Makes the last undone change again; tells what it was.
    pub fn redo(&mut self) -> Option<String> {
        let change = self.undone.last()?.clone();
        self.put(&change).ok()?;
        self.undone.pop();
        self.done.push(change.clone());
        Some(change.label)
    }

    /// Takes over the text of a draft as one change that can be undone.
    pub fn take_draft(&mut self, text: &str) -> Result<(), ChangeError> {
        let whole = Splice { at: 0, old: self.text.clone(), new: text.to_owned() };
        self.make(Change { label: "unsaved work taken back".to_owned(), splices: vec![whole] })
    }

    /// Makes a change that can be undone.
    pub(super) fn make(&mut self, change: Change) -> Result<(), ChangeError> {
        if let Some(reason) = &self.read_only {
            return Err(ChangeError::ReadOnly(reason.to_string()));
        }
        self.put(&change)?;
        self.done.push(change);
        self.undone.clear();
        Ok(())
    }

    fn put(&mut self, change: &Change) -> Result<(), EditError> {
        let text = change.splices.iter().try_fold(self.text.clone(), |text, splice| splice.apply(&text))?;
        self.project = Project::read(&text);
        self.text = text;
        self.renew();
        Ok(())
    }

    fn may_sign(&self, of: &Address, sign_off: &NewSignOff) -> Result<(), ChangeError> {
        let not_yet = |reason: String| Err(ChangeError::NotYet(reason));
        let Some(state) = self.evaluation.step(of) else { return Err(EditError::Unknown(of.to_string()).into()) };
        if sign_off.by.trim().is_empty() {
            return not_yet("say who did it".to_owned());
        }
        let second = sign_off.read_back_by.trim();
        if state.step.read_back && (second.is_empty() || second.eq_ignore_ascii_case(sign_off.by.trim())) {
            return not_yet("a second person must read this step back; say who".to_owned());
        }
        if sign_off.evidence.trim().is_empty() && state.step.evidence != Evidence::Tick {
            return not_yet("this step is done when there is evidence; say what was measured or seen".to_owned());
        }
        if matches!(state.standing, Standing::Done(_)) {
            return not_yet("this step is already signed off".to_owned());
        }
        // A stale step is signed anew under the same conditions as one that was never signed.
        let held = held(state.step, of, &self.evaluation.verdicts);
        if !held.is_empty() {
            return not_yet(format!("held by a stop: {}", held.join(", ")));
        }
        let first = comes_first(state.step, of, &self.project.records, &self.project.entries, &self.project.panels);
        if !first.is_empty() {
            let names: Vec<String> = first.iter().map(ToString::to_string).collect();
            return not_yet(format!("these come first: {}", names.join(", ")));
        }
        Ok(())
    }

    fn reading_splice(
        &self,
        text: &str,
        project: &Project,
        of: &Address,
        reading: &NewReading,
    ) -> Result<Splice, EditError> {
        let key = free_key(project, "reading", &of.to_string(), self.today);
        let fields = [
            ("value", Written::Text(reading.typed.trim().to_owned())),
            ("by", Written::Text(reading.by.trim().to_owned())),
            ("instrument", Written::Text(reading.instrument.trim().to_owned())),
            ("note", Written::Text(reading.note.trim().to_owned())),
        ];
        edit::add_table(text, project, &["reading", &of.to_string(), &key], &fields)
    }
}

/// The first key of a day that no record of the same subject has: `2026-04-18-1`, `-2`, ...
pub(super) fn free_key(project: &Project, sort: &str, subject: &str, day: Date) -> String {
    let taken = |key: &str| {
        project.document.headers.iter().any(|header| {
            let path: Vec<&str> = header.path.iter().map(String::as_str).collect();
            path == [sort, key] || path == [sort, subject, key]
        })
    };
    let mut number = 1_u32;
    loop {
        let key = format!("{day}-{number}");
        if !taken(&key) {
            return key;
        }
        number += 1;
    }
}
