//! The materials book: one bill for the whole project, gathered from the demands of all stages.
//!
//! Which figure comes from where: `rows`; lines are made and counted in `bill`. What a stage needs lives in its own
//! folder, see `stage::demands`; how pieces are cut from stock lives with the cutting plans.

pub mod bill;
pub mod entries;
pub mod rows;

use super::{Group, absorber, enclosure, plumbing};

pub use bill::{Bill, Line};

/// The bill.
pub static BILL: Group = Group {
    name: "the bill of materials",
    entries: &[
        "materials.*.item",
        "materials.*.shelf",
        "materials.*.needed",
        "materials.*.scrap",
        "materials.*.length",
        "materials.*.width",
        "materials.*.mass",
        "materials.*.volume",
        "materials.*.pieces",
        "materials.*.on_hand",
        "materials.*.bought",
        "materials.*.price",
        "materials.*.paid",
        "materials.*.date",
        "materials.*.source",
        "project.units",
    ],
    groups: &[
        &absorber::demands::DEMANDS,
        &absorber::jigs::DEMANDS,
        &absorber::supplies::DEMANDS,
        &enclosure::demands::DEMANDS,
        &enclosure::capping::DEMANDS,
        &enclosure::rack::demands::DEMANDS,
        &enclosure::links::DEMANDS,
        &plumbing::demands::DEMANDS,
    ],
};

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stage::demands::SOURCES;

    #[test]
    fn the_bill_reads_what_its_sources_read() {
        let names =
            |groups: &mut dyn Iterator<Item = &'static Group>| groups.map(|group| group.name).collect::<Vec<_>>();
        assert_eq!(
            names(&mut BILL.groups.iter().copied()),
            names(&mut SOURCES.iter().map(|source| source.group)),
            "whoever adds a source adds its group to the bill"
        );
    }
}
