//! What the rack asks of the shop: rails, brackets, lag screws, clamps.

use super::entries as e;
use super::{MOUNTS, mounts, row};
use crate::model::{Demand, Fig, Shelf};
use crate::stage::demands::size;
use crate::stage::site::entries::surroundings::ROWS;
use crate::stage::{Group, Solution};
use crate::units::{Kind, Quantity};

/// What the list reads.
pub static DEMANDS: Group = Group {
    name: "what the rack needs",
    entries: &[
        "enclosure.lag_diameter",
        "enclosure.lag_length",
        "enclosure.lags",
        "enclosure.clamps",
        "enclosure.mount_kind",
    ],
    groups: &[&MOUNTS],
};

/// Scrap of rails (common practice, no source).
const RAIL_SCRAP: f64 = 0.05;

/// The list.
pub fn demands(s: &Solution) -> Fig<Vec<Demand>> {
    let rows = s.inputs.get(&ROWS)?.max(1) as f64;
    let (row, mounts) = (row(s)?, mounts(s)?);
    let count = |count: f64| Quantity::new(Kind::Count, count);
    let brackets = (mounts.positions.len() * mounts.rails) as f64 * rows;
    let fastening = |key, item, quantity, purpose| Demand {
        key,
        item,
        shelf: Shelf::Fastenings,
        quantity: count(quantity),
        purpose,
        scrap: 0.0,
    };
    let mut list = vec![
        Demand {
            key: "rack-rail",
            item: "rail under the panels".to_owned(),
            shelf: Shelf::Fastenings,
            quantity: (row.length * mounts.rails as f64 * rows).into(),
            purpose: "rack",
            scrap: RAIL_SCRAP,
        },
        fastening("brackets", "feet or brackets, with flashing where they pierce a roof".to_owned(), brackets, "rack"),
        fastening(
            "clamps",
            "clamps of box and rail".to_owned(),
            s.inputs.get(&e::CLAMPS)? as f64 * crate::stage::demands::panels(s),
            "panels on the rack",
        ),
    ];
    if s.inputs.get(&e::MOUNT_KIND)? != e::MountKind::Ground {
        let lags = s.inputs.get(&e::LAGS)? as f64 * brackets;
        let size =
            format!("lag screws, {} × {}", size(s.inputs.get(&e::LAG_DIAMETER)?), size(s.inputs.get(&e::LAG_LENGTH)?));
        list.push(fastening("lags", size, lags, "brackets in the rafters"));
    }
    Ok(list)
}
