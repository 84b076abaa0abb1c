//! What a night takes: heat carried off by a slow flow backwards, a tank that cools, a panel that gives off its own
//! heat; and a clock that drifts meanwhile.

use super::domain::{DomainError, not_negative, positive};
use super::fluid::Fluid;
use crate::units::si::{
    Area, Dimension, HeatCapacity, HeatTransfer, Power, Temperature, TemperatureInterval, ThermalConductance, Time,
    Volume, VolumeRate,
};

/// Heat that a flow gives off on its way from warm to cold, Q = ρ q c_p (T₁ − T₂), density and specific heat at the mean.
pub fn carried_off(liquid: Fluid, flow: VolumeRate, from: Temperature, to: Temperature) -> Result<Power, DomainError> {
    let flow = positive("flow", flow.si())?;
    let fall = not_negative("fall of temperature", from.si() - to.si())?;
    let mean = Temperature::from_si(0.5 * (from.si() + to.si()));
    Ok(Power::from_si(liquid.density(mean).si() * flow * liquid.specific_heat(mean).si() * fall))
}

/// Fall of a mixed tank's temperature in a time, ΔT = UA (T − T_room) t/(ρ V c_p): at the first rate, so a little high for
/// a long time.
pub fn cooled(
    loss: ThermalConductance,
    tank: Temperature,
    room: Temperature,
    volume: Volume,
    time: Time,
) -> Result<TemperatureInterval, DomainError> {
    let excess = not_negative("tank over room", tank.si() - room.si())?;
    let water = Fluid::Water;
    let heat = water.density(tank).si() * positive("volume", volume.si())? * water.specific_heat(tank).si();
    Ok(TemperatureInterval::from_si(positive("loss of the tank", loss.si())? * excess * time.si() / heat))
}

/// Time constant of a panel that stands, τ = C/(U A): after it 37 % of its excess over the air are left.
pub fn time_constant(capacity: HeatCapacity, loss: HeatTransfer, area: Area) -> Time {
    capacity / (loss * area)
}

/// How far a clock may have drifted by a fault of its crystal in millionths: 20 make 1.7 s a day.
pub fn clock_drift(millionths: f64, span: Time) -> Time {
    span * (millionths * 1e-6)
}
