//! Cutting the headers: one length for each, or between tees a row of short pieces and two ends.
//!
//! Headers are cut from straight lengths only: a coil never lies true enough for a row of holes. How a job is set up
//! from stock lives in `tube_stock`.

use std::sync::Arc;

use super::entries::{self as e, Joint};
use super::geometry::Harp;
use super::joints::{self, PIECES};
use super::tube_stock::{self, Piece, StockEntries, TubeJob};
use crate::model::{Entry, EntrySpec, Fig, Inputs, Value, Why};
use crate::physics::cutting::Plan;
use crate::stage::study::{Cancel, Outcome};
use crate::stage::{Axis, Figure, Group, Solution};
use crate::units::si::Length;
use crate::units::{Kind, Quantity};

/// Length of a stock.
pub static STOCK_LENGTH: Entry<Length> = Entry::quantity("absorber.header_stock.*.length", "header stock, length")
    .why("of one straight length of header tube, as it lies there or is sold")
    .hard(0.1, 20.0);

/// How many of it are there.
pub static STOCK_COUNT: Entry<usize> = Entry::count("absorber.header_stock.*.count", "header stock, count")
    .why("how many lie in the shop; leave it out for as many as you care to buy");

/// Price of one.
pub static STOCK_PRICE: Entry<f64> = Entry::plain("absorber.header_stock.*.price", "header stock, price", Kind::Number)
    .why("in any currency, for all stocks or for none; with prices the cheapest plan counts, else the least tube")
    .hard(0.0, 100_000.0);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[&STOCK_LENGTH.spec, &STOCK_COUNT.spec, &STOCK_PRICE.spec];

static STOCK: StockEntries = StockEntries {
    table: "absorber.header_stock",
    length: &STOCK_LENGTH,
    count: &STOCK_COUNT,
    price: &STOCK_PRICE,
    coils: None,
};

/// The header cuts of the whole project.
pub static HEADER_CUTS: Group = Group {
    name: "cutting the headers",
    entries: &[
        "absorber.header_stock.*.length",
        "absorber.header_stock.*.count",
        "absorber.header_stock.*.price",
        "absorber.kerf",
        "absorber.end_trim",
        "project.units",
    ],
    groups: &[&PIECES],
};

/// The pieces of all headers of all panels.
fn pieces(inputs: &Inputs, harp: &Harp) -> Fig<Vec<Piece>> {
    let headers = 2 * inputs.panels().len().max(1);
    if inputs.get(&e::JOINT)? != Joint::Tee {
        return Ok(vec![Piece { name: "header", length: harp.header_length, count: headers }]);
    }
    let end = |name, stub: &Entry<Length>| {
        Ok(Piece { name, length: joints::end_piece(inputs, harp, inputs.get(stub)?)?, count: headers })
    };
    Ok(vec![
        Piece {
            name: "middle piece",
            length: joints::middle_piece(inputs, harp)?,
            count: (harp.riser_count - 1) * headers,
        },
        end("left end", &e::STUB_LEFT)?,
        end("right end", &e::STUB_RIGHT)?,
    ])
}

/// The job and its first plan: all headers of all panels, from the stocks of the file.
pub fn solve(inputs: &Inputs, harp: &Fig<Harp>) -> (Fig<TubeJob>, Fig<Arc<Plan>>) {
    let job =
        harp.as_ref().map_err(Why::clone).and_then(|harp| tube_stock::job(inputs, &STOCK, &pieces(inputs, harp)?));
    let plan = tube_stock::first(&job);
    (job, plan)
}

/// The study: the exact plan.
pub fn study(solution: &Solution, cancel: &Cancel) -> Option<Outcome> {
    let plan = tube_stock::exact(&solution.absorber.header_job);
    (!cancel.is_cancelled()).then_some(Outcome::HeaderCuts(plan))
}

/// The best plan there is.
fn best(s: &Solution) -> Fig<Arc<Plan>> {
    tube_stock::best(&s.studies.header_cuts, &s.absorber.header_plan)
}

/// The rows of the plan that is shown.
pub fn bars(s: &Solution) -> usize {
    best(s).map_or(0, |plan| plan.bars.len())
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("absorber.header_bars", "lengths of header tube to cut", Kind::Count, &HEADER_CUTS, |s, _| {
        Ok(Quantity::count(best(s)?.bars.len()).into())
    })
    .by(
        "cut-plan",
        "fewest metres, or least price, that give all headers; between tees n − 1 pieces and two ends for each",
        &[],
    ),
    Figure::word("absorber.header_bar", "headers cut from", &HEADER_CUTS, |s, key| {
        tube_stock::bar_text(s, &s.absorber.header_job, &*best(s)?, key).map(Value::Text)
    })
    .axis(Axis::HeaderBar)
    .by("cut-plan", "bar by bar, equal ones together", &[]),
    Figure::new("absorber.header_waste", "header tube left over", Kind::Length, &HEADER_CUTS, |s, _| {
        Ok(tube_stock::left_over(&*best(s)?).into())
    })
    .by("cut-plan", "sum of the offcuts", &[]),
    Figure::new("absorber.header_plan_price", "price of the header tube", Kind::Number, &HEADER_CUTS, |s, _| {
        Ok(Quantity::number(tube_stock::price(&s.absorber.header_job, &*best(s)?, &STOCK)?).into())
    })
    .by("cut-plan", "sum of the prices of the lengths that are cut", &[]),
    Figure::word("absorber.header_plan_proof", "is the header plan the best", &HEADER_CUTS, |s, _| {
        Ok(Value::Text(tube_stock::proof(&s.absorber.header_job, &*best(s)?)))
    })
    .by("cut-plan", "price of the plan against the bound", &[]),
];
