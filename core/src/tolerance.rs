//! How far a value may be off, and how likely the values between are.

use crate::choices;

choices! {
    /// How the values within a tolerance are spread, as one chooses it for many dimensions at once.
    Distribution {
        NormalTwo "normal-2" "normal, ± is two sigma"
        NormalThree "normal-3" "normal, ± is three sigma"
        Uniform "uniform" "equally likely anywhere between"
        Triangular "triangular" "triangular"
    }
}

impl Distribution {
    /// The shape it stands for.
    #[must_use]
    pub const fn shape(self) -> Shape {
        match self {
            Self::NormalTwo => Shape::Normal { sigmas: 2.0 },
            Self::NormalThree => Shape::Normal { sigmas: 3.0 },
            Self::Uniform => Shape::Uniform,
            Self::Triangular => Shape::Triangular,
        }
    }
}

/// How the values within a tolerance are spread.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Shape {
    /// A normal distribution whose half-width is so many standard deviations; nothing bounds it.
    Normal {
        /// Standard deviations in the half-width, see [`SIGMAS`].
        sigmas: f64,
    },
    /// Alike from end to end.
    Uniform,
    /// Falling straight from the middle to nothing at the ends.
    Triangular,
}

/// Fewest and most standard deviations a normal half-width may stand for.
pub const SIGMAS: [f64; 2] = [0.5, 10.0];

impl Shape {
    /// Its word in links: `normal-2`, `uniform`, `triangular`.
    #[must_use]
    pub fn key(self) -> String {
        match self {
            Self::Normal { sigmas } => format!("normal-{sigmas}"),
            Self::Uniform => "uniform".into(),
            Self::Triangular => "triangular".into(),
        }
    }

    /// Standard deviation as a share of the half-width: 1/k, 1/√3, 1/√6 (JCGM 100:2008, 4.3.7 and 4.3.9).
    #[must_use]
    pub fn deviation(self) -> f64 {
        match self {
            Self::Normal { sigmas } => 1.0 / sigmas,
            Self::Uniform => 0.577_350_269_189_625_8,
            Self::Triangular => 0.408_248_290_463_863,
        }
    }

    /// Whether nothing lies outside the half-width.
    #[must_use]
    pub const fn is_bounded(self) -> bool {
        !matches!(self, Self::Normal { .. })
    }
}

/// What a value may be off by.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Tolerance {
    /// To either side, SI; never negative.
    pub half_width: f64,
    /// How the values between are spread.
    pub shape: Shape,
}

impl Tolerance {
    /// Exactly as given; the shape is that of a tolerance nobody chose one for.
    pub const NONE: Self = Self { half_width: 0.0, shape: Shape::Normal { sigmas: 2.0 } };

    /// Standard deviation, SI.
    #[must_use]
    pub fn deviation(self) -> f64 {
        self.half_width * self.shape.deviation()
    }
}

/// A tolerance made ready for adding up many: its deviation is a share of its half-width.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Off {
    /// To either side, SI; never negative.
    pub half_width: f64,
    share: f64,
    bounded: bool,
}

impl From<Tolerance> for Off {
    fn from(Tolerance { half_width, shape }: Tolerance) -> Self {
        Self { half_width, share: shape.deviation(), bounded: shape.is_bounded() }
    }
}

impl Off {
    /// Exactly as given.
    pub const NONE: Self = Self { half_width: 0.0, share: 0.5, bounded: false };

    /// Standard deviation, SI.
    #[must_use]
    #[inline]
    pub const fn deviation(self) -> f64 {
        self.half_width * self.share
    }

    /// With what was given for one place alone in its stead.
    #[must_use]
    #[inline]
    pub fn unless(self, given: Given) -> Self {
        match given {
            Given { half_width: None, shape: None } => self,
            Given { half_width, shape } => {
                let (share, bounded) = shape.map_or((self.share, self.bounded), |shape| (shape.deviation(), shape.is_bounded()));
                Self { half_width: half_width.unwrap_or(self.half_width), share, bounded }
            }
        }
    }
}

/// What was given for one place; the rest is as usual for it.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Given {
    /// Half-width, SI.
    pub half_width: Option<f64>,
    /// Shape.
    pub shape: Option<Shape>,
}

/// Contributions to one figure, added up three ways. All numbers are SI, of whatever the figure is.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Stack {
    worst: f64,
    squares: f64,
    variance: f64,
    unbounded: bool,
}

impl Stack {
    /// Adds one: how much the figure changes with it, and its tolerance.
    #[inline]
    pub fn add(&mut self, sensitivity: f64, off: impl Into<Off>) {
        let off = off.into();
        let part = sensitivity * off.half_width;
        let deviation = part * off.share;
        self.worst += part.abs();
        self.squares += part * part;
        self.variance += deviation * deviation;
        self.unbounded |= part != 0.0 && !off.bounded;
    }

    /// All of them against the figure at once: Σ|t|.
    #[must_use]
    pub const fn worst_case(&self) -> f64 {
        self.worst
    }

    /// Root of the sum of squares: √Σt².
    #[must_use]
    pub fn root_sum_square(&self) -> f64 {
        self.squares.sqrt()
    }

    /// Standard deviation to first order (JCGM 100:2008, 5.1.2).
    #[must_use]
    pub fn deviation(&self) -> f64 {
        self.variance.sqrt()
    }

    /// Whether the worst case cannot be passed.
    #[must_use]
    pub const fn is_bounded(&self) -> bool {
        !self.unbounded
    }
}

/// Share of a normal distribution that lies more than `z` standard deviations above its middle (a number, not a
/// quantity): ½·erfc(z/√2).
#[must_use]
pub fn normal_tail(z: f64) -> f64 {
    0.5 * libm::erfc(z * core::f64::consts::FRAC_1_SQRT_2)
}

/// The `z` above which a normal distribution has this share (a number up to a half), never too low and at most 0.001 too
/// high: Abramowitz & Stegun, Handbook of Mathematical Functions, 26.2.23 (from memory), and its error on top.
#[must_use]
pub fn sigmas_above(share: f64) -> f64 {
    let t = (-2.0 * libm::log(share.clamp(1e-300, 0.5))).sqrt();
    let over = 2.515_517 + t * (0.802_853 + t * 0.010_328);
    let under = 1.0 + t * (1.432_788 + t * (0.189_269 + t * 0.001_308));
    t - over / under + 4.5e-4
}
