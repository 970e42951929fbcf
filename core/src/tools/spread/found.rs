//! What a spread found of each output.

use super::Varied;
use super::heap::Heaps;
use crate::order::Order;
use crate::report::{Report, is_past};
use crate::spec::{Limit, Place};
use crate::tolerance::{Shape, Stack};

/// Bins of each input's range. Too few hide how an output changes within one (a share 1/BINS² too low), too many fill
/// with chance.
const BINS: usize = 32;

/// A normal input is binned over so many standard deviations to either side; beyond, the outermost bins take it.
const REACH: f64 = 4.0;

/// What a spread found.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// Samples drawn.
    pub samples: u32,
    /// How often a drawn input was held back at the end of what is possible.
    pub held_back: u32,
    /// Each output, in the order asked for.
    pub outcomes: Vec<Outcome>,
}

/// How one output spreads. Numbers are SI, of whatever the output is.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// Which.
    pub place: Place,
    /// With every input at its value.
    pub nominal: Option<f64>,
    /// Values rising, each with how many samples it stands for: a few samples as they are, many as means of narrow
    /// intervals.
    pub heaps: Vec<(f64, u32)>,
    /// Lowest and highest sample.
    pub ends: Option<[f64; 2]>,
    /// Samples with a value.
    pub known: u32,
    /// Samples without.
    pub unknown: u32,
    /// Mean of the samples.
    pub mean: f64,
    /// Standard deviation of the samples.
    pub deviation: f64,
    /// How likely each limit is passed, as it stands in the sample itself.
    pub past: Vec<(Limit, Chance)>,
    /// How likely it is below nought.
    pub below_nought: Option<Chance>,
    /// Contributions to first order; none where one of them has no value.
    pub first_order: Option<Stack>,
    /// What it hangs on, most first.
    pub shares: Vec<Share>,
}

/// How much of an output's variance one input makes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Share {
    /// Which input.
    pub place: Place,
    /// Of the samples' variance, by conditional means. A number.
    pub of_variance: f64,
    /// To first order. A number.
    pub first_order: Option<f64>,
}

/// A share of samples, and how far it may be from the truth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chance {
    /// Share of the samples with a value. A number.
    pub share: f64,
    /// Its standard error; where none (or all) of the samples count, three over their number: the truth is no further off
    /// in 95 of 100 cases.
    pub error: f64,
}

impl Chance {
    pub(in crate::tools) fn of(past: u32, all: u32) -> Option<Self> {
        let (share, all) = (f64::from(past) / f64::from(all), f64::from(all));
        let error = if share == 0.0 || share == 1.0 { 3.0 / all } else { (share * (1.0 - share) / all).sqrt() };
        (all > 0.0).then_some(Self { share, error })
    }
}

impl Outcome {
    /// The value that this share of the samples (a number from 0 to 1) does not exceed, straight between samples.
    #[must_use]
    pub fn quantile(&self, share: f64) -> Option<f64> {
        let last = self.known.checked_sub(1)?;
        let at = share.clamp(0.0, 1.0) * f64::from(last);
        let below = at as u32;
        let (low, high) = (self.sample(below)?, self.sample((below + 1).min(last))?);
        Some(low + (high - low) * (at - f64::from(below)))
    }

    /// The sample that has so many below it.
    fn sample(&self, place: u32) -> Option<f64> {
        let mut before = 0;
        let here = self.heaps.iter().find(|(_, count)| {
            before += count;
            before > place
        });
        here.map(|(value, _)| *value)
    }
}

/// A limit, where it stands, and how often it was passed in how many samples that had both.
#[derive(Debug)]
struct Passed {
    limit: Limit,
    mark: Place,
    past: u32,
    all: u32,
}

#[derive(Clone, Copy, Debug, Default)]
struct Bin {
    count: u32,
    sum: f64,
}

/// What is kept of an output while samples come in, in their order.
#[derive(Debug)]
pub(super) struct Tally {
    pub(super) place: Place,
    nominal: Option<f64>,
    heaps: Heaps,
    known: u32,
    unknown: u32,
    limits: Vec<Passed>,
    below_nought: u32,
    mean: f64,
    squares: f64,
    /// Per input: where it was moved to and what came of it, down and up.
    sides: Vec<[Option<(f64, f64)>; 2]>,
    /// The inputs that matter to it, and the samples in each bin of each.
    bins: Vec<(usize, [Bin; BINS])>,
}

/// The bin of an input's range in which a share of its half-width lies.
pub(super) fn bin(shape: Shape, share: f64) -> u8 {
    let reach = match shape {
        Shape::Normal { sigmas } => REACH / sigmas,
        Shape::Uniform | Shape::Triangular => 1.0,
    };
    let at = (share / reach + 1.0) * (BINS / 2) as f64;
    (at.max(0.0) as u8).min(BINS as u8 - 1)
}

impl Tally {
    pub(super) fn new(place: Place, report: &Report, matters: Vec<bool>) -> Self {
        let layout = report.layout();
        let limits = layout.spec(place.id).limits.into_iter().flatten();
        let mark = |limit: Limit| layout.beside(limit.beyond, place);
        Self {
            place,
            nominal: report.value(place).ok(),
            heaps: Heaps::default(),
            known: 0,
            unknown: 0,
            limits: limits.map(|limit| Passed { limit, mark: mark(limit), past: 0, all: 0 }).collect(),
            below_nought: 0,
            mean: 0.0,
            squares: 0.0,
            sides: vec![[None; 2]; matters.len()],
            bins: (0..matters.len()).filter(|&input| matters[input]).map(|input| (input, [Bin::default(); BINS])).collect(),
        }
    }

    /// Down comes before up.
    pub(super) fn side(&mut self, input: usize, moved_to: f64, value: Option<f64>) {
        let side = &mut self.sides[input];
        *side = [side[1], value.map(|value| (moved_to, value))];
    }

    pub(super) fn sample(&mut self, bins: &[u8], report: &Report) {
        let Ok(value) = report.value(self.place) else {
            self.unknown += 1;
            return;
        };
        self.heaps.add(value);
        self.known += 1;
        self.below_nought += u32::from(value < 0.0);
        for limit in &mut self.limits {
            if let Ok(mark) = report.value(limit.mark) {
                limit.all += 1;
                limit.past += u32::from(is_past(value, limit.limit.sense, mark));
            }
        }
        let off = value - self.mean;
        self.mean += off / f64::from(self.known);
        self.squares += off * (value - self.mean);
        let from_nominal = value - self.nominal.unwrap_or(0.0);
        for (input, its) in &mut self.bins {
            let bin = &mut its[usize::from(bins[*input])];
            bin.count += 1;
            bin.sum += from_nominal;
        }
    }

    pub(super) fn outcome(self, inputs: &[Varied]) -> Outcome {
        let count = f64::from(self.known);
        let variance = if count > 1.0 { self.squares / (count - 1.0) } else { 0.0 };
        let middle = self.mean - self.nominal.unwrap_or(0.0);
        let between = |bins: &[Bin; BINS]| -> f64 {
            let filled = bins.iter().filter(|bin| bin.count > 0);
            let square = |bin: &Bin| (bin.sum / f64::from(bin.count) - middle) * (bin.sum - middle * f64::from(bin.count));
            // Means of few differ by chance alone: what an input without any effect would show comes off.
            let by_chance = variance * (filled.clone().count() as f64 - 1.0);
            ((filled.map(square).sum::<f64>() - by_chance) / (count * variance)).max(0.0)
        };
        let slope = |side: &[Option<(f64, f64)>; 2]| match side {
            [Some((from, low)), Some((to, high))] if to > from => Some((high - low) / (to - from)),
            _ => None,
        };
        let slopes: Option<Vec<f64>> = self.sides.iter().map(slope).collect();
        let first_order = slopes.as_ref().map(|slopes| {
            let mut stack = Stack::default();
            inputs.iter().zip(slopes).for_each(|(input, &slope)| stack.add(slope, input.tolerance));
            stack
        });
        let mut shares: Vec<Share> = self
            .bins
            .iter()
            .map(|(at, bins)| {
                let input = inputs[*at];
                let alone = |slopes: &Vec<f64>| slopes[*at] * input.tolerance.deviation();
                let all = first_order.map_or(0.0, |stack| stack.deviation());
                let first = slopes.as_ref().map(alone).map(|alone| if all > 0.0 { alone * alone / (all * all) } else { 0.0 });
                Share { place: input.place, of_variance: if variance > 0.0 { between(bins) } else { 0.0 }, first_order: first }
            })
            .collect();
        shares.order_by(|one, other| other.of_variance.total_cmp(&one.of_variance));
        let (ends, heaps) = self.heaps.finish();
        Outcome {
            place: self.place,
            nominal: self.nominal,
            heaps,
            ends,
            known: self.known,
            unknown: self.unknown,
            mean: self.mean,
            deviation: variance.sqrt(),
            past: self.limits.iter().filter_map(|it| Some((it.limit, Chance::of(it.past, it.all)?))).collect(),
            below_nought: Chance::of(self.below_nought, self.known),
            first_order,
            shares,
        }
    }
}
