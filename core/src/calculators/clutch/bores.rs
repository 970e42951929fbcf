//! Which pair of cylinders is light enough, frees the clutch, and cannot bend its fingers?
//!
//! Every usual pair, judged by the same functions as the pair that is fitted.

use super::Refusal;
use super::hydraulics::System;
use super::load_curve::LoadCurve;
use crate::quantity::{Force, Length, circle, inches};

/// Master bores the trade sells: 5/8, 0.70, 3/4 and 13/16 in.
pub const MASTERS: [Length; 4] = [inches(0.625), inches(0.7), inches(0.75), inches(0.8125)];

/// Slave bores the trade sells: 3/4, 13/16, 7/8, 15/16 and 1 in.
pub const SLAVES: [Length; 5] = [inches(0.75), inches(0.8125), inches(0.875), inches(0.9375), inches(1.0)];

/// What a pair is judged by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wanted {
    /// Bearing travel that frees the clutch.
    pub travel: Length,
    /// Bearing travel the cover allows.
    pub most_travel: Length,
    /// Most the pedal may ask for.
    pub effort: Force,
}

/// How one pair does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fitness {
    /// Highest force at the pad on the way to release.
    pub effort: Force,
    /// Pad travel at release; past the stop when it does not release.
    pub pedal_at_release: Length,
    /// Bearing travel with the pad on its stop.
    pub bearing_at_stop: Length,
    /// Free before the stop.
    pub releases: bool,
    /// Bends the fingers at the stop.
    pub over_travels: bool,
    /// Asks no more than wanted.
    pub light_enough: bool,
}

impl Fitness {
    /// All three at once.
    #[must_use]
    pub fn passes(&self) -> bool {
        self.releases && !self.over_travels && self.light_enough
    }
}

/// How the system does as it is.
#[must_use]
pub fn judge(system: &System, curve: &LoadCurve, wanted: Wanted) -> Fitness {
    let effort = system.heaviest(curve, wanted.travel).force;
    let pedal_at_release = system.at_release(curve, wanted.travel).pedal;
    let bearing_at_stop = system.bearing_at_stop(curve);
    Fitness {
        effort,
        pedal_at_release,
        bearing_at_stop,
        releases: pedal_at_release <= system.parts().pedal_travel,
        over_travels: bearing_at_stop > wanted.most_travel,
        light_enough: effort <= wanted.effort,
    }
}

/// One pair of the field.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pair {
    /// Master bore.
    pub master: Length,
    /// Slave bore; with a concentric slave, the bore of a plain piston as large as its ring.
    pub slave: Length,
    /// How it does, or why that cannot be told.
    pub fitness: Result<Fitness, Refusal>,
}

/// Every usual pair in this system.
pub fn pairs<'a>(system: &'a System, curve: &'a LoadCurve, wanted: Wanted) -> impl Iterator<Item = Pair> + 'a {
    MASTERS.into_iter().flat_map(move |master| {
        SLAVES.into_iter().map(move |slave| {
            let fitted = system.with_pistons(circle(master), circle(slave));
            Pair { master, slave, fitness: fitted.map(|system| judge(&system, curve, wanted)) }
        })
    })
}

/// Every usual master with the slave as it is: the field of a concentric slave.
pub fn masters<'a>(system: &'a System, curve: &'a LoadCurve, wanted: Wanted) -> impl Iterator<Item = Pair> + 'a {
    let ring = system.parts().slave;
    MASTERS.into_iter().map(move |master| {
        let fitted = system.with_pistons(circle(master), ring);
        let slave = super::hydraulics::equivalent_bore(ring);
        Pair { master, slave, fitness: fitted.map(|system| judge(&system, curve, wanted)) }
    })
}
