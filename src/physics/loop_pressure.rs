//! Pressure in a closed loop with its vessel from moment to moment: liquid, then steam, then the relief valve.
//!
//! The vessel's size and its gas live in `expansion_vessel`, growth and boiling in `glycol`.

use super::domain::{DomainError, not_negative, positive};
use super::expansion_vessel::GasCushion;
use super::fluid::Fluid;
use super::glycol::{self, Warming};
use super::hydrostatics::column_pressure;
use crate::units::si::{Dimension, Length, Pressure, Temperature, Volume};

/// Where the density of a liquid of the loop ends, K.
const HOTTEST_LIQUID: f64 = 523.15;

/// A filled loop with its vessel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct VesselLoop {
    /// Liquid.
    pub liquid: Fluid,
    /// Contents of the panels.
    pub panels: Volume,
    /// Contents of everything else.
    pub rest: Volume,
    /// Contents of the pipe that steam reaches.
    pub steam_pipe: Volume,
    /// The vessel.
    pub cushion: GasCushion,
    /// Liquid in the vessel when all of the loop is `cold`.
    pub reserve: Volume,
    /// Where the loop holds no more than its reserve in the vessel.
    pub cold: Temperature,
    /// Height of the loop's top above the vessel.
    pub static_height: Length,
    /// Setting of the relief valve, gauge, at the vessel's height.
    pub relief: Pressure,
}

/// What is in the panels.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PanelState {
    /// Liquid.
    Liquid,
    /// Boiling: steam pushes liquid into the vessel.
    Steam,
    /// The pressure comes to the relief setting, and the valve lets liquid or steam out.
    Relief,
}

impl VesselLoop {
    /// Gauge pressure at the vessel, and what is in the panels.
    ///
    /// Liquid: Boyle's law of the cushion over reserve + Σ V \[ρ(cold)/ρ(T) − 1\], panels and rest each at their own
    /// temperature. Where the plate is hotter than the boiling point at the loop's top, the pressure there is the
    /// vapour pressure at the plate, but no more than what the vessel shows once steam fills the panels and its reach
    /// of pipe: from there the steam is superheated. The relief setting is the ceiling. No vessel law knows the seconds
    /// in which the panels empty. Colder than `cold` counts as `cold`; a plate up to 640 K.
    pub fn at(&self, plate: Temperature, rest: Temperature) -> Result<(Pressure, PanelState), DomainError> {
        let relief = positive("relief setting", self.relief.si())?;
        let column = self.column().si();
        let grown = self.reserve + self.growth(self.rest, rest)?;
        // Liquid hotter than the density's range boils at any relief setting: its growth decides nothing there.
        let wet = if plate.si() > HOTTEST_LIQUID { Temperature::from_si(HOTTEST_LIQUID) } else { plate };
        let liquid = self.holding(grown + self.growth(self.panels, wet)?)?;
        let at_top = self.cushion.atmosphere.si() + liquid - column;
        let steam = if plate.si() > 273.15 { glycol::vapour_pressure(self.liquid, plate)?.si() } else { 0.0 };
        let (pressure, state) = if steam <= at_top {
            (liquid, PanelState::Liquid)
        } else {
            let pushed = self.holding(grown + self.panels + self.steam_pipe)?;
            let boiling = steam - self.cushion.atmosphere.si() + column;
            (boiling.min(pushed).max(liquid), PanelState::Steam)
        };
        Ok(if pressure >= relief { (self.relief, PanelState::Relief) } else { (Pressure::from_si(pressure), state) })
    }

    /// Pressure of the cold column between the vessel and the loop's top.
    pub fn column(&self) -> Pressure {
        column_pressure(self.liquid.density(self.cold), self.static_height)
    }

    fn growth(&self, volume: Volume, hot: Temperature) -> Result<Volume, DomainError> {
        let warming = Warming { cold: self.cold, hot: if hot < self.cold { self.cold } else { hot } };
        Ok(volume * glycol::expansion(self.liquid, warming)?)
    }

    /// Gauge pressure with an amount in the vessel, Pa; without bound where it has no room for that.
    fn holding(&self, liquid: Volume) -> Result<f64, DomainError> {
        not_negative("liquid in the vessel", liquid.si())?;
        if liquid.si() >= self.cushion.volume.si() {
            return Ok(f64::INFINITY);
        }
        Ok(self.cushion.pressure_holding(liquid)?.si())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::celsius;

    const AIR: f64 = 101_325.0;

    fn filled() -> VesselLoop {
        VesselLoop {
            liquid: Fluid::Water,
            panels: Volume::from_si(3e-3),
            rest: Volume::from_si(9e-3),
            steam_pipe: Volume::from_si(1e-3),
            cushion: GasCushion {
                volume: Volume::from_si(25e-3),
                precharge: Pressure::from_si(1.0e5),
                atmosphere: Pressure::from_si(AIR),
            },
            reserve: Volume::from_si(3e-3),
            cold: celsius(10.0),
            static_height: Length::from_si(5.0),
            relief: Pressure::from_si(6.0e5),
        }
    }

    #[test]
    fn a_cold_loop_stands_at_its_fill_pressure() {
        let (pressure, state) = filled().at(celsius(10.0), celsius(10.0)).unwrap();
        // Boyle: (1 bar + 1 atm) · 25/(25 − 3) − 1 atm.
        let expected = (1.0e5 + AIR) * 25.0 / 22.0 - AIR;
        assert!((pressure.si() - expected).abs() < 1e-6);
        assert_eq!(state, PanelState::Liquid);
    }

    #[test]
    fn boiling_water_shows_the_pressure_of_the_steam_table() {
        // IAPWS-95 saturation at 120 °C: 1.9867 bar absolute.
        let (pressure, state) = filled().at(celsius(120.0), celsius(60.0)).unwrap();
        let column = 999.7 * 9.80665 * 5.0;
        assert_eq!(state, PanelState::Steam);
        assert!((pressure.si() - (1.9867e5 - AIR + column)).abs() < 200.0, "{}", pressure.si());
    }

    #[test]
    fn steam_that_fills_its_reach_is_held_by_the_vessel() {
        let (pressure, state) = filled().at(celsius(180.0), celsius(60.0)).unwrap();
        // Water 10 to 60 °C grows by 999.70/983.20 − 1 = 1.678 % (IAPWS-95): 0.151 L of 9 L, and 4 L of steam.
        let expected = (1.0e5 + AIR) * 25.0 / (25.0 - 3.0 - 0.151 - 4.0) - AIR;
        assert_eq!(state, PanelState::Steam);
        assert!((pressure.si() - expected).abs() < 200.0, "{} {expected}", pressure.si());
    }

    #[test]
    fn a_vessel_without_room_comes_to_the_relief_valve() {
        let small =
            VesselLoop { cushion: GasCushion { volume: Volume::from_si(6e-3), ..filled().cushion }, ..filled() };
        let (pressure, state) = small.at(celsius(180.0), celsius(60.0)).unwrap();
        assert_eq!((pressure.si(), state), (6.0e5, PanelState::Relief));
    }
}
