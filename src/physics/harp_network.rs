//! Flows in the risers of a harp: friction, header momentum and the lift of warm risers in balance.
//!
//! Lives here: the network in SI numbers. What the flows do to the heat lives in `collector`.

use super::domain::{DomainError, positive};
use super::hydrostatics::STANDARD_GRAVITY;
use super::linear;
use super::pipe::{DRAWN_TUBE_ROUGHNESS, friction_factor, mean_velocity};

mod header;

use header::slope;

/// Most Newton steps.
const MOST_STEPS: usize = 80;
/// Most halvings of one step.
const MOST_HALVINGS: usize = 30;
/// Parts in which the lift is brought in when it cannot be met at once.
const WALK: usize = 20;
/// Steady when no share moves by more than this: a Newton step leaves about the square of its own length, so the shares
/// are then exact to some 1e-13.
const STEADY: f64 = 1e-7;

/// A harp of equal risers between two equal headers. Lengths in m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HarpNetwork {
    /// Number of risers n.
    pub riser_count: usize,
    /// Bore of a riser.
    pub riser_bore: f64,
    /// Length of a riser.
    pub riser_length: f64,
    /// Bore of the headers.
    pub header_bore: f64,
    /// Length of header between two risers.
    pub header_segment: f64,
    /// Loss coefficient K of a riser on its own velocity head.
    pub riser_loss: f64,
    /// Momentum factor of the dividing header.
    pub dividing_momentum: f64,
    /// Momentum factor of the combining header.
    pub combining_momentum: f64,
    /// Whether both headers flow the same way (diagonal) or opposite ways (same side).
    pub same_direction: bool,
    /// Height by which a riser's end lies above its start.
    pub rise: f64,
    /// Density ρ, kg/m³.
    pub density: f64,
    /// Viscosity μ, Pa·s.
    pub viscosity: f64,
    /// Whole flow ṁ, kg/s.
    pub mass_flow: f64,
}

/// Flows and pressure drop of a harp.
#[derive(Clone, Debug, PartialEq)]
pub struct HarpBalance {
    /// Flow of each riser over the mean, numbered from the inlet end.
    pub relative_flows: Vec<f64>,
    /// Pressure from before the first junction to after the last, without the static column, Pa.
    pub pressure_drop: f64,
    /// Mean of the risers' friction and fittings, Pa.
    pub riser_drop: f64,
}

impl HarpBalance {
    /// Largest flow over smallest; infinite when a riser stands, negative when one flows backwards.
    pub fn ratio(&self) -> f64 {
        let most = self.relative_flows.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let least = self.relative_flows.iter().copied().fold(f64::INFINITY, f64::min);
        most / least
    }

    /// Largest departure from the mean flow, as a share of it.
    pub fn largest_deviation(&self) -> f64 {
        self.relative_flows.iter().map(|flow| (flow - 1.0).abs()).fold(0.0, f64::max)
    }

    /// Standard deviation of the flows (of the population), as a share of the mean.
    pub fn standard_deviation(&self) -> f64 {
        let squares: f64 = self.relative_flows.iter().map(|flow| (flow - 1.0).powi(2)).sum();
        (squares / self.relative_flows.len() as f64).sqrt()
    }

    /// Whether a riser flows backwards.
    pub fn reversed(&self) -> bool {
        self.relative_flows.iter().any(|flow| *flow < 0.0)
    }
}

/// A straight line of pipe: loss coefficient of its own, friction over its length.
#[derive(Clone, Copy)]
struct Line {
    bore: f64,
    length: f64,
    loss: f64,
}

impl HarpNetwork {
    /// Solves shares of all risers and the harp's pressure drop by damped Newton steps from equal flows.
    ///
    /// Line loss (f L/D + K) ρ v²/2, f of Churchill for drawn tube. At junction i the dividing header's pressure rises
    /// by θ_d ρ/2 (V_in² − V_out²), the combining header's falls by θ_c ρ/2 (U_out² − U_in²); a riser sees the mean of
    /// before and after its junctions. No header before the first or after the last riser. In each riser (ρ − ρ_i) g ·
    /// rise lifts the flow, with ρ_i = `riser_density`(riser, its flow in kg/s): give the mean density for an
    /// isothermal harp. After Dunkle & Davey 1970, Bajura & Jones 1976, Wang & Wu 1990; momentum factors and tee losses
    /// are not verified: read deviations as good to about a factor 1.5. When equal flows are too far off, the lift is
    /// brought in by twentieths. A harp that loses heat may have several splits or none that lasts, and fails.
    pub fn solve(&self, riser_density: impl Fn(usize, f64) -> f64) -> Result<HarpBalance, DomainError> {
        self.check()?;
        let equal = (self.riser_count as f64).recip();
        let lift = |riser: usize, share: f64| {
            (self.density - riser_density(riser, share * self.mass_flow)) * STANDARD_GRAVITY * self.rise
        };
        let scale = self.riser_drop_at(equal) + self.header_head() + lift(0, equal).abs();
        let mut start = vec![equal; self.riser_count];
        start.push(self.riser_drop_at(equal) / scale);
        let solution = match self.newton(start.clone(), scale, &lift) {
            Ok(solution) => solution,
            Err(_) => (0..=WALK).try_fold(start, |from, part| {
                let weight = part as f64 / WALK as f64;
                self.newton(from, scale, &|riser, share| weight * lift(riser, share))
            })?,
        };
        Ok(self.balance(&solution, scale))
    }

    /// Damped Newton steps from a start: shares of the risers, then the harp's pressure drop over `scale`.
    fn newton(&self, start: Vec<f64>, scale: f64, lift: &impl Fn(usize, f64) -> f64) -> Result<Vec<f64>, DomainError> {
        let mut unknown = start;
        let mut here = self.residual(&unknown, scale, lift);
        for _ in 0..MOST_STEPS {
            let left = size(&here);
            let failed = DomainError::NotSettled { what: "riser flows", residual: left };
            let step = linear::solve(self.slopes(&unknown, scale, lift), &here).ok_or(failed)?;
            let longest = step[..self.riser_count].iter().map(|part| part.abs()).fold(0.0, f64::max);
            let mut damping = 1.0;
            let shorter = || {
                let tried: Vec<f64> = unknown.iter().zip(&step).map(|(u, s)| u - damping * s).collect();
                let there = self.residual(&tried, scale, lift);
                damping *= 0.5;
                (size(&there) < left || longest < STEADY).then_some((tried, there))
            };
            (unknown, here) = std::iter::repeat_with(shorter).take(MOST_HALVINGS).flatten().next().ok_or(failed)?;
            if longest < STEADY {
                return Ok(unknown);
            }
        }
        Err(DomainError::NotSettled { what: "riser flows", residual: size(&here) })
    }

    fn check(&self) -> Result<(), DomainError> {
        let sizes = [
            ("riser_count", self.riser_count as f64),
            ("riser_bore", self.riser_bore),
            ("riser_length", self.riser_length),
            ("header_bore", self.header_bore),
            ("header_segment", self.header_segment),
            ("density", self.density),
            ("viscosity", self.viscosity),
            ("mass_flow", self.mass_flow),
        ];
        sizes.into_iter().try_for_each(|(field, size)| positive(field, size).map(|_| ()))
    }

    fn riser(&self) -> Line {
        Line { bore: self.riser_bore, length: self.riser_length, loss: self.riser_loss }
    }

    fn segment(&self) -> Line {
        Line { bore: self.header_bore, length: self.header_segment, loss: 0.0 }
    }

    /// Velocity of a share of the whole flow in a bore, m/s.
    fn velocity(&self, share: f64, bore: f64) -> f64 {
        mean_velocity(share * self.mass_flow / self.density, bore)
    }

    /// Pressure lost in a line that carries a share of the whole flow, Pa, with the flow's sign.
    fn drop(&self, line: Line, share: f64) -> f64 {
        let velocity = self.velocity(share, line.bore);
        let reynolds = self.density * velocity.abs() * line.bore / self.viscosity;
        let factor = friction_factor(reynolds, DRAWN_TUBE_ROUGHNESS / line.bore);
        (factor * line.length / line.bore + line.loss) * 0.5 * self.density * velocity * velocity.abs()
    }

    fn riser_drop_at(&self, share: f64) -> f64 {
        self.drop(self.riser(), share)
    }

    /// Velocity head of the whole flow in a header, Pa.
    fn header_head(&self) -> f64 {
        0.5 * self.density * self.velocity(1.0, self.header_bore).powi(2)
    }

    fn residual(&self, unknown: &[f64], scale: f64, lift: &impl Fn(usize, f64) -> f64) -> Vec<f64> {
        let (shares, drop) = self.parts(unknown, scale);
        let (dividing, combining) = (self.dividing(shares), self.combining(shares));
        let mut rows: Vec<f64> = shares
            .iter()
            .enumerate()
            .map(|(i, &share)| {
                let driven = drop + dividing.pressure[i] - combining.pressure[i] + lift(i, share);
                (driven - self.riser_drop_at(share)) / scale
            })
            .collect();
        rows.push(shares.iter().sum::<f64>() - 1.0);
        rows
    }

    fn slopes(&self, unknown: &[f64], scale: f64, lift: &impl Fn(usize, f64) -> f64) -> Vec<Vec<f64>> {
        let (shares, _) = self.parts(unknown, scale);
        let n = shares.len();
        let (dividing, combining) = (self.dividing(shares), self.combining(shares));
        let mut rows: Vec<Vec<f64>> = (0..n)
            .map(|i| {
                let own = slope(shares[i], |share| lift(i, share) - self.riser_drop_at(share));
                let mut row: Vec<f64> =
                    (0..n).map(|k| (dividing.slopes[i][k] - combining.slopes[i][k]) / scale).collect();
                row[i] += own / scale;
                row.push(1.0);
                row
            })
            .collect();
        let mut last = vec![1.0; n];
        last.push(0.0);
        rows.push(last);
        rows
    }

    /// Splits the unknowns into the shares and the harp's pressure drop in Pa.
    fn parts<'a>(&self, unknown: &'a [f64], scale: f64) -> (&'a [f64], f64) {
        let (shares, drop) = unknown.split_at(self.riser_count);
        (shares, drop[0] * scale)
    }

    fn balance(&self, unknown: &[f64], scale: f64) -> HarpBalance {
        let (shares, pressure_drop) = self.parts(unknown, scale);
        let n = shares.len() as f64;
        HarpBalance {
            relative_flows: shares.iter().map(|share| share * n).collect(),
            pressure_drop,
            riser_drop: shares.iter().map(|&share| self.riser_drop_at(share)).sum::<f64>() / n,
        }
    }
}

fn size(rows: &[f64]) -> f64 {
    rows.iter().map(|row| row * row).sum::<f64>().sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    const HARP: HarpNetwork = HarpNetwork {
        riser_count: 10,
        riser_bore: 0.0136,
        riser_length: 1.95,
        header_bore: 0.0202,
        header_segment: 0.12,
        riser_loss: 1.5,
        dividing_momentum: 1.0,
        combining_momentum: 2.0,
        same_direction: true,
        rise: 1.25,
        density: 990.0,
        viscosity: 5.7e-4,
        mass_flow: 0.05,
    };

    fn isothermal(harp: &HarpNetwork) -> HarpBalance {
        harp.solve(|_, _| harp.density).unwrap()
    }

    #[test]
    fn a_huge_header_gives_every_riser_the_same() {
        let flows = isothermal(&HarpNetwork { header_bore: 0.5, ..HARP });
        assert!(flows.largest_deviation() < 1e-4);
        assert!((flows.pressure_drop / flows.riser_drop - 1.0).abs() < 1e-3);
    }

    #[test]
    fn flows_add_up_to_the_whole() {
        for same_direction in [true, false] {
            let flows = isothermal(&HarpNetwork { same_direction, ..HARP });
            assert!((flows.relative_flows.iter().sum::<f64>() - 10.0).abs() < 1e-9);
        }
    }

    /// Laminar friction alone, no momentum, no fittings: turned by half a circle a diagonal harp is the same harp.
    #[test]
    fn a_diagonal_harp_of_pure_friction_is_its_own_mirror_image() {
        let flows = isothermal(&HarpNetwork {
            riser_loss: 0.0,
            dividing_momentum: 0.0,
            combining_momentum: 0.0,
            mass_flow: 0.002,
            ..HARP
        });
        for (one, other) in flows.relative_flows.iter().zip(flows.relative_flows.iter().rev()) {
            assert!((one - other).abs() < 1e-7);
        }
    }

    /// Same side, laminar friction alone: q_i ∝ cosh((n − i + ½) s) with 2 sinh(s/2) = √(2 r), r the resistance of a
    /// header segment over that of a riser (ladder network, own derivation).
    #[test]
    fn a_same_side_harp_of_pure_friction_follows_the_ladder_solution() {
        let harp = HarpNetwork {
            riser_loss: 0.0,
            dividing_momentum: 0.0,
            combining_momentum: 0.0,
            same_direction: false,
            riser_bore: 0.0136,
            header_bore: 0.0136,
            mass_flow: 0.002,
            ..HARP
        };
        let flows = isothermal(&harp).relative_flows;
        let ratio = harp.header_segment / harp.riser_length;
        let s = 2.0 * (0.5 * (2.0 * ratio).sqrt()).asinh();
        let shape: Vec<f64> = (1..=10).map(|i| ((10.5 - f64::from(i)) * s).cosh()).collect();
        let mean = shape.iter().sum::<f64>() / 10.0;
        for (flow, exact) in flows.iter().zip(&shape) {
            assert!((flow - exact / mean).abs() < 1e-4, "{flow} {}", exact / mean);
        }
    }

    #[test]
    fn warm_risers_lift_and_even_the_flow_out() {
        let cold = isothermal(&HARP);
        let warm = HARP.solve(|_, flow| 990.0 - 0.02 / flow.max(1e-4)).unwrap();
        assert!(warm.standard_deviation() < cold.standard_deviation());
    }

    #[test]
    fn a_harp_without_flow_is_refused() {
        assert!(HarpNetwork { mass_flow: 0.0, ..HARP }.solve(|_, _| 990.0).is_err());
        assert!(HarpNetwork { riser_count: 0, ..HARP }.solve(|_, _| 990.0).is_err());
    }
}
