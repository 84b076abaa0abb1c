//! The file on the disk and the draft beside it: saving, leaving, changes made elsewhere, work of an earlier session.

use std::path::Path;
use std::sync::Arc;

use super::super::state::{Answer, Over, Question, State, Want};
use super::{changing, form};
use crate::model::text::clean;
use crate::project::draft::Draft;
use crate::project::store::StoreError;

fn ask(state: &mut State, title: &str, says: Vec<String>, answers: Vec<(&str, Answer)>) {
    let answers = answers.into_iter().map(|(words, answer)| (words.to_owned(), answer)).collect();
    state.over.push(Over::Question(Question { title: title.to_owned(), says, answers, at: 0 }));
}

/// Saves the project file.
pub fn save(state: &mut State) {
    if !state.workbook.is_dirty() {
        state.say("nothing to save; the file is as it is shown");
        return;
    }
    let saved = state.workbook.save();
    after_saving(state, saved);
}

/// Saves the project under another name; whether that was done.
pub fn save_beside(state: &mut State, name: &str) -> bool {
    if name.is_empty() {
        state.refuse("type a name for the file");
        return false;
    }
    let saved = state.workbook.save_as(Path::new(name));
    let done = saved.is_ok();
    match saved {
        Err(StoreError::AlreadyThere(_)) => state.refuse("that name is taken; nothing was written"),
        other => after_saving(state, other),
    }
    done
}

fn after_saving(state: &mut State, saved: Result<(), StoreError>) {
    match saved {
        Ok(()) => {
            state.on_disk = true;
            state.setup.demo = false;
            if let Some(drafts) = &state.setup.drafts {
                state.workbook.drop_draft(drafts);
            }
            state.kept = None;
            state.say(format!("saved: {}", clean(&state.workbook.path().display().to_string())));
        }
        Err(StoreError::ChangedElsewhere(_)) => ask_about_change(state),
        Err(StoreError::AlreadyThere(_)) => {
            state.refuse("a file of that name is already there; save under another name");
            form::open_save_beside(state);
        }
        Err(refused) => state.refuse(clean(&refused.to_string())),
    }
}

fn ask_about_change(state: &mut State) {
    let answers = vec![
        ("go back; nothing is written", Answer::GoBack),
        ("keep mine beside, under a new name", Answer::KeepBeside),
        ("take theirs; my unsaved work is lost", Answer::TakeTheirs),
    ];
    let says = vec!["Another program changed the file since it was read. Nothing was written.".to_owned()];
    ask(state, "the file was changed elsewhere", says, answers);
}

/// Reads the file again, giving up what is not saved.
pub fn take_theirs(state: &mut State) {
    let before = Arc::clone(state.workbook.evaluation());
    match state.workbook.take_theirs() {
        Ok(()) => changing::changed(state, before, "the file was read again".to_owned()),
        Err(error) => state.refuse(clean(&error.to_string())),
    }
}

/// Notices a change made elsewhere: takes it if nothing is unsaved, asks otherwise.
pub fn look_at_disk(state: &mut State) {
    if !state.workbook.changed_on_disk() {
        return;
    }
    if state.workbook.is_dirty() || !state.over.is_empty() {
        let asked = matches!(state.over.last(), Some(Over::Question(_)));
        if state.workbook.is_dirty() && !asked {
            ask_about_change(state);
        }
    } else {
        take_theirs(state);
    }
}

/// Leaves, or asks if work would be lost.
pub fn quit(state: &mut State) {
    if state.unsaved().is_none() {
        state.want = Some(Want::Quit);
        return;
    }
    let answers = vec![
        ("save and quit", Answer::SaveAndQuit),
        ("quit without saving; what is unsaved is dropped", Answer::QuitWithoutSaving),
        ("go back", Answer::GoBack),
    ];
    let name = state.workbook.path().file_name().map(|name| clean(&name.to_string_lossy())).unwrap_or_default();
    let typing = state.over.iter().any(|over| matches!(over, Over::Form(form) if form.is_touched()));
    let mut says = vec![format!("There is work that is not saved in {name}.")];
    if typing {
        says.push("What is being typed is not part of it yet.".to_owned());
    }
    ask(state, "quit", says, answers);
}

/// Leaves without saving.
pub fn leave_unsaved(state: &mut State) {
    if let Some(drafts) = &state.setup.drafts {
        state.workbook.drop_draft(drafts);
    }
    state.kept = state.unsaved();
    state.want = Some(Want::Quit);
}

/// Asks about unsaved work of an earlier session.
pub fn ask_about_draft(state: &mut State) {
    let Some(draft) = state.setup.drafts.as_ref().and_then(|drafts| state.workbook.draft(drafts)) else { return };
    state.kept = None;
    let mut says = vec!["An earlier session ended with work on this project that was not saved.".to_owned()];
    if state.workbook.read_only().is_some() {
        return;
    }
    if let Some(field) = &draft.field {
        says.push(format!("'{}' was being typed for {}.", clean(&draft.typed), super::super::words::label(field)));
    }
    let answers = vec![
        ("bring it in; undo takes it out again", Answer::TakeDraft(Box::new(draft))),
        ("give it up", Answer::GiveUpDraft),
        ("decide later; it stays until something else is unsaved", Answer::GoBack),
    ];
    ask(state, "unsaved work", says, answers);
}

/// Takes over the work of an earlier session, the half-typed field included.
pub fn take_draft(state: &mut State, draft: &Draft) {
    if draft.text != state.workbook.text() {
        changing::change(state, "unsaved work brought in".to_owned(), |workbook| workbook.take_draft(&draft.text));
    }
    if let Some(field) = draft.field.as_deref().filter(|_| !draft.typed.is_empty()) {
        form::open_entry(state, field, Some(&draft.typed));
    }
}

/// Drops the work of an earlier session.
pub fn give_up_draft(state: &mut State) {
    if let Some(drafts) = &state.setup.drafts {
        state.workbook.drop_draft(drafts);
    }
    state.say("the unsaved work of the earlier session is gone");
}

/// That the file has faults, in one line.
pub fn faults_in_short(state: &State) -> String {
    let faults = super::super::words::count(state.workbook.project().problems.len(), "fault");
    match state.workbook.read_only() {
        Some(reason) => format!("read-only: {}", clean(&reason.to_string())),
        None => format!("the project file has {faults}; w lists them"),
    }
}
