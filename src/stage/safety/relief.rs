//! Steam and its way out: joints under pressure and heat, size and setting of the relief valve, its discharge.

use super::entries::water::{self as e, DischargePipe};
use crate::handbook::joint_rating::{self, SizeGroup};
use crate::handbook::solder;
use crate::model::text::clean;
use crate::model::{Fig, Judgement, Verdict, Why};
use crate::physics::collector_curve::{CollectorCurve, Weather};
use crate::physics::solder_joint::{self, Method};
use crate::physics::steam::{BoilingPanel, Steam};
use crate::stage::absorber::entries::{self as absorber, Filler};
use crate::stage::plumbing::entries::part::{KIND, PartKind};
use crate::stage::plumbing::entries::service;
use crate::stage::plumbing::{self, entries as pipes};
use crate::stage::worst::worst;
use crate::stage::{Check, Figure, Group, Severity, Solution};
use crate::units::Kind;
use crate::units::si::{Dimension, HeatFluxDensity, Length, Pressure, TemperatureInterval, Volume, celsius};

/// Sun and air that steam is reckoned for (project rule: stronger than any hour on the ground).
const SUN: f64 = 1200.0;
const AIR: f64 = 40.0;
/// Highest relief setting of a solar loop, Pa (125 psi; guide specification, verified).
pub const HIGHEST_SETTING: f64 = 861_845.0;
/// Settings of a tank's own temperature and pressure relief valve, Pa: 125 psi (facilities criteria), 150 psi (plumbing
/// codes), both verified.
const TANK_CLEAR: f64 = 861_845.0;
const TANK_MOST: f64 = 1_034_214.0;
/// Discharge: highest end above the floor, m (6 in), and least in bores (plumbing codes, verified).
const END_HIGHEST: f64 = 0.1524;
const END_BORES: f64 = 2.0;

/// Steam of all panels.
pub static STEAM: Group = Group {
    name: "steam of the panels",
    entries: &[],
    groups: &[&crate::stage::absorber::HEAT, &super::BOILING, &plumbing::ROW],
};

/// Rating of the pressure joints.
pub static JOINTS: Group = Group {
    name: "rating of the pressure joints",
    entries: &["absorber.header_filler", "safety.joint_solder", "absorber.header_tube"],
    groups: &[&crate::stage::absorber::STAGNATION],
};

/// Steam while there is liquid, and its bound without any loss.
#[derive(Clone, Copy, Debug)]
pub struct PanelSteam {
    /// By the efficiency curve.
    pub by_curve: Steam,
    /// Without any loss.
    pub at_most: Steam,
}

/// Steam of all panels at the pressure at which the relief valve opens. Glycol boils hotter: its water is what boils,
/// so the water's heat of evaporation is used.
pub fn steam(s: &Solution) -> Fig<PanelSteam> {
    let heat = s.absorber.heat.as_ref().map_err(Clone::clone)?;
    let collector = s.absorber.collector.as_ref().map_err(Clone::clone)?;
    let count = s.plumbing.row.clone()?.count as f64;
    let panel = BoilingPanel {
        curve: {
            let hottest = &heat.hottest_curve;
            CollectorCurve { eta0: hottest.eta0, a1: hottest.a1, a2: hottest.a2 }
        },
        area: collector.absorber_area() * count,
        weather: Weather { irradiance: HeatFluxDensity::from_si(SUN), air: celsius(AIR) },
        saturation: s.safety.boiling.clone()?,
    };
    let by_curve = panel.steam().map_err(Why::out_of_range)?;
    Ok(PanelSteam { by_curve, at_most: panel.steam_without_losses().map_err(Why::out_of_range)? })
}

/// Rated pressure of the header joints where the plate stagnates: the lowest of the published sets.
fn joint_rating(s: &Solution) -> Fig<Pressure> {
    let hottest = s.absorber.stagnation.clone()?.worst;
    let harp = s.absorber.harp.as_ref().map_err(Clone::clone)?;
    let (method, grade) = match s.inputs.get(&absorber::HEADER_FILLER)? {
        Filler::Brazed => (Method::Brazed, "brazed".to_owned()),
        Filler::Soldered => {
            let name = s.inputs.get(&e::JOINT_SOLDER)?;
            let invalid = || Why::Invalid(vec![e::JOINT_SOLDER.spec.id.to_owned()]);
            (Method::Soldered, solder::alloys().get(&name).ok_or_else(invalid)?.astm_b32.clone())
        }
    };
    let tables = joint_rating::tables(&grade, size_group(harp.header.od));
    if tables.is_empty() {
        return Err(Why::out_of_range(format_args!("no published set rates joints of grade {grade}")));
    }
    let rating = solder_joint::rated_pressure(method, &tables, hottest).map_err(Why::out_of_range)?;
    Ok(rating.pressure)
}

/// Sizes that ratings are printed for, by the outside diameter.
fn size_group(outside: Length) -> SizeGroup {
    match outside.si() {
        od if od <= 0.0287 => SizeGroup::UpTo1,
        od if od <= 0.0541 => SizeGroup::UpTo2,
        _ => SizeGroup::UpTo4,
    }
}

/// Whether the loop is open to the air, as a relief setting of nothing says. A part that is closed says otherwise: then
/// one of the two is wrong, and nothing that hangs on it is known.
fn is_open(s: &Solution) -> Fig<bool> {
    if s.inputs.get(&pipes::RELIEF)?.si() > 0.0 {
        return Ok(false);
    }
    for part in s.inputs.keys(&KIND.spec) {
        if matches!(s.inputs.at(&KIND, &part)?, PartKind::SealedReservoir | PartKind::Vessel) {
            return Err(Why::out_of_range(format_args!(
                "the relief valve is set to nothing, as in a loop that is open to the air, but {} is closed",
                clean(&part)
            )));
        }
    }
    Ok(true)
}

fn joints(s: &Solution) -> Fig<Judgement> {
    let setting = s.inputs.get(&pipes::RELIEF)?;
    if is_open(s)? {
        return Ok(Judgement::does_not_apply("the loop is open to the air and carries no pressure"));
    }
    let hottest = s.absorber.stagnation.clone()?.worst;
    let (method, part) = match s.inputs.get(&absorber::HEADER_FILLER)? {
        Filler::Brazed => (Method::Brazed, "brazed header joints"),
        Filler::Soldered => (Method::Soldered, "soldered header joints"),
    };
    let judge = |limit: Pressure, part: &str| {
        Judgement::stop_unless(setting <= limit).with(setting, limit).margin(limit - setting).part(part)
    };
    if hottest > celsius(method.limit_celsius()) {
        return Ok(judge(Pressure::from_si(0.0), part));
    }
    let steams = s.safety.boiling.clone().map(|boiling| {
        if hottest > boiling {
            judge(method.steam_rating(), "joints filled with steam")
        } else {
            Judgement::of(Verdict::Clear).part("no steam at the joints")
        }
    });
    worst([joint_rating(s).map(|rating| judge(rating, part)), steams])
}

fn setting(s: &Solution) -> Fig<Judgement> {
    let setting = s.inputs.get(&pipes::RELIEF)?;
    let judge = |limit: Pressure, part: &str| {
        Judgement::stop_unless(setting <= limit).with(setting, limit).margin(limit - setting).part(part)
    };
    let weakest = s.inputs.get(&pipes::WEAKEST).map(|weakest| judge(weakest, "the weakest part, rated at 20 °C"));
    let highest = Ok(judge(Pressure::from_si(HIGHEST_SETTING), "the highest setting of a solar loop"));
    let tank = s.inputs.given(&service::TANK_RELIEF)?.map(|found| {
        let limit = Pressure::from_si(if found.si() > TANK_MOST { TANK_MOST } else { TANK_CLEAR });
        let verdict = match found.si() {
            setting if setting <= TANK_CLEAR => Verdict::Clear,
            setting if setting <= TANK_MOST => Verdict::Caution,
            _ => Verdict::Stop,
        };
        Ok(Judgement::of(verdict).with(found, limit).margin(limit - found).part("the valve of the tank itself"))
    });
    worst([weakest, highest].into_iter().chain(tank))
}

fn size(s: &Solution) -> Fig<Judgement> {
    if is_open(s)? {
        return Ok(Judgement::does_not_apply("the loop is open to the air and needs no relief valve"));
    }
    let most = steam(s)?.at_most.power;
    let rated = s.inputs.get(&e::RELIEF_POWER)?;
    Ok(Judgement::stop_unless(rated >= most).with(rated, most).margin(rated - most))
}

fn discharge(s: &Solution) -> Fig<Judgement> {
    if is_open(s)? {
        return Ok(Judgement::does_not_apply("the loop is open to the air and needs no relief valve"));
    }
    let answered = |entry, good: &str, bad: &str| {
        let said: Fig<bool> = s.inputs.get(entry);
        said.map(|yes| Judgement::stop_unless(yes).part(if yes { good } else { bad }))
    };
    let pipe = s.inputs.get(&e::DISCHARGE_PIPE).map(|pipe| match pipe {
        DischargePipe::Metal => Judgement::of(Verdict::Clear).part("metal pipe"),
        DischargePipe::Rated => Judgement::of(Verdict::Caution).part("plastic that the code must list for this"),
        DischargePipe::Plastic => Judgement::of(Verdict::Stop).part("plastic, hose or gutter"),
    });
    worst([
        bore(s),
        end(s),
        pipe,
        answered(&e::DISCHARGE_FALLS, "it falls all the way", "it does not fall all the way"),
        answered(&e::DISCHARGE_FREE, "nothing in it can close", "something in it can close"),
        answered(&e::DISCHARGE_SEEN, "seen, and hits nobody", "not seen, or somebody stands in its way"),
        can(s),
    ])
}

fn bore(s: &Solution) -> Fig<Judgement> {
    let (bore, outlet) = (s.inputs.get(&e::DISCHARGE_BORE)?, s.inputs.get(&e::RELIEF_OUTLET)?);
    Ok(Judgement::stop_unless(bore >= outlet).with(bore, outlet).margin(bore - outlet).part("bore of the pipe"))
}

fn end(s: &Solution) -> Fig<Judgement> {
    let (end, bore) = (s.inputs.get(&e::DISCHARGE_END)?, s.inputs.get(&e::DISCHARGE_BORE)?);
    let (highest, lowest) = (Length::from_si(END_HIGHEST), bore * END_BORES);
    Ok(if end > highest {
        Judgement::of(Verdict::Caution).with(end, highest).margin(highest - end).part("its end, too high")
    } else {
        Judgement::caution_unless(end >= lowest).with(end, lowest).margin(end - lowest).part("its end above the floor")
    })
}

fn can(s: &Solution) -> Fig<Judgement> {
    let holds = s.inputs.get(&e::DISCHARGE_CAN)?;
    let content: Volume = s.plumbing.contents.clone()?.total();
    Ok(Judgement::caution_unless(holds >= content)
        .with(holds, content)
        .margin(holds - content)
        .part("the can below it"))
}

/// Kelvin of warming that bring a shut full riser from nothing to the rating of the weakest part.
fn kelvin_to_burst(s: &Solution) -> Fig<TemperatureInterval> {
    let weakest = s.inputs.get(&pipes::WEAKEST)?;
    let gain = s.safety.trapped.clone()?;
    Ok(TemperatureInterval::from_si(weakest.si() / gain.si()))
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new(
        "safety.steam_power",
        "steam by the curve, 1200 W/m², 40 °C, relief open",
        Kind::Power,
        &STEAM,
        |s, _| Ok(steam(s)?.by_curve.power.into()),
    )
    .by("steam-power", "A × (η₀ 1200 W/m² − a₁ ΔT − a₂ ΔT²), ΔT = {T} − 40 °C", &[("T", "safety.boiling")]),
    Figure::new(
        "safety.steam_power_most",
        "steam without any loss: sizes the relief valve",
        Kind::Power,
        &STEAM,
        |s, _| Ok(steam(s)?.at_most.power.into()),
    )
    .by("steam-power", "A × η₀ × 1200 W/m², no loss at all", &[]),
    Figure::new("safety.steam_rate", "steam from all panels", Kind::MassFlow, &STEAM, |s, _| {
        Ok(steam(s)?.by_curve.rate.into())
    })
    .by(
        "steam-power",
        "{P} / heat of evaporation at {T}",
        &[("P", "safety.steam_power"), ("T", "safety.boiling")],
    ),
    Figure::new("safety.joint_rating", "header joints, rated when hot", Kind::Pressure, &JOINTS, |s, _| {
        Ok(joint_rating(s)?.into())
    })
    .by("steam-joint-rating", "lowest published rating at {T}", &[("T", "absorber.stagnation_worst")]),
    Figure::new("safety.trapped_kelvin", "shut-in riser fails after", Kind::TemperatureDifference, &KELVIN, |s, _| {
        Ok(kelvin_to_burst(s)?.into())
    })
    .by(
        "trapped-water",
        "{rating} / {gain}",
        &[("rating", "plumbing.weakest_rating"), ("gain", "safety.trapped_pressure")],
    ),
];

/// Warming that a shut riser bears.
pub static KELVIN: Group =
    Group { name: "warming of a shut riser", entries: &["plumbing.weakest_rating"], groups: &[&super::TRAPPED] };

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("safety.joint-pressure", "pressure joints against relief setting", Severity::Deadly, joints)
        .says(
            "{part}: the relief valve opens at {found}, they are rated {limit} where the panel stagnates.",
            "Braze the wet joints, lower the relief setting, or a loop that is empty when it stagnates. Soft solder carries \
             no rated pressure above 121 °C.",
        )
        .blind_to("how well each joint is filled; ratings are for tube and fitting of one standard; creep under a hung sheet")
        .ask("a licensed plumber")
        .source("copper trade handbook and a pressure piping code (verified); where they differ the lower counts")
        .needs(&[
            "plumbing.relief_setting",
            "plumbing.part.*.kind",
            "safety.joint_rating",
            "absorber.header_filler",
            "absorber.stagnation_worst",
            "safety.boiling",
        ]),
    Check::new("safety.relief-setting", "setting of the relief valve", Severity::Deadly, setting)
        .says(
            "The relief valve opens at {found}; {part}: {limit}.",
            "A lower setting, or stronger parts. The setting is never above the weakest part at its hottest.",
        )
        .blind_to("ratings at heat of parts that nobody listed; a valve that sticks or was set by hand")
        .ask("a licensed plumber")
        .source(
            "125 psi: guide specification of solar heating systems (verified); tanks 125 psi and 210 °F: facilities criteria, \
             150 psi and 210 °F: plumbing codes (verified)",
        )
        .needs(&["plumbing.relief_setting", "plumbing.weakest_rating", "plumbing.tank_relief"]),
    Check::new("safety.relief-size", "size of the relief valve", Severity::Deadly, size)
        .says(
            "The relief valve carries off {found}; the panels can make {limit} of steam, all losses left out.",
            "A larger valve, or one for each part of the field.",
        )
        .blind_to("a long or narrow discharge, which throttles it; a plate that gives water capacity, not steam")
        .ask("a licensed plumber")
        .source("all sunlight that the plate takes in at 1200 W/m², no loss: an upper bound (project rule)")
        .needs(&[
            "safety.steam_power_most",
            "safety.relief_power",
            "plumbing.relief_setting",
            "plumbing.part.*.kind",
        ]),
    Check::new("safety.discharge", "discharge of the relief valve", Severity::Deadly, discharge)
        .says(
            "Discharge, {part}. Near-boiling water and steam come out of it without warning.",
            "Full bore, falling, metal, seen, nothing in it that can close, ending low over a metal can that holds \
             {plumbing.loop_content}.",
        )
        .blind_to("where the local code wants it to end; frost that plugs its end; who stands there on the day")
        .ask("a licensed plumber; the local plumbing code")
        .source("points of three plumbing codes (verified); can that holds the loop: project rule")
        .needs(&[
            "plumbing.relief_setting",
            "plumbing.part.*.kind",
            "safety.relief_outlet",
            "safety.discharge_bore",
            "safety.discharge_end",
            "safety.discharge_pipe",
            "safety.discharge_falls",
            "safety.discharge_free",
            "safety.discharge_seen",
            "safety.discharge_can",
            "plumbing.loop_content",
        ]),
];
