//! Tolerances given for single places of a build.

use super::{Build, Refusal};
use crate::spec::{Kind, Place};
use crate::tolerance::{Given, SIGMAS, Shape};
use std::sync::Arc;

impl Build {
    /// What was given for a place's tolerance.
    #[must_use]
    pub fn tolerance(&self, place: Place) -> Given {
        self.tolerances.get(&place).copied().unwrap_or_default()
    }

    /// Every place with a tolerance of its own.
    pub fn tolerances(&self) -> impl Iterator<Item = (Place, Given)> + '_ {
        self.tolerances.iter().map(|(place, given)| (*place, *given))
    }

    /// Gives a half-width (SI) for this place alone; none puts the usual one back.
    ///
    /// # Errors
    /// The reason it was not taken.
    pub fn set_half_width(&mut self, place: Place, half_width: Option<f64>) -> Result<(), Refusal> {
        let Kind::Quantity { unit, .. } = self.spec(place.id).kind else { return Err(Refusal::NotThere) };
        if let Some(width) = half_width {
            let [lowest, highest] = self.spec(place.id).possible;
            if !width.is_finite() {
                return Err(Refusal::NotFinite);
            }
            if width < 0.0 || width > unit.to_si(highest) - unit.to_si(lowest) {
                return Err(Refusal::OutOfRange([0.0, highest - lowest]));
            }
        }
        // One zero, so that equal builds have equal bits.
        let half_width = half_width.map(|width| if width == 0.0 { 0.0 } else { width });
        self.give(place, |given| given.half_width = half_width)
    }

    /// Gives a shape for this place alone; none puts the usual one back.
    ///
    /// # Errors
    /// The reason it was not taken.
    pub fn set_shape(&mut self, place: Place, shape: Option<Shape>) -> Result<(), Refusal> {
        match (self.spec(place.id).kind, shape) {
            (Kind::Quantity { .. }, Some(Shape::Normal { sigmas })) if !(SIGMAS[0]..=SIGMAS[1]).contains(&sigmas) => {
                Err(Refusal::OutOfRange(SIGMAS))
            }
            (Kind::Quantity { .. }, _) => self.give(place, |given| given.shape = shape),
            _ => Err(Refusal::NotThere),
        }
    }

    fn give(&mut self, place: Place, change: impl FnOnce(&mut Given)) -> Result<(), Refusal> {
        self.input_slot(place).ok_or(Refusal::NotThere)?;
        let mut given = self.tolerance(place);
        change(&mut given);
        if given == Given::default() {
            self.tolerances.remove(&place);
        } else {
            self.tolerances.insert(place, given);
        }
        self.settle_tolerances();
        Ok(())
    }

    pub(super) fn settle_tolerances(&mut self) {
        let mut by_slot = Vec::new();
        if !self.tolerances.is_empty() {
            by_slot = vec![Given::default(); self.layout.len()];
            for (place, given) in &self.tolerances {
                if let Some(slot) = self.layout.find(*place) {
                    by_slot[slot] = *given;
                }
            }
        }
        self.given = Arc::new(by_slot);
    }
}
