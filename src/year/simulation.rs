//! The simulation itself: one step, and as many of them as a stretch of constant conditions needs.
//!
//! Explicit midpoint: the tank is taken half a step ahead with the heat flows of the start, inversions are mixed, all
//! heat flows are worked out anew there and carry the tank over the whole step. The collector is exact between two
//! events for a given lowest layer. Nothing is allocated here.

use super::YearError;
use super::collector::{Approach, Loop, Running};
use super::conditions::Conditions;
use super::controller::Controller;
use super::plant::{MOST_LAYERS, Plant, water};
use super::run::Method;
use super::tally::Tally;
use super::tank::{Column, Streams, WATER_HEAT, settle};
use crate::physics::domain::not_negative;
use crate::units::si::{Dimension, Temperature, Time};

/// Shortest step that is made for the sake of an event, s.
const SHORTEST: f64 = 1.0;
/// Shortest step that stability may ask for, s.
const LEAST_STABLE: f64 = 0.1;
/// Share of a layer that may be exchanged in one step.
const COURANT: f64 = 0.6;
/// Share of a layer that the draw may exchange in one of the long steps of rest.
const GENTLE: f64 = 0.2;
/// How far below the start difference a resting collector must settle for long steps, K.
const CLEAR_OF_START: f64 = 5.0;
/// Legionella's growth band, K.
const GROWTH: (f64, f64) = (298.15, 318.15);
/// 60 °C and 100 °C, K.
const SIXTY: f64 = 333.15;
const HUNDRED: f64 = 373.15;

/// Where a plant stands at a moment. Plain numbers in SI.
#[derive(Clone, Debug, PartialEq)]
pub struct State {
    /// Outlet of the collector, K.
    pub collector: f64,
    /// Layers of the tank, highest first, K; beyond `count` unused.
    pub(super) layers: [f64; MOST_LAYERS],
    count: usize,
    /// The pump runs.
    pub pump: bool,
    /// What keeps the pump from running.
    pub locks: Locks,
    /// The element heats.
    pub element: bool,
}

/// What keeps a pump from running.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Locks {
    /// The tank reached its limit.
    pub tank: bool,
    /// The collector is too hot to be started onto.
    pub collector: bool,
}

impl State {
    /// Layers of the tank, highest first, K.
    pub fn layers(&self) -> &[f64] {
        &self.layers[..self.count]
    }

    /// Highest layer, K.
    pub fn top(&self) -> f64 {
        self.layers[0]
    }

    /// Lowest layer, K.
    pub fn lowest(&self) -> f64 {
        self.layers[self.count - 1]
    }
}

/// A plant in motion.
#[derive(Clone, Debug)]
pub struct Simulation {
    circuit: Loop,
    column: Column,
    controller: Controller,
    method: Method,
    tap: f64,
    pump_power: f64,
    state: State,
    half: [f64; MOST_LAYERS],
}

/// What is constant in one stretch.
struct Stretch<'a> {
    conditions: &'a Conditions,
    still: Approach,
    limits: Limits,
    /// ṁ c_p of the mixed water, W/K.
    drawn: f64,
}

/// Longest steps that are stable and good enough, s.
#[derive(Clone, Copy)]
struct Limits {
    /// The pump runs.
    flowing: f64,
    /// It stands but may start.
    still: f64,
    /// It stands and will not start.
    resting: f64,
}

impl Simulation {
    /// A plant at rest, its tank uniform at the start temperature and its collector at that of the air.
    pub fn new(plant: &Plant, air: Temperature, method: Method) -> Result<Self, YearError> {
        plant.check()?;
        method.check()?;
        let air = water("air at the start", air)?;
        let mut layers = [0.0; MOST_LAYERS];
        layers[..plant.tank.layers].fill(plant.tank.start.si());
        Ok(Self {
            circuit: Loop::new(&plant.collector, &plant.circuit),
            column: Column::of(&plant.tank),
            controller: Controller::new(plant),
            method,
            tap: plant.tap.si(),
            pump_power: plant.circuit.pump.si(),
            state: State {
                collector: air,
                layers,
                count: plant.tank.layers,
                pump: false,
                locks: Locks::default(),
                element: false,
            },
            half: [0.0; MOST_LAYERS],
        })
    }

    /// Where it stands.
    pub fn state(&self) -> &State {
        &self.state
    }

    /// Heat in the tank over 0 K, J.
    pub(super) fn stored(&self) -> f64 {
        self.state.layers().iter().sum::<f64>() * self.column.capacity
    }

    /// Heat capacity of the collector, J/K.
    pub(super) fn collector_capacity(&self) -> f64 {
        self.circuit.capacity
    }

    /// Goes on under constant conditions for a while; gives what was booked in it.
    pub fn advance(&mut self, conditions: &Conditions, time: Time) -> Result<Tally, YearError> {
        conditions.check()?;
        let stretch = self.stretch(conditions)?;
        let mut booked = Tally::starting(&self.state);
        let mut left = not_negative("time", time.si())?;
        let mut steps_left = 1000.0 + 10.0 * left / stretch.limits.flowing.min(SHORTEST);
        while left > 0.0 {
            left -= self.step(&stretch, left, &mut booked);
            steps_left -= 1.0;
            if steps_left < 0.0 {
                return Err(YearError::NoHeadway { at: None });
            }
        }
        Ok(booked)
    }

    fn stretch<'a>(&self, conditions: &'a Conditions) -> Result<Stretch<'a>, YearError> {
        let drawn = conditions.draw * WATER_HEAT;
        let still = self.column.step(drawn, 0.0, COURANT);
        let stable = self.column.step(drawn.max(self.circuit.circulation), self.circuit.coil_rate(), COURANT);
        if stable < LEAST_STABLE {
            return Err(YearError::LayerTooSmall);
        }
        let gentle = self.column.step(drawn, 0.0, GENTLE);
        let resting = self.method.resting.min(gentle).max(self.method.running).min(still);
        let limits =
            Limits { flowing: self.method.running.min(stable), still: self.method.running.min(still), resting };
        Ok(Stretch { conditions, still: self.circuit.still(conditions), limits, drawn })
    }

    /// One step of at most `left` seconds; gives its length.
    fn step(&mut self, stretch: &Stretch, left: f64, booked: &mut Tally) -> f64 {
        let conditions = stretch.conditions;
        booked.starts += u32::from(self.controller.act(&mut self.state, conditions.powered));
        let excess = self.state.collector - conditions.air;
        let approach = self.approach(stretch, self.state.lowest());
        let wanted = self.longest(stretch, approach).min(left);
        let mut seconds = self.until_collector_event(stretch, approach, excess, wanted);
        let mut faded = self.half_step(stretch, approach, excess, seconds);
        let event = self.controller.tank_event(&self.state, &self.half, seconds);
        if event < seconds {
            seconds = event.max(SHORTEST).min(seconds);
            faded = self.half_step(stretch, approach, excess, seconds);
        }
        // The rate is the same in both stages, so the whole step's share follows from the half's.
        self.full_step(stretch, excess, faded * (2.0 - faded), seconds, booked);
        seconds
    }

    fn approach(&self, stretch: &Stretch, lowest: f64) -> Approach {
        if self.state.pump { self.circuit.flowing(stretch.conditions, lowest) } else { stretch.still }
    }

    /// The longest step that the state allows.
    fn longest(&self, stretch: &Stretch, approach: Approach) -> f64 {
        let air = stretch.conditions.air;
        let level = self.controller.collector_level(&self.state, air, stretch.conditions.powered);
        let asleep = level.is_none_or(|level| approach.rest < level - CLEAR_OF_START);
        let longest = match (self.state.pump, asleep) {
            (true, _) => stretch.limits.flowing,
            (false, true) => stretch.limits.resting,
            (false, false) => stretch.limits.still,
        };
        if self.state.element { longest.min(self.method.heating) } else { longest }
    }

    /// Cuts a step at the moment the collector crosses a threshold.
    fn until_collector_event(&self, stretch: &Stretch, approach: Approach, excess: f64, seconds: f64) -> f64 {
        let air = stretch.conditions.air;
        let level = self.controller.collector_level(&self.state, air, stretch.conditions.powered);
        let Some(level) = level else { return seconds };
        let lock = self.controller.lock_level(air);
        let lock = if excess < lock { approach.crossing(excess, lock) } else { f64::INFINITY };
        approach.crossing(excess, level).min(lock).max(SHORTEST).min(seconds)
    }

    /// Takes the tank half a step ahead, into `half`; gives the share of its way that the collector made in that time.
    fn half_step(&mut self, stretch: &Stretch, approach: Approach, excess: f64, seconds: f64) -> f64 {
        let half = 0.5 * seconds;
        let faded = approach.faded(half);
        let running = self.state.pump.then(|| {
            let (mean, _) = approach.mean_and_end(excess, faded, half);
            self.circuit.running(stretch.conditions, self.state.lowest(), mean)
        });
        let streams = self.streams(stretch, running.as_ref(), self.state.top());
        let count = self.state.count;
        self.half[..count].copy_from_slice(&self.state.layers[..count]);
        self.column.carry(&self.state.layers, &streams, half, &mut self.half);
        settle(&mut self.half[..count]);
        faded
    }

    /// Carries everything over the whole step with the heat flows of its middle, and books them.
    fn full_step(&mut self, stretch: &Stretch, excess: f64, faded: f64, seconds: f64, booked: &mut Tally) {
        let conditions = stretch.conditions;
        let count = self.state.count;
        let lowest = self.half[count - 1];
        let approach = self.approach(stretch, lowest);
        let (mean, end) = approach.mean_and_end(excess, faded, seconds);
        let running = self.state.pump.then(|| self.circuit.running(conditions, lowest, mean));
        let top = self.half[0];
        let streams = self.streams(stretch, running.as_ref(), top);
        self.column.carry(&self.half, &streams, seconds, &mut self.state.layers);
        settle(&mut self.state.layers[..count]);
        self.state.collector = conditions.air + end;

        booked.tank_loss += seconds * self.column.lost(&self.half);
        booked.element += seconds * streams.element;
        let step = Step { seconds, excess, end, top };
        self.book_draw(stretch, &streams, step, booked);
        match running {
            Some(running) => {
                booked.pump_time += seconds;
                booked.pump_energy += seconds * self.pump_power;
                booked.into_tank += seconds * running.into_tank;
                booked.pipe_loss += seconds * running.pipes;
                booked.collector_gain += seconds * running.gained;
            }
            None => booked.collector_gain += seconds * self.circuit.gained_still(conditions, mean),
        }
        self.book_times(conditions.air, approach, step, booked);
    }

    /// What runs through the tank and heats it, its highest layer at `top`.
    fn streams(&self, stretch: &Stretch, running: Option<&Running>, top: f64) -> Streams {
        let mains = stretch.conditions.mains;
        let share = if mains >= self.tap {
            0.0
        } else if top > self.tap {
            (self.tap - mains) / (top - mains)
        } else {
            1.0
        };
        let (element_layer, element) = self.controller.element_heat(&self.state);
        let mut streams =
            Streams { draw: stretch.drawn * share, supply: mains, element, element_layer, ..Streams::default() };
        if let Some(running) = running {
            if self.circuit.circulation > 0.0 {
                streams.circulation = self.circuit.circulation;
                streams.inlet = running.inlet;
            } else {
                streams.coil = running.into_tank;
            }
        }
        streams
    }

    fn book_draw(&self, stretch: &Stretch, streams: &Streams, step: Step, booked: &mut Tally) {
        let mains = stretch.conditions.mains;
        booked.load += step.seconds * stretch.drawn * (self.tap - mains).max(0.0);
        booked.drawn += step.seconds * streams.draw * (step.top - mains);
        let lacking = step.seconds * streams.draw * (self.tap - step.top).max(0.0);
        if self.controller.inline && stretch.conditions.powered {
            booked.inline += lacking;
        } else {
            booked.shortage += lacking;
        }
    }

    fn book_times(&self, air: f64, approach: Approach, step: Step, booked: &mut Tally) {
        let Step { seconds, excess, end, top } = step;
        booked.steps += 1;
        let above = |level: f64| approach.time_above(level - air, excess, end, seconds);
        booked.steam_time += above(HUNDRED);
        if self.state.locks != Locks::default() {
            booked.locked_time += above(self.state.lowest() + self.controller.start);
        }
        if top >= SIXTY {
            booked.top_hot_time += seconds;
            booked.all_hot_time += if self.half[self.state.count - 1] >= SIXTY { seconds } else { 0.0 };
            booked.boiling_time += if top >= HUNDRED { seconds } else { 0.0 };
        }
        let warm = self.half[..self.state.count].iter().find(|layer| **layer <= GROWTH.1);
        booked.growth_time += if warm.is_some_and(|layer| *layer >= GROWTH.0) { seconds } else { 0.0 };
        booked.peak_collector = booked.peak_collector.max(self.state.collector);
        booked.peak_tank = booked.peak_tank.max(self.state.top());
    }
}

/// What a step went through.
#[derive(Clone, Copy)]
struct Step {
    seconds: f64,
    /// Collector over air before and after.
    excess: f64,
    end: f64,
    /// Highest layer at mid-step.
    top: f64,
}
