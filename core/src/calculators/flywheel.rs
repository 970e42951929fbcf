//! Flywheel: how much livelier, how much rougher, is it safe?
//!
//! The chosen wheel's inertia by one of three ways, its effect on everything that spins with it, each against the
//! reference wheel; and whether it stays in one piece.

pub mod curve;
mod declared;
mod drawing;
pub mod idle;
pub mod in_gear;
pub mod launch;
pub mod material;
mod plots;
mod plots_idle;
mod proofs;
pub mod rattle;
pub mod revs;
pub mod sections;
mod shown;
pub mod shut;
mod sketches;
pub mod strength;
pub mod swing;
pub mod totals;
pub mod turning_moment;

use super::Calculator;
use crate::plan::Step;
pub use declared::*;

const STEPS: &[Step] = &[
    material::METAL,
    sections::RINGS_AND_HOLES,
    sections::WHOLE,
    sections::JOINED,
    swing::SWING_TEST,
    totals::WHEELS,
    totals::TOTALS,
    totals::EQUIVALENTS,
    revs::REVS,
    shut::SHUT,
    in_gear::IN_GEAR,
    launch::TORQUE,
    launch::LAUNCH,
    idle::IDLING,
    strength::OVERSPEEDS,
    strength::STRESSES,
    strength::STORED,
    rattle::RATTLE,
];

/// The calculator.
pub static FLYWHEEL: Calculator = Calculator {
    key: "flywheel",
    label: "Flywheel",
    question: "How much livelier, how much rougher, and is it safe?",
    specs: SPECS,
    tables: TABLES,
    steps: STEPS,
    choice: WEIGHED.id,
    sentence: shown::sentence,
    scene: Some(drawing::half_section),
    charts: &[plots::free_revs, plots::throttle_shut, plots::in_gear, plots::launch, plots_idle::speed, plots_idle::moment],
    listing: None,
    diagrams: None,
    proofs: proofs::PROOFS,
    cautions: &[NO_TEST, PROOF, CAST],
    letters: &[
        ("J_1", "Inertia of the engine's side"),
        ("J_2", "Inertia of the car's side"),
        ("M_r", "Torque of the road's resistance at the clutch"),
        ("F_r", "Rolling resistance"),
        ("N", "How many holes"),
        ("r", "Radius of the holes' circle, or of the tyre"),
        ("r_i", "Inner radius of the disc"),
        ("r_o", "Outer radius of the disc"),
        ("q", "4 beside a bore, 8 in the middle of a solid disc"),
        ("u_m", "From the mass"),
        ("u_R", "From the radius of the strings"),
        ("u_L", "From the length of the strings"),
        ("u_t", "From the time of a swing"),
        ("Σm_r", "All rings together"),
        ("Σm_h", "All holes together"),
        ("ΣJ_r", "All rings together"),
        ("ΣJ_h", "All holes together"),
    ],
    leaves_out: &[
        "Torque is straight between the curve's points and full at once: no manifold filling, no spark limits, so real revs take a little longer.",
        "Friction with the throttle shut is a fit of engines up to 2 litres; real ones lie between three quarters of it and a tenth over, by guess.",
        "In gear: the gearbox's own inertia, tyre slip, wind and slopes. In a shift: the car slowing down.",
        "Launch: losses of the driveline and tyre slip. Feet do something between a dump and a slip.",
        "Idle: any but a four-stroke four in line, which fires twice a turn.",
        "Idle: strokes that burn unlike, which roughen it well beyond this figure.",
        "Strength: a ring of one thickness. Steps, keyways, heat checks, casting flaws and the cover's pull on its bolts are not in it.",
        "Swing: light strings and small twists. 10° to either side puts 0.4 % on the result, 30° some 3 %.",
    ],
};
