//! Plane layers between a hot plate and the air: heat flow, face temperatures, least thickness for a limit.
//!
//! Lives here: one-dimensional conduction with conductivity linear in temperature. Must not live here: heat that
//! runs along stubs and screws (no one-dimensional law sees it), and which temperature a material stands.

use super::domain::{DomainError, finite, positive, within};
use super::root::{self, Bracket};
use crate::units::si::{
    Dimension, HeatFluxDensity, Insulance, Length, Temperature, ThermalConductivity, ZERO_CELSIUS, difference,
};

/// Temperature at which handbooks print conductivities, K (24 °C, 75 °F).
const REFERENCE_KELVIN: f64 = ZERO_CELSIUS + 24.0;
const MAX_PASSES: usize = 200;
const TOLERANCE_KELVIN: f64 = 1e-9;
/// The thickest layer that [`least_thickness`] offers, m.
const MAX_THICKNESS: f64 = 1.0;

/// Conductivity linear in temperature: k(T) = k₂₄ + s (T − 24 °C).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conductivity {
    /// k₂₄ at 24 °C.
    pub at_24_celsius: ThermalConductivity,
    /// s, W/(m·K²).
    pub slope: f64,
}

impl Conductivity {
    /// A conductivity that does not change with temperature.
    pub fn constant(value: ThermalConductivity) -> Self {
        Self { at_24_celsius: value, slope: 0.0 }
    }

    /// k at a temperature in kelvin, W/(m·K). For a linear law this is also the mean between two faces whose mean
    /// temperature it is, so the layer's resistance x/k(T_mean) is exact.
    pub fn at(self, kelvin: f64) -> f64 {
        self.at_24_celsius.si() + self.slope * (kelvin - REFERENCE_KELVIN)
    }
}

/// One layer of a stack.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layer {
    /// Thickness x as installed (compressed). Zero is a layer that is not there.
    pub thickness: Length,
    /// Conductivity of the material.
    pub conductivity: Conductivity,
}

/// Layers from a hot face to the surrounding air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stack<'a> {
    /// Temperature of the hot face of the first layer.
    pub hot: Temperature,
    /// Temperature of the air outside.
    pub ambient: Temperature,
    /// The layers, hot side first.
    pub layers: &'a [Layer],
    /// Resistance from the last face to the air, 1/h (0.10 m²·K/W for h = 10 W/(m²·K)).
    pub outside: Insulance,
}

/// Why a stack has no answer.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum LayersError {
    /// An input is outside the law, or the passes over the conductivities did not settle.
    #[error(transparent)]
    Domain(#[from] DomainError),
    /// The face named is not on the cold side of the layer named.
    #[error("face {face} is not on the cold side of layer {layer}")]
    FaceNotBehindLayer {
        /// Index of the face.
        face: usize,
        /// Index of the layer.
        layer: usize,
    },
    /// Not even the thickest layer offered brings the face to its limit.
    #[error("no thickness up to {0} m brings the face to its limit")]
    Unattainable(f64),
}

/// Heat flow and temperatures through a [`Stack`].
#[derive(Clone, Debug, PartialEq)]
pub struct Profile {
    /// Heat flow, positive from the hot face outward.
    pub heat_flux: HeatFluxDensity,
    /// Temperature of each face: `faces[0]` is the hot face, `faces[i]` lies between layer i−1 and layer i, the last
    /// one is the outer face.
    pub faces: Vec<Temperature>,
    /// Resistance of each layer at its own mean temperature.
    pub resistances: Vec<Insulance>,
}

/// Heat flow and face temperatures of plane layers in series.
///
/// q = (T_hot − T_air) / (Σ xᵢ/kᵢ + 1/h), T falls by q xᵢ/kᵢ over each layer, kᵢ at the layer's mean temperature.
/// Steady state, one dimension, any temperatures at which every k stays positive. Source: any heat transfer text
/// (Fourier's law). Edges, stubs, screws and air leaks are outside of it.
pub fn profile(stack: &Stack) -> Result<Profile, LayersError> {
    let outside = positive("outer resistance", stack.outside.si())?;
    for layer in stack.layers {
        within("layer thickness", layer.thickness.si(), 0.0, 10.0)?;
    }
    positive("temperature of the hot face", stack.hot.si())?;
    positive("air temperature", stack.ambient.si())?;
    let drop = difference(stack.hot, stack.ambient).si();
    let mut faces = vec![0.5 * (stack.hot.si() + stack.ambient.si()); stack.layers.len() + 1];
    faces[0] = stack.hot.si();
    let mut residual = 0.0;
    for _ in 0..MAX_PASSES {
        let resistances = resistances(stack.layers, &faces)?;
        let heat_flux = finite("heat flux", drop / (resistances.iter().sum::<f64>() + outside))?;
        let mut change = 0.0_f64;
        for (index, resistance) in resistances.iter().enumerate() {
            let next = faces[index] - heat_flux * resistance;
            change = change.max((next - faces[index + 1]).abs());
            faces[index + 1] = next;
        }
        residual = change;
        if change < TOLERANCE_KELVIN {
            return Ok(Profile {
                heat_flux: HeatFluxDensity::from_si(heat_flux),
                faces: faces.into_iter().map(Temperature::from_si).collect(),
                resistances: resistances.into_iter().map(Insulance::from_si).collect(),
            });
        }
    }
    Err(DomainError::NotSettled { what: "temperature of the layers", residual }.into())
}

fn resistances(layers: &[Layer], faces: &[f64]) -> Result<Vec<f64>, DomainError> {
    layers
        .iter()
        .zip(faces.windows(2))
        .map(|(layer, sides)| {
            let conductivity = layer.conductivity.at(0.5 * (sides[0] + sides[1]));
            Ok(layer.thickness.si() / positive("conductivity", conductivity)?)
        })
        .collect()
}

/// What [`least_thickness`] may change and what it must reach.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FaceLimit {
    /// Index of the layer whose thickness is free; its own thickness in the stack is not read.
    pub layer: usize,
    /// Index of the face to be kept at or below the limit, as in [`Profile::faces`].
    pub face: usize,
    /// Highest temperature of that face.
    pub limit: Temperature,
}

/// Least thickness of one layer that keeps a face behind it at or below a limit.
///
/// Root of [`profile`] between 0 and 1 m, rounded up by 1 µm. Zero means that the layer is not needed for this limit.
/// An error says that no thickness does it, as when the limit is not above the air temperature.
pub fn least_thickness(stack: &Stack, wanted: FaceLimit) -> Result<Length, LayersError> {
    const ROUNDING: f64 = 1e-6;
    let FaceLimit { layer, face, limit } = wanted;
    if layer >= face || face > stack.layers.len() {
        return Err(LayersError::FaceNotBehindLayer { face, layer });
    }
    let excess = |thickness: f64| -> Result<f64, LayersError> {
        let mut layers = stack.layers.to_vec();
        layers[layer].thickness = Length::from_si(thickness);
        Ok(profile(&Stack { layers: &layers, ..*stack })?.faces[face].si() - limit.si())
    };
    if excess(0.0)? <= 0.0 {
        return Ok(Length::from_si(0.0));
    }
    if excess(MAX_THICKNESS)? > 0.0 {
        return Err(LayersError::Unattainable(MAX_THICKNESS));
    }
    let range = Bracket { low: 0.0, high: MAX_THICKNESS };
    let found = root::find(range, 0.1 * ROUNDING, |thickness| excess(thickness).unwrap_or(f64::NAN));
    let thickness = found.ok_or(LayersError::Unattainable(MAX_THICKNESS))?;
    Ok(Length::from_si(thickness + ROUNDING))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::{celsius, in_celsius};

    fn layer(millimetres: f64, k: f64, slope: f64) -> Layer {
        Layer {
            thickness: Length::from_si(millimetres / 1000.0),
            conductivity: Conductivity { at_24_celsius: ThermalConductivity::from_si(k), slope },
        }
    }

    /// With k = a + b T the exact flow is the integral of k over the temperatures divided by the thickness.
    #[test]
    fn a_rising_conductivity_gives_the_integral_flow() {
        let layers = [layer(50.0, 0.034, 0.00018)];
        let stack =
            Stack { hot: celsius(180.0), ambient: celsius(20.0), layers: &layers, outside: Insulance::from_si(1e-9) };
        let integral = 0.034 * 160.0 + 0.00018 * (156.0_f64.powi(2) - 4.0_f64.powi(2)) / 2.0;
        assert!((profile(&stack).unwrap().heat_flux.si() - integral / 0.05).abs() < 1e-4);
    }

    #[test]
    fn the_least_thickness_just_meets_the_limit() {
        let layers = [layer(0.0, 0.036, 0.00016), layer(18.0, 0.12, 0.0)];
        let stack =
            Stack { hot: celsius(190.0), ambient: celsius(35.0), layers: &layers, outside: Insulance::from_si(0.1) };
        let wanted = FaceLimit { layer: 0, face: 1, limit: celsius(65.0) };
        let thickness = least_thickness(&stack, wanted).unwrap();
        let built = [Layer { thickness, ..layers[0] }, layers[1]];
        let face = profile(&Stack { layers: &built, ..stack }).unwrap().faces[1];
        assert!((in_celsius(face) - 65.0).abs() < 0.01);
    }

    #[test]
    fn a_limit_below_the_air_is_refused() {
        let layers = [layer(50.0, 0.036, 0.0)];
        let stack =
            Stack { hot: celsius(150.0), ambient: celsius(30.0), layers: &layers, outside: Insulance::from_si(0.1) };
        let wanted = FaceLimit { layer: 0, face: 1, limit: celsius(25.0) };
        assert_eq!(least_thickness(&stack, wanted), Err(LayersError::Unattainable(1.0)));
        let wrong = FaceLimit { layer: 0, face: 0, limit: celsius(50.0) };
        assert_eq!(least_thickness(&stack, wrong), Err(LayersError::FaceNotBehindLayer { face: 0, layer: 0 }));
    }
}
