//! The value of one input that brings one output to a target: every one that a scan separates, or the nearest that can be
//! had and what stands in the way.
//!
//! The input's range is scanned evenly. Between neighbours with the target between them the root is closed in on by
//! Brent's method; where the output only jumps across the target there is none. Sizes and steps that the trade has are
//! tried on either side of each root. Two roots between neighbours of the scan are not seen, but where the scan found none
//! at all and comes nearest.

use super::Job;
use super::brent::{Brent, Next};
use super::dial::Dial;
use crate::build::{Build, Refusal};
use crate::order::Order;
use crate::plan::Plan;
use crate::report::Unknown;
use crate::spec::{Kind, Place, Spec};
use core::ops::ControlFlow;
use std::collections::VecDeque;

/// A root is as exact as this share of the range.
const EXACT: f64 = 1e-13;

/// Two numbers that differ by less than this share are the same but for their last bits.
const SAME: f64 = 1e-13;

/// What is left at a root of a function that does not jump, as a share of what its bracket began with.
const LEFT: f64 = 1e-6;

/// Values tried to come nearer to a target that is not reached inside: golden sections of an interval, to 1/10 000 of it.
const SECTIONS: u32 = 20;

/// An input's value, and the output there (both SI, or ordinals).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Had {
    /// The input.
    pub input: f64,
    /// The output.
    pub output: f64,
}

/// Why the target is not met, or not everywhere it could be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Obstacle {
    /// The output does not hang on the input at all.
    Apart,
    /// The output does not get there in this range.
    OutOfReach {
        /// Lowest and highest that it gets to.
        reach: [f64; 2],
    },
    /// The output jumps across the target at this value of the input.
    Jump {
        /// Where, SI.
        at: f64,
        /// The output on either side.
        between: [f64; 2],
    },
    /// The output has no value somewhere in the range.
    Unknown {
        /// From the first to the last of the scan's values without.
        from: f64,
        /// The last.
        to: f64,
        /// Why.
        why: Unknown,
    },
}

/// What was found.
#[derive(Clone, Debug, PartialEq)]
pub struct Solved {
    /// The input.
    pub input: Place,
    /// The output.
    pub output: Place,
    /// What it should be, SI.
    pub target: f64,
    /// Its value in the build.
    pub present: Option<f64>,
    /// Where it was looked for, SI or ordinals.
    pub range: [f64; 2],
    /// How many values were scanned: two solutions closer than the range over this can be missed.
    pub scanned: u32,
    /// Where the target is met, rising; of a stretch that meets it throughout, the two ends.
    pub solutions: Vec<Had>,
    /// From the first to the last of the scan's values that meet it one after the other, SI.
    pub stretches: Vec<[f64; 2]>,
    /// The trade's sizes, steps or choices on either side of those, nearest to the target first.
    pub to_be_had: Vec<Had>,
    /// The nearest of all that was tried.
    pub nearest: Option<Had>,
    /// What stands in the way, in the input's order.
    pub obstacles: Vec<Obstacle>,
}

#[derive(Clone, Copy, Debug)]
enum Task {
    Scan(u32),
    /// Closing in; the size of the bracket's values at the start.
    Close(Brent, f64),
    /// Golden section of an interval for the least distance: ends, inner places with their distances.
    Section {
        ends: [f64; 2],
        inner: [Option<(f64, f64)>; 2],
        left: u32,
    },
    Step(f64),
}

/// A search under way.
#[derive(Debug)]
pub struct Solve {
    dial: Dial,
    range: [f64; 2],
    output: Place,
    target: f64,
    scan: Vec<f64>,
    scanned: Vec<Result<f64, Unknown>>,
    tasks: VecDeque<Task>,
    solved: Solved,
    /// Lowest and highest of all that was tried.
    reach: Option<[f64; 2]>,
    stage: Stage,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Stage {
    Scanning,
    Closing,
    Sectioning,
    Stepping,
}

impl Solve {
    /// Looks for the target (SI) over a range of the input (SI; for a choice, ordinals), scanning so many values.
    ///
    /// # Errors
    /// When it is no input with a number, or an end is not possible.
    pub fn new(plan: &Plan, build: &Build, input: Place, range: [f64; 2], output: Place, target: f64, scan: u32) -> Result<Self, Refusal> {
        let mut dial = Dial::new(plan, build, input)?;
        dial.check(range)?;
        dial.want(plan, [output]);
        if !target.is_finite() {
            return Err(Refusal::NotFinite);
        }
        let feeds = plan.feeds(input.id, output.id);
        let scan = if feeds { dial.points(range, scan) } else { Vec::new() };
        let solved = Solved {
            input,
            output,
            target,
            present: dial.present,
            range,
            scanned: scan.len() as u32,
            solutions: Vec::new(),
            stretches: Vec::new(),
            to_be_had: Vec::new(),
            nearest: None,
            obstacles: if feeds { Vec::new() } else { vec![Obstacle::Apart] },
        };
        let tasks = (0..scan.len() as u32).map(Task::Scan).collect();
        Ok(Self { dial, range, output, target, scan, scanned: Vec::new(), tasks, solved, reach: None, stage: Stage::Scanning })
    }

    /// The output at a value of the input, and whether anything nearer was known.
    fn try_at(&mut self, plan: &Plan, input: f64) -> Result<f64, Unknown> {
        self.dial.turn(plan, input);
        let output = self.dial.value(self.output)?;
        let [low, high] = self.reach.unwrap_or([output; 2]);
        self.reach = Some([low.min(output), high.max(output)]);
        let off = (output - self.target).abs();
        if self.solved.nearest.is_none_or(|nearest| off < (nearest.output - self.target).abs()) {
            self.solved.nearest = Some(Had { input, output });
        }
        Ok(output)
    }

    /// After the scan: brackets, exact hits, and stretches without a value.
    fn brackets(&mut self) {
        for at in 0..self.scan.len() {
            let (input, found) = (self.scan[at], self.scanned[at]);
            if self.is_met(at) {
                self.meets(at);
            }
            if let Err(why) = found {
                match self.solved.obstacles.last_mut() {
                    Some(Obstacle::Unknown { to, why: same, .. }) if *same == why && at > 0 && self.scanned[at - 1].is_err() => *to = input,
                    _ => self.solved.obstacles.push(Obstacle::Unknown { from: input, to: input, why }),
                }
            }
            let next = self.scanned.get(at + 1).copied();
            let met = self.dial.is_stepped() || self.is_met(at) || self.is_met(at + 1);
            if let (Ok(one), Some(Ok(other)), false) = (found, next, met) {
                self.close((input, one), (self.scan[at + 1], other));
            }
        }
    }

    /// Whether a value of the scan meets the target.
    fn is_met(&self, at: usize) -> bool {
        let met = |found: &Result<f64, Unknown>| found.is_ok_and(|output| (output - self.target).abs() <= SAME * self.target.abs());
        self.scanned.get(at).is_some_and(met)
    }

    /// Closes in between two values of the input, with the output there, if the target lies between.
    fn close(&mut self, (from, one): (f64, f64), (to, other): (f64, f64)) {
        let (one, other) = (one - self.target, other - self.target);
        let tolerance = EXACT * (self.range[1] - self.range[0]);
        if one * other < 0.0
            && let Some(brent) = Brent::new((from, one), (to, other), tolerance)
        {
            self.tasks.push_back(Task::Close(brent, one.abs().max(other.abs())));
        }
    }

    /// A value of the scan meets the target. Those that do one after the other are one stretch.
    fn meets(&mut self, at: usize) {
        let choice = self.dial.is_stepped();
        let (here, end) = (Had { input: self.scan[at], output: self.target }, at.checked_sub(1).map(|before| self.scan[before]));
        let Solved { solutions, stretches, .. } = &mut self.solved;
        match (solutions.last_mut(), stretches.last_mut()) {
            _ if choice => solutions.push(here),
            (Some(last), Some([_, to])) if Some(*to) == end => (*last, *to) = (here, here.input),
            (Some(last), _) if Some(last.input) == end => {
                stretches.push([last.input, here.input]);
                solutions.push(here);
            }
            _ => solutions.push(here),
        }
    }

    /// Without a solution: the interval around the nearest value of the scan is searched for a nearer one.
    fn sections(&mut self) {
        let off = |at: usize| self.scanned[at].map_or(f64::INFINITY, |output| (output - self.target).abs());
        let nearest = (0..self.scan.len()).reduce(|one, other| if off(other) < off(one) { other } else { one });
        if let Some(at) = nearest.filter(|at| self.solved.solutions.is_empty() && !self.dial.is_stepped() && off(*at).is_finite()) {
            let ends = [self.scan[at.saturating_sub(1)], self.scan[(at + 1).min(self.scan.len() - 1)]];
            self.tasks.push_back(Task::Section { ends, inner: [None; 2], left: SECTIONS });
        }
    }

    /// The trade's values next to each solution, or to the nearest that was found.
    fn steps(&mut self) {
        let spec = self.dial.spec();
        let around: Vec<f64> = match self.solved.solutions.as_slice() {
            [] => self.solved.nearest.iter().map(|had| had.input).collect(),
            solutions => solutions.iter().map(|had| had.input).collect(),
        };
        let mut values: Vec<f64> =
            if self.dial.is_stepped() { Vec::new() } else { around.into_iter().flat_map(|at| beside(spec, at)).collect() };
        values.retain(|value| (self.range[0]..=self.range[1]).contains(value));
        values.sort_unstable_by(f64::total_cmp);
        values.dedup();
        self.tasks.extend(values.into_iter().map(Task::Step));
    }

    fn run(&mut self, plan: &Plan, task: Task) {
        match task {
            Task::Scan(at) => {
                let input = self.scan[at as usize];
                let found = self.try_at(plan, input);
                self.scanned.push(found);
                if let (true, Ok(output)) = (self.dial.is_stepped(), found) {
                    self.solved.to_be_had.push(Had { input, output });
                }
            }
            Task::Close(mut brent, began) => match brent.ask() {
                Next::Try(input) => match self.try_at(plan, input) {
                    Ok(output) => {
                        brent.tell(output - self.target);
                        self.tasks.push_front(Task::Close(brent, began));
                    }
                    Err(why) => self.solved.obstacles.push(Obstacle::Unknown { from: input, to: input, why }),
                },
                Next::Done { root, value, opposite } => {
                    if value.abs() <= LEFT * began {
                        self.solved.solutions.push(Had { input: root, output: self.target + value });
                    } else {
                        let mut between = [self.target + value, self.target + opposite];
                        between.sort_unstable_by(f64::total_cmp);
                        self.solved.obstacles.push(Obstacle::Jump { at: root, between });
                    }
                }
            },
            Task::Section { ends, inner, left } => self.section(plan, ends, inner, left),
            Task::Step(input) => {
                if let Ok(output) = self.try_at(plan, input) {
                    self.solved.to_be_had.push(Had { input, output });
                }
            }
        }
    }

    /// One golden section (Kiefer 1953, from memory): one evaluation.
    fn section(&mut self, plan: &Plan, ends: [f64; 2], mut inner: [Option<(f64, f64)>; 2], left: u32) {
        const GOLDEN: f64 = 0.618_033_988_749_894_9;
        let Some(missing) = inner.iter().position(Option::is_none) else { return };
        let share = if missing == 0 { 1.0 - GOLDEN } else { GOLDEN };
        let input = ends[0] + (ends[1] - ends[0]) * share;
        let found = self.try_at(plan, input);
        let off = found.map_or(f64::INFINITY, |output| (output - self.target).abs());
        // The target is met on the way, on either side of a crest that the scan stepped over.
        let next = self.scan.partition_point(|scanned| *scanned <= input);
        if let (Ok(found), Some(before), Some(after)) = (found, next.checked_sub(1), self.scan.get(next).copied()) {
            let (low, high) = (self.scanned[before], self.scanned[next]);
            // Where the two are on either side themselves, it was closed in on before.
            let crosses = |side: f64| (side - self.target) * (found - self.target) < 0.0;
            let sides: Vec<f64> = low.into_iter().chain(high).collect();
            if !sides.is_empty() && sides.into_iter().all(crosses) {
                low.into_iter().for_each(|low| self.close((self.scan[before], low), (input, found)));
                high.into_iter().for_each(|high| self.close((input, found), (after, high)));
                return;
            }
        }
        inner[missing] = Some((input, off));
        let (ends, inner) = match inner {
            [Some(low), Some(high)] if low.1 <= high.1 => ([ends[0], high.0], [None, Some(low)]),
            [Some(low), Some(high)] => ([low.0, ends[1]], [Some(high), None]),
            other => (ends, other),
        };
        if left > 1 {
            self.tasks.push_front(Task::Section { ends, inner, left: left - 1 });
        }
    }

    /// What comes when the tasks of a stage are done; false at the end.
    fn next_stage(&mut self) -> bool {
        match self.stage {
            Stage::Scanning => {
                self.brackets();
                self.stage = Stage::Closing;
            }
            Stage::Closing => {
                self.sections();
                self.stage = Stage::Sectioning;
            }
            Stage::Sectioning => {
                self.steps();
                self.stage = Stage::Stepping;
            }
            Stage::Stepping => return false,
        }
        true
    }

    fn answer(&mut self) -> Solved {
        let mut solved = self.solved.clone();
        solved.solutions.order_by(|one, other| one.input.total_cmp(&other.input));
        let off = |had: &Had| (had.output - self.target).abs();
        solved.to_be_had.order_by(|one, other| off(one).total_cmp(&off(other)));
        if let Some(reach @ [low, high]) = self.reach
            && solved.solutions.is_empty()
            && !(low..=high).contains(&self.target)
        {
            solved.obstacles.push(Obstacle::OutOfReach { reach });
        }
        let at = |obstacle: &Obstacle| match obstacle {
            Obstacle::Apart | Obstacle::OutOfReach { .. } => f64::NEG_INFINITY,
            Obstacle::Jump { at, .. } => *at,
            Obstacle::Unknown { from, .. } => *from,
        };
        solved.obstacles.order_by(|one, other| at(one).total_cmp(&at(other)));
        solved
    }
}

/// The sizes that the trade sells, else the declared steps, at and on either side of a value.
fn beside(spec: &Spec, at: f64) -> Vec<f64> {
    let Kind::Quantity { unit, .. } = spec.kind else { return Vec::new() };
    let number = unit.from_si(at);
    // A value that is a step but for its last bits is that step.
    let slack = 1e-9 * number.abs().max(spec.step);
    let numbers = if spec.sizes.is_empty() {
        if spec.step <= 0.0 {
            return Vec::new();
        }
        // Whole steps counted from nothing; as a fraction where the step is one, so that 0.1 · 3 is 0.3.
        let per_unit = (1.0 / spec.step).round();
        let step =
            |count: f64| if spec.step < 1.0 && (per_unit * spec.step - 1.0).abs() < 1e-9 { count / per_unit } else { count * spec.step };
        let below = ((number + slack) / spec.step).floor();
        let above = ((number - slack) / spec.step).ceil();
        vec![step(below), step(above)]
    } else {
        let below = spec.sizes.iter().copied().rfind(|size| *size <= number + slack);
        let above = spec.sizes.iter().copied().find(|size| *size >= number - slack);
        below.into_iter().chain(above).collect()
    };
    numbers.into_iter().map(|number| unit.to_si(number)).collect()
}

impl Job for Solve {
    type Answer = Solved;

    fn advance(&mut self, plan: &Plan, evaluations: u32) -> ControlFlow<Solved, f32> {
        for _ in 0..evaluations {
            while self.tasks.is_empty() {
                if !self.next_stage() {
                    return ControlFlow::Break(self.answer());
                }
            }
            if let Some(task) = self.tasks.pop_front() {
                self.run(plan, task);
            }
        }
        let done = self.scanned.len() as f32 / self.scan.len() as f32;
        ControlFlow::Continue((0.9 * done).min(0.99))
    }
}
