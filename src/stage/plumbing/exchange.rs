//! Exchanger, pipe heat and the potable side: what moves the heat, what is lost on the way, what grows when heated.

use super::circuit::working_temperature;
use super::closed;
use super::entries::run::Place;
use super::entries::{self as e, LoopType, service};
use super::pipework::{Line, Tubing};
use crate::handbook::tube;
use crate::model::{Fig, Inputs, Why};
use crate::physics::coil::{Coil, CoilService};
use crate::physics::exchanger::{Counterflow, Inlets, coil_effectiveness};
use crate::physics::expansion_vessel::{Demand, PressureRange};
use crate::physics::fluid::Fluid;
use crate::physics::glycol::{self, Warming};
use crate::physics::pipe_loss::filled_heat_capacity;
use crate::units::si::{
    Dimension, Energy, MassRate, Power, Pressure, Ratio, Temperature, ThermalConductance, ThermalConductivity, Volume,
    VolumeRate, celsius, difference,
};

/// Conductivity of copper, W/(m·K) (from memory).
const COPPER: f64 = 390.0;
/// Loop and tank at which a coil is worked out, °C.
const COIL_AT: (f64, f64) = (55.0, 45.0);
/// Air around the pipe at which losses are shown, °C: indoors, outdoors.
const AIR: (f64, f64) = (20.0, 10.0);
/// Cold water that a tank is filled with, °C.
const FILLED_AT: f64 = 10.0;

/// Effectiveness of the exchanger as computed from coil or plate; none where the loop has none.
pub fn computed_effectiveness(inputs: &Inputs, fluid: Fluid, flow: VolumeRate) -> Fig<Option<Ratio>> {
    let liquid = fluid.properties_at(COIL_AT.0 + crate::units::si::ZERO_CELSIUS);
    let mass_flow = MassRate::from_si(flow.si() * liquid.density);
    if matches!(inputs.get(&e::LOOP)?, LoopType::Direct | LoopType::Thermosiphon) {
        return Ok(None);
    }
    if let Some(name) = inputs.given(&service::COIL_TUBE)? {
        let tube = tube::tube(&name).ok_or_else(|| Why::Invalid(vec![service::COIL_TUBE.spec.id.to_owned()]))?;
        let coil = Coil {
            od: tube.od,
            bore: tube.bore(),
            length: inputs.get(&service::COIL_LENGTH)?,
            wall: ThermalConductivity::from_si(COPPER),
        };
        let service =
            CoilService { liquid: fluid, flow: mass_flow, liquid_mean: celsius(COIL_AT.0), tank: celsius(COIL_AT.1) };
        let found = coil.conductance(&service).map_err(Why::out_of_range)?;
        return Ok(Some(Ratio::from_si(coil_effectiveness(found.transfer_units))));
    }
    let Some(conductance) = inputs.given(&service::EXCHANGER_UA)? else { return Ok(None) };
    let water = Fluid::Water.properties_at(COIL_AT.1 + crate::units::si::ZERO_CELSIUS);
    let exchanger = Counterflow {
        conductance,
        hot_rate: mass_flow.si() * liquid.specific_heat,
        cold_rate: inputs.get(&service::STORAGE_FLOW)?.si() * water.density * water.specific_heat,
    };
    let inlets = Inlets { hot: celsius(COIL_AT.0), cold: celsius(COIL_AT.1) };
    Ok(Some(Ratio::from_si(exchanger.transfer(inlets).map_err(Why::out_of_range)?.effectiveness)))
}

/// The effectiveness that counts: as entered, else as computed; none where the panels' water is the tank's. A glycol
/// loop must have one of the two.
pub fn effectiveness(inputs: &Inputs, computed: &Fig<Option<Ratio>>) -> Fig<Option<Ratio>> {
    let loop_type = inputs.get(&e::LOOP)?;
    if matches!(loop_type, LoopType::Direct | LoopType::Thermosiphon) {
        return Ok(None);
    }
    match (inputs.given(&e::EXCHANGER)?, computed.clone()) {
        (Some(given), _) => Ok(Some(given)),
        (None, Ok(None)) if loop_type == LoopType::Glycol => inputs.get(&e::EXCHANGER).map(Some),
        (None, computed) => computed,
    }
}

/// Heat that the pipe loses.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PipeHeat {
    /// Of all runs, by kelvin.
    pub conductance: ThermalConductance,
    /// While the loop runs at the working temperature.
    pub running: Power,
    /// What liquid and copper give up each night.
    pub nightly: Energy,
}

/// Adds the losses of all runs up.
pub fn pipe_heat(inputs: &Inputs, lines: &[Line], fluid: Fluid) -> Fig<PipeHeat> {
    let warm = working_temperature();
    let liquid = fluid.properties_at(warm.si());
    let (mut conductance, mut running, mut nightly) = (0.0, 0.0, 0.0);
    for line in lines {
        let air = celsius(if line.place == Place::Outdoors { AIR.1 } else { AIR.0 });
        let of_run = line.conductance(inputs)?.0 * line.run.length.si();
        let spread = difference(warm, air).si();
        let capacity = match &line.tubing {
            Tubing::Copper(tube) => filled_heat_capacity(tube.od, tube.wall, &liquid).map_err(Why::out_of_range)?,
            Tubing::Hose(_) => line.content().si() / line.run.length.si() * liquid.density * liquid.specific_heat,
        };
        conductance += of_run;
        running += of_run * spread;
        nightly += capacity * line.run.length.si() * spread;
    }
    Ok(PipeHeat {
        conductance: ThermalConductance::from_si(conductance),
        running: Power::from_si(running),
        nightly: Energy::from_si(nightly),
    })
}

/// Growth of the tank's water from the mains to its limit.
pub fn potable_growth(inputs: &Inputs) -> Fig<Volume> {
    let warming = Warming { cold: celsius(FILLED_AT), hot: inputs.get(&e::TANK_LIMIT)? };
    Ok(inputs.get(&e::TANK)? * glycol::expansion(Fluid::Water, warming).map_err(Why::out_of_range)?)
}

/// Vessel that the potable side needs: precharged to the mains' pressure, full at the relief setting less its distance.
pub fn potable_vessel(inputs: &Inputs) -> Fig<Volume> {
    let range = PressureRange {
        precharge: inputs.get(&service::MAINS_PRESSURE)?,
        last: closed::final_pressure(inputs.get(&service::TANK_RELIEF)?),
        atmosphere: closed::air(inputs)?,
    };
    let demand = Demand { expansion: potable_growth(inputs)?, vapour: Volume::default(), reserve: Volume::default() };
    range.least_volume(&demand).map_err(Why::out_of_range)
}

/// The hottest panel at which a pump may start: 120 °C, 10 K below saturation at the top, 10 K below the weakest part.
pub fn lockout_limit(top: Temperature, weakest: Option<Temperature>, loop_type: LoopType) -> Temperature {
    const GREATEST: f64 = 120.0;
    const DRAINBACK: f64 = 85.0;
    const DISTANCE: f64 = 10.0;
    let fixed = celsius(if loop_type == LoopType::Drainback { DRAINBACK } else { GREATEST });
    let below = |limit: Temperature| Temperature::from_si(limit.si() - DISTANCE);
    let least = |a: Temperature, b: Temperature| if a < b { a } else { b };
    weakest.map_or(least(fixed, below(top)), |weakest| least(least(fixed, below(top)), below(weakest)))
}

/// Absolute pressure at the top of the loop, cold and still.
pub fn top_pressure(inputs: &Inputs, loop_type: LoopType, column: Pressure) -> Fig<Pressure> {
    let air = closed::air(inputs)?;
    Ok(match loop_type {
        LoopType::Glycol => air + inputs.get(&service::TOP_PRESSURE)?,
        LoopType::Drainback => air,
        LoopType::Direct | LoopType::Thermosiphon => air + inputs.get(&service::MAINS_PRESSURE)? - column,
    })
}
