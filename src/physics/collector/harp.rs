//! What unequal riser flows do to a collector: shares, pressure drop, riser outlets, lost heat.
//!
//! The network itself lives in `physics::harp_network`.

use super::check::check_fluid;
use super::operating::known_range;
use super::{Collector, CollectorError, Connection, OperatingPoint, Stream};
use crate::physics::domain::within;
use crate::physics::fin::flow_factor;
use crate::physics::fluid::{Fluid, Properties};
use crate::physics::harp_network::{HarpBalance, HarpNetwork};
use crate::units::si::{Dimension, MassRate, Pressure, Temperature, TemperatureInterval};

/// Whether the sun's lift in the risers counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Regime {
    /// All liquid at its mean temperature: flushing, night.
    Isothermal,
    /// Warm risers lift: the answer for a running collector.
    Buoyant,
}

/// Flows of the risers at an operating point.
#[derive(Clone, Debug, PartialEq)]
pub struct HarpFlows {
    /// Flow of each riser over the mean, numbered from the inlet end.
    pub relative_flows: Vec<f64>,
    /// Pressure drop of the harp without its static column.
    pub pressure_drop: Pressure,
    /// Mean drop of the risers.
    pub riser_drop: Pressure,
    /// Largest flow over smallest.
    pub ratio: f64,
    /// Largest departure from the mean flow, as a share of it.
    pub largest_deviation: f64,
    /// Standard deviation of the flows, as a share of the mean.
    pub standard_deviation: f64,
    /// Whether a riser flows backwards.
    pub reversed: bool,
    /// Share of F_R lost against equal flows.
    pub heat_removal_penalty: f64,
    /// Liquid at the end of each riser.
    pub riser_outlets: Vec<Temperature>,
    /// Hottest riser outlet above the mixed outlet.
    pub hottest_excess: TemperatureInterval,
}

/// Heat that a riser takes up, with the constants of the mean operating point.
struct RiserHeat<'a> {
    collector: &'a Collector,
    fluid: Fluid,
    inlet: f64,
    /// Temperature at which the plate gains nothing, T_a + S/U_L, K.
    no_gain: f64,
    /// A U_L F′/n over c_p: the flow at which κ = 1, kg/s, per metre of strip width.
    unit_flow: f64,
}

impl RiserHeat<'_> {
    /// κ of a riser; zero or below when it stands or flows backwards.
    fn capacity_rate(&self, riser: usize, flow: f64) -> f64 {
        flow / (self.unit_flow * self.collector.strip(riser).width())
    }

    /// Mean temperature of the liquid in a riser, K, within its property data; of a standing one, the no-gain point.
    fn mean(&self, riser: usize, flow: f64) -> f64 {
        let rate = self.capacity_rate(riser, flow);
        let left = if rate > 0.0 { flow_factor(rate) } else { 0.0 };
        known_range(self.fluid, self.no_gain + (self.inlet - self.no_gain) * left).0
    }

    fn outlet(&self, riser: usize, flow: f64) -> f64 {
        let rate = self.capacity_rate(riser, flow);
        let left = if rate > 0.0 { (-rate.recip()).exp() } else { 0.0 };
        self.no_gain + (self.inlet - self.no_gain) * left
    }
}

impl Collector {
    /// Riser flows at an operating point, the connection being the design's own or another to compare.
    ///
    /// Properties at the mean liquid temperature. Buoyant: each riser's mean temperature T_m = T_e + (T_i − T_e) κ(1 −
    /// e^(−1/κ)), κ = q c_p/(w L U_L F′), T_e = T_a + S/U_L, held within the liquid's data. A standing or reversed
    /// riser is taken at T_e, and a reversed one is flagged. See [`HarpNetwork::solve`] for the law and its doubts. The
    /// penalty is 1 − mean F_R,i/F_R with each riser's own h and F′, U_L unchanged.
    pub fn harp_flows(
        &self,
        point: &OperatingPoint,
        connection: Connection,
        regime: Regime,
    ) -> Result<HarpFlows, CollectorError> {
        self.check()?;
        let conditions = &point.conditions;
        let loss = point.total_loss.si();
        let heat = RiserHeat {
            collector: self,
            fluid: conditions.fluid,
            inlet: conditions.inlet.si(),
            no_gain: conditions.ambient.si() + point.absorbed.si() / loss,
            unit_flow: self.riser_length.si() * loss * point.efficiency_factor / point.properties.specific_heat,
        };
        let network = self.network(&point.properties, conditions.mass_flow, connection);
        let balance = match regime {
            Regime::Isothermal => network.solve(|_, _| network.density)?,
            Regime::Buoyant => network.solve(|riser, flow| conditions.fluid.density_at(heat.mean(riser, flow)))?,
        };
        Ok(self.report_flows(point, &balance, &heat))
    }

    /// Flows and pressure drop without sun, for flushing and filling, at one temperature.
    pub fn flushing_flows(
        &self,
        fluid: Fluid,
        temperature: Temperature,
        mass_flow: MassRate,
    ) -> Result<HarpBalance, CollectorError> {
        self.check()?;
        Stream { fluid, mass_flow }.check()?;
        check_fluid(fluid)?;
        within("temperature", temperature.si(), fluid.freezing_point().si(), 400.0)?;
        let properties = fluid.properties_at(temperature.si());
        let network = self.network(&properties, mass_flow, self.harp.connection);
        Ok(network.solve(|_, _| network.density)?)
    }

    fn network(&self, properties: &Properties, mass_flow: MassRate, connection: Connection) -> HarpNetwork {
        HarpNetwork {
            riser_count: self.riser_count,
            riser_bore: self.riser_bore.si(),
            riser_length: self.riser_length.si(),
            header_bore: self.header_bore.si(),
            header_segment: self.riser_pitch.si(),
            riser_loss: self.harp.riser_loss,
            dividing_momentum: self.harp.dividing_momentum,
            combining_momentum: self.harp.combining_momentum,
            same_direction: connection == Connection::Diagonal,
            rise: self.riser_length.si() * self.tilt.si().sin(),
            density: properties.density,
            viscosity: properties.viscosity,
            mass_flow: mass_flow.si(),
        }
    }

    fn report_flows(&self, point: &OperatingPoint, balance: &HarpBalance, heat: &RiserHeat) -> HarpFlows {
        let mean = point.conditions.mass_flow.si() / self.riser_count as f64;
        let flows = || balance.relative_flows.iter().map(|relative| relative * mean).enumerate();
        let width = self.sheet_width().si();
        let removed: f64 = flows()
            .map(|(riser, flow)| self.strip(riser).width() / width * self.strip_removal(point, riser, flow))
            .sum();
        let outlets: Vec<f64> = flows().map(|(riser, flow)| heat.outlet(riser, flow)).collect();
        let hottest = outlets.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        HarpFlows {
            relative_flows: balance.relative_flows.clone(),
            pressure_drop: Pressure::from_si(balance.pressure_drop),
            riser_drop: Pressure::from_si(balance.riser_drop),
            ratio: balance.ratio(),
            largest_deviation: balance.largest_deviation(),
            standard_deviation: balance.standard_deviation(),
            reversed: balance.reversed(),
            heat_removal_penalty: 1.0 - removed / point.heat_removal_factor,
            riser_outlets: outlets.iter().copied().map(Temperature::from_si).collect(),
            hottest_excess: TemperatureInterval::from_si(hottest - point.outlet.si()),
        }
    }

    /// F_R of one riser's strip at its own flow; 0 for a riser that stands or flows backwards.
    fn strip_removal(&self, point: &OperatingPoint, riser: usize, flow: f64) -> f64 {
        if flow <= 0.0 {
            return 0.0;
        }
        let loss = point.total_loss.si();
        let tube = self.tube_side(&point.properties, flow);
        let strip = self.strip(riser);
        let factor = strip.efficiency_factor(&self.sheet(), loss, tube.root);
        let area = strip.width() * self.riser_length.si();
        factor * flow_factor(flow * point.properties.specific_heat / (area * loss * factor))
    }
}
