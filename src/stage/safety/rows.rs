//! The figures of the safety stage.

use super::{BOILING, FINAL, FREEZING, FreezingAir, POTABLE, SUPPLY, TANK, TAP, TRAPPED, burn_words};
use crate::model::{Fig, Value};
use crate::stage::plumbing::LIQUID;
use crate::stage::{Figure, Solution};
use crate::units::Kind::{Pressure, Temperature, Time};

fn freezing(s: &Solution) -> Fig<FreezingAir> {
    s.safety.freezing.clone()
}

const FREEZING_FORMULA: &str = "air at which the balance of glass and plate under a clear sky brings the plate to 0 °C";

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::word("safety.burn_at_tank", "burn of an adult at the tank limit", &TANK, |s, _| {
        Ok(Value::Text(burn_words(s.safety.burn_at_tank.clone()?)))
    })
    .by("burn-table", "second to third degree at {T}", &[("T", "plumbing.tank_limit")]),
    Figure::new("safety.tap_hottest", "hottest water at the tap", Temperature, &TAP, |s, _| {
        Ok(s.safety.tap.clone()?.into())
    })
    .by("mixing-valve", "{setting} + 2 K", &[("setting", "safety.mixing_valve_setting")]),
    Figure::word("safety.burn_at_tap", "burn of an adult at the tap", &TAP, |s, _| {
        Ok(Value::Text(burn_words(s.safety.burn_at_tap.clone()?)))
    })
    .by("burn-table", "second to third degree at {T}", &[("T", "safety.tap_hottest")]),
    Figure::new("safety.hot_supply", "hottest supply of the mixing valve", Temperature, &SUPPLY, |s, _| {
        Ok(s.safety.hot_supply.clone()?.into())
    })
    .by(
        "mixing-valve",
        "largest of {limit} (99 °C where no pump limits the tank), {element} of an element in the tank, {last}",
        &[("limit", "plumbing.tank_limit"), ("element", "plumbing.element_set"), ("last", "safety.final_temperature")],
    ),
    Figure::new("safety.freezing_air_calm", "plate freezes in calm air of", Temperature, &FREEZING, |s, _| {
        Ok(freezing(s)?.calm.into())
    })
    .by("freezing-air", FREEZING_FORMULA, &[]),
    Figure::new("safety.freezing_air_light", "plate freezes at 0.5 m/s in air of", Temperature, &FREEZING, |s, _| {
        Ok(freezing(s)?.light.into())
    })
    .by("freezing-air", FREEZING_FORMULA, &[]),
    Figure::new("safety.freezing_air_breeze", "plate freezes at 1 m/s in air of", Temperature, &FREEZING, |s, _| {
        Ok(freezing(s)?.breeze.into())
    })
    .by("freezing-air", FREEZING_FORMULA, &[]),
    Figure::new("safety.liquid_freezes", "liquid begins to freeze", Temperature, &LIQUID, |s, _| {
        Ok(s.safety.freezing_point.clone()?.into())
    })
    .by("glycol-frost", "freezing point of the mixture, {glycol} by volume", &[("glycol", "plumbing.glycol")]),
    Figure::word("safety.potable_loop", "water of the panel is drunk", &POTABLE, |s, _| {
        Ok(Value::Flag(s.safety.potable.clone()?))
    })
    .by("potable-loop", "by the type of loop, {loop}", &[("loop", "plumbing.loop")]),
    Figure::new("safety.boiling", "panel boils at the relief pressure", Temperature, &BOILING, |s, _| {
        Ok(s.safety.boiling.clone()?.into())
    })
    .by(
        "boiling",
        "vapour pressure of the liquid = {relief} + air pressure at {z}",
        &[("relief", "plumbing.relief_setting"), ("z", "site.altitude")],
    ),
    Figure::new("safety.trapped_pressure", "shut-in riser gains, each kelvin", Pressure, &TRAPPED, |s, _| {
        Ok(s.safety.trapped.clone()?.into())
    })
    .by("trapped-water", "(β − 3α)/(κ + D/(t E)) at 40 °C, full of water", &[]),
    Figure::new("safety.kill_time", "final stage kills nine in ten within", Time, &FINAL, |s, _| {
        Ok(s.safety.kill_time.clone()?.into())
    })
    .by("legionella", "2 min × 10^((60 °C − {T})/5.86 K)", &[("T", "safety.final_temperature")]),
];
