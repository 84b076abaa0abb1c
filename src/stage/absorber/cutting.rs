//! Cutting the risers from the coils and bars that lie in the shop.
//!
//! A first-fit plan with its bound is there at once; the exact one is a study. How a job is set up from stock lives in
//! `tube_stock`.

use std::sync::Arc;

use super::geometry::Harp;
use super::tube_stock::{self, Form, Piece, StockEntries, TubeJob};
use crate::model::{Entry, EntrySpec, Fig, Inputs, Value, Why};
use crate::physics::cutting::Plan;
use crate::stage::study::{Cancel, Outcome};
use crate::stage::{Axis, Figure, Group, Solution};
use crate::units::si::Length;
use crate::units::{Kind, Quantity};

/// Length of a stock.
pub static STOCK_LENGTH: Entry<Length> = Entry::quantity("absorber.riser_stock.*.length", "stock length")
    .why("of one coil or one straight length, as it lies there")
    .hard(0.1, 200.0);

/// How many of it are there.
pub static STOCK_COUNT: Entry<usize> = Entry::count("absorber.riser_stock.*.count", "stock count")
    .why("how many lie in the shop; leave it out for as many as you care to buy");

/// Its form.
pub static STOCK_FORM: Entry<Form> = Entry::choice("absorber.riser_stock.*.form", "stock form")
    .why("a coil loses some length to straightening")
    .default("straight");

/// Price of one.
pub static STOCK_PRICE: Entry<f64> = Entry::plain("absorber.riser_stock.*.price", "price of one", Kind::Number)
    .why("in any currency, for all stocks or for none; with prices the cheapest plan counts, else the least tube")
    .hard(0.0, 100_000.0);

/// Width of a cut.
pub static KERF: Entry<Length> = Entry::quantity("absorber.kerf", "width of a cut")
    .why("nothing with a wheel cutter, 1 to 3 mm with a saw")
    .hard(0.0, 0.01)
    .default("0 mm");

/// Trim at each end.
pub static END_TRIM: Entry<Length> = Entry::quantity("absorber.end_trim", "trim at each end")
    .why("crushed or oval ends are cut away")
    .hard(0.0, 0.2)
    .default("10 mm");

/// Loss to straightening of a coil.
pub static STRAIGHTENING: Entry<Length> = Entry::quantity("absorber.straightening", "loss to straightening")
    .why("of a whole coil: its first and last turn never come straight (project rule, 2 × 50 mm)")
    .hard(0.0, 1.0)
    .default("100 mm");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &STOCK_LENGTH.spec,
    &STOCK_COUNT.spec,
    &STOCK_FORM.spec,
    &STOCK_PRICE.spec,
    &KERF.spec,
    &END_TRIM.spec,
    &STRAIGHTENING.spec,
];

/// The stock that risers are cut from.
static STOCK: StockEntries = StockEntries {
    table: "absorber.riser_stock",
    length: &STOCK_LENGTH,
    count: &STOCK_COUNT,
    price: &STOCK_PRICE,
    coils: Some((&STOCK_FORM, &STRAIGHTENING)),
};

/// The riser cuts of the whole project.
pub static RISER_CUTS: Group = Group {
    name: "cutting the risers",
    entries: &[
        "absorber.riser_stock.*.length",
        "absorber.riser_stock.*.count",
        "absorber.riser_stock.*.form",
        "absorber.riser_stock.*.price",
        "absorber.kerf",
        "absorber.end_trim",
        "absorber.straightening",
        "project.units",
    ],
    groups: &[&super::CUT],
};

fn job(inputs: &Inputs, harp: &Harp) -> Fig<TubeJob> {
    let count = harp.riser_count * inputs.panels().len().max(1);
    tube_stock::job(inputs, &STOCK, &[Piece { name: "riser", length: harp.riser_cut.clone()?, count }])
}

/// The job and its first plan: all risers of all panels, from the stocks of the file.
pub fn solve(inputs: &Inputs, harp: &Fig<Harp>) -> (Fig<TubeJob>, Fig<Arc<Plan>>) {
    let job = harp.as_ref().map_err(Why::clone).and_then(|harp| job(inputs, harp));
    let plan = tube_stock::first(&job);
    (job, plan)
}

/// The study: the exact plan.
pub fn study(solution: &Solution, cancel: &Cancel) -> Option<Outcome> {
    let plan = tube_stock::exact(&solution.absorber.riser_job);
    (!cancel.is_cancelled()).then_some(Outcome::RiserCuts(plan))
}

/// The best plan there is.
pub fn best(s: &Solution) -> Fig<Arc<Plan>> {
    tube_stock::best(&s.studies.riser_cuts, &s.absorber.riser_plan)
}

/// The rows of the plan that is shown.
pub fn bars(s: &Solution) -> usize {
    best(s).map_or(0, |plan| plan.bars.len())
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("absorber.risers_wanted", "risers of all panels", Kind::Count, &super::HARP, |s, _| {
        let harp = s.absorber.harp.as_ref().map_err(Clone::clone)?;
        Ok(Quantity::count(harp.riser_count * s.inputs.panels().len().max(1)).into())
    })
    .by("cut-plan", "{n} × panels", &[("n", "absorber.riser_count")]),
    Figure::new("absorber.riser_bars", "coils and lengths to cut", Kind::Count, &RISER_CUTS, |s, _| {
        Ok(Quantity::count(best(s)?.bars.len()).into())
    })
    .by(
        "cut-plan",
        "fewest metres, or least price, that give {wanted} pieces of {cut}",
        &[("wanted", "absorber.risers_wanted"), ("cut", "absorber.riser_cut")],
    ),
    Figure::word("absorber.riser_bar", "coil or length, and what is cut from it", &RISER_CUTS, |s, key| {
        tube_stock::bar_text(s, &s.absorber.riser_job, &*best(s)?, key).map(Value::Text)
    })
    .axis(Axis::RiserBar)
    .by("cut-plan", "bar by bar, equal ones together", &[]),
    Figure::new("absorber.riser_waste", "tube left over", Kind::Length, &RISER_CUTS, |s, _| {
        Ok(tube_stock::left_over(&*best(s)?).into())
    })
    .by("cut-plan", "sum of the offcuts", &[]),
    Figure::new("absorber.riser_plan_price", "price of the plan", Kind::Number, &RISER_CUTS, |s, _| {
        Ok(Quantity::number(tube_stock::price(&s.absorber.riser_job, &*best(s)?, &STOCK)?).into())
    })
    .by("cut-plan", "sum of the prices of the coils and lengths that are cut", &[]),
    Figure::word("absorber.riser_plan_proof", "is the plan the best", &RISER_CUTS, |s, _| {
        Ok(Value::Text(tube_stock::proof(&s.absorber.riser_job, &*best(s)?)))
    })
    .by("cut-plan", "price of the plan against the bound", &[]),
];
