//! Explaining a figure: its formula with the project's own numbers, its source, what it hangs on.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use crate::model::{Address, Fig, Origin, Value};
use crate::solve::Evaluation;
use crate::solve::words::fill_with;
use crate::stage;
use crate::stage::figure::depends;
use crate::stage::method::{self, Method};
use crate::units::System;

/// One symbol of a formula.
#[derive(Clone, Debug, PartialEq)]
pub struct Term {
    /// The symbol, as printed in the formula.
    pub symbol: &'static str,
    /// What it is.
    pub address: Address,
    /// Its short name.
    pub label: &'static str,
    /// Its value as printed.
    pub text: String,
    /// Where the value came from.
    pub origin: Origin,
}

/// Everything there is to say about a figure or entry.
#[derive(Clone, Debug)]
pub struct Explanation {
    /// What it is.
    pub address: Address,
    /// A short name for people.
    pub label: &'static str,
    /// The value.
    pub value: Fig<Value>,
    /// The value as printed, or why there is none.
    pub text: String,
    /// Where the value came from.
    pub origin: Origin,
    /// Why it matters, for an entry.
    pub why: &'static str,
    /// The formula with symbols; empty for an entry.
    pub formula: String,
    /// The formula with the project's own numbers.
    pub numbers: String,
    /// What each symbol is.
    pub terms: Vec<Term>,
    /// The method and its source.
    pub method: Option<&'static Method>,
    /// The entries it can depend on.
    pub depends_on: Vec<&'static str>,
    /// The figures and checks that can depend on an entry; of a figure those that name it in a formula or judge by it.
    pub moves: Vec<&'static str>,
}

/// Explains a figure or entry; none if nothing is called so.
pub fn explain(evaluation: &Evaluation, address: &Address, system: System) -> Option<Explanation> {
    let row = evaluation.row(address)?;
    let text = match &row.value {
        Ok(value) => evaluation.value_text(address, value, system),
        Err(why) => why.to_string(),
    };
    let mut explanation = Explanation {
        address: address.clone(),
        label: row.label,
        value: row.value,
        text,
        origin: row.origin,
        why: stage::entry(&address.id).map_or("", |spec| spec.why),
        formula: String::new(),
        numbers: String::new(),
        terms: Vec::new(),
        method: None,
        depends_on: Vec::new(),
        moves: moved_by(&address.id),
    };
    if let Some((figure, _)) = stage::figure(&address.id) {
        explanation.formula = fill_with(figure.formula, |symbol| Some(symbol.to_owned()));
        explanation.terms = figure.terms.iter().filter_map(|term| term_of(evaluation, address, term, system)).collect();
        explanation.numbers = fill_with(figure.formula, |symbol| {
            let term = explanation.terms.iter().find(|term| term.symbol == symbol);
            Some(term.map_or_else(|| symbol.to_owned(), |term| format!("({})", term.text)))
        });
        explanation.method = method::method(figure.method);
        explanation.depends_on = depends(&address.id).into_iter().collect();
    }
    Some(explanation)
}

fn term_of(
    evaluation: &Evaluation,
    address: &Address,
    (symbol, id): &(&'static str, &'static str),
    system: System,
) -> Option<Term> {
    let of = Address { id: (*id).to_owned(), panel: address.panel };
    let row = evaluation.row(&of)?;
    Some(Term { symbol, label: row.label, text: evaluation.text(&of, system), origin: row.origin, address: of })
}

/// For each entry the figures and checks that declare that they can depend on it: worked out once, for a sheet asks for
/// it with every frame.
static MOVED: LazyLock<BTreeMap<&'static str, Vec<&'static str>>> = LazyLock::new(|| {
    let figures = stage::figures().iter().map(|figure| (figure.id, figure.group.depends()));
    let checks = stage::checks().iter().map(|check| (check.id, check.depends()));
    let mut moved: BTreeMap<_, Vec<_>> = BTreeMap::new();
    for (id, entries) in figures.chain(checks) {
        for entry in entries {
            moved.entry(entry).or_default().push(id);
        }
    }
    moved
});

/// The figures and checks that can move with an entry or a figure.
fn moved_by(id: &str) -> Vec<&'static str> {
    match stage::entry(id) {
        Some(spec) => MOVED.get(spec.id).cloned().unwrap_or_default(),
        None => used_by(id),
    }
}

/// The figures whose formulas name a figure, and the checks that judge by it.
fn used_by(id: &str) -> Vec<&'static str> {
    let stem = |id: &str| stage::figure(id).map(|(figure, _)| figure.id);
    let Some(own) = stem(id) else { return Vec::new() };
    let is_own = |id: &str| stem(id) == Some(own);
    let figures = stage::figures().iter().filter(|figure| figure.id != own);
    let figures = figures.filter(|figure| figure.terms.iter().any(|(_, id)| is_own(id)));
    let checks = stage::checks().iter().filter(|check| check.needs.iter().any(|id| is_own(id)));
    figures.map(|figure| figure.id).chain(checks.map(|check| check.id)).collect()
}
