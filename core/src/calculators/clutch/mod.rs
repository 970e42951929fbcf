//! Clutch: will it hold, how heavy is the pedal, does it release?

pub mod bores;
pub mod capacity;
pub mod diaphragm;
pub mod hydraulics;
pub mod load_curve;
pub mod release;
pub mod shim;

/// Why a figure cannot be computed from what was given: one sentence for the person who gave it.
pub type Refusal = &'static str;

// Nothing on a car is larger in its SI unit, or smaller without being nothing; within these no product of a few sizes
// overflows, so what passes the constructors gives numbers and never NaN.
const LARGEST: f64 = 1e15;
const SMALLEST: f64 = 1e-15;

/// True for a number that can be measured.
pub(crate) fn is_positive(number: f64) -> bool {
    (SMALLEST..=LARGEST).contains(&number)
}

/// True for a number that can be measured, or nothing.
pub(crate) fn is_not_negative(number: f64) -> bool {
    (0.0..=LARGEST).contains(&number)
}
