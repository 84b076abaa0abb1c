//! The drilling template is true to a hundredth of a millimetre in its numbers, and to two tenths as another program
//! draws it.

use std::collections::BTreeMap;
use std::fs;
use std::process::Command;

use sunharp::model::{Address, Value};
use sunharp::project::store::RealDisk;
use sunharp::workbook::{Workbook, sample};

use super::pdf::{Page, pages};
use super::{BOATYARD, GARDEN, GARDEN_LETTER, HARBOUR, Printed, drilled, print_text};

/// ISO 216 A4 and ANSI/ASME Y14.1 A, lying.
const A4: (f64, f64) = (297.0, 210.0);
const LETTER: (f64, f64) = (279.4, 215.9);
/// Radius of a joint mark; no riser tube is so thin.
const MARK: f64 = 2.5;

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 0.01
}

/// The figures of the absorber stage that the template must show, mm.
struct Figures {
    length: f64,
    holes: [Vec<f64>; 2],
    diameter: f64,
}

fn figures(text: &str) -> Figures {
    let path = std::path::Path::new("test.toml");
    let workbook = Workbook::unsaved(std::sync::Arc::new(RealDisk), path, text, jiff::civil::date(2026, 6, 1));
    let evaluation = workbook.evaluation().clone();
    let mm = |id: &str| match evaluation.value(&Address::drawn(id)) {
        Ok(Value::Quantity(quantity)) => Some(quantity.si * 1e3),
        _ => None,
    };
    let row = |id: &str| (1..).map_while(|key| mm(&format!("{id}.{key}"))).collect();
    let riser = evaluation.drawn.absorber.harp.as_ref().unwrap().riser_outer_diameter;
    Figures {
        length: mm("absorber.header_length").unwrap(),
        holes: [row("absorber.hole"), row("absorber.hole_upper")],
        diameter: mm("absorber.hole_size").unwrap_or(sunharp::units::si::Dimension::si(riser) * 1e3),
    }
}

/// The joint marks of a page, by their names; those of one name from left to right, the upper ones first.
fn marks(page: &Page) -> BTreeMap<String, Vec<(f64, f64)>> {
    let mut found: BTreeMap<String, Vec<(f64, f64)>> = BTreeMap::new();
    for (centre, _) in page.circles.iter().filter(|(_, radius)| near(*radius, MARK)) {
        let beside = |(at, text): &&((f64, f64), String)| {
            text.starts_with('J') && (at.0 - centre.0 - 3.0).abs() < 1.0 && (at.1 - centre.1).abs() < 3.0
        };
        let (_, name) = page.words.iter().find(beside).expect("a mark without a name");
        found.entry(name.clone()).or_default().push(*centre);
    }
    found
}

/// The axis of each strip: the lines as long as the header; left end and height.
fn axes(page: &Page, length: f64) -> Vec<(f64, f64)> {
    let level = page.lines.iter().filter(|(from, to)| near(from.1, to.1) && near(to.0 - from.0, length));
    let ends: Vec<(f64, f64)> = level.map(|(from, _)| *from).collect();
    // Axis and both edges of the tube.
    assert_eq!(ends.len() % 3, 0, "{ends:?}");
    ends.chunks(3).map(|three| three[0]).collect()
}

/// Every hole of the template lies where the figures say, on every sheet that has room for it, and the sheets can be
/// joined by their marks alone.
fn measures_right(printed: &Printed, text: &str, paper: (f64, f64)) {
    let want = figures(text);
    let pages = pages(&printed.pdf);
    let strips: Vec<&Vec<f64>> = match want.holes.iter().collect::<Vec<_>>()[..] {
        [lower, upper] if lower == upper => vec![lower],
        ref both => both.to_vec(),
    };
    let mut left_end = None;
    let mut seen = vec![0; strips[0].len()];
    for (number, page) in pages.iter().enumerate() {
        assert!(near(page.size.0, paper.0) && near(page.size.1, paper.1), "{:?}", page.size);
        let sheet = format!("Sheet {} of {}", number + 1, pages.len());
        assert!(page.words.iter().any(|(_, text)| text.starts_with(&sheet) && text.contains("100 %")), "{sheet}");
        let axes = axes(page, want.length);
        assert_eq!(axes.len(), strips.len());
        // Where the left end lies by the marks that this sheet has in common with the one before.
        if let Some(before) = number.checked_sub(1) {
            let (old, new) = (marks(&pages[before]), marks(page));
            let joint = format!("J{number}");
            let (old, new) = (&old[&joint], &new[&joint]);
            assert_eq!((old.len(), new.len()), (4, 4), "{joint}");
            let shift = new[0].0 - old[0].0;
            assert!(old.iter().zip(new).all(|(a, b)| near(b.0 - a.0, shift) && near(a.1, b.1)), "{joint}");
            left_end = left_end.map(|x: f64| x + shift);
        }
        let left_end = *left_end.get_or_insert(axes[0].0);
        for ((x, y), holes) in axes.iter().zip(&strips) {
            assert!(near(*x, left_end), "the marks of sheet {} lead elsewhere than its datum", number + 1);
            for (at, count) in holes.iter().zip(&mut seen) {
                let centre = (left_end + at, *y);
                let is_hole = |(found, radius): &&((f64, f64), f64)| {
                    near(found.0, centre.0) && near(found.1, centre.1) && near(2.0 * radius, want.diameter)
                };
                let found = page.circles.iter().filter(is_hole).count();
                let inside = centre.0 - want.diameter / 2.0 > 12.5 && centre.0 + want.diameter / 2.0 < paper.0 - 12.5;
                assert!(found <= 1 && (found == 1 || !inside), "hole at {at} mm on sheet {}", number + 1);
                *count += usize::from(found == 1 && inside);
            }
        }
        let holes = page.circles.iter().filter(|(_, radius)| near(2.0 * radius, want.diameter));
        for (centre, _) in holes {
            let is_wanted = axes
                .iter()
                .zip(&strips)
                .any(|((_, y), holes)| near(*y, centre.1) && holes.iter().any(|at| near(left_end + at, centre.0)));
            assert!(is_wanted, "a hole at {centre:?} that no figure knows");
        }
    }
    assert!(seen.iter().all(|count| *count >= strips.len()), "a hole is whole on no sheet: {seen:?}");
}

fn sample_text(name: &str) -> String {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-projects");
    fs::read_to_string(root.join(name)).unwrap()
}

#[test]
fn holes_lie_where_the_figures_say_on_both_papers() {
    measures_right(&GARDEN, sample::TEXT, A4);
    measures_right(&GARDEN_LETTER, sample::TEXT, LETTER);
    measures_right(&HARBOUR, &sample_text("harbour-laundry.toml"), A4);
    measures_right(&BOATYARD, &sample_text("boatyard-shower.toml"), LETTER);
}

#[test]
fn headers_as_a_mirrored_pair_are_two_strips_and_a_stop_stands_on_every_sheet() {
    let text = drilled("").replace("joint = \"drilled\"", "joint = \"drilled\"\nheader_pair = \"mirrored\"");
    let text = text.replacen("stub_left = \"", "stub_right = \"7 in\"\nstub_left = \"", 1);
    let text = without_second_stub(&text);
    let printed = print_text(&text, "a4");
    measures_right(&printed, &text, A4);
    for page in pages(&printed.pdf) {
        let stop = |(_, text): &&((f64, f64), String)| text.starts_with("STOP") && text.contains("pressure-joints");
        assert!(page.words.iter().any(|word| stop(&word)));
        assert!(page.words.iter().any(|(_, text)| text.contains("Local codes")));
    }
}

/// The text without the sample's own right stub, so that the one put before it stands alone.
fn without_second_stub(text: &str) -> String {
    let mut first = true;
    let lines = text.lines().filter(|line| !line.starts_with("stub_right") || std::mem::take(&mut first));
    lines.collect::<Vec<_>>().join("\n")
}

/// The ruler of a page: left end, right end, height.
fn ruler(page: &Page) -> (f64, f64, f64) {
    let level = page.lines.iter().filter(|(from, to)| near(from.1, to.1) && from.1 < 30.0);
    let longest = level.max_by(|a, b| (a.1.0 - a.0.0).total_cmp(&(b.1.0 - b.0.0))).unwrap();
    (longest.0.0, longest.1.0, longest.0.1)
}

#[test]
fn the_ruler_is_250_mm_or_10_inches_on_every_sheet() {
    for (printed, length, strokes) in [(&GARDEN, 250.0, 251), (&GARDEN_LETTER, 254.0, 161)] {
        for page in pages(&printed.pdf) {
            let (left, right, y) = ruler(&page);
            assert!(near(right - left, length), "{left} to {right}");
            let ticks: Vec<f64> = page
                .lines
                .iter()
                .filter(|(from, to)| near(from.1, y) && near(from.0, to.0))
                .map(|line| line.0.0)
                .collect();
            assert_eq!(ticks.len(), strokes);
            let step = length / (strokes - 1) as f64;
            assert!(ticks.iter().enumerate().all(|(number, x)| near(*x, left + step * number as f64)));
        }
    }
}

/// A grey picture of a page.
struct Raster {
    width: usize,
    height: usize,
    grey: Vec<u8>,
}

/// Dots of an inch.
const DPI: f64 = 600.0;

impl Raster {
    /// The middle of each dark stretch along a height above the lower edge, mm from the left edge.
    fn strokes(&self, above: f64) -> Vec<f64> {
        let row = self.height - 1 - (above / 25.4 * DPI) as usize;
        let dots = &self.grey[row * self.width..(row + 1) * self.width];
        let mut strokes = Vec::new();
        let mut begun = None;
        for (at, grey) in dots.iter().chain([&255]).enumerate() {
            match (*grey < 128, begun) {
                (true, None) => begun = Some(at),
                (false, Some(from)) => {
                    strokes.push((from + at) as f64 / 2.0 / DPI * 25.4);
                    begun = None;
                }
                _ => {}
            }
        }
        strokes
    }
}

/// A page as poppler's pdftoppm draws it; none where that program is not installed, which CI does not let pass.
fn raster(pdf: &[u8], page: usize) -> Option<Raster> {
    let folder = tempfile::tempdir().unwrap();
    let (file, out) = (folder.path().join("template.pdf"), folder.path().join("page"));
    fs::write(&file, pdf).unwrap();
    let page = page.to_string();
    let dpi = DPI.to_string();
    let mut command = Command::new("pdftoppm");
    command.args(["-gray", "-singlefile", "-r", &dpi, "-f", &page, "-l", &page]).arg(&file).arg(&out);
    match command.output() {
        Ok(output) => assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr)),
        Err(error) if std::env::var_os("CI").is_some() => {
            panic!("pdftoppm of poppler-utils is missing, .ci/run installs it: {error}")
        }
        Err(error) => {
            eprintln!("skipped: the template is drawn by a second program only where pdftoppm is installed ({error})");
            return None;
        }
    }
    let bytes = fs::read(out.with_extension("pgm")).unwrap();
    // Netpbm's PGM: P5, width, height, greatest grey, then a byte for each dot.
    let head: Vec<&[u8]> = bytes.splitn(5, u8::is_ascii_whitespace).collect();
    let number = |at: usize| std::str::from_utf8(head[at]).unwrap().parse::<usize>().unwrap();
    assert_eq!((head[0], number(3)), (&b"P5"[..], 255));
    let raster = Raster { width: number(1), height: number(2), grey: head[4].to_vec() };
    assert_eq!(raster.grey.len(), raster.width * raster.height);
    Some(raster)
}

/// Acceptance 4 of the issue: a second program's rendering agrees within 0.2 mm over 250 mm.
#[test]
fn a_second_program_draws_ruler_and_holes_where_they_belong() {
    for (printed, length) in [(&GARDEN, 250.0), (&GARDEN_LETTER, 254.0)] {
        let page = &pages(&printed.pdf)[0];
        let Some(raster) = raster(&printed.pdf, 1) else { return };
        // Above every stroke of the ruler but the two at its ends.
        let (_, _, foot) = ruler(page);
        let ends = raster.strokes(foot + 8.0);
        assert_eq!(ends.len(), 2, "{ends:?}");
        assert!((ends[1] - ends[0] - length).abs() < 0.2, "{ends:?}");
        let want = figures(sample::TEXT);
        let (left, y) = axes(page, want.length)[0];
        // Just above the circles only the crosses reach, and what ends a header.
        let strokes = raster.strokes(y + want.diameter / 2.0 + 2.0);
        let inside = want.holes[0].iter().map(|at| left + at).filter(|x| *x < page.size.0 - 20.0);
        let inside: Vec<f64> = inside.collect();
        assert!(!inside.is_empty());
        for x in &inside {
            assert!(strokes.iter().any(|stroke| (stroke - x).abs() < 0.1), "no cross at {x}: {strokes:?}");
        }
        assert!(strokes.iter().any(|stroke| (stroke - left).abs() < 0.1), "no end of the header: {strokes:?}");
    }
}
