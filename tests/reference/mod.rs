//! Checks against things outside the project: handbooks, standards, published examples, reference libraries.
//! The source stands beside each check; the data lies in `data/`.

mod absorber_bench;
mod absorber_shop;
mod box_cuts;
mod box_layout;
mod check_values;
mod collector;
mod collector_parts;
mod commissioning;
mod cutting;
mod enclosure;
mod enclosure_published;
mod glass;
mod guillotine;
mod harp_shop;
mod invented_log;
mod logger;
mod materials;
mod money;
mod plumbing;
mod rack;
mod random_cuts;
mod register_pairs;
mod safety;
mod safety_blocks;
mod safety_contradictions;
mod safety_memory;
mod safety_pairs;
mod safety_register;
mod safety_vectors;
mod safety_water;
mod safety_work;
mod shop_trial;
mod site;
mod site_examples;
mod site_stage;
mod stage_commissioning;
mod stage_commissioning_more;
mod stage_commissioning_rules;
mod stage_enclosure;
mod stage_log;
mod stage_loop;
mod stage_measured_panel;
mod stage_plumbing;
mod stage_safety;
mod stage_site;
mod stage_year;
mod units;
mod weather_files;
mod year;

/// Fails unless two numbers lie within an absolute tolerance of each other.
#[track_caller]
fn close(got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{got} is not {want} within {tolerance}");
}
