//! Heat that insulated and bare pipes lose, and how far steam from a panel gets before they have condensed it.
//!
//! Friction lives in `pipe`.

use super::domain::{DomainError, not_negative, positive};
use crate::units::si::{
    Dimension, Length, LineConductance, Power, Temperature, ThermalConductance, ThermalConductivity,
};
use std::f64::consts::PI;

/// A pipe in air, with or without insulation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InsulatedPipe {
    /// Outer diameter of the pipe, 2 r₁.
    pub od: Length,
    /// Thickness of the insulation, zero for a bare pipe.
    pub thickness: Length,
    /// Conductivity k of the insulation.
    pub conductivity: ThermalConductivity,
    /// Film coefficient h of the outer surface, W/(m²·K): 8 to 10 indoors, 20 to 25 outdoors (from memory).
    pub surface: f64,
}

impl InsulatedPipe {
    /// Heat loss per metre and kelvin, U′ = 1/\[ln(r₂/r₁)/(2π k) + 1/(2π r₂ h)\].
    ///
    /// Conduction through a cylinder (any heat transfer text); film inside and wall are neglected beside them.
    pub fn conductance(&self) -> Result<LineConductance, DomainError> {
        Ok(LineConductance(1.0 / (self.insulation_resistance()? + self.surface_resistance())))
    }

    /// The same pipe without its insulation.
    #[must_use]
    pub fn bare(&self) -> Self {
        Self { thickness: Length::from_si(0.0), ..*self }
    }

    /// Radius k/h up to which more insulation would lose more heat; below any water pipe with usual materials.
    pub fn critical_radius(&self) -> Result<Length, DomainError> {
        let conductivity = positive("insulation conductivity", self.conductivity.si())?;
        Ok(Length::from_si(conductivity / positive("surface film coefficient", self.surface)?))
    }

    /// Temperature of the outer surface of a pipe at one temperature in air of another.
    pub fn surface_temperature(&self, ends: PipeAndAir) -> Result<Temperature, DomainError> {
        let share = self.surface_resistance() * self.conductance()?.0;
        Ok(Temperature::from_si(ends.air.si() + share * (ends.pipe.si() - ends.air.si())))
    }

    fn insulation_resistance(&self) -> Result<f64, DomainError> {
        let inner = positive("pipe diameter", self.od.si())? / 2.0;
        let outer = inner + not_negative("insulation thickness", self.thickness.si())?;
        let conductivity = positive("insulation conductivity", self.conductivity.si())?;
        positive("surface film coefficient", self.surface)?;
        Ok((outer / inner).ln() / (2.0 * PI * conductivity))
    }

    fn surface_resistance(&self) -> f64 {
        let outer = self.od.si() / 2.0 + self.thickness.si();
        1.0 / (2.0 * PI * outer * self.surface)
    }
}

/// Temperatures of a pipe and of the air around it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PipeAndAir {
    /// Of the pipe, or of the liquid where it enters.
    pub pipe: Temperature,
    /// Of the air.
    pub air: Temperature,
}

/// A liquid that cools on its way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoolingRun {
    /// Heat loss of the whole run UA.
    pub conductance: ThermalConductance,
    /// ṁ c_p of the liquid, W/K.
    pub capacity_rate: f64,
    /// Inlet and air.
    pub ends: PipeAndAir,
}

/// What a run of pipe does to the liquid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cooled {
    /// Leaving temperature.
    pub outlet: Temperature,
    /// Heat lost; negative where the air is warmer.
    pub loss: Power,
}

impl CoolingRun {
    /// Outlet T₂ = T_a + (T₁ − T_a) exp(−UA/C) and loss C (T₁ − T₂). UA ≥ 0, C > 0.
    pub fn cooled(&self) -> Result<Cooled, DomainError> {
        let conductance = not_negative("heat loss of the run", self.conductance.si())?;
        let rate = positive("capacity rate", self.capacity_rate)?;
        let spread = self.ends.pipe.si() - self.ends.air.si();
        let lost = -spread * f64::exp_m1(-conductance / rate);
        Ok(Cooled { outlet: Temperature::from_si(self.ends.pipe.si() - lost), loss: Power::from_si(rate * lost) })
    }
}

/// Heat capacity of one metre of filled copper pipe, J/(m·K): what cools each night.
///
/// Copper with 8940 kg/m³ and 385 J/(kg·K) (the latter from memory).
pub fn filled_heat_capacity(od: Length, wall: Length, liquid: &super::fluid::Properties) -> Result<f64, DomainError> {
    const COPPER: f64 = 8940.0 * 385.0;
    let outer = positive("pipe diameter", od.si())?;
    let bore = positive("bore", outer - 2.0 * positive("wall", wall.si())?)?;
    let area = PI / 4.0 * bore * bore;
    let metal = PI / 4.0 * outer * outer - area;
    Ok(area * liquid.density * liquid.specific_heat + metal * COPPER)
}

/// A pipe filled with steam from a stagnating panel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SteamPipe {
    /// Heat loss per metre and kelvin.
    pub conductance: LineConductance,
    /// Saturation temperature at the loop's pressure, and the air.
    pub ends: PipeAndAir,
}

impl SteamPipe {
    /// Length of pipe that condenses all steam a panel makes, L = P/\[U′ (T_sat − T_a)\].
    ///
    /// An upper bound for each way from the panel: all steam is taken to go that way, and neither the liquid that it
    /// pushes ahead nor the time it needs is counted. Steam must be hotter than the air; no power, no reach.
    pub fn steam_reach(&self, steam_power: Power) -> Result<Length, DomainError> {
        let power = not_negative("steam power", steam_power.si())?;
        let conductance = positive("heat loss of the pipe", self.conductance.0)?;
        let spread = positive("steam temperature over air", self.ends.pipe.si() - self.ends.air.si())?;
        Ok(Length::from_si(power / (conductance * spread)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::fluid::Fluid;
    use crate::units::si::celsius;

    fn pipe() -> InsulatedPipe {
        InsulatedPipe {
            od: Length::from_si(0.022225),
            thickness: Length::from_si(0.019),
            conductivity: ThermalConductivity::from_si(0.04),
            surface: 10.0,
        }
    }

    fn ends(pipe: f64, air: f64) -> PipeAndAir {
        PipeAndAir { pipe: celsius(pipe), air: celsius(air) }
    }

    #[test]
    fn more_insulation_loses_less_above_the_critical_radius() {
        let loss =
            |metres: f64| InsulatedPipe { thickness: Length::from_si(metres), ..pipe() }.conductance().unwrap().0;
        assert!((0..10).all(|step| loss(0.005 * f64::from(step + 1)) < loss(0.005 * f64::from(step))));
        assert!((loss(0.0) - pipe().bare().conductance().unwrap().0).abs() < 1e-15);
    }

    #[test]
    fn the_loss_is_what_the_liquid_gives_up() {
        let run =
            CoolingRun { conductance: ThermalConductance::from_si(2.5), capacity_rate: 225.6, ends: ends(65.0, 10.0) };
        let cooled = run.cooled().unwrap();
        let given = 225.6 * (celsius(65.0).si() - cooled.outlet.si());
        assert!((given - cooled.loss.si()).abs() < 1e-9);
    }

    #[test]
    fn steam_ends_where_the_pipe_has_condensed_it() {
        let steam = SteamPipe { conductance: LineConductance(0.25), ends: ends(140.0, 30.0) };
        let reach = steam.steam_reach(Power::from_si(550.0)).unwrap();
        assert!((reach.si() - 20.0).abs() < 1e-9);
        assert!(steam.steam_reach(Power::from_si(0.0)).unwrap().si().abs() < 1e-12);
        assert!(SteamPipe { ends: ends(20.0, 30.0), ..steam }.steam_reach(Power::from_si(1.0)).is_err());
    }

    #[test]
    fn most_of_a_filled_pipes_heat_is_in_the_water() {
        let water = Fluid::Water.properties_at(celsius(60.0).si());
        let whole = filled_heat_capacity(Length::from_si(0.022225), Length::from_si(0.0008128), &water).unwrap();
        let water_part = 0.333272e-3 * water.density * water.specific_heat;
        assert!(water_part / whole > 0.85 && water_part < whole);
    }
}
