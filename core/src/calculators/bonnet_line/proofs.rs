//! What to prove of room and joints on the car.

use super::{FRONT_JOINT, LEAST_WORKING, REAR_JOINT, ROAD};
use crate::proofs::Stage::{Drive, Fitting, Start};
use crate::proofs::{Proof, prove};

pub(super) const PROOFS: &[Proof] = &[
    prove(Fitting, "clay", "Clay on the high points, bonnet shut, engine rocked both ways: nowhere thinner than {}.", &[LEAST_WORKING.id]),
    prove(Fitting, "swing", "The bonnet opened slowly and watched from the side: nothing touches on the way.", &[]),
    prove(
        Fitting,
        "joints",
        "By a level on the flanges, the front joint bends {} and the rear joint {}.",
        &[FRONT_JOINT.id, REAR_JOINT.id],
    ),
    prove(
        Fitting,
        "travel",
        "The axle through all of its travel: the propshaft neither bottoms nor slides out, no hose or cable pulls.",
        &[],
    ),
    prove(Start, "road", "On its wheels with two aboard: {} of air under the lowest point.", &[ROAD.id]),
    prove(Drive, "witness", "No rubbed paint, no new mark in the clay, nothing come loose.", &[]),
];
