//! The pages of `docs/` that are made from the declared tables. `sunharp docs docs` writes them again.

use std::fmt::Write;

use super::tables::{noun, shape};
use crate::model::{EntrySpec, Role, Scope, Shape, Stage, Step};
use crate::solve::findings::evidence;
use crate::stage::{self, Check, Figure, method};
use crate::units::System;

/// Every generated page: its file name and its text.
pub fn pages() -> [(&'static str, String); 2] {
    [("figures.md", figures()), ("methods.md", methods())]
}

const MADE: &str =
    "This page is made from the declared tables by `sunharp docs docs`; edit the tables, not the page.\n";

fn figures() -> String {
    let mut page = format!("# Entries, figures, checks and steps\n\n{MADE}");
    page.push_str(
        "\nAn id is the name of a thing everywhere: on screen, in commands, in the project file. `ID@PANEL` is ",
    );
    page.push_str("the same thing on one panel. A `*` stands for the key of a repeated row.\n");
    for stage in std::iter::once(None).chain(Stage::ALL.map(Some)) {
        let _ = write!(page, "\n## {}\n", stage.map_or("project", Stage::word));
        let entries = stage::entries().iter().filter(|spec| Stage::of_id(spec.id) == stage);
        let figures = stage::figures().iter().filter(|figure| Stage::of_id(figure.id) == stage);
        let checks = stage::checks().iter().filter(|check| Stage::of_id(check.id) == stage);
        let steps = stage::steps().iter().filter(|step| Some(step.stage) == stage);
        section(&mut page, "Entries", entries.map(|spec| entry(spec)));
        section(&mut page, "Figures", figures.map(|found| figure(found)));
        section(&mut page, "Checks", checks.map(|found| check(found)));
        section(&mut page, "Steps", steps.map(|found| step(found)));
    }
    page
}

fn section(page: &mut String, title: &str, items: impl Iterator<Item = String>) {
    let items: Vec<String> = items.collect();
    if !items.is_empty() {
        let _ = write!(page, "\n### {title}\n\n{}", items.concat());
    }
}

/// One item: its id and label, then a line for each further fact that is not empty.
fn item(id: &str, label: &str, facts: &[(&str, &str)]) -> String {
    let mut text = format!("- `{id}`: {}\n", escaped(label));
    for (name, fact) in facts.iter().filter(|(_, fact)| !fact.is_empty()) {
        let _ = writeln!(text, "  - {name}: {}", escaped(fact));
    }
    text
}

/// Text that Markdown would take for emphasis or markup stays as it is.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        if matches!(c, '*' | '_' | '<' | '>' | '|' | '[' | ']' | '`' | '\\') {
            out.push('\\');
        }
        out.push(c);
    }
    out
}

fn entry(spec: &EntrySpec) -> String {
    let words = match spec.shape {
        Shape::Choice(words) => words()
            .iter()
            .map(|(word, meaning)| if meaning.is_empty() { (*word).to_owned() } else { format!("{word} ({meaning})") })
            .collect::<Vec<_>>()
            .join("; "),
        Shape::Quantity { .. } => format!("{}; {}", shape(spec.shape), spec.allowed(System::Si)),
        _ => shape(spec.shape).to_owned(),
    };
    let who = match (spec.role, spec.scope) {
        (Role::Decide, Scope::Project) => "",
        (Role::Decide, Scope::Panel) => "one design for all panels; readings carry a panel's letter",
        (Role::Measure, Scope::Project) => "only measured",
        (Role::Measure, Scope::Panel) => "only measured, on each panel",
    };
    let default = spec.default.unwrap_or_default();
    item(spec.id, spec.label, &[("why", spec.why), ("can be", &words), ("assumed", default), ("given", who)])
}

fn figure(figure: &Figure) -> String {
    let id = if figure.axis.is_some() { format!("{}.*", figure.id) } else { figure.id.to_owned() };
    let terms: Vec<String> = figure.terms.iter().map(|(symbol, id)| format!("{symbol} is {id}")).collect();
    let formula = figure.formula.replace(['{', '}'], "");
    item(
        &id,
        figure.label,
        &[
            ("kind", figure.kind.map_or("words", noun)),
            ("formula", &formula),
            ("where", &terms.join("; ")),
            ("method", figure.method),
        ],
    )
}

fn check(check: &Check) -> String {
    item(
        check.id,
        check.label,
        &[
            ("if not clear", check.severity.word()),
            ("says", check.says),
            ("to do", check.remedy),
            ("cannot see", check.blind_to),
            ("ask", check.ask),
            ("limit from", check.source),
            ("from memory", check.recalled),
            ("judges by", &check.needs.join(", ")),
            ("overruling", if check.can_be_overruled { "" } else { "not possible" }),
        ],
    )
}

fn step(step: &Step) -> String {
    let scope = if step.per_panel { "once on each panel" } else { "once" };
    item(
        step.id,
        step.title,
        &[
            ("how", step.detail),
            ("done", scope),
            ("evidence", &evidence(step.evidence)),
            ("after", &step.after.join(", ")),
            ("relies on", &step.relies.join(", ")),
            ("held by", &step.held_by.join(", ")),
            ("cautions", &step.cautions.join(" ")),
            ("read back", if step.read_back { "by a second person" } else { "" }),
            ("licensed", if step.licensed { "usually; ask locally" } else { "" }),
        ],
    )
}

fn methods() -> String {
    let mut page = format!("# Methods and their sources\n\n{MADE}");
    page.push_str("\nA source that was recalled and not looked up says \"from memory\".\n");
    for method in method::methods() {
        let users = stage::figures().iter().filter(|figure| figure.method == method.id);
        let users: Vec<String> = users.map(|figure| format!("`{}`", figure.id)).collect();
        let _ = write!(page, "\n## {}\n\nName: `{}`\n\n{}\n", escaped(method.title), method.id, escaped(method.what));
        let _ = write!(page, "\nSource: {}\n\nCode: `{}`\n", escaped(method.source), method.code);
        if !users.is_empty() {
            let _ = write!(page, "\nFigures: {}\n", users.join(", "));
        }
    }
    page
}
