//! Checks and steps in words.

use crate::model::lines::Page;
use crate::model::{Verdict, text::clean};
use crate::solve::Evaluation;
use crate::solve::findings::{evidence, found_no_fault, out_of_order, overruling};
use crate::solve::judge::Judged;
use crate::solve::progress::{Standing, StepState};
use crate::solve::register::HEADING;
use crate::stage::safety::labels::read_back;
use crate::stage::safety::questions::LAST_WORD;
use crate::units::System;

/// Puts the hazard register: every hazard in one line, stops first, then what is unknown.
pub fn put_register(page: &mut Page, evaluation: &Evaluation) {
    page.subheading(HEADING);
    for state in evaluation.register() {
        let hazard = state.hazard;
        let ask = if hazard.is_licensed() { "; usually needs a licensed person or a permit: ask" } else { "" };
        let stake = hazard.severity().word();
        page.fact(2, &format!("{}: {} ({stake}{ask}): {}", state.verdict(), hazard.title, state.text()));
        for judged in state.judged.iter().filter(|judged| judged.verdict != Verdict::Clear) {
            page.fact(4, &format!("{}: {} ({})", judged.verdict, judged.check.label, judged.address));
        }
    }
}

/// Puts a check: the verdict first, then what it found, what to do, whom to ask.
pub fn put_check(page: &mut Page, evaluation: &Evaluation, judged: &Judged, system: System) {
    let check = judged.check;
    let panel = match (judged.address.panel, judged.panel) {
        (Some(panel), _) => format!(", panel {panel}"),
        (None, Some(panel)) => format!(", decided by panel {panel}"),
        (None, None) => String::new(),
    };
    page.fact(2, &format!("{}: {}{panel} ({})", judged.verdict, check.label, judged.address));
    if let Some(record) = &judged.overruled {
        page.fact(4, &overruling(record));
    }
    match (&judged.judgement, judged.verdict) {
        (Err(why), _) => page.fact(4, &format!("Not known: {}", clean(&why.to_string()))),
        (Ok(judgement), Verdict::Clear) => {
            page.fact(4, &found_no_fault(check, judgement, system));
            page.named(4, "Cannot see", check.blind_to);
        }
        (Ok(_), _) => {
            page.fact(4, &evaluation.says(judged, system));
            page.named(4, "To do", &evaluation.remedy(judged, system));
            page.named(4, "Ask", check.ask);
            page.named(4, "Source", check.source);
        }
    }
    page.named(4, "From memory", check.recalled);
    page.named(4, "At stake", check.severity.word());
}

/// Puts a step: how far it is, what to do, what it waits for.
pub fn put_step(page: &mut Page, evaluation: &Evaluation, state: &StepState, system: System) {
    let title = evaluation.fill(state.step.title, state.address.panel, system);
    let panel = state.address.panel.map_or_else(String::new, |panel| format!("panel {panel}: "));
    page.fact(2, &format!("{}: {panel}{title} ({})", state.standing.word(), state.address));
    for record in &state.out_of_order {
        page.fact(4, &format!("Out of order {}", out_of_order(record)));
    }
    match &state.standing {
        Standing::Done(sign_off) => {
            page.fact(4, &format!("Signed {} by {}", sign_off.date, clean(&sign_off.by)));
            page.named(4, "Evidence", &clean(&sign_off.evidence));
        }
        Standing::Stale(sign_off, changed) => {
            page.fact(4, &format!("Signed {} by {}, but since then:", sign_off.date, clean(&sign_off.by)));
            for change in changed {
                let is = change.is.as_deref().map_or_else(|| "nothing".to_owned(), clean);
                page.fact(4, &format!("{} was {}, is {is}", clean(&change.id), clean(&change.was)));
            }
        }
        Standing::Waiting(first) => {
            let names: Vec<String> = first.iter().map(ToString::to_string).collect();
            page.named(4, "First", &names.join(", "));
        }
        Standing::Held(checks) => page.named(4, "Held by a stop", &checks.join(", ")),
        Standing::Open => {}
    }
}

/// Puts all there is to say about how a step is done.
pub fn put_step_details(page: &mut Page, evaluation: &Evaluation, state: &StepState, system: System) {
    let step = state.step;
    page.named(2, "How", &evaluation.fill(step.detail, state.address.panel, system));
    page.named(2, "Done when there is", &evidence(step.evidence));
    for caution in step.cautions {
        page.named(2, "Caution", caution);
    }
    if !step.cautions.is_empty() {
        page.fact(2, LAST_WORD);
    }
    if step.read_back {
        page.fact(2, "A second person reads it back before it is done.");
        for line in read_back(step.id).map_or(&[][..], |text| text.lines) {
            page.named(4, "Reads", &evaluation.fill(line, state.address.panel, system));
        }
    }
    if step.licensed {
        page.fact(2, "Usually the work of a licensed person or under a permit: ask locally.");
    }
    let wants: Vec<&str> = step.conditions.iter().map(|condition| condition.words()).collect();
    page.named(2, "Wants", &wants.join(", "));
    page.named(2, "After", &step.after.join(", "));
    page.named(2, "Relies on", &step.relies.join(", "));
    page.named(2, "Held by", &step.held_by.join(", "));
}
