//! How fast each pulley turns: one belt, one speed, so ω₂ = ω₁·d₁/d₂ on the diameters of the cord line.

use crate::quantity::{Angle, Length, RotationalSpeed, Velocity, radians, rim_speed};

/// Diameter of the cord line on a grooved pulley: effective diameter plus twice the line difference.
///
/// ISO 9981:2020, 5.4 gives the line difference as 2 mm nominal; measured belts, from memory, show 1.2 to 1.6 mm.
#[must_use]
pub fn on_ribs(effective_diameter: Length, line_difference: Length) -> Length {
    effective_diameter + line_difference * 2.0
}

/// Diameter of the cord line on a smooth back-side pulley: its own plus twice the distance from belt back to cord.
#[must_use]
pub fn on_back(diameter: Length, back_to_cord: Length) -> Length {
    diameter + back_to_cord * 2.0
}

/// Speed of a driven pulley, less the share lost to slip and creep (dimensionless, 0 for none).
///
/// Both diameters on the cord line.
#[must_use]
pub fn driven(driver: RotationalSpeed, of: Length, on: Length, slip: f64) -> RotationalSpeed {
    driver * (of / on) * (1.0 - slip)
}

/// Speed of the belt.
#[must_use]
pub fn belt(crank: RotationalSpeed, crank_diameter: Length) -> Velocity {
    rim_speed(crank, crank_diameter / 2.0)
}

/// Angle at which the belt runs between two pulleys that stand `offset` out of line: atan(e/L).
#[must_use]
pub fn misalignment(offset: Length, span: Length) -> Angle {
    radians(libm::atan2(offset.abs().si(), span.si()))
}

/// Cord-line diameter at which a driven pulley turns at `wanted`, slip left out.
#[must_use]
pub fn diameter_for(wanted: RotationalSpeed, driver: RotationalSpeed, of: Length) -> Length {
    of * (driver / wanted)
}
