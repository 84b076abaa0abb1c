//! `check`: the verdicts alone, for people and for scripts.

use std::path::Path;

use super::failure::{Answer, Failure, STOP};
use super::verdicts::{put_check, put_register};
use super::{json, opening};
use crate::model::lines::Page;
use crate::model::{Verdict, text::clean};
use crate::solve::findings::Counts;
use crate::stage::safety::questions::LAST_WORD;

/// Judges a project. A fault in the file counts as a stop, with `strict` an unknown does as well.
pub fn check(file: &Path, strict: bool, as_json: bool) -> Result<Answer, Failure> {
    let (workbook, notices) = opening::project(file)?;
    let workbook = opening::studied(workbook);
    let evaluation = workbook.evaluation();
    let counts = Counts::of(evaluation);
    let faulty = !workbook.project().problems.is_empty();
    let stops = counts.stop > 0 || faulty || strict && counts.unknown > 0;
    let text = if as_json {
        json::verdicts(&workbook)
    } else {
        let mut page = Page::default();
        page.fact(0, &format!("{}: {}", clean(&file.display().to_string()), counts.text()));
        put_register(&mut page, evaluation);
        page.subheading("Checks");
        for verdict in [Verdict::Stop, Verdict::Unknown, Verdict::Caution, Verdict::Clear] {
            for judged in evaluation.verdicts.iter().filter(|judged| judged.verdict == verdict) {
                put_check(&mut page, evaluation, judged, evaluation.system());
            }
        }
        page.space();
        page.fact(0, LAST_WORD);
        page.text()
    };
    Ok(Answer { notices, text, code: if stops { STOP } else { 0 } })
}
