//! Checks of pressure and heat: vessel, relief, hoses, plastics near steam, exchanger, potable side, lock-out.
//!
//! Must not live here: the figures, which are in `pressure_rows`, and the sums behind them.

use super::closed::{self};
use super::entries::part::{self, PartKind};
use super::entries::run;
use super::entries::service::{self, SlugProtection};
use super::entries::{self as e, LoopType};
use super::exchange;
use super::pipework::given_at;
use super::pressure_rows::{closed_of, fitted, known, network, steam_of};
use super::steam::{self};
use super::year::entries as y;
use crate::handbook::hose;
use crate::model::{Fig, Judgement, Verdict, Why};
use crate::physics::glycol::INHIBITOR_LEAST_VOLUME_FRACTION;
use crate::stage::safety::water::freezes_at;
use crate::stage::worst::worst;
use crate::stage::{Check, Severity, Solution};
use crate::units::Quantity;
use crate::units::si::{Dimension, Pressure, celsius, difference};

/// How far a precharge may be from the wanted one, Pa (project rule).
const PRECHARGE_OFF: f64 = 0.2e5;

fn vessel_size(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&e::LOOP)? != LoopType::Glycol {
        return Ok(Judgement::does_not_apply("this loop needs no expansion vessel"));
    }
    let needs = closed_of(s)?.vessel.least_volume;
    let has = fitted(s)?.volume;
    Ok(Judgement::stop_unless(has >= needs).with(has, needs).margin(has - needs))
}

fn precharge(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&e::LOOP)? != LoopType::Glycol {
        return Ok(Judgement::does_not_apply("this loop needs no expansion vessel"));
    }
    let wanted = closed_of(s)?.vessel.precharge;
    let has = fitted(s)?.precharge;
    let off = (has - wanted).abs();
    let limit = Pressure::from_si(PRECHARGE_OFF);
    Ok(Judgement::caution_unless(off <= limit).with(has, wanted).margin(limit - off))
}

/// Every pressure in its order: precharge, fill, final, relief, weakest part.
fn relief_chain(s: &Solution) -> Fig<Judgement> {
    let network = network(s)?;
    let relief = closed::relief(&s.inputs, network)?;
    let below = |rating: Pressure, part: &str| {
        Judgement::stop_unless(relief <= rating).with(relief, rating).margin(rating - relief).part(part)
    };
    let mut parts = vec![s.inputs.get(&e::WEAKEST).map(|rating| below(rating, "weakest part under test"))];
    for name in network.parts.keys() {
        if let Some(rating) = given_at(&s.inputs, &part::RATING, name)? {
            parts.push(Ok(below(rating, name)));
        }
    }
    for stretch in &network.circuit {
        if let Some(rating) = given_at(&s.inputs, &run::RATING, &stretch.run)? {
            parts.push(Ok(below(rating, &stretch.run)));
        }
    }
    if s.inputs.get(&e::LOOP)? == LoopType::Glycol {
        let last = closed::final_pressure(relief);
        parts.push(closed_of(s).map(|closed| {
            let first = closed.vessel.precharge;
            Judgement::stop_unless(last > first).with(last, first).margin(last - first).part("precharge")
        }));
    }
    worst(parts)
}

/// Hoses and plastic where heat and steam can come.
fn hoses(s: &Solution) -> Fig<Judgement> {
    let network = network(s)?;
    let hottest = s.absorber.stagnation.clone()?.worst;
    let relief = closed::relief(&s.inputs, network)?;
    let potable = matches!(s.inputs.get(&e::LOOP)?, LoopType::Direct | LoopType::Thermosiphon);
    let mut judged: Vec<Fig<Judgement>> = Vec::new();
    for line in known(&s.plumbing.lines)? {
        let at_panels = network.circuit.iter().any(|stretch| {
            let touches = |place: &str| network.kind(place) == Some(PartKind::Panels);
            stretch.run == line.name && (touches(&stretch.from) || touches(&stretch.to))
        });
        if let Some(kind) = line.hose() {
            if potable && kind.name.contains("coolant") {
                let words = format!("{}: a coolant hose on drinking water", line.name);
                judged.push(Ok(Judgement::of(Verdict::Stop).with(relief, kind.pressure).part(words)));
            }
            let rating = s.inputs.at(&run::RATING, &line.name);
            let rated_at = s.inputs.at(&run::RATED_AT, &line.name);
            judged.push(
                rating.map(|bears| Judgement::stop_unless(bears >= relief).with(relief, bears).part(line.name.clone())),
            );
            let sees = if at_panels { hottest } else { steam_of(s)?.saturation };
            judged.push(rated_at.map(|at| {
                Judgement::stop_unless(at >= sees).with(sees, at).margin(difference(at, sees)).part(line.name.clone())
            }));
        }
        if let Some(plastic) = line.plastic() {
            if steam_of(s)?.reaches_run(&line.name) {
                let words = format!("{}: within reach of steam", line.name);
                let sees = steam_of(s)?.saturation;
                judged.push(Ok(Judgement::of(Verdict::Stop).with(sees, plastic.hottest).part(words)));
            } else if at_panels {
                let words =
                    format!("{}: less than {} m of metal from the panel", line.name, hose::metal_run_at_panel().si());
                judged.push(Ok(Judgement::of(Verdict::Stop).with(hottest, plastic.hottest).part(words)));
            }
        }
    }
    if judged.is_empty() {
        return Ok(Judgement::does_not_apply("the loop has no hose and no plastic"));
    }
    worst(judged)
}

/// Seals and membranes within reach of steam.
fn steam_parts(s: &Solution) -> Fig<Judgement> {
    let (network, steam) = (network(s)?, steam_of(s)?);
    if s.inputs.get(&e::LOOP)? == LoopType::Drainback {
        let words = "a panel that stands empty while the pump stands";
        return Ok(Judgement::does_not_apply(words));
    }
    if steam.power.si() <= 0.0 {
        return Ok(Judgement::does_not_apply("the panel does not boil"));
    }
    let exposed = steam::exposed(&s.inputs, network, steam)?;
    if exposed.is_empty() {
        return Ok(Judgement::does_not_apply("steam reaches nothing that it would harm"));
    }
    worst(exposed.into_iter().map(|(name, limit)| {
        let limit = limit.ok_or_else(|| Why::missing(part::LIMIT.spec.id.replacen('*', &name, 1)))?;
        let margin = difference(limit, steam.saturation);
        Ok(Judgement::stop_unless(margin.si() >= 0.0).with(steam.saturation, limit).margin(margin).part(name))
    }))
}

fn cold_slug(s: &Solution) -> Fig<Judgement> {
    let outside = network(s)?.part_of(PartKind::Exchanger).is_some();
    if s.inputs.get(&e::LOOP)? != LoopType::Glycol || !outside {
        return Ok(Judgement::does_not_apply("the loop has no exchanger outside the tank"));
    }
    // A clear sky cools the plate below 0 °C in air that is warmer.
    let cold = s.site.coldest.clone()?;
    if cold >= freezes_at(s)? {
        return Ok(Judgement::does_not_apply("no night of the place freezes the plate"));
    }
    let has_check = network(s)?.part_of(PartKind::CheckValve).is_some();
    let protected = s.inputs.get(&service::SLUG)? != SlugProtection::None;
    let words = match (protected, has_check) {
        (false, _) => "nothing leads the cold slug past the exchanger",
        (true, false) => "no check valve holds the loop at night",
        (true, true) => "bypass or potable flow, and a check valve",
    };
    Ok(Judgement::stop_unless(protected && has_check).with(cold, celsius(5.0)).part(words))
}

fn potable_expansion(s: &Solution) -> Fig<Judgement> {
    if !s.inputs.get(&service::FEED_CLOSED)? {
        return Ok(Judgement::does_not_apply("the feed is open to the mains"));
    }
    let needs = exchange::potable_vessel(&s.inputs)?;
    let has = s.inputs.get(&service::POTABLE_VESSEL)?;
    Ok(Judgement::stop_unless(has >= needs).with(has, needs).margin(has - needs).part("the feed holds pressure"))
}

fn lockout(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&e::LOOP)? == LoopType::Thermosiphon {
        return Ok(Judgement::does_not_apply("this loop has no pump"));
    }
    let limit = s.plumbing.working.lockout_limit.clone()?;
    let set = s.inputs.get(&y::LOCK_OUT)?;
    let margin = difference(limit, set);
    Ok(Judgement::stop_unless(margin.si() >= 0.0).with(set, limit).margin(margin))
}

fn inhibitor(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&e::LOOP)? != LoopType::Glycol {
        return Ok(Judgement::does_not_apply("this loop holds water"));
    }
    let has = s.inputs.get(&e::GLYCOL)?.si();
    let least = INHIBITOR_LEAST_VOLUME_FRACTION;
    Ok(Judgement::caution_unless(has >= least).with(Quantity::percent(has), Quantity::percent(least)))
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("plumbing.vessel-size", "size of the expansion vessel", Severity::Serious, vessel_size)
        .says(
            "The vessel holds {found}; {limit} is needed. A small one lets the relief valve blow glycol in every power \
             cut, and the loop runs short.",
            "A larger vessel, a higher relief setting where every part bears it, or a lower loop.",
        )
        .blind_to("a lost precharge, a torn membrane, pipe that steam reaches but is not written")
        .source("practice of central-European planning manuals; one manual's worked example is a test (verified)")
        .needs(&["plumbing.vessel_needed", "plumbing.loop"]),
    Check::new("plumbing.precharge", "precharge of the vessel", Severity::Injury, precharge)
        .says(
            "The precharge is {found}; {limit} fits this height. Too much leaves no reserve, too little fills the vessel \
             with cold liquid.",
            "Set it while the loop is empty, and write the reading down.",
        )
        .blind_to("a gauge that is off; gas that leaves through the membrane within a year")
        .source("height and pressure at the top: planning manuals (verified); 0.2 bar: project rule")
        .needs(&["plumbing.precharge_wanted", "plumbing.part.*.setting", "plumbing.loop"]),
    Check::new("plumbing.relief-chain", "relief against every part", Severity::Deadly, relief_chain)
        .says(
            "{part}: {found} against {limit}. The relief valve must open before any part gives, and above what the vessel \
             starts with.",
            "A lower relief setting, or a part that bears more.",
        )
        .blind_to("a rating that falls with heat; parts whose rating is not entered")
        .ask("a licensed plumber")
        .source("order of pressures: planning manuals (verified)")
        .needs(&[
            "plumbing.relief_lowest",
            "plumbing.weakest_rating",
            "plumbing.part.*.rating",
            "plumbing.run.*.rating",
            "plumbing.vessel_needed",
            "plumbing.loop",
        ]),
    Check::new("plumbing.hose-rating", "hoses and plastic in the loop", Severity::Deadly, hoses)
        .says(
            "{part}: {found} against {limit}. A hose that bursts at a hot panel scalds whoever stands below.",
            "A hose with a pressure at that heat printed on it, or metal; no plastic where steam can come.",
        )
        .blind_to("age, kinks, clamps; what is really printed on the hose")
        .ask("a licensed plumber, on drinking water")
        .source("project rules; temperatures: handbook of hoses and plastics")
        .needs(&[
            "plumbing.relief_lowest",
            "plumbing.steam_reach",
            "plumbing.run.*.rating",
            "plumbing.run.*.rated_at",
            "plumbing.loop",
        ]),
    Check::new("plumbing.steam-parts", "parts that steam can reach", Severity::Serious, steam_parts)
        .says(
            "Steam of {found} can reach {part}, which stands {limit}.",
            "Move it to the cold leg, beyond the reach of steam; or leave more bare pipe before it; or a part that stands it.",
        )
        .blind_to("the reach is an upper bound each way; parts off the loop; sensors and cables")
        .source("power of steam against the loss of the pipe: balance; limits: the parts' own plates")
        .needs(&["plumbing.steam_parts", "plumbing.part.*.limit", "plumbing.loop"]),
    Check::new("plumbing.cold-slug", "cold slug at an outside exchanger", Severity::Serious, cold_slug)
        .says(
            "{part}: the coldest night is {found}; glycol that cold freezes the potable side and bursts it.",
            "A bypass until the loop is above {limit}, or the potable pump first; and a check valve.",
        )
        .blind_to("a bypass that sticks; gravity flow past a leaking check valve")
        .ask("a licensed plumber")
        .source("project rule")
        .needs(&[
            "plumbing.loop_order",
            "plumbing.loop",
            "plumbing.slug_protection",
            "site.coldest_air",
            "site.frost_warmest_air",
            "safety.freezing_air_calm",
        ]),
    Check::new("plumbing.potable-expansion", "room for heated drinking water", Severity::Serious, potable_expansion)
        .says(
            "{part}: the potable vessel holds {found}, {limit} is needed. The water of the tank grows {plumbing.potable_growth}; \
             without room the relief valve weeps every day and scales shut.",
            "A potable vessel of that size in the cold feed, behind the check valve.",
        )
        .blind_to("a vessel without precharge; a relief valve that is scaled already")
        .ask("a licensed plumber")
        .source("growth of water: IAPWS; gas law")
        .needs(&["plumbing.potable_vessel_needed", "plumbing.potable_vessel", "plumbing.feed_closed"]),
    Check::new("plumbing.lockout", "pump locked out while hot", Severity::Serious, lockout)
        .says(
            "The pump is locked out above {found}; {limit} is the limit. A pump that starts into steam hammers the pipe \
             and drives steam to the tank.",
            "Set the lock-out lower.",
        )
        .blind_to("a sensor that reads low or sits outside the box; a lock-out that a power cut resets")
        .source("project rule: 120 °C, 10 K below boiling at the top, 10 K below the weakest wet part; drainback 85 °C")
        .needs(&["plumbing.lockout_limit", "plumbing.lock_out", "plumbing.loop"]),
    Check::new("plumbing.inhibitor", "enough glycol for its inhibitors", Severity::Injury, inhibitor)
        .says(
            "The mixture holds {found} glycol; below {limit} the inhibitors no longer protect copper and solder.",
            "More glycol, even where no frost asks for it.",
        )
        .blind_to("age and acidity of the liquid: test its pH every year")
        .source("the jug's own sheet wins")
        .recalls("25 to 30 %")
        .needs(&["plumbing.glycol", "plumbing.loop"]),
];
