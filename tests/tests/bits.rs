//! The corpus whose results must not depend on the machine. Its twin in the browser compares against the same list.

use std::collections::BTreeSet;
use trialfit_tests::evaluate_corpus;

#[test]
fn the_corpus_gives_the_same_bits_each_time() {
    assert_eq!(evaluate_corpus(), evaluate_corpus());
}

#[test]
fn the_corpus_reaches_every_output_and_tells_links_apart() {
    let list = evaluate_corpus();
    let links: Vec<_> = list.iter().filter(|(name, _)| name.contains('/')).collect();
    let distinct: BTreeSet<u64> = links.iter().map(|(_, hash)| *hash).collect();
    assert!(links.len() > 80, "{} links", links.len());
    assert!(distinct.len() > 64, "only {} differ", distinct.len());
    let outputs = list.len() - links.len();
    let declared = trialfit_core::build::Build::default().layout().places(trialfit_core::spec::Role::Output).count();
    assert_eq!(outputs, declared);
}
