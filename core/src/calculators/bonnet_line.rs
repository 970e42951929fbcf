//! Bonnet line: does it fit under the bonnet with everything at its worst, how low can it go, and what does lowering cost
//! underneath?
//!
//! The engine as measured on a stand, put in the car by height, place and pitch, then let sag, roll, bounce and grow; over
//! it the bonnet's underside as measured, under it chassis and road, behind it the propshaft.

mod above;
mod below;
mod charts;
mod declared;
mod drawing;
mod driveline;
pub mod joints;
mod motion;
pub mod mounts;
mod opening;
mod placed;
mod proofs;
pub mod propshaft;
mod remedies;
mod room;
mod sentence;
mod sketches;
pub mod space;
pub mod surface;
mod values;

pub use declared::*;

use super::Calculator;
use super::clutch::joined;
use crate::plan::Step;

const STEPS: &[Step] = &[
    motion::SIT_STEP,
    motion::ROLL_STEP,
    above::ABOVE_STEP,
    below::BELOW_STEP,
    driveline::GEARED_STEP,
    driveline::JOINTS_STEP,
    driveline::BAND_STEP,
];

/// The calculator.
pub static BONNET_LINE: Calculator = Calculator {
    key: "bonnet-line",
    label: "Bonnet line",
    question: "Does it fit under the bonnet with everything at its worst, and what does lowering cost underneath?",
    specs: SPECS,
    tables: TABLES,
    steps: STEPS,
    choice: HEIGHT.id,
    sentence: sentence::sentence,
    scene: Some(drawing::scene),
    charts: &[charts::room, charts::joints],
    listing: None,
    diagrams: None,
    proofs: proofs::PROOFS,
    cautions: &[CLAY, "Nobody under an engine that hangs or a car on a jack alone; no hand between engine and bonnet."],
    letters: &[
        ("x", "Along the car, from joint to joint"),
        ("y", "Across the car, from joint to joint"),
        ("z", "Height of the point above its datum"),
        ("β_v", "Angle seen from the side"),
        ("β_h", "Angle seen from above"),
        ("γ₁", "Front joint's angle seen from the side"),
        ("γ₂", "Rear joint's angle seen from the side"),
        ("B", "Height of the bonnet's underside over the point"),
        ("b", "Rise or drop of the point by bounce and roll"),
        ("T", "Most that all give or take can take together"),
        ("s'", "Room after the change"),
        ("v", "Its part of the variance"),
        ("Σv", "The whole variance"),
        ("√Σt²", "Root of the sum of squares of all give or take"),
        ("s_w", "Room at work"),
        ("m", "Least room of all points"),
        ("α", "Thermal expansion of aluminium"),
        ("σ", "Standard deviation of the room"),
    ],
    leaves_out: &[
        "The bonnet between stations: taken as straight. A crowned one is a little higher than that, a hollow or a rib lower.",
        "Room sideways and to the front: fan, steering column, exhaust against the footwell.",
        "Roll is that of a torque slowly applied, its clutch at its lowest friction; a dropped clutch throws the engine further. The gearbox mount is taken not to resist.",
        "The first-order chance and root-sum-square count dimensions only; mounts, torque and bounce have no spread there. A spread by samples takes whatever was given one.",
        "The opening bonnet is seen from the side, its sides and lips only as far as they were measured.",
        "Propshaft: a plain tube on stiff bearings. Balance weights, slip joint and a soft tunnel bring its critical speed down.",
    ],
};
