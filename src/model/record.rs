//! What has happened: readings, sign-offs, overrides, notes and the log. Records are only ever added.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::{Address, PanelLetter, Value};

/// A measured value.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// What was measured, and on which panel.
    pub of: Address,
    /// The record's key in the file: day and running number.
    pub key: String,
    /// The day.
    pub date: Date,
    /// The value as typed.
    pub typed: String,
    /// The value as understood; none if it cannot be read.
    pub value: Option<Value>,
    /// Who measured.
    pub by: String,
    /// With what.
    pub instrument: String,
    /// A few words.
    pub note: String,
    /// Taken back by a later hand, and why.
    pub withdrawn: Option<String>,
}

/// A step signed off, or a sign-off taken back.
#[derive(Clone, Debug, PartialEq)]
pub struct SignOff {
    /// The step, and the panel it was done on.
    pub of: Address,
    /// The record's key in the file.
    pub key: String,
    /// The day.
    pub date: Date,
    /// Who.
    pub by: String,
    /// Who read it back, where a second person was needed.
    pub read_back_by: String,
    /// What shows it.
    pub evidence: String,
    /// The entries it relied on, as they were typed.
    pub saw: BTreeMap<String, String>,
    /// Taken back by a later hand, and why.
    pub withdrawn: Option<String>,
}

/// A check's stop overruled in writing, or a step let come before others that it waits for.
#[derive(Clone, Debug, PartialEq)]
pub struct Override {
    /// The check, and the panel if it is meant for one only; or the step on its panel.
    pub of: Address,
    /// The record's key in the file.
    pub key: String,
    /// The day.
    pub date: Date,
    /// Why.
    pub reason: String,
    /// Who decided; two names.
    pub by: Vec<String>,
    /// The licensed person among them, where the check asks for one.
    pub licensed: String,
    /// The entries it relied on, as they were typed.
    pub saw: BTreeMap<String, String>,
    /// Of a step: the steps that it comes before, though they come first.
    pub skips: Vec<Address>,
}

/// Words pinned to anything with an id.
#[derive(Clone, Debug, PartialEq)]
pub struct Note {
    /// What it is about.
    pub of: Address,
    /// The record's key in the file.
    pub key: String,
    /// The day.
    pub date: Date,
    /// Who wrote.
    pub by: String,
    /// The words.
    pub text: String,
    /// A file that belongs to it, named from the project's folder; empty if there is none.
    pub file: String,
    /// The SHA-256 checksum of the file when the note was written.
    pub sha256: String,
}

/// A dated event: test, fault, repair, top-up, decision, hours of work.
#[derive(Clone, Debug, PartialEq)]
pub struct LogEntry {
    /// The record's key in the file.
    pub key: String,
    /// The day.
    pub date: Date,
    /// What sort of event.
    pub sort: String,
    /// The step it is about, for hours of work.
    pub of: Option<Address>,
    /// How long it took, in seconds.
    pub time: Option<f64>,
    /// Who wrote.
    pub by: String,
    /// The words.
    pub text: String,
}

/// All records of a project, in the order of the file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Records {
    /// Measured values.
    pub readings: Vec<Reading>,
    /// Steps signed off.
    pub sign_offs: Vec<SignOff>,
    /// Stops overruled.
    pub overrides: Vec<Override>,
    /// Notes.
    pub notes: Vec<Note>,
    /// The log.
    pub log: Vec<LogEntry>,
}

/// When a record was made, among those of its subject: its day, then the running number of its key.
pub fn moment(date: Date, key: &str) -> (Date, u64, &str) {
    let number = key.rsplit('-').next().and_then(|number| number.parse().ok()).unwrap_or(0);
    (date, number, key)
}

impl Records {
    /// The sign-off that counts for a step: the last one that was not taken back.
    pub fn sign_off(&self, of: &Address) -> Option<&SignOff> {
        self.sign_offs
            .iter()
            .filter(|record| record.of == *of && record.withdrawn.is_none())
            .max_by_key(|record| moment(record.date, &record.key))
    }

    /// The reading of a record's key.
    pub fn reading(&self, of: &Address, key: &str) -> Option<&Reading> {
        self.readings.iter().find(|record| record.of == *of && record.key == key)
    }

    /// The seconds that were logged for a step.
    pub fn time_of(&self, of: &Address) -> f64 {
        self.log.iter().filter(|entry| entry.of.as_ref() == Some(of)).filter_map(|entry| entry.time).sum()
    }

    /// The seconds that were logged, by step.
    pub fn times(&self) -> BTreeMap<Address, f64> {
        let mut times = BTreeMap::new();
        for entry in &self.log {
            if let Some((of, time)) = entry.of.as_ref().zip(entry.time) {
                *times.entry(of.clone()).or_default() += time;
            }
        }
        times
    }

    /// What a step took on other panels: the mean in seconds, and the panels. The estimate for the next one.
    pub fn taken_elsewhere(&self, of: &Address) -> Option<(f64, Vec<PanelLetter>)> {
        let mut taken: BTreeMap<PanelLetter, f64> = BTreeMap::new();
        for entry in &self.log {
            let Some((step, time)) = entry.of.as_ref().zip(entry.time) else { continue };
            if let Some(panel) = step.panel.filter(|panel| step.id == of.id && Some(*panel) != of.panel) {
                *taken.entry(panel).or_default() += time;
            }
        }
        let count = u32::try_from(taken.len()).ok().filter(|count| *count > 0)?;
        Some((taken.values().sum::<f64>() / f64::from(count), taken.into_keys().collect()))
    }

    /// Everybody who signed, measured or wrote, each named once as first written, in the order of the alphabet.
    pub fn people(&self) -> Vec<String> {
        let mut names: Vec<&str> = Vec::new();
        for record in &self.sign_offs {
            names.extend([record.by.as_str(), record.read_back_by.as_str()]);
        }
        names.extend(self.readings.iter().map(|record| record.by.as_str()));
        names.extend(self.overrides.iter().flat_map(|record| record.by.iter().map(String::as_str)));
        names.extend(self.notes.iter().map(|record| record.by.as_str()));
        names.extend(self.log.iter().map(|record| record.by.as_str()));
        let mut people: Vec<String> = Vec::new();
        for name in names.into_iter().map(str::trim).filter(|name| !name.is_empty()) {
            if !people.iter().any(|known| known.to_lowercase() == name.to_lowercase()) {
                people.push(name.to_owned());
            }
        }
        people.sort_by_key(|name| name.to_lowercase());
        people
    }

    /// The overrulings of a check that speak for one panel, or for the design: those that name no panel and those
    /// that name this one. The last comes first.
    pub fn overrulings(&self, check: &str, panel: Option<PanelLetter>) -> Vec<&Override> {
        let speaks = |of: &Address| of.id == check && (of.panel.is_none() || of.panel == panel);
        let mut found: Vec<&Override> = self.overrides.iter().filter(|record| speaks(&record.of)).collect();
        found.sort_by_key(|record| std::cmp::Reverse(moment(record.date, &record.key)));
        found
    }
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    #[test]
    fn the_tenth_record_of_a_day_comes_after_the_ninth() {
        let day = date(2026, 4, 18);
        assert!(moment(day, "2026-04-18-10") > moment(day, "2026-04-18-9"));
        assert!(moment(day, "2026-04-18-1") < moment(date(2026, 4, 19), "2026-04-19-1"));
    }
}
