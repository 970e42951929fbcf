//! What to prove of belt, pump and charge on the car.

use super::{BALANCE_IDLE, BELT_LENGTH, CAP, LONGEST_TONE, MOST_MISALIGNMENT, MOST_RISE, ONSET_WARM_UP};
use crate::proofs::Stage::{Bench, Drive, Fitting, Running, Start};
use crate::proofs::{Proof, prove};

pub(super) const PROOFS: &[Proof] = &[
    prove(Bench, "pump-way", "The water pump turns the way its maker asks: look at its vanes before the belt hides the pulley.", &[]),
    prove(
        Fitting,
        "alignment",
        "A straight edge across the pulleys: the belt runs askew by {} at most on any span.",
        &[MOST_MISALIGNMENT.id],
    ),
    prove(
        Fitting,
        "belt",
        "The belt of {} effective length goes on with the adjuster slack, and is not levered over a rim.",
        &[BELT_LENGTH.id],
    ),
    prove(
        Fitting,
        "tone",
        "The longest span rings at {} when plucked, and again after two turns of the engine by hand.",
        &[LONGEST_TONE.id],
    ),
    prove(Start, "coolant", "Coolant filled and bled with the heater open; the {} cap is on.", &[CAP.id]),
    prove(Running, "warm-up", "Warmed up gently: a cold system holds no pressure, and its pump cavitates from {}.", &[ONSET_WARM_UP.id]),
    prove(
        Running,
        "charge",
        "Hot, idling, everything on: a clamp meter on the battery cable reads {} into the battery.",
        &[BALANCE_IDLE.id],
    ),
    prove(Running, "rise", "Hot, idling: the top hose is warmer than the bottom one by {} at most.", &[MOST_RISE.id]),
    prove(Drive, "tone-again", "After 100 km the longest span is set to {} again: a new belt settles.", &[LONGEST_TONE.id]),
];
