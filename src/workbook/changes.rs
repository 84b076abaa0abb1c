//! What happened between two states of a project, in the words of the workbook: entries, records, verdicts, figures.

use std::collections::BTreeSet;

use super::Workbook;
use super::compare::{self, Differences};
use crate::model::Records;
use crate::project::Project;

/// One entry that was changed: its id, as it was typed, as it is typed.
pub type EntryChange = (String, Option<String>, Option<String>);

/// Everything that differs between two states.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Changes {
    /// Entries, in order of their ids.
    pub entries: Vec<EntryChange>,
    /// Panels that were added.
    pub panels: Vec<String>,
    /// Records that were added or taken back, each in one line, in order of the file.
    pub records: Vec<String>,
    /// Figures that moved, verdicts that flipped, steps that became stale.
    pub differences: Differences,
}

/// What happened from one state to the other; the studies of both must have been run, or their figures stay out.
pub fn between(before: &Workbook, after: &Workbook) -> Changes {
    let (old, new) = (before.project(), after.project());
    let lines: BTreeSet<String> = lines(&old.records).into_iter().collect();
    Changes {
        entries: entries(old, new),
        panels: new.panels.iter().filter(|panel| !old.panels.contains(panel)).map(ToString::to_string).collect(),
        records: self::lines(&new.records).into_iter().filter(|line| !lines.contains(line)).collect(),
        differences: compare::differences(before.evaluation(), after.evaluation()),
    }
}

impl Changes {
    /// Whether nothing happened.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

fn entries(old: &Project, new: &Project) -> Vec<EntryChange> {
    let ids: BTreeSet<&String> = old.entries.keys().chain(new.entries.keys()).collect();
    let typed = |project: &Project, id: &str| project.entries.get(id).map(|given| given.typed.clone());
    ids.into_iter().map(|id| (id.clone(), typed(old, id), typed(new, id))).filter(|(_, was, is)| was != is).collect()
}

/// Every record in one line that tells it apart from every other.
fn lines(records: &Records) -> Vec<String> {
    let by = |name: &str| if name.is_empty() { String::new() } else { format!(", {name}") };
    let back =
        |withdrawn: &Option<String>| withdrawn.as_ref().map_or_else(String::new, |why| format!("; taken back: {why}"));
    let mut lines = Vec::new();
    for reading in &records.readings {
        let (of, day, typed) = (&reading.of, reading.date, &reading.typed);
        lines.push(format!("reading of {of}: {typed}, {day}{}{}", by(&reading.by), back(&reading.withdrawn)));
    }
    for tick in &records.sign_offs {
        let (of, day, evidence) = (&tick.of, tick.date, &tick.evidence);
        lines.push(format!("step {of} signed off: {evidence}, {day}{}{}", by(&tick.by), back(&tick.withdrawn)));
    }
    for over in &records.overrides {
        let skips: Vec<String> = over.skips.iter().map(ToString::to_string).collect();
        let what = match skips.as_slice() {
            [] => format!("stop of {} overruled", over.of),
            skips => format!("step {} let come before {}", over.of, skips.join(", ")),
        };
        lines.push(format!("{what}: {}, {}{}", over.reason, over.date, by(&over.by.join(", "))));
    }
    for note in &records.notes {
        lines.push(format!("note on {}: {}, {}{}", note.of, note.text, note.date, by(&note.by)));
    }
    for event in &records.log {
        lines.push(format!("log, {}: {}, {}{}", event.sort, event.text, event.date, by(&event.by)));
    }
    lines
}
