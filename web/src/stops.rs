//! Where a slider stops: the sizes the trade sells, or even steps over the usual range.

use trialfit_core::quantity::Unit;
use trialfit_core::show::{System, gauge};
use trialfit_core::spec::{Kind, Spec};

/// The stops of one declaration's slider.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Stops {
    unit: &'static Unit,
    marks: Marks,
}

/// In numbers of that unit.
#[derive(Clone, Copy, PartialEq, Debug)]
enum Marks {
    /// These, rising.
    Sizes(&'static [f64]),
    /// From, step, count of steps.
    Steps { from: f64, step: f64, count: u32 },
}

impl Stops {
    /// Round numbers of the unit shown. None for what has no range to slide over.
    pub fn of(spec: &Spec, system: System) -> Option<Self> {
        let Kind::Quantity { dimension, unit } = spec.kind else { return None };
        if system.shows_gauges(unit) {
            let [lowest, highest] = spec.possible;
            let from = gauge::AREAS.partition_point(|area| *area < lowest);
            let to = gauge::AREAS.partition_point(|area| *area <= highest);
            return gauge::AREAS.get(from..to).filter(|sizes| sizes.len() > 1).map(|sizes| Self { unit, marks: Marks::Sizes(sizes) });
        }
        if spec.sizes.len() > 1 {
            return Some(Self { unit, marks: Marks::Sizes(spec.sizes) });
        }
        let [from, to] = spec.usual;
        let count = ((to - from) / spec.step).round();
        if !(spec.step > 0.0 && (1.0..10_000.0).contains(&count)) {
            return None;
        }
        let shown = system.unit(dimension, unit);
        if shown == unit {
            return Some(Self { unit, marks: Marks::Steps { from, step: spec.step, count: count as u32 } });
        }
        let [from, to] = [from, to].map(|end| shown.from_si(unit.to_si(end)));
        let step = round_step((to - from) / count);
        let from = decimal((from / step).round() * step);
        let count = ((to - from) / step).round().max(1.0) as u32;
        Some(Self { unit: shown, marks: Marks::Steps { from, step, count } })
    }

    /// Index of the last stop.
    pub fn last(self) -> u32 {
        match self.marks {
            Marks::Sizes(sizes) => sizes.len() as u32 - 1,
            Marks::Steps { count, .. } => count,
        }
    }

    /// The SI number at a stop.
    pub fn at(self, index: u32) -> f64 {
        self.unit.to_si(match self.marks {
            Marks::Sizes(sizes) => sizes[(index as usize).min(sizes.len() - 1)],
            Marks::Steps { from, step, count } => decimal(from + f64::from(index.min(count)) * step),
        })
    }

    /// The stop nearest to an SI number.
    pub fn nearest(self, si: f64) -> u32 {
        let number = self.unit.from_si(si);
        match self.marks {
            Marks::Sizes(sizes) => {
                let distance = |index: &usize| (sizes[*index] - number).abs();
                let nearest = (0..sizes.len()).min_by(|left, right| distance(left).total_cmp(&distance(right)));
                nearest.unwrap_or(0) as u32
            }
            Marks::Steps { from, step, count } => ((number - from) / step).round().clamp(0.0, f64::from(count)) as u32,
        }
    }

    /// The next SI number up or down from one that need not be at a stop. Steps go on past the usual range; sizes end.
    pub fn next(self, si: f64, up: bool) -> Option<f64> {
        let number = self.unit.from_si(si);
        let next = match self.marks {
            Marks::Sizes(sizes) if up => sizes.iter().copied().find(|&size| size > number + close(number)),
            Marks::Sizes(sizes) => sizes.iter().copied().rev().find(|&size| size < number - close(number)),
            Marks::Steps { from, step, .. } => {
                let at = (number - from) / step;
                let next = if up { (at + 1e-6).floor() + 1.0 } else { (at - 1e-6).ceil() - 1.0 };
                Some(decimal(from + next * step))
            }
        };
        next.map(|number| self.unit.to_si(number))
    }
}

/// The 1, 2 or 5 of some power of ten that is nearest in proportion to a positive step.
fn round_step(step: f64) -> f64 {
    let mut power = 1.0;
    while step >= 10.0 * power {
        power *= 10.0;
    }
    while step < power {
        power /= 10.0;
    }
    // Parted at √2, √10 and √50.
    let first = match step / power {
        ..1.414 => 1.0,
        ..3.162 => 2.0,
        ..7.071 => 5.0,
        _ => 10.0,
    };
    decimal(first * power)
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
    use trialfit_core::quantity::unit::{MM, ONE};
    use trialfit_core::quantity::{millimetres, square_millimetres};
    use trialfit_core::show::Sort;

    const BORES: Stops = Stops { unit: MM, marks: Marks::Sizes(&[15.87, 17.46, 19.05, 22.2]) };
    const RATIO: Stops = Stops { unit: ONE, marks: Marks::Steps { from: 2.8, step: 0.01, count: 240 } };

    fn mm(number: f64) -> f64 {
        millimetres(number).si()
    }

    fn spec(key: &str) -> &'static Spec {
        let (calculator, key) = key.split_once('.').expect("a key");
        let calculator = trialfit_core::calculators::ALL.iter().find(|it| it.key == calculator).expect("a calculator");
        calculator.specs.iter().find(|spec| spec.key == key).expect("a declaration")
    }

    #[test]
    fn stops_are_the_decimals_they_look_like() {
        assert_eq!(RATIO.at(3), 2.83);
        assert_eq!(RATIO.at(240), 5.2);
        assert_eq!(RATIO.at(999), 5.2);
        assert_eq!(BORES.at(9), mm(22.2));
    }

    #[test]
    fn the_nearest_stop_is_found_from_anywhere() {
        assert_eq!([0.0, 3.9, 9.0].map(|number| RATIO.nearest(number)), [0, 110, 240]);
        assert_eq!([0.0, 18.0, 99.0].map(|number| BORES.nearest(mm(number))), [0, 1, 3]);
    }

    #[test]
    fn sizes_end_and_steps_go_on() {
        assert_eq!(BORES.next(mm(19.05), true), Some(mm(22.2)));
        assert_eq!(BORES.next(mm(19.0), true), Some(mm(19.05)));
        assert_eq!(BORES.next(mm(19.05), false), Some(mm(17.46)));
        assert_eq!(BORES.next(mm(22.2), true), None);
        assert_eq!(RATIO.next(5.2, true), Some(5.21));
        assert_eq!(RATIO.next(3.905, true), Some(3.91));
        assert_eq!(RATIO.next(3.905, false), Some(3.9));
        assert_eq!(RATIO.next(3.9, false), Some(3.89));
    }

    // 44.48 N are 10 lbf: NIST SP 811, from memory.
    #[test]
    fn steps_are_round_in_the_unit_shown() {
        let clamp = spec("clutch.clamp-load");
        let pounds = Stops::of(clamp, System::Metric.with(Sort::Force, 2)).expect("a range");
        assert_eq!(pounds.marks, Marks::Steps { from: 900.0, step: 10.0, count: 56 });
        assert!((pounds.next(pounds.at(0), true).expect("a step") - pounds.at(0) - 44.482_216).abs() < 1e-5);
        assert_eq!(Stops::of(clamp, System::Imperial), Some(pounds));
        let metric = Stops::of(clamp, System::Metric.with(Sort::Bore, 1)).expect("a range");
        assert_eq!(metric.marks, Marks::Steps { from: 4000.0, step: 50.0, count: 50 });
    }

    #[test]
    fn a_step_is_a_one_a_two_or_a_five() {
        let steps = [0.0394, 0.22481, 1.45, 3.69, 8.0, 112.4].map(round_step);
        assert_eq!(steps, [0.05, 0.2, 2.0, 5.0, 10.0, 100.0]);
    }

    // The even gauges between a declaration's ends; 26 AWG has 0.1288 mm², below the 0.13 that may stand: ASTM B258, from memory.
    #[test]
    fn wires_stop_at_gauges_where_those_are_shown() {
        let gauges = Stops::of(spec("wiring.strap-size"), System::Imperial).expect("gauges");
        let all: Vec<String> = (0..=gauges.last()).filter_map(|at| Some(gauge::of(gauges.at(at))?.number)).collect();
        assert_eq!(all.join(" "), "24 22 20 18 16 14 12 10 8 6 4 2 1 1/0 2/0 3/0 4/0");
        assert_eq!(gauges.next(square_millimetres(2.5).si(), true).and_then(gauge::of).map(|it| it.number).as_deref(), Some("12"));
    }
}
