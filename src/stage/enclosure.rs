//! Enclosure: timber box, insulation, glass.
//!
//! Which figure comes from where: `rows`; the box is sized in `timber`, the pane in `glass`, hot faces in `heat`, masses
//! in `mass`; the laws are in `physics`.

pub mod breathing;
pub mod capping;
pub mod cards;
pub mod chain;
pub mod checks;
pub mod cutting;
pub mod demands;
pub mod drawing;
pub mod entries;
pub mod glass;
pub mod heat;
pub mod joinery;
pub mod links;
pub mod loads;
pub mod mass;
pub mod methods;
pub mod openings;
pub mod rack;
pub mod rows;
pub mod screws;
pub mod second_layer;
pub mod sheets;
pub mod steps;
pub mod timber;

use std::sync::Arc;

use super::{Axis, Group, Solution, absorber, plumbing};
use crate::handbook::insulation;
use crate::model::{Fig, Inputs, Why};
use crate::physics::collector::{Cover, Insulation};
use crate::units::si::{
    Dimension, Insulance, Length, Mass, MassDensity, Ratio, Temperature, ThermalConductivity, celsius,
};
use entries as e;
use timber::TimberBox;

/// The share of the solution that this stage computes.
#[derive(Clone, Debug)]
pub struct Results {
    /// The box.
    pub timber_box: Fig<TimberBox>,
    /// The pane.
    pub pane: Fig<glass::Pane>,
    /// Least clearance of the pane.
    pub least_clearance: Fig<Length>,
    /// The pane under its design pressure.
    pub under_pressure: Fig<glass::UnderPressure>,
    /// Growth of the copper.
    pub growth: Fig<heat::Growth>,
    /// Wood behind insulation.
    pub behind: Fig<heat::Behind>,
    /// Wood beside and above the plate.
    pub rail_face: Fig<Temperature>,
    /// What the insulation stands.
    pub insulation_limit: Fig<Temperature>,
    /// Masses of one panel.
    pub masses: Fig<mass::Masses>,
    /// One panel full.
    pub wet: Fig<Mass>,
    /// Holes and supports.
    pub openings: Fig<openings::Openings>,
    /// The screws of the box, line by line.
    pub screws: Fig<Vec<screws::Line>>,
    /// One breath of the box.
    pub breath: Fig<breathing::Breath>,
    /// Timber to be cut, and what from.
    pub timber_jobs: Fig<Vec<Arc<cutting::TimberJob>>>,
    /// First plans for it.
    pub timber_cuts: Fig<Arc<Vec<cutting::TimberCut>>>,
    /// Sheets to be cut, and what into.
    pub sheet_jobs: Fig<Vec<Arc<sheets::SheetJob>>>,
    /// First plans for them.
    pub sheet_cuts: Fig<Arc<Vec<sheets::SheetCutting>>>,
}

/// The material of the first insulation.
pub static INSULATION_KIND: Group =
    Group { name: "material of the insulation", entries: &["enclosure.insulation"], groups: &[] };

/// The sizes of the box.
pub static BOX: Group = Group {
    name: "sizes of the box",
    entries: &[
        "enclosure.clearance",
        "enclosure.edge_thickness",
        "enclosure.rail_thickness",
        "enclosure.back_board",
        "enclosure.back_thickness",
        "enclosure.air_gap",
        "enclosure.glass_thickness",
        "enclosure.corner",
        "enclosure.under_clearance",
        "enclosure.glazing_tape",
        "enclosure.back_seat",
        "enclosure.board_seat",
        "enclosure.corner_rabbet",
        "enclosure.second_thickness",
    ],
    groups: &[&absorber::HARP],
};

/// Glass and insulation as the heat balance sees them.
pub static COVER: Group = Group {
    name: "glass and insulation",
    entries: &[
        "enclosure.glass",
        "enclosure.glass_thickness",
        "enclosure.air_gap",
        "enclosure.insulation",
        "enclosure.back_thickness",
        "enclosure.edge_thickness",
        "enclosure.back_board",
        "enclosure.rail_thickness",
        "enclosure.second_insulation",
        "enclosure.second_thickness",
    ],
    groups: &[],
};

/// The pane on its seat.
pub static PANE: Group = Group {
    name: "the pane",
    entries: &[
        "enclosure.glass",
        "enclosure.glass_bite",
        "enclosure.glass_clearance",
        "enclosure.glass_thickness",
        "enclosure.rail_thickness",
    ],
    groups: &[&BOX],
};

/// Clearance of the pane in the worst hour.
pub static CLEARANCE: Group =
    Group { name: "growth of the pane", entries: &[], groups: &[&PANE, &absorber::STAGNATION] };

/// The pane under its design pressure.
pub static PRESSURE: Group = Group {
    name: "the pane under pressure",
    entries: &["enclosure.glass_pressure", "enclosure.glass", "enclosure.glass_thickness", "enclosure.air_gap"],
    groups: &[&BOX],
};

/// Growth of the copper.
pub static GROWTH: Group =
    Group { name: "growth of the copper", entries: &[], groups: &[&absorber::HARP, &absorber::STAGNATION] };

/// Wood behind insulation.
pub static BEHIND: Group = Group {
    name: "wood behind insulation",
    entries: &["absorber.emittance", "enclosure.strip_height", "enclosure.second_limit"],
    groups: &[&COVER, &absorber::STAGNATION],
};

/// Wood beside and above the plate.
pub static RAIL: Group = Group {
    name: "wood beside the plate",
    entries: &["enclosure.rail_lining", "enclosure.rail_thickness", "absorber.emittance"],
    groups: &[&absorber::STAGNATION],
};

/// What the insulation stands.
pub static INSULATION: Group = Group {
    name: "limit of the insulation",
    entries: &["enclosure.insulation", "enclosure.insulation_limit"],
    groups: &[],
};

/// Masses of one panel.
pub static MASS: Group = Group {
    name: "masses of one panel",
    entries: &[
        "enclosure.timber",
        "enclosure.insulation",
        "enclosure.second_insulation",
        "absorber.sheet_metal",
        "absorber.sheet_thickness",
    ],
    groups: &[&PANE, &absorber::CUT, &absorber::PLATE],
};

/// One panel full.
pub static WET: Group =
    Group { name: "one panel full", entries: &[], groups: &[&MASS, &absorber::BORE, &plumbing::LIQUID] };

/// Solves the stage; the box is sized before, because the heat balance needs it.
pub fn solve(inputs: &Inputs, absorber: &absorber::Results, timber_box: Fig<TimberBox>) -> Results {
    let harp = absorber.harp.as_ref().map_err(Clone::clone);
    let hour = heat::worst_hour(absorber);
    let pane = timber_box.clone().and_then(|timber_box| glass::pane(inputs, &timber_box));
    let masses = masses(inputs, absorber, &timber_box, &pane);
    let growth = hour.clone().and_then(|hour| heat::growth(harp.clone()?, hour.plate));
    let openings = openings(inputs, absorber, &timber_box, &growth);
    let screws = timber_box.clone().and_then(|timber_box| screws::lines(inputs, &timber_box, &openings.clone()?));
    let sized = harp.clone().and_then(|harp| Ok((harp, timber_box.as_ref().map_err(Why::clone)?)));
    let timber_jobs = sized.clone().and_then(|(harp, timber_box)| cutting::jobs(inputs, harp, timber_box));
    let sheet_jobs = sized.and_then(|(harp, timber_box)| sheets::jobs(inputs, harp, timber_box));
    Results {
        breath: timber_box.as_ref().map_err(Why::clone).and_then(|timber_box| breathing::breath(absorber, timber_box)),
        timber_cuts: cutting::first(&timber_jobs),
        timber_jobs,
        sheet_cuts: sheets::first(&sheet_jobs),
        sheet_jobs,
        least_clearance: pane.clone().and_then(|pane| glass::least_clearance(&pane, hour.clone()?.cover)),
        under_pressure: timber_box.clone().and_then(|timber_box| glass::under_pressure(inputs, &timber_box)),
        growth,
        openings,
        screws,
        behind: hour.clone().and_then(|hour| heat::behind(inputs, &hour)),
        rail_face: hour.and_then(|hour| heat::rail_face(inputs, &hour)),
        insulation_limit: heat::insulation_limit(inputs),
        wet: masses.clone().and_then(|masses| Ok(mass::wet(masses.dry(), harp.clone()?, plumbing::fluid(inputs)?))),
        timber_box,
        pane,
        masses,
    }
}

fn openings(
    inputs: &Inputs,
    absorber: &absorber::Results,
    timber_box: &Fig<TimberBox>,
    growth: &Fig<heat::Growth>,
) -> Fig<openings::Openings> {
    let harp = absorber.harp.as_ref().map_err(Why::clone)?;
    let timber_box = timber_box.as_ref().map_err(Why::clone)?;
    openings::openings(inputs, harp, timber_box, growth.as_ref().map_err(Why::clone)?)
}

/// How many rows an axis of this stage has.
pub fn rows_of(s: &Solution, axis: Axis) -> usize {
    let results = &s.enclosure;
    match axis {
        Axis::Part => results.timber_box.as_ref().map_or(0, |timber| timber.parts.len()),
        Axis::DepthLayer => results.timber_box.as_ref().map_or(0, |timber| timber.depth.len()),
        Axis::WeepHole => results.openings.as_ref().map_or(0, |openings| openings.weeps.len()),
        Axis::Strip => results.openings.as_ref().map_or(0, |openings| openings.strips.len()),
        Axis::ScrewLine => results.screws.as_ref().map_or(0, Vec::len),
        Axis::Screw => screws::marked(results).len(),
        Axis::TimberBar => cutting::best(s).map_or(0, |cuts| cuts.iter().map(|cut| cut.plan.bars.len()).sum()),
        Axis::TimberCut => cutting::best(s).map_or(0, |cuts| cutting::marks(&cuts).len()),
        Axis::SheetPlan => sheets::count(s),
        Axis::SheetCut => sheets::best(s).map_or(0, |cuts| sheets::marks(&cuts).count()),
        _ => 0,
    }
}

fn masses(
    inputs: &Inputs,
    absorber: &absorber::Results,
    timber_box: &Fig<TimberBox>,
    pane: &Fig<glass::Pane>,
) -> Fig<mass::Masses> {
    let parts = mass::Parts {
        harp: absorber.harp.as_ref().map_err(Why::clone)?,
        timber_box: timber_box.as_ref().map_err(Why::clone)?,
        pane: pane.as_ref().map_err(Why::clone)?,
    };
    mass::masses(inputs, parts)
}

/// The cover as the heat balance sees it: one pane of index 1.526 and emittance 0.88 (Duffie & Beckman ch. 5 and 6,
/// from memory).
pub fn cover(inputs: &Inputs) -> Fig<Cover> {
    Ok(Cover {
        refractive_index: 1.526,
        extinction: inputs.get(&e::GLASS)?.extinction(),
        thickness: inputs.get(&e::GLASS_THICKNESS)?,
        emittance: Ratio::from_si(0.88),
        gap: inputs.get(&e::AIR_GAP)?,
    })
}

/// The insulation of back and edge as the heat balance sees it.
#[derive(Clone, Copy, Debug)]
pub struct BoxInsulation {
    /// Behind the plate.
    pub back: Insulation,
    /// Around it.
    pub edge: Insulation,
    /// Density of the material.
    pub density: MassDensity,
}

/// Conductivity of the boards and rails, W/(m·K) (softwood and plywood, from memory).
pub const WOOD_CONDUCTIVITY: f64 = 0.12;
/// Resistance between the outer face of the box and the air, m²·K/W (common practice, no source).
pub const OUTSIDE_RESISTANCE: f64 = 0.10;

/// Mean temperature of the insulation behind a stagnating plate, °C, at which both laws of conductivity meet.
const HOT_MEAN: f64 = 90.0;

/// The insulation from the handbook, turned to the form of the heat balance: k at 10 °C and its growth per kelvin.
///
/// One law of conductivity holds in this program, the handbook's k(T) linear in temperature. The heat balance keeps the
/// exponential form of its convention, k₁₀ e^(f (T − 10 °C)); f is chosen so that it meets the linear law at 10 and at
/// 90 °C. Between 10 and 110 °C the two then differ by 2 % at most. A second layer counts as resistance outside the first,
/// at its conductivity for 40 °C.
pub fn insulation(inputs: &Inputs) -> Fig<BoxInsulation> {
    let material = material(inputs)?;
    let conductivity = material.conductivity.at(celsius(10.0).si());
    let growth = (material.conductivity.at(celsius(HOT_MEAN).si()) / conductivity).ln() / (HOT_MEAN - 10.0);
    let second = match second_layer::second_layer(inputs)? {
        Some(second) => second.thickness.si() / (second.material.conductivity.at(celsius(40.0).si()) * second.ageing()),
        None => 0.0,
    };
    let layer = |thickness: Length, board: Length, second: f64| Insulation {
        thickness,
        conductivity_at_ten: ThermalConductivity::from_si(conductivity),
        temperature_factor: growth,
        board_thickness: board,
        board_conductivity: ThermalConductivity::from_si(WOOD_CONDUCTIVITY),
        outside_resistance: Insulance(OUTSIDE_RESISTANCE + second),
    };
    Ok(BoxInsulation {
        back: layer(inputs.get(&e::BACK_THICKNESS)?, inputs.get(&e::BACK_BOARD)?, second),
        edge: layer(inputs.get(&e::EDGE_THICKNESS)?, inputs.get(&e::RAIL_THICKNESS)?, 0.0),
        density: material.density,
    })
}

/// The insulating material by its handbook name.
pub fn material(inputs: &Inputs) -> Fig<&'static insulation::Material> {
    let name = inputs.get(&e::INSULATION)?;
    insulation::materials().get(&name).ok_or_else(|| Why::Invalid(vec![e::INSULATION.spec.id.to_owned()]))
}
