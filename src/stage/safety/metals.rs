//! Metals that must not meet: lead and drinking water, copper and what it eats.

use super::entries::shop as e;
use super::{fillers, is_potable};
use crate::handbook::galvanic as series;
use crate::handbook::solder::{self, Alloy};
use crate::model::{Fig, Judgement, Verdict, Why};
use crate::physics::galvanic::{Contact, Surroundings, compare};
use crate::stage::plumbing::entries::{self as plumbing, LoopType};
use crate::stage::worst::worst;
use crate::stage::{Check, Figure, Group, Severity, Solution};
use crate::units::si::Dimension;
use crate::units::{Kind, Quantity};

/// Lead in wetted surfaces of pipes, fittings and fixtures, weighted by area, and in solder (federal drinking water
/// act, section 1417, verified).
const LEAD_SURFACES: f64 = 0.0025;
/// The copper of the harp in the series.
const COPPER: &str = "copper, silver solder";

/// Lead of the wetted parts.
pub static LEAD: Group =
    Group { name: "lead of wetted parts", entries: &["safety.wetted.*.area", "safety.wetted.*.lead"], groups: &[] };

/// Lead of the wetted parts by area, and the most in a single one.
struct WettedLead {
    mean: f64,
    most: f64,
    part: String,
}

fn wetted(s: &Solution) -> Fig<WettedLead> {
    let mut rows = s.inputs.keys(&e::WETTED_LEAD.spec);
    rows.extend(s.inputs.keys(&e::WETTED_AREA.spec));
    rows.sort();
    rows.dedup();
    let (mut lead, mut area) = (0.0, 0.0);
    let mut most: Option<(f64, String)> = None;
    for row in rows {
        let share = s.inputs.at(&e::WETTED_LEAD, &row)?.si();
        let surface = s.inputs.at(&e::WETTED_AREA, &row)?.si();
        lead += share * surface;
        area += surface;
        if most.as_ref().is_none_or(|(so_far, _)| share > *so_far) {
            most = Some((share, row));
        }
    }
    let (most, part) = most.ok_or_else(|| Why::missing(e::WETTED_LEAD.spec.id))?;
    Ok(WettedLead { mean: lead / area, most, part })
}

/// Lead in the solder of the sheet or of a pressure joint: never on a potable loop; with care on a closed one.
fn lead(s: &Solution) -> Fig<Judgement> {
    let sheet = s.absorber.solder.clone().and_then(|alloy| lead_of(s, alloy));
    // A brazing filler holds no lead; a name that is neither is refused where it is read.
    let joints = fillers::of_joints(&s.inputs).and_then(|names| {
        let solders = names.iter().filter_map(|name| solder::alloys().get(name));
        let judged: Vec<Fig<Judgement>> = solders.map(|alloy| lead_of(s, alloy)).collect();
        if judged.is_empty() {
            return Ok(Judgement::of(Verdict::Clear).part("no solder in the pressure joints"));
        }
        worst(judged)
    });
    worst([sheet, joints])
}

fn lead_of(s: &Solution, alloy: &Alloy) -> Fig<Judgement> {
    let verdict = match (alloy.lead_free, s.safety.potable.clone()?) {
        (true, _) => Verdict::Clear,
        (false, true) => Verdict::Stop,
        (false, false) => Verdict::Caution,
    };
    Ok(Judgement::of(verdict).part(alloy.name.clone()))
}

fn lead_surfaces(s: &Solution) -> Fig<Judgement> {
    let listed = s.inputs.keys(&e::WETTED_LEAD.spec).len() + s.inputs.keys(&e::WETTED_AREA.spec).len();
    if !is_potable(s.inputs.get(&plumbing::LOOP)?) && listed == 0 {
        return Ok(Judgement::does_not_apply("the water of the panel is not drunk, and nothing beyond it is listed"));
    }
    let found = wetted(s)?;
    let verdict = match (found.mean, found.most) {
        (mean, _) if mean > LEAD_SURFACES => Verdict::Stop,
        (_, most) if most > LEAD_SURFACES => Verdict::Caution,
        _ => Verdict::Clear,
    };
    let percent = Quantity::percent;
    Ok(Judgement::of(verdict)
        .with(percent(found.mean), percent(LEAD_SURFACES))
        .margin(percent(LEAD_SURFACES - found.mean))
        .part(format!("{} with {}", found.part, percent(found.most).text(crate::units::System::Si))))
}

fn galvanic(s: &Solution) -> Fig<Judgement> {
    worst([contact(s), in_the_loop(s)])
}

/// What touches the copper outside, where rain and dew wet both.
fn contact(s: &Solution) -> Fig<Judgement> {
    let name = s.inputs.get(&e::CONTACT_METAL)?;
    let unknown = || Why::Invalid(vec![e::CONTACT_METAL.spec.id.to_owned()]);
    let metals = series::anodic_indices();
    let (copper, metal) = metals.get(COPPER).zip(metals.get(&name)).ok_or_else(unknown)?;
    let limit = Surroundings::Harsh.largest_difference();
    let pair = compare(Contact { first_volts: copper.volts, second_volts: metal.volts }, Surroundings::Harsh)
        .map_err(Why::out_of_range)?;
    let numbers = |verdict| {
        Judgement::of(verdict)
            .with(Quantity::number(pair.difference), Quantity::number(limit))
            .margin(Quantity::number(limit - pair.difference))
    };
    if pair.within_limit {
        let judgement = numbers(Verdict::Clear).part(name);
        return Ok(judgement.resting_on(metal.provenance));
    }
    Ok(if s.inputs.get(&e::CONTACT_PARTED)? {
        Judgement::of(Verdict::Clear).part(format!("{name}, parted by plastic or EPDM"))
    } else if pair.difference <= Surroundings::Controlled.largest_difference() {
        numbers(Verdict::Caution).part(name)
    } else {
        numbers(Verdict::Stop).part(name)
    })
}

/// Zinc in the same water as copper: in fresh water it goes within a year or two (from memory).
fn in_the_loop(s: &Solution) -> Fig<Judgement> {
    if !s.inputs.get(&e::GALVANISED)? {
        return Ok(Judgement::of(Verdict::Clear).part("no zinc in the loop"));
    }
    let closed = s.inputs.get(&plumbing::LOOP)? == LoopType::Glycol;
    let verdict = if closed { Verdict::Caution } else { Verdict::Stop };
    Ok(Judgement::of(verdict).part("galvanised parts in the loop"))
}

/// The figures of this file.
pub static FIGURES: &[Figure] =
    &[Figure::new("safety.lead_average", "lead of the wetted parts, by area", Kind::Percent, &LEAD, |s, _| {
        Ok(Quantity::percent(wetted(s)?.mean).into())
    })
    .by("lead-average", "Σ lead × area / Σ area over the parts that you listed", &[])];

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("safety.lead", "lead and drinking water", Severity::Deadly, lead)
        .says(
            "{part} holds lead: not in or near drinking water, not even for the sheet alone. Drips reach the waterway, \
             swarf reaches children.",
            "A lead-free alloy. On a closed loop: gloves, no food, no sweeping of dross, offcuts to the waste site. Below 500 °C \
             lead gives next to no vapour; it comes by hands and food.",
        )
        .blind_to("joints that nobody wrote down, flux, pipes that were there before")
        .ask("the water authority or a licensed plumber")
        .source("0.2 % in solder and flux: federal drinking water act, section 1417 (verified)")
        .needs(&[
            "absorber.solder",
            "absorber.header_filler",
            "absorber.header_alloy",
            "absorber.joint_log.*.alloy",
            "safety.joint_solder",
            "safety.brazing_filler",
            "plumbing.loop",
        ]),
    Check::new("safety.lead-surfaces", "lead of pumps, valves and fittings", Severity::Deadly, lead_surfaces)
        .says(
            "The parts that drinking water touches hold {found} of lead by wetted area; {limit} is the limit. The most: \
             {part}.",
            "Parts marked for drinking water; the law counts each pipe, fitting and fixture by itself.",
        )
        .blind_to("parts that are not in the list, the mixing valve first of all; their marks; pipes that were there before")
        .ask("the water authority or a licensed plumber")
        .source("0.25 % of wetted surfaces by area: federal drinking water act, section 1417 (verified)")
        .needs(&["safety.lead_average", "plumbing.loop"]),
    Check::new("safety.galvanic", "metals that touch", Severity::Injury, galvanic)
        .says(
            "{part}: beside copper in the wet the baser metal is eaten. {safety.contact_metal} is the metal named.",
            "Stainless steel, brass or copper clips; a dry layer of plastic or EPDM between; never let water run from \
             copper onto aluminium or zinc; no galvanised part in the loop.",
        )
        .blind_to("area of one metal against the other; salt air; swarf and nails that nobody saw")
        .source("0.15 V outdoors, 0.50 V dry: galvanic table (verified)")
        .recalls_beside("indices of aluminium, iron and zinc, and zinc in the loop")
        .needs(&[
            "safety.contact_metal",
            "safety.contact_parted",
            "safety.galvanised_in_loop",
            "plumbing.loop",
        ]),
];
