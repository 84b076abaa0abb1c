//! Filler and cans, and what the remaining panels still need by what the first ones really took.
//!
//! Solder and paint of one harp by geometry live in `quantities`, hours of work in `hours`.

use super::HARP;
use super::entries::{self as e, Filler, Joint};
use super::geometry::Harp;
use super::joints::{self, JOINT_GAP};
use super::quantities::QUANTITIES;
use crate::handbook::{fittings, solder};
use crate::model::{Demand, Entry, EntrySpec, Fig, Fold, Inputs, PanelLetter, Shelf, TradeUnits, Why};
use crate::physics::solder_joint::wire_length;
use crate::stage::{Figure, Group, Solution};
use crate::units::si::{Dimension, Length, Mass, MassDensity, Volume};
use crate::units::{Kind, Quantity};
use std::f64::consts::PI;

/// Diameter of a brazing rod.
pub static ROD_DIAMETER: Entry<Length> = Entry::quantity("absorber.rod_diameter", "brazing rod, diameter")
    .why("of the rods that are bought (2.4 mm, from memory)")
    .hard(0.0005, 0.01)
    .usual(0.0016, 0.0032)
    .default("2.4 mm");

/// Length of a brazing rod.
pub static ROD_LENGTH: Entry<Length> = Entry::quantity("absorber.rod_length", "brazing rod, length")
    .why("of one rod (500 mm, from memory)")
    .hard(0.05, 2.0)
    .usual(0.25, 1.0)
    .default("500 mm");

/// Volume of a can of paint.
pub static PAINT_CAN: Entry<Volume> = Entry::quantity("absorber.paint_can", "one can of paint")
    .why("as it is sold (0.75 L, from memory)")
    .hard(0.000_05, 0.05)
    .usual(0.0002, 0.005)
    .default("0.75 L");

/// Solder in the shop.
pub static SOLDER_AT_HAND: Entry<Mass> = Entry::quantity("absorber.solder_at_hand", "solder in the shop")
    .why("on the scale, reel taken off")
    .hard(0.0, 1000.0)
    .default("0 kg");

/// Flux in the shop.
pub static FLUX_AT_HAND: Entry<Mass> = Entry::quantity("absorber.flux_at_hand", "flux in the shop")
    .why("on the scale, tin taken off")
    .hard(0.0, 1000.0)
    .default("0 kg");

/// Solder that a panel took.
pub static SOLDER_USED: Entry<Mass> = Entry::quantity("absorber.solder_used", "solder used on the sheet")
    .why("the reel before less the reel after; it foretells the next panel better than any formula")
    .hard(0.0, 100.0)
    .per_panel()
    .measured(Fold::Latest);

/// Flux that a panel took.
pub static FLUX_USED: Entry<Mass> = Entry::quantity("absorber.flux_used", "flux used on the sheet")
    .why("the tin before less the tin after")
    .hard(0.0, 100.0)
    .per_panel()
    .measured(Fold::Latest);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &ROD_DIAMETER.spec,
    &ROD_LENGTH.spec,
    &PAINT_CAN.spec,
    &SOLDER_AT_HAND.spec,
    &FLUX_AT_HAND.spec,
    &SOLDER_USED.spec,
    &FLUX_USED.spec,
];

/// Filler of the pressure joints.
static FILLER: Group = Group {
    name: "filler of the pressure joints",
    entries: &["absorber.joint", "absorber.joint_gap", "absorber.cup_depth", "absorber.header_cup_depth"],
    groups: &[&HARP],
};

static FILLER_MASS: Group = Group {
    name: "mass of that filler",
    entries: &["absorber.header_filler", "absorber.header_alloy"],
    groups: &[&FILLER],
};

static RODS: Group = Group {
    name: "brazing rods",
    entries: &["absorber.header_filler", "absorber.rod_diameter", "absorber.rod_length"],
    groups: &[&FILLER],
};

static CANS: Group = Group { name: "cans of paint", entries: &["absorber.paint_can"], groups: &[&QUANTITIES] };

static SOLDER: Group =
    Group { name: "solder of the remaining panels", entries: &["absorber.solder_used"], groups: &[&QUANTITIES] };

static SOLDER_BUY: Group =
    Group { name: "solder to be bought", entries: &["absorber.solder_at_hand"], groups: &[&SOLDER] };

static FLUX: Group =
    Group { name: "flux of the remaining panels", entries: &["absorber.flux_used"], groups: &[&QUANTITIES] };

static FLUX_BUY: Group = Group { name: "flux to be bought", entries: &["absorber.flux_at_hand"], groups: &[&FLUX] };

/// How much more filler is bought than the bare gap holds (common practice, no source).
const BOUGHT: f64 = 2.0;
/// Density of copper-phosphorus filler, kg/m³ (from memory).
const BRAZE_DENSITY: f64 = 8000.0;
/// Diameter of the usual solder wire, 1/8 in.
const WIRE: f64 = 0.003_175;

fn harp(s: &Solution) -> Fig<&Harp> {
    s.absorber.harp.as_ref().map_err(Clone::clone)
}

/// Filler of all pressure joints of one panel, twice the bare gap: π × diameter × lap × gap at each place.
fn filler(s: &Solution) -> Fig<Volume> {
    let harp = harp(s)?;
    let gap = s.inputs.get(&JOINT_GAP)?;
    let ring = |diameter: Length, lap: Length| Volume::from_si(PI * (diameter * lap * gap).si());
    let risers = harp.riser_count as f64 * 2.0;
    let bare = match s.inputs.get(&e::JOINT)? {
        Joint::Tee => {
            ring(harp.riser_outer_diameter, joints::riser_cup(&s.inputs)?) * risers
                + ring(harp.header.od, joints::header_cup(&s.inputs)?) * (risers * 2.0)
        }
        Joint::Collar => ring(harp.riser_outer_diameter, fittings::least_collar(harp.header.wall)) * risers,
        Joint::Drilled => ring(harp.riser_outer_diameter, harp.header.wall) * risers,
    };
    Ok(bare * BOUGHT)
}

fn filler_density(inputs: &Inputs) -> Fig<MassDensity> {
    if inputs.get(&e::HEADER_FILLER)? == Filler::Brazed {
        return Ok(MassDensity::from_si(BRAZE_DENSITY));
    }
    let name = inputs.get(&super::suits::HEADER_ALLOY)?;
    let density = solder::alloys().get(&name).and_then(|alloy| alloy.density);
    density.ok_or_else(|| Why::out_of_range(format_args!("the handbook gives no density for {name}")))
}

fn panels(inputs: &Inputs) -> usize {
    inputs.panels().len().max(1)
}

/// A count of whole things that hold a share.
fn whole(number: f64) -> Quantity {
    Quantity::new(Kind::Count, number.ceil())
}

/// What one panel takes: the mean of the panels that are done, or what was reckoned.
fn each<Q: Dimension + Copy>(done: &[(PanelLetter, Q)], reckoned: impl FnOnce() -> Fig<Q>) -> Fig<Q> {
    if done.is_empty() {
        return reckoned();
    }
    let sum: f64 = done.iter().map(|(_, used)| used.si()).sum();
    Ok(Q::from_si(sum / done.len() as f64))
}

/// Panels that have no such reading yet.
fn left<Q>(s: &Solution, done: &[(PanelLetter, Q)]) -> f64 {
    panels(&s.inputs).saturating_sub(done.len()) as f64
}

fn solder_each(s: &Solution) -> Fig<Mass> {
    let reckoned = || s.absorber.quantities.clone()?.solder_mass;
    each(&s.inputs.of_panels(&SOLDER_USED), reckoned)
}

fn solder_left(s: &Solution) -> Fig<Mass> {
    Ok(solder_each(s)? * left(s, &s.inputs.of_panels(&SOLDER_USED)))
}

fn flux_left(s: &Solution) -> Fig<Mass> {
    let done = s.inputs.of_panels(&FLUX_USED);
    let reckoned = || s.absorber.quantities.clone()?.flux_mass;
    Ok(each(&done, reckoned)? * left(s, &done))
}

/// What is needed beyond what lies in the shop.
fn beyond(needed: Mass, at_hand: Mass) -> Mass {
    if at_hand < needed { needed - at_hand } else { Mass::from_si(0.0) }
}

/// What the list of the joints reads.
pub static DEMANDS: Group = Group {
    name: "what the pressure joints need",
    entries: &["absorber.riser_tube", "absorber.header_tube"],
    groups: &[&FILLER_MASS],
};

/// Filler of the pressure joints, and the tees, for all panels.
pub fn demands(s: &Solution) -> Fig<Vec<Demand>> {
    let panels = panels(&s.inputs) as f64;
    let named = s.inputs.given(&super::suits::HEADER_ALLOY)?;
    let item = match s.inputs.get(&e::HEADER_FILLER)? {
        Filler::Brazed => format!("brazing rod, {}", named.as_deref().unwrap_or("copper-phosphorus")),
        Filler::Soldered => format!("solder, {}", named.as_deref().unwrap_or("for pressure joints")),
    };
    let mass = filler(s)? * filler_density(&s.inputs)? * panels;
    let purpose = "header and riser joints";
    let quantity = mass.into();
    let mut list = vec![Demand { key: "joint-filler", item, shelf: Shelf::Soldering, quantity, purpose, scrap: 0.0 }];
    if s.inputs.get(&e::JOINT)? == Joint::Tee {
        let item =
            format!("tee, {} with a branch for {}", s.inputs.get(&e::HEADER_TUBE)?, s.inputs.get(&e::RISER_TUBE)?);
        let quantity = Quantity::new(Kind::Count, harp(s)?.riser_count as f64 * 2.0 * panels);
        list.push(Demand { key: "tees", item, shelf: Shelf::Plumbing, quantity, purpose, scrap: 0.0 });
    }
    Ok(list)
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("absorber.filler_volume", "filler of the joints, one panel", Kind::Volume, &FILLER, |s, _| {
        Ok(filler(s)?.into())
    })
    .by(
        "joint-filler",
        "2 × π × diameter × lap × {gap} at each place that takes filler",
        &[("gap", "absorber.joint_gap")],
    ),
    Figure::new("absorber.filler_mass", "the same by mass", Kind::Mass, &FILLER_MASS, |s, _| {
        Ok((filler(s)? * filler_density(&s.inputs)?).into())
    })
    .by(
        "joint-filler",
        "{V} × density: 8000 kg/m³ for Cu-P, the alloy's for solder",
        &[("V", "absorber.filler_volume")],
    ),
    Figure::new("absorber.filler_wire", "filler as 1/8 in wire", Kind::Length, &FILLER, |s, _| {
        Ok(wire_length(filler(s)?, Length::from_si(WIRE)).map_err(Why::out_of_range)?.into())
    })
    .shown_in(TradeUnits::SITE)
    .by("joint-filler", "{V} / (π (1/8 in)²/4)", &[("V", "absorber.filler_volume")]),
    Figure::new("absorber.braze_rods", "brazing rods, all panels", Kind::Count, &RODS, |s, _| {
        if s.inputs.get(&e::HEADER_FILLER)? == Filler::Soldered {
            return Err(Why::out_of_range("the joints are soldered"));
        }
        let length = wire_length(filler(s)?, s.inputs.get(&ROD_DIAMETER)?).map_err(Why::out_of_range)?;
        let rods = length.si() * panels(&s.inputs) as f64 / s.inputs.get(&ROD_LENGTH)?.si();
        Ok(whole(rods).into())
    })
    .by(
        "joint-filler",
        "{V} × panels / (π {d}²/4 × {l}), rounded up",
        &[("V", "absorber.filler_volume"), ("d", "absorber.rod_diameter"), ("l", "absorber.rod_length")],
    ),
    Figure::new("absorber.paint_cans", "cans of paint, all panels", Kind::Count, &CANS, |s, _| {
        let paint = s.absorber.quantities.clone()?.paint.si() * panels(&s.inputs) as f64;
        Ok(whole(paint / s.inputs.get(&PAINT_CAN)?.si()).into())
    })
    .by(
        "paint",
        "{paint} × panels / {can}, rounded up",
        &[("paint", "absorber.paint"), ("can", "absorber.paint_can")],
    ),
    Figure::new("absorber.solder_each", "solder for one more sheet", Kind::Mass, &SOLDER, |s, _| {
        Ok(solder_each(s)?.into())
    })
    .by(
        "used-so-far",
        "mean of the panels that are done, else {reckoned}",
        &[("reckoned", "absorber.solder_mass")],
    ),
    Figure::new("absorber.solder_left", "solder for the remaining sheets", Kind::Mass, &SOLDER, |s, _| {
        Ok(solder_left(s)?.into())
    })
    .by("used-so-far", "{each} × panels without a reading", &[("each", "absorber.solder_each")]),
    Figure::new("absorber.solder_to_buy", "solder still to be bought", Kind::Mass, &SOLDER_BUY, |s, _| {
        Ok(beyond(solder_left(s)?, s.inputs.get(&SOLDER_AT_HAND)?).into())
    })
    .by(
        "used-so-far",
        "{need} − {shop}, nothing if the shop has more",
        &[("need", "absorber.solder_left"), ("shop", "absorber.solder_at_hand")],
    ),
    Figure::new("absorber.flux_left", "flux for the remaining sheets", Kind::Mass, &FLUX, |s, _| {
        Ok(flux_left(s)?.into())
    })
    .by(
        "used-so-far",
        "mean of the panels that are done, else {reckoned}, × panels without a reading",
        &[("reckoned", "absorber.flux_mass")],
    ),
    Figure::new("absorber.flux_to_buy", "flux still to be bought", Kind::Mass, &FLUX_BUY, |s, _| {
        Ok(beyond(flux_left(s)?, s.inputs.get(&FLUX_AT_HAND)?).into())
    })
    .by(
        "used-so-far",
        "{need} − {shop}, nothing if the shop has more",
        &[("need", "absorber.flux_left"), ("shop", "absorber.flux_at_hand")],
    ),
];
