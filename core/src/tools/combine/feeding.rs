//! Which slots matter to what is looked for, and what hangs on them.

use super::{Aim, Must, Search};
use crate::build::Build;
use crate::order::Order;
use crate::plan::Plan;
use crate::report::{Report, Unknown};
use crate::shelf::{Asks, At, Name, Part, Shelf};
use crate::spec::{Id, Place, Verdict};

/// The slots of these shelves whose parts can change an output aimed at, in the order of the shelves; then those that
/// parts of these need, which may stay empty.
#[must_use]
pub fn slots_for(plan: &Plan, shelves: &[Shelf], aims: &[Aim]) -> Vec<Search> {
    let outputs: Vec<Id> = aims.iter().filter_map(|aim| aim.what.output()).map(|place| place.id).collect();
    let matters = |part: &Part| part.sets.iter().any(|(set, _)| outputs.iter().any(|&output| plan.feeds(set.id, output)));
    let mut search: Vec<Search> = Vec::new();
    for at in At::all(shelves) {
        if let Some(part) = at.of(shelves).filter(|part| matters(part)) {
            add(&mut search, Search::filled(&shelves[at.shelf].slot_of(part).id));
        }
    }
    needed(shelves, &mut search);
    search
}

/// Adds the slots that parts of these need; they may stay empty.
pub fn needed(shelves: &[Shelf], search: &mut Vec<Search>) {
    // What is needed may need more.
    let mut next = 0;
    while let Some(slot) = search.get(next).map(|slot| slot.slot.clone()) {
        next += 1;
        for at in At::all(shelves) {
            let shelf = &shelves[at.shelf];
            let Some(part) = at.of(shelves).filter(|part| shelf.slot_of(part).id == slot) else { continue };
            for name in part.rules.iter().filter(|rule| matches!(rule.asks, Asks::Needs | Asks::NeedsOneOf)).flat_map(|rule| &rule.of) {
                add(
                    search,
                    Search::or_none(match name {
                        Name::Part(part) => &shelf.slot_of(&shelf.parts[*part]).id,
                        Name::Slot(slot) => &shelf.slots[*slot].id,
                        Name::Elsewhere(id) => id,
                    }),
                );
            }
        }
    }
}

fn add(search: &mut Vec<Search>, slot: Search) {
    if !search.iter().any(|known| known.slot == slot.slot) {
        search.push(slot);
    }
}

/// Every judged output that a part of these slots can change, to stand no worse than *near*.
#[must_use]
pub fn judged(plan: &Plan, build: &Build, shelves: &[Shelf], search: &[Search]) -> Vec<Must> {
    let parts = At::all(shelves).filter_map(|at| Some((&shelves[at.shelf], at.of(shelves)?)));
    let searched = parts.filter(|(shelf, part)| search.iter().any(|slot| slot.slot == shelf.slot_of(part).id));
    let mut inputs: Vec<Id> = searched.flat_map(|(_, part)| &part.sets).map(|(place, _)| place.id).collect();
    inputs.order_by(Ord::cmp);
    inputs.dedup();
    let layout = build.layout();
    let hangs = |id: &Id| {
        let spec = layout.spec(*id);
        spec.is_judged()
            && spec.judged_by().chain([*id]).any(|other| inputs.iter().any(|&input| input == other || plan.feeds(input, other)))
    };
    let places: Vec<Place> = layout.ids().filter(hangs).flat_map(|id| layout.places_of(id).collect::<Vec<_>>()).collect();
    // What waits for a measurement waits whatever is chosen: that is for the car's owner to give, not for a part.
    let mut report = Report::new(build);
    plan.evaluate(build, &mut report);
    let waits = |place: &Place| matches!(report.value(*place), Err(Unknown::NotGiven(id)) if !inputs.contains(&id));
    places.into_iter().filter(|place| !waits(place)).map(|place| Must::Stand(place, Verdict::Near)).collect()
}
