//! The plant as the year sees it: typed numbers that the stages have worked out, and what is admitted.

use super::YearError;
use crate::physics::domain::{DomainError, finite, not_negative, positive, within};
use crate::units::si::{
    Area, Dimension, HeatCapacity, HeatTransfer, Length, Power, Temperature, TemperatureInterval, ThermalConductance,
    ThermalConductivity, Volume,
};

/// Most layers of a tank.
pub(super) const MOST_LAYERS: usize = 40;

/// A solar water heater.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plant {
    /// All panels together.
    pub collector: Collector,
    /// Pipes, pump and exchanger.
    pub circuit: Circuit,
    /// The tank.
    pub tank: Tank,
    /// When the pump runs.
    pub control: Control,
    /// What heats when the sun does not.
    pub auxiliary: Auxiliary,
    /// Temperature of the mixed water, at which the draw counts and the load is reckoned.
    pub tap: Temperature,
}

/// All panels together as one collector at the flow it really gets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Collector {
    /// Area A that the two figures below refer to.
    pub area: Area,
    /// F_R(τα)_n.
    pub optical_gain: f64,
    /// F_R U_L, one number for the whole year: take it at the usual excess over the air. Stagnation by it is rough.
    pub loss: HeatTransfer,
    /// F_R, for the plate without flow.
    pub heat_removal_factor: f64,
    /// Effective heat capacity C_c of the whole area, filling included.
    pub capacity: HeatCapacity,
}

/// An efficiency curve on mean liquid temperature, to be turned into a [`Collector`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CurveCollector {
    /// Area A the curve refers to.
    pub area: Area,
    /// η₀.
    pub eta0: f64,
    /// a₁.
    pub a1: HeatTransfer,
    /// a₂, W/(m²·K²).
    pub a2: f64,
    /// Excess of the mean liquid over the air at which a₂ is made part of the linear loss.
    pub usual_excess: TemperatureInterval,
    /// ṁ c_p of the loop C, W/K.
    pub capacity_rate: f64,
    /// F_R at that flow.
    pub heat_removal_factor: f64,
    /// Effective heat capacity of the whole area.
    pub capacity: HeatCapacity,
}

impl CurveCollector {
    /// From mean to inlet temperature: F_R(τα) = η₀ r, F_R U_L = (a₁ + a₂ ΔT) r, r = 1/\[1 + A(a₁ + a₂ ΔT)/(2C)\].
    ///
    /// Duffie & Beckman 6.19 (from memory); exact for a curve that is linear. The loss is the secant at `usual_excess`.
    pub fn at_inlet(&self) -> Result<Collector, DomainError> {
        let excess = not_negative("usual excess", self.usual_excess.si())?;
        let loss = positive("a₁ + a₂ ΔT", self.a1.si() + finite("a₂", self.a2)? * excess)?;
        let area = positive("collector area", self.area.si())?;
        let ratio = 1.0 / (1.0 + area * loss / (2.0 * positive("capacity rate", self.capacity_rate)?));
        Ok(Collector {
            area: self.area,
            optical_gain: within("η₀", self.eta0, 0.0, 1.0)? * ratio,
            loss: HeatTransfer::from_si(loss * ratio),
            heat_removal_factor: self.heat_removal_factor,
            capacity: self.capacity,
        })
    }
}

/// Pipes, pump and exchanger.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Circuit {
    /// ṁ c_p of the loop's liquid C while the pump runs, W/K.
    pub capacity_rate: f64,
    /// How the heat comes into the tank.
    pub exchange: Exchange,
    /// UA of the pipe from the collector, to the outside air.
    pub hot_pipe: ThermalConductance,
    /// UA of the pipe to the collector.
    pub cold_pipe: ThermalConductance,
    /// Electric power of the pump while it runs.
    pub pump: Power,
}

/// How the heat of the loop comes into the tank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Exchange {
    /// The tank's water itself: from the lowest layer through the collector into the highest. A drainback loop is this
    /// or one of the others; what drains from the panel is not reckoned.
    Direct,
    /// A coil in the lowest layer.
    Coil {
        /// ε = 1 − exp(−UA/C).
        effectiveness: f64,
    },
    /// An exchanger outside, with a second pump: water from the lowest layer into the highest.
    Plate {
        /// ε, on the smaller of the two capacity rates.
        effectiveness: f64,
        /// ṁ c_p of the tank's side, W/K.
        storage_rate: f64,
    },
}

/// A tank as a column of equal layers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tank {
    /// Of water.
    pub volume: Volume,
    /// Layers: 1 fully mixed, 4 to 6 with a coil, 8 to 10 well stratified.
    pub layers: usize,
    /// Height of the water.
    pub height: Length,
    /// UA of the whole tank.
    pub loss: ThermalConductance,
    /// Temperature around it.
    pub surroundings: Temperature,
    /// Conductivity along the column, wall and stirring included; water alone has 0.6 W/(m·K).
    pub vertical_conductivity: ThermalConductivity,
    /// Temperature of all the water at the start.
    pub start: Temperature,
}

/// When the pump runs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Control {
    /// Collector above the lowest layer at which the pump starts.
    pub start: TemperatureInterval,
    /// Difference below which it stops.
    pub stop: TemperatureInterval,
    /// Top of the tank at which it is locked.
    pub limit: Temperature,
    /// Top of the tank below which it is free again.
    pub reset: Temperature,
    /// Lock by a hot collector, if there is one.
    pub lock_out: Option<LockOut>,
}

/// A pump that is not started onto a hot collector.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LockOut {
    /// Collector at which the pump is locked.
    pub above: Temperature,
    /// Collector below which it is free again.
    pub below: Temperature,
}

/// What heats when the sun does not.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Auxiliary {
    /// Nothing: what the draw lacks is a shortage.
    None,
    /// A heater behind the tank that gives whatever the draw lacks.
    Inline,
    /// A heating element in the tank.
    Element {
        /// Its layer, 0 at the top.
        layer: usize,
        /// Temperature of the layer at which it stops.
        set: Temperature,
        /// How far below that it starts.
        deadband: TemperatureInterval,
        /// Its power.
        power: Power,
    },
}

impl Plant {
    /// Admits the plant or names the first number that cannot be.
    pub(super) fn check(&self) -> Result<(), YearError> {
        self.collector.check(self.circuit.capacity_rate)?;
        self.circuit.check()?;
        self.tank.check()?;
        self.control.check()?;
        self.auxiliary.check(self.tank.layers)?;
        water("tap", self.tap)?;
        Ok(())
    }
}

impl Collector {
    fn check(&self, capacity_rate: f64) -> Result<(), YearError> {
        let area = positive("collector area", self.area.si())?;
        within("F_R(τα)", self.optical_gain, 0.0, 1.0)?;
        let loss = area * positive("F_R U_L", self.loss.si())?;
        within("F_R", positive("F_R", self.heat_removal_factor)?, 0.0, 1.0)?;
        positive("heat capacity of the collector", self.capacity.si())?;
        // A F_R U_L/C = 1 − exp(−A F′U_L/C) for any collector there is.
        if loss >= positive("capacity rate of the loop", capacity_rate)? {
            return Err(YearError::Contradiction { what: "A F_R U_L", relation: "smaller than the capacity rate" });
        }
        Ok(())
    }
}

impl Circuit {
    fn check(&self) -> Result<(), DomainError> {
        let share = |value: f64| within("effectiveness", positive("effectiveness", value)?, 0.0, 1.0);
        match self.exchange {
            Exchange::Direct => {}
            Exchange::Coil { effectiveness } => drop(share(effectiveness)?),
            Exchange::Plate { effectiveness, storage_rate } => {
                share(effectiveness)?;
                positive("capacity rate of the tank's side", storage_rate)?;
            }
        }
        not_negative("loss of the hot pipe", self.hot_pipe.si())?;
        not_negative("loss of the cold pipe", self.cold_pipe.si())?;
        not_negative("power of the pump", self.pump.si())?;
        Ok(())
    }
}

impl Tank {
    fn check(&self) -> Result<(), DomainError> {
        positive("volume of the tank", self.volume.si())?;
        within("layers of the tank", self.layers as f64, 1.0, MOST_LAYERS as f64)?;
        positive("height of the tank", self.height.si())?;
        not_negative("loss of the tank", self.loss.si())?;
        not_negative("conductivity along the tank", self.vertical_conductivity.si())?;
        water("surroundings of the tank", self.surroundings)?;
        water("start of the tank", self.start)?;
        Ok(())
    }
}

impl Control {
    fn check(&self) -> Result<(), YearError> {
        let stop = not_negative("stop difference", self.stop.si())?;
        if finite("start difference", self.start.si())? <= stop {
            return Err(YearError::Contradiction { what: "start difference", relation: "above the stop difference" });
        }
        let falls = |what, above: Temperature, below: Temperature| {
            if water(what, above)? > water(what, below)? {
                Ok(())
            } else {
                Err(YearError::Contradiction { what, relation: "above the temperature at which the pump is freed" })
            }
        };
        falls("tank limit", self.limit, self.reset)?;
        self.lock_out.map_or(Ok(()), |lock| falls("lock-out of the collector", lock.above, lock.below))
    }
}

impl Auxiliary {
    fn check(&self, layers: usize) -> Result<(), YearError> {
        if let Self::Element { layer, set, deadband, power } = *self {
            water("set temperature of the element", set)?;
            positive("deadband of the element", deadband.si())?;
            not_negative("power of the element", power.si())?;
            if layer >= layers {
                return Err(YearError::Contradiction { what: "layer of the element", relation: "one of the tank's" });
            }
        }
        Ok(())
    }
}

/// A temperature that water or the air around it can have, −100 to 300 °C.
pub(super) fn water(what: &'static str, temperature: Temperature) -> Result<f64, DomainError> {
    within(what, temperature.si(), 173.15, 573.15)
}
