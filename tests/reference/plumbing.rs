//! The loop's laws against cases computed elsewhere: property and fluids libraries, and the published equations
//! carried out in another language. Values printed in handbooks stand in `published`.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test helper that cannot read its case must fail the test")]

mod friction;
mod heat;
mod liquids;
mod plant;
mod published;

use serde_json::Value;
use sunharp::physics::fluid::Properties;
use sunharp::physics::pipe::{DRAWN_TUBE_ROUGHNESS, Run};
use sunharp::units::si::{Dimension, Length, Temperature, VolumeRate, celsius};

const DATA: &str = include_str!("data/plumbing_public.json");
const LITRE_PER_MINUTE: f64 = 1e-3 / 60.0;

/// One case of a group.
struct Case {
    group: &'static str,
    value: Value,
}

fn cases(group: &'static str) -> Vec<Case> {
    let all: Value = serde_json::from_str(DATA).unwrap();
    let list = all[group].as_array().unwrap_or_else(|| panic!("no group {group}"));
    list.iter().map(|value| Case { group, value: value.clone() }).collect()
}

impl Case {
    /// A number by its path, `given.d_m` or `t_c`.
    fn number(&self, path: &str) -> f64 {
        let pointer = format!("/{}", path.replace('.', "/"));
        let found = self.value.pointer(&pointer).and_then(Value::as_f64);
        found.unwrap_or_else(|| panic!("{} has no number {path}", self.group))
    }

    fn text(&self, path: &str) -> &str {
        let pointer = format!("/{}", path.replace('.', "/"));
        self.value.pointer(&pointer).and_then(Value::as_str).unwrap_or_else(|| panic!("{}: {path}", self.group))
    }

    fn given<D: Dimension>(&self, key: &str) -> D {
        D::from_si(self.number(&format!("given.{key}")))
    }

    fn expect(&self, key: &str) -> f64 {
        self.number(&format!("expect.{key}"))
    }

    fn temperature(&self, key: &str) -> Temperature {
        celsius(self.number(&format!("given.{key}")))
    }

    fn litres<D: Dimension>(&self, key: &str) -> D {
        D::from_si(self.number(&format!("given.{key}")) * 1e-3)
    }

    fn bar<D: Dimension>(&self, key: &str) -> D {
        D::from_si(self.number(&format!("given.{key}")) * 1e5)
    }

    fn count(&self, key: &str) -> u32 {
        self.value["given"][key].as_u64().and_then(|count| u32::try_from(count).ok()).unwrap()
    }

    fn flow(&self) -> VolumeRate {
        VolumeRate::from_si(self.number("given.flow_lpm") * LITRE_PER_MINUTE)
    }

    /// The case's own density and viscosity, so that friction is judged apart from properties.
    fn liquid(&self) -> Properties {
        let (density, viscosity) = (self.number("given.rho"), self.number("given.mu"));
        Properties { density, viscosity, specific_heat: 4180.0, conductivity: 0.6 }
    }

    fn near(&self, what: &str, got: f64, want: f64, relative: f64) {
        let close = (got - want).abs() <= relative * want.abs() + 1e-12;
        assert!(close, "{} {}: {what} is {got}, expected {want}", self.group, self.value["name"]);
    }

    fn within(&self, what: &str, got: f64, want: f64, absolute: f64) {
        assert!(
            (got - want).abs() <= absolute,
            "{} {}: {what} is {got}, expected {want}",
            self.group,
            self.value["name"]
        );
    }
}

fn length(metres: f64) -> Length {
    Length::from_si(metres)
}

fn plain_run(case: &Case, bore: &str, metres: f64) -> Run {
    Run {
        bore: case.given(bore),
        length: length(metres),
        roughness: length(DRAWN_TUBE_ROUGHNESS),
        fittings: Vec::new(),
        plain_loss: 0.0,
    }
}
