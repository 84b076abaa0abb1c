//! What can be done today: for the project and for each panel the steps that are open, stale and held; what is most
//! urgent, and what the most figures wait for.

use std::collections::{BTreeMap, BTreeSet};

use crate::model::{Address, Condition, Evidence, PanelLetter, Records, Step, Verdict, Why};
use crate::solve::Evaluation;
use crate::solve::judge::Judged;
use crate::solve::progress::Standing;
use crate::stage;
use crate::stage::commissioning::upkeep::{Task, due_today};

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
    /// What the calendar of the finished plant asks for today.
    pub due: Vec<&'static Task>,
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
                plot.open.push(Job { step: state.address.clone(), needs: needs(state.step, &state.address, records) });
            }
            Standing::Done(_) => plot.done += 1,
            Standing::Stale(..) => plot.stale.push(state.address.clone()),
            Standing::Held(_) => plot.held.push(state.address.clone()),
            Standing::Waiting(_) => plot.waiting += 1,
        }
    }
    let whole = plots.remove(&None);
    let urgent = urgent(evaluation);
    let count = |wanted: Verdict| urgent.iter().filter(|(_, verdict)| *verdict == wanted).count();
    Today {
        plots: plots.into_values().chain(whole).collect(),
        stops: count(Verdict::Stop),
        unknowns: count(Verdict::Unknown),
        urgent,
        due: due_today(&evaluation.drawn),
        missing: missing(evaluation),
    }
}

fn needs(step: &Step, address: &Address, records: &Records) -> Vec<Need> {
    let mut needs = Vec::new();
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
