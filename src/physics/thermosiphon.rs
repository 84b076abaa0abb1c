//! Loops that run by the weight of cold water alone: their natural flow, and the head of a loop that runs backward.
//!
//! Pumped loops live in `pump`.

use super::domain::{DomainError, at_least, finite, not_negative, positive, within};
use super::fluid::Fluid;
use super::hydrostatics::STANDARD_GRAVITY;
use super::pipe::Run;
use super::root::{self, Bracket};
use crate::units::si::{
    Area, Dimension, HeatFluxDensity, HeatTransfer, Length, MassRate, Power, Pressure, Temperature,
};
use std::f64::consts::PI;

/// A thermosiphon loop in steady sun.
#[derive(Clone, Debug, PartialEq)]
pub struct Thermosiphon {
    /// Collector area A.
    pub area: Area,
    /// Collector efficiency factor F′.
    pub efficiency_factor: f64,
    /// Loss coefficient U_L.
    pub loss: HeatTransfer,
    /// Absorbed sun S = G (τα).
    pub absorbed: HeatFluxDensity,
    /// Air temperature.
    pub air: Temperature,
    /// Temperature of the water entering at the collector's bottom.
    pub inlet: Temperature,
    /// Height of the collector's top above its bottom.
    pub collector_height: Length,
    /// Height of the tank's return port above the collector's bottom, not below the collector's top.
    pub return_height: Length,
    /// Both pipes with their fittings, run by run.
    pub pipes: Vec<Run>,
    /// Number of risers in parallel.
    pub risers: u32,
    /// Bore of a riser.
    pub riser_bore: Length,
    /// Length of a riser.
    pub riser_length: Length,
    /// Liquid of the loop.
    pub liquid: Fluid,
}

/// The natural flow of a thermosiphon loop.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NaturalFlow {
    /// Mass flow ṁ.
    pub flow: MassRate,
    /// Useful heat.
    pub heat: Power,
    /// Temperature leaving the collector.
    pub outlet: Temperature,
    /// Driving pressure, equal to the pressure drop.
    pub drive: Pressure,
    /// Largest Reynolds number in the pipes.
    pub reynolds: f64,
}

struct Balance {
    heat: f64,
    outlet: f64,
    drive: f64,
    drop: f64,
    reynolds: f64,
}

impl Thermosiphon {
    /// Finds the flow at which the weight of the cold column pays for the friction.
    ///
    /// Drive = g {\[ρ(T_in) − ρ̄\] H_c + \[ρ(T_in) − ρ(T_out)\](H_r − H_c)}, ρ̄ by Simpson's rule on a linear profile
    /// in the collector (the area under the loop's temperature diagram, Close 1962, from memory); Q = ṁ c_p (S/U_L +
    /// T_a − T_in)\[1 − exp(−A F′ U_L/(ṁ c_p))\]; drop = pipes by Churchill and two-K, risers laminar 128 μ L q/(π d⁴),
    /// properties at the mean temperature; flow from 1e-5 to 1 kg/s; none when the sun does not make up the losses.
    /// Water entering from its freezing point to 100 °C. Steady state without the tank's own stratification.
    pub fn natural_flow(&self) -> Result<Option<NaturalFlow>, DomainError> {
        self.admit()?;
        if self.absorbed.si() <= self.loss.si() * (self.inlet.si() - self.air.si()) {
            return Ok(None);
        }
        let range = Bracket { low: 1e-5, high: 1.0 };
        let surplus = |flow: f64| {
            let balance = self.balance(flow);
            balance.drive - balance.drop
        };
        if surplus(range.low) <= 0.0 {
            return Ok(None);
        }
        let unsettled = DomainError::NotSettled { what: "natural flow below 1 kg/s", residual: surplus(range.high) };
        let flow = root::find(range, 1e-12, surplus).ok_or(unsettled)?;
        let balance = self.balance(flow);
        within("outlet temperature", finite("outlet temperature", balance.outlet)?, 253.15, 393.15)?;
        Ok(Some(NaturalFlow {
            flow: MassRate::from_si(flow),
            heat: Power::from_si(balance.heat),
            outlet: Temperature::from_si(balance.outlet),
            drive: Pressure::from_si(balance.drive),
            reynolds: balance.reynolds,
        }))
    }

    fn admit(&self) -> Result<(), DomainError> {
        positive("collector area", self.area.si())?;
        within(
            "collector efficiency factor",
            positive("collector efficiency factor", self.efficiency_factor)?,
            0.0,
            1.0,
        )?;
        positive("collector loss coefficient", self.loss.si())?;
        not_negative("absorbed sun", self.absorbed.si())?;
        within("inlet temperature", self.inlet.si(), self.liquid.freezing_point().si(), 373.15)?;
        within("air temperature", self.air.si(), 203.15, 333.15)?;
        let height = positive("collector height", self.collector_height.si())?;
        at_least("height of the return port", self.return_height.si(), height)?;
        at_least("number of risers", f64::from(self.risers), 1.0)?;
        positive("riser bore", self.riser_bore.si())?;
        positive("riser length", self.riser_length.si())?;
        let liquid = self.liquid.properties_at(self.inlet.si());
        for run in &self.pipes {
            run.pressure_drop(&liquid, crate::units::si::VolumeRate::from_si(0.0))?;
        }
        Ok(())
    }

    fn balance(&self, flow: f64) -> Balance {
        let inlet = self.inlet.si();
        // The specific heat hardly changes, so two passes settle the mean temperature far below any other error.
        let mut outlet = inlet;
        let mut heat = 0.0;
        for _ in 0..4 {
            let rate = flow * self.liquid.properties_at(0.5 * (inlet + outlet)).specific_heat;
            let loss = self.loss.si();
            let reach = self.absorbed.si() / loss + self.air.si() - inlet;
            heat = -rate * reach * f64::exp_m1(-self.area.si() * self.efficiency_factor * loss / rate);
            outlet = inlet + heat / rate;
        }
        let density = |kelvin: f64| self.liquid.properties_at(kelvin).density;
        let (cold, hot) = (density(inlet), density(outlet));
        let middle = self.liquid.properties_at(0.5 * (inlet + outlet));
        let mean = (cold + 4.0 * middle.density + hot) / 6.0;
        let (collector, port) = (self.collector_height.si(), self.return_height.si());
        let drive = STANDARD_GRAVITY * ((cold - mean) * collector + (cold - hot) * (port - collector));
        let volume_flow = flow / middle.density;
        let (mut pipes, mut reynolds) = (0.0, 0.0_f64);
        for run in &self.pipes {
            let drop = run.drop_at(&middle, volume_flow);
            pipes += drop.total().si();
            reynolds = reynolds.max(drop.reynolds);
        }
        let each = volume_flow / f64::from(self.risers);
        let risers = 128.0 * middle.viscosity * self.riser_length.si() * each / (PI * self.riser_bore.si().powi(4));
        Balance { heat, outlet, drive, drop: pipes + risers, reynolds }
    }
}

/// A warm tank and a cold panel with a loop between them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NightColumns {
    /// Temperature of the leg on the tank's side.
    pub warm: Temperature,
    /// Temperature of the leg on the panel's side.
    pub cold: Temperature,
    /// Height over which the two legs stand side by side.
    pub height: Length,
}

/// Pressure that drives a loop backward at night, Δp = \[ρ(cold) − ρ(warm)\] g h.
///
/// A check valve has to open above it and below the pump's head. Liquid from its freezing point to 120 °C.
pub fn night_drive(liquid: Fluid, columns: NightColumns) -> Result<Pressure, DomainError> {
    let cold = within("cold leg", columns.cold.si(), liquid.freezing_point().si(), 393.15)?;
    let warm = within("warm leg", columns.warm.si(), cold, 393.15)?;
    let height = not_negative("height of the legs", columns.height.si())?;
    let density = |kelvin: f64| liquid.properties_at(kelvin).density;
    Ok(Pressure::from_si((density(cold) - density(warm)) * STANDARD_GRAVITY * height))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::pipe::DRAWN_TUBE_ROUGHNESS;
    use crate::units::si::celsius;

    fn plant(absorbed: f64, bore: f64) -> Thermosiphon {
        Thermosiphon {
            area: Area::from_si(4.0),
            efficiency_factor: 0.92,
            loss: HeatTransfer::from_si(5.0),
            absorbed: HeatFluxDensity::from_si(absorbed),
            air: celsius(25.0),
            inlet: celsius(30.0),
            collector_height: Length::from_si(1.2),
            return_height: Length::from_si(2.2),
            pipes: vec![Run {
                bore: Length::from_si(bore),
                length: Length::from_si(6.0),
                roughness: Length::from_si(DRAWN_TUBE_ROUGHNESS),
                fittings: Vec::new(),
                plain_loss: 8.0,
            }],
            risers: 20,
            riser_bore: Length::from_si(0.0109),
            riser_length: Length::from_si(1.9),
            liquid: Fluid::Water,
        }
    }

    #[test]
    fn the_heat_is_what_the_water_carries_away() {
        let got = plant(640.0, 0.026).natural_flow().unwrap().unwrap();
        let rise = got.outlet.si() - celsius(30.0).si();
        let specific_heat = Fluid::Water.properties_at(celsius(30.0).si() + rise / 2.0).specific_heat;
        assert!((got.heat.si() / (got.flow.si() * specific_heat * rise) - 1.0).abs() < 1e-6);
    }

    #[test]
    fn a_wider_pipe_and_more_sun_both_speed_the_flow() {
        let flow = |sun, bore| plant(sun, bore).natural_flow().unwrap().unwrap().flow.si();
        assert!(flow(640.0, 0.026) > flow(640.0, 0.020));
        assert!(flow(640.0, 0.026) > flow(320.0, 0.026));
    }

    #[test]
    fn without_sun_nothing_flows() {
        assert_eq!(plant(0.0, 0.026).natural_flow(), Ok(None));
    }
}
