//! The checks of the absorber stage.

use super::entries::{self as e, Filler};
use crate::model::{Fig, Judgement, Verdict, Why};
use crate::stage::{Check, Severity, Solution};
use crate::units::si::{Dimension, LineConductance, TemperatureInterval, celsius, difference};
use crate::units::{HasKind, Quantity};

/// Margin between stagnation and solidus that is clear, and that is at least wanted, K (project rule).
const SOLDER_CLEAR: f64 = 30.0;
const SOLDER_LEAST: f64 = 20.0;
/// Highest service temperature of a pressure joint: soldered and brazed, °C (application data sheet on soldering and
/// brazing copper tube, verified).
const SOLDERED_LIMIT: f64 = 121.0;
const BRAZED_LIMIT: f64 = 177.0;
/// Bond conductance that the textbooks want, and below which the sheet cannot be called soldered, W/(m·K).
const BOND_WANTED: f64 = 30.0;
const BOND_LEAST: f64 = 10.0;

fn sheet_solder(s: &Solution) -> Fig<Judgement> {
    let worst = s.absorber.stagnation.clone()?.worst;
    let alloy = s.absorber.solder.clone()?;
    let margin = difference(alloy.solidus, worst);
    let verdict = match margin.si() {
        kelvin if kelvin >= SOLDER_CLEAR => Verdict::Clear,
        kelvin if kelvin >= SOLDER_LEAST => Verdict::Caution,
        _ => Verdict::Stop,
    };
    let over = margin - TemperatureInterval::from_si(SOLDER_CLEAR);
    let judgement = Judgement::of(verdict).with(worst, alloy.solidus).margin(over).part(alloy.name.clone());
    Ok(judgement.resting_on(alloy.provenance))
}

fn pressure_joints(s: &Solution) -> Fig<Judgement> {
    let worst = s.absorber.stagnation.clone()?.worst;
    let (limit, part) = match s.inputs.get(&e::HEADER_FILLER)? {
        Filler::Soldered => (celsius(SOLDERED_LIMIT), "soft solder"),
        Filler::Brazed => (celsius(BRAZED_LIMIT), "brazing"),
    };
    let margin = difference(limit, worst);
    Ok(Judgement::stop_unless(margin.si() >= 0.0).with(worst, limit).margin(margin).part(part))
}

fn bond(s: &Solution) -> Fig<Judgement> {
    let conductance = s.absorber.bond.clone()?.conductance();
    let verdict = match conductance.si() {
        value if value >= BOND_WANTED => Verdict::Clear,
        value if value >= BOND_LEAST => Verdict::Caution,
        _ => Verdict::Stop,
    };
    let wanted = LineConductance(BOND_WANTED);
    let margin = Quantity::new(LineConductance::KIND, conductance.si() - BOND_WANTED);
    Ok(Judgement::of(verdict).with(LineConductance(conductance.si()), wanted).margin(margin))
}

/// Sizes that contradict each other, or entries that are physically impossible.
fn possible(s: &Solution) -> Fig<Judgement> {
    let ((Err(reason), _) | (Ok(_), Err(reason))) = (&s.absorber.harp, &s.absorber.collector) else {
        return Ok(Judgement::of(Verdict::Clear));
    };
    match reason {
        Why::OutOfRange(sentence) => Ok(Judgement::of(Verdict::Stop).part(sentence.clone())),
        Why::Invalid(_) => Ok(Judgement::of(Verdict::Stop).part(reason.to_string())),
        Why::Missing(_) | Why::Pending => Err(reason.clone()),
    }
}

fn square(s: &Solution) -> Fig<Judgement> {
    const ALLOWED: f64 = 0.002;
    let found = (s.inputs.get(&e::DIAGONAL_1)? - s.inputs.get(&e::DIAGONAL_2)?).abs();
    let limit = crate::units::si::Length::from_si(ALLOWED);
    Ok(Judgement::stop_unless(found <= limit).with(found, limit).margin(limit - found))
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("absorber.sheet-solder", "solder of the sheet against stagnation", Severity::Injury, sheet_solder)
        .says(
            "Empty in full sun the plate can reach {found}; {part} begins to melt at {limit}.",
            "Choose an alloy that melts at least 30 K higher, or a coating that stays cooler.",
        )
        .blind_to("the temperature near the torch, the creep of solder under load, an alloy other than its label")
        .source("margin of 30 K: project rule; solidus: handbook table of solder alloys")
        .recalls_beside("the solidus of some alloys")
        .needs(&["absorber.stagnation_worst", "absorber.solder"]),
    Check::new("absorber.pressure-joints", "pressure joints against stagnation", Severity::Serious, pressure_joints)
        .says(
            "Joints by {part} are rated to {limit}; this panel can reach {found} empty in full sun.",
            "Braze header and riser joints, or choose a coating that stays cooler.",
        )
        .blind_to("how well a joint is filled; whether the loop is at vent pressure when it is hot")
        .ask("a person licensed for pressure joints on potable or closed loops, where the local code wants one")
        .source("soldered 250 °F, brazed 350 °F: application data sheet on soldering and brazing copper tube")
        .needs(&["absorber.stagnation_worst", "absorber.header_filler"]),
    Check::new("absorber.possible", "sizes that can be built", Severity::Nuisance, possible)
        .says("This harp cannot be built or computed: {part}.", "Correct the entry that is named.")
        .blind_to("sizes that can be built and are unwise all the same")
        .source("geometry and the ranges of the methods, see docs/methods.md")
        .needs(&["absorber.tau_alpha"]),
    Check::new("absorber.bond", "bond of sheet and riser", Severity::Nuisance, bond)
        .says(
            "The bond conducts {found}; {limit} is wanted, or the sheet keeps its heat.",
            "A longer, wider or thinner solder line; clamp the sheet down while it is soldered.",
        )
        .blind_to("gaps in the line that nobody has seen; test a coupon, then feel for cold stripes")
        .source("10 W/(m·K): project rule")
        .recalls("30 W/(m·K): Whillier & Saluja in Duffie & Beckman")
        .needs(&["absorber.bond_conductance"]),
    Check::new("absorber.square", "harp square", Severity::Nuisance, square)
        .per_panel()
        .says(
            "The diagonals differ by {found}; {limit} is allowed.",
            "Rack the harp until the diagonals agree before any joint is heated.",
        )
        .blind_to("a twist out of the plane; sight along the headers")
        .source("2 mm: common practice, no source")
        .needs(&["absorber.diagonal_1", "absorber.diagonal_2"]),
];
