//! The workbook on screen: key strings go through the real update, screens come out as text.

mod bench;
mod day;
mod harness;
mod journeys;
mod keys;
mod looks;
mod mending;
mod monkey;
mod orphans;
mod sizes;
mod variants;
mod writing;
