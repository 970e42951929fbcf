//! Held builds of a link: each is the first with what differs.

use super::{QUOTED, Reader};
use crate::build::Origin;
use crate::entry::clean;
use crate::share::LinkProblem;
use crate::share::link::MOST_HELD;
use crate::spec::{Kind, Place, Role};
use litemap::LiteMap;
use std::collections::BTreeSet;

/// Whether a held build begins here, of this version or of a later one.
pub(super) fn is_mark(item: &str) -> bool {
    item.strip_prefix('b').is_some_and(|count| !count.is_empty() && count.bytes().all(|byte| byte.is_ascii_digit()))
}

impl Reader {
    /// Held builds, each with its mark before it.
    pub(super) fn held_parts(&mut self, items: Vec<&str>) {
        let mut seen = BTreeSet::new();
        for part in items.chunk_by(|_, next| !is_mark(next)) {
            let Some((&mark, items)) = part.split_first() else { continue };
            if !matches!(mark, "b2" | "b3" | "b4") {
                self.problems.add(LinkProblem::LaterFeature { what: "more builds held beside this one", item: clean(mark, QUOTED) });
            } else if !seen.insert(mark) || self.link.held.len() >= MOST_HELD {
                self.problems.add(LinkProblem::Twice { key: mark.into() });
            } else {
                let first = self.link.build.clone();
                self.first = Some(first.layout().clone());
                self.part_of_link(items.to_vec());
                self.first = None;
                let held = core::mem::replace(&mut self.link.build, first);
                self.link.held.push(held);
            }
        }
    }

    /// The parts that the build has already, by the counts under which a link speaks of them; without them when they go.
    pub(super) fn inherited(&mut self, gone: bool) -> LiteMap<String, u16> {
        let build = &mut self.link.build;
        while self.first.is_some() && gone && !build.parts().is_empty() {
            build.remove_part(0);
        }
        let mut parts = LiteMap::new();
        for at in 0..build.parts().len() as u16 {
            parts.insert((at + 1).to_string(), at);
        }
        parts
    }

    /// Puts back what the link's edition has there.
    pub(super) fn as_usual(&mut self, place: Place) {
        let (build, usual) = (&mut self.link.build, &self.usual);
        build.put_back(place);
        // Only what a superseded edition had otherwise is anybody's own.
        match (usual.origin(place), usual.own_value(place)) {
            (Origin::Own, _) if matches!(usual.layout().kind(place.id), Kind::Text(_)) => _ = build.set_text(place, usual.text(place)),
            (Origin::Own, Some(value)) => _ = build.set(place, value),
            (Origin::Missing, _) if usual.layout().find(place).is_some() => build.forget(place),
            _ => {}
        }
    }

    /// Rows that the first does not have are as usual.
    pub(super) fn usual_in_new_rows(&mut self) {
        let Some(first) = self.first.clone() else { return };
        let layout = self.link.build.layout().clone();
        for place in layout.places(Role::Input).filter(|place| first.find(*place).is_none()) {
            self.as_usual(place);
        }
    }

    /// Puts back the usual words.
    pub(super) fn no_words(&mut self, stem: &str, key: &str) {
        let layout = self.link.build.layout();
        match layout.place_by_key(stem).filter(|place| layout.find(*place).is_some()) {
            None => self.unknown_key(stem),
            Some(place) if matches!(layout.kind(place.id), Kind::Text(_)) => self.as_usual(place),
            Some(_) => self.problems.add(LinkProblem::Item { item: clean(key, QUOTED) }),
        }
    }
}
