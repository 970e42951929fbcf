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
    /// What is fitted, where something else is on trial: thin, long dash and two dots.
    Fitted,
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

impl Shape {
    /// As an outline of what is fitted; none of what is no outline.
    fn as_fitted(&self) -> Option<Self> {
        let mut fitted = self.clone();
        match &mut fitted {
            Self::Path { pen, hatched, closed, .. } if pen.is_outline() || *closed && *pen == Pen::Thin => {
                (*pen, *hatched) = (Pen::Fitted, false);
            }
            Self::Circle { pen, .. } | Self::Arc { pen, .. } if pen.is_outline() => *pen = Pen::Fitted,
            _ => return None,
        }
        Some(fitted)
    }
}

impl Pen {
    fn is_outline(self) -> bool {
        matches!(self, Self::Outline | Self::Heavy | Self::Changing | Self::Beyond)
    }
}

impl Scene {
    /// With the outlines of what is `fitted` under it, where they differ. A list stays as it is.
    #[must_use]
    pub fn beside(mut self, fitted: &Self) -> Self {
        if self.rows.is_none() {
            let own: Vec<Shape> = self.shapes.iter().filter_map(Shape::as_fitted).collect();
            let mut all: Vec<Shape> = fitted.shapes.iter().filter_map(Shape::as_fitted).collect();
            all.retain(|shape| !own.contains(shape));
            all.append(&mut self.shapes);
            self.shapes = all;
        }
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn circle(radius: f64, pen: Pen) -> Shape {
        Shape::Circle { centre: Point { x: 0.0, y: 0.0 }, radius, pen }
    }

    fn scene(shapes: Vec<Shape>, rows: Option<Rows>) -> Scene {
        Scene { title: String::new(), description: String::new(), shapes, handles: Vec::new(), rows }
    }

    #[test]
    fn outlines_of_what_is_fitted_stand_under_what_is_on_trial_where_they_differ() {
        // Another verdict of the same thing is no other outline, and an axis is none.
        let fitted = scene(vec![circle(1.0, Pen::Beyond), circle(2.0, Pen::Heavy), circle(3.0, Pen::Axis)], None);
        let on_trial = vec![circle(1.0, Pen::Outline), circle(2.5, Pen::Heavy)];
        let both = scene(on_trial.clone(), None).beside(&fitted);
        assert_eq!(both.shapes, [vec![circle(2.0, Pen::Fitted)], on_trial.clone()].concat());
        let list = Some(Rows { count: 1, pitch: 1.0 });
        assert_eq!(scene(on_trial.clone(), list).beside(&fitted).shapes, on_trial);
    }
}
