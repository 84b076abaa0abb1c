//! What a computation may read: every entry resolved to one value, with where it came from.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{Address, Entry, EntrySpec, Fig, PanelLetter, Value, Why};

/// Where a value came from. People must be able to tell a guess from a measurement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// Assumed while nothing is entered.
    Default,
    /// Decided by the builder.
    Entry,
    /// Measured on the real thing.
    Reading,
    /// Computed.
    Result,
}

impl Origin {
    /// The word printed beside a value.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Default => "assumed",
            Self::Entry => "entered",
            Self::Reading => "measured",
            Self::Result => "computed",
        }
    }
}

/// One entry as it stands in the file, or one reading laid over it.
#[derive(Clone, Debug, PartialEq)]
pub struct Given {
    /// The text as typed.
    pub typed: String,
    /// What it means; an error if it cannot be read or is impossible.
    pub value: Fig<Value>,
}

/// Entries by id.
pub type Entries = BTreeMap<String, Given>;

/// The entries of one design, or of one panel as built, ready to be computed with.
#[derive(Clone, Debug, Default)]
pub struct Inputs {
    slots: BTreeMap<String, (Given, Origin)>,
    /// What the builder had decided where a reading lies over it.
    covered: BTreeMap<String, Given>,
    panels: Vec<PanelLetter>,
    repeats: BTreeMap<String, Vec<Value>>,
    /// The folded readings of each panel, for sums over all of them.
    of_panels: Arc<BTreeMap<PanelLetter, Entries>>,
    /// The seconds that the log has of each step.
    worked: Arc<BTreeMap<Address, f64>>,
}

impl Inputs {
    /// Lays readings over entries over defaults.
    pub fn resolve(
        declared: &[&'static EntrySpec],
        entries: &Entries,
        readings: &Entries,
        panels: &[PanelLetter],
    ) -> Self {
        let mut resolved = Self { panels: panels.to_vec(), ..Self::default() };
        for (id, given) in entries {
            resolved.slots.insert(id.clone(), (given.clone(), Origin::Entry));
        }
        for spec in declared {
            if let Some(typed) = spec.default {
                resolved.assume(spec, typed);
            }
        }
        for (id, given) in readings {
            if let Some((beneath, _)) = resolved.slots.insert(id.clone(), (given.clone(), Origin::Reading)) {
                resolved.covered.insert(id.clone(), beneath);
            }
        }
        resolved
    }

    /// Fills in the assumed value of a declaration where nothing is entered; of a repeated one in every row there is.
    fn assume(&mut self, spec: &EntrySpec, typed: &str) {
        let ids = match spec.id.split_once(".*") {
            None => vec![spec.id.to_owned()],
            Some((table, _)) => self.rows(table).iter().map(|key| spec.id.replacen('*', key, 1)).collect(),
        };
        for id in ids {
            let value = spec.read(typed).map_err(|_| Why::Invalid(vec![id.clone()]));
            let given = Given { typed: typed.to_owned(), value };
            self.slots.entry(id).or_insert((given, Origin::Default));
        }
    }

    /// Keeps the single readings behind the folded ones, oldest first: their scatter tells how well a mean is known.
    #[must_use]
    pub fn with_repeats(mut self, repeats: BTreeMap<String, Vec<Value>>) -> Self {
        self.repeats = repeats;
        self
    }

    /// The same with one value in place of what is there.
    #[must_use]
    pub fn replaced(&self, id: &str, value: Value) -> Self {
        let mut other = self.clone();
        let given = Given { typed: format!("{value:?}"), value: Ok(value) };
        other.slots.insert(id.to_owned(), (given, Origin::Entry));
        other
    }

    /// The same with other panels.
    #[must_use]
    pub fn with_panels(mut self, panels: Vec<PanelLetter>) -> Self {
        self.panels = panels;
        self
    }

    /// Keeps the folded readings of every panel, so that what one panel took can foretell what the others will take.
    #[must_use]
    pub fn with_panel_readings(mut self, of_panels: Arc<BTreeMap<PanelLetter, Entries>>) -> Self {
        self.of_panels = of_panels;
        self
    }

    /// Keeps the hours of the log by step and panel.
    #[must_use]
    pub fn with_log(mut self, worked: Arc<BTreeMap<Address, f64>>) -> Self {
        self.worked = worked;
        self
    }

    /// The seconds that the log has of a step on a panel.
    pub fn worked(&self, step: &str, panel: PanelLetter) -> Option<f64> {
        self.worked.get(&Address::on(step, panel)).copied()
    }

    /// The readings of an entry on each panel that has one.
    pub fn of_panels<T>(&self, entry: &Entry<T>) -> Vec<(PanelLetter, T)> {
        let read = |given: &Given| (entry.open)(given.value.as_ref().ok()?);
        let panels = self.of_panels.iter();
        panels.filter_map(|(panel, readings)| Some((*panel, read(readings.get(entry.spec.id)?)?))).collect()
    }

    /// The value that the builder decided, also where a reading lies over it.
    pub fn designed<T>(&self, entry: &Entry<T>) -> Fig<T> {
        match self.covered.get(entry.spec.id) {
            Some(given) => {
                (entry.open)(&given.value.clone()?).ok_or_else(|| Why::Invalid(vec![entry.spec.id.to_owned()]))
            }
            None => self.get(entry),
        }
    }

    /// The same inputs without any reading of what the builder decides: what was drawn.
    #[must_use]
    pub fn as_designed(&self) -> Self {
        let mut drawn = self.clone();
        for (id, given) in std::mem::take(&mut drawn.covered) {
            drawn.slots.insert(id, (given, Origin::Entry));
        }
        drawn
    }

    /// Every single reading of an entry, oldest first; empty if there is none.
    pub fn repeats<T>(&self, entry: &Entry<T>) -> Vec<T> {
        let values = self.repeats.get(entry.spec.id);
        values.into_iter().flatten().filter_map(|value| (entry.open)(value)).collect()
    }

    /// The value of an entry.
    ///
    /// # Errors
    /// [`Why::Missing`] if nothing is entered and nothing is assumed, [`Why::Invalid`] if it cannot be used.
    pub fn get<T>(&self, entry: &Entry<T>) -> Fig<T> {
        self.open(entry, entry.spec.id)
    }

    /// The value of an entry of a repeated row, by the row's key.
    pub fn at<T>(&self, entry: &Entry<T>, key: &str) -> Fig<T> {
        self.open(entry, &entry.spec.id.replacen('*', key, 1))
    }

    /// The value of an entry that a computation can do without.
    pub fn given<T>(&self, entry: &Entry<T>) -> Fig<Option<T>> {
        match self.get(entry) {
            Ok(value) => Ok(Some(value)),
            Err(Why::Missing(_)) => Ok(None),
            Err(why) => Err(why),
        }
    }

    /// The untyped value by id.
    pub fn value(&self, id: &str) -> Fig<Value> {
        match self.slots.get(id) {
            Some((given, _)) => given.value.clone(),
            None => Err(Why::missing(id)),
        }
    }

    /// Where the value of an id came from, if there is one.
    pub fn origin(&self, id: &str) -> Option<Origin> {
        self.slots.get(id).map(|(_, origin)| *origin)
    }

    /// The text as typed, if anything was.
    pub fn typed(&self, id: &str) -> Option<&str> {
        self.slots.get(id).map(|(given, _)| given.typed.as_str())
    }

    /// The typed texts of a declared id: one, or one for each row where the id holds a `*`.
    pub fn typed_like<'a>(&'a self, declared: &'a str) -> impl Iterator<Item = (&'a str, &'a str)> {
        let (before, after) = declared.split_once('*').unwrap_or((declared, ""));
        let is_row = declared.contains('*');
        self.slots
            .range(before.to_owned()..)
            .take_while(move |(id, _)| id.starts_with(before))
            .filter(move |(id, _)| if is_row { id.ends_with(after) } else { id.as_str() == declared })
            .map(|(id, (given, _))| (id.as_str(), given.typed.as_str()))
    }

    /// The keys of the rows of a repeated table, such as the runs of the loop, in order.
    pub fn rows(&self, table: &str) -> Vec<String> {
        let prefix = format!("{table}.");
        let mut keys: Vec<String> = self
            .slots
            .range(prefix.clone()..)
            .take_while(|(id, _)| id.starts_with(&prefix))
            .filter_map(|(id, _)| id[prefix.len()..].split('.').next().map(str::to_owned))
            .collect();
        keys.dedup();
        keys
    }

    /// The keys of the rows that a repeated entry has, numbers by their size.
    pub fn keys(&self, spec: &EntrySpec) -> Vec<String> {
        let before = spec.id.split('*').next().unwrap_or_default();
        let mut keys: Vec<String> = self
            .slots
            .range(before.to_owned()..)
            .take_while(|(id, _)| id.starts_with(before))
            .filter_map(|(id, _)| spec.row_key(id).map(str::to_owned))
            .collect();
        keys.sort_by(|a, b| leading_number(a).total_cmp(&leading_number(b)));
        keys
    }

    /// The panels of the project.
    pub fn panels(&self) -> &[PanelLetter] {
        &self.panels
    }

    /// All ids that hold a value, in order.
    pub fn ids(&self) -> impl Iterator<Item = &str> {
        self.slots.keys().map(String::as_str)
    }

    fn open<T>(&self, entry: &Entry<T>, id: &str) -> Fig<T> {
        let value = self.value(id)?;
        (entry.open)(&value).ok_or_else(|| Why::Invalid(vec![id.to_owned()]))
    }
}

/// The number that a key begins with, such as 112.5 of `112.5°`; keys without one come last.
fn leading_number(key: &str) -> f64 {
    let end = key.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(key.len());
    key[..end].parse().unwrap_or(f64::INFINITY)
}
