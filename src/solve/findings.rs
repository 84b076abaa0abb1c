//! What was judged, in words that every printed page shares: counts, what a clear says, an overruling, evidence.
//!
//! Must not live here: the words of single checks (they are declared in `stage`), how a page looks.

use super::Evaluation;
use super::words::finding;
use crate::model::{Evidence, Judgement, Override, Verdict, text::clean};
use crate::stage::Check;
use crate::units::{Quantity, System};

/// How many checks say what.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    /// Stops that nobody has overruled.
    pub stop: usize,
    /// Stops overruled in writing.
    pub overruled: usize,
    /// Checks that lack something.
    pub unknown: usize,
    /// Cautions.
    pub caution: usize,
    /// Checks that found no fault in what they can see.
    pub clear: usize,
    /// Those of them that had nothing to judge.
    pub without_subject: usize,
}

impl Counts {
    /// Counts the verdicts of an evaluation.
    pub fn of(evaluation: &Evaluation) -> Self {
        let mut counts = Self::default();
        for judged in &evaluation.verdicts {
            *match judged.verdict {
                Verdict::Stop if judged.blocks() => &mut counts.stop,
                Verdict::Stop => &mut counts.overruled,
                Verdict::Unknown => &mut counts.unknown,
                Verdict::Caution => &mut counts.caution,
                Verdict::Clear => &mut counts.clear,
            } += 1;
            let judgement = judged.judgement.as_ref().ok();
            counts.without_subject +=
                usize::from(judgement.is_some_and(|judgement| judgement.does_not_apply.is_some()));
        }
        counts
    }

    /// The counts in one line, the loudest first.
    pub fn text(self) -> String {
        let overruled =
            if self.overruled == 0 { String::new() } else { format!(", {} stop overruled in writing", self.overruled) };
        let Self { stop, unknown, caution, clear, .. } = self;
        let nothing = match self.without_subject {
            0 => String::new(),
            1 => " (1 of them does not apply)".to_owned(),
            several => format!(" ({several} of them do not apply)"),
        };
        format!("{stop} stop{overruled}, {unknown} unknown, {caution} caution, {clear} clear{nothing}")
    }
}

/// What a clear says: the numbers it went by, or why there was nothing to judge. Never more than that.
pub fn found_no_fault(check: &Check, judgement: &Judgement, system: System) -> String {
    if let Some(why) = judgement.does_not_apply {
        return format!("Does not apply: {why}.");
    }
    let number = |name: &str, number: Option<Quantity>| {
        number.map(|number| format!("{name} {}", finding(check, number, system)))
    };
    let part = judgement.part.as_deref().map(clean);
    let numbers =
        [part, number("found", judgement.found), number("limit", judgement.limit), number("margin", judgement.margin)];
    let numbers: Vec<String> = numbers.into_iter().flatten().collect();
    if numbers.is_empty() {
        "This check found no fault.".to_owned()
    } else {
        format!("This check found no fault: {}.", numbers.join(", "))
    }
}

/// An overruling in one sentence: when, by whom, why.
pub fn overruling(record: &Override) -> String {
    let by = record.by.iter().map(|name| clean(name)).collect::<Vec<_>>().join(" and ");
    format!("Overruled {} by {by}: {}", record.date, clean(&record.reason))
}

/// A reason to do a step before others in one sentence: when, by whom, before what, why.
pub fn out_of_order(record: &Override) -> String {
    let by = record.by.iter().map(|name| clean(name)).collect::<Vec<_>>().join(" and ");
    let skips: Vec<String> = record.skips.iter().map(ToString::to_string).collect();
    format!("{} by {by}, before {}: {}", record.date, skips.join(", "), clean(&record.reason))
}

/// What completes a step, in words.
pub fn evidence(evidence: Evidence) -> String {
    match evidence {
        Evidence::Tick => "a tick".to_owned(),
        Evidence::Note(words) => format!("a note: {words}"),
        Evidence::Reading(id) => format!("a reading of {id}"),
    }
}
