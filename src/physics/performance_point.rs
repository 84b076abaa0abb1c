//! One measured point of a running panel: heat, efficiency and reduced temperature, with their uncertainties.
//!
//! Lives here: the arithmetic of one point. Must not live here: which points are steady enough, the fit over many
//! (`statistics`), logs.

use super::domain::{DomainError, not_negative, positive, within};
use super::statistics::Uncertain;
use crate::units::si::{Area, Dimension, HeatFluxDensity, MassRate, Power, Temperature, VolumeRate, difference};

/// Flow and temperatures of one point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatReading {
    /// Volume flow at the inlet.
    pub flow: VolumeRate,
    /// Relative standard uncertainty of the flow.
    pub flow_relative: f64,
    /// Temperature at the inlet.
    pub inlet: Temperature,
    /// Temperature at the outlet.
    pub outlet: Temperature,
    /// Standard uncertainty of each temperature, K.
    pub temperature_uncertainty: f64,
    /// Density at the inlet, where the flow is measured, kg/m³.
    pub density: f64,
    /// Specific heat at the mean temperature, J/(kg·K).
    pub specific_heat: f64,
    /// Relative standard uncertainty of the specific heat.
    pub specific_heat_relative: f64,
}

/// Heat of a point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeasuredHeat {
    /// Mass flow.
    pub mass_flow: MassRate,
    /// Heat, negative when the panel loses.
    pub heat: Power,
    /// Its standard uncertainty.
    pub uncertainty: Power,
}

impl HeatReading {
    /// Q = ρ(T_in) q c_p(T_m) (T_out − T_in), u(Q)² = Q²(u_q² + u_cp²) + (ρ q c_p)² 2 u_T².
    ///
    /// The two temperature errors are taken as independent; a pair compared in one bath does better.
    pub fn heat(&self) -> Result<MeasuredHeat, DomainError> {
        let flow = positive("flow", self.flow.si())?;
        let density = positive("density", self.density)?;
        let specific_heat = positive("specific heat", self.specific_heat)?;
        let capacity = density * flow * specific_heat;
        let heat = capacity * difference(self.outlet, self.inlet).si();
        let relative = within("uncertainty of the flow", self.flow_relative, 0.0, 1.0)?.hypot(within(
            "uncertainty of the specific heat",
            self.specific_heat_relative,
            0.0,
            1.0,
        )?);
        let temperature = not_negative("uncertainty of the temperatures", self.temperature_uncertainty)?;
        Ok(MeasuredHeat {
            mass_flow: MassRate::from_si(density * flow),
            heat: Power::from_si(heat),
            uncertainty: Power::from_si((heat * relative).hypot(capacity * temperature * 2.0_f64.sqrt())),
        })
    }
}

/// Area and sun of a point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SunReading {
    /// Area that the efficiency refers to.
    pub area: Area,
    /// Relative standard uncertainty of the area.
    pub area_relative: f64,
    /// Irradiance in the plane of the panel.
    pub irradiance: HeatFluxDensity,
    /// Relative standard uncertainty of the irradiance.
    pub irradiance_relative: f64,
}

impl MeasuredHeat {
    /// η = Q/(A G) with its standard uncertainty, the relative ones added in squares.
    pub fn efficiency(&self, sun: SunReading) -> Result<Uncertain, DomainError> {
        let area = positive("area", sun.area.si())?;
        let irradiance = positive("irradiance", sun.irradiance.si())?;
        let value = self.heat.si() / (area * irradiance);
        let own = self.uncertainty.si() / (area * irradiance);
        let shared = within("uncertainty of the area", sun.area_relative, 0.0, 1.0)?.hypot(within(
            "uncertainty of the irradiance",
            sun.irradiance_relative,
            0.0,
            1.0,
        )?);
        Ok(Uncertain { value, uncertainty: own.hypot(value * shared) })
    }
}

/// Temperatures at the two ends of a panel and of the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PanelTemperatures {
    /// At the inlet.
    pub inlet: Temperature,
    /// At the outlet.
    pub outlet: Temperature,
    /// Of the air.
    pub air: Temperature,
}

/// Reduced temperature x = (T_m − T_air)/G, m²·K/W, T_m the mean of inlet and outlet.
pub fn reduced_temperature(temperatures: PanelTemperatures, irradiance: HeatFluxDensity) -> Result<f64, DomainError> {
    let mean = 0.5 * (temperatures.inlet.si() + temperatures.outlet.si());
    Ok((mean - temperatures.air.si()) / positive("irradiance", irradiance.si())?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::celsius;

    #[test]
    fn a_panel_that_cools_its_water_yields_less_than_nothing() {
        let reading = HeatReading {
            flow: VolumeRate::from_si(3e-5),
            flow_relative: 0.01,
            inlet: celsius(50.0),
            outlet: celsius(48.0),
            temperature_uncertainty: 0.1,
            density: 988.0,
            specific_heat: 4180.0,
            specific_heat_relative: 0.0,
        };
        assert!(reading.heat().unwrap().heat.si() < 0.0);
        assert!(HeatReading { flow: VolumeRate::from_si(0.0), ..reading }.heat().is_err());
    }
}
