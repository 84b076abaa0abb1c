//! Heat in more detail: optics, the curve on other areas, time constants, temperatures in the sheet, a cross-check.
//!
//! The balance itself is solved in `absorber`; these read from it.

use super::{COLLECTOR, HEAT, Heat};
use crate::model::{Fig, Judgement, Verdict, Why};
use crate::physics::collector::Collector;
use crate::stage::{Check, Figure, Severity, Solution};
use crate::units::Kind::{LossCoefficient, Number, Percent, Temperature, TemperatureDifference, Time};
use crate::units::Quantity;
use crate::units::si::{Dimension, HeatTransfer, difference};

fn heat(s: &Solution) -> Fig<&Heat> {
    s.absorber.heat.as_ref().map_err(Clone::clone)
}

fn collector(s: &Solution) -> Fig<&Collector> {
    s.absorber.collector.as_ref().map_err(Clone::clone)
}

/// Klein's top loss at the working point.
fn klein(s: &Solution) -> Fig<HeatTransfer> {
    let point = &heat(s)?.point;
    let output = s.absorber.output.as_ref().map_err(Clone::clone)?;
    output
        .top_loss_by_klein(point.mean_plate, point.conditions.ambient, point.conditions.wind)
        .ok_or_else(|| Why::out_of_range("Klein's formula needs a cover and a plate warmer than the air"))
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("absorber.tau_alpha", "sunlight kept at normal incidence (τα)", Percent, &COLLECTOR, |s, _| {
        let normal = crate::units::si::Angle::from_si(0.0);
        Ok(Quantity::percent(collector(s)?.transmittance_absorptance(normal)).into())
    })
    .by("cover-optics", "(τα) = τ {α}/(1 − (1 − {α})ρ_d), both polarisations", &[("α", "absorber.absorptance")]),
    Figure::new("absorber.incidence_50", "incidence modifier at 50°", Percent, &COLLECTOR, |s, _| {
        Ok(Quantity::percent(collector(s)?.incidence_modifier().at_fifty).into())
    })
    .by("cover-optics", "(τα) at 50° / {τα}", &[("τα", "absorber.tau_alpha")]),
    Figure::new("absorber.incidence_b0", "incidence coefficient b₀", Number, &COLLECTOR, |s, _| {
        Ok(Quantity::number(collector(s)?.incidence_modifier().b0).into())
    })
    .by("cover-optics", "(1 − {K})/(1/cos 50° − 1)", &[("K", "absorber.incidence_50")]),
    Figure::new("absorber.incidence_diffuse", "incidence modifier, diffuse sky", Percent, &COLLECTOR, |s, _| {
        Ok(Quantity::percent(collector(s)?.incidence_modifier().sky_diffuse).into())
    })
    .by("cover-optics", "(τα) at the equivalent angle of the sky / {τα}", &[("τα", "absorber.tau_alpha")]),
    Figure::new("absorber.a1_gross", "a₁ on the box's outside area", LossCoefficient, &HEAT, |s, _| {
        Ok(heat(s)?.curve.on_area(collector(s)?.gross_ratio()).a1.into())
    })
    .by("efficiency-curve", "{a₁} × absorber area / outside area", &[("a₁", "absorber.a1")]),
    Figure::new("absorber.eta0_aperture", "η₀ on the area of the glass opening", Percent, &HEAT, |s, _| {
        let timber_box = s.enclosure.timber_box.as_ref().map_err(Clone::clone)?;
        let opening = timber_box.inside_width * timber_box.inside_length;
        let ratio = collector(s)?.absorber_area().si() / opening.si();
        Ok(Quantity::percent(heat(s)?.curve.on_area(ratio).eta0).into())
    })
    .by("efficiency-curve", "{η₀} × absorber area / opening", &[("η₀", "absorber.eta0")]),
    Figure::new("absorber.plate_mean", "mean plate at the working point", Temperature, &HEAT, |s, _| {
        Ok(heat(s)?.point.mean_plate.into())
    })
    .by(
        "heat-removal",
        "T_i + q(1 − {F_R})/({F_R} {U_L})",
        &[("F_R", "absorber.heat_removal_factor"), ("U_L", "absorber.loss_coefficient")],
    ),
    Figure::new(
        "absorber.across_fin",
        "sheet between risers above the sheet on them",
        TemperatureDifference,
        &HEAT,
        |s, _| {
            let point = &heat(s)?.point;
            Ok(difference(point.middle_at_outlet, point.root_at_outlet).into())
        },
    )
    .by("fin", "T_mid − T_root, T along the fin by cosh, at the outlet end", &[]),
    Figure::new("absorber.time_empty", "time constant, empty", Time, &HEAT, |s, _| {
        let heat = heat(s)?;
        let dry = heat.capacity.total - heat.capacity.fluid;
        Ok(collector(s)?.standing_time_constant(dry, &heat.point).into())
    })
    .by(
        "heat-capacity",
        "({C} − liquid)/(A {U_L})",
        &[("C", "absorber.heat_capacity"), ("U_L", "absorber.loss_coefficient")],
    ),
    Figure::new("absorber.time_standing", "time constant, full and standing", Time, &HEAT, |s, _| {
        let heat = heat(s)?;
        Ok(collector(s)?.standing_time_constant(heat.capacity.total, &heat.point).into())
    })
    .by(
        "heat-capacity",
        "{C}/(A {U_L})",
        &[("C", "absorber.heat_capacity"), ("U_L", "absorber.loss_coefficient")],
    ),
    Figure::new("absorber.time_flowing", "time constant, with flow", Time, &HEAT, |s, _| {
        let heat = heat(s)?;
        Ok(collector(s)?.flowing_time_constant(heat.capacity.total, &heat.point).into())
    })
    .by(
        "heat-capacity",
        "{C}/(A F' {U_L} + 2 ṁ c_p)",
        &[("C", "absorber.heat_capacity"), ("U_L", "absorber.loss_coefficient")],
    ),
    Figure::new("absorber.top_loss_klein", "loss through the glass, cross-check", LossCoefficient, &HEAT, |s, _| {
        Ok(klein(s)?.into())
    })
    .by("klein", "Klein's explicit formula at the working point; beside {U_t}", &[("U_t", "absorber.top_loss")]),
];

/// Departure from Klein's formula that is worth a look (project rule).
const DEPARTURE: f64 = 0.15;

fn cross_check(s: &Solution) -> Fig<Judgement> {
    if collector(s)?.cover.is_none() {
        return Ok(Judgement::of(Verdict::Clear).part("no glass"));
    }
    let departure = (heat(s)?.point.top_loss.si() / klein(s)?.si() - 1.0).abs();
    let (found, limit) = (Quantity::percent(departure), Quantity::percent(DEPARTURE));
    let margin = Quantity::percent(DEPARTURE - departure);
    Ok(Judgement::caution_unless(departure <= DEPARTURE).with(found, limit).margin(margin))
}

/// Reynolds numbers between which the flow in a tube cannot be foretold.
const TRANSITION: (f64, f64) = (2300.0, 4000.0);

fn transition(s: &Solution) -> Fig<Judgement> {
    let reynolds = heat(s)?.point.reynolds;
    let outside = reynolds <= TRANSITION.0 || reynolds >= TRANSITION.1;
    Ok(Judgement::caution_unless(outside).with(Quantity::number(reynolds), Quantity::number(TRANSITION.0)))
}

/// Growth at stagnation, of copper from 20 °C to 200 °C at most.
fn liquid_known(s: &Solution) -> Fig<Judgement> {
    use crate::physics::collector::LiquidState;
    let known = heat(s)?.point.liquid == LiquidState::Known;
    Ok(if known { Judgement::of(Verdict::Clear) } else { Judgement::of(Verdict::Caution) })
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("absorber.loss-cross-check", "loss through the glass, two ways", Severity::Nuisance, cross_check)
        .says(
            "The cover network and Klein's formula differ by {found}; up to {limit} is usual.",
            "Look at air gap, emittance and tilt: one of them may be mistyped.",
        )
        .blind_to("errors that both methods share; Klein's formula itself is off by up to 20 % on hot, steep, windy panes")
        .source("15 %: project rule")
        .recalls("Klein 1979 in Duffie & Beckman 6.4.9")
        .needs(&["absorber.top_loss", "absorber.top_loss_klein"]),
    Check::new("absorber.transition", "flow in the risers, laminar or not", Severity::Nuisance, transition)
        .says(
            "The Reynolds number {found} lies where flow is neither laminar nor turbulent; heat transfer there is a guess.",
            "Change the flow or the riser tube if the last percent matters.",
        )
        .blind_to("swirl behind tees")
        .source("transition in tubes")
        .recalls("2300 and 4000: Gnielinski 2013")
        .needs(&["absorber.reynolds"]),
    Check::new("absorber.liquid-range", "liquid within its data", Severity::Nuisance, liquid_known)
        .says(
            "At the working point the liquid leaves the range of its property data.",
            "Look at the glycol share: the liquid would freeze or is hotter than its tables.",
        )
        .blind_to("inhibitors and old glycol")
        .source("range of the property formulas, see docs/methods.md")
        .needs(&["absorber.reynolds"]),
];
