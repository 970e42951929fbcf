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
mod proofs;
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
    diagrams: None,
    proofs: proofs::PROOFS,
    cautions: &[
        "Engine off, key out, hair and sleeves clear before a hand goes near the belt. An electric fan starts by itself.",
        "Let it cool before you open the cap: coolant under pressure scalds.",
    ],
    letters: &[
        ("L", "Length of the belt, or of a free span"),
        ("L_min", "Length that fits with the adjuster fully in"),
        ("L_max", "Length that fits with the adjuster fully out"),
        ("x_w", "Share of the vapour pressure of water that the mixture has"),
        ("p_sat", "Vapour pressure of water at that temperature"),
        ("h_ref", "Head lost on the suction side at the reference speed"),
        ("ΔV", "Growth of the coolant into the air"),
        ("c", "Specific heat of the coolant"),
        ("ρ", "Density of the coolant"),
        ("D", "Distance of the two centres"),
        ("r_1", "Radius of the belt's line on the one pulley"),
        ("r_2", "Radius of the belt's line on the next pulley"),
        ("spans", "All free spans together"),
        ("arcs", "All arcs on pulleys together"),
        ("α_1", "Angle at which the belt comes on"),
        ("α_2", "Angle at which the belt goes off"),
        ("F_1", "Pull of the span before the pulley"),
        ("F_2", "Pull of the span after the pulley"),
        ("F_c", "Pull that only keeps the belt's own mass on its way"),
        ("F_eff", "Pull that the pulley's load asks for"),
        ("F_idle", "Setting that idle asks for"),
        ("F_slack", "Pull of the slack span"),
        ("F_tight", "Pull of the tight span"),
        ("P_other", "All else on the belt"),
        ("e", "How far the plane of one pulley stands off the next one's"),
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
