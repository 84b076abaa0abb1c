//! What the shop must deliver for all panels of a project, without scrap: tube, sheet, glass, timber, insulation, solder.
//!
//! Lives here: the gathering over the stages. Must not live here: prices, stock lengths, cutting plans.

use super::Solution;
use super::absorber::entries as a;
use super::absorber::geometry::Harp;
use super::enclosure::entries as e;
use super::enclosure::mass;
use crate::model::{Demand, Fig};
use crate::units::si::{Dimension, Length};
use crate::units::{Quantity, System};

/// Everything demanded of the shop; one panel is counted while none is listed.
pub fn demands(s: &Solution) -> Fig<Vec<Demand>> {
    let panels = s.inputs.panels().len().max(1) as f64;
    let harp = s.absorber.harp.clone()?;
    let mut list = absorber_demands(s, &harp, panels)?;
    list.extend(enclosure_demands(s, &harp, panels)?);
    Ok(list)
}

fn absorber_demands(s: &Solution, harp: &Harp, panels: f64) -> Fig<Vec<Demand>> {
    let risers = harp.riser_cut.clone()? * harp.riser_count as f64 * panels;
    let sheet = format!("{}, {}", s.inputs.get(&a::SHEET_METAL)?, size(s.inputs.get(&a::SHEET_THICKNESS)?));
    let quantities = s.absorber.quantities.clone()?;
    let solder = quantities.solder_mass? / (1.0 + s.inputs.get(&a::SOLDER_WASTE)?.si());
    Ok(vec![
        Demand::new(s.inputs.get(&a::RISER_TUBE)?, risers, "risers"),
        Demand::new(s.inputs.get(&a::HEADER_TUBE)?, harp.header_length * 2.0 * panels, "headers with stubs"),
        Demand::new(sheet, harp.sheet_width * harp.sheet_length * panels, "absorber sheet"),
        Demand::new(s.inputs.get(&a::SOLDER)?, solder * panels, "bond of sheet and risers, estimate"),
    ])
}

fn enclosure_demands(s: &Solution, harp: &Harp, panels: f64) -> Fig<Vec<Demand>> {
    let timber_box = s.enclosure.timber_box.clone()?;
    let pane = s.enclosure.pane.clone()?;
    let glass = format!(
        "{} glass, {}, {} × {}",
        s.inputs.value("enclosure.glass")?.text(System::Si),
        size(s.inputs.get(&e::GLASS_THICKNESS)?),
        size(pane.width),
        size(pane.length)
    );
    let mut list = vec![Demand::new(glass, Quantity::number(panels), "glass")];
    for part in &timber_box.parts {
        let count = part.count as f64 * panels;
        list.push(if part.is_board() {
            let item = format!("plywood, {}", size(part.thickness));
            Demand::new(item, part.length * part.width * count, part.name)
        } else {
            let item = format!("{}, {} × {}", s.inputs.get(&e::TIMBER)?, size(part.thickness), size(part.width));
            Demand::new(item, part.length * count, part.name)
        });
    }
    let volume = mass::insulation_volume(&s.inputs, harp, &timber_box)?;
    for (volume, thickness, purpose) in [
        (volume.back, s.inputs.get(&e::BACK_THICKNESS)?, "insulation behind"),
        (volume.edge, s.inputs.get(&e::EDGE_THICKNESS)?, "insulation at the edge"),
    ] {
        if thickness.si() > 0.0 {
            let item = format!("{}, {}", s.inputs.get(&e::INSULATION)?, size(thickness));
            list.push(Demand::new(item, volume / thickness * panels, purpose));
        }
    }
    Ok(list)
}

/// A size in the name of a thing that is bought.
fn size(length: Length) -> String {
    format!("{} mm", (length.si() * 1e5).round() / 100.0)
}
