//! Insulation of the pipe against the heat that it sees: hottest where a run meets the panels.

use super::entries::part::PartKind;
use super::entries::run;
use super::pipework::given_at;
use super::pressure_rows::network;
use crate::handbook::insulation;
use crate::model::{Fig, Judgement, Why};
use crate::stage::worst::worst;
use crate::stage::{Check, Severity, Solution};
use crate::units::si::{Temperature, celsius, difference};

/// What insulation of pipe stands beside the panels, and elsewhere in the loop, °C (400 and 250 °F; guide specification of
/// solar heating systems, verified).
const BESIDE_PANELS: f64 = 204.0;
const ELSEWHERE: f64 = 121.0;

fn runs(s: &Solution) -> Fig<Judgement> {
    let network = network(s)?;
    let mut judged = Vec::new();
    for stretch in &network.circuit {
        let Some(name) = given_at(&s.inputs, &run::INSULATION, &stretch.run)? else { continue };
        let id = || run::INSULATION.spec.id.replacen('*', &stretch.run, 1);
        let material = insulation::materials().get(&name).ok_or_else(|| Why::Invalid(vec![id()]))?;
        let at_panels = [&stretch.from, &stretch.to].iter().any(|end| network.kind(end) == Some(PartKind::Panels));
        let wanted: Temperature = celsius(if at_panels { BESIDE_PANELS } else { ELSEWHERE });
        let judgement = Judgement::caution_unless(material.limit >= wanted)
            .with(material.limit, wanted)
            .margin(difference(material.limit, wanted))
            .part(format!("{}: {name}", stretch.run));
        judged.push(Ok(judgement.resting_on(material.limit_provenance)));
    }
    if judged.is_empty() {
        return Ok(Judgement::does_not_apply("no run of the loop is insulated"));
    }
    worst(judged)
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[Check::new(
    "plumbing.run-insulation",
    "insulation of the pipe against heat",
    Severity::Injury,
    runs,
)
.says(
    "{part} stands {found}; {limit} is asked for there.",
    "Mineral wool beside the panels, half a metre at the least; foam only further on, jacketed against the sun.",
)
.blind_to("bends and valves left bare, sunlight on foam, tape that crumbles within a year")
.source("204 °C beside the panels, 121 °C elsewhere: guide specification of solar heating systems (verified)")
.recalls_beside("some rows of the table of insulation")
.needs(&["plumbing.loop_order", "plumbing.run.*.insulation"])];
