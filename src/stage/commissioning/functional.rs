//! Functional proofs: every protection acts once, and what it showed is held against this project's own number.
//!
//! Lives here: the pass value of a proof and its check. What is read stands in `entries`, what is done in `steps`. Must
//! not live here: the settings themselves (`control`), the protections' sizes (`plumbing`, `safety`).

pub mod entries;
pub mod steps;

use super::control::{self, START, STOP};
use crate::model::{Entry, Fig, Judgement, Verdict};
use crate::stage::plumbing::entries::RELIEF;
use crate::stage::safety::entries::MIXING_SETTING;
use crate::stage::{Check, Figure, Group, Severity, Solution};
use crate::units::Kind::Pressure as Bar;
use crate::units::Quantity;
use crate::units::si::{Dimension, ElectricalResistance, Pressure, Temperature, TemperatureInterval, Time, difference};
use entries::{
    BOND, COLD_FAIL, CUT_PRESSURE, DRAIN_TIME, FROST_ACTS, FROST_UNPOWERED, LIMIT_STOP, LOCK_HELD, NIGHT_AIR,
    NIGHT_PIPE, NO_FLOW_ALARM, NO_FLOW_PRESSURE, REFILL_TIME, RESEAT, START_FOUND, STOP_FOUND, TRIPS,
};

const MINUTE: f64 = 60.0;

static PRESSURE_LIMIT: Group =
    Group { name: "pressure without flow", entries: &["plumbing.relief_setting"], groups: &[] };

/// Room that the pressure must leave below the relief setting, Pa (project rule).
const ROOM: f64 = 0.5e5;
/// Start and stop may be off by, K (accuracy as in a building criterion, doubled: project rule).
const DIFFERENCE: f64 = 1.0;
/// The pump stands within, s; a drain takes, a refill takes, a valve reseats within, min (project rules).
const STANDS: f64 = 10.0;
const DRAINS: f64 = 10.0 * MINUTE;
const REFILLS: f64 = 2.0 * MINUTE;
const RESEATS: f64 = 5.0 * MINUTE;
/// A pipe that no liquid creeps through, over the air, K (project rule).
const NIGHT: f64 = 3.0;
/// A mixing valve with its cold feed shut, over its setting, K (after valve makers' in-service tests; project rule).
const MIXED: f64 = 2.0;
/// A bond, Ω (common practice, no source).
const BONDED: f64 = 0.1;

fn pressure_limit(s: &Solution) -> Fig<Pressure> {
    Ok(s.inputs.get(&RELIEF)? - Pressure::from_si(ROOM))
}

/// Clear up to a limit, stop above it.
fn up_to<Q>(found: Q, limit: Q) -> Judgement
where
    Q: Copy + PartialOrd + std::ops::Sub<Output = Q> + Into<Quantity>,
{
    Judgement::stop_unless(found <= limit).with(found, limit).margin(limit - found)
}

fn yes(s: &Solution, entry: &Entry<bool>) -> Fig<Judgement> {
    Ok(Judgement::stop_unless(s.inputs.get(entry)?))
}

fn seconds(s: &Solution, entry: &Entry<Time>, most: f64) -> Fig<Judgement> {
    Ok(up_to(s.inputs.get(entry)?, Time::from_si(most)))
}

fn start_stop(s: &Solution) -> Fig<Judgement> {
    let off = |found: &Entry<TemperatureInterval>, set: &Entry<TemperatureInterval>| {
        Ok::<_, crate::model::Why>(s.inputs.get(found)? - s.inputs.get(set)?)
    };
    let (start, stop) = (off(&START_FOUND, &START)?, off(&STOP_FOUND, &STOP)?);
    let (worse, part) = if start.abs() >= stop.abs() { (start, "start") } else { (stop, "stop") };
    let limit = TemperatureInterval::from_si(DIFFERENCE);
    let verdict = if worse.abs() <= limit { Verdict::Clear } else { Verdict::Caution };
    Ok(Judgement::of(verdict).with(worse, limit).margin(limit - worse.abs()).part(part))
}

fn tank_limit(s: &Solution) -> Fig<Judgement> {
    seconds(s, &LIMIT_STOP, STANDS)
}

fn lock_out(s: &Solution) -> Fig<Judgement> {
    yes(s, &LOCK_HELD)
}

fn power_cut(s: &Solution) -> Fig<Judgement> {
    Ok(up_to(s.inputs.get(&CUT_PRESSURE)?, pressure_limit(s)?))
}

fn drain(s: &Solution) -> Fig<Judgement> {
    if control::stays_full(s)? && s.inputs.given(&DRAIN_TIME)?.is_none() {
        return Ok(Judgement::of(Verdict::Clear).part("this loop stays full"));
    }
    seconds(s, &DRAIN_TIME, DRAINS)
}

fn refill(s: &Solution) -> Fig<Judgement> {
    if control::stays_full(s)? && s.inputs.given(&REFILL_TIME)?.is_none() {
        return Ok(Judgement::of(Verdict::Clear).part("this loop stays full"));
    }
    seconds(s, &REFILL_TIME, REFILLS)
}

fn night(s: &Solution) -> Fig<Judgement> {
    let over = difference(s.inputs.get(&NIGHT_PIPE)?, s.inputs.get(&NIGHT_AIR)?);
    let limit = TemperatureInterval::from_si(NIGHT);
    let verdict = if over <= limit { Verdict::Clear } else { Verdict::Caution };
    Ok(Judgement::of(verdict).with(over, limit).margin(limit - over))
}

fn mixing(s: &Solution) -> Fig<Judgement> {
    let limit = Temperature::from_si(s.inputs.get(&MIXING_SETTING)?.si() + MIXED);
    let found = s.inputs.get(&COLD_FAIL)?;
    Ok(Judgement::stop_unless(found <= limit).with(found, limit).margin(difference(limit, found)))
}

fn relief(s: &Solution) -> Fig<Judgement> {
    seconds(s, &RESEAT, RESEATS)
}

fn frost(s: &Solution) -> Fig<Judgement> {
    let (acts, unpowered) = (s.inputs.get(&FROST_ACTS)?, s.inputs.get(&FROST_UNPOWERED)?);
    let part = match (acts, unpowered) {
        (true, true) => "both acted",
        (false, _) => "the one with power did not act",
        (true, false) => "the one without power did not act",
    };
    Ok(Judgement::stop_unless(acts && unpowered).part(part))
}

fn trip(s: &Solution) -> Fig<Judgement> {
    yes(s, &TRIPS)
}

fn bond(s: &Solution) -> Fig<Judgement> {
    Ok(up_to(s.inputs.get(&BOND)?, ElectricalResistance::from_si(BONDED)))
}

fn no_flow(s: &Solution) -> Fig<Judgement> {
    let judged = up_to(s.inputs.get(&NO_FLOW_PRESSURE)?, pressure_limit(s)?);
    if judged.verdict == Verdict::Clear && !s.inputs.get(&NO_FLOW_ALARM)? {
        return Ok(Judgement { verdict: Verdict::Caution, ..judged }.part("nobody would notice"));
    }
    Ok(judged.part("pressure"))
}

/// The figures of this file.
pub static FIGURES: &[Figure] =
    &[Figure::new("commissioning.proof_pressure", "highest pressure without flow", Bar, &PRESSURE_LIMIT, |s, _| {
        Ok(pressure_limit(s)?.into())
    })
    .by("functional-proof", "{relief} − 0.5 bar", &[("relief", "plumbing.relief_setting")])];

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("commissioning.proof-start-stop", "proof: start and stop", Severity::Nuisance, start_stop)
        .says(
            "The {part} is {found} off its setting; {limit} is allowed.",
            "Sensor out of its well, wrong curve, or a pair that differs: compare the two in one bath.",
        )
        .blind_to("what happens at other temperatures")
        .source("1 K: project rule")
        .needs(&[
            "commissioning.start_found",
            "commissioning.stop_found",
            "commissioning.start_difference",
            "commissioning.stop_difference",
        ]),
    Check::new("commissioning.proof-tank-limit", "proof: tank limit", Severity::Serious, tank_limit)
        .says("The pump stood after {found}; {limit} is allowed.", "Wrong output or wrong sensor: do not let it run.")
        .blind_to("a limit that was not set back after the proof")
        .source("10 s: project rule")
        .needs(&["commissioning.limit_stop"]),
    Check::new("commissioning.proof-lock-out", "proof: lock-out of a hot panel", Severity::Serious, lock_out)
        .says("The pump ran onto a panel that the controller took for hot.", "Set the lock-out; prove it again.")
        .blind_to("a lock-out that is set higher than the weakest part stands")
        .source("project rule")
        .needs(&["commissioning.lock_out_held"]),
    Check::new("commissioning.proof-power-cut", "proof: power cut in the sun", Severity::Deadly, power_cut)
        .says(
            "Without power the pressure rose to {found}; {limit} is the most.",
            "Vessel too small or without its charge, or no way to it: find out before the next sunny day.",
        )
        .blind_to("a stronger sun than that of the proof")
        .ask("whoever answers for the pressure side")
        .source("0.5 bar below the relief setting: project rule")
        .needs(&["commissioning.cut_pressure", "commissioning.proof_pressure"]),
    Check::new("commissioning.proof-drain", "proof: draining", Severity::Serious, drain)
        .says("It took {found} to drain; {limit} is allowed: slow water freezes on its way.", "More fall, a wider return, air at the top.")
        .blind_to("the last litre in a level header: count the litres")
        .source("10 min: project rule")
        .needs(&["commissioning.drain_time", "plumbing.loop"]),
    Check::new("commissioning.proof-refill", "proof: air in and out again", Severity::Nuisance, refill)
        .says("Flow came back after {found}; {limit} is allowed.", "Pump head at the top of the loop; a vent or trap that holds air.")
        .blind_to("gurgling that comes back later")
        .source("2 min: project rule")
        .needs(&["commissioning.refill_time", "plumbing.loop"]),
    Check::new("commissioning.proof-night", "proof: no flow at night", Severity::Nuisance, night)
        .says(
            "A metre above the tank the pipe is {found} over the air; {limit} is allowed. Up to \
             {commissioning.reverse_head} drive it backwards.",
            "A check valve that opens above that, on the supply between pump and panels; or a heat trap.",
        )
        .blind_to("a panel that is still warm itself: wait two hours after sunset")
        .source("3 K: project rule")
        .needs(&["commissioning.night_pipe", "commissioning.night_air"]),
    Check::new("commissioning.proof-mixing", "proof: mixing valve, cold shut", Severity::Deadly, mixing)
        .says(
            "With the cold feed shut the tap gave {found}; {limit} is the most. At 60 °C an adult burns in about 3 to 5 s, \
             a child sooner.",
            "Clean or change the valve; nobody showers until it holds.",
        )
        .blind_to("scale that comes later: prove it every year")
        .ask("a licensed plumber")
        .source("setting + 2 K: after in-service tests of valve makers; project rule")
        .needs(&["commissioning.cold_fail", "safety.mixing_valve_setting"])
        .final_word(),
    Check::new("commissioning.proof-relief", "proof: relief valve lifted", Severity::Deadly, relief)
        .says("It was dry again after {found}; {limit} is allowed.", "Lift once more to wash the seat; then change it.")
        .blind_to("the pressure at which it lifts by itself")
        .ask("a licensed plumber")
        .source("5 min: project rule")
        .needs(&["commissioning.reseat_time"]),
    Check::new("commissioning.proof-frost", "proof: frost protection", Severity::Serious, frost)
        .says("Frost protection: {part}.", "Each mechanism must act alone; prove it again before the first night below 5 °C.")
        .blind_to("a clear night: the plate freezes above 0 °C of air")
        .source("each mechanism alone: rating criterion (verified)")
        .needs(&["commissioning.frost_acts", "commissioning.frost_unpowered"]),
    Check::new("commissioning.proof-trip", "proof: earth-fault trip", Severity::Deadly, trip)
        .says("The test button did not trip.", "Leave it off; call the electrician.")
        .blind_to("the current at which it trips")
        .ask("a licensed electrician")
        .source("its own test button: common practice, no source")
        .needs(&["commissioning.trips"])
        .final_word(),
    Check::new("commissioning.proof-bond", "proof: bond", Severity::Deadly, bond)
        .says("The bond has {found}; {limit} is the most.", "Clean metal, a new clamp, no paint between.")
        .blind_to("lightning, and a clamp that loosens")
        .ask("a licensed electrician")
        .source("0.1 Ω: common practice, no source")
        .needs(&["commissioning.bond"]),
    Check::new("commissioning.proof-no-flow", "proof: no flow is noticed", Severity::Serious, no_flow)
        .says(
            "Without flow the pressure rose to {found}, {limit} is the most; {part}.",
            "An alarm or a lamp where it is seen; the path to the relief valve stays open whatever happens.",
        )
        .blind_to("a stronger sun than that of the proof")
        .source("0.5 bar below the relief setting: project rule")
        .needs(&["commissioning.no_flow_pressure", "commissioning.no_flow_alarm", "commissioning.proof_pressure"]),
];
