//! Variants: named sets of other values, kept in the file and compared with the design.

use super::Workbook;
use super::change::{Change, ChangeError};
use crate::model::Entries;
use crate::project::edit::{self, EditError, Written};
use crate::project::{Project, Splice};

/// Splices that are made one after the other, each on the text that the ones before it left.
struct Series {
    text: String,
    project: Project,
    splices: Vec<Splice>,
}

impl Series {
    fn of(text: &str) -> Self {
        Self { text: text.to_owned(), project: Project::read(text), splices: Vec::new() }
    }

    fn add(&mut self, splice: Splice) -> Result<(), EditError> {
        self.text = splice.apply(&self.text)?;
        self.project = Project::read(&self.text);
        self.splices.push(splice);
        Ok(())
    }
}

impl Workbook {
    /// The names of the variants.
    pub fn variants(&self) -> Vec<String> {
        self.project.variants.keys().cloned().collect()
    }

    /// The entries of a variant.
    pub fn variant(&self, name: &str) -> Option<&Entries> {
        self.project.variants.get(name)
    }

    /// The entries that were changed since the project was saved.
    pub fn unsaved_entries(&self) -> Vec<String> {
        let Some((_, saved)) = &self.saved else { return Vec::new() };
        let before = Project::read(saved).entries;
        let now = &self.project.entries;
        let typed = |entries: &Entries, id: &str| entries.get(id).map(|given| given.typed.clone());
        let ids = before.keys().chain(now.keys().filter(|id| !before.contains_key(*id)));
        ids.filter(|id| typed(&before, id) != typed(now, id)).cloned().collect()
    }

    /// Keeps the entries that were changed since the project was saved as a variant; the drawing is again as saved.
    pub fn keep_variant(&mut self, name: &str) -> Result<(), ChangeError> {
        let not_yet = |reason: &str| Err(ChangeError::NotYet(reason.to_owned()));
        let name = name.trim();
        if name.is_empty() {
            return not_yet("give the variant a name");
        }
        if self.project.variants.contains_key(name) {
            return not_yet("a variant of that name is there already");
        }
        let changed = self.unsaved_entries();
        let kept: Vec<(String, Written)> = changed
            .iter()
            .filter_map(|id| Some((id.clone(), Written::Text(self.project.entries.get(id)?.typed.clone()))))
            .collect();
        if kept.is_empty() {
            return not_yet("nothing is changed since the project was saved; change entries first, then keep them");
        }
        let before = self.saved.as_ref().map(|(_, text)| Project::read(text).entries).unwrap_or_default();
        let mut series = Series::of(&self.text);
        for id in &changed {
            let splice = match before.get(id) {
                Some(given) => edit::set_entry(&series.text, &series.project, id, &given.typed)?,
                None => edit::unset_entry(&series.text, &series.project, id)?,
            };
            series.add(splice)?;
        }
        let fields: Vec<(&str, Written)> = kept.iter().map(|(id, written)| (id.as_str(), written.clone())).collect();
        let splice = edit::add_table(&series.text, &series.project, &["variant", name], &fields)?;
        series.add(splice)?;
        self.make(Change { label: format!("variant {name} kept"), splices: series.splices })
    }

    /// Makes a variant the design: each of its entries takes the variant's value.
    pub fn take_variant(&mut self, name: &str) -> Result<(), ChangeError> {
        let entries = self.project.variants.get(name).ok_or_else(|| EditError::NotThere(name.to_owned()))?.clone();
        let mut series = Series::of(&self.text);
        for (id, given) in entries {
            let splice = edit::set_entry(&series.text, &series.project, &id, &given.typed)?;
            series.add(splice)?;
        }
        self.make(Change { label: format!("variant {name} taken over"), splices: series.splices })
    }
}
