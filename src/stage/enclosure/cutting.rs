//! Cutting rails, strips and metal trims from the timber and profiles that lies in the shop or is to be bought.
//!
//! A first-fit plan with its bound is there at once; the exact one is a study. Defects are cut out: every usable stretch
//! of a board is a bar of its own. The search lives in `physics::cutting`.

use std::sync::Arc;

use super::BOX;
use super::capping;
use super::openings as o;
use super::timber::TimberBox;
use crate::model::{Choice, Entry, EntrySpec, Fig, Inputs, Value, Why};
use crate::physics::cutting::stretches::{Stretch, usable};
use crate::physics::cutting::{self, Job, Part, Plan, Stock, Tenths};
use crate::stage::absorber::geometry::Harp;
use crate::stage::stock::{available, counted, tenths};
use crate::stage::study::{Cancel, Outcome};
use crate::stage::{Axis, Figure, Group, Solution, general};
use crate::units::si::{Dimension, Length};
use crate::units::{Kind, Quantity, System, parse};

/// Length of a stock.
pub static STOCK_LENGTH: Entry<Length> = Entry::quantity("enclosure.timber_stock.*.length", "timber length")
    .why("of one board, as it lies there or is sold; measure it, it is often a little over")
    .hard(0.1, 20.0);

/// How many of it are there.
pub static STOCK_COUNT: Entry<usize> = Entry::count("enclosure.timber_stock.*.count", "timber count")
    .why("how many lie in the shop; leave it out for as many as you care to buy");

/// What it is for.
pub static STOCK_USE: Entry<Use> = Entry::choice("enclosure.timber_stock.*.use", "timber is for")
    .why("rails, strips and metal caps have other sections and are cut from other stock")
    .default("rails");

/// Its defects.
pub static STOCK_DEFECTS: Entry<String> = Entry::text("enclosure.timber_stock.*.defects", "timber defects")
    .why("knots, splits and wane from one end, such as 1.2 m to 1.26 m, 2 m to 2.1 m");

/// Width of a cut.
pub static KERF: Entry<Length> = Entry::quantity("enclosure.saw_kerf", "width of a saw cut")
    .why("3.2 mm for a full blade, 1.8 mm for a thin one, from memory; measure it on an offcut")
    .hard(0.0, 0.01)
    .default("3.2 mm");

/// Trim at each end.
pub static END_TRIM: Entry<Length> = Entry::quantity("enclosure.timber_trim", "trim at each end of a board")
    .why("ends are out of square, split or dirty")
    .hard(0.0, 0.3)
    .default("10 mm");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] =
    &[&STOCK_LENGTH.spec, &STOCK_COUNT.spec, &STOCK_USE.spec, &STOCK_DEFECTS.spec, &KERF.spec, &END_TRIM.spec];

/// What a board is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Use {
    /// The rails of the box.
    Rails,
    /// Support strips.
    Strips,
    /// The folded caps over the edge of the glass.
    Caps,
}

impl Choice for Use {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Rails, "rails", "the rails of the box"),
        (Self::Strips, "strips", "the support strips, if of wood"),
        (Self::Caps, "caps", "metal trim: the folded caps over the glass"),
    ];
}

/// The cuts of timber.
pub static TIMBER_CUTS: Group = Group {
    name: "cutting the timber",
    entries: &[
        "enclosure.timber_stock.*.length",
        "enclosure.timber_stock.*.count",
        "enclosure.timber_stock.*.use",
        "enclosure.timber_stock.*.defects",
        "enclosure.saw_kerf",
        "enclosure.timber_trim",
        "enclosure.strip_height",
        "project.units",
    ],
    groups: &[&BOX, &o::STRIPS, &capping::PIECES],
};

/// Timber to be bought counts ten times what lies there, so that the shop is emptied first.
const BOUGHT: u32 = 10;

/// One bar of a job: a usable stretch of a board.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bar {
    /// The name of its stock, as in the file.
    pub name: String,
    /// Its place on the board.
    pub stretch: Stretch,
}

/// A job with the names of its bars and parts.
#[derive(Clone, Debug)]
pub struct TimberJob {
    /// The kinds of bar, in the order of the job's stocks.
    pub bars: Vec<Bar>,
    /// The names of the parts, in the order of the job's parts.
    pub parts: Vec<&'static str>,
    /// The job.
    pub job: Job,
}

/// A job and a plan for it.
#[derive(Clone, Debug)]
pub struct TimberCut {
    /// The job.
    pub job: Arc<TimberJob>,
    /// The plan.
    pub plan: Plan,
}

/// The jobs of the project: rails, strips if they hold wood, and metal caps if there is stock for them.
pub fn jobs(inputs: &Inputs, harp: &Harp, timber_box: &TimberBox) -> Fig<Vec<Arc<TimberJob>>> {
    let panels = inputs.panels().len().max(1);
    let rails: Vec<(&'static str, Length, usize)> = timber_box
        .parts
        .iter()
        .filter(|part| !part.is_board())
        .map(|part| (part.name, part.length, part.count * panels))
        .collect();
    let mut jobs = vec![Arc::new(job(inputs, Use::Rails, &rails)?)];
    if inputs.get(&o::STRIP_HEIGHT)?.si() > 0.0 {
        let wanted = [("support strip", timber_box.inside_width, o::strip_count(inputs, harp)? * panels)];
        jobs.push(Arc::new(job(inputs, Use::Strips, &wanted)?));
    }
    if stocked(inputs, Use::Caps) {
        let trims = capping::trims(inputs, timber_box)?;
        let wanted: Vec<(&'static str, Length, usize)> =
            trims.into_iter().map(|(name, length, count)| (name, length, count * panels)).collect();
        jobs.push(Arc::new(job(inputs, Use::Caps, &wanted)?));
    }
    Ok(jobs)
}

/// Whether any stock is for this.
fn stocked(inputs: &Inputs, for_what: Use) -> bool {
    let names = inputs.rows("enclosure.timber_stock");
    names.iter().any(|name| inputs.at(&STOCK_USE, name).is_ok_and(|found| found == for_what))
}

/// Width of a cut: snips and shears take nothing of a metal trim.
fn kerf(inputs: &Inputs, for_what: Use) -> Fig<Tenths> {
    if for_what == Use::Caps { Ok(Tenths(0)) } else { tenths(inputs.get(&KERF)?) }
}

fn job(inputs: &Inputs, for_what: Use, wanted: &[(&'static str, Length, usize)]) -> Fig<TimberJob> {
    let trim = tenths(inputs.get(&END_TRIM)?)?;
    let (mut bars, mut stocks) = (Vec::new(), Vec::new());
    for name in inputs.rows("enclosure.timber_stock") {
        if inputs.at(&STOCK_USE, &name)? != for_what {
            continue;
        }
        let length = tenths(inputs.at(&STOCK_LENGTH, &name)?)?;
        let available = available(inputs, &STOCK_COUNT, &name)?;
        for stretch in usable(length, trim, &defects(inputs, &name)?) {
            let price = stretch.length().0.saturating_mul(if available.is_some() { 1 } else { BOUGHT });
            stocks.push(Stock { length: stretch.length(), available, price });
            bars.push(Bar { name: name.clone(), stretch });
        }
    }
    if stocks.is_empty() {
        return Err(Why::missing(STOCK_LENGTH.spec.id));
    }
    let part =
        |&(_, length, count): &(&str, Length, usize)| Ok(Part { length: tenths(length)?, count: counted(count) });
    Ok(TimberJob {
        bars,
        parts: wanted.iter().map(|(name, ..)| *name).collect(),
        job: Job {
            parts: wanted.iter().map(part).collect::<Fig<_>>()?,
            stocks,
            kerf: kerf(inputs, for_what)?,
            end_trim: Tenths(0), // the stretches are trimmed
        },
    })
}

/// The defects of a stock: `1.2 m to 1.26 m, 2 m to 2.1 m`.
fn defects(inputs: &Inputs, name: &str) -> Fig<Vec<Stretch>> {
    let text = match inputs.at(&STOCK_DEFECTS, name) {
        Ok(text) => text,
        Err(Why::Missing(_)) => return Ok(Vec::new()),
        Err(why) => return Err(why),
    };
    let refused = || Why::Invalid(vec![STOCK_DEFECTS.spec.id.replacen('*', name, 1)]);
    let place = |text: &str| {
        let quantity = parse(Kind::Length, text.trim()).map_err(|_| refused())?;
        tenths(Length::from_si(quantity.si))
    };
    let mut found = Vec::new();
    for one in text.split(',').filter(|one| !one.trim().is_empty()) {
        let (from, to) = one.split_once(" to ").ok_or_else(refused)?;
        let defect = Stretch { from: place(from)?, to: place(to)? };
        if defect.to < defect.from {
            return Err(refused());
        }
        found.push(defect);
    }
    Ok(found)
}

/// Plans at once, by first fit.
pub fn first(jobs: &Fig<Vec<Arc<TimberJob>>>) -> Fig<Arc<Vec<TimberCut>>> {
    planned(jobs, cutting::first_fit_decreasing)
}

fn planned(
    jobs: &Fig<Vec<Arc<TimberJob>>>,
    plan: fn(&Job) -> Result<Plan, cutting::CuttingError>,
) -> Fig<Arc<Vec<TimberCut>>> {
    let cut = |job: &Arc<TimberJob>| {
        let plan = plan(&job.job).map_err(|error| told(&error, job))?;
        Ok(TimberCut { job: Arc::clone(job), plan })
    };
    jobs.as_ref().map_err(Why::clone)?.iter().map(cut).collect::<Fig<Vec<_>>>().map(Arc::new)
}

fn told(error: &cutting::CuttingError, job: &TimberJob) -> Why {
    match error {
        cutting::CuttingError::PartTooLong(part) => Why::out_of_range(format!(
            "no board has a stretch long enough for the {}",
            job.parts.get(*part).copied().unwrap_or("part")
        )),
        error => Why::out_of_range(error),
    }
}

/// The study: the exact plans.
pub fn study(solution: &Solution, cancel: &Cancel) -> Option<Outcome> {
    let plans = planned(&solution.enclosure.timber_jobs, cutting::cheapest);
    (!cancel.is_cancelled()).then_some(Outcome::TimberCuts(plans))
}

/// The best plans there are: the exact ones if they are back, else those by first fit.
pub fn best(s: &Solution) -> Fig<Arc<Vec<TimberCut>>> {
    match &s.studies.timber_cuts {
        Err(Why::Pending) => s.enclosure.timber_cuts.clone(),
        found => found.clone(),
    }
}

/// One cut of one bar.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// The bar, such as `spruce, board 2`.
    pub bar: String,
    /// The part that ends here.
    pub part: &'static str,
    /// Where the part begins on its board.
    pub from: Length,
    /// Where it ends: the cut lies beyond this mark.
    pub at: Length,
}

/// All cuts of all bars, longest part first on each bar.
pub fn marks(cuts: &[TimberCut]) -> Vec<Mark> {
    let mut marks = Vec::new();
    for cut in cuts {
        for (number, bar) in cut.plan.bars.iter().enumerate() {
            let Some(kind) = cut.job.bars.get(bar.stock) else { continue };
            let mut order: Vec<usize> = (0..bar.pieces.len()).collect();
            order.sort_by_key(|&part| std::cmp::Reverse(cut.job.job.parts[part].length));
            let mut from = kind.stretch.from.0;
            for part in order {
                for _ in 0..bar.pieces[part] {
                    let at = from + cut.job.job.parts[part].length.0;
                    marks.push(Mark {
                        bar: format!("{}, bar {}", kind.name, number + 1),
                        part: cut.job.parts[part],
                        from: Tenths(from).length(),
                        at: Tenths(at).length(),
                    });
                    from = at + cut.job.job.kerf.0;
                }
            }
        }
    }
    marks
}

fn mark(s: &Solution, key: &str) -> Fig<Mark> {
    let row: usize = key.parse().map_err(|_| Why::missing(STOCK_LENGTH.spec.id))?;
    let marks = marks(&best(s)?);
    row.checked_sub(1).and_then(|row| marks.get(row).cloned()).ok_or_else(|| Why::missing(STOCK_LENGTH.spec.id))
}

fn bar_text(s: &Solution, key: &str) -> Fig<Value> {
    let row: usize = key.parse().map_err(|_| Why::missing(STOCK_LENGTH.spec.id))?;
    let cuts = best(s)?;
    let bars = cuts.iter().flat_map(|cut| cut.plan.bars.iter().map(move |bar| (cut, bar)));
    let (cut, bar) = bars.into_iter().nth(row.wrapping_sub(1)).ok_or_else(|| Why::missing(STOCK_LENGTH.spec.id))?;
    let system = s.inputs.get(&general::UNITS).unwrap_or(System::Si);
    let length = |length: Tenths| Quantity::from(length.length()).text(system);
    let pieces: Vec<String> = cut
        .job
        .parts
        .iter()
        .zip(&bar.pieces)
        .filter(|(_, count)| **count > 0)
        .map(|(part, count)| format!("{count} {part}{}", if *count == 1 { "" } else { "s" }))
        .collect();
    let kind = cut.job.bars.get(bar.stock).ok_or_else(|| Why::missing(STOCK_LENGTH.spec.id))?;
    let stretch = format!("{} from {}", kind.name, length(kind.stretch.from));
    Ok(Value::Text(format!("{stretch}: {}; {} left", pieces.join(", "), length(bar.offcut))))
}

fn proof(cuts: &[TimberCut]) -> String {
    if cuts.iter().all(|cut| cut.plan.is_proved()) {
        return "proved: no plan uses less".to_owned();
    }
    let (price, lowest) = cuts.iter().fold((0, 0), |sum, cut| (sum.0 + cut.plan.price, sum.1 + cut.plan.lowest_price));
    let less = 100.0 * (1.0 - lowest as f64 / price.max(1) as f64);
    format!("best found; none can use {less:.1} % less")
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("enclosure.timber_bars", "lengths of timber to cut", Kind::Count, &TIMBER_CUTS, |s, _| {
        Ok(Quantity::count(best(s)?.iter().map(|cut| cut.plan.bars.len()).sum()).into())
    })
    .by(
        "timber-cuts",
        "what lies there first, then the least length that gives all rails with {kerf} a cut",
        &[("kerf", "enclosure.saw_kerf")],
    ),
    Figure::word("enclosure.timber_bar", "rails cut from", &TIMBER_CUTS, bar_text).axis(Axis::TimberBar).by(
        "timber-cuts",
        "bar by bar, equal ones together",
        &[],
    ),
    Figure::new("enclosure.timber_waste", "timber left over", Kind::Length, &TIMBER_CUTS, |s, _| {
        let cuts = best(s)?;
        let left: f64 = cuts.iter().flat_map(|cut| &cut.plan.bars).map(|bar| bar.offcut.length().si()).sum();
        Ok(Length::from_si(left).into())
    })
    .by("timber-cuts", "sum of the offcuts", &[]),
    Figure::word("enclosure.timber_plan_proof", "is the timber plan the best", &TIMBER_CUTS, |s, _| {
        Ok(Value::Text(proof(&best(s)?)))
    })
    .by("timber-cuts", "length of the plan against the bound", &[]),
    Figure::word("enclosure.timber_cut_in", "timber cut in", &TIMBER_CUTS, |s, key| {
        let mark = mark(s, key)?;
        Ok(Value::Text(format!("{}: {}", mark.bar, mark.part)))
    })
    .axis(Axis::TimberCut)
    .by("timber-cuts", "longest part first on each bar", &[]),
    Figure::new("enclosure.timber_cut_at", "timber cut at", Kind::Length, &TIMBER_CUTS, |s, key| {
        Ok(mark(s, key)?.at.into())
    })
    .axis(Axis::TimberCut)
    .tape()
    .by(
        "timber-cuts",
        "trim, parts and cuts of {kerf} so far, from one end of the board; the saw runs beyond the mark",
        &[("kerf", "enclosure.saw_kerf")],
    ),
];
