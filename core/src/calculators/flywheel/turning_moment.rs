//! How much energy does a flywheel take up and give back in a cycle, whatever the torque looks like?
//!
//! Torque is drawn over crank angle. Against an even load of the same mean, what lies above the mean speeds the wheel
//! up and what lies below slows it: the energy it holds, added up, has a highest and a lowest point.

use crate::quantity::{Angle, Energy, Torque};

/// A turning-moment diagram: torque over crank angle, straight between its points; two at one angle make a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Diagram<'a> {
    /// Points over one cycle, angles not falling.
    pub points: &'a [(Angle, Torque)],
}

impl Diagram<'_> {
    fn pieces(&self) -> impl Iterator<Item = (f64, f64, f64)> + '_ {
        self.points.windows(2).map(|pair| ((pair[1].0 - pair[0].0).si(), pair[0].1.si(), pair[1].1.si()))
    }

    /// Work of the cycle.
    #[must_use]
    pub fn work(&self) -> Energy {
        Energy::from_si(self.pieces().map(|(width, first, last)| width * (first + last) / 2.0).sum())
    }

    /// Torque of an even load that takes all the work. Zero for fewer than two points.
    #[must_use]
    pub fn mean(&self) -> Torque {
        let turned: f64 = self.pieces().map(|(width, ..)| width).sum();
        Torque::from_si(if turned > 0.0 { self.work().si() / turned } else { 0.0 })
    }

    /// Greatest less least energy in the wheel under an even load. Exact for the straight pieces.
    #[must_use]
    pub fn fluctuation(&self) -> Energy {
        let mean = self.mean().si();
        let (mut held, mut least, mut most) = (0.0_f64, 0.0_f64, 0.0_f64);
        for (width, first, last) in self.pieces() {
            let (first, last) = (first - mean, last - mean);
            if first * last < 0.0 {
                let turning = held + first * width * (first / (first - last)) / 2.0;
                (least, most) = (least.min(turning), most.max(turning));
            }
            held += width * (first + last) / 2.0;
            (least, most) = (least.min(held), most.max(held));
        }
        Energy::from_si(most - least)
    }
}
