//! The evaluation: the design as drawn, each panel as built, every verdict and every step's state.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::judge::{Judged, judge_all};
use super::overlay::{self, Overlay};
use super::progress::{StepState, progress};
use crate::model::{Address, Entries, Fig, Inputs, Origin, PanelLetter, Records, Value, Why};
use crate::stage::study::Studies;
use crate::stage::{self, Axis, Solution, World};
use crate::stage::{absorber, commissioning, enclosure, materials, plumbing, safety, site};

/// Everything that an evaluation is computed from.
#[derive(Clone, Debug)]
pub struct Snapshot {
    /// What the builder decided.
    pub entries: Arc<Entries>,
    /// What has happened.
    pub records: Arc<Records>,
    /// The panels being built.
    pub panels: Vec<PanelLetter>,
    /// Sky and date.
    pub world: World,
    /// What the studies have brought back.
    pub studies: Studies,
    /// An earlier solution, so that what has not changed need not be computed again.
    pub earlier: Option<Arc<Solution>>,
}

/// Everything that can be shown about a project.
#[derive(Clone, Debug)]
pub struct Evaluation {
    /// The design as drawn.
    pub drawn: Arc<Solution>,
    /// The panels with readings, as built.
    pub built: BTreeMap<PanelLetter, Solution>,
    /// The verdict of every check, over the design and every panel.
    pub verdicts: Vec<Judged>,
    /// The state of every step, on every panel where it is done for each.
    pub steps: Vec<StepState>,
}

/// One figure or entry with its value, as rows of a page need it.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// What it is.
    pub address: Address,
    /// A short name for people.
    pub label: &'static str,
    /// The value, or why there is none.
    pub value: Fig<Value>,
    /// Where it came from.
    pub origin: Origin,
}

/// Computes everything.
pub fn evaluate(snapshot: &Snapshot) -> Evaluation {
    let project_wide = overlay::readings(&snapshot.records, None);
    let of_panels: BTreeMap<PanelLetter, Overlay> =
        snapshot.panels.iter().map(|panel| (*panel, overlay::readings(&snapshot.records, Some(*panel)))).collect();
    let shared = Arc::new(of_panels.iter().map(|(panel, overlay)| (*panel, overlay.all.clone())).collect());
    let worked = Arc::new(snapshot.records.times());
    let earlier = snapshot.earlier.as_deref();
    let resolve = |readings: &Entries, overlay: &Overlay| {
        Inputs::resolve(stage::entries(), &snapshot.entries, readings, &snapshot.panels)
            .with_repeats(overlay.repeats.clone())
            .with_panel_readings(Arc::clone(&shared))
            .with_log(Arc::clone(&worked))
    };
    let solve_over = |inputs, earlier| solve(inputs, &snapshot.world, &snapshot.studies, earlier);
    let drawn = Arc::new(solve_over(resolve(&project_wide.measured_only, &project_wide), earlier));
    let mut built = BTreeMap::new();
    for (panel, readings) in &of_panels {
        if readings.touches_panel || !project_wide.all.is_empty() {
            built.insert(*panel, solve_over(resolve(&readings.all, readings), Some(&*drawn)));
        }
    }
    let verdicts = judge_all(&drawn, &built, &snapshot.records);
    let steps = progress(&snapshot.records, &snapshot.entries, &snapshot.panels, &verdicts);
    Evaluation { drawn, built, verdicts, steps }
}

/// Solves one set of inputs, stage by stage, in the fixed order.
///
/// Sizes come before heat: harp, box, then the heat balance that needs both. `earlier` spares what has not changed.
pub fn solve(inputs: Inputs, world: &World, studies: &Studies, earlier: Option<&Solution>) -> Solution {
    let site = site::solve(&inputs, world, earlier);
    let harp = absorber::geometry::harp(&inputs);
    let timber_box = enclosure::timber::timber_box(&inputs, &harp);
    let absorber = absorber::solve(&inputs, &site, harp, &timber_box);
    let enclosure = enclosure::solve(&inputs, &absorber, timber_box);
    // What was measured may stand for the drawn panel in the year, so the log comes before the loop.
    let logged = commissioning::logged::solve(&inputs, world, &absorber);
    let plumbing = plumbing::solve(&inputs, &site, &absorber, &enclosure, &logged.fitted);
    let safety = safety::solve(&inputs, &site, &absorber, &plumbing);
    let commissioning = commissioning::solve(&inputs, &absorber, &plumbing, logged);
    let mut solution = Solution {
        inputs,
        solver: solve,
        world: world.clone(),
        studies: studies.clone(),
        site,
        absorber,
        enclosure,
        plumbing,
        safety,
        commissioning,
        bill: materials::Bill::default(),
    };
    solution.bill = materials::bill::bill(&solution);
    solution
}

impl Evaluation {
    /// The solution that an address is read from: the panel as built if it has readings, else the design.
    pub fn solution(&self, panel: Option<PanelLetter>) -> &Solution {
        panel.and_then(|letter| self.built.get(&letter)).unwrap_or(&self.drawn)
    }

    /// The value of any entry or figure.
    pub fn value(&self, address: &Address) -> Fig<Value> {
        let solution = self.solution(address.panel);
        match stage::figure(&address.id) {
            Some((figure, key)) if figure.axis.is_some() == key.is_empty() => Err(Why::missing(address.id.clone())),
            Some((figure, key)) => (figure.read)(solution, key),
            None if stage::entry(&address.id).is_some() => solution.inputs.value(&address.id),
            None => Err(Why::missing(address.id.clone())),
        }
    }

    /// Where the value of any entry or figure came from.
    pub fn origin(&self, address: &Address) -> Origin {
        if stage::figure(&address.id).is_some() {
            return Origin::Result;
        }
        self.solution(address.panel).inputs.origin(&address.id).unwrap_or(Origin::Entry)
    }

    /// The row of any entry or figure; none if nothing is called so.
    pub fn row(&self, address: &Address) -> Option<Row> {
        let label = match stage::figure(&address.id) {
            Some((figure, _)) => figure.label,
            None => stage::entry(&address.id)?.label,
        };
        Some(Row { address: address.clone(), label, value: self.value(address), origin: self.origin(address) })
    }

    /// Every entry and every figure of the design, in the order of the stages; repeated ones row by row.
    pub fn rows(&self) -> Vec<Row> {
        let mut ids: Vec<String> = Vec::new();
        for spec in stage::entries() {
            if spec.id.contains('*') {
                ids.extend(self.drawn.inputs.keys(spec).iter().map(|key| spec.id.replacen('*', key, 1)));
            } else {
                ids.push(spec.id.to_owned());
            }
        }
        for figure in stage::figures() {
            match figure.axis {
                None => ids.push(figure.id.to_owned()),
                Some(axis) => ids.extend(self.keys(axis).iter().map(|key| format!("{}.{key}", figure.id))),
            }
        }
        ids.into_iter().filter_map(|id| self.row(&Address::drawn(id))).collect()
    }

    /// The keys of an axis in this project.
    pub fn keys(&self, axis: Axis) -> Vec<String> {
        let count = match axis {
            Axis::Celsius => return commissioning::sensor::TABLE.iter().map(ToString::to_string).collect(),
            Axis::Material => return self.drawn.bill.lines.iter().map(|line| line.key.clone()).collect(),
            Axis::TestRule => return commissioning::rules::keys(),
            Axis::Case => return plumbing::money::CASES.map(str::to_owned).to_vec(),
            Axis::Link => return enclosure::chain::links(&self.drawn).map(str::to_owned).to_vec(),
            Axis::Mount => enclosure::rack::mounts(&self.drawn).map_or(0, |mounts| mounts.positions.len()),
            Axis::LogDay => commissioning::log_rows::listed_days(&self.drawn),
            Axis::Point => commissioning::log_rows::listed_points(&self.drawn),
            Axis::Upkeep => commissioning::upkeep::TASKS.len(),
            Axis::Month => 12,
            Axis::Hole | Axis::Riser => self.drawn.absorber.harp.as_ref().map_or(0, |harp| harp.holes.len()),
            Axis::Choice => plumbing::year::extreme_rows::choice_count(&self.drawn),
            Axis::RiserBar => absorber::cutting::bars(&self.drawn),
            Axis::HeaderBar => absorber::header_cuts::bars(&self.drawn),
            Axis::Run => self.drawn.plumbing.lines.as_ref().map_or(0, Vec::len),
            Axis::PanelGroup => self.drawn.plumbing.working.panels.as_ref().map_or(0, |row| row.division.flows.len()),
            Axis::Offcut => absorber::offcuts::offcuts(&self.drawn).map_or(0, |offcuts| offcuts.len()),
            Axis::Joint => absorber::joint_log::rows(&self.drawn),
            Axis::Part
            | Axis::DepthLayer
            | Axis::WeepHole
            | Axis::Strip
            | Axis::ScrewLine
            | Axis::Screw
            | Axis::TimberBar
            | Axis::TimberCut
            | Axis::SheetPlan
            | Axis::SheetCut => enclosure::rows_of(&self.drawn, axis),
        };
        (1..=count).map(|key| key.to_string()).collect()
    }

    /// The verdict of one check; of one that is judged for each panel, the worst.
    pub fn verdict(&self, check: &str) -> Option<&Judged> {
        self.verdicts
            .iter()
            .filter(|judged| judged.check.id == check)
            .max_by_key(|judged| (judged.verdict, judged.blocks()))
    }

    /// The verdict of one check for one panel, or the only one.
    pub fn verdict_of(&self, address: &Address) -> Option<&Judged> {
        self.verdicts.iter().find(|judged| judged.address == *address)
    }

    /// The state of one step.
    pub fn step(&self, address: &Address) -> Option<&StepState> {
        self.steps.iter().find(|state| state.address == *address)
    }
}
