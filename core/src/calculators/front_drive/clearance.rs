//! What comes close to what: spans to pulleys they do not run on, and pulleys to each other.
//!
//! Distances are between cord lines. The belt itself takes some 5 mm of them (common practice, no source).

use super::belt_path::{BeltPath, Pulley};
use super::tangent::{Point, Span};
use crate::quantity::{Length, metres};

/// The least distance found, negative where one reaches into the other, and between what.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// Cord line to cord line.
    pub distance: Length,
    /// The span (by the pulley it leaves) or first pulley, counted from 0.
    pub from: usize,
    /// The pulley it comes close to.
    pub pulley: usize,
}

/// Least distance between a pulley and the spans that do not touch it. `None` with two pulleys, or no such pulley.
#[must_use]
pub fn of_pulley(path: &BeltPath, pulleys: &[Pulley], pulley: usize) -> Option<Gap> {
    let count = path.spans().len();
    let body = pulleys.get(pulley)?;
    (0..count)
        .filter(|&span| span != pulley && (span + 1) % count != pulley)
        .map(|span| Gap { distance: to_segment(body.centre, &path.spans()[span]) - body.diameter / 2.0, from: span, pulley })
        .min_by(nearer)
}

/// Least distance of any span to a pulley it does not run on. `None` with two pulleys.
#[must_use]
pub fn of_spans(path: &BeltPath, pulleys: &[Pulley]) -> Option<Gap> {
    (0..path.spans().len()).filter_map(|pulley| of_pulley(path, pulleys, pulley)).min_by(nearer)
}

/// Least distance between a pulley and any other. `None` for fewer than two, or no such pulley.
#[must_use]
pub fn between(pulleys: &[Pulley], pulley: usize) -> Option<Gap> {
    let one = pulleys.get(pulley)?;
    (0..pulleys.len())
        .filter(|&other| other != pulley)
        .map(|from| {
            let two = &pulleys[from];
            let radii = (one.diameter + two.diameter) / 2.0;
            Gap { distance: one.centre.distance(two.centre) - radii, from, pulley }
        })
        .min_by(nearer)
}

/// Least distance between two pulleys. `None` for fewer than two.
#[must_use]
pub fn of_pulleys(pulleys: &[Pulley]) -> Option<Gap> {
    (1..pulleys.len()).filter_map(|at| between(&pulleys[..=at], at)).min_by(nearer)
}

fn nearer(one: &Gap, two: &Gap) -> core::cmp::Ordering {
    one.distance.si().total_cmp(&two.distance.si())
}

fn to_segment(point: Point, span: &Span) -> Length {
    let [x, y] = span.start.towards(point);
    let along = (x * span.direction[0] + y * span.direction[1]).clamp(0.0, span.length.in_metres());
    span.start.moved(span.direction, metres(along)).distance(point)
}
