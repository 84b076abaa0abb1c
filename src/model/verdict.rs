//! Judgements: clear, caution, stop, unknown.

use std::fmt;

use crate::handbook::Provenance;
use crate::units::Quantity;

/// The four verdicts. A missing input gives unknown, never clear.
///
/// Ordered by how loudly it must be said: unknown counts as open and stands between caution and stop.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Verdict {
    /// This check found no fault in what it can see.
    Clear,
    /// Work may go on with care.
    Caution,
    /// Something needed is missing.
    Unknown,
    /// Work that would make it dangerous stops here.
    Stop,
}

impl Verdict {
    /// The word that is printed everywhere.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Clear => "clear",
            Self::Caution => "caution",
            Self::Unknown => "unknown",
            Self::Stop => "stop",
        }
    }
}

impl fmt::Display for Verdict {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.word())
    }
}

/// Share of what was judged below which a margin is rounding (project rule: far above 2⁻⁵², far below any reading).
const DUST: f64 = 1e-9;

/// What a check found: the verdict and the numbers behind it.
#[derive(Clone, Debug, PartialEq)]
pub struct Judgement {
    /// The verdict.
    pub verdict: Verdict,
    /// The number judged.
    pub found: Option<Quantity>,
    /// The limit it was held against.
    pub limit: Option<Quantity>,
    /// How far inside the limit it is; negative is outside.
    pub margin: Option<Quantity>,
    /// The part, row or side that decides.
    pub part: Option<String>,
    /// Why the check does not apply here, where it is clear for that reason alone: nothing was judged.
    pub does_not_apply: Option<&'static str>,
    /// Whether it would be clear if the limit were not one that is only recalled.
    pub from_memory: bool,
}

impl Judgement {
    /// A bare verdict.
    pub const fn of(verdict: Verdict) -> Self {
        Self { verdict, found: None, limit: None, margin: None, part: None, does_not_apply: None, from_memory: false }
    }

    /// Clear because there is nothing to judge, in words such as "this loop stays full".
    pub const fn does_not_apply(why: &'static str) -> Self {
        let mut judgement = Self::of(Verdict::Clear);
        judgement.does_not_apply = Some(why);
        judgement
    }

    /// Clear or stop by a condition.
    pub const fn stop_unless(holds: bool) -> Self {
        Self::of(if holds { Verdict::Clear } else { Verdict::Stop })
    }

    /// Clear or caution by a condition.
    pub const fn caution_unless(holds: bool) -> Self {
        Self::of(if holds { Verdict::Clear } else { Verdict::Caution })
    }

    /// Names the numbers.
    #[must_use]
    pub fn with(mut self, found: impl Into<Quantity>, limit: impl Into<Quantity>) -> Self {
        self.found = Some(found.into());
        self.limit = Some(limit.into());
        self
    }

    /// Names the distance to the limit; negative is outside.
    #[must_use]
    pub fn margin(mut self, margin: impl Into<Quantity>) -> Self {
        self.margin = Some(margin.into());
        self
    }

    /// A margin that is nothing but the rounding of the machine is none; the verdict stays as it was judged.
    #[must_use]
    pub fn without_dust(mut self) -> Self {
        let size = |quantity: Option<Quantity>| quantity.map_or(0.0, |quantity| quantity.si.abs());
        let scale = size(self.found).max(size(self.limit));
        if let Some(margin) = self.margin.as_mut().filter(|margin| margin.si.abs() < DUST * scale) {
            margin.si = 0.0;
        }
        self
    }

    /// The limit is only recalled, nobody looked it up: it may warn and stop, but a clear by it is a caution.
    #[must_use]
    pub fn recalled(mut self) -> Self {
        if self.verdict == Verdict::Clear {
            self.verdict = Verdict::Caution;
            self.from_memory = true;
        }
        self.noted("limit from memory")
    }

    /// Recalled where the row of the handbook that gave the limit is.
    #[must_use]
    pub fn resting_on(self, provenance: Provenance) -> Self {
        if provenance == Provenance::Recalled { self.recalled() } else { self }
    }

    /// Somebody read the limit where it is printed: what hung on memory alone is clear.
    #[must_use]
    pub fn looked_up(mut self, place: &str) -> Self {
        self.verdict = Verdict::Clear;
        self.from_memory = false;
        self.noted(&format!("looked up: {place}"))
    }

    /// Adds a note to the part that decides.
    fn noted(mut self, note: &str) -> Self {
        self.part = Some(match self.part {
            Some(part) => format!("{part} ({note})"),
            None => note.to_owned(),
        });
        self
    }

    /// Names the part that decides.
    #[must_use]
    pub fn part(mut self, part: impl Into<String>) -> Self {
        self.part = Some(part.into());
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rounding_is_no_margin_and_changes_no_verdict() {
        let judged = |margin: f64| {
            let number = Quantity::number;
            Judgement::of(Verdict::Stop).with(number(0.8), number(0.8)).margin(number(margin)).without_dust()
        };
        assert_eq!(judged(-2.776e-17).margin, Some(Quantity::number(0.0)));
        assert_eq!(judged(-2.776e-17).verdict, Verdict::Stop);
        assert_eq!(judged(-1e-6).margin, Some(Quantity::number(-1e-6)));
    }
}
