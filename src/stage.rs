//! The six stages: what each one asks, computes, judges and ticks off.
//!
//! Lives here: for each stage its entries, its share of the solution, its figures, checks and steps, as data and
//! small pure functions. Must not live here: the order in which stages are solved, the file, the screen.

pub mod absorber;
pub mod card;
pub mod check;
pub mod commissioning;
pub mod demands;
pub mod enclosure;
pub mod figure;
pub mod general;
pub mod materials;
pub mod method;
pub mod picture;
pub mod plumbing;
pub mod procedure;
pub mod safety;
pub mod site;
pub mod solution;
pub mod stock;
pub mod study;
pub mod summary;
pub mod waits;
pub mod world;
pub mod worst;

use std::collections::BTreeMap;
use std::sync::LazyLock;

pub use check::{Check, Severity};
pub use figure::{Axis, Figure, Group, Show};
pub use solution::{Solution, Solver};
pub use world::World;

use crate::model::{EntrySpec, Stage, Step};

static ENTRIES: LazyLock<Vec<&'static EntrySpec>> = LazyLock::new(|| {
    [
        general::ENTRIES,
        materials::entries::ENTRIES,
        site::entries::ENTRIES,
        site::entries::weather::ENTRIES,
        site::entries::surroundings::ENTRIES,
        absorber::entries::ENTRIES,
        absorber::joints::ENTRIES,
        absorber::suits::ENTRIES,
        absorber::options::ENTRIES,
        absorber::sheets::ENTRIES,
        absorber::jigs::ENTRIES,
        absorber::joint_log::ENTRIES,
        absorber::supplies::ENTRIES,
        absorber::hours::ENTRIES,
        absorber::as_built::ENTRIES,
        absorber::cutting::ENTRIES,
        absorber::header_cuts::ENTRIES,
        absorber::offcuts::ENTRIES,
        waits::OF_ABSORBER,
        enclosure::entries::ENTRIES,
        enclosure::joinery::ENTRIES,
        enclosure::openings::ENTRIES,
        enclosure::screws::ENTRIES,
        enclosure::glass::rows::ENTRIES,
        enclosure::capping::entries::ENTRIES,
        enclosure::links::ENTRIES,
        enclosure::loads::entries::ENTRIES,
        enclosure::rack::entries::ENTRIES,
        enclosure::second_layer::ENTRIES,
        enclosure::cutting::ENTRIES,
        enclosure::sheets::ENTRIES,
        waits::OF_ENCLOSURE,
        plumbing::entries::ENTRIES,
        plumbing::entries::run::ENTRIES,
        plumbing::entries::part::ENTRIES,
        plumbing::year::entries::ENTRIES,
        plumbing::entries::service::ENTRIES,
        plumbing::money::entries::ENTRIES,
        safety::entries::ENTRIES,
        safety::entries::shop::ENTRIES,
        safety::entries::outdoors::ENTRIES,
        safety::entries::office::ENTRIES,
        safety::entries::water::ENTRIES,
        safety::entries::taps::ENTRIES,
        commissioning::entries::ENTRIES,
        commissioning::sensor::ENTRIES,
        commissioning::filling::entries::ENTRIES,
        commissioning::comparison::ENTRIES,
        commissioning::control::ENTRIES,
        commissioning::functional::entries::ENTRIES,
        commissioning::log_entries::ENTRIES,
        commissioning::upkeep::ENTRIES,
    ]
    .concat()
});

static ENTRY_BY_ID: LazyLock<BTreeMap<&'static str, &'static EntrySpec>> =
    LazyLock::new(|| ENTRIES.iter().map(|spec| (spec.id, *spec)).collect());

static FIGURES: LazyLock<Vec<&'static Figure>> = LazyLock::new(|| {
    [
        site::rows::FIGURES,
        site::rows::weather::FIGURES,
        site::rows::plane::FIGURES,
        absorber::rows::FIGURES,
        absorber::detail::FIGURES,
        absorber::joints::FIGURES,
        absorber::fits::FIGURES,
        absorber::suits::FIGURES,
        absorber::flow::FIGURES,
        absorber::quantities::FIGURES,
        absorber::cutting::FIGURES,
        absorber::header_cuts::FIGURES,
        absorber::offcuts::FIGURES,
        absorber::options::FIGURES,
        absorber::sheets::FIGURES,
        absorber::jigs::FIGURES,
        absorber::joint_log::FIGURES,
        absorber::supplies::FIGURES,
        absorber::hours::FIGURES,
        absorber::as_built::FIGURES,
        enclosure::rows::FIGURES,
        enclosure::glass::rows::FIGURES,
        enclosure::capping::rows::FIGURES,
        enclosure::links::rows::FIGURES,
        enclosure::loads::rows::FIGURES,
        enclosure::rack::rows::FIGURES,
        enclosure::rack::desk::FIGURES,
        enclosure::chain::FIGURES,
        materials::rows::FIGURES,
        enclosure::joinery::FIGURES,
        enclosure::openings::FIGURES,
        enclosure::screws::FIGURES,
        enclosure::second_layer::FIGURES,
        enclosure::breathing::FIGURES,
        enclosure::cutting::FIGURES,
        enclosure::sheets::FIGURES,
        waits::FIGURES,
        plumbing::rows::FIGURES,
        plumbing::layout::FIGURES,
        plumbing::year::rows::FIGURES,
        plumbing::year::extreme_rows::FIGURES,
        plumbing::flow_rows::FIGURES,
        plumbing::pump_label::FIGURES,
        plumbing::pressure_rows::FIGURES,
        plumbing::money::rows::FIGURES,
        safety::rows::FIGURES,
        safety::metals::FIGURES,
        safety::outdoors::FIGURES,
        safety::relief::FIGURES,
        safety::season::FIGURES,
        commissioning::rows::FIGURES,
        commissioning::rules::FIGURES,
        commissioning::filling::FIGURES,
        commissioning::comparison::FIGURES,
        commissioning::control::FIGURES,
        commissioning::night::FIGURES,
        commissioning::functional::FIGURES,
        commissioning::log_rows::FIGURES,
        commissioning::upkeep::FIGURES,
    ]
    .into_iter()
    .flatten()
    .collect()
});

static FIGURE_BY_ID: LazyLock<BTreeMap<&'static str, &'static Figure>> =
    LazyLock::new(|| FIGURES.iter().map(|figure| (figure.id, *figure)).collect());

static CHECKS: LazyLock<Vec<&'static Check>> = LazyLock::new(|| {
    [
        site::checks::CHECKS,
        site::weather_checks::CHECKS,
        site::surroundings_checks::CHECKS,
        site::water_checks::CHECKS,
        absorber::checks::CHECKS,
        absorber::detail::CHECKS,
        absorber::joints::CHECKS,
        absorber::fits::CHECKS,
        absorber::suits::CHECKS,
        absorber::options::CHECKS,
        absorber::sheets::CHECKS,
        absorber::joint_log::CHECKS,
        absorber::as_built::CHECKS,
        absorber::flow::CHECKS,
        enclosure::checks::CHECKS,
        enclosure::joinery::CHECKS,
        enclosure::openings::CHECKS,
        enclosure::screws::CHECKS,
        enclosure::glass::rows::CHECKS,
        enclosure::capping::rows::CHECKS,
        enclosure::links::rows::CHECKS,
        enclosure::rack::checks::CHECKS,
        enclosure::rack::desk::CHECKS,
        enclosure::chain::CHECKS,
        enclosure::second_layer::CHECKS,
        enclosure::breathing::CHECKS,
        plumbing::checks::CHECKS,
        plumbing::layout::CHECKS,
        plumbing::year::checks::CHECKS,
        plumbing::flow_rows::CHECKS,
        plumbing::pump_label::CHECKS,
        plumbing::pressure_checks::CHECKS,
        plumbing::run_insulation::CHECKS,
        safety::checks::CHECKS,
        safety::taps::CHECKS,
        safety::metals::CHECKS,
        safety::relief::CHECKS,
        safety::potable::CHECKS,
        safety::season::CHECKS,
        safety::shop::CHECKS,
        safety::outdoors::CHECKS,
        safety::electrical::CHECKS,
        safety::office::CHECKS,
        commissioning::checks::CHECKS,
        commissioning::filling::CHECKS,
        commissioning::comparison::CHECKS,
        commissioning::control::CHECKS,
        commissioning::functional::CHECKS,
        commissioning::log_checks::CHECKS,
        commissioning::upkeep::CHECKS,
    ]
    .into_iter()
    .flatten()
    .collect()
});

static STEPS: LazyLock<Vec<&'static Step>> = LazyLock::new(|| {
    [
        site::steps::STEPS,
        absorber::steps::STEPS,
        enclosure::steps::STEPS,
        enclosure::capping::rows::STEPS,
        enclosure::rack::steps::STEPS,
        enclosure::links::rows::STEPS,
        plumbing::steps::STEPS,
        safety::steps::STEPS,
        commissioning::steps::STEPS,
        commissioning::functional::steps::STEPS,
        commissioning::steps::LAST,
    ]
    .into_iter()
    .flatten()
    .collect()
});

/// All declared entries, in the order of the stages.
pub fn entries() -> &'static [&'static EntrySpec] {
    &ENTRIES
}

/// All declared figures that are computed, in the order of the stages.
pub fn figures() -> &'static [&'static Figure] {
    &FIGURES
}

/// All declared checks.
pub fn checks() -> &'static [&'static Check] {
    &CHECKS
}

/// All declared steps.
pub fn steps() -> &'static [&'static Step] {
    &STEPS
}

/// The entry of an id; the id of a repeated row finds the declaration with `*`.
pub fn entry(id: &str) -> Option<&'static EntrySpec> {
    ENTRY_BY_ID.get(id).copied().or_else(|| ENTRIES.iter().find(|spec| spec.row_key(id).is_some()).copied())
}

/// Whether an entry belongs to the place, so that another place needs its own: all of the site but the tilt, and
/// whatever says so where it is declared.
pub fn is_of_place(spec: &EntrySpec) -> bool {
    spec.of_place || (Stage::of_id(spec.id) == Some(Stage::Site) && spec.id != site::entries::TILT.spec.id)
}

/// The figure of an id, and the key within its axis: `absorber.hole.7` gives the holes and `7`, `absorber.hole` the
/// holes and nothing.
pub fn figure(id: &str) -> Option<(&'static Figure, &str)> {
    if let Some(figure) = FIGURE_BY_ID.get(id) {
        return Some((figure, ""));
    }
    let (stem, key) = id.rsplit_once('.')?;
    let figure = FIGURE_BY_ID.get(stem)?;
    figure.axis.is_some_and(|axis| axis.takes(key)).then_some((*figure, key))
}

/// The check of an id.
pub fn check(id: &str) -> Option<&'static Check> {
    CHECKS.iter().find(|check| check.id == id).copied()
}

/// The step of an id.
pub fn step(id: &str) -> Option<&'static Step> {
    STEPS.iter().find(|step| step.id == id).copied()
}

/// Whether a reading of this id makes sense: it is an entry or a computed figure with one value.
pub fn is_measurable(id: &str) -> bool {
    entry(id).is_some_and(|spec| Stage::of_id(spec.id).is_some())
        || figure(id).is_some_and(|(figure, key)| figure.axis.is_some() != key.is_empty())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_check_is_called_like_a_step_and_a_firm_order_is_an_order() {
        for step in steps() {
            assert!(check(step.id).is_none(), "{}", step.id);
            assert!(step.firm.iter().all(|id| step.after.contains(id)), "{}", step.id);
        }
    }

    #[test]
    fn keys_of_an_axis_are_taken_as_written_or_not_at_all() {
        assert_eq!(figure("absorber.hole.7").unwrap().1, "7");
        assert_eq!(figure("site.plane_month.12").unwrap().1, "12");
        for id in
            ["site.plane_month.0", "site.plane_month.13", "site.plane_month.01", "absorber.hole.x", "absorber.area.1"]
        {
            assert!(figure(id).is_none(), "{id}");
        }
        assert!(is_measurable("absorber.area") && is_measurable("absorber.hole.7") && !is_measurable("absorber.hole"));
    }
}
