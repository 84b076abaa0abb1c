//! What is read in the functional proofs.

use crate::model::{Entry, EntrySpec, Fold};
use crate::units::si::{ElectricalResistance, Pressure, Temperature, TemperatureInterval, Time, ZERO_CELSIUS};

const COLDEST: f64 = ZERO_CELSIUS - 40.0;
const HOTTEST: f64 = ZERO_CELSIUS + 110.0;

/// Start difference found.
pub static START_FOUND: Entry<TemperatureInterval> =
    Entry::quantity("commissioning.start_found", "pump starts at, found")
        .why("panel over tank by the controller's own display at the moment it starts")
        .hard(0.0, 60.0)
        .measured(Fold::Latest);

/// Stop difference found.
pub static STOP_FOUND: Entry<TemperatureInterval> = Entry::quantity("commissioning.stop_found", "pump stops at, found")
    .why("panel over tank at the moment it stops, the panel covered")
    .hard(-20.0, 60.0)
    .measured(Fold::Latest);

/// Time to stop at the tank limit.
pub static LIMIT_STOP: Entry<Time> = Entry::quantity("commissioning.limit_stop", "tank limit, time to stop")
    .why("the limit set below the tank's temperature for the moment: seconds until the pump stands")
    .hard(0.0, 3600.0)
    .measured(Fold::Latest);

/// The lock-out held.
pub static LOCK_HELD: Entry<bool> = Entry::flag("commissioning.lock_out_held", "lock-out held the pump")
    .why("with the resistor in the panel sensor's place: yes if the pump stayed off")
    .measured(Fold::Latest);

/// Highest pressure in the power cut.
pub static CUT_PRESSURE: Entry<Pressure> = Entry::quantity("commissioning.cut_pressure", "power cut, highest pressure")
    .why("pump unplugged late in the day, watched from a distance for two hours")
    .hard(0.0, 3e6)
    .measured(Fold::Latest);

/// Time to drain.
pub static DRAIN_TIME: Entry<Time> = Entry::quantity("commissioning.drain_time", "time to drain")
    .why("from the pump's stop to the last litre; a drainback or drain-down loop only")
    .hard(0.0, 86_400.0)
    .measured(Fold::Latest);

/// Time to refill.
pub static REFILL_TIME: Entry<Time> = Entry::quantity("commissioning.refill_time", "time to refill")
    .why("from the pump's start until the return runs without gurgling")
    .hard(0.0, 86_400.0)
    .measured(Fold::Latest);

/// Pipe at night.
pub static NIGHT_PIPE: Entry<Temperature> = Entry::quantity("commissioning.night_pipe", "return pipe at night")
    .why("a metre above the tank at two in the morning, pump off, tank hot")
    .hard(COLDEST, HOTTEST)
    .measured(Fold::Latest);

/// Air at night.
pub static NIGHT_AIR: Entry<Temperature> = Entry::quantity("commissioning.night_air", "air around that pipe")
    .why("at the same moment and place")
    .hard(COLDEST, ZERO_CELSIUS + 60.0)
    .measured(Fold::Latest);

/// Mixing valve with the cold shut.
pub static COLD_FAIL: Entry<Temperature> = Entry::quantity("commissioning.cold_fail", "mixed water, cold feed shut")
    .why("highest temperature at the tap in the minute after the cold feed is shut")
    .hard(ZERO_CELSIUS, HOTTEST)
    .measured(Fold::Latest);

/// Relief valve reseats.
pub static RESEAT: Entry<Time> = Entry::quantity("commissioning.reseat_time", "relief valve, dry again after")
    .why("lifted by hand once, cold; minutes until its outlet is dry")
    .hard(0.0, 86_400.0)
    .measured(Fold::Latest);

/// Frost protection by resistor.
pub static FROST_ACTS: Entry<bool> = Entry::flag("commissioning.frost_acts", "frost protection acted by resistor")
    .why("the resistor in the panel sensor's place: yes if what should act did")
    .measured(Fold::Latest);

/// Frost protection without power.
pub static FROST_UNPOWERED: Entry<bool> =
    Entry::flag("commissioning.frost_unpowered", "frost protection acted without power")
        .why("the mechanism that needs no electricity, tried by itself")
        .measured(Fold::Latest);

/// The trip.
pub static TRIPS: Entry<bool> = Entry::flag("commissioning.trips", "earth-fault button trips")
    .why("its own test button: the pump must go dead")
    .measured(Fold::Latest);

/// The bond.
pub static BOND: Entry<ElectricalResistance> = Entry::quantity("commissioning.bond", "bond, resistance")
    .why("from the box and the pipe to the earth bar, leads of the meter taken off")
    .hard(0.0, 1e6)
    .measured(Fold::Latest);

/// Highest pressure without flow.
pub static NO_FLOW_PRESSURE: Entry<Pressure> =
    Entry::quantity("commissioning.no_flow_pressure", "no flow, highest pressure")
        .why("pump unplugged at low sun, no valve touched")
        .hard(0.0, 3e6)
        .measured(Fold::Latest);

/// Alarm without flow.
pub static NO_FLOW_ALARM: Entry<bool> = Entry::flag("commissioning.no_flow_alarm", "no flow was noticed")
    .why("an alarm, a display, a lamp: yes if somebody in the house would know within the day")
    .measured(Fold::Latest);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &START_FOUND.spec,
    &STOP_FOUND.spec,
    &LIMIT_STOP.spec,
    &LOCK_HELD.spec,
    &CUT_PRESSURE.spec,
    &DRAIN_TIME.spec,
    &REFILL_TIME.spec,
    &NIGHT_PIPE.spec,
    &NIGHT_AIR.spec,
    &COLD_FAIL.spec,
    &RESEAT.spec,
    &FROST_ACTS.spec,
    &FROST_UNPOWERED.spec,
    &TRIPS.spec,
    &BOND.spec,
    &NO_FLOW_PRESSURE.spec,
    &NO_FLOW_ALARM.spec,
];
