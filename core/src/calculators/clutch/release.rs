//! How far must the bearing go to free the plate, and where do the fingers stand when the plate is worn?

use crate::quantity::{Force, Length, Stiffness};

/// What must happen at the pressure plate, and what the fingers make of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lift {
    /// How far the plate's cushion springs back before it stops pressing.
    pub cushion: Length,
    /// Air wanted at the plate, both faces together.
    pub clearance: Length,
    /// How much the plate wobbles.
    pub run_out: Length,
}

impl Lift {
    /// Lift of the pressure plate in all.
    #[must_use]
    pub fn total(&self) -> Length {
        self.cushion + self.clearance + self.run_out
    }
}

/// Bearing travel that frees the plate: λ·lift + load/finger stiffness, λ the finger ratio (a number). Common practice,
/// no source. Without end where the stiffness is zero.
#[must_use]
pub fn bearing_travel(lift: Lift, finger_ratio: f64, load: Force, finger_stiffness: Stiffness) -> Length {
    lift.total() * finger_ratio + load / finger_stiffness
}

/// Bearing travel at which the cushion has just stopped pressing: where the load peaks.
#[must_use]
pub fn travel_to_peak(cushion: Length, finger_ratio: f64, load: Force, finger_stiffness: Stiffness) -> Length {
    cushion * finger_ratio + load / finger_stiffness
}

/// How far the finger tips move towards the gearbox while the facings lose `wear` in all.
#[must_use]
pub fn finger_shift(wear: Length, finger_ratio: f64) -> Length {
    wear * finger_ratio
}
