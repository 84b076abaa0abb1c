//! The same plant by the plainest scheme there is, written apart from the program: explicit steps of fixed length, the
//! controller asked at each, inversions averaged away pair by pair. Plain numbers in SI.

use sunharp::units::si::Dimension;
use sunharp::year::{Auxiliary, Conditions, Exchange, Plant};

const WATER: f64 = 4186.0;

/// Energies in J, times in s.
#[derive(Debug, Default)]
pub struct Totals {
    pub load: f64,
    pub drawn: f64,
    pub auxiliary: f64,
    pub shortage: f64,
    pub into_tank: f64,
    pub tank_loss: f64,
    pub pipe_loss: f64,
    pub pump_time: f64,
}

/// Runs the hours in steps of `step` seconds.
pub fn run(plant: &Plant, hours: &[Conditions], step: f64) -> Totals {
    let (collector, circuit, control) = (&plant.collector, &plant.circuit, &plant.control);
    let area = collector.area.si();
    let (gain, loss, removal) = (collector.optical_gain, collector.loss.si(), collector.heat_removal_factor);
    let c = circuit.capacity_rate;
    let (hot, cold) = ((-circuit.hot_pipe.si() / c).exp(), (-circuit.cold_pipe.si() / c).exp());
    let n = plant.tank.layers;
    let layer = plant.tank.volume.si() * 1000.0 * WATER / n as f64;
    let section = plant.tank.volume.si() / plant.tank.height.si();
    let link = plant.tank.vertical_conductivity.si() * section * n as f64 / plant.tank.height.si();
    let around = plant.tank.surroundings.si();
    let tap = plant.tap.si();
    let mut t = vec![plant.tank.start.si(); n];
    let mut tc = hours[0].air;
    let (mut pump, mut locked, mut heating) = (false, false, false);
    let mut sum = Totals::default();
    for hour in hours {
        let mut left = 3600.0_f64;
        while left > 1e-6 {
            let h = step.min(left);
            left -= h;
            let (top, bottom) = (t[0], t[n - 1]);
            locked = if locked { top >= control.reset.si() } else { top >= control.limit.si() };
            let over = tc - bottom;
            pump = !locked && if pump { over >= control.stop.si() } else { over >= control.start.si() };
            let sun = gain * hour.irradiance;
            let mut flow = vec![0.0; n];
            let mut circulation = 0.0;
            if pump {
                let back = hour.air + (tc - hour.air) * hot;
                let (heat, out) = match circuit.exchange {
                    Exchange::Direct => (c * (back - bottom), bottom),
                    Exchange::Coil { effectiveness } => {
                        let heat = effectiveness * c * (back - bottom);
                        (heat, back - heat / c)
                    }
                    Exchange::Plate { effectiveness, storage_rate } => {
                        let heat = effectiveness * c.min(storage_rate) * (back - bottom);
                        (heat, back - heat / c)
                    }
                };
                let inlet = hour.air + (out - hour.air) * cold;
                match circuit.exchange {
                    Exchange::Direct => circulation = c,
                    Exchange::Plate { storage_rate, .. } => circulation = storage_rate,
                    Exchange::Coil { .. } => flow[n - 1] += heat,
                }
                if circulation > 0.0 {
                    flow[0] += circulation * bottom + heat;
                    flow[n - 1] -= circulation * bottom;
                }
                sum.into_tank += heat * h;
                sum.pipe_loss += c * (tc - back + out - inlet) * h;
                sum.pump_time += h;
                let rate = area * (sun - loss * (inlet - hour.air)) - c * (tc - inlet);
                tc += rate * h / collector.capacity.si();
            } else {
                tc += area / removal * (sun - loss * (tc - hour.air)) * h / collector.capacity.si();
            }
            let wanted = hour.draw * WATER;
            let draw = if top > tap { wanted * (tap - hour.mains) / (top - hour.mains) } else { wanted };
            let lacking = draw * (tap - top).max(0.0) * h;
            sum.load += wanted * (tap - hour.mains) * h;
            sum.drawn += draw * (top - hour.mains) * h;
            flow[0] -= draw * top;
            flow[n - 1] += draw * hour.mains;
            match plant.auxiliary {
                Auxiliary::None => sum.shortage += lacking,
                Auxiliary::Inline => sum.auxiliary += lacking,
                Auxiliary::Element { layer, set, deadband, power } => {
                    sum.shortage += lacking;
                    let level = set.si() - if heating { 0.0 } else { deadband.si() };
                    heating = t[layer] < level;
                    if heating {
                        flow[layer] += power.si();
                        sum.auxiliary += power.si() * h;
                    }
                }
            }
            let net = draw - circulation;
            for i in 0..n {
                flow[i] -= plant.tank.loss.si() / n as f64 * (t[i] - around);
                sum.tank_loss += plant.tank.loss.si() / n as f64 * (t[i] - around) * h;
                if i + 1 < n {
                    let up = link * (t[i + 1] - t[i]) + net * if net > 0.0 { t[i + 1] } else { t[i] };
                    flow[i] += up;
                    flow[i + 1] -= up;
                }
            }
            for i in 0..n {
                t[i] += flow[i] * h / layer;
            }
            mix(&mut t);
        }
    }
    sum
}

/// Averages the first inversion from the top with all it reaches, until none is left.
fn mix(t: &mut [f64]) {
    while let Some(at) = (1..t.len()).find(|&i| t[i] > t[i - 1] + 1e-12) {
        let (mut from, mut to) = (at - 1, at);
        loop {
            let mean = t[from..=to].iter().sum::<f64>() / (to - from + 1) as f64;
            t[from..=to].fill(mean);
            if from > 0 && t[from - 1] < mean - 1e-12 {
                from -= 1;
            } else if to + 1 < t.len() && t[to + 1] > mean + 1e-12 {
                to += 1;
            } else {
                break;
            }
        }
    }
}
