//! The switches of the plant: pump with its locks, element with its thermostat.
//!
//! Plain numbers in SI. A switch acts at the step's start; the step is cut so that a crossing falls on its end.

use super::plant::{Auxiliary, Plant};
use super::simulation::State;
use crate::units::si::Dimension;

/// How near to a threshold counts as on it, K: spares a second short step after each event.
const ON_IT: f64 = 0.01;

/// Every threshold, K.
#[derive(Clone, Copy, Debug)]
pub(super) struct Controller {
    pub start: f64,
    pub stop: f64,
    limit: f64,
    reset: f64,
    lock_above: f64,
    lock_below: f64,
    near: f64,
    element: Option<Element>,
    /// No layer is heated but by the loop.
    pub inline: bool,
}

/// A thermostat.
#[derive(Clone, Copy, Debug)]
struct Element {
    layer: usize,
    set: f64,
    low: f64,
    power: f64,
    near: f64,
}

impl Controller {
    pub fn new(plant: &Plant) -> Self {
        let control = &plant.control;
        let (start, stop) = (control.start.si(), control.stop.si());
        let element = match plant.auxiliary {
            Auxiliary::Element { layer, set, deadband, power } => {
                let (set, deadband) = (set.si(), deadband.si());
                let near = ON_IT.min(0.1 * deadband);
                Some(Element { layer, set, low: set - deadband, power: power.si(), near })
            }
            Auxiliary::None | Auxiliary::Inline => None,
        };
        Self {
            start,
            stop,
            limit: control.limit.si(),
            reset: control.reset.si(),
            lock_above: control.lock_out.map_or(f64::INFINITY, |lock| lock.above.si()),
            lock_below: control.lock_out.map_or(f64::INFINITY, |lock| lock.below.si()),
            near: ON_IT.min(0.1 * (start - stop)),
            element,
            inline: plant.auxiliary == Auxiliary::Inline,
        }
    }

    /// Sets the switches by what the sensors read; tells whether the pump has just started.
    pub fn act(&self, state: &mut State, powered: bool) -> bool {
        let (top, lowest) = (state.top(), state.lowest());
        state.locks.tank = if state.locks.tank { top > self.reset - ON_IT } else { top >= self.limit - ON_IT };
        state.locks.collector = if state.locks.collector {
            state.collector > self.lock_below - ON_IT
        } else {
            state.collector >= self.lock_above - ON_IT
        };
        let free = powered && !state.locks.tank && !state.locks.collector;
        let over = state.collector - lowest;
        let ran = state.pump;
        state.pump = free && if ran { over > self.stop + self.near } else { over >= self.start - self.near };
        if let Some(element) = self.element {
            let here = state.layers[element.layer];
            let called =
                if state.element { here < element.set - element.near } else { here <= element.low + element.near };
            state.element = powered && called;
        }
        state.pump && !ran
    }

    /// Excess over the air at which the pump's state changes next, if anything of the collector can change it.
    pub fn collector_level(&self, state: &State, air: f64, powered: bool) -> Option<f64> {
        let lowest = state.lowest();
        if !powered || state.locks.tank {
            None
        } else if state.locks.collector {
            Some(self.lock_below - air)
        } else if state.pump {
            Some(lowest + self.stop - air)
        } else {
            Some(lowest + self.start - air)
        }
    }

    /// Excess at which a running pump is locked by the collector.
    pub fn lock_level(&self, air: f64) -> f64 {
        self.lock_above - air
    }

    /// Layer of the element and its heat, W; (0, 0) without one or while it is off.
    pub fn element_heat(&self, state: &State) -> (usize, f64) {
        match self.element {
            Some(element) if state.element => (element.layer, element.power),
            _ => (0, 0.0),
        }
    }

    /// Time after which a layer crosses a threshold that matters, if its pace of the first half of `seconds` goes on.
    pub fn tank_event(&self, state: &State, half: &[f64], seconds: f64) -> f64 {
        let crossing = |now: f64, middle: f64, level: f64| {
            let (way, made) = (level - now, 2.0 * (middle - now));
            // Divided only where the level is reached within the step.
            if way * made > 0.0 && way.abs() < made.abs() { seconds * way / made } else { f64::INFINITY }
        };
        let mut first = f64::INFINITY;
        if state.locks.tank {
            first = first.min(crossing(state.top(), half[0], self.reset));
        } else if state.pump {
            first = first.min(crossing(state.top(), half[0], self.limit));
        }
        if let Some(element) = self.element {
            let level = if state.element { element.set } else { element.low };
            first = first.min(crossing(state.layers[element.layer], half[element.layer], level));
        }
        first
    }
}
