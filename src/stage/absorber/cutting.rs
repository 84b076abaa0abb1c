//! Cutting the risers from the coils and bars that lie in the shop.
//!
//! A first-fit plan with its bound is there at once; the exact one is a study. The search itself is general and lives
//! in `physics::cutting`.

use std::sync::Arc;

use super::geometry::Harp;
use crate::model::{Choice, Entry, EntrySpec, Fig, Inputs, Value, Why};
use crate::physics::cutting::{self, Job, Part, Plan, Stock, Tenths};
use crate::stage::study::{Cancel, Outcome};
use crate::stage::{Axis, Figure, Group, Solution};
use crate::units::si::{Dimension, Length};
use crate::units::{Kind, Quantity, System};

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

/// Coil or straight.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// A straight length.
    Straight,
    /// A coil.
    Coil,
}

impl Choice for Form {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] =
        &[(Self::Straight, "straight", "a straight length"), (Self::Coil, "coil", "a coil, to be straightened")];
}

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

/// A job with the names of its stocks.
#[derive(Clone, Debug)]
pub struct RiserJob {
    /// The names of the stocks, as in the file.
    pub names: Vec<String>,
    /// The job.
    pub job: Job,
    /// Whether the stocks have prices; else a bar costs its length.
    pub is_priced: bool,
}

/// Sets the job up: all risers of all panels, from the stocks of the file.
pub fn job(inputs: &Inputs, harp: &Harp) -> Fig<RiserJob> {
    let names = inputs.rows("absorber.riser_stock");
    if names.is_empty() {
        return Err(Why::missing(STOCK_LENGTH.spec.id));
    }
    let straightening = inputs.get(&STRAIGHTENING)?;
    let is_priced = names.iter().any(|name| inputs.at(&STOCK_PRICE, name).is_ok());
    let mut stocks = Vec::new();
    for name in &names {
        let whole = inputs.at(&STOCK_LENGTH, name)?;
        let form = inputs.at(&STOCK_FORM, name).unwrap_or(Form::Straight);
        let usable = if form == Form::Coil { whole - straightening } else { whole };
        let available = match inputs.at(&STOCK_COUNT, name) {
            Ok(count) => Some(u32::try_from(count).unwrap_or(u32::MAX)),
            Err(Why::Missing(_)) => None,
            Err(why) => return Err(why),
        };
        // Prices in proportion to length make the plan use the least tube.
        let length = tenths(usable)?;
        let price = if is_priced { hundredths(inputs.at(&STOCK_PRICE, name)?) } else { length.0 };
        stocks.push(Stock { length, available, price });
    }
    let risers = harp.riser_count * inputs.panels().len().max(1);
    let part = Part { length: tenths(harp.riser_cut.clone()?)?, count: u32::try_from(risers).unwrap_or(u32::MAX) };
    let job =
        Job { parts: vec![part], stocks, kerf: tenths(inputs.get(&KERF)?)?, end_trim: tenths(inputs.get(&END_TRIM)?)? };
    Ok(RiserJob { names, job, is_priced })
}

/// A price in whole hundredths; the entry's bounds keep it small.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn hundredths(price: f64) -> u32 {
    (price * HUNDRED).round() as u32
}

const HUNDRED: f64 = 100.0;

fn tenths(length: Length) -> Fig<Tenths> {
    Tenths::rounded(length).map_err(Why::out_of_range)
}

/// A plan to cut by, the first-fit one at once.
pub fn first_plan(job: &RiserJob) -> Fig<Plan> {
    cutting::first_fit_decreasing(&job.job).map_err(Why::out_of_range)
}

/// The study: the exact plan.
pub fn study(solution: &Solution, cancel: &Cancel) -> Option<Outcome> {
    let exact = |job: RiserJob| cutting::cheapest(&job.job).map(Arc::new).map_err(Why::out_of_range);
    let plan = solution.absorber.riser_job.clone().and_then(exact);
    (!cancel.is_cancelled()).then_some(Outcome::RiserCuts(plan))
}

/// The best plan there is: the exact one if it is back, else the first-fit one.
pub fn best(s: &Solution) -> Fig<Arc<Plan>> {
    match &s.studies.riser_cuts {
        Ok(plan) => Ok(Arc::clone(plan)),
        Err(Why::Pending) => s.absorber.riser_plan.clone().map(Arc::new),
        Err(why) => Err(why.clone()),
    }
}

fn bar_text(s: &Solution, plan: &Plan, index: usize) -> Fig<Value> {
    let bar = plan.bars.get(index).ok_or_else(|| Why::missing(STOCK_LENGTH.spec.id))?;
    let job = s.absorber.riser_job.as_ref().map_err(Clone::clone)?;
    let name = job.names.get(bar.stock).map_or("", String::as_str);
    let pieces: u32 = bar.pieces.iter().sum();
    let system = s.inputs.get(&crate::stage::general::UNITS).unwrap_or(System::Si);
    let rest = Quantity::from(bar.offcut.length()).text(system);
    Ok(Value::Text(format!("{name}: {pieces} risers, {rest} left")))
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
    Figure::word("absorber.riser_bar", "cut from", &RISER_CUTS, |s, key| {
        let index: usize = key.parse().map_err(|_| Why::missing(STOCK_LENGTH.spec.id))?;
        bar_text(s, &*best(s)?, index.wrapping_sub(1))
    })
    .axis(Axis::RiserBar)
    .by("cut-plan", "bar by bar, equal ones together", &[]),
    Figure::new("absorber.riser_waste", "tube left over", Kind::Length, &RISER_CUTS, |s, _| {
        let left: f64 = best(s)?.bars.iter().map(|bar| bar.offcut.length().si()).sum();
        Ok(Length::from_si(left).into())
    })
    .by("cut-plan", "sum of the offcuts", &[]),
    Figure::new("absorber.riser_plan_price", "price of the plan", Kind::Number, &RISER_CUTS, |s, _| {
        if !s.absorber.riser_job.as_ref().map_err(Clone::clone)?.is_priced {
            return Err(Why::missing(STOCK_PRICE.spec.id));
        }
        Ok(Quantity::number(best(s)?.price as f64 / HUNDRED).into())
    })
    .by("cut-plan", "sum of the prices of the coils and lengths that are cut", &[]),
    Figure::word("absorber.riser_plan_proof", "is the plan the best", &RISER_CUTS, |s, _| {
        let plan = best(s)?;
        let is_priced = s.absorber.riser_job.as_ref().is_ok_and(|job| job.is_priced);
        let words = match (plan.is_proved(), is_priced) {
            (true, false) => "proved: no plan uses less tube",
            (true, true) => "proved: no plan costs less",
            (false, _) => "best found so far",
        };
        Ok(Value::Text(words.to_owned()))
    })
    .by("cut-plan", "price of the plan against the bound", &[]),
];

/// The rows of the plan that is shown.
pub fn bars(s: &Solution) -> usize {
    best(s).map_or(0, |plan| plan.bars.len())
}

/// Sets the job and the first plan up for the results.
pub fn solve(inputs: &Inputs, harp: &Fig<Harp>) -> (Fig<RiserJob>, Fig<Plan>) {
    let job = harp.as_ref().map_err(Why::clone).and_then(|harp| job(inputs, harp));
    let plan = job.as_ref().map_err(Why::clone).and_then(first_plan);
    (job, plan)
}
