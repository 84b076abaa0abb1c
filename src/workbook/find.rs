//! Finding anything by part of its name.

use crate::model::Address;
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
}

impl Sort {
    /// The word printed for it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Entry => "entry",
            Self::Figure => "figure",
            Self::Check => "check",
            Self::Step => "step",
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
    let mut hits: Vec<(usize, Hit)> = Vec::new();
    let mut offer = |address: Address, label: String, sort: Sort| {
        if let Some(rank) = rank(&words, &address.id, &label) {
            hits.push((rank, Hit { address, label, sort }));
        }
    };
    for row in evaluation.rows() {
        let sort = if stage::figure(&row.address.id).is_some() { Sort::Figure } else { Sort::Entry };
        offer(row.address, row.label.to_owned(), sort);
    }
    for check in stage::checks() {
        offer(Address::drawn(check.id), check.label.to_owned(), Sort::Check);
    }
    for state in &evaluation.steps {
        let title = evaluation.fill(state.step.title, state.address.panel, evaluation.system());
        offer(state.address.clone(), title, Sort::Step);
    }
    hits.sort_by(|(rank_a, a), (rank_b, b)| (rank_a, a.sort, a.label.len()).cmp(&(rank_b, b.sort, b.label.len())));
    hits.into_iter().map(|(_, hit)| hit).collect()
}

/// How well a thing matches, smaller is better; none if a word is in neither its label nor its id.
fn rank(words: &[String], id: &str, label: &str) -> Option<usize> {
    let (id, label) = (id.to_lowercase(), label.to_lowercase());
    words.iter().try_fold(0, |sum, word| {
        let place = if label.starts_with(word.as_str()) {
            0
        } else if label.split(' ').any(|part| part.starts_with(word.as_str())) {
            1
        } else if label.contains(word.as_str()) {
            2
        } else if id.contains(word.as_str()) {
            3
        } else {
            return None;
        };
        Some(sum + place)
    })
}
