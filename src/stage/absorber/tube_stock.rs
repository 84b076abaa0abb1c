//! Tube that lies in the shop or is to be bought, and plans for cutting pieces from it.
//!
//! Which pieces are wanted lives in `cutting` (risers) and `header_cuts`; the search is general and lives in
//! `physics::cutting`.

use std::sync::Arc;

use crate::model::{Choice, Entry, Fig, Inputs, Why};
use crate::physics::cutting::{self, Job, Part, Plan, Stock};
use crate::stage::stock::{available, counted, tenths};
use crate::stage::{Solution, general};
use crate::units::si::Length;
use crate::units::{Quantity, System};

use super::cutting::{END_TRIM, KERF};

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

/// The entries that tell what stock there is.
pub struct StockEntries {
    /// The table whose rows are the stocks.
    pub table: &'static str,
    /// Length of one.
    pub length: &'static Entry<Length>,
    /// How many there are; none for as many as are wanted.
    pub count: &'static Entry<usize>,
    /// Price of one.
    pub price: &'static Entry<f64>,
    /// Its form and what a coil loses to straightening, where coils will do.
    pub coils: Option<(&'static Entry<Form>, &'static Entry<Length>)>,
}

/// Equal pieces that are wanted.
#[derive(Clone, Copy, Debug)]
pub struct Piece {
    /// What one is called.
    pub name: &'static str,
    /// Its finished length.
    pub length: Length,
    /// How many.
    pub count: usize,
}

/// A job with the names of its stocks and parts.
#[derive(Clone, Debug)]
pub struct TubeJob {
    /// The names of the stocks, as in the file.
    pub names: Vec<String>,
    /// The names of the parts, in the order of the job's parts.
    pub parts: Vec<&'static str>,
    /// The job.
    pub job: Job,
    /// Whether the stocks have prices; else a bar costs its length.
    pub is_priced: bool,
}

/// Sets a job up: the pieces from the stocks of the file.
pub fn job(inputs: &Inputs, from: &StockEntries, pieces: &[Piece]) -> Fig<TubeJob> {
    let names = inputs.rows(from.table);
    if names.is_empty() {
        return Err(Why::missing(from.length.spec.id));
    }
    let is_priced = names.iter().any(|name| inputs.at(from.price, name).is_ok());
    let mut stocks = Vec::new();
    for name in &names {
        let length = tenths(usable(inputs, from, name)?)?;
        let available = available(inputs, from.count, name)?;
        // Prices in proportion to length make the plan use the least tube.
        let price = if is_priced { hundredths(inputs.at(from.price, name)?) } else { length.0 };
        stocks.push(Stock { length, available, price });
    }
    let part = |piece: &Piece| Ok(Part { length: tenths(piece.length)?, count: counted(piece.count) });
    let job = Job {
        parts: pieces.iter().map(part).collect::<Fig<_>>()?,
        stocks,
        kerf: tenths(inputs.get(&KERF)?)?,
        end_trim: tenths(inputs.get(&END_TRIM)?)?,
    };
    Ok(TubeJob { names, parts: pieces.iter().map(|piece| piece.name).collect(), job, is_priced })
}

/// Length of one stock once it is straight.
fn usable(inputs: &Inputs, from: &StockEntries, name: &str) -> Fig<Length> {
    let whole = inputs.at(from.length, name)?;
    match from.coils {
        Some((form, loss)) if inputs.at(form, name)? == Form::Coil => Ok(whole - inputs.get(loss)?),
        _ => Ok(whole),
    }
}

/// A price in whole hundredths; the entry's bounds keep it small.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn hundredths(price: f64) -> u32 {
    (price * HUNDRED).round() as u32
}

/// Parts of the currency in which prices are kept.
pub const HUNDRED: f64 = 100.0;

/// A plan at once, by first fit.
pub fn first(job: &Fig<TubeJob>) -> Fig<Arc<Plan>> {
    planned(job, cutting::first_fit_decreasing)
}

/// The exact plan, for a study.
pub fn exact(job: &Fig<TubeJob>) -> Fig<Arc<Plan>> {
    planned(job, cutting::cheapest)
}

fn planned(job: &Fig<TubeJob>, plan: fn(&Job) -> Result<Plan, cutting::CuttingError>) -> Fig<Arc<Plan>> {
    let job = job.as_ref().map_err(Why::clone)?;
    plan(&job.job).map(Arc::new).map_err(|error| match error {
        cutting::CuttingError::PartTooLong(part) => {
            let name = job.parts.get(part).copied().unwrap_or("piece");
            Why::out_of_range(format_args!("no tube in stock is long enough for the {name}"))
        }
        error => Why::out_of_range(error),
    })
}

/// The best plan there is: the exact one if it is back, else the first-fit one.
pub fn best(exact: &Fig<Arc<Plan>>, first: &Fig<Arc<Plan>>) -> Fig<Arc<Plan>> {
    match exact {
        Err(Why::Pending) => first.clone(),
        found => found.clone(),
    }
}

/// One bar in words: what is cut from it and what is left; rows count from 1.
pub fn bar_text(s: &Solution, job: &Fig<TubeJob>, plan: &Plan, row: &str) -> Fig<String> {
    let job = job.as_ref().map_err(Clone::clone)?;
    let index: usize = row.parse().map_err(|_| Why::out_of_range(format_args!("there is no bar {row}")))?;
    let bar = index.checked_sub(1).and_then(|index| plan.bars.get(index));
    let bar = bar.ok_or_else(|| Why::out_of_range(format_args!("there is no bar {row}")))?;
    let pieces: Vec<String> = job
        .parts
        .iter()
        .zip(&bar.pieces)
        .filter(|(_, count)| **count > 0)
        .map(|(part, count)| format!("{count} {part}{}", if *count == 1 { "" } else { "s" }))
        .collect();
    let name = job.names.get(bar.stock).map_or("", String::as_str);
    let system = s.inputs.get(&general::UNITS).unwrap_or(System::Si);
    let rest = Quantity::from(bar.offcut.length()).text(system);
    Ok(format!("{name}: {}, {rest} left", pieces.join(", ")))
}

/// Whether a plan is proved, in words; where it is not, by how much a better one could beat it.
pub fn proof(job: &Fig<TubeJob>, plan: &Plan) -> String {
    match (plan.is_proved(), job.as_ref().is_ok_and(|job| job.is_priced)) {
        (true, false) => "proved: no plan uses less tube".to_owned(),
        (true, true) => "proved: no plan costs less".to_owned(),
        (false, _) => {
            let beaten = 1.0 - plan.lowest_price as f64 / plan.price.max(1) as f64;
            format!("best found; none can use {:.1} % less", 100.0 * beaten)
        }
    }
}

/// The sum of the prices; none if the stocks have no prices.
pub fn price(job: &Fig<TubeJob>, plan: &Plan, from: &StockEntries) -> Fig<f64> {
    if !job.as_ref().map_err(Clone::clone)?.is_priced {
        return Err(Why::missing(from.price.spec.id));
    }
    Ok(plan.price as f64 / HUNDRED)
}

/// What is left of all bars together.
pub fn left_over(plan: &Plan) -> Length {
    plan.bars.iter().map(|bar| bar.offcut.length()).fold(Length::default(), |sum, left| sum + left)
}
