//! What is wrong with a project file, shown with the line it stands in.

use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};

use crate::model::{TypedError, text::clean};
use crate::project::{Fault, Problem};

/// The width of a printed page.
const WIDTH: usize = 100;

/// All problems, one after the other: message, file:line:column, the line with a mark under the place.
pub fn render(file: &str, text: &str, problems: &[Problem]) -> String {
    let file = clean(file);
    let renderer = Renderer::plain().term_width(WIDTH);
    let mut shown = String::new();
    for problem in problems {
        let line = Line::of(text, problem);
        let message = clean(&problem.fault.to_string());
        let mark = AnnotationKind::Primary.span(line.mark.clone());
        let snippet = Snippet::source(line.text).line_start(problem.place.line).path(file.as_str()).annotation(mark);
        let mut group: Group<'_> =
            Level::ERROR.primary_title(message.as_str()).id(problem.fault.code()).element(snippet);
        let hint = hint(&problem.fault);
        if let Some(hint) = &hint {
            group = group.element(Level::HELP.message(hint.as_str()));
        }
        shown.push_str(&renderer.render(&[group]));
        shown.push_str("\n\n");
    }
    shown
}

/// The line of a problem, made fit to be shown, and the bytes in it to be marked.
struct Line {
    text: String,
    mark: std::ops::Range<usize>,
}

impl Line {
    fn of(text: &str, problem: &Problem) -> Self {
        let raw = text.lines().nth(problem.place.line - 1).unwrap_or_default().trim_start_matches('\u{feff}');
        let shown = clean(raw);
        let marked = text.get(problem.span.clone()).unwrap_or_default();
        let first_line = marked.lines().next().unwrap_or_default();
        let start = problem.place.column - 1;
        let end = start + first_line.chars().count().max(1);
        Self { mark: byte_of(&shown, start)..byte_of(&shown, end), text: shown }
    }
}

/// Where a character stands, in bytes; cleaning replaces characters one by one, so that columns stay.
fn byte_of(text: &str, column: usize) -> usize {
    text.char_indices().nth(column).map_or(text.len(), |(at, _)| at)
}

fn hint(fault: &Fault) -> Option<String> {
    match fault {
        Fault::Entry { error: TypedError::Unit(error), .. } => error.hint.as_deref().map(clean),
        _ => None,
    }
}
