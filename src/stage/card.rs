//! Bench cards: up to nine figures for one job at the bench, in the largest type the terminal can do.
//!
//! Lives here: what a card is made of, and the gathering over the stages. Must not live here: type and layout.

use std::sync::LazyLock;

use super::{Axis, absorber, commissioning, enclosure, entry, plumbing};
use crate::model::{EntrySpec, Role, Stage};

/// One figure on a card.
#[derive(Debug)]
pub struct CardFigure {
    /// An entry or a figure. A figure that runs along the card's axis shows the row that the card stands at.
    pub id: &'static str,
    /// What it is called here; the figure's own label if empty.
    pub label: &'static str,
    /// How far it may be off, in words, ids in braces; empty where the card gives no tolerance.
    pub tolerance: &'static str,
    /// Where it is measured from; empty where that is plain.
    pub datum: &'static str,
    /// Whether it is a time that a clock on the card can count down.
    pub timed: bool,
    /// The reading that the clock's time becomes; empty where it is not kept.
    pub keeps: &'static str,
}

/// One card.
#[derive(Debug)]
pub struct Card {
    /// The id, `stage.words-with-hyphens`.
    pub id: &'static str,
    /// The stage it belongs to.
    pub stage: Stage,
    /// The job, in two or three words.
    pub title: &'static str,
    /// What its figures run over: the card is leafed from hole to hole.
    pub axis: Option<Axis>,
    /// The figures, the one that is looked for most often first. Nine at most.
    pub figures: &'static [CardFigure],
    /// The steps that can be ticked from here.
    pub steps: &'static [&'static str],
    /// What can hurt at this job, in one line.
    pub caution: &'static str,
}

/// A figure under its own label, without tolerance or datum.
pub const fn shown(id: &'static str) -> CardFigure {
    CardFigure { id, label: "", tolerance: "", datum: "", timed: false, keeps: "" }
}

impl CardFigure {
    /// Calls it otherwise on this card.
    #[must_use]
    pub const fn called(mut self, label: &'static str) -> Self {
        self.label = label;
        self
    }

    /// Says how far it may be off.
    #[must_use]
    pub const fn within(mut self, tolerance: &'static str) -> Self {
        self.tolerance = tolerance;
        self
    }

    /// Says where it is measured from.
    #[must_use]
    pub const fn from(mut self, datum: &'static str) -> Self {
        self.datum = datum;
        self
    }

    /// Lets a clock on the card count it down.
    #[must_use]
    pub const fn timed(mut self) -> Self {
        self.timed = true;
        self
    }

    /// Keeps the time that the clock ran as a reading of this entry.
    #[must_use]
    pub const fn keeping(mut self, reading: &'static str) -> Self {
        self.keeps = reading;
        self
    }

    /// The entry that a reading taken at this figure is of; none where the figure is not measured.
    pub fn reads(&self) -> Option<&'static EntrySpec> {
        let id = if self.keeps.is_empty() { self.id } else { self.keeps };
        entry(id).filter(|spec| spec.role == Role::Measure)
    }
}

static CARDS: LazyLock<Vec<&'static Card>> = LazyLock::new(|| {
    [
        absorber::cards::CARDS,
        enclosure::cards::CARDS,
        enclosure::glass::cards::CARDS,
        enclosure::capping::cards::CARDS,
        enclosure::rack::cards::CARDS,
        plumbing::cards::CARDS,
        commissioning::cards::CARDS,
    ]
    .into_iter()
    .flatten()
    .collect()
});

/// All cards, in the order of the stages.
pub fn cards() -> &'static [&'static Card] {
    &CARDS
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;
    use crate::stage::{figure, step};

    #[test]
    fn cards_name_declared_figures_and_steps_and_hold_nine_at_most() {
        let mut seen = BTreeSet::new();
        for card in cards() {
            assert!(seen.insert(card.id), "{} twice", card.id);
            assert!((1..=9).contains(&card.figures.len()), "{}", card.id);
            for shown in card.figures {
                let axis = figure(shown.id).and_then(|(figure, _)| figure.axis);
                assert!(axis.is_none() || axis == card.axis, "{} of {} runs over another axis", shown.id, card.id);
                assert!(figure(shown.id).is_some() || entry(shown.id).is_some(), "{} of {}", shown.id, card.id);
                assert!(shown.keeps.is_empty() || shown.reads().is_some(), "{} of {}", shown.keeps, card.id);
            }
            for id in card.steps {
                assert!(step(id).is_some(), "{id} of {}", card.id);
            }
        }
    }
}
