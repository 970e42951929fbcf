//! What to prove of the loom and its cables on the car.

use super::{
    CHARGE_ALLOWED, CHARGE_DROP, CHARGE_FUSE, CHARGE_RETURN_ALLOWED, CHARGE_RETURN_DROP, POSITIVE_ALLOWED, POSITIVE_DROP, RETURN_ALLOWED,
    RETURN_DROP, STANDING_CURRENT, STARTER_LEAST, STARTER_VOLTAGE,
};
use crate::calculators::car;
use crate::proofs::Stage::{Drive, Fitting, Running, Start};
use crate::proofs::{Proof, prove};

pub(super) const PROOFS: &[Proof] = &[
    prove(Fitting, "battery-off", "The battery is off before a cable is touched, and nothing metal lies on it.", &[]),
    prove(Fitting, "crimps", "Each crimp was pulled at; each cable is clear of edges and exhaust, with a grommet in each hole.", &[]),
    prove(Fitting, "fuses", "Each feed has its fuse at its source, of the rating in the loom list.", &[]),
    prove(Fitting, "charge-fuse", "{} fuse for the charge cable, at the battery’s end.", &[CHARGE_FUSE.id]),
    prove(Start, "shorts", "The battery’s earth goes on last: first a lamp between it and its post, all switched off, stays dark.", &[]),
    prove(
        Start,
        "starter-feed",
        "Cranking without spark and fuel, battery’s post to starter’s bolt: {} at most, {} reckoned.",
        &[POSITIVE_ALLOWED.id, POSITIVE_DROP.id],
    ),
    prove(
        Start,
        "starter-return",
        "Cranking so, starter’s body to the battery’s negative post: {} at most, {} reckoned.",
        &[RETURN_ALLOWED.id, RETURN_DROP.id],
    ),
    prove(Start, "starter", "Cranking so, across the starter: {} at least, {} reckoned.", &[STARTER_LEAST.id, STARTER_VOLTAGE.id]),
    prove(Running, "charging", "Fast idle, across the battery’s posts: {}.", &[car::SYSTEM_VOLTAGE.id]),
    prove(
        Running,
        "charge-feed",
        "At full output, alternator’s bolt to battery’s post: {} at most, {} reckoned.",
        &[CHARGE_ALLOWED.id, CHARGE_DROP.id],
    ),
    prove(
        Running,
        "charge-return",
        "At full output, alternator’s case to the battery’s negative post: {} at most, {} reckoned.",
        &[CHARGE_RETURN_ALLOWED.id, CHARGE_RETURN_DROP.id],
    ),
    prove(Running, "pump-stops", "Stalled with the key on, the fuel pump stops by itself; so it does by its crash switch.", &[]),
    prove(Running, "key-off", "At a fast idle the key turned off stops it at once.", &[]),
    prove(Running, "warm-joints", "After half an hour with everything on, no plug, fuse or joint is warm to the hand.", &[]),
    prove(Drive, "parked", "Parked for an hour, a meter in the earth cable reads {} at most.", &[STANDING_CURRENT.id]),
];
