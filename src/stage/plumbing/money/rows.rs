//! The figures and methods of money and carbon, each from the poor to the good case.

use super::entries as e;
use super::{
    CARBON, COST, ELECTRICITY, HOURS, PAYBACK, SAVED, SAVING, WORTH, carbon, electricity, payback, saved, saving, worth,
};
use crate::model::{TradeUnits, Why};
use crate::stage::method::Method;
use crate::stage::{Axis, Figure};
use crate::units::Kind::{Energy, Mass, Number};
use crate::units::Quantity;
use crate::units::si::Dimension;

const COSTS: (&str, &str) = ("cost", "plumbing.money_cost");
const FIRST: (&str, &str) = ("saving", "plumbing.first_saving.likely");
const UPKEEP: (&str, &str) = ("upkeep", "plumbing.maintenance");

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("plumbing.money_spent", "paid so far", Number, &COST, |s, _| {
        Ok(Quantity::number(s.bill.so_far().0).into())
    })
    .by("money", "sum over the bill of what was paid", &[]),
    Figure::new("plumbing.money_cost", "cost of everything on the bill", Number, &COST, |s, _| {
        Ok(Quantity::number(s.bill.cost()?).into())
    })
    .by("money", "sum over the bill: paid + to buy × price; the builder's hours are not in it", &[]),
    Figure::new("plumbing.electricity_year", "electricity of the plant in a year", Energy, &ELECTRICITY, |s, _| {
        Ok(electricity(s)?.into())
    })
    .shown_in(TradeUnits::ELECTRICITY)
    .by("saved-energy", "as metered, else {pump} of the simulated year", &[("pump", "plumbing.pump_energy")]),
    Figure::new("plumbing.saved_energy", "bought energy saved in a year", Energy, &SAVED, |s, case| {
        Ok(saved(s, case)?.into())
    })
    .axis(Axis::Case)
    .by(
        "saved-energy",
        "(sun × (1 ± {spread}) + {standby})/{η} − {pump}",
        &[
            ("spread", "plumbing.yield_spread"),
            ("standby", "plumbing.heater_standby"),
            ("η", "plumbing.heater_efficiency"),
            ("pump", "plumbing.electricity_year"),
        ],
    ),
    Figure::new("plumbing.first_saving", "money saved in the first year", Number, &SAVING, |s, case| {
        Ok(Quantity::number(saving(s, case)?).into())
    })
    .axis(Axis::Case)
    .by("money", "saved kWh × {price}", &[("price", "plumbing.energy_price")]),
    Figure::new("plumbing.payback", "years until the cost is back", Number, &PAYBACK, |s, case| {
        Ok(Quantity::number(payback(s, case)?).into())
    })
    .axis(Axis::Case)
    .by("money", "{cost} / ({saving} − {upkeep}), prices as today", &[COSTS, FIRST, UPKEEP]),
    Figure::new("plumbing.present_value", "net present value", Number, &WORTH, |s, case| {
        Ok(Quantity::number(worth(s, case)?.net_present_value).into())
    })
    .axis(Axis::Case)
    .by(
        "money",
        "{saving} PWF(n, rise, {d}) − {upkeep} PWF(n, {i}, {d}) − {cost}",
        &[FIRST, ("d", "plumbing.discount"), UPKEEP, ("i", "plumbing.inflation"), COSTS],
    ),
    Figure::new("plumbing.levelised_cost", "cost of a saved kWh", Number, &WORTH, |s, case| {
        let cost = worth(s, case)?.levelised_cost_per_kwh;
        Ok(Quantity::number(cost.ok_or_else(|| Why::out_of_range("nothing is saved"))?).into())
    })
    .axis(Axis::Case)
    .by(
        "money",
        "({cost} + {upkeep} PWF(n, {i}, {d})) / (saved kWh × PWF(n, 0, {d}))",
        &[COSTS, UPKEEP, ("i", "plumbing.inflation"), ("d", "plumbing.discount")],
    ),
    Figure::new("plumbing.carbon_saved", "carbon dioxide not emitted in a year", Mass, &CARBON, |s, case| {
        Ok(carbon(s, case)?.into())
    })
    .axis(Axis::Case)
    .by("saved-energy", "saved kWh × {factor}", &[("factor", "plumbing.carbon_factor")]),
    Figure::new("plumbing.hour_value", "present value of an hour of work", Number, &HOURS, |s, case| {
        let hours = s.inputs.get(&e::HOURS_LOGGED)?.si() / 3600.0;
        if hours <= 0.0 {
            return Err(Why::out_of_range("no hour was logged yet"));
        }
        Ok(Quantity::number(worth(s, case)?.net_present_value / hours).into())
    })
    .axis(Axis::Case)
    .by(
        "money",
        "{npv} / {hours}",
        &[("npv", "plumbing.present_value.likely"), ("hours", "plumbing.hours_logged")],
    ),
];

/// The methods of this file.
pub static METHODS: &[Method] = &[
    Method {
        id: "saved-energy",
        title: "Bought energy and carbon saved",
        what: "Heat that the sun gives in the year, and the standing loss that the old heater no longer has, over that \
               heater's efficiency, less the pump. Three cases: the year's heat less by its spread, as computed, more by \
               its spread, but never more than is wanted.",
        source: "energy balance; the year by its own method; spread: common practice, no source",
        code: "physics::economics::saved_energy, stage::plumbing::money",
    },
    Method {
        id: "money",
        title: "Cost, payback and worth",
        what: "Present worth of savings and upkeep over the years looked at, in money of today; the poor case takes the \
               low rise of the energy price, the good one the high. Unknown while a price of the bill is missing. An \
               owner-built plant has no labour cost: hours stand beside it.",
        source: "present worth factors: Duffie & Beckman ch. 11, from memory",
        code: "physics::economics, stage::plumbing::money",
    },
];
