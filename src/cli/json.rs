//! JSON for other programs, versioned; docs/json.md describes it. Only what is written there is promised.

use serde::Serialize;

use super::selection::Selection;
use crate::model::{Evidence, Role, Shape, Value, Why, text::clean};
use crate::project::Problem;
use crate::solve::findings::Counts;
use crate::solve::judge::Judged;
use crate::solve::progress::{Standing, StepState};
use crate::solve::rows;
use crate::solve::words::finding;
use crate::solve::{Evaluation, Row};
use crate::stage::{self, general};
use crate::units::{Quantity, System};
use crate::workbook::Workbook;

/// The version of the document; it counts up when something that was promised changes.
const VERSION: u32 = 1;

#[derive(Serialize)]
struct Document {
    version: u32,
    project: Option<String>,
    date: String,
    units: &'static str,
    problems: Vec<ProblemJson>,
    #[serde(skip_serializing_if = "Option::is_none")]
    entries: Option<Vec<RowJson>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    figures: Option<Vec<RowJson>>,
    counts: CountsJson,
    checks: Vec<CheckJson>,
    #[serde(skip_serializing_if = "Option::is_none")]
    steps: Option<Vec<StepJson>>,
}

#[derive(Serialize)]
struct ProblemJson {
    code: &'static str,
    line: usize,
    column: usize,
    text: String,
}

#[derive(Serialize)]
struct RowJson {
    id: String,
    panel: Option<String>,
    label: String,
    stage: &'static str,
    kind: &'static str,
    si: Option<f64>,
    unit: Option<&'static str>,
    text: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    typed: Option<String>,
    origin: Option<&'static str>,
    reason: Option<ReasonJson>,
}

#[derive(Serialize)]
struct ReasonJson {
    code: &'static str,
    text: String,
    ids: Vec<String>,
}

#[derive(Serialize)]
struct NumberJson {
    si: f64,
    unit: &'static str,
    text: String,
}

#[derive(Serialize)]
struct CountsJson {
    stop: usize,
    overruled: usize,
    unknown: usize,
    caution: usize,
    clear: usize,
}

#[derive(Serialize)]
struct CheckJson {
    id: &'static str,
    label: &'static str,
    stage: &'static str,
    severity: &'static str,
    verdict: &'static str,
    panel: Option<String>,
    decided_by: Option<String>,
    found: Option<NumberJson>,
    limit: Option<NumberJson>,
    margin: Option<NumberJson>,
    part: Option<String>,
    does_not_apply: Option<&'static str>,
    reason: Option<ReasonJson>,
    text: String,
    remedy: String,
    blind_to: &'static str,
    ask: &'static str,
    source: &'static str,
    from_memory: &'static str,
    needs: &'static [&'static str],
    can_be_overruled: bool,
    overruled: Option<OverruledJson>,
}

#[derive(Serialize)]
struct OverruledJson {
    date: String,
    by: Vec<String>,
    licensed: String,
    reason: String,
}

#[derive(Serialize)]
struct StepJson {
    id: String,
    panel: Option<String>,
    stage: &'static str,
    title: String,
    detail: String,
    cautions: &'static [&'static str],
    wants: WantsJson,
    read_back: bool,
    licensed: bool,
    standing: &'static str,
    waits_for: Vec<String>,
    held_by: Vec<&'static str>,
    stale: Vec<StaleJson>,
    out_of_order: Vec<OutOfOrderJson>,
    by: Option<String>,
    read_back_by: Option<String>,
    date: Option<String>,
    evidence: Option<String>,
}

#[derive(Serialize)]
struct OutOfOrderJson {
    date: String,
    by: Vec<String>,
    licensed: String,
    reason: String,
    skips: Vec<String>,
}

#[derive(Serialize)]
struct WantsJson {
    sort: &'static str,
    text: &'static str,
}

#[derive(Serialize)]
struct StaleJson {
    id: String,
    was: String,
    is: Option<String>,
}

/// `show --json`.
pub fn document(workbook: &Workbook, selection: &Selection, units: Option<System>) -> String {
    let evaluation = workbook.evaluation();
    let system = units.unwrap_or_else(|| evaluation.system());
    let rows = selection.rows(evaluation, true);
    let (figures, entries): (Vec<&Row>, Vec<&Row>) =
        rows.iter().partition(|row| stage::figure(&row.address.id).is_some());
    let mut document = head(workbook, selection, system);
    document.entries = Some(entries.into_iter().map(|row| row_json(evaluation, row, system)).collect());
    document.figures = Some(figures.into_iter().map(|row| row_json(evaluation, row, system)).collect());
    let steps = evaluation.steps.iter().filter(|state| selection.has_step(state));
    document.steps = Some(steps.map(|state| step_json(evaluation, state, system)).collect());
    printed(&document)
}

/// `check --json`: the same document without entries, figures and steps.
pub fn verdicts(workbook: &Workbook) -> String {
    printed(&head(workbook, &Selection::default(), workbook.evaluation().system()))
}

fn printed(document: &Document) -> String {
    // Strings, numbers and lists only: there is nothing in the document that cannot be written.
    serde_json::to_string_pretty(document).map(|text| text + "\n").unwrap_or_default()
}

fn head(workbook: &Workbook, selection: &Selection, system: System) -> Document {
    let evaluation = workbook.evaluation();
    let checks = evaluation.verdicts.iter().filter(|judged| selection.has_check(judged));
    let Counts { stop, overruled, unknown, caution, clear, .. } = Counts::of(evaluation);
    Document {
        version: VERSION,
        project: evaluation.drawn.inputs.get(&general::NAME).ok().map(|name| clean(&name)),
        date: workbook.today().to_string(),
        units: if system == System::Us { "us" } else { "si" },
        problems: workbook.project().problems.iter().map(problem_json).collect(),
        entries: None,
        figures: None,
        counts: CountsJson { stop, overruled, unknown, caution, clear },
        checks: checks.map(|judged| check_json(evaluation, judged, system)).collect(),
        steps: None,
    }
}

fn problem_json(problem: &Problem) -> ProblemJson {
    ProblemJson {
        code: problem.fault.code(),
        line: problem.place.line,
        column: problem.place.column,
        text: clean(&problem.fault.to_string()),
    }
}

fn row_json(evaluation: &Evaluation, row: &Row, system: System) -> RowJson {
    let value = row.value.as_ref().ok();
    let quantity = value.and_then(Value::quantity);
    let is_entry = stage::figure(&row.address.id).is_none();
    RowJson {
        id: clean(&row.address.id),
        panel: row.address.panel.map(|panel| panel.to_string()),
        label: rows::label(row),
        stage: row.address.id.split('.').next().and_then(stage_word).unwrap_or("project"),
        kind: kind_word(&row.address.id),
        si: quantity.map(|quantity| quantity.si),
        unit: quantity.map(|quantity| quantity.kind.si_unit()),
        text: value.map(|value| evaluation.value_text(&row.address, value, system)),
        typed: rows::typed(evaluation, &row.address).filter(|_| is_entry),
        origin: value.map(|_| row.origin.word()),
        reason: row.value.as_ref().err().map(reason_json),
    }
}

fn stage_word(first: &str) -> Option<&'static str> {
    crate::model::Stage::of_id(first).map(crate::model::Stage::word)
}

fn kind_word(id: &str) -> &'static str {
    if let Some((figure, _)) = stage::figure(id) {
        return figure.kind.map_or("words", super::tables::noun);
    }
    match stage::entry(id) {
        Some(spec) if spec.role == Role::Measure || !matches!(spec.shape, Shape::Text) => {
            super::tables::shape(spec.shape)
        }
        _ => "words",
    }
}

fn reason_json(why: &Why) -> ReasonJson {
    let (code, ids) = match why {
        Why::Missing(ids) => ("missing", ids.as_slice()),
        Why::Invalid(ids) => ("invalid", ids.as_slice()),
        Why::OutOfRange(_) => ("out-of-range", [].as_slice()),
        Why::Pending => ("pending", [].as_slice()),
    };
    ReasonJson { code, text: clean(&why.to_string()), ids: ids.iter().map(|id| clean(id)).collect() }
}

fn number_json(quantity: Quantity, system: System) -> NumberJson {
    NumberJson { si: quantity.si, unit: quantity.kind.si_unit(), text: quantity.text(system) }
}

fn check_json(evaluation: &Evaluation, judged: &Judged, system: System) -> CheckJson {
    let check = judged.check;
    let judgement = judged.judgement.as_ref().ok();
    let number = |quantity: Option<Quantity>| {
        quantity.map(|quantity| NumberJson { text: finding(check, quantity, system), ..number_json(quantity, system) })
    };
    CheckJson {
        id: check.id,
        label: check.label,
        stage: check.stage().word(),
        severity: check.severity.word(),
        verdict: judged.verdict.word(),
        panel: judged.address.panel.map(|panel| panel.to_string()),
        decided_by: judged.panel.map(|panel| panel.to_string()),
        found: number(judgement.and_then(|judgement| judgement.found)),
        limit: number(judgement.and_then(|judgement| judgement.limit)),
        margin: number(judgement.and_then(|judgement| judgement.margin)),
        part: judgement.and_then(|judgement| judgement.part.as_deref()).map(clean),
        does_not_apply: judgement.and_then(|judgement| judgement.does_not_apply),
        reason: judged.judgement.as_ref().err().map(reason_json),
        text: judgement.map_or_else(String::new, |_| evaluation.says(judged, system)),
        remedy: judgement.map_or_else(String::new, |_| evaluation.remedy(judged, system)),
        blind_to: check.blind_to,
        ask: check.ask,
        source: check.source,
        from_memory: check.recalled,
        needs: check.needs,
        can_be_overruled: check.can_be_overruled,
        overruled: judged.overruled.as_ref().map(|record| OverruledJson {
            date: record.date.to_string(),
            by: record.by.iter().map(|name| clean(name)).collect(),
            licensed: clean(&record.licensed),
            reason: clean(&record.reason),
        }),
    }
}

fn out_of_order_json(record: &crate::model::Override) -> OutOfOrderJson {
    OutOfOrderJson {
        date: record.date.to_string(),
        by: record.by.iter().map(|name| clean(name)).collect(),
        licensed: clean(&record.licensed),
        reason: clean(&record.reason),
        skips: record.skips.iter().map(ToString::to_string).collect(),
    }
}

fn step_json(evaluation: &Evaluation, state: &StepState, system: System) -> StepJson {
    let step = state.step;
    let panel = state.address.panel;
    let (waits_for, held_by, stale) = match &state.standing {
        Standing::Waiting(first) => (first.iter().map(ToString::to_string).collect(), Vec::new(), Vec::new()),
        Standing::Held(checks) => (Vec::new(), checks.clone(), Vec::new()),
        Standing::Stale(_, changed) => {
            let stale = |change: &crate::solve::progress::Changed| StaleJson {
                id: clean(&change.id),
                was: clean(&change.was),
                is: change.is.as_deref().map(clean),
            };
            (Vec::new(), Vec::new(), changed.iter().map(stale).collect())
        }
        Standing::Done(_) | Standing::Open => (Vec::new(), Vec::new(), Vec::new()),
    };
    let signed = match &state.standing {
        Standing::Done(sign_off) | Standing::Stale(sign_off, _) => Some(sign_off),
        _ => None,
    };
    let (sort, text) = match step.evidence {
        Evidence::Tick => ("tick", ""),
        Evidence::Note(words) => ("note", words),
        Evidence::Reading(id) => ("reading", id),
    };
    StepJson {
        id: state.address.id.clone(),
        panel: panel.map(|panel| panel.to_string()),
        stage: step.stage.word(),
        title: evaluation.fill(step.title, panel, system),
        detail: evaluation.fill(step.detail, panel, system),
        cautions: step.cautions,
        wants: WantsJson { sort, text },
        read_back: step.read_back,
        licensed: step.licensed,
        standing: state.standing.word(),
        waits_for,
        held_by,
        stale,
        out_of_order: state.out_of_order.iter().map(out_of_order_json).collect(),
        by: signed.map(|record| clean(&record.by)),
        read_back_by: signed.map(|record| clean(&record.read_back_by)).filter(|name| !name.is_empty()),
        date: signed.map(|record| record.date.to_string()),
        evidence: signed.map(|record| clean(&record.evidence)).filter(|text| !text.is_empty()),
    }
}
