//! Readings laid over the entries: several readings of one quantity become one, by the declared fold.

use std::collections::BTreeMap;

use crate::model::record::moment;
use crate::model::{Entries, Fold, PanelLetter, Reading, Records, Role, Scope, Value, inputs::Given};
use crate::stage;
use crate::units::Quantity;

/// The readings that apply to one panel, or to the project.
#[derive(Debug, Default)]
pub struct Overlay {
    /// All that apply, by entry.
    pub all: Entries,
    /// Only those of quantities that nobody decides: they have no drawn value to be compared with.
    pub measured_only: Entries,
    /// Every single reading behind the folded ones, oldest first.
    pub repeats: BTreeMap<String, Vec<Value>>,
    /// Whether a reading of this very panel is among them.
    pub touches_panel: bool,
}

/// Gathers the readings of entries for a panel (its own and the project's), or for the project alone.
pub fn readings(records: &Records, panel: Option<PanelLetter>) -> Overlay {
    let mut by_id: BTreeMap<&str, Vec<&Reading>> = BTreeMap::new();
    for reading in &records.readings {
        if reading.withdrawn.is_none() && (reading.of.panel.is_none() || reading.of.panel == panel) {
            by_id.entry(reading.of.id.as_str()).or_default().push(reading);
        }
    }
    let mut overlay = Overlay::default();
    for (id, mut list) in by_id {
        let Some(spec) = stage::entry(id) else { continue };
        list.sort_by_key(|reading| moment(reading.date, &reading.key));
        let Some(given) = fold(spec.fold, &list) else { continue };
        overlay.touches_panel |= spec.scope == Scope::Panel && panel.is_some();
        let singles = list.iter().filter_map(|reading| reading.value.clone()).collect();
        overlay.repeats.insert(id.to_owned(), singles);
        if spec.role == Role::Measure {
            overlay.measured_only.insert(id.to_owned(), given.clone());
        }
        overlay.all.insert(id.to_owned(), given);
    }
    overlay
}

fn fold(fold: Fold, readings: &[&Reading]) -> Option<Given> {
    let last = readings.iter().rev().find(|reading| reading.value.is_some())?;
    let numbers: Vec<Quantity> = readings.iter().filter_map(|reading| reading.value.as_ref()?.quantity()).collect();
    let pick = |better: fn(f64, f64) -> f64| {
        let kind = numbers.first()?.kind;
        let si = numbers.iter().map(|number| number.si).reduce(better)?;
        Some(Quantity::new(kind, si))
    };
    let folded = match fold {
        Fold::Latest => None,
        Fold::Largest => pick(f64::max),
        Fold::Smallest => pick(f64::min),
        Fold::Mean => pick(|sum, next| sum + next).map(|sum| Quantity::new(sum.kind, sum.si / numbers.len() as f64)),
    };
    let value = folded.map(Value::Quantity).or_else(|| last.value.clone())?;
    Some(Given { typed: last.typed.clone(), value: Ok(value) })
}
