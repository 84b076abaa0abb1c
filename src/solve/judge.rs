//! Judging: every check over the design and over every panel as built; the worse of the two counts.

use std::collections::{BTreeMap, BTreeSet};

use crate::model::{Address, Fig, Judgement, Override, PanelLetter, Records, Verdict};
use crate::stage::{self, Check, Severity, Solution};

/// The verdict of one check.
#[derive(Clone)]
pub struct Judged {
    /// The check.
    pub check: &'static Check,
    /// The check, and the panel it was judged for if it is judged for each.
    pub address: Address,
    /// The verdict that counts.
    pub verdict: Verdict,
    /// The numbers behind it, or why it is unknown.
    pub judgement: Fig<Judgement>,
    /// The panel whose as-built numbers decided, if not the design.
    pub panel: Option<PanelLetter>,
    /// The written overruling of its stop, where there is a valid one.
    pub overruled: Option<Override>,
}

impl std::fmt::Debug for Judged {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: {}", self.address, self.verdict)
    }
}

impl Judged {
    /// Whether it still blocks what it holds: a stop that nobody has overruled.
    pub fn blocks(&self) -> bool {
        self.verdict == Verdict::Stop && self.overruled.is_none()
    }
}

/// Judges all checks: once over the design and all panels, or panel by panel.
pub fn judge_all(drawn: &Solution, built: &BTreeMap<PanelLetter, Solution>, records: &Records) -> Vec<Judged> {
    let panels = drawn.inputs.panels();
    stage::checks()
        .iter()
        .flat_map(|check| {
            if check.per_panel && !panels.is_empty() {
                let of = |panel| (Some(panel), built.get(&panel).unwrap_or(drawn));
                panels.iter().filter_map(|panel| judge(check, &[of(*panel)], Some(*panel), records)).collect()
            } else {
                let mut all = vec![(None, drawn)];
                all.extend(built.iter().map(|(panel, solution)| (Some(*panel), solution)));
                Vec::from_iter(judge(check, &all, None, records))
            }
        })
        .collect()
}

/// Judges one check over solutions; the worst counts, the first among equals speaks. None without a solution.
fn judge(
    check: &'static Check,
    solutions: &[(Option<PanelLetter>, &Solution)],
    of: Option<PanelLetter>,
    records: &Records,
) -> Option<Judged> {
    let judged = solutions.iter().rev().map(|(panel, solution)| {
        let judgement = check.verdict(solution);
        let verdict = judgement.as_ref().map_or(Verdict::Unknown, |judgement| judgement.verdict);
        let overruled = match verdict {
            Verdict::Stop => overruling(check, *panel, solution, records).cloned(),
            _ => None,
        };
        let address = Address { id: check.id.to_owned(), panel: of };
        Judged { check, address, verdict, judgement, panel: *panel, overruled }
    });
    judged.max_by(worse)
}

/// Orders by verdict, a stop that still blocks above one that is overruled, then by margin: the smaller is the worse.
fn worse(a: &Judged, b: &Judged) -> std::cmp::Ordering {
    let margin = |judged: &Judged| {
        let judgement = judged.judgement.as_ref().ok();
        judgement.and_then(|judgement| judgement.margin).map_or(f64::INFINITY, |margin| margin.si)
    };
    let rank = |judged: &Judged| (judged.verdict, judged.blocks());
    rank(a).cmp(&rank(b)).then_with(|| margin(b).total_cmp(&margin(a)))
}

/// The last overruling that counts for a stop on one panel, or of the design.
fn overruling<'a>(
    check: &Check,
    panel: Option<PanelLetter>,
    solution: &Solution,
    records: &'a Records,
) -> Option<&'a Override> {
    records.overrulings(check.id, panel).into_iter().find(|record| is_valid(check, record, solution))
}

/// Whether an overruling counts: allowed at all, two persons, for what can kill a licensed one among them, and what
/// it relied on is named and unchanged in the very solution that is stopped.
fn is_valid(check: &Check, record: &Override, stopped: &Solution) -> bool {
    let names: BTreeSet<String> = record.by.iter().map(|name| person(name)).filter(|name| !name.is_empty()).collect();
    let licensed = check.severity < Severity::Deadly || names.contains(&person(&record.licensed));
    let depends = check.depends();
    let relies = record.saw.keys().any(|id| stage::entry(id).is_some_and(|spec| depends.contains(spec.id)));
    let unchanged = record.saw.iter().all(|(id, was)| stopped.inputs.typed(id) == Some(was.as_str()));
    check.can_be_overruled && names.len() >= 2 && licensed && relies && unchanged
}

/// A name by which the same person is recognised.
pub(super) fn person(name: &str) -> String {
    name.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase()
}

#[cfg(test)]
mod tests;
