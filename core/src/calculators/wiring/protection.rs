//! Does the fuse open before the wire burns?
//!
//! A fuse holds 1.10 times its rating for days and may hold 1.35 times for half an hour, so the wire has to stand 1.35
//! times without end. From 5 s on the wire is one node that warms and loses heat, C·dθ/dt = I²·R(θ) − loss(θ); the loss
//! is replaced by its tangent at the temperature that must not be passed, below the real curve everywhere, so that the
//! node is never cooler than the wire. Up to 5 s nothing is lost: I²·t against k²·S².

use super::bundle::Way;
use super::choices::Guard;
use crate::data::conductors::{Conductor, Insulation, PER_KELVIN, surely_swallowed, swallowed, warming};
use crate::data::fuses::{CARRIED, Fuse, MUST_OPEN};
use crate::quantity::{
    Current, CurrentSquareTime, HeatCapacityPerLength, HeatPerLength, ResistancePerLength, Temperature, ThermalResistance, Time, seconds,
};

/// Up to this time no heat leaves the copper (IEC 60364-5-54, from memory).
pub(super) const ADIABATIC: Time = seconds(5.0);

/// A wire as one node, its loss a straight line: `loss` at `reference`, and a kelvin more for each watt and metre times
/// `outward`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Node {
    /// Heat that warms a metre by a kelvin.
    pub capacity: HeatCapacityPerLength,
    /// Of the copper at 20 °C.
    pub resistance: ResistancePerLength,
    /// A temperature.
    pub reference: Temperature,
    /// Heat lost at it.
    pub loss: HeatPerLength,
    /// The loss's line: kelvin for each further W/m.
    pub outward: ThermalResistance,
}

impl Node {
    /// True when this current without end leaves the copper at or under the reference.
    #[must_use]
    #[inline]
    pub fn stands(&self, current: Current) -> bool {
        current.si() * current.si() * self.resistance.si() * warming(self.reference) <= self.loss.si()
    }

    /// Temperature this current ends at; none when it never ends.
    #[must_use]
    pub fn settled(&self, current: Current) -> Option<Temperature> {
        let square = current.si() * current.si() * self.resistance.si();
        let surplus = square * warming(self.reference) - self.loss.si();
        let escaping = 1.0 / self.outward.si() - square * PER_KELVIN;
        (escaping > 0.0).then(|| Temperature::from_si(self.reference.si() + surplus / escaping))
    }

    /// Temperature after a current has flowed for a time: the closed form of the linear equation, which also holds where
    /// the copper heats itself up.
    #[must_use]
    pub fn temperature_after(&self, current: Current, time: Time, start: Temperature) -> Temperature {
        let square = current.si() * current.si() * self.resistance.si();
        let surplus = (square * warming(self.reference) - self.loss.si()) / self.capacity.si();
        let rate = (1.0 / self.outward.si() - square * PER_KELVIN) / self.capacity.si();
        // Capped where it could only say that it is hopeless, so that nothing becomes infinite.
        let grown = -libm::expm1((-rate * time.si()).min(600.0));
        let weight = if rate == 0.0 { time.si() } else { grown / rate };
        let start = start.si() - self.reference.si();
        Temperature::from_si(self.reference.si() + start * (1.0 - grown) + surplus * weight)
    }
}

/// One wire in its place, ready to be tried against currents.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tried<'a> {
    pub(super) wire: &'a Conductor,
    pub(super) insulation: &'a Insulation,
    pub(super) way: Way,
    /// Temperature the copper has when the fault comes, K.
    pub(super) running: f64,
}

impl Tried<'_> {
    /// The node that touches this wire's loss at the overload temperature of its insulation.
    #[inline]
    pub(super) fn node(&self) -> Node {
        let Way { cylinder, others, lift, inner, .. } = self.way;
        let limit = self.insulation.overload;
        // The surface that belongs to the limit solves loss(θ_s) = (θ_d − lift − θ_s)/inner + others: one step of Newton's
        // from a surface without drop. The loss is convex, so that the step errs to the side of too little loss.
        let (lost, slope) = cylinder.flow(limit.si() - lift);
        let down = (lost - others).max(0.0) / (slope + 1.0 / inner);
        Node {
            capacity: HeatCapacityPerLength::from_si(self.wire.capacity),
            resistance: self.wire.resistance,
            reference: limit,
            loss: HeatPerLength::from_si(down / inner),
            outward: ThermalResistance::from_si(inner + 1.0 / slope),
        }
    }

    /// How this wire and a fuse get on, the load and the fault current left aside.
    #[inline]
    pub(super) fn guard(&self, fuse: Fuse) -> Guard {
        self.guard_by(&self.node(), fuse)
    }

    /// The same with this wire's node at hand.
    #[inline]
    pub(super) fn guard_by(&self, node: &Node, fuse: Fuse) -> Guard {
        let limit = self.insulation.overload.si();
        if self.running > limit {
            return Guard::TooLarge;
        }
        let (start, end, metal) = (Temperature::from_si(self.running), self.insulation.short, self.wire.metal());
        // Most wires stand far more than they are asked to, which a lower bound shows without a logarithm.
        let surely = surely_swallowed(start, end, metal);
        let burns = |let_through: CurrentSquareTime| let_through > surely && let_through > swallowed(start, end, metal);
        for opening in fuse.openings() {
            let current = fuse.rating * opening.multiple;
            if opening.latest <= ADIABATIC {
                if burns(CurrentSquareTime::from_si(current.si() * current.si() * opening.latest.si())) {
                    return Guard::TooLarge;
                }
            } else if opening.multiple > MUST_OPEN && !node.stands(current) {
                let reached = node.temperature_after(current, opening.latest, Temperature::from_si(self.running));
                if reached.si() > limit {
                    return Guard::TooLarge;
                }
            }
        }
        if node.stands(fuse.rating * MUST_OPEN) {
            Guard::Guards
        } else if node.stands(fuse.rating * CARRIED) {
            Guard::LongOverload
        } else {
            Guard::TooLarge
        }
    }

    /// The warmest the wire gets at the slowest openings from 1.35 times the rating up that take longer than 5 s; none
    /// when it would heat itself up without end.
    pub(super) fn warmest(&self, node: &Node, fuse: Fuse) -> Option<Temperature> {
        let mut warmest = node.settled(fuse.rating * MUST_OPEN)?.max(Temperature::from_si(self.running));
        for opening in fuse.openings().iter().filter(|opening| opening.latest > ADIABATIC && opening.multiple > MUST_OPEN) {
            let current = fuse.rating * opening.multiple;
            warmest = warmest.max(node.temperature_after(current, opening.latest, Temperature::from_si(self.running)));
        }
        Some(warmest)
    }
}
