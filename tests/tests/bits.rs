//! The corpus whose results must not depend on the machine. The browser tests evaluate the same links as WebAssembly.

use std::collections::{BTreeMap, BTreeSet};
use trialfit_core::plan::Plan;
use trialfit_core::share::bits;
use trialfit_tests::corpus;

fn evaluated() -> Vec<String> {
    let plan = Plan::default();
    corpus().iter().map(|link| bits::of_link(&plan, link).expect("the corpus opens")).collect()
}

#[test]
fn the_corpus_tells_links_apart() {
    let list = evaluated();
    let distinct: BTreeSet<&String> = list.iter().collect();
    assert!(list.len() > 80 && distinct.len() > 64, "{} links, only {} differ", list.len(), distinct.len());
}

#[test]
fn the_corpus_moves_every_output_that_can_be_known() {
    let mut found: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for text in evaluated() {
        for (key, value) in text.lines().skip(1).filter_map(|line| line.split_once(' ')) {
            found.entry(key.to_owned()).or_default().insert(value.to_owned());
        }
    }
    let layout = trialfit_core::build::Build::default().layout().clone();
    for place in layout.places(trialfit_core::spec::Role::Output) {
        let key = layout.key(place);
        let values = found.get(&key).map_or(0, BTreeSet::len);
        assert!(values > 1, "{key} has {values} value in all of the corpus");
    }
}
