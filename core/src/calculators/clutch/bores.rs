//! Which pair of cylinders is light enough, frees the clutch, and cannot bend its fingers?
//!
//! Every usual pair, judged by the same functions as the pair that is fitted.

use super::Refusal;
use super::hydraulics::System;
use super::load_curve::LoadCurve;
use crate::quantity::{Force, Length, Pressure, circle, millimetres};
use crate::report::is_past;
use crate::spec::Sense;

/// A bore the trade sells.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bore {
    /// In millimetres; a number, because the declared sizes of the inputs are made from it.
    pub millimetres: f64,
    /// As it is cast on the cylinder, in inches.
    pub name: &'static str,
}

impl Bore {
    /// Across.
    #[must_use]
    pub const fn diameter(&self) -> Length {
        millimetres(self.millimetres)
    }
}

const fn bore(millimetres: f64, name: &'static str) -> Bore {
    Bore { millimetres, name }
}

/// Master bores the trade sells.
pub const MASTERS: [Bore; 4] = [bore(15.875, "5/8"), bore(17.78, "0.70"), bore(19.05, "3/4"), bore(20.6375, "13/16")];

/// Slave bores the trade sells.
pub const SLAVES: [Bore; 5] = [bore(19.05, "3/4"), bore(20.6375, "13/16"), bore(22.225, "7/8"), bore(23.8125, "15/16"), bore(25.4, "1")];

/// [`MASTERS`] in millimetres.
pub const MASTER_SIZES: &[f64] = &sizes(MASTERS);
/// [`SLAVES`] in millimetres.
pub const SLAVE_SIZES: &[f64] = &sizes(SLAVES);

const fn sizes<const COUNT: usize>(bores: [Bore; COUNT]) -> [f64; COUNT] {
    let mut sizes = [0.0; COUNT];
    let mut at = 0;
    while at < COUNT {
        sizes[at] = bores[at].millimetres;
        at += 1;
    }
    sizes
}

/// What a pair is judged by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wanted {
    /// Bearing travel that frees the clutch.
    pub travel: Length,
    /// Bearing travel the cover allows.
    pub most_travel: Length,
    /// Most the pedal may ask for.
    pub effort: Force,
    /// Most the line may see.
    pub pressure: Pressure,
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
    /// Highest pressure in the line.
    pub pressure: Pressure,
    /// Free before the stop.
    pub releases: bool,
    /// Bends the fingers at the stop.
    pub over_travels: bool,
    /// Asks no more than wanted.
    pub light_enough: bool,
    /// Does not strain the line.
    pub soft_enough: bool,
}

impl Fitness {
    /// All of them at once.
    #[must_use]
    pub fn passes(&self) -> bool {
        self.releases && !self.over_travels && self.light_enough && self.soft_enough
    }
}

/// How the system does as it is.
#[must_use]
pub fn judge(system: &System, curve: &LoadCurve, wanted: Wanted) -> Fitness {
    let push = system.push(curve, wanted.travel);
    let (effort, pressure) = (push.heaviest.force, push.hardest.pressure);
    let (pedal_at_release, bearing_at_stop) = (push.release.pedal, push.bearing_at_stop);
    // As the figures' own verdicts have it.
    let holds = |found: f64, most: f64| !is_past(found, Sense::AtMost, most);
    Fitness {
        effort,
        pedal_at_release,
        bearing_at_stop,
        releases: holds(pedal_at_release.si(), system.parts().pedal_travel.si()),
        over_travels: !holds(bearing_at_stop.si(), wanted.most_travel.si()),
        light_enough: holds(effort.si(), wanted.effort.si()),
        pressure,
        soft_enough: holds(pressure.si(), wanted.pressure.si()),
    }
}

/// One pair of the field.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pair {
    /// Master bore.
    pub master: Bore,
    /// Slave bore; none where a concentric slave stays as it is.
    pub slave: Option<Bore>,
    /// The system with this pair, or why there is none.
    pub system: Result<System, Refusal>,
}

/// Every usual pair in this system.
pub fn pairs(system: &System) -> impl Iterator<Item = Pair> + '_ {
    MASTERS.into_iter().flat_map(move |master| {
        SLAVES.into_iter().map(move |slave| Pair {
            master,
            slave: Some(slave),
            system: system.with_pistons(circle(master.diameter()), circle(slave.diameter())),
        })
    })
}

/// Every usual master with the slave as it is: the field of a concentric slave.
pub fn masters(system: &System) -> impl Iterator<Item = Pair> + '_ {
    MASTERS.into_iter().map(move |master| Pair {
        master,
        slave: None,
        system: system.with_pistons(circle(master.diameter()), system.parts().slave),
    })
}
