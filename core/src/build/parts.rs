//! Parts of a shelf fitted to a build: they set inputs over what stood there, which comes back when they go.

use super::{Build, Origin, Refusal};
use crate::spec::Place;

/// A part fitted to a build, by the names its shelf gives.
#[derive(Clone, Debug)]
pub struct Fitted {
    /// The shelf's id.
    pub shelf: Box<str>,
    /// The id of the slot it fills.
    pub slot: Box<str>,
    /// The part's id on its shelf.
    pub id: Box<str>,
    /// As its shelf calls it; empty while the shelf is not at hand.
    pub name: Box<str>,
}

impl PartialEq for Fitted {
    /// By ids: a name is known or not, the part is the same.
    fn eq(&self, other: &Self) -> bool {
        (&self.shelf, &self.slot, &self.id) == (&other.shelf, &other.slot, &other.id)
    }
}

impl core::fmt::Display for Fitted {
    fn fmt(&self, out: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        out.write_str(if self.name.is_empty() { &self.id } else { &self.name })
    }
}

/// As many parts as a build takes; a list far longer is no list of parts.
pub const MOST_PARTS: usize = 200;

impl Build {
    /// The parts fitted, in the order they were, as [`Origin::Part`] counts them.
    #[must_use]
    pub fn parts(&self) -> &[Fitted] {
        &self.parts
    }

    /// The part fitted in a slot.
    #[must_use]
    pub fn part_in(&self, slot: &str) -> Option<u16> {
        self.parts.iter().position(|part| &*part.slot == slot).map(|at| at as u16)
    }

    /// Fits a part, which takes the place of the one in its slot, and gives its place among [`Build::parts`]. What it sets
    /// comes by [`Build::set_from_part`].
    ///
    /// # Errors
    /// When there are [`MOST_PARTS`] already.
    pub fn fit(&mut self, part: Fitted) -> Result<u16, Refusal> {
        if let Some(at) = self.part_in(&part.slot) {
            self.remove_part(at);
        }
        if self.parts.len() >= MOST_PARTS {
            return Err(Refusal::OutOfRange([0.0, MOST_PARTS as f64]));
        }
        self.parts.push(part);
        Ok((self.parts.len() - 1) as u16)
    }

    /// Sets an input from a fitted part (SI, or a choice's ordinal), over whatever stands there: that is kept, and comes
    /// back with [`Build::remove_part`].
    ///
    /// # Errors
    /// The reason the value was not taken.
    pub fn set_from_part(&mut self, place: Place, value: f64, part: u16) -> Result<(), Refusal> {
        let slot = self.input_slot(place).filter(|_| usize::from(part) < self.parts.len()).ok_or(Refusal::NotThere)?;
        self.check(place, value)?;
        let mut under = self.under.remove(&place).unwrap_or_default();
        let before = (self.cells[slot], self.origins[slot]);
        if before.1 != Origin::Part(part) {
            // A part stands on a place once, on top.
            under.retain(|layer| layer.1 != Origin::Part(part));
            under.push(before);
        }
        self.put(slot, place, value, Origin::Part(part));
        self.under.insert(place, under);
        Ok(())
    }

    /// Takes a part away: its inputs show again what stood there before.
    pub fn remove_part(&mut self, part: u16) {
        if usize::from(part) >= self.parts.len() {
            return;
        }
        self.parts.remove(usize::from(part));
        for (place, mut layers) in core::mem::take(&mut self.under) {
            let Some(slot) = self.layout.find(place) else { continue };
            layers.push((self.cells[slot], self.origins[slot]));
            layers.retain(|layer| layer.1 != Origin::Part(part));
            for layer in &mut layers {
                if let Origin::Part(at) = &mut layer.1
                    && *at > part
                {
                    *at -= 1;
                }
            }
            if let Some(top) = layers.pop() {
                (self.cells[slot], self.origins[slot]) = top;
            }
            if !layers.is_empty() {
                self.under.insert(place, layers);
            }
        }
    }

    /// What stands at a place, lowest first: what was given or is usual, then what each part set over it. Each with who
    /// gave it; NaN where nothing was.
    pub fn layers(&self, place: Place) -> impl Iterator<Item = (f64, Origin)> + '_ {
        let top = self.input_slot(place).map(|slot| (self.cells[slot], self.origins[slot]));
        self.under.get(&place).into_iter().flatten().copied().chain(top)
    }

    /// Gives fitted parts the names by which their shelf, with this id, calls them.
    pub fn name_parts<'a>(&mut self, shelf: &str, name: impl Fn(&str) -> Option<&'a str>) {
        for part in self.parts.iter_mut().filter(|part| &*part.shelf == shelf) {
            if let Some(name) = name(&part.id) {
                part.name = name.into();
            }
        }
    }
}
