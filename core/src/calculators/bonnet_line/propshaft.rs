//! At what speed does the propshaft whirl? And how far does oil climb in a corner?

use crate::quantity::{Density, Length, Pressure, RotationalSpeed};

/// First critical speed of a plain tube held at its joints: ω = (π/L)²·√(E·I/(ρ·A)), with I/A = (D² + d²)/16. Any
/// mechanics text; the bending of a uniform beam on two supports.
#[must_use]
pub fn critical_speed(outer: Length, inner: Length, length: Length, modulus: Pressure, density: Density) -> RotationalSpeed {
    let (outer, inner, length) = (outer.si(), inner.si(), length.si());
    let squares = (outer * outer + inner * inner) / 16.0;
    let wave = core::f64::consts::PI / length;
    RotationalSpeed::from_si(wave * wave * (modulus.si() / density.si() * squares).sqrt())
}

/// How far oil climbs the outer wall of a sump `width` wide in a corner of `gravities` (a number of g): ½·w·a/g.
#[must_use]
pub fn surge(width: Length, gravities: f64) -> Length {
    width * (0.5 * gravities)
}
