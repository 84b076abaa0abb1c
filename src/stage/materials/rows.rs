//! The figures of the bill, line by line; they stand on the page of the enclosure, before the shopping.

use super::{BILL, Line};
use crate::model::{Fig, Value};
use crate::stage::method::Method;
use crate::stage::{Axis, Figure, Solution, general};
use crate::units::Kind::{Count, Number};
use crate::units::{Quantity, System};

fn line<'a>(s: &'a Solution, key: &str) -> Fig<&'a Line> {
    s.bill.line(key)
}

fn system(s: &Solution) -> System {
    s.inputs.get(&general::UNITS).unwrap_or_default()
}

fn words(text: impl Into<String>) -> Value {
    Value::Text(text.into())
}

/// Number of pieces without a tail of zeros.
pub fn pieces(count: f64) -> String {
    let rounded = (count * 100.0).round() / 100.0;
    format!("{rounded}")
}

fn needed(s: &Solution, key: &str) -> Fig<Value> {
    let line = line(s, key)?;
    let (needed, scrap) = (line.needed.clone()?, line.scrap.clone()?);
    let mut parts = vec![needed.text(system(s))];
    if scrap > 0.0 {
        let share = Quantity::percent(scrap).text(system(s));
        parts.push(format!("with {share} scrap {}", line.with_scrap()?.text(system(s))));
    }
    if !line.purposes.is_empty() {
        parts.push(format!("for {}", line.purposes.join(" and ")));
    }
    Ok(words(parts.join(", ")))
}

fn there(s: &Solution, key: &str) -> Fig<Value> {
    let line = line(s, key)?;
    let mut parts = vec![format!("{} on hand, {} bought", pieces(line.on_hand.clone()?), pieces(line.bought.clone()?))];
    parts.extend(line.date.clone()?.map(|date| date.to_string()));
    parts.extend(line.source.clone()?);
    Ok(words(parts.join(", ")))
}

fn open(s: &Solution) -> Value {
    if s.bill.open.is_empty() {
        return words("nothing");
    }
    let parts: Vec<String> = s.bill.open.iter().map(|(name, why)| format!("{name} ({why})")).collect();
    words(parts.join("; "))
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::word("enclosure.bill_item", "item to ask for", &BILL, |s, key| Ok(words(line(s, key)?.item.clone()?)))
        .axis(Axis::Material)
        .by("bill", "name by size and material, or as entered", &[]),
    Figure::word("enclosure.bill_shelf", "shelf in the shop", &BILL, |s, key| Ok(words(line(s, key)?.shelf.word())))
        .axis(Axis::Material)
        .by("bill", "by what it is", &[]),
    Figure::word("enclosure.bill_needed", "needed", &BILL, needed).axis(Axis::Material).by(
        "bill",
        "sum over all stages and panels, × (1 + scrap)",
        &[],
    ),
    Figure::new("enclosure.bill_pieces", "needed, in pieces as sold", Number, &BILL, |s, key| {
        Ok(Quantity::number(line(s, key)?.pieces()?).into())
    })
    .axis(Axis::Material)
    .by("bill", "needed × (1 + scrap) / one piece", &[]),
    Figure::word("enclosure.bill_there", "already there", &BILL, there).axis(Axis::Material).by(
        "bill",
        "as entered",
        &[],
    ),
    Figure::new("enclosure.bill_buy", "still to buy, pieces", Count, &BILL, |s, key| {
        Ok(Quantity::count(line(s, key)?.to_buy()?).into())
    })
    .axis(Axis::Material)
    .by("bill", "needed pieces − on hand − bought, rounded up", &[]),
    Figure::new("enclosure.bill_left", "left over, pieces", Number, &BILL, |s, key| {
        Ok(Quantity::number(line(s, key)?.left_over()?).into())
    })
    .axis(Axis::Material)
    .by("bill", "on hand + bought + to buy − needed", &[]),
    Figure::new("enclosure.bill_cost", "cost of the line", Number, &BILL, |s, key| {
        Ok(Quantity::number(line(s, key)?.cost()?).into())
    })
    .axis(Axis::Material)
    .by("bill", "paid + to buy × price", &[]),
    Figure::word("enclosure.bill_open", "not counted yet", &BILL, |s, _| Ok(open(s))).by(
        "bill",
        "parts of the project whose sizes are not known",
        &[],
    ),
];

/// The methods of this file.
pub static METHODS: &[Method] = &[Method {
    id: "bill",
    title: "Bill of materials",
    what: "Everything that the stages need for all panels, equal things together, with the scrap of the trade on top; \
           counted in pieces as they are sold. Lengths and sheets are counted by their sum: the cutting plan may need a \
           piece more. Money is a bare number in the builder's own currency.",
    source: "sums; shares of scrap: common practice, no source",
    code: "stage::materials::bill",
}];
