//! What the address's fragment asks for: a calculator, a field or answer of one, or a build that came by link.

use crate::words;
use trialfit_core::calculators::{ALL, Calculator};
use trialfit_core::overview::OVERVIEW;

/// What the page shows.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Screen {
    /// All calculators side by side.
    Overview,
    /// One, by its number.
    Of(u8),
}

impl Screen {
    /// Its word in the address.
    pub fn key(self) -> &'static str {
        match self {
            Self::Overview => OVERVIEW,
            Self::Of(calculator) => ALL[usize::from(calculator)].key,
        }
    }

    /// What it is called.
    pub fn label(self) -> &'static str {
        match self {
            Self::Overview => words::OVERVIEW,
            Self::Of(calculator) => ALL[usize::from(calculator)].label,
        }
    }
}

/// A fragment, read.
#[derive(Clone, PartialEq, Debug)]
pub enum Route {
    /// A screen, and the key to show of it if one is named.
    To { screen: Screen, show: Option<String> },
    /// A link, without `#`.
    Link(String),
    /// Nothing this page knows.
    Unknown,
}

/// Reads a fragment, with or without its `#`.
pub fn read(fragment: &str, calculators: &[&Calculator]) -> Route {
    let fragment = fragment.strip_prefix('#').unwrap_or(fragment);
    if is_link(fragment) {
        return Route::Link(fragment.to_owned());
    }
    let (word, section) = fragment.split_once('.').map_or((fragment, None), |(word, section)| (word, Some(section)));
    if word == OVERVIEW {
        return Route::To { screen: Screen::Overview, show: section.map(str::to_owned) };
    }
    match calculators.iter().position(|calculator| calculator.key == word) {
        Some(at) => Route::To { screen: Screen::Of(at as u8), show: (fragment != word).then(|| fragment.to_owned()) },
        None => Route::Unknown,
    }
}

/// Links begin with the number of their version: `1.1/…`, `1z.1/…`. No calculator's key begins with a digit.
fn is_link(fragment: &str) -> bool {
    fragment.starts_with(|letter: char| letter.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(fragment: &str, expected: Route) {
        assert_eq!(read(fragment, ALL), expected);
    }

    #[test]
    fn fragments_lead_where_they_say() {
        check("#car", Route::To { screen: Screen::Of(0), show: None });
        check("#car.gears.2.ratio", Route::To { screen: Screen::Of(0), show: Some("car.gears.2.ratio".into()) });
        check("#overview", Route::To { screen: Screen::Overview, show: None });
        check("", Route::Unknown);
        check("#main", Route::Unknown);
        check("#1.1/car.idle=900/end", Route::Link("1.1/car.idle=900/end".into()));
        check("#1z.1/0aB/end", Route::Link("1z.1/0aB/end".into()));
        check("#2.7/later/end", Route::Link("2.7/later/end".into()));
    }

    #[test]
    fn no_calculator_can_be_taken_for_a_link() {
        assert!(ALL.iter().all(|calculator| !is_link(calculator.key) && calculator.key != OVERVIEW));
    }
}
