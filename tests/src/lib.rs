//! Shared helpers of the checks.

mod bits;
pub mod heat_balance;
mod laws;

pub use bits::corpus;
pub use laws::laws;

/// Fails, naming the source, unless `got` is within `tolerance` (same unit, absolute) of what the source prints.
///
/// A tolerance wider than 5 % of the expected value is refused: a wrong answer could pass it.
#[track_caller]
pub fn agrees(got: f64, expected: f64, tolerance: f64, source: &str) {
    assert!(tolerance <= 0.05 * expected.abs() || expected == 0.0, "the tolerance {tolerance} is too wide for {expected} ({source})");
    assert!((got - expected).abs() <= tolerance, "got {got}, expected {expected} ± {tolerance} by {source}");
}

/// Like [`agrees`], with the tolerance as a share of the expected value.
#[track_caller]
pub fn agrees_within(got: f64, expected: f64, share: f64, source: &str) {
    agrees(got, expected, share * expected.abs(), source);
}
