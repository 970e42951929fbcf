//! What a link asks of a search among parts.

use crate::layout::Layout;
use crate::spec::{Kind, Place};
use crate::tools::combine::{Aim, Must, Search, What};

/// Limits of one's own, at most.
pub const MOST_LIMITS: usize = 4;

/// A search among parts: what is not said follows from shelves and build.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Sought {
    /// The slots searched; none where that follows from the aims.
    pub slots: Vec<Search>,
    /// At most [`AIMS`](crate::tools::combine::AIMS).
    pub aims: Vec<Aim>,
    /// [`Must::AtMost`] and [`Must::AtLeast`], at most [`MOST_LIMITS`].
    pub limits: Vec<Must>,
    /// Judged answers that may be past their limits.
    pub waived: Vec<Place>,
}

impl Sought {
    /// Its items as a link has them, key and value.
    #[must_use]
    pub fn items(&self, layout: &Layout) -> Vec<(String, String)> {
        let mut items = Vec::new();
        let ids = |slots: Vec<&Search>| slots.into_iter().map(|slot| slot.slot.as_str()).collect::<Vec<_>>().join(".");
        let (all, empty) = (ids(self.slots.iter().collect()), ids(self.slots.iter().filter(|slot| slot.or_none).collect()));
        for (key, value) in [("slots", all), ("empty", empty)] {
            if !value.is_empty() {
                items.push((key.into(), value));
            }
        }
        for (at, aim) in self.aims.iter().enumerate() {
            let what = match aim.what {
                What::Output(place) => layout.key(place),
                What::Price(currency) => format!("price.{currency}"),
                What::Mass => "mass".into(),
            };
            items.push((format!("aim.{}", at + 1), format!("{}.{what}", if aim.most { "most" } else { "least" })));
        }
        for (at, limit) in self.limits.iter().enumerate() {
            let (way, place, number) = match *limit {
                Must::AtMost(place, number) => ("at-most", place, number),
                Must::AtLeast(place, number) => ("at-least", place, number),
                Must::Stand(..) => continue,
            };
            if let Kind::Quantity { dimension, unit } = layout.kind(place.id) {
                items.push((format!("limit.{}", at + 1), format!("{way}.{}", layout.key(place))));
                items.push((format!("limit.{}.is", at + 1), super::write::number(number, dimension, unit)));
            }
        }
        items.extend(self.waived.iter().enumerate().map(|(at, place)| (format!("waive.{}", at + 1), layout.key(*place))));
        items
    }
}
