//! Will it hold the engine's torque?
//!
//! Two idealised facings bound the truth: bedded in, pressure times radius is even (uniform wear, the lower figure);
//! brand new, the pressure itself is even (uniform pressure). Shigley, Mechanical Engineering Design, ch. 16, eqs. 16-23
//! to 16-28: T = N·μ·F·(D + d)/4 and T = N·μ·F·(D³ − d³)/(3·(D² − d²)).

use super::{Refusal, is_not_negative, is_positive};
use crate::quantity::{Force, Length, Pressure, Torque, circle};
use core::f64::consts::PI;

/// The ring of lining on each side of the plate, and what it rubs like.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Facing {
    outer: Length,
    inner: Length,
    surfaces: f64,
    friction: f64,
}

impl Facing {
    /// `surfaces` is how many pairs of faces rub (a number; a single plate has 2), `friction` the coefficient μ.
    ///
    /// # Errors
    /// When the ring has no width, or nothing to rub.
    pub fn new(outer: Length, inner: Length, surfaces: f64, friction: f64) -> Result<Self, Refusal> {
        if !is_positive(inner.si()) || !is_positive(outer.si()) || inner >= outer {
            return Err("The facing's outer diameter must be larger than its inner one.");
        }
        if !is_positive(surfaces) || !is_not_negative(friction) {
            return Err("A facing needs at least one rubbing surface and a friction coefficient.");
        }
        Ok(Self { outer, inner, surfaces, friction })
    }

    /// Torque held by facings that have bedded in.
    #[must_use]
    pub fn torque_worn_in(&self, clamp: Force) -> Torque {
        self.grip(clamp) * self.radius_worn_in()
    }

    /// Torque held by facings pressed evenly, as when new.
    #[must_use]
    pub fn torque_new(&self, clamp: Force) -> Torque {
        self.grip(clamp) * self.radius_new()
    }

    /// Clamp load at which bedded-in facings hold `torque`. Without end where there is no friction.
    #[must_use]
    pub fn clamp_to_hold(&self, torque: Torque) -> Force {
        torque / self.radius_worn_in() / (self.surfaces * self.friction)
    }

    /// Highest pressure on bedded-in facings, at their inner edge: 2F/(πd(D − d)).
    #[must_use]
    pub fn pressure_at_inner_edge(&self, clamp: Force) -> Pressure {
        clamp * 2.0 / (self.inner * (self.outer - self.inner) * PI)
    }

    /// Lowest pressure on bedded-in facings, at their outer edge: 2F/(πD(D − d)).
    #[must_use]
    pub fn pressure_at_outer_edge(&self, clamp: Force) -> Pressure {
        clamp * 2.0 / (self.outer * (self.outer - self.inner) * PI)
    }

    /// Clamp load over the whole facing: 4F/(π(D² − d²)), the pressure of new facings.
    #[must_use]
    pub fn pressure_mean(&self, clamp: Force) -> Pressure {
        clamp / (circle(self.outer) - circle(self.inner))
    }

    fn grip(&self, clamp: Force) -> Force {
        clamp * (self.surfaces * self.friction)
    }

    fn radius_worn_in(&self) -> Length {
        (self.outer + self.inner) / 4.0
    }

    // (D³ − d³)/(D² − d²) with D − d divided out, so that a narrow ring keeps its digits.
    fn radius_new(&self) -> Length {
        let (outer, inner) = (self.outer, self.inner);
        (outer * outer + outer * inner + inner * inner) / (outer + inner) / 3.0
    }
}
