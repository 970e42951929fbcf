//! What to prove of the flywheel on the car.

use super::WEIGHED;
use crate::calculators::car;
use crate::proofs::Stage::{Bench, Fitting, Running};
use crate::proofs::{Proof, prove};

pub(super) const PROOFS: &[Proof] = &[
    prove(Bench, "scales", "The scales say {}, as it was reckoned with.", &[WEIGHED.id]),
    prove(Bench, "proof", "There is paper for its metal, and dye shows no crack at holes or bore.", &[]),
    prove(Bench, "bolts", "Faces clean and dry, bolts as the engine’s maker asks, turned to his torque; run-out by a dial gauge.", &[]),
    prove(Fitting, "pinion", "The starter’s pinion meshes over its whole width and stands clear at rest.", &[]),
    prove(Running, "idle", "It holds an idle of {} by itself, lamps on and off.", &[car::IDLE.id]),
    prove(Running, "limiter", "The limiter is set to {}, and proved from a low setting upwards before it revs freely.", &[car::REDLINE.id]),
];
