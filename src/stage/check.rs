//! The declaration of checks: how each judges, what it says, and what it rests on.

use std::collections::BTreeSet;

use super::Solution;
use super::figure::depends;
use super::safety::entries::office::LOOKED_UP;
use crate::model::{Fig, Judgement, Stage, Verdict, Why};

/// How bad it is if a check is not clear.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// A nuisance.
    Nuisance = 1,
    /// Injury, or loss of the panel.
    Injury = 2,
    /// Serious injury or a house fire.
    Serious = 3,
    /// Can kill.
    Deadly = 4,
}

impl Severity {
    /// The word printed for it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Nuisance => "nuisance",
            Self::Injury => "injury or loss",
            Self::Serious => "serious injury or fire",
            Self::Deadly => "can kill",
        }
    }
}

/// A check: a computed judgement and the words that go with it.
///
/// Its texts hold ids in braces, filled with the project's numbers, and `{found}`, `{limit}`, `{margin}`, `{part}`
/// of the judgement.
pub struct Check {
    /// The id, `stage.words-with-hyphens`.
    pub id: &'static str,
    /// A short name for people.
    pub label: &'static str,
    /// How bad it is if not clear.
    pub severity: Severity,
    /// Judges the solution; an error is unknown.
    pub judge: fn(&Solution) -> Fig<Judgement>,
    /// What is read when it is not clear.
    pub says: &'static str,
    /// What to do then.
    pub remedy: &'static str,
    /// What the check cannot see; printed with every clear.
    pub blind_to: &'static str,
    /// Whom to ask, where the work usually needs a licensed person or a permit; empty if nobody.
    pub ask: &'static str,
    /// Where the limit comes from: what was looked up, and what is this project's own rule.
    pub source: &'static str,
    /// What of it is only recalled; empty if nothing.
    pub recalled: &'static str,
    /// Whether a clear rests on what is recalled.
    pub rests_on_memory: bool,
    /// The figures and entries it judges by.
    pub needs: &'static [&'static str],
    /// Whether it can be overruled in writing.
    pub can_be_overruled: bool,
    /// Judged for each panel by itself, because it judges what was measured on it; else once, the worst counts.
    pub per_panel: bool,
}

impl Check {
    /// A check that can be overruled; the words are added by name.
    pub const fn new(
        id: &'static str,
        label: &'static str,
        severity: Severity,
        judge: fn(&Solution) -> Fig<Judgement>,
    ) -> Self {
        Self {
            id,
            label,
            severity,
            judge,
            says: "",
            remedy: "",
            blind_to: "",
            ask: "",
            source: "",
            recalled: "",
            rests_on_memory: false,
            needs: &[],
            can_be_overruled: true,
            per_panel: false,
        }
    }

    /// What is read when it is not clear, and what to do then.
    #[must_use]
    pub const fn says(mut self, says: &'static str, remedy: &'static str) -> Self {
        self.says = says;
        self.remedy = remedy;
        self
    }

    /// What it cannot see.
    #[must_use]
    pub const fn blind_to(mut self, blind_to: &'static str) -> Self {
        self.blind_to = blind_to;
        self
    }

    /// Whom to ask.
    #[must_use]
    pub const fn ask(mut self, whom: &'static str) -> Self {
        self.ask = whom;
        self
    }

    /// Where the limit comes from.
    #[must_use]
    pub const fn source(mut self, source: &'static str) -> Self {
        self.source = source;
        self
    }

    /// Names a limit that is only recalled and that a clear rests on: it is never clear until somebody looks it up.
    #[must_use]
    pub const fn recalls(mut self, what: &'static str) -> Self {
        self.recalled = what;
        self.rests_on_memory = true;
        self
    }

    /// Names what is recalled beside the limit: it turns a caution into a stop, or hangs on the row of a table, of which
    /// the judge itself tells.
    #[must_use]
    pub const fn recalls_beside(mut self, what: &'static str) -> Self {
        self.recalled = what;
        self
    }

    /// The figures and entries it judges by.
    #[must_use]
    pub const fn needs(mut self, ids: &'static [&'static str]) -> Self {
        self.needs = ids;
        self
    }

    /// Judged for each panel by itself.
    #[must_use]
    pub const fn per_panel(mut self) -> Self {
        self.per_panel = true;
        self
    }

    /// Nobody can overrule it.
    #[must_use]
    pub const fn final_word(mut self) -> Self {
        self.can_be_overruled = false;
        self
    }

    /// The stage that it belongs to.
    pub fn stage(&self) -> Stage {
        Stage::of_id(self.id).unwrap_or(Stage::Safety)
    }

    /// All entries that its verdict can depend on.
    pub fn depends(&self) -> BTreeSet<&'static str> {
        let looked_up = (!self.recalled.is_empty()).then_some(LOOKED_UP.spec.id);
        self.needs.iter().flat_map(|id| depends(id)).chain(looked_up).collect()
    }

    /// The key of the row that tells where a recalled limit was looked up: the id without its dot.
    pub fn key(&self) -> String {
        self.id.replace('.', "-")
    }

    /// Judges a solution. What would be clear by a limit from memory is a caution, until it is written down where that
    /// limit is printed.
    pub fn verdict(&self, solution: &Solution) -> Fig<Judgement> {
        let mut judgement = (self.judge)(solution)?.without_dust();
        let judged = judgement.verdict == Verdict::Clear && judgement.does_not_apply.is_none();
        if self.rests_on_memory && judged {
            judgement = judgement.recalled();
        }
        if !judgement.from_memory {
            return Ok(judgement);
        }
        match solution.inputs.at(&LOOKED_UP, &self.key()) {
            Ok(place) => Ok(judgement.looked_up(&place)),
            Err(Why::Missing(_)) => Ok(judgement),
            Err(why) => Err(why),
        }
    }
}
