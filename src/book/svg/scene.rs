//! A drawing to a round scale, with its dimensions and words kept clear of each other.

use super::{LETTER, Svg, WIDEST, width_of};
use crate::model::scene::{Part, Scene, Shape};
use crate::units::System;

/// Scales that a ruler knows, 1 to so many.
const SCALES: [f64; 16] = [1.0, 2.0, 2.5, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 75.0, 100.0, 200.0];
/// Highest drawing, mm.
const HIGHEST: f64 = 200.0;
/// Room around a drawing for lines and words, mm.
const ROOM: f64 = 6.0;
/// Half a stroke across the end of a dimension line, mm.
const END: f64 = 1.2;
/// From one line of words to the next, mm.
const LINE: f64 = 1.25 * LETTER;
/// How often words are moved down to find room.
const TRIES: u32 = 12;

/// Words with their place, kept clear of those before.
#[derive(Default)]
struct Words(Vec<(f64, f64, f64)>);

impl Words {
    /// The foot of the words nearest to the one wished, so that nothing is written over.
    fn place(&mut self, x: f64, y: f64, width: f64) -> f64 {
        let clear = |y: f64, taken: &(f64, f64, f64)| {
            let (left, foot, wide) = *taken;
            x + width < left || left + wide < x || (foot - y).abs() >= LINE * 0.95
        };
        let shifted = (0..TRIES).map(|step| y + f64::from(step) * LINE);
        let free = shifted.into_iter().find(|y| self.0.iter().all(|taken| clear(*y, taken))).unwrap_or(y);
        self.0.push((x, free, width));
        free
    }

    fn lowest(&self) -> f64 {
        self.0.iter().map(|(_, foot, _)| *foot).fold(0.0, f64::max)
    }
}

/// The smallest reduction that fits the paper; none for a drawing of no or endless extent.
fn scale(size: (f64, f64)) -> Option<f64> {
    let fits = |scale: &f64| size.0 / scale <= WIDEST - 2.0 * ROOM && size.1 / scale <= HIGHEST - 2.0 * ROOM;
    let is_drawable = size.0.is_finite() && size.1.is_finite() && size.0 > 0.0;
    SCALES
        .into_iter()
        .find(fits)
        .or_else(|| {
            let least = (size.0 / (WIDEST - 2.0 * ROOM)).max(size.1 / (HIGHEST - 2.0 * ROOM));
            Some((least / 100.0).ceil() * 100.0)
        })
        .filter(|_| is_drawable)
}

/// Draws a scene; the scale stands below it. `length` prints millimetres in the project's units.
pub fn scene(scene: &Scene, title: &str, system: System, length: &dyn Fn(f64) -> String) -> String {
    let Some(scale) = scale(scene.size) else { return String::new() };
    let (wide, high) = (scene.size.0 / scale, scene.size.1 / scale);
    let at = |(x, y): (f64, f64)| (ROOM + x / scale, ROOM + high - y / scale);
    let mut svg = Svg::new((WIDEST, 0.0));
    let mut words = Words::default();
    for shape in &scene.shapes {
        match shape {
            Shape::Rectangle { part, x, y, width, height } => {
                svg.rectangle(class(*part), at((*x, y + height)), (width / scale, height / scale));
            }
            Shape::Line { part: Part::Dimension, from, to } => {
                let text = length((to.0 - from.0).hypot(to.1 - from.1));
                dimension(&mut svg, &mut words, at(*from), at(*to), &text);
            }
            Shape::Named { from, to, letter } => {
                dimension(&mut svg, &mut words, at(*from), at(*to), &letter.to_string());
            }
            Shape::Line { part, from, to } => svg.path(class(*part), &[at(*from), at(*to)]),
            Shape::Circle { part, centre, radius } => hole(&mut svg, class(*part), at(*centre), radius / scale),
            Shape::Label { .. } => {}
        }
    }
    // Words come last, over every shape.
    for shape in &scene.shapes {
        if let Shape::Label { at: place, text } = shape {
            label(&mut svg, &mut words, at(*place), text);
        }
    }
    let foot = (ROOM + high).max(words.lowest()) + 2.0 * LINE;
    bar(&mut svg, scale, foot, system);
    svg.size = ((wide + 2.0 * ROOM).max(WIDEST), foot + LINE);
    svg.finish(title)
}

const fn class(part: Part) -> &'static str {
    match part {
        Part::Tube => "tube",
        Part::Sheet => "plate",
        Part::Timber => "timber",
        Part::Hole => "hole",
        Part::Dimension => "dim",
    }
}

/// A hole with its centre; one too small to be seen is drawn as a dot.
fn hole(svg: &mut Svg, class: &str, (x, y): (f64, f64), radius: f64) {
    let radius = radius.max(0.4);
    svg.circle(class, (x, y), radius);
    if radius > 0.8 {
        svg.path("dim", &[(x - radius - 0.6, y), (x + radius + 0.6, y)]);
        svg.path("dim", &[(x, y - radius - 0.6), (x, y + radius + 0.6)]);
    }
}

fn dimension(svg: &mut Svg, words: &mut Words, from: (f64, f64), to: (f64, f64), text: &str) {
    svg.path("dim", &[from, to]);
    let length = (to.0 - from.0).hypot(to.1 - from.1).max(f64::MIN_POSITIVE);
    let across = (END * (to.1 - from.1) / length, END * (from.0 - to.0) / length);
    for end in [from, to] {
        svg.path("dim", &[(end.0 - across.0, end.1 - across.1), (end.0 + across.0, end.1 + across.1)]);
    }
    let middle = (f64::midpoint(from.0, to.0), f64::midpoint(from.1, to.1));
    if (to.0 - from.0).abs() >= (to.1 - from.1).abs() {
        let half = width_of(text) / 2.0;
        words.0.push((middle.0 - half, middle.1 - 1.0, 2.0 * half));
        svg.words("middle", (middle.0, middle.1 - 1.0), text);
    } else {
        svg.upright_words((middle.0 - 1.0, middle.1), text);
    }
}

/// Words that begin at a point, kept on the paper; a thin line leads to the point where they were moved away.
fn label(svg: &mut Svg, words: &mut Words, at: (f64, f64), text: &str) {
    let width = width_of(text);
    let x = at.0.min(WIDEST - width).max(0.0);
    let wished = at.1 + LETTER / 3.0;
    let y = words.place(x, wished, width);
    if y > wished + 0.5 * LINE {
        svg.path("lead", &[at, (x, y - LETTER)]);
    }
    svg.words("start", (x, y), text);
}

/// A bar of a round length in the units of the project, and the scale in words.
fn bar(svg: &mut Svg, scale: f64, foot: f64, system: System) {
    let (unit, symbol) = match system {
        System::Si => (1.0, "mm"),
        System::Us => (25.4, "in"),
    };
    let wished = 40.0 * scale / unit;
    let power = 10_f64.powf(wished.log10().floor());
    let round = [5.0, 2.0, 1.0].into_iter().map(|digit| digit * power).find(|round| *round <= wished).unwrap_or(power);
    let right = ROOM + round * unit / scale;
    svg.path("bar", &[(ROOM, foot), (right, foot)]);
    let text = format!("{round} {symbol} long; 1 : {scale} on paper if printed at 100 %");
    svg.words("start", (right + 2.0, foot + LETTER / 3.0), &text);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_scale_is_the_largest_round_one_that_fits() {
        assert_eq!(scale((166.0, 10.0)), Some(1.0));
        assert_eq!(scale((1300.0, 2000.0)), Some(15.0));
        assert_eq!(scale((100_000.0, 10.0)), Some(700.0));
        assert_eq!(scale((0.0, 0.0)), None);
        assert_eq!(scale((f64::NAN, 1.0)), None);
    }

    #[test]
    fn words_never_stand_on_words() {
        let mut words = Words::default();
        let first = words.place(0.0, 10.0, 20.0);
        assert!(words.place(5.0, 10.5, 20.0) - first >= LINE * 0.9);
        assert!(words.place(30.0, 10.0, 5.0) - first < 0.5 * LINE);
    }

    #[test]
    fn a_drawing_is_as_large_on_paper_as_its_scale_says() {
        let shapes = vec![Shape::Rectangle { part: Part::Tube, x: 0.0, y: 0.0, width: 1000.0, height: 20.0 }];
        let svg = scene(&Scene { shapes, size: (1000.0, 20.0) }, "a tube", System::Si, &|mm| format!("{mm} mm"));
        assert!(svg.contains("1 : 7.5 on paper"), "{svg}");
        assert!(svg.contains("width=\"133.333\""), "{svg}");
    }
}
