//! What the safety stage asks about permits: who is licensed for what, what the office said, who inspected when.

use crate::model::{Entry, EntrySpec};

/// Day of the permit.
pub static PERMIT_DATE: Entry<jiff::civil::Date> =
    Entry::date("safety.permit_date", "permit given on").why("many permits lapse when nothing is built within a year");

/// Inspector.
pub static INSPECTOR: Entry<String> =
    Entry::text("safety.inspector", "inspector").why("who inspects, of which office, by what number to call");

/// Day of the inspection.
pub static INSPECTED: Entry<jiff::civil::Date> = Entry::date("safety.inspection_date", "inspected on")
    .why("day on which the inspector saw it; a day to come counts as still open");

/// Holder of a licence.
pub static LICENCE_HOLDER: Entry<String> =
    Entry::text("safety.licence.*.holder", "holder of a licence").why("one row for each trade, named as you like");

/// Number of a licence.
pub static LICENCE_NUMBER: Entry<String> =
    Entry::text("safety.licence.*.number", "number of the licence").why("as it stands on the licence itself");

/// Scope of a licence.
pub static LICENCE_SCOPE: Entry<String> = Entry::text("safety.licence.*.scope", "licensed for")
    .why("what it covers: drinking water, backflow test, roof, mains, gas, structures");

/// End of a licence.
pub static LICENCE_UNTIL: Entry<jiff::civil::Date> =
    Entry::date("safety.licence.*.until", "licence valid until").why("the day on which it lapses");

/// Answer of the office.
pub static ANSWER: Entry<String> = Entry::text("safety.answer.*", "what the office answered")
    .why("one for each question of 'sunharp questions': who said what, on which day");

/// Where a recalled limit was looked up.
pub static LOOKED_UP: Entry<String> = Entry::text("safety.looked_up.*", "limit looked up").why(
    "for a check whose limit is from memory: edition, clause and who read it; the key is the check's id with a hyphen",
);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &PERMIT_DATE.spec,
    &INSPECTOR.spec,
    &INSPECTED.spec,
    &LICENCE_HOLDER.spec,
    &LICENCE_NUMBER.spec,
    &LICENCE_SCOPE.spec,
    &LICENCE_UNTIL.spec,
    &ANSWER.spec,
    &LOOKED_UP.spec,
];
