//! The lines of the first page: what can be done now, what is urgent, what the most figures wait for.

use jiff::civil::Date;

use super::{Line, section};
use crate::stage::commissioning::upkeep::Task;
use crate::tui::lessons;
use crate::tui::state::State;
use crate::workbook::today::Plot;

/// How many open steps of one panel are listed; the rest stands on the pages of the stages.
const STEPS: usize = 5;
/// How many checks are named.
const CHECKS: usize = 3;
/// How many missing entries are named.
const ENTRIES: usize = 4;

/// The lines.
pub fn lines(state: &State) -> Vec<Line> {
    let day = &state.day.found;
    let mut lines = Vec::new();
    section(&mut lines, "Learn by doing", lessons::words(state).into_iter().map(Line::Says).collect());
    let conflicts = state.workbook.project().conflicts.keys();
    section(&mut lines, "Two builders differ", conflicts.cloned().map(Line::Conflict).collect());
    let mut now = Vec::new();
    for plot in &day.plots {
        plot_lines(plot, &mut now);
    }
    section(&mut lines, "Due by the calendar", day.due.iter().flat_map(|(task, since)| due(task, *since)).collect());
    section(&mut lines, "To do now", now);
    section(&mut lines, "Look at first", day.urgent.iter().take(CHECKS).map(|(id, _)| Line::Check(id)).collect());
    let missing = day.missing.iter().take(ENTRIES).map(|(id, _)| Line::Entry(id.clone())).collect();
    section(&mut lines, "Most waits for", missing);
    lines
}

/// A task of the calendar: what is done, and the line where its day is kept.
fn due(task: &Task, since: Date) -> [Line; 2] {
    [Line::Says(format!("since {since}: {}", task.what)), Line::Entry(format!("commissioning.upkeep.{}", task.name))]
}

fn plot_lines(plot: &Plot, lines: &mut Vec<Line>) {
    let whose = plot.panel.map_or_else(|| "the project".to_owned(), |panel| format!("panel {panel}"));
    let mut parts = vec![format!("{} of {} steps done", plot.done, plot.all)];
    let mut part = |count: usize, word: &str| {
        if count > 0 {
            parts.push(format!("{count} {word}"));
        }
    };
    part(plot.open.len(), "open");
    part(plot.stale.len(), "stale");
    part(plot.held.len(), "held by a stop");
    part(plot.waiting, "waiting");
    lines.push(Line::Says(format!("{whose}: {}", parts.join(", "))));
    let steps: Vec<Line> =
        plot.stale.iter().cloned().chain(plot.open.iter().map(|job| job.step.clone())).map(Line::Step).collect();
    let more = steps.len().saturating_sub(STEPS);
    lines.extend(steps.into_iter().take(STEPS));
    if more > 0 {
        lines.push(Line::Says(format!("  and {more} more on the pages of the stages")));
    }
}
