//! What to prove of the car as a whole.

use super::{CRUISE_ENGINE_SPEED, MOTORWAY_SPEED};
use crate::proofs::Stage::{Drive, Fitting, Running, Start};
use crate::proofs::{Proof, prove};

pub(super) const PROOFS: &[Proof] = &[
    prove(Fitting, "stands", "Car on stands, never a jack alone; engine on slings or mounts; nobody under what hangs.", &[]),
    prove(Start, "oil", "Oil pressure by the starter alone, spark and fuel off.", &[]),
    prove(Start, "first-start", "Fuel pump primed, no leak; extinguisher at hand, somebody at the battery’s switch.", &[]),
    prove(Running, "clear", "Hands, sleeves and meter leads clear of belt and fan, which may start by itself; fresh air.", &[]),
    prove(Drive, "brakes", "Brakes, steering and wheel nuts before it moves by itself, by somebody licensed where rules ask for it.", &[]),
    prove(
        Drive,
        "speed",
        "At {} by satellite in top gear the engine turns {}; else tyre or axle are others.",
        &[MOTORWAY_SPEED.id, CRUISE_ENGINE_SPEED.id],
    ),
];
