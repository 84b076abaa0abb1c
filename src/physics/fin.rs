//! The absorber plate as a fin on a tube: fin efficiency, collector efficiency factor, flow factor.
//!
//! Lives here: formulas for one strip of sheet and its riser, in SI numbers. The heat transfer inside the tube lives in
//! `tube`, the solder line in `fillet`, the whole collector in `collector`.

use std::f64::consts::PI;

/// The sheet that carries heat to the tube.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sheet {
    /// Conductivity k, W/(m·K).
    pub conductivity: f64,
    /// Thickness δ, m.
    pub thickness: f64,
}

impl Sheet {
    /// Fin parameter m = √(U_L/(k δ)), 1/m, for a loss coefficient U_L in W/(m²·K).
    pub fn parameter(&self, loss: f64) -> f64 {
        (loss / (self.conductivity * self.thickness)).sqrt()
    }
}

/// Efficiency of a straight fin F = tanh(x)/x, x = m·l with l the free length; 1 for no length.
///
/// Hottel & Whillier 1958, Bliss 1959, as in Duffie & Beckman 6.5 (from memory).
pub fn fin_efficiency(x: f64) -> f64 {
    if x.abs() < 1e-6 { 1.0 } else { x.tanh() / x }
}

/// The strip of sheet that one riser serves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strip {
    /// Width held at the tube's temperature B, m.
    pub base: f64,
    /// Free length of the fin left and right of the base, m.
    pub fins: [f64; 2],
}

impl Strip {
    /// Width of the whole strip, m.
    pub fn width(&self) -> f64 {
        self.base + self.fins[0] + self.fins[1]
    }

    /// Collector efficiency factor of the strip.
    ///
    /// F′ = (1/U_L)/(W \[1/(U_L (B + l₁F₁ + l₂F₂)) + R\]); for equal fins the textbook form with
    /// B + (W − B) F (Duffie & Beckman 6.5.18, from memory). `root` is R, m·K/W, from the fin's root to the liquid.
    pub fn efficiency_factor(&self, sheet: &Sheet, loss: f64, root: f64) -> f64 {
        let m = sheet.parameter(loss);
        let gathered: f64 = self.base + self.fins.iter().map(|&l| l * fin_efficiency(m * l)).sum::<f64>();
        (loss * self.width() * ((loss * gathered).recip() + root)).recip()
    }
}

/// Conductance per metre of a solder line, W/(m·K), from its parts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BondLine {
    /// Conductivity of the filler k, W/(m·K).
    pub conductivity: f64,
    /// Width b, m.
    pub width: f64,
    /// Mean thickness γ, m.
    pub thickness: f64,
    /// Share of the length that is bonded φ_c, 0 to 1.
    pub contact: f64,
}

impl BondLine {
    /// C_b = k b φ_c/γ (Duffie & Beckman 6.5, from memory).
    pub fn conductance(&self) -> f64 {
        self.conductivity * self.width * self.contact / self.thickness
    }
}

/// A round tube fed with heat along one line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TubeWall {
    /// Outer diameter D, m.
    pub outer_diameter: f64,
    /// Bore D_i, m.
    pub bore: f64,
    /// Conductivity of the wall, W/(m·K).
    pub conductivity: f64,
    /// Width of the bond b, m.
    pub bond_width: f64,
}

impl TubeWall {
    /// Share of the inner surface that works, φ, when the wall carries the heat round from the bond.
    ///
    /// p = π(D + D_i)/2, s = (p − b)/2, x = s √(h/(k (D − D_i)/2)), φ = (b + (p − b) tanh(x)/x)/p with b cut at p.
    /// Own application of the straight fin to the wall; `coefficient` is h in W/(m²·K).
    pub fn effectiveness(&self, coefficient: f64) -> f64 {
        let perimeter = PI * 0.5 * (self.outer_diameter + self.bore);
        let fed = self.bond_width.min(perimeter);
        let wall = 0.5 * (self.outer_diameter - self.bore);
        let x = 0.5 * (perimeter - fed) * (coefficient / (self.conductivity * wall)).sqrt();
        (fed + (perimeter - fed) * fin_efficiency(x)) / perimeter
    }
}

/// Flow factor F″ = κ (1 − e^(−1/κ)), κ = ṁ c_p/(A U_L F′) (Duffie & Beckman 6.7, from memory); κ > 0.
pub fn flow_factor(capacity_rate: f64) -> f64 {
    -capacity_rate * (-capacity_rate.recip()).exp_m1()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Duffie & Beckman example 6.5.1: m 6.45, F 0.937, F′ 0.841 (from memory).
    #[test]
    fn the_textbook_fin_example_comes_out() {
        let sheet = Sheet { conductivity: 385.0, thickness: 0.0005 };
        let strip = Strip { base: 0.01, fins: [0.07, 0.07] };
        let root = (PI * 0.01 * 300.0).recip();
        assert!((sheet.parameter(8.0) - 6.45).abs() < 0.01);
        assert!((fin_efficiency(sheet.parameter(8.0) * 0.07) - 0.937).abs() < 0.001);
        assert!((strip.efficiency_factor(&sheet, 8.0, root) - 0.841).abs() < 0.001);
    }

    /// Duffie & Beckman example 6.7.1: F_R = 0.80 at 0.03 kg/s over 2 m² with F′ 0.841, U_L 8 (from memory).
    #[test]
    fn the_textbook_heat_removal_factor_comes_out() {
        let rate = 0.03 * 4190.0 / (2.0 * 8.0 * 0.841);
        assert!((0.841 * flow_factor(rate) - 0.80).abs() < 0.005);
    }

    #[test]
    fn a_fin_without_length_is_perfect_and_the_limit_has_no_step() {
        assert!((fin_efficiency(0.0) - 1.0).abs() < 1e-15);
        assert!((fin_efficiency(1.1e-6) - 1.0).abs() < 1e-11);
    }

    #[test]
    fn a_wall_fed_all_round_works_all_round() {
        let tube = TubeWall { outer_diameter: 0.015, bore: 0.0136, conductivity: 340.0, bond_width: 1.0 };
        assert!((tube.effectiveness(300.0) - 1.0).abs() < 1e-12);
        assert!(TubeWall { bond_width: 0.006, ..tube }.effectiveness(300.0) < 1.0);
    }
}
