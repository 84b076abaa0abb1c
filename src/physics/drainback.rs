//! A loop that empties itself: filling it, the siphon in its return, the pressure at its top, its reservoir.
//!
//! The pump's curve lives in `pump`, pipe friction in `pipe`.

use super::domain::{DomainError, finite, not_negative, positive};
use super::fluid::{Fluid, vapour_pressure};
use super::glycol::boiling_point;
use super::hydrostatics::STANDARD_GRAVITY;
use super::pipe::Run;
use crate::units::si::{
    Dimension, Length, Pressure, Temperature, TemperatureInterval, Velocity, Volume, VolumeRate, celsius,
};

/// Slowest flow that carries air down the return, m/s (from memory).
const SIPHON_VELOCITY: f64 = 0.3;
/// Smallest Froude number of a return that fills (from memory).
const SIPHON_FROUDE: f64 = 0.6;
/// Greatest Froude number of a return that stays vented by itself (from memory).
const SELF_VENTING_FROUDE: f64 = 0.31;
/// Head that a pump must have above the filling head (project rule), m.
const FILLING_RESERVE: f64 = 1.0;

/// A drainback loop of water at one flow.
#[derive(Clone, Debug, PartialEq)]
pub struct Drainback {
    /// Height of the loop's top above the level in the reservoir while it runs.
    pub top_above_level: Length,
    /// Height that the pump lifts the water on filling, from the lowest level in the reservoir to the top.
    pub lift: Length,
    /// From the pump to the top, run by run.
    pub up: Vec<Run>,
    /// From the top back to the reservoir, run by run.
    pub down: Vec<Run>,
    /// Lost in the panels, which fill on the way up.
    pub panels: Pressure,
    /// Flow.
    pub flow: VolumeRate,
    /// Temperature of the water.
    pub water: Temperature,
    /// Air pressure at the site; the reservoir is open to it.
    pub atmosphere: Pressure,
}

/// What the return pipe does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Return {
    /// It fills: a siphon carries the lift.
    Siphon,
    /// Air and water side by side: it may or may not fill.
    Undecided,
    /// It stays open to air: the pump carries the full lift as long as it runs.
    SelfVenting,
}

/// How a drainback loop behaves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DrainbackState {
    /// Head needed to fill: lift and friction of the up leg.
    pub fill_head: Length,
    /// Head needed once a siphon stands: friction only.
    pub siphon_head: Length,
    /// Speed in the return pipe.
    pub return_velocity: Velocity,
    /// Froude number v/√(g D) in the return pipe.
    pub froude: f64,
    /// What the return pipe does at this speed.
    pub return_state: Return,
    /// Absolute pressure at the top once a siphon stands.
    pub top_pressure: Pressure,
    /// Boiling at the top and how far the water is from it; none when no liquid can stand that high.
    pub top_boiling: Option<TopBoiling>,
}

/// Boiling at the top of a siphon.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TopBoiling {
    /// Temperature at which water boils there.
    pub temperature: Temperature,
    /// That temperature less the water's; a siphon wants 5 K or more, else the pump is sized for the full lift.
    pub margin: TemperatureInterval,
}

impl Drainback {
    /// Filling, siphon and boiling at one flow.
    ///
    /// Fill head = lift + Δp_up/(ρ g); siphon head = (Δp_up + Δp_down)/(ρ g);
    /// p_top = p_atm − ρ g z + Δp_down; the up leg holds the panels. The slowest run of the return decides. It counts as filled from 0.3 m/s and Fr ≥ 0.6 on, as self-venting
    /// below Fr = 0.31 (thresholds from memory). Water 0 to 120 °C, flow > 0.
    pub fn state(&self) -> Result<DrainbackState, DomainError> {
        not_negative("height of the top", self.top_above_level.si())?;
        not_negative("lift", self.lift.si())?;
        positive("flow", self.flow.si())?;
        positive("air pressure", self.atmosphere.si())?;
        super::domain::within("water temperature", self.water.si(), 273.15, 393.15)?;
        let liquid = Fluid::Water.properties_at(self.water.si());
        let weight = liquid.density * STANDARD_GRAVITY;
        let mut up = not_negative("drop of the panels", self.panels.si())?;
        for run in &self.up {
            up += run.pressure_drop(&liquid, self.flow)?.total().si();
        }
        let (mut down, mut slowest) = (0.0, (f64::INFINITY, f64::INFINITY));
        for run in &self.down {
            let drop = run.pressure_drop(&liquid, self.flow)?;
            down += drop.total().si();
            let velocity = drop.velocity.si();
            slowest = (slowest.0.min(velocity), slowest.1.min(velocity / (STANDARD_GRAVITY * run.bore.si()).sqrt()));
        }
        let (velocity, froude) = slowest;
        finite("speed in the return", velocity)?;
        let top = self.atmosphere.si() - weight * self.top_above_level.si() + down;
        Ok(DrainbackState {
            fill_head: Length::from_si(self.lift.si() + up / weight),
            siphon_head: Length::from_si((up + down) / weight),
            return_velocity: Velocity::from_si(velocity),
            froude,
            return_state: return_state(velocity, froude),
            top_pressure: Pressure::from_si(finite("pressure at the top", top)?),
            top_boiling: self.top_boiling(top)?,
        })
    }

    /// Liquid water stands at the top only under more than its vapour pressure at 0 °C, 611 Pa.
    fn top_boiling(&self, top_pressure: f64) -> Result<Option<TopBoiling>, DomainError> {
        if top_pressure <= vapour_pressure(celsius(0.0)) {
            return Ok(None);
        }
        let temperature = boiling_point(Fluid::Water, Pressure::from_si(top_pressure))?;
        let margin = TemperatureInterval::from_si(temperature.si() - self.water.si());
        Ok(Some(TopBoiling { temperature, margin }))
    }
}

fn return_state(velocity: f64, froude: f64) -> Return {
    if velocity >= SIPHON_VELOCITY && froude >= SIPHON_FROUDE {
        Return::Siphon
    } else if froude < SELF_VENTING_FROUDE {
        Return::SelfVenting
    } else {
        Return::Undecided
    }
}

/// Whether a pump's head suffices to fill: 1 m above the filling head (project rule).
///
/// Ask with the head that the pump has at half of the design flow or more.
pub fn can_fill(pump_head: Length, fill_head: Length) -> bool {
    pump_head.si() >= fill_head.si() + FILLING_RESERVE
}

/// What a reservoir has to hold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reservoir {
    /// Contents of the panels.
    pub panels: Volume,
    /// Contents of all pipe above the reservoir's level.
    pub pipe_above: Volume,
    /// Reserve over both, as a fraction.
    pub margin: f64,
    /// Water that has to stay over the pump's suction while the loop is full.
    pub pump_cover: Volume,
}

impl Reservoir {
    /// Least volume: (panels + pipe above)(1 + margin) + pump cover.
    pub fn least_volume(&self) -> Result<Volume, DomainError> {
        not_negative("contents of the panels", self.panels.si())?;
        not_negative("contents of the pipe above", self.pipe_above.si())?;
        not_negative("pump cover", self.pump_cover.si())?;
        let margin = not_negative("margin", self.margin)?;
        Ok((self.panels + self.pipe_above) * (1.0 + margin) + self.pump_cover)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::pipe::DRAWN_TUBE_ROUGHNESS;

    fn run(length: f64, bore: f64) -> Run {
        Run {
            bore: Length::from_si(bore),
            length: Length::from_si(length),
            roughness: Length::from_si(DRAWN_TUBE_ROUGHNESS),
            fittings: Vec::new(),
            plain_loss: 0.0,
        }
    }

    fn plant(top: f64, bore: f64) -> Drainback {
        Drainback {
            top_above_level: Length::from_si(top),
            lift: Length::from_si(top + 0.4),
            up: vec![run(10.0, bore)],
            down: vec![run(11.0, bore)],
            panels: Pressure::from_si(0.0),
            flow: VolumeRate::from_si(1.5e-4),
            water: celsius(60.0),
            atmosphere: Pressure::from_si(101_325.0),
        }
    }

    #[test]
    fn a_wide_return_vents_itself_and_a_narrow_one_siphons() {
        assert_eq!(plant(5.0, 0.0206).state().unwrap().return_state, Return::Siphon);
        assert_eq!(plant(5.0, 0.035).state().unwrap().return_state, Return::SelfVenting);
    }

    #[test]
    fn no_siphon_stands_higher_than_the_atmosphere_carries() {
        assert!(plant(9.0, 0.0206).state().unwrap().top_boiling.is_some());
        assert!(plant(11.0, 0.0206).state().unwrap().top_boiling.is_none());
    }

    #[test]
    fn a_pump_needs_one_metre_more_than_the_filling_head() {
        assert!(can_fill(Length::from_si(7.0), Length::from_si(6.0)));
        assert!(!can_fill(Length::from_si(6.9), Length::from_si(6.0)));
    }
}
