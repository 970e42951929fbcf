//! The belt's name: `6PK1195` is six ribs of the PK profile, 1195 mm of effective length.
//!
//! ISO 9981, the form of the designation from memory. A belt line parallel to a closed uncrossed one at a distance b is
//! shorter by 2π·b whatever its shape, because it turns once: so effective length = cord length − 2π·b, with b the line
//! difference, back-side pulleys or none. This matches the standard's definition on two equal effective diameters.

use crate::quantity::{Length, millimetres};
use core::f64::consts::TAU;
use core::fmt;

/// Effective length of a belt, which its name states.
#[must_use]
pub fn effective_length(cord_length: Length, line_difference: Length) -> Length {
    cord_length - line_difference * TAU
}

/// Length along the cord line of a belt with this effective length.
#[must_use]
pub fn cord_length(effective_length: Length, line_difference: Length) -> Length {
    effective_length + line_difference * TAU
}

/// The length nearest to `wanted` in whole steps from zero that lies between `least` and `most`. `None` when none does.
#[must_use]
pub fn nearest(wanted: Length, step: Length, least: Length, most: Length) -> Option<Length> {
    let steps = [wanted / step, least / step, most / step];
    let sound = step > Length::ZERO && steps.iter().all(|steps| steps.abs() < 1e6);
    let (low, high) = (steps[1].ceil().max(1.0), steps[2].floor());
    (sound && low <= high).then(|| step * steps[0].round().clamp(low, high))
}

/// From one rib of the PK profile to the next (ISO 9981, from memory).
pub const RIB_PITCH: Length = millimetres(3.56);

/// A ribbed belt of the PK profile.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Designation {
    /// Number of ribs.
    pub ribs: u8,
    /// Effective length.
    pub length: Length,
}

impl fmt::Display for Designation {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}PK{:.0}", self.ribs, self.length.in_millimetres())
    }
}
