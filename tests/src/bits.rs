//! Many links to be evaluated to the bit: the same text must come out natively and as WebAssembly.
//!
//! Reading and writing links is part of it: what a phone writes, a desk must read alike.

use trialfit_core::build::Build;
use trialfit_core::calculators::ALL;
use trialfit_core::share::link;
use trialfit_core::spec::{Kind, Place, Role};

/// Builds made up beside the links that must open for ever.
const MADE_UP: u64 = 64;

/// The links of the corpus: those that must open for ever, and made-up ones.
#[must_use]
pub fn corpus() -> Vec<String> {
    let listed = include_str!("../links/version-1.txt").lines().filter_map(|line| line.strip_prefix("open "));
    let listed = listed.filter(|text| link::read(text).is_ok()).map(Into::into);
    listed.chain((0..MADE_UP).map(|seed| link::write(&made_up(seed).into()))).collect()
}

/// A build with some inputs anywhere in their usual range, some anywhere possible, some not known.
fn made_up(seed: u64) -> Build {
    let mut build = Build::new(ALL);
    let mut state = seed;
    let places: Vec<Place> = build.layout().places(Role::Input).collect();
    for place in places {
        let (what, share) = (next(&mut state) % 16, (next(&mut state) >> 11) as f64 / (1_u64 << 53) as f64);
        let spec = build.layout().spec(place.id);
        let value = match (spec.kind, what) {
            (_, 0..=3) => continue,
            (_, 4) => {
                build.forget(place);
                continue;
            }
            (Kind::Choice(choices), _) => (share * choices.len() as f64).floor(),
            (Kind::Text(_), _) => continue,
            (Kind::Quantity { unit, .. }, _) => {
                let [lowest, highest] = if what == 5 || !spec.usual[0].is_finite() { spec.possible } else { spec.usual };
                spec.settled(unit.to_si(lowest + share * (highest - lowest)))
            }
        };
        // What a range without ends refuses stays as it was.
        _ = build.set(place, value);
    }
    build
}

/// SplitMix64 (Steele, Lea and Flood, OOPSLA 2014).
fn next(state: &mut u64) -> u64 {
    *state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let mixed = (*state ^ (*state >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    mixed ^ (mixed >> 31)
}
