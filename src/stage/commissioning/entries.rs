//! What the commissioning stage asks: almost all of it is measured.

use crate::model::{Choice, Entry, EntrySpec, Fold, TradeUnits};
use crate::units::si::{
    ElectricalResistance, Length, Pressure, Temperature, TemperatureInterval, Time, Volume, ZERO_CELSIUS,
};

/// What is under pressure in a test.
pub static MEDIUM: Entry<Medium> = Entry::choice("commissioning.test_medium", "test with")
    .why("compressed air stores thousands of times the energy of water and throws what breaks")
    .default("water");

/// One division of the gauge.
pub static DIVISION: Entry<Pressure> = Entry::quantity("commissioning.gauge_division", "gauge division")
    .why("from mark to mark on the test gauge; no change smaller than that can be seen")
    .hard(1.0, 1e6)
    .usual(1e3, 5e4);

/// Height of the loop's gauge over its relief valve.
pub static GAUGE_HEIGHT: Entry<Length> = Entry::quantity("commissioning.gauge_height", "gauge above the relief valve")
    .shown_in(TradeUnits::SITE)
    .why("about 0.1 bar for each metre of water between them; negative when the gauge hangs below")
    .hard(-60.0, 60.0)
    .default("0 m");

/// How well a change of temperature is known.
pub static DOUBT: Entry<TemperatureInterval> =
    Entry::quantity("commissioning.temperature_doubt", "doubt of the temperatures")
        .why("how far the change of temperature between start and end may be wrong")
        .hard(0.0, 20.0)
        .usual(0.05, 2.0)
        .default("0.5 K");

/// How long a test is held.
pub static HOLD: Entry<Time> = Entry::quantity("commissioning.hold_time", "pressure held for")
    .why("after 15 to 30 minutes of settling; longer shows smaller leaks")
    .hard(60.0, LONGEST)
    .usual(900.0, 86_400.0)
    .default("60 min");

const HIGHEST: f64 = 5e6;
const COLDEST: f64 = ZERO_CELSIUS - 30.0;
const HOTTEST: f64 = ZERO_CELSIUS + 99.0;
const LONGEST: f64 = 7.0 * 86_400.0;

/// Panel test: gauge at the start.
pub static PANEL_START: Entry<Pressure> = Entry::quantity("commissioning.panel_start", "panel test, gauge at start")
    .why("after 15 to 30 minutes of settling")
    .hard(0.0, HIGHEST)
    .per_panel()
    .measured(Fold::Latest);

/// Panel test: temperature at the start.
pub static PANEL_START_TEMPERATURE: Entry<Temperature> =
    Entry::quantity("commissioning.panel_start_temperature", "panel test, temperature at start")
        .why("of the copper, in the shade")
        .hard(COLDEST, HOTTEST)
        .per_panel()
        .measured(Fold::Latest);

/// Panel test: gauge at the end.
pub static PANEL_END: Entry<Pressure> = Entry::quantity("commissioning.panel_end", "panel test, gauge at end")
    .why("after the hold, on the same gauge")
    .hard(0.0, HIGHEST)
    .per_panel()
    .measured(Fold::Latest);

/// Panel test: temperature at the end.
pub static PANEL_END_TEMPERATURE: Entry<Temperature> =
    Entry::quantity("commissioning.panel_end_temperature", "panel test, temperature at end")
        .why("at the same spot as before")
        .hard(COLDEST, HOTTEST)
        .per_panel()
        .measured(Fold::Latest);

/// Panel test: time held.
pub static PANEL_HOLD: Entry<Time> = Entry::quantity("commissioning.panel_hold", "panel test, time held")
    .why("from the start reading to the end reading; 60 minutes are wanted")
    .hard(1.0, LONGEST)
    .usual(900.0, 86_400.0)
    .per_panel()
    .measured(Fold::Latest);

/// Panel test: water pumped in.
pub static PANEL_PUMPED: Entry<Volume> = Entry::quantity("commissioning.panel_pumped", "panel test, water pumped in")
    .why("from no pressure to the test pressure: tells how much air is left; left out it counts as free of air")
    .hard(1e-9, 0.1)
    .per_panel()
    .measured(Fold::Latest);

/// Panel test: water or bubbles seen.
pub static PANEL_WEEPS: Entry<bool> = Entry::flag("commissioning.panel_weeps", "panel test, a joint weeps")
    .why("a dry tissue on every joint, or soap: yes if anything shows")
    .per_panel()
    .measured(Fold::Latest);

/// Loop test: gauge at the start.
pub static LOOP_START: Entry<Pressure> = Entry::quantity("commissioning.loop_start", "loop test, gauge at start")
    .why("after 15 to 30 minutes of settling, relief and vessel shut off")
    .hard(0.0, HIGHEST)
    .measured(Fold::Latest);

/// Loop test: temperature at the start.
pub static LOOP_START_TEMPERATURE: Entry<Temperature> =
    Entry::quantity("commissioning.loop_start_temperature", "loop test, temperature at start")
        .why("of the pipe where most of the liquid is; no sun on the panels")
        .hard(COLDEST, HOTTEST)
        .measured(Fold::Latest);

/// Loop test: gauge at the end.
pub static LOOP_END: Entry<Pressure> = Entry::quantity("commissioning.loop_end", "loop test, gauge at end")
    .why("after the hold, on the same gauge")
    .hard(0.0, HIGHEST)
    .measured(Fold::Latest);

/// Loop test: temperature at the end.
pub static LOOP_END_TEMPERATURE: Entry<Temperature> =
    Entry::quantity("commissioning.loop_end_temperature", "loop test, temperature at end")
        .why("at the same spot as before")
        .hard(COLDEST, HOTTEST)
        .measured(Fold::Latest);

/// Loop test: time held.
pub static LOOP_HOLD: Entry<Time> = Entry::quantity("commissioning.loop_hold", "loop test, time held")
    .why("from the start reading to the end reading; 60 minutes are wanted")
    .hard(1.0, LONGEST)
    .usual(900.0, 86_400.0)
    .measured(Fold::Latest);

/// Loop test: water pumped in.
pub static LOOP_PUMPED: Entry<Volume> = Entry::quantity("commissioning.loop_pumped", "loop test, water pumped in")
    .why("from no pressure to the test pressure: tells how much air is left; left out it counts as free of air")
    .hard(1e-9, 1.0)
    .measured(Fold::Latest);

/// Loop test: water or bubbles seen.
pub static LOOP_WEEPS: Entry<bool> = Entry::flag("commissioning.loop_weeps", "loop test, a joint weeps")
    .why("a dry tissue on every joint, or soap: yes if anything shows")
    .measured(Fold::Latest);

/// Type of the sensors.
pub static SENSOR: Entry<SensorType> =
    Entry::choice("commissioning.sensor_type", "sensors").why("ohms mean nothing until the type is known");

/// Ohms of a panel's sensor.
pub static SENSOR_OHMS: Entry<ElectricalResistance> =
    Entry::quantity("commissioning.sensor_ohms", "panel sensor, resistance")
        .why("at the ends of its wire, unplugged from the controller")
        .hard(1.0, 1e6)
        .per_panel()
        .measured(Fold::Latest);

/// Thermometer beside the sensor.
pub static SENSOR_BESIDE: Entry<Temperature> =
    Entry::quantity("commissioning.sensor_beside", "thermometer beside the panel sensor")
        .why("in the same stirred water or at the same spot, at the same moment")
        .hard(COLDEST, ZERO_CELSIUS + 150.0)
        .per_panel()
        .measured(Fold::Latest);

/// Volume of the bucket's mark.
pub static BUCKET: Entry<Volume> = Entry::quantity("commissioning.bucket_volume", "bucket, to its mark")
    .why("weigh the water once: a kilogram is a litre; printed marks are often wrong")
    .hard(1e-4, 1.0)
    .usual(0.003, 0.1);

/// How well the bucket's volume is known.
pub static BUCKET_LIMIT: Entry<Volume> = Entry::quantity("commissioning.bucket_limit", "bucket, give or take")
    .why("within which the filled volume certainly lies")
    .hard(0.0, 0.5)
    .default("0.1 L");

/// Time to fill the bucket.
pub static BUCKET_TIME: Entry<Time> = Entry::quantity("commissioning.bucket_time", "time to fill the bucket")
    .why("five times over, with the pump at its setting; each time is a reading of its own")
    .hard(0.5, 86_400.0)
    .usual(5.0, 600.0)
    .measured(Fold::Mean);

/// Liquid that drained.
pub static DRAINED: Entry<Volume> = Entry::quantity("commissioning.drained", "liquid drained back")
    .why("what came out of panels and pipe after the pump stopped; what is missing stays where it can freeze")
    .hard(0.0, 10.0)
    .measured(Fold::Latest);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &MEDIUM.spec,
    &DIVISION.spec,
    &GAUGE_HEIGHT.spec,
    &DOUBT.spec,
    &HOLD.spec,
    &PANEL_START.spec,
    &PANEL_START_TEMPERATURE.spec,
    &PANEL_END.spec,
    &PANEL_END_TEMPERATURE.spec,
    &PANEL_HOLD.spec,
    &PANEL_PUMPED.spec,
    &PANEL_WEEPS.spec,
    &LOOP_START.spec,
    &LOOP_START_TEMPERATURE.spec,
    &LOOP_END.spec,
    &LOOP_END_TEMPERATURE.spec,
    &LOOP_HOLD.spec,
    &LOOP_PUMPED.spec,
    &LOOP_WEEPS.spec,
    &SENSOR.spec,
    &SENSOR_OHMS.spec,
    &SENSOR_BESIDE.spec,
    &BUCKET.spec,
    &BUCKET_LIMIT.spec,
    &BUCKET_TIME.spec,
    &DRAINED.spec,
];

/// What is under pressure in a test.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Medium {
    /// Water.
    Water,
    /// Air.
    Air,
}

impl Choice for Medium {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Water, "water", "full of water, air let out"),
        (Self::Air, "air", "compressed air: low pressure and soap only"),
    ];
}

/// Type of a temperature sensor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SensorType {
    /// Platinum, 1000 Ω at 0 °C.
    Pt1000,
    /// Thermistor, 10 kΩ at 25 °C.
    Thermistor,
    /// Thermistor by three points.
    Own,
}

impl Choice for SensorType {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Pt1000, "Pt1000", "platinum, 1000 Ω at 0 °C, rising"),
        (Self::Thermistor, "10k", "thermistor, 10 kΩ at 25 °C, falling; the commonest curve"),
        (Self::Own, "own", "thermistor of another curve, by three points: commissioning.curve_point"),
    ];
}
