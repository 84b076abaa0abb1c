//! Liquids of the loop: water and propylene-glycol mixtures.
//!
//! Only properties live here; what a loop does with them lives in `pipe` and the stages.

use super::polynomial;
use super::root::{self, Bracket};
use crate::units::si::{
    Dimension, MassDensity, SpecificHeatCapacity, Temperature, ThermalConductivity, celsius, in_celsius,
};

/// Highest temperature for which the specific heat of water was fitted, °C; above it the value is held.
const WATER_HEAT_LIMIT: f64 = 120.0;
/// Highest temperature of the glycol data, °C.
const GLYCOL_LIMIT: f64 = 100.0;
/// Critical temperature of water, K.
pub(super) const CRITICAL_TEMPERATURE: f64 = 647.096;
/// Critical pressure of water, Pa.
const CRITICAL_PRESSURE: f64 = 22.064e6;
/// Temperatures between which [`boiling_point`] searches, K.
const BOILING_RANGE: Bracket = Bracket { low: 273.15, high: 643.15 };

/// A liquid that can fill the loop.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fluid {
    /// Water at about 3 bar.
    Water,
    /// Propylene glycol in water, by mass fraction 0 to 0.6 of glycol.
    PropyleneGlycol {
        /// Mass of glycol over mass of mixture.
        mass_fraction: f64,
    },
}

/// The properties of a liquid at one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Properties {
    /// ρ, kg/m³.
    pub density: f64,
    /// c_p, J/(kg·K).
    pub specific_heat: f64,
    /// μ, Pa·s.
    pub viscosity: f64,
    /// k, W/(m·K).
    pub conductivity: f64,
}

impl Properties {
    /// Prandtl number Pr = μ c_p / k.
    pub fn prandtl(&self) -> f64 {
        self.viscosity * self.specific_heat / self.conductivity
    }
}

impl Fluid {
    /// Density ρ(T).
    ///
    /// Water: Kell 1975, J. Chem. Eng. Data 20, 97 (coefficients from memory, within 1e-4 of IAPWS-95 at 3 bar for 0 to
    /// 120 °C, 3e-4 at 150 °C). Glycol: polynomials of Melinder 2010 as carried by a general-purpose property library,
    /// freezing point to 100 °C. Outside both are extrapolated: [`Fluid::data_limit`] says where that begins.
    pub fn density(self, temperature: Temperature) -> MassDensity {
        MassDensity::from_si(self.density_at(temperature.si()))
    }

    /// Specific heat capacity c_p(T), for the ranges of [`Fluid::density`]; that of water is held above 120 °C: 1.5 %
    /// below the 4310 J/(kg·K) of the steam tables at 150 °C (from memory).
    pub fn specific_heat(self, temperature: Temperature) -> SpecificHeatCapacity {
        SpecificHeatCapacity::from_si(self.properties_at(temperature.si()).specific_heat)
    }

    /// Thermal conductivity k(T), for the ranges of [`Fluid::density`].
    pub fn conductivity(self, temperature: Temperature) -> ThermalConductivity {
        ThermalConductivity::from_si(self.properties_at(temperature.si()).conductivity)
    }

    /// Hottest temperature of the data: 120 °C for water, 100 °C for glycol.
    pub fn data_limit(self) -> Temperature {
        celsius(match self {
            Self::Water => WATER_HEAT_LIMIT,
            Self::PropyleneGlycol { .. } => GLYCOL_LIMIT,
        })
    }

    /// All properties at an absolute temperature in kelvin, for hot loops that need several of them.
    ///
    /// Water viscosity and conductivity: IAPWS SR6-08 (0.1 MPa, −20 to 110 °C). Water specific heat: own fit to
    /// IAPWS-95 at 3 bar, within 7e-5 for 0 to 120 °C. Glycol: Melinder 2010.
    pub fn properties_at(self, kelvin: f64) -> Properties {
        match self {
            Self::Water => water(kelvin),
            Self::PropyleneGlycol { mass_fraction } if mass_fraction <= 0.0 => water(kelvin),
            Self::PropyleneGlycol { mass_fraction } => glycol(kelvin, mass_fraction),
        }
    }

    /// The density alone at an absolute temperature in kelvin, for loops in which only the lift of warm liquid counts.
    pub fn density_at(self, kelvin: f64) -> f64 {
        match self {
            Self::PropyleneGlycol { mass_fraction } if mass_fraction > 0.0 => glycol_density(kelvin, mass_fraction),
            Self::Water | Self::PropyleneGlycol { .. } => water_density(in_celsius(Temperature::from_si(kelvin))),
        }
    }

    /// Temperature at which the first ice forms.
    ///
    /// Water: 0 °C. Glycol: Melinder 2010, mass fraction 0 to 0.6.
    pub fn freezing_point(self) -> Temperature {
        match self {
            Self::Water => celsius(0.0),
            Self::PropyleneGlycol { mass_fraction } => {
                Temperature::from_si(polynomial::value(&GLYCOL_FREEZING, mass_fraction - GLYCOL_BASE.0))
            }
        }
    }
}

/// Gauge-independent vapour pressure of water, Pa absolute, at a temperature.
///
/// IAPWS SR1-86 (Wagner & Pruß 1993, coefficients from memory), 0 to 374 °C; within 7.2e-5 of IAPWS-95 to 150 °C. Above
/// the critical point there is no boiling and the critical pressure, 220.64 bar, is given.
pub fn vapour_pressure(temperature: Temperature) -> f64 {
    let kelvin = temperature.si().min(CRITICAL_TEMPERATURE);
    let t = 1.0 - kelvin / CRITICAL_TEMPERATURE;
    let sum = -7.85951783 * t + 1.84408259 * t.powf(1.5) - 11.7866497 * t.powi(3) + 22.6807411 * t.powf(3.5)
        - 15.9618719 * t.powi(4)
        + 1.80122502 * t.powf(7.5);
    CRITICAL_PRESSURE * (CRITICAL_TEMPERATURE / kelvin * sum).exp()
}

/// Temperature at which water boils under an absolute pressure in Pa.
///
/// Inverse of [`vapour_pressure`] on 0 to 370 °C, to 1e-9 K. Outside, below 611 Pa and above 211 bar, the nearer end is
/// given: a caller that can meet such a pressure asks [`super::glycol::boiling_point`], which refuses it.
pub fn boiling_point(absolute_pressure: f64) -> Temperature {
    let surplus = |kelvin: f64| vapour_pressure(Temperature::from_si(kelvin)) - absolute_pressure;
    let Bracket { low, high } = BOILING_RANGE;
    let end = if surplus(high) < 0.0 { high } else { low };
    Temperature::from_si(root::find(BOILING_RANGE, 1e-9, surplus).unwrap_or(end))
}

fn water(kelvin: f64) -> Properties {
    let t = in_celsius(Temperature::from_si(kelvin));
    let density = water_density(t);
    let y = t.min(WATER_HEAT_LIMIT) / 100.0;
    let specific_heat = polynomial::value(&WATER_HEAT, y);
    // One logarithm for all eight powers of T/300 K.
    let log = (kelvin / 300.0).ln();
    let power = |exponent: f64| (exponent * log).exp();
    let viscosity =
        1e-6 * (280.68 * power(-1.9) + 511.45 * power(-7.7) + 61.131 * power(-19.6) + 0.45903 * power(-40.0));
    let conductivity = 1.6630 * power(-1.15) - 1.7781 * power(-3.4) + 1.1567 * power(-6.0) - 0.432115 * power(-7.6);
    Properties { density, specific_heat, viscosity, conductivity }
}

/// Density of water, kg/m³, t in °C.
fn water_density(t: f64) -> f64 {
    polynomial::value(&WATER_DENSITY, t) / (1.0 + 16.879850e-3 * t)
}

/// A polynomial of Melinder in both shares and temperature.
fn melinder(table: &[&[f64]], kelvin: f64, mass_fraction: f64) -> f64 {
    let (d, e) = (mass_fraction - GLYCOL_BASE.0, kelvin - GLYCOL_BASE.1);
    table.iter().rev().fold(0.0, |sum, row| sum * e + polynomial::value(row, d))
}

fn glycol_density(kelvin: f64, mass_fraction: f64) -> f64 {
    melinder(&GLYCOL_DENSITY, kelvin, mass_fraction)
}

fn glycol(kelvin: f64, mass_fraction: f64) -> Properties {
    let at = |table: &[&[f64]]| melinder(table, kelvin, mass_fraction);
    Properties {
        density: glycol_density(kelvin, mass_fraction),
        specific_heat: at(&GLYCOL_HEAT),
        viscosity: at(&GLYCOL_LOG_VISCOSITY).exp(),
        conductivity: at(&GLYCOL_CONDUCTIVITY),
    }
}

/// Kell 1975, numerator, powers of °C.
const WATER_DENSITY: [f64; 6] = [999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12];
/// Own fit, powers of °C/100.
const WATER_HEAT: [f64; 7] = [
    4218.170377032875,
    -325.7468191732509,
    1049.0261973107547,
    -1772.309972179792,
    1771.2314699234398,
    -925.2190700516661,
    200.09546287736788,
];

/// Base mass fraction and base temperature (K) of the Melinder polynomials.
const GLYCOL_BASE: (f64, f64) = (0.307031, 305.8583);
const GLYCOL_DENSITY: [&[f64]; 4] = [
    &[1018.0, 76.04, -24.98, -155.0, -113.1, 234.2],
    &[-0.5406, -0.9450, 0.2700, 2.829, -2.221],
    &[-2.666e-3, 5.541e-3, -4.018e-3, -7.175e-3],
    &[1.347e-5, -1.343e-5, 3.376e-5],
];
const GLYCOL_HEAT: [&[f64]; 4] = [
    &[3882.0, -1304.0, -1598.0, 353.9, 5000.0, -4959.0],
    &[2.699, 5.070, 0.9534, 31.02, -71.35],
    &[-1.659e-3, -4.752e-3, 0.1167, -0.2950],
    &[-1.032e-5, 1.522e-4, -4.870e-4],
];
const GLYCOL_CONDUCTIVITY: [&[f64]; 4] = [
    &[0.4513, -0.4795, 0.2076, -9.083e-2, -5.952e-2, 0.2104],
    &[7.955e-4, -1.678e-3, 1.563e-3, -2.518e-3, -3.605e-3],
    &[3.482e-8, 8.941e-6, -4.615e-5, 6.543e-5],
    &[-5.966e-9, 1.493e-8, 9.897e-8],
];
const GLYCOL_LOG_VISCOSITY: [&[f64]; 4] = [
    &[-6.224055, 3.328, 0.5453, -3.900, -1.587, 35.64],
    &[-3.045e-2, -3.984e-2, -8.6e-4, 0.1054, 4.475e-2],
    &[2.525e-4, 4.332e-4, -1.593e-4, -1.589e-3],
    &[-1.399e-6, -1.860e-6, -4.465e-7],
];
const GLYCOL_FREEZING: [f64; 6] = [259.9, -66.31, -109.4, -228.3, -340.9, 146.5];

#[cfg(test)]
mod tests {
    use super::*;

    fn close(got: f64, want: f64, relative: f64) {
        assert!((got - want).abs() <= relative * want.abs(), "{got} is not {want} within {relative}");
    }

    /// Boiling at 1, 2, 3 and 4 bar absolute; values of IAPWS-IF97 computed with a general-purpose library.
    #[test]
    fn water_boils_where_the_steam_tables_say() {
        for (bar, degrees) in [(1.0, 99.6), (2.0, 120.2), (3.0, 133.5), (4.0, 143.6)] {
            assert!((in_celsius(boiling_point(bar * 1e5)) - degrees).abs() < 0.06);
        }
    }

    #[test]
    fn beyond_the_ends_of_the_vapour_curve_nothing_is_nonsense() {
        for kelvin in [1.0, 273.15, 647.096, 650.0, 2000.0] {
            assert!(vapour_pressure(Temperature::from_si(kelvin)).is_finite());
        }
        assert!((vapour_pressure(Temperature::from_si(900.0)) / 22.064e6 - 1.0).abs() < 1e-12);
        for (pascals, kelvin) in [(0.0, 273.15), (-5.0, 273.15), (1e9, 643.15), (f64::MAX, 643.15)] {
            assert!((boiling_point(pascals).si() - kelvin).abs() < 1e-9);
        }
    }

    /// IAPWS-95 at 3 bar and 120 °C: c_p 4245 J/(kg·K) (steam tables, from memory); beyond it the value is held.
    #[test]
    fn the_limit_of_the_data_is_where_the_specific_heat_is_held() {
        let limit = Fluid::Water.data_limit();
        assert!((Fluid::Water.specific_heat(limit).si() / 4245.0 - 1.0).abs() < 1e-3);
        assert_eq!(Fluid::Water.specific_heat(celsius(140.0)), Fluid::Water.specific_heat(limit));
    }

    /// Freezing of glycol by mass: chiller manuals print −3.1, −12.6 and −32.1 °C for 10, 30 and 50 %.
    #[test]
    fn glycol_freezes_where_the_manuals_say() {
        for (fraction, degrees) in [(0.1, -3.1), (0.3, -12.6), (0.5, -32.1)] {
            let fluid = Fluid::PropyleneGlycol { mass_fraction: fraction };
            assert!((in_celsius(fluid.freezing_point()) - degrees).abs() < 0.3);
        }
    }

    /// Water at 40 °C and 3 bar by IAPWS-95, computed with a general-purpose property library.
    #[test]
    fn water_at_forty_degrees() {
        let p = Fluid::Water.properties_at(celsius(40.0).si());
        close(p.density, 992.30354, 1e-4);
        close(p.specific_heat, 4178.9255, 1e-4);
        close(p.viscosity, 0.65275367e-3, 5e-4);
        close(p.conductivity, 0.62859122, 5e-4);
    }
}
