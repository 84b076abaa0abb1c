//! A second layer of insulation behind the first, such as foam behind fibre: asked, shown and judged.
//!
//! Temperatures are computed in `heat`; the thickness counts in the depth budget of `timber`.

use super::heat::Behind;
use super::{BEHIND, entries as e};
use crate::handbook::Provenance;
use crate::handbook::insulation::{self, Material};
use crate::model::{Entry, EntrySpec, Fig, Inputs, Judgement, Value, Why};
use crate::stage::{Check, Figure, Group, Severity, Solution};
use crate::units::Kind;
use crate::units::si::{Dimension, Length, Temperature, TemperatureInterval, ZERO_CELSIUS, difference, in_celsius};

/// Material of the second layer.
pub static SECOND: Entry<String> =
    Entry::listed("enclosure.second_insulation", "second insulation", e::insulation_names)
        .why("behind the first, on the back board; foam may lie here if the layer between stays cool enough");

/// Its thickness.
pub static THICKNESS: Entry<Length> = Entry::quantity("enclosure.second_thickness", "thickness of the second")
    .why("0 mm if there is one layer only")
    .hard(0.0, 0.3)
    .usual(0.0, 0.1)
    .default("0 mm");

/// Its limit on its own sheet.
pub static LIMIT: Entry<Temperature> = Entry::quantity("enclosure.second_limit", "limit of the second on its sheet")
    .why("highest service temperature that its sheet prints; the lower of sheet and table holds")
    .hard(ZERO_CELSIUS + 40.0, ZERO_CELSIUS + 1300.0);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[&SECOND.spec, &THICKNESS.spec, &LIMIT.spec];

/// Conductivity of foam grows as its gas is replaced by air: +11.5 to +14.2 % in six months (NIST abstract of 1991,
/// verified), so 1.15.
const AGED: f64 = 1.15;

/// The second layer, if there is one.
#[derive(Clone, Copy, Debug)]
pub struct SecondLayer {
    /// What it is made of.
    pub material: &'static Material,
    /// How thick it is.
    pub thickness: Length,
}

impl SecondLayer {
    /// Factor on its conductivity for age: that of foam whose gas leaves.
    pub fn ageing(&self) -> f64 {
        if self.material.name.starts_with("polyisocyanurate") { AGED } else { 1.0 }
    }
}

/// Reads the second layer; none where its thickness is zero.
pub fn second_layer(inputs: &Inputs) -> Fig<Option<SecondLayer>> {
    let thickness = inputs.get(&THICKNESS)?;
    if thickness.si() <= 0.0 {
        return Ok(None);
    }
    let name = inputs.get(&SECOND)?;
    let material = insulation::materials().get(&name).ok_or_else(|| Why::Invalid(vec![SECOND.spec.id.to_owned()]))?;
    Ok(Some(SecondLayer { material, thickness }))
}

/// What it stands: the lower of table and sheet.
pub fn limit(inputs: &Inputs, layer: &SecondLayer) -> Fig<Temperature> {
    Ok(match inputs.given(&LIMIT)? {
        Some(sheet) if in_celsius(sheet) < in_celsius(layer.material.limit) => sheet,
        _ => layer.material.limit,
    })
}

/// Margin that foam keeps to its limit, K (project rule).
pub const MARGIN: f64 = 20.0;

/// What the second layer stands.
pub static STANDS: Group = Group {
    name: "limit of the second insulation",
    entries: &["enclosure.second_insulation", "enclosure.second_thickness", "enclosure.second_limit"],
    groups: &[],
};

/// The least first layer.
pub static LEAST: Group = Group { name: "least first insulation", entries: &[], groups: &[&BEHIND, &STANDS] };

fn behind(s: &Solution) -> Fig<&Behind> {
    s.enclosure.behind.as_ref().map_err(Clone::clone)
}

fn stands(s: &Solution) -> Fig<Temperature> {
    let layer = second_layer(&s.inputs)?.ok_or_else(|| Why::missing(SECOND.spec.id))?;
    limit(&s.inputs, &layer)
}

fn interface(s: &Solution) -> Fig<Judgement> {
    let Some(layer) = second_layer(&s.inputs)? else {
        return Ok(Judgement::does_not_apply("one layer only"));
    };
    let found = behind(s)?.interface.ok_or_else(|| Why::missing(SECOND.spec.id))?;
    let limit = limit(&s.inputs, &layer)?;
    let margin = difference(limit, found) - TemperatureInterval::from_si(MARGIN);
    let judgement = Judgement::stop_unless(margin.si() >= 0.0).with(found, limit).margin(margin);
    // A sheet that somebody read bears out the row of the table, too.
    let sheet = s.inputs.given(&LIMIT)?.map(|_| Provenance::Printed);
    let known_by = sheet.unwrap_or(layer.material.limit_provenance);
    Ok(judgement.part(layer.material.name.clone()).resting_on(known_by))
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("enclosure.interface", "between the two insulations", Kind::Temperature, &BEHIND, |s, _| {
        Ok(behind(s)?.interface.ok_or_else(|| Why::missing(SECOND.spec.id))?.into())
    })
    .by(
        "layers",
        "{T_p} less the fall over the first layer, each k at its mean temperature",
        &[("T_p", "absorber.stagnation_worst")],
    ),
    Figure::new("enclosure.second_stands", "second insulation stands", Kind::Temperature, &STANDS, |s, _| {
        Ok(stands(s)?.into())
    })
    .by("insulation-table", "the lower of handbook table and {sheet}", &[("sheet", "enclosure.second_limit")]),
    Figure::new("enclosure.first_least", "least first insulation", Kind::Length, &LEAST, |s, _| {
        Ok(behind(s)?.least_first.clone()?.into())
    })
    .by(
        "layers",
        "the thickness at which the second layer comes to 20 K below {limit}",
        &[("limit", "enclosure.second_stands")],
    ),
    Figure::new("enclosure.strip_face", "wood of a support strip", Kind::Temperature, &BEHIND, |s, _| {
        Ok(behind(s)?.strip.ok_or_else(|| Why::missing(super::openings::STRIP_HEIGHT.spec.id))?.into())
    })
    .by(
        "layers",
        "mineral board above {wood} of wood, then the back board, with the plate at {T_p}",
        &[("wood", "enclosure.strip_height"), ("T_p", "absorber.stagnation_worst")],
    ),
    Figure::word("enclosure.binder", "what the insulation gives off", &super::INSULATION_KIND, |s, _| {
        let text = super::material(&s.inputs)?.outgas.as_deref().unwrap_or("nothing is known of it");
        Ok(Value::Text(text.to_owned()))
    })
    .by("insulation-table", "handbook row of {material}", &[("material", "enclosure.insulation")]),
];

/// The checks of this file.
pub static CHECKS: &[Check] = &[Check::new(
    "enclosure.second-insulation",
    "second insulation against the layer between",
    Severity::Serious,
    interface,
)
.says(
    "{part} stands {limit}; behind the first layer it can see {found}, and 20 K must be left between.",
    "At least {enclosure.first_least} of fibre before it, or a material with a higher limit.",
)
.blind_to("gaps and joints of the first layer, damp, a plate that sags onto it; foam other than its label")
.source(
    "lowest published limits, see the handbook table; margin of 20 K: project rule; ageing: NIST abstract (verified)",
)
.recalls_beside("some rows of that table")
.needs(&["enclosure.interface", "enclosure.second_stands"])];
