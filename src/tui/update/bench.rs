//! Keys at the bench: leafing through the cards, going from hole to hole, ticking, the clock.

use std::time::Duration;

use super::super::bench::{self, Clock};
use super::super::command::Act;
use super::super::state::{Answer, Over, Question, State, Subject};
use super::super::words::{self, detail};
use super::{changing, close, form, page};
use crate::model::{Address, Evidence, Step, text::clean};
use crate::solve::progress::Standing;
use crate::stage;
use crate::stage::card::{Card, CardFigure};
use crate::stage::general::BUILDER;
use crate::workbook::change::NewSignOff;

/// Goes to the bench: to the card that the panel was left at, or the first of this stage.
pub fn open(state: &mut State) {
    let panels = &state.workbook.project().panels;
    let known = state.panel.or(state.bench.panel).filter(|panel| panels.contains(panel));
    state.bench.panel = known.or_else(|| panels.first().copied());
    state.bench.turn_to(state.stage);
    state.over.push(Over::Bench);
}

/// Whether a command can do anything at the bench.
pub fn can(state: &State, act: Act) -> bool {
    let Some(card) = state.bench.card() else { return matches!(act, Act::Close | Act::Quit | Act::Help) };
    match act {
        Act::Tick => bench::step(state, card).is_some(),
        Act::TakeBack => is_done(state, card),
        Act::Clock => bench::timed(state, card).is_some(),
        Act::Record => card.figures.iter().any(|figure| figure.reads().is_some()),
        Act::Down | Act::Up => bench::keys(state, card).len() > 1 || card.figures.len() > 1,
        Act::NextFigure => card.figures.len() > 1,
        Act::Panel => state.workbook.project().panels.len() > 1,
        Act::Undo => state.workbook.can_undo(),
        Act::Redo => state.workbook.can_redo(),
        Act::Save => state.workbook.is_dirty(),
        _ => true,
    }
}

fn is_done(state: &State, card: &Card) -> bool {
    bench::step(state, card).is_some_and(|of| matches!(of.standing, Standing::Done(_) | Standing::Stale(..)))
}

/// A command at the bench.
pub fn run(state: &mut State, act: Option<Act>) {
    let (Some(act), Some(card)) = (act, state.bench.card()) else {
        if matches!(act, Some(Act::Close)) {
            close(state);
        }
        return;
    };
    match act {
        Act::NextCard => state.bench.leaf(1),
        Act::PreviousCard => state.bench.leaf(stage::card::cards().len().max(1) - 1),
        Act::Down => along(state, card, 1),
        Act::Up => along(state, card, -1),
        Act::NextFigure => next_figure(state, card, 1),
        Act::Tick => tick(state, card),
        Act::TakeBack => take_back(state, card),
        Act::Clock => clock(state, card),
        Act::Record => record(state, card),
        Act::Panel => next_panel(state),
        Act::Explain => explain(state, card),
        Act::Close => close(state),
        Act::Write => super::write::open(state),
        Act::Undo | Act::Redo | Act::Save | Act::Units | Act::Find | Act::Help => page::run(state, act),
        _ => {}
    }
}

/// Goes to the card that shows a figure, if one does, leaving whatever lies over the bench; whether it did.
pub fn show(state: &mut State, address: &Address) -> bool {
    let (id, key) = stage::figure(&address.id).map_or((address.id.as_str(), ""), |(figure, key)| (figure.id, key));
    let has = |card: &&&'static Card| card.figures.iter().any(|figure| figure.id == id);
    let Some(card) = stage::card::cards().iter().find(has).copied() else { return false };
    state.over.truncate(1);
    state.bench.go_to(card);
    state.bench.figure = card.figures.iter().position(|figure| figure.id == id).unwrap_or(0);
    if let Some(row) = bench::keys(state, card).iter().position(|other| other == key) {
        state.bench.set_row(card, row);
    }
    true
}

/// Goes along the card's axis and stops at its ends; without an axis, from figure to figure.
fn along(state: &mut State, card: &'static Card, by: isize) {
    let count = bench::keys(state, card).len();
    if count < 2 {
        return next_figure(state, card, by);
    }
    let row = state.bench.row(card).min(count - 1);
    let to = row.saturating_add_signed(by).min(count - 1);
    if to == row {
        state.say(if by > 0 { "this is the last one" } else { "this is the first one" });
    }
    state.bench.figure = 0;
    state.bench.set_row(card, to);
}

fn next_figure(state: &mut State, card: &Card, by: isize) {
    let count = card.figures.len().max(1);
    let at = state.bench.figure.min(count - 1);
    state.bench.figure = (at + count).saturating_add_signed(by) % count;
}

fn place(card: &Card, id: &str) -> usize {
    card.figures.iter().position(|figure| figure.id == id).unwrap_or(0)
}

/// Asks for a reading of the figure in the large type, or of the next one that is measured.
fn record(state: &mut State, card: &Card) {
    let at = state.bench.figure.min(card.figures.len().saturating_sub(1));
    let mut onward = card.figures.iter().skip(at).chain(card.figures.iter().take(at));
    match onward.find_map(CardFigure::reads) {
        Some(spec) => form::open_reading_here(state, spec, ""),
        None => state.say("nothing on this card is read off an instrument"),
    }
}

/// After a reading: the next figure that is measured stands in the large type, after the last one what they come to.
pub fn go_on(state: &mut State, read: &str) {
    let Some(card) = state.bench.card() else { return };
    let reads = |figure: &CardFigure| figure.reads().is_some();
    let Some(at) = card.figures.iter().position(|figure| figure.reads().is_some_and(|spec| spec.id == read)) else {
        return;
    };
    let next = card.figures.iter().skip(at + 1).position(reads).map(|further| at + 1 + further);
    state.bench.figure = next.unwrap_or(card.figures.len() - 1);
}

fn next_panel(state: &mut State) {
    let panels = &state.workbook.project().panels;
    let now = state.bench.panel.and_then(|now| panels.iter().position(|panel| *panel == now));
    let next = now.map_or(0, |at| (at + 1) % panels.len().max(1));
    state.bench.panel = panels.get(next).copied();
    state.bench.figure = 0;
    match state.bench.panel {
        Some(panel) => state.say(format!("panel {panel}, where you left it")),
        None => state.say("the project has no panels yet"),
    }
}

fn explain(state: &mut State, card: &'static Card) {
    if let Some(figure) = card.figures.get(state.bench.figure).or_else(|| card.figures.first()) {
        let address = bench::address(state, card, figure);
        page::push_sheet(state, Subject::Figure(address));
    }
}

fn tick(state: &mut State, card: &Card) {
    let Some(of) = bench::step(state, card) else {
        return state.say("this card has no step to tick; a project without panels has none on panels");
    };
    let (address, step, standing) = (of.address.clone(), of.step, of.standing.clone());
    match standing {
        Standing::Done(_) => ask_why(state, &address),
        Standing::Waiting(_) | Standing::Held(_) => {
            page::push_sheet(state, Subject::Step(address));
            state.say("it cannot be ticked yet; Esc goes back to the card");
        }
        Standing::Open | Standing::Stale(..) if step.read_back => ask_who_read_back(state, &address, step),
        Standing::Open | Standing::Stale(..) => sign(state, &address, step, ""),
    }
}

/// Signs at once where nothing needs to be typed; asks for the rest.
fn sign(state: &mut State, address: &Address, step: &Step, read_back_by: &str) {
    let by = state.workbook.evaluation().drawn.inputs.get(&BUILDER).unwrap_or_default();
    if by.is_empty() || step.evidence != Evidence::Tick {
        return form::open_sign_off(state, address, read_back_by);
    }
    let sign_off = NewSignOff { by, read_back_by: read_back_by.to_owned(), evidence: String::new() };
    let label = format!("ticked: {}", detail::step_name(state, address));
    changing::change(state, label, |workbook| workbook.sign_off(address, &sign_off));
}

fn ask_who_read_back(state: &mut State, address: &Address, step: &'static Step) {
    let evaluation = state.workbook.evaluation();
    let fill = |text: &str| evaluation.fill(text, address.panel, state.system());
    let mut says = vec![format!("{}: a second person reads this back before it is ticked.", fill(step.title))];
    says.extend(step.cautions.iter().map(|caution| format!("caution: {}", fill(caution))));
    let by = evaluation.drawn.inputs.get(&BUILDER).unwrap_or_default();
    let others = state.workbook.project().records.people().into_iter().filter(|name| !name.eq_ignore_ascii_case(&by));
    let mut answers = vec![("not yet; go back".to_owned(), Answer::GoBack)];
    answers.extend(
        others.map(|name| (format!("{} has read it back", clean(&name)), Answer::ReadBack(address.clone(), name))),
    );
    answers.push(("someone else; type the name".to_owned(), Answer::ReadBack(address.clone(), String::new())));
    state.over.push(Over::Question(Question { title: "read back".to_owned(), says, answers, at: 0 }));
}

/// Goes on with who read it back; an empty name is still to be typed.
pub fn read_back(state: &mut State, address: &Address, name: &str) {
    let Some(step) = stage::step(&address.id) else { return };
    if name.is_empty() { form::open_sign_off(state, address, "") } else { sign(state, address, step, name) }
}

fn take_back(state: &mut State, card: &Card) {
    match bench::step(state, card).map(|of| of.address.clone()).filter(|_| is_done(state, card)) {
        Some(address) => ask_why(state, &address),
        None => state.say("nothing is ticked on this card that could be taken back"),
    }
}

/// Reasons that need no typing.
const REASONS: [&str; 3] = ["ticked by mistake", "ticked on the wrong panel", "it did not hold; it must be done again"];

fn ask_why(state: &mut State, address: &Address) {
    let says = vec![
        format!("{} is done.", detail::step_name(state, address)),
        "Taken back, the record stays in the file with the reason.".to_owned(),
    ];
    let mut answers = vec![("leave it as it is".to_owned(), Answer::GoBack)];
    answers.extend(
        REASONS.map(|reason| (format!("take it back: {reason}"), Answer::TakeBack(address.clone(), reason.to_owned()))),
    );
    answers.push(("take it back; type the reason".to_owned(), Answer::TakeBack(address.clone(), String::new())));
    state.over.push(Over::Question(Question { title: "take it back?".to_owned(), says, answers, at: 0 }));
}

/// Takes a sign-off back; an empty reason is still to be typed.
pub fn withdraw(state: &mut State, address: &Address, reason: &str) {
    if reason.is_empty() {
        return form::open_withdrawal(state, address);
    }
    let label = format!("taken back: {}", detail::step_name(state, address));
    changing::change(state, label, |workbook| workbook.withdraw_sign_off(address, reason));
}

/// Starts the clock, or stops the one that runs.
fn clock(state: &mut State, card: &'static Card) {
    let Some(figure) = bench::timed(state, card) else {
        return state.say("no figure of this card is a time that could be counted down");
    };
    if let Some(clock) = state.bench.clock.take_if(|clock| clock.id == figure.id) {
        let ran = clock.ran(state.now);
        state.say(format!("the clock is stopped after {ran}"));
        if let Some(spec) = figure.reads() {
            form::open_reading_here(state, spec, &ran);
        }
        return;
    }
    let address = bench::address(state, card, figure);
    let time = state.workbook.evaluation().value(&address);
    match time {
        Ok(value) => match value.quantity().and_then(|time| Duration::try_from_secs_f64(time.si).ok()) {
            Some(time) => {
                let ends = state.now.saturating_add(time);
                state.bench.clock = Some(Clock { id: figure.id, began: state.now, ends, is_told: false });
                state.bench.figure = place(card, figure.id);
                state.say("the clock runs; it goes on while you are at other cards and pages");
            }
            None => state.say("that figure is no time"),
        },
        Err(why) => {
            let why = words::why(&why);
            state.refuse(format!("there is no time to count: {why}"));
        }
    }
}

/// Tells once that a clock has run out.
pub fn tell_the_end(state: &mut State) {
    let now = state.now;
    let Some(clock) = state.bench.clock.as_mut().filter(|clock| !clock.is_told && clock.left(now).is_zero()) else {
        return;
    };
    clock.is_told = true;
    let label = words::label(clock.id);
    state.refuse(format!("time is over: {label}"));
    state.bench.rings = true;
}
