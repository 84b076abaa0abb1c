//! The declaration of one item of a stage's checklist.

use super::Stage;

/// What completes a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Evidence {
    /// A tick: looked at and done.
    Tick,
    /// A few words; the text says what they must tell.
    Note(&'static str),
    /// A measured value of this entry.
    Reading(&'static str),
}

/// What a step wants of the place and the weather.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Condition {
    /// Done outside.
    Outdoors,
    /// Dry weather, or a dry place.
    Dry,
    /// Air that moves fume and vapour away.
    Ventilated,
    /// Low sun or shade: what the sun has heated is not touched or filled.
    Cool,
}

impl Condition {
    /// In a word or two.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Outdoors => "outdoors",
            Self::Dry => "dry",
            Self::Ventilated => "ventilation",
            Self::Cool => "low sun or shade",
        }
    }
}

/// The choices of an entry for which something applies. It applies as well as long as nothing is chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OnlyFor {
    /// The entry, a choice.
    pub entry: &'static str,
    /// The words of those choices.
    pub choices: &'static [&'static str],
}

/// One step. Its texts hold figure ids in braces, which are filled with the project's own numbers.
#[derive(Clone, Copy, Debug)]
pub struct Step {
    /// The id, `stage.words-with-hyphens`.
    pub id: &'static str,
    /// The stage it belongs to.
    pub stage: Stage,
    /// Done once for each panel, or once for the project.
    pub per_panel: bool,
    /// What to do, in one line.
    pub title: &'static str,
    /// How, with what numbers, and how to know that it is right.
    pub detail: &'static str,
    /// What completes it.
    pub evidence: Evidence,
    /// Steps that must be done first.
    pub after: &'static [&'static str],
    /// Those of them that nothing lets come later: the order itself protects somebody.
    pub firm: &'static [&'static str],
    /// The entries it relies on: when one changes, the sign-off is stale.
    pub relies: &'static [&'static str],
    /// Checks whose stop blocks it.
    pub held_by: &'static [&'static str],
    /// For what it applies at all; none if always.
    pub only: Option<OnlyFor>,
    /// What can hurt here.
    pub cautions: &'static [&'static str],
    /// What it wants of the place and the weather.
    pub conditions: &'static [Condition],
    /// A second person reads it back before it is done.
    pub read_back: bool,
    /// Usually the work of a licensed person or under a permit: ask locally.
    pub licensed: bool,
    /// The figure that tells how long what was done here cures before the next step.
    pub cures: Option<&'static str>,
}

impl Step {
    /// A step with nothing but its words; the rest is added by name.
    pub const fn new(id: &'static str, stage: Stage, title: &'static str) -> Self {
        Self {
            id,
            stage,
            per_panel: false,
            title,
            detail: "",
            evidence: Evidence::Tick,
            after: &[],
            firm: &[],
            relies: &[],
            held_by: &[],
            only: None,
            cautions: &[],
            conditions: &[],
            read_back: false,
            licensed: false,
            cures: None,
        }
    }

    /// Says how, with what numbers.
    #[must_use]
    pub const fn detail(mut self, detail: &'static str) -> Self {
        self.detail = detail;
        self
    }

    /// Done once for each panel.
    #[must_use]
    pub const fn per_panel(mut self) -> Self {
        self.per_panel = true;
        self
    }

    /// Names what completes it.
    #[must_use]
    pub const fn evidence(mut self, evidence: Evidence) -> Self {
        self.evidence = evidence;
        self
    }

    /// Names the steps that come first.
    #[must_use]
    pub const fn after(mut self, steps: &'static [&'static str]) -> Self {
        self.after = steps;
        self
    }

    /// Names those of the steps before it that no written reason lets come later.
    #[must_use]
    pub const fn firmly_after(mut self, steps: &'static [&'static str]) -> Self {
        self.firm = steps;
        self
    }

    /// Names the entries it relies on.
    #[must_use]
    pub const fn relies(mut self, entries: &'static [&'static str]) -> Self {
        self.relies = entries;
        self
    }

    /// Names the checks whose stop blocks it.
    #[must_use]
    pub const fn held_by(mut self, checks: &'static [&'static str]) -> Self {
        self.held_by = checks;
        self
    }

    /// Names for what it applies at all.
    #[must_use]
    pub const fn only_for(mut self, only: OnlyFor) -> Self {
        self.only = Some(only);
        self
    }

    /// Names what can hurt here.
    #[must_use]
    pub const fn cautions(mut self, cautions: &'static [&'static str]) -> Self {
        self.cautions = cautions;
        self
    }

    /// Names what it wants of the place and the weather.
    #[must_use]
    pub const fn wants(mut self, conditions: &'static [Condition]) -> Self {
        self.conditions = conditions;
        self
    }

    /// A second person reads it back.
    #[must_use]
    pub const fn read_back(mut self) -> Self {
        self.read_back = true;
        self
    }

    /// Names the figure that tells how long it cures.
    #[must_use]
    pub const fn cures(mut self, figure: &'static str) -> Self {
        self.cures = Some(figure);
        self
    }

    /// Usually the work of a licensed person.
    #[must_use]
    pub const fn licensed(mut self) -> Self {
        self.licensed = true;
        self
    }
}
