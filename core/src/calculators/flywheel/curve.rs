//! How long does it take to pass through a range of speeds?
//!
//! Time = ∫ dω / f(ω). Torque is straight between the points of its curve, air drag and engine friction are quadratic
//! in speed, so f is a quadratic in each piece and the integral has a closed form: no step size, no error but rounding.

use crate::calculators::car::engine::under_limiter;
use crate::calculators::car::{CURVE_SPEED, FLYWHEEL_TORQUE, HIGHEST_SPEED, TORQUE_CURVE};
use crate::plan::Case;
use crate::quantity::{RotationalSpeed, Torque};
use crate::report::Unknown;
use crate::spec::Input;

/// Most points a curve can have: as many as the car's table takes.
pub const MOST_POINTS: usize = 24;

/// atan(z)/z = 1 − z²/3 + z⁴/5 − …: for z² under 0.02 what comes after these terms is under a rounding.
const SERIES: [f64; 9] = [1.0, 1.0 / 3.0, 1.0 / 5.0, 1.0 / 7.0, 1.0 / 9.0, 1.0 / 11.0, 1.0 / 13.0, 1.0 / 15.0, 1.0 / 17.0];

/// ∫ dx / f(x) over an interval of this `width`, for a quadratic f that is positive all over it.
///
/// `first` and `last` are f at the ends, `bow` is the quadratic's coefficient times width². All numbers in SI.
///
/// With D = first + last − bow the integral is 2·width/D · atan(z)/z, z² = 4·first·last/D² − 1, and atanh(z)/z where
/// that is negative: the book's integral of 1/(a + b·x + c·x²), its constants written by the values at the ends.
pub(crate) fn integral_of_reciprocal(width: f64, first: f64, last: f64, bow: f64) -> f64 {
    let sum = first + last - bow;
    let square = 4.0 * first * last / (sum * sum) - 1.0;
    let mean = if square.abs() < 0.02 {
        SERIES.iter().rev().fold(0.0, |tail, term| term - square * tail)
    } else if square > 0.0 {
        let root = square.sqrt();
        libm::atan(root) / root
    } else {
        let root = (-square).sqrt();
        libm::atanh(root) / root
    };
    2.0 * width / sum * mean
}

/// A torque curve, straight between its points. Points may be given in any order; two at one speed make a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TorqueCurve {
    points: [(RotationalSpeed, Torque); MOST_POINTS],
    count: usize,
}

/// A stretch of a curve over which torque is straight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// Speed at its start.
    pub from: RotationalSpeed,
    /// Speed at its end.
    pub to: RotationalSpeed,
    /// Torque at its start.
    pub first: Torque,
    /// Torque at its end.
    pub last: Torque,
}

impl TorqueCurve {
    /// The curve through these points.
    ///
    /// # Errors
    /// The first reason met, when a point is unknown; or that there are more than [`MOST_POINTS`].
    pub fn new(points: impl IntoIterator<Item = Result<(RotationalSpeed, Torque), Unknown>>) -> Result<Self, Unknown> {
        let mut curve = Self { points: [(RotationalSpeed::ZERO, Torque::ZERO); MOST_POINTS], count: 0 };
        for point in points {
            let point = point?;
            if curve.count == MOST_POINTS {
                return Err(Unknown::NoSolution("The torque curve has too many points."));
            }
            // Typed rows come nearly sorted: each goes back past the few that are faster.
            let mut at = curve.count;
            while at > 0 && curve.points[at - 1].0 > point.0 {
                curve.points[at] = curve.points[at - 1];
                at -= 1;
            }
            curve.points[at] = point;
            curve.count += 1;
        }
        Ok(curve)
    }

    /// The car's, as it reaches the clutch.
    pub(super) fn of(case: &mut Case<'_>) -> Result<Self, Unknown> {
        let rows = case.rows(TORQUE_CURVE);
        Self::new((0..rows).map(|row| Ok((case.cell(CURVE_SPEED, row)?, case.cell(FLYWHEEL_TORQUE, row)?))))
    }

    fn stretches(&self) -> impl Iterator<Item = Stretch> + '_ {
        let points = &self.points[..self.count];
        points.windows(2).map(|pair| Stretch { from: pair[0].0, to: pair[1].0, first: pair[0].1, last: pair[1].1 })
    }

    /// Torque at a speed; where the curve steps, the lower piece's.
    ///
    /// # Errors
    /// When the curve does not reach so far.
    pub fn at(&self, speed: RotationalSpeed) -> Result<Torque, Unknown> {
        let single = self.points[..self.count].iter().find(|point| point.0 == speed).map(|point| point.1);
        let between = self.stretches().find(|stretch| stretch.from < speed && speed <= stretch.to).map(|stretch| stretch.at(speed));
        between.or(single).ok_or(OUT_OF_REACH)
    }

    /// The stretches from one speed to another, cut to fit, slowest first.
    ///
    /// # Errors
    /// When the curve does not reach over the range, or the range has no width.
    pub fn between(&self, from: RotationalSpeed, to: RotationalSpeed) -> Result<impl Iterator<Item = Stretch> + '_, Unknown> {
        if from >= to {
            return Err(NO_RANGE);
        }
        let points = &self.points[..self.count];
        match (points.first(), points.last()) {
            (Some(first), Some(last)) if first.0 <= from && to <= last.0 => {}
            _ => return Err(OUT_OF_REACH),
        }
        let inside = move |stretch: &Stretch| stretch.from < to && from < stretch.to;
        Ok(self.stretches().filter(inside).map(move |stretch| stretch.cut(from, to)))
    }
}

impl Stretch {
    fn at(&self, speed: RotationalSpeed) -> Torque {
        let share = (speed - self.from) / (self.to - self.from);
        self.first + (self.last - self.first) * share
    }

    fn cut(self, from: RotationalSpeed, to: RotationalSpeed) -> Self {
        let start = if self.from < from { (from, self.at(from)) } else { (self.from, self.first) };
        let end = if to < self.to { (to, self.at(to)) } else { (self.to, self.last) };
        Self { from: start.0, to: end.0, first: start.1, last: end.1 }
    }

    /// How far the speed rises over it.
    #[must_use]
    pub fn width(&self) -> RotationalSpeed {
        self.to - self.from
    }
}

/// Why a range of speeds has no time.
pub(super) const NO_RANGE: Unknown = Unknown::NoSolution("The upper speed must be above the lower one.");
const OUT_OF_REACH: Unknown = Unknown::NoSolution("The torque curve does not reach over these speeds.");

pub(super) fn reached(case: &mut Case<'_>, asked: Input<RotationalSpeed>, why: &'static str) -> Result<RotationalSpeed, Unknown> {
    under_limiter(case.of(asked), case.of(HIGHEST_SPEED), why)
}

macro_rules! never_reached {
    ($asked:literal) => {
        concat!("“", $asked, "” is above the highest engine speed, redline and overshoot: the engine never gets there.")
    };
}
pub(super) const REVS_LIMITED: &str = never_reached!("Free revs to");
pub(super) const GEAR_LIMITED: &str = never_reached!("In gear to");
pub(super) const SHIFT_LIMITED: &str = never_reached!("Shift at");
pub(super) const LAUNCH_LIMITED: &str = never_reached!("Launch at");

#[cfg(test)]
mod tests {
    use super::integral_of_reciprocal;

    /// Within the digits printed; the closed form by its end values must agree with the book's by its constants.
    #[track_caller]
    fn check(got: f64, expected: f64, source: &str) {
        assert!((got / expected - 1.0).abs() < 1e-9, "{got}, not {expected} ({source})");
    }

    #[test]
    fn every_branch_is_the_books_integral() {
        let (slow, fast) = (104.719_755_119_659_77, 733.038_285_837_618_4);
        let width = fast - slow;
        let source = "scipy.integrate.quad and the closed forms with ln and atanh, agreeing to 1e-12";
        // 1000 to 7000 min⁻¹, 0.15 kg·m² against 220 − 2e-4·ω²: roots on either side.
        let torque = |speed: f64| 220.0 - 2e-4 * speed * speed;
        check(0.15 * integral_of_reciprocal(width, torque(slow), torque(fast), -2e-4 * width * width), 0.547_059_746, source);
        // Against 0.05·ω, and 15 + 0.03·ω: straight lines.
        check(0.15 * integral_of_reciprocal(width, 0.05 * slow, 0.05 * fast, 0.0), 5.837_730_447, source);
        check(0.15 * integral_of_reciprocal(width, 15.0 + 0.03 * slow, 15.0 + 0.03 * fast, 0.0), 3.562_357_088, source);
        // Drag alone, 700 kg and 0.39 kg/m from 100 to 60 km/h: a double root.
        let (slow, fast) = (60.0 / 3.6, 100.0 / 3.6);
        let width: f64 = fast - slow;
        let drag = |speed: f64| 0.39 * speed * speed;
        check(700.0 * integral_of_reciprocal(width, drag(slow), drag(fast), 0.39 * width * width), 43.076_923_077, source);
        // 1 + x² from 0 to 1 is a quarter of π: no root.
        check(integral_of_reciprocal(1.0, 1.0, 2.0, 1.0), core::f64::consts::FRAC_PI_4, "arctangent");
    }

    #[test]
    fn the_series_meets_the_closed_forms_where_it_hands_over() {
        // first = last = 1 over a width of 1: z² = 4/(2 − bow)² − 1.
        for square in [0.019_999_999_99_f64, -0.019_999_999_99] {
            let at = |square: f64| integral_of_reciprocal(1.0, 1.0, 1.0, 2.0 - 2.0 / (1.0 + square).sqrt());
            let (series, closed) = (at(square), at(square * (1.0 + 1e-9)));
            assert!((series / closed - 1.0).abs() < 1e-10, "{series} {closed}");
        }
    }
}
