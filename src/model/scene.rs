//! A drawing in millimetres, made from results and painted by any face.
//!
//! x grows to the right, y grows upward. Nothing here knows a terminal, a page or a colour.

/// What a shape stands for; a face decides how it looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// Copper tube.
    Tube,
    /// Sheet or plate.
    Sheet,
    /// Timber.
    Timber,
    /// A hole or a mark to be made.
    Hole,
    /// A dimension line; its length is written beside it, in the units of whoever looks.
    Dimension,
}

/// One shape.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A rectangle by its lower left corner and its size.
    Rectangle {
        /// What it is.
        part: Part,
        /// Left edge, mm.
        x: f64,
        /// Lower edge, mm.
        y: f64,
        /// Width, mm.
        width: f64,
        /// Height, mm.
        height: f64,
    },
    /// A straight line.
    Line {
        /// What it is.
        part: Part,
        /// From, mm.
        from: (f64, f64),
        /// To, mm.
        to: (f64, f64),
    },
    /// A circle.
    Circle {
        /// What it is.
        part: Part,
        /// Centre, mm.
        centre: (f64, f64),
        /// Radius, mm.
        radius: f64,
    },
    /// A measure too short for its number: a line with a letter, told beside the drawing.
    Named {
        /// From, mm.
        from: (f64, f64),
        /// To, mm.
        to: (f64, f64),
        /// Its letter.
        letter: char,
    },
    /// Words at a point.
    Label {
        /// The point, mm.
        at: (f64, f64),
        /// The words.
        text: String,
    },
}

/// A drawing: its shapes and its extent.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Scene {
    /// The shapes, in painting order.
    pub shapes: Vec<Shape>,
    /// Width and height of what is drawn, mm.
    pub size: (f64, f64),
}
