//! Every material against the one stagnation temperature.

use super::entries as e;
use crate::handbook::solder::Alloy;
use crate::model::{Entry, Fig, Judgement, Verdict};
use crate::physics::solder_joint::Method;
use crate::stage::Solution;
use crate::stage::absorber::entries::{self as a, Filler};
use crate::stage::enclosure::heat;
use crate::stage::worst::worst;
use crate::units::si::{Dimension, Temperature, TemperatureInterval, celsius, difference};

/// How far a part must stay below its limit, K.
#[derive(Clone, Copy)]
struct Margins {
    /// From here it is clear.
    clear: f64,
    /// Below it stops; between it is a caution.
    stop: f64,
}

/// Solder of the sheet (project rule).
const SOLDER: Margins = Margins { clear: 30.0, stop: 20.0 };
/// Pressure joints: their service limits hold a margin already.
const JOINT: Margins = Margins { clear: 0.0, stop: 0.0 };
/// Insulation (project rule).
const INSULATION: Margins = Margins { clear: 20.0, stop: 20.0 };
/// What goes by a data sheet (project rule).
const DATA_SHEET: Margins = Margins { clear: 20.0, stop: 0.0 };

fn against(hottest: Temperature, limit: Temperature, margins: Margins, part: impl Into<String>) -> Judgement {
    let room = difference(limit, hottest);
    let verdict = match room.si() {
        kelvin if kelvin >= margins.clear => Verdict::Clear,
        kelvin if kelvin >= margins.stop => Verdict::Caution,
        _ => Verdict::Stop,
    };
    let margin = room - TemperatureInterval::from_si(margins.clear);
    Judgement::of(verdict).with(hottest, limit).margin(margin).part(part)
}

/// The line that holds the sheet; a solidus that the handbook only recalls never clears it.
fn sheet_solder(hottest: Temperature, alloy: &Alloy) -> Judgement {
    against(hottest, alloy.solidus, SOLDER, format!("solder {}", alloy.name)).resting_on(alloy.provenance)
}

/// The worst of all materials that see the plate.
pub fn stagnation(s: &Solution) -> Fig<Judgement> {
    let hottest = s.absorber.stagnation.clone()?.worst;
    let sheet = |entry: &Entry<Temperature>, part: &str| {
        s.inputs.get(entry).map(|limit| against(hottest, limit, DATA_SHEET, part))
    };
    let joint = s.inputs.get(&a::HEADER_FILLER).map(|filler| {
        let (method, part) = match filler {
            Filler::Soldered => (Method::Soldered, "soldered pressure joint"),
            Filler::Brazed => (Method::Brazed, "brazed pressure joint"),
        };
        against(hottest, celsius(method.limit_celsius()), JOINT, part)
    });
    let solder = s.absorber.solder.clone();
    let insulation = s.enclosure.insulation_limit.clone();
    worst([
        solder.map(|alloy| sheet_solder(hottest, alloy)),
        joint,
        insulation.and_then(|limit| {
            let provenance = heat::insulation_limit_provenance(&s.inputs)?;
            Ok(against(hottest, limit, INSULATION, "insulation").resting_on(provenance))
        }),
        sheet(&e::COATING_LIMIT, "coating"),
        sheet(&e::SEALANT_LIMIT, "sealant or gasket"),
        sheet(&e::HOSE_LIMIT, "hose"),
        sheet(&e::SENSOR_LIMIT, "panel sensor"),
    ])
}
