//! Functional proofs: every protection acts once, and what it showed is held against this project's own number.
//!
//! Lives here: what is read in a proof, its pass value, its check and its step. Must not live here: the settings
//! themselves (`control`), the protections' sizes (`plumbing`, `safety`).

use super::control::{self, START, STOP};
use super::steps::{COLD, HOT, STEAM};
use crate::model::{Entry, EntrySpec, Evidence, Fig, Fold, Judgement, Stage, Step, Verdict};
use crate::stage::plumbing::entries::RELIEF;
use crate::stage::safety::entries::MIXING_SETTING;
use crate::stage::{Check, Figure, Group, Severity, Solution};
use crate::units::Kind::Pressure as Bar;
use crate::units::Quantity;
use crate::units::si::{
    Dimension, ElectricalResistance, Pressure, Temperature, TemperatureInterval, Time, ZERO_CELSIUS, difference,
};

const MINUTE: f64 = 60.0;
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

const fn proof(id: &'static str, title: &'static str, reading: &'static str) -> Step {
    Step::new(id, Stage::Commissioning, title)
        .evidence(Evidence::Reading(reading))
        .after(&["commissioning.settings", "commissioning.outlets"])
}

/// The steps of this file.
pub static STEPS: &[Step] = &[
    proof("commissioning.prove-start", "Cover and uncover: the pump starts", "commissioning.start_found")
        .detail("Set at {commissioning.start_difference}; by the controller's display within 1 K.")
        .relies(&["commissioning.start_difference", "commissioning.sensor_type"])
        .cautions(&["Cover and uncover from the ground or from a fixed platform."]),
    proof("commissioning.prove-stop", "Cover the panel: the pump stops", "commissioning.stop_found")
        .detail("Set at {commissioning.stop_difference}; within 1 K.")
        .relies(&["commissioning.stop_difference", "commissioning.sensor_type"]),
    proof("commissioning.prove-tank-limit", "Tank limit lowered: the pump stands in 10 s", "commissioning.limit_stop")
        .detail("Lower the limit below the tank's temperature while the pump runs; then set {plumbing.tank_limit} again.")
        .relies(&["plumbing.tank_limit"]),
    proof("commissioning.prove-lock-out", "Hot panel by resistor: the pump stays off", "commissioning.lock_out_held")
        .detail("Unplug the panel's sensor, put {commissioning.resistor_lock_out} in its place: above the lock-out.")
        .relies(&["commissioning.lock_out", "commissioning.sensor_type"])
        .cautions(&["Keep off the controller's mains side: an electrician's work."]),
    proof("commissioning.prove-power-cut", "Power cut for two hours, watched from a distance", "commissioning.cut_pressure")
        .detail(
            "Late in the day, pump and controller unplugged, no valve touched. At most {commissioning.proof_pressure}; the \
             relief valve stays shut; afterwards the pump stays locked until the panel has cooled.",
        )
        .relies(&["plumbing.relief_setting", "plumbing.loop"])
        .held_by(&["safety.relief-path", "safety.stagnation-material"])
        .cautions(&[STEAM])
        .read_back(),
    proof("commissioning.prove-drain", "Time how long it drains", "commissioning.drain_time")
        .detail("Within 10 minutes; {commissioning.drain_expected} must come. A loop that stays full: the time of the test water.")
        .relies(&["plumbing.loop"])
        .cautions(&["Low sun: an empty panel heats within minutes."]),
    proof("commissioning.prove-refill", "Time how long it refills", "commissioning.refill_time")
        .detail("Flow within 2 minutes, no gurgle after 10. A loop that stays full: from the pump's start.")
        .after(&["commissioning.prove-drain"])
        .relies(&["plumbing.loop"])
        .cautions(&[HOT]),
    proof("commissioning.prove-night", "Two in the morning: nothing flows", "commissioning.night_pipe")
        .detail(
            "Pump off, tank hot, two hours after the panel has cooled. The return pipe a metre above the tank within 3 K of \
             the air. Backwards drive {commissioning.reverse_head}.",
        ),
    proof("commissioning.prove-mixing", "Mixing valve with the cold feed shut", "commissioning.cold_fail")
        .detail("At most {safety.mixing_valve_setting} and 2 K more, or it shuts. Hand out of the water.")
        .relies(&["safety.mixing_valve_setting", "plumbing.tank_limit"])
        .cautions(&["What comes out can scald: thermometer first, nobody under the shower."])
        .licensed()
        .held_by(&["safety.scald", "safety.scald-year", "safety.legionella"]),
    proof("commissioning.prove-relief", "Lift the relief valve by hand, cold", "commissioning.reseat_time")
        .detail("See where it goes before you lift. Dry again within 5 minutes.")
        .relies(&["plumbing.relief_setting"])
        .cautions(&[COLD, "What the relief valve lets out scalds: see where it goes first."])
        .licensed(),
    proof("commissioning.prove-frost", "Frost by resistor: protection acts", "commissioning.frost_acts")
        .detail("{commissioning.resistor_frost} in the panel sensor's place. Then the mechanism without power, alone.")
        .relies(&["commissioning.frost_trip", "commissioning.sensor_type", "plumbing.loop"])
        .held_by(&["safety.freezing", "safety.frost-valve"]),
    proof("commissioning.prove-frost-unpowered", "Frost protection without power", "commissioning.frost_unpowered")
        .detail("Power off: valve, draining or glycol by itself. Ice and salt on a frost valve's bulb.")
        .relies(&["plumbing.loop"]),
    proof("commissioning.prove-trip", "Earth-fault button: the pump goes dead", "commissioning.trips").licensed()
        .held_by(&["safety.mains"]),
    proof("commissioning.prove-bond", "Bond measured: 0.1 Ω or less", "commissioning.bond").licensed()
        .held_by(&["safety.bonding"]),
    proof("commissioning.prove-no-flow", "No flow: the pump unplugged at low sun", "commissioning.no_flow_pressure")
        .detail(
            "No valve is closed on a hot panel. At most {commissioning.proof_pressure}, and somebody would notice within \
             the day.",
        )
        .relies(&["plumbing.relief_setting"])
        .held_by(&["safety.relief-path"])
        .cautions(&[STEAM]),
    Step::new("commissioning.put-back", Stage::Commissioning, "Everything that a proof changed is put back")
        .detail(
            "Resistors out, sensors plugged and in their wells, limit at {plumbing.tank_limit}, cold feed open, valves \
             open and handles off, covers off, power on. Read every setting aloud against the photo.",
        )
        .evidence(Evidence::Note("who read, what stood differently"))
        .after(&[
            "commissioning.prove-start",
            "commissioning.prove-stop",
            "commissioning.prove-tank-limit",
            "commissioning.prove-lock-out",
            "commissioning.prove-power-cut",
            "commissioning.prove-refill",
            "commissioning.prove-night",
            "commissioning.prove-mixing",
            "commissioning.prove-relief",
            "commissioning.prove-frost",
            "commissioning.prove-frost-unpowered",
            "commissioning.prove-trip",
            "commissioning.prove-bond",
            "commissioning.prove-no-flow",
        ])
        .relies(&["plumbing.tank_limit", "commissioning.start_difference", "commissioning.stop_difference"])
        .read_back(),
];
