//! Which shim does a concentric slave need?
//!
//! Its bearing must have room to be pushed back as the plate wears, and stroke left to free the clutch:
//! gap = D − H − S − shim; gap ≥ w·λ + reserve; gap + travel ≤ stroke. Common practice, no source.

use crate::quantity::Length;

/// What is measured with the gearbox off, and what the slave can do.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// D, from the bell housing's face to the face the slave is bolted to.
    pub bell_depth: Length,
    /// H, from the engine's face to the finger tips, plate new and cover bolted up.
    pub finger_height: Length,
    /// S, the slave pushed right back, from its seat to the bearing's face.
    pub collapsed: Length,
    /// How far the slave can come out.
    pub stroke: Length,
}

/// The shims that leave room on both sides; none fits when `thinnest` exceeds `thickest` or `thickest` is negative.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shims {
    /// With less, the slave runs out of stroke.
    pub thinnest: Length,
    /// With more, the slave bottoms before the plate is worn.
    pub thickest: Length,
}

impl Room {
    /// How far the slave stands out at rest with a new plate.
    #[must_use]
    pub fn gap(&self, shim: Length) -> Length {
        self.bell_depth - self.finger_height - self.collapsed - shim
    }

    /// Room the slave is pushed back by when the plate is worn out, less what the fingers need: negative is too little.
    #[must_use]
    pub fn left_when_worn(&self, shim: Length, finger_shift: Length) -> Length {
        self.gap(shim) - finger_shift
    }

    /// Stroke left with the clutch freed: negative is too little.
    #[must_use]
    pub fn stroke_left(&self, shim: Length, travel: Length) -> Length {
        self.stroke - self.gap(shim) - travel
    }

    /// Every shim that keeps `reserve` behind a worn plate and stroke enough for `travel`.
    #[must_use]
    pub fn shims(&self, finger_shift: Length, reserve: Length, travel: Length) -> Shims {
        let bare = self.gap(Length::ZERO);
        Shims { thinnest: (bare + travel - self.stroke).max(Length::ZERO), thickest: bare - finger_shift - reserve }
    }
}
