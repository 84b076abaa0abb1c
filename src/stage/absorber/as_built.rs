//! The harp as it came out: readings against the drawing with their tolerances, and what they cost in heat.
//!
//! The readings themselves are entries of the stage; how they are laid over the drawing lives in `solve`.

use super::entries as e;
use super::geometry::{self, Harp};
use super::supplies::SOLDER_USED;
use super::{HARP, HEAT};
use crate::handbook::tube;
use crate::model::inputs::Origin;
use crate::model::{Entry, EntrySpec, Fig, Fold, Judgement, Verdict, Why};
use crate::physics::collector::OperatingPoint;
use crate::stage::worst::worst;
use crate::stage::{Check, Figure, Group, Severity, Solution, enclosure};
use crate::units::si::{Dimension, Length, Mass, Ratio};
use crate::units::{HasKind, Kind, Quantity};

/// The longest riser.
pub static CUT_LONGEST: Entry<Length> = Entry::quantity("absorber.cut_longest", "longest riser")
    .why("of all risers of the panel, rule along the tube")
    .hard(0.05, 10.0)
    .per_panel()
    .measured(Fold::Largest);

/// The shortest riser.
pub static CUT_SHORTEST: Entry<Length> = Entry::quantity("absorber.cut_shortest", "shortest riser")
    .why("of all risers of the panel")
    .hard(0.05, 10.0)
    .per_panel()
    .measured(Fold::Smallest);

/// Wetted share of the coupon.
pub static COUPON_WETTED: Entry<Ratio> = Entry::percent("absorber.coupon_wetted", "coupon wetted")
    .why("share of the coupon's line that held solder when it was cut open or pulled")
    .measured(Fold::Smallest);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[&CUT_LONGEST.spec, &CUT_SHORTEST.spec, &COUPON_WETTED.spec];

static SPREAD: Group =
    Group { name: "riser lengths as cut", entries: &["absorber.cut_longest", "absorber.cut_shortest"], groups: &[] };

fn harp(s: &Solution) -> Fig<&Harp> {
    s.absorber.harp.as_ref().map_err(Clone::clone)
}

/// The working point of the same panel without the readings of what was drawn.
fn drawn(s: &Solution) -> Fig<OperatingPoint> {
    let inputs = s.inputs.as_designed();
    let harp = geometry::harp(&inputs);
    let timber_box = enclosure::timber::timber_box(&inputs, &harp);
    let collector = super::collector(&inputs, &harp?, &super::bond(&inputs), timber_box.as_ref())?;
    super::working_point(&inputs, &super::output(&inputs, &collector)?)
}

fn built(s: &Solution) -> Fig<&OperatingPoint> {
    Ok(&s.absorber.heat.as_ref().map_err(Clone::clone)?.point)
}

/// Share by which a figure of the working point departs from the drawing.
fn change(s: &Solution, of: fn(&OperatingPoint) -> f64) -> Fig<Quantity> {
    Ok(Quantity::percent(of(built(s)?) / of(&drawn(s)?) - 1.0))
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("absorber.pitch_drift", "pitch beyond the drawing", Kind::Length, &HARP, |s, _| {
        let drawn = geometry::harp(&s.inputs.as_designed())?;
        Ok((harp(s)?.riser_pitch - drawn.riser_pitch).into())
    })
    .by("as-built", "pitch as read − pitch as drawn", &[]),
    Figure::new("absorber.cut_spread", "longest less shortest riser", Kind::Length, &SPREAD, |s, _| {
        Ok((s.inputs.get(&CUT_LONGEST)? - s.inputs.get(&CUT_SHORTEST)?).into())
    })
    .by(
        "as-built",
        "{longest} − {shortest}",
        &[("longest", "absorber.cut_longest"), ("shortest", "absorber.cut_shortest")],
    ),
    Figure::new("absorber.fin_change", "fin efficiency against the drawing", Kind::Percent, &HEAT, |s, _| {
        Ok(change(s, |point| point.fin_efficiency)?.into())
    })
    .by("as-built", "{F} by the readings / F of the drawing − 1", &[("F", "absorber.fin_efficiency")]),
    Figure::new("absorber.output_change", "useful heat against the drawing", Kind::Percent, &HEAT, |s, _| {
        Ok(change(s, |point| point.useful_power.si())?.into())
    })
    .by("as-built", "{Q} by the readings / Q of the drawing − 1", &[("Q", "absorber.useful_power")]),
];

/// How far a reading may be off (common practice, no source, unless a standard is named below).
const PITCH: f64 = 0.001;
const CUT: f64 = 0.001;
const SHEET_SHARE: f64 = 0.95;
const BOND_SHARE: f64 = 0.90;
/// Solder below this share of the bare fillet tells of gaps (project rule).
const SOLDER_SHARE: f64 = 0.8;
/// Shortfall of a wall where the standard names none (project rule).
const WALL_SHARE: f64 = 0.9;

/// A reading with its tolerance: caution outside.
fn off<Q: HasKind + Into<Quantity> + Copy>(found: Q, limit: Q, room: f64, part: &str) -> Judgement {
    let margin = Quantity::new(Q::KIND, room);
    Judgement::caution_unless(room >= 0.0).with(found, limit).margin(margin).part(part)
}

fn is_read(s: &Solution, spec: &EntrySpec) -> bool {
    s.inputs.origin(spec.id) == Some(Origin::Reading)
}

fn pitch(s: &Solution) -> Fig<Judgement> {
    let (found, drawn) = (s.inputs.get(&e::RISER_PITCH)?, s.inputs.designed(&e::RISER_PITCH)?);
    Ok(off(found, drawn, PITCH - (found - drawn).abs().si(), "pitch"))
}

fn cut(s: &Solution, entry: &Entry<Length>, part: &str) -> Fig<Judgement> {
    let (found, drawn) = (s.inputs.get(entry)?, harp(s)?.riser_cut.clone()?);
    Ok(off(found, drawn, CUT - (found - drawn).abs().si(), part))
}

fn wall(s: &Solution) -> Fig<Judgement> {
    let name = s.inputs.get(&e::RISER_TUBE)?;
    let size = tube::tube(&name).ok_or_else(|| Why::Invalid(vec![e::RISER_TUBE.spec.id.to_owned()]))?;
    let least = size.wall_tolerance.map_or(size.wall * WALL_SHARE, |tolerance| size.wall - tolerance);
    let found = s.inputs.get(&e::RISER_WALL)?;
    Ok(off(found, least, (found - least).si(), "riser wall"))
}

fn sheet(s: &Solution) -> Fig<Judgement> {
    let found = s.inputs.get(&e::SHEET_THICKNESS)?;
    let least = s.inputs.designed(&e::SHEET_THICKNESS)? * SHEET_SHARE;
    Ok(off(found, least, (found - least).si(), "sheet thickness"))
}

fn bonded(s: &Solution) -> Fig<Judgement> {
    let (found, least) = (s.inputs.get(&e::BOND_LENGTH)?, Ratio::from_si(BOND_SHARE));
    Ok(off(found, least, (found - least).si(), "length soldered"))
}

fn solder_used(s: &Solution) -> Fig<Judgement> {
    let found = s.inputs.get(&SOLDER_USED)?;
    let bought = s.absorber.quantities.clone()?.solder_mass?;
    let bare = bought / (1.0 + s.inputs.get(&e::SOLDER_WASTE)?.si());
    let least: Mass = bare * SOLDER_SHARE;
    Ok(off(found, least, (found - least).si(), "solder used"))
}

/// The worst of what was read on this panel.
fn as_built(s: &Solution) -> Fig<Judgement> {
    type Part = fn(&Solution) -> Fig<Judgement>;
    let parts: [(&EntrySpec, Part); 7] = [
        (&e::RISER_PITCH.spec, pitch),
        (&CUT_LONGEST.spec, |s| cut(s, &CUT_LONGEST, "longest riser")),
        (&CUT_SHORTEST.spec, |s| cut(s, &CUT_SHORTEST, "shortest riser")),
        (&e::RISER_WALL.spec, wall),
        (&e::SHEET_THICKNESS.spec, sheet),
        (&e::BOND_LENGTH.spec, bonded),
        (&SOLDER_USED.spec, solder_used),
    ];
    let read: Vec<Fig<Judgement>> =
        parts.into_iter().filter(|(spec, _)| is_read(s, spec)).map(|(_, judge)| judge(s)).collect();
    if read.is_empty() {
        return Err(Why::missing(e::RISER_PITCH.spec.id));
    }
    worst(read)
}

/// Wetted share of a coupon that is clear and that is at least wanted (project rule).
const WETTED: (f64, f64) = (0.90, 0.75);

fn coupon(s: &Solution) -> Fig<Judgement> {
    let found = s.inputs.get(&COUPON_WETTED)?;
    let verdict = match found.si() {
        share if share >= WETTED.0 => Verdict::Clear,
        share if share >= WETTED.1 => Verdict::Caution,
        _ => Verdict::Stop,
    };
    let limit = Ratio::from_si(WETTED.0);
    Ok(Judgement::of(verdict).with(found, limit).margin(Quantity::percent(found.si() - WETTED.0)))
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("absorber.as-built", "readings against the drawing", Severity::Nuisance, as_built)
        .per_panel()
        .says(
            "{part}: {found} was read, {limit} is drawn or the least; useful heat changes by {absorber.output_change}.",
            "Look at the consequence, then keep it with a note or make the part anew.",
        )
        .blind_to("what was not measured; one reading stands for the whole row")
        .source(
            "wall: ASTM B88 tolerances (verified) or 10 %; pitch and cut 1 mm, sheet 5 %, line 90 %: common practice, no \
             source; solder 80 % of the bare fillet: project rule",
        )
        .needs(&[
            "absorber.pitch",
            "absorber.riser_cut",
            "absorber.cut_spread",
            "absorber.riser_wall",
            "absorber.sheet_thickness",
            "absorber.bond_length",
            "absorber.solder_used",
            "absorber.solder_mass",
        ]),
    Check::new("absorber.coupon-bond", "bond coupon", Severity::Nuisance, coupon)
        .says(
            "{found} of the coupon's line was wetted; {limit} is wanted.",
            "Cleaner metal, fresh flux, heat on the tube; then another coupon.",
        )
        .blind_to("the long line on the panel itself: heat runs away there")
        .source("90 % and 75 %: project rule")
        .needs(&["absorber.coupon_wetted"]),
];
