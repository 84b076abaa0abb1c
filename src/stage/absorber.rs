//! Absorber: the copper harp and its sheet, cold on the bench and hot in the sun.
//!
//! Which figure comes from where: `rows`; sizes are computed in `geometry`, heat below; the laws are in `physics`.

pub mod as_built;
pub mod cards;
pub mod checks;
pub mod cutting;
pub mod demands;
pub mod detail;
pub mod drawing;
pub mod entries;
pub mod fits;
pub mod flow;
pub mod geometry;
pub mod header_cuts;
pub mod hours;
pub mod jigs;
pub mod joint_log;
pub mod joints;
pub mod methods;
pub mod offcuts;
pub mod options;
pub mod pictures;
pub mod quantities;
pub mod rows;
pub mod sheets;
pub mod stagnation;
pub mod steps;
pub mod suits;
pub mod supplies;
pub mod tube_stock;

use std::sync::Arc;

use super::Group;
use super::enclosure::{self, timber::TimberBox};
use super::{plumbing, site};
use crate::handbook::{self, sheet, solder};
use crate::model::{Fig, Inputs, Why};
use crate::physics::collector::{
    Bond, Collector, CollectorError, Connection, EfficiencyCurve, HarpFittings, HeatCapacities, Material, Materials,
    Operating, OperatingPoint,
};
use crate::physics::convection::WindLaw;
use crate::physics::cutting::Plan;
use crate::physics::fillet::Fillet;
use crate::physics::fluid::Fluid;
use crate::physics::optics::Sunlight;
use crate::units::si::{
    Dimension, HeatFluxDensity, Length, MassDensity, MassRate, Ratio, SpecificHeatCapacity, Velocity, celsius,
};
use entries as e;
use geometry::Harp;

/// The share of the solution that this stage computes.
#[derive(Clone, Debug)]
pub struct Results {
    /// Sizes.
    pub harp: Fig<Harp>,
    /// The solder line of the sheet.
    pub bond: Fig<Bond>,
    /// The collector as physics sees it, cooled by the wind as weakly as any law has it: what dangers are judged by.
    pub collector: Fig<Collector>,
    /// The same cooled by the law that is entered: what output is reckoned by.
    pub output: Fig<Collector>,
    /// Heat with flow.
    pub heat: Fig<Heat>,
    /// Heat without flow.
    pub stagnation: Fig<stagnation::Stagnation>,
    /// The flow among the risers.
    pub flow: Fig<flow::Flow>,
    /// Copper, solder and paint.
    pub quantities: Fig<quantities::Quantities>,
    /// The riser cuts wanted, and what they are cut from.
    pub riser_job: Fig<tube_stock::TubeJob>,
    /// The first plan for them.
    pub riser_plan: Fig<Arc<Plan>>,
    /// The header cuts wanted, and what they are cut from.
    pub header_job: Fig<tube_stock::TubeJob>,
    /// The first plan for them.
    pub header_plan: Fig<Arc<Plan>>,
    /// The solder of the sheet.
    pub solder: Fig<&'static solder::Alloy>,
}

/// Heat with flow.
#[derive(Clone, Debug)]
pub struct Heat {
    /// The working point at [`working_conditions`].
    pub point: OperatingPoint,
    /// The efficiency curve, on absorber area, under the law of wind that is entered.
    pub curve: EfficiencyCurve,
    /// The same under the weakest cooling, for what can hurt: steam and its power.
    pub hottest_curve: EfficiencyCurve,
    /// The heat that it stores.
    pub capacity: HeatCapacities,
    /// The liquid.
    pub fluid: Fluid,
}

/// The entries that decide the harp's sizes.
pub static HARP: Group = Group {
    name: "sizes of the harp",
    entries: &[
        "absorber.riser_tube",
        "absorber.header_tube",
        "absorber.riser_count",
        "absorber.riser_pitch",
        "absorber.sheet_width",
        "absorber.stub_left",
        "absorber.stub_right",
        "absorber.header_pair",
        "absorber.header_spacing",
    ],
    groups: &[],
};

/// The sheet of the harp: the tees leave less of a riser free than the headers do.
pub static PLATE: Group = Group {
    name: "sheet of the harp",
    entries: &["absorber.joint", "absorber.tee_shoulder", "absorber.cup_depth"],
    groups: &[&HARP],
};

/// The bores, and what they hold.
pub static BORE: Group = Group { name: "bores of the harp", entries: &["absorber.riser_wall"], groups: &[&HARP] };

/// The entries that decide the cut length of the risers.
pub static CUT: Group = Group {
    name: "riser cut",
    entries: &["absorber.joint", "absorber.tee_shoulder", "absorber.insertion"],
    groups: &[&HARP],
};

/// The solder line of the sheet.
pub static BOND: Group = Group {
    name: "solder line of the sheet",
    entries: &[
        "absorber.solder",
        "absorber.bond_law",
        "absorber.bond_width",
        "absorber.bond_film",
        "absorber.bond_length",
        "absorber.riser_tube",
    ],
    groups: &[],
};

/// The entries that decide the collector's heat balance.
pub static COLLECTOR: Group = Group {
    name: "heat balance of the collector",
    entries: &[
        "absorber.seat",
        "absorber.sheet_metal",
        "absorber.sheet_thickness",
        "absorber.absorptance",
        "absorber.emittance",
        "absorber.connection",
        "absorber.tube_wall",
        "absorber.glazing",
        "site.tilt",
        "site.altitude",
    ],
    groups: &[&BORE, &BOND, &PLATE, &enclosure::BOX, &enclosure::COVER],
};

/// The working point and the efficiency curve.
pub static HEAT: Group = Group {
    name: "heat with flow",
    entries: &["plumbing.flow_per_area", "absorber.wind_law"],
    groups: &[&COLLECTOR, &plumbing::LIQUID],
};

/// The plate without flow.
pub static STAGNATION: Group = Group { name: "heat without flow", entries: &[], groups: &[&COLLECTOR, &site::SUN] };

/// The solder of the sheet.
pub static SOLDER: Group = Group { name: "solder of the sheet", entries: &["absorber.solder"], groups: &[] };

/// Solves the stage.
pub fn solve(inputs: &Inputs, site: &site::Results, harp: Fig<Harp>, timber_box: &Fig<TimberBox>) -> Results {
    let solder = alloy(inputs);
    let bond = bond(inputs);
    let (riser_job, riser_plan) = cutting::solve(inputs, &harp);
    let (header_job, header_plan) = header_cuts::solve(inputs, &harp);
    let quantities = harp.as_ref().map_err(Why::clone).and_then(|harp| quantities::quantities(inputs, harp));
    let collector = harp.clone().and_then(|harp| collector(inputs, &harp, &bond, timber_box.as_ref()));
    let output = collector.clone().and_then(|collector| output(inputs, &collector));
    let heat = output.clone().and_then(|output| heat(inputs, &output));
    let stagnation = collector.clone().and_then(|collector| stagnation::solve(&collector, site));
    let flow = match (&collector, &heat) {
        (Ok(collector), Ok(heat)) => flow::flow(collector, heat),
        (Err(why), _) | (_, Err(why)) => Err(why.clone()),
    };
    Results {
        harp,
        bond,
        collector,
        output,
        heat,
        stagnation,
        flow,
        quantities,
        riser_job,
        riser_plan,
        header_job,
        header_plan,
        solder,
    }
}

fn alloy(inputs: &Inputs) -> Fig<&'static solder::Alloy> {
    let name = inputs.get(&e::SOLDER)?;
    solder::alloys().get(&name).ok_or_else(|| Why::Invalid(vec![e::SOLDER.spec.id.to_owned()]))
}

/// The solder line of the sheet.
fn bond(inputs: &Inputs) -> Fig<Bond> {
    let alloy = alloy(inputs)?;
    let conductivity = alloy.conductivity.ok_or_else(|| no_conductivity(&alloy.name))?;
    let (width, film) = (inputs.get(&e::BOND_WIDTH)?, inputs.get(&e::BOND_FILM)?);
    let thickness = match inputs.get(&options::BOND_LAW)? {
        options::BondLaw::Film => film,
        options::BondLaw::Fillet => {
            let tube_outer_diameter = geometry::named_tube(&inputs.get(&e::RISER_TUBE)?, e::RISER_TUBE.spec.id)?.od;
            let fillet = Fillet { tube_outer_diameter, width, film };
            let whole = fillet.conductance(conductivity).map_err(Why::out_of_range)?;
            // The even film of the same width that conducts as the fillet does.
            Length::from_si(conductivity.si() * width.si() / whole.si())
        }
    };
    Ok(Bond { conductivity, width, thickness, soldered_fraction: inputs.get(&e::BOND_LENGTH)? })
}

/// The collector as physics sees it.
///
/// Momentum factors of the headers are the theory's limits (1 and 2) and K of a riser with its two tees is 1.5: they
/// are not verified, so flows among the risers are good to perhaps a factor of 1.5.
fn collector(inputs: &Inputs, harp: &Harp, bond: &Fig<Bond>, timber_box: Result<&TimberBox, &Why>) -> Fig<Collector> {
    let bond = bond.clone()?;
    let timber_box = timber_box.map_err(Clone::clone)?;
    let metal_name = inputs.get(&e::SHEET_METAL)?;
    let metal =
        sheet::metals().get(&metal_name).ok_or_else(|| Why::Invalid(vec![e::SHEET_METAL.spec.id.to_owned()]))?;
    let insulation = enclosure::insulation(inputs)?;
    let collector = Collector {
        riser_count: harp.riser_count,
        riser_pitch: harp.riser_pitch,
        riser_length: harp.plate_length,
        riser_outer_diameter: harp.riser_outer_diameter,
        riser_bore: harp.riser_bore,
        header_outer_diameter: harp.header.od,
        header_bore: harp.header.bore(),
        header_length: harp.header_length,
        tube_conductivity: crate::units::si::ThermalConductivity::from_si(TUBE_CONDUCTIVITY),
        tube_wall_as_fin: inputs.get(&e::TUBE_WALL)?,
        sheet_thickness: inputs.get(&e::SHEET_THICKNESS)?,
        sheet_conductivity: metal.conductivity,
        fin_base: match inputs.get(&e::SEAT)? {
            e::Seat::Flat => bond.width,
            e::Seat::Grooved => harp.riser_outer_diameter,
        },
        edge_width: harp.edge_width,
        bond,
        absorptance: inputs.get(&e::ABSORPTANCE)?,
        emittance: inputs.get(&e::EMITTANCE)?,
        cover: match inputs.get(&options::GLAZING)? {
            options::Glazing::Glass => Some(enclosure::cover(inputs)?),
            options::Glazing::Bare => None,
        },
        back: insulation.back,
        edge: insulation.edge,
        edge_height: timber_box.inside_height,
        tilt: inputs.get(&site::entries::TILT)?,
        altitude: inputs.get(&site::entries::ALTITUDE)?,
        wind_law: WindLaw::Watmuff,
        gross_area: timber_box.outside_width * timber_box.outside_length,
        harp: HarpFittings {
            connection: match inputs.get(&e::CONNECTION)? {
                e::Ends::Across => Connection::Diagonal,
                e::Ends::SameSide => Connection::SameSide,
            },
            riser_loss: 1.5,
            dividing_momentum: 1.0,
            combining_momentum: 2.0,
        },
        materials: materials(metal, &insulation),
    };
    collector.check().map_err(refused)?;
    Ok(collector)
}

/// Conductivity of drawn copper tube (C12200), W/(m·K); handbook sheet table, from memory.
const TUBE_CONDUCTIVITY: f64 = 339.0;

fn no_conductivity(alloy: &str) -> Why {
    Why::out_of_range(format_args!("the handbook gives no conductivity for {alloy}; choose an alloy that has one"))
}

fn materials(metal: &sheet::Metal, insulation: &enclosure::BoxInsulation) -> Materials {
    let material = |density: f64, heat: f64| Material {
        density: MassDensity::from_si(density),
        specific_heat: SpecificHeatCapacity::from_si(heat),
    };
    Materials {
        sheet: Material { density: metal.density, specific_heat: metal.specific_heat },
        tube: material(handbook::tube::COPPER_DENSITY, 385.0),
        insulation: material(insulation.density.si(), 1030.0),
        glass: material(2500.0, 880.0),
    }
}

/// The hour at which the working point is shown: 900 W/m² straight on, 20 °C air and sky, 45 °C in, 2 m/s wind.
///
/// A convention of this project: a good hour with a warm tank.
pub fn working_conditions(fluid: Fluid, mass_flow: MassRate) -> Operating {
    Operating {
        sun: Sunlight::normal(HeatFluxDensity::from_si(900.0)),
        ambient: celsius(20.0),
        sky: celsius(20.0),
        wind: Velocity::from_si(2.0),
        inlet: celsius(45.0),
        mass_flow,
        fluid,
    }
}

/// The collector at [`working_conditions`].
fn working_point(inputs: &Inputs, collector: &Collector) -> Fig<OperatingPoint> {
    let fluid = plumbing::fluid(inputs)?;
    let per_area = inputs.get(&plumbing::entries::FLOW_PER_AREA)?;
    let density = fluid.density(celsius(45.0)).si();
    let mass_flow = MassRate::from_si(per_area * collector.gross_area.si() * density);
    collector.operate(&working_conditions(fluid, mass_flow)).map_err(refused)
}

/// The collector with the law of wind that is entered. It never stands in for the weakly cooled one where danger is
/// judged: a plate is not cool because a pessimist counts on much wind.
fn output(inputs: &Inputs, collector: &Collector) -> Fig<Collector> {
    Ok(Collector { wind_law: inputs.get(&options::WIND_LAW)?.law(), ..*collector })
}

fn heat(inputs: &Inputs, output: &Collector) -> Fig<Heat> {
    let point = working_point(inputs, output)?;
    let fluid = point.conditions.fluid;
    let curve_of = |collector: &Collector| collector.curve(fluid, &collector.curve_differences()).map_err(refused);
    let curve = curve_of(output)?;
    let hottest_curve = match output.wind_law {
        WindLaw::Watmuff => curve.clone(),
        WindLaw::McAdams => curve_of(&Collector { wind_law: WindLaw::Watmuff, ..*output })?,
    };
    let capacity = output.capacity(fluid, curve.a1).map_err(refused)?;
    Ok(Heat { point, curve, hottest_curve, capacity, fluid })
}

fn refused(error: CollectorError) -> Why {
    Why::OutOfRange(error.to_string())
}

impl Heat {
    /// The curve at a temperature difference of zero, a fraction.
    pub fn eta0(&self) -> Ratio {
        Ratio::from_si(self.curve.eta0)
    }
}
