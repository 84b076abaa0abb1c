//! A stage: what it answers, its pictures, its entries and figures, its checks, its checklist.

use super::{Block, FigureLine, Picture, Section, Table, Tone, judged, steps};
use crate::book::Source;
use crate::model::{Address, Stage, text::clean};
use crate::solve::rows::{self, with_panels};
use crate::solve::words::{GAP, fill_with};
use crate::solve::{Evaluation, Row};
use crate::stage::{self, Axis, Figure, method, picture, summary};

/// Most columns of one table beside the names of its rows.
const COLUMNS: usize = 4;

/// The part of a stage.
pub fn section(source: Source<'_>, stage: Stage) -> Section {
    let evaluation = source.evaluation;
    let mut blocks = Vec::new();
    for answer in summary::of(stage) {
        blocks.push(Block::Par(Tone::Plain, format!("{}: {}", answer.asks, fill(evaluation, answer.text))));
    }
    blocks.extend(picture::of(stage).iter().map(|picture| drawn(evaluation, picture)));
    blocks.push(Block::Heading("Entries".to_owned()));
    blocks.extend(entries(evaluation, Some(stage)));
    blocks.push(Block::Heading("Figures".to_owned()));
    blocks.extend(figures(evaluation, stage));
    blocks.push(Block::Heading("Checks".to_owned()));
    blocks.extend(judged::blocks(evaluation, stage));
    blocks.push(Block::Heading("Checklist".to_owned()));
    blocks.extend(steps::blocks(evaluation, &source.project.records, stage));
    Section::of(stage.word(), &capital(stage.word()), blocks)
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

fn drawn(evaluation: &Evaluation, picture: &picture::Picture) -> Block {
    Block::Picture(Box::new(Picture {
        title: picture.title.to_owned(),
        drawing: (picture.draw)(&evaluation.drawn).map_err(|why| clean(&why.to_string())),
        caption: picture.caption.iter().map(|text| fill(evaluation, text)).collect(),
    }))
}

/// Fills a template; a figure with rows stands for its first and its last row.
fn fill(evaluation: &Evaluation, template: &str) -> String {
    fill_with(template, |id| {
        let axis = stage::figure(id).filter(|(_, key)| key.is_empty()).and_then(|(figure, _)| figure.axis);
        let Some(axis) = axis else { return Some(evaluation.text(&Address::drawn(id), evaluation.system())) };
        let keys = evaluation.keys(axis);
        let row = |key: &String| {
            let id = format!("{id}.{key}");
            let value = evaluation.text(&Address::drawn(id.clone()), evaluation.system());
            format!("{value} ({})", rows::key(&id))
        };
        Some(keys.first().zip(keys.last()).map_or_else(|| GAP.to_owned(), |(a, b)| format!("{} to {}", row(a), row(b))))
    })
}

/// The entries of a stage, or of the whole project: what has a value in a table, what has none named below.
pub fn entries(evaluation: &Evaluation, stage: Option<Stage>) -> Vec<Block> {
    let specs = stage::entries().iter().filter(|spec| Stage::of_id(spec.id) == stage);
    let ids = specs.flat_map(|spec| {
        if !spec.id.contains('*') {
            return vec![spec.id.to_owned()];
        }
        evaluation.drawn.inputs.keys(spec).iter().map(|key| spec.id.replacen('*', key, 1)).collect()
    });
    let found =
        ids.filter_map(|id| evaluation.row(&Address::drawn(id))).flat_map(|row| with_panels(evaluation, &row, false));
    let (known, open): (Vec<Row>, Vec<Row>) = found.partition(|row| row.value.is_ok());
    let mut blocks = vec![Block::Figures(known.iter().map(|row| figure_line(evaluation, row)).collect())];
    let names: Vec<String> =
        open.iter().map(|row| format!("{} ({})", rows::label(row), clean(&row.address.to_string()))).collect();
    if !names.is_empty() {
        blocks.push(Block::Par(Tone::Quiet, format!("Without a value: {}.", names.join("; "))));
    }
    blocks
}

fn figure_line(evaluation: &Evaluation, row: &Row) -> FigureLine {
    let figure = stage::figure(&row.address.id).map(|(figure, _)| figure);
    FigureLine {
        label: rows::label(row),
        id: clean(&row.address.to_string()),
        value: rows::value(evaluation, row, evaluation.system()),
        known: row.value.is_ok(),
        by: figure.map_or_else(String::new, by),
    }
}

/// The method's title and the formula.
fn by(figure: &'static Figure) -> String {
    let formula = figure.formula.replace(['{', '}'], "");
    let method = method::method(figure.method).map_or(figure.method, |method| method.title);
    [method, &formula].into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(": ")
}

/// The figures of a stage: single ones first, then a table for each thing that they run over.
fn figures(evaluation: &Evaluation, stage: Stage) -> Vec<Block> {
    let mine = || stage::figures().iter().copied().filter(|figure| figure.stage() == stage);
    let mut lines = Vec::new();
    let mut axes: Vec<(Axis, Vec<&'static Figure>)> = Vec::new();
    for figure in mine() {
        match figure.axis {
            None => lines.extend(scalar(evaluation, figure)),
            Some(axis) => match axes.iter_mut().find(|(known, _)| *known == axis) {
                Some((_, figures)) => figures.push(figure),
                None => axes.push((axis, vec![figure])),
            },
        }
    }
    let mut blocks = vec![Block::Figures(lines)];
    for (axis, figures) in axes {
        let keys = evaluation.keys(axis);
        blocks.extend(figures.chunks(COLUMNS).map(|chunk| table(evaluation, axis, chunk, &keys)));
        blocks.extend(as_built(evaluation, &figures, &keys));
    }
    blocks
}

fn scalar(evaluation: &Evaluation, figure: &'static Figure) -> Vec<FigureLine> {
    let rows = evaluation.row(&Address::drawn(figure.id)).map(|row| with_panels(evaluation, &row, false));
    rows.unwrap_or_default().iter().map(|row| figure_line(evaluation, row)).collect()
}

fn table(evaluation: &Evaluation, axis: Axis, figures: &[&'static Figure], keys: &[String]) -> Block {
    let row = |key: &String| {
        let id = |figure: &Figure| format!("{}.{key}", figure.id);
        let cells = figures.iter().filter_map(|figure| evaluation.row(&Address::drawn(id(figure))));
        let cells = cells.map(|row| rows::value(evaluation, &row, evaluation.system()));
        let name = figures.first().map_or_else(String::new, |figure| rows::key(&id(figure)));
        std::iter::once(name).chain(cells).collect()
    };
    let mut notes: Vec<String> =
        figures.iter().map(|figure| format!("{} ({}): {}", figure.label, figure.id, by(figure))).collect();
    if keys.is_empty() {
        notes.insert(0, "This project has no such row yet.".to_owned());
    }
    let heads = figures.iter().map(|figure| figure.label.to_owned());
    Block::Table(Table {
        head: std::iter::once(capital(axis.word())).chain(heads).collect(),
        rows: keys.iter().map(row).collect(),
        notes,
    })
}

/// The rows of panels as built that differ from the design.
fn as_built(evaluation: &Evaluation, figures: &[&'static Figure], keys: &[String]) -> Option<Block> {
    let ids = figures.iter().flat_map(|figure| keys.iter().map(|key| format!("{}.{key}", figure.id)));
    let rows = ids.filter_map(|id| evaluation.row(&Address::drawn(id)));
    let differing = rows.flat_map(|row| with_panels(evaluation, &row, false).into_iter().skip(1));
    let lines: Vec<FigureLine> = differing.map(|row| figure_line(evaluation, &row)).collect();
    (!lines.is_empty()).then_some(Block::Figures(lines))
}
