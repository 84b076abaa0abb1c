//! Settling what two builders changed in different ways: one side's value stands, the mark goes.

use super::Workbook;
use super::change::{Change, ChangeError};
use crate::project::merge::{SECTION, Side};
use crate::project::{EditError, Project, edit};

impl Workbook {
    /// Keeps one side's value of a conflict and takes the table that marked it out. What a side took out is taken out.
    pub fn settle(&mut self, name: &str, side: Side) -> Result<(), ChangeError> {
        let conflict = self.project.conflicts.get(name).ok_or_else(|| EditError::NotThere(name.to_owned()))?.clone();
        let mut text = self.text.clone();
        let mut splices = vec![edit::take_table(&text, &self.project, &[SECTION, name])?];
        text = splices[0].apply(&text)?;
        let project = Project::read(&text);
        let key = conflict.key.as_str();
        let chosen = match side {
            Side::Base => conflict.base,
            Side::Ours => conflict.ours,
            Side::Theirs => conflict.theirs,
        };
        let is_there = project.document.leaves.iter().any(|leaf| leaf.path.join(".") == key);
        match chosen {
            Some(typed) => splices.push(edit::set_leaf(&text, &project, key, &typed)?),
            None if is_there => splices.push(edit::unset_entry(&text, &project, key)?),
            None => {}
        }
        self.make(Change { label: format!("settled: {key}"), splices })
    }
}
