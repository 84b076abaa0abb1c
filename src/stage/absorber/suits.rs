//! What must suit each other: joints and pressure, metals in contact, paint and solder, pitch and thickness of the sheet.
//!
//! Sizes that must fit live in `fits` and `joints`, stagnation against solder in `checks`.

use super::STAGNATION;
use super::entries::{self as e, Filler};
use crate::handbook::galvanic::{self, AnodicIndex};
use crate::handbook::joint_rating::{self, SizeGroup};
use crate::handbook::solder;
use crate::model::{Entry, EntrySpec, Fig, Judgement, Verdict, Why};
use crate::physics::galvanic::{Contact, Surroundings, compare};
use crate::physics::solder_joint::{JointError, Method, rated_pressure};
use crate::stage::{Check, Figure, Group, Severity, Solution, plumbing};
use crate::units::Kind;
use crate::units::si::{Dimension, Length, Pressure, Temperature, TemperatureInterval, difference};
use crate::units::{HasKind, Quantity};

/// Filler of the pressure joints.
pub static HEADER_ALLOY: Entry<String> =
    Entry::listed("absorber.header_alloy", "filler of the pressure joints", fillers)
        .why("its rating falls with temperature; soldered joints need it, for brazed ones it is for the record");

/// Temperature at which the paint cures.
pub static PAINT_CURE: Entry<Temperature> = Entry::quantity("absorber.paint_cure", "cure of the paint")
    .why("the hottest bake that the can asks for; room temperature for a paint that dries in air")
    .hard(273.15, 800.0);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[&HEADER_ALLOY.spec, &PAINT_CURE.spec];

/// All fillers of the handbook.
pub fn fillers() -> Vec<(&'static str, &'static str)> {
    let solders = solder::alloys().all().iter().map(|alloy| (alloy.name.as_str(), "solder"));
    let brazing = solder::brazing_fillers().all().iter().map(|filler| (filler.name.as_str(), "brazing filler"));
    brazing.chain(solders).collect()
}

static RATING: Group = Group {
    name: "rating of the pressure joints",
    entries: &["absorber.header_filler", "absorber.header_alloy", "absorber.header_tube"],
    groups: &[&STAGNATION],
};

/// The method, and the filler under which the rating tables know it.
fn rated_filler(s: &Solution) -> Fig<(Method, String)> {
    let alloy = s.inputs.given(&HEADER_ALLOY)?;
    let brazing = alloy.as_deref().map(|name| solder::brazing_fillers().get(name).is_some());
    match (s.inputs.get(&e::HEADER_FILLER)?, alloy, brazing) {
        (Filler::Brazed, Some(alloy), Some(false)) => {
            Err(Why::out_of_range(format_args!("the joints are said to be brazed, but {alloy} is a solder")))
        }
        (Filler::Brazed, ..) => Ok((Method::Brazed, "brazed".to_owned())),
        (Filler::Soldered, Some(alloy), Some(true)) => {
            Err(Why::out_of_range(format_args!("the joints are said to be soldered, but {alloy} is a brazing filler")))
        }
        (Filler::Soldered, Some(alloy), _) => {
            let found =
                solder::alloys().get(&alloy).ok_or_else(|| Why::Invalid(vec![HEADER_ALLOY.spec.id.to_owned()]))?;
            Ok((Method::Soldered, found.astm_b32.clone()))
        }
        (Filler::Soldered, None, _) => Err(Why::missing(HEADER_ALLOY.spec.id)),
    }
}

/// Rated pressure at the stagnation temperature, the lowest of the published tables.
fn rating(s: &Solution) -> Fig<Result<Pressure, JointError>> {
    let (method, filler) = rated_filler(s)?;
    let hottest = s.absorber.stagnation.as_ref().map_err(Clone::clone)?.worst;
    let header = s.absorber.harp.as_ref().map_err(Clone::clone)?.header;
    let size = match header.od.si() {
        od if od <= 0.0290 => SizeGroup::UpTo1,
        od if od <= 0.0545 => SizeGroup::UpTo2,
        _ => SizeGroup::UpTo4,
    };
    let tables = joint_rating::tables(&filler, size);
    if tables.is_empty() {
        return Err(Why::out_of_range(format_args!("no published rating is known for {filler}")));
    }
    Ok(rated_pressure(method, &tables, hottest).map(|rating| rating.pressure))
}

/// The figures of this file.
pub static FIGURES: &[Figure] =
    &[Figure::new("absorber.joint_rating", "rating of the joints, dry and hot", Kind::Pressure, &RATING, |s, _| {
        Ok(rating(s)?.map_err(Why::out_of_range)?.into())
    })
    .by("joint-rating", "the lowest published rating at {T}", &[("T", "absorber.stagnation_worst")])];

fn joint_rating(s: &Solution) -> Fig<Judgement> {
    let relief = s.inputs.get(&plumbing::entries::RELIEF)?;
    match rating(s)? {
        Ok(rated) => {
            let margin = Quantity::new(Pressure::KIND, rated.si() - relief.si());
            Ok(Judgement::stop_unless(rated >= relief).with(relief, rated).margin(margin))
        }
        Err(JointError::NoRating { .. }) => Ok(Judgement::of(Verdict::Stop).with(relief, Pressure::from_si(0.0))),
        Err(why) => Err(Why::out_of_range(why)),
    }
}

/// The group of the galvanic table that a sheet metal belongs to.
const METALS: [(&str, &str); 6] = [
    ("copper", "copper, silver solder"),
    ("aluminium", "aluminium wrought other"),
    ("carbon steel", "iron, plain carbon steel"),
    ("stainless", "18 % Cr stainless"),
    ("brass", "brass, bronze"),
    ("zinc", "zinc"),
];

fn index(metal: &str) -> Fig<&'static AnodicIndex> {
    let group = METALS.iter().find(|(start, _)| metal.starts_with(start)).map_or(metal, |(_, group)| *group);
    let row = galvanic::anodic_indices().get(group);
    row.ok_or_else(|| Why::out_of_range(format_args!("the galvanic table has no {metal}")))
}

fn mixed_metals(s: &Solution) -> Fig<Judgement> {
    let metal = s.inputs.get(&e::SHEET_METAL)?;
    let (copper, sheet) = (index("copper")?, index(&metal)?);
    let contact = Contact { first_volts: copper.volts, second_volts: sheet.volts };
    let found = compare(contact, Surroundings::Harsh).map_err(Why::out_of_range)?;
    let limit = Surroundings::Harsh.largest_difference();
    Ok(Judgement::caution_unless(found.within_limit)
        .with(Quantity::number(found.difference), Quantity::number(limit))
        .margin(Quantity::number(limit - found.difference))
        .part(metal)
        .resting_on(sheet.provenance))
}

/// Room between a bake and the solidus that is clear, and that is least, K (project rule, as for stagnation).
const CURE_CLEAR: f64 = 30.0;
const CURE_LEAST: f64 = 20.0;

fn paint_cure(s: &Solution) -> Fig<Judgement> {
    let cure = s.inputs.get(&PAINT_CURE)?;
    let alloy = s.absorber.solder.clone()?;
    let solidus = alloy.solidus;
    let room = difference(solidus, cure);
    let verdict = match room.si() {
        kelvin if kelvin >= CURE_CLEAR => Verdict::Clear,
        kelvin if kelvin >= CURE_LEAST => Verdict::Caution,
        _ => Verdict::Stop,
    };
    let judgement = Judgement::of(verdict).with(cure, solidus).margin(room - TemperatureInterval::from_si(CURE_CLEAR));
    Ok(judgement.resting_on(alloy.provenance))
}

/// Fin efficiency that a sensible pair of pitch and thickness reaches (project rule; 0.3 mm copper at 120 mm has 0.93).
const FIN_WANTED: f64 = 0.90;
/// Sheet that a torch burns through and that dents at a touch, m (common practice, no source).
const THIN: f64 = 0.000_15;

fn fin_sense(s: &Solution) -> Fig<Judgement> {
    let thickness = s.inputs.get(&e::SHEET_THICKNESS)?;
    if thickness.si() < THIN {
        return Ok(Judgement::of(Verdict::Caution).with(thickness, Length::from_si(THIN)).part("thin under a torch"));
    }
    let found = s.absorber.heat.as_ref().map_err(Clone::clone)?.point.fin_efficiency;
    let (part, margin) = ("thin for its pitch", Quantity::percent(found - FIN_WANTED));
    let judgement = Judgement::caution_unless(found >= FIN_WANTED);
    Ok(judgement.with(Quantity::percent(found), Quantity::percent(FIN_WANTED)).margin(margin).part(part))
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("absorber.joint-rating", "joints against the relief pressure", Severity::Serious, joint_rating)
        .says(
            "The relief lets go at {found}; hot and dry the joints are rated {limit} by the lower of two tables.",
            "Braze, choose another filler, a cooler coating or a lower relief setting.",
        )
        .blind_to("how well a joint is filled; fittings rated lower than their joints")
        .ask("a person licensed for pressure joints, where the local code wants one")
        .source("copper handbook, table of ratings; ASME B31.9 in a handbook of fundamentals (both verified)")
        .needs(&["absorber.joint_rating", "plumbing.relief_setting"]),
    Check::new("absorber.mixed-metals", "sheet and tube in contact", Severity::Nuisance, mixed_metals)
        .says(
            "{part} lies {found} V from copper; {limit} V is the limit where it gets damp: the sheet is eaten at the bond.",
            "Copper sheet, or keep the box dry and vented, and coat the seam.",
        )
        .blind_to("water that runs from copper onto aluminium or zinc elsewhere")
        .source("anodic index and its limits: galvanic table (verified)")
        .recalls_beside("some rows of the table")
        .needs(&["absorber.sheet_metal"]),
    Check::new("absorber.paint-cure", "cure of the paint against the solder", Severity::Injury, paint_cure)
        .says(
            "The paint bakes at {found}; the sheet's solder begins to melt at {limit}, and 30 K between them are wanted.",
            "A paint that cures cooler, or bake in the sun below the limit and longer.",
        )
        .blind_to("an oven that overshoots; what the sun does before the loop runs")
        .source("30 K and 20 K: project rule; solidus: handbook table of solder alloys")
        .needs(&["absorber.paint_cure", "absorber.solder_solidus"]),
    Check::new("absorber.fin-sense", "sheet thickness and pitch", Severity::Nuisance, fin_sense)
        .says(
            "The sheet is {part}: {found} against {limit}.",
            "A thicker sheet or a narrower pitch.",
        )
        .blind_to("what sheet and tube cost; heat counted twice is bought dearly")
        .source("90 %: project rule; 0.15 mm: common practice, no source")
        .needs(&["absorber.fin_efficiency", "absorber.sheet_thickness"]),
];
