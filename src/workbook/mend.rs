//! The cheapest change that mends a failing check: candidates are tried on a copy and everything is judged again.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::Workbook;
use crate::model::Verdict;
use crate::model::inputs::Given;
use crate::solve::{Evaluation, Snapshot, evaluate};
use crate::stage::plumbing::mend::{Candidate, Edit, candidates};
use crate::stage::study::Cancel;
use crate::stage::{self, plumbing::network};

/// Most candidates that are tried for one check.
const MOST_TRIED: usize = 80;

/// Every check that stops.
fn stops(evaluation: &Evaluation) -> BTreeSet<&'static str> {
    let stopped = evaluation.verdicts.iter().filter(|judged| judged.verdict == Verdict::Stop);
    stopped.map(|judged| judged.check.id).collect()
}

/// The cheapest change of the loop that mends a check which stops; none if none of those tried does, or if cancelled.
///
/// A change counts if the check no longer stops and none stops that did not before. Candidates come the cheapest
/// first, so the first that counts is the answer.
pub fn cheapest(snapshot: &Snapshot, check: &str, cancel: &Cancel) -> Option<Candidate> {
    let evaluation = evaluate(snapshot);
    let before = stops(&evaluation);
    if !before.contains(check) {
        return None;
    }
    let mut found = candidates(&evaluation.drawn, check).into_iter().take(MOST_TRIED);
    found.find(|candidate| {
        !cancel.is_cancelled()
            && with_edits(snapshot, &candidate.edits).is_some_and(|after| {
                let after = stops(&after);
                !after.contains(check) && after.is_subset(&before)
            })
    })
}

/// What would come of several changes at once; none if one of them cannot be read or the loop falls apart. No change
/// of the loop is one that the weather hangs on.
fn with_edits(snapshot: &Snapshot, edits: &[Edit]) -> Option<Evaluation> {
    let mut snapshot = snapshot.clone();
    let entries = Arc::make_mut(&mut snapshot.entries);
    for edit in edits {
        match &edit.typed {
            None => drop(entries.remove(&edit.id)),
            Some(typed) => {
                let value = stage::entry(&edit.id)?.read(typed).ok()?;
                entries.insert(edit.id.clone(), Given { typed: typed.clone(), value: Ok(value) });
            }
        }
    }
    let after = evaluate(&snapshot);
    network::faults(&after.drawn.inputs).is_empty().then_some(after)
}

impl Workbook {
    /// The cheapest change of the loop that mends a check which stops.
    pub fn mend(&self, check: &str) -> Option<Candidate> {
        cheapest(&self.snapshot(), check, &Cancel::default())
    }

    /// Whether changes are known that may mend a check which stops.
    pub fn may_mend(&self, check: &str) -> bool {
        stops(self.evaluation()).contains(check) && !candidates(&self.evaluation().drawn, check).is_empty()
    }

    /// Makes a change that mends, in one step that can be undone.
    pub fn apply_mend(&mut self, mend: &Candidate) -> Result<(), super::ChangeError> {
        self.set_several(&words(mend), &mend.edits)
    }
}

/// A change in words: entry and new text, one after the other.
pub fn words(mend: &Candidate) -> String {
    let of = |edit: &Edit| match &edit.typed {
        Some(typed) => format!("{} = {typed}", edit.id),
        None => format!("{} taken out", edit.id),
    };
    mend.edits.iter().map(of).collect::<Vec<_>>().join("; ")
}
