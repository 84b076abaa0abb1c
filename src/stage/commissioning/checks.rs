//! The checks of the commissioning stage.

use super::entries::{self as e, Medium};
use super::proof::Proof;
use super::rows::outcome;
use crate::model::{Fig, Judgement, Verdict};
use crate::physics::pressure_test::Outcome;
use crate::stage::plumbing::entries::{self as pipes, LoopType};
use crate::stage::{Check, Severity, Solution};
use crate::units::Quantity;
use crate::units::si::{Dimension, Energy, TemperatureInterval, difference};

/// Most energy that compressed air may hold in a panel under test, J (project rule: soap at 0.3 bar in 3 L is 70 J).
const AIR_ENERGY: f64 = 100.0;
/// Share of the test pressure that a hold must start with (project rule).
const REACHED: f64 = 0.95;
/// Departure of the flow from the design that is clear, and that is still let pass (10 %: acceptance sheet; 25 %:
/// project rule).
const FLOW_CLEAR: f64 = 0.10;
const FLOW_LEAST: f64 = 0.25;
/// Sensor against thermometer, K (project rule).
const SENSOR_CLEAR: f64 = 1.0;
const SENSOR_LEAST: f64 = 3.0;
/// Litres that may be missing, as a share (5 %: functional test of draining; 10 %: project rule).
const MISSING_CLEAR: f64 = 0.05;
const MISSING_LEAST: f64 = 0.10;

fn test_pressure(s: &Solution) -> Fig<Judgement> {
    let test = s.commissioning.test_pressure.clone()?;
    let weakest = s.inputs.get(&pipes::WEAKEST)?;
    Ok(Judgement::caution_unless(!test.capped).with(test.pressure, weakest).margin(weakest - test.pressure))
}

fn test_medium(s: &Solution) -> Fig<Judgement> {
    let medium = s.inputs.get(&e::MEDIUM)?;
    let found = s.commissioning.panel.energy.clone()?;
    let limit = Energy::from_si(AIR_ENERGY);
    let (verdict, part) = match medium {
        Medium::Water => (Verdict::Clear, "water"),
        Medium::Air if found <= limit => (Verdict::Caution, "air"),
        Medium::Air => (Verdict::Stop, "air"),
    };
    Ok(Judgement::of(verdict).with(found, limit).margin(limit - found).part(part))
}

fn proof(proof: &Proof) -> Fig<Judgement> {
    let held = proof.held.clone()?;
    let result = held.result;
    let (target, started) = (proof.target.clone()?, proof.started.clone()?);
    let low = started < target * REACHED;
    let short = held.held_share < 1.0;
    let verdict = match result.outcome {
        Outcome::Leak => Verdict::Stop,
        Outcome::CannotTell => Verdict::Unknown,
        Outcome::NoLeakSeen if low || short => Verdict::Caution,
        Outcome::NoLeakSeen => Verdict::Clear,
    };
    let part = match (result.outcome, low) {
        (Outcome::NoLeakSeen, true) => "no leak seen, but the test began below its pressure",
        (Outcome::NoLeakSeen, false) if short => "no leak seen, but it was held for less than was wanted",
        (seen, _) => outcome(seen),
    };
    let margin = result.allowance - result.corrected_change.abs();
    Ok(Judgement::of(verdict).with(result.corrected_change, result.allowance).margin(margin).part(part))
}

fn panel_proof(s: &Solution) -> Fig<Judgement> {
    proof(&s.commissioning.panel)
}

fn loop_proof(s: &Solution) -> Fig<Judgement> {
    proof(&s.commissioning.circuit)
}

fn flow_design(s: &Solution) -> Fig<Judgement> {
    let (found, design) = (s.commissioning.flow.clone()?.flow, s.plumbing.row.clone()?.flow);
    let off = (found.si() / design.si() - 1.0).abs();
    let verdict = match off {
        off if off <= FLOW_CLEAR => Verdict::Clear,
        off if off <= FLOW_LEAST => Verdict::Caution,
        _ => Verdict::Stop,
    };
    Ok(Judgement::of(verdict).with(found, design).margin(Quantity::percent(FLOW_CLEAR - off)))
}

fn sensor(s: &Solution) -> Fig<Judgement> {
    let off = difference(s.commissioning.sensor.clone()?, s.inputs.get(&e::SENSOR_BESIDE)?);
    let verdict = match off.si().abs() {
        kelvin if kelvin <= SENSOR_CLEAR => Verdict::Clear,
        kelvin if kelvin <= SENSOR_LEAST => Verdict::Caution,
        _ => Verdict::Stop,
    };
    let limit = TemperatureInterval::from_si(SENSOR_CLEAR);
    Ok(Judgement::of(verdict).with(off, limit).margin(limit - off.abs()))
}

fn drained(s: &Solution) -> Fig<Judgement> {
    let drainback = s.inputs.get(&pipes::LOOP)? == LoopType::Drainback;
    if !drainback && s.inputs.given(&e::DRAINED)?.is_none() {
        return Ok(Judgement::does_not_apply("this loop stays full"));
    }
    let (found, expected) = (s.inputs.get(&e::DRAINED)?, s.commissioning.drains.clone()?);
    let missing = 1.0 - found.si() / expected.si();
    let verdict = match missing {
        share if share.abs() <= MISSING_CLEAR => Verdict::Clear,
        share if share <= MISSING_LEAST => Verdict::Caution,
        _ => Verdict::Stop,
    };
    let part = if missing >= 0.0 { "some stayed inside" } else { "more came than should be in it" };
    Ok(Judgement::of(verdict).with(found, expected).margin(Quantity::percent(MISSING_CLEAR - missing.abs())).part(part))
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("commissioning.test-pressure", "test pressure against the weakest part", Severity::Serious, test_pressure)
        .says(
            "The weakest part stands {limit}, so the test stops at {found} and proves less than 1.5 times the relief \
             setting.",
            "Take the weak part out for the test, choose a stronger one, or lower the relief setting.",
        )
        .blind_to("parts whose rating was not looked up, and ratings at heat")
        .source("1.5 × relief setting: project rule after the common 1.5-fold rule")
        .needs(&["commissioning.test_pressure", "plumbing.weakest_rating"]),
    Check::new("commissioning.test-medium", "energy under test", Severity::Deadly, test_medium)
        .says(
            "A panel under test by {part} stores {found}; with air {limit} is the most. A joint that lets go becomes a \
             shot.",
            "Prove with water. Air only on cold bare metal, at 0.3 bar with soap, regulator with a relief of its own, \
             goggles, nobody in line with a joint; never on plastic or under glass.",
        )
        .blind_to("air trapped in a water test: let it out at the top")
        .ask("a licensed plumber or the authority for pressure vessels, before any test with air")
        .source("100 J: project rule; no compressed gas on plastic: rule of the pipe makers' body")
        .needs(&["commissioning.panel_energy", "commissioning.test_medium", "commissioning.panel_start"])
        .final_word(),
    Check::new("commissioning.panel-proof", "pressure test of the panel", Severity::Serious, panel_proof)
        .per_panel()
        .says(
            "Corrected for temperature the gauge moved by {found}, {limit} is allowed: {part}. The smallest leak that \
             this could have shown is {commissioning.panel_smallest_leak}.",
            "Leak: mark it, empty the harp, open both ends, repair, test again. Cannot tell: hold longer at a steady \
             temperature, out of the sun; write down what was pumped in.",
        )
        .blind_to("leaks that only open hot or under vibration; joints that nobody could reach with a tissue")
        .source(
            "allowance: the largest of 0.1 bar, 2 % and one division (project rule); start at 95 % of the test pressure \
             (project rule)",
        )
        .needs(&[
            "commissioning.panel_change",
            "commissioning.panel_start",
            "commissioning.panel_end",
            "commissioning.panel_weeps",
        ]),
    Check::new("commissioning.loop-proof", "pressure test of the loop", Severity::Serious, loop_proof)
        .says(
            "Corrected for temperature the gauge moved by {found}, {limit} is allowed: {part}. The smallest leak that \
             this could have shown is {commissioning.loop_smallest_leak}.",
            "Leak: let the pressure off, then mark and repair. Cannot tell: hold again before sunrise or at night; \
             write down what was pumped in.",
        )
        .blind_to("leaks that only open hot; what was shut off during the test: relief valve and vessel")
        .source(
            "allowance: the largest of 0.1 bar, 2 % and one division (project rule); start at 95 % of the test pressure \
             (project rule)",
        )
        .needs(&[
            "commissioning.loop_change",
            "commissioning.loop_start",
            "commissioning.loop_end",
            "commissioning.loop_weeps",
            "commissioning.gauge_target",
        ]),
    Check::new("commissioning.flow-design", "flow measured against design", Severity::Nuisance, flow_design)
        .says(
            "The bucket says {found}; the design wants {limit}.",
            "Too little: air, a half-closed valve, pump speed, a strainer. Too much: throttle on the pump's pressure \
             side.",
        )
        .blind_to("how the flow divides over panels and risers: feel the outlets")
        .source("10 %: project rule for acceptance; 25 %: project rule")
        .needs(&["commissioning.flow", "plumbing.flow"]),
    Check::new("commissioning.sensor-plausible", "panel sensor against a thermometer", Severity::Injury, sensor)
        .says(
            "By its ohms the sensor is {found} off the thermometer beside it; {limit} is allowed.",
            "Another curve, a wet joint, or a long thin wire. Compare again in ice water and in water of 50 °C or more.",
        )
        .blind_to("another curve that meets this one near 25 °C: one comparison at room temperature proves little")
        .source("1 K clear, 3 K caution: project rule; curves: IEC 60751 and two instrument manuals")
        .needs(&["commissioning.sensor_temperature", "commissioning.sensor_ohms", "commissioning.sensor_beside"]),
    Check::new("commissioning.drained-litres", "litres drained back", Severity::Serious, drained)
        .says(
            "{found} came back and {limit} should have: {part}. What stays inside freezes and bursts it.",
            "Find the sag or the header that is not level; look for a return that does not take in air.",
        )
        .blind_to("the last drops in a level header; whether it drains as well when the reservoir is cold and full")
        .source("5 %: project rule for the draining test; 10 %: project rule")
        .needs(&["commissioning.drained", "commissioning.drain_expected", "plumbing.loop"]),
];
