//! Laws of nature and of the trade, as pure functions.
//!
//! Lives here: sun, radiation, covers, convection, fins, fluids, pipes, plates of glass, sensors, statistics.
//! Must not live here: the project file, entries, verdicts, files, clocks. Every public function states its
//! equation, ranges, units and source.

pub mod atmosphere;
pub mod clear_sky;
pub mod cover;
pub mod customary;
pub mod decomposition;
pub mod domain;
pub mod extraterrestrial;
pub mod great_circle;
pub mod horizon;
pub mod hydrostatics;
pub mod interpolation;
pub mod linear;
pub mod mains;
pub mod monthly;
pub mod polynomial;
pub mod radiation;
pub mod root;
pub mod sky;
pub mod statistics;
pub mod sun;
pub mod transposition;
