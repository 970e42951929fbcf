//! What a link asks of a search among parts.

use super::asked::not_of_it;
use super::{Fault, Reader};
use crate::share::link::Tool;
use crate::share::link::sought::{MOST_LIMITS, Sought};
use crate::shelf::{Currency, is_id};
use crate::spec::Role;
use crate::tools::combine::{AIMS, Aim, Must, Search, What};
use std::collections::BTreeSet;

/// More slots than any shelf has.
const MOST_SLOTS: usize = 200;

/// More answers than are judged.
const MOST_WAIVED: usize = 500;

/// Whether a key belongs to a search.
pub(super) fn is_key(key: &str) -> bool {
    matches!(key, "slots" | "empty") || ["aim.", "limit.", "waive."].iter().any(|start| key.starts_with(start))
}

impl Reader {
    /// Takes what a search is asked, once the rows are there.
    pub(super) fn sought(&mut self, pairs: &[(&str, &str)]) {
        let asked = self.link.asked.is_some_and(|asked| asked.tool == Tool::Combine);
        let mut sought = Sought::default();
        for &(key, value) in pairs.iter().filter(|(key, _)| is_key(key)) {
            let taken = if asked { self.sought_item(&mut sought, pairs, key, value) } else { Err(not_of_it(key, value)) };
            if let Err(problem) = taken {
                self.problems.add(*problem);
            }
        }
        self.link.sought = sought;
    }

    fn sought_item(&mut self, sought: &mut Sought, pairs: &[(&str, &str)], key: &str, value: &str) -> Result<(), Fault> {
        let refused = || not_of_it(key, value);
        let (word, rest) = key.split_once('.').unwrap_or((key, ""));
        match word {
            "slots" => {
                // A slot filled twice would be two parts in one place.
                let mut once = BTreeSet::new();
                if value.split('.').count() > MOST_SLOTS || !value.split('.').all(|slot| is_id(slot) && once.insert(slot)) {
                    return Err(refused());
                }
                let empty = pairs.iter().find(|pair| pair.0 == "empty").map_or("", |pair| pair.1);
                let search = |slot: &str| Search { slot: slot.into(), or_none: empty.split('.').any(|it| it == slot) };
                sought.slots = value.split('.').map(search).collect();
            }
            "empty" => {
                let slots = pairs.iter().find(|pair| pair.0 == "slots").map_or("", |pair| pair.1);
                if !value.split('.').all(|slot| slots.split('.').any(|it| it == slot)) {
                    return Err(refused());
                }
            }
            "aim" => {
                let (way, what) = value.split_once('.').filter(|_| sought.aims.len() < AIMS).ok_or_else(refused)?;
                let what = match what.strip_prefix("price.") {
                    Some(currency) => What::Price(Currency::new(currency).ok_or_else(refused)?),
                    None if what == "mass" => What::Mass,
                    None => What::Output(self.named(key, what, Role::Output, true)?),
                };
                let most = match way {
                    "least" => false,
                    "most" => true,
                    _ => return Err(refused()),
                };
                sought.aims.push(Aim { what, most });
            }
            "limit" => {
                // The number comes with the limit that it belongs to.
                if let Some(of) = rest.strip_suffix(".is") {
                    let limit = format!("limit.{of}");
                    return if pairs.iter().any(|pair| pair.0 == limit) { Ok(()) } else { Err(refused()) };
                }
                let (way, what) = value.split_once('.').filter(|_| sought.limits.len() < MOST_LIMITS).ok_or_else(refused)?;
                let place = self.named(key, what, Role::Output, true)?;
                let is = format!("{key}.is");
                let number = pairs.iter().find(|pair| pair.0 == is).map(|pair| pair.1).ok_or_else(refused)?;
                let number = self.number(&is, number, Some(place))?;
                sought.limits.push(match way {
                    "at-most" => Must::AtMost(place, number),
                    "at-least" => Must::AtLeast(place, number),
                    _ => return Err(refused()),
                });
            }
            _ => {
                let place = self.named(key, value, Role::Output, false)?;
                if sought.waived.len() >= MOST_WAIVED {
                    return Err(refused());
                }
                if !sought.waived.contains(&place) {
                    sought.waived.push(place);
                }
            }
        }
        Ok(())
    }
}
