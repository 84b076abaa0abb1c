//! What is said about the line that keys act on.

use super::{both_units, of_verdict, on_panel, row};
use crate::model::{Address, Evidence, Fig, Role as Given, Scope, Step, Value, Verdict, Why, text::clean};
use crate::project::Fault;
use crate::solve::findings::out_of_order;
use crate::solve::judge::Judged;
use crate::solve::progress::{Standing, StepState};
use crate::solve::words::fill_with;
use crate::stage;
use crate::stage::safety::questions::SHORT_WORD;
use crate::stage::safety::register::named;
use crate::tui::ink::{Par, Role};
use crate::tui::page::Line;
use crate::tui::state::State;
use crate::workbook::today::hours;

/// The title over the detail.
pub fn title(state: &State, line: &Line) -> String {
    match line {
        Line::Step(address) => format!("step{}", on_panel(address.panel)),
        Line::Panels(_) => "step on every panel".to_owned(),
        Line::Check(_) => "check".to_owned(),
        Line::Hazard(_) => "hazard".to_owned(),
        Line::Conflict(_) => "conflict".to_owned(),
        other => format!("{}{}", super::label(other.id()), on_panel(state.panel)),
    }
}

/// The paragraphs about a line.
pub fn about(state: &State, line: &Line) -> Vec<Par> {
    let evaluation = state.workbook.evaluation();
    match line {
        Line::Conflict(_) => vec![Par::plain(
            "Two builders changed this in different ways; ours stands for now. Enter chooses one of them.",
        )],
        Line::Heading(_) | Line::Answer(_) | Line::Says(_) => Vec::new(),
        Line::Entry(id) => entry(state, id),
        Line::Figure(id) => figure(state, id),
        Line::Rows(id) => rows(state, id),
        Line::Check(id) => state.judged(id).map_or_else(Vec::new, |judged| check(state, judged)),
        Line::Hazard(key) => hazard(state, key),
        Line::Step(address) => evaluation.step(address).map_or_else(Vec::new, |of| step(state, of)),
        Line::Panels(id) => panels(state, id),
    }
}

/// About an entry: why it matters, what it is, what is odd or wrong, what is allowed, what was measured.
pub fn entry(state: &State, id: &str) -> Vec<Par> {
    let Some(spec) = stage::entry(id) else { return Vec::new() };
    let evaluation = state.workbook.evaluation();
    let address = state.shown(id);
    let mut pars = vec![Par::plain(spec.why)];
    if let Ok(value) = evaluation.value(&address) {
        if value.quantity().is_some() {
            pars.push(Par::tagged(Role::Quiet, "it is", both_units(state, &address, &value)));
        }
        if let Some(odd) = spec.odd(&value, state.system()) {
            pars.push(Par::tagged(Role::Caution, "caution", odd));
        }
    }
    pars.extend(problems(state, id).map(|problem| Par::tagged(Role::Refused, "refused", problem)));
    pars.extend(readings(state, id));
    pars.push(Par::tagged(Role::Quiet, "allowed:", spec.allowed(state.system())));
    if let Some(default) = spec.default {
        pars.push(Par::tagged(Role::Quiet, "assumed while nothing is entered:", default));
    }
    if spec.role == Given::Measure {
        let each = if spec.scope == Scope::Panel { ", on each panel" } else { "" };
        pars.push(Par::tagged(Role::Quiet, "only ever measured:", format!("r records a reading{each}")));
    }
    pars
}

fn problems<'a>(state: &'a State, id: &'a str) -> impl Iterator<Item = String> + 'a {
    state.workbook.project().problems.iter().filter_map(move |problem| match &problem.fault {
        Fault::Entry { id: of, error } if of == id => Some(clean(&error.to_string())),
        Fault::WrongSort { key, wanted } if key == id => Some(format!("wants {}, written in quotes", clean(wanted))),
        _ => None,
    })
}

fn readings(state: &State, id: &str) -> Option<Par> {
    let records = &state.workbook.project().records;
    let mut found: Vec<_> = records
        .readings
        .iter()
        .filter(|reading| reading.of.id == id && reading.withdrawn.is_none())
        .filter(|reading| state.panel.is_none() || reading.of.panel.is_none() || reading.of.panel == state.panel)
        .collect();
    found.sort_by(|a, b| (b.date, &b.key).cmp(&(a.date, &a.key)));
    let last = found.first()?;
    let with = if last.instrument.is_empty() { String::new() } else { format!(" with {}", clean(&last.instrument)) };
    let more = if found.len() > 1 { format!("; {} readings in all", found.len()) } else { String::new() };
    let by = clean(&last.by);
    let text = format!("{}{} on {} by {by}{with}{more}", clean(&last.typed), on_panel(last.of.panel), last.date);
    Some(Par::tagged(Role::Measured, "measured", text))
}

/// About a figure: what it is, why there is none, its formula.
fn figure(state: &State, id: &str) -> Vec<Par> {
    let Some((figure, _)) = stage::figure(id) else { return Vec::new() };
    let address = state.shown(id);
    let mut pars = Vec::new();
    match state.workbook.evaluation().value(&address) {
        Ok(value) => pars.push(Par::tagged(Role::Quiet, "it is", both_units(state, &address, &value))),
        Err(why) => pars.extend(missing(state, &address, &why)),
    }
    pars.extend(as_built(state, id));
    if !figure.formula.is_empty() {
        let formula = fill_with(figure.formula, |symbol| Some(symbol.to_owned()));
        pars.push(Par::tagged(Role::Quiet, "formula", formula));
    }
    pars
}

/// Why there is no value, and where what is missing can be entered.
pub fn missing(state: &State, address: &Address, why: &Why) -> Vec<Par> {
    if *why == Why::Pending {
        let before = row::before_your_change(state, address);
        let before = before.map_or_else(String::new, |text| format!("; {text}"));
        return vec![Par::tagged(Role::Unknown, "pending", format!("being computed{before}"))];
    }
    let mut pars = vec![Par::tagged(Role::Unknown, "unknown", super::why(why))];
    pars.extend(super::where_to_find(why).map(|places| Par::tagged(Role::Quiet, "find it under", places)));
    pars
}

/// What panels with readings come to, where that is not what is drawn.
fn as_built(state: &State, id: &str) -> Option<Par> {
    if state.panel.is_some() {
        return None;
    }
    let evaluation = state.workbook.evaluation();
    let drawn = evaluation.value(&Address::drawn(id)).ok()?;
    let differs = |value: &Fig<Value>| value.as_ref().is_ok_and(|value| !value.same_as(&drawn));
    let built: Vec<String> = evaluation
        .built
        .keys()
        .map(|panel| (panel, Address::on(id, *panel)))
        .filter(|(_, address)| differs(&evaluation.value(address)))
        .map(|(panel, address)| format!("{panel} {}", evaluation.text(&address, state.system())))
        .collect();
    (!built.is_empty()).then(|| Par::tagged(Role::Measured, "as built", built.join(", ")))
}

fn rows(state: &State, id: &'static str) -> Vec<Par> {
    let open = state.unfolded.contains(id);
    let mut pars = vec![Par::plain(if open { "Enter closes the rows." } else { "Enter shows the rows one by one." })];
    if let Some((figure, _)) = stage::figure(id) {
        let formula = fill_with(figure.formula, |symbol| Some(symbol.to_owned()));
        pars.push(Par::tagged(Role::Quiet, "formula", formula));
    }
    pars
}

/// About a hazard: every check that watches over it, the loudest first.
fn hazard(state: &State, key: &str) -> Vec<Par> {
    let Some(hazard) = named(key) else { return Vec::new() };
    let found = state.workbook.evaluation().hazard(hazard);
    let (word, role) = (found.verdict().word(), of_verdict(found.verdict()));
    let mut pars = vec![Par::new(role, word).and(Role::Strong, format!(" {}", hazard.title))];
    let mut judged = found.judged;
    judged.sort_by_key(|judged| std::cmp::Reverse(judged.verdict));
    pars.extend(judged.iter().map(|judged| {
        let overruled = if judged.overruled.is_some() { ", overruled in writing" } else { "" };
        Par::new(of_verdict(judged.verdict), judged.verdict.word())
            .and(Role::Plain, format!(" {}{overruled}", judged.check.label))
    }));
    pars.push(Par::tagged(Role::Quiet, "at stake:", hazard.severity().word()));
    if hazard.is_licensed() {
        pars.push(Par::tagged(Role::Caution, "ask:", "usually needs a licensed person or a permit"));
    }
    let open = state.unfolded.contains(key);
    pars.push(Par::new(Role::Quiet, if open { "Enter closes the list of checks." } else { "Enter shows the checks." }));
    pars
}

/// About a check: what it says with numbers, what to do, whom to ask, and what it cannot see.
pub fn check(state: &State, judged: &Judged) -> Vec<Par> {
    let evaluation = state.workbook.evaluation();
    let fill = |template: &str| evaluation.fill_judged(template, judged, state.system());
    let role = of_verdict(judged.verdict);
    let word = judged.verdict.word();
    let mut pars = vec![Par::new(role, word).and(Role::Strong, format!(" {}", judged.check.label))];
    match (&judged.judgement, judged.verdict) {
        (Err(why), _) => pars.extend(missing(state, &Address::drawn(judged.check.id), why)),
        (Ok(judgement), Verdict::Clear) => {
            pars.extend(judgement.does_not_apply.map(|why| Par::tagged(Role::Quiet, "does not apply:", why)));
        }
        (Ok(_), _) => pars.push(Par::plain(evaluation.says(judged, state.system()))),
    }
    pars.extend(numbers(judged, &fill));
    if judged.verdict != Verdict::Clear && !judged.check.remedy.is_empty() {
        pars.push(Par::tagged(Role::Strong, "do", evaluation.remedy(judged, state.system())));
    }
    if !judged.check.ask.is_empty() {
        pars.push(Par::tagged(Role::Strong, "ask", fill(judged.check.ask)));
    }
    if let Some(record) = &judged.overruled {
        let who = clean(&record.by.join(" and "));
        pars.push(Par::tagged(
            Role::Caution,
            "overruled",
            format!("{} by {who}: {}", record.date, clean(&record.reason)),
        ));
    }
    pars.push(Par::tagged(Role::Quiet, "at stake:", judged.check.severity.word()));
    if !judged.check.recalled.is_empty() {
        pars.push(Par::tagged(Role::Quiet, "from memory:", judged.check.recalled));
    }
    if !judged.check.blind_to.is_empty() {
        pars.push(Par::tagged(Role::Quiet, "it cannot see", fill(judged.check.blind_to)));
    }
    pars
}

fn numbers(judged: &Judged, fill: &dyn Fn(&str) -> String) -> Option<Par> {
    let judgement = judged.judgement.as_ref().ok()?;
    let mut parts = Vec::new();
    if judgement.found.is_some() {
        parts.push(fill("found {found}"));
    }
    if judgement.limit.is_some() {
        parts.push(fill("limit {limit}"));
    }
    if judgement.margin.is_some() {
        parts.push(fill("margin {margin}"));
    }
    if judgement.part.is_some() {
        parts.push(fill("decided by {part}"));
    }
    let panel = judged.panel.map_or_else(String::new, |panel| format!(", panel {panel} as built"));
    (!parts.is_empty()).then(|| Par::plain(format!("{}{panel}", parts.join(", "))))
}

/// About a step: what to do, what it waits for or what is stale, what can hurt, what completes it.
pub fn step(state: &State, of: &StepState) -> Vec<Par> {
    let evaluation = state.workbook.evaluation();
    let fill = |template: &str| evaluation.fill(template, of.address.panel, state.system());
    let mut pars = vec![
        Par::new(super::of_standing(&of.standing), of.standing.word())
            .and(Role::Strong, format!(" {}", fill(of.step.title))),
    ];
    // What can hurt comes before a list that may push it off a small screen.
    pars.extend(cautions(of.step, &fill));
    pars.extend(standing(state, &of.standing));
    pars.extend(of.out_of_order.iter().map(|record| Par::tagged(Role::Caution, "out of order", out_of_order(record))));
    if !of.step.detail.is_empty() {
        pars.push(Par::plain(fill(of.step.detail)));
    }
    if of.step.licensed {
        pars.push(Par::tagged(
            Role::Caution,
            "ask locally:",
            "usually the work of a licensed person or under a permit",
        ));
    }
    if !of.step.conditions.is_empty() {
        let wants: Vec<&str> = of.step.conditions.iter().map(|condition| condition.words()).collect();
        pars.push(Par::tagged(Role::Strong, "wants:", wants.join(", ")));
    }
    pars.push(Par::tagged(Role::Quiet, "done when", evidence(of.step.evidence, of.step.read_back)));
    pars.extend(elsewhere(state, of));
    pars
}

/// What can hurt at a step, and who has the last word.
fn cautions(step: &Step, fill: &dyn Fn(&str) -> String) -> Vec<Par> {
    let mut pars: Vec<Par> =
        step.cautions.iter().map(|caution| Par::tagged(Role::Caution, "caution", fill(caution))).collect();
    if !pars.is_empty() {
        pars.push(Par::new(Role::Quiet, SHORT_WORD));
    }
    pars
}

/// How many other panels are named.
const OTHERS: usize = 2;

/// What the same step came to on other panels, and how long it took: what the next panel starts from.
fn elsewhere(state: &State, of: &StepState) -> Vec<Par> {
    let records = &state.workbook.project().records;
    let evaluation = state.workbook.evaluation();
    let others = evaluation.steps.iter().filter(|other| other.step.id == of.step.id && other.address != of.address);
    let signed = others.filter_map(|other| Some((other.address.panel?, records.sign_off(&other.address)?)));
    let mut pars: Vec<Par> = signed
        .filter(|(_, sign_off)| !sign_off.evidence.is_empty())
        .take(OTHERS)
        .map(|(panel, sign_off)| {
            let text = format!("{} ({}, {})", clean(&sign_off.evidence), clean(&sign_off.by), sign_off.date);
            Par::tagged(Role::Quiet, &format!("on panel {panel}:"), text)
        })
        .collect();
    if let Some((seconds, panels)) = records.taken_elsewhere(&of.address) {
        let panels: Vec<String> = panels.iter().map(ToString::to_string).collect();
        let text = format!("{} on {}", hours(seconds), panels.join(", "));
        pars.push(Par::tagged(Role::Quiet, "it took", text));
    }
    pars
}

/// What completes a step.
pub fn evidence(evidence: Evidence, read_back: bool) -> String {
    let second = if read_back { ", read back by a second person" } else { "" };
    match evidence {
        Evidence::Tick => format!("somebody signs for it{second}"),
        Evidence::Note(prompt) => format!("written down: {prompt}{second}"),
        Evidence::Reading(id) => format!("measured: {}{second}", super::label(id)),
    }
}

fn standing(state: &State, standing: &Standing) -> Vec<Par> {
    match standing {
        Standing::Open => Vec::new(),
        Standing::Done(record) => vec![signed(record)],
        Standing::Stale(record, changed) => {
            let mut pars = vec![signed(record)];
            for change in changed {
                let is = change.is.as_deref().map_or_else(|| "taken out".to_owned(), clean);
                let text = format!("{} was {}, is {is}", super::label(&change.id), clean(&change.was));
                pars.push(Par::tagged(Role::Stale, "stale", text));
            }
            pars
        }
        Standing::Waiting(steps) => {
            steps.iter().map(|address| Par::tagged(Role::Strong, "first", step_name(state, address))).collect()
        }
        Standing::Held(checks) => {
            checks.iter().map(|id| Par::tagged(Role::Stop, "held by a stop:", super::label(id))).collect()
        }
    }
}

fn signed(record: &crate::model::SignOff) -> Par {
    let read_back = match record.read_back_by.as_str() {
        "" => String::new(),
        name => format!(", read back by {}", clean(name)),
    };
    let evidence = match record.evidence.as_str() {
        "" => String::new(),
        words => format!(": {}", clean(words)),
    };
    Par::tagged(Role::Done, "signed", format!("{} by {}{read_back}{evidence}", record.date, clean(&record.by)))
}

/// The title of a step and its panel.
pub fn step_name(state: &State, address: &Address) -> String {
    let evaluation = state.workbook.evaluation();
    let title = stage::step(&address.id)
        .map_or_else(|| clean(&address.id), |step| evaluation.fill(step.title, address.panel, state.system()));
    format!("{title}{}", on_panel(address.panel))
}

fn panels(state: &State, id: &str) -> Vec<Par> {
    let evaluation = state.workbook.evaluation();
    let states: Vec<&StepState> = evaluation.steps.iter().filter(|of| of.step.id == id).collect();
    let Some(first) = states.first() else { return Vec::new() };
    let mut pars = vec![Par::new(Role::Strong, evaluation.fill(first.step.title, None, state.system()))];
    let each = states.iter().filter_map(|of| Some(format!("{} {}", of.address.panel?, of.standing.word())));
    pars.push(Par::plain(each.collect::<Vec<_>>().join(", ")));
    pars.extend(cautions(first.step, &|template| evaluation.fill(template, None, state.system())));
    let open = state.unfolded.contains(id);
    let hint = if open { "Enter closes the list of panels." } else { "Enter shows it panel by panel." };
    pars.push(Par::new(Role::Quiet, hint));
    pars.push(Par::plain(evaluation.fill(first.step.detail, None, state.system())));
    pars
}
