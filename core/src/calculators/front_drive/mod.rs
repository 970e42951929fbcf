//! Front drive: the belt, the alternator and the water pump.
//!
//! Questions: how fast do alternator and pump turn, does it charge, does the pump cavitate or starve, which belt goes on,
//! does it wrap and grip?

pub mod adjuster;
pub mod alternator;
pub mod belt_path;
pub mod by_ear;
pub mod clearance;
mod declared;
pub mod designation;
pub mod grip;
pub mod pump;
mod shown;
mod sketches;
pub mod speeds;
mod steps;
mod tangent;

pub use declared::*;
pub use tangent::{Hand, Point, Round, Span, tangent};

use super::Calculator;

/// The calculator.
pub static FRONT_DRIVE: Calculator = Calculator {
    key: "front-drive",
    label: "Front drive",
    question: "How fast do alternator and pump turn, does it charge, and does the belt hold?",
    specs: SPECS,
    tables: TABLES,
    steps: steps::ALL,
    choice: ALTERNATOR_PULLEY.id,
    sentence: shown::sentence,
    scene: Some(shown::scene),
    charts: &[shown::alternator_band, shown::warm_up],
    listing: None,
    cautions: &[
        "Engine off, key out, hair and sleeves clear before a hand goes near the belt. An electric fan starts by itself.",
        "Let it cool before you open the cap: coolant under pressure scalds.",
    ],
    leaves_out: &[
        "Twisting vibration of the crank, which loads a belt and an alternator beyond any of this.",
        "Bending stiffness of the belt: a short span rings a little higher than said.",
        "An arm that swings the adjuster: its travel is taken as straight.",
        "Creep under load: slip is what you say it is.",
        "The pump's map: required suction head goes by the square of speed, which is an approximation.",
        "The coolant's own vapour in the tank, and hoses that give: the first adds pressure, the second takes it.",
        "Loads that change the current: the alternator is taken to give all it can.",
    ],
};
