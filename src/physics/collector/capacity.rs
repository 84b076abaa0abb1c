//! Heat stored in a collector and how fast it warms and cools.
//!
//! Weights of the parts follow the test standard; steady balances live in `operating` and `stagnation`.

use super::check::check_fluid;
use super::{Collector, CollectorError, Material, OperatingPoint};
use crate::physics::domain::not_negative;
use crate::physics::fluid::Fluid;
use crate::physics::night::time_constant;
use crate::units::si::{Dimension, HeatCapacity, HeatTransfer, Length, Time, Volume, celsius};
use std::f64::consts::FRAC_PI_4;

/// Temperature at which the filling is weighed, °C.
const FILLING: f64 = 40.0;
/// Share of the insulation's capacity that counts.
const INSULATION_WEIGHT: f64 = 0.5;
/// Share of the cover's capacity that counts, per W/(m²·K) of a₁.
const GLASS_WEIGHT: f64 = 0.01;

/// Heat capacity of the parts, each whole, and their weighed sum.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatCapacities {
    /// Absorber sheet.
    pub sheet: HeatCapacity,
    /// Risers.
    pub risers: HeatCapacity,
    /// Both headers.
    pub headers: HeatCapacity,
    /// Filling.
    pub fluid: HeatCapacity,
    /// Insulation of back and edge, unweighed.
    pub insulation: HeatCapacity,
    /// Cover, unweighed.
    pub glass: HeatCapacity,
    /// Effective heat capacity C.
    pub total: HeatCapacity,
    /// Volume of the filling.
    pub volume: Volume,
}

impl Collector {
    /// Effective heat capacity C = sheet + tubes + filling + 0.5 insulation + 0.01 a₁ glass (ISO 9806 weights, from
    /// memory).
    ///
    /// `a1` is the collector's linear loss on absorber area, 0.01 being per W/(m²·K); the filling is taken at 40 °C.
    pub fn capacity(&self, fluid: Fluid, a1: HeatTransfer) -> Result<HeatCapacities, CollectorError> {
        self.check()?;
        check_fluid(fluid)?;
        not_negative("a1", a1.si())?;
        let area = self.absorber_area().si();
        let risers = self.riser_count as f64 * self.riser_length.si();
        let headers = 2.0 * self.header_length.si();
        let tube = |outer: Length, bore: Length, run: f64| {
            self.materials.tube.heat(FRAC_PI_4 * (outer.si().powi(2) - bore.si().powi(2)) * run)
        };
        let volume = FRAC_PI_4 * (self.riser_bore.si().powi(2) * risers + self.header_bore.si().powi(2) * headers);
        let liquid = fluid.properties_at(celsius(FILLING).si());
        let perimeter = 2.0 * (self.sheet_width().si() + self.riser_length.si());
        let wool = area * self.back.thickness.si() + perimeter * self.edge_height.si() * self.edge.thickness.si();
        let sheet = self.materials.sheet.heat(area * self.sheet_thickness.si());
        let risers = tube(self.riser_outer_diameter, self.riser_bore, risers);
        let headers = tube(self.header_outer_diameter, self.header_bore, headers);
        let filling = volume * liquid.density * liquid.specific_heat;
        let insulation = self.materials.insulation.heat(wool);
        let glass = self.cover.map_or(0.0, |cover| self.materials.glass.heat(area * cover.thickness.si()));
        let total =
            sheet + risers + headers + filling + INSULATION_WEIGHT * insulation + GLASS_WEIGHT * a1.si() * glass;
        not_negative("materials", total)?;
        Ok(HeatCapacities {
            sheet: HeatCapacity::from_si(sheet),
            risers: HeatCapacity::from_si(risers),
            headers: HeatCapacity::from_si(headers),
            fluid: HeatCapacity::from_si(filling),
            insulation: HeatCapacity::from_si(insulation),
            glass: HeatCapacity::from_si(glass),
            total: HeatCapacity::from_si(total),
            volume: Volume::from_si(volume),
        })
    }

    /// Time constant without flow τ = C/(A U_L), U_L of an operating point.
    pub fn standing_time_constant(&self, capacity: HeatCapacity, point: &OperatingPoint) -> Time {
        time_constant(capacity, point.total_loss, self.absorber_area())
    }

    /// Time constant with flow τ = C/(A F′ U_L + 2 ṁ c_p), of an operating point.
    pub fn flowing_time_constant(&self, capacity: HeatCapacity, point: &OperatingPoint) -> Time {
        let loss = self.absorber_area().si() * point.efficiency_factor * point.total_loss.si();
        let carried = 2.0 * point.conditions.mass_flow.si() * point.properties.specific_heat;
        Time::from_si(capacity.si() / (loss + carried))
    }
}

impl Material {
    /// Heat capacity of a volume in m³, J/K.
    fn heat(&self, volume: f64) -> f64 {
        self.density.si() * self.specific_heat.si() * volume
    }
}
