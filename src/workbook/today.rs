//! What can be done today: for the project and for each panel the steps that are open, stale and held; what is most
//! urgent, and what the most figures wait for.

use std::collections::{BTreeMap, BTreeSet};

use jiff::Span;
use jiff::civil::Date;

use crate::model::{Address, Condition, Evidence, PanelLetter, Records, Step, Verdict, Why};
use crate::solve::Evaluation;
use crate::solve::findings::Counts;
use crate::solve::judge::Judged;
use crate::solve::progress::{Standing, StepState, required};
use crate::stage;
use crate::stage::commissioning::upkeep::{self, Task};

/// What a step wants beside hands.
#[derive(Clone, Debug, PartialEq)]
pub enum Need {
    /// A second person who reads it back.
    SecondPerson,
    /// Usually the work of a licensed person, or under a permit.
    LicensedPerson,
    /// What it wants of the place and the weather.
    Place(Condition),
    /// Something that is measured, by its name.
    Measuring(&'static str),
    /// A few words as evidence.
    Note,
    /// What was done before cures until this day.
    Cured(Date),
    /// What was done before cures for a time that nobody has entered; the figure that wants it.
    CureTime(&'static str),
    /// So many seconds, as on these panels.
    Time(f64, Vec<PanelLetter>),
}

impl Need {
    /// In a few words.
    pub fn words(&self) -> String {
        match self {
            Self::SecondPerson => "second person".to_owned(),
            Self::LicensedPerson => "licensed person: ask".to_owned(),
            Self::Place(condition) => condition.words().to_owned(),
            Self::Measuring(what) => format!("measure {what}"),
            Self::Note => "a note".to_owned(),
            Self::Cured(day) => format!("cure: not before {day}"),
            Self::CureTime(figure) => {
                let label = stage::figure(figure).map_or(*figure, |(figure, _)| figure.label);
                format!("cure: {label} is unknown")
            }
            Self::Time(seconds, panels) => {
                let panels: Vec<String> = panels.iter().map(ToString::to_string).collect();
                format!("about {} as on {}", hours(*seconds), panels.join(", "))
            }
        }
    }
}

/// A time of work, in minutes below two hours.
pub fn hours(seconds: f64) -> String {
    const SHORT: f64 = 7200.0;
    if seconds < SHORT { format!("{:.0} min", seconds / 60.0) } else { format!("{:.1} h", seconds / 3600.0) }
}

/// One step that can be done now.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// The step.
    pub step: Address,
    /// What it wants.
    pub needs: Vec<Need>,
}

/// How far the project, or one panel, is.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Plot {
    /// The panel; none for what is done once for the project.
    pub panel: Option<PanelLetter>,
    /// What can be done now.
    pub open: Vec<Job>,
    /// What was signed before something it relied on was changed.
    pub stale: Vec<Address>,
    /// What a stop holds.
    pub held: Vec<Address>,
    /// How many wait for others.
    pub waiting: usize,
    /// How many are done.
    pub done: usize,
    /// How many there are.
    pub all: usize,
}

/// The day's work.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Today {
    /// The panels, then the project.
    pub plots: Vec<Plot>,
    /// How many checks say stop and nobody has overruled them.
    pub stops: usize,
    /// How many cannot be judged.
    pub unknowns: usize,
    /// The stops, then the unknowns, what can hurt most first.
    pub urgent: Vec<(&'static str, Verdict)>,
    /// The tasks of the calendar whose day has come, with that day.
    pub due: Vec<(&'static Task, Date)>,
    /// The entries that are missing, with how many figures and checks wait for each, the most wanted first.
    pub missing: Vec<(String, usize)>,
}

/// What can be done, by the state of everything.
pub fn today(evaluation: &Evaluation, records: &Records) -> Today {
    let mut plots: BTreeMap<Option<PanelLetter>, Plot> = BTreeMap::new();
    for state in &evaluation.steps {
        let panel = state.address.panel;
        let plot = plots.entry(panel).or_insert_with(|| Plot { panel, ..Plot::default() });
        plot.all += 1;
        match &state.standing {
            Standing::Open => {
                plot.open.push(Job { step: state.address.clone(), needs: needs(evaluation, state, records) });
            }
            Standing::Done(_) => plot.done += 1,
            Standing::Stale(..) => plot.stale.push(state.address.clone()),
            Standing::Held(_) => plot.held.push(state.address.clone()),
            Standing::Waiting(_) => plot.waiting += 1,
        }
    }
    let whole = plots.remove(&None);
    let urgent = urgent(evaluation);
    let counts = Counts::of(evaluation);
    Today {
        plots: plots.into_values().chain(whole).collect(),
        stops: counts.stop,
        unknowns: counts.unknown,
        urgent,
        due: upkeep::due_today(&evaluation.drawn).unwrap_or_default(),
        missing: missing(evaluation),
    }
}

fn needs(evaluation: &Evaluation, of: &StepState, records: &Records) -> Vec<Need> {
    let StepState { step, address, .. } = of;
    let mut needs = cures(evaluation, step, address, records);
    if step.read_back {
        needs.push(Need::SecondPerson);
    }
    if step.licensed {
        needs.push(Need::LicensedPerson);
    }
    needs.extend(step.conditions.iter().copied().map(Need::Place));
    match step.evidence {
        Evidence::Tick => {}
        Evidence::Note(_) => needs.push(Need::Note),
        Evidence::Reading(id) => needs.push(Need::Measuring(stage::entry(id).map_or(id, |spec| spec.label))),
    }
    needs.extend(records.taken_elsewhere(address).map(|(time, panels)| Need::Time(time, panels)));
    needs
}

/// What the steps before left to cure, if it is not over yet.
fn cures(evaluation: &Evaluation, step: &Step, address: &Address, records: &Records) -> Vec<Need> {
    const DAY: f64 = 86_400.0;
    let panels = evaluation.drawn.inputs.panels();
    let mut needs = Vec::new();
    for before in step.after.iter().filter_map(|id| stage::step(id)) {
        let Some(figure) = before.cures else { continue };
        let signed = required(before, address, panels).iter().filter_map(|of| Some(records.sign_off(of)?.date)).max();
        let Some(signed) = signed else { continue };
        match evaluation.value(&Address::drawn(figure)) {
            Ok(value) => {
                let days = value.quantity().map_or(0.0, |time| time.si / DAY).ceil();
                // A cure is at most sixty days, by the bounds of its entry.
                #[allow(clippy::cast_possible_truncation)]
                let until = signed.saturating_add(Span::new().days(days as i64));
                if until > evaluation.drawn.world.today {
                    needs.push(Need::Cured(until));
                }
            }
            Err(_) => needs.push(Need::CureTime(figure)),
        }
    }
    needs
}

fn urgent(evaluation: &Evaluation) -> Vec<(&'static str, Verdict)> {
    let open = |judged: &&Judged| judged.blocks() || judged.verdict == Verdict::Unknown;
    let mut found: Vec<&Judged> = evaluation.verdicts.iter().filter(open).collect();
    found.sort_by_key(|judged| std::cmp::Reverse((judged.verdict, judged.check.severity)));
    let mut seen = BTreeSet::new();
    let each = found.into_iter().filter(|judged| seen.insert(judged.check.id));
    each.map(|judged| (judged.check.id, judged.verdict)).collect()
}

fn missing(evaluation: &Evaluation) -> Vec<(String, usize)> {
    let mut waiting: BTreeMap<String, BTreeSet<&'static str>> = BTreeMap::new();
    let mut note = |why: &Why, who: &'static str| {
        if let Why::Missing(ids) = why {
            for id in ids.iter().filter(|id| stage::entry(id).is_some()) {
                waiting.entry(id.clone()).or_default().insert(who);
            }
        }
    };
    for figure in stage::figures() {
        let first = figure.axis.and_then(|axis| evaluation.keys(axis).into_iter().next());
        let id = first.map_or_else(|| figure.id.to_owned(), |key| format!("{}.{key}", figure.id));
        if let Err(why) = evaluation.value(&Address::drawn(id)) {
            note(&why, figure.id);
        }
    }
    for judged in &evaluation.verdicts {
        if let Err(why) = &judged.judgement {
            note(why, judged.check.id);
        }
    }
    let mut counted: Vec<(String, usize)> = waiting.into_iter().map(|(id, who)| (id, who.len())).collect();
    counted.sort_by(|(a, more), (b, less)| less.cmp(more).then_with(|| a.cmp(b)));
    counted
}
