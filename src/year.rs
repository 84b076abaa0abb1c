//! A year of a solar water heater, hour by hour: collector, loop, tank, draws, controller, further heater.
//!
//! Lives here: the plant as the year sees it, its hourly conditions, the simulation and what it books. Must not live
//! here: entries, verdicts, files, clocks, and the laws that give the plant's numbers (`physics`).
//!
//! The model (every parameter is explained where it stands): one heat capacity at the collector's outlet, T_c. With the
//! pump off C_c dT_c/dt = (A/F_R)\[S − F_R U_L (T_c − T_a)\], S = F_R(τα)_n · s with s the irradiance weighted by the
//! incidence modifier; with the pump on C_c dT_c/dt = A\[S − F_R U_L (T_ci − T_a)\] − C(T_c − T_ci), whose steady state
//! is the Hottel-Whillier equation. Pipes lose heat to the outside air while the pump runs. The tank is a column of
//! equal mixed layers; what is warmer below mixes upward at once. Conditions are constant within an hour.
//!
//! The method: explicit midpoint for the tank, the collector in closed form, the pump switched at the very moment its
//! difference is crossed; whatever moves the state is what is booked, so that energy closes to rounding.

mod collector;
mod conditions;
mod controller;
mod error;
mod outcome;
mod plant;
mod run;
mod simulation;
mod tally;
pub mod tank;
#[cfg(test)]
mod tests;

pub use conditions::{Conditions, Incidence, Service, absorbed_irradiance, hourly};
pub use error::YearError;
pub use outcome::{Day, HourEnd, Outcome, Peak, Week};
pub use plant::{Auxiliary, Circuit, Collector, Control, CurveCollector, Exchange, LockOut, Plant, Tank};
pub use run::{Method, simulate, simulate_with};
pub use simulation::{Locks, Simulation, State};
pub use tally::Tally;
