//! A coil of tube standing in a tank: its conductance from the flow inside and the water's own rise outside.
//!
//! Effectiveness of any exchanger lives in `exchanger`.

use super::domain::{DomainError, at_least, positive, within};
use super::fluid::{Fluid, Properties};
use super::hydrostatics::STANDARD_GRAVITY;
use super::root::{self, Bracket};
use super::tube::{TubeFlow, nusselt};
use crate::units::si::{Dimension, Length, MassRate, Temperature, ThermalConductance, ThermalConductivity};
use std::f64::consts::PI;

/// A coil in a tank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coil {
    /// Outer diameter of its tube.
    pub od: Length,
    /// Inner diameter of its tube.
    pub bore: Length,
    /// Length of tube under water.
    pub length: Length,
    /// Conductivity of the wall.
    pub wall: ThermalConductivity,
}

/// How a coil is used.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoilService {
    /// Liquid inside.
    pub liquid: Fluid,
    /// Mass flow inside.
    pub flow: MassRate,
    /// Mean temperature inside.
    pub liquid_mean: Temperature,
    /// Temperature of the tank's water around it.
    pub tank: Temperature,
}

/// What a coil conducts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoilConductance {
    /// Reynolds number inside.
    pub reynolds: f64,
    /// Film coefficient inside, W/(m²·K).
    pub inside: f64,
    /// Film coefficient outside, W/(m²·K).
    pub outside: f64,
    /// Outer wall temperature.
    pub wall: Temperature,
    /// Overall conductance UA.
    pub conductance: ThermalConductance,
    /// UA/C of the flow inside.
    pub transfer_units: f64,
}

impl Coil {
    /// Overall conductance: 1/UA = \[1/(π d_i h_i) + ln(d_o/d_i)/(2π k) + 1/(π d_o h_o)\]/L.
    ///
    /// Inside [`nusselt`] of a long tube (no gain for entrance and curvature of the coil, which is on the cautious
    /// side). Outside Churchill & Chu 1975 for a horizontal cylinder in water at the film temperature, at the wall
    /// temperature that passes the same heat on both sides. Liquid from its freezing point to 120 °C, tank 0 to
    /// 120 °C, at least 0.01 K apart, else there is nothing to drive the water.
    pub fn conductance(&self, service: &CoilService) -> Result<CoilConductance, DomainError> {
        let od = positive("outer diameter", self.od.si())?;
        let bore = within("bore of the coil", positive("bore of the coil", self.bore.si())?, 0.0, od)?;
        let length = positive("length of the coil", self.length.si())?;
        let wall_conductivity = positive("wall conductivity", self.wall.si())?;
        let flow = positive("mass flow", service.flow.si())?;
        let hot = within("liquid temperature", service.liquid_mean.si(), service.liquid.freezing_point().si(), 393.15)?;
        let tank = within("tank temperature", service.tank.si(), 273.15, 393.15)?;
        at_least("temperature difference across the coil", (hot - tank).abs(), 0.01)?;
        let liquid = service.liquid.properties_at(hot);
        let reynolds = 4.0 * flow / (PI * bore * liquid.viscosity);
        let long = TubeFlow { reynolds, prandtl: liquid.prandtl(), bore_over_length: 0.0 };
        let inside = nusselt(long) * liquid.conductivity / bore;
        let to_wall = 1.0 / (PI * bore * inside) + (od / bore).ln() / (2.0 * PI * wall_conductivity);
        let surplus = |wall: f64| (hot - wall) / to_wall - PI * od * outer_film(od, wall, tank) * (wall - tank);
        let range = Bracket { low: hot.min(tank), high: hot.max(tank) };
        let unsettled = DomainError::NotSettled { what: "wall of the coil", residual: surplus(tank) };
        let wall = root::find(range, 1e-9, surplus).ok_or(unsettled)?;
        let outside = outer_film(od, wall, tank);
        let conductance = length / (to_wall + 1.0 / (PI * od * outside));
        Ok(CoilConductance {
            reynolds,
            inside,
            outside,
            wall: Temperature::from_si(wall),
            conductance: ThermalConductance::from_si(conductance),
            transfer_units: conductance / (flow * liquid.specific_heat),
        })
    }
}

/// Film coefficient of still water around a horizontal cylinder, W/(m²·K); temperatures in kelvin.
fn outer_film(od: f64, wall: f64, tank: f64) -> f64 {
    let film = 0.5 * (wall + tank);
    let water = Fluid::Water.properties_at(film);
    let expansion = thermal_expansion(film, &water);
    let kinematic = water.viscosity / water.density;
    let prandtl = water.prandtl();
    let rayleigh = STANDARD_GRAVITY * expansion * (wall - tank).abs() * od.powi(3) * prandtl / (kinematic * kinematic);
    let nusselt = 0.60 + 0.387 * rayleigh.powf(1.0 / 6.0) / (1.0 + (0.559 / prandtl).powf(9.0 / 16.0)).powf(8.0 / 27.0);
    nusselt * nusselt * water.conductivity / od
}

/// |β| = |dρ/dT|/ρ of water, 1/K. Below 4 °C the water sinks where it warms; it moves all the same.
fn thermal_expansion(kelvin: f64, water: &Properties) -> f64 {
    const STEP: f64 = 0.05;
    let warmer = Fluid::Water.properties_at(kelvin + STEP).density;
    let colder = Fluid::Water.properties_at(kelvin - STEP).density;
    ((colder - warmer) / (2.0 * STEP * water.density)).abs()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::celsius;

    fn coil() -> Coil {
        Coil {
            od: Length::from_si(0.015875),
            bore: Length::from_si(0.0138),
            length: Length::from_si(15.0),
            wall: ThermalConductivity::from_si(390.0),
        }
    }

    fn service(flow: f64, liquid: f64, tank: f64) -> CoilService {
        CoilService {
            liquid: Fluid::Water,
            flow: MassRate::from_si(flow),
            liquid_mean: celsius(liquid),
            tank: celsius(tank),
        }
    }

    #[test]
    fn heat_that_reaches_the_wall_leaves_it() {
        for (hot, tank) in [(55.0, 42.0), (30.0, 60.0)] {
            let got = coil().conductance(&service(0.06, hot, tank)).unwrap();
            let outer_area = PI * 0.015875 * 15.0;
            let leaves = got.outside * outer_area * (got.wall.si() - celsius(tank).si());
            let whole = got.conductance.si() * (hot - tank);
            assert!((leaves / whole - 1.0).abs() < 1e-6);
        }
    }

    #[test]
    fn a_coil_as_warm_as_its_tank_is_refused() {
        assert!(coil().conductance(&service(0.06, 42.0, 42.0)).is_err());
    }
}
