//! What the text in a form would mean, said while it is typed.

use super::{both_units, detail};
use crate::model::{Address, EntrySpec, text::clean};
use crate::stage::{self, study::STUDIES};
use crate::tui::form::{Form, Purpose, Slot};
use crate::tui::ink::{Par, Role};
use crate::tui::state::State;
use crate::units::{self, Kind};
use crate::workbook::Differences;

/// How many figures that would move are named.
const NAMED: usize = 3;

/// The echo of a form.
pub fn of(state: &State, form: &Form) -> Vec<Par> {
    match &form.purpose {
        Purpose::Set(id) => set(state, id, form),
        Purpose::SaveBeside => {
            vec![Par::new(Role::Quiet, "The name must not be taken; the file there stays as it is.")]
        }
        Purpose::Log | Purpose::Note(_) | Purpose::Variant => Vec::new(),
        Purpose::Hours(_) => time(state, &form.value(Slot::Main)),
        Purpose::Overrule(of) if stage::step(&of.id).is_some() => {
            let mut pars =
                vec![Par::new(Role::Quiet, "The reason stays in the file, on the step and in every report.")];
            pars.extend(state.workbook.evaluation().step(of).map_or_else(Vec::new, |of| detail::step(state, of)));
            pars
        }
        Purpose::Overrule(of) => {
            let judged = state.workbook.evaluation().verdict(&of.id);
            let mut pars =
                vec![Par::new(Role::Quiet, "It counts only as long as nothing that the check looks at changes.")];
            pars.extend(judged.map_or_else(Vec::new, |judged| detail::check(state, judged)));
            pars
        }
        Purpose::Withdraw(_) | Purpose::TakeBackReading(..) => {
            vec![Par::new(Role::Quiet, "The record stays in the file, marked as taken back.")]
        }
        Purpose::Reading(_) | Purpose::ReadingHere(_) => measured(state, form),
        Purpose::SignOff(address) => {
            let mut pars = measured(state, form);
            pars.extend(state.workbook.evaluation().step(address).map_or_else(Vec::new, |of| detail::step(state, of)));
            pars
        }
    }
}

fn time(state: &State, typed: &str) -> Vec<Par> {
    match units::parse(Kind::Time, typed) {
        _ if typed.is_empty() => Vec::new(),
        Ok(time) => vec![Par::tagged(Role::Quiet, "understood:", time.text(state.system()))],
        Err(error) => vec![Par::tagged(Role::Refused, "refused", clean(&error.to_string()))],
    }
}

fn measured(state: &State, form: &Form) -> Vec<Par> {
    let main = form.fields.iter().find(|field| field.slot == Slot::Main);
    let spec = main.and_then(|field| field.spec);
    spec.map_or_else(Vec::new, |spec| value(state, spec, &form.value(Slot::Main)))
}

fn value(state: &State, spec: &'static EntrySpec, typed: &str) -> Vec<Par> {
    if typed.is_empty() {
        return vec![allowed(state, spec)];
    }
    match spec.read(typed) {
        Ok(value) => {
            let text = both_units(state, &Address::drawn(spec.id), &value);
            let mut pars = vec![Par::tagged(Role::Quiet, "understood:", text)];
            pars.extend(spec.odd(&value, state.system()).map(|odd| Par::tagged(Role::Caution, "caution", odd)));
            pars
        }
        Err(error) => {
            vec![Par::tagged(Role::Refused, "refused", clean(&error.to_string())), allowed(state, spec)]
        }
    }
}

fn allowed(state: &State, spec: &EntrySpec) -> Par {
    Par::tagged(Role::Quiet, "allowed:", spec.allowed(state.system()))
}

fn set(state: &State, id: &str, form: &Form) -> Vec<Par> {
    let Some(spec) = stage::entry(id) else { return Vec::new() };
    let typed = &form.value(Slot::Main);
    if typed.is_empty() {
        return vec![empty(state, spec, id), allowed(state, spec)];
    }
    let mut pars = value(state, spec, typed);
    if !form.is_touched() {
        return pars;
    }
    if let Ok((_, differences)) = state.workbook.preview(id, typed) {
        pars.extend(consequences(state, id, &differences));
    }
    pars
}

fn empty(state: &State, spec: &EntrySpec, id: &str) -> Par {
    if !state.workbook.project().entries.contains_key(id) {
        return Par::new(Role::Quiet, "nothing is typed");
    }
    let then = spec.default.map_or_else(String::new, |default| format!("; {default} is assumed then"));
    Par::tagged(Role::Caution, "nothing is typed:", format!("Enter takes the entry out of the file{then}"))
}

fn consequences(state: &State, id: &str, differences: &Differences) -> Vec<Par> {
    let figures = State::figures_moved(differences);
    let mut pars = Vec::new();
    for flip in &differences.flips {
        pars.push(
            Par::plain(format!("{} would go from ", flip.label))
                .and(super::of_verdict(flip.was), flip.was.word())
                .and(Role::Plain, " to ")
                .and(super::of_verdict(flip.is), flip.is.word()),
        );
    }
    if !differences.stale.is_empty() {
        let text = format!("{} signed steps would need another look", differences.stale.len());
        pars.push(Par::tagged(Role::Stale, "stale", text));
    }
    let cards: Vec<&str> = differences.cards().iter().map(|card| card.title).collect();
    if !cards.is_empty() {
        pars.push(Par::tagged(Role::Quiet, "bench cards:", format!("{} would change", cards.join(", "))));
    }
    if figures == 0 {
        pars.push(Par::plain("no figure would move"));
        return pars;
    }
    pars.push(Par::new(Role::Strong, format!("{} would move, these most:", super::count(figures, "figure"))));
    let later =
        stage::entry(id).is_some_and(|spec| STUDIES.iter().any(|study| study.group.depends().contains(spec.id)));
    if later {
        pars.push(
            Par::new(Role::Quiet, "What takes long to compute, such as the year, follows after Enter.").indented(2),
        );
    }
    let mut named: Vec<&str> = Vec::new();
    for moved in &differences.moved {
        let Some((figure, _)) = stage::figure(&moved.address.id) else { continue };
        let is_row = figure.axis.is_some() && moved.address.id != figure.id;
        if moved.address.id == id || moved.relative().is_none() || named.contains(&figure.id) || is_row {
            continue;
        }
        named.push(figure.id);
        let was = super::sheet::fig_text(state, &moved.address, &moved.was);
        let is = super::sheet::fig_text(state, &moved.address, &moved.is);
        pars.push(Par::plain(format!("{}: {was} -> ", figure.label)).and(Role::Strong, is).indented(2));
        if named.len() == NAMED {
            break;
        }
    }
    pars
}
