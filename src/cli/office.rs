//! `questions` and `labels`: pages to take to the office and to hang up.

use std::path::Path;

use jiff::civil::Date;

use super::failure::{Answer, Failure};
use super::opening;
use crate::model::lines::Page;
use crate::model::{Address, text::clean};
use crate::solve::Evaluation;
use crate::solve::words::GAP;
use crate::stage;
use crate::stage::safety::labels::{LABELS, READ_BACKS};
use crate::stage::safety::questions::{LAST_WORD, QUESTIONS};

/// A line to write on.
const BLANK: &str = "________";

/// The questions for the office, each with what was answered so far.
pub fn questions(file: &Path) -> Result<Answer, Failure> {
    let (workbook, notices) = opening::project(file)?;
    let workbook = opening::studied(workbook);
    Ok(Answer { notices, text: questions_of(workbook.evaluation(), workbook.today()).text(), code: 0 })
}

/// The emergency card, the labels and what is read back.
pub fn labels(file: &Path) -> Result<Answer, Failure> {
    let (workbook, notices) = opening::project(file)?;
    let workbook = opening::studied(workbook);
    Ok(Answer { notices, text: labels_of(workbook.evaluation()).text(), code: 0 })
}

/// The questions as a page.
pub fn questions_of(evaluation: &Evaluation, today: Date) -> Page {
    let fill = |text: &str| evaluation.fill(text, None, evaluation.system());
    let mut page = Page::default();
    page.heading(&fill("Questions for the office: {project.name}"));
    page.fact(0, &fill("Jurisdiction: {site.jurisdiction}. Permit: {safety.permit}, given {safety.permit_date}."));
    let inspection = fill("Inspector: {safety.inspector}, on {safety.inspection_date}.");
    page.fact(0, &format!("{inspection} Printed {today}."));
    page.fact(0, LAST_WORD);
    page.fact(0, "A ? is not known yet. Keep an answer with: sunharp set FILE safety.answer.KEY 'who said what, when'");
    for question in QUESTIONS {
        page.space();
        page.fact(0, &format!("{}: ask the {}", question.key, question.whom));
        page.fact(2, &fill(question.text));
        let address = Address::drawn(format!("safety.answer.{}", question.key));
        let said = match evaluation.value(&address) {
            Ok(_) => evaluation.text(&address, evaluation.system()),
            Err(_) => "not asked yet".to_owned(),
        };
        page.named(2, "Answer", &said);
    }
    page.space();
    page.subheading("Licences");
    let rows = evaluation.drawn.inputs.rows("safety.licence");
    if rows.is_empty() {
        page.fact(2, "none entered");
    }
    for row in rows {
        let field = |name: &str| fill(&format!("{{safety.licence.{row}.{name}}}"));
        page.fact(
            2,
            &format!(
                "{}: {}, number {}, for {}, until {}",
                clean(&row),
                field("holder"),
                field("number"),
                field("scope"),
                field("until")
            ),
        );
    }
    page
}

/// What is printed to hang up gets a line to write on where a number or a name is not known.
fn with_blanks(text: &str) -> String {
    let mut shown = String::with_capacity(text.len());
    for (place, word) in text.split(' ').enumerate() {
        if place > 0 {
            shown.push(' ');
        }
        let bare = word.trim_end_matches(['.', ',', ';', ':']);
        match word.strip_prefix(GAP) {
            Some(end) if bare == GAP => {
                shown.push_str(BLANK);
                shown.push_str(end);
            }
            _ => shown.push_str(word),
        }
    }
    shown
}

/// Card, labels and what is read back as a page.
pub fn labels_of(evaluation: &Evaluation) -> Page {
    let fill = |text: &str| evaluation.fill(text, None, evaluation.system());
    let mut page = Page::default();
    page.fact(0, LAST_WORD);
    for label in LABELS {
        page.heading(label.title);
        page.fact(0, &format!("Hangs {}.", label.hangs));
        page.space();
        for line in label.lines {
            page.fact(0, &with_blanks(&fill(line)));
        }
    }
    page.heading("Read back by a second person before the step is done");
    for text in &READ_BACKS {
        page.space();
        let title = stage::step(text.step).map_or("", |step| step.title);
        page.fact(0, &format!("{} ({})", fill(title), text.step));
        for line in text.lines {
            page.fact(2, &format!("- {}", fill(line)));
        }
    }
    page.space();
    page.fact(0, LAST_WORD);
    page
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_known_gets_a_line_to_write_on_and_a_question_stays_one() {
        assert_eq!(
            with_blanks("Plumber: ?. Protection: ? and ?; whose?"),
            format!("Plumber: {BLANK}. Protection: {BLANK} and {BLANK}; whose?")
        );
    }
}
