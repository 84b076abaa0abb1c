//! What cures between two steps: how long the label says, and for how many days the next hands wait.
//!
//! Sign-offs carry days, not hours, so a wait is rounded up to whole days.

use crate::model::{Entry, EntrySpec, Fig};
use crate::stage::method::Method;
use crate::stage::{Figure, Group, Solution};
use crate::units::Kind;
use crate::units::si::{Dimension, Time};

const DAY: f64 = 86_400.0;

/// How long the paint on the plate cures.
pub static PAINT: Entry<Time> = Entry::quantity("absorber.paint_cure_time", "paint cures for")
    .why("from the can's label, at the shop's temperature: paint that is glazed too soon fogs the glass")
    .hard(0.0, 60.0 * DAY)
    .usual(3600.0, 14.0 * DAY);

/// How long the sealant at the glass cures.
pub static SEALANT: Entry<Time> = Entry::quantity("enclosure.sealant_cure_time", "sealant cures for")
    .why("from the label, at the day's temperature and damp; a skin is not a cure")
    .hard(0.0, 60.0 * DAY)
    .usual(3600.0, 14.0 * DAY);

/// The absorber's entry.
pub static OF_ABSORBER: &[&EntrySpec] = &[&PAINT.spec];
/// The enclosure's entry.
pub static OF_ENCLOSURE: &[&EntrySpec] = &[&SEALANT.spec];

static OF_PAINT: Group = Group { name: "cure of the paint", entries: &["absorber.paint_cure_time"], groups: &[] };
static OF_SEALANT: Group =
    Group { name: "cure of the sealant", entries: &["enclosure.sealant_cure_time"], groups: &[] };

fn whole_days(s: &Solution, entry: &Entry<Time>) -> Fig<Time> {
    Ok(Time::from_si((s.inputs.get(entry)?.si() / DAY).ceil() * DAY))
}

/// The figures.
pub static FIGURES: &[Figure] = &[
    Figure::new("absorber.paint_wait", "wait after the last coat", Kind::Time, &OF_PAINT, |s, _| {
        Ok(whole_days(s, &PAINT)?.into())
    })
    .by("cure-wait", "{t}, up to the next whole day", &[("t", "absorber.paint_cure_time")]),
    Figure::new("enclosure.sealant_wait", "wait after the glass is sealed", Kind::Time, &OF_SEALANT, |s, _| {
        Ok(whole_days(s, &SEALANT)?.into())
    })
    .by("cure-wait", "{t}, up to the next whole day", &[("t", "enclosure.sealant_cure_time")]),
];

/// The method.
pub static METHODS: &[Method] = &[Method {
    id: "cure-wait",
    title: "Waiting for a cure",
    what: "The cure time of the label, up to the next whole day, counted from the day of the sign-off: the page of the \
           day names the first day on which the next step can begin. What the label says of heat and damp counts too.",
    source: "the product's own label; whole days are this project's rule",
    code: "stage::waits, workbook::today",
}];
