//! The loop beside drinking water: exchanger walls, liquid, pressures, fill link, backflow, cold start.

use super::entries::water::{self as e, ColdSlug, ExchangerPlace, FillLink, LoopLiquid, Walls};
use super::is_potable;
use crate::model::{Choice, Fig, Judgement, Verdict, Why};
use crate::stage::plumbing::entries::{self as pipes, LoopType};
use crate::stage::worst::worst;
use crate::stage::{Check, Severity, Solution};

fn cross_connection(s: &Solution) -> Fig<Judgement> {
    if is_potable(s.inputs.get(&pipes::LOOP)?) {
        return Ok(Judgement::does_not_apply("the panel carries the drinking water itself, without an exchanger"));
    }
    let link = s.inputs.get(&e::FILL_LINK).map(|link| {
        let part = if link == FillLink::Removed { "no link stays" } else { "a link to the mains that stays" };
        Judgement::stop_unless(link == FillLink::Removed).part(part)
    });
    let device = s.inputs.get(&e::BACKFLOW).map(|_| Judgement::of(Verdict::Clear).part("a backflow device is named"));
    let label = s.inputs.get(&e::LABEL).map(|label| {
        Judgement::caution_unless(label).part(if label { "exchanger labelled" } else { "no label at the exchanger" })
    });
    worst([liquid(s), pressure(s), link, device, label])
}

/// A single wall takes water or a food-grade liquid; ethylene glycol is refused behind any wall.
fn liquid(s: &Solution) -> Fig<Judgement> {
    let liquid = s.inputs.get(&e::LIQUID)?;
    if liquid == LoopLiquid::Ethylene {
        return Ok(Judgement::of(Verdict::Stop).part(liquid.word()));
    }
    if liquid == LoopLiquid::Water && s.inputs.get(&pipes::LOOP)? == LoopType::Glycol {
        return Err(Why::out_of_range("the loop is said to hold water, and to be a glycol loop"));
    }
    let recognised_for_food = matches!(liquid, LoopLiquid::Water | LoopLiquid::FoodGrade);
    let walls = s.inputs.get(&e::WALLS)?;
    let part = format!("{} wall with {}", walls.word(), liquid.word());
    Ok(Judgement::stop_unless(walls == Walls::Double || recognised_for_food).part(part))
}

fn pressure(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&e::WALLS)? == Walls::Double {
        return Ok(Judgement::of(Verdict::Clear).part("two walls, vented between"));
    }
    let (found, limit) = (s.inputs.get(&pipes::RELIEF)?, s.inputs.get(&e::POTABLE_PRESSURE)?);
    let part = "loop pressure against drinking water";
    Ok(Judgement::caution_unless(found <= limit).with(found, limit).margin(limit - found).part(part))
}

fn cold_slug(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&pipes::LOOP)? != LoopType::Glycol {
        return Ok(Judgement::does_not_apply("no liquid below 0 °C runs in this loop"));
    }
    if s.inputs.get(&e::EXCHANGER_PLACE)? == ExchangerPlace::Inside {
        return Ok(Judgement::does_not_apply("the exchanger stands in the stored water"));
    }
    let slug = s.inputs.get(&e::COLD_SLUG)?;
    let protected = Judgement::stop_unless(slug != ColdSlug::Nothing).part(match slug {
        ColdSlug::Nothing => "nothing keeps a cold start out of the exchanger",
        ColdSlug::Bypass | ColdSlug::PotableFlow => slug.word(),
    });
    let valve = s.inputs.get(&e::NIGHT_VALVE).map(|there| {
        let part = if there { "check valve against night flow" } else { "no check valve against night flow" };
        Judgement::stop_unless(there).part(part)
    });
    worst([Ok(protected), valve])
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("safety.cross-connection", "loop beside drinking water", Severity::Deadly, cross_connection)
        .says(
            "{part}. Relief at {plumbing.relief_setting} in the loop, drinking water at {safety.potable_pressure} at least: \
             ask the water authority.",
            "Two vented walls, or water or food-grade propylene glycol behind one; loop pressure below the drinking water's; \
             the fill hose taken away; never ethylene glycol, whose old fluid goes to the waste site.",
        )
        .blind_to("a hole in the wall, what was really poured in, cross-connections elsewhere in the house")
        .ask("the water authority and a licensed plumber, for walls, liquid and class of backflow device")
        .source(
            "single wall with water or a liquid recognised for food, label, pressure: a county's bulletin (verified); an \
             older code asked for two walls always (verified)",
        )
        .needs(&[
            "plumbing.loop",
            "safety.exchanger_walls",
            "safety.loop_liquid",
            "safety.exchanger_label",
            "safety.potable_pressure",
            "plumbing.relief_setting",
            "safety.fill_link",
            "safety.backflow_device",
        ]),
    Check::new("safety.cold-slug", "cold start of a glycol loop", Severity::Serious, cold_slug)
        .says(
            "{part}: on a winter morning liquid below 0 °C can freeze the drinking water in the exchanger and burst it.",
            "A bypass, or flow on the drinking water's side, until the loop is above 5 °C; check valves against night flow.",
        )
        .blind_to("a bypass valve that sticks, a sensor at the wrong pipe")
        .ask("a licensed plumber")
        .source("project rule")
        .needs(&["plumbing.loop", "safety.exchanger_place", "safety.cold_slug", "safety.loop_check_valve"]),
];
