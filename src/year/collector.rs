//! The collector's one heat capacity in closed form, with and without flow.
//!
//! Plain numbers in SI; excess means collector over outside air, K.

use super::conditions::Conditions;
use super::plant::{Circuit, Collector, Exchange};
use crate::units::si::Dimension;

/// The collector with its loop, every number that stays constant through a run.
#[derive(Clone, Copy, Debug)]
pub(super) struct Loop {
    /// A, m².
    area: f64,
    /// F_R(τα)_n.
    gain: f64,
    /// F_R U_L, W/(m²·K).
    loss: f64,
    /// 1/F_R.
    still: f64,
    /// C_c, J/K.
    pub capacity: f64,
    /// C, W/K.
    rate: f64,
    /// Share of the liquid's excess left after the hot pipe, exp(−UA/C).
    hot: f64,
    /// The same of the cold pipe.
    cold: f64,
    /// ε C_min/C: share of the difference to the lowest layer that is given up.
    share: f64,
    /// ṁ c_p of the tank's water through it; 0 with a coil, W/K.
    pub circulation: f64,
    /// Rise of that water over the heat given to it, K/W; 0 with a coil.
    rise: f64,
    /// C − A F_R U_L, W/K.
    kept: f64,
    /// Share of the lowest layer's excess that comes back to the collector.
    offset: f64,
    /// 1/\[C − (C − A F_R U_L) e_c (1 − ε) e_h\], K/W.
    own: f64,
    /// Rates of the approach with and without flow, 1/s.
    flowing: f64,
    standing: f64,
}

/// An exponential approach of the excess: d/dt = −rate (excess − rest).
#[derive(Clone, Copy, Debug)]
pub(super) struct Approach {
    /// Where it goes, K.
    pub rest: f64,
    /// 1/s.
    pub rate: f64,
}

/// Heat that the running loop moves at a mean excess, W.
#[derive(Clone, Copy, Debug)]
pub(super) struct Running {
    /// Sun less loss of the collector.
    pub gained: f64,
    /// Into the tank.
    pub into_tank: f64,
    /// Out of both pipes.
    pub pipes: f64,
    /// Temperature at which the tank's water comes back, K; that of the lowest layer with a coil.
    pub inlet: f64,
}

impl Approach {
    /// Share of the way to rest that is made in a time.
    pub fn faded(&self, seconds: f64) -> f64 {
        -(-self.rate * seconds).exp_m1()
    }

    /// Mean excess over a time in which the share `faded` of the way is made, and the excess at its end.
    pub fn mean_and_end(&self, excess: f64, faded: f64, seconds: f64) -> (f64, f64) {
        let made = (excess - self.rest) * faded;
        (self.rest + made / (self.rate * seconds), excess - made)
    }

    /// Time until the excess crosses a level; infinite for a level that is not on its way.
    pub fn crossing(&self, excess: f64, level: f64) -> f64 {
        if (excess - level) * (self.rest - level) < 0.0 { self.time_to(excess, level) } else { f64::INFINITY }
    }

    /// Time until the excess is `level`, for a level on its way.
    fn time_to(&self, excess: f64, level: f64) -> f64 {
        ((excess - self.rest) / (level - self.rest)).ln() / self.rate
    }

    /// Time spent at or above a level on the way from `excess` to `end`.
    pub fn time_above(&self, level: f64, excess: f64, end: f64, seconds: f64) -> f64 {
        match (excess >= level, end >= level) {
            (true, true) => seconds,
            (false, false) => 0.0,
            (true, false) => self.time_to(excess, level).min(seconds),
            (false, true) => (seconds - self.time_to(excess, level)).max(0.0),
        }
    }
}

impl Loop {
    pub fn new(collector: &Collector, circuit: &Circuit) -> Self {
        let rate = circuit.capacity_rate;
        let (share, circulation) = match circuit.exchange {
            Exchange::Direct => (1.0, rate),
            Exchange::Coil { effectiveness } => (effectiveness, 0.0),
            Exchange::Plate { effectiveness, storage_rate } => {
                (effectiveness * rate.min(storage_rate) / rate, storage_rate)
            }
        };
        let (area, loss, capacity) = (collector.area.si(), collector.loss.si(), collector.capacity.si());
        let still = collector.heat_removal_factor.recip();
        let hot = (-circuit.hot_pipe.si() / rate).exp();
        let cold = (-circuit.cold_pipe.si() / rate).exp();
        let kept = rate - area * loss;
        let own = rate - kept * cold * (1.0 - share) * hot;
        Self {
            area,
            gain: collector.optical_gain,
            loss,
            still,
            capacity,
            rate,
            hot,
            cold,
            share,
            circulation,
            rise: if circulation > 0.0 { circulation.recip() } else { 0.0 },
            kept,
            offset: cold * share,
            own: own.recip(),
            flowing: own / capacity,
            standing: area * still * loss / capacity,
        }
    }

    /// W/K between the loop and the lowest layer.
    pub fn coil_rate(&self) -> f64 {
        if self.circulation > 0.0 { 0.0 } else { self.share * self.rate }
    }

    /// Without flow: C_c dT_c/dt = (A/F_R)\[S − F_R U_L (T_c − T_a)\].
    pub fn still(&self, conditions: &Conditions) -> Approach {
        Approach { rest: self.gain * conditions.irradiance / self.loss, rate: self.standing }
    }

    /// With flow: C_c dT_c/dt = A\[S − F_R U_L (T_ci − T_a)\] − C (T_c − T_ci), the lowest layer held at `lowest`, K.
    pub fn flowing(&self, conditions: &Conditions, lowest: f64) -> Approach {
        let sun = self.area * self.gain * conditions.irradiance;
        let returned = self.offset * (lowest - conditions.air);
        Approach { rest: (sun + self.kept * returned) * self.own, rate: self.flowing }
    }

    /// Heat moved at a mean excess of the outlet with flow.
    pub fn running(&self, conditions: &Conditions, lowest: f64, excess: f64) -> Running {
        let tank = lowest - conditions.air;
        let back = self.hot * excess;
        let given = self.share * (back - tank);
        let out = back - given;
        let inlet = self.cold * out;
        let into_tank = self.rate * given;
        Running {
            gained: self.area * (self.gain * conditions.irradiance - self.loss * inlet),
            into_tank,
            pipes: self.rate * ((excess - back) + (out - inlet)),
            inlet: lowest + into_tank * self.rise,
        }
    }

    /// Sun less loss at a mean excess without flow, W.
    pub fn gained_still(&self, conditions: &Conditions, excess: f64) -> f64 {
        self.area * self.still * (self.gain * conditions.irradiance - self.loss * excess)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_approach_spends_its_time_on_both_sides_of_a_level() {
        let approach = Approach { rest: 40.0, rate: 1e-3 };
        let after = |seconds: f64| approach.mean_and_end(10.0, approach.faded(seconds), seconds).1;
        let (mean, end) = approach.mean_and_end(10.0, approach.faded(1200.0), 1200.0);
        let steps = 12_000;
        let sum: f64 = (0..steps).map(|i| after((f64::from(i) + 0.5) * 0.1)).sum();
        assert!((sum / f64::from(steps) - mean).abs() < 1e-7);
        let above = approach.time_above(20.0, 10.0, end, 1200.0);
        assert!((after(1200.0 - above) - 20.0).abs() < 1e-9);
        assert!((approach.crossing(10.0, 20.0) + above - 1200.0).abs() < 1e-9);
        assert!(approach.crossing(10.0, 45.0).is_infinite() && approach.crossing(10.0, 5.0).is_infinite());
    }
}
