//! The straight piece of belt between two pulleys: no angle is needed to find it.

use crate::choices;
use crate::quantity::{Length, metres};

/// A point of the drive's plane, seen from the front of the engine: x to the right, y upwards.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: Length,
    /// Upwards.
    pub y: Length,
}

impl Point {
    /// From two lengths.
    #[must_use]
    pub const fn new(x: Length, y: Length) -> Self {
        Self { x, y }
    }

    /// Distance to another point.
    #[must_use]
    pub fn distance(self, other: Self) -> Length {
        let [x, y] = self.towards(other);
        metres(libm::hypot(x, y))
    }

    /// The step from here to `other`, in metres.
    pub(super) fn towards(self, other: Self) -> [f64; 2] {
        [(other.x - self.x).in_metres(), (other.y - self.y).in_metres()]
    }

    /// This point moved by `by` along a unit vector.
    pub(super) fn moved(self, along: [f64; 2], by: Length) -> Self {
        Self { x: self.x + along[0] * by, y: self.y + along[1] * by }
    }
}

choices! {
    /// Which way something turns, seen from the front of the engine.
    #[derive(Default)]
    Hand {
        #[default]
        Clockwise "clockwise" "clockwise"
        Anticlockwise "anticlockwise" "anticlockwise"
    }
}

impl Hand {
    /// The opposite way.
    #[must_use]
    pub const fn reversed(self) -> Self {
        match self {
            Self::Clockwise => Self::Anticlockwise,
            Self::Anticlockwise => Self::Clockwise,
        }
    }

    /// +1 for anticlockwise, as angles are counted.
    pub(super) const fn sign(self) -> f64 {
        match self {
            Self::Clockwise => -1.0,
            Self::Anticlockwise => 1.0,
        }
    }
}

/// A straight run of belt.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Span {
    /// Where it leaves the first pulley.
    pub start: Point,
    /// Where it meets the next.
    pub end: Point,
    /// Between the two.
    pub length: Length,
    /// Unit vector from start to end; dimensionless.
    pub direction: [f64; 2],
}

/// A pulley that the belt goes round: centre, diameter at the belt's cord line, and the way it turns.
pub type Round = (Point, Length, Hand);

/// The span a belt takes from one turning pulley to the next; `None` where one circle reaches over the other.
///
/// With D the step between centres, k = s₁r₁ − s₂r₂ (s = +1 anticlockwise, −1 clockwise) and L = √(D² − k²), the belt
/// runs along u with D = L·u + k·u⊥, u⊥ being u turned to its right; it leaves at c₁ + s₁r₁·u⊥. From the right triangle
/// of any two circles and their common tangent (Euclid III.18): outer when they turn alike, crossing when not.
#[must_use]
pub fn tangent(from: Round, to: Round) -> Option<Span> {
    let [x, y] = from.0.towards(to.0);
    let reach = |(_, diameter, hand): Round| hand.sign() * diameter / 2.0;
    let offset = (reach(from) - reach(to)).in_metres();
    let apart = libm::hypot(x, y);
    // (D − k)(D + k) keeps its digits where D² − k² would lose them.
    let square = (apart - offset) * (apart + offset);
    if !(square >= 0.0 && apart > 0.0) {
        return None;
    }
    let length = square.sqrt();
    let (along, across) = (length / apart, offset / apart);
    let (x, y) = (x / apart, y / apart);
    let direction = [along * x - across * y, along * y + across * x];
    let right = [direction[1], -direction[0]];
    Some(Span { start: from.0.moved(right, reach(from)), end: to.0.moved(right, reach(to)), length: metres(length), direction })
}
