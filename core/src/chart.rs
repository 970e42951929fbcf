//! Curves over an input, computed when shown.

use crate::quantity::{Dimension, Unit};
use crate::spec::Place;
use std::borrow::Cow;

/// An axis: what it is, and the metric unit it is shown in.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// In words.
    pub label: Cow<'static, str>,
    /// Kind of quantity.
    pub dimension: &'static Dimension,
    /// Unit on the metric screen.
    pub unit: &'static Unit,
}

/// One curve. A gap stands where there is no answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// Written on the curve.
    pub label: String,
    /// SI points; none is a gap.
    pub points: Vec<(f64, Option<f64>)>,
    /// Dashed: what is fitted, or the reference, beside what is on trial.
    pub dashed: bool,
}

/// A limit, drawn as a hatched edge across the chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Edge {
    /// What it is called.
    pub label: String,
    /// SI number on the y axis.
    pub at: f64,
    /// The hatched, forbidden side is above (else below).
    pub above: bool,
}

/// A point that can be taken with a tap: it sets inputs.
#[derive(Clone, Debug, PartialEq)]
pub struct Spot {
    /// SI x and y.
    pub at: (f64, f64),
    /// What it is, in words.
    pub label: String,
    /// Inside every limit.
    pub good: bool,
    /// Stands in the build now.
    pub present: bool,
    /// Inputs it sets, SI.
    pub sets: Vec<(Place, f64)>,
}

/// A chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// What it shows, in a few words.
    pub title: String,
    /// The finding in a sentence: the band that suits, or why there is none.
    pub finding: String,
    /// Across.
    pub x: Axis,
    /// Up.
    pub y: Axis,
    /// Curves.
    pub curves: Vec<Curve>,
    /// Limits.
    pub edges: Vec<Edge>,
    /// Points to take.
    pub spots: Vec<Spot>,
    /// The present value of the input along x, SI.
    pub present: Option<f64>,
    /// Bands of x, SI, in which everything drawn is inside its limits.
    pub bands: Vec<(f64, f64)>,
}
