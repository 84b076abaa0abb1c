//! The declared tables: entries, figures, checks, steps and methods name each other without a gap.

mod words;

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::Arc;

use jiff::civil::date;
use sunharp::model::{Evidence, Role, Scope, Shape, Stage, Step, Value};
use sunharp::project::store::RealDisk;
use sunharp::solve::words::ids_in;
use sunharp::stage::{self, Check, Figure, Group, method};
use sunharp::workbook::Workbook;

const SAMPLE: &str = include_str!("../sample-projects/garden-washroom.toml");

/// What a check's text may name besides entries and figures: the numbers of its judgement.
const OF_JUDGEMENT: [&str; 4] = ["found", "limit", "margin", "part"];

/// Fails with the whole list, one complaint a line.
pub fn none(complaints: &[String]) {
    assert!(complaints.is_empty(), "\n{}\n", complaints.join("\n"));
}

fn sample() -> Workbook {
    let mut workbook = Workbook::unsaved(Arc::new(RealDisk), Path::new("sample.toml"), SAMPLE, date(2026, 6, 1));
    workbook.run_studies();
    workbook
}

/// Whether an id names an entry or a computed figure that has one value.
fn is_value(id: &str) -> bool {
    match stage::figure(id) {
        Some((figure, key)) => figure.axis.is_some() != key.is_empty(),
        None => stage::entry(id).is_some(),
    }
}

fn is_declared(id: &str) -> bool {
    stage::figure(id).is_some() || stage::entry(id).is_some()
}

fn repeated<'a>(ids: impl Iterator<Item = &'a str>) -> Vec<String> {
    let mut seen = BTreeSet::new();
    ids.filter(|id| !seen.insert(*id)).map(|id| format!("{id} is declared twice")).collect()
}

#[test]
fn no_id_is_declared_twice() {
    let values = stage::entries().iter().map(|spec| spec.id).chain(stage::figures().iter().map(|figure| figure.id));
    let deeds = stage::checks().iter().map(|check| check.id).chain(stage::steps().iter().map(|step| step.id));
    let methods = method::methods().map(|method| method.id);
    none(&[repeated(values), repeated(deeds), repeated(methods)].concat());
}

/// Whether a name is small letters and digits, parted by single separators.
fn is_name(name: &str, separator: char) -> bool {
    name.split(separator)
        .all(|word| !word.is_empty() && word.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit()))
}

#[test]
fn ids_follow_their_grammar() {
    let mut complaints = Vec::new();
    for spec in stage::entries() {
        let (first, rest) = spec.id.split_once('.').unwrap();
        let known = matches!(first, "project" | "materials") || Stage::of_id(spec.id).is_some();
        if !known || !rest.split('.').all(|part| part == "*" || is_name(part, '_')) {
            complaints.push(format!("entry {}", spec.id));
        }
    }
    for figure in stage::figures() {
        let (_, rest) = figure.id.split_once('.').unwrap();
        if Stage::of_id(figure.id).is_none() || !is_name(rest, '_') {
            complaints.push(format!("figure {}", figure.id));
        }
    }
    let deeds = stage::checks().iter().map(|check| check.id).chain(stage::steps().iter().map(|step| step.id));
    for id in deeds {
        let (_, rest) = id.split_once('.').unwrap();
        if Stage::of_id(id).is_none() || !is_name(rest, '-') {
            complaints.push(format!("check or step {id}"));
        }
    }
    for method in method::methods().filter(|method| !is_name(method.id, '-')) {
        complaints.push(format!("method {}", method.id));
    }
    none(&complaints);
}

#[test]
fn every_entry_says_what_it_is_and_why_it_matters() {
    let silent = stage::entries().iter().filter(|spec| spec.label.trim().is_empty() || spec.why.trim().is_empty());
    none(&silent.map(|spec| format!("{} has no label or no why", spec.id)).collect::<Vec<_>>());
}

#[test]
fn bounds_and_assumed_values_of_entries_fit_each_other() {
    let mut complaints = Vec::new();
    for spec in stage::entries() {
        if let Shape::Quantity { hard, usual, .. } = spec.shape {
            let (low, high) = (usual.0.max(f64::MIN), usual.1.min(f64::MAX));
            let usual_is_possible =
                (usual.0.is_infinite() || low >= hard.0) && (usual.1.is_infinite() || high <= hard.1);
            if hard.0 >= hard.1 || low >= high || !usual_is_possible {
                complaints.push(format!("{}: usual {usual:?} is not within possible {hard:?}", spec.id));
            }
        }
        let Some(typed) = spec.default else { continue };
        match spec.read(typed) {
            Err(error) => complaints.push(format!("{}: assumed '{typed}': {error}", spec.id)),
            Ok(value) => {
                if let Some(odd) = spec.odd(&value, sunharp::units::System::Si) {
                    complaints.push(format!("{}: assumed '{typed}' is {odd}", spec.id));
                }
            }
        }
        if spec.role == Role::Measure {
            complaints.push(format!("{} can only be measured, but a value is assumed", spec.id));
        }
    }
    none(&complaints);
}

#[test]
fn words_of_choices_can_be_typed_and_differ() {
    let mut complaints = Vec::new();
    for spec in stage::entries() {
        let Shape::Choice(words) = spec.shape else { continue };
        let words = words();
        complaints
            .extend(repeated(words.iter().map(|(word, _)| *word)).iter().map(|text| format!("{}: {text}", spec.id)));
        for (word, _) in &words {
            if spec.read(word) != Ok(Value::Choice((*word).to_owned())) {
                complaints.push(format!("{}: '{word}' does not read as itself", spec.id));
            }
        }
        if words.len() < 2 {
            complaints.push(format!("{} leaves no choice", spec.id));
        }
    }
    none(&complaints);
}

#[test]
fn every_figure_has_a_name_a_formula_and_a_method_and_every_method_a_figure() {
    let mut complaints = Vec::new();
    let mut used = BTreeSet::new();
    for figure in stage::figures() {
        used.insert(figure.method);
        if figure.label.trim().is_empty() || figure.formula.trim().is_empty() {
            complaints.push(format!("{} has no label or no formula", figure.id));
        }
        if method::method(figure.method).is_none() {
            complaints.push(format!("{}: no method is called '{}'", figure.id, figure.method));
        }
    }
    for method in method::methods() {
        if !used.contains(method.id) {
            complaints.push(format!("method {} computes no figure", method.id));
        }
        for (field, text) in [("title", method.title), ("what", method.what), ("source", method.source)] {
            if text.trim().is_empty() {
                complaints.push(format!("method {} has no {field}", method.id));
            }
        }
    }
    none(&complaints);
}

#[test]
fn every_symbol_of_a_formula_is_explained_and_every_term_is_used() {
    let mut complaints = Vec::new();
    for figure in stage::figures() {
        let symbols = ids_in(figure.formula);
        for symbol in symbols.iter().filter(|symbol| !figure.terms.iter().any(|(term, _)| term == symbol)) {
            complaints.push(format!("{}: {{{symbol}}} is not among its terms", figure.id));
        }
        for (symbol, id) in figure.terms {
            if !symbols.iter().any(|known| known == symbol) {
                complaints.push(format!("{}: the term {symbol} is not in its formula", figure.id));
            }
            if !is_value(id) {
                complaints.push(format!("{}: the term {symbol} is '{id}', which has no value", figure.id));
            }
        }
    }
    none(&complaints);
}

fn undeclared(owner: &str, text: &str, also: &[&str]) -> Vec<String> {
    ids_in(text)
        .iter()
        .filter(|id| !also.contains(&id.as_str()) && !is_value(id))
        .map(|id| format!("{owner}: {{{id}}} has no value"))
        .collect()
}

fn complaints_about_check(check: &Check) -> Vec<String> {
    let mut complaints = Vec::new();
    let texts = [
        ("label", check.label),
        ("says", check.says),
        ("remedy", check.remedy),
        ("blind_to", check.blind_to),
        ("source", check.source),
    ];
    for (field, text) in texts {
        if text.trim().is_empty() {
            complaints.push(format!("{} has no {field}", check.id));
        }
        complaints.extend(undeclared(check.id, text, &OF_JUDGEMENT));
    }
    complaints.extend(undeclared(check.id, check.ask, &OF_JUDGEMENT));
    if check.needs.is_empty() {
        complaints.push(format!("{} needs nothing", check.id));
    }
    let unknown = check.needs.iter().filter(|id| !is_declared(id));
    complaints.extend(unknown.map(|id| format!("{} needs '{id}', which nobody declared", check.id)));
    complaints
}

#[test]
fn every_check_has_all_its_words_and_everything_it_names_exists() {
    none(&stage::checks().iter().flat_map(|check| complaints_about_check(check)).collect::<Vec<_>>());
}

fn complaints_about_step(step: &Step) -> Vec<String> {
    let mut complaints: Vec<String> =
        [step.title, step.detail].iter().chain(step.cautions).flat_map(|text| undeclared(step.id, text, &[])).collect();
    let mut unless = |holds: bool, complaint: String| {
        if !holds {
            complaints.push(format!("{}: {complaint}", step.id));
        }
    };
    unless(!step.title.trim().is_empty(), "has no title".to_owned());
    unless(Stage::of_id(step.id) == Some(step.stage), "stands in another stage than its id says".to_owned());
    for id in step.after {
        unless(stage::step(id).is_some(), format!("comes after '{id}', which nobody declared"));
    }
    for id in step.held_by {
        unless(stage::check(id).is_some(), format!("is held by '{id}', which nobody declared"));
    }
    for id in step.relies {
        let decided = stage::entry(id).is_some_and(|spec| spec.role == Role::Decide);
        unless(decided, format!("relies on '{id}', which is no entry that the builder decides"));
    }
    match step.evidence {
        Evidence::Tick => {}
        Evidence::Note(prompt) => unless(!prompt.trim().is_empty(), "asks for an empty note".to_owned()),
        Evidence::Reading(id) => {
            unless(is_value(id), format!("asks for a reading of '{id}', which nobody declared"));
            let fits = stage::entry(id).is_none_or(|spec| (spec.scope == Scope::Panel) == step.per_panel);
            unless(fits, format!("and its reading '{id}' do not both belong to a panel"));
        }
    }
    complaints
}

#[test]
fn everything_that_a_step_names_exists() {
    none(&stage::steps().iter().flat_map(|step| complaints_about_step(step)).collect::<Vec<_>>());
}

#[test]
fn steps_come_after_what_they_wait_for_and_form_no_circle() {
    let place: BTreeMap<&str, usize> = stage::steps().iter().enumerate().map(|(at, step)| (step.id, at)).collect();
    let mut complaints = Vec::new();
    for step in stage::steps() {
        for before in step.after.iter().filter_map(|id| stage::step(id)) {
            if before.stage == step.stage && place[before.id] >= place[step.id] {
                complaints.push(format!("{} is listed before {}, which comes first", step.id, before.id));
            }
        }
    }
    // Taking away every step that waits for nothing left over empties the list, unless there is a circle.
    let mut left: Vec<&Step> = stage::steps().to_vec();
    loop {
        let names: BTreeSet<&str> = left.iter().map(|step| step.id).collect();
        let waiting = |step: &&Step| step.after.iter().any(|id| names.contains(id));
        let (still, free): (Vec<&Step>, Vec<&Step>) = left.into_iter().partition(waiting);
        left = still;
        if free.is_empty() {
            break;
        }
    }
    complaints.extend(left.iter().map(|step| format!("{} waits in a circle", step.id)));
    none(&complaints);
}

fn groups_of<'a>(group: &'a Group, found: &mut Vec<&'a Group>) {
    found.push(group);
    for inner in group.groups {
        groups_of(inner, found);
    }
}

#[test]
fn every_entry_that_a_group_reads_is_declared() {
    let mut groups = Vec::new();
    for figure in stage::figures() {
        groups_of(figure.group, &mut groups);
    }
    for study in stage::study::STUDIES {
        groups_of(study.group, &mut groups);
    }
    let complaints: BTreeSet<String> = groups
        .iter()
        .flat_map(|group| group.entries.iter().map(move |id| (group.name, *id)))
        .filter(|(_, id)| !stage::entries().iter().any(|spec| spec.id == *id))
        .map(|(name, id)| format!("group '{name}' reads '{id}', which nobody declared"))
        .collect();
    none(&complaints.into_iter().collect::<Vec<_>>());
}

fn has_declared_kind(figure: &Figure, value: &Value) -> bool {
    match (figure.kind, value) {
        (Some(kind), Value::Quantity(quantity)) => quantity.kind == kind,
        (None, Value::Text(_) | Value::Choice(_) | Value::Flag(_) | Value::Date(_)) => true,
        _ => false,
    }
}

#[test]
fn every_figure_of_the_sample_has_its_declared_kind() {
    let workbook = sample();
    let mut complaints = Vec::new();
    for row in workbook.evaluation().rows() {
        if let (Some((figure, _)), Ok(value)) = (stage::figure(&row.address.id), &row.value)
            && !has_declared_kind(figure, value)
        {
            complaints.push(format!("{} is {value:?}, declared as {:?}", row.address, figure.kind));
        }
        if let Ok(Value::Quantity(quantity)) = &row.value
            && !quantity.si.is_finite()
        {
            complaints.push(format!("{} is no number", row.address));
        }
    }
    none(&complaints);
}

#[test]
fn every_check_of_the_sample_finds_the_numbers_that_its_words_name() {
    let workbook = sample();
    let mut complaints = Vec::new();
    for judged in &workbook.evaluation().verdicts {
        let Ok(judgement) = &judged.judgement else { continue };
        for name in ids_in(&format!("{}{}", judged.check.says, judged.check.remedy)) {
            let present = match name.as_str() {
                "found" => judgement.found.is_some(),
                "limit" => judgement.limit.is_some(),
                "margin" => judgement.margin.is_some(),
                "part" => judgement.part.is_some(),
                _ => true,
            };
            if !present && judgement.verdict != sunharp::model::Verdict::Clear && !judgement.from_memory {
                complaints.push(format!("{} names {{{name}}}, but its judgement has none", judged.check.id));
            }
        }
    }
    none(&complaints);
}
