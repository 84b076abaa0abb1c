//! From sunlight on level ground to sunlight on a tilted plane.
//!
//! Three sky models: isotropic (pessimistic), Hay & Davies (default), Perez (optimistic); their spread is the honest
//! uncertainty. Shading lives in `horizon`, glass in `cover`.

use crate::physics::atmosphere;
use crate::physics::sun::Direction;
use crate::units::si::{Angle, Dimension};

/// Lowest cosine of the zenith angle in the Hay-Davies ratio (89°).
const HAY_DAVIES_FLOOR: f64 = 0.01745;
/// Lowest cosine of the zenith angle in the Perez ratio, cos 85°.
const PEREZ_FLOOR: f64 = 0.08715574274765817;

/// How the diffuse light is spread over the sky.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default, Hash)]
pub enum SkyModel {
    /// The same from everywhere (Liu & Jordan 1963).
    Isotropic,
    /// A part comes from around the sun (Hay & Davies 1980).
    #[default]
    HayDavies,
    /// Around the sun, along the horizon and the rest (Perez et al. 1990).
    Perez,
}

/// Sunlight of an hour and where it comes from. Irradiances in W/m².
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sunlight {
    /// On a level plane, GHI.
    pub global: f64,
    /// On a plane facing the sun, DNI.
    pub beam_normal: f64,
    /// From the sky on a level plane, DHI.
    pub diffuse: f64,
    /// Above the atmosphere, facing the sun, G_on.
    pub extraterrestrial_normal: f64,
    /// Apparent direction of the sun.
    pub sun: Direction,
}

/// A plane with its view of sky and ground worked out once.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surface {
    normal: Direction,
    sky_view: f64,
    ground_view: f64,
    sin_tilt: f64,
}

impl Surface {
    /// A plane of `tilt` (0 level to 90° vertical) that faces `azimuth` (clockwise from true north).
    pub fn new(tilt: Angle, azimuth: Angle) -> Self {
        let (sine, cosine) = tilt.si().sin_cos();
        Self {
            normal: Direction::normal(tilt, azimuth),
            sky_view: f64::midpoint(1.0, cosine),
            ground_view: f64::midpoint(1.0, -cosine),
            sin_tilt: sine,
        }
    }

    /// The outward normal.
    pub fn normal(&self) -> Direction {
        self.normal
    }
}

/// Irradiance on a plane by where it comes from, W/m².
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct PlaneIrradiance {
    /// Straight from the sun.
    pub beam: f64,
    /// Diffuse from around the sun: meets glass at the beam's angle, is shaded with it.
    pub circumsolar: f64,
    /// Diffuse, the same from the whole sky.
    pub sky_isotropic: f64,
    /// Diffuse from a bright or dull band along the horizon; Perez only, may be negative.
    pub horizon: f64,
    /// Reflected from the ground.
    pub ground: f64,
    /// Cosine of the angle of incidence of the beam; negative with the sun behind the plane.
    pub incidence_cosine: f64,
}

impl PlaneIrradiance {
    /// Everything that falls on the plane.
    pub fn total(&self) -> f64 {
        self.beam + self.circumsolar + self.sky_isotropic + self.horizon + self.ground
    }

    /// Angle of incidence of the beam.
    pub fn incidence(&self) -> Angle {
        Angle::from_si(self.incidence_cosine.clamp(-1.0, 1.0).acos())
    }
}

/// Irradiance on a plane.
///
/// Beam = DNI max(cos θ, 0); ground = GHI ρ (1−cos β)/2; the sky's part by the model. With the sun at or below the
/// apparent horizon there is neither beam nor circumsolar light and the sky is isotropic for every model: the floored
/// cosine would make absurd single hours. `albedo` ρ from 0 to 1.
pub fn on_plane(model: SkyModel, light: &Sunlight, surface: &Surface, albedo: f64) -> PlaneIrradiance {
    let incidence_cosine = light.sun.dot(surface.normal);
    let ground = light.global * albedo * surface.ground_view;
    if light.sun.up <= 0.0 {
        let sky_isotropic = light.diffuse * surface.sky_view;
        return PlaneIrradiance { sky_isotropic, ground, incidence_cosine, ..PlaneIrradiance::default() };
    }
    let facing = incidence_cosine.max(0.0);
    let (circumsolar, sky_isotropic, horizon) = match model {
        SkyModel::Isotropic => (0.0, light.diffuse * surface.sky_view, 0.0),
        SkyModel::HayDavies => hay_davies(light, surface, facing),
        SkyModel::Perez => perez(light, surface, facing),
    };
    PlaneIrradiance { beam: light.beam_normal * facing, circumsolar, sky_isotropic, horizon, ground, incidence_cosine }
}

/// A = DNI/G_on; circumsolar = DHI A cos θ/max(cos Z, 0.01745), isotropic = DHI(1−A)(1+cos β)/2.
///
/// Hay & Davies 1980; Duffie & Beckman eq. 2.16.
fn hay_davies(light: &Sunlight, surface: &Surface, facing: f64) -> (f64, f64, f64) {
    let anisotropy = light.beam_normal / light.extraterrestrial_normal;
    let circumsolar = light.diffuse * anisotropy * facing / light.sun.up.max(HAY_DAVIES_FLOOR);
    (circumsolar, light.diffuse * (1.0 - anisotropy) * surface.sky_view, 0.0)
}

/// Beam and circumsolar light as one: their irradiance facing the sun, and A of Hay & Davies.
///
/// On a plane both fall as cos θ: DNI + DHI A/max(cos Z, 0.01745). With the sun down both are zero.
pub fn hay_davies_beam(light: &Sunlight) -> (f64, f64) {
    if light.sun.up <= 0.0 {
        return (0.0, 0.0);
    }
    let anisotropy = light.beam_normal / light.extraterrestrial_normal;
    (light.beam_normal + light.diffuse * anisotropy / light.sun.up.max(HAY_DAVIES_FLOOR), anisotropy)
}

/// Perez, Ineichen, Seals, Michalsky & Stewart 1990, Solar Energy 44, 271, table 6 ("all sites composite").
///
/// Sky = DHI[(1−F₁)(1+cos β)/2 + F₁ cos θ/max(cos Z, cos 85°) + F₂ sin β], not below zero.
fn perez(light: &Sunlight, surface: &Surface, facing: f64) -> (f64, f64, f64) {
    if light.diffuse <= 0.0 {
        return (0.0, 0.0, 0.0);
    }
    let zenith = light.sun.up.min(1.0).acos();
    // The sun is up here, so an air mass exists.
    let air_mass = atmosphere::relative_air_mass(Angle::from_si(zenith)).unwrap_or_default();
    let brightness = light.diffuse * air_mass / light.extraterrestrial_normal;
    let bend = 1.041 * zenith.powi(3);
    let clearness = ((light.diffuse + light.beam_normal) / light.diffuse + bend) / (1.0 + bend);
    let bin = PEREZ_BINS.iter().filter(|edge| clearness >= **edge).count();
    let [f11, f12, f13, f21, f22, f23] = PEREZ[bin];
    let around_sun = (f11 + f12 * brightness + f13 * zenith).max(0.0);
    let along_horizon = f21 + f22 * brightness + f23 * zenith;
    let circumsolar = light.diffuse * around_sun * facing / light.sun.up.max(PEREZ_FLOOR);
    let isotropic = light.diffuse * (1.0 - around_sun) * surface.sky_view;
    let horizon = light.diffuse * along_horizon * surface.sin_tilt;
    if circumsolar + isotropic + horizon < 0.0 { (0.0, 0.0, 0.0) } else { (circumsolar, isotropic, horizon) }
}

/// Edges between the bins of sky clearness ε.
const PEREZ_BINS: [f64; 7] = [1.065, 1.23, 1.5, 1.95, 2.8, 4.5, 6.2];
/// Rows of f11 f12 f13 f21 f22 f23 by bin, overcast first.
const PEREZ: [[f64; 6]; 8] = [
    [-0.008, 0.588, -0.062, -0.060, 0.072, -0.022],
    [0.130, 0.683, -0.151, -0.019, 0.066, -0.029],
    [0.330, 0.487, -0.221, 0.055, -0.064, -0.026],
    [0.568, 0.187, -0.295, 0.109, -0.152, -0.014],
    [0.873, -0.392, -0.362, 0.226, -0.462, 0.001],
    [1.132, -1.237, -0.412, 0.288, -0.823, 0.056],
    [1.060, -1.600, -0.359, 0.264, -1.127, 0.131],
    [0.678, -0.327, -0.250, 0.156, -1.377, 0.251],
];

#[cfg(test)]
mod tests {
    use super::*;

    fn light(zenith: f64, diffuse: f64) -> Sunlight {
        let sun = Direction::of_sky(Angle::from_si(zenith.to_radians()), Angle::from_si(3.0));
        let beam_normal = 500.0;
        let global = diffuse + beam_normal * sun.up.max(0.0);
        Sunlight { global, beam_normal, diffuse, extraterrestrial_normal: 1367.0, sun }
    }

    #[test]
    fn a_level_plane_receives_what_the_file_says() {
        let surface = Surface::new(Angle::from_si(0.0), Angle::from_si(0.0));
        let sunlight = light(40.0, 120.0);
        for model in [SkyModel::Isotropic, SkyModel::HayDavies, SkyModel::Perez] {
            let got = on_plane(model, &sunlight, &surface, 0.2);
            assert!((got.total() - sunlight.global).abs() < 1e-9, "{model:?}");
        }
    }

    #[test]
    fn below_the_horizon_only_the_sky_and_the_ground_shine() {
        let surface = Surface::new(Angle::from_si(1.0), Angle::from_si(3.0));
        for model in [SkyModel::Isotropic, SkyModel::HayDavies, SkyModel::Perez] {
            let got = on_plane(model, &light(90.4, 5.0), &surface, 0.2);
            assert!(got.beam == 0.0 && got.circumsolar == 0.0 && got.horizon == 0.0);
        }
    }

    #[test]
    fn no_diffuse_light_gives_no_sky_part() {
        let surface = Surface::new(Angle::from_si(0.8), Angle::from_si(3.0));
        for model in [SkyModel::Isotropic, SkyModel::HayDavies, SkyModel::Perez] {
            let got = on_plane(model, &light(60.0, 0.0), &surface, 0.2);
            assert!(got.circumsolar == 0.0 && got.sky_isotropic == 0.0 && got.horizon == 0.0 && got.beam > 0.0);
        }
    }
}
