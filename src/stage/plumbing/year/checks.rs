//! The checks of the year.

use super::entries::{self as y, Heater};
use crate::model::{Fig, Judgement, Why};
use crate::stage::plumbing::entries::{self as e, LoopType};
use crate::stage::{Check, Severity, Solution};
use crate::units::si::Dimension;
use crate::units::{Kind, Quantity};

/// How far the simulated share may lie from the correlation's before it wants a reason (project rule; three years of
/// reference lie within 0.07, two-tank plants within 0.03).
const USUAL: f64 = 0.10;

/// Simulated solar share less the correlation's.
pub fn difference(s: &Solution) -> Fig<f64> {
    let year = s.studies.year.as_deref().map_err(Why::clone)?;
    let correlation = s.plumbing.correlation.as_ref().map_err(Why::clone)?;
    let no_load = || Why::out_of_range("no heat is wanted in the year");
    let correlated = correlation.fraction().ok_or_else(no_load)?.si();
    Ok(year.outcome.year.solar_fraction().ok_or_else(no_load)? - correlated)
}

/// What the correlation does not know of this plant, in words.
fn reasons(s: &Solution) -> Fig<String> {
    let inputs = &s.inputs;
    let known = [
        (inputs.get(&y::HEATER)? == Heater::Element, "the heater in the tank warms what the sun could have warmed"),
        (inputs.get(&e::LOOP)? == LoopType::Thermosiphon, "a loop without a pump"),
        (inputs.get(&y::LAYERS)? < 3, "a mixed tank"),
        (!inputs.rows("plumbing.away").is_empty(), "days on which nobody draws"),
    ];
    let told: Vec<&str> = known.iter().filter(|(holds, _)| *holds).map(|(_, words)| *words).collect();
    Ok(if told.is_empty() { "hours of draw, losses of pipes, controller".to_owned() } else { told.join(", ") })
}

fn correlation(s: &Solution) -> Fig<Judgement> {
    let found = difference(s)?;
    let percent = |share| Quantity::new(Kind::Percent, share);
    let judgement = Judgement::caution_unless(found.abs() <= USUAL).part(reasons(s)?);
    Ok(judgement.with(percent(found), percent(USUAL)))
}

/// The checks of this file.
pub static CHECKS: &[Check] =
    &[Check::new("plumbing.correlation", "the year beside the correlation", Severity::Nuisance, correlation)
        .says(
            "The simulated solar share lies {found} from that of the monthly correlation; up to {limit} either way is \
             usual. The correlation does not know: {part}.",
            "If none of that explains it, look for a wrong entry: litres, tank, flow, exchanger, tilt.",
        )
        .blind_to("errors that both share: weather, sun on the plane, the panel's own figures")
        .source("Klein, Beckman & Duffie 1976 as an outside check; the limit is this project's own rule")
        .needs(&["plumbing.correlation_difference"])];
