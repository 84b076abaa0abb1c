//! A glazed plate for the rows that need one: the table's own absorptance law, used here and nowhere in the library.

use sunharp::physics::cover;
use sunharp::physics::transposition::PlaneIrradiance;
use sunharp::units::si::{Angle, Dimension};

use super::{Row, degrees, in_degrees};

/// The four-term law of a flat black plate that these rows use; the collector's own law is another.
fn plate_absorptance(at_normal: f64, incidence: Angle) -> f64 {
    let t = in_degrees(incidence).min(80.0);
    at_normal * (1.0 + 2.0345e-3 * t - 1.990e-4 * t.powi(2) + 5.324e-6 * t.powi(3) - 4.799e-8 * t.powi(4))
}

/// A cover over a plate.
struct Glazed {
    index: f64,
    depth: f64,
    absorptance: f64,
}

impl Glazed {
    fn of(row: &Row) -> Self {
        Self { index: row.number("n"), depth: row.number("KL"), absorptance: row.number("alpha_n") }
    }

    /// (τα) = τα/(1 − (1−α)ρ_d), ρ_d the cover's reflectance at 60°; zero from 90° on.
    fn product(&self, incidence: Angle) -> f64 {
        if in_degrees(incidence) >= 90.0 {
            return 0.0;
        }
        let alpha = plate_absorptance(self.absorptance, incidence);
        let back = cover::slab(self.index, self.depth, degrees(60.0)).reflectance;
        cover::slab(self.index, self.depth, incidence).transmittance * alpha / (1.0 - (1.0 - alpha) * back)
    }

    fn absorbed(&self, light: &PlaneIrradiance, tilt: Angle) -> f64 {
        (light.beam + light.circumsolar) * self.product(light.incidence())
            + light.sky_isotropic * self.product(cover::sky_equivalent_angle(tilt))
            + light.ground * self.product(cover::ground_equivalent_angle(tilt))
    }
}

pub fn cover_optics(row: &Row) -> f64 {
    let angle = row.angle("theta_deg");
    let pane = cover::slab(row.number("n"), row.number("KL"), angle);
    match row.quantity.as_str() {
        "tau" => pane.transmittance,
        "rho" => pane.reflectance,
        "alpha" => pane.absorptance,
        "tau_alpha" => Glazed::of(row).product(angle),
        _ => row.unknown(),
    }
}

pub fn absorbed_hour(row: &Row) -> f64 {
    let light = PlaneIrradiance {
        beam: row.number("beam"),
        circumsolar: row.number("circumsolar"),
        sky_isotropic: row.number("iso"),
        horizon: 0.0,
        ground: row.number("ground"),
        incidence_cosine: row.angle("aoi_deg").si().cos(),
    };
    Glazed::of(row).absorbed(&light, row.angle("tilt"))
}

pub fn absorbed_year(row: &Row) -> f64 {
    let year = row.climate().plane(&row.plane(), row.model());
    let glazed = Glazed::of(row);
    year.hours().iter().map(|light| glazed.absorbed(light, row.angle("tilt"))).sum::<f64>() / 1000.0
}
