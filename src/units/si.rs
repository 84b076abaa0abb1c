//! The typed quantities of the whole program, in SI base units with `f64` inside.
//!
//! Public functions of `physics` and `solve` take and give these. Inside a correlation plain `f64` in SI
//! reads best; [`Dimension::si`] and [`Dimension::from_si`] are the only door between the two.

use std::marker::PhantomData;

pub use uom::si::f64::{
    Angle, Area, ElectricalResistance, Energy, Force, HeatCapacity, HeatFluxDensity, HeatTransfer, Length, Mass,
    MassDensity, MassRate, Power, Pressure, RadiantExposure, Ratio, SpecificHeatCapacity, TemperatureInterval,
    ThermalConductance, ThermalConductivity, ThermodynamicTemperature as Temperature, Time, Velocity, Volume,
    VolumeRate,
};

/// Zero of the Celsius scale in kelvin.
pub const ZERO_CELSIUS: f64 = 273.15;

/// A typed quantity that can be opened to its number in SI base units and closed again.
pub trait Dimension: Copy {
    /// Makes the quantity from a number in SI base units (m, kg, s, K, rad and their products).
    fn from_si(value: f64) -> Self;
    /// Gives the number in SI base units.
    fn si(self) -> f64;
}

impl<D, U> Dimension for uom::si::Quantity<D, U, f64>
where
    D: uom::si::Dimension + ?Sized,
    U: uom::si::Units<f64> + ?Sized,
{
    fn from_si(value: f64) -> Self {
        Self { dimension: PhantomData, units: PhantomData, value }
    }

    fn si(self) -> f64 {
        self.value
    }
}

/// Makes an absolute temperature from degrees Celsius.
pub fn celsius(degrees: f64) -> Temperature {
    Temperature::from_si(degrees + ZERO_CELSIUS)
}

/// Gives an absolute temperature in degrees Celsius.
pub fn in_celsius(temperature: Temperature) -> f64 {
    temperature.si() - ZERO_CELSIUS
}

/// Difference `hot − cold`, which the unit library does not define on absolute temperatures.
pub fn difference(hot: Temperature, cold: Temperature) -> TemperatureInterval {
    TemperatureInterval::from_si(hot.si() - cold.si())
}

/// Heat conducted per metre of run and kelvin, W/(m·K): a bond or a pipe wall.
///
/// The same unit as [`ThermalConductivity`], another meaning: a type of its own keeps them apart.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct LineConductance(pub f64);

/// Area times temperature difference per watt, m²·K/W: an insulation's resistance.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Insulance(pub f64);

impl Dimension for LineConductance {
    fn from_si(value: f64) -> Self {
        Self(value)
    }

    fn si(self) -> f64 {
        self.0
    }
}

impl Dimension for Insulance {
    fn from_si(value: f64) -> Self {
        Self(value)
    }

    fn si(self) -> f64 {
        self.0
    }
}
