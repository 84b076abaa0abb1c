//! Which rows, checks and steps a command is about.

use super::failure::Failure;
use super::opening;
use crate::model::Address;
use crate::solve::judge::Judged;
use crate::solve::progress::StepState;
use crate::solve::rows::with_panels;
use crate::solve::{Evaluation, Row};
use crate::stage;
use crate::workbook::Workbook;

/// What was asked for; everything, if nothing was named.
#[derive(Debug, Default)]
pub struct Selection(Vec<Address>);

impl Selection {
    /// Reads what was typed: `ID`, `ID@PANEL`, or the beginning of ids up to a point.
    pub fn of(workbook: &Workbook, typed: &[String]) -> Result<Self, Failure> {
        let wanted = typed.iter().map(|typed| known(workbook, typed)).collect::<Result<_, _>>()?;
        Ok(Self(wanted))
    }

    /// Whether everything is meant.
    pub fn is_all(&self) -> bool {
        self.0.is_empty()
    }

    /// The rows that are meant. Where the panels are not named, a panel's row stands behind the design's if it
    /// differs, or always if `every_panel` is set.
    pub fn rows(&self, evaluation: &Evaluation, every_panel: bool) -> Vec<Row> {
        let all = evaluation.rows();
        if self.is_all() {
            return all.into_iter().flat_map(|row| with_panels(evaluation, &row, every_panel)).collect();
        }
        self.0.iter().flat_map(|wanted| meant(evaluation, &all, wanted, every_panel)).collect()
    }

    /// Whether a check is meant.
    pub fn has_check(&self, judged: &Judged) -> bool {
        self.has(&judged.address)
    }

    /// Whether a step is meant.
    pub fn has_step(&self, state: &StepState) -> bool {
        self.has(&state.address)
    }

    /// Whether an address is meant; what belongs to the whole project is meant with every panel.
    fn has(&self, address: &Address) -> bool {
        let same_panel =
            |wanted: &Address| wanted.panel.is_none() || address.panel.is_none_or(|it| Some(it) == wanted.panel);
        self.is_all() || self.0.iter().any(|wanted| is_or_begins(&wanted.id, &address.id) && same_panel(wanted))
    }
}

fn known(workbook: &Workbook, typed: &str) -> Result<Address, Failure> {
    let address = opening::address(workbook, typed)?;
    let exact = stage::is_measurable(&address.id);
    if exact || opening::every_id().any(|id| is_or_begins(&address.id, id)) {
        Ok(address)
    } else {
        Err(opening::unknown(&address.id))
    }
}

fn is_or_begins(wanted: &str, id: &str) -> bool {
    id.strip_prefix(wanted).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
}

fn meant(evaluation: &Evaluation, all: &[Row], wanted: &Address, every_panel: bool) -> Vec<Row> {
    let mut rows: Vec<Row> = all.iter().filter(|row| is_or_begins(&wanted.id, &row.address.id)).cloned().collect();
    if rows.is_empty() {
        rows.extend(evaluation.row(&Address::drawn(wanted.id.clone())));
    }
    match wanted.panel {
        None => rows.into_iter().flat_map(|row| with_panels(evaluation, &row, every_panel)).collect(),
        Some(panel) => rows.into_iter().filter_map(|row| evaluation.row(&Address::on(row.address.id, panel))).collect(),
    }
}
