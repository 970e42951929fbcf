//! Wiring: which size for each circuit, which fuse, is the earth good enough, will it crank, does it charge?

mod branches;
pub mod budget;
pub mod bundle;
pub mod cables;
mod charging;
mod charts;
mod check;
pub mod choices;
mod declared;
pub mod drop;
pub mod heat;
pub mod load;
pub mod loom;
mod proofs;
pub mod protection;
mod reads;
mod ready;
pub mod scene;
mod sentence;
pub mod signals;
mod sizing;

use super::Calculator;
use crate::plan::Step;
pub use declared::*;

const STEPS: &[Step] = &[
    load::OF_POWERS,
    load::COILS,
    load::LOADS,
    budget::LOAD,
    budget::BALANCE,
    budget::STANDING,
    cables::PATHS,
    cables::CRANKING,
    charging::FUSES,
    charging::SIZES,
    charging::CHARGING,
    signals::LAMP,
    drop::OTHER_LOSSES,
    sizing::SIZES_THAT_PASS,
    check::CHECKS,
    loom::LISTED,
];

/// The calculator.
pub static WIRING: Calculator = Calculator {
    key: "wiring",
    label: "Wiring",
    question: "Which size for each circuit, which fuse, is the earth good enough, will it crank, does it charge?",
    specs: SPECS,
    tables: TABLES,
    steps: STEPS,
    choice: SIZE.id,
    sentence: sentence::sentence,
    scene: Some(scene::worst),
    charts: &[charts::drop_by_size, charts::temperature_by_size, charts::temperature_when_fuse_opens],
    listing: Some(loom::listing),
    diagrams: Some(scene::full),
    proofs: proofs::PROOFS,
    cautions: &[
        "Battery disconnected before you touch a cable. Fuse every feed at its source; what cannot have a fuse wants a sleeve, clamps, and no edge or exhaust near it.",
        "A poor joint burns: crimp it, insulate it, pull at it, and keep an extinguisher in the car.",
        "A fuel pump must stop when the engine stops or the car is hit.",
    ],
    letters: &[
        ("R_20", "Resistance of a metre of the size at 20 °C"),
        ("R_o", "Resistance of contacts and switches"),
        ("U_o", "Drop over contacts, fuse and relay"),
        ("R", "Resistance of the whole way there and back"),
        ("R_+", "Resistance of the live cable"),
        ("R_r", "Resistance of the way back"),
        ("R_strap", "Resistance of the strap"),
        ("r", "Thermal resistance to the air, bundled as it is"),
        ("Δθ_o", "Warmed by the others of the bundle"),
        ("Σ", "Sum over the circuits"),
        ("R_e", "Resistance of the ways to and from the battery"),
        ("k", "How many of its parts draw at once"),
        ("N", "Pairs among them"),
        ("θ_i", "What the insulation stands"),
        ("I", "Current drawn from the battery"),
    ],
    leaves_out: &[
        "Sizes, fuse times and insulation temperatures are from memory of the standards: where your reel's or fuse's data sheet says otherwise, it is right.",
        "Sizes grow until every circuit passes beside its neighbours; a smaller set of sizes that also passes together is not looked for.",
        "A motor's inrush: a fuse that carries a fan running may still blow on one that is stiff or stalled.",
        "Twenty-four volts: battery, starter and what they are held to stand at twelve until you change each.",
        "Air that moves, sun, and heat radiated by the exhaust; wires touching metal. Moving air helps, the others do not.",
        "What the main feed to the fuse box loses, and the drop of shared returns beyond one circuit's own current.",
        "Alternating, coded and screened signals; crash and fuel cut-offs: a pump must stop when the engine stops or the car is hit.",
    ],
};
