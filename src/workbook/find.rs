//! Finding anything by part of its name.

use jiff::civil::Date;

use crate::model::{Address, Records};
use crate::solve::Evaluation;
use crate::stage;

/// What sort of thing was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sort {
    /// Something the builder decides or measures.
    Entry,
    /// Something computed.
    Figure,
    /// A check.
    Check,
    /// A step.
    Step,
    /// Something that was recorded.
    Record,
}

impl Sort {
    /// The word printed for it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Entry => "entry",
            Self::Figure => "figure",
            Self::Check => "check",
            Self::Step => "step",
            Self::Record => "record",
        }
    }
}

/// One thing found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hit {
    /// What it is called.
    pub address: Address,
    /// A short name for people.
    pub label: String,
    /// What sort of thing it is.
    pub sort: Sort,
}

/// Everything whose name or id holds all the words typed, the best match first.
pub fn find(evaluation: &Evaluation, typed: &str) -> Vec<Hit> {
    let words: Vec<String> = typed.split_whitespace().map(str::to_lowercase).collect();
    // What has no value yet comes after what has one.
    let mut hits: Vec<(usize, bool, Hit)> = Vec::new();
    let mut offer = |address: Address, label: String, sort: Sort, is_missing: bool| {
        if let Some(rank) = rank(&words, &address.id, &label) {
            hits.push((rank, is_missing, Hit { address, label, sort }));
        }
    };
    for row in evaluation.rows() {
        let sort = if stage::figure(&row.address.id).is_some() { Sort::Figure } else { Sort::Entry };
        offer(row.address, row.label.to_owned(), sort, row.value.is_err());
    }
    for check in stage::checks() {
        offer(Address::drawn(check.id), check.label.to_owned(), Sort::Check, false);
    }
    for state in &evaluation.steps {
        let title = evaluation.fill(state.step.title, state.address.panel, evaluation.system());
        offer(state.address.clone(), title, Sort::Step, false);
    }
    hits.sort_by_key(|(rank, is_missing, hit)| (*rank, hit.sort, *is_missing, hit.label.len()));
    hits.into_iter().map(|(.., hit)| hit).collect()
}

/// Every record that holds all the words typed, the latest first: what it is about, when, who, what it says.
pub fn find_records(evaluation: &Evaluation, records: &Records, typed: &str) -> Vec<Hit> {
    let words: Vec<String> = typed.split_whitespace().map(str::to_lowercase).collect();
    let label = |of: &Address| match (stage::step(&of.id), stage::check(&of.id), evaluation.row(of)) {
        (Some(step), ..) => evaluation.fill(step.title, of.panel, evaluation.system()),
        (_, Some(check), _) => check.label.to_owned(),
        (.., Some(row)) => row.label.to_owned(),
        _ => of.to_string(),
    };
    let mut found: Vec<(Date, Address, String)> = Vec::new();
    let mut offer = |date: Date, of: &Address, what: String| {
        let line = format!("{date} {what}: {}", label(of));
        if words.iter().all(|word| line.to_lowercase().contains(word.as_str())) {
            found.push((date, of.clone(), line));
        }
    };
    for it in &records.readings {
        offer(it.date, &it.of, format!("{} read {}", it.by, it.typed));
    }
    for it in &records.sign_offs {
        offer(it.date, &it.of, format!("{} signed, {}", it.by, it.evidence));
    }
    for it in &records.overrides {
        offer(it.date, &it.of, format!("{} overruled, {}", it.by.join(" and "), it.reason));
    }
    for it in &records.notes {
        offer(it.date, &it.of, format!("{} noted, {}", it.by, it.text));
    }
    for it in &records.log {
        let of = it.of.clone().unwrap_or_else(|| Address::drawn("log"));
        offer(it.date, &of, format!("{} {}, {}", it.by, it.sort, it.text));
    }
    found.sort_by_key(|(date, ..)| std::cmp::Reverse(*date));
    found.into_iter().map(|(_, address, label)| Hit { address, label, sort: Sort::Record }).collect()
}

/// The first letters of the words of a label: `rp` for riser pitch.
fn initials(label: &str) -> String {
    label.split([' ', '-', ',']).filter_map(|part| part.chars().next()).collect()
}

/// How well a thing matches, smaller is better; none if a word is in neither its label nor its id.
fn rank(words: &[String], id: &str, label: &str) -> Option<usize> {
    let (id, label) = (id.to_lowercase(), label.to_lowercase());
    words.iter().try_fold(0, |sum, word| {
        let place = if label.starts_with(word.as_str()) || initials(&label) == *word {
            0
        } else if label.split(' ').any(|part| part.starts_with(word.as_str())) {
            1
        } else if label.contains(word.as_str()) {
            2
        } else if id.contains(word.as_str()) {
            3
        } else if word.len() > 1 && initials(&label).contains(word.as_str()) {
            4
        } else {
            return None;
        };
        Some(sum + place)
    })
}
