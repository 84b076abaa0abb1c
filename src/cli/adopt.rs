//! `adopt`: a new project from an old one's design, for another place, and what moved on the way.

use std::path::Path;
use std::sync::Arc;

use super::failure::{Answer, Failure};
use super::{opening, set};
use crate::model::lines::Page;
use crate::model::text::clean;
use crate::project::adopt::{Adopted, adopt as adopted};
use crate::project::store::RealDisk;
use crate::workbook::Workbook;
use crate::workbook::compare::differences;

/// Makes NEW from OLD; `given` are entries of the new place, `ID=VALUE`.
pub fn adopt(old: &Path, new: &Path, given: &[String]) -> Result<Answer, Failure> {
    let (before, notices) = opening::project(old)?;
    let tangled = || Failure::file("this file is written in a way that cannot be taken over by itself");
    let taken = adopted(before.text()).ok_or_else(tangled)?;
    let mut after = Workbook::unsaved(Arc::new(RealDisk), new, taken.text.clone(), opening::today());
    for pair in given {
        let (id, typed) =
            pair.split_once('=').ok_or_else(|| Failure::usage(format!("'{}' is not ID=VALUE", clean(pair))))?;
        let id = set::entry_id(&after, id.trim())?;
        after.set(&id, typed.trim()).map_err(|error| set::refused(&id, &error))?;
    }
    let before = opening::studied(before);
    after.save().map_err(|error| Failure::file(clean(&error.to_string())))?;
    let after = opening::studied(after);
    Ok(Answer { notices, text: told(&before, &after, &taken), code: 0 })
}

fn told(before: &Workbook, after: &Workbook, taken: &Adopted) -> String {
    let mut page = Page::default();
    let entries = &after.project().entries;
    page.fact(0, &format!("{} made; the design is kept.", clean(&after.path().display().to_string())));
    page.fact(
        0,
        &format!("{} records of the old build were left behind: nothing is signed or measured here.", taken.records),
    );
    let open: Vec<&(String, String)> = taken.place.iter().filter(|(id, _)| !entries.contains_key(id)).collect();
    if !open.is_empty() {
        page.subheading("Of the old place, to be found anew");
        for (id, was) in open {
            page.fact(2, &format!("{} (was {})", clean(id), clean(was)));
        }
    }
    page.space();
    let found = differences(before.evaluation(), after.evaluation());
    set::put_moved(&mut page, before.evaluation(), after.evaluation(), &found);
    page.text()
}
