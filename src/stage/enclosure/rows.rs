//! The figures of the enclosure stage.

use super::glass::{Pane, UnderPressure};
use super::heat::{Behind, Growth};
use super::mass::{self, Masses};
use super::timber::{Part, TimberBox};
use super::{BEHIND, BOX, CLEARANCE, GROWTH, INSULATION, MASS, PANE, PRESSURE, RAIL, WET};
use crate::model::{Fig, Value, Why};
use crate::stage::{Axis, Figure, Solution};
use crate::units::Kind::{Area, Count, Length, Mass, Pressure, Temperature};
use crate::units::Quantity;

fn timber_box(s: &Solution) -> Fig<&TimberBox> {
    s.enclosure.timber_box.as_ref().map_err(Clone::clone)
}

fn part<'a>(s: &'a Solution, key: &str) -> Fig<&'a Part> {
    let row: usize = key.parse().map_err(|_| Why::missing("enclosure.part_name"))?;
    let parts = &timber_box(s)?.parts;
    row.checked_sub(1).and_then(|index| parts.get(index)).ok_or_else(|| Why::missing("enclosure.part_name"))
}

fn pane(s: &Solution) -> Fig<&Pane> {
    s.enclosure.pane.as_ref().map_err(Clone::clone)
}

fn pressed(s: &Solution) -> Fig<&UnderPressure> {
    s.enclosure.under_pressure.as_ref().map_err(Clone::clone)
}

fn growth(s: &Solution) -> Fig<&Growth> {
    s.enclosure.growth.as_ref().map_err(Clone::clone)
}

fn behind(s: &Solution) -> Fig<&Behind> {
    s.enclosure.behind.as_ref().map_err(Clone::clone)
}

fn masses(s: &Solution) -> Fig<&Masses> {
    s.enclosure.masses.as_ref().map_err(Clone::clone)
}

/// Symbols that several figures share.
const CLEAR: (&str, &str) = ("clearance", "enclosure.clearance");
const EDGE: (&str, &str) = ("edge", "enclosure.edge_thickness");
const RAIL_T: (&str, &str) = ("rail", "enclosure.rail_thickness");
const BITE: (&str, &str) = ("bite", "enclosure.glass_bite");
const T_WORST: (&str, &str) = ("T_p", "absorber.stagnation_worst");

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("enclosure.inside_width", "inside, across the risers", Length, &BOX, |s, _| {
        Ok(timber_box(s)?.inside_width.into())
    })
    .tape()
    .by("box-sizes", "{sheet} + 2({clearance} + {edge})", &[("sheet", "absorber.sheet_across"), CLEAR, EDGE]),
    Figure::new("enclosure.inside_length", "inside, along the risers", Length, &BOX, |s, _| {
        Ok(timber_box(s)?.inside_length.into())
    })
    .tape()
    .by(
        "box-sizes",
        "{spacing} + one header + 2({clearance} + {edge})",
        &[("spacing", "absorber.header_spacing"), CLEAR, EDGE],
    ),
    Figure::new("enclosure.inside_height", "inside, back board to glass", Length, &BOX, |s, _| {
        Ok(timber_box(s)?.inside_height.into())
    })
    .tape()
    .by(
        "box-sizes",
        "{second} + {behind} + {free} + one header + {gap}",
        &[
            ("second", "enclosure.second_thickness"),
            ("behind", "enclosure.back_thickness"),
            ("free", "enclosure.under_clearance"),
            ("gap", "enclosure.air_gap"),
        ],
    ),
    Figure::new("enclosure.outside_width", "outside, across the risers", Length, &BOX, |s, _| {
        Ok(timber_box(s)?.outside_width.into())
    })
    .tape()
    .by("box-sizes", "{inside} + 2 × {rail}", &[("inside", "enclosure.inside_width"), RAIL_T]),
    Figure::new("enclosure.outside_length", "outside, along the risers", Length, &BOX, |s, _| {
        Ok(timber_box(s)?.outside_length.into())
    })
    .tape()
    .by("box-sizes", "{inside} + 2 × {rail}", &[("inside", "enclosure.inside_length"), RAIL_T]),
    Figure::new("enclosure.outside_area", "outside area, one panel", Area, &BOX, |s, _| {
        let timber_box = timber_box(s)?;
        Ok((timber_box.outside_width * timber_box.outside_length).into())
    })
    .by(
        "box-sizes",
        "{width} × {length}",
        &[("width", "enclosure.outside_width"), ("length", "enclosure.outside_length")],
    ),
    Figure::new("enclosure.diagonal", "diagonal of the inside", Length, &BOX, |s, _| {
        let timber_box = timber_box(s)?;
        Ok(timber_box.inside_width.hypot(timber_box.inside_length).into())
    })
    .tape()
    .by("square-check", "√({a}² + {b}²)", &[("a", "enclosure.inside_width"), ("b", "enclosure.inside_length")]),
    Figure::word("enclosure.part_name", "part", &BOX, |s, key| Ok(Value::Text(part(s, key)?.name.to_owned())))
        .axis(Axis::Part)
        .by("cut-list", "the parts of the box", &[]),
    Figure::new("enclosure.part_count", "pieces of the part", Count, &BOX, |s, key| {
        Ok(Quantity::count(part(s, key)?.count).into())
    })
    .axis(Axis::Part)
    .by("cut-list", "pieces for one panel", &[]),
    Figure::new("enclosure.part_length", "length of the part", Length, &BOX, |s, key| Ok(part(s, key)?.length.into()))
        .axis(Axis::Part)
        .tape()
        .by("cut-list", "by the corner joint, {corner}", &[("corner", "enclosure.corner")]),
    Figure::new("enclosure.part_width", "width of the part", Length, &BOX, |s, key| Ok(part(s, key)?.width.into()))
        .axis(Axis::Part)
        .tape()
        .by(
            "cut-list",
            "rails: {width}; board: inside and what lies in the rails",
            &[("width", "enclosure.rail_width")],
        ),
    Figure::new("enclosure.part_thickness", "thickness of the part", Length, &BOX, |s, key| {
        Ok(part(s, key)?.thickness.into())
    })
    .axis(Axis::Part)
    .tape()
    .by("cut-list", "as entered: {rail}, {board}", &[RAIL_T, ("board", "enclosure.back_board")]),
    Figure::new("enclosure.glass_width", "glass, across the risers", Length, &PANE, |s, _| Ok(pane(s)?.width.into()))
        .tape()
        .by("glass-size", "{inside} + 2 × {bite}", &[("inside", "enclosure.inside_width"), BITE]),
    Figure::new("enclosure.glass_length", "glass, along the risers", Length, &PANE, |s, _| Ok(pane(s)?.length.into()))
        .tape()
        .by("glass-size", "{inside} + 2 × {bite}", &[("inside", "enclosure.inside_length"), BITE]),
    Figure::new("enclosure.glass_shoulder", "rail left outside the seat", Length, &PANE, |s, _| {
        Ok(pane(s)?.shoulder.into())
    })
    .tape()
    .by(
        "glass-size",
        "{rail} − {bite} − {clearance}",
        &[RAIL_T, BITE, ("clearance", "enclosure.glass_clearance")],
    ),
    Figure::new("enclosure.glass_mass", "mass of the glass", Mass, &PANE, |s, _| Ok(pane(s)?.mass.into())).by(
        "panel-mass",
        "2500 kg/m³ × {width} × {length} × {t}",
        &[("width", "enclosure.glass_width"), ("length", "enclosure.glass_length"), ("t", "enclosure.glass_thickness")],
    ),
    Figure::new("enclosure.glass_clearance_least", "least clearance of the glass", Length, &CLEARANCE, |s, _| {
        Ok(s.enclosure.least_clearance.clone()?.into())
    })
    .tape()
    .by("glass-clearance", "half of 8.3e-6/K × {L} × ΔT, and 3 mm", &[("L", "enclosure.glass_length")]),
    Figure::new("enclosure.glass_stress", "stress of the glass", Pressure, &PRESSURE, |s, _| {
        Ok(pressed(s)?.bending.stress.into())
    })
    .by(
        "glass-pressure",
        "large deflection under {q} of a pane held on four sides",
        &[("q", "enclosure.glass_pressure")],
    ),
    Figure::new("enclosure.glass_stress_linear", "stress of the glass, upper bound", Pressure, &PRESSURE, |s, _| {
        Ok(pressed(s)?.linear.stress.into())
    })
    .by("glass-pressure", "σ = 6 β {q} a²/t²", &[("q", "enclosure.glass_pressure")]),
    Figure::new("enclosure.glass_deflection", "deflection of the glass", Length, &PRESSURE, |s, _| {
        Ok(pressed(s)?.bending.deflection.into())
    })
    .by(
        "glass-pressure",
        "large deflection under {q} of a pane held on four sides",
        &[("q", "enclosure.glass_pressure")],
    ),
    Figure::new("enclosure.header_growth", "growth of a header", Length, &GROWTH, |s, _| Ok(growth(s)?.header.into()))
        .by(
            "copper-growth",
            "17.3e-6/K (17.64e-6/K above 200 °C) × {L} × ({T_p} − 20 °C)",
            &[("L", "absorber.header_length"), T_WORST],
        ),
    Figure::new("enclosure.riser_growth", "growth of a riser", Length, &GROWTH, |s, _| Ok(growth(s)?.riser.into())).by(
        "copper-growth",
        "17.3e-6/K (17.64e-6/K above 200 °C) × {L} × ({T_p} − 20 °C)",
        &[("L", "absorber.header_spacing"), T_WORST],
    ),
    Figure::new("enclosure.stub_hole_width", "stub hole, across the header", Length, &GROWTH, |s, _| {
        Ok(growth(s)?.hole.width.into())
    })
    .tape()
    .by("stub-hole", "header outside diameter + 6 mm", &[]),
    Figure::new("enclosure.stub_hole_length", "stub hole, along the rail", Length, &GROWTH, |s, _| {
        Ok(growth(s)?.hole.length.into())
    })
    .tape()
    .by(
        "stub-hole",
        "header outside diameter + 6 mm + the larger of {risers} and {header}",
        &[("risers", "enclosure.riser_growth"), ("header", "enclosure.header_growth")],
    ),
    Figure::new("enclosure.back_face", "wood behind the insulation", Temperature, &BEHIND, |s, _| {
        Ok(behind(s)?.back.into())
    })
    .by(
        "layers",
        "{T_p} − ({T_p} − T_a) R_insulation/(R_insulation + R_board + R_out), k at its mean temperature",
        &[T_WORST],
    ),
    Figure::new("enclosure.edge_face", "rail behind the edge insulation", Temperature, &BEHIND, |s, _| {
        Ok(behind(s)?.edge.into())
    })
    .by(
        "rail-balance",
        "air of the gap and radiation of plate ({T_p}) and glass against {edge}, rail and outside",
        &[T_WORST, EDGE],
    ),
    Figure::new("enclosure.back_thickness_least", "least insulation behind", Length, &BEHIND, |s, _| {
        Ok(behind(s)?.least_back.clone()?.into())
    })
    .by("layers", "the thickness at which the board's face comes to 65 °C with the plate at {T_p}", &[T_WORST]),
    Figure::new("enclosure.rail_face", "wood beside and above the plate", Temperature, &RAIL, |s, _| {
        Ok(s.enclosure.rail_face.clone()?.into())
    })
    .by(
        "rail-balance",
        "air of the gap and radiation of plate ({T_p}) and glass against {lining}, rail and outside",
        &[T_WORST, ("lining", "enclosure.rail_lining")],
    ),
    Figure::new("enclosure.insulation_stands", "insulation stands", Temperature, &INSULATION, |s, _| {
        Ok(s.enclosure.insulation_limit.clone()?.into())
    })
    .by("insulation-table", "the lower of handbook table and {sheet}", &[("sheet", "enclosure.insulation_limit")]),
    Figure::new("enclosure.timber_mass", "mass of the timber", Mass, &MASS, |s, _| Ok(masses(s)?.timber.into())).by(
        "panel-mass",
        "volume of the cut list × density of {species} and plywood",
        &[("species", "enclosure.timber")],
    ),
    Figure::new("enclosure.insulation_mass", "mass of the insulation", Mass, &MASS, |s, _| {
        Ok(masses(s)?.insulation.into())
    })
    .by("panel-mass", "volume behind and around × density of {material}", &[("material", "enclosure.insulation")]),
    Figure::new("enclosure.mass_dry", "mass of one panel, dry", Mass, &MASS, |s, _| Ok(masses(s)?.dry().into())).by(
        "panel-mass",
        "{tube} + {sheet} + {glass} + {timber} + {insulation}",
        &[
            ("tube", "absorber.tube_mass"),
            ("sheet", "absorber.sheet_mass"),
            ("glass", "enclosure.glass_mass"),
            ("timber", "enclosure.timber_mass"),
            ("insulation", "enclosure.insulation_mass"),
        ],
    ),
    Figure::new("enclosure.mass_wet", "mass of one panel, full", Mass, &WET, |s, _| {
        Ok(s.enclosure.wet.clone()?.into())
    })
    .by("panel-mass", "{dry} + content × density of the liquid at 20 °C", &[("dry", "enclosure.mass_dry")]),
    Figure::new("enclosure.people", "people to lift one panel", Count, &MASS, |s, _| {
        Ok(Quantity::count(mass::people(masses(s)?.dry())?).into())
    })
    .by(
        "lifting",
        "{dry} over the recommended weight of one person, two at least",
        &[("dry", "enclosure.mass_dry")],
    ),
];
