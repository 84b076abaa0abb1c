//! The checks of the plumbing stage.

use super::entries::{self as e};
use crate::model::{Fig, Judgement};
use crate::stage::{Check, Severity, Solution};
use crate::units::si::{Dimension, Velocity};
use crate::units::{Kind, Quantity};

/// Highest speed in the pipes of a solar loop, m/s (UFC 3-440-01, appendix D, verified: 5 ft/s).
pub const FASTEST: f64 = 1.5;
/// Lowest speed that carries air along a falling pipe, m/s (from memory).
const AIR_CARRYING: f64 = 0.3;
/// Storage per collector area, L/m² (UFC 3-440-01, 4-3.2, verified: 1.5 to 2 gal/ft²).
const STORAGE: (f64, f64) = (61.1, 81.5);
/// The two published ranges of flow as one, m/s: 0.9 to 1.2 (from memory) and 1.6 to 2.0 L/min per m² (home builders).
const FLOW: (f64, f64) = (0.9e-3 / 60.0, 2.0e-3 / 60.0);

fn velocity(s: &Solution) -> Fig<Judgement> {
    let fastest = s.plumbing.pipe.as_ref().map_err(Clone::clone)?.fastest()?;
    let found = fastest.drop.velocity;
    let limit = Velocity::from_si(FASTEST);
    Ok(Judgement::stop_unless(found <= limit).with(found, limit).margin(limit - found).part(fastest.line.name.clone()))
}

fn air_carrying(s: &Solution) -> Fig<Judgement> {
    let slowest = s.plumbing.pipe.as_ref().map_err(Clone::clone)?.slowest()?;
    let found = slowest.drop.velocity;
    let limit = Velocity::from_si(AIR_CARRYING);
    Ok(Judgement::caution_unless(found >= limit)
        .with(found, limit)
        .margin(found - limit)
        .part(slowest.line.name.clone()))
}

fn storage(s: &Solution) -> Fig<Judgement> {
    let found = s.plumbing.storage.clone()?.si();
    let (low, high) = STORAGE;
    let (limit, part) = if found < low { (low, "little") } else { (high, "much") };
    let judgement = Judgement::caution_unless((low..=high).contains(&found)).part(part);
    Ok(judgement.with(Quantity::number(found), Quantity::number(limit)))
}

fn flow_range(s: &Solution) -> Fig<Judgement> {
    let found = s.inputs.get(&e::FLOW_PER_AREA)?;
    let (low, high) = FLOW;
    // A flow typed as the end of a range must not fail by its rounding.
    let inside = found >= low * (1.0 - 1e-9) && found <= high * (1.0 + 1e-9);
    let flow = |si| Quantity::new(Kind::FlowPerArea, si);
    Ok(Judgement::caution_unless(inside).with(flow(found), flow(if found < low { low } else { high })))
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("plumbing.pipe-speed", "speed in the loop pipe", Severity::Injury, velocity)
        .says(
            "The design flow runs at {found} through run '{part}'; {limit} is the most: beyond it copper wears thin \
             at the elbows and the pipe is loud.",
            "A wider pipe, or less flow.",
        )
        .blind_to("speed inside valves, hose barbs and headers; hot water above 60 °C wants less than 0.9 m/s")
        .source("5 ft/s: UFC 3-440-01, appendix D; 2 to 3 ft/s above 60 °C: an engineering reference page")
        .needs(&["plumbing.velocity"]),
    Check::new("plumbing.air-carrying", "speed that carries air", Severity::Nuisance, air_carrying)
        .says(
            "At {found} in run '{part}' air bubbles may stay behind where it falls; from {limit} on they are carried along.",
            "A narrower pipe, or a vent by hand at each high point; flush faster than the loop runs.",
        )
        .blind_to("air that was never flushed out, and the flow that the pump really gives")
        .source("speed that carries bubbles down")
        .recalls("0.3 m/s")
        .needs(&["plumbing.velocity"]),
    Check::new("plumbing.storage", "tank, litres for each m² of collector", Severity::Nuisance, storage)
        .says(
            "The tank holds {found} L for each m² of collector, which is {part}; 61 to 81 L is the published range.",
            "Too little storage runs hot and wastes summer sun, too much stays lukewarm. Change tank or panels, or \
             keep it knowingly.",
        )
        .blind_to("when the water is drawn; a load at noon needs less storage")
        .source("1.5 to 2 gal/ft²: UFC 3-440-01, 4-3.2")
        .needs(&["plumbing.storage_per_area"]),
    Check::new("plumbing.flow-range", "flow per collector area", Severity::Nuisance, flow_range)
        .says(
            "The flow is {found}. Published: 0.9 to 1.2 L/min per m² (near the flow of collector tests) and 1.6 to \
             2.0 L/min per m² (home builders).",
            "Choose within one of the ranges, unless tank and pipes are made for less.",
        )
        .blind_to("the flow that the pump gives; measure it with bucket and watch")
        .source("0.04 to 0.05 gpm/ft²: home builders' pages")
        .recalls("0.9 to 1.2 L/min per m²")
        .needs(&["plumbing.flow_per_area"]),
];
