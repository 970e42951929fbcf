//! Axes: ranges, round ticks, and where a number stands.

use crate::language::{number as as_read, says};
use crate::picture::width;
use trialfit_core::chart::Axis;
use trialfit_core::quantity::Unit;
use trialfit_core::show::System;

/// Round numbers between two others, at most `most` steps apart from end to end; and the step.
pub(crate) fn ticks(least: f64, greatest: f64, most: usize) -> (Vec<f64>, f64) {
    let span = greatest - least;
    if !(span > 0.0 && span.is_finite()) {
        return (vec![least], 1.0);
    }
    let rough = span / most.max(1) as f64;
    let ten = libm::pow(10.0, libm::log10(rough).floor());
    let step = [1.0, 2.0, 5.0].into_iter().map(|times| times * ten).find(|step| *step >= rough * (1.0 - 1e-9)).unwrap_or(10.0 * ten);
    let (first, last) = ((least / step - 1e-9).ceil(), (greatest / step + 1e-9).floor());
    // Counted in whole steps: adding would drift off the round numbers.
    let count = (last - first).clamp(0.0, 100.0) as usize;
    ((0..=count).map(|at| (first + at as f64) * step).collect(), step)
}

/// A tick's number with as many decimals as its step needs.
pub(crate) fn tick_label(number: f64, step: f64) -> String {
    let decimals = (-libm::log10(step).floor()).clamp(0.0, 12.0) as usize;
    let plain = format!("{:.decimals$}", number.abs());
    let whole = plain.find('.').unwrap_or(plain.len());
    let mut text = String::new();
    if number < 0.0 && plain.bytes().any(|byte| (b'1'..=b'9').contains(&byte)) {
        text.push('−');
    }
    for (at, letter) in plain.chars().enumerate() {
        if whole > 4 && at > 0 && at < whole && (whole - at).is_multiple_of(3) {
            text.push('\u{202F}');
        }
        text.push(letter);
    }
    as_read(&text).into_owned()
}

/// One axis laid out: numbers of the shown unit between two pixels.
#[derive(Clone, Debug)]
pub(crate) struct Scale {
    pub(crate) unit: &'static Unit,
    least: f64,
    greatest: f64,
    start: f64,
    end: f64,
    pub(crate) ticks: Vec<(f64, String)>,
}

impl Scale {
    /// An axis over these SI numbers. `air` is the share of the span left free at its ends; `from_zero` begins at
    /// nothing where that is not far off. At most `most` steps. Pixels are given later.
    pub(crate) fn new(axis: &Axis, numbers: impl Iterator<Item = f64>, system: System, air: f64, from_zero: bool, most: usize) -> Self {
        let unit = system.unit(axis.dimension, axis.unit);
        let (mut least, mut greatest) = (f64::INFINITY, f64::NEG_INFINITY);
        for number in numbers.map(|si| unit.from_si(si)).filter(|number| number.is_finite()) {
            (least, greatest) = (least.min(number), greatest.max(number));
        }
        if least > greatest {
            (least, greatest) = (0.0, 1.0);
        }
        if greatest - least <= 1e-9 * greatest.abs().max(least.abs()) {
            let room = if greatest == 0.0 { 1.0 } else { greatest.abs() * 0.1 };
            (least, greatest) = (least - room, greatest + room);
        }
        let span = greatest - least;
        let zero = from_zero && least >= 0.0 && least < 0.5 * greatest;
        least = if zero { 0.0 } else { least - air * span };
        greatest += air * span;
        let (mut at, mut step) = ticks(least, greatest, most);
        if at.len() < 3 && most > 2 {
            // Too few to read between: a little closer is better.
            (at, step) = ticks(least, greatest, most * 2);
        }
        let ticks = at.into_iter().map(|number| (number, tick_label(number, step))).collect();
        Self { unit, least, greatest, start: 0.0, end: 1.0, ticks }
    }

    /// Between these pixels.
    pub(crate) fn between(mut self, start: f64, end: f64) -> Self {
        (self.start, self.end) = (start, end);
        self
    }

    /// Where a number of the shown unit stands.
    pub(crate) fn at_number(&self, number: f64) -> f64 {
        self.start + (number - self.least) / (self.greatest - self.least) * (self.end - self.start)
    }

    /// Where an SI number stands.
    pub(crate) fn at(&self, si: f64) -> f64 {
        self.at_number(self.unit.from_si(si))
    }

    /// Width of the widest tick's number.
    pub(crate) fn widest(&self, em: f64) -> f64 {
        self.ticks.iter().map(|(_, label)| width(label, em)).fold(0.0, f64::max)
    }
}

/// Words of an axis: what, and in which unit.
pub(crate) fn title(axis: &Axis, unit: &Unit) -> String {
    let label = says(&axis.label);
    if unit.symbol.is_empty() { label.into_owned() } else { format!("{label}, {}", unit.symbol) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use trialfit_core::quantity::unit::{MM, RPM};
    use trialfit_core::quantity::{Length, RotationalSpeed, millimetres, per_minute};

    #[track_caller]
    fn check(least: f64, greatest: f64, most: usize, expected: &[&str]) {
        let (at, step) = ticks(least, greatest, most);
        let labels: Vec<_> = at.into_iter().map(|number| tick_label(number, step)).collect();
        assert_eq!(labels, expected);
    }

    #[test]
    fn ticks_are_round_and_few() {
        check(0.0, 100.0, 5, &["0", "20", "40", "60", "80", "100"]);
        check(1.0, 9.0, 4, &["2", "4", "6", "8"]);
        check(48.0, 72.0, 6, &["50", "55", "60", "65", "70"]);
        check(0.0, 18_000.0, 4, &["0", "5000", "10\u{202F}000", "15\u{202F}000"]);
        check(-0.3, 0.3, 6, &["−0.3", "−0.2", "−0.1", "0.0", "0.1", "0.2", "0.3"]);
        check(0.0012, 0.0031, 4, &["0.0015", "0.0020", "0.0025", "0.0030"]);
        check(5.0, 5.0, 4, &["5"]);
    }

    #[test]
    fn ticks_never_outnumber_what_was_asked() {
        for span in [0.7, 1.0, 1.1, 2.3, 9.9, 123.0, 6.02e23, 1e-7] {
            for most in 1..9 {
                let (at, step) = ticks(0.0, span, most);
                assert!(at.len() <= most + 1, "{span} in {most}: {at:?}");
                assert!(at.iter().all(|&tick| tick >= -1e-9 * span && tick <= span * (1.0 + 1e-9)));
                assert!(step > 0.0);
            }
        }
    }

    #[test]
    fn an_axis_near_nothing_begins_there() {
        let axis = Axis { label: "speed".into(), dimension: RotationalSpeed::DIMENSION, unit: RPM };
        let scale = Scale::new(&axis, [2000.0, 17_500.0].map(|n| per_minute(n).si()).into_iter(), System::Metric, 0.06, true, 5);
        let scale = scale.between(100.0, 0.0);
        assert_eq!(scale.ticks[0].1, "0");
        assert!((scale.at_number(0.0) - 100.0).abs() < 1e-9 && scale.at(per_minute(17_500.0).si()) > 2.0);
    }

    #[test]
    fn ticks_are_round_in_the_readers_units() {
        let axis = Axis { label: "pulley".into(), dimension: Length::DIMENSION, unit: MM };
        let numbers = || [50.0, 76.0].map(|n| millimetres(n).si()).into_iter();
        let labels = |system| Scale::new(&axis, numbers(), system, 0.0, false, 6).ticks.into_iter().map(|tick| tick.1).collect::<Vec<_>>();
        assert_eq!(labels(System::Metric), ["50", "55", "60", "65", "70", "75"]);
        assert_eq!(labels(System::Imperial), ["2.0", "2.2", "2.4", "2.6", "2.8"]);
    }

    #[test]
    fn one_number_or_none_still_makes_an_axis() {
        let axis = Axis { label: "pulley".into(), dimension: Length::DIMENSION, unit: MM };
        for numbers in [vec![], vec![0.056], vec![f64::NAN], vec![0.0]] {
            let scale = Scale::new(&axis, numbers.into_iter(), System::Metric, 0.05, true, 4).between(0.0, 100.0);
            assert!(scale.at(0.056).is_finite() && !scale.ticks.is_empty());
        }
    }
}
