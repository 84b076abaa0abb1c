//! Answering a question, and choosing from the menu.

use super::super::command::Act;
use super::super::state::{Answer, Over, State, Want};
use super::{bench, close, files, form, page, variant, write};

/// A command at a question.
pub fn run(state: &mut State, act: Option<Act>) {
    let Some(Over::Question(question)) = state.over.last_mut() else { return };
    let last = question.answers.len().saturating_sub(1);
    match act {
        Some(Act::Down) => question.at = (question.at + 1).min(last),
        Some(Act::Up) => question.at = question.at.saturating_sub(1),
        Some(Act::PageDown) => question.at = last,
        Some(Act::PageUp) => question.at = 0,
        Some(Act::Close) => close(state),
        Some(Act::Follow) => {
            let answer = question.answers.get(question.at).map(|(_, answer)| answer.clone());
            close(state);
            if let Some(answer) = answer {
                take(state, answer);
            }
        }
        _ => {}
    }
}

fn take(state: &mut State, answer: Answer) {
    match answer {
        Answer::Run(act) => page::run(state, act),
        Answer::GoBack => {}
        Answer::SaveAndQuit => {
            files::save(state);
            if !state.workbook.is_dirty() {
                state.want = Some(Want::Quit);
            }
        }
        Answer::QuitWithoutSaving => files::leave_unsaved(state),
        Answer::KeepBeside => form::open_save_beside(state),
        Answer::TakeTheirs => files::take_theirs(state),
        Answer::TakeDraft(draft) => files::take_draft(state, &draft),
        Answer::GiveUpDraft => files::give_up_draft(state),
        Answer::Settle(name, side) => page::settle(state, &name, side),
        Answer::KeepVariant => variant::name(state),
        Answer::Variant(name) => variant::compare(state, name),
        Answer::TakeVariant(name) => variant::take(state, &name),
        Answer::Write(writing) => write::begin_writing(state, writing),
        Answer::ReadBack(address, name) => bench::read_back(state, &address, &name),
        Answer::TakeBack(address, reason) => bench::withdraw(state, &address, &reason),
    }
}
