//! sunharp: a workbook for building flat-plate solar water-heating panels by hand.
//!
//! A project file holds what the builder decided, measured and ticked; one pure function turns it into every
//! figure, check and step; screens, commands and pages only show them. DEVELOPERS.md draws the layers.

pub mod book;
pub mod cli;
pub mod climate;
pub mod handbook;
pub mod logger;
pub mod model;
pub mod physics;
pub mod project;
pub mod solve;
pub mod stage;
pub mod tui;
pub mod units;
pub mod workbook;
pub mod year;
