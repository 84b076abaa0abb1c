//! Money and carbon: what the plant costs, saves and is worth, as a range from a poor to a good case.
//!
//! Lives here: the year's heat and the bill laid before the laws of `physics::economics`. Must not live here: prices of
//! single things (`stage::materials`), the year itself. Money is a bare number in the builder's own currency.

pub mod entries;
pub mod rows;

use std::sync::Arc;

use super::year::Year;
use crate::model::{Fig, Why};
use crate::physics::economics::{Investment, Worth, YearOfHeat, carbon_saved, saved_energy};
use crate::stage::{Group, Solution, materials};
use crate::units::si::{Dimension, Energy, Mass};
use entries as e;

/// The cases, from the worst to the best.
pub const CASES: [&str; 3] = ["poor", "likely", "good"];

/// What everything costs.
pub static COST: Group = Group { name: "cost of the parts", entries: &[], groups: &[&materials::BILL] };

/// Purchased energy saved in a year.
pub static SAVED: Group = Group {
    name: "purchased energy saved",
    entries: &["plumbing.yield_spread", "plumbing.heater_efficiency", "plumbing.heater_standby"],
    groups: &[&super::year::YEAR, &ELECTRICITY],
};

/// Electricity of the plant.
pub static ELECTRICITY: Group =
    Group { name: "electricity in a year", entries: &["plumbing.pump_year"], groups: &[&super::year::YEAR] };

/// Money saved in the first year.
pub static SAVING: Group =
    Group { name: "money saved in the first year", entries: &["plumbing.energy_price"], groups: &[&SAVED] };

/// What the plant is worth.
pub static WORTH: Group = Group {
    name: "worth of the plant",
    entries: &[
        "plumbing.price_rise_low",
        "plumbing.price_rise_high",
        "plumbing.discount",
        "plumbing.inflation",
        "plumbing.maintenance",
        "plumbing.lifetime",
    ],
    groups: &[&COST, &SAVING],
};

/// Years until the cost is back.
pub static PAYBACK: Group = Group { name: "payback", entries: &["plumbing.maintenance"], groups: &[&COST, &SAVING] };

/// Carbon not emitted.
pub static CARBON: Group =
    Group { name: "carbon not emitted", entries: &["plumbing.carbon_factor"], groups: &[&SAVED] };

/// Cost of an hour of the builder's.
pub static HOURS: Group = Group { name: "worth of an hour", entries: &["plumbing.hours_logged"], groups: &[&WORTH] };

/// The sign of the spread in a case: less in the poor one, more in the good one.
fn sign(case: &str) -> Fig<f64> {
    match case {
        "poor" => Ok(-1.0),
        "likely" => Ok(0.0),
        "good" => Ok(1.0),
        other => Err(Why::missing(other)),
    }
}

/// Purchased energy saved in a year. The sun gives no more than is wanted; all of the load is met, so nothing is lacking
/// at the taps.
pub fn saved(s: &Solution, case: &str) -> Fig<Energy> {
    let year: Arc<Year> = s.studies.year.clone()?;
    let spread = s.inputs.get(&e::SPREAD)?.si() * sign(case)?;
    let load = year.outcome.year.load();
    let delivered = (super::year::from_sun(&year.outcome.year) * (1.0 + spread)).min(load);
    saved_energy(&YearOfHeat {
        load,
        reference_standby: s.inputs.get(&e::STANDBY)?,
        auxiliary: load - delivered,
        shortfall: Energy::from_si(0.0),
        heater_efficiency: s.inputs.get(&e::HEATER_EFFICIENCY)?.si(),
        pump: electricity(s)?,
    })
    .map_err(Why::out_of_range)
}

/// Electricity of the plant in a year: as metered, else of the pump in the simulated year.
pub fn electricity(s: &Solution) -> Fig<Energy> {
    match s.inputs.given(&e::PUMP_YEAR)? {
        Some(metered) => Ok(metered),
        None => Ok(s.studies.year.as_deref().map_err(Clone::clone)?.outcome.year.pump_energy()),
    }
}

/// J in one kWh.
const KILOWATT_HOUR: f64 = 3.6e6;

/// Money saved in the first year.
pub fn saving(s: &Solution, case: &str) -> Fig<f64> {
    Ok(saved(s, case)?.si() / KILOWATT_HOUR * s.inputs.get(&e::ENERGY_PRICE)?)
}

/// Rise of the price of energy in a case; midway in the likely one.
fn price_rise(s: &Solution, case: &str) -> Fig<f64> {
    let (low, high) = (s.inputs.get(&e::PRICE_RISE_LOW)?.si(), s.inputs.get(&e::PRICE_RISE_HIGH)?.si());
    Ok(f64::midpoint(low, high) + sign(case)? * (high - low) / 2.0)
}

/// Payback, present value and levelised cost.
pub fn worth(s: &Solution, case: &str) -> Fig<Worth> {
    let years = s.inputs.get(&e::LIFETIME)?;
    Investment {
        cost: s.bill.cost()?,
        saving: saving(s, case)?.max(0.0),
        maintenance: s.inputs.get(&e::MAINTENANCE)?,
        fuel_escalation: price_rise(s, case)?,
        discount: s.inputs.get(&e::DISCOUNT)?.si(),
        inflation: s.inputs.get(&e::INFLATION)?.si(),
        years: u32::try_from(years).unwrap_or(u32::MAX),
        saved_energy: saved(s, case)?.max(Energy::from_si(0.0)),
    }
    .worth()
    .map_err(Why::out_of_range)
}

/// Years of cost over what is kept each year, prices as today.
pub fn payback(s: &Solution, case: &str) -> Fig<f64> {
    let kept = saving(s, case)? - s.inputs.get(&e::MAINTENANCE)?;
    if kept <= 0.0 {
        return Err(Why::out_of_range("never: the saving does not exceed the maintenance"));
    }
    Ok(s.bill.cost()? / kept)
}

/// Carbon dioxide not emitted in a year.
pub fn carbon(s: &Solution, case: &str) -> Fig<Mass> {
    carbon_saved(saved(s, case)?, s.inputs.get(&e::CARBON_FACTOR)?).map_err(Why::out_of_range)
}
