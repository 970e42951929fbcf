//! How hard does the bearing push back along its travel?
//!
//! Straight lines between a few points, so that pedal force, travel and work have exact answers and nothing
//! needs to be searched for. Past the last point the load stays as it is.

use super::{Refusal, is_not_negative};
use crate::quantity::{Energy, Force, Length};

/// Most points a curve has.
pub const POINTS: usize = 24;

/// One point of a curve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Of the bearing, from first touch.
    pub travel: Length,
    /// Of the fingers on the bearing.
    pub load: Force,
}

impl Point {
    /// First touch.
    pub const START: Self = Self { travel: Length::ZERO, load: Force::ZERO };
}

/// Load over bearing travel; travel never runs backwards.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LoadCurve {
    points: [Point; POINTS],
    count: usize,
}

impl LoadCurve {
    /// Points in the order they are passed, after first touch. A step back in travel, as when soft fingers spring forward,
    /// becomes a sheer step in load.
    ///
    /// # Errors
    /// When a travel or load is negative or without end, or there are [`POINTS`] or more.
    pub fn new(passed: &[Point]) -> Result<Self, Refusal> {
        let count = passed.len() + 1;
        let mut points = [Point::START; POINTS];
        let Some(room) = points.get_mut(1..count) else {
            return Err("A load curve has fewer points than that.");
        };
        room.copy_from_slice(passed);
        let mut furthest = Length::ZERO;
        for point in room {
            if !is_not_negative(point.travel.si()) || !is_not_negative(point.load.si()) {
                return Err("A bearing's load and travel are zero or more.");
            }
            furthest = furthest.max(point.travel);
            point.travel = furthest;
        }
        Ok(Self { points, count })
    }

    /// From the two loads a cover maker gives: up evenly to the peak, where the plate comes free, then down evenly to
    /// the hold at the end. A peak further than the end is taken at the end, and the load falls to the hold there.
    ///
    /// # Errors
    /// When a load or travel is negative or without end.
    pub fn from_figures(peak: Point, hold: Point) -> Result<Self, Refusal> {
        Self::new(&[Point { travel: peak.travel.min(hold.travel), load: peak.load }, hold])
    }

    /// The points, first touch among them.
    #[must_use]
    pub fn points(&self) -> &[Point] {
        &self.points[..self.count]
    }

    /// Load at this travel; at a sheer step, the load behind it.
    #[must_use]
    pub fn load_at(&self, travel: Length) -> Force {
        let mut before = self.points[0];
        for &point in self.points() {
            if point.travel > travel {
                let share = (travel - before.travel) / (point.travel - before.travel);
                return before.load + (point.load - before.load) * share.max(0.0);
            }
            before = point;
        }
        before.load
    }

    /// Highest load on the way to this travel, and where.
    #[must_use]
    pub fn peak_until(&self, travel: Length) -> Point {
        let mut peak = Point { travel, load: self.load_at(travel) };
        for &point in self.points() {
            if point.travel <= travel && point.load > peak.load {
                peak = point;
            }
        }
        peak
    }

    /// Work done on the fingers by going to this travel.
    #[must_use]
    pub fn work_until(&self, travel: Length) -> Energy {
        let mut joules = 0.0;
        let mut before = self.points[0];
        for &point in self.points() {
            if point.travel > travel {
                break;
            }
            joules += (before.load + point.load).si() / 2.0 * (point.travel - before.travel).si();
            before = point;
        }
        if travel > before.travel {
            joules += (before.load + self.load_at(travel)).si() / 2.0 * (travel - before.travel).si();
        }
        Energy::from_si(joules)
    }
}
