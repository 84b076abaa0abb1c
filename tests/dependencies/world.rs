//! The project from which every entry is changed, and how it is evaluated.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::Arc;

use jiff::civil::date;
use sunharp::climate::Climate;
use sunharp::logger::Log;
use sunharp::model::inputs::Given;
use sunharp::model::{Entries, EntrySpec, Fig, Inputs, PanelLetter, Records, Role, Value, Why};
use sunharp::project::Project;
use sunharp::project::store::RealDisk;
use sunharp::solve::judge::judge_all;
use sunharp::solve::{Evaluation, overlay, solve};
use sunharp::stage::study::{Cancel, STUDIES, Studies};
use sunharp::stage::{self, Solution, World};
use sunharp::units::{Kind, System};
use sunharp::workbook::log::{self, Logs};
use sunharp::workbook::sky::{self, Sky};

use super::perturb::Change;

const SAMPLE: &str = include_str!("../../sample-projects/garden-washroom.toml");
const RICH: &str = include_str!("rich.toml");

/// The name of the first base.
pub const FIRST: &str = "rich";

/// What a variant leaves out.
const WITHOUT: [(&str, &str); 16] = [
    ("clear", "site.weather_file"),
    ("compass", "site.azimuth"),
    ("means", "site.weather_file"),
    ("plain", "plumbing.part."),
    ("plain", "plumbing.run."),
    ("plate", "plumbing.exchanger_effectiveness"),
    ("plate", "plumbing.coil_length"),
    ("plate", "plumbing.coil_tube"),
    ("soldered", "absorber.flux_used"),
    ("soldered", "absorber.hours_used"),
    ("soldered", "absorber.solder_used"),
    ("untested", "commissioning.panel_start"),
    ("glycol", "plumbing.run.suction.barb"),
    ("glycol", "plumbing.run.suction.bore"),
    ("glycol", "plumbing.run.suction.hose"),
    ("glycol", "plumbing.run.suction.rat"),
];

/// Variants that branch off in some stages only, with the stages whose entries are changed there.
const ONLY: [(&str, &[&str]); 18] = [
    ("flush", &["enclosure"]),
    ("ground", &["enclosure"]),
    ("platinum", &["commissioning"]),
    ("clear", &["site"]),
    ("compass", &["site"]),
    ("direct", &["plumbing"]),
    ("fitted", &["plumbing"]),
    ("log", &["plumbing", "commissioning"]),
    ("own", &["commissioning"]),
    ("means", &["site"]),
    ("mild", &["site"]),
    ("on", &["enclosure"]),
    ("rebate", &["enclosure"]),
    ("plain", &["plumbing"]),
    ("plate", &["plumbing"]),
    ("thermosiphon", &["plumbing"]),
    ("soldered", &["absorber"]),
    ("untested", &["plumbing", "commissioning"]),
];

/// Studies that walk whole years; they run for one change only of each entry that they declare.
pub const SLOW: [&str; 5] = ["year", "worst-days", RARE.0, "tilt", "row-shade"];

/// The study that walks a dozen years, and the entries for a change of which alone it is run.
pub const RARE: (&str, [&str; 3]) = ("one-step", ["plumbing.tank", "plumbing.flow_per_area", "materials.*.price"]);

/// One point from which entries are changed.
#[derive(Clone)]
pub struct Base {
    /// Its name in complaints.
    pub name: String,
    entries: Entries,
    measured: Entries,
    repeats: BTreeMap<String, Vec<Value>>,
    panels: Vec<PanelLetter>,
    world: World,
}

/// The rich project, and each of its variants.
pub fn bases() -> Vec<Base> {
    let sample = read(SAMPLE);
    let rich = read(RICH);
    let mut entries = sample.entries;
    entries.extend(rich.entries);
    let panel = PanelLetter::new('A');
    let overlay::Overlay { measured_only: measured, repeats, .. } = overlay::readings(&rich.records, panel);
    let world = World { sky: sky_over(&entries), log: log_over(&entries), today: date(2026, 6, 1) };
    assert!(world.sky.is_ok(), "{:?}", world.sky.err());
    assert!(world.log.is_ok(), "{:?}", world.log.err());
    let base = Base { name: FIRST.to_owned(), entries, measured, repeats, panels: sample.panels, world };
    let base = priced(base);
    let mut bases = vec![base.clone()];
    for (name, overlay) in rich.variants {
        let mut varied = Base { name, ..base.clone() };
        varied.entries.extend(overlay);
        for (_, id) in WITHOUT.iter().filter(|(variant, _)| *variant == varied.name) {
            varied.entries.retain(|known, _| !known.starts_with(id));
            varied.measured.retain(|known, _| !known.starts_with(id));
        }
        varied.world.sky = sky_over(&varied.entries);
        bases.push(varied);
    }
    bases
}

/// How a line of the bill is sold, by what is needed of it, and its price.
const SOLD: [(&str, &str, &[Kind]); 5] = [
    ("length", "8 ft", &[Kind::Length, Kind::Area]),
    ("width", "3 ft", &[Kind::Area]),
    ("mass", "1 lb", &[Kind::Mass]),
    ("volume", "1 gal", &[Kind::Volume]),
    ("price", "12", &[Kind::Length, Kind::Area, Kind::Mass, Kind::Volume, Kind::Count, Kind::Number]),
];

/// The base with a size and a price for every line of the bill that has none: what is worth something hangs on all.
fn priced(mut base: Base) -> Base {
    let lines = base.evaluate_with(None, Studies::default(), |_| false).drawn.bill.lines.clone();
    for line in lines {
        let kind = line.needed.as_ref().map_or(Kind::Number, |needed| needed.kind);
        for (what, typed, _) in SOLD.iter().filter(|(_, _, kinds)| kinds.contains(&kind)) {
            let id = format!("materials.{}.{what}", line.key);
            let value = stage::entry(&id).unwrap().read(typed).unwrap();
            base.entries.entry(id).or_insert(Given { typed: (*typed).to_owned(), value: Ok(value) });
        }
    }
    base
}

fn read(text: &str) -> Project {
    let project = Project::read(text);
    assert!(project.problems.is_empty(), "{:?}", project.problems);
    project
}

fn sky_over(entries: &Entries) -> Fig<Arc<Climate>> {
    let beside = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/dependencies/rich.toml");
    Sky::new(Arc::new(RealDisk), &beside).over(entries)
}

fn is_quick(study: &str) -> bool {
    !SLOW.contains(&study)
}

fn log_over(entries: &Entries) -> Fig<Arc<Log>> {
    let beside = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/dependencies/rich.toml");
    Logs::new(Arc::new(RealDisk), &beside).over(entries)
}

impl Base {
    /// The declared entries that are changed from here.
    pub fn changed(&self) -> Vec<&'static EntrySpec> {
        let only = ONLY.iter().find(|(variant, _)| *variant == self.name).map(|(_, stages)| *stages);
        let stage_of = |spec: &EntrySpec| spec.id.split('.').next().unwrap_or_default();
        let is_changed = |spec: &&&EntrySpec| only.is_none_or(|stages| stages.contains(&stage_of(spec)));
        stage::entries().iter().filter(is_changed).copied().collect()
    }

    /// The ids that a declaration stands for: itself, or the first and the last of its rows.
    pub fn ids_of(&self, spec: &EntrySpec) -> Vec<String> {
        if spec.id.contains('*') {
            let keys = self.inputs().keys(spec);
            let ends: BTreeSet<&String> = keys.first().into_iter().chain(keys.last()).collect();
            ends.into_iter().map(|key| spec.id.replacen('*', key, 1)).collect()
        } else {
            vec![spec.id.to_owned()]
        }
    }

    /// The present value of an entry, assumed ones included.
    pub fn value(&self, id: &str) -> Option<Value> {
        self.inputs().value(id).ok()
    }

    /// The same with one entry changed.
    pub fn with(&self, id: &str, change: Change) -> Self {
        let mut other = self.clone();
        let spec = stage::entry(id).unwrap();
        let entries = if spec.role == Role::Measure { &mut other.measured } else { &mut other.entries };
        let given = match change {
            Change::Out => None,
            Change::Unreadable => Some(Given { typed: "~".to_owned(), value: Err(Why::Invalid(vec![id.to_owned()])) }),
            Change::To(value) => {
                let typed = match &value {
                    Value::Quantity(quantity) => quantity.si.to_string(),
                    other => other.text(System::Si),
                };
                Some(Given { typed, value: Ok(value) })
            }
        };
        if let Some(single) = other.repeats.get_mut(id).and_then(|singles| singles.last_mut())
            && let Some(Given { value: Ok(value), .. }) = &given
        {
            single.clone_from(value);
        }
        match given {
            Some(given) => drop(entries.insert(id.to_owned(), given)),
            None => drop(entries.remove(id)),
        }
        if sky::reads(id) {
            other.world.sky = sky_over(&other.entries);
        }
        if log::reads(id) {
            other.world.log = log_over(&other.entries);
        }
        other
    }

    /// Everything, with all studies run; what has not changed since `earlier` is not computed again.
    pub fn evaluate(&self, earlier: Option<&Solution>) -> Evaluation {
        self.evaluate_with(earlier, Studies::default(), |_| true)
    }

    /// The same after a change of one entry: the rare study is left as it was if the entry is not one of its own.
    pub fn evaluate_after(&self, entry: &str, earlier: &Solution) -> Evaluation {
        let (rare, entries) = RARE;
        let studies = Studies { choices: earlier.studies.choices.clone(), ..Studies::default() };
        self.evaluate_with(Some(earlier), studies, |study| study != rare || entries.contains(&entry))
    }

    /// The same, with slow studies left as they were.
    pub fn evaluate_quickly(&self, earlier: &Solution) -> Evaluation {
        self.evaluate_with(Some(earlier), earlier.studies.clone(), is_quick)
    }

    /// The same, with everything else computed anew.
    pub fn evaluate_fresh(&self, earlier: &Solution) -> Evaluation {
        self.evaluate_with(None, earlier.studies.clone(), is_quick)
    }

    fn evaluate_with(
        &self,
        earlier: Option<&Solution>,
        mut studies: Studies,
        runs: impl Fn(&str) -> bool,
    ) -> Evaluation {
        let mut drawn = solve(self.inputs(), &self.world, &Studies::default(), earlier);
        for study in STUDIES.iter().filter(|study| runs(study.id)) {
            (study.run)(&drawn, &Cancel::default()).unwrap().lay_into(&mut studies);
        }
        drawn.studies = studies; // solving only carries them along
        let verdicts = judge_all(&drawn, &BTreeMap::new(), &Records::default());
        Evaluation { drawn: Arc::new(drawn), built: BTreeMap::new(), verdicts, steps: Vec::new() }
    }

    fn inputs(&self) -> Inputs {
        let inputs = Inputs::resolve(stage::entries(), &self.entries, &self.measured, &self.panels);
        let panel = PanelLetter::new('A').unwrap();
        let of_panels = BTreeMap::from([(panel, self.measured.clone())]);
        inputs.with_repeats(self.repeats.clone()).with_panel_readings(Arc::new(of_panels))
    }
}
