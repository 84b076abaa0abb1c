//! Records that are written by hand: notes, hours, overrulings, readings taken back, panels added.

use super::Workbook;
use super::change::{Change, ChangeError, free_key};
use crate::model::{Address, PanelLetter, Verdict};
use crate::project::edit::{self, EditError, Written};
use crate::project::store;
use crate::solve::progress::Standing;
use crate::stage::{self, Severity};
use crate::units::{self, Kind};

/// A note to be pinned.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct NewNote {
    /// The words.
    pub text: String,
    /// Who writes.
    pub by: String,
    /// A file that belongs to it, named from the project's folder; empty if there is none.
    pub file: String,
}

/// A stop to be overruled, or an order to be departed from.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct NewOverruling {
    /// Why.
    pub reason: String,
    /// Who decides.
    pub by: String,
    /// Who decides with them.
    pub second: String,
    /// The licensed one of the two, where the check can kill.
    pub licensed: String,
}

fn not_yet(reason: impl Into<String>) -> ChangeError {
    ChangeError::NotYet(reason.into())
}

fn text(words: &str) -> Written {
    Written::Text(words.trim().to_owned())
}

/// Whether a reason is given and two people decide, one of them licensed where that is wanted.
fn decided(new: &NewOverruling, licensed: bool) -> Result<(), ChangeError> {
    let same = |a: &str, b: &str| a.trim().to_lowercase() == b.trim().to_lowercase();
    if new.reason.trim().is_empty() {
        return Err(not_yet("write down why the work may go on"));
    }
    if new.by.trim().is_empty() || new.second.trim().is_empty() || same(&new.by, &new.second) {
        return Err(not_yet("two people decide this together; give both names"));
    }
    let is_one_of_them = same(&new.licensed, &new.by) || same(&new.licensed, &new.second);
    if licensed && !is_one_of_them {
        return Err(not_yet("one of the two must be the licensed person; say who"));
    }
    Ok(())
}

impl Workbook {
    /// Pins a note to anything that has an id. Of a file that goes with it the checksum is kept.
    pub fn add_note(&mut self, of: &Address, note: &NewNote) -> Result<(), ChangeError> {
        if note.text.trim().is_empty() {
            return Err(not_yet("write a few words first"));
        }
        let sha256 = self.checksum(note.file.trim())?;
        let key = free_key(&self.project, "note", &of.to_string(), self.today);
        let fields = [
            ("by", text(&note.by)),
            ("text", text(&note.text)),
            ("file", text(&note.file)),
            ("sha256", Written::Text(sha256)),
        ];
        let splice = edit::add_table(&self.text, &self.project, &["note", &of.to_string(), &key], &fields)?;
        self.make(Change { label: format!("note on {of}"), splices: vec![splice] })
    }

    /// The checksum of a file named from the project's folder; nothing for no file.
    fn checksum(&self, file: &str) -> Result<String, ChangeError> {
        if file.is_empty() {
            return Ok(String::new());
        }
        let path = self.path.parent().map_or_else(|| file.into(), |folder| folder.join(file));
        let bytes = self.disk.read(&path).map_err(|error| not_yet(format!("the file '{file}': {error}")))?;
        Ok(store::hash(&bytes))
    }

    /// Logs the time that a step took.
    pub fn add_hours(&mut self, of: &Address, time: &str, by: &str, words: &str) -> Result<(), ChangeError> {
        let step = stage::step(&of.id).ok_or_else(|| EditError::Unknown(of.id.clone()))?;
        let seconds = units::parse(Kind::Time, time).map_err(crate::model::TypedError::from)?.si;
        if seconds <= 0.0 {
            return Err(not_yet("say how long it took, such as 1.5 h or 40 min"));
        }
        let key = free_key(&self.project, "log", "", self.today);
        let fields = [
            ("sort", text("hours")),
            ("of", Written::Text(of.to_string())),
            ("time", text(time)),
            ("by", text(by)),
            ("text", text(words)),
        ];
        let splice = edit::add_table(&self.text, &self.project, &["log", &key], &fields)?;
        self.make(Change { label: format!("hours on {}", step.id), splices: vec![splice] })
    }

    /// Overrules the stop of a check, in writing: a reason, two names, and for what can kill the licensed one of them.
    pub fn overrule(&mut self, of: &Address, new: &NewOverruling) -> Result<(), ChangeError> {
        let check = stage::check(&of.id).ok_or_else(|| EditError::Unknown(of.id.clone()))?;
        let stopped = self.evaluation.verdicts.iter().any(|judged| judged.check.id == of.id && judged.blocks());
        if !check.can_be_overruled {
            return Err(not_yet("this stop cannot be overruled; do what the check says"));
        }
        if !stopped {
            return Err(not_yet(format!("this check says no {} that holds anything", Verdict::Stop)));
        }
        decided(new, check.severity == Severity::Deadly)?;
        let inputs = &self.evaluation.solution(of.panel).inputs;
        let saw = check.depends().into_iter().flat_map(|id| inputs.typed_like(id));
        let saw = saw.map(|(id, typed)| (id.to_owned(), typed.to_owned())).collect();
        let key = free_key(&self.project, "override", &of.to_string(), self.today);
        let fields = [
            ("reason", text(&new.reason)),
            ("by", Written::List(vec![new.by.trim().to_owned(), new.second.trim().to_owned()])),
            ("licensed", text(&new.licensed)),
            ("saw", Written::Saw(saw)),
        ];
        let splice = edit::add_table(&self.text, &self.project, &["override", &of.to_string(), &key], &fields)?;
        self.make(Change { label: format!("{} overruled", check.label), splices: vec![splice] })
    }

    /// Lets a step come before those that it waits for, in writing: a reason and two names, for licensed work the licensed
    /// one of them. What protects somebody by its order cannot come later.
    pub fn let_come_first(&mut self, of: &Address, new: &NewOverruling) -> Result<(), ChangeError> {
        let step = stage::step(&of.id).ok_or_else(|| EditError::Unknown(of.id.clone()))?;
        let Some(Standing::Waiting(first)) = self.evaluation.step(of).map(|state| &state.standing) else {
            return Err(not_yet("this step does not wait for another"));
        };
        let firm: Vec<String> =
            first.iter().filter(|before| step.firm.contains(&before.id.as_str())).map(ToString::to_string).collect();
        if !firm.is_empty() {
            return Err(not_yet(format!(
                "nothing lets these come later, the order itself protects: {}",
                firm.join(", ")
            )));
        }
        decided(new, step.licensed)?;
        let skips = first.iter().map(ToString::to_string).collect();
        let key = free_key(&self.project, "override", &of.to_string(), self.today);
        let fields = [
            ("reason", text(&new.reason)),
            ("by", Written::List(vec![new.by.trim().to_owned(), new.second.trim().to_owned()])),
            ("licensed", text(&new.licensed)),
            ("skips", Written::List(skips)),
        ];
        let splice = edit::add_table(&self.text, &self.project, &["override", &of.to_string(), &key], &fields)?;
        self.make(Change { label: format!("step {of} let come first"), splices: vec![splice] })
    }

    /// Takes a reading back, in writing; the record stays.
    pub fn withdraw_reading(&mut self, of: &Address, key: &str, reason: &str) -> Result<(), ChangeError> {
        if reason.trim().is_empty() {
            return Err(not_yet("say why it is taken back"));
        }
        let path = ["reading", &of.to_string(), key, "withdrawn"].map(str::to_owned);
        let path: Vec<&str> = path.iter().map(String::as_str).collect();
        let splice = edit::add_field(&self.text, &self.project, &path, reason.trim())?;
        self.make(Change { label: format!("reading of {of} taken back"), splices: vec![splice] })
    }

    /// The letter of the next panel; none if all are taken.
    pub fn next_panel(&self) -> Option<PanelLetter> {
        ('A'..='Z').filter_map(PanelLetter::new).find(|letter| !self.project.panels.contains(letter))
    }

    /// Adds the next panel, begun today.
    pub fn add_panel(&mut self) -> Result<PanelLetter, ChangeError> {
        let panel = self.next_panel().ok_or_else(|| not_yet("all letters are taken"))?;
        let fields = [("started", Written::Text(self.today.to_string()))];
        let splice = edit::add_table(&self.text, &self.project, &["panel", &panel.to_string()], &fields)?;
        self.make(Change { label: format!("panel {panel} added"), splices: vec![splice] })?;
        Ok(panel)
    }
}
