//! What is booked of a stretch of time: energies, times, peaks.
//!
//! Numbers inside, typed quantities outside.

use super::simulation::State;
use crate::units::si::{Dimension, Energy, Temperature, Time};

/// What a plant did in a stretch of time.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Tally {
    pub(super) load: f64,
    pub(super) drawn: f64,
    pub(super) inline: f64,
    pub(super) element: f64,
    pub(super) shortage: f64,
    pub(super) into_tank: f64,
    pub(super) tank_loss: f64,
    pub(super) pipe_loss: f64,
    pub(super) collector_gain: f64,
    pub(super) pump_time: f64,
    pub(super) pump_energy: f64,
    pub(super) starts: u32,
    pub(super) locked_time: f64,
    pub(super) steam_time: f64,
    pub(super) top_hot_time: f64,
    pub(super) all_hot_time: f64,
    pub(super) boiling_time: f64,
    pub(super) growth_time: f64,
    pub(super) peak_tank: f64,
    pub(super) peak_collector: f64,
    pub(super) steps: u32,
}

impl Tally {
    /// Nothing booked yet; the peaks begin with where the plant stands.
    pub(super) fn starting(state: &State) -> Self {
        Self { peak_tank: state.top(), peak_collector: state.collector, ..Self::default() }
    }

    /// Adds what followed.
    pub fn add(&mut self, more: &Self) {
        self.load += more.load;
        self.drawn += more.drawn;
        self.inline += more.inline;
        self.element += more.element;
        self.shortage += more.shortage;
        self.into_tank += more.into_tank;
        self.tank_loss += more.tank_loss;
        self.pipe_loss += more.pipe_loss;
        self.collector_gain += more.collector_gain;
        self.pump_time += more.pump_time;
        self.pump_energy += more.pump_energy;
        self.starts += more.starts;
        self.locked_time += more.locked_time;
        self.steam_time += more.steam_time;
        self.top_hot_time += more.top_hot_time;
        self.all_hot_time += more.all_hot_time;
        self.boiling_time += more.boiling_time;
        self.growth_time += more.growth_time;
        self.peak_tank = self.peak_tank.max(more.peak_tank);
        self.peak_collector = self.peak_collector.max(more.peak_collector);
        self.steps += more.steps;
    }

    /// Heat wanted: the mixed water from mains to tap temperature.
    pub fn load(&self) -> Energy {
        Energy::from_si(self.load)
    }

    /// Heat that the draw took out of the tank.
    pub fn drawn(&self) -> Energy {
        Energy::from_si(self.drawn)
    }

    /// Purchased heat: of the inline heater or the element.
    pub fn auxiliary(&self) -> Energy {
        Energy::from_si(self.inline + self.element)
    }

    /// Heat that the draw lacked and nobody gave.
    pub fn shortage(&self) -> Energy {
        Energy::from_si(self.shortage)
    }

    /// Heat of the loop into the tank, less what it took out of it.
    pub fn into_tank(&self) -> Energy {
        Energy::from_si(self.into_tank)
    }

    /// Heat from the tank to its surroundings; negative when they are warmer.
    pub fn tank_loss(&self) -> Energy {
        Energy::from_si(self.tank_loss)
    }

    /// Heat of both pipes to the outside air.
    pub fn pipe_loss(&self) -> Energy {
        Energy::from_si(self.pipe_loss)
    }

    /// Sun caught less heat lost by the collector, with and without flow.
    pub fn collector_gain(&self) -> Energy {
        Energy::from_si(self.collector_gain)
    }

    /// How long the pump ran.
    pub fn pump_time(&self) -> Time {
        Time::from_si(self.pump_time)
    }

    /// Electricity of the pump.
    pub fn pump_energy(&self) -> Energy {
        Energy::from_si(self.pump_energy)
    }

    /// How often the pump started.
    pub fn starts(&self) -> u32 {
        self.starts
    }

    /// How long a lock, of the full tank or of the hot collector, kept the pump from a collector that was hot enough to
    /// start it.
    pub fn locked_time(&self) -> Time {
        Time::from_si(self.locked_time)
    }

    /// How long the collector's outlet stood at 100 °C or more: steam is possible. The linear loss makes it rough.
    pub fn steam_time(&self) -> Time {
        Time::from_si(self.steam_time)
    }

    /// How long the highest layer stood at 60 °C or more.
    pub fn top_hot_time(&self) -> Time {
        Time::from_si(self.top_hot_time)
    }

    /// How long every layer stood at 60 °C or more.
    pub fn all_hot_time(&self) -> Time {
        Time::from_si(self.all_hot_time)
    }

    /// How long the highest layer stood at 100 °C or more.
    pub fn boiling_time(&self) -> Time {
        Time::from_si(self.boiling_time)
    }

    /// How long any layer lay between 25 and 45 °C, where legionella grows.
    pub fn growth_time(&self) -> Time {
        Time::from_si(self.growth_time)
    }

    /// Hottest that the highest layer became.
    pub fn peak_tank(&self) -> Temperature {
        Temperature::from_si(self.peak_tank)
    }

    /// Hottest that the collector's outlet became. The plate balance judges stagnation, not this linear one.
    pub fn peak_collector(&self) -> Temperature {
        Temperature::from_si(self.peak_collector)
    }

    /// Steps of the simulation.
    pub fn steps(&self) -> u32 {
        self.steps
    }

    /// Solar fraction f = 1 − (auxiliary + shortage)/load; none without a load. With an element in the tank it bears
    /// all losses of the tank and can be negative.
    pub fn solar_fraction(&self) -> Option<f64> {
        (self.load > 0.0).then(|| 1.0 - self.lacking() / self.load)
    }

    /// Auxiliary and shortage, J.
    pub(super) fn lacking(&self) -> f64 {
        self.inline + self.element + self.shortage
    }
}
