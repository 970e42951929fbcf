//! How far do the propshaft's joints bend, and how unevenly does it run?
//!
//! A Hooke joint bent by β drives at cos β/(1 − sin²β·cos²θ) of its own speed: unevenly, twice a turn. Two of them cancel
//! when they are phased and bend alike. Khurmi & Gupta, Theory of Machines, ch. 9; Seherr-Thoss, Schmelz and Aucktor,
//! Universal Joints and Driveshafts (from memory).

use crate::quantity::{Angle, AngularAcceleration, Ratio, RotationalSpeed};

/// How a joint bends: seen from the side and from above.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bend {
    /// Seen from the side.
    pub vertical: Angle,
    /// Seen from above.
    pub sideways: Angle,
}

impl Bend {
    /// Both together: tan²β = tan²β_v + tan²β_h, exact for the slopes of two directions.
    #[must_use]
    pub fn angle(self) -> Angle {
        let (vertical, sideways) = (libm::tan(self.vertical.si()), libm::tan(self.sideways.si()));
        Angle::from_si(libm::atan((vertical * vertical + sideways * sideways).sqrt()))
    }

    /// The bend as a number of the complex plane, squared: its size is β², twice the direction of its plane its angle.
    fn squared(self) -> [f64; 2] {
        let (vertical, sideways) = (self.vertical.si(), self.sideways.si());
        [vertical * vertical - sideways * sideways, 2.0 * vertical * sideways]
    }
}

/// The one joint that would run as unevenly as the pair: β² = |β₁² − β₂²| for bends of one plane, with the sum where the
/// yokes are crossed; of different planes each square turns by twice its plane's direction. For small angles.
#[must_use]
pub fn residual(first: Bend, second: Bend, crossed: bool) -> Angle {
    let ([a, b], [c, d]) = (first.squared(), second.squared());
    let sign = if crossed { 1.0 } else { -1.0 };
    Angle::from_si(libm::hypot(a + sign * c, b + sign * d).sqrt())
}

/// Slowest and fastest of the driven shaft: n·cos β and n/cos β.
#[must_use]
pub fn extremes(driving: RotationalSpeed, bend: Angle) -> [RotationalSpeed; 2] {
    let cosine = libm::cos(bend.si());
    [driving * cosine, driving / cosine]
}

/// How much of its speed the driven shaft swings by: 1/cos β − cos β = tan β·sin β.
#[must_use]
pub fn unevenness(bend: Angle) -> Ratio {
    Ratio::from_si(libm::tan(bend.si()) * libm::sin(bend.si()))
}

/// Most that the driven shaft runs ahead or behind: sin ψ = (1 − cos β)/(1 + cos β).
#[must_use]
pub fn lead(bend: Angle) -> Angle {
    let half = libm::tan(bend.si() / 2.0);
    Angle::from_si(libm::asin(half * half))
}

/// Acceleration of the driven shaft with the driving yoke `turned` from the joint's plane.
#[must_use]
pub fn acceleration(driving: RotationalSpeed, bend: Angle, turned: Angle) -> AngularAcceleration {
    let (sine, cosine) = libm::sincos(bend.si());
    let along = libm::cos(turned.si());
    let under = 1.0 - along * along * sine * sine;
    let speed = driving.si();
    AngularAcceleration::from_si(-speed * speed * cosine * libm::sin(2.0 * turned.si()) * sine * sine / (under * under))
}

/// What shakes the driveline, to first order: β²·ω².
#[must_use]
pub fn shake(driving: RotationalSpeed, bend: Angle) -> AngularAcceleration {
    let product = driving.si() * bend.si();
    AngularAcceleration::from_si(product * product)
}
