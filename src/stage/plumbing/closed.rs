//! A loop under pressure: relief chain, saturation, vessel, glycol to buy, what stands the pressure.

use super::entries::part::{self, PartKind};
use super::entries::service;
use super::entries::{self as e};
use super::heights::Profile;
use super::network::Network;
use super::pipework::given_at;
use super::steam::Steam;
use crate::model::{Fig, Inputs, Why};
use crate::physics::atmosphere;
use crate::physics::expansion_vessel::{ClosedLoop, GasCushion, VesselSize};
use crate::physics::fluid::Fluid;
use crate::physics::glycol::{self, Warming};
use crate::stage::site::entries::ALTITUDE;
use crate::units::si::{Dimension, Length, Mass, Pressure, Temperature, Volume};

/// Density of propylene glycol at 20 °C, kg/m³.
const GLYCOL_DENSITY: f64 = 1036.1;
/// Least distance of the final pressure from the relief setting, Pa and as a part of the setting.
const RELIEF_DISTANCE: (f64, f64) = (0.5e5, 0.1);

/// A closed loop in numbers.
#[derive(Clone, Debug, PartialEq)]
pub struct Closed {
    /// The vessel that it needs.
    pub vessel: VesselSize,
    /// The vessel that it has.
    pub fitted: Fig<Fitted>,
}

/// The vessel that is fitted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fitted {
    /// As sold.
    pub volume: Volume,
    /// Precharge as set.
    pub precharge: Pressure,
    /// Pressure when everything that can come is in it; none where it is too small to hold that at all.
    pub greatest: Option<Pressure>,
}

/// Air pressure at the site.
pub fn air(inputs: &Inputs) -> Fig<Pressure> {
    Ok(atmosphere::pressure(inputs.get(&ALTITUDE)?))
}

/// The lowest setting among the loop's relief valves; the loop's own entry where a valve has none written.
pub fn relief(inputs: &Inputs, network: &Network) -> Fig<Pressure> {
    let mut lowest: Option<Pressure> = None;
    for name in network.parts_of(PartKind::ReliefValve) {
        let setting = match given_at(inputs, &part::SETTING, name)? {
            Some(setting) => setting,
            None => inputs.get(&e::RELIEF)?,
        };
        lowest = Some(lowest.map_or(setting, |known| known.min(setting)));
    }
    lowest.map_or_else(|| inputs.get(&e::RELIEF), Ok)
}

/// Pressure up to which a loop should come: relief − max(0.5 bar, 10 %), at least nothing.
pub fn final_pressure(relief: Pressure) -> Pressure {
    let last = relief.si() - RELIEF_DISTANCE.0.max(RELIEF_DISTANCE.1 * relief.si());
    Pressure::from_si(last.max(0.0))
}

/// Boiling point at the final pressure.
pub fn saturation(inputs: &Inputs, liquid: Fluid, network: &Network) -> Fig<Temperature> {
    let absolute = final_pressure(relief(inputs, network)?) + air(inputs)?;
    glycol::boiling_point(liquid, absolute).map_err(Why::out_of_range)
}

/// What the loop's liquid fills.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Filling {
    /// The whole loop.
    pub contents: Volume,
    /// The panels.
    pub panels: Volume,
}

/// Sizes the vessel.
pub fn closed(
    inputs: &Inputs,
    liquid: Fluid,
    filling: Filling,
    cold: Temperature,
    network: &Network,
    profile: &Profile,
    steam: &Steam,
) -> Fig<Closed> {
    let Some(name) = network.part_of(PartKind::Vessel) else {
        return Err(Why::out_of_range("no vessel stands in the loop"));
    };
    let height = profile.height_of(network, name).unwrap_or_default();
    let atmosphere = air(inputs)?;
    let system = ClosedLoop {
        liquid,
        contents: filling.contents,
        panels: filling.panels,
        steam_pipe: steam.volume().min(filling.contents - filling.panels),
        cold,
        hot: steam.saturation,
        static_height: (profile.top() - height).max(Length::default()),
        top_pressure: inputs.get(&service::TOP_PRESSURE)?,
        relief: relief(inputs, network)?,
        atmosphere,
    };
    let vessel = system.vessel().map_err(Why::out_of_range)?;
    let fitted = fitted(inputs, name, &vessel, atmosphere);
    Ok(Closed { vessel, fitted })
}

fn fitted(inputs: &Inputs, name: &str, vessel: &VesselSize, atmosphere: Pressure) -> Fig<Fitted> {
    let volume = inputs.at(&part::VOLUME, name)?;
    let precharge = inputs.at(&part::SETTING, name)?;
    let all = vessel.expansion_volume + vessel.vapour_volume + vessel.reserve;
    let greatest = GasCushion { volume, precharge, atmosphere }.pressure_holding(all).ok();
    Ok(Fitted { volume, precharge, greatest })
}

/// Pressure to fill to at a temperature, gauge: the vessel then holds the reserve when the loop is coldest.
pub fn fill_pressure(
    closed: &Closed,
    liquid: Fluid,
    contents: Volume,
    warming: Warming,
    atmosphere: Pressure,
) -> Fig<Pressure> {
    let fitted = closed.fitted.clone()?;
    let grown = glycol::expansion(liquid, warming).map_err(Why::out_of_range)?;
    GasCushion { volume: fitted.volume, precharge: fitted.precharge, atmosphere }
        .pressure_holding(closed.vessel.reserve + contents * grown)
        .map_err(Why::out_of_range)
}

/// Glycol to buy for a loop, and what it weighs.
pub fn glycol_to_buy(inputs: &Inputs, contents: Volume, reserve: Volume) -> Fig<(Volume, Mass)> {
    let by_volume = inputs.get(&e::GLYCOL)?;
    let volume = (contents + reserve) * by_volume;
    Ok((volume, Mass::from_si(volume.si() * GLYCOL_DENSITY)))
}
