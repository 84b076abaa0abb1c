//! Sensors held against ice, boiling water and each other.

use super::entries as e;
use super::sensor::{self, Sensor};
use crate::model::{Choice, Entry, EntrySpec, Fig, Fold, Judgement, Verdict, Why};
use crate::physics::atmosphere;
use crate::physics::sensor::PlatinumClass;
use crate::physics::steam::saturation;
use crate::stage::{Check, Figure, Group, Severity, Solution, site};
use crate::units::Kind::{Temperature as Degrees, TemperatureDifference};
use crate::units::si::{
    Dimension, ElectricalResistance, Pressure, Temperature, TemperatureInterval, ZERO_CELSIUS, celsius, difference,
};

/// Class of platinum sensors.
pub static CLASS: Entry<Class> = Entry::choice("commissioning.sensor_class", "class of platinum sensors")
    .why("printed on the sheet; B where nothing is said")
    .default("B");

/// Sensor in ice.
pub static ICE: Entry<Temperature> = Entry::quantity("commissioning.ice", "panel sensor in ice slush says")
    .why("crushed ice of clean water, stirred, five minutes")
    .hard(ZERO_CELSIUS - 20.0, ZERO_CELSIUS + 40.0)
    .per_panel()
    .measured(Fold::Latest);

/// Sensor in boiling water.
pub static BOILING: Entry<Temperature> = Entry::quantity("commissioning.boiling", "panel sensor in boiling water says")
    .why("in the water, not on the pot; boiling falls with altitude")
    .hard(ZERO_CELSIUS + 60.0, ZERO_CELSIUS + 130.0)
    .per_panel()
    .measured(Fold::Latest);

/// Pair in one bath.
pub static PAIR: Entry<TemperatureInterval> = Entry::quantity("commissioning.pair", "panel less tank sensor, one bath")
    .why("both in one stirred bath at 20, 45 and 70 °C: each difference is a reading of its own")
    .hard(-20.0, 20.0)
    .measured(Fold::Mean);

/// Resistance of the leads.
pub static LEADS: Entry<ElectricalResistance> =
    Entry::quantity("commissioning.leads", "resistance of the sensor's leads")
        .why("both wires of a two-wire circuit, the far ends joined")
        .hard(0.0, 1000.0)
        .measured(Fold::Latest);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[&CLASS.spec, &ICE.spec, &BOILING.spec, &PAIR.spec, &LEADS.spec];

/// Class of a platinum sensor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Class {
    /// Narrow.
    A,
    /// Wide.
    B,
}

impl Choice for Class {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] =
        &[(Self::A, "A", "± (0.15 + 0.002 |t|) K"), (Self::B, "B", "± (0.30 + 0.005 |t|) K")];
}

/// Ice slush (project rule), K.
const ICE_ALLOWED: f64 = 0.3;
/// Boiling water (project rule), K.
const BOILING_ALLOWED: f64 = 0.5;
/// Pair in one bath (project rule), K.
const PAIR_ALLOWED: f64 = 0.1;
/// What a pair may be off and still serve, K (project rule).
const PAIR_LEAST: f64 = 1.0;

static BOILS: Group = Group { name: "boiling point", entries: &["site.altitude"], groups: &[] };

static TOLERANCE: Group =
    Group { name: "tolerance of the sensor", entries: &["commissioning.sensor_class"], groups: &[&super::SENSOR] };

static LEAD_ERROR: Group =
    Group { name: "error of the leads", entries: &["commissioning.leads"], groups: &[&super::SENSOR_TYPE] };

static OFFSET: Group = Group { name: "offset of the pair", entries: &["commissioning.pair"], groups: &[] };

fn boils(s: &Solution) -> Fig<Temperature> {
    let around = atmosphere::pressure(s.inputs.get(&site::entries::ALTITUDE)?);
    saturation(Pressure::from_si(0.0), around).map_err(Why::out_of_range)
}

/// Class of platinum; a thermistor has none.
fn tolerance(s: &Solution) -> Fig<TemperatureInterval> {
    if Sensor::of(&s.inputs)? != Sensor::Platinum {
        return Err(Why::out_of_range("a thermistor's tolerance stands on its own sheet"));
    }
    let class = match s.inputs.get(&CLASS)? {
        Class::A => PlatinumClass::A,
        Class::B => PlatinumClass::B,
    };
    class.tolerance(sensor::panel(&s.inputs)?).map_err(Why::out_of_range)
}

fn held(found: Temperature, wanted: Temperature, allowed: f64) -> Judgement {
    let off = difference(found, wanted);
    let limit = TemperatureInterval::from_si(allowed);
    Judgement::caution_unless(off.abs() <= limit).with(off, limit).margin(limit - off.abs())
}

fn ice(s: &Solution) -> Fig<Judgement> {
    Ok(held(s.inputs.get(&ICE)?, celsius(0.0), ICE_ALLOWED))
}

fn boiling(s: &Solution) -> Fig<Judgement> {
    Ok(held(s.inputs.get(&BOILING)?, boils(s)?, BOILING_ALLOWED))
}

fn pair(s: &Solution) -> Fig<Judgement> {
    let found = s.inputs.get(&PAIR)?;
    let limit = TemperatureInterval::from_si(PAIR_ALLOWED);
    let verdict = match found.si().abs() {
        kelvin if kelvin <= PAIR_ALLOWED => Verdict::Clear,
        kelvin if kelvin <= PAIR_LEAST => Verdict::Caution,
        _ => Verdict::Stop,
    };
    Ok(Judgement::of(verdict).with(found, limit).margin(limit - found.abs()))
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("commissioning.boiling_point", "water boils at", Degrees, &BOILS, |s, _| Ok(boils(s)?.into())).by(
        "boiling-point",
        "saturation at the standard air's pressure, {h}",
        &[("h", "site.altitude")],
    ),
    Figure::new("commissioning.sensor_by_beta", "panel sensor by beta, rougher", Degrees, &super::SENSOR, |s, _| {
        Ok(Sensor::of(&s.inputs)?.by_beta(s.inputs.get(&e::SENSOR_OHMS)?)?.into())
    })
    .by(
        "sensor-beta",
        "1/T = 1/298.15 + ln({R}/R₂₅)/B, B between 25 and 85 °C",
        &[("R", "commissioning.sensor_ohms")],
    ),
    Figure::new(
        "commissioning.sensor_tolerance",
        "tolerance of the sensor there",
        TemperatureDifference,
        &TOLERANCE,
        |s, _| Ok(tolerance(s)?.into()),
    )
    .by(
        "sensor-curve",
        "class {class} at {t}",
        &[("class", "commissioning.sensor_class"), ("t", "commissioning.sensor_temperature")],
    ),
    Figure::new("commissioning.lead_error", "leads move the reading by", TemperatureDifference, &LEAD_ERROR, |s, _| {
        Ok(Sensor::of(&s.inputs)?.lead_error(s.inputs.get(&LEADS)?)?.into())
    })
    .by(
        "sensor-curve",
        "{R} / (1000 Ω × A) for platinum; t(R(90 °C) + {R}) − 90 °C for a thermistor",
        &[("R", "commissioning.leads")],
    ),
    Figure::new(
        "commissioning.pair_offset",
        "offset of the pair, to be kept",
        TemperatureDifference,
        &OFFSET,
        |s, _| Ok(s.inputs.get(&PAIR)?.into()),
    )
    .by("sensor-pair", "mean of the differences in one bath", &[]),
];

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("commissioning.ice-water", "panel sensor in ice", Severity::Nuisance, ice)
        .per_panel()
        .says("In ice the sensor is {found} off; {limit} is allowed.", "Clean water, crushed ice, stir; then another curve or a wet joint.")
        .blind_to("a curve that is right at 0 °C and wrong at 90 °C")
        .source("0.3 K: project rule")
        .needs(&["commissioning.ice"]),
    Check::new("commissioning.boiling-water", "panel sensor in boiling water", Severity::Nuisance, boiling)
        .per_panel()
        .says(
            "In boiling water, {commissioning.boiling_point} at this altitude, the sensor is {found} off; {limit} is allowed.",
            "Sensor fully under, water rolling; then another curve.",
        )
        .blind_to("the weather: a low of 30 hPa lowers boiling by 0.8 K")
        .source("0.5 K: project rule; boiling by altitude: computed with a reference library")
        .needs(&["commissioning.boiling", "commissioning.boiling_point"]),
    Check::new("commissioning.pair-offset", "pair of sensors in one bath", Severity::Nuisance, pair)
        .says(
            "In one bath the pair differs by {found}; {limit} is allowed. On a rise of 8.4 K a kelvin is 12 % of the power.",
            "Keep the offset and take it off; above 1 K change one.",
        )
        .blind_to("leads that are added afterwards, and self-heating")
        .source("0.1 K: project rule")
        .needs(&["commissioning.pair"]),
];
