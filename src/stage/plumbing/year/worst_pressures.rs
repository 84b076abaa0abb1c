//! Pressure in the loop through the worst days, minute by minute, from their temperatures.
//!
//! The temperatures are the study's (`worst_days`); the law is `physics::loop_pressure`. What stands open or empties
//! itself has no vessel: there the mains and the relief valve set the bounds.

use super::super::closed::{self, Fitted};
use super::super::entries::part::PartKind;
use super::super::entries::{self as e, LoopType, service};
use super::super::working::working_column;
use super::worst_days::{Curve, Moment};
use crate::model::{Fig, Why};
use crate::physics::expansion_vessel::GasCushion;
use crate::physics::fluid::vapour_pressure;
use crate::physics::loop_pressure::{PanelState, VesselLoop};
use crate::stage::Solution;
use crate::units::si::{Dimension, Pressure, Temperature};

/// What sets the pressure of the loop.
enum Law {
    /// A vessel's cushion.
    Vessel(VesselLoop),
    /// The mains, up to the relief valve; all absolute, Pa.
    Mains { top: f64, air: f64, relief: f64 },
}

/// Where the liquid outside the panels stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rest {
    /// As warm as the top of the tank: the most that it can have grown.
    AsTheTank,
    /// As cold as the air: the least.
    AsTheAir,
}

/// One moment of pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Under {
    /// Since the curve's start, s.
    pub seconds: f64,
    /// Gauge pressure where it is judged: at the vessel, or at the top of a loop that the mains fill.
    pub pressure: Pressure,
    /// Gauge pressure at the top of the loop.
    pub at_top: Pressure,
    /// What is in the panels.
    pub state: PanelState,
}

/// The pressures of a curve.
pub fn along(solution: &Solution, curve: &Curve, rest: Rest) -> Fig<Vec<Under>> {
    let law = law(solution)?;
    curve.moments.iter().map(|now| law.at(now, rest)).collect()
}

fn law(solution: &Solution) -> Fig<Law> {
    let inputs = &solution.inputs;
    let plumbing = &solution.plumbing;
    let loop_type = inputs.get(&e::LOOP)?;
    let network = plumbing.layout.network.as_ref().map_err(Why::clone)?;
    let profile = plumbing.layout.profile.as_ref().map_err(Why::clone)?;
    let fluid = plumbing.fluid.clone()?;
    let air = closed::air(inputs)?;
    match loop_type {
        LoopType::Drainback => Err(Why::out_of_range("a loop that drains stands empty when its pump rests")),
        LoopType::Direct | LoopType::Thermosiphon => {
            let relief = closed::relief(inputs, network)?;
            let top = air + inputs.get(&service::MAINS_PRESSURE)? - working_column(fluid, profile);
            Ok(Law::Mains { top: top.si(), air: air.si(), relief: (relief + air).si() })
        }
        LoopType::Glycol => {
            let closed = plumbing.working.closed.as_ref().map_err(Why::clone)?;
            let Fitted { volume, precharge, .. } = closed.fitted.clone()?;
            let contents = plumbing.contents.as_ref().map_err(Why::clone)?;
            let steam = plumbing.working.steam.as_ref().map_err(Why::clone)?;
            let vessel = network.part_of(PartKind::Vessel).and_then(|name| profile.height_of(network, name));
            let rest = contents.total() - contents.panels;
            Ok(Law::Vessel(VesselLoop {
                liquid: fluid,
                panels: contents.panels,
                rest,
                steam_pipe: steam.volume().min(rest),
                cushion: GasCushion { volume, precharge, atmosphere: air },
                reserve: closed.vessel.reserve,
                cold: solution.site.coldest.clone()?,
                static_height: (profile.top() - vessel.unwrap_or_default()).max(Dimension::from_si(0.0)),
                relief: closed::relief(inputs, network)?,
            }))
        }
    }
}

impl Law {
    fn at(&self, now: &Moment, rest: Rest) -> Fig<Under> {
        let seconds = now.seconds;
        match self {
            Self::Vessel(vessel) => {
                let rest = Temperature::from_si(match rest {
                    Rest::AsTheTank => now.tank,
                    Rest::AsTheAir => now.air,
                });
                let found = vessel.at(Temperature::from_si(now.plate), rest).map_err(Why::out_of_range)?;
                let (pressure, state) = found;
                Ok(Under { seconds, pressure, at_top: pressure - vessel.column(), state })
            }
            Self::Mains { top, air, relief } => {
                let steam = vapour_pressure(Temperature::from_si(now.plate));
                let state = match steam.max(*top) {
                    most if most >= *relief => PanelState::Relief,
                    most if most > *top => PanelState::Steam,
                    _ => PanelState::Liquid,
                };
                let pressure = Pressure::from_si(steam.max(*top).min(*relief) - air);
                Ok(Under { seconds, pressure, at_top: pressure, state })
            }
        }
    }
}

/// The moment with the highest pressure at the vessel.
pub fn greatest(moments: &[Under]) -> Fig<Under> {
    let most = moments.iter().copied().reduce(|a, b| if b.pressure > a.pressure { b } else { a });
    most.ok_or_else(|| Why::out_of_range("the curve has no moment"))
}

/// The moment with the lowest pressure at the top.
pub fn least_at_top(moments: &[Under]) -> Fig<Under> {
    let least = moments.iter().copied().reduce(|a, b| if b.at_top < a.at_top { b } else { a });
    least.ok_or_else(|| Why::out_of_range("the curve has no moment"))
}

/// Seconds of a curve of one step during which the relief valve is open.
pub fn relief_open(moments: &[Under]) -> f64 {
    let step = moments.get(1).zip(moments.first()).map_or(0.0, |(second, first)| second.seconds - first.seconds);
    moments.iter().filter(|now| now.state == PanelState::Relief).count() as f64 * step
}
