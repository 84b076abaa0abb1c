//! The first pages: what project this is, how far it is, and everything that asks for care before anything else.

use super::judged::tone;
use super::{Block, Item, Section, Table, Tone, stages};
use crate::book::Source;
use crate::model::{Address, Verdict, text::clean};
use crate::solve::findings::{Counts, overruling};
use crate::solve::judge::Judged;
use crate::solve::progress::Standing;
use crate::stage::general;

/// The project's name, or its file where it has none.
pub fn title(source: Source<'_>) -> String {
    let name = Address::drawn(general::NAME.spec.id);
    match source.evaluation.value(&name) {
        Ok(_) => source.evaluation.text(&name, source.evaluation.system()),
        Err(_) => clean(source.file),
    }
}

/// What project this is and how far it is.
pub fn state(source: Source<'_>) -> Section {
    let evaluation = source.evaluation;
    let builder = evaluation.text(&Address::drawn(general::BUILDER.spec.id), evaluation.system());
    let count = |word: &str| evaluation.steps.iter().filter(|state| state.standing.word() == word).count();
    let stale = evaluation.steps.iter().filter(|state| matches!(state.standing, Standing::Stale(..))).count();
    let panels: Vec<String> = source.project.panels.iter().map(ToString::to_string).collect();
    let panels = if panels.is_empty() { "none yet".to_owned() } else { panels.join(", ") };
    let facts = [
        format!("File: {}. Printed {}.", clean(source.file), source.today),
        format!("Builder: {builder}. Panels: {panels}."),
        format!("Checks: {}.", Counts::of(evaluation).text()),
        format!("Steps: {} of {} done, {stale} stale, {} held.", count("done"), evaluation.steps.len(), count("held")),
    ];
    let mut blocks: Vec<Block> = facts.into_iter().map(|fact| Block::Par(Tone::Plain, fact)).collect();
    blocks.push(Block::Par(
        Tone::Quiet,
        "This is a copy of one day. The file goes on; when a figure matters, look whether it still stands there so."
            .to_owned(),
    ));
    blocks.push(Block::Heading("Entries of the whole project".to_owned()));
    blocks.extend(stages::entries(evaluation, None));
    Section::of("state", "The project", blocks)
}

/// A heading, what stands below it if there is nothing, and which verdicts belong there.
type Part = (&'static str, &'static str, fn(&Judged) -> bool);

/// Everything that is not clear, the loudest first, before any figure.
pub fn cautions(source: Source<'_>) -> Section {
    let mut blocks = Vec::new();
    let problems = &source.project.problems;
    if !problems.is_empty() {
        blocks.push(Block::Heading("The file has faults".to_owned()));
        let fault = |problem: &crate::project::Problem| clean(&format!("line {}: {}", problem.place, problem.fault));
        blocks.extend(problems.iter().map(|problem| Block::Par(Tone::Stop, fault(problem))));
    }
    let parts: [Part; 3] = [
        ("Work stops here", "No check says stop.", Judged::blocks),
        ("Stops that were overruled in writing", "No stop was overruled.", |judged| {
            judged.verdict == Verdict::Stop && !judged.blocks()
        }),
        ("Work goes on with care", "No check asks for care.", |judged| judged.verdict == Verdict::Caution),
    ];
    for (heading, none, is_meant) in parts {
        blocks.push(Block::Heading(heading.to_owned()));
        let mut found: Vec<&Judged> = source.evaluation.verdicts.iter().filter(|judged| is_meant(judged)).collect();
        found.sort_by_key(|judged| std::cmp::Reverse(judged.check.severity));
        if found.is_empty() {
            blocks.push(Block::Par(Tone::Quiet, none.to_owned()));
        }
        blocks.extend(found.into_iter().map(|judged| Block::Item(short(source, judged))));
    }
    blocks.push(Block::Sheet(source.sheets.register.clone()));
    blocks.push(Block::Heading("Not known, and so not judged".to_owned()));
    blocks.push(Block::Table(unknown(source)));
    Section::of("cautions", "Cautions", blocks)
}

/// What could not be judged, what can hurt most first; a check that lacks the same on several panels stands once.
fn unknown(source: Source<'_>) -> Table {
    let mut found: Vec<&Judged> =
        source.evaluation.verdicts.iter().filter(|judged| judged.verdict == Verdict::Unknown).collect();
    found.sort_by_key(|judged| std::cmp::Reverse(judged.check.severity));
    let mut rows: Vec<Vec<String>> = Vec::new();
    for judged in found {
        let check = judged.check;
        let why = judged.judgement.as_ref().err().map_or_else(String::new, |why| clean(&why.to_string()));
        let row = vec![format!("{} ({})", check.label, check.id), why, check.severity.word().to_owned()];
        if !rows.contains(&row) {
            rows.push(row);
        }
    }
    let notes = if rows.is_empty() { vec!["No check lacks anything.".to_owned()] } else { Vec::new() };
    Table { head: ["check", "why it is unknown", "at stake"].map(str::to_owned).to_vec(), rows, notes }
}

/// A check in short; its stage says everything.
fn short(source: Source<'_>, judged: &Judged) -> Item {
    let evaluation = source.evaluation;
    let mut item = Item::new(tone(judged), judged.verdict.word(), judged.check.label, judged.address.to_string());
    item.say("", evaluation.says(judged, evaluation.system()));
    item.say("To do", evaluation.remedy(judged, evaluation.system()));
    item.say("At stake", judged.check.severity.word());
    item.say("", judged.overruled.as_ref().map_or_else(String::new, overruling));
    item
}
