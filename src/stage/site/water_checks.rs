//! Checks on the water of the place: scale, chloride, acid. All limits are from memory.

use super::entries::weather::{CHLORIDE, HARDNESS, PH};
use crate::model::{Fig, Judgement, Verdict};
use crate::stage::plumbing::entries::{LOOP, LoopType};
use crate::stage::{Check, Severity, Solution};
use crate::units::Quantity;
use crate::units::si::{Dimension, MassDensity};

/// Hardness as calcium carbonate, mg/L: moderately hard from 60, hard from 120, very hard from 180 (from memory).
const MODERATE: f64 = 60.0;
const VERY_HARD: f64 = 180.0;
/// Chloride, mg/L: warm stainless steel 304 pits above about 50, 316 above about 250 (from memory).
const CHLORIDE_304: f64 = 50.0;
const CHLORIDE_316: f64 = 250.0;
/// pH of drinking water: 6.5 to 8.5 is the usual rule; copper wants 7 at least (from memory).
const PH_RULE: (f64, f64) = (6.5, 8.5);
const PH_COPPER: f64 = 7.0;

/// Whether tap water runs through the panel, and the words for what the water meets.
fn meets(s: &Solution) -> Fig<(bool, &'static str)> {
    Ok(match s.inputs.get(&LOOP)? {
        LoopType::Direct | LoopType::Thermosiphon => (true, "the risers themselves"),
        LoopType::Drainback | LoopType::Glycol => (false, "the tank and its exchanger"),
    })
}

fn scale(s: &Solution) -> Fig<Judgement> {
    let hardness = s.inputs.get(&HARDNESS)?;
    let (through_panel, part) = meets(s)?;
    let milligrams = hardness.si() * 1e3;
    let limit = if through_panel { MODERATE } else { VERY_HARD };
    let verdict = match milligrams {
        found if found <= limit => Verdict::Clear,
        found if through_panel && found > VERY_HARD => Verdict::Stop,
        _ => Verdict::Caution,
    };
    let limit = MassDensity::from_si(limit / 1e3);
    Ok(Judgement::of(verdict).with(hardness, limit).margin(limit - hardness).part(part))
}

fn chloride(s: &Solution) -> Fig<Judgement> {
    let found = s.inputs.get(&CHLORIDE)?;
    let verdict = match found.si() * 1e3 {
        milligrams if milligrams <= CHLORIDE_304 => Verdict::Clear,
        milligrams if milligrams <= CHLORIDE_316 => Verdict::Caution,
        _ => Verdict::Stop,
    };
    let limit = MassDensity::from_si(CHLORIDE_304 / 1e3);
    Ok(Judgement::of(verdict).with(found, limit).margin(limit - found))
}

fn acid(s: &Solution) -> Fig<Judgement> {
    let found = s.inputs.get(&PH)?;
    let (through_panel, part) = meets(s)?;
    let verdict = match found {
        ph if (PH_COPPER..=PH_RULE.1).contains(&ph) => Verdict::Clear,
        ph if ph < PH_RULE.0 && through_panel => Verdict::Stop,
        _ => Verdict::Caution,
    };
    let limit = if found > PH_RULE.1 { PH_RULE.1 } else { PH_COPPER };
    Ok(Judgement::of(verdict).with(Quantity::number(found), Quantity::number(limit)).part(part))
}

const REPORT: &str = "the water supplier, or a laboratory for a well";

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("site.water-scale", "scale from hard water", Severity::Injury, scale)
        .says(
            "The water's hardness is {found} as calcium carbonate; {limit} is the limit for {part}. Lime falls out of hot \
             water and first of all where it stands hot.",
            "Soften the water, or keep it out of the panel with a closed loop; leave fittings for descaling. Do not cool \
             the tank against lime: germs grow in lukewarm water.",
        )
        .blind_to("what a softener really does, and how often the panel stands hot")
        .ask(REPORT)
        .source("limits by loop: project rule")
        .recalls("classes of hardness")
        .needs(&["site.water_hardness", "plumbing.loop"]),
    Check::new("site.water-chloride", "chloride on stainless steel", Severity::Injury, chloride)
        .says(
            "The water holds {found} of chloride; above {limit} warm stainless steel of the plain kind pits, above \
             250 mg/L the better kind too.",
            "Ask the makers of tank and exchanger for their limits; take copper or an enamelled tank with its anode.",
        )
        .blind_to("which metals the tank and the exchanger are made of, and crevices and welds in them")
        .ask(REPORT)
        .source("the sheet of the steel wins")
        .recalls("usual limits of stainless steels in hot water")
        .needs(&["site.water_chloride"]),
    Check::new("site.water-ph", "acid or alkaline water on copper", Severity::Injury, acid)
        .says(
            "The water's pH is {found}; {limit} is the limit of what copper bears well. It meets {part}. Acid water \
             dissolves copper into what people drink.",
            "Have the water treated, or keep it out of the copper.",
        )
        .blind_to("alkalinity, carbon dioxide and oxygen, which decide with the pH")
        .ask(REPORT)
        .source("drinking water and copper")
        .recalls("6.5 to 8.5 for drinking water, 7 for copper")
        .needs(&["site.water_ph", "plumbing.loop"]),
];
