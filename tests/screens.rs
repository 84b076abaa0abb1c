//! The workbook on screen: key strings go through the real update, screens come out as text.

mod bench;
mod cautions;
mod commissioning;
mod day;
mod harness;
mod journeys;
mod keys;
mod looks;
mod mending;
mod monkey;
mod orphans;
mod out_of_order;
mod pressure;
mod sizes;
mod variants;
mod writing;
