//! Figures and checks of the loop as it is laid out: order, relief, vents, drains, falls, night.
//!
//! The walk itself is in `walk`, heights in `heights`.

use super::entries::part::{self, PartKind};
use super::entries::{self as e, LoopType};
use super::heights::{self, DrainSlope, Extreme, LEAST_FALL, Profile};
use super::network::{self, Network};
use super::walk::{self, ShutIn};
use crate::model::{Fig, Inputs, Judgement, TradeUnits, Value, Verdict, Why};
use crate::physics::thermosiphon::{NightColumns, night_drive};
use crate::stage::absorber::{self, geometry::Harp};
use crate::stage::{Check, Figure, Group, Severity, Solution};
use crate::units::Kind::{Count, Length as Metres, Percent, Pressure as Pascals};
use crate::units::Quantity;
use crate::units::si::{Dimension, Length, Pressure, Ratio, Temperature, celsius};

/// Height of the tank's bottom over the panels' top that stops a loop from turning at night (project rule).
const NIGHT_HEIGHT: f64 = 0.6;
/// Coldest panel for which the head of the night is shown, °C.
const NIGHT_PANEL: f64 = 0.0;
/// By how much the heights may miss, m (project rule).
const CLOSES: f64 = 0.05;

/// The loop as laid out.
#[derive(Clone, Debug)]
pub struct Layout {
    /// Runs and parts in order.
    pub network: Fig<Network>,
    /// What can be shut in.
    pub shut_in: Fig<Vec<ShutIn>>,
    /// Heights.
    pub profile: Fig<Profile>,
    /// The least fall toward the reservoir; none where nothing drains.
    pub least_fall: Fig<Option<DrainSlope>>,
    /// Head that would turn the loop backward at night.
    pub night: Fig<Pressure>,
}

/// The loop's order.
pub static NETWORK: Group = Group {
    name: "the loop's order",
    entries: &["plumbing.run.*.from", "plumbing.run.*.to", "plumbing.run.*.along", "plumbing.part.*.kind"],
    groups: &[],
};

/// What can be shut in.
pub static WALK: Group =
    Group { name: "what can be shut in", entries: &["plumbing.part.*.locked"], groups: &[&NETWORK] };

/// Heights of the loop.
pub static HEIGHTS: Group = Group {
    name: "heights of the loop",
    entries: &["plumbing.run.*.rise", "plumbing.part.*.rise", "site.tilt"],
    groups: &[&NETWORK, &absorber::HARP],
};

/// Falls of the loop.
pub static FALLS: Group = Group {
    name: "falls of the loop",
    entries: &["plumbing.run.*.rise", "plumbing.run.*.length"],
    groups: &[&NETWORK],
};

/// The loop at night.
pub static NIGHT: Group =
    Group { name: "the loop at night", entries: &["plumbing.tank_limit"], groups: &[&HEIGHTS, &super::LIQUID] };

/// Lays the loop out.
pub fn layout(inputs: &Inputs, harp: &Fig<Harp>, liquid: &Fig<crate::physics::fluid::Fluid>) -> Layout {
    let network = network::network(inputs);
    let of = network.as_ref().map_err(Why::clone);
    let profile = of.clone().and_then(|network| heights::profile(inputs, network, harp));
    let shut_in = of.clone().and_then(|network| walk::shut_in(inputs, network));
    let least_fall = of.clone().and_then(|network| heights::least_fall(inputs, network));
    let night = of.and_then(|network| {
        let profile = profile.as_ref().map_err(Why::clone)?;
        let below = heights::tank_over_panels(network, profile).map_or(Length::default(), |height| -height);
        let columns = NightColumns {
            warm: inputs.get(&e::TANK_LIMIT)?,
            cold: night_panel(),
            height: below.max(Length::default()),
        };
        night_drive(liquid.clone()?, columns).map_err(Why::out_of_range)
    });
    Layout { network, shut_in, profile, least_fall, night }
}

fn night_panel() -> Temperature {
    celsius(NIGHT_PANEL)
}

fn network_of(s: &Solution) -> Fig<&Network> {
    s.plumbing.layout.network.as_ref().map_err(Clone::clone)
}

fn profile_of(s: &Solution) -> Fig<&Profile> {
    s.plumbing.layout.profile.as_ref().map_err(Clone::clone)
}

fn shut_in_words(s: &Solution) -> Fig<String> {
    let sections = s.plumbing.layout.shut_in.as_ref().map_err(Clone::clone)?;
    if sections.is_empty() {
        return Ok("none".to_owned());
    }
    Ok(sections.iter().map(ShutIn::words).collect::<Vec<_>>().join("; "))
}

fn order_words(network: &Network) -> String {
    let mut words: Vec<&str> = Vec::new();
    for stretch in &network.circuit {
        words.push(&stretch.from);
        words.extend(stretch.along.iter().map(String::as_str));
    }
    words.join(" > ")
}

/// Parts that let air out: vents, and what is open or drawn from.
const fn vents(kind: PartKind) -> bool {
    matches!(
        kind,
        PartKind::AirVent | PartKind::AutomaticVent | PartKind::Tank | PartKind::Reservoir | PartKind::SealedReservoir
    )
}

/// Parts that let liquid out.
const fn drains(kind: PartKind) -> bool {
    matches!(
        kind,
        PartKind::DrainCock | PartKind::FillPoint | PartKind::Tank | PartKind::Reservoir | PartKind::SealedReservoir
    )
}

fn unserved(s: &Solution, which: Extreme, serves: fn(PartKind) -> bool) -> Fig<Option<String>> {
    Ok(profile_of(s)?.unserved(network_of(s)?, which, serves))
}

fn or_none(place: Option<String>) -> Value {
    Value::Text(place.unwrap_or_else(|| "none".to_owned()))
}

fn tank_over_panels(s: &Solution) -> Fig<Length> {
    heights::tank_over_panels(network_of(s)?, profile_of(s)?)
        .ok_or_else(|| Why::out_of_range("no tank, coil or exchanger is the end of a run"))
}

fn least_fall(s: &Solution) -> Fig<DrainSlope> {
    s.plumbing
        .layout
        .least_fall
        .clone()?
        .ok_or_else(|| Why::out_of_range("no run leads from the panels to a reservoir"))
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::word("plumbing.loop_order", "once around the loop", &NETWORK, |s, _| {
        Ok(Value::Text(order_words(network_of(s)?)))
    })
    .by("loop-walk", "from the panels on, run by run", &[]),
    Figure::word("plumbing.shut_in_parts", "what can be shut in", &WALK, |s, _| Ok(Value::Text(shut_in_words(s)?))).by(
        "loop-walk",
        "all valves closed, check valves one way: what reaches no relief valve",
        &[],
    ),
    Figure::new("plumbing.shut_in_sections", "sections that can be shut in", Count, &WALK, |s, _| {
        let sections = s.plumbing.layout.shut_in.as_ref().map_err(Clone::clone)?;
        Ok(Quantity::count(sections.len()).into())
    })
    .by("loop-walk", "count of them", &[]),
    Figure::new("plumbing.loop_height", "top of the loop over its lowest place", Metres, &HEIGHTS, |s, _| {
        Ok(profile_of(s)?.top().into())
    })
    .shown_in(TradeUnits::SITE)
    .by("loop-heights", "sum of the rises of runs and parts", &[]),
    Figure::new("plumbing.panels_top", "panels' outlet over the lowest place", Metres, &HEIGHTS, |s, _| {
        Ok(profile_of(s)?.panels_top.into())
    })
    .shown_in(TradeUnits::SITE)
    .by("loop-heights", "sum of the rises up to there", &[]),
    Figure::new("plumbing.height_gap", "what the heights miss once around", Metres, &HEIGHTS, |s, _| {
        Ok(profile_of(s)?.gap.into())
    })
    .by("loop-heights", "sum of all rises, panels by spacing × sin(tilt); 0 if all is measured well", &[]),
    Figure::new("plumbing.tank_over_panels", "tank's bottom over the panels' top", Metres, &HEIGHTS, |s, _| {
        Ok(tank_over_panels(s)?.into())
    })
    .shown_in(TradeUnits::SITE)
    .by("loop-heights", "lower port of tank, coil or exchanger less {top}", &[("top", "plumbing.panels_top")]),
    Figure::word("plumbing.unvented_top", "high point without a vent", &HEIGHTS, |s, _| {
        Ok(or_none(unserved(s, Extreme::High, vents)?))
    })
    .by("loop-heights", "first place higher than both neighbours that no vent stands at", &[]),
    Figure::word("plumbing.undrained_low", "low point without a drain", &HEIGHTS, |s, _| {
        Ok(or_none(unserved(s, Extreme::Low, drains)?))
    })
    .by("loop-heights", "first place lower than both neighbours that no drain stands at", &[]),
    Figure::new("plumbing.least_fall", "least fall toward the reservoir", Percent, &FALLS, |s, _| {
        Ok(Quantity::percent(least_fall(s)?.fall.si()).into())
    })
    .by("loop-heights", "rise / length of each run between panels and reservoir, the least", &[]),
    Figure::new("plumbing.night_head", "pressure that turns the loop at night", Pascals, &NIGHT, |s, _| {
        Ok(s.plumbing.layout.night.clone()?.into())
    })
    .by(
        "night-flow",
        "Δp = [ρ(0 °C) − ρ({T})] g h, h from the tank's bottom up to the panels' top, −{over}",
        &[("T", "plumbing.tank_limit"), ("over", "plumbing.tank_over_panels")],
    ),
];

fn relief_reach(s: &Solution) -> Fig<Judgement> {
    let sections = s.plumbing.layout.shut_in.as_ref().map_err(Clone::clone)?;
    let count = Quantity::count(sections.len());
    Ok(Judgement::stop_unless(sections.is_empty())
        .with(count, Quantity::count(0))
        .margin(Quantity::number(-(sections.len() as f64)))
        .part(shut_in_words(s)?))
}

fn heights_close(s: &Solution) -> Fig<Judgement> {
    let gap = profile_of(s)?.gap;
    let limit = Length::from_si(CLOSES);
    Ok(Judgement::caution_unless(gap.abs() <= limit).with(gap, limit).margin(limit - gap.abs()))
}

fn high_points(s: &Solution) -> Fig<Judgement> {
    let place = unserved(s, Extreme::High, vents)?;
    if s.inputs.get(&e::LOOP)? == LoopType::Drainback {
        // What empties itself at every stop takes its air in and lets it out through the reservoir.
        return Ok(Judgement::does_not_apply("this loop drains"));
    }
    Ok(Judgement::caution_unless(place.is_none()).part(place.unwrap_or_else(|| "every high point has one".to_owned())))
}

fn low_points(s: &Solution) -> Fig<Judgement> {
    let place = unserved(s, Extreme::Low, drains)?;
    Ok(Judgement::caution_unless(place.is_none()).part(place.unwrap_or_else(|| "every low point has one".to_owned())))
}

fn falls(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&e::LOOP)? != LoopType::Drainback {
        network_of(s)?;
        return Ok(Judgement::does_not_apply("a loop that stays full"));
    }
    let least = least_fall(s)?;
    // A fall typed as 2 cm for each metre must not fail by its rounding.
    let limit = LEAST_FALL * (1.0 - 1e-9);
    Ok(Judgement::stop_unless(least.fall >= Ratio::from_si(limit))
        .with(Quantity::percent(least.fall.si()), Quantity::percent(LEAST_FALL))
        .margin(Quantity::percent(least.fall.si() - LEAST_FALL))
        .part(least.run))
}

fn night_flow(s: &Solution) -> Fig<Judgement> {
    let network = network_of(s)?;
    let along = |name: &&str| {
        network.circuit.iter().any(|stretch| {
            stretch.from == **name || stretch.to == **name || stretch.along.iter().any(|part| part == *name)
        })
    };
    let checks: Vec<&str> = network.parts_of(PartKind::CheckValve).into_iter().filter(along).collect();
    if s.inputs.get(&e::LOOP)? == LoopType::Drainback {
        let verdict = if checks.is_empty() { Verdict::Clear } else { Verdict::Stop };
        let words = checks.first().map_or("air in the panels stops the loop", |name| name);
        return Ok(Judgement::of(verdict).part(words));
    }
    let over = tank_over_panels(s)?;
    if over >= Length::from_si(NIGHT_HEIGHT) {
        return Ok(Judgement::of(Verdict::Clear)
            .with(over, Length::from_si(NIGHT_HEIGHT))
            .part("the tank stands high"));
    }
    let head = s.plumbing.layout.night.clone()?;
    let Some(first) = checks.first() else {
        return Ok(Judgement::of(Verdict::Stop).with(Pressure::default(), head).margin(-head).part("no check valve"));
    };
    let mut opens = s.inputs.at(&part::SETTING, first)?;
    for name in &checks[1..] {
        opens = opens.max(s.inputs.at(&part::SETTING, name)?);
    }
    // A check valve holds against backward flow by closing; its spring only has to close it before the loop turns.
    Ok(Judgement::caution_unless(opens > head).with(opens, head).margin(opens - head).part(*first))
}

/// What each type of loop cannot do without.
fn wanted(loop_type: LoopType) -> &'static [(&'static str, &'static [PartKind])] {
    use PartKind as P;
    match loop_type {
        LoopType::Direct => &[("tank", &[P::Tank]), ("pump", &[P::Pump]), ("relief valve", &[P::ReliefValve])],
        LoopType::Drainback => &[("pump", &[P::Pump]), ("reservoir", &[P::Reservoir, P::SealedReservoir])],
        LoopType::Glycol => &[
            ("coil or exchanger", &[P::Coil, P::Exchanger]),
            ("pump", &[P::Pump]),
            ("vessel", &[P::Vessel]),
            ("relief valve", &[P::ReliefValve]),
            ("fill point", &[P::FillPoint]),
        ],
        LoopType::Thermosiphon => &[("tank", &[P::Tank, P::Coil]), ("relief valve", &[P::ReliefValve])],
    }
}

fn loop_parts(s: &Solution) -> Fig<Judgement> {
    let network = network_of(s)?;
    let has = |kinds: &[PartKind]| kinds.iter().any(|kind| network.part_of(*kind).is_some());
    let missing: Vec<&str> =
        wanted(s.inputs.get(&e::LOOP)?).iter().filter(|(_, kinds)| !has(kinds)).map(|(name, _)| *name).collect();
    let words = if missing.is_empty() { "all are written".to_owned() } else { missing.join(", ") };
    Ok(Judgement::stop_unless(missing.is_empty()).part(words))
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("plumbing.relief-reach", "every part reaches a relief valve", Severity::Deadly, relief_reach)
        .says(
            "Can be shut in without relief: {part}. Liquid that is shut in gains bars for every kelvin and bursts what \
             holds it.",
            "Take the handles off valves that can cut a part off, turn a check valve round, or add a relief valve.",
        )
        .blind_to("valves, caps and plugs that are not written down; a relief valve that is stuck or piped shut")
        .ask("a licensed plumber")
        .source("a relief valve in every branch that can be valved off: UFC 3-440-01, 4-2.2.7 (verified)")
        .needs(&["plumbing.shut_in_parts"])
        .final_word(),
    Check::new("plumbing.loop-parts", "parts that this loop needs", Severity::Serious, loop_parts)
        .says(
            "A {plumbing.loop} loop needs what is not written: {part}.",
            "Add the part to the loop, or change the type of loop.",
        )
        .blind_to("whether the part is fit for its place; the potable side")
        .source("drawings of UFC 3-440-01, chapter 4 (relief, vents, drains verified); the rest common practice, no source")
        .needs(&["plumbing.loop_order", "plumbing.loop"]),
    Check::new("plumbing.heights", "heights once around", Severity::Nuisance, heights_close)
        .says(
            "Once around, the rises add up to {found}; they should be nothing, to within {limit}.",
            "Measure the rises again, each run's end over its start; tanks and exchangers have a rise of their own.",
        )
        .blind_to("a sag or a hump within one run")
        .source("project rule")
        .needs(&["plumbing.height_gap"]),
    Check::new("plumbing.vents", "vents at the high points", Severity::Injury, high_points)
        .says(
            "Air gathers at {part}, and no vent stands there: it can stop the flow while the panel heats.",
            "A vent by hand at that place: end a run at it, or put it first or last along one.",
        )
        .blind_to("a hump within one run; air that comes out of warm water for weeks")
        .source("manual vents at every high point: UFC 3-440-01, 4-2.2.7 and appendix E (verified)")
        .needs(&["plumbing.unvented_top", "plumbing.loop"]),
    Check::new("plumbing.drains", "drains at the low points", Severity::Injury, low_points)
        .says(
            "Nothing drains the low point at {part}: what stays there freezes, and the loop cannot be emptied for repair.",
            "A drain cock at that place: end a run at it, or put it first or last along one.",
        )
        .blind_to("a sag within one run")
        .source("drains at every low point: UFC 3-440-01, 4-2.2.7 and appendix E (verified)")
        .needs(&["plumbing.undrained_low"]),
    Check::new("plumbing.drain-falls", "falls that empty the loop", Severity::Serious, falls)
        .says(
            "Run {part} falls {found} toward the reservoir; {limit} is the least. Water that stays freezes and bursts \
             the pipe.",
            "More rise between its ends or a shorter way, so that 2 cm in each metre are kept everywhere.",
        )
        .blind_to("sags, humps and level stretches within one run: only its ends are known; the fall of the headers")
        .source("1/4 in a foot: rating criterion (verified)")
        .needs(&["plumbing.least_fall", "plumbing.loop"]),
    Check::new("plumbing.night-flow", "no flow backward at night", Severity::Nuisance, night_flow)
        .says(
            "At night a warm tank and a cold panel would turn the loop with {plumbing.night_head}: {part}. A drainback \
             loop must have no check valve in its way.",
            "A check valve that opens above that pressure, or the tank's bottom 0.6 m and more above the panels' top.",
        )
        .blind_to("a check valve that dirt holds open; circulation within one pipe")
        .source("0.6 m: project rule; head: difference of the columns' weights")
        .needs(&["plumbing.night_head", "plumbing.loop", "plumbing.part.*.setting", "plumbing.loop_order"]),
];
