//! The figures of the commissioning stage.

use super::proof::{Held, Proof};
use super::{FLOW, GAUGE, LOOP_TEST, PANEL_TEST, SENSOR, SENSOR_TYPE, TEST, entries as e, sensor};
use crate::model::{Fig, Value, Why};
use crate::physics::pressure_test::Outcome;
use crate::stage::{Axis, Figure, Group, Solution, plumbing};
use crate::units::Kind::{Energy, Flow, Percent, Pressure, Resistance, Temperature, Time, Volume};
use crate::units::Quantity;
use crate::units::si::Dimension;

static BUCKET_AT_DESIGN: Group =
    Group { name: "bucket at the design flow", entries: &["commissioning.bucket_volume"], groups: &[&plumbing::ROW] };

static FLOW_AGAINST_DESIGN: Group =
    Group { name: "flow against design", entries: &[], groups: &[&FLOW, &plumbing::ROW] };

fn held(proof: &Proof) -> Fig<&Held> {
    proof.held.as_ref().map_err(Clone::clone)
}

fn panel(s: &Solution) -> Fig<&Held> {
    held(&s.commissioning.panel)
}

fn circuit(s: &Solution) -> Fig<&Held> {
    held(&s.commissioning.circuit)
}

/// The outcome of a hold in words.
pub fn outcome(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Leak => "leak",
        Outcome::NoLeakSeen => "no leak seen",
        Outcome::CannotTell => "cannot tell",
    }
}

fn told(held: &Held) -> Value {
    Value::Text(outcome(held.result.outcome).to_owned())
}

const TESTED: (&str, &str) = ("test", "commissioning.test_pressure");
const WITH: (&str, &str) = ("medium", "commissioning.test_medium");

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("commissioning.test_pressure", "test pressure", Pressure, &TEST, |s, _| {
        Ok(s.commissioning.test_pressure.clone()?.pressure.into())
    })
    .by(
        "test-pressure",
        "1.5 × {relief}, at most {weakest}",
        &[("relief", "plumbing.relief_setting"), ("weakest", "plumbing.weakest_rating")],
    ),
    Figure::new("commissioning.gauge_target", "loop gauge at test pressure", Pressure, &GAUGE, |s, _| {
        Ok(s.commissioning.gauge_target.clone()?.into())
    })
    .by("test-pressure", "{test} − ρ g {h}, water", &[TESTED, ("h", "commissioning.gauge_height")]),
    Figure::new("commissioning.panel_energy", "energy in a panel under test", Energy, &PANEL_TEST, |s, _| {
        Ok(s.commissioning.panel.energy.clone()?.into())
    })
    .by("test-energy", "{medium} at the start reading, or at {test}", &[WITH, TESTED]),
    Figure::new("commissioning.panel_change", "panel test, change corrected", Pressure, &PANEL_TEST, |s, _| {
        Ok(panel(s)?.result.corrected_change.into())
    })
    .by(
        "pressure-hold",
        "({p2} − {p1}) − S ({T2} − {T1})",
        &[
            ("p2", "commissioning.panel_end"),
            ("p1", "commissioning.panel_start"),
            ("T2", "commissioning.panel_end_temperature"),
            ("T1", "commissioning.panel_start_temperature"),
        ],
    ),
    Figure::new("commissioning.panel_explained", "panel test, by temperature", Pressure, &PANEL_TEST, |s, _| {
        Ok(panel(s)?.result.explained.into())
    })
    .by("pressure-hold", "S × change of temperature, S of shut {medium}", &[WITH]),
    Figure::new("commissioning.panel_smallest_leak", "panel test, smallest leak", Flow, &PANEL_TEST, |s, _| {
        Ok(panel(s)?.smallest_leak.into())
    })
    .by("pressure-hold", "(allowance + uncertainty) × softness / {t}", &[("t", "commissioning.panel_hold")]),
    Figure::new("commissioning.panel_per_kelvin", "panel test, one kelvin makes", Pressure, &PANEL_TEST, |s, _| {
        Ok(panel(s)?.per_kelvin.into())
    })
    .by("pressure-hold", "S of shut {medium}, softer by what was pumped in", &[WITH]),
    Figure::new(
        "commissioning.panel_corrected",
        "panel test, end at the first temperature",
        Pressure,
        &PANEL_TEST,
        |s, _| Ok(panel(s)?.corrected_end.into()),
    )
    .by(
        "pressure-hold",
        "{p2} − {by}",
        &[("p2", "commissioning.panel_end"), ("by", "commissioning.panel_explained")],
    ),
    Figure::new("commissioning.panel_allowance", "panel test, may be off by", Pressure, &PANEL_TEST, |s, _| {
        Ok(panel(s)?.result.allowance.into())
    })
    .by("pressure-hold", "largest of 0.1 bar, 2 % of {p1}, one division", &[("p1", "commissioning.panel_start")]),
    Figure::new("commissioning.panel_air", "panel test, air among the water", Volume, &PANEL_TEST, |s, _| {
        let none = || Why::missing("commissioning.panel_pumped");
        Ok(panel(s)?.air.ok_or_else(none)?.into())
    })
    .by("squeeze", "{ΔV}/(1 − p₁/p₂), absolute", &[("ΔV", "commissioning.panel_pumped")]),
    Figure::word("commissioning.panel_result", "panel test, result", &PANEL_TEST, |s, _| Ok(told(panel(s)?))).by(
        "pressure-hold",
        "{change} against the allowance",
        &[("change", "commissioning.panel_change")],
    ),
    Figure::new("commissioning.loop_energy", "energy in the loop under test", Energy, &LOOP_TEST, |s, _| {
        Ok(s.commissioning.circuit.energy.clone()?.into())
    })
    .by("test-energy", "{medium} at the start reading, or at {test}", &[WITH, TESTED]),
    Figure::new("commissioning.loop_change", "loop test, change corrected", Pressure, &LOOP_TEST, |s, _| {
        Ok(circuit(s)?.result.corrected_change.into())
    })
    .by(
        "pressure-hold",
        "({p2} − {p1}) − S ({T2} − {T1})",
        &[
            ("p2", "commissioning.loop_end"),
            ("p1", "commissioning.loop_start"),
            ("T2", "commissioning.loop_end_temperature"),
            ("T1", "commissioning.loop_start_temperature"),
        ],
    ),
    Figure::new("commissioning.loop_explained", "loop test, by temperature", Pressure, &LOOP_TEST, |s, _| {
        Ok(circuit(s)?.result.explained.into())
    })
    .by("pressure-hold", "S × change of temperature, S of shut {medium}", &[WITH]),
    Figure::new("commissioning.loop_smallest_leak", "loop test, smallest leak", Flow, &LOOP_TEST, |s, _| {
        Ok(circuit(s)?.smallest_leak.into())
    })
    .by("pressure-hold", "(allowance + uncertainty) × softness / {t}", &[("t", "commissioning.loop_hold")]),
    Figure::new("commissioning.loop_per_kelvin", "loop test, one kelvin makes", Pressure, &LOOP_TEST, |s, _| {
        Ok(circuit(s)?.per_kelvin.into())
    })
    .by("pressure-hold", "S of shut {medium}, softer by what was pumped in", &[WITH]),
    Figure::new(
        "commissioning.loop_corrected",
        "loop test, end at the first temperature",
        Pressure,
        &LOOP_TEST,
        |s, _| Ok(circuit(s)?.corrected_end.into()),
    )
    .by(
        "pressure-hold",
        "{p2} − {by}",
        &[("p2", "commissioning.loop_end"), ("by", "commissioning.loop_explained")],
    ),
    Figure::new("commissioning.loop_allowance", "loop test, may be off by", Pressure, &LOOP_TEST, |s, _| {
        Ok(circuit(s)?.result.allowance.into())
    })
    .by("pressure-hold", "largest of 0.1 bar, 2 % of {p1}, one division", &[("p1", "commissioning.loop_start")]),
    Figure::new("commissioning.loop_air", "loop test, air among the water", Volume, &LOOP_TEST, |s, _| {
        let none = || Why::missing("commissioning.loop_pumped");
        Ok(circuit(s)?.air.ok_or_else(none)?.into())
    })
    .by("squeeze", "{ΔV}/(1 − p₁/p₂), absolute", &[("ΔV", "commissioning.loop_pumped")]),
    Figure::word("commissioning.loop_result", "loop test, result", &LOOP_TEST, |s, _| Ok(told(circuit(s)?))).by(
        "pressure-hold",
        "{change} against the allowance",
        &[("change", "commissioning.loop_change")],
    ),
    Figure::new("commissioning.sensor_table", "sensor at so many °C", Resistance, &SENSOR_TYPE, |s, key| {
        Ok(sensor::row(&s.inputs, key)?.into())
    })
    .axis(Axis::Celsius)
    .by("sensor-curve", "R(t) of a {type}", &[("type", "commissioning.sensor_type")]),
    Figure::new("commissioning.sensor_temperature", "panel sensor says", Temperature, &SENSOR, |s, _| {
        Ok(s.commissioning.sensor.clone()?.into())
    })
    .by(
        "sensor-curve",
        "t at which a {type} has {R}",
        &[("type", "commissioning.sensor_type"), ("R", "commissioning.sensor_ohms")],
    ),
    Figure::new("commissioning.bucket_design", "bucket at the design flow", Time, &BUCKET_AT_DESIGN, |s, _| {
        Ok((s.inputs.get(&e::BUCKET)? / s.plumbing.row.clone()?.flow).into())
    })
    .by("bucket-flow", "{V} / {Q}", &[("V", "commissioning.bucket_volume"), ("Q", "plumbing.flow")]),
    Figure::new("commissioning.flow", "flow measured", Flow, &FLOW, |s, _| {
        Ok(s.commissioning.flow.clone()?.flow.into())
    })
    .by("bucket-flow", "{V} / {t}", &[("V", "commissioning.bucket_volume"), ("t", "commissioning.bucket_time")]),
    Figure::new("commissioning.flow_uncertainty", "give or take, 95 %", Flow, &FLOW, |s, _| {
        Ok(s.commissioning.flow.clone()?.expanded?.into())
    })
    .by(
        "bucket-flow",
        "2 {q} √((a/(√3 V))² + (u_t/t)²), a = {a}",
        &[("q", "commissioning.flow"), ("a", "commissioning.bucket_limit")],
    ),
    Figure::new("commissioning.flow_share", "flow measured / design", Percent, &FLOW_AGAINST_DESIGN, |s, _| {
        let design = s.plumbing.row.clone()?.flow;
        Ok(Quantity::percent(s.commissioning.flow.clone()?.flow.si() / design.si()).into())
    })
    .by("bucket-flow", "{q} / {Q}", &[("q", "commissioning.flow"), ("Q", "plumbing.flow")]),
    Figure::new("commissioning.drain_expected", "liquid that must drain", Volume, &plumbing::CONTENTS, |s, _| {
        Ok(s.commissioning.drains.clone()?.into())
    })
    .by(
        "loop-content",
        "{panels} + π D²/4 × falling pipe ({L}, or the whole loop)",
        &[("panels", "plumbing.panels_content"), ("L", "plumbing.drained_length")],
    ),
];
