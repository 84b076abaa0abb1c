//! The bench cards: each job's figures as they are wanted at the bench, with its steps to tick and what can hurt.

use super::{Block, Card, CardLine, Section, Table, steps};
use crate::model::{Address, text::clean, text::without_repeats};
use crate::solve::Evaluation;
use crate::solve::rows;
use crate::stage;
use crate::stage::card::{self, CardFigure, cards};

/// What stands where there is no value; it is filled in with a pencil.
const BLANK: &str = "........";

/// All cards.
pub fn section(evaluation: &Evaluation) -> Section {
    Section::of("cards", "Bench cards", cards().iter().map(|card| Block::Card(card_of(evaluation, card))).collect())
}

fn card_of(evaluation: &Evaluation, card: &'static card::Card) -> Card {
    let runs = |figure: &&CardFigure| stage::figure(figure.id).is_some_and(|(figure, _)| figure.axis.is_some());
    let (along, single): (Vec<&CardFigure>, Vec<&CardFigure>) = card.figures.iter().partition(runs);
    let known = || card.steps.iter().filter_map(|id| stage::step(id));
    let states = evaluation.steps.iter().filter(|state| card.steps.contains(&state.step.id));
    let ticks = states.map(|state| {
        let title = evaluation.fill(state.step.title, state.address.panel, evaluation.system());
        format!("{}: {title} ({})", steps::line(state), state.address)
    });
    let all =
        std::iter::once(card.caution.to_owned()).chain(known().flat_map(|step| steps::cautions(evaluation, step)));
    let mut cautions = without_repeats(all);
    cautions.sort_by_key(|text| !text.starts_with("stop by "));
    Card {
        title: card.title.to_owned(),
        id: card.id.to_owned(),
        figures: single.into_iter().map(|figure| line(evaluation, figure)).collect(),
        rows: table(evaluation, card, &along),
        steps: ticks.collect(),
        cautions,
    }
}

/// What it is called at this job, or by itself.
fn label(figure: &CardFigure) -> String {
    if !figure.label.is_empty() {
        return figure.label.to_owned();
    }
    let declared = stage::figure(figure.id).map(|(declared, _)| declared.label);
    let declared = declared.or_else(|| stage::entry(figure.id).map(|spec| spec.label));
    declared.unwrap_or(figure.id).to_owned()
}

/// Tolerance and datum.
fn beside(evaluation: &Evaluation, figure: &CardFigure) -> String {
    let fill = |text: &str| evaluation.fill(text, None, evaluation.system());
    let datum = if figure.datum.is_empty() { String::new() } else { format!("from {}", fill(figure.datum)) };
    [fill(figure.tolerance), datum].into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(", ")
}

fn line(evaluation: &Evaluation, figure: &CardFigure) -> CardLine {
    let drawn = evaluation.row(&Address::drawn(figure.id));
    let rows = drawn.map_or_else(Vec::new, |row| rows::with_panels(evaluation, &row, false));
    let mut words = vec![beside(evaluation, figure)];
    let mut value = BLANK.to_owned();
    for row in &rows {
        match (&row.value, row.address.panel) {
            (Ok(found), None) => value = evaluation.value_text(&row.address, found, evaluation.system()),
            (Ok(found), Some(panel)) => {
                let text = evaluation.value_text(&row.address, found, evaluation.system());
                words.push(format!("panel {panel} as built {text}"));
            }
            (Err(why), panel) => {
                let panel = panel.map_or_else(String::new, |panel| format!("panel {panel}: "));
                words.push(format!("{panel}{}", clean(&why.to_string())));
            }
        }
    }
    words.retain(|part| !part.is_empty());
    CardLine { label: label(figure), value, beside: words.join("; ") }
}

/// What runs along the card's axis, row by row.
fn table(evaluation: &Evaluation, card: &card::Card, figures: &[&CardFigure]) -> Option<Table> {
    let axis = card.axis.filter(|_| !figures.is_empty())?;
    let keys = evaluation.keys(axis);
    let head = figures.iter().map(|figure| label(figure));
    let row = |key: &String| {
        let address = |figure: &CardFigure| Address::drawn(format!("{}.{key}", figure.id));
        let cells = figures.iter().map(|figure| {
            let value = evaluation.value(&address(figure));
            value.map_or_else(|_| BLANK.to_owned(), |_| evaluation.text(&address(figure), evaluation.system()))
        });
        let name = figures.first().map_or_else(String::new, |figure| rows::key(&address(figure).id));
        std::iter::once(name).chain(cells).collect()
    };
    let beside = figures.iter().map(|figure| (label(figure), beside(evaluation, figure)));
    let mut notes: Vec<String> =
        beside.filter(|(_, text)| !text.is_empty()).map(|(label, text)| format!("{label}: {text}")).collect();
    if keys.is_empty() {
        notes.insert(0, "This project has no such row yet.".to_owned());
    }
    let head = std::iter::once(axis.word().to_owned()).chain(head).collect();
    Some(Table { head, rows: keys.iter().map(row).collect(), notes })
}
