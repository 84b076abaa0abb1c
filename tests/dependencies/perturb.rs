//! The changes that are made to one entry.

use jiff::civil::date;
use sunharp::model::{EntrySpec, Role, Shape, Value};
use sunharp::units::{Kind, Quantity};

/// The most words of a closed list that are tried; of a longer list some are taken from all over it.
const WORDS: usize = 10;

/// One change of an entry.
pub enum Change {
    /// It has this value.
    To(Value),
    /// It is taken out.
    Out,
    /// Something is typed that cannot be read.
    Unreadable,
}

/// The changes that an entry with this value is put through.
pub fn changes(spec: &EntrySpec, now: Option<&Value>) -> Vec<Change> {
    let values: Vec<Value> = match spec.shape {
        Shape::Quantity { kind, hard, usual } => {
            let si = now.and_then(Value::quantity).map(|quantity| quantity.si);
            numbers(kind, hard, usual, si).into_iter().map(|si| Quantity::new(kind, si).into()).collect()
        }
        Shape::Choice(words) => {
            let words = words();
            let step = words.len().div_ceil(WORDS);
            words.iter().step_by(step).map(|(word, _)| Value::Choice((*word).to_owned())).collect()
        }
        Shape::Text if spec.id == "site.weather_file" => {
            vec![Value::Text("../../sample-projects/weather/sand-point-tmy3-reduced.csv".to_owned())]
        }
        Shape::Text => vec![Value::Text("something else".to_owned())],
        Shape::Flag => vec![Value::Flag(true), Value::Flag(false)],
        Shape::Date => vec![Value::Date(date(2025, 2, 3)), Value::Date(date(2031, 8, 9))],
    };
    let mut changes: Vec<Change> = values.into_iter().filter(|value| Some(value) != now).map(Change::To).collect();
    if now.is_some() {
        changes.push(Change::Out);
    }
    // A reading that cannot be read is left out of the overlay.
    if spec.role == Role::Decide {
        changes.push(Change::Unreadable);
    }
    changes
}

/// Leaves one small change of a number, every other word, and taking out.
pub fn only_the_near(changes: &mut Vec<Change>) {
    let mut seen_number = false;
    changes.retain(|change| match change {
        Change::To(Value::Quantity(_)) => !std::mem::replace(&mut seen_number, true),
        Change::To(_) | Change::Out => true,
        Change::Unreadable => false,
    });
}

/// A few percent up and down, and the ends of what is usual, all of them possible.
fn numbers(kind: Kind, hard: (f64, f64), usual: (f64, f64), now: Option<f64>) -> Vec<f64> {
    let middle = |(low, high): (f64, f64)| f64::midpoint(low, high);
    let start = now.or_else(|| [usual, hard].into_iter().map(middle).find(|si| si.is_finite())).unwrap_or(1.0);
    let near = match kind {
        Kind::Count => [start.round() - 1.0, start.round() + 1.0],
        _ if start == 0.0 => [-0.01, 0.01],
        _ => [start * 0.97, start * 1.03],
    };
    let mut numbers: Vec<f64> = near.into_iter().chain([usual.0, usual.1]).collect();
    if now.is_none() {
        numbers.push(start);
    }
    numbers.retain(|si| si.is_finite() && (hard.0..=hard.1).contains(si));
    numbers
}
