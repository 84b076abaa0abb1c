//! The calendar after hand-over: what is due when, counted from the day of commissioning or from when it was last done.

use jiff::Span;
use jiff::civil::Date;

use crate::model::text::clean;
use crate::model::{Entry, EntrySpec, Fig, Inputs, Judgement, Value, Verdict, Why};
use crate::stage::{Axis, Check, Figure, Group, Severity, Solution};
use crate::units::Kind::Count;
use crate::units::Quantity;

/// The day of commissioning.
pub static COMMISSIONED: Entry<Date> = Entry::date("commissioning.commissioned", "day of commissioning")
    .why("the day on which the last proof passed; the calendar counts from it");

/// The day on which a task was last done.
pub static DONE: Entry<Date> = Entry::date("commissioning.upkeep.*", "last done")
    .why("the row's key is the task's name, such as yearly; kept when the task has been done");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[&COMMISSIONED.spec, &DONE.spec];

/// When a task comes round.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Round {
    /// Every so many days, in the first month only.
    FirstMonth(i16),
    /// Every so many months.
    Months(i16),
    /// On the first of April and of October.
    Seasons,
}

/// One task of the calendar.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Task {
    /// Its name, the key of [`DONE`].
    pub name: &'static str,
    /// What is done.
    pub what: &'static str,
    round: Round,
}

const fn task(name: &'static str, round: Round, what: &'static str) -> Task {
    Task { name, what, round }
}

/// The tasks, the most frequent first. Intervals: navy manual where it gives one, else project rules; anode and glycol
/// from memory.
pub static TASKS: [Task; 11] = [
    task(
        "weekly",
        Round::FirstMonth(7),
        "pressure cold, leaks, rise over the panels, litres in the relief valve's can",
    ),
    task("monthly", Round::Months(1), "log read, pressure cold written with its temperature"),
    task("quarterly", Round::Months(3), "glass washed cool with 10 % vinegar in water, weep holes open"),
    task("season", Round::Seasons, "frost devices, bonds, anchors, insulation jacket, before cold and before heat"),
    task(
        "yearly-liquid",
        Round::Months(12),
        "liquid: share, freezing point, pH; vessel's precharge with the loop empty",
    ),
    task(
        "yearly-proofs",
        Round::Months(12),
        "relief valve lifted, mixing valve cold-fail, earth-fault button, valves moved",
    ),
    task("yearly-points", Round::Months(12), "sensors in ice, three performance points beside the first ones"),
    task("anode", Round::Months(24), "anode of the tank looked at, tank flushed; later by its wear"),
    task("glycol", Round::Months(48), "glycol changed if pH or colour says so, and after a week of stagnation"),
    task("open-panel", Round::Months(60), "one panel opened: colour of the wood, solder line, paint"),
    task("hoses", Round::Months(120), "hoses and seals changed, every anchor tightened again"),
];

static CALENDAR: Group =
    Group { name: "calendar", entries: &["commissioning.commissioned", "commissioning.upkeep.*"], groups: &[] };

fn later(day: Date, span: Span) -> Fig<Date> {
    day.checked_add(span).map_err(|_| Why::out_of_range("the calendar ends before this task is due"))
}

impl Task {
    /// The day it is due next; none if it never comes again.
    fn due(&self, inputs: &Inputs) -> Fig<Option<Date>> {
        let begun = inputs.get(&COMMISSIONED)?;
        let last = match inputs.at(&DONE, self.name) {
            Ok(done) => done.max(begun),
            Err(Why::Missing(_)) => begun,
            Err(why) => return Err(why),
        };
        match self.round {
            Round::FirstMonth(days) => {
                let next = later(last, Span::new().days(days))?;
                Ok((next <= later(begun, Span::new().days(30))?).then_some(next))
            }
            Round::Months(months) => later(last, Span::new().months(months)).map(Some),
            Round::Seasons => season(last).map(Some),
        }
    }
}

/// The first of April or of October after a day.
fn season(last: Date) -> Fig<Date> {
    let year = last.year();
    let turns = [Date::new(year, 4, 1), Date::new(year, 10, 1), Date::new(year.saturating_add(1), 4, 1)];
    let next = turns.into_iter().filter_map(Result::ok).find(|turn| *turn > last);
    next.ok_or_else(|| Why::out_of_range("the calendar ends before this task is due"))
}

/// The tasks whose day has come, with that day.
pub fn due_today(s: &Solution) -> Fig<Vec<(&'static Task, Date)>> {
    let strange = |name: &String| !TASKS.iter().any(|task| task.name == name);
    if let Some(name) = s.inputs.keys(&DONE.spec).into_iter().find(strange) {
        return Err(Why::out_of_range(format_args!("no task of the calendar is called {}", clean(&name))));
    }
    let mut found = Vec::new();
    for task in &TASKS {
        found.extend(task.due(&s.inputs)?.filter(|due| *due <= s.world.today).map(|due| (task, due)));
    }
    Ok(found)
}

fn names(tasks: &[(&Task, Date)]) -> String {
    if tasks.is_empty() {
        return "nothing".to_owned();
    }
    tasks.iter().map(|(task, _)| task.name).collect::<Vec<_>>().join(", ")
}

fn row(s: &Solution, key: &str) -> Fig<Value> {
    let number: Option<usize> = key.parse().ok();
    let task = number.and_then(|number| TASKS.get(number.checked_sub(1)?));
    let task = task.ok_or_else(|| Why::missing(format!("commissioning.calendar.{key}")))?;
    let words = match task.due(&s.inputs)? {
        None => format!("{}: over; {}", task.name, task.what),
        Some(due) if due <= s.world.today => format!("{}: due since {due}; {}", task.name, task.what),
        Some(due) => format!("{}: {due}; {}", task.name, task.what),
    };
    Ok(Value::Text(words))
}

fn due(s: &Solution) -> Fig<Judgement> {
    let found = due_today(s)?;
    let verdict = if found.is_empty() { Verdict::Clear } else { Verdict::Caution };
    let judged = Judgement::of(verdict).with(Quantity::count(found.len()), Quantity::count(0));
    Ok(judged.part(names(&found)))
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::word("commissioning.calendar", "upkeep", &CALENDAR, row).axis(Axis::Upkeep).by(
        "calendar",
        "{day} or the day it was last done, and its interval",
        &[("day", "commissioning.commissioned")],
    ),
    Figure::word("commissioning.due", "due today", &CALENDAR, |s, _| Ok(Value::Text(names(&due_today(s)?)))).by(
        "calendar",
        "tasks whose day has come",
        &[],
    ),
    Figure::new("commissioning.due_count", "tasks due", Count, &CALENDAR, |s, _| {
        Ok(Quantity::count(due_today(s)?.len()).into())
    })
    .by("calendar", "how many they are", &[]),
];

/// The checks of this file.
pub static CHECKS: &[Check] = &[Check::new("commissioning.upkeep-due", "upkeep", Severity::Injury, due)
    .says(
        "Due: {part}.",
        "Do it, write down what was found, and keep the day: sunharp set FILE commissioning.upkeep.NAME DAY.",
    )
    .blind_to("what was done and not written down")
    .source("navy manual for glass, weep holes and yearly inspection (verified); the rest project rules")
    .needs(&["commissioning.due"])];
