//! What the commissioning stage asks about a logger file: where it is, which column tells what, how well it measures.

use crate::logger::{CHANNELS, Columns};
use crate::model::{Entries, Entry, EntrySpec, Fig, Inputs, TradeUnits};
use crate::units::Kind;
use crate::units::si::{Power, Ratio, TemperatureInterval, Time};

const HOUR: f64 = 3600.0;

/// The logger file.
pub static FILE: Entry<String> = Entry::text("commissioning.log_file", "logger file")
    .why("named from the project's folder: a table of times and readings with any separator");

/// The column of the time.
pub static TIME: Entry<String> = Entry::text("commissioning.log_time", "column of the time")
    .why("as in the file's header, #1 for the first; 'date + clock' for two columns")
    .default("time");

/// The column of the panel sensor.
pub static PANEL: Entry<String> = Entry::text("commissioning.log_panel", "column of the panel sensor")
    .why("on the plate or the top header")
    .default("t_coll");

/// The column of the inlet.
pub static INLET: Entry<String> =
    Entry::text("commissioning.log_inlet", "column of the inlet").why("liquid going into the panels").default("t_in");

/// The column of the outlet.
pub static OUTLET: Entry<String> = Entry::text("commissioning.log_outlet", "column of the outlet")
    .why("liquid coming from the panels")
    .default("t_out");

/// The column of the tank, low.
pub static TANK_LOW: Entry<String> = Entry::text("commissioning.log_tank_low", "column of the tank, low")
    .why("the controller's tank sensor")
    .default("t_tank_lo");

/// The column of the tank, high.
pub static TANK_HIGH: Entry<String> = Entry::text("commissioning.log_tank_high", "column of the tank, high")
    .why("near the top of the tank")
    .default("t_tank_hi");

/// The column of the air.
pub static AIR: Entry<String> =
    Entry::text("commissioning.log_air", "column of the air").why("in the shade, near the panels").default("t_amb");

/// The column of the sun.
pub static SUN: Entry<String> = Entry::text("commissioning.log_sun", "column of the sun")
    .why("irradiance in the plane of the panels")
    .default("g_poa");

/// The column of the flow.
pub static FLOW: Entry<String> =
    Entry::text("commissioning.log_flow", "column of the flow").why("through all panels together").default("flow_lpm");

/// The column of the pump.
pub static PUMP: Entry<String> =
    Entry::text("commissioning.log_pump", "column of the pump").why("1 or on while it runs").default("pump");

/// The column of the pressure.
pub static PRESSURE: Entry<String> = Entry::text("commissioning.log_pressure", "column of the pressure")
    .why("gauge pressure of the loop")
    .default("p_bar");

/// The column of the wind.
pub static WIND: Entry<String> =
    Entry::text("commissioning.log_wind", "column of the wind").why("at the panels").default("wind");

/// How far the logger's clock is ahead of universal time.
pub static CLOCK: Entry<Time> = Entry::quantity("commissioning.log_clock", "logger's clock, ahead of universal time")
    .why("where the file writes no offset; the nearest whole hour by longitude if left out")
    .hard(-14.0 * HOUR, 14.0 * HOUR);

/// Fault of the logger's crystal.
pub static CRYSTAL: Entry<f64> =
    Entry::plain("commissioning.log_crystal", "logger's crystal, millionths off", Kind::Number)
        .why("20 for a plain watch crystal: 1.7 s a day")
        .hard(0.0, 10_000.0)
        .default("20");

/// Doubt of the sun sensor.
pub static SUN_DOUBT: Entry<Ratio> = Entry::percent("commissioning.sun_doubt", "doubt of the sun sensor")
    .why("one standard uncertainty: about 2 % for a calibrated one, 5 % for a cheap cell")
    .hard(0.001, 0.5)
    .usual(0.01, 0.1)
    .default("2 %");

/// Doubt of the flow.
pub static FLOW_DOUBT: Entry<Ratio> = Entry::percent("commissioning.flow_doubt", "doubt of the logged flow")
    .why("one standard uncertainty, after the bucket has been held against the meter")
    .hard(0.001, 0.5)
    .usual(0.005, 0.1)
    .default("1 %");

/// Doubt of the pair.
pub static PAIR_DOUBT: Entry<TemperatureInterval> =
    Entry::quantity("commissioning.pair_doubt", "doubt of outlet less inlet")
        .why("one standard uncertainty that is left after both sensors sat in one bath; 0.1 K at most is 0.06 K")
        .hard(0.001, 5.0)
        .usual(0.02, 0.5)
        .default("0.06 K");

/// Factor of the power check.
pub static POWER_FACTOR: Entry<Ratio> = Entry::percent("commissioning.power_factor", "factor of the power check")
    .why("for pipes, doubt of measuring and all else together, as agreed with whom it was promised to")
    .hard(0.1, 1.0)
    .usual(0.8, 1.0)
    .default("90 %");

/// Power of the pump.
pub static PUMP_POWER: Entry<Power> = Entry::quantity("commissioning.pump_power", "pump, electric power")
    .shown_in(TradeUnits::ELECTRIC_POWER)
    .why("by a plug meter while it runs at its setting")
    .hard(0.1, 2000.0)
    .usual(2.0, 200.0);

/// The column of each channel, in the order of [`CHANNELS`].
static COLUMNS: [&Entry<String>; CHANNELS.len()] =
    [&PANEL, &INLET, &OUTLET, &TANK_LOW, &TANK_HIGH, &AIR, &SUN, &FLOW, &PUMP, &PRESSURE, &WIND];

/// What the reading of the file hangs on: the file and its columns.
pub static OF_FILE: [&EntrySpec; 13] = [
    &FILE.spec,
    &TIME.spec,
    &PANEL.spec,
    &INLET.spec,
    &OUTLET.spec,
    &TANK_LOW.spec,
    &TANK_HIGH.spec,
    &AIR.spec,
    &SUN.spec,
    &FLOW.spec,
    &PUMP.spec,
    &PRESSURE.spec,
    &WIND.spec,
];

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &FILE.spec,
    &TIME.spec,
    &PANEL.spec,
    &INLET.spec,
    &OUTLET.spec,
    &TANK_LOW.spec,
    &TANK_HIGH.spec,
    &AIR.spec,
    &SUN.spec,
    &FLOW.spec,
    &PUMP.spec,
    &PRESSURE.spec,
    &WIND.spec,
    &CLOCK.spec,
    &CRYSTAL.spec,
    &SUN_DOUBT.spec,
    &FLOW_DOUBT.spec,
    &PAIR_DOUBT.spec,
    &POWER_FACTOR.spec,
    &PUMP_POWER.spec,
];

/// The file that a project names, and its columns.
pub fn wanted(entries: &Entries) -> Fig<(String, Columns)> {
    let own = entries.iter().filter(|(id, _)| id.starts_with("commissioning.log_"));
    let own: Entries = own.map(|(id, given)| (id.clone(), given.clone())).collect();
    let inputs = Inputs::resolve(&OF_FILE, &own, &Entries::new(), &[]);
    let file = inputs.get(&FILE)?.trim().to_owned();
    let mut channels = Columns::default().channels;
    for (name, entry) in channels.iter_mut().zip(COLUMNS) {
        *name = inputs.get(entry)?;
    }
    Ok((file, Columns { time: inputs.get(&TIME)?, channels }))
}
