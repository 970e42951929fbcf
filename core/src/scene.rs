//! A drawing to scale as plain shapes: page, print and picture files show the same one.
//!
//! Coordinates are millimetres of the real thing, x to the right and y up. Line types are those of ISO 128.

use crate::sentence::Piece;
use crate::spec::Place;

/// A point in the drawing, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Up.
    pub y: f64,
}

/// How a line is drawn and what it means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pen {
    /// Visible outline: thick, continuous.
    Outline,
    /// Dimension, projection, hatching: thin, continuous.
    Thin,
    /// Axis: thin, long dash and dot.
    Axis,
    /// Hidden, or another position of a moving part: thin, dashed.
    Hidden,
    /// The belt or another thing the eye should follow: extra thick.
    Heavy,
    /// What is being changed: the accent.
    Changing,
    /// What stands against a limit.
    Beyond,
}

/// Which end of a text stands at its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// Its start.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// One shape.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A chain of straight lines.
    Path {
        /// Corners.
        points: Vec<Point>,
        /// Joins the last to the first.
        closed: bool,
        /// Filled with hatching, as a section.
        hatched: bool,
        /// Line.
        pen: Pen,
    },
    /// A circle.
    Circle {
        /// Centre.
        centre: Point,
        /// Radius, mm.
        radius: f64,
        /// Line.
        pen: Pen,
    },
    /// Part of a circle.
    Arc {
        /// Centre.
        centre: Point,
        /// Radius, mm.
        radius: f64,
        /// Start angle, radians, counter-clockwise from the x axis.
        from: f64,
        /// Angle turned, radians; negative is clockwise.
        sweep: f64,
        /// Line.
        pen: Pen,
    },
    /// A dimension of ISO 129-1: a measured length between two points, drawn `offset` mm to the left of the way from
    /// one to the other.
    Dimension {
        /// From.
        from: Point,
        /// To.
        to: Point,
        /// Distance of the dimension line, mm.
        offset: f64,
        /// What it says.
        label: Vec<Piece>,
        /// Drawn in the accent when it is what is being changed.
        pen: Pen,
    },
    /// Words at a point.
    Label {
        /// Where.
        at: Point,
        /// Which end stands there.
        anchor: Anchor,
        /// What it says.
        label: Vec<Piece>,
    },
}

/// A place to take hold of: dragging it changes an input.
#[derive(Clone, Debug, PartialEq)]
pub struct Handle {
    /// Where it stands, mm.
    pub at: Point,
    /// The input it changes.
    pub place: Place,
    /// What it is called, for a screen reader.
    pub label: String,
    /// Change of the input, SI, for each millimetre dragged to the right and up.
    pub per_millimetre: Point,
}

/// The rows of a drawing that is a list.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rows {
    /// How many.
    pub count: usize,
    /// Height of one, mm.
    pub pitch: f64,
}

/// A drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    /// What it shows, in a few words.
    pub title: String,
    /// The same in a sentence or two, for those who do not see it.
    pub description: String,
    /// Shapes, later ones on top.
    pub shapes: Vec<Shape>,
    /// Places to take hold of.
    pub handles: Vec<Handle>,
    /// If it is a list from y = 0 down: a low frame shows as many rows as can be read in it.
    pub rows: Option<Rows>,
}
