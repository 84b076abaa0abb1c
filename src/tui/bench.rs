//! Where the builder is among the bench cards: which card on which panel, which row, which figure, what clock runs.
//!
//! Lives here: the memory and what follows from it. Must not live here: keys, wording, drawing.

use std::collections::BTreeMap;
use std::time::Duration;

use super::state::State;
use crate::model::{Address, PanelLetter, Stage};
use crate::project::draft::Marks;
use crate::solve::progress::{Standing, StepState};
use crate::stage;
use crate::stage::card::{Card, CardFigure, cards};

/// The builder's place at the bench. Every panel has its own, so that going from B back to A goes on where A was left.
#[derive(Clone, Debug, Default)]
pub struct Bench {
    /// The panel that is worked on; none where the project has no panels.
    pub panel: Option<PanelLetter>,
    /// The card each panel is at.
    cards: BTreeMap<Option<PanelLetter>, &'static str>,
    /// The row of each card that runs over an axis, counted from nought.
    rows: BTreeMap<(Option<PanelLetter>, &'static str), usize>,
    /// The figure of the card that stands in the large type.
    pub figure: usize,
    /// The clock that runs.
    pub clock: Option<Clock>,
    /// Whether the terminal is asked to ring.
    pub rings: bool,
}

/// A clock that counts down the time of one figure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Clock {
    /// The figure whose time it counts.
    pub id: &'static str,
    /// When it began and when it is over, since the session began.
    pub began: Duration,
    pub ends: Duration,
    /// Whether the end was told.
    pub is_told: bool,
}

impl Clock {
    /// How long it has run, over its end as well, in whole minutes; in seconds below two minutes.
    pub fn ran(&self, now: Duration) -> String {
        match now.saturating_sub(self.began).as_secs() {
            seconds @ 0..120 => format!("{seconds} s"),
            seconds => format!("{} min", seconds / 60),
        }
    }

    /// What is left; nothing once it is over.
    pub fn left(&self, now: Duration) -> Duration {
        self.ends.saturating_sub(now)
    }

    /// Minutes and seconds of what is left, a started second counted whole.
    pub fn text(&self, now: Duration) -> String {
        let left = self.left(now);
        let seconds = left.as_secs() + u64::from(left.subsec_nanos() > 0);
        match (seconds / 3600, seconds / 60 % 60, seconds % 60) {
            (0, minutes, seconds) => format!("{minutes}:{seconds:02}"),
            (hours, minutes, seconds) => format!("{hours}:{minutes:02}:{seconds:02}"),
        }
    }
}

impl Bench {
    /// The card that the present panel is at.
    pub fn card(&self) -> Option<&'static Card> {
        let at = self.cards.get(&self.panel);
        at.and_then(|id| cards().iter().find(|card| card.id == *id)).or_else(|| cards().first()).copied()
    }

    /// The place of the card among all.
    pub fn place(&self) -> usize {
        let card = self.card().map_or("", |card| card.id);
        cards().iter().position(|other| other.id == card).unwrap_or(0)
    }

    /// Goes to a card.
    pub fn go_to(&mut self, card: &'static Card) {
        self.cards.insert(self.panel, card.id);
        self.figure = 0;
    }

    /// Goes on by so many cards, round and round.
    pub fn leaf(&mut self, by: usize) {
        let count = cards().len().max(1);
        if let Some(card) = cards().get((self.place() + by) % count).copied() {
            self.go_to(card);
        }
    }

    /// Goes to the first card of a stage, unless the card that the panel was left at is of that stage.
    pub fn turn_to(&mut self, stage: Stage) {
        let is_there = self.cards.contains_key(&self.panel) && self.card().is_some_and(|card| card.stage == stage);
        if !is_there && let Some(card) = cards().iter().find(|card| card.stage == stage) {
            self.go_to(card);
        }
    }

    /// Takes up where an earlier session left the bench.
    pub fn resume(&mut self, marks: &Marks) {
        let known = |id: &str| cards().iter().find(|card| card.id == id).copied();
        self.panel = PanelLetter::parse(&marks.panel);
        for (panel, id) in &marks.cards {
            if let Some(card) = known(id) {
                self.cards.insert(PanelLetter::parse(panel), card.id);
            }
        }
        for (place, row) in &marks.rows {
            let (panel, id) = place.split_once(' ').unwrap_or(("", place));
            if let Some(card) = known(id) {
                self.rows.insert((PanelLetter::parse(panel), card.id), *row);
            }
        }
    }

    /// Notes where the bench is left.
    pub fn remember(&self, marks: &mut Marks) {
        let letter = |panel: &Option<PanelLetter>| panel.map_or_else(String::new, |panel| panel.to_string());
        marks.panel = letter(&self.panel);
        marks.cards = self.cards.iter().map(|(panel, id)| (letter(panel), (*id).to_owned())).collect();
        marks.rows = self.rows.iter().map(|((panel, id), row)| (format!("{} {id}", letter(panel)), *row)).collect();
    }

    /// The row that the card stands at.
    pub fn row(&self, card: &Card) -> usize {
        self.rows.get(&(self.panel, card.id)).copied().unwrap_or(0)
    }

    /// Stands at another row.
    pub fn set_row(&mut self, card: &'static Card, row: usize) {
        self.rows.insert((self.panel, card.id), row);
    }
}

/// The keys of the rows that a card can stand at; none for a card without an axis.
pub fn keys(state: &State, card: &Card) -> Vec<String> {
    card.axis.map_or_else(Vec::new, |axis| state.workbook.evaluation().keys(axis))
}

/// What a figure of a card is, at the row that the card stands at.
pub fn address(state: &State, card: &Card, figure: &CardFigure) -> Address {
    let has_rows = stage::figure(figure.id).is_some_and(|(figure, _)| figure.axis.is_some());
    let keys = if has_rows { keys(state, card) } else { Vec::new() };
    let row = state.bench.row(card).min(keys.len().saturating_sub(1));
    let id = keys.get(row).map_or_else(|| figure.id.to_owned(), |key| format!("{}.{key}", figure.id));
    Address { id, panel: state.bench.panel }
}

/// The step that a tick on the card is about: the first that is not done, else the last; with its place among them.
pub fn step<'a>(state: &'a State, card: &Card) -> Option<&'a StepState> {
    let evaluation = state.workbook.evaluation();
    let of = |id: &&'static str| {
        let panel = stage::step(id)?.per_panel.then_some(state.bench.panel).flatten();
        evaluation.step(&Address { id: (*id).to_owned(), panel })
    };
    let steps: Vec<&StepState> = card.steps.iter().filter_map(of).collect();
    let open = steps.iter().find(|of| !matches!(of.standing, Standing::Done(_)));
    open.or_else(|| steps.last()).copied()
}

/// The figure whose time a clock would count: the one in the large type if it is a time, else the first that is.
pub fn timed(state: &State, card: &'static Card) -> Option<&'static CardFigure> {
    let large = card.figures.get(state.bench.figure).filter(|figure| figure.timed);
    large.or_else(|| card.figures.iter().find(|figure| figure.timed))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_clock_counts_down_to_nothing_and_no_further() {
        let clock = Clock { id: "", began: Duration::ZERO, ends: Duration::from_mins(62), is_told: false };
        assert_eq!(clock.text(Duration::ZERO), "1:02:00");
        assert_eq!(clock.text(Duration::from_millis(3_718_500)), "0:02");
        assert_eq!(clock.text(Duration::from_secs(4000)), "0:00");
        assert_eq!(clock.ran(Duration::from_secs(4000)), "66 min");
        assert_eq!(clock.ran(Duration::from_millis(59_900)), "59 s");
    }

    #[test]
    fn each_panel_keeps_its_own_card() {
        let mut bench = Bench { panel: PanelLetter::new('A'), ..Bench::default() };
        let last = cards()[cards().len() - 1];
        bench.go_to(last);
        bench.set_row(last, 3);
        bench.panel = PanelLetter::new('B');
        assert_eq!(bench.place(), 0);
        bench.panel = PanelLetter::new('A');
        assert_eq!((bench.card().map(|card| card.id), bench.row(last)), (Some(last.id), 3));
    }
}
