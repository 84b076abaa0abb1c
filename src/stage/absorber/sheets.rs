//! The sheet: its pieces, the stock that they are cut from, gaps to grow, its gauge in every unit of the trade.
//!
//! Copper has no grain to mind: a piece may lie either way on its stock. The rows are laid in `physics::strips`.

use super::entries as e;
use super::geometry::{Harp, tee_mouth};
use super::{HARP, PLATE, STAGNATION};
use crate::handbook::sheet;
use crate::model::{Choice, Entry, EntrySpec, Fig, Inputs, Judgement, Value, Why};
use crate::physics::expansion::{Swing, copper_growth, linear_growth};
use crate::physics::guillotine::Sides;
use crate::physics::strips::{StripJob, StripLayout, lay};
use crate::stage::stock::{available, counted, tenths};
use crate::stage::{Check, Figure, Group, Severity, Solution};
use crate::units::si::{Dimension, Length, celsius, difference};
use crate::units::{HasKind, Kind, Quantity};

/// One sheet or strips.
pub static FORM: Entry<SheetForm> = Entry::choice("absorber.sheet_form", "form of the sheet")
    .why("strips lie one to a riser and are easier to solder; one sheet keeps the harp square")
    .default("strips");

/// Width of a stock sheet.
pub static STOCK_WIDTH: Entry<Length> = Entry::quantity("absorber.sheet_stock.*.width", "stock sheet, width")
    .why("of one sheet or of the roll")
    .hard(0.02, 5.0);

/// Length of a stock sheet.
pub static STOCK_LENGTH: Entry<Length> = Entry::quantity("absorber.sheet_stock.*.length", "stock sheet, length")
    .why("of one sheet, or of the piece of roll that is sold")
    .hard(0.02, 50.0);

/// How many there are.
pub static STOCK_COUNT: Entry<usize> = Entry::count("absorber.sheet_stock.*.count", "stock sheets")
    .why("how many lie in the shop; leave it out for as many as you care to buy");

/// Width of a cut in sheet.
pub static SHEET_KERF: Entry<Length> = Entry::quantity("absorber.sheet_kerf", "width of a cut in sheet")
    .why("nothing with shears or snips, 1 to 3 mm with a saw")
    .hard(0.0, 0.01)
    .default("0 mm");

/// Gap where two pieces meet on a riser.
pub static BUTT_GAP: Entry<Length> = Entry::quantity("absorber.butt_gap", "gap between pieces on a riser")
    .why("pieces that touch buckle when the sheet is hotter than the tube")
    .hard(0.0, 0.05)
    .usual(0.001, 0.005)
    .default("2 mm");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] =
    &[&FORM.spec, &STOCK_WIDTH.spec, &STOCK_LENGTH.spec, &STOCK_COUNT.spec, &SHEET_KERF.spec, &BUTT_GAP.spec];

/// One sheet or strips.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SheetForm {
    /// A strip for each riser.
    Strips,
    /// One sheet across all risers.
    Whole,
}

impl Choice for SheetForm {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] =
        &[(Self::Strips, "strips", "a strip for each riser"), (Self::Whole, "whole", "one sheet across all risers")];
}

static PIECES: Group = Group { name: "pieces of the sheet", entries: &["absorber.sheet_form"], groups: &[&HARP] };

/// The sheets of all panels.
pub static SHEETS: Group = Group {
    name: "cutting the sheet",
    entries: &[
        "absorber.sheet_stock.*.width",
        "absorber.sheet_stock.*.length",
        "absorber.sheet_stock.*.count",
        "absorber.sheet_kerf",
        "absorber.butt_gap",
    ],
    groups: &[&PIECES, &PLATE],
};

static GAUGE: Group =
    Group { name: "gauge of the sheet", entries: &["absorber.sheet_thickness", "absorber.sheet_metal"], groups: &[] };

static SLIP: Group =
    Group { name: "sheet against riser when hot", entries: &["absorber.sheet_metal"], groups: &[&PLATE, &STAGNATION] };

/// The sheet as it is cut.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetPlan {
    /// Key of the stock.
    pub stock: String,
    /// Sheets needed for all panels.
    pub sheets: u32,
    /// Pieces needed for all panels.
    pub pieces: u32,
    /// What one sheet gives.
    pub layout: StripLayout,
    /// Share of the sheets that is left over.
    pub waste: f64,
}

fn harp(s: &Solution) -> Fig<&Harp> {
    s.absorber.harp.as_ref().map_err(Clone::clone)
}

/// Strips of one panel and the width of one.
fn strips(inputs: &Inputs, harp: &Harp) -> Fig<(usize, Length)> {
    Ok(match inputs.get(&FORM)? {
        SheetForm::Strips => (harp.riser_count, harp.sheet_width / harp.riser_count as f64),
        SheetForm::Whole => (1, harp.sheet_width),
    })
}

/// The plan that wastes least area, of all stocks laid both ways.
pub fn plan(inputs: &Inputs, harp: &Harp) -> Fig<SheetPlan> {
    let names = inputs.rows("absorber.sheet_stock");
    if names.is_empty() {
        return Err(Why::missing(STOCK_WIDTH.spec.id));
    }
    let (count, width) = strips(inputs, harp)?;
    let strip = Sides { width: tenths(width)?, height: tenths(harp.plate_length)? };
    let wanted = counted(count * inputs.panels().len().max(1));
    let (kerf, gap) = (tenths(inputs.get(&SHEET_KERF)?)?, tenths(inputs.get(&BUTT_GAP)?)?);
    let mut best: Option<(u128, SheetPlan)> = None;
    let mut refusal = Why::out_of_range("the sheets at hand do not give all pieces");
    for name in names {
        let sides = Sides {
            width: tenths(inputs.at(&STOCK_WIDTH, &name)?)?,
            height: tenths(inputs.at(&STOCK_LENGTH, &name)?)?,
        };
        let available = available(inputs, &STOCK_COUNT, &name)?.unwrap_or(u32::MAX);
        for sheet in [sides, Sides { width: sides.height, height: sides.width }] {
            match lay(&StripJob { strip, sheet, kerf, gap }) {
                Err(why) => refusal = Why::out_of_range(why),
                Ok(layout) => {
                    let plan = cut(&name, wanted, layout, (strip, sheet));
                    let area = u128::from(plan.sheets) * u128::from(sheet.width.0) * u128::from(sheet.height.0);
                    if plan.sheets <= available && best.as_ref().is_none_or(|(least, _)| area < *least) {
                        best = Some((area, plan));
                    }
                }
            }
        }
    }
    best.map(|(_, plan)| plan).ok_or(refusal)
}

/// So many strips by one layout; `sizes` are strip and sheet.
fn cut(stock: &str, strips: u32, layout: StripLayout, (strip, sheet): (Sides, Sides)) -> SheetPlan {
    let pieces = strips.saturating_mul(layout.segments);
    let sheets = pieces.div_ceil(layout.pieces());
    let area = |sides: Sides| f64::from(sides.width.0) * f64::from(sides.height.0);
    let used = f64::from(pieces) * area(Sides { width: strip.width, height: layout.segment });
    let waste = 1.0 - used / (f64::from(sheets) * area(sheet));
    SheetPlan { stock: stock.to_owned(), sheets, pieces, layout, waste }
}

fn planned(s: &Solution) -> Fig<SheetPlan> {
    plan(&s.inputs, harp(s)?)
}

/// One ounce a square foot, kg/m².
const OUNCE_A_SQUARE_FOOT: f64 = 0.028_349_523_125 / (0.3048 * 0.3048);
/// A thousandth of an inch, m.
const MIL: f64 = 0.0254e-3;

/// Growth of a length of the sheet's metal beyond the copper tube under it, bench to stagnation.
fn slip(s: &Solution, length: Length) -> Fig<Length> {
    let metal_name = s.inputs.get(&e::SHEET_METAL)?;
    let metal =
        sheet::metals().get(&metal_name).ok_or_else(|| Why::Invalid(vec![e::SHEET_METAL.spec.id.to_owned()]))?;
    if metal_name.starts_with("copper") {
        return Ok(Length::from_si(0.0));
    }
    let (cold, hot) = (celsius(20.0), s.absorber.stagnation.as_ref().map_err(Clone::clone)?.worst);
    let tube = copper_growth(length, Swing { from: cold, to: hot }).map_err(Why::out_of_range)?;
    Ok((linear_growth(metal.expansion, length, difference(hot, cold)) - tube).abs())
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::word("absorber.sheet_gauge", "gauge of the sheet", &GAUGE, |s, _| {
        let thickness = s.inputs.get(&e::SHEET_THICKNESS)?.si();
        let name = s.inputs.get(&e::SHEET_METAL)?;
        let metal = sheet::metals().get(&name).ok_or_else(|| Why::Invalid(vec![e::SHEET_METAL.spec.id.to_owned()]))?;
        let weight = thickness * metal.density.si() / OUNCE_A_SQUARE_FOOT;
        Ok(Value::Text(format!("{:.2} mm = {:.1} mil = {weight:.1} oz/ft²", thickness * 1e3, thickness / MIL)))
    })
    .by(
        "sheet-layout",
        "{t} in mm and thousandths of an inch; × density in ounces a square foot",
        &[("t", "absorber.sheet_thickness")],
    ),
    Figure::new("absorber.sheet_piece_width", "width of a strip", Kind::Length, &PIECES, |s, _| {
        Ok(strips(&s.inputs, harp(s)?)?.1.into())
    })
    .tape()
    .by(
        "sheet-layout",
        "{sheet} / {n}, or the whole width",
        &[("sheet", "absorber.sheet_across"), ("n", "absorber.riser_count")],
    ),
    Figure::new("absorber.sheet_along", "sheet along the risers", Kind::Length, &PLATE, |s, _| {
        Ok(harp(s)?.plate_length.into())
    })
    .tape()
    .by(
        "sheet-layout",
        "{c} − header diameter; with tees {c} − 2 × ({t} + depth of the cup), as far as those are known",
        &[("c", "absorber.header_spacing"), ("t", "absorber.tee_shoulder")],
    ),
    Figure::new("absorber.sheet_piece_length", "length of a piece", Kind::Length, &SHEETS, |s, _| {
        Ok(planned(s)?.layout.segment.length().into())
    })
    .tape()
    .by(
        "sheet-layout",
        "({sheet} − gaps) / {m}",
        &[("sheet", "absorber.sheet_along"), ("m", "absorber.sheet_segments")],
    ),
    Figure::new("absorber.sheet_segments", "pieces on a riser", Kind::Count, &SHEETS, |s, _| {
        Ok(Quantity::count(planned(s)?.layout.segments as usize).into())
    })
    .by("sheet-layout", "the fewest that the stock is long enough for", &[]),
    Figure::new("absorber.sheet_pieces", "pieces for all panels", Kind::Count, &SHEETS, |s, _| {
        Ok(Quantity::count(planned(s)?.pieces as usize).into())
    })
    .by("sheet-layout", "strips × {m} × panels", &[("m", "absorber.sheet_segments")]),
    Figure::word("absorber.sheet_layout", "cut from", &SHEETS, |s, _| {
        let plan = planned(s)?;
        let StripLayout { across, along, .. } = plan.layout;
        let sheets = if plan.sheets == 1 { "1 sheet".to_owned() } else { format!("{} sheets", plan.sheets) };
        Ok(Value::Text(format!("{}: {sheets}, {across} across × {along} along each", plan.stock)))
    })
    .by("sheet-layout", "⌊(sheet + cut)/(piece + cut)⌋ each way, of all stocks the least area", &[]),
    Figure::new("absorber.sheets_wanted", "stock sheets for all panels", Kind::Count, &SHEETS, |s, _| {
        Ok(Quantity::count(planned(s)?.sheets as usize).into())
    })
    .by("sheet-layout", "{pieces} / pieces of one sheet, rounded up", &[("pieces", "absorber.sheet_pieces")]),
    Figure::new("absorber.sheet_waste", "sheet left over", Kind::Percent, &SHEETS, |s, _| {
        Ok(Quantity::percent(planned(s)?.waste).into())
    })
    .by("sheet-layout", "1 − area of the pieces / area of the sheets", &[]),
    Figure::new("absorber.sheet_slip", "sheet grows beyond its riser", Kind::Length, &SLIP, |s, _| {
        Ok(slip(s, harp(s)?.plate_length)?.into())
    })
    .by(
        "growth",
        "|α − 17.3e-6/K (17.64e-6/K above 200 °C)| × riser × ({T} − 20 °C); nothing for copper on copper",
        &[("T", "absorber.stagnation_worst")],
    ),
];

/// Gap that each butt wants beside the difference in growth (references: 1 mm at least, common practice), m.
const LEAST_GAP: f64 = 0.001;

fn butt_gap(s: &Solution) -> Fig<Judgement> {
    let segments = planned(s)?.layout.segments;
    let found = s.inputs.get(&BUTT_GAP)?;
    let each = slip(s, harp(s)?.plate_length)? / f64::from(segments);
    let wanted = each + Length::from_si(if segments > 1 { LEAST_GAP } else { 0.0 });
    let margin = Quantity::new(Length::KIND, found.si() - wanted.si());
    Ok(Judgement::caution_unless(found >= wanted).with(found, wanted).margin(margin))
}

/// Whether the sheet stays off the fittings: by its length it does, once the fittings are known.
fn off_fittings(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&e::JOINT)? != e::Joint::Tee {
        return Ok(Judgement::does_not_apply("no fitting stands beside the headers"));
    }
    let (found, free) = (harp(s)?.plate_length, s.inputs.get(&e::HEADER_SPACING)? - tee_mouth(&s.inputs)? * 2.0);
    let margin = Quantity::new(Length::KIND, free.si() - found.si());
    Ok(Judgement::caution_unless(found <= free).with(found, free).margin(margin))
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("absorber.sheet-fittings", "sheet and the mouths of the tees", Severity::Nuisance, off_fittings)
        .says("The sheet is {found} long; between the tees {limit} of riser is free.", "Shorter pieces of sheet.")
        .blind_to("tees that differ from the one that was measured")
        .source("geometry")
        .needs(&["absorber.sheet_along"]),
    Check::new("absorber.butt-gap", "gaps in the sheet", Severity::Nuisance, butt_gap)
        .says("Pieces on a riser are {found} apart; {limit} lets them grow.", "A wider gap, or longer pieces.")
        .blind_to("solder that bridges a gap; a sheet far hotter than its tube where the line is open")
        .source("1 mm: common practice, no source; expansion of metals: handbook table")
        .needs(&["absorber.sheet_segments", "absorber.sheet_slip", "absorber.butt_gap"]),
];
