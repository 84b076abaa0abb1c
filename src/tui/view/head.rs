//! The project's line and the six stages.

use ratatui::Frame;
use unicode_width::UnicodeWidthStr;

use super::{piece, row, titled};
use crate::model::{Stage, Verdict, text::clean};
use crate::stage::general::NAME;
use crate::tui::ink::{self, Piece, Role};
use crate::tui::layout::Areas;
use crate::tui::state::State;
use crate::tui::words::{label, of_verdict, row::worst, sign};
use crate::units::System;

/// Draws both lines and the rule below.
pub fn draw(state: &State, frame: &mut Frame<'_>, areas: &Areas) {
    let theme = state.theme();
    row(frame, areas.head, &project(state, usize::from(areas.head.width)), theme);
    row(frame, areas.stages, &stages(state, usize::from(areas.stages.width)), theme);
    titled(frame, areas.rule, &pins(state, usize::from(areas.rule.width)), theme);
}

/// The project's line: name and state on the left, what is open on the right.
fn project(state: &State, width: usize) -> Vec<Piece> {
    let theme = state.theme();
    let right = counts(state);
    let right_width: usize = right.iter().map(|piece| theme.text(&piece.text).width()).sum();
    let room = width.saturating_sub(right_width + 2);
    let facts = facts(state);
    let facts_width: usize = facts.iter().map(|piece| theme.text(&piece.text).width()).sum();
    let name = state.workbook.evaluation().drawn.inputs.get(&NAME).ok();
    let name = name.or_else(|| Some(state.workbook.path().file_name()?.to_string_lossy().into_owned()));
    let name = ink::cut(&clean(&name.unwrap_or_default()), room.saturating_sub(facts_width).max(8), theme);
    let used = name.width() + facts_width;
    let mut pieces = vec![piece(Role::Strong, name)];
    pieces.extend(facts);
    pieces.push(piece(Role::Plain, " ".repeat((room + 2).saturating_sub(used))));
    pieces.extend(right);
    pieces
}

/// The pinned figures with their values, as many as fit; the rule stands where none are.
fn pins(state: &State, width: usize) -> String {
    let mut strip = String::new();
    let mut left = state.marks.pins.len();
    for id in &state.marks.pins {
        let address = state.shown(id);
        let next = format!("{} {}", label(id), state.workbook.evaluation().text(&address, state.system()));
        let gap = if strip.is_empty() { "" } else { "   " };
        // Room for the ends of the rule and for the count of those that do not fit.
        if strip.width() + gap.width() + next.width() + 12 > width {
            break;
        }
        strip.push_str(gap);
        strip.push_str(&next);
        left -= 1;
    }
    match (strip.is_empty(), left) {
        (_, 0) => strip,
        (true, left) => format!("{left} pinned"),
        (false, left) => format!("{strip}   +{left}"),
    }
}

fn facts(state: &State) -> Vec<Piece> {
    let mut facts = Vec::new();
    if state.workbook.read_only().is_some() {
        facts.push(piece(Role::Caution, "  read-only"));
    } else if state.has_unsaved_work() {
        facts.push(piece(Role::Caution, " * unsaved"));
    } else if state.setup.demo {
        facts.push(piece(Role::Quiet, "  sample, not saved"));
    }
    let shown = state.panel.map_or_else(|| "as drawn".to_owned(), |panel| format!("panel {panel} as built"));
    let units = if state.system() == System::Us { "US units" } else { "SI units" };
    facts.push(piece(Role::Quiet, format!("  {shown}, {units}")));
    facts
}

/// How many checks say stop and unknown.
fn counts(state: &State) -> Vec<Piece> {
    let verdicts = &state.workbook.evaluation().verdicts;
    let count = |verdict: Verdict| verdicts.iter().filter(|judged| judged.verdict == verdict).count();
    let mut pieces = Vec::new();
    for verdict in [Verdict::Stop, Verdict::Unknown] {
        let number = count(verdict);
        let role = if number == 0 { Role::Quiet } else { of_verdict(verdict) };
        let gap = if pieces.is_empty() { "" } else { "  " };
        pieces.push(piece(role, format!("{gap}{number} {verdict}")));
    }
    pieces
}

/// The page of the day.
const TODAY: &str = "today";

/// The stages with the sign of their worst verdict; the current one in brackets and reversed.
fn stages(state: &State, width: usize) -> Vec<Piece> {
    let letters = Stage::ALL.iter().map(|stage| stage.word().len()).sum::<usize>();
    // Two for sign and space, two for the gap or the brackets.
    let full = letters + Stage::ALL.len() * 4 + TODAY.len() + 2 <= width;
    let mut pieces = vec![if state.is_today {
        piece(Role::Current, format!("[{TODAY}]"))
    } else {
        piece(Role::Plain, format!(" {TODAY} "))
    }];
    for stage in Stage::ALL {
        let here = stage == state.stage && !state.is_today;
        let word = stage.word();
        let word = if full || word.len() <= 6 || (here && width >= 70) { word } else { &word[..5] };
        let verdict = worst(state, stage);
        let sign = verdict.map_or_else(String::new, |verdict| format!(" {}", sign(verdict)));
        if here {
            pieces.push(piece(Role::Current, format!("[{word}{sign}]")));
        } else {
            pieces.push(piece(Role::Plain, format!(" {word}")));
            pieces.push(piece(verdict.map_or(Role::Quiet, of_verdict), format!("{sign} ")));
        }
    }
    pieces
}
