//! The shelf: a file of parts that a supplier keeps, what each sets in a build, and the rules between them.
//!
//! A slot takes one part. A rule's names are ids of parts or slots; a slot stands for every part of it, on any shelf:
//!
//! - *needs*: each of these has to be fitted with it;
//! - *needs one of*: one of these has to be;
//! - *excludes*: none of these may be;
//! - *only with*: where one of the slots of these parts is filled, one of these fills it.

mod csv;
mod file;
mod kit;
mod problem;
mod read;
mod rules;

pub use csv::write as csv;
pub use kit::{Dearer, Detached, Kit, Known, Line, Total, Trouble, kit};
pub use problem::{Fault, ShelfProblem, Unreadable};
pub use read::{LONGEST, Read, VERSION, is_id, read, read_for};

pub(crate) use rules::{Bits, Rules};

use crate::build::{Build, Fitted, Refusal};
use crate::quantity::Mass;
use crate::spec::Place;

/// A shelf of parts.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Shelf {
    /// Its id, in links and stored builds.
    pub id: String,
    /// As its keeper calls it.
    pub name: String,
    /// Words of its keeper.
    pub note: String,
    /// What parts are for, in the order of the file.
    pub slots: Vec<Slot>,
    /// The parts, in the order of the file.
    pub parts: Vec<Part>,
}

/// A place on the car that takes one part of a kind.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Slot {
    /// Its id; slots of several shelves with one id are one slot.
    pub id: String,
    /// As a noun: `Spigot bearing in the crankshaft`.
    pub name: String,
}

/// One part.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Part {
    /// Its id on its shelf, the same for ever.
    pub id: String,
    /// As one would ask for it.
    pub name: String,
    /// Its slot, by its place in [`Shelf::slots`].
    pub slot: usize,
    /// The inputs it sets: SI, or a choice's ordinal.
    pub sets: Vec<(Place, f64)>,
    /// The first input it was to set to something that could not be taken: nobody knows how a build stands with it.
    pub unset: Option<Place>,
    /// Its mass.
    pub mass: Option<Mass>,
    /// Its price.
    pub price: Option<Price>,
    /// Whether it is to be had.
    pub stock: String,
    /// Address of a picture or page: `https:`, or beside the app.
    pub link: String,
    /// What it needs and excludes.
    pub rules: Vec<Rule>,
    /// What comes off the engine with it.
    pub removes: Vec<Removed>,
    /// To be said wherever it is chosen.
    pub cautions: Vec<String>,
}

/// What comes off the engine.
#[derive(Clone, Debug, PartialEq)]
pub struct Removed {
    /// What.
    pub name: String,
    /// Its mass.
    pub mass: Option<Mass>,
}

/// Three capital letters, as ISO 4217 has them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Currency([u8; 3]);

impl Currency {
    /// The currency of three letters, large or small; none for anything else.
    #[must_use]
    pub fn new(letters: &str) -> Option<Self> {
        let letters: [u8; 3] = letters.trim().as_bytes().try_into().ok()?;
        letters.iter().all(u8::is_ascii_alphabetic).then(|| Self(letters.map(|letter| letter.to_ascii_uppercase())))
    }
}

impl core::fmt::Display for Currency {
    fn fmt(&self, out: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        self.0.iter().try_for_each(|letter| write!(out, "{}", char::from(*letter)))
    }
}

/// An amount of money, exact.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Price {
    /// In thousandths of the currency, never below nothing.
    pub thousandths: u64,
    /// Which.
    pub currency: Currency,
}

impl core::fmt::Display for Price {
    fn fmt(&self, out: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let (whole, thousandths) = (self.thousandths / 1000, self.thousandths % 1000);
        if thousandths % 10 == 0 {
            write!(out, "{whole}.{:02} {}", thousandths / 10, self.currency)
        } else {
            write!(out, "{whole}.{thousandths:03} {}", self.currency)
        }
    }
}

/// What a rule asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Asks {
    /// Each of these fitted with it.
    Needs,
    /// One of these.
    NeedsOneOf,
    /// None of these.
    Excludes,
    /// Where a slot of these is filled, by one of these.
    OnlyWith,
}

/// One rule of a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Rule {
    /// What it asks.
    pub asks: Asks,
    /// Of whom; never empty.
    pub of: Vec<Name>,
    /// Why, in its keeper's words; empty for no reason given.
    pub because: String,
}

/// What a rule names.
#[derive(Clone, Debug, PartialEq)]
pub enum Name {
    /// A part of the same shelf.
    Part(usize),
    /// A slot of the same shelf.
    Slot(usize),
    /// Nothing on this shelf: a slot of another, perhaps.
    Elsewhere(String),
}

/// A part of one of several shelves, by their places.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct At {
    /// Which shelf.
    pub shelf: usize,
    /// Which of its parts.
    pub part: usize,
}

impl At {
    /// Every part of these shelves.
    pub fn all(shelves: &[Shelf]) -> impl Iterator<Item = Self> + '_ {
        shelves.iter().enumerate().flat_map(|(shelf, it)| (0..it.parts.len()).map(move |part| Self { shelf, part }))
    }

    /// The part, of the shelves it was counted in.
    #[must_use]
    pub fn of(self, shelves: &[Shelf]) -> Option<&Part> {
        shelves.get(self.shelf)?.parts.get(self.part)
    }
}

impl Shelf {
    /// The part with this id.
    #[must_use]
    pub fn find(&self, id: &str) -> Option<usize> {
        self.parts.iter().position(|part| part.id == id)
    }

    /// The slot of a part.
    #[must_use]
    pub fn slot_of(&self, part: &Part) -> &Slot {
        &self.slots[part.slot]
    }

    /// Whether a part can be chosen at all: some choice of parts of this shelf that has it fulfils every rule. For rules so
    /// tangled that they cannot be followed to the end, yes.
    #[must_use]
    pub fn can_be_chosen(&self, part: usize) -> bool {
        rules::can_hold(self, part)
    }

    /// How a build names a part of this shelf.
    #[must_use]
    pub fn fitted(&self, part: &Part) -> Fitted {
        let slot = self.slot_of(part).id.as_str();
        Fitted { shelf: self.id.as_str().into(), slot: slot.into(), id: part.id.as_str().into(), name: part.name.as_str().into() }
    }

    /// Fits a part to a build in place of what is in its slot, and sets what it sets. Gives what could not be set, such as
    /// a cell of a row that is not in this build.
    pub fn choose(&self, part: &Part, build: &mut Build) -> Vec<(Place, Refusal)> {
        match build.fit(self.fitted(part)) {
            Err(why) => part.sets.iter().map(|&(place, _)| (place, why)).collect(),
            Ok(at) => {
                let sets = part.sets.iter();
                sets.filter_map(|&(place, value)| build.set_from_part(place, value, at).err().map(|why| (place, why))).collect()
            }
        }
    }

    /// Gives the fitted parts of a build that are of this shelf the names they have here.
    pub fn name_parts(&self, build: &mut Build) {
        build.name_parts(&self.id, |id| self.find(id).map(|at| self.parts[at].name.as_str()));
    }
}

/// Puts an input back: to what the part fitted last sets there, of those that are on these shelves; else to its default, or
/// to following.
pub fn put_back(shelves: &[Shelf], build: &mut Build, place: Place) {
    build.put_back(place);
    for at in 0..build.parts().len() {
        let part = find(shelves, &build.parts()[at]).and_then(|at| at.of(shelves));
        if let Some((_, value)) = part.and_then(|part| part.sets.iter().find(|(set, _)| *set == place)) {
            // What the part could not set before stays as it is usual.
            _ = build.set_from_part(place, *value, at as u16);
        }
    }
}

/// The part of these shelves that is fitted, if it is still on one.
#[must_use]
pub fn find(shelves: &[Shelf], fitted: &Fitted) -> Option<At> {
    shelves.iter().enumerate().find_map(|(at, shelf)| {
        let part = if *shelf.id == *fitted.shelf { shelf.find(&fitted.id) } else { None }?;
        Some(At { shelf: at, part })
    })
}
