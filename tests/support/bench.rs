//! A small project in a fake world: no weather, a fixed day. Tests change single entries of it and look what moves.

use std::sync::Arc;

use jiff::civil::{Date, date};
use sunharp::model::{Address, Reading, Verdict, inputs::Given};
use sunharp::project::Project;
use sunharp::solve::{Evaluation, Snapshot, evaluate};
use sunharp::stage::study::Studies;
use sunharp::stage::{self, World};
use sunharp::units::Kind;
use sunharp::units::si::ZERO_CELSIUS;

/// The day of the fake world.
pub const TODAY: Date = date(2026, 6, 1);

/// One panel whose pane is 1 × 2 m, with every entry of enclosure and safety answered, every recalled limit looked up, and everything measured that is not another stage's.
pub const SMALL: &str = r#"
format = 1

[project]
name = "Small"

[site]
latitude = "36°"
altitude = "0 m"
record_low = "-15 °C"
tilt = "45°"
azimuth = "180°"
premises = "household"
jurisdiction = "county"

[absorber]
riser_count = 9
riser_pitch = "100 mm"
sheet_width = "906 mm"
stub_left = "100 mm"
stub_right = "100 mm"
header_spacing = "1877.425 mm"
riser_tube = "1/2 in type L"
header_tube = "1 in type L"
joint = "tee"
tee_shoulder = "20 mm"
header_filler = "brazed"
solder = "Sn96.5Ag3.5"
bond_width = "6 mm"
sheet_metal = "copper C11000 (ETP)"
sheet_thickness = "10 oz"
absorptance = "95 %"
emittance = "92 %"

[enclosure]
glass = "tempered"
glass_thickness = "4 mm"
glass_bite = "12 mm"
glass_clearance = "4 mm"
air_gap = "25 mm"
insulation = "mineral (rock) wool board C612 IVA"
insulation_limit = "600 °C"
back_thickness = "50 mm"
edge_thickness = "25 mm"
clearance = "10 mm"
back_board = "12 mm"
rail_thickness = "19 mm"
rail_lining = "25 mm"
timber = "Spruce-pine-fir"
glass_pressure = "1000 Pa"
lifters = 6

[plumbing]
loop = "direct"
flow_per_area = "1.2 L/min/m2"
tank = "200 L"
tank_limit = "70 °C"
relief_setting = "6 bar"
weakest_rating = "10 bar"
pipe = "3/4 in type L"
pipe_length = "20 m"

[safety]
coating_limit = "400 °C"
sealant_limit = "250 °C"
hose_limit = "250 °C"
sensor_limit = "250 °C"
mixing_valve_rating = "90 °C"
mixing_valve_setting = "43 °C"
tap_use = "bath"
mixing_valve_class = "at the tap"
tank_limit_lowest = "40 °C"
tank_limit_highest = "80 °C"
circulation = "yes"
frost_passive = "cold valve"
frost_second = "recirculation"
drain_fall = "2 %"
final_stage = "heater"
final_temperature = "60 °C"
shut_in = "no"
fume = "outdoors"
fire_watch = "60 min"
work_height = "3 m"
fall_protection = "guard rail"
second_person = "yes"
rcd_tested = "2026-05-01"
plumber = "A. Pipe, 1"
electrician = "B. Wire, 2"
engineer = "C. Beam, 3"
permit = "4"
joints_session = 12
flux = "chloride"
brazing_filler = "BCuP-5"
treated_timber = "no"
dust_protection = "yes"
torch = "oxy-fuel"
cylinders_secured = "yes"
flashback_arrestors = "yes"
hot_work_clear = "2 m"
torch_shield = "yes"
extinguisher = "yes"
contact_metal = "brass, bronze"
contact_parted = "no"
galvanised_in_loop = "no"
access = "ladder"
ladder_height = "4 m"
ladder_foot = "1 m"
ladder_above = "1 m"
ladder_tied = "yes"
handling_wind = "5 m/s"
roof_holes = 8
roof_flashed = "yes"
roofer = "D. Tile, 5"
bonded_to = "building earth"
isolator = "yes"
pump_dry = "yes"
glass_hands = "two people"
hot_within_reach = "no"
inspector = "E. Look, 6"
inspection_date = "2026-05-20"
permit_date = "2026-03-01"
relief_power = "10 kW"
relief_outlet = "20 mm"
discharge_bore = "20 mm"
discharge_end = "100 mm"
discharge_pipe = "metal"
discharge_falls = "yes"
discharge_free = "yes"
discharge_seen = "yes"
discharge_can = "40 L"
exchanger_walls = "single"
loop_liquid = "food-grade glycol"
exchanger_label = "yes"
potable_pressure = "7 bar"
fill_link = "removed"
backflow_device = "dual check, 2026-05-02"
frost_valve_tested = "2026-05-01"
exchanger_place = "outside"
cold_slug = "bypass"
loop_check_valve = "yes"
final_bypass = "no"

[safety.looked_up]
absorber-bond = "read by the test"
absorber-loss-cross-check = "read by the test"
absorber-transition = "read by the test"
absorber-insertion = "read by the test"
absorber-tube-standards = "read by the test"
absorber-joint-gap = "read by the test"
absorber-ageing = "read by the test"
commissioning-control-settings = "read by the test"
commissioning-power-check = "read by the test"
enclosure-breathing = "read by the test"
enclosure-sealant = "read by the test"
enclosure-glass-seat = "read by the test"
enclosure-lift = "read by the test"
enclosure-wind-on-glass = "read by the test"
enclosure-glass-snow = "read by the test"
enclosure-rail-board = "read by the test"
enclosure-joints = "read by the test"
enclosure-link-room = "read by the test"
enclosure-pane-pressure = "read by the test"
enclosure-lag-fit = "read by the test"
enclosure-flush-limits = "read by the test"
enclosure-rack-stands = "read by the test"
plumbing-air-carrying = "read by the test"
plumbing-flow-range = "read by the test"
plumbing-siphon = "read by the test"
plumbing-natural-flow = "read by the test"
plumbing-inhibitor = "read by the test"
site-water-scale = "read by the test"
site-water-chloride = "read by the test"
site-water-ph = "read by the test"

[safety.wetted.pump]
area = "0.02 m2"
lead = "0.2 %"

[safety.wetted.valve]
area = "0.01 m2"
lead = "0.1 %"

[safety.licence.plumber]
holder = "A. Pipe"
number = "1"
scope = "drinking water"
until = "2027-01-31"

[panel.A]

[reading."safety.harp_open@A".2026-05-01-1]
value = "yes"

[reading."safety.bond_resistance".2026-05-01-1]
value = "0.05 ohm"

[reading."safety.hot_outlet".2026-05-01-1]
value = "55 °C"

[reading."safety.cold_outlet".2026-05-01-1]
value = "15 °C"

[reading."safety.return_temperature".2026-05-01-1]
value = "52 °C"
"#;

/// A project that can be changed entry by entry and solved.
#[derive(Clone)]
pub struct Bench {
    project: Project,
}

impl Bench {
    /// The project of a text, which must be without fault.
    pub fn of(text: &str) -> Self {
        let project = Project::read(text);
        assert!(project.problems.is_empty(), "{:?}", project.problems);
        Self { project }
    }

    /// The project of a text with faults.
    pub fn damaged(text: &str) -> Self {
        Self { project: Project::read(text) }
    }

    /// The project [`SMALL`].
    pub fn small() -> Self {
        Self::of(SMALL)
    }

    /// Types a value for an entry.
    pub fn with(mut self, id: &str, typed: &str) -> Self {
        let value = stage::entry(id).unwrap().read(typed).unwrap_or_else(|error| panic!("{id} = {typed}: {error}"));
        let given = Given { typed: typed.to_owned(), value: Ok(value) };
        self.project.entries.insert(id.to_owned(), given);
        self
    }

    /// Takes an entry out.
    pub fn without(mut self, id: &str) -> Self {
        assert!(self.project.entries.remove(id).is_some(), "{id} was not there");
        self
    }

    /// Whether an entry is answered.
    pub fn has(&self, id: &str) -> bool {
        self.project.entries.contains_key(id)
    }

    /// Records a reading, of a panel if the id ends in `@A`.
    pub fn reading(mut self, of: &str, typed: &str) -> Self {
        let of = Address::parse(of).unwrap();
        let value = stage::entry(&of.id).unwrap().read(typed).unwrap();
        self.project.records.readings.push(Reading {
            key: format!("2026-05-01-{}", self.project.records.readings.len()),
            of,
            date: date(2026, 5, 1),
            typed: typed.to_owned(),
            value: Some(value),
            by: "Test".to_owned(),
            instrument: String::new(),
            note: String::new(),
            withdrawn: None,
        });
        self
    }

    /// Solves the project.
    pub fn evaluate(&self) -> Evaluation {
        evaluate(&self.snapshot())
    }

    /// What is solved.
    pub fn snapshot(&self) -> Snapshot {
        Snapshot {
            entries: Arc::new(self.project.entries.clone()),
            records: Arc::new(self.project.records.clone()),
            panels: self.project.panels.clone(),
            world: World::without_weather(TODAY),
            studies: Studies::default(),
            earlier: None,
        }
    }

    /// A number of the design, SI; temperatures in °C.
    pub fn number(&self, id: &str) -> f64 {
        let quantity = self.evaluate().value(&Address::drawn(id)).unwrap().quantity().unwrap();
        if quantity.kind == Kind::Temperature { quantity.si - ZERO_CELSIUS } else { quantity.si }
    }

    /// The verdict of a check.
    pub fn verdict(&self, check: &str) -> Verdict {
        self.evaluate().verdict(check).unwrap_or_else(|| panic!("no check {check}")).verdict
    }

    /// The part that a check names.
    pub fn part(&self, check: &str) -> String {
        let evaluation = self.evaluate();
        evaluation.verdict(check).unwrap().judgement.clone().unwrap().part.unwrap()
    }
}

/// The argument between two at which a number of the project crosses a target; it must rise or fall all the way.
pub fn crossing(bounds: (f64, f64), id: &str, target: f64, at: impl Fn(f64) -> Bench) -> f64 {
    let (mut low, mut high) = bounds;
    let over = |x: f64| at(x).number(id) > target;
    let rises = over(high);
    assert_ne!(over(low), rises, "{id} does not cross {target} between {low} and {high}");
    for _ in 0..40 {
        let middle = 0.5 * (low + high);
        if over(middle) == rises { high = middle } else { low = middle }
    }
    0.5 * (low + high)
}
