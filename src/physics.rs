//! Laws of nature and of the trade, as pure functions.
//!
//! Lives here: sun, radiation, covers, convection, fins, fluids, pipes, plates of glass, sensors, statistics.
//! Must not live here: the project file, entries, verdicts, files, clocks. Every public function states its
//! equation, ranges, units and source.

pub mod atmosphere;
pub mod bend;
pub mod breathing;
pub mod clear_sky;
pub mod coil;
pub mod collector;
pub mod collector_curve;
pub mod convection;
pub mod cover;
pub mod customary;
pub mod cutting;
pub mod decomposition;
pub mod differential_control;
pub mod domain;
pub mod drainback;
pub mod draw;
pub mod drilling;
pub mod economics;
pub mod exchanger;
pub mod expansion;
pub mod expansion_vessel;
pub mod extraterrestrial;
pub mod fillet;
pub mod fin;
pub mod fittings;
pub mod flow_measurement;
pub mod fluid;
pub mod freezing;
pub mod galvanic;
pub mod glass;
pub mod glycol;
pub mod great_circle;
pub mod guillotine;
pub mod harp_network;
pub mod harp_shop;
pub mod horizon;
pub mod hydrostatics;
pub mod interpolation;
pub mod lag;
pub mod layers;
pub mod legionella;
pub mod lift;
pub mod linear;
pub mod loop_pressure;
pub mod loss;
pub mod mains;
pub mod monthly;
pub mod monthly_fraction;
pub mod night;
pub mod optics;
pub mod panel_row;
pub mod performance_point;
pub mod pipe;
pub mod pipe_loss;
pub mod polynomial;
pub mod pressure_test;
pub mod pump;
pub mod rack;
pub mod radiation;
pub mod rail;
pub mod root;
pub mod scald;
pub mod screw_layout;
pub mod sensor;
pub mod sky;
pub mod snow;
pub mod solder_joint;
pub mod statistics;
pub mod steam;
pub mod strips;
pub mod sun;
pub mod thermosiphon;
pub mod timber;
pub mod transposition;
pub mod trapped;
pub mod tube;
pub mod tube_pressure;
pub mod wind;

#[cfg(test)]
mod extremes;
