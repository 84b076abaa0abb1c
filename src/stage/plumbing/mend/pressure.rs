//! Changes that mend what is wrong with the pressure: relief valves, their settings, the vessel.

use super::sold::Sold;
use super::{Candidate, Edit, Effort, added, litres, network, of, one, set};
use crate::model::Fig;
use crate::stage::Solution;
use crate::stage::plumbing::closed;
use crate::stage::plumbing::entries::part::{self, PartKind};
use crate::stage::plumbing::entries::{self as e, run};
use crate::stage::plumbing::network::Network;
use crate::stage::plumbing::pipework::given_at;
use crate::stage::safety::relief::HIGHEST_SETTING;
use crate::units::si::{Dimension, Pressure};

/// Handles taken off, one or all; else a relief valve more.
pub(super) fn relief_reach(s: &Solution) -> Fig<Vec<Candidate>> {
    let network = network(s)?;
    let sections = s.plumbing.layout.shut_in.as_ref().map_err(Clone::clone)?;
    let mut closers: Vec<&String> = sections.iter().flat_map(|section| &section.by).collect();
    closers.retain(|name| network.kind(name).is_some_and(PartKind::can_close));
    closers.sort();
    closers.dedup();
    let lock = |name: &&String| set(of(part::LOCKED.spec.id, name), "yes");
    let mut list: Vec<Candidate> = closers.iter().map(|name| one(Effort::Setting, 1.0, lock(name))).collect();
    for (at, first) in closers.iter().enumerate() {
        for second in &closers[at + 1..] {
            list.push(Candidate { effort: Effort::Setting, amount: 2.0, edits: vec![lock(first), lock(second)] });
        }
    }
    if closers.len() > 2 {
        let edits = closers.iter().map(lock).collect();
        list.push(Candidate { effort: Effort::Setting, amount: closers.len() as f64, edits });
    }
    list.extend(added(network, ("relief valve", "relief"), &[], None));
    if !closers.is_empty() {
        let unlocked: Vec<Edit> = closers.iter().map(lock).collect();
        list.extend(added(network, ("relief valve", "relief"), &unlocked, None));
    }
    Ok(list)
}

/// The next larger vessels, and a higher relief setting.
pub(super) fn vessel(s: &Solution) -> Fig<Vec<Candidate>> {
    let network = network(s)?;
    let Some(name) = network.part_of(PartKind::Vessel) else { return Ok(Vec::new()) };
    let larger = larger_vessels(s, name)?;
    let mut list: Vec<Candidate> =
        larger.into_iter().map(|(litres, edit)| one(Effort::LargePart, litres, edit)).collect();
    list.extend(higher_relief(s, network, 9)?);
    Ok(list)
}

/// The next larger vessels as sold, with their litres.
fn larger_vessels(s: &Solution, name: &str) -> Fig<Vec<(f64, Edit)>> {
    let has = given_at(&s.inputs, &part::VOLUME, name)?.map_or(0.0, litres);
    let sizes = Sold::of(&s.inputs).vessels().into_iter().filter(|(_, litres)| *litres > has);
    Ok(sizes.map(|(typed, litres)| (litres, set(of(part::VOLUME.spec.id, name), typed))).collect())
}

/// Relief settings some steps higher, as sold.
fn higher_relief(s: &Solution, network: &Network, steps: u32) -> Fig<Vec<Candidate>> {
    let sold = Sold::of(&s.inputs);
    let relief = closed::relief(&s.inputs, network)?.si();
    let settings = (1..=steps).map(|step| sold.relief_from(relief + sold.relief_step() * f64::from(step)));
    Ok(settings.filter_map(|setting| relief_at(s, network, setting).ok()).collect())
}

/// All relief valves of the loop at one setting, which lies on a sold step.
fn relief_at(s: &Solution, network: &Network, pressure: f64) -> Fig<Candidate> {
    let typed = Sold::of(&s.inputs).relief(pressure);
    let mut edits = Vec::new();
    for name in network.parts_of(PartKind::ReliefValve) {
        if given_at(&s.inputs, &part::SETTING, name)?.is_some() {
            edits.push(set(of(part::SETTING.spec.id, name), typed.clone()));
        }
    }
    edits.push(set(e::RELIEF.spec.id, typed));
    let moved = (pressure - closed::relief(&s.inputs, network)?.si()).abs();
    Ok(Candidate { effort: Effort::Setting, amount: moved, edits })
}

/// Relief a whole step below the weakest rating and not above the highest of a solar loop, with a larger vessel if need be.
pub(super) fn lower_relief(s: &Solution) -> Fig<Vec<Candidate>> {
    let network = network(s)?;
    let mut lowest: Option<Pressure> = s.inputs.given(&e::WEAKEST)?;
    for name in network.parts.keys() {
        lowest = lowest.into_iter().chain(given_at(&s.inputs, &part::RATING, name)?).reduce(Pressure::min);
    }
    for stretch in &network.circuit {
        lowest = lowest.into_iter().chain(given_at(&s.inputs, &run::RATING, &stretch.run)?).reduce(Pressure::min);
    }
    let sold = Sold::of(&s.inputs);
    let step = sold.relief_step();
    let most = sold.relief_below(HIGHEST_SETTING + step).unwrap_or(step);
    let setting = lowest.and_then(|limit| sold.relief_below(limit.si())).map(|setting| setting.min(most));
    let mut list = Vec::new();
    if let Some(setting) = setting {
        let lower = relief_at(s, network, setting)?;
        if let Some(vessel) = network.part_of(PartKind::Vessel) {
            for (litres, edit) in larger_vessels(s, vessel)? {
                let edits = lower.edits.iter().cloned().chain([edit]).collect();
                list.push(Candidate { effort: Effort::LargePart, amount: litres, edits });
            }
        }
        list.push(lower);
    }
    list.extend(higher_relief(s, network, 12)?);
    Ok(list)
}
