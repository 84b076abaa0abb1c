//! Variants on the screen, and what moves a figure: what is asked for, and what came back.

use super::super::form::{Field, Form, Purpose, Slot};
use super::super::state::{Answer, Over, Question, State, Subject};
use super::super::words;
use super::{changing, form, page};
use crate::model::{Verdict, text::clean};
use crate::stage;
use crate::workbook::desk::{Errand, Found, What};

/// Asks what to do with variants: keep what was changed, compare one, take one over.
pub fn open(state: &mut State) {
    let changed = state.workbook.unsaved_entries().len();
    let mut answers = vec![("back".to_owned(), Answer::GoBack)];
    if changed > 0 {
        let text = format!("keep the {} as a variant", words::count(changed, "unsaved change"));
        answers.push((text, Answer::KeepVariant));
    }
    for name in state.workbook.variants() {
        answers.push((format!("compare the design with '{}'", clean(&name)), Answer::Variant(name.clone())));
        answers.push((format!("make '{}' the design", clean(&name)), Answer::TakeVariant(name)));
    }
    let says = vec![if answers.len() == 1 {
        "A variant is a named set of other values. Change entries first, then keep them here.".to_owned()
    } else {
        "A variant is a named set of other values, kept in the file beside the design.".to_owned()
    }];
    let at = usize::from(answers.len() > 1);
    state.over.push(Over::Question(Question { title: "variants".to_owned(), says, answers, at }));
}

/// Asks for a name.
pub fn name(state: &mut State) {
    if form::refuses_writing(state) {
        return;
    }
    let field = Field::new(Slot::Main, "name", "a short name, such as wide-pitch; the design is then as saved again");
    form::push(state, Form::new(Purpose::Variant, "keep as a variant", vec![field]));
}

/// Keeps what was changed under a name.
pub fn keep(state: &mut State, name: &str) -> bool {
    changing::change(state, format!("variant {name} kept"), |workbook| workbook.keep_variant(name))
}

/// Lays the comparison over the page.
pub fn compare(state: &mut State, name: String) {
    state.errand = Some(Errand::Variant(name.clone()));
    page::push_sheet(state, Subject::Variant(name));
}

/// Makes a variant the design.
pub fn take(state: &mut State, name: &str) {
    if !form::refuses_writing(state) {
        changing::change(state, format!("variant {name} taken over"), |workbook| workbook.take_variant(name));
    }
}

/// Asks what moves the figure of a sheet.
pub fn sway(state: &mut State, subject: &Subject) {
    match subject {
        Subject::Figure(address) if stage::entry(&address.id).is_some() => {
            state.say("an entry is moved by nobody but you; this works on the sheet of a figure");
        }
        Subject::Figure(address) => {
            state.errand = Some(Errand::Sway(address.clone()));
            state.sway = None;
            state.say("every entry it hangs on is moved a little, one after the other; the list grows below");
        }
        _ => state.say("this works on the sheet of a figure"),
    }
}

/// Makes the change that was found to mend the check of a sheet.
pub fn mend(state: &mut State, subject: &Subject) {
    let Subject::Check(check) = subject else { return state.say("this works on the sheet of a check that stops") };
    let Some(mend) = state.mend_of(check).cloned().flatten() else {
        let stops = state.workbook.evaluation().verdict(check).is_some_and(|judged| judged.verdict == Verdict::Stop);
        return state.say(if stops {
            "no change of a number is known that mends this: the line 'do' says what does"
        } else {
            "this check does not stop: there is nothing to mend"
        });
    };
    if form::refuses_writing(state) {
        return;
    }
    changing::change(state, words::mend::label(&mend), |workbook| workbook.apply_mend(&mend));
}

/// Takes what came back, if it is still of this text.
pub fn found(state: &mut State, found: Found) {
    if found.revision != state.workbook.revision() {
        return;
    }
    match found.what {
        What::Sway(sway) => state.sway = Some(sway),
        What::Mend(check, mend) => state.mend = Some((check, found.revision, mend)),
        What::Variant(name, evaluation) => state.variant = Some((name, found.revision, evaluation)),
    }
}
