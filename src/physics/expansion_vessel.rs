//! The expansion vessel of a closed loop: its size, its pressures, what its gas cushion does.
//!
//! Growth and boiling of the liquid live in `glycol`, the reach of steam in `pipe_loss`.

use super::domain::{DomainError, not_negative, positive, within};
use super::fluid::Fluid;
use super::glycol::{self, Warming};
use super::hydrostatics::column_pressure;
use crate::units::si::{Dimension, Length, Pressure, Temperature, Volume};

/// Least reserve of liquid, m³ and as a part of the loop.
const RESERVE: (f64, f64) = (3e-3, 0.02);
/// Least distance of the final pressure from the relief setting, Pa and as a part of the setting.
const RELIEF_DISTANCE: (f64, f64) = (0.5e5, 0.1);

/// A closed loop that needs a vessel. All pressures are gauge unless they say otherwise.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClosedLoop {
    /// Liquid.
    pub liquid: Fluid,
    /// Contents of the whole loop.
    pub contents: Volume,
    /// Contents of the panels, which steam empties.
    pub panels: Volume,
    /// Contents of the pipe that steam reaches.
    pub steam_pipe: Volume,
    /// Record low, where the liquid is densest.
    pub cold: Temperature,
    /// Hottest liquid; by rule [`ClosedLoop::saturation`].
    pub hot: Temperature,
    /// Height of the loop's top above the vessel.
    pub static_height: Length,
    /// Pressure wanted at the top when cold: 0.5 to 1.0 bar.
    pub top_pressure: Pressure,
    /// Setting of the relief valve.
    pub relief: Pressure,
    /// Air pressure at the site, absolute.
    pub atmosphere: Pressure,
}

/// What the vessel has to be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct VesselSize {
    /// Growth of the liquid as a part of its cold volume.
    pub expansion: f64,
    /// What the liquid grows by.
    pub expansion_volume: Volume,
    /// What steam pushes out.
    pub vapour_volume: Volume,
    /// Reserve kept in the vessel when cold.
    pub reserve: Volume,
    /// Gas pressure before filling, gauge.
    pub precharge: Pressure,
    /// Pressure when everything is in the vessel, gauge.
    pub final_pressure: Pressure,
    /// Least nominal volume.
    pub least_volume: Volume,
    /// Pressure to fill to when cold with a vessel of just this volume, gauge.
    pub cold_fill: Pressure,
    /// The precharge is no more than half the final pressure, as the planning manual wants it.
    pub precharge_below_half: bool,
}

impl ClosedLoop {
    /// Least vessel: V_N = (V_e + V_vapour + V_reserve)(p_e + p_atm)/(p_e − p_0).
    ///
    /// V_e = V\[ρ(cold)/ρ(hot) − 1\], reserve = max(2 %, 3 L), p_0 = ρ g h + pressure at the top,
    /// p_e = relief − max(0.5 bar, 10 %) (practice of central-European planning manuals; the manuals' worked example
    /// is a test). A relief valve too low for the height is refused.
    pub fn vessel(&self) -> Result<VesselSize, DomainError> {
        let contents = positive("contents of the loop", self.contents.si())?;
        not_negative("contents of the panels", self.panels.si())?;
        not_negative("contents of the pipe with steam", self.steam_pipe.si())?;
        within("panels and pipe with steam", (self.panels + self.steam_pipe).si(), 0.0, contents)?;
        let expansion = glycol::expansion(self.liquid, Warming { cold: self.cold, hot: self.hot })?;
        let demand = Demand {
            expansion: self.contents * expansion,
            vapour: self.panels + self.steam_pipe,
            reserve: Volume::from_si(RESERVE.0.max(RESERVE.1 * contents)),
        };
        let precharge = self.precharge()?;
        let final_pressure = self.final_pressure()?;
        let range = PressureRange { precharge, last: final_pressure, atmosphere: self.atmosphere };
        let least_volume = range.least_volume(&demand)?;
        let cushion = GasCushion { volume: least_volume, precharge, atmosphere: self.atmosphere };
        Ok(VesselSize {
            expansion,
            expansion_volume: demand.expansion,
            vapour_volume: demand.vapour,
            reserve: demand.reserve,
            precharge,
            final_pressure,
            least_volume,
            cold_fill: cushion.pressure_holding(demand.reserve)?,
            precharge_below_half: precharge.si() <= 0.5 * final_pressure.si(),
        })
    }

    /// Gas pressure before filling: the column above the vessel and the pressure wanted at the top.
    pub fn precharge(&self) -> Result<Pressure, DomainError> {
        not_negative("static height", self.static_height.si())?;
        not_negative("pressure at the top", self.top_pressure.si())?;
        let density = self.liquid.density(self.cold);
        Ok(column_pressure(density, self.static_height) + self.top_pressure)
    }

    /// Pressure up to which the vessel takes everything: relief − max(0.5 bar, 10 % of it).
    pub fn final_pressure(&self) -> Result<Pressure, DomainError> {
        let relief = positive("relief setting", self.relief.si())?;
        let last = relief - RELIEF_DISTANCE.0.max(RELIEF_DISTANCE.1 * relief);
        Ok(Pressure::from_si(positive("final pressure", last)?))
    }

    /// Boiling point at the final pressure: the hottest the liquid can become, to be entered as `hot`.
    pub fn saturation(&self) -> Result<Temperature, DomainError> {
        positive("air pressure", self.atmosphere.si())?;
        glycol::boiling_point(self.liquid, self.final_pressure()? + self.atmosphere)
    }
}

/// What goes into a vessel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Demand {
    /// Growth of the liquid.
    pub expansion: Volume,
    /// Liquid pushed out by steam.
    pub vapour: Volume,
    /// Reserve.
    pub reserve: Volume,
}

/// The pressures that a vessel works between, gauge, and the air's own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PressureRange {
    /// Gas pressure of the empty vessel.
    pub precharge: Pressure,
    /// Highest pressure.
    pub last: Pressure,
    /// Air pressure, absolute.
    pub atmosphere: Pressure,
}

impl PressureRange {
    /// Volume of a gas cushion that takes a demand within the range (Boyle's law).
    pub fn least_volume(&self, demand: &Demand) -> Result<Volume, DomainError> {
        for (what, volume) in
            [("expansion", demand.expansion), ("vapour volume", demand.vapour), ("reserve", demand.reserve)]
        {
            not_negative(what, volume.si())?;
        }
        not_negative("precharge", self.precharge.si())?;
        positive("air pressure", self.atmosphere.si())?;
        let room = positive("final pressure over precharge", (self.last - self.precharge).si())?;
        let all = demand.expansion + demand.vapour + demand.reserve;
        Ok(all * ((self.last + self.atmosphere).si() / room))
    }
}

/// A vessel with gas behind a membrane, at one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GasCushion {
    /// Nominal volume.
    pub volume: Volume,
    /// Gas pressure of the empty vessel, gauge.
    pub precharge: Pressure,
    /// Air pressure, absolute.
    pub atmosphere: Pressure,
}

impl GasCushion {
    /// Gauge pressure with an amount of liquid in the vessel: (p_0 + p_atm) V/(V − V_liquid) − p_atm.
    pub fn pressure_holding(&self, liquid: Volume) -> Result<Pressure, DomainError> {
        let volume = positive("vessel volume", self.volume.si())?;
        let empty = positive("absolute precharge", (self.precharge + self.atmosphere).si())?;
        let gas = positive("gas left in the vessel", volume - not_negative("liquid", liquid.si())?)?;
        Ok(Pressure::from_si(empty * volume / gas - self.atmosphere.si()))
    }

    /// Liquid in the vessel at a gauge pressure: V \[1 − (p_0 + p_atm)/(p + p_atm)\]; none below the precharge.
    pub fn liquid_at(&self, pressure: Pressure) -> Result<Volume, DomainError> {
        positive("vessel volume", self.volume.si())?;
        let empty = positive("absolute precharge", (self.precharge + self.atmosphere).si())?;
        let here = positive("absolute pressure", (pressure + self.atmosphere).si())?;
        Ok(self.volume * (1.0 - empty / here).max(0.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::celsius;

    fn bar(value: f64) -> Pressure {
        Pressure::from_si(value * 1e5)
    }

    fn closed_loop() -> ClosedLoop {
        ClosedLoop {
            liquid: Fluid::PropyleneGlycol { mass_fraction: 0.4 },
            contents: Volume::from_si(0.018),
            panels: Volume::from_si(0.0036),
            steam_pipe: Volume::from_si(0.0015),
            cold: celsius(-10.0),
            hot: celsius(120.0),
            static_height: Length::from_si(6.0),
            top_pressure: bar(1.0),
            relief: bar(6.0),
            atmosphere: bar(1.01325),
        }
    }

    #[test]
    fn a_vessel_of_the_least_volume_ends_at_the_final_pressure() {
        let size = closed_loop().vessel().unwrap();
        let cushion = GasCushion { volume: size.least_volume, precharge: size.precharge, atmosphere: bar(1.01325) };
        let all = size.expansion_volume + size.vapour_volume + size.reserve;
        let end = cushion.pressure_holding(all).unwrap();
        assert!((end.si() / size.final_pressure.si() - 1.0).abs() < 1e-12);
        assert!((cushion.liquid_at(end).unwrap().si() / all.si() - 1.0).abs() < 1e-12);
        assert!(size.cold_fill > size.precharge && size.precharge_below_half);
    }

    #[test]
    fn the_hottest_liquid_boils_at_the_final_pressure() {
        let hot = closed_loop().saturation().unwrap();
        assert!((160.0..172.0).contains(&crate::units::si::in_celsius(hot)));
        let hotter = ClosedLoop { hot, ..closed_loop() };
        assert!(hotter.vessel().unwrap().least_volume > closed_loop().vessel().unwrap().least_volume);
    }

    #[test]
    fn a_relief_valve_too_low_for_the_height_is_refused() {
        assert!(ClosedLoop { static_height: Length::from_si(45.0), ..closed_loop() }.vessel().is_err());
    }
}
