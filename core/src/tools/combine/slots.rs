//! The combinations one after the other, without those that the rules forbid.

use super::{FITTED, Sums};
use crate::build::{Build, Origin, Refusal};
use crate::order::Order;
use crate::shelf::{At, Bits, Currency, Part, Rules, Shelf, find};
use crate::spec::Place;
use litemap::LiteMap;

/// A slot to search.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Search {
    /// Its id.
    pub slot: String,
    /// Whether it may stay empty.
    pub or_none: bool,
}

impl Search {
    /// A slot that has to be filled.
    #[must_use]
    pub fn filled(slot: &str) -> Self {
        Self { slot: slot.into(), or_none: false }
    }

    /// A slot that may stay empty.
    #[must_use]
    pub fn or_none(slot: &str) -> Self {
        Self { slot: slot.into(), or_none: true }
    }
}

/// One way to fill a slot.
#[derive(Debug)]
struct Way {
    at: Option<At>,
    /// Its place in the rules, if it is a part.
    part: Option<usize>,
    sets: Vec<(Place, f64)>,
    price: Option<(u64, Currency)>,
    /// Less what comes off with it.
    mass: Option<crate::quantity::Mass>,
}

/// Slots being filled one after the other.
#[derive(Debug)]
pub(super) struct Slots {
    ways: Vec<Vec<Way>>,
    /// The inputs that any part of a slot sets.
    touches: Vec<Vec<Place>>,
    /// What stands at each of these without a part of the slots searched.
    base: LiteMap<Place, (f64, Origin)>,
    rules: Rules,
    /// Per depth: what is fitted, those that stay included; one more than slots.
    fitted: Vec<Bits>,
    /// Per depth: the parts of the slots from there on.
    to_come: Vec<Bits>,
    /// The parts that demand others.
    demanding: Vec<usize>,
    chosen: Vec<usize>,
    /// The slot looked at; those before it stand.
    depth: usize,
    /// It was not looked at yet, with the first of its ways.
    fresh: bool,
    /// What stays cannot stand together, so nothing can.
    at_odds: bool,
}

impl Slots {
    /// The parts of these slots, and those left out as they do not fit this build.
    pub(super) fn new(build: &Build, shelves: &[Shelf], search: &[Search]) -> (Self, Vec<(At, Place, Refusal)>) {
        let mut left_out = Vec::new();
        let players: Vec<At> = At::all(shelves).collect();
        let stay: Vec<usize> = build
            .parts()
            .iter()
            .filter_map(|fitted| find(shelves, fitted))
            .filter_map(|at| players.iter().position(|player| *player == at))
            .collect();
        let mut ways: Vec<Vec<Way>> = Vec::new();
        let mut seen: Vec<&str> = Vec::new();
        for slot in search.iter() {
            if seen.contains(&slot.slot.as_str()) {
                continue;
            }
            seen.push(&slot.slot);
            let mut its: Vec<Way> = Vec::new();
            for (player, &at) in players.iter().enumerate() {
                let Some(part) = at.of(shelves).filter(|part| shelves[at.shelf].slot_of(part).id == slot.slot) else { continue };
                let unset = part.unset.map(|place| (place, Refusal::NotThere));
                match unset.or_else(|| part.sets.iter().find_map(|&(place, value)| refused(build, place, value).map(|why| (place, why)))) {
                    Some((place, why)) => left_out.push((at, place, why)),
                    None => its.push(Way::of(at, player, part)),
                }
            }
            if slot.or_none || its.is_empty() {
                its.insert(0, Way::none());
            }
            ways.push(its);
        }
        let rules = Rules::new(shelves);
        let none = Bits::none(players.len());
        let mut fitted = vec![none.clone(); ways.len() + 1];
        stay.iter().for_each(|&part| fitted[0].add(part));
        let mut to_come = vec![none; ways.len() + 1];
        for at in (0..ways.len()).rev() {
            to_come[at] = to_come[at + 1].clone();
            ways[at].iter().filter_map(|way| way.part).for_each(|part| to_come[at].add(part));
        }
        let touches: Vec<Vec<Place>> = ways.iter().map(|its| places(its)).collect();
        let stands = |place: &Place| (build.own_value(*place).unwrap_or(f64::NAN), build.origin(*place));
        let mut base = LiteMap::new();
        for place in touches.iter().flatten() {
            base.insert(*place, stands(place));
        }
        let chosen = vec![0; ways.len()];
        let demanding = (0..players.len()).filter(|&part| !rules.demands[part].is_empty()).collect();
        let at_odds = stay.iter().any(|&part| rules.forbids[part].meets(&fitted[0]));
        (Self { ways, touches, base, rules, fitted, to_come, demanding, chosen, depth: 0, fresh: true, at_odds }, left_out)
    }

    pub(super) fn len(&self) -> usize {
        self.ways.len()
    }

    /// True when no slot has a part.
    pub(super) fn is_empty(&self) -> bool {
        self.ways.iter().flatten().all(|way| way.part.is_none())
    }

    /// Share of all combinations that are behind.
    pub(super) fn done(&self) -> f32 {
        let (mut share, mut done) = (1.0, 0.0);
        for (its, chosen) in self.ways.iter().zip(&self.chosen).take(self.depth + 1) {
            share /= its.len() as f64;
            done += share * *chosen as f64;
        }
        done as f32
    }

    /// The inputs that any part of a slot sets.
    pub(super) fn touches(&self, slot: usize) -> &[Place] {
        &self.touches[slot]
    }

    /// What stays cannot stand together, so nothing can.
    pub(super) fn at_odds(&self) -> bool {
        self.at_odds
    }

    /// Combinations of the slots after so many.
    pub(super) fn rest(&self, filled: usize) -> f64 {
        self.ways[filled..].iter().map(|its| its.len() as f64).product()
    }

    /// Looks at the next way to fill a slot: how many slots are filled with it, and whether the rules allow it so far. None
    /// at the end.
    pub(super) fn next(&mut self, stale: &mut [bool]) -> Option<(usize, bool)> {
        while !core::mem::take(&mut self.fresh) {
            self.chosen[self.depth] += 1;
            stale[self.depth] = true;
            if self.chosen[self.depth] < self.ways[self.depth].len() {
                break;
            }
            self.chosen[self.depth] = 0;
            self.depth = self.depth.checked_sub(1)?;
        }
        let (filled, stands) = (self.depth + 1, self.add());
        if stands && filled < self.len() {
            self.depth = filled;
            self.fresh = true;
        }
        Some((filled, stands))
    }

    /// What fills so many slots is out of the question: nothing after it is looked at.
    pub(super) fn cut(&mut self, filled: usize) {
        self.depth = filled - 1;
        self.fresh = false;
    }

    /// Fits the chosen way at this depth; false when it cannot stand with what is fitted, or a demand can no longer be met.
    fn add(&mut self) -> bool {
        let (before, after) = self.fitted.split_at_mut(self.depth + 1);
        let (before, fitted) = (&before[self.depth], &mut after[0]);
        fitted.clone_from(before);
        if let Some(part) = self.ways[self.depth][self.chosen[self.depth]].part {
            if self.rules.forbids[part].meets(before) {
                return false;
            }
            fitted.add(part);
        }
        let to_come = &self.to_come[self.depth + 1];
        let met = |demand: &Bits| demand.meets(fitted) || demand.meets(to_come);
        self.demanding.iter().all(|&part| !fitted.has(part) || self.rules.demands[part].iter().all(met))
    }

    /// The combination that stands.
    pub(super) fn chosen(&self) -> Vec<Option<At>> {
        self.standing().map(|way| way.at).collect()
    }

    fn standing(&self) -> impl Iterator<Item = &Way> {
        self.ways.iter().zip(&self.chosen).map(|(its, chosen)| &its[*chosen])
    }

    /// What stands at an input that some slot sets.
    pub(super) fn value(&self, place: Place) -> (f64, Origin) {
        let set = self.standing().flat_map(|way| &way.sets).find(|(set, _)| *set == place);
        set.map_or_else(|| self.base.get(&place).copied().unwrap_or((f64::NAN, Origin::Missing)), |(_, value)| (*value, FITTED))
    }

    /// What the parts come to with those that stay.
    pub(super) fn sums(&self, mut sums: Sums, currency: Option<Currency>) -> Sums {
        for way in self.standing().filter(|way| way.part.is_some()) {
            let price = way.price.filter(|(_, of)| Some(*of) == currency).map(|(thousandths, _)| thousandths);
            sums.thousandths = sums.thousandths.zip(price).map(|(all, one)| all + one);
            sums.mass = sums.mass.zip(way.mass).map(|(all, one)| all + one);
        }
        sums
    }
}

impl Way {
    fn none() -> Self {
        Self { at: None, part: None, sets: Vec::new(), price: None, mass: None }
    }

    fn of(at: At, player: usize, part: &Part) -> Self {
        let removed = part.removes.iter().filter_map(|removed| removed.mass).fold(crate::quantity::Mass::default(), |all, one| all + one);
        Self {
            at: Some(at),
            part: Some(player),
            sets: part.sets.clone(),
            price: part.price.map(|price| (price.thousandths, price.currency)),
            mass: part.mass.map(|mass| mass - removed),
        }
    }
}

fn places(ways: &[Way]) -> Vec<Place> {
    let mut places: Vec<Place> = ways.iter().flat_map(|way| &way.sets).map(|(place, _)| *place).collect();
    places.order_by(Ord::cmp);
    places.dedup();
    places
}

/// Why a part may not set this in this build.
fn refused(build: &Build, place: Place, value: f64) -> Option<Refusal> {
    if build.layout().find(place).is_none() {
        return Some(Refusal::NotThere);
    }
    build.check(place, value).err()
}
