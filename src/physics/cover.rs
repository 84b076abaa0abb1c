//! A pane of glass in the sun: what it passes, turns back and keeps, and the angles that stand for diffuse light.
//!
//! Only the pane lives here. The plate behind it and their product (τα) belong to the collector.

use crate::units::si::{Angle, Dimension};

/// Reflections between the two faces, absorption between them: the optics of one pane for unpolarised light.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slab {
    /// τ, share of the light that leaves on the far side.
    pub transmittance: f64,
    /// ρ, share that is turned back.
    pub reflectance: f64,
    /// α, share that stays in the pane.
    pub absorptance: f64,
    /// τ_a = exp(−KL/cos θ₂), what one crossing would pass if no face reflected.
    pub absorption_only_transmittance: f64,
}

impl Slab {
    /// Light that grazes the pane or comes from behind: nothing enters.
    const MIRROR: Self =
        Self { transmittance: 0.0, reflectance: 1.0, absorptance: 0.0, absorption_only_transmittance: 0.0 };
}

/// Optics of one pane with air on both sides, all reflections between its faces counted.
///
/// sin θ₂ = sin θ/n; for each polarisation the Fresnel reflectance r of one face (r_⊥ = ((cos θ − n cos θ₂)/
/// (cos θ + n cos θ₂))², r_∥ = ((n cos θ − cos θ₂)/(n cos θ + cos θ₂))²), then τ = τ_a(1−r)²/(1−(r τ_a)²),
/// ρ = r(1 + τ_a τ), α = (1−τ_a)(1−r)/(1−r τ_a), and the mean of the two polarisations.
///
/// `refractive_index` n ≥ 1 (glass 1.526); `optical_depth` K·L ≥ 0 with K the extinction, 1/m (4 low-iron,
/// 16 ordinary float, 32 green-edged from memory), and L the thickness, m; `incidence` θ from the normal. At 90° and
/// beyond, either sign, and where n < 1 gives total reflection, nothing passes. Source: Fresnel's equations as
/// arranged in Duffie & Beckman, Solar Engineering of Thermal Processes, 4th ed., sections 5.1 to 5.3.
pub fn slab(refractive_index: f64, optical_depth: f64, incidence: Angle) -> Slab {
    let n = refractive_index;
    let (sine, cosine) = incidence.si().sin_cos();
    let inner_sine = sine / n;
    if cosine <= 0.0 || inner_sine.abs() >= 1.0 {
        return Slab::MIRROR;
    }
    let inner_cosine = (1.0 - inner_sine * inner_sine).sqrt();
    let passed = (-optical_depth / inner_cosine).exp();
    let perpendicular = ((cosine - n * inner_cosine) / (cosine + n * inner_cosine)).powi(2);
    let parallel = ((n * cosine - inner_cosine) / (n * cosine + inner_cosine)).powi(2);
    let (s, p) = (polarised(perpendicular, passed), polarised(parallel, passed));
    Slab {
        transmittance: f64::midpoint(s.transmittance, p.transmittance),
        reflectance: f64::midpoint(s.reflectance, p.reflectance),
        absorptance: f64::midpoint(s.absorptance, p.absorptance),
        absorption_only_transmittance: passed,
    }
}

/// One polarisation: `face` reflectance of a face, `passed` by one crossing.
fn polarised(face: f64, passed: f64) -> Slab {
    let transmittance = passed * (1.0 - face).powi(2) / (1.0 - (face * passed).powi(2));
    Slab {
        transmittance,
        reflectance: face * (1.0 + passed * transmittance),
        absorptance: (1.0 - passed) * (1.0 - face) / (1.0 - face * passed),
        absorption_only_transmittance: passed,
    }
}

/// Angle of incidence at which beam passes the cover as isotropic sky light does.
///
/// θ = 59.7 − 0.1388 β + 0.001497 β², β the `tilt` in degrees, 0 to 90°. Brandemuehl & Beckman 1980, Solar Energy
/// 24, 511; Duffie & Beckman eq. 5.4.2. Outside 0 to 90° the polynomial is extrapolated.
pub fn sky_equivalent_angle(tilt: Angle) -> Angle {
    let slope = tilt.si().to_degrees();
    Angle::from_si((59.7 - 0.1388 * slope + 0.001497 * slope * slope).to_radians())
}

/// Angle of incidence at which beam passes the cover as light from the ground does.
///
/// θ = 90 − 0.5788 β + 0.002693 β², β the `tilt` in degrees, 0 to 90°. Brandemuehl & Beckman 1980; Duffie & Beckman
/// eq. 5.4.1. Outside 0 to 90° the polynomial is extrapolated.
pub fn ground_equivalent_angle(tilt: Angle) -> Angle {
    let slope = tilt.si().to_degrees();
    Angle::from_si((90.0 - 0.5788 * slope + 0.002693 * slope * slope).to_radians())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn degrees(value: f64) -> Angle {
        Angle::from_si(value.to_radians())
    }

    #[test]
    fn light_is_passed_turned_back_or_kept_and_nothing_else() {
        for tenth in 0..1200 {
            let pane = slab(1.526, 0.064, degrees(f64::from(tenth) / 10.0));
            assert!((pane.transmittance + pane.reflectance + pane.absorptance - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn glass_as_thin_as_air_and_without_colour_is_not_there() {
        assert!((slab(1.0, 0.0, degrees(60.0)).transmittance - 1.0).abs() < 1e-12);
    }

    #[test]
    fn grazing_light_does_not_enter() {
        assert!(slab(1.526, 0.0128, degrees(90.0)).transmittance < 1e-9);
        assert!(slab(1.526, 0.0128, degrees(135.0)).transmittance.abs() < 1e-12);
    }
}
