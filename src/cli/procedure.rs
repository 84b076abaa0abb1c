//! `procedure`: what is done in order, with the project's numbers; `trouble`: one measurement at a time.

use std::path::Path;

use super::failure::{Answer, Failure};
use super::opening;
use crate::model::lines::Page;
use crate::model::text::clean;
use crate::solve::Evaluation;
use crate::solve::progress::is_among;
use crate::stage;
use crate::stage::commissioning::trouble::{SYMPTOMS, symptom};
use crate::stage::procedure::{Line, Procedure, procedure as named, procedures};
use crate::stage::safety::questions::LAST_WORD;
use crate::units;

/// Prints one procedure, or which there are.
pub fn procedure(file: &Path, name: Option<&str>) -> Result<Answer, Failure> {
    let (workbook, notices) = opening::project(file)?;
    let Some(name) = name else {
        let mut page = Page::default();
        page.fact(0, "Procedures: sunharp procedure FILE NAME");
        for procedure in procedures() {
            page.fact(2, &format!("{}: {}; {}", procedure.name, procedure.title, procedure.when));
        }
        return Ok(Answer { notices, text: page.text(), code: 0 });
    };
    let names = procedures().iter().map(|procedure| procedure.name);
    let found = named(name).ok_or_else(|| unknown("procedure", name, names))?;
    let workbook = opening::studied(workbook);
    Ok(Answer { notices, text: page_of(workbook.evaluation(), found).text(), code: 0 })
}

/// A procedure as a page.
pub fn page_of(evaluation: &Evaluation, procedure: &Procedure) -> Page {
    let mut page = Page::default();
    page.heading(procedure.title);
    page.fact(0, &format!("When: {}.", procedure.when));
    for caution in procedure.cautions {
        page.named(0, "Caution", caution);
    }
    page.fact(0, LAST_WORD);
    page.space();
    let said = |id: &str| evaluation.drawn.inputs.typed(id);
    let applies = |line: &&Line| !matches!(line, Line::DoIn(only, _) if !is_among(only, said(only.entry)));
    for (number, line) in procedure.lines.iter().filter(applies).enumerate() {
        let text = match line {
            Line::Do(text) | Line::DoIn(_, text) => evaluation.fill(text, None, evaluation.system()),
            Line::Check(words, id) => {
                let word = evaluation.verdict(id).map_or("unknown", |judged| judged.verdict.word());
                let overruled = evaluation.verdict(id).is_some_and(|judged| judged.overruled.is_some());
                let note = if overruled { ", overruled in writing" } else { "" };
                format!("{word}{note}: {words} ({id})")
            }
            Line::Step(words, id) => {
                let reasons = evaluation.steps.iter().filter(|state| state.address.id == *id);
                let note =
                    if reasons.flat_map(|state| &state.out_of_order).next().is_some() { ", out of order" } else { "" };
                format!("{}{note}: {words} ({id})", standing(evaluation, id))
            }
        };
        page.fact(2, &format!("{}. {text}", number + 1));
    }
    page
}

/// How far a step is; of one that is done for each panel, the least.
fn standing(evaluation: &Evaluation, id: &str) -> &'static str {
    let mut states = evaluation.steps.iter().filter(|state| state.address.id == id).peekable();
    if states.peek().is_none() && stage::step(id).is_some_and(|step| !step.per_panel) {
        return "does not apply";
    }
    let open = states.map(|state| state.standing.word()).find(|word| *word != "done");
    open.unwrap_or("done")
}

/// Lists the symptoms, or asks for one measurement. `answers` tell what the ones before showed.
pub fn trouble(file: &Path, name: Option<&str>, answers: &[bool]) -> Result<Answer, Failure> {
    let (workbook, notices) = opening::project(file)?;
    let Some(name) = name else {
        let mut page = Page::default();
        page.fact(0, "What is seen? sunharp trouble FILE NAME");
        for symptom in SYMPTOMS {
            page.fact(2, &format!("{}: {}", symptom.name, symptom.seen));
        }
        return Ok(Answer { notices, text: page.text(), code: 0 });
    };
    let found = symptom(name).ok_or_else(|| unknown("symptom", name, SYMPTOMS.iter().map(|symptom| symptom.name)))?;
    let workbook = opening::studied(workbook);
    let evaluation = workbook.evaluation();
    let fill = |text: &str| evaluation.fill(text, None, evaluation.system());
    let mut page = Page::default();
    page.fact(0, &format!("Seen: {}", found.seen));
    let shown = clean(&file.display().to_string());
    let said: String = answers.iter().map(|yes| if *yes { " yes" } else { " no" }).collect();
    match answers.iter().position(|as_expected| !as_expected) {
        Some(at) if at < found.looks.len() => {
            let look = &found.looks[at];
            page.fact(0, &format!("{} is not as it should be ({}).", look.measure, fill(look.expect)));
            page.named(0, "Likely", &fill(look.otherwise));
        }
        _ => match found.looks.get(answers.len()) {
            Some(look) => {
                page.named(0, "Measure", &fill(look.measure));
                page.named(0, "This project should show", &fill(look.expect));
                page.fact(0, &format!("If it does: sunharp trouble {shown} {name}{said} yes"));
                page.fact(0, &format!("If not: sunharp trouble {shown} {name}{said} no"));
            }
            None => page.named(0, "All as it should be. Left", &fill(found.left)),
        },
    }
    page.fact(0, LAST_WORD);
    Ok(Answer { notices, text: page.text(), code: 0 })
}

fn unknown(sort: &str, typed: &str, names: impl Iterator<Item = &'static str>) -> Failure {
    let near = units::nearest(typed, names);
    let hint = near.map_or_else(String::new, |near| format!("; did you mean '{near}'?"));
    Failure::usage(format!("no {sort} is called '{}'{hint}", clean(typed)))
}
