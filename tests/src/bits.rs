//! Many links evaluated to the bit: the same list must come out natively and as WebAssembly.
//!
//! Reading and writing links is part of it: what a phone writes, a desk must read alike.

use trialfit_core::build::Build;
use trialfit_core::calculators::ALL;
use trialfit_core::plan::Plan;
use trialfit_core::report::Report;
use trialfit_core::share::link;
use trialfit_core::spec::{Kind, Place, Role};

/// Builds made up beside the links of the corpus.
const MADE_UP: u64 = 64;

/// A hash of all values for each link, then one for each output over all links; the names say which.
#[must_use]
pub fn evaluate_corpus() -> Vec<(String, u64)> {
    let plan = Plan::default();
    let mut links: Vec<String> =
        include_str!("../links/version-1.txt").lines().filter_map(|line| line.strip_prefix("open ")).map(Into::into).collect();
    links.extend((0..MADE_UP).map(|seed| link::write(&made_up(seed).into())));
    let mut outputs: Vec<(Place, u64)> = Build::default().layout().places(Role::Output).map(|place| (place, BASIS)).collect();
    let mut hashes = Vec::new();
    for text in links {
        let Ok(opened) = link::read(&text) else { continue };
        let build = opened.link.build;
        let mut report = Report::new(&build);
        plan.evaluate(&build, &mut report);
        let mut all = hash(BASIS, link::write(&build.clone().into()).as_bytes());
        for place in build.layout().places(Role::Input).chain(build.layout().places(Role::Output)) {
            all = hash_value(all, &report, place);
        }
        for (place, over_all) in &mut outputs {
            *over_all = hash_value(*over_all, &report, *place);
        }
        hashes.push((text, all));
    }
    let layout = Build::default().layout().clone();
    hashes.extend(outputs.into_iter().map(|(place, hash)| (layout.key(place), hash)));
    hashes
}

fn hash_value(so_far: u64, report: &Report, place: Place) -> u64 {
    match report.value(place) {
        Ok(value) => hash(so_far, &value.to_bits().to_le_bytes()),
        Err(why) => hash(so_far, why.reason(report.layout()).as_bytes()),
    }
}

const BASIS: u64 = 0xcbf2_9ce4_8422_2325;

/// FNV-1a, 64 bits.
fn hash(so_far: u64, bytes: &[u8]) -> u64 {
    bytes.iter().fold(so_far, |hash, byte| (hash ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3))
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
                unit.to_si(lowest + share * (highest - lowest))
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
