//! Mains and bonding: what was answered, tested and measured. The work itself is an electrician's.

use super::entries::outdoors::{self as e, Bond};
use super::entries::{self as answers};
use crate::model::{Fig, Judgement, Verdict, Why};
use crate::stage::worst::worst;
use crate::stage::{Check, Severity, Solution};
use crate::units::si::{Dimension, ElectricalResistance};

/// Days after which a breaker is tripped again (project rule).
const TRIP_AGAIN: i32 = 366;
/// Largest resistance of a bond, Ω (project rule).
const BOND: f64 = 0.1;

fn breaker(s: &Solution) -> Fig<Judgement> {
    let tested = s.inputs.get(&answers::RCD_TESTED)?;
    let days = (s.world.today - tested).get_days();
    if days < 0 {
        return Err(Why::out_of_range("the day of the breaker's test lies in the future"));
    }
    Ok(Judgement::caution_unless(days <= TRIP_AGAIN).part(tested.to_string()))
}

fn mains(s: &Solution) -> Fig<Judgement> {
    let answered = |entry, good: &str, bad: &str| {
        let said: Fig<bool> = s.inputs.get(entry);
        said.map(|yes| Judgement::stop_unless(yes).part(if yes { good } else { bad }))
    };
    let electrician =
        s.inputs.get(&answers::ELECTRICIAN).map(|_| Judgement::of(Verdict::Clear).part("an electrician is named"));
    worst([
        electrician,
        answered(&e::ISOLATOR, "isolator within reach", "no isolator within reach"),
        answered(&e::PUMP_DRY, "pump out of the wet", "pump or controller below a joint"),
    ])
}

fn bonding(s: &Solution) -> Fig<Judgement> {
    let goes_to = s.inputs.get(&e::BONDED_TO).map(|bond| {
        let part = match bond {
            Bond::Building => "the building's earth",
            Bond::OwnRod => "a rod of its own",
            Bond::Nothing => "nothing",
        };
        Judgement::stop_unless(bond == Bond::Building).part(part)
    });
    let limit = ElectricalResistance::from_si(BOND);
    let measured = s.inputs.get(&e::BOND_OHMS).map(|ohms| {
        Judgement::stop_unless(ohms <= limit).with(ohms, limit).margin(limit - ohms).part("a bond that was measured")
    });
    worst([goes_to, measured])
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("safety.electrical", "leakage breaker of pump and controller", Severity::Deadly, breaker)
        .says(
            "The leakage breaker was last tripped on {part}: more than a year ago.",
            "Trip it by its button. Mains work and bonding of panels, copper and rack are an electrician's.",
        )
        .blind_to("wiring, bonding, and whether the breaker feeds this circuit at all")
        .ask("a licensed electrician")
        .source("yearly test: project rule")
        .recalls_beside("30 mA, 5 mA in some countries")
        .needs(&["safety.rcd_tested"]),
    Check::new("safety.mains", "mains beside water", Severity::Deadly, mains)
        .says(
            "Mains: {part}.",
            "An electrician places and connects pump, controller and isolator: in reach, out of the wet, sensor wires apart \
             from mains, 18 AWG (0.8 mm²) at least, jacketed against the sun, shielded where storms are.",
        )
        .blind_to("the wiring itself; lightning; a wire that chafes at a metal edge")
        .ask("a licensed electrician")
        .source("isolator within reach: common practice, no source; sensor wires: a collector manual (verified)")
        .needs(&["safety.isolator", "safety.pump_dry", "safety.electrician"]),
    Check::new("safety.bonding", "bonding to earth", Severity::Deadly, bonding)
        .says(
            "Panels and copper are bonded to {part}; the largest resistance measured is {safety.bond_resistance}.",
            "One bond to the building's own earth, not to a second rod; a jumper over every hose; 0.1 ohm or less each.",
        )
        .blind_to("what the building's earth is worth; a clamp that corrodes; lightning")
        .ask("a licensed electrician")
        .source("building earth, no second rod: page on earthing of collectors (verified); 0.1 ohm: project rule")
        .needs(&["safety.bonded_to", "safety.bond_resistance"]),
];
