//! The project's plant as the simulated year wants it: every number worked out from entries and other stages.

use std::f64::consts::PI;

use super::entries::{self as y, ExchangerType, Heater};
use super::pipes::{INDOORS, INSULATION, Pipes, exchanger, pipes};
use crate::model::{Fig, Inputs, Why};
use crate::stage::Solution;
use crate::stage::absorber::Heat;
use crate::stage::plumbing::entries::{self as e, LoopType};
use crate::stage::plumbing::{measured_panel, panel_count};
use crate::units::si::{
    Dimension, HeatTransfer, Length, Power, TemperatureInterval, ThermalConductance, ThermalConductivity, celsius,
};
use crate::year::{Auxiliary, Circuit, Collector, Control, CurveCollector, Exchange, LockOut, Plant, Tank};

/// Excess of the liquid over the air at which the curved loss of the panel is taken for the whole year, K (project
/// rule: a warm tank in mild air).
const USUAL_EXCESS: f64 = 30.0;
/// What connections and feet add to the loss of the tank's faces (common practice, no source).
const BRIDGES: f64 = 1.33;
/// Flow on the tank's side of an outside exchanger over that of the panels (UFC 3-440-01, equation 4-1, verified).
const STORAGE_FLOW: f64 = 1.25;
/// Conductivity along the tank, wall and stirring included, W/(m·K): 0.6 of water and as much again of the wall
/// (common practice, no source).
const ALONG: f64 = 1.2;
/// Where nothing else limits the tank its temperature relief valve does, °C (210 °F).
const RELIEF: f64 = 99.0;
/// How far a locked panel must cool, K (project rule).
const LOCK_BAND: f64 = 10.0;
/// Thermostat of an element, K (common practice, no source).
const DEADBAND: f64 = 5.0;
/// A loop without a pump is taken to run from this excess of the panel over the tank, and to rest below the next, K
/// (project rule: a thermosiphon needs a few kelvin to start and runs until it has given them).
const OWN_START: f64 = 3.0;
const OWN_STOP: f64 = 0.5;

/// The plant of a solution; the filled pipe counts with the panels' heat capacity, since it cools with them at night.
pub fn plant(solution: &Solution) -> Fig<Plant> {
    let measured = measured(solution)?;
    with_full_pipes(solution, measured.unwrap_or(drawn(solution)?))
}

/// The plant with its panels as drawn, where the year uses measured ones: what the year may not hide.
pub fn beside_measured(solution: &Solution) -> Fig<Option<Plant>> {
    measured(solution)?.map(|_| with_full_pipes(solution, drawn(solution)?)).transpose()
}

fn with_full_pipes(solution: &Solution, collector: Collector) -> Fig<Plant> {
    let mut plant = with_dry_pipes(solution, collector)?;
    plant.collector.capacity += pipes(solution)?.capacity;
    Ok(plant)
}

/// The plant with the heat capacity of the panels alone, for days that are to be survived: as drawn or as measured,
/// whichever gets the hotter in the sun, or the colder.
pub fn for_worst(solution: &Solution, extreme: Extreme) -> Fig<Plant> {
    let drawn = drawn(solution)?;
    let other = measured(solution)?.unwrap_or(drawn);
    let gains = [drawn.optical_gain, other.optical_gain];
    let losses = [drawn.loss, other.loss];
    let low = |pair: [HeatTransfer; 2]| if pair[0] < pair[1] { pair[0] } else { pair[1] };
    let high = |pair: [HeatTransfer; 2]| if pair[0] < pair[1] { pair[1] } else { pair[0] };
    let (optical_gain, loss) = match extreme {
        Extreme::Hot => (gains[0].max(gains[1]), low(losses)),
        Extreme::Cold => (gains[0].min(gains[1]), high(losses)),
    };
    with_dry_pipes(solution, Collector { optical_gain, loss, ..drawn })
}

/// Which end a day is to be survived at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Extreme {
    /// Heat.
    Hot,
    /// Frost.
    Cold,
}

fn with_dry_pipes(solution: &Solution, collector: Collector) -> Fig<Plant> {
    let inputs = &solution.inputs;
    Ok(Plant {
        circuit: loop_of(solution)?,
        tank: tank(solution)?,
        control: control(inputs)?,
        auxiliary: auxiliary(inputs)?,
        tap: inputs.get(&e::TAP)?,
        collector,
    })
}

fn heat(solution: &Solution) -> Fig<&Heat> {
    solution.absorber.heat.as_ref().map_err(Why::clone)
}

/// ṁ c_p of all panels at the design flow, W/K; of a thermosiphon whose loop is written at the flow that its own weight
/// gives at the working point.
pub fn capacity_rate(solution: &Solution) -> Fig<f64> {
    let point = &heat(solution)?.point;
    if solution.inputs.get(&e::LOOP)? == LoopType::Thermosiphon {
        match &solution.plumbing.working.natural {
            Ok(Some(natural)) => return Ok(natural.flow.si() * point.properties.specific_heat),
            Ok(None) => return Err(Why::out_of_range("nothing flows: the sun does not make up the losses")),
            Err(Why::Missing(_)) => {}
            Err(why) => return Err(why.clone()),
        }
    }
    Ok(point.conditions.mass_flow.si() * point.properties.specific_heat * panel_count(&solution.inputs)? as f64)
}

/// All panels as drawn: their curve turned to the inlet.
fn drawn(solution: &Solution) -> Fig<Collector> {
    let count = panel_count(&solution.inputs)? as f64;
    let Heat { curve, capacity, point, .. } = heat(solution)?;
    let area = solution.absorber.collector.as_ref().map_err(Why::clone)?.absorber_area() * count;
    CurveCollector {
        area,
        eta0: curve.eta0,
        a1: curve.a1,
        a2: curve.a2,
        usual_excess: TemperatureInterval::from_si(USUAL_EXCESS),
        capacity_rate: capacity_rate(solution)?,
        heat_removal_factor: point.heat_removal_factor,
        capacity: capacity.total * count,
    }
    .at_inlet()
    .map_err(Why::out_of_range)
}

/// All panels as measured, where the year is to use that.
fn measured(solution: &Solution) -> Fig<Option<Collector>> {
    let found = measured_panel(&solution.inputs, &solution.commissioning.logged.fitted)?;
    found.map(|(optical_gain, loss)| Ok(Collector { optical_gain, loss, ..drawn(solution)? })).transpose()
}

fn loop_of(solution: &Solution) -> Fig<Circuit> {
    let inputs = &solution.inputs;
    let rate = capacity_rate(solution)?;
    let exchange = match solution.plumbing.effectiveness.clone()? {
        None => Exchange::Direct,
        Some(effectiveness) => match exchanger(solution).map_or_else(|| inputs.get(&y::EXCHANGER_TYPE), Ok)? {
            ExchangerType::Coil => Exchange::Coil { effectiveness: effectiveness.si() },
            ExchangerType::Plate => {
                Exchange::Plate { effectiveness: effectiveness.si(), storage_rate: STORAGE_FLOW * rate }
            }
        },
    };
    let Pipes { hot, cold, .. } = pipes(solution)?;
    let pump = match inputs.get(&e::LOOP)? {
        LoopType::Thermosiphon => Power::from_si(0.0),
        _ => inputs.get(&y::PUMP_POWER)?,
    };
    Ok(Circuit { capacity_rate: rate, exchange, hot_pipe: hot, cold_pipe: cold, pump })
}

/// The tank as an upright cylinder.
fn tank(solution: &Solution) -> Fig<Tank> {
    let inputs = &solution.inputs;
    let room = inputs.get(&y::TANK_ROOM)?;
    let mains = solution.site.mains.as_ref().map_err(Why::clone)?.monthly[0].si();
    Ok(Tank {
        volume: inputs.get(&e::TANK)?,
        layers: inputs.get(&y::LAYERS)?,
        height: inputs.get(&y::TANK_HEIGHT)?,
        loss: tank_loss(inputs)?,
        surroundings: room,
        vertical_conductivity: ThermalConductivity::from_si(ALONG),
        // The first days are neither those of a new cold tank nor of a hot one.
        start: Dimension::from_si(0.5 * (mains + inputs.get(&e::TAP)?.si())),
    })
}

/// UA of the project's tank.
pub fn tank_loss(inputs: &Inputs) -> Fig<ThermalConductance> {
    Ok(cylinder_loss(inputs.get(&e::TANK)?.si(), inputs.get(&y::TANK_HEIGHT)?, inputs.get(&y::TANK_INSULATION)?))
}

/// UA of an upright cylinder with even insulation, its connections and feet included.
fn cylinder_loss(volume: f64, height: Length, insulation: Length) -> ThermalConductance {
    let section = volume / height.si();
    let around = (4.0 * PI * section).sqrt() * height.si();
    let resistance = insulation.si() / INSULATION + 1.0 / INDOORS;
    ThermalConductance::from_si(BRIDGES * (around + 2.0 * section) / resistance)
}

fn control(inputs: &Inputs) -> Fig<Control> {
    let limit = inputs.given(&e::TANK_LIMIT)?.unwrap_or(celsius(RELIEF));
    let band = inputs.get(&y::BAND)?;
    if inputs.get(&e::LOOP)? == LoopType::Thermosiphon {
        return Ok(Control {
            start: TemperatureInterval::from_si(OWN_START),
            stop: TemperatureInterval::from_si(OWN_STOP),
            limit: celsius(RELIEF),
            reset: celsius(RELIEF) - band,
            lock_out: None,
        });
    }
    let lock_out = inputs.given(&y::LOCK_OUT)?;
    Ok(Control {
        start: inputs.get(&y::START)?,
        stop: inputs.get(&y::STOP)?,
        limit,
        reset: limit - band,
        lock_out: lock_out.map(|above| LockOut { above, below: above - TemperatureInterval::from_si(LOCK_BAND) }),
    })
}

fn auxiliary(inputs: &Inputs) -> Fig<Auxiliary> {
    Ok(match inputs.get(&y::HEATER)? {
        Heater::None => Auxiliary::None,
        Heater::Inline => Auxiliary::Inline,
        Heater::Element => {
            let layers = inputs.get(&y::LAYERS)?;
            Auxiliary::Element {
                layer: layer_at(inputs.get(&y::ELEMENT_DEPTH)?.si(), layers),
                set: inputs.get(&y::ELEMENT_SET)?,
                deadband: TemperatureInterval::from_si(DEADBAND),
                power: inputs.get(&y::ELEMENT_POWER)?,
            }
        }
    })
}

/// The layer at a share of the height below the top.
fn layer_at(depth: f64, layers: usize) -> usize {
    (0..layers).rev().find(|layer| *layer as f64 <= depth * layers as f64).unwrap_or(0).min(layers - 1)
}
