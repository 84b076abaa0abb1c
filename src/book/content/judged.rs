//! The checks of a stage with everything that is to be said about each verdict.

use super::{Block, Item, Tone};
use crate::model::{Stage, Verdict, text::clean};
use crate::solve::Evaluation;
use crate::solve::findings::{found_no_fault, overruling};
use crate::solve::judge::Judged;
use crate::solve::words::GAP;

/// How a verdict is to be read.
pub fn tone(judged: &Judged) -> Tone {
    match judged.verdict {
        Verdict::Stop => Tone::Stop,
        Verdict::Unknown => Tone::Unknown,
        Verdict::Caution => Tone::Caution,
        Verdict::Clear => Tone::Clear,
    }
}

/// The checks of a stage, the loudest first.
pub fn blocks(evaluation: &Evaluation, stage: Stage) -> Vec<Block> {
    let mut found: Vec<&Judged> = evaluation.verdicts.iter().filter(|judged| judged.check.stage() == stage).collect();
    found.sort_by_key(|judged| std::cmp::Reverse((judged.blocks(), judged.verdict, judged.check.severity)));
    found.into_iter().map(|judged| Block::Item(item(evaluation, judged))).collect()
}

fn item(evaluation: &Evaluation, judged: &Judged) -> Item {
    let check = judged.check;
    let fill = |text: &str| evaluation.fill_judged(text, judged, evaluation.system());
    let panel = match (judged.address.panel, judged.panel) {
        (Some(panel), _) => format!(", panel {panel}"),
        (None, Some(panel)) => format!(", decided by panel {panel}"),
        (None, None) => String::new(),
    };
    let title = format!("{}{panel}", check.label);
    let mut item = Item::new(tone(judged), judged.verdict.word(), title, judged.address.to_string());
    item.say("", judged.overruled.as_ref().map_or_else(String::new, overruling));
    match (&judged.judgement, judged.verdict) {
        (Err(why), _) => item.say("Not known", clean(&why.to_string())),
        (Ok(judgement), Verdict::Clear) => item.say("", found_no_fault(check, judgement, evaluation.system())),
        (Ok(_), _) => {
            item.say("", evaluation.says(judged, evaluation.system()));
            item.say("Numbers", numbers(&fill));
            item.say("To do", evaluation.remedy(judged, evaluation.system()));
        }
    }
    if judged.verdict != Verdict::Clear {
        item.say("Ask", fill(check.ask));
    }
    item.say("Cannot see", fill(check.blind_to));
    item.say("Limit from", check.source);
    item.say("From memory", check.recalled);
    item.say("From memory", check.recalled);
    item.say("At stake", check.severity.word());
    item.say("", if check.can_be_overruled { "" } else { "Nobody can overrule it." });
    item
}

/// Found, limit and margin, as far as they were numbers.
fn numbers(fill: &dyn Fn(&str) -> String) -> String {
    let named = ["found", "limit", "margin"].map(|name| (name, fill(&format!("{{{name}}}"))));
    let known = named.iter().filter(|(_, number)| number != GAP);
    known.map(|(name, number)| format!("{name} {number}")).collect::<Vec<_>>().join(", ")
}
