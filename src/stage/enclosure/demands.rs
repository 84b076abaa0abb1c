//! What the boxes ask of the shop: timber, board, glass, insulation.

use super::entries as e;
use super::mass;
use super::second_layer::second_layer;
use super::timber::{Part, TimberBox};
use crate::model::{Demand, Fig, Inputs, Shelf};
use crate::stage::demands::{panels, size};
use crate::stage::{Group, Solution};
use crate::units::si::Dimension;
use crate::units::{Quantity, System};

/// What the list reads.
pub static DEMANDS: Group = Group {
    name: "what the boxes need",
    entries: &[
        "enclosure.glass",
        "enclosure.glass_thickness",
        "enclosure.timber",
        "enclosure.insulation",
        "enclosure.back_thickness",
        "enclosure.edge_thickness",
        "enclosure.air_gap",
        "enclosure.second_insulation",
        "enclosure.second_thickness",
    ],
    groups: &[&super::BOX, &super::PANE],
};

/// Scrap of timber, of boards and of insulation (common practice, no source).
const TIMBER_SCRAP: f64 = 0.10;
const BOARD_SCRAP: f64 = 0.10;
const INSULATION_SCRAP: f64 = 0.05;

/// The list.
pub fn demands(s: &Solution) -> Fig<Vec<Demand>> {
    let panels = panels(s);
    let timber_box = s.enclosure.timber_box.as_ref().map_err(Clone::clone)?;
    let mut list = vec![glass(s, panels)?];
    for part in &timber_box.parts {
        list.push(timber(&s.inputs, part, panels)?);
    }
    list.extend(insulation(s, timber_box, panels)?);
    list.extend(second(s, timber_box, panels)?);
    Ok(list)
}

fn glass(s: &Solution, panels: f64) -> Fig<Demand> {
    let pane = s.enclosure.pane.as_ref().map_err(Clone::clone)?;
    Ok(Demand {
        key: "glass",
        item: format!(
            "{} glass, {}, {} × {}",
            s.inputs.value("enclosure.glass")?.text(System::Si),
            size(s.inputs.get(&e::GLASS_THICKNESS)?),
            size(pane.width),
            size(pane.length)
        ),
        shelf: Shelf::Glazing,
        quantity: Quantity::new(crate::units::Kind::Count, panels),
        purpose: "glass",
        scrap: 0.0,
    })
}

fn timber(inputs: &Inputs, part: &Part, panels: f64) -> Fig<Demand> {
    let count = part.count as f64 * panels;
    let length = part.length * count;
    Ok(if part.is_board() {
        Demand {
            key: "back-board",
            item: format!("plywood, {}", size(part.thickness)),
            shelf: Shelf::Timber,
            quantity: (length * part.width).into(),
            purpose: part.name,
            scrap: BOARD_SCRAP,
        }
    } else {
        Demand {
            key: "rail-timber",
            item: format!("{}, {} × {}", inputs.get(&e::TIMBER)?, size(part.thickness), size(part.width)),
            shelf: Shelf::Timber,
            quantity: length.into(),
            purpose: part.name,
            scrap: TIMBER_SCRAP,
        }
    })
}

fn insulation(s: &Solution, timber_box: &TimberBox, panels: f64) -> Fig<Vec<Demand>> {
    let harp = s.absorber.harp.as_ref().map_err(Clone::clone)?;
    let volume = mass::insulation_volume(&s.inputs, harp, timber_box)?;
    let mut list = Vec::new();
    for (key, volume, thickness, purpose) in [
        ("back-insulation", volume.back, s.inputs.get(&e::BACK_THICKNESS)?, "insulation behind"),
        ("edge-insulation", volume.edge, s.inputs.get(&e::EDGE_THICKNESS)?, "insulation at the edge"),
    ] {
        if thickness.si() > 0.0 {
            list.push(Demand {
                key,
                item: format!("{}, {}", s.inputs.get(&e::INSULATION)?, size(thickness)),
                shelf: Shelf::Insulation,
                quantity: (volume / thickness * panels).into(),
                purpose,
                scrap: INSULATION_SCRAP,
            });
        }
    }
    Ok(list)
}

/// The second layer, on the whole of the back board.
fn second(s: &Solution, timber_box: &TimberBox, panels: f64) -> Fig<Option<Demand>> {
    let Some(layer) = second_layer(&s.inputs)? else { return Ok(None) };
    Ok(Some(Demand {
        key: "second-insulation",
        item: format!("{}, {}", layer.material.name, size(layer.thickness)),
        shelf: Shelf::Insulation,
        quantity: (timber_box.inside_length * timber_box.inside_width * panels).into(),
        purpose: "second insulation, on the back board",
        scrap: INSULATION_SCRAP,
    }))
}
