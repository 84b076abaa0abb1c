//! Options of the heat balance and what they change: bond by fillet, bare plate, an aged coating, wind, warm and cold
//! liquid in the harp.
//!
//! The balance itself is solved in `absorber`; nothing here lowers the figure that judges materials.

use super::HEAT;
use crate::model::{Choice, Entry, EntrySpec, Fig, Judgement, Verdict, Why};
use crate::physics::collector::{Collector, Operating, OperatingPoint};
use crate::physics::convection::WindLaw;
use crate::stage::{Check, Figure, Group, Severity, Solution};
use crate::units::si::{Dimension, Ratio, Velocity, celsius};
use crate::units::{Kind, Quantity};

/// How the solder line is reckoned.
pub static BOND_LAW: Entry<BondLaw> = Entry::choice("absorber.bond_law", "bond reckoned as")
    .why("a film of even thickness, or the true fillet between a round tube and a flat sheet")
    .default("film");

/// Glass or none.
pub static GLAZING: Entry<Glazing> = Entry::choice("absorber.glazing", "glazing")
    .why("a bare plate is for pools and warm seasons; its output hangs on the wind")
    .default("glass");

/// How wind cools the outer face.
pub static WIND_LAW: Entry<WindCooling> = Entry::choice("absorber.wind_law", "cooling by wind")
    .why("published laws scatter by a factor of two; strong is the pessimist's output. Stagnation is judged by usual")
    .default("usual");

/// What an old coating has lost in absorptance.
pub static ABSORPTANCE_LOSS: Entry<Ratio> = Entry::percent("absorber.absorptance_loss", "absorptance lost with age")
    .why("points of absorptance after years in the box (3, from memory)")
    .hard(0.0, 0.9)
    .default("3 %");

/// What an old coating has gained in emittance.
pub static EMITTANCE_GAIN: Entry<Ratio> = Entry::percent("absorber.emittance_gain", "emittance gained with age")
    .why("points of emittance after years in the box (5, from memory); selective surfaces gain, paint hardly")
    .hard(0.0, 0.9)
    .default("5 %");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] =
    &[&BOND_LAW.spec, &GLAZING.spec, &WIND_LAW.spec, &ABSORPTANCE_LOSS.spec, &EMITTANCE_GAIN.spec];

/// How the solder line is reckoned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BondLaw {
    /// A film of even thickness.
    Film,
    /// The fillet between tube and sheet.
    Fillet,
}

impl Choice for BondLaw {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Film, "film", "a film of even thickness over the line's width"),
        (Self::Fillet, "fillet", "a film under the tube and a fillet at each side"),
    ];
}

/// Glass or none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Glazing {
    /// The pane of the enclosure.
    Glass,
    /// A bare plate.
    Bare,
}

impl Choice for Glazing {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] =
        &[(Self::Glass, "glass", "the pane of the enclosure"), (Self::Bare, "none", "a bare plate")];
}

/// How wind cools the outer face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WindCooling {
    /// Measured on a collector's face.
    Usual,
    /// The pessimistic one.
    Strong,
}

impl Choice for WindCooling {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Usual, "usual", "2.8 + 3.0 v in W/(m²·K), v in m/s"),
        (Self::Strong, "strong", "5.7 + 3.8 v in W/(m²·K), v in m/s"),
    ];
}

impl WindCooling {
    /// The law of physics.
    pub const fn law(self) -> WindLaw {
        match self {
            Self::Usual => WindLaw::Watmuff,
            Self::Strong => WindLaw::McAdams,
        }
    }
}

static AGED: Group = Group {
    name: "heat with an aged coating",
    entries: &["absorber.absorptance_loss", "absorber.emittance_gain"],
    groups: &[&HEAT],
};

static AGEING: Group = Group {
    name: "ageing of the coating",
    entries: &["absorber.absorptance_loss", "absorber.emittance_gain"],
    groups: &[],
};

fn collector(s: &Solution) -> Fig<&Collector> {
    s.absorber.output.as_ref().map_err(Clone::clone)
}

fn conditions(s: &Solution) -> Fig<Operating> {
    Ok(s.absorber.heat.as_ref().map_err(Clone::clone)?.point.conditions)
}

/// The working point with an old coating.
fn aged(s: &Solution) -> Fig<OperatingPoint> {
    let collector = collector(s)?;
    let absorptance = collector.absorptance - s.inputs.get(&ABSORPTANCE_LOSS)?;
    let emittance = collector.emittance + s.inputs.get(&EMITTANCE_GAIN)?;
    let most = Ratio::from_si(1.0);
    let emittance = if emittance > most { most } else { emittance };
    let old = Collector { absorptance, emittance, ..*collector };
    old.operate(&conditions(s)?).map_err(Why::out_of_range)
}

/// Useful heat at the working point in another wind.
fn in_wind(s: &Solution, metres_a_second: f64) -> Fig<OperatingPoint> {
    let conditions = Operating { wind: Velocity::from_si(metres_a_second), ..conditions(s)? };
    collector(s)?.operate(&conditions).map_err(Why::out_of_range)
}

/// Pressure drop of one harp without sun, at one temperature of the liquid.
fn drop_at(s: &Solution, degrees: f64) -> Fig<Quantity> {
    let conditions = conditions(s)?;
    let flows = collector(s)?
        .flushing_flows(conditions.fluid, celsius(degrees), conditions.mass_flow)
        .map_err(Why::out_of_range)?;
    Ok(Quantity::new(Kind::Pressure, flows.pressure_drop))
}

/// Effect of ageing on the coating: −Δα + 0.5 Δε.
fn criterion(s: &Solution) -> Fig<f64> {
    Ok(s.inputs.get(&ABSORPTANCE_LOSS)?.si() + 0.5 * s.inputs.get(&EMITTANCE_GAIN)?.si())
}

/// Aperture: the opening of the glass.
fn aperture_ratio(s: &Solution) -> Fig<f64> {
    let timber_box = s.enclosure.timber_box.as_ref().map_err(Clone::clone)?;
    let opening = timber_box.inside_width * timber_box.inside_length;
    Ok(collector(s)?.absorber_area().si() / opening.si())
}

fn a2(s: &Solution, ratio: f64) -> Fig<Quantity> {
    let curve = &s.absorber.heat.as_ref().map_err(Clone::clone)?.curve;
    Ok(Quantity::new(Kind::LossSlope, curve.on_area(ratio).a2))
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("absorber.a2_gross", "a₂ on the box's outside area", Kind::LossSlope, &HEAT, |s, _| {
        Ok(a2(s, collector(s)?.gross_ratio())?.into())
    })
    .by("efficiency-curve", "{a₂} × absorber area / outside area", &[("a₂", "absorber.a2")]),
    Figure::new(
        "absorber.a1_aperture",
        "a₁ on the area of the glass opening",
        Kind::LossCoefficient,
        &HEAT,
        |s, _| {
            let curve = &s.absorber.heat.as_ref().map_err(Clone::clone)?.curve;
            Ok(curve.on_area(aperture_ratio(s)?).a1.into())
        },
    )
    .by("efficiency-curve", "{a₁} × absorber area / opening", &[("a₁", "absorber.a1")]),
    Figure::new("absorber.a2_aperture", "a₂ on the area of the glass opening", Kind::LossSlope, &HEAT, |s, _| {
        Ok(a2(s, aperture_ratio(s)?)?.into())
    })
    .by("efficiency-curve", "{a₂} × absorber area / opening", &[("a₂", "absorber.a2")]),
    Figure::new("absorber.useful_power_aged", "useful heat with an old coating", Kind::Power, &AGED, |s, _| {
        Ok(aged(s)?.useful_power.into())
    })
    .by(
        "ageing",
        "the working point with α − {lost} and ε + {gained}",
        &[("lost", "absorber.absorptance_loss"), ("gained", "absorber.emittance_gain")],
    ),
    Figure::new("absorber.coating_criterion", "ageing of the coating", Kind::Percent, &AGEING, |s, _| {
        Ok(Quantity::percent(criterion(s)?).into())
    })
    .by(
        "ageing",
        "−Δα + 0.5 Δε = {lost} + 0.5 × {gained}",
        &[("lost", "absorber.absorptance_loss"), ("gained", "absorber.emittance_gain")],
    ),
    Figure::new(
        "absorber.useful_power_calm",
        "useful heat in a wind of 1 m/s (2.2 mph)",
        Kind::Power,
        &HEAT,
        |s, _| Ok(in_wind(s, 1.0)?.useful_power.into()),
    )
    .by("heat-removal", "the working point in another wind; {Q} is at 2 m/s", &[("Q", "absorber.useful_power")]),
    Figure::new(
        "absorber.useful_power_windy",
        "useful heat in a wind of 5 m/s (11 mph)",
        Kind::Power,
        &HEAT,
        |s, _| Ok(in_wind(s, 5.0)?.useful_power.into()),
    )
    .by("heat-removal", "the working point in another wind; {Q} is at 2 m/s", &[("Q", "absorber.useful_power")]),
    Figure::new("absorber.harp_drop_cold", "pressure drop of one harp at 10 °C", Kind::Pressure, &HEAT, |s, _| {
        Ok(drop_at(s, 10.0)?.into())
    })
    .by("harp-network", "the network without sun, liquid at 10 °C", &[]),
    Figure::new("absorber.harp_drop_hot", "pressure drop of one harp at 80 °C", Kind::Pressure, &HEAT, |s, _| {
        Ok(drop_at(s, 80.0)?.into())
    })
    .by("harp-network", "the network without sun, liquid at 80 °C", &[]),
];

/// Ageing that a coating for collectors may show (IEA SHC, ISO 22975-3, from memory).
const CRITERION: f64 = 0.05;

fn ageing(s: &Solution) -> Fig<Judgement> {
    let found = criterion(s)?;
    let margin = Quantity::percent(CRITERION - found);
    Ok(Judgement::caution_unless(found <= CRITERION + 1e-12)
        .with(Quantity::percent(found), Quantity::percent(CRITERION))
        .margin(margin))
}

/// A bare plate loses to every wind; the enclosure's glass is then out of the reckoning.
fn bare(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&GLAZING)? != Glazing::Bare {
        return Ok(Judgement::does_not_apply("the plate lies under glass"));
    }
    let (calm, windy) = (in_wind(s, 1.0)?.useful_power, in_wind(s, 5.0)?.useful_power);
    Ok(Judgement::of(Verdict::Caution).with(windy, calm))
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("absorber.ageing", "ageing of the coating", Severity::Nuisance, ageing)
        .says(
            "The coating is said to lose {found} by −Δα + 0.5 Δε; up to {limit} is the mark of a collector coating.",
            "Another coating, or plan with {absorber.useful_power_aged} instead of {absorber.useful_power}.",
        )
        .blind_to("rust, peeling, outgassing on the glass")
        .source("a published test of absorber coatings")
        .recalls("IEA SHC task and ISO 22975-3")
        .needs(&["absorber.coating_criterion"]),
    Check::new("absorber.bare-plate", "plate without glass", Severity::Nuisance, bare)
        .says(
            "Without glass the heat falls from {limit} in a wind of 1 m/s to {found} in 5 m/s.",
            "Glass over the plate, or a sheltered place and warm water only for bathing or a pool.",
        )
        .blind_to("rain on the plate, dew, dirt on bare paint")
        .source("the plate's own balance at three winds")
        .needs(&["absorber.useful_power_calm", "absorber.useful_power_windy", "absorber.glazing"]),
];
