//! What the builder says of money and energy. No price has a default.

use crate::model::{Entry, EntrySpec, TradeUnits};
use crate::units::Kind;
use crate::units::si::{Energy, Ratio, Time};

/// How far the year may be off.
pub static SPREAD: Entry<Ratio> = Entry::percent("plumbing.yield_spread", "how far the year may be off")
    .why("up and down: weather, draws and method together (20 %: common practice, no source)")
    .default("20 %");

/// Efficiency of the heater that is replaced.
pub static HEATER_EFFICIENCY: Entry<Ratio> =
    Entry::quantity("plumbing.heater_efficiency", "efficiency of the heater replaced")
        .why("heat over bought energy: 0.6 to 0.9 with fuel, about 1 electric, 2 to 4 a heat pump (from memory)")
        .hard(0.1, 5.0);

/// Standing loss of the heater that is replaced.
pub static STANDBY: Entry<Energy> = Entry::quantity("plumbing.heater_standby", "standing loss spared in a year")
    .why("of the heater that the plant replaces; 0 kWh if it stays hot all the same")
    .hard(0.0, 1e11);

/// Electricity of the pump.
pub static PUMP_YEAR: Entry<Energy> =
    Entry::quantity("plumbing.pump_year", "electricity of pump and controller in a year, metered")
        .shown_in(TradeUnits::ELECTRICITY)
        .why("left out, the pump's energy of the simulated year counts, without the controller's own few watts")
        .hard(0.0, 1e11);

/// Price of energy.
pub static ENERGY_PRICE: Entry<f64> = Entry::plain("plumbing.energy_price", "price of a bought kWh", Kind::Number)
    .why("in your own money, of the energy that the heater takes")
    .hard(0.0, 1e4);

/// Rise of the price, low.
pub static PRICE_RISE_LOW: Entry<Ratio> =
    Entry::quantity("plumbing.price_rise_low", "rise of the energy price a year, low")
        .why("as a part of one, 0.02 for two percent; may be negative: nobody knows it, so give a range")
        .hard(-0.2, 0.5);

/// Rise of the price, high.
pub static PRICE_RISE_HIGH: Entry<Ratio> =
    Entry::quantity("plumbing.price_rise_high", "rise of the energy price a year, high")
        .why("the other end of the range, as a part of one")
        .hard(-0.2, 0.5);

/// Discount.
pub static DISCOUNT: Entry<Ratio> = Entry::percent("plumbing.discount", "discount a year")
    .why("what your money would bring elsewhere, after inflation is counted in")
    .hard(0.0, 0.5);

/// Inflation of maintenance.
pub static INFLATION: Entry<Ratio> =
    Entry::percent("plumbing.inflation", "rise of maintenance a year").why("of what upkeep costs").hard(0.0, 0.5);

/// Maintenance.
pub static MAINTENANCE: Entry<f64> = Entry::plain("plumbing.maintenance", "maintenance a year", Kind::Number)
    .why("in your own money: glycol, paint, a pump every so often")
    .hard(0.0, 1e6);

/// Years.
pub static LIFETIME: Entry<usize> =
    Entry::count("plumbing.lifetime", "years looked at").why("15 to 25 are usual (from memory)").hard(1.0, 100.0);

/// Carbon.
pub static CARBON_FACTOR: Entry<f64> =
    Entry::plain("plumbing.carbon_factor", "carbon dioxide of a bought kWh, kg", Kind::Number)
        .why("from your supplier; gas 0.20, grid electricity 0.2 to 0.5 are recalled, for orientation")
        .hard(0.0, 3.0);

/// Hours.
pub static HOURS_LOGGED: Entry<Time> = Entry::quantity("plumbing.hours_logged", "hours of work logged")
    .shown_in(TradeUnits::WORK)
    .why("your own work costs no money; it stands beside it as a line of its own")
    .hard(0.0, 1e9);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &SPREAD.spec,
    &HEATER_EFFICIENCY.spec,
    &STANDBY.spec,
    &PUMP_YEAR.spec,
    &ENERGY_PRICE.spec,
    &PRICE_RISE_LOW.spec,
    &PRICE_RISE_HIGH.spec,
    &DISCOUNT.spec,
    &INFLATION.spec,
    &MAINTENANCE.spec,
    &LIFETIME.spec,
    &CARBON_FACTOR.spec,
    &HOURS_LOGGED.spec,
];
