//! Steam from a panel that stands in the sun: how much, how far, and what it reaches.
//!
//! An upper bound each way: all steam is taken to go that way, and the liquid that it pushes ahead is not counted.

use super::entries::part;
use super::entries::run::Place;
use super::network::Network;
use super::pipework::{Line, given_at};
use super::{closed, panel_count};
use crate::model::{Fig, Inputs, Why};
use crate::physics::collector_curve::{CollectorCurve, Weather};
use crate::physics::fluid::Fluid;
use crate::stage::absorber;
use crate::units::si::{Dimension, HeatFluxDensity, Length, Power, Temperature, Volume, celsius, difference};

/// Air around pipes indoors, °C (project value).
const INDOORS: f64 = 20.0;

/// Steam one way from the panels.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Reach {
    /// Length of pipe that condenses all of it; the whole way where it is not condensed.
    pub length: Length,
    /// What that pipe holds.
    pub volume: Volume,
    /// Parts that it can reach, in order.
    pub parts: Vec<String>,
    /// Runs that it can reach, in order.
    pub runs: Vec<String>,
    /// It is not condensed on the whole way round.
    pub goes_round: bool,
}

/// Steam when the pump stands still.
#[derive(Clone, Debug, PartialEq)]
pub struct Steam {
    /// Saturation at the pressure under which the panel boils.
    pub saturation: Temperature,
    /// Power that goes into steam.
    pub power: Power,
    /// With the flow, from the panels' outlet.
    pub onward: Reach,
    /// Against the flow, from the panels' inlet.
    pub backward: Reach,
}

impl Steam {
    /// The larger of the two volumes: all steam goes one way.
    pub fn volume(&self) -> Volume {
        self.onward.volume.max(self.backward.volume)
    }

    /// Everything that it can reach, either way.
    pub fn parts(&self) -> impl Iterator<Item = &String> {
        self.onward.parts.iter().chain(&self.backward.parts)
    }

    /// Whether it can reach a run.
    pub fn reaches_run(&self, run: &str) -> bool {
        self.onward.runs.iter().chain(&self.backward.runs).any(|name| name == run)
    }
}

/// Computes steam and its reach.
pub fn steam(
    inputs: &Inputs,
    liquid: Fluid,
    network: &Network,
    lines: &[Line],
    absorber: &absorber::Results,
) -> Fig<Steam> {
    let saturation = closed::saturation(inputs, liquid, network)?;
    let heat = absorber.heat.as_ref().map_err(Clone::clone)?;
    let stagnation = absorber.stagnation.as_ref().map_err(Clone::clone)?;
    let exposure = stagnation.worst_exposure;
    let area = absorber.collector.as_ref().map_err(Clone::clone)?.absorber_area() * panel_count(inputs)? as f64;
    let curve = {
        let hottest = &heat.hottest_curve;
        CollectorCurve { eta0: hottest.eta0, a1: hottest.a1, a2: hottest.a2 }
    };
    let weather = Weather { irradiance: exposure.irradiance, air: exposure.ambient };
    let power = steam_power(curve, weather, stagnation.worst, saturation)? * area;
    let conditions = Conditions { saturation, outdoors: exposure.ambient, power };
    Ok(Steam {
        saturation,
        power,
        onward: reach(inputs, network, lines, &conditions, false)?,
        backward: reach(inputs, network, lines, &conditions, true)?,
    })
}

/// Power for each area that goes into steam at saturation.
///
/// The curve is fitted at small differences and comes to nothing some kelvin too soon, so it is stretched until it ends
/// at the plate balance's own stagnation temperature; never below the curve itself.
fn steam_power(
    curve: CollectorCurve,
    weather: Weather,
    stagnation: Temperature,
    saturation: Temperature,
) -> Fig<HeatFluxDensity> {
    let ends = curve.stagnation(weather).map_err(Why::out_of_range)?;
    let stretch = difference(ends, weather.air).si() / difference(stagnation, weather.air).si();
    let at = weather.air.si() + difference(saturation, weather.air).si() * stretch.clamp(0.0, 1.0);
    let power = curve.power(weather, Temperature::from_si(at)).map_err(Why::out_of_range)?;
    Ok(HeatFluxDensity::from_si(power.si().max(0.0)))
}

/// What steam meets on its way.
struct Conditions {
    saturation: Temperature,
    outdoors: Temperature,
    power: Power,
}

/// Walks from the panels until the pipe has condensed all steam.
fn reach(inputs: &Inputs, network: &Network, lines: &[Line], steam: &Conditions, backward: bool) -> Fig<Reach> {
    let mut found = Reach::default();
    let mut left = steam.power.si();
    let mut order: Vec<usize> = (0..lines.len().min(network.circuit.len())).collect();
    if backward {
        order.reverse();
    }
    for index in order {
        if left <= 0.0 {
            return Ok(found);
        }
        let (line, stretch) = (&lines[index], &network.circuit[index]);
        let air = if line.place == Place::Outdoors { steam.outdoors } else { celsius(INDOORS) };
        let spread = difference(steam.saturation, air).si().max(0.0);
        let per_metre = line.conductance(inputs)?.0 * spread;
        let length = line.run.length.si();
        let share = if per_metre * length > left { left / (per_metre * length) } else { 1.0 };
        left -= per_metre * length;
        found.length += line.run.length * share;
        found.volume += line.content() * share;
        found.runs.push(stretch.run.clone());
        let count = stretch.along.len();
        let mut along: Vec<(f64, &String)> = stretch
            .along
            .iter()
            .enumerate()
            .map(|(at, name)| (if count > 1 { at as f64 / (count - 1) as f64 } else { 0.5 }, name))
            .collect();
        if backward {
            for (at, _) in &mut along {
                *at = 1.0 - *at;
            }
            along.reverse();
        }
        found.parts.extend(along.into_iter().filter(|(at, _)| *at <= share).map(|(_, name)| name.clone()));
        let end = if backward { &stretch.from } else { &stretch.to };
        if share >= 1.0 {
            found.parts.push(end.clone());
            found.parts.extend(network.hanging_at(end).filter(|name| *name != end.as_str()).map(str::to_owned));
        }
    }
    found.goes_round = left > 0.0;
    Ok(found)
}

/// A part that steam can reach, with the heat that it stands if that is known.
pub fn exposed(inputs: &Inputs, network: &Network, steam: &Steam) -> Fig<Vec<(String, Option<Temperature>)>> {
    let mut list: Vec<(String, Option<Temperature>)> = Vec::new();
    for name in steam.parts() {
        let judged = network.kind(name).is_some_and(is_sensitive);
        if judged && !list.iter().any(|(known, _)| known == name) {
            list.push((name.clone(), given_at(inputs, &part::LIMIT, name)?));
        }
    }
    Ok(list)
}

/// Parts that steam harms: seals, membranes, motors, floats.
const fn is_sensitive(kind: part::PartKind) -> bool {
    use part::PartKind as P;
    matches!(kind, P::Pump | P::Vessel | P::AutomaticVent | P::MixingValve | P::FlowMeter | P::Filter | P::Exchanger)
}
