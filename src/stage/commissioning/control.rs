//! Settings of the controller: do they keep the pump running, and which resistors simulate them.

use super::sensor::Sensor;
use crate::model::{Entry, EntrySpec, Fig, Judgement, TradeUnits, Verdict, Why};
use crate::physics::differential_control::{ControlStability, DifferentialControl};
use crate::stage::plumbing::entries::{LOOP, LoopType, TANK_LIMIT};
use crate::stage::{Check, Figure, Group, Severity, Solution, plumbing};
use crate::units::Kind::{Resistance, TemperatureDifference};
use crate::units::si::{
    Dimension, ElectricalResistance, Length, Temperature, TemperatureInterval, ZERO_CELSIUS, celsius,
};

/// Start difference.
pub static START: Entry<TemperatureInterval> = Entry::quantity("commissioning.start_difference", "pump starts at")
    .why("panel over tank; 8 to 10 K are common, 4 to 11 K are published")
    .hard(0.5, 40.0)
    .usual(4.0, 12.0)
    .default("8 K");

/// Stop difference.
pub static STOP: Entry<TemperatureInterval> = Entry::quantity("commissioning.stop_difference", "pump stops at")
    .why("panel over tank; 3 to 5 K are common, 2 to 3 K are published")
    .hard(0.0, 30.0)
    .usual(1.0, 6.0)
    .default("4 K");

/// Frost trip.
pub static FROST_TRIP: Entry<Temperature> = Entry::quantity("commissioning.frost_trip", "frost protection acts at")
    .why("on the plate; 4 to 5 °C are common, a clear sky takes the plate far below the air")
    .hard(ZERO_CELSIUS - 30.0, ZERO_CELSIUS + 20.0)
    .usual(ZERO_CELSIUS + 3.0, ZERO_CELSIUS + 9.0)
    .default("5 °C");

/// Lock-out.
pub static LOCK_OUT: Entry<Temperature> = Entry::quantity("commissioning.lock_out", "pump locked above")
    .why("of the panel's sensor: as set on the controller, so that no cold liquid meets a hot plate")
    .hard(ZERO_CELSIUS + 60.0, ZERO_CELSIUS + 149.0)
    .usual(ZERO_CELSIUS + 80.0, ZERO_CELSIUS + 130.0);

/// Height of the loop.
pub static TOP_HEIGHT: Entry<Length> = Entry::quantity("commissioning.top_height", "loop's top above its gauge")
    .shown_in(TradeUnits::SITE)
    .why("about 0.1 bar for each metre stands between them")
    .hard(0.0, 60.0)
    .usual(0.5, 20.0);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[&START.spec, &STOP.spec, &FROST_TRIP.spec, &LOCK_OUT.spec, &TOP_HEIGHT.spec];

static LIMITS: Group = Group {
    name: "differences that suit the plant",
    entries: &["commissioning.start_difference", "commissioning.stop_difference"],
    groups: &[&plumbing::LINE, &plumbing::ROW],
};

static FROST_RESISTOR: Group =
    Group { name: "resistor for frost", entries: &["commissioning.frost_trip"], groups: &[&super::SENSOR_TYPE] };

static LOCK_RESISTOR: Group =
    Group { name: "resistor for the lock-out", entries: &["commissioning.lock_out"], groups: &[&super::SENSOR_TYPE] };

static LIMIT_RESISTOR: Group =
    Group { name: "resistor for the tank limit", entries: &["plumbing.tank_limit"], groups: &[&super::SENSOR_TYPE] };

/// How far past a setting a resistor is chosen, K.
const PAST: f64 = 2.0;

/// Whether the loop is never meant to be empty.
pub fn stays_full(s: &Solution) -> Fig<bool> {
    Ok(s.inputs.get(&LOOP)? != LoopType::Drainback)
}

fn stability(s: &Solution) -> Fig<ControlStability> {
    let line = s.plumbing.line.clone()?;
    let liquid = s.plumbing.fluid.clone()?;
    let at = celsius(45.0);
    let rate = s.plumbing.row.clone()?.flow.si() * liquid.density(at).si() * liquid.specific_heat(at).si();
    let control = DifferentialControl {
        area: line.area,
        loss: line.loss,
        exchanged_rate: rate,
        start: s.inputs.get(&START)?,
        stop: s.inputs.get(&STOP)?,
    };
    control.stability().map_err(Why::out_of_range)
}

/// A resistor that the controller takes for a temperature a little past a setting.
fn resistor(s: &Solution, setting: &Entry<Temperature>, past: f64) -> Fig<ElectricalResistance> {
    let wanted = Temperature::from_si(s.inputs.get(setting)?.si() + past);
    Sensor::of(&s.inputs)?.resistance(wanted)
}

fn keeps_running(s: &Solution) -> Fig<Judgement> {
    let (start, stop) = (s.inputs.get(&START)?, s.inputs.get(&STOP)?);
    let limits = stability(s)?;
    let verdict = match (stop >= start, limits.stays_on) {
        (true, _) => Verdict::Stop,
        (false, true) => Verdict::Clear,
        (false, false) => Verdict::Caution,
    };
    Ok(Judgement::of(verdict).with(stop, limits.greatest_stop).margin(limits.greatest_stop - stop))
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new(
        "commissioning.greatest_stop",
        "stop at or below this never cycles",
        TemperatureDifference,
        &LIMITS,
        |s, _| Ok(stability(s)?.greatest_stop.into()),
    )
    .by(
        "control-stability",
        "A {F_R U_L} / C × {start}",
        &[("F_R U_L", "plumbing.inlet_loss"), ("start", "commissioning.start_difference")],
    ),
    Figure::new(
        "commissioning.least_start",
        "start from which that stop never cycles (no usual setting)",
        TemperatureDifference,
        &LIMITS,
        |s, _| Ok(stability(s)?.least_start.into()),
    )
    .by("control-stability", "{stop} × C / (A F_R U_L)", &[("stop", "commissioning.stop_difference")]),
    Figure::new("commissioning.resistor_frost", "resistor for frost", Resistance, &FROST_RESISTOR, |s, _| {
        Ok(resistor(s, &FROST_TRIP, -PAST)?.into())
    })
    .by("sensor-curve", "R at {T} − 2 K", &[("T", "commissioning.frost_trip")]),
    Figure::new("commissioning.resistor_lock_out", "resistor for the lock-out", Resistance, &LOCK_RESISTOR, |s, _| {
        Ok(resistor(s, &LOCK_OUT, PAST)?.into())
    })
    .by("sensor-curve", "R at {T} + 2 K", &[("T", "commissioning.lock_out")]),
    Figure::new("commissioning.resistor_limit", "resistor for the tank limit", Resistance, &LIMIT_RESISTOR, |s, _| {
        Ok(resistor(s, &TANK_LIMIT, PAST)?.into())
    })
    .by("sensor-curve", "R at {T} + 2 K", &[("T", "plumbing.tank_limit")]),
];

/// The checks of this file.
pub static CHECKS: &[Check] = &[Check::new(
    "commissioning.control-settings",
    "settings that keep the pump running",
    Severity::Nuisance,
    keeps_running,
)
.says(
    "The pump stops at {found}; after a start on a weak sun it stays on up to {limit} only, so it will cycle on some \
     mornings. Common settings do, and it costs little.",
    "Count the starts; above 12 a day less flow or a larger start difference. The stop stands below the start.",
)
.blind_to("clouds, a long cold pipe, a sensor that is slow or badly placed")
.source("stability of the pump, derived anew")
.recalls("Duffie & Beckman 10.4")
.needs(&["commissioning.greatest_stop", "commissioning.stop_difference", "commissioning.start_difference"])];
