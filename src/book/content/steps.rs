//! The checklists: each step with its cautions, how it is done, and who signed for it on which panel.

use super::{Block, Item, Tone};
use crate::model::{PanelLetter, Records, SignOff, Stage, Step, text::clean};
use crate::solve::Evaluation;
use crate::solve::findings::{evidence, out_of_order, overruling};
use crate::solve::progress::{Standing, StepState};
use crate::stage::safety::labels::read_back;
use crate::stage::{self};

/// The steps of a stage; one that is done on each panel stands once, with the state of every panel.
pub fn blocks(evaluation: &Evaluation, records: &Records, stage: Stage) -> Vec<Block> {
    let steps = stage::steps().iter().filter(|step| step.stage == stage);
    steps.map(|step| Block::Item(item(evaluation, records, step))).collect()
}

fn item(evaluation: &Evaluation, records: &Records, step: &'static Step) -> Item {
    let fill = |text: &str| evaluation.fill(text, None, evaluation.system());
    let states: Vec<&StepState> = evaluation.steps.iter().filter(|state| state.step.id == step.id).collect();
    let is_held = states.iter().any(|state| matches!(state.standing, Standing::Held(_)));
    let tone = match (is_held, step.cautions.is_empty()) {
        (true, _) => Tone::Stop,
        (false, false) => Tone::Caution,
        (false, true) => Tone::Plain,
    };
    let mut item = Item::new(tone, "", fill(step.title), step.id);
    for state in &states {
        item.say("", line(state));
    }
    if states.is_empty() && !step.per_panel {
        item.say("", "Does not apply to what was chosen.");
    } else if states.is_empty() {
        item.say("", "[ ] once on each panel; the project has no panel yet");
    }
    for record in states.iter().flat_map(|state| &state.out_of_order) {
        item.say("Out of order", out_of_order(record));
    }
    for text in cautions(evaluation, step) {
        item.say("Caution", text);
    }
    item.say(
        "",
        if step.licensed { "Usually the work of a licensed person or under a permit: ask locally." } else { "" },
    );
    item.say("How", fill(step.detail));
    for (panel, text) in on_panels(evaluation, step) {
        item.say("How, with its own numbers", format!("panel {panel}: {text}"));
    }
    let wants: Vec<&str> = step.conditions.iter().map(|condition| condition.words()).collect();
    item.say("Wants", wants.join(", "));
    item.say("Done when there is", evidence(step.evidence));
    if step.read_back {
        item.say("", "A second person reads it back before it is done.");
        for text in read_back(step.id).map_or(&[][..], |text| text.lines) {
            item.say("Reads", fill(text));
        }
    }
    let seconds: f64 = states.iter().map(|state| records.time_of(&state.address)).sum();
    if seconds > 0.0 {
        item.say("Took so far", format!("{:.1} h", seconds / 3600.0));
    }
    item
}

/// A box, ticked or to be ticked, with who, when and by what evidence; or what stands before it.
pub fn line(state: &StepState) -> String {
    let where_to = state.address.panel.map_or_else(String::new, |panel| format!("panel {panel} "));
    let word = state.standing.word();
    match &state.standing {
        Standing::Done(record) => format!("[x] {where_to}{word} {}", signed(record)),
        Standing::Stale(record, changed) => {
            let changes: Vec<String> = changed
                .iter()
                .map(|change| {
                    let is = change.is.as_deref().map_or_else(|| "nothing".to_owned(), clean);
                    format!("{} was {}, is {is}", clean(&change.id), clean(&change.was))
                })
                .collect();
            format!("[~] {where_to}{word}: signed {}; since then {}", signed(record), changes.join("; "))
        }
        Standing::Open => format!("[ ] {where_to}{word}"),
        Standing::Waiting(first) => {
            let names: Vec<String> = first.iter().map(ToString::to_string).collect();
            format!("[ ] {where_to}{word} for {}", names.join(", "))
        }
        Standing::Held(checks) => format!("[!] {where_to}{word} by a stop: {}", checks.join(", ")),
    }
}

fn signed(record: &SignOff) -> String {
    let second = match record.read_back_by.as_str() {
        "" => String::new(),
        name => format!(", read back by {}", clean(name)),
    };
    let shown = match record.evidence.as_str() {
        "" => String::new(),
        words => format!(": {}", clean(words)),
    };
    format!("{} by {}{second}{shown}", record.date, clean(&record.by))
}

/// What can hurt at a step: stops that hold it, stops that were overruled, its own cautions.
pub fn cautions(evaluation: &Evaluation, step: &Step) -> Vec<String> {
    let holding = evaluation.verdicts.iter().filter(|judged| step.held_by.contains(&judged.check.id));
    let stops = holding.filter(|judged| judged.blocks() || judged.overruled.is_some()).map(|judged| {
        let says = evaluation.says(judged, evaluation.system());
        let overruled = judged.overruled.as_ref().map_or_else(String::new, |record| format!(" {}", overruling(record)));
        format!("stop by {}: {says}{overruled}", judged.address)
    });
    let own = step.cautions.iter().map(|text| evaluation.fill(text, None, evaluation.system()));
    stops.chain(own).collect()
}

/// How it is done on panels whose own numbers read otherwise than the design's.
fn on_panels(evaluation: &Evaluation, step: &Step) -> Vec<(PanelLetter, String)> {
    let drawn = evaluation.fill(step.detail, None, evaluation.system());
    let panels = evaluation.built.keys().filter(|_| step.per_panel);
    panels
        .map(|panel| (*panel, evaluation.fill(step.detail, Some(*panel), evaluation.system())))
        .filter(|(_, text)| *text != drawn)
        .collect()
}
