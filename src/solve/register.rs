//! The hazard register of a project: each hazard with the verdicts of the checks that watch over it.

use super::Evaluation;
use super::judge::Judged;
use crate::model::Verdict;
use crate::stage::safety::register::{Hazard, REGISTER};

/// The heading of the register wherever it is printed.
pub const HEADING: &str = "Hazard register: stops first, then what is unknown";

/// A hazard as the project stands.
#[derive(Clone, Debug)]
pub struct HazardState<'a> {
    /// The hazard.
    pub hazard: &'static Hazard,
    /// Every check that watches over it; of one that is judged for each panel, the worst.
    pub judged: Vec<&'a Judged>,
}

impl HazardState<'_> {
    /// The loudest verdict.
    pub fn verdict(&self) -> Verdict {
        self.judged.iter().map(|judged| judged.verdict).max().unwrap_or(Verdict::Unknown)
    }

    /// What stands behind the verdict, in words: how many checks say what.
    pub fn text(&self) -> String {
        let of = |verdict: Verdict| self.judged.iter().filter(|judged| judged.verdict == verdict).count();
        let said: Vec<String> = LOUDEST_FIRST
            .into_iter()
            .filter(|verdict| of(*verdict) > 0)
            .map(|verdict| format!("{} {verdict}", of(verdict)))
            .collect();
        let overruled = self.judged.iter().filter(|judged| judged.overruled.is_some()).count();
        let overruled = if overruled == 0 { String::new() } else { format!(", {overruled} overruled in writing") };
        format!("{}{overruled}", said.join(", "))
    }
}

const LOUDEST_FIRST: [Verdict; 4] = [Verdict::Stop, Verdict::Unknown, Verdict::Caution, Verdict::Clear];

/// A stop is never hidden below a long list of unknowns; what nobody has looked at comes next, before cautions, because
/// nobody thinks of it by himself.
const fn place(verdict: Verdict) -> u8 {
    match verdict {
        Verdict::Stop => 0,
        Verdict::Unknown => 1,
        Verdict::Caution => 2,
        Verdict::Clear => 3,
    }
}

impl Evaluation {
    /// All hazards, those with a stop first, then unknown ones, cautions and clears; the worse before the less bad.
    pub fn register(&self) -> Vec<HazardState<'_>> {
        let mut states: Vec<HazardState<'_>> = REGISTER.iter().map(|hazard| self.hazard(hazard)).collect();
        states.sort_by_key(|state| (place(state.verdict()), std::cmp::Reverse(state.hazard.severity())));
        states
    }

    /// One hazard.
    pub fn hazard(&self, hazard: &'static Hazard) -> HazardState<'_> {
        HazardState { hazard, judged: hazard.checks.iter().filter_map(|id| self.verdict(id)).collect() }
    }
}
