//! What one harp takes from the shop: copper, solder, flux, paint; and what it weighs.
//!
//! Sums of the whole project live with the demands.

use super::entries as e;
use super::geometry::Harp;
use crate::handbook::{sheet, solder, tube};
use crate::model::{Fig, Inputs, TradeUnits, Value, Why};
use crate::physics::fillet::Fillet;
use crate::physics::solder_joint::wire_length;
use crate::stage::{Figure, Group, Solution};
use crate::units::Kind;
use crate::units::si::{Area, Dimension, Length, Mass, MassDensity, Volume};

/// What one harp takes.
#[derive(Clone, Debug)]
pub struct Quantities {
    /// Copper in risers and headers.
    pub tube_mass: Fig<Mass>,
    /// The sheet.
    pub sheet_mass: Mass,
    /// Solder of the sheet's lines, with waste.
    pub solder_mass: Fig<Mass>,
    /// The same as wire of 1/8 in.
    pub solder_wire: Fig<Length>,
    /// Flux for that solder.
    pub flux_mass: Fig<Mass>,
    /// Area to be blackened.
    pub paint_area: Area,
    /// Paint for it.
    pub paint: Volume,
}

/// What one harp takes from the shop.
pub static QUANTITIES: Group = Group {
    name: "copper, solder and paint of one harp",
    entries: &[
        "absorber.solder",
        "absorber.bond_width",
        "absorber.bond_film",
        "absorber.bond_length",
        "absorber.sheet_metal",
        "absorber.sheet_thickness",
        "absorber.solder_waste",
        "absorber.paint_coats",
        "absorber.paint_coverage",
    ],
    groups: &[&super::CUT, &super::PLATE],
};

/// The fillet of one line.
static LINE: Group = Group {
    name: "solder of one line",
    entries: &["absorber.solder", "absorber.bond_width", "absorber.bond_film"],
    groups: &[&super::HARP],
};

/// Flux to solder by mass: 2 oz for each pound (copper handbook, verified).
const FLUX_SHARE: f64 = 0.125;
/// Diameter of the usual solder wire, 1/8 in.
const WIRE: f64 = 0.003175;

/// Adds up one harp.
pub fn quantities(inputs: &Inputs, harp: &Harp) -> Fig<Quantities> {
    let area = harp.sheet_width * harp.plate_length;
    let volume = solder_volume(inputs, harp);
    let solder_mass = solder_mass(inputs, volume.clone());
    let coats = inputs.get(&e::PAINT_COATS)? as f64;
    let coverage = inputs.get(&e::PAINT_COVERAGE)?;
    let fronts = harp.header.od * harp.header_length * 2.0;
    let paint_area = area + fronts;
    Ok(Quantities {
        tube_mass: tube_mass(inputs, harp),
        sheet_mass: sheet_mass(inputs, harp)?,
        flux_mass: solder_mass.clone().map(|mass| mass * FLUX_SHARE),
        solder_wire: volume.and_then(|volume| wire_length(volume, Length::from_si(WIRE)).map_err(Why::out_of_range)),
        solder_mass,
        paint_area,
        paint: Volume::from_si(coats * paint_area.si() / coverage),
    })
}

/// The sheet of one harp.
pub fn sheet_mass(inputs: &Inputs, harp: &Harp) -> Fig<Mass> {
    let name = inputs.get(&e::SHEET_METAL)?;
    let metal = sheet::metals().get(&name).ok_or_else(|| Why::Invalid(vec![e::SHEET_METAL.spec.id.to_owned()]))?;
    Ok(harp.sheet_width * harp.plate_length * inputs.get(&e::SHEET_THICKNESS)? * metal.density)
}

/// Copper in risers, as cut, and headers of one harp.
pub fn tube_mass(inputs: &Inputs, harp: &Harp) -> Fig<Mass> {
    let riser =
        tube::tube(&inputs.get(&e::RISER_TUBE)?).ok_or_else(|| Why::Invalid(vec![e::RISER_TUBE.spec.id.to_owned()]))?;
    let risers = harp.riser_cut.clone()? * harp.riser_count as f64;
    Ok(riser.mass(risers) + harp.header.mass(harp.header_length * 2.0))
}

/// Section of one line's fillet.
fn line_section(inputs: &Inputs, harp: &Harp) -> Fig<Area> {
    let fillet = Fillet {
        tube_outer_diameter: harp.riser_outer_diameter,
        width: inputs.get(&e::BOND_WIDTH)?,
        film: inputs.get(&e::BOND_FILM)?,
    };
    fillet.section().map_err(Why::out_of_range)
}

/// Solder of all lines: fillet section × riser length × soldered share × (1 + waste).
fn solder_volume(inputs: &Inputs, harp: &Harp) -> Fig<Volume> {
    let section = line_section(inputs, harp)?;
    let share = inputs.get(&e::BOND_LENGTH)?;
    let waste = inputs.get(&e::SOLDER_WASTE)?;
    let length = harp.plate_length * harp.riser_count as f64 * share;
    Ok(section * length * (1.0 + waste.si()))
}

/// Density of the sheet's solder.
fn density(inputs: &Inputs) -> Fig<MassDensity> {
    let name = inputs.get(&e::SOLDER)?;
    let alloy = solder::alloys().get(&name).ok_or_else(|| Why::Invalid(vec![e::SOLDER.spec.id.to_owned()]))?;
    alloy.density.ok_or_else(|| Why::out_of_range(format_args!("the handbook gives no density for {}", alloy.name)))
}

fn solder_mass(inputs: &Inputs, volume: Fig<Volume>) -> Fig<Mass> {
    let density = density(inputs)?;
    Ok(volume? * density)
}

fn of(s: &Solution) -> Fig<&Quantities> {
    s.absorber.quantities.as_ref().map_err(Clone::clone)
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("absorber.tube_mass", "copper tube in one harp", Kind::Mass, &QUANTITIES, |s, _| {
        Ok(Value::from(of(s)?.tube_mass.clone()?))
    })
    .by(
        "copper-mass",
        "handbook mass a metre × ({risers} + 2 × {header})",
        &[("risers", "absorber.riser_length_total"), ("header", "absorber.header_length")],
    ),
    Figure::new("absorber.sheet_mass", "sheet of one harp", Kind::Mass, &QUANTITIES, |s, _| {
        Ok(of(s)?.sheet_mass.into())
    })
    .by("copper-mass", "{A} × {t} × density", &[("A", "absorber.area"), ("t", "absorber.sheet_thickness")]),
    Figure::new("absorber.solder_mass", "solder for one sheet", Kind::Mass, &QUANTITIES, |s, _| {
        Ok(Value::from(of(s)?.solder_mass.clone()?))
    })
    .by(
        "fillet",
        "fillet section of {b} and {film} × risers × {share} × (1 + {waste}) × density",
        &[
            ("b", "absorber.bond_width"),
            ("film", "absorber.bond_film"),
            ("share", "absorber.bond_length"),
            ("waste", "absorber.solder_waste"),
        ],
    ),
    Figure::new("absorber.bond_run", "solder line of one sheet", Kind::Length, &super::PLATE, |s, _| {
        let harp = s.absorber.harp.as_ref().map_err(Clone::clone)?;
        Ok((harp.plate_length * harp.riser_count as f64).into())
    })
    .shown_in(TradeUnits::SITE)
    .by("fillet", "{n} × {sheet}", &[("n", "absorber.riser_count"), ("sheet", "absorber.sheet_along")]),
    Figure::new("absorber.solder_per_metre", "solder for each metre (39 in) of line", Kind::Mass, &LINE, |s, _| {
        let per_metre = line_section(&s.inputs, s.absorber.harp.as_ref().map_err(Clone::clone)?)?;
        let density = density(&s.inputs)?;
        Ok((per_metre * Length::from_si(1.0) * density).into())
    })
    .by(
        "fillet",
        "fillet section of {b} and {film} × density, no waste",
        &[("b", "absorber.bond_width"), ("film", "absorber.bond_film")],
    ),
    Figure::new("absorber.solder_wire", "solder for one sheet as 1/8 in wire", Kind::Length, &QUANTITIES, |s, _| {
        Ok(Value::from(of(s)?.solder_wire.clone()?))
    })
    .shown_in(TradeUnits::SITE)
    .by("fillet", "volume / (π (1/8 in)²/4)", &[]),
    Figure::new("absorber.flux_mass", "flux for one sheet", Kind::Mass, &QUANTITIES, |s, _| {
        Ok(Value::from(of(s)?.flux_mass.clone()?))
    })
    .by("fillet", "0.125 × {solder}", &[("solder", "absorber.solder_mass")]),
    Figure::new("absorber.paint_area", "area to blacken", Kind::Area, &QUANTITIES, |s, _| Ok(of(s)?.paint_area.into()))
        .by("paint", "{A} + header fronts", &[("A", "absorber.area")]),
    Figure::new("absorber.paint", "paint for one plate", Kind::Volume, &QUANTITIES, |s, _| Ok(of(s)?.paint.into())).by(
        "paint",
        "{coats} × {area} / coverage",
        &[("coats", "absorber.paint_coats"), ("area", "absorber.paint_area")],
    ),
];
