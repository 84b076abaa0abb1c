//! Heat transfer from a round tube to the liquid inside.
//!
//! Friction does not live here: see `pipe`.

/// Upper end of laminar flow.
const LAMINAR_END: f64 = 2300.0;
/// Lower end of turbulent flow.
const TURBULENT_START: f64 = 4000.0;

/// What flows, in pure numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TubeFlow {
    /// Re on the bore.
    pub reynolds: f64,
    /// Pr of the liquid.
    pub prandtl: f64,
    /// Bore over heated length D_i/L.
    pub bore_over_length: f64,
}

/// Mean Nusselt number on the bore of a uniformly heated tube.
///
/// Re ≤ 2300: Nu = (4.354³ + 0.6³ + (1.953 Gz^⅓ − 0.6)³)^⅓, Gz = Re Pr D/L, the bracket not below 0 (VDI Heat Atlas
/// G1, from memory). Re ≥ 4000: Gnielinski 1976 with f = (0.790 ln Re − 1.64)⁻² and the entrance factor
/// 1 + (D/L)^⅔, to 1e6, Pr 0.5 to 2000. Between, linear in Re (Gnielinski 2013, from memory): there the flow itself is
/// undecided. No correction for wall viscosity or free convection.
pub fn nusselt(flow: TubeFlow) -> f64 {
    let TubeFlow { reynolds, .. } = flow;
    if reynolds <= LAMINAR_END {
        return laminar(flow);
    }
    if reynolds >= TURBULENT_START {
        return turbulent(flow);
    }
    let low = laminar(TubeFlow { reynolds: LAMINAR_END, ..flow });
    let high = turbulent(TubeFlow { reynolds: TURBULENT_START, ..flow });
    low + (high - low) * (reynolds - LAMINAR_END) / (TURBULENT_START - LAMINAR_END)
}

fn laminar(flow: TubeFlow) -> f64 {
    let graetz = flow.reynolds * flow.prandtl * flow.bore_over_length;
    let entrance = (1.953 * graetz.cbrt() - 0.6).max(0.0);
    (4.354_f64.powi(3) + 0.6_f64.powi(3) + entrance.powi(3)).cbrt()
}

fn turbulent(flow: TubeFlow) -> f64 {
    let friction = (0.790 * flow.reynolds.ln() - 1.64).powi(-2) / 8.0;
    let long = friction * (flow.reynolds - 1000.0) * flow.prandtl
        / (1.0 + 12.7 * friction.sqrt() * (flow.prandtl.cbrt().powi(2) - 1.0));
    long * (1.0 + flow.bore_over_length.cbrt().powi(2))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_laminar_tube_reaches_the_constant_flux_value() {
        let nu = nusselt(TubeFlow { reynolds: 100.0, prandtl: 5.0, bore_over_length: 1e-9 });
        assert!((nu - 4.36).abs() < 0.02);
    }

    #[test]
    fn the_three_ranges_join_without_a_step() {
        let at = |reynolds: f64| nusselt(TubeFlow { reynolds, prandtl: 5.0, bore_over_length: 0.005 });
        for seam in [LAMINAR_END, TURBULENT_START] {
            assert!((at(seam * (1.0 + 1e-9)) - at(seam * (1.0 - 1e-9))).abs() < 1e-4);
        }
        assert!(at(4000.0) > at(3000.0) && at(3000.0) > at(2300.0));
    }
}
