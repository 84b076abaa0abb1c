//! What the harps ask of the shop: tube, sheet, solder, flux, paint.

use super::entries as a;
use crate::model::{Demand, Fig, Shelf};
use crate::stage::demands::{panels, size};
use crate::stage::{Group, Solution};
use crate::units::si::Dimension;

/// What the list reads.
pub static DEMANDS: Group = Group {
    name: "what the harps need",
    entries: &[
        "absorber.riser_tube",
        "absorber.header_tube",
        "absorber.sheet_metal",
        "absorber.sheet_thickness",
        "absorber.solder",
    ],
    groups: &[&super::CUT, &super::quantities::QUANTITIES],
};

/// Scrap of tube and sheet (common practice, no source).
const TUBE_SCRAP: f64 = 0.05;
const SHEET_SCRAP: f64 = 0.05;
/// Paint that stays in the tin and on the brush (common practice, no source).
const PAINT_SCRAP: f64 = 0.10;

/// The list. Solder is counted without its waste, which is the scrap of its line.
pub fn demands(s: &Solution) -> Fig<Vec<Demand>> {
    let panels = panels(s);
    let harp = s.absorber.harp.as_ref().map_err(Clone::clone)?;
    let quantities = s.absorber.quantities.as_ref().map_err(Clone::clone)?;
    let waste = s.inputs.get(&a::SOLDER_WASTE)?.si();
    let solder = quantities.solder_mass.clone()? / (1.0 + waste);
    Ok(vec![
        Demand {
            key: "riser-tube",
            item: s.inputs.get(&a::RISER_TUBE)?,
            shelf: Shelf::Metal,
            quantity: (harp.riser_cut.clone()? * harp.riser_count as f64 * panels).into(),
            purpose: "risers",
            scrap: TUBE_SCRAP,
        },
        Demand {
            key: "header-tube",
            item: s.inputs.get(&a::HEADER_TUBE)?,
            shelf: Shelf::Metal,
            quantity: (harp.header_length * 2.0 * panels).into(),
            purpose: "headers with stubs",
            scrap: TUBE_SCRAP,
        },
        Demand {
            key: "absorber-sheet",
            item: format!("{}, {}", s.inputs.get(&a::SHEET_METAL)?, size(s.inputs.get(&a::SHEET_THICKNESS)?)),
            shelf: Shelf::Metal,
            quantity: (harp.sheet_width * harp.plate_length * panels).into(),
            purpose: "absorber sheet",
            scrap: SHEET_SCRAP,
        },
        Demand {
            key: "solder",
            item: s.inputs.get(&a::SOLDER)?,
            shelf: Shelf::Soldering,
            quantity: (solder * panels).into(),
            purpose: "bond of sheet and risers, estimate",
            scrap: waste,
        },
        Demand {
            key: "flux",
            item: "flux for that solder".to_owned(),
            shelf: Shelf::Soldering,
            quantity: (quantities.flux_mass.clone()? * panels).into(),
            purpose: "bond of sheet and risers",
            scrap: 0.0,
        },
        Demand {
            key: "paint",
            item: "paint or coating of the plate".to_owned(),
            shelf: Shelf::Paint,
            quantity: (quantities.paint * panels).into(),
            purpose: "blackening",
            scrap: PAINT_SCRAP,
        },
    ])
}
