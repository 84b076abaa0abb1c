//! What stands on a bench card: the figures with their tolerance and datum, the step, the caution.

use super::detail;
use crate::model::{Address, Evidence, text::without_repeats};
use crate::solve::progress::Standing;
use crate::stage::card::{Card, CardFigure};
use crate::stage::safety::questions::SHORT_WORD;
use crate::tui::bench;
use crate::tui::ink::{Par, Role};
use crate::tui::state::State;
use crate::units::System;

/// One figure as a card shows it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shown {
    pub label: String,
    pub value: String,
    /// How the value is to be seen: computed, unknown, the clock.
    pub role: Role,
    /// Tolerance and datum, and why there is no value.
    pub beside: String,
    /// The widest text that stands here at any row of the card, so that the type does not change from row to row.
    pub widest: String,
}

/// What stands where there is no value.
const NONE: &str = "-";

/// A figure as the card shows it.
pub fn figure(state: &State, card: &'static Card, figure: &'static CardFigure) -> Shown {
    let evaluation = state.workbook.evaluation();
    let address = bench::address(state, card, figure);
    let fill = |template: &str| evaluation.fill(template, address.panel, state.system());
    let (value, role, why) = match evaluation.value(&address) {
        Ok(value) => (super::value(state, &address, &value), Role::Strong, String::new()),
        Err(why) => (NONE.to_owned(), Role::Unknown, super::why(&why)),
    };
    let mut beside = vec![fill(figure.tolerance)];
    beside.push(if figure.datum.is_empty() { String::new() } else { format!("from {}", fill(figure.datum)) });
    beside.push(why);
    beside.retain(|part| !part.is_empty());
    let label = if figure.label.is_empty() { super::label(figure.id) } else { figure.label.to_owned() };
    let mut shown = Shown { label, widest: value.clone(), value, role, beside: beside.join(", ") };
    if address.id != figure.id {
        let keys = bench::keys(state, card);
        let row = state.bench.row(card).min(keys.len().saturating_sub(1));
        shown.label = format!("{} {} of {}", shown.label, keys.get(row).map_or("", String::as_str), keys.len());
        shown.widest = widest(state, figure, &keys);
    }
    if let Some(clock) = state.bench.clock.as_ref().filter(|clock| clock.id == figure.id) {
        shown.beside = format!("{} of {} left", shown.label, shown.value);
        shown.value = clock.text(state.now);
        shown.role = if clock.left(state.now).is_zero() { Role::Current } else { Role::Key };
        "clock".clone_into(&mut shown.label);
        shown.widest.clone_from(&shown.value);
    }
    shown
}

fn widest(state: &State, figure: &CardFigure, keys: &[String]) -> String {
    let text = |key: &String| {
        let address = Address { id: format!("{}.{key}", figure.id), panel: state.bench.panel };
        state.workbook.evaluation().text(&address, state.system())
    };
    keys.iter().map(text).max_by_key(|text| text.chars().count()).unwrap_or_default()
}

/// The card's line over everything: the job, the panel, where among the cards it stands; in short on a narrow screen.
pub fn title(state: &State, card: &Card, short: bool) -> (String, String) {
    let count = crate::stage::card::cards().len();
    let units = if state.system() == System::Us { "US" } else { "SI" };
    let at = state.bench.place() + 1;
    let place = match state.bench.panel {
        _ if short => format!("{}  {at}/{count}", state.bench.panel.map_or_else(String::new, |it| it.to_string())),
        Some(panel) => format!("panel {panel}  {units}  card {at} of {count}"),
        None => format!("{units}  card {at} of {count}"),
    };
    (card.title.to_owned(), place)
}

/// What can hurt: at the job, and at the step that a tick is about; who has the last word.
pub fn cautions(state: &State, card: &Card) -> Par {
    let of = bench::step(state, card);
    let mut lines = vec![card.caution.to_owned()];
    for caution in of.map_or(&[][..], |of| of.step.cautions) {
        let panel = of.and_then(|of| of.address.panel);
        lines.push(state.workbook.evaluation().fill(caution, panel, state.system()));
    }
    let lines = without_repeats(lines);
    Par::tagged(Role::Caution, "caution", lines.join(" ")).and(Role::Quiet, format!(" {SHORT_WORD}"))
}

/// The step of the card: its state, its words, and what a tick would ask for.
pub fn step(state: &State, card: &Card) -> Option<Par> {
    let of = bench::step(state, card)?;
    let place = card.steps.iter().position(|id| *id == of.step.id).unwrap_or(0) + 1;
    let count = if card.steps.len() > 1 { format!(" ({place} of {})", card.steps.len()) } else { String::new() };
    let title = detail::step_name(state, &of.address);
    Some(
        Par::new(super::of_standing(&of.standing), format!("[{}] {}", mark(&of.standing), of.standing.word()))
            .and(Role::Caution, if of.out_of_order.is_empty() { "" } else { " out of order" })
            .and(Role::Plain, format!("{count} {title}"))
            .and(Role::Quiet, format!(" {}", asks(of.step.evidence, of.step.read_back, &of.standing))),
    )
}

const fn mark(standing: &Standing) -> &'static str {
    match standing {
        Standing::Done(_) => "x",
        Standing::Stale(..) => "~",
        Standing::Open => " ",
        Standing::Waiting(_) => ".",
        Standing::Held(_) => "!",
    }
}

/// What completes the step, in a few words.
fn asks(evidence: Evidence, read_back: bool, standing: &Standing) -> String {
    if !matches!(standing, Standing::Open | Standing::Stale(..)) {
        return String::new();
    }
    let asks = match evidence {
        Evidence::Tick => "",
        Evidence::Note(_) => "asks for a note",
        Evidence::Reading(_) => "asks for a reading",
    };
    let second = if read_back { "a second person reads it back" } else { "" };
    let parts: Vec<&str> = [asks, second].into_iter().filter(|part| !part.is_empty()).collect();
    if parts.is_empty() { String::new() } else { format!("({})", parts.join("; ")) }
}
