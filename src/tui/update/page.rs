//! Commands on the page of a stage.

use super::super::command::Act;
use super::super::page::{Line, nearest};
use super::super::state::{Answer, Find, Over, Question, Sheet, State, Subject, Want};
use super::super::{command, words};
use super::{changing, files, form, picture, pin};
use crate::model::{Address, PanelLetter, Role, Stage, Verdict};
use crate::project::merge::Side;
use crate::solve::progress::Standing;
use crate::stage;
use crate::workbook::changes;
use crate::workbook::desk::Errand;
use std::sync::Arc;

/// Whether a command can do anything now.
pub fn can(state: &State, act: Act) -> bool {
    if let Some(Over::Bench) = state.over.last() {
        return super::bench::can(state, act);
    }
    if let Some(Over::Sheet(sheet)) = state.over.last() {
        return super::sheet::can(state, sheet, act);
    }
    let line = || state.selected();
    match act {
        Act::Open | Act::Explain => line().is_some(),
        Act::Record => matches!(line(), Some(Line::Entry(_))),
        Act::Pin | Act::Copy => pin::figure_of(line().as_ref()).is_some(),
        Act::TakeBack => {
            step_of(state).is_some_and(|standing| matches!(standing, Standing::Done(_) | Standing::Stale(..)))
        }
        Act::Moved => state.last.is_some(),
        Act::Pictures => !state.is_today && !stage::picture::of(state.stage).is_empty(),
        Act::NextPicture | Act::PreviousPicture => stage::picture::of(state.stage).len() > 1,
        Act::KeepWeather => has_weather_file(state),
        Act::Undo => state.workbook.can_undo(),
        Act::Redo => state.workbook.can_redo(),
        Act::Save => state.workbook.is_dirty(),
        Act::Faults => words::sheet::has_faults(state),
        Act::Bench => !stage::card::cards().is_empty(),
        Act::Panel => !state.workbook.project().panels.is_empty(),
        Act::Attention => next_attention(state).is_some(),
        Act::NextField => matches!(state.over.last(), Some(Over::Form(form)) if form.has_next()),
        _ => true,
    }
}

fn step_of(state: &State) -> Option<Standing> {
    match state.selected()? {
        Line::Step(address) => state.workbook.evaluation().step(&address).map(|of| of.standing.clone()),
        _ => None,
    }
}

/// What Enter does on the line, in a word for the footer.
pub fn open_word(state: &State) -> &'static str {
    match state.selected() {
        Some(Line::Entry(id)) if stage::entry(&id).is_some_and(|spec| spec.role == Role::Measure) => "record",
        Some(Line::Entry(_)) => "edit",
        Some(Line::Figure(_)) => "explain",
        Some(Line::Conflict(_)) => "settle",
        Some(Line::Rows(id) | Line::Panels(id) | Line::Hazard(id)) if state.unfolded.contains(id) => "close rows",
        Some(Line::Rows(_) | Line::Panels(_) | Line::Hazard(_)) => "show rows",
        Some(Line::Step(_)) if state.is_today => "go to it",
        Some(Line::Step(_)) if matches!(step_of(state), Some(Standing::Open | Standing::Stale(..))) => "sign off",
        _ => "read",
    }
}

/// Runs a command.
pub fn run(state: &mut State, act: Act) {
    match act {
        Act::NextStage => turn(state, 1),
        Act::PreviousStage => turn(state, Stage::ALL.len()),
        Act::Today => state.is_today = !state.is_today,
        Act::Pin => pin::pin(state),
        Act::Copy => pin::copy(state),
        Act::Write => super::write::open(state),
        Act::Variants => super::variant::open(state),
        Act::Records => push_sheet(state, super::write::records_of(state)),
        Act::Down => step_by(state, 1),
        Act::Up => step_by(state, -1),
        Act::PageDown => step_by(state, page_height(state)),
        Act::PageUp => step_by(state, -page_height(state)),
        Act::First => select(state, 0),
        Act::Last => select(state, usize::MAX),
        Act::Open => open(state),
        Act::Explain => explain(state),
        Act::Record => record(state),
        Act::TakeBack => take_back(state),
        Act::Moved => push_sheet(state, Subject::Moved),
        Act::SinceCommit => since_commit(state),
        Act::Faults => push_sheet(state, Subject::Faults),
        Act::Help => push_sheet(state, Subject::Help),
        Act::Pictures => picture::open(state),
        Act::Bench => super::bench::open(state),
        Act::KeepWeather => keep_weather(state),
        Act::Undo => changing::undo(state),
        Act::Redo => changing::redo(state),
        Act::Find => state.over.push(Over::Find(Find::default())),
        Act::Attention => attention(state),
        Act::Panel => next_panel(state),
        Act::Units => state.other_units = !state.other_units,
        Act::Save => files::save(state),
        Act::Quit => files::quit(state),
        Act::Suspend => state.want = Some(Want::Suspend),
        Act::Menu => menu(state),
        Act::Follow
        | Act::NextLink
        | Act::GoTo
        | Act::NextPicture
        | Act::PreviousPicture
        | Act::Close
        | Act::Commit
        | Act::NextField
        | Act::PreviousField
        | Act::NextCard
        | Act::PreviousCard
        | Act::NextFigure
        | Act::Tick
        | Act::Sway
        | Act::Mend
        | Act::Clock => {}
    }
}

/// Turns the pages: that of the day, then the stages, round and round.
fn turn(state: &mut State, by: usize) {
    let now = if state.is_today { 0 } else { state.stage_index() + 1 };
    let to = (now + by) % (Stage::ALL.len() + 1);
    state.is_today = to == 0;
    if to > 0 {
        state.stage = Stage::ALL[to - 1];
    }
}

fn page_height(state: &State) -> isize {
    state.areas().and_then(|areas| isize::try_from(areas.list.height).ok()).unwrap_or(2).max(2) - 1
}

fn select(state: &mut State, index: usize) {
    let (lines, _) = state.lines();
    let index = nearest(&lines, index.min(lines.len().saturating_sub(1)));
    let line = lines.into_iter().nth(index);
    let spot = state.spot_mut();
    spot.line = line;
    spot.index = index;
}

/// Goes down (or up, if negative) by so many lines; headings are passed over.
fn step_by(state: &mut State, by: isize) {
    let (lines, index) = state.lines();
    let aim = index.saturating_add_signed(by).min(lines.len().saturating_sub(1));
    let is_heading = lines.get(aim).is_some_and(|line| !line.is_selectable());
    let aim = if by < 0 && is_heading && aim > 0 { aim - 1 } else { aim };
    select(state, aim);
}

fn open(state: &mut State) {
    match state.selected() {
        Some(Line::Entry(id)) if stage::entry(&id).is_some_and(|spec| spec.role == Role::Measure) => record(state),
        Some(Line::Entry(id)) => form::open_entry(state, &id, None),
        Some(Line::Figure(_)) => explain(state),
        Some(Line::Rows(id) | Line::Panels(id) | Line::Hazard(id)) => {
            if !state.unfolded.remove(id) {
                state.unfolded.insert(id);
            }
        }
        Some(Line::Check(id)) => push_sheet(state, Subject::Check(id)),
        Some(Line::Step(address)) if state.is_today => go_to(state, stage_of(&address.id), Line::Step(address)),
        Some(Line::Step(address)) => open_step(state, &address),
        Some(Line::Conflict(name)) => ask_to_settle(state, &name),
        Some(Line::Heading(_) | Line::Answer(_) | Line::Says(_)) | None => {}
    }
}

/// Asks which of two builders' values stands.
fn ask_to_settle(state: &mut State, name: &str) {
    let Some(found) = state.workbook.project().conflicts.get(name) else { return };
    let side =
        |typed: &Option<String>| typed.as_deref().map_or_else(|| "nothing".to_owned(), crate::model::text::clean);
    let says = vec![format!("{}: both of you changed it.", words::label(&found.key))];
    let answers = vec![
        ("decide later".to_owned(), Answer::GoBack),
        (format!("ours: {}", side(&found.ours)), Answer::Settle(name.to_owned(), Side::Ours)),
        (format!("theirs: {}", side(&found.theirs)), Answer::Settle(name.to_owned(), Side::Theirs)),
        (format!("as it was before: {}", side(&found.base)), Answer::Settle(name.to_owned(), Side::Base)),
    ];
    state.over.push(Over::Question(Question { title: "two builders differ".to_owned(), says, answers, at: 0 }));
}

/// Lets one side's value stand.
pub fn settle(state: &mut State, name: &str, side: Side) {
    changing::change(state, format!("settled: {}", words::label(name)), |workbook| workbook.settle(name, side));
}

fn open_step(state: &mut State, address: &Address) {
    match step_of(state) {
        Some(Standing::Open | Standing::Stale(..)) => form::open_sign_off(state, address, ""),
        _ => push_sheet(state, Subject::Step(address.clone())),
    }
}

fn explain(state: &mut State) {
    let subject = match state.selected() {
        Some(Line::Entry(id) | Line::Figure(id)) => Subject::Figure(state.shown(&id)),
        Some(Line::Rows(id)) => Subject::Figure(state.shown(&format!("{id}.1"))),
        Some(Line::Check(id)) => Subject::Check(id),
        Some(Line::Hazard(key)) => match words::row::loudest(state, key) {
            Some(id) => Subject::Check(id),
            None => return,
        },
        Some(Line::Step(address)) => Subject::Step(address),
        Some(Line::Panels(id)) => {
            let first = state.workbook.evaluation().steps.iter().find(|of| of.step.id == id);
            Subject::Step(first.map_or_else(|| Address::drawn(id), |of| of.address.clone()))
        }
        Some(Line::Conflict(name)) => return ask_to_settle(state, &name),
        Some(Line::Heading(_) | Line::Answer(_) | Line::Says(_)) | None => return,
    };
    push_sheet(state, subject);
}

/// Lays a sheet over everything.
pub fn push_sheet(state: &mut State, subject: Subject) {
    if let Subject::Check(check) = subject
        && state.workbook.may_mend(check)
    {
        state.errand = Some(Errand::Mend(check));
    }
    state.over.push(Over::Sheet(Sheet { subject, at: 0, top: 0 }));
}

/// Lays what happened since the last commit over the page. Only what the project's own repository holds is read.
fn since_commit(state: &mut State) {
    match state.workbook.as_at("HEAD") {
        Some(before) => {
            state.since = Some(changes::between(&before, &state.workbook));
            push_sheet(state, Subject::SinceCommit);
        }
        None => state.say("no commit holds this file yet: put it under git, and this tells what changed since"),
    }
}

fn record(state: &mut State) {
    match state.selected() {
        Some(Line::Entry(id)) => form::open_reading(state, &id),
        _ => state.say("readings are recorded on the line of an entry"),
    }
}

fn take_back(state: &mut State) {
    match (state.selected(), step_of(state)) {
        (Some(Line::Step(address)), Some(Standing::Done(_) | Standing::Stale(..))) => {
            form::open_withdrawal(state, &address);
        }
        _ => state.say("a sign-off is taken back on the line of a step that is done or stale"),
    }
}

/// Whether there are hours of which twelve monthly means can be kept.
fn has_weather_file(state: &State) -> bool {
    let sky = &state.workbook.evaluation().drawn.world.sky;
    sky.as_ref().is_ok_and(|climate| climate.station().format.is_hourly())
}

fn keep_weather(state: &mut State) {
    let was = state.workbook.text().to_owned();
    let before = Arc::clone(state.workbook.evaluation());
    match state.workbook.keep_monthly_summary() {
        Err(error) => state.refuse(form::refusal(&error)),
        Ok(()) if state.workbook.text() == was => {
            state.say("the weather's monthly means are kept already; nothing was changed");
        }
        Ok(()) => changing::changed(state, before, "monthly means kept".to_owned()),
    }
}

/// The next check that says stop or unknown: the stage it is on, and the check.
fn next_attention(state: &State) -> Option<(Stage, &'static str)> {
    let checks = stage::checks();
    let here = match state.selected() {
        Some(Line::Check(id)) => checks.iter().position(|check| check.id == id).map_or(0, |index| index + 1),
        _ => checks.iter().position(|check| check.stage() >= state.stage).unwrap_or(0),
    };
    let evaluation = state.workbook.evaluation();
    checks.iter().cycle().skip(here).take(checks.len()).find_map(|check| {
        let verdict = evaluation.verdict(check.id)?.verdict;
        matches!(verdict, Verdict::Stop | Verdict::Unknown).then_some((check.stage(), check.id))
    })
}

fn attention(state: &mut State) {
    match next_attention(state) {
        Some((stage, id)) => go_to(state, stage, Line::Check(id)),
        None => state.say("no check says stop or unknown"),
    }
}

/// Leaves everything that lies over the page and goes to a line.
pub fn go_to(state: &mut State, stage: Stage, line: Line) {
    state.over.clear();
    state.is_today = false;
    state.stage = stage;
    match &line {
        Line::Figure(id) => {
            if let Some((figure, _)) = stage::figure(id).filter(|(figure, _)| figure.axis.is_some()) {
                state.unfolded.insert(figure.id);
            }
        }
        Line::Step(address) => {
            if let (Some(step), true) = (stage::step(&address.id), address.panel.is_some()) {
                state.unfolded.insert(step.id);
                state.panel = state.panel.and(address.panel);
            }
        }
        _ => {}
    }
    state.spot_mut().line = Some(line);
}

fn stage_of(id: &str) -> Stage {
    Stage::of_id(id).unwrap_or(Stage::Site)
}

fn next_panel(state: &mut State) {
    let panels = &state.workbook.project().panels;
    state.panel = match state.panel {
        None => panels.first().copied(),
        Some(now) => panels.iter().position(|panel| *panel == now).and_then(|at| panels.get(at + 1)).copied(),
    };
    let text = state.panel.map_or_else(|| "the design as drawn".to_owned(), |panel| panel_words(state, panel));
    state.say(text);
}

fn panel_words(state: &State, panel: PanelLetter) -> String {
    if state.workbook.evaluation().built.contains_key(&panel) {
        format!("panel {panel} as built: what was measured on it stands in place of the drawing")
    } else {
        format!("panel {panel}: nothing was measured on it yet, so it is shown as drawn")
    }
}

/// Everything that can be done on a page, to be chosen with the arrows.
fn menu(state: &mut State) {
    let mut answers = vec![("back to the page".to_owned(), Answer::GoBack)];
    for command in command::at(command::Place::Page).filter(|command| command.footer && command.act != Act::Menu) {
        if can(state, command.act) {
            let keys = command.key_words();
            answers.push((format!("{:<12} {}", keys, command.help), Answer::Run(command.act)));
        }
    }
    state.over.push(Over::Question(Question { title: "menu".to_owned(), says: Vec::new(), answers, at: 0 }));
}
