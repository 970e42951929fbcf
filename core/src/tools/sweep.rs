//! One input over a range → curves of any outputs, the bands in which everything is within limits, and gaps with reasons.
//!
//! A few points are laid evenly; each further one halves the interval where the curves bend most away from a straight
//! line, an answer begins or ends, or a limit is passed. Where each comes depends on the points before it alone.

mod found;
mod map;

pub use found::{Band, Point, Swept};
pub use map::{Cell, Map, Mapped};

use super::Job;
pub use super::dial::Stop;
use super::dial::{Dial, Still};
use crate::build::{Build, Refusal};
use crate::order::Order;
use crate::plan::Plan;
use crate::spec::Place;
use core::ops::ControlFlow;
use std::collections::VecDeque;

/// Points that are laid evenly before any is placed by what they show.
const EVENLY: u32 = 17;

/// No interval is halved to under this share of the range.
const FINEST: f64 = 1.0 / 8192.0;

/// A bend of less than this share of a curve's height is not seen.
const STRAIGHT: f64 = 5e-4;

/// A sweep under way.
#[derive(Debug)]
pub struct Sweep {
    dial: Dial,
    range: [f64; 2],
    outputs: Vec<Place>,
    judged: Vec<Place>,
    anyway: Vec<Stop>,
    still: Still,
    waiting: VecDeque<f64>,
    points: Vec<Point>,
    most: u32,
    /// The points laid evenly are not yet all worked out.
    evenly: bool,
    /// Choices and sets of sizes have nothing between.
    only_these: bool,
}

impl Sweep {
    /// Sweeps an input from one value to another (SI; for a choice, ordinals) with at most so many points. What hangs on
    /// the input is judged, whether asked for or not.
    ///
    /// # Errors
    /// When it is not an input with a number, or an end is not possible.
    pub fn new(plan: &Plan, build: &Build, input: Place, range: [f64; 2], outputs: &[Place], most: u32) -> Result<Self, Refusal> {
        let mut dial = Dial::new(plan, build, input)?;
        dial.check(range)?;
        let (judged, anyway) = dial.judged(plan, &[input.id]);
        dial.want(plan, outputs.iter().chain(&judged).copied());
        let [from, to] = range;
        let present = dial.present.filter(|present| from < *present && *present < to);
        let only_these = dial.is_stepped();
        let count = if only_these { most } else { EVENLY.min(most) };
        let waiting = dial.points(range, count).into_iter().chain(present).collect();
        Ok(Self {
            dial,
            range,
            outputs: outputs.to_vec(),
            judged,
            anyway,
            still: Still::new(),
            waiting,
            points: Vec::new(),
            most,
            evenly: true,
            only_these,
        })
    }

    fn evaluate(&mut self, plan: &Plan, at: f64) {
        let place = self.points.partition_point(|point| point.at < at);
        if self.points.get(place).is_some_and(|point| point.at == at) {
            return;
        }
        self.dial.turn(plan, at);
        let values = self.outputs.iter().map(|&output| self.dial.value(output)).collect();
        let stops = self.dial.stops(self.judged.iter().copied());
        if self.evenly {
            self.still.take(core::slice::from_ref(&self.dial), &stops);
        }
        self.points.insert(place, Point { at, values, stops });
    }

    /// What stood still and stopped at every point laid evenly does so whatever the input is: told apart, and no matter from
    /// here on.
    fn settle(&mut self) {
        self.evenly = false;
        let still = core::mem::replace(&mut self.still, Still::new()).found();
        self.judged.retain(|place| !still.iter().any(|stop| stop.place == *place));
        self.points.iter_mut().for_each(|point| point.stops.retain(|stop| !still.contains(stop)));
        self.anyway.extend(still);
        self.anyway.order_by(Ord::cmp);
    }

    /// Where the next point shows most; none when no interval needs one.
    fn next(&self) -> Option<f64> {
        if self.only_these || self.points.len() >= self.most as usize {
            return None;
        }
        let whole = self.range[1] - self.range[0];
        let heights: Vec<f64> = (0..self.outputs.len()).map(|output| self.height(output)).collect();
        let mut best: Option<(f64, f64)> = None;
        for (left, pair) in self.points.windows(2).enumerate() {
            let width = (pair[1].at - pair[0].at) / whole;
            if width < 2.0 * FINEST {
                continue;
            }
            let known = |point: &Point| point.values.iter().map(Result::is_ok).collect::<Vec<_>>();
            let edge = pair[0].stops.is_empty() != pair[1].stops.is_empty() || known(&pair[0]) != known(&pair[1]);
            let bend = (0..self.outputs.len()).map(|output| self.bend(left, output, heights[output])).fold(0.0, f64::max);
            // Edges first, the wide ones before the narrow.
            let gain = if edge { 1.0 + width } else { bend.min(0.99) };
            if gain > STRAIGHT && best.is_none_or(|(most, _)| gain > most) {
                best = Some((gain, pair[0].at + 0.5 * (pair[1].at - pair[0].at)));
            }
        }
        best.map(|(_, at)| at)
    }

    /// From lowest to highest of an output so far.
    fn height(&self, output: usize) -> f64 {
        let known = self.points.iter().filter_map(|point| point.values[output].ok());
        let (low, high) = known.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| (low.min(value), high.max(value)));
        high - low
    }

    /// How far the curve is off the straight line at either end of an interval, as a share of its height.
    fn bend(&self, left: usize, output: usize, height: f64) -> f64 {
        let off = |middle: usize| -> Option<f64> {
            let points = self.points.get(middle.checked_sub(1)?..middle + 2)?;
            let [before, here, after] = [&points[0], &points[1], &points[2]].map(|point| (point.at, point.values[output].ok()));
            let (first, value, last) = (before.1?, here.1?, after.1?);
            let share = (here.0 - before.0) / (after.0 - before.0);
            Some((value - (first + (last - first) * share)).abs() / height)
        };
        let found = off(left).unwrap_or(0.0).max(off(left + 1).unwrap_or(0.0));
        if found.is_finite() { found } else { 0.0 }
    }
}

impl Job for Sweep {
    type Answer = Swept;

    fn advance(&mut self, plan: &Plan, evaluations: u32) -> ControlFlow<Swept, f32> {
        for _ in 0..evaluations {
            if self.evenly && self.waiting.is_empty() {
                self.settle();
            }
            let Some(at) = self.waiting.pop_front().or_else(|| self.next()) else {
                return ControlFlow::Break(Swept {
                    input: self.dial.place(),
                    present: self.dial.present,
                    outputs: core::mem::take(&mut self.outputs),
                    bands: found::bands(&self.points),
                    points: core::mem::take(&mut self.points),
                    anyway: core::mem::take(&mut self.anyway),
                });
            };
            self.evaluate(plan, at);
        }
        ControlFlow::Continue((self.points.len() as f32 / self.most as f32).min(0.99))
    }
}
