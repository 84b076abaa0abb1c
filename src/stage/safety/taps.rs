//! The taps: class and set-point of the mixing valve, range of the tank limit, temperatures measured at the outlets.
//!
//! Lives here: published rules of single countries, as examples to ask about. Must not live here: burns and the rating of
//! the valve's hot inlet (`water`).

use super::entries::taps::{self as e, TapUse, ValveClass};
use super::entries::{self as answers};
use crate::model::{Fig, Judgement, Verdict};
use crate::stage::plumbing::entries::{self as pipes, LoopType};
use crate::stage::worst::worst;
use crate::stage::{Check, Severity, Solution};
use crate::units::si::{Dimension, Temperature, TemperatureInterval, celsius, difference};

/// Range that a tank limit is to offer, K, and the temperature that is to lie in it, °C (rating criterion for temperature
/// control, verified).
const SPAN: f64 = 10.0;
const IN_RANGE: f64 = 50.0;
/// Hot outlets and return at least, cold outlets at most, °C (national code of practice, verified).
const HOT: f64 = 50.0;
const COLD: f64 = 20.0;

impl TapUse {
    /// Published set-point: scheme of one country for thermostatic valves; a plumbing code's tempered water, 110 °F, for
    /// hands washed in public (both verified).
    pub fn set_point(self) -> Temperature {
        match self {
            Self::Bath => celsius(44.0),
            Self::Shower | Self::Basin => celsius(41.0),
            Self::Bidet => celsius(38.0),
            Self::PublicBasin => celsius((110.0 - 32.0) / 1.8),
        }
    }
}

fn valve(s: &Solution) -> Fig<Judgement> {
    let taps = s.inputs.get(&e::TAP_USE);
    let class = s.inputs.get(&e::VALVE_CLASS).and_then(|class| {
        let (verdict, part) = match class {
            ValveClass::Tempering => (Verdict::Stop, "a tempering valve does not protect from scald"),
            ValveClass::Line => {
                (Verdict::Caution, "a valve at the heater controls the line and protects no tap by itself")
            }
            ValveClass::Shower if taps.clone()? != TapUse::Shower => {
                (Verdict::Caution, "a shower's valve at another tap")
            }
            ValveClass::Tap if taps.clone()? == TapUse::Shower => {
                (Verdict::Caution, "a basin's or bath's valve at a shower")
            }
            ValveClass::Shower | ValveClass::Tap => (Verdict::Clear, "a valve made for its tap"),
        };
        Ok(Judgement::of(verdict).part(part))
    });
    let set = taps.clone().and_then(|taps| {
        let (found, limit) = (s.inputs.get(&answers::MIXING_SETTING)?, taps.set_point());
        let judgement = Judgement::caution_unless(found <= limit).with(found, limit);
        Ok(judgement.margin(difference(limit, found)).part("set-point"))
    });
    worst([class, set])
}

fn tank_limit(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&pipes::LOOP)? == LoopType::Thermosiphon {
        return Ok(Judgement::does_not_apply("no pump that could be stopped limits the tank"));
    }
    let (lowest, highest) = (s.inputs.get(&e::LIMIT_LOWEST)?, s.inputs.get(&e::LIMIT_HIGHEST)?);
    let span = difference(highest, lowest);
    let least = TemperatureInterval::from_si(SPAN);
    let chosen = s.inputs.get(&pipes::TANK_LIMIT).map(|chosen| {
        let nearer = if chosen > highest { highest } else { lowest };
        Judgement::stop_unless((lowest..=highest).contains(&chosen))
            .with(chosen, nearer)
            .part("the limit that is planned against what can be chosen")
    });
    let middle = celsius(IN_RANGE);
    let holds = Judgement::caution_unless((lowest..=highest).contains(&middle))
        .with(if middle > highest { highest } else { lowest }, middle)
        .part("50 °C against what can be chosen");
    let wide =
        Judgement::caution_unless(span >= least).with(span, least).margin(span - least).part("span of the choice");
    worst([chosen, Ok(holds), Ok(wide)])
}

fn outlets(s: &Solution) -> Fig<Judgement> {
    let at_least = |found: Temperature, part: &str| {
        let limit = celsius(HOT);
        Judgement::caution_unless(found >= limit).with(found, limit).margin(difference(found, limit)).part(part)
    };
    let cold = s.inputs.get(&e::COLD_OUTLET).map(|found| {
        let limit = celsius(COLD);
        let judgement = Judgement::caution_unless(found <= limit).with(found, limit);
        judgement.margin(difference(limit, found)).part("cold outlet after two minutes")
    });
    let back = s.inputs.get(&e::CIRCULATION).and_then(|circulates| {
        if !circulates {
            return Ok(Judgement::of(Verdict::Clear).part("no circulation"));
        }
        s.inputs.get(&e::RETURN).map(|found| at_least(found, "return of the circulation"))
    });
    worst([s.inputs.get(&e::HOT_OUTLET).map(|found| at_least(found, "hot outlet after a minute")), cold, back])
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("safety.tap-valve", "mixing valve by class and set-point", Severity::Serious, valve)
        .says(
            "Mixing valve, {part}: set to {safety.mixing_valve_setting} for {safety.tap_use}. One country's scheme sets 44 °C at \
             a bath, 41 °C at shower and basin, 38 °C at a bidet and lets no tap pass 46 °C; ask what holds here.",
            "A valve that limits at the tap itself; one at the heater beside it, not instead of it. Lower the setting. A \
             child's bath is 37 to 37.5 °C.",
        )
        .blind_to(
            "taps without a valve; a hot supply outside the valve's approval, 55 to 65 °C in one scheme; the rule of this place: \
             ask",
        )
        .ask("a licensed plumber")
        .source(
            "set-points: scheme of one country for thermostatic valves (verified); public basin: tempered water of a plumbing \
             code (verified); classes: trade page on valve standards, rating criterion (verified)",
        )
        .needs(&["safety.tap_use", "safety.mixing_valve_class", "safety.mixing_valve_setting"]),
    Check::new("safety.tank-limit", "choice of the tank limit", Severity::Serious, tank_limit)
        .says(
            "Tank limit, {part}: {found} against {limit}.",
            "A controller or thermostat whose limit can be chosen over 10 K at least, 50 °C among it, and chosen within that.",
        )
        .blind_to("a sensor that slipped out of its pocket, a relay that sticks; what was really set")
        .ask("a licensed plumber")
        .source("10 K that hold 50 °C: rating criterion for temperature control (verified)")
        .needs(&["plumbing.loop", "plumbing.tank_limit", "safety.tank_limit_lowest", "safety.tank_limit_highest"]),
    Check::new("safety.outlets", "temperatures at the outlets", Severity::Deadly, outlets)
        .says(
            "Outlets, {part}: {found} against {limit}. Between 20 and 50 °C legionella lives in the pipes.",
            "Insulate the hot pipe, part it from the cold one, cut dead legs, heat the store to 60 °C; measure again.",
        )
        .blind_to("outlets that nobody measured, days without draw, slime in pipes and shower heads")
        .ask("a licensed plumber; on shared premises and at workplaces the health authority")
        .source(
            "over 50 °C within a minute, below 20 °C within two, return 50 °C: national code of practice and a world health text \
             (verified)",
        )
        .needs(&[
            "safety.hot_outlet",
            "safety.cold_outlet",
            "safety.circulation",
            "safety.return_temperature",
        ]),
];
