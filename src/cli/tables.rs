//! `figures`: everything that is declared, one line each.

use crate::model::Shape;
use crate::model::lines::Page;
use crate::stage;
use crate::units::{Kind, table};

/// All declared ids with label, kind and method.
pub fn declared() -> String {
    let mut page = Page::default();
    page.subheading("Entries");
    for spec in stage::entries() {
        page.fact(2, &format!("{}: {}; {}", spec.id, spec.label, shape(spec.shape)));
    }
    page.subheading("Figures");
    for figure in stage::figures() {
        let id = if figure.axis.is_some() { format!("{}.*", figure.id) } else { figure.id.to_owned() };
        let kind = figure.kind.map_or("words", noun);
        page.fact(2, &format!("{id}: {}; {kind}; by {}", figure.label, figure.method));
    }
    page.subheading("Checks");
    for check in stage::checks() {
        page.fact(2, &format!("{}: {}; {}", check.id, check.label, check.severity.word()));
    }
    page.subheading("Steps");
    for step in stage::steps() {
        let scope = if step.per_panel { "; on each panel" } else { "" };
        page.fact(2, &format!("{}: {}{scope}", step.id, step.title));
    }
    page.text()
}

/// What can be typed for an entry, in a word or two.
pub fn shape(shape: Shape) -> &'static str {
    match shape {
        Shape::Quantity { kind, .. } => noun(kind),
        Shape::Choice(_) => "one of a list",
        Shape::Text => "words",
        Shape::Flag => "yes or no",
        Shape::Date => "day",
    }
}

/// The name of a kind, without its article.
pub fn noun(kind: Kind) -> &'static str {
    let noun = table::of(kind).noun;
    noun.split_once(' ').map_or(noun, |(_article, name)| name)
}
