//! Clutch.
//!
//! Questions: does it hold the engine's torque, how heavy is the pedal, how far does it travel, does it release fully,
//! can it over-travel?

mod asks;
pub mod bores;
pub mod capacity;
pub mod cover;
mod declared;
pub mod diaphragm;
mod drawing;
pub mod hydraulics;
pub mod launch;
pub mod load_curve;
mod pedal;
mod proofs;
pub mod release;
pub mod shim;
mod shown;
mod sketches;
pub mod stroke;

pub use declared::*;

use super::Calculator;
use crate::plan::Step;
use crate::spec::Id;

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

/// What a step reads itself, and what it reads through another's function.
pub(crate) const fn joined<const FIRST: usize, const SECOND: usize, const BOTH: usize>(
    first: [Id; FIRST],
    second: [Id; SECOND],
) -> [Id; BOTH] {
    assert!(FIRST + SECOND == BOTH);
    let mut both = [first[0]; BOTH];
    let mut at = 0;
    while at < BOTH {
        both[at] = if at < FIRST { first[at] } else { second[at - FIRST] };
        at += 1;
    }
    both
}

const STEPS: &[Step] = &[
    cover::FRICTION_STEP,
    pedal::HOSE_STEP,
    cover::COVER_STEP,
    cover::SPRING_STEP,
    capacity::CAPACITY_STEP,
    pedal::PEDAL_STEP,
    shim::SHIM_STEP,
    launch::LAUNCH_STEP,
];

/// The calculator.
pub static CLUTCH: Calculator = Calculator {
    key: "clutch",
    label: "Clutch",
    question: "Does it hold, how heavy is the pedal, and does it free?",
    specs: SPECS,
    tables: TABLES,
    steps: STEPS,
    choice: SLAVE_BORE.id,
    sentence: shown::sentence,
    scene: Some(drawing::scene),
    charts: &[shown::force_through_stroke, shown::bore_pairs, shown::spring_load],
    listing: None,
    diagrams: None,
    proofs: proofs::PROOFS,
    cautions: &[
        "Before the first drive, prove that it frees: in gear, engine running, driven wheels off the ground.",
        "Stands under the car, never a jack alone; nobody under a gearbox that hangs.",
    ],
    letters: &[
        ("A_m", "Area of the master cylinder"),
        ("F_p", "Return spring at the pedal pad"),
        ("b", "Bearing travel asked for"),
        ("p_t", "Pressure at which the hose's growth is given"),
        ("K₁", "Almen and László's factor of the two diameters"),
        ("c", "Lever of the spring on its pivots"),
        ("F", "Load of the spring at its circles"),
        ("ν", "Poisson's ratio of steel"),
    ],
    leaves_out: &[
        "Growth of the rigid pipe, flexing of pedal box and fork, and air in the fluid except through its bulk modulus.",
        "Fingers as part of the spring: a load worked out from dimensions is an estimate, never within.",
        "Friction that lets go: holding the pedal down takes less than reaching there.",
        "What heat does to friction, clamp load and fluid: they are those you give. Launches lose no heat to the air.",
    ],
};
