//! Where the shelves at hand are published beside the page, for a link to name the one its parts are from.

use crate::bench::Bench;
use trialfit_core::shelf;

/// Before the ids of shelves, each kept with its address from the page's own.
const AT: &str = "trialfit.shelf-at.";

impl Bench {
    /// Keeps where a shelf on the device was published, or that it was nowhere. To know it is a convenience: what cannot be
    /// kept is no loss to tell.
    pub fn keep_address(self, id: &str, address: Option<&str>) {
        let key = format!("{AT}{id}");
        _ = self.with_keeper(|keeper| match address {
            Some(address) => keeper.keep_text(&key, address),
            None => keeper.discard(&key),
        });
    }

    /// Whether a shelf that was published there is on the device.
    pub fn has_shelf_of(self, address: &str) -> bool {
        self.with_keeper(|keeper| keeper.texts_under(AT)).iter().any(|kept| kept == address)
    }

    /// Where the shelf is published that a link to the build shown should name: the first that a part is from, else any
    /// that is open, if the link is about parts. Empty where there is none.
    pub fn shelf_address(self, about_parts: bool) -> String {
        let ids = self.build().with_untracked(|build| build.parts().iter().map(|part| part.shelf.to_string()).collect::<Vec<_>>());
        let came = self.visited_shelf();
        let of = |id: &String| {
            let came = came.as_ref().filter(|(shelf, _)| shelf == id).map(|(_, address)| address.clone());
            came.or_else(|| self.with_keeper(|keeper| keeper.text(&format!("{AT}{id}"))))
        };
        let any = || came.clone().map(|(_, address)| address).or_else(|| self.with_keeper(|keeper| keeper.texts_under(AT)).pop());
        ids.iter().find_map(of).or_else(|| any().filter(|_| about_parts)).unwrap_or_default()
    }

    /// The shelf that came with the car visited: its id and address.
    fn visited_shelf(self) -> Option<(String, String)> {
        let text = self.came.get_untracked()?.ok()?;
        let address = self.visit.with_untracked(|visit| visit.as_ref().map(|visit| visit.shelf.clone()))?;
        Some((shelf::read(&text).ok()?.shelf.id, address))
    }
}
