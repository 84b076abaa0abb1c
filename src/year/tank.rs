//! A tank as a column of equal mixed layers: what flows into each, and how inversions mix away.
//!
//! Plain numbers in SI: this is the inner loop. Layer 0 is at the top. Pumps and draws live in `simulation`.

use super::plant::{MOST_LAYERS, Tank};
use crate::units::si::Dimension;

/// Specific heat of the tank's water at 1 kg/L, J/(kg·K): a round value for 10 to 80 °C.
pub const WATER_HEAT: f64 = 4186.0;
/// Mass of a cubic metre of water, kg, as draws and tanks are counted.
pub const WATER_DENSITY: f64 = 1000.0;

/// What a column conducts and holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Column {
    /// Number of layers, 1 to 40.
    pub layers: usize,
    /// Heat capacity of one layer, J/K.
    pub capacity: f64,
    /// UA of one layer to the surroundings, W/K.
    pub loss: f64,
    /// Conductance between neighbours k A/(H/N), W/K.
    pub link: f64,
    /// Temperature of the surroundings, K.
    pub surroundings: f64,
}

/// What runs through a column and heats it at one moment.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Streams {
    /// ṁ c_p of the draw: in at the bottom, out at the top, W/K.
    pub draw: f64,
    /// Temperature at which the draw is made up, K.
    pub supply: f64,
    /// ṁ c_p of the loop's water: out at the bottom, in at the top, W/K.
    pub circulation: f64,
    /// Temperature at which that comes back, K.
    pub inlet: f64,
    /// Heat of a coil into the lowest layer, W.
    pub coil: f64,
    /// Heat of an element, W.
    pub element: f64,
    /// Layer of the element.
    pub element_layer: usize,
}

impl Column {
    /// The column of a tank.
    pub fn of(tank: &Tank) -> Self {
        let layers = tank.layers as f64;
        let section = tank.volume.si() / tank.height.si();
        Self {
            layers: tank.layers,
            capacity: tank.volume.si() * WATER_DENSITY * WATER_HEAT / layers,
            loss: tank.loss.si() / layers,
            link: tank.vertical_conductivity.si() * section / (tank.height.si() / layers),
            surroundings: tank.surroundings.si(),
        }
    }

    /// Warms the layers `onto` by the heat that flows in `seconds` while the layers stand at `from`.
    ///
    /// Between neighbours the net stream (draw less circulation) carries the temperature of the layer it leaves, and
    /// `link` conducts. Both slices hold at least `layers` numbers.
    pub fn carry(&self, from: &[f64], streams: &Streams, seconds: f64, onto: &mut [f64]) {
        let (from, onto) = (&from[..self.layers], &mut onto[..self.layers]);
        let share = seconds / self.capacity;
        let last = self.layers - 1;
        let (top, lowest) = (from[0], from[last]);
        let upward = streams.draw - streams.circulation;
        let from_below = share * (self.link + upward.max(0.0));
        let from_above = share * (self.link + (-upward).max(0.0));
        let lost = share * self.loss;
        let gained = lost * self.surroundings;
        if last > 0 {
            let given = from_below + from_above + lost;
            for layer in 1..last {
                let neighbours = from_above * from[layer - 1] + from_below * from[layer + 1];
                onto[layer] += gained + neighbours - given * from[layer];
            }
            onto[0] += gained + from_below * from[1] - (from_above + lost) * top;
            onto[last] += gained + from_above * from[last - 1] - (from_below + lost) * lowest;
        } else {
            onto[0] += gained - lost * top;
        }
        onto[0] += share * (streams.circulation * streams.inlet - streams.draw * top);
        onto[last] += share * (streams.draw * streams.supply - streams.circulation * lowest + streams.coil);
        onto[streams.element_layer.min(last)] += share * streams.element;
    }

    /// Heat that the layers lose to the surroundings, W.
    pub fn lost(&self, temperatures: &[f64]) -> f64 {
        let layers = &temperatures[..self.layers];
        self.loss * (layers.iter().sum::<f64>() - layers.len() as f64 * self.surroundings)
    }

    /// Longest explicit step in which no layer exchanges more than `share` of its heat, s, by the stream `carried` through
    /// it and an exchanger of `coil` in it (both W/K), loss and links.
    pub fn step(&self, carried: f64, coil: f64, share: f64) -> f64 {
        share * self.capacity / (carried + coil + self.loss + 2.0 * self.link)
    }
}

/// Mixes away every inversion: layers that are warmer below are averaged with those above until none is left.
///
/// Pool-adjacent-violators on layers of equal mass, top first, at most 40: the result is unique, energy is kept, the
/// cost is one pass.
pub fn settle(temperatures: &mut [f64]) {
    // Looking at every pair, without leaving at the first, costs less: the tank is in order nearly always.
    let inversions = temperatures.windows(2).filter(|pair| pair[0] < pair[1]).count();
    if inversions > 0 {
        pool(temperatures);
    }
}

/// Means of the pools are kept in the front of the slice itself, which no pool outruns, and laid out from its end.
fn pool(temperatures: &mut [f64]) {
    let mut counts = [0_u8; MOST_LAYERS];
    let mut pools = 0;
    for index in 0..temperatures.len() {
        let (mut mean, mut count) = (temperatures[index], 1_u8);
        while pools > 0 && temperatures[pools - 1] < mean {
            pools -= 1;
            let (above, below) = (f64::from(counts[pools]), f64::from(count));
            mean = (above * temperatures[pools] + below * mean) / (above + below);
            count += counts[pools];
        }
        (temperatures[pools], counts[pools]) = (mean, count);
        pools += 1;
    }
    let mut end = temperatures.len();
    for pool in (0..pools).rev() {
        let start = end - usize::from(counts[pool]);
        let mean = temperatures[pool];
        temperatures[start..end].fill(mean);
        end = start;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn settling_keeps_the_energy_and_leaves_no_inversion(layers in prop::collection::vec(275.0..370.0_f64, 1..40)) {
            let mut settled = layers.clone();
            settle(&mut settled);
            let (before, after): (f64, f64) = (layers.iter().sum(), settled.iter().sum());
            prop_assert!((before - after).abs() < 1e-11 * before);
            prop_assert!(settled.windows(2).all(|pair| pair[0] >= pair[1] - 1e-12));
            let again = { let mut again = settled.clone(); settle(&mut again); again };
            prop_assert!(settled.iter().zip(&again).all(|(a, b)| (a - b).abs() < 1e-12 * a));
        }

        #[test]
        fn what_a_layer_loses_another_gains(
            layers in prop::collection::vec(275.0..370.0_f64, 1..40),
            draw in 0.0..500.0_f64,
            circulation in 0.0..500.0_f64,
        ) {
            let column =
                Column { layers: layers.len(), capacity: 1e5, loss: 0.3, link: 2.0, surroundings: 293.0 };
            let streams = Streams {
                draw, circulation, supply: 283.0, inlet: 340.0, coil: 700.0, element: 2000.0, element_layer: 0,
            };
            let mut into = [0.0; MOST_LAYERS];
            // As many seconds as a layer's heat capacity: the rise in kelvin is then the flow in watts.
            column.carry(&layers, &streams, column.capacity, &mut into);
            let lost = column.lost(&layers);
            let (top, bottom) = (layers[0], layers[layers.len() - 1]);
            let brought = draw * (283.0 - top) + circulation * (340.0 - bottom) + 2700.0 - lost;
            prop_assert!((into.iter().sum::<f64>() - brought).abs() < 1e-6);
        }
    }
}
