//! One sheet of the template: what is said, the strips with their holes, the joint marks, the ruler.

use pdf_writer::Content;

use super::layout::{Layout, MARGIN};
use super::pen::{Pen, Stroke};
use crate::model::paper::Paper;
use crate::stage::safety::questions::LAST_WORD;

/// A header as it is marked and drilled; lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// Which header.
    pub name: String,
    /// From end to end.
    pub length: f64,
    /// Outside of the tube.
    pub tube: f64,
    /// Where each hole lies from the left end, and how the workbook prints that.
    pub holes: Vec<(f64, String)>,
    /// Whether holes are drilled at all; with tees the crosses are only marks.
    pub drilled: bool,
    /// What the circles show.
    pub diameter: f64,
}

/// What is written on every sheet.
#[derive(Clone, Debug)]
pub struct Words {
    /// The first line.
    pub title: String,
    /// What says stop; empty if nothing does.
    pub stops: String,
    /// What the circles are.
    pub circle: String,
    /// What can hurt at this job.
    pub cautions: Vec<String>,
    /// The paper, which decides the ruler.
    pub paper: Paper,
}

/// How far a cross reaches beyond its circle, mm.
const CROSS: f64 = 3.0;
/// Radius of a joint mark, mm.
const MARK: f64 = 2.5;
/// From the edge of a strip to the joint marks, mm.
const TO_MARKS: f64 = 16.0;
/// Room for what is said above the strips, mm.
const SAID: f64 = 64.0;
/// From one strip to the next, mm, beside the width of the tube.
const BETWEEN: f64 = 16.0;
/// Height of the ruler's line, mm.
const RULER: f64 = 18.0;
/// Millimetres of an inch.
const INCH: f64 = 25.4;

/// Draws a sheet.
pub fn draw(layout: &Layout, strips: &[Strip], words: &Words, page: usize, size: (f64, f64)) -> Content {
    let mut pen = Pen::default();
    let first = page / layout.windows * layout.per_sheet;
    let here: Vec<&Strip> = strips.iter().skip(first).take(layout.per_sheet).collect();
    say(&mut pen, layout, words, &here, page, size.1);
    let window = layout.window(page);
    let mut y = size.1 - SAID;
    let top = y;
    for strip in here {
        y -= strip.tube / 2.0;
        pen.inside((layout.x(page, window.start), 0.0), (window.end - window.start, size.1));
        draw_strip(&mut pen, layout, strip, page, y);
        pen.free();
        y -= strip.tube / 2.0 + BETWEEN;
    }
    let rows = [top + TO_MARKS, y + BETWEEN - TO_MARKS / 2.0];
    let joints = [page.checked_sub(1).filter(|_| !page.is_multiple_of(layout.windows)), Some(page)];
    for joint in joints.into_iter().flatten() {
        draw_joint(&mut pen, layout, page, joint, rows);
    }
    draw_ruler(&mut pen, words.paper, size.0);
    pen.finish()
}

/// Everything that is said, line by line from the top.
fn say(pen: &mut Pen, layout: &Layout, words: &Words, here: &[&Strip], page: usize, height: f64) {
    let names: Vec<&str> = here.iter().map(|strip| strip.name.as_str()).collect();
    let mut lines = vec![
        format!(
            "Sheet {} of {}: {}. Print at 100 %, no scaling, not fitted to the page. Measure the ruler before you use it.",
            page + 1,
            layout.pages,
            names.join(", ")
        ),
        format!(
            "Every position runs from the left end of its header, the datum. Dashed: outside of the tube. {}",
            words.circle
        ),
    ];
    if layout.windows > 1 {
        let last = here.iter().find_map(|strip| strip.holes.last()).map_or("", |(_, text)| text);
        lines.push(format!(
            "Marks J: lay the next sheet over this one until both pairs of one number meet. Left end to last cross: {last}."
        ));
    }
    lines.push(words.stops.clone());
    lines.extend(words.cautions.iter().cloned());
    lines.push(LAST_WORD.to_owned());
    lines.retain(|line| !line.is_empty());
    pen.words((MARGIN, height - 14.0), 12.0, &words.title);
    for (row, line) in lines.iter().enumerate() {
        pen.words((MARGIN, height - 20.0 - 4.4 * row as f64), 8.5, line);
    }
}

fn draw_strip(pen: &mut Pen, layout: &Layout, strip: &Strip, page: usize, y: f64) {
    let x = |at: f64| layout.x(page, at);
    let half = strip.tube / 2.0;
    pen.line(Stroke::Fine, (x(0.0), y), (x(strip.length), y));
    for edge in [y - half, y + half] {
        pen.line(Stroke::Dashed, (x(0.0), edge), (x(strip.length), edge));
    }
    for end in [0.0, strip.length] {
        pen.line(Stroke::Fine, (x(end), y - half - CROSS), (x(end), y + half + CROSS));
    }
    pen.words((x(0.0) + 1.5, y - half - CROSS - 1.4), 7.5, &format!("{}, left end: datum", strip.name));
    let radius = strip.diameter / 2.0;
    let window = layout.window(page);
    for (number, (at, text)) in strip.holes.iter().enumerate() {
        let reach = radius + CROSS;
        if at + reach < window.start || at - reach > window.end {
            continue;
        }
        let stroke = if strip.drilled { Stroke::Fine } else { Stroke::Dashed };
        pen.circle(stroke, (x(*at), y), radius);
        pen.cross((x(*at), y), reach);
        let above = y + half.max(reach);
        pen.centred((x(*at), above + 4.6), 10.0, &(number + 1).to_string());
        pen.centred((x(*at), above + 1.4), 7.5, text);
    }
}

/// The marks of the joint behind a sheet, drawn on both sheets at the same places of the header.
fn draw_joint(pen: &mut Pen, layout: &Layout, page: usize, joint: usize, rows: [f64; 2]) {
    for at in layout.marks(joint).into_iter().flatten() {
        for y in rows {
            let centre = (layout.x(page, at), y);
            pen.circle(Stroke::Fine, centre, MARK);
            pen.cross(centre, MARK + 1.5);
            pen.words((centre.0 + 3.0, y + 1.5), 7.5, &format!("J{}", joint % layout.windows + 1));
        }
    }
}

/// A ruler to check the printer by: 250 mm, or 10 in on the paper of those who measure in inches.
fn draw_ruler(pen: &mut Pen, paper: Paper, width: f64) {
    let (step, count, length, long) = match paper {
        Paper::A4 => (1.0, 250, 250.0, "250 mm"),
        Paper::Letter => (INCH / 16.0, 160, 10.0 * INCH, "10 in"),
    };
    let left = (width - length) / 2.0;
    pen.line(Stroke::Fine, (left, RULER), (left + length, RULER));
    for number in 0..=count {
        let x = left + step * f64::from(number);
        let (tick, text) = match paper {
            Paper::A4 => metric_tick(number),
            Paper::Letter => inch_tick(number),
        };
        let tick = if number == 0 || number == count { 9.0 } else { tick };
        pen.line(Stroke::Fine, (x, RULER), (x, RULER + tick));
        if !text.is_empty() {
            pen.centred((x, RULER - 3.6), 7.5, &text);
        }
    }
    let words = format!(
        "This ruler is {long} long from its first to its last stroke. Off by more than 0.5 mm (1/64 in): throw the sheets \
         away and print again at 100 %."
    );
    pen.words((left, RULER - 8.0), 8.0, &words);
}

fn metric_tick(number: i32) -> (f64, String) {
    match (number % 10, number % 5) {
        (0, _) => (6.0, number.to_string()),
        (_, 0) => (4.0, String::new()),
        _ => (2.5, String::new()),
    }
}

fn inch_tick(number: i32) -> (f64, String) {
    match number {
        whole if whole % 16 == 0 => (6.0, (whole / 16).to_string()),
        half if half % 8 == 0 => (5.0, String::new()),
        quarter if quarter % 4 == 0 => (4.0, String::new()),
        eighth if eighth % 2 == 0 => (3.0, String::new()),
        _ => (2.0, String::new()),
    }
}
