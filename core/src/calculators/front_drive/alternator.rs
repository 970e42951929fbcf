//! What the alternator gives at any speed, what it costs, and whether the battery stays charged.
//!
//! Two rated points (ISO 8854: 1500 and 6000 min⁻¹, from memory) and the speed at which it starts to charge fix a
//! concave curve, I = I∞·(1 − e^(−(n − n₀)/τ)): a straight line between the points would promise too little below them.

use crate::quantity::{AngularAcceleration, Current, Inertia, Power, RotationalSpeed, Torque, Voltage, radians_per_second};
use core::fmt;

/// A rated point: current at a speed, both at the alternator.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rating {
    /// Alternator speed.
    pub speed: RotationalSpeed,
    /// Current it gives there, cold.
    pub current: Current,
}

/// Output against speed, cold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Output {
    /// Speed at which it starts to charge.
    pub cut_in: RotationalSpeed,
    /// How quickly the current rises: τ of the equation.
    pub rise: RotationalSpeed,
    /// Current it would reach at endless speed.
    pub most: Current,
}

/// Why no curve of this form goes through the ratings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unfit {
    /// A value is missing, negative or no number.
    NotARating,
    /// The speeds do not rise from cut-in over the first rating to the second.
    SpeedsOutOfOrder,
    /// The second current is not above the first.
    NoRise,
    /// The second current is so far above the first that the curve would bend upwards.
    TooSteep,
}

impl Unfit {
    /// In words.
    #[must_use]
    pub const fn reason(self) -> &'static str {
        match self {
            Self::NotARating => "A rated speed or current of the alternator is not a positive number.",
            Self::SpeedsOutOfOrder => "The alternator's cut-in must lie below its first rated speed, and that below the second.",
            Self::NoRise => "The alternator's current at the second rated speed must be above the first.",
            Self::TooSteep => "The alternator's second current is too high for its first and its cut-in speed: check all three.",
        }
    }
}

impl fmt::Display for Unfit {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.reason())
    }
}

impl core::error::Error for Unfit {}

impl Output {
    /// The curve through cut-in and both ratings.
    ///
    /// # Errors
    /// [`Unfit`] when there is none.
    pub fn through(cut_in: RotationalSpeed, low: Rating, high: Rating) -> Result<Self, Unfit> {
        // Within these the curve's own numbers stay finite and above nothing.
        let positive = |number: f64| number > 1e-9 && number < 1e9;
        let sound = cut_in >= RotationalSpeed::ZERO
            && positive(low.speed.si())
            && positive(high.speed.si())
            && positive(low.current.si())
            && positive(high.current.si());
        if !sound {
            return Err(Unfit::NotARating);
        }
        let near = (low.speed - cut_in).si();
        let far = (high.speed - cut_in).si();
        let in_order = near > 0.0 && far > near;
        if !in_order {
            return Err(Unfit::SpeedsOutOfOrder);
        }
        let ratio = high.current / low.current;
        let rises = ratio > 1.0;
        if !rises {
            return Err(Unfit::NoRise);
        }
        // As the curve straightens the ratio tends to far/near; so close to it no current is finite.
        let bends = ratio < far / near * (1.0 - 1e-6);
        if !bends {
            return Err(Unfit::TooSteep);
        }
        let rise = radians_per_second(1.0 / steepness(near, far, ratio));
        let most = low.current / -libm::expm1(-near / rise.si());
        Ok(Self { cut_in, rise, most })
    }

    /// Current at an alternator speed: nothing below cut-in.
    #[must_use]
    pub fn at(&self, speed: RotationalSpeed) -> Current {
        if speed > self.cut_in { self.most * -libm::expm1(-((speed - self.cut_in) / self.rise)) } else { Current::ZERO }
    }
}

/// s = 1/τ with (1 − e^(−far·s)) = ratio·(1 − e^(−near·s)), where 1 < ratio < far/near.
///
/// Newton's method kept inside a bracket. F(s), left side less right, rises from 0 to its peak and falls through its
/// one positive root; the peak is below the root, and the root of F without its far exponential is above.
fn steepness(near: f64, far: f64, ratio: f64) -> f64 {
    let mut low = libm::log(far / (ratio * near)) / (far - near);
    let mut high = -libm::log1p(-1.0 / ratio) / near;
    let mut at = high;
    // Each step halves the bracket at worst.
    for _ in 0..64 {
        let (fast, slow) = (libm::expm1(-far * at), libm::expm1(-near * at));
        let excess = ratio * slow - fast;
        if excess > 0.0 {
            low = at;
        } else {
            high = at;
        }
        let slope = far * (fast + 1.0) - ratio * near * (slow + 1.0);
        let newton = at - excess / slope;
        let next = if newton > low && newton < high { newton } else { (low + high) / 2.0 };
        if (next - at).abs() <= 1e-15 * at {
            return next;
        }
        at = next;
    }
    at
}

/// Power the belt must bring for an electrical output: P = V·I/η, η dimensionless.
#[must_use]
pub fn shaft_power(voltage: Voltage, current: Current, efficiency: f64) -> Power {
    voltage * current / efficiency
}

/// Torque that brings this power at a speed.
#[must_use]
pub fn torque(power: Power, speed: RotationalSpeed) -> Torque {
    power / speed
}

/// Torque that spins a rotor up with the engine: J·i·α, i the pulley ratio (driven over crank, dimensionless).
#[must_use]
pub fn spin_up(rotor: Inertia, ratio: f64, crank: AngularAcceleration) -> Torque {
    rotor * (crank * ratio)
}

/// Inertia of a rotor as the crank feels it: J·i², i the pulley ratio (driven over crank, dimensionless).
#[must_use]
pub fn reflected(rotor: Inertia, ratio: f64) -> Inertia {
    rotor * (ratio * ratio)
}

/// Current left for the battery: what is made, hot, less what the car draws.
#[must_use]
pub fn balance(made: Current, drawn: Current) -> Current {
    made - drawn
}
