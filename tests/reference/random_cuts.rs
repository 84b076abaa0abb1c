//! Cut plans of random designs: each can be cut as it stands, kerf counted, and gives every part.
//!
//! The rules are checked anew from the plans' own marks and places, not by what planned them.

use std::sync::Arc;

use crate::support::{Bench, Dice, SMALL};
use sunharp::physics::cutting::{Job, Plan};
use sunharp::physics::guillotine::{Placed, Sheet};
use sunharp::solve::Evaluation;
use sunharp::stage::absorber;
use sunharp::stage::absorber::tube_stock::TubeJob;
use sunharp::stage::enclosure::cutting::{self, TimberCut};
use sunharp::stage::enclosure::sheets::{self, SheetCutting};
use sunharp::stage::study::{Cancel, Outcome};

const STOCK: &str = r#"
[absorber.riser_stock.bar]
length = "6 m"

[absorber.riser_stock.short]
length = "2.8 m"
count = 5

[absorber.header_stock.bar]
length = "3 m"

[enclosure.timber_stock.a-rail]
length = "5.4 m"
defects = "1.2 m to 1.26 m"

[enclosure.timber_stock.b-rail]
length = "3.3 m"
count = 3

[enclosure.timber_stock.c-strip]
length = "2.4 m"
use = "strips"

[enclosure.timber_stock.d-cap]
length = "2.5 m"
use = "caps"

[enclosure.sheet_stock.a-ply]
length = "3 m"
width = "1.7 m"

[enclosure.sheet_stock.b-wool]
material = "insulation behind"
length = "1.2 m"
width = "0.6 m"

[enclosure.sheet_stock.c-foam]
material = "second insulation"
length = "1.2 m"
width = "0.6 m"

[enclosure.sheet_stock.d-strips]
material = "insulation around"
length = "1.2 m"
width = "0.6 m"

[enclosure.sheet_stock.e-copper]
material = "absorber sheet"
length = "3 m"
width = "0.61 m"

[panel.A]

[panel.B]
"#;

fn random_design(dice: &mut Dice) -> Bench {
    let text = SMALL.replace("\n[panel.A]\n", STOCK).replace("sheet_width = \"906 mm\"\n", "");
    let mut bench = Bench::of(&text)
        .with("enclosure.second_insulation", "phenolic foam C1126")
        .with("absorber.riser_count", &format!("{}", dice.between(5.0, 14.0) as usize))
        .with("absorber.joint", dice.pick(&["collar", "tee"]))
        .with("absorber.tee_run_shoulder", "16 mm");
    let lengths = [
        ("absorber.riser_pitch", 80.0, 110.0),
        ("absorber.header_spacing", 900.0, 2400.0),
        ("absorber.kerf", 0.0, 3.0),
        ("absorber.end_trim", 0.0, 20.0),
        ("enclosure.saw_kerf", 1.5, 4.0),
        ("enclosure.timber_trim", 0.0, 20.0),
        ("enclosure.board_kerf", 1.5, 4.0),
        ("enclosure.edge_thickness", 20.0, 40.0),
        ("enclosure.clearance", 5.0, 25.0),
        ("enclosure.rail_thickness", 18.0, 30.0),
        ("enclosure.strip_spacing", 300.0, 800.0),
        ("enclosure.second_thickness", 10.0, 40.0),
        ("enclosure.cap_overlap", 20.0, 50.0),
    ];
    for (id, low, high) in lengths {
        bench = bench.with(id, &format!("{:.1} mm", dice.between(low, high)));
    }
    let strips = dice.pick(&["0 mm", "15 mm"]);
    bench.with("enclosure.strip_height", strips)
}

/// Every bar holds its pieces with a cut between any two, every part is there, and what is left is what the plan says.
fn bars_can_be_cut(job: &Job, plan: &Plan) {
    let mut made = vec![0; job.parts.len()];
    for bar in &plan.bars {
        let stock = job.stocks[bar.stock].length.0;
        let pieces: u32 = bar.pieces.iter().sum();
        let lengths: u32 = bar.pieces.iter().zip(&job.parts).map(|(count, part)| count * part.length.0).sum();
        let used = 2 * job.end_trim.0 + lengths + pieces.saturating_sub(1) * job.kerf.0;
        assert!(used <= stock, "{bar:?} of {stock}");
        let left = stock - used;
        assert_eq!(bar.offcut.0, left.saturating_sub(job.kerf.0), "{bar:?}");
        made.iter_mut().zip(&bar.pieces).for_each(|(sum, count)| *sum += count);
    }
    let wanted: Vec<u32> = job.parts.iter().map(|part| part.count).collect();
    assert_eq!(made, wanted);
    for (kind, stock) in job.stocks.iter().enumerate() {
        let taken = plan.bars.iter().filter(|bar| bar.stock == kind).count();
        assert!(stock.available.is_none_or(|there| taken <= there as usize));
    }
    assert!(plan.lowest_price <= plan.price);
}

fn corners(sheet: &Sheet, placed: &Placed) -> [u32; 4] {
    let sides = sheet.pieces[placed.piece].sides;
    let (width, height) = if placed.turned { (sides.height.0, sides.width.0) } else { (sides.width.0, sides.height.0) };
    [placed.left.0, placed.bottom.0, placed.left.0 + width, placed.bottom.0 + height]
}

/// Every piece lies on its sheet, a kerf from any other, the right way round, as often as it is wanted; and a sequence of
/// cuts from edge to edge sets it free.
fn sheets_can_be_cut(cuts: &[SheetCutting]) {
    for cut in cuts {
        let mut made = vec![0_usize; cut.job.order.pieces.len()];
        for number in 0..cut.plan.sheets.len() {
            let sheet = cut.sheet(number).unwrap();
            let placed = &cut.plan.sheets[number].layout.placed;
            let kerf = sheet.kerf.0;
            for (index, one) in placed.iter().enumerate() {
                let [left, bottom, right, top] = corners(&sheet, one);
                assert!(right <= sheet.sides.width.0 && top <= sheet.sides.height.0);
                assert!(!one.turned || sheet.pieces[one.piece].may_turn);
                for other in &placed[index + 1..] {
                    let [l, b, r, t] = corners(&sheet, other);
                    let apart = right + kerf <= l || r + kerf <= left || top + kerf <= b || t + kerf <= bottom;
                    assert!(apart, "{one:?} meets {other:?}");
                }
                made[one.piece] += 1;
            }
            assert!(cut.sequence(number).is_some(), "cuts from edge to edge set every piece free");
        }
        let wanted: Vec<usize> = cut.job.order.pieces.iter().map(|piece| piece.most.unwrap() as usize).collect();
        assert_eq!(made, wanted);
        assert!(cut.plan.lowest <= cut.plan.sheets.len() as u64);
    }
}

fn tube(job: &sunharp::model::Fig<TubeJob>, plans: &[Arc<Plan>; 2]) {
    let job = &job.as_ref().unwrap().job;
    for plan in plans {
        bars_can_be_cut(job, plan);
    }
    assert!(plans[1].price <= plans[0].price, "the exact plan is never dearer");
}

fn timber(cuts: &[TimberCut]) {
    for cut in cuts {
        bars_can_be_cut(&cut.job.job, &cut.plan);
    }
}

fn every_plan_can_be_cut(evaluation: &Evaluation) {
    let (drawn, cancel) = (&*evaluation.drawn, Cancel::default());
    let results = &drawn.absorber;
    let Some(Outcome::RiserCuts(risers)) = absorber::cutting::study(drawn, &cancel) else { panic!("cancelled") };
    tube(&results.riser_job, &[results.riser_plan.clone().unwrap(), risers.unwrap()]);
    let Some(Outcome::HeaderCuts(headers)) = absorber::header_cuts::study(drawn, &cancel) else { panic!("cancelled") };
    tube(&results.header_job, &[results.header_plan.clone().unwrap(), headers.unwrap()]);
    let Some(Outcome::TimberCuts(boards)) = cutting::study(drawn, &cancel) else { panic!("cancelled") };
    timber(&drawn.enclosure.timber_cuts.clone().unwrap());
    timber(&boards.unwrap());
    let Some(Outcome::SheetCuts(full)) = sheets::study(drawn, &cancel) else { panic!("cancelled") };
    sheets_can_be_cut(&drawn.enclosure.sheet_cuts.clone().unwrap());
    sheets_can_be_cut(&full.unwrap());
}

#[test]
fn every_cut_plan_of_random_designs_can_be_cut_and_covers_all_parts() {
    let mut dice = Dice(0x5eed_cafe_f00d_0002);
    for _ in 0..15 {
        every_plan_can_be_cut(&random_design(&mut dice).evaluate());
    }
}

/// By hand: caps of a box of 1014 × 2014 mm with laps of 25 mm are 1014, twice 2039 and 1064 mm; from profiles of 2.5 m
/// with 10 mm trimmed at each end each side cap takes one (2480 mm), the short ones (2078 mm) one together.
#[test]
fn metal_trims_are_cut_from_their_own_profiles() {
    let profile = "[enclosure.timber_stock.cap]\nlength = \"2.5 m\"\nuse = \"caps\"\n\n\
                   [enclosure.timber_stock.rail]\nlength = \"4.2 m\"\n\n[panel.A]\n";
    let bench = Bench::of(&SMALL.replace("[panel.A]\n", profile));
    let cuts = bench.evaluate().drawn.enclosure.timber_cuts.clone().unwrap();
    assert_eq!(cuts.len(), 2);
    assert_eq!(cuts[1].job.parts, ["lower cap", "side cap", "upper cap"]);
    let lengths: Vec<u32> = cuts[1].job.job.parts.iter().map(|part| part.length.0).collect();
    assert_eq!(lengths, [10_140, 20_390, 10_640]);
    assert_eq!(cuts[1].plan.bars.len(), 3);
    bars_can_be_cut(&cuts[1].job.job, &cuts[1].plan);
}
