//! Sun absorbed by a plate, bare or under one pane: absorptance against angle, (τα), incidence modifier.
//!
//! The pane alone lives in `cover`; what the plate does with the heat in `operating`.

use super::cover::{ground_equivalent_angle, sky_equivalent_angle, slab};
use super::polynomial;
use crate::units::si::{Angle, Dimension, HeatFluxDensity};

/// Absorptance over its value at normal incidence, powers of θ in degrees, lowest first.
const ABSORPTANCE_TERMS: [f64; 8] =
    [1.0, -1.5879e-3, 2.7314e-4, -2.3026e-5, 9.0244e-7, -1.8000e-8, 1.7734e-10, -6.9937e-13];

/// Angle that stands for diffuse light bouncing between plate and cover, degrees.
const BOUNCE_ANGLE: f64 = 60.0;

/// Angle at which a collector's incidence modifier is quoted, degrees.
const QUOTED_ANGLE: f64 = 50.0;

/// Share of the normal absorptance that a flat black plate has at an angle of incidence.
///
/// α/α_n = Σ c_i θ^i, θ in degrees 0 to 90, seven powers (Duffie & Beckman 4.11.1, from memory). The polynomial is cut
/// at 0 and 1, which it leaves by less than 0.01 within 0 to 80°; at 90° and beyond the share is 0.
pub fn absorptance_ratio(incidence: Angle) -> f64 {
    let degrees = incidence.si().to_degrees().abs();
    if degrees >= 90.0 {
        return 0.0;
    }
    polynomial::value(&ABSORPTANCE_TERMS, degrees).clamp(0.0, 1.0)
}

/// Sunlight on the plane of the collector.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sunlight {
    /// Beam on the plane of the collector.
    pub beam: HeatFluxDensity,
    /// Angle between the beam and the normal of the plane.
    pub incidence: Angle,
    /// Diffuse light of the sky on the plane.
    pub sky_diffuse: HeatFluxDensity,
    /// Light reflected by the ground onto the plane.
    pub ground_reflected: HeatFluxDensity,
}

impl Sunlight {
    /// Beam alone, at normal incidence: the light of a collector test.
    pub fn normal(beam: HeatFluxDensity) -> Self {
        let none = HeatFluxDensity::from_si(0.0);
        Self { beam, incidence: Angle::from_si(0.0), sky_diffuse: none, ground_reflected: none }
    }

    /// All light on the plane.
    pub fn total(&self) -> HeatFluxDensity {
        self.beam + self.sky_diffuse + self.ground_reflected
    }
}

/// The pane over a plate, for sunlight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pane {
    /// Refractive index n.
    pub refractive_index: f64,
    /// Extinction times thickness K·t.
    pub optical_depth: f64,
}

/// A plate with its pane, for sunlight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlateOptics {
    /// Absorptance of the plate at normal incidence α_n.
    pub absorptance: f64,
    /// The pane, if there is one.
    pub pane: Option<Pane>,
}

/// Sun caught at the plate and in the pane, W/m².
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Caught {
    /// Σ G (τα).
    pub plate: f64,
    /// Σ G (1 − τ_a); 0 unglazed.
    pub pane: f64,
}

/// How (τα) changes with the direction of the light.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct IncidenceModifier {
    /// K at 50°.
    pub at_fifty: f64,
    /// b₀ of K = 1 − b₀ (1/cos θ − 1), through the value at 50°.
    pub b0: f64,
    /// K for diffuse light of the sky at the collector's tilt.
    pub sky_diffuse: f64,
}

impl PlateOptics {
    /// Transmittance-absorptance product (τα) at an angle of incidence.
    ///
    /// (τα) = τ α/(1 − (1 − α) ρ_d), ρ_d = τ_a(60°) − τ(60°) (Duffie & Beckman 5.5, from memory); α for a bare plate.
    pub fn product(&self, incidence: Angle) -> f64 {
        let absorptance = self.absorptance * absorptance_ratio(incidence);
        let Some(pane) = self.pane else { return absorptance };
        let transmittance = slab(pane.refractive_index, pane.optical_depth, incidence).transmittance;
        transmittance * absorptance / (1.0 - (1.0 - absorptance) * pane.diffuse_reflectance())
    }

    /// Share of the light that is caught in the pane, 1 − τ_a (Duffie & Beckman 5.6, from memory); 0 unglazed.
    ///
    /// It counts one crossing without reflections, as the literature's effective product does; light at 90° and beyond
    /// does not enter the pane.
    pub fn caught_in_pane(&self, incidence: Angle) -> f64 {
        let enters = incidence.si().cos() > 0.0;
        self.pane.filter(|_| enters).map_or(0.0, |pane| {
            1.0 - slab(pane.refractive_index, pane.optical_depth, incidence).absorption_only_transmittance
        })
    }

    /// Sun caught at plate and pane of a collector of the given tilt: beam, sky and ground each at its own angle.
    pub fn catch(&self, sun: &Sunlight, tilt: Angle) -> Caught {
        let parts = [
            (sun.beam.si(), sun.incidence),
            (sun.sky_diffuse.si(), sky_equivalent_angle(tilt)),
            (sun.ground_reflected.si(), ground_equivalent_angle(tilt)),
        ];
        let mut caught = Caught { plate: 0.0, pane: 0.0 };
        for (irradiance, angle) in parts.into_iter().filter(|part| part.0 != 0.0) {
            caught.plate += irradiance * self.product(angle);
            caught.pane += irradiance * self.caught_in_pane(angle);
        }
        caught
    }

    /// K(50°), b₀ and the modifier of diffuse light, all from (τα).
    pub fn incidence_modifier(&self, tilt: Angle) -> IncidenceModifier {
        let normal = self.product(Angle::from_si(0.0));
        let quoted = Angle::from_si(QUOTED_ANGLE.to_radians());
        let at_fifty = self.product(quoted) / normal;
        IncidenceModifier {
            at_fifty,
            b0: (1.0 - at_fifty) / (quoted.si().cos().recip() - 1.0),
            sky_diffuse: self.product(sky_equivalent_angle(tilt)) / normal,
        }
    }
}

impl Pane {
    /// ρ_d, reflectance of the pane for light that comes back from the plate.
    fn diffuse_reflectance(self) -> f64 {
        let at = slab(self.refractive_index, self.optical_depth, Angle::from_si(BOUNCE_ANGLE.to_radians()));
        at.absorption_only_transmittance - at.transmittance
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn absorptance_falls_towards_grazing_light_and_ends_at_zero() {
        let at = |degrees: f64| absorptance_ratio(Angle::from_si(degrees.to_radians()));
        assert!((at(0.0) - 1.0).abs() < 1e-15);
        assert!(at(0.0) > at(40.0) && at(40.0) > at(60.0) && at(60.0) > at(75.0));
        assert!(at(90.0) < 1e-15);
        assert!((0..=900).all(|tenth| (0.0..=1.0).contains(&at(f64::from(tenth) / 10.0))));
    }

    #[test]
    fn beam_from_behind_brings_nothing() {
        let optics =
            PlateOptics { absorptance: 0.95, pane: Some(Pane { refractive_index: 1.526, optical_depth: 0.05 }) };
        let sun = Sunlight { incidence: Angle::from_si(1.7), ..Sunlight::normal(HeatFluxDensity::from_si(800.0)) };
        assert_eq!(optics.catch(&sun, Angle::from_si(0.7)), Caught { plate: 0.0, pane: 0.0 });
    }
}
