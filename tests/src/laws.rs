//! How laws are tried: on the same cases every time, so that a run tells of a change and not of luck.

use proptest::test_runner::{Config, FileFailurePersistence, RngSeed};

/// Tries a law on this many cases, after those that a file beside it remembers. `PROPTEST_CASES` and `PROPTEST_RNG_SEED`
/// search wider; what fails there is remembered.
#[must_use]
pub fn laws(cases: u32) -> Config {
    Config {
        cases,
        // A law that leaves out a case in three must not run out of them in a wide search.
        max_global_rejects: 65_536,
        rng_seed: RngSeed::Fixed(2500),
        failure_persistence: Some(Box::new(FileFailurePersistence::WithSource("proptest-regressions"))),
        ..Config::default()
    }
}
