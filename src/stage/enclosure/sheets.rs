//! Cutting back boards, insulation and absorber sheet from whole sheets: every cut runs from edge to edge.
//!
//! A plan on shelves with its bound is there at once; a fuller one is a study. Which rectangles are wanted lives in
//! `wanted`, the search in `physics::guillotine`.

mod wanted;

use std::sync::Arc;

use super::BOX;
use super::second_layer::second_layer;
use super::timber::TimberBox;
use crate::model::{Choice, Entry, EntrySpec, Fig, Inputs, Value, Why};
use crate::physics::cutting::Tenths;
use crate::physics::guillotine::sequence::{Sequence, SheetCut, sequence};
use crate::physics::guillotine::{self, GuillotineError, Order, OrderPlan, Sheet, Sides, StockSheet};
use crate::stage::absorber::PLATE;
use crate::stage::absorber::geometry::Harp;
use crate::stage::stock::{available, tenths};
use crate::stage::study::{Cancel, Outcome};
use crate::stage::{Axis, Figure, Group, Solution};
use crate::units::si::Length;
use crate::units::{Kind, Quantity};
use wanted::{absorber_sheets, area, back_boards, edge_strips, pieces, tiles};

/// Material of a sheet.
pub static STOCK_MATERIAL: Entry<Material> =
    Entry::choice("enclosure.sheet_stock.*.material", "sheet is").why("what it is cut into").default("plywood");

/// Length of a sheet.
pub static STOCK_LENGTH: Entry<Length> = Entry::quantity("enclosure.sheet_stock.*.length", "sheet length")
    .why("along the grain of its face; edges that are knocked are taken off before")
    .hard(0.05, 20.0);

/// Width of a sheet.
pub static STOCK_WIDTH: Entry<Length> =
    Entry::quantity("enclosure.sheet_stock.*.width", "sheet width").why("across the grain").hard(0.05, 5.0);

/// How many there are.
pub static STOCK_COUNT: Entry<usize> = Entry::count("enclosure.sheet_stock.*.count", "sheet count")
    .why("how many lie in the shop; leave it out for as many as you care to buy");

/// Kerf in plywood.
pub static KERF: Entry<Length> = Entry::quantity("enclosure.board_kerf", "width of a cut in plywood")
    .why("3.2 mm for a full blade, from memory; knife and shears take nothing")
    .hard(0.0, 0.01)
    .default("3.2 mm");

/// Whether a back board may lie across the grain.
pub static MAY_TURN: Entry<bool> = Entry::flag("enclosure.board_may_turn", "back board across the grain")
    .why("whether a back board may lie across the grain of the sheet; along it the board is stiffer")
    .default("no");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] =
    &[&STOCK_MATERIAL.spec, &STOCK_LENGTH.spec, &STOCK_WIDTH.spec, &STOCK_COUNT.spec, &KERF.spec, &MAY_TURN.spec];

/// What is cut from sheets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Material {
    /// Back boards.
    Plywood,
    /// Insulation behind the plate.
    Behind,
    /// Second insulation, on the back board.
    Second,
    /// Insulation around the plate.
    Around,
    /// Absorber sheet.
    Absorber,
}

impl Material {
    const ALL: [Self; 5] = [Self::Plywood, Self::Behind, Self::Second, Self::Around, Self::Absorber];
}

impl Choice for Material {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Plywood, "plywood", "back boards, sawn"),
        (Self::Behind, "insulation behind", "boards behind the plate, cut with a knife; joints butted"),
        (
            Self::Second,
            "second insulation",
            "boards of the second layer, cut with a knife; joints over those of the first",
        ),
        (Self::Around, "insulation around", "strips at the edge, cut with a knife"),
        (Self::Absorber, "absorber sheet", "sheared; joints lie midway between risers"),
    ];
}

/// The cuts of sheets.
pub static SHEET_CUTS: Group = Group {
    name: "cutting the sheets",
    entries: &[
        "enclosure.sheet_stock.*.material",
        "enclosure.sheet_stock.*.length",
        "enclosure.sheet_stock.*.width",
        "enclosure.sheet_stock.*.count",
        "enclosure.board_kerf",
        "enclosure.board_may_turn",
        "enclosure.second_insulation",
    ],
    groups: &[&BOX, &PLATE],
};

/// An order with the names of its stocks and pieces.
#[derive(Clone, Debug)]
pub struct SheetJob {
    /// What is cut.
    pub material: Material,
    /// The names of the stocks, as in the file.
    pub stocks: Vec<String>,
    /// The names of the pieces.
    pub pieces: Vec<&'static str>,
    /// The order.
    pub order: Order,
}

/// A job and a plan for it.
#[derive(Clone, Debug)]
pub struct SheetCutting {
    /// The job.
    pub job: Arc<SheetJob>,
    /// The plan.
    pub plan: OrderPlan,
    /// The order of cuts on each sheet of the plan.
    sequences: Vec<Option<Sequence>>,
}

/// The jobs of the project: one for each material of which there are sheets.
pub fn jobs(inputs: &Inputs, harp: &Harp, timber_box: &TimberBox) -> Fig<Vec<Arc<SheetJob>>> {
    let rows = inputs.rows("enclosure.sheet_stock");
    if rows.is_empty() {
        return Err(Why::missing(STOCK_LENGTH.spec.id));
    }
    let panels = inputs.panels().len().max(1);
    let mut jobs = Vec::new();
    for material in Material::ALL {
        let (mut stocks, mut names) = (Vec::new(), Vec::new());
        for name in &rows {
            if inputs.at(&STOCK_MATERIAL, name)? == material {
                stocks.push(stock(inputs, name)?);
                names.push(name.clone());
            }
        }
        let Some(largest) = stocks.iter().map(|stock| stock.sides).max_by_key(|sides| area(*sides)) else { continue };
        let wanted = match material {
            Material::Plywood => back_boards(timber_box, panels),
            Material::Behind => tiles(timber_box, largest, panels),
            Material::Around => edge_strips(inputs, harp, timber_box, largest, panels)?,
            Material::Second => match second_layer(inputs)? {
                Some(_) => tiles(timber_box, largest, panels),
                None => continue,
            },
            Material::Absorber => absorber_sheets(harp, largest, panels)?,
        };
        // What lies there is used first, whatever order it was entered in.
        let mut order: Vec<usize> = (0..stocks.len()).collect();
        order.sort_by_key(|&index| (stocks[index].available.is_none(), index));
        let sawn = material == Material::Plywood;
        jobs.push(Arc::new(SheetJob {
            material,
            stocks: order.iter().map(|&index| names[index].clone()).collect(),
            pieces: wanted.iter().map(|(name, ..)| *name).collect(),
            order: Order {
                stocks: order.iter().map(|&index| stocks[index]).collect(),
                kerf: if sawn { tenths(inputs.get(&KERF)?)? } else { Tenths(0) },
                pieces: pieces(&wanted, !sawn || inputs.get(&MAY_TURN)?)?,
            },
        }));
    }
    Ok(jobs)
}

fn stock(inputs: &Inputs, name: &str) -> Fig<StockSheet> {
    let available = available(inputs, &STOCK_COUNT, name)?;
    let sides =
        Sides { width: tenths(inputs.at(&STOCK_LENGTH, name)?)?, height: tenths(inputs.at(&STOCK_WIDTH, name)?)? };
    Ok(StockSheet { sides, available })
}

/// Plans at once, on shelves.
pub fn first(jobs: &Fig<Vec<Arc<SheetJob>>>) -> Fig<Arc<Vec<SheetCutting>>> {
    planned(jobs, guillotine::first_fit)
}

fn planned(
    jobs: &Fig<Vec<Arc<SheetJob>>>,
    plan: fn(&Order) -> Result<OrderPlan, GuillotineError>,
) -> Fig<Arc<Vec<SheetCutting>>> {
    let cut = |job: &Arc<SheetJob>| {
        let plan = plan(&job.order).map_err(|error| match error {
            GuillotineError::PieceTooLarge(piece) => Why::out_of_range(format!(
                "the {} is larger than every sheet of {}",
                job.pieces.get(piece).copied().unwrap_or("piece"),
                job.material.word()
            )),
            error => Why::out_of_range(format!("{}: {error}", job.material.word())),
        })?;
        Ok(SheetCutting::new(Arc::clone(job), plan))
    };
    jobs.as_ref().map_err(Why::clone)?.iter().map(cut).collect::<Fig<Vec<_>>>().map(Arc::new)
}

/// The study: fuller plans.
pub fn study(solution: &Solution, cancel: &Cancel) -> Option<Outcome> {
    let plans = planned(&solution.enclosure.sheet_jobs, guillotine::best);
    (!cancel.is_cancelled()).then_some(Outcome::SheetCuts(plans))
}

/// The best plans there are: those of the study if they are back, else those on shelves.
pub fn best(s: &Solution) -> Fig<Arc<Vec<SheetCutting>>> {
    match &s.studies.sheet_cuts {
        Err(Why::Pending) => s.enclosure.sheet_cuts.clone(),
        found => found.clone(),
    }
}

impl SheetCutting {
    fn new(job: Arc<SheetJob>, plan: OrderPlan) -> Self {
        let mut cutting = Self { job, plan, sequences: Vec::new() };
        let numbers = 0..cutting.plan.sheets.len();
        cutting.sequences =
            numbers.map(|number| sequence(&cutting.sheet(number)?, &cutting.plan.sheets[number].layout)).collect();
        cutting
    }

    /// The job of one sheet of the plan.
    pub fn sheet(&self, number: usize) -> Option<Sheet> {
        let stock = self.job.order.stocks.get(self.plan.sheets.get(number)?.stock)?;
        Some(Sheet { sides: stock.sides, kerf: self.job.order.kerf, pieces: self.job.order.pieces.clone() })
    }

    /// The order of cuts on one sheet of the plan.
    pub fn sequence(&self, number: usize) -> Option<&Sequence> {
        self.sequences.get(number)?.as_ref()
    }

    /// What one sheet of the plan is called.
    fn name(&self, number: usize) -> String {
        let stock = self.plan.sheets.get(number).and_then(|kind| self.job.stocks.get(kind.stock));
        format!("{}, sheet {}", stock.map_or("", String::as_str), number + 1)
    }
}

/// Every sheet of all plans.
fn every(cuts: &[SheetCutting]) -> impl Iterator<Item = (&SheetCutting, usize)> {
    cuts.iter().flat_map(|cut| (0..cut.plan.sheets.len()).map(move |number| (cut, number)))
}

/// How many sheets all plans take.
pub fn count(s: &Solution) -> usize {
    best(s).map_or(0, |cuts| every(&cuts).count())
}

/// One cut of one sheet.
#[derive(Clone, Copy, Debug)]
pub struct Mark<'a> {
    cutting: &'a SheetCutting,
    sheet: usize,
    /// Its place in the order of cuts.
    place: usize,
    cut: SheetCut,
}

impl Mark<'_> {
    /// Sheet and direction.
    fn words(&self) -> String {
        let way = if self.cut.upright { "across, from the left end" } else { "along, from the lower edge" };
        format!("{}, cut {}: {way}", self.cutting.name(self.sheet), self.place + 1)
    }

    /// From the left or lower edge of the sheet.
    fn at(&self) -> Length {
        self.cut.at.length()
    }
}

/// All cuts of all sheets in order.
pub fn marks(cuts: &[SheetCutting]) -> impl Iterator<Item = Mark<'_>> {
    every(cuts).flat_map(|(cutting, sheet)| {
        let made = cutting.sequence(sheet).map_or(&[][..], |sequence| &sequence.cuts);
        made.iter().enumerate().map(move |(place, cut)| Mark { cutting, sheet, place, cut: *cut })
    })
}

fn mark<'a>(cuts: &'a [SheetCutting], key: &str) -> Fig<Mark<'a>> {
    let missing = || Why::missing(STOCK_LENGTH.spec.id);
    let row: usize = key.parse().map_err(|_| missing())?;
    row.checked_sub(1).and_then(|row| marks(cuts).nth(row)).ok_or_else(missing)
}

fn sheet_text(s: &Solution, key: &str) -> Fig<Value> {
    let row: usize = key.parse().map_err(|_| Why::missing(STOCK_LENGTH.spec.id))?;
    let cuts = best(s)?;
    let (cut, number) = every(&cuts).nth(row.wrapping_sub(1)).ok_or_else(|| Why::missing(STOCK_LENGTH.spec.id))?;
    let kind = &cut.plan.sheets[number];
    let mut words: Vec<String> = Vec::new();
    for (piece, name) in cut.job.pieces.iter().enumerate() {
        let made = kind.layout.placed.iter().filter(|placed| placed.piece == piece).count();
        if made > 0 {
            words.push(format!("{made} {name}"));
        }
    }
    let all = area(cut.job.order.stocks[kind.stock].sides);
    let used: u64 = kind.layout.placed.iter().map(|placed| area(cut.job.order.pieces[placed.piece].sides)).sum();
    let yielded = 100.0 * used as f64 / all.max(1) as f64;
    Ok(Value::Text(format!("{}: {}; {yielded:.0} % used", cut.name(number), words.join(", "))))
}

fn proof(cuts: &[SheetCutting]) -> String {
    let (sheets, lowest) =
        cuts.iter().fold((0, 0), |sum, cut| (sum.0 + cut.plan.sheets.len() as u64, sum.1 + cut.plan.lowest));
    if sheets <= lowest {
        "proved: no plan uses fewer".to_owned()
    } else {
        format!("best found {sheets}, bound {lowest}")
    }
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("enclosure.sheets", "sheets to cut", Kind::Count, &SHEET_CUTS, |s, _| {
        Ok(Quantity::count(every(&best(s)?).count()).into())
    })
    .by(
        "sheet-cuts",
        "what lies there first, then fewest that give all pieces with {kerf} a cut",
        &[("kerf", "enclosure.board_kerf")],
    ),
    Figure::word("enclosure.sheet_cut_into", "sheet gives", &SHEET_CUTS, sheet_text).axis(Axis::SheetPlan).by(
        "sheet-cuts",
        "sheet by sheet",
        &[],
    ),
    Figure::word("enclosure.sheet_plan_proof", "is the sheet plan the best", &SHEET_CUTS, |s, _| {
        Ok(Value::Text(proof(&best(s)?)))
    })
    .by("sheet-cuts", "number of sheets against the bound", &[]),
    Figure::word("enclosure.sheet_cut_in", "sheet cut in", &SHEET_CUTS, |s, key| {
        Ok(Value::Text(mark(&best(s)?, key)?.words()))
    })
    .axis(Axis::SheetCut)
    .by("sheet-cuts", "the part nearer to the lower left corner is finished first", &[]),
    Figure::new("enclosure.sheet_cut_at", "sheet cut at", Kind::Length, &SHEET_CUTS, |s, key| {
        Ok(mark(&best(s)?, key)?.at().into())
    })
    .axis(Axis::SheetCut)
    .tape()
    .by("sheet-cuts", "from the lower left corner of the sheet; the saw runs beyond the mark", &[]),
];
