//! Typing into forms and taking what was typed.

use super::super::command::Act;
use super::super::event::Key;
use super::super::form::{Field, Form, Purpose, Slot};
use super::super::state::{Over, State};
use super::super::words;
use super::{bench, changing, close, files, variant, write};
use crate::model::{Address, EntrySpec, Evidence, PanelLetter, Scope, text::clean};
use crate::stage;
use crate::stage::general::BUILDER;
use crate::workbook::ChangeError;
use crate::workbook::change::{NewReading, NewSignOff};

/// A refused change in plain words.
pub fn refusal(error: &ChangeError) -> String {
    clean(&error.to_string())
}

/// Opens the form of an entry, with a text that was half typed in an earlier session if there is one.
pub fn open_entry(state: &mut State, id: &str, half_typed: Option<&str>) {
    let Some(spec) = stage::entry(id) else { return };
    if refuses_writing(state) {
        return;
    }
    let now = state.workbook.project().entries.get(id).map_or("", |given| given.typed.as_str());
    let mut form = Form::new(Purpose::Set(id.to_owned()), words::label(id), vec![value_field(state, spec, now)]);
    if let Some(typed) = half_typed {
        let field = form.field_mut();
        *field = field.clone().holding(typed);
        field.chosen = 0;
        field.is_fresh = false;
    }
    push(state, form);
}

fn value_field(state: &State, spec: &'static EntrySpec, now: &str) -> Field {
    let hint = format!("allowed: {}", spec.allowed(state.system()));
    Field::new(Slot::Main, "value", hint).of_entry(spec, &clean(now))
}

/// Opens the form of a reading.
pub fn open_reading(state: &mut State, id: &str) {
    let Some(spec) = stage::entry(id) else { return };
    if refuses_writing(state) {
        return;
    }
    let mut fields = vec![value_field(state, spec, ""), who(state)];
    fields.push(Field::new(Slot::Instrument, "with", "what it was measured with; may stay empty"));
    let panels = &state.workbook.project().panels;
    if spec.scope == Scope::Panel {
        if panels.is_empty() {
            state.refuse("this is measured on a panel, and the project has none; add a line [panel.A] to the file");
            return;
        }
        let letters: Vec<(String, String)> = panels.iter().map(|panel| (panel.to_string(), String::new())).collect();
        let now = state.panel.map_or_else(String::new, |panel| panel.to_string());
        fields.push(Field::new(Slot::Panel, "panel", "which panel it was measured on").choosing(letters, &now));
    }
    let title = format!("reading of {}", words::label(id));
    push(state, Form::new(Purpose::Reading(id.to_owned()), title, fields));
}

/// Opens the form of a reading at the bench, for the panel that is worked on; only the value needs to be typed.
pub fn open_reading_here(state: &mut State, spec: &'static EntrySpec, now: &str) {
    if refuses_writing(state) {
        return;
    }
    let panel = if spec.scope == Scope::Panel { state.bench.panel } else { None };
    if spec.scope == Scope::Panel && panel.is_none() {
        state.refuse("this is measured on a panel, and the project has none; add a line [panel.A] to the file");
        return;
    }
    let of = Address { id: spec.id.to_owned(), panel };
    let title = format!("reading of {}{}", words::label(spec.id), words::on_panel(panel));
    let fields = vec![who(state), value_field(state, spec, now)];
    push(state, Form::new(Purpose::ReadingHere(of), title, fields).at_first_gap_or_last());
}

/// The field of who did it, with the builder's name.
pub fn who(state: &State) -> Field {
    let builder = state.workbook.evaluation().drawn.inputs.get(&BUILDER).unwrap_or_default();
    Field::new(Slot::Who, "who", "who did it").holding(&clean(&builder))
}

/// Opens the form that signs a step off, with the name of who read it back if that is known.
pub fn open_sign_off(state: &mut State, address: &Address, read_back_by: &str) {
    let Some(step) = stage::step(&address.id) else { return };
    if refuses_writing(state) {
        return;
    }
    let mut fields = vec![who(state)];
    if step.read_back {
        fields.push(
            Field::new(Slot::ReadBack, "read back by", "a second person who checked it").holding(&clean(read_back_by)),
        );
    }
    match step.evidence {
        Evidence::Tick => {}
        Evidence::Note(prompt) => fields.push(Field::new(Slot::Main, "evidence", prompt)),
        Evidence::Reading(id) => {
            if let Some(spec) = stage::entry(id) {
                let mut field = value_field(state, spec, "");
                field.label = "reading";
                field.hint = format!("{}: {}", spec.label, spec.why);
                fields.push(field);
            }
        }
    }
    let title = format!("sign off: {}", words::detail::step_name(state, address));
    push(state, Form::new(Purpose::SignOff(address.clone()), title, fields).at_first_gap());
}

/// Opens the form that takes a sign-off back.
pub fn open_withdrawal(state: &mut State, address: &Address) {
    if refuses_writing(state) {
        return;
    }
    let title = format!("take back: {}", words::detail::step_name(state, address));
    let reason = Field::new(Slot::Main, "reason", "why the sign-off does not hold");
    push(state, Form::new(Purpose::Withdraw(address.clone()), title, vec![reason]));
}

/// Opens the form that saves the project beside.
pub fn open_save_beside(state: &mut State) {
    let path = state.workbook.path();
    let stem = path.file_stem().map_or_else(|| "project".into(), |stem| stem.to_string_lossy().into_owned());
    let name = path.with_file_name(format!("{stem}-mine.toml"));
    let field = Field::new(Slot::Main, "file", "a name that is not taken").holding(&clean(&name.to_string_lossy()));
    push(state, Form::new(Purpose::SaveBeside, "save under another name", vec![field]));
}

/// Opens a form.
pub fn push(state: &mut State, form: Form) {
    state.over.push(Over::Form(Box::new(form)));
}

/// Whether the project may only be looked at; says so.
pub fn refuses_writing(state: &mut State) -> bool {
    let reason = state.workbook.read_only().map(|reason| clean(&reason.to_string()));
    if let Some(reason) = &reason {
        state.refuse(format!("read-only: {reason}"));
    }
    reason.is_some()
}

/// A key while typing.
pub fn press(state: &mut State, act: Option<Act>, key: Key) {
    let Some(Over::Form(form)) = state.over.last_mut() else { return };
    match act {
        Some(Act::NextField) => form.next(key == Key::Down),
        Some(Act::PreviousField) => form.previous(key == Key::Up),
        Some(Act::Close) => {
            close(state);
            state.say("given up; nothing was changed");
            return;
        }
        Some(Act::Commit) if form.at + 1 < form.fields.len() => form.at += 1,
        Some(Act::Commit) => {
            take(state);
            return;
        }
        _ => {
            form.field_mut().key(key);
        }
    }
    form.echo_is_old = true;
}

/// Takes what was typed; the form stays open if it is refused.
fn take(state: &mut State) {
    let Some(Over::Form(form)) = state.over.pop() else { return };
    let taken = match &form.purpose {
        Purpose::Set(id) => set(state, id, &form),
        Purpose::Reading(id) => {
            let panel = PanelLetter::parse(&form.value(Slot::Panel));
            reading(state, &Address { id: id.clone(), panel }, &form)
        }
        Purpose::ReadingHere(of) => {
            let taken = reading(state, of, &form);
            if taken {
                bench::go_on(state, &of.id);
            }
            taken
        }
        Purpose::SignOff(address) => sign_off(state, address, &form),
        Purpose::Withdraw(address) => withdraw(state, address, &form),
        Purpose::SaveBeside => files::save_beside(state, &form.value(Slot::Main)),
        Purpose::Variant => variant::keep(state, &form.value(Slot::Main)),
        _ => write::take(state, &form),
    };
    if !taken {
        state.over.push(Over::Form(form));
    }
}

fn set(state: &mut State, id: &str, form: &Form) -> bool {
    let typed = form.value(Slot::Main);
    let label = words::label(id);
    if typed.is_empty() {
        let there = state.workbook.project().entries.contains_key(id);
        return !there || changing::change(state, format!("{label} taken out"), |workbook| workbook.unset(id));
    }
    if !form.is_touched() && state.workbook.project().entries.contains_key(id) {
        state.say("as it was; nothing was changed");
        return true;
    }
    changing::change(state, format!("{label} = {typed}"), |workbook| workbook.set(id, &typed))
}

fn reading(state: &mut State, of: &Address, form: &Form) -> bool {
    let typed = form.value(Slot::Main);
    if form.value(Slot::Who).is_empty() {
        state.refuse("say who measured");
        return false;
    }
    if form.fields.iter().any(|field| field.slot == Slot::Panel) && of.panel.is_none() {
        state.refuse("choose the panel it was measured on");
        return false;
    }
    let reading = NewReading {
        typed: typed.clone(),
        by: form.value(Slot::Who),
        instrument: form.value(Slot::Instrument),
        note: String::new(),
    };
    let label = format!("reading of {}{} = {typed}", words::label(&of.id), words::on_panel(of.panel));
    changing::change(state, label, |workbook| workbook.add_reading(of, &reading))
}

fn sign_off(state: &mut State, address: &Address, form: &Form) -> bool {
    let sign_off = NewSignOff {
        by: form.value(Slot::Who),
        read_back_by: form.value(Slot::ReadBack),
        evidence: form.value(Slot::Main),
    };
    let label = format!("signed off: {}", words::detail::step_name(state, address));
    changing::change(state, label, |workbook| workbook.sign_off(address, &sign_off))
}

fn withdraw(state: &mut State, address: &Address, form: &Form) -> bool {
    let reason = form.value(Slot::Main);
    if reason.is_empty() {
        state.refuse("say why the sign-off does not hold");
        return false;
    }
    let label = format!("taken back: {}", words::detail::step_name(state, address));
    changing::change(state, label, |workbook| workbook.withdraw_sign_off(address, &reason))
}

/// Works out anew what the present text would mean.
pub fn settle(state: &mut State) {
    let old = matches!(state.over.last(), Some(Over::Form(form)) if form.echo_is_old);
    if !old {
        return;
    }
    if let Some(Over::Form(mut form)) = state.over.pop() {
        form.echo = words::echo::of(state, &form);
        form.echo_is_old = false;
        state.over.push(Over::Form(form));
    }
}
