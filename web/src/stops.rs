//! Where a slider stops: the sizes the trade sells, or even steps over the usual range.

use trialfit_core::spec::{Kind, Spec};

/// The stops of one declaration's slider.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Stops {
    /// These numbers of the spec's unit, rising.
    Sizes(&'static [f64]),
    /// From, step, count of steps; in the spec's unit.
    Steps { from: f64, step: f64, count: u32 },
}

impl Stops {
    /// None for what has no range to slide over.
    pub fn of(spec: &Spec) -> Option<Self> {
        if !matches!(spec.kind, Kind::Quantity { .. }) {
            return None;
        }
        if spec.sizes.len() > 1 {
            return Some(Self::Sizes(spec.sizes));
        }
        let [from, to] = spec.usual;
        let count = ((to - from) / spec.step).round();
        (spec.step > 0.0 && (1.0..10_000.0).contains(&count)).then_some(Self::Steps { from, step: spec.step, count: count as u32 })
    }

    /// Index of the last stop.
    pub fn last(self) -> u32 {
        match self {
            Self::Sizes(sizes) => sizes.len() as u32 - 1,
            Self::Steps { count, .. } => count,
        }
    }

    /// The number at a stop, in the spec's unit.
    pub fn at(self, index: u32) -> f64 {
        match self {
            Self::Sizes(sizes) => sizes[(index as usize).min(sizes.len() - 1)],
            Self::Steps { from, step, count } => decimal(from + f64::from(index.min(count)) * step),
        }
    }

    /// The stop nearest to a number of the spec's unit.
    pub fn nearest(self, number: f64) -> u32 {
        match self {
            Self::Sizes(sizes) => {
                let distance = |index: &usize| (sizes[*index] - number).abs();
                let nearest = (0..sizes.len()).min_by(|left, right| distance(left).total_cmp(&distance(right)));
                nearest.unwrap_or(0) as u32
            }
            Self::Steps { from, step, count } => ((number - from) / step).round().clamp(0.0, f64::from(count)) as u32,
        }
    }

    /// The next number up or down from one that need not be at a stop. Steps go on past the usual range; sizes end.
    pub fn next(self, number: f64, up: bool) -> Option<f64> {
        match self {
            Self::Sizes(sizes) if up => sizes.iter().copied().find(|&size| size > number + close(number)),
            Self::Sizes(sizes) => sizes.iter().copied().rev().find(|&size| size < number - close(number)),
            Self::Steps { from, step, .. } => {
                let at = (number - from) / step;
                let next = if up { (at + 1e-6).floor() + 1.0 } else { (at - 1e-6).ceil() - 1.0 };
                Some(decimal(from + next * step))
            }
        }
    }
}

/// Near enough to be the same size.
fn close(number: f64) -> f64 {
    1e-9 * number.abs()
}

/// The decimal a sum of decimals was meant to be: 2.8 + 3 · 0.01 is 2.83.
fn decimal(number: f64) -> f64 {
    (number * 1e9).round() / 1e9
}

#[cfg(test)]
mod tests {
    use super::*;

    const BORES: Stops = Stops::Sizes(&[15.87, 17.46, 19.05, 22.2]);
    const RATIO: Stops = Stops::Steps { from: 2.8, step: 0.01, count: 240 };

    #[test]
    fn stops_are_the_decimals_they_look_like() {
        assert_eq!(RATIO.at(3), 2.83);
        assert_eq!(RATIO.at(240), 5.2);
        assert_eq!(RATIO.at(999), 5.2);
        assert_eq!(BORES.at(9), 22.2);
    }

    #[test]
    fn the_nearest_stop_is_found_from_anywhere() {
        assert_eq!([0.0, 3.9, 9.0].map(|number| RATIO.nearest(number)), [0, 110, 240]);
        assert_eq!([0.0, 18.0, 99.0].map(|number| BORES.nearest(number)), [0, 1, 3]);
    }

    #[test]
    fn sizes_end_and_steps_go_on() {
        assert_eq!(BORES.next(19.05, true), Some(22.2));
        assert_eq!(BORES.next(19.0, true), Some(19.05));
        assert_eq!(BORES.next(19.05, false), Some(17.46));
        assert_eq!(BORES.next(22.2, true), None);
        assert_eq!(RATIO.next(5.2, true), Some(5.21));
        assert_eq!(RATIO.next(3.905, true), Some(3.91));
        assert_eq!(RATIO.next(3.905, false), Some(3.9));
        assert_eq!(RATIO.next(3.9, false), Some(3.89));
    }
}
