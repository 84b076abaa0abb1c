//! The sheet that explains a figure or entry.

use crate::model::{Address, text::clean};
use crate::stage;
use crate::tui::ink::{Par, Role};
use crate::tui::state::{State, Subject};
use crate::workbook::explain::{Explanation, explain};

/// Everything there is to say about a figure or entry.
pub fn sheet(state: &State, address: &Address) -> Vec<Par> {
    let Some(it) = explain(state.workbook.evaluation(), address, state.system()) else { return Vec::new() };
    let mut pars = value(state, &it);
    pars.extend(super::sway::pars(state, address));
    if stage::figure(&address.id).is_some() {
        pars.extend(formula(&it));
        pars.extend(method(&it));
        let entries = it.depends_on.iter().map(|id| link(state, id, address));
        pars.extend(list("depends on", entries.collect()));
        pars.extend(list("used by", it.moves.iter().map(|id| link(state, id, address)).collect()));
    } else {
        pars.push(Par::gap());
        pars.extend(super::detail::entry(state, &address.id));
        pars.extend(list("moves", it.moves.iter().map(|id| link(state, id, address)).collect()));
    }
    pars
}

fn value(state: &State, it: &Explanation) -> Vec<Par> {
    let id = Par::new(Role::Quiet, clean(&it.address.to_string()));
    match &it.value {
        Ok(value) => {
            let text = super::both_units(state, &it.address, value);
            vec![Par::new(Role::Strong, text).and(super::of_origin(it.origin), format!("  {}", it.origin.word())), id]
        }
        Err(why) => {
            let mut pars = super::detail::missing(state, &it.address, why);
            pars.push(id);
            pars
        }
    }
}

fn formula(it: &Explanation) -> Vec<Par> {
    if it.formula.is_empty() {
        return Vec::new();
    }
    let mut pars = vec![Par::gap(), Par::new(Role::Heading, "formula"), Par::plain(clean(&it.formula)).indented(2)];
    if it.numbers != it.formula {
        pars.push(Par::plain(clean(&it.numbers)).indented(2));
    }
    for term in &it.terms {
        let text = format!("{} {}", clean(&term.text), term.origin.word());
        pars.push(
            Par::new(Role::Key, format!("{} ", term.symbol))
                .and(Role::Plain, format!("{}: ", term.label))
                .and(super::of_origin(term.origin), text)
                .indented(2)
                .leading_to(Subject::Figure(term.address.clone())),
        );
    }
    pars
}

fn method(it: &Explanation) -> Vec<Par> {
    let Some(method) = it.method else { return Vec::new() };
    vec![
        Par::gap(),
        Par::new(Role::Heading, "method"),
        Par::new(Role::Strong, method.title).indented(2),
        Par::plain(method.what).indented(2),
        Par::tagged(Role::Quiet, "source:", method.source).indented(2),
    ]
}

fn list(heading: &'static str, links: Vec<Par>) -> Vec<Par> {
    if links.is_empty() {
        return Vec::new();
    }
    let mut pars = vec![Par::gap(), Par::new(Role::Heading, heading)];
    pars.extend(links);
    pars
}

fn link(state: &State, id: &str, from: &Address) -> Par {
    let evaluation = state.workbook.evaluation();
    if let Some(judged) = evaluation.verdict(id) {
        let verdict = judged.verdict;
        return Par::plain(format!("{} ", judged.check.label))
            .and(super::of_verdict(verdict), verdict.word())
            .indented(2)
            .leading_to(Subject::Check(judged.check.id));
    }
    let address = Address { id: id.to_owned(), panel: from.panel };
    let axis = stage::figure(id).is_some_and(|(figure, key)| figure.axis.is_some() && key.is_empty());
    let text = if axis { "row by row".to_owned() } else { evaluation.text(&address, state.system()) };
    let par = Par::plain(format!("{} ", super::label(id))).and(Role::Strong, text).indented(2);
    if axis { par } else { par.leading_to(Subject::Figure(address)) }
}
