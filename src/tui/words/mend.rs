//! The change that mends a check which stops, on the sheet of that check.

use crate::model::{Address, text::clean};
use crate::stage::plumbing::mend::{Candidate, Edit};
use crate::tui::ink::{Par, Role};
use crate::tui::state::{State, Subject};
use crate::workbook::desk::Errand;

/// What is said about it; nothing where no change of the loop could mend the check.
pub fn pars(state: &State, check: &'static str) -> Vec<Par> {
    if state.errand != Some(Errand::Mend(check)) {
        return Vec::new();
    }
    let heading = |text: &'static str| vec![Par::gap(), Par::new(Role::Heading, text)];
    match state.mend_of(check) {
        None if state.workbook.may_mend(check) => heading("the cheapest change that mends it: being looked for ..."),
        None => Vec::new(),
        Some(None) => heading("none of the changes that were tried mends it without another stop"),
        Some(Some(mend)) => {
            let mut pars = heading("the cheapest change that mends it, without another stop (c makes it, u undoes it)");
            pars.extend(mend.edits.iter().map(|edit| {
                let entry = Address::drawn(edit.id.clone());
                Par::plain(words(edit)).indented(2).leading_to(Subject::Figure(entry))
            }));
            pars
        }
    }
}

fn words(edit: &Edit) -> String {
    let label = super::label(&edit.id);
    match &edit.typed {
        Some(typed) => format!("{label}: {}", clean(typed)),
        None => format!("{label}: taken out"),
    }
}

/// What the change is called where it is undone.
pub fn label(mend: &Candidate) -> String {
    mend.edits.iter().map(words).collect::<Vec<_>>().join("; ")
}
