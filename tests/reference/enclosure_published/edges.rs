//! Cutting plans at their edges, and copper hotter than the usual plate: by hand.

use super::super::close;
use crate::support::Bench;
use sunharp::model::Verdict::Unknown;
use sunharp::physics::cutting::{CuttingError, Job, Part, Stock, Tenths, cheapest, first_fit_decreasing};
use sunharp::physics::guillotine::{GuillotineError, Piece, Sheet, Sides, most_valuable};

fn job(parts: &[(u32, u32)], stock: u32, kerf: u32) -> Job {
    Job {
        parts: parts.iter().map(|&(length, count)| Part { length: Tenths(length), count }).collect(),
        stocks: vec![Stock { length: Tenths(stock), available: None, price: 1 }],
        kerf: Tenths(kerf),
        end_trim: Tenths(0),
    }
}

/// n parts and n − 1 cuts fill a bar to the tenth of a millimetre; a tenth more takes a second bar (by hand).
#[test]
fn parts_that_fill_a_bar_to_the_last_tenth_come_from_one_bar() {
    for kerf in [0, 18, 32] {
        for count in 1..=6 {
            let length = 3000;
            let full = count * length + (count - 1) * kerf;
            for (stock, bars) in [(full, 1), (full - 1, 2)] {
                if count == 1 && bars == 2 {
                    let refused = cheapest(&job(&[(length, count)], stock, kerf));
                    assert_eq!(refused, Err(CuttingError::PartTooLong(0)));
                    continue;
                }
                let plan = cheapest(&job(&[(length, count)], stock, kerf)).unwrap();
                assert_eq!((plan.price, plan.is_proved()), (bars, true), "{count} parts, cut {kerf}");
                assert!(first_fit_decreasing(&job(&[(length, count)], stock, kerf)).unwrap().price >= bars);
            }
        }
    }
    let none = cheapest(&job(&[(3000, 0)], 5000, 32)).unwrap();
    assert_eq!((none.price, none.bars.len()), (0, 0));
}

/// Two pieces and the cut between them fill a sheet; turned where they may be, refused where they may not (by hand).
#[test]
fn pieces_that_fill_a_sheet_are_laid_and_those_that_must_turn_may() {
    let sheet = |width: u32, height: u32, may_turn: bool| Sheet {
        sides: Sides { width: Tenths(width), height: Tenths(height) },
        kerf: Tenths(32),
        pieces: vec![Piece {
            sides: Sides { width: Tenths(6000), height: Tenths(4000) },
            value: 1,
            most: Some(2),
            may_turn,
        }],
    };
    let laid = |width, height, may_turn| most_valuable(&sheet(width, height, may_turn)).map(|layout| layout.value);
    assert_eq!(laid(12_032, 4000, false), Ok(2));
    assert_eq!(laid(12_031, 4000, false), Ok(1));
    assert_eq!(laid(4000, 12_032, true), Ok(2));
    assert_eq!(laid(4000, 12_032, false), Err(GuillotineError::PieceTooLarge(0)));
    assert_eq!(laid(6000, 4000, false), Ok(1));
}

/// A selective coating drives the empty plate beyond 200 °C, where the mean coefficient to 392 °F ends: then 9.8e-6 /°F,
/// printed to 572 °F (page "Copper Thermal Expansion", verified), holds; the box still gets its holes and clearances.
#[test]
fn copper_of_a_selective_plate_has_its_growth() {
    let hot = Bench::small()
        .with("absorber.emittance", "5 %")
        .with("enclosure.glass", "tempered low-iron")
        .with("enclosure.back_thickness", "100 mm");
    let plate = hot.number("absorber.stagnation_worst");
    assert!(plate > 200.0, "{plate}");
    let per_kelvin = 9.8e-6 * 1.8;
    close(hot.number("enclosure.riser_growth"), per_kelvin * 1.877_425 * (plate - 20.0), 1e-9);
    close(hot.number("absorber.header_growth"), per_kelvin * 1.106 * (plate - 20.0), 1e-9);
    for check in ["enclosure.growth-gap", "absorber.room-to-grow", "enclosure.stub-hole"] {
        assert_ne!(hot.verdict(check), Unknown, "{check}");
    }
}
