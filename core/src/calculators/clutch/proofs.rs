//! What to prove of the clutch on the car.

use super::{BEARING_AT_STOP, BEARING_TRAVEL_MOST, FREE_PLAY, PEDAL_FORCE, PEDAL_LEFT, PEDAL_TRAVEL, SHIM_GAP, SHIM_LEFT_WHEN_WORN};
use crate::proofs::Stage::{Bench, Drive, Fitting, Running, Start};
use crate::proofs::{Proof, prove};

pub(super) const PROOFS: &[Proof] = &[
    prove(Bench, "plate", "The driven plate slides freely on the gearbox shaft, the right way round, its facings free of oil.", &[]),
    prove(Bench, "cover", "Cover bolted up crosswise, a turn at a time, with the plate centred; bolts to their maker’s torque.", &[]),
    prove(
        Bench,
        "shim",
        "With its shim the concentric slave stands out {} at rest, and {} of that are left for wear.",
        &[SHIM_GAP.id, SHIM_LEFT_WHEN_WORN.id],
    ),
    prove(Fitting, "free-play", "Free play at the pad is {}, felt by a fingertip.", &[FREE_PLAY.id]),
    prove(
        Fitting,
        "pedal-stop",
        "The pedal stop is set before the first press: {} at the pad, which moves the bearing {}, of {} allowed.",
        &[PEDAL_TRAVEL.id, BEARING_AT_STOP.id, BEARING_TRAVEL_MOST.id],
    ),
    prove(Fitting, "bleed", "Filled with the fluid its seals are made for, and bled: pumping does not raise the pedal.", &[]),
    prove(
        Start,
        "force",
        "A luggage scale on the pad reads about {} at its heaviest. Far more means that something binds.",
        &[PEDAL_FORCE.id],
    ),
    prove(Running, "frees", "On stands, driven wheels off the ground, in gear: it frees with {} of pedal left.", &[PEDAL_LEFT.id]),
    prove(Drive, "bed-in", "Gentle starts first: new facings hold all they can only when bedded in.", &[]),
    prove(Drive, "slip", "Then, in a high gear from low speed at full throttle: the engine never runs ahead of the road.", &[]),
];
