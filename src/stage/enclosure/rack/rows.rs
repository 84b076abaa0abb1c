//! The figures and methods of the rack.

use super::{
    ANCHORS, GROUND, GROUND_WEIGHT, LEGS, MOUNT_DOWN, MOUNT_UP, MOUNTS, PLAN, ROW, SAIL, TILTED, lag, mounts, row,
};
use crate::model::{Fig, Value, Why};
use crate::stage::method::Method;
use crate::stage::{Axis, Figure, Solution};
use crate::units::Kind::{Area, Count, Force, Length, Speed};
use crate::units::Quantity;

const TILT: (&str, &str) = ("β", "site.tilt");
const LENGTH: (&str, &str) = ("L", "enclosure.outside_length");
const D: (&str, &str) = ("D", "enclosure.lag_diameter");

/// Fall of a header that empties and vents by itself, a part of its length (2 cm in a metre, rulings of this project).
const FALL: f64 = 0.02;

fn position(s: &Solution, key: &str) -> Fig<Value> {
    let at: usize = key.parse().map_err(|_| Why::missing("enclosure.mount_spacing"))?;
    let mounts = mounts(s)?;
    let place = at.checked_sub(1).and_then(|index| mounts.positions.get(index));
    Ok((*place.ok_or_else(|| Why::missing("enclosure.mount_spacing"))?).into())
}

fn slope(s: &Solution) -> Fig<Value> {
    let slope = super::rise_over_run(s)?;
    Ok(Value::Text(format!("{:.1} in 12; {:.0} mm in 1 m", slope * 12.0, slope * 1e3)))
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::word("enclosure.rise_over_run", "tilt as rise over run", &TILTED, |s, _| slope(s)).by(
        "tilted-panel",
        "tan {β}",
        &[TILT],
    ),
    Figure::new("enclosure.rise", "rise of the tilted panel", Length, &PLAN, |s, _| Ok(super::rise(s)?.into()))
        .tape()
        .by("tilted-panel", "{L} sin {β}", &[LENGTH, TILT]),
    Figure::new("enclosure.run", "run of the tilted panel", Length, &PLAN, |s, _| Ok(super::run(s)?.into())).tape().by(
        "tilted-panel",
        "{L} cos {β}",
        &[LENGTH, TILT],
    ),
    Figure::new("enclosure.back_legs", "back legs over the front ones", Length, &LEGS, |s, _| {
        Ok(super::back_legs(s)?.into())
    })
    .tape()
    .by("tilted-panel", "{L} sin({β} − slope below); none flush", &[LENGTH, TILT]),
    Figure::new("enclosure.row_panels", "panels in a row", Count, &ROW, |s, _| {
        Ok(Quantity::count(row(s)?.panels).into())
    })
    .by("mounts", "panels / {rows}, rounded up", &[("rows", "site.rows")]),
    Figure::new("enclosure.row_length", "length of a row", Length, &ROW, |s, _| Ok(row(s)?.length.into())).tape().by(
        "mounts",
        "panels × {W} + gaps × {gap}",
        &[("W", "enclosure.outside_width"), ("gap", "enclosure.panel_gap")],
    ),
    Figure::new("enclosure.row_fall", "fall of a row, 2 cm in a metre", Length, &ROW, |s, _| {
        Ok((row(s)?.length * FALL).into())
    })
    .tape()
    .by("mounts", "0.02 × {row}", &[("row", "enclosure.row_length")]),
    Figure::new("enclosure.mounts", "mounts of a row", Count, &MOUNTS, |s, _| {
        let mounts = mounts(s)?;
        Ok(Quantity::count(mounts.positions.len() * mounts.rails).into())
    })
    .by(
        "mounts",
        "{row} / {spacing}, rounded up, two at least, × {rails}",
        &[("row", "enclosure.row_length"), ("spacing", "enclosure.mount_spacing"), ("rails", "enclosure.rails")],
    ),
    Figure::new("enclosure.mount_position", "mount", Length, &MOUNTS, position).axis(Axis::Mount).tape().by(
        "mounts",
        "overhang + k × {spacing}",
        &[("spacing", "enclosure.mount_spacing")],
    ),
    Figure::new("enclosure.mount_area", "area of the most loaded mount", Area, &MOUNTS, |s, _| {
        Ok(mounts(s)?.area.into())
    })
    .by("mounts", "longest share of rail × {L} / {rails}", &[LENGTH, ("rails", "enclosure.rails")]),
    Figure::new("enclosure.mount_up", "uplift of the most loaded mount", Force, &MOUNT_UP, |s, _| {
        Ok(super::mount_up(s)?.into())
    })
    .by("mount-loads", "{up} × {A}", &[("up", "enclosure.net_up"), ("A", "enclosure.mount_area")]),
    Figure::new("enclosure.mount_down", "load of the most loaded mount", Force, &MOUNT_DOWN, |s, _| {
        Ok(super::mount_down(s)?.into())
    })
    .by("mount-loads", "{down} × {A}", &[("down", "enclosure.net_down"), ("A", "enclosure.mount_area")]),
    Figure::new("enclosure.lag_holds", "lag screws of one mount hold", Force, &lag::LAG, |s, _| {
        Ok(lag::holds(&s.inputs)?.into())
    })
    .by(
        "lag-withdrawal",
        "{n} × 1800 G^1.5 {D}^0.75 lb/in × {thread} × 1.6 × moisture",
        &[("n", "enclosure.lags"), D, ("thread", "enclosure.lag_thread")],
    ),
    Figure::new("enclosure.lag_pilot_least", "pilot hole, smallest", Length, &lag::PILOT, |s, _| {
        Ok(lag::pilot(&s.inputs)?.0.into())
    })
    .tape()
    .by("lag-holes", "0.40 {D}; 0.60 or 0.65 in denser timber", &[D]),
    Figure::new("enclosure.lag_pilot_most", "pilot hole, largest", Length, &lag::PILOT, |s, _| {
        Ok(lag::pilot(&s.inputs)?.1.into())
    })
    .tape()
    .by("lag-holes", "0.70 {D}; 0.75 or 0.85 in denser timber", &[D]),
    Figure::new("enclosure.lag_edge", "lag to the edge of the timber", Length, &lag::DISTANCES, |s, _| {
        Ok(lag::edge(&s.inputs)?.into())
    })
    .tape()
    .by("lag-holes", "1.5 {D} at least, axis to edge", &[D]),
    Figure::new("enclosure.lag_end", "lag to the end of the timber", Length, &lag::DISTANCES, |s, _| {
        Ok(lag::end(&s.inputs)?.into())
    })
    .tape()
    .by("lag-holes", "7 {D} at least", &[D]),
    Figure::new("enclosure.rack_moment_weight", "weight against overturning", Force, &GROUND, |s, _| {
        Ok(super::ground(s)?.needed.against_overturning.into())
    })
    .by(
        "ground-rack",
        "2 (H h + U x)/(0.6 {B}), H and U of 0.6 {W}",
        &[("B", "enclosure.rack_base"), ("W", "enclosure.net_suction")],
    ),
    Figure::new("enclosure.rack_slide_weight", "weight against sliding", Force, &GROUND, |s, _| {
        Ok(super::ground(s)?.needed.against_sliding.into())
    })
    .by("ground-rack", "(H/{μ} + U)/0.6", &[("μ", "enclosure.ground_friction")]),
    Figure::new("enclosure.rack_weight", "weight of panel, rack, ballast", Force, &GROUND_WEIGHT, |s, _| {
        Ok(super::ground_weight(s)?.into())
    })
    .by(
        "ground-rack",
        "({panel} + {rack} + {ballast}) g, empty",
        &[("panel", "enclosure.mass_dry"), ("rack", "enclosure.rack_mass"), ("ballast", "enclosure.ballast")],
    ),
    Figure::new("enclosure.anchor_pull", "pull on a rear anchor", Force, &ANCHORS, |s, _| {
        Ok(super::anchor_forces(s)?.pull.into())
    })
    .by(
        "ground-rack",
        "larger of moment/B − 0.6 {W}/2 and U − 0.6 {W}, over half of {n}",
        &[("W", "enclosure.rack_weight"), ("n", "enclosure.anchors")],
    ),
    Figure::new("enclosure.anchor_side", "sideways on an anchor", Force, &ANCHORS, |s, _| {
        Ok(super::anchor_forces(s)?.shear.into())
    })
    .by("ground-rack", "H / {n}, no friction", &[("n", "enclosure.anchors")]),
    Figure::new("enclosure.lift_wind", "wind at which nobody lifts", Speed, &SAIL, |s, _| {
        Ok(super::lift_wind(s)?.into())
    })
    .by(
        "lift-wind",
        "√({n} × 20 N/(0.613 × 1.2 × {A}))",
        &[("n", "enclosure.lifters"), ("A", "enclosure.outside_area")],
    ),
];

/// The methods of this file.
pub static METHODS: &[Method] = &[
    Method {
        id: "tilted-panel",
        title: "The tilted panel",
        what: "Sides of the right triangle under a panel whose risers run up the slope.",
        source: "geometry",
        code: "stage::enclosure::rack",
    },
    Method {
        id: "mounts",
        title: "Mounts of a row",
        what: "As few mounts along a rail as the spacing allows, both ends overhanging alike; each carries the rail half way \
               to its neighbours, an end mount the overhang too. Rails share the slope equally: where they do not, weigh \
               them by their areas. Running positions stand from the left end of the row. Screening only: local code and a \
               licensed engineer decide.",
        source: "tributary areas; geometry",
        code: "stage::enclosure::rack::mounts",
    },
    Method {
        id: "mount-loads",
        title: "Loads of a mount",
        what: "Net pressure of the governing combination times the area of the most loaded mount, across the panel. \
               Edge zones carry more: take the coefficient of the zone. Screening only: local code and a licensed engineer \
               decide.",
        source: "one uplift model of this program",
        code: "stage::enclosure::rack",
    },
    Method {
        id: "lag-withdrawal",
        title: "Lag screws in withdrawal",
        what: "Allowable withdrawal from side grain for each inch of thread in sound wood, without the tip, with the factors \
               of wind (1.6) and wet timber (0.7), below 38 °C. Sideways load, loads together, the rafter and its ties are \
               not computed. Screening only: local code and a licensed engineer decide.",
        source: "NDS table 12.2A (verified; the formula gives all its entries); factors and specific gravities from memory",
        code: "physics::lag, stage::enclosure::rack::lag",
    },
    Method {
        id: "lag-holes",
        title: "Holes and distances of lag screws",
        what: "Pilot hole for the thread by the density of the timber, the shank's hole as wide as the shank; 1.5 diameters \
               to the edge, 7 to the end under tension in softwood, 4 diameters of thread at least. Screening only: local \
               code and a licensed engineer decide.",
        source: "NDS, from memory",
        code: "stage::enclosure::rack::lag",
    },
    Method {
        id: "ground-rack",
        title: "Rack on the ground",
        what: "Balance of a rigid rack with the empty panel under 0.6 W from behind: turning about the front feet, sliding, \
               lifting; 0.6 of the weight helps. Anchors take what the weight does not hold. Frost heave, bearing of the \
               soil, earthquake and the rack's own strength are not computed: questions for the engineer. Screening only: \
               local code and a licensed engineer decide.",
        source: "statics; factors of allowable stress design from memory",
        code: "physics::rack, stage::enclosure::rack",
    },
    Method {
        id: "lift-wind",
        title: "Wind at a lift",
        what: "A panel in the hands is a sail: the wind at which it pushes each person with 20 N (project rule). Gusts are \
               stronger than the mean that is felt. Screening only: local rules decide.",
        source: "drag coefficient 1.2, from memory; 20 N: project rule",
        code: "physics::wind::force_on_panel, stage::enclosure::rack::lift_wind",
    },
];
