//! The parts of a link: which are fitted, and what they set over a build's own values.

use super::{QUOTED, Reader};
use crate::build::{Fitted, Refusal};
use crate::entry::clean;
use crate::share::link::is_beside;
use crate::share::{LinkProblem, words};
use crate::shelf;
use crate::spec::Place;
use litemap::LiteMap;

impl Reader {
    pub(super) fn give(&mut self, place: Place, value: f64, part: Option<u16>) -> Result<(), Refusal> {
        match part {
            Some(part) => self.link.build.set_from_part(place, value, part),
            None => self.link.build.set(place, value),
        }
    }

    /// A part fitted; `parts` is what stands under each count.
    pub(super) fn part(&mut self, parts: &mut LiteMap<String, u16>, key: &str, count: &str, value: &str) {
        let mut ids = value.split('.');
        let three = [ids.next(), ids.next(), ids.next()];
        let fitted = match (three, ids.next()) {
            ([Some(shelf), Some(slot), Some(id)], None) if [shelf, slot, id].into_iter().all(shelf::is_id) => {
                let fitted = Fitted { shelf: shelf.into(), slot: slot.into(), id: id.into(), name: "".into() };
                // A second part in a slot would put out the first, and with it the counts.
                if self.link.build.part_in(slot).is_none() && !parts.contains_key(count) { self.link.build.fit(fitted).ok() } else { None }
            }
            _ => None,
        };
        match fitted {
            Some(at) => _ = parts.insert(count.into(), at),
            None => self.problems.add(LinkProblem::Item { item: clean(&format!("{key}={value}"), QUOTED) }),
        }
    }

    /// What a part sets; without the part, its value all the same.
    pub(super) fn set_by_part(&mut self, parts: &LiteMap<String, u16>, stem: &str, key: &str, count: &str, value: &str) {
        let part = parts.get(count).copied();
        if part.is_none() {
            self.problems.add(LinkProblem::NoPart { key: clean(key, QUOTED) });
        }
        self.cell(stem, value, part);
    }

    pub(super) fn shelf(&mut self, value: &str) {
        let (address, sound) = words::read(value);
        if sound && is_beside(&address) {
            self.link.shelf = address;
        } else if is_beside(value) && (!sound || address.replace(' ', "-") == value) {
            // Written by hand: a plain name with its dots and hyphens.
            self.link.shelf = value.into();
        } else {
            self.problems.add(LinkProblem::NotBeside { address: clean(&address, QUOTED) });
        }
    }
}
