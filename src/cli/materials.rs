//! `materials`: the bill for the shop, as plain lines or as comma-separated values.

use std::path::Path;

use super::failure::{Answer, Failure};
use super::opening;
use crate::model::lines::Page;
use crate::model::{Fig, Shelf, Why, text::clean};
use crate::stage::materials::rows::pieces;
use crate::stage::materials::{Bill, Line};
use crate::units::{Quantity, System};

/// Prints the bill.
pub fn materials(file: &Path, as_csv: bool, units: Option<System>) -> Result<Answer, Failure> {
    let (workbook, notices) = opening::project(file)?;
    let workbook = opening::studied(workbook);
    let evaluation = workbook.evaluation();
    let system = units.unwrap_or_else(|| evaluation.system());
    let bill = &evaluation.drawn.bill;
    let text = if as_csv {
        csv(bill, system).map_err(|error| Failure::file(error.to_string()))?
    } else {
        page(bill, system).text()
    };
    Ok(Answer { notices, text, code: 0 })
}

/// The bill as a page.
pub fn page(bill: &Bill, system: System) -> Page {
    let mut page = Page::default();
    page.heading("Bill of materials");
    page.fact(0, "For all panels. Lengths and sheets by their sum: the cutting plan may need a piece more.");
    let mut shelf: Option<Shelf> = None;
    for line in &bill.lines {
        if shelf != Some(line.shelf) {
            page.subheading(line.shelf.word());
            shelf = Some(line.shelf);
        }
        put(&mut page, line, system);
    }
    if !bill.open.is_empty() {
        page.subheading("Not counted yet");
        for (name, why) in &bill.open {
            page.fact(2, &format!("{name}: {}", clean(&why.to_string())));
        }
    }
    page.space();
    page.fact(0, &sum(bill));
    page
}

fn put(page: &mut Page, line: &Line, system: System) {
    page.fact(2, &format!("[ ] {} ({})", told(&line.item, |item| clean(item)), clean(&line.key)));
    let purpose = if line.purposes.is_empty() { String::new() } else { format!(", for {}", line.purposes.join(", ")) };
    let with_scrap = told(&line.with_scrap(), |quantity| quantity.text(system));
    page.fact(6, &format!("{with_scrap} with scrap{purpose}"));
    if let Err(Why::Missing(ids)) = &line.piece {
        let there = if [&line.on_hand, &line.bought].iter().any(|count| is_some(count)) {
            format!("; {}", there(line))
        } else {
            String::new()
        };
        return page.fact(6, &format!("how it is sold is not entered yet: {}{there}", clean(&ids.join(", "))));
    }
    let buy = told(&line.to_buy(), ToString::to_string);
    let piece = told(&line.piece, |piece| piece.text(system));
    page.fact(
        6,
        &format!("buy {buy} of {piece}; {}; {} left over", there(line), told(&line.left_over(), |left| pieces(*left))),
    );
    page.fact(6, &format!("cost {}{}", told(&line.cost(), |cost| money(*cost)), source(line)));
}

fn there(line: &Line) -> String {
    let count = |fig: &Fig<f64>| told(fig, |count| pieces(*count));
    format!("{} on hand, {} bought", count(&line.on_hand), count(&line.bought))
}

/// Whether a count is known and not nothing.
fn is_some(count: &Fig<f64>) -> bool {
    count.as_ref().is_ok_and(|count| *count > 0.0)
}

fn source(line: &Line) -> String {
    let date = line.date.as_ref().ok().and_then(Option::as_ref).map(|date| format!(", {date}"));
    let from = line.source.as_ref().ok().and_then(Option::as_ref).map(|source| format!(", {}", clean(source)));
    [date, from].into_iter().flatten().collect()
}

/// The last line: what everything costs, or what is known of it.
fn sum(bill: &Bill) -> String {
    let (spent, known) = bill.so_far();
    let all = match bill.cost() {
        Ok(cost) => format!("In all {} in your own money", money(cost)),
        Err(_) => format!("What it costs in all is unknown: {known} of {} lines have a cost", bill.lines.len()),
    };
    format!("{all}; paid so far {}.", money(spent))
}

/// Money with two places.
fn money(amount: f64) -> String {
    format!("{amount:.2}")
}

/// A value, or in a few words why there is none.
fn told<T>(value: &Fig<T>, text: impl Fn(&T) -> String) -> String {
    match value {
        Ok(value) => text(value),
        Err(Why::Missing(ids)) => format!("? (needs {})", clean(&ids.join(", "))),
        Err(why) => format!("? ({})", clean(&why.to_string())),
    }
}

const COLUMNS: [&str; 19] = [
    "key",
    "shelf",
    "item",
    "purpose",
    "needed",
    "unit",
    "scrap_percent",
    "with_scrap",
    "piece",
    "pieces",
    "on_hand",
    "bought",
    "to_buy",
    "left_over",
    "price",
    "paid",
    "cost",
    "date",
    "source",
];

/// One record for each line; what is unknown is empty.
fn csv(bill: &Bill, system: System) -> Result<String, csv::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(COLUMNS)?;
    for line in &bill.lines {
        writer.write_record(record(line, system))?;
    }
    let bytes = writer.into_inner().map_err(|error| csv::Error::from(error.into_error()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

fn record(line: &Line, system: System) -> [String; 19] {
    // One unit for a whole line, so that its numbers can be added up.
    let unit = line.needed.as_ref().map_or("", |needed| needed.value_and_unit(system).1);
    let in_unit = |fig: &Fig<Quantity>| cell(fig, |quantity| number_in(*quantity, unit, system));
    let number = |fig: Fig<f64>| cell(&fig, |number| pieces(*number));
    let amount = |fig: Fig<f64>| cell(&fig, |amount| money(*amount));
    let optional = |text: Option<String>| text.unwrap_or_default();
    [
        clean(&line.key),
        line.shelf.word().to_owned(),
        cell(&line.item, |item| clean(item)),
        line.purposes.join(", "),
        in_unit(&line.needed),
        unit.to_owned(),
        number(line.scrap.clone().map(|scrap| scrap * 100.0)),
        in_unit(&line.with_scrap()),
        in_unit(&line.piece),
        number(line.pieces()),
        number(line.on_hand.clone()),
        number(line.bought.clone()),
        cell(&line.to_buy(), ToString::to_string),
        number(line.left_over()),
        amount(line.price.clone()),
        amount(line.spent()),
        amount(line.cost()),
        optional(line.date.clone().ok().flatten().map(|date| date.to_string())),
        optional(line.source.clone().ok().flatten().map(|source| clean(&source))),
    ]
}

fn cell<T>(value: &Fig<T>, text: impl Fn(&T) -> String) -> String {
    value.as_ref().map_or_else(|_| String::new(), text)
}

/// The bare number of a quantity in a unit of its kind.
fn number_in(quantity: Quantity, unit: &str, system: System) -> String {
    let text = quantity.text_in(unit).unwrap_or_else(|| quantity.text(system));
    text.strip_suffix(unit).unwrap_or(&text).trim().to_owned()
}
