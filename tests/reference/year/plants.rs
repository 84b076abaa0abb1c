//! The plants of `data/year_systems.json` as the program takes them, and their hourly conditions.

use std::sync::OnceLock;

use serde_json::Value;
use sunharp::climate::{Climate, Plane};
use sunharp::physics::draw::DrawProfile;
use sunharp::physics::transposition::SkyModel;
use sunharp::units::si::{Angle, Area, Dimension, HeatCapacity, Temperature, celsius};
use sunharp::year::{
    Auxiliary, Circuit, Collector, Conditions, Control, Exchange, Incidence, Plant, Service, Tank, absorbed_irradiance,
    hourly,
};

const KILOWATT_HOUR: f64 = 3.6e6;

/// One plant of the file.
pub struct System {
    pub value: Value,
}

pub fn systems() -> &'static [System] {
    static ALL: OnceLock<Vec<System>> = OnceLock::new();
    ALL.get_or_init(|| {
        let all: Value = serde_json::from_str(include_str!("../data/year_systems.json")).unwrap();
        all["systems"].as_array().unwrap().iter().map(|value| System { value: value.clone() }).collect()
    })
}

impl System {
    pub fn id(&self) -> &str {
        self.value["id"].as_str().unwrap()
    }

    pub fn number(&self, path: &str) -> f64 {
        let pointer = format!("/{}", path.replace('.', "/"));
        let found = self.value.pointer(&pointer).and_then(Value::as_f64);
        found.unwrap_or_else(|| panic!("{} has no {path}", self.id()))
    }

    fn given<D: Dimension>(&self, path: &str) -> D {
        D::from_si(self.number(&format!("case.{path}")))
    }

    fn degrees(&self, path: &str) -> Temperature {
        celsius(self.number(&format!("case.{path}")))
    }

    fn text(&self, path: &str) -> &str {
        self.value.pointer(&format!("/{}", path.replace('.', "/"))).and_then(Value::as_str).unwrap()
    }

    pub fn plant(&self) -> Plant {
        let area: Area = self.given("collector.area");
        let capacity_rate = self.number("case.loop.mdot") * self.number("case.loop.cp");
        let exchange = match self.text("case.loop.type") {
            "direct" => Exchange::Direct,
            "coil" => Exchange::Coil { effectiveness: self.number("case.loop.eps") },
            other => panic!("no loop {other}"),
        };
        let auxiliary = match self.text("case.aux.mode") {
            "inline" => Auxiliary::Inline,
            "tank_top" => Auxiliary::Element {
                layer: self.number("case.aux.node") as usize,
                set: self.degrees("aux.set"),
                deadband: self.given("aux.deadband"),
                power: self.given("aux.power"),
            },
            other => panic!("no auxiliary {other}"),
        };
        Plant {
            collector: Collector {
                area,
                optical_gain: self.number("case.collector.fr_ta"),
                loss: self.given("collector.fr_ul"),
                heat_removal_factor: self.number("case.collector.fr"),
                capacity: HeatCapacity::from_si(self.number("case.collector.c_eff") * area.si()),
            },
            circuit: Circuit {
                capacity_rate,
                exchange,
                hot_pipe: self.given("loop.ua_hot"),
                cold_pipe: self.given("loop.ua_cold"),
                pump: self.given("loop.pump_w"),
            },
            tank: Tank {
                volume: Dimension::from_si(self.number("case.tank.volume_l") * 1e-3),
                layers: self.number("case.tank.nodes") as usize,
                height: self.given("tank.height_m"),
                loss: self.given("tank.ua"),
                surroundings: self.degrees("tank.t_env"),
                vertical_conductivity: self.given("tank.k_vert"),
                start: self.degrees("tank.t_init"),
            },
            control: Control {
                start: self.given("control.dt_on"),
                stop: self.given("control.dt_off"),
                limit: self.degrees("control.t_max"),
                reset: self.degrees("control.t_reset"),
                lock_out: None,
            },
            auxiliary,
            tap: self.degrees("draw.t_set"),
        }
    }

    fn conditions(&self, irradiance: &[f64], climate: &Climate) -> Vec<Conditions> {
        let profile = match self.text("case.draw.profile") {
            "ashrae" => DrawProfile::Dwelling,
            "ba" => DrawProfile::CombinedUses,
            other => panic!("no profile {other}"),
        };
        let supply = |day: u16| {
            let turn = (f64::from(day) - self.number("case.mains.day_max")) / 365.0;
            celsius(self.number("case.mains.mean") + self.number("case.mains.amp") * turn_cosine(turn))
        };
        let service = Service {
            daily: Dimension::from_si(self.number("case.draw.litres_day") * 1e-3),
            profile: profile.fractions(),
            away: &[],
            supply: &supply,
        };
        hourly(climate, irradiance, &service).unwrap()
    }

    /// Level A: irradiance and air as the reference used them.
    pub fn given_conditions(&self, climate: &Climate) -> Vec<Conditions> {
        let text = match &self.id()[..2] {
            "P1" => include_str!("../data/year_inputs_P1.csv"),
            "P2" => include_str!("../data/year_inputs_P2.csv"),
            _ => include_str!("../data/year_inputs_P3.csv"),
        };
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let rows: Vec<(usize, f64, f64)> = reader.deserialize().map(Result::unwrap).collect();
        let irradiance: Vec<f64> = rows.iter().map(|row| row.1).collect();
        let mut conditions = self.conditions(&irradiance, climate);
        for (hour, row) in conditions.iter_mut().zip(&rows) {
            hour.air = celsius(row.2).si();
        }
        conditions
    }

    /// Level B: from the weather file; also the plane's irradiation, kWh/m².
    pub fn computed_conditions(&self, climate: &Climate) -> (Vec<Conditions>, f64) {
        let angle = |path: &str| Angle::from_si(self.number(path).to_radians());
        let plane = Plane {
            tilt: angle("case.plane.tilt"),
            azimuth: angle("case.plane.azimuth"),
            albedo: self.number("case.plane.albedo").into(),
        };
        let model = match self.text("case.plane.model") {
            "isotropic" => SkyModel::Isotropic,
            "haydavies" => SkyModel::HayDavies,
            other => panic!("no sky {other}"),
        };
        let light = climate.plane(&plane, model);
        let incidence = Incidence::Factor { b0: self.number("case.collector.b0") };
        let irradiance = absorbed_irradiance(light.hours(), plane.tilt, &incidence);
        (self.conditions(&irradiance, climate), light.year_total().si() / KILOWATT_HOUR)
    }
}

fn turn_cosine(turns: f64) -> f64 {
    (turns * std::f64::consts::TAU).cos()
}
