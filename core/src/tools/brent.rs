//! The root of a function between two values at which its signs differ, one evaluation at a time.
//!
//! Brent, R. P., Algorithms for Minimization without Derivatives (1973), ch. 4 (from memory): inverse quadratic
//! interpolation or the secant where they help, else halving; never outside the bracket, never more than about the square
//! of what halving would take.

/// A root being closed in on.
#[derive(Clone, Copy, Debug)]
pub struct Brent {
    /// The last two of the bracket's tries, and the end that has the other sign than `best`.
    before: (f64, f64),
    best: (f64, f64),
    other: (f64, f64),
    /// The last step, and the one before.
    step: f64,
    earlier: f64,
    tolerance: f64,
    trying: f64,
}

/// Where a search stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Next {
    /// The function's value is wanted here.
    Try(f64),
    /// The bracket is as narrow as was asked for.
    Done {
        /// Where the function is nearest to nothing.
        root: f64,
        /// Its value there.
        value: f64,
        /// Its value at the bracket's other end.
        opposite: f64,
    },
}

impl Brent {
    /// Starts from two places with their values, of different signs; the root will be within `tolerance` (beyond what
    /// doubles cannot tell apart). None when the signs do not differ.
    #[must_use]
    pub fn new(low: (f64, f64), high: (f64, f64), tolerance: f64) -> Option<Self> {
        let differ = (low.1 <= 0.0 && high.1 >= 0.0) || (low.1 >= 0.0 && high.1 <= 0.0);
        let width = high.0 - low.0;
        let search = Self { before: low, best: high, other: low, step: width, earlier: width, tolerance, trying: high.0 };
        (differ && width.is_finite()).then_some(search)
    }

    /// Where to try next.
    pub fn ask(&mut self) -> Next {
        if self.other.1.abs() < self.best.1.abs() {
            self.before = self.best;
            self.best = self.other;
            self.other = self.before;
        }
        let tolerance = 2.0 * f64::EPSILON * self.best.0.abs() + 0.5 * self.tolerance;
        let half = 0.5 * (self.other.0 - self.best.0);
        if half.abs() <= tolerance || self.best.1 == 0.0 {
            return Next::Done { root: self.best.0, value: self.best.1, opposite: self.other.1 };
        }
        if self.earlier.abs() < tolerance || self.before.1.abs() <= self.best.1.abs() {
            (self.step, self.earlier) = (half, half);
        } else {
            let (over, under) = self.interpolated(half);
            let (over, under) = if over > 0.0 { (over, -under) } else { (-over, under) };
            let helps = 2.0 * over < 3.0 * half * under - (tolerance * under).abs() && over < (0.5 * self.earlier * under).abs();
            (self.step, self.earlier) = if helps { (over / under, self.step) } else { (half, half) };
        }
        let least = if half > 0.0 { tolerance } else { -tolerance };
        self.trying = self.best.0 + if self.step.abs() > tolerance { self.step } else { least };
        Next::Try(self.trying)
    }

    /// Numerator and denominator of the interpolated step from `best`.
    fn interpolated(&self, half: f64) -> (f64, f64) {
        let ratio = self.best.1 / self.before.1;
        if self.before.0 == self.other.0 {
            return (2.0 * half * ratio, 1.0 - ratio);
        }
        let (first, second) = (self.before.1 / self.other.1, self.best.1 / self.other.1);
        let over = ratio * (2.0 * half * first * (first - second) - (self.best.0 - self.before.0) * (second - 1.0));
        (over, (first - 1.0) * (second - 1.0) * (ratio - 1.0))
    }

    /// Takes the function's value at the place asked for.
    pub fn tell(&mut self, value: f64) {
        self.before = self.best;
        self.best = (self.trying, value);
        if (self.best.1 > 0.0) == (self.other.1 > 0.0) {
            self.other = self.before;
            self.step = self.best.0 - self.before.0;
            self.earlier = self.step;
        }
    }
}
