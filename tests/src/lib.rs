//! Shared helpers of the checks.

mod bits;
pub mod heat_balance;
mod laws;

pub use bits::corpus;
pub use laws::laws;

use std::ops::ControlFlow;
use std::sync::LazyLock;
use trialfit_core::build::Build;
use trialfit_core::calculators::Calculator;
use trialfit_core::plan::{Plan, Step};
use trialfit_core::report::Report;
use trialfit_core::sentence::Sentence;
use trialfit_core::spec::{Id, Spec, Table, Verdict};
use trialfit_core::tools::Job;

/// The order of evaluation of every calculator.
pub static PLAN: LazyLock<Plan> = LazyLock::new(Plan::default);

/// What every calculator makes of a build.
pub fn evaluated(build: &Build) -> Report {
    let mut report = Report::new(build);
    PLAN.evaluate(build, &mut report);
    report
}

/// What a job finds, its work cut into pieces of so many evaluations.
pub fn done<J: Job>(plan: &Plan, mut job: J, piece: u32) -> J::Answer {
    loop {
        if let ControlFlow::Break(answer) = job.advance(plan, piece) {
            return answer;
        }
    }
}

/// A calculator of these declarations and steps that shows and says nothing, to try what stands on declarations alone.
pub const fn bare(specs: &'static [Spec], tables: &'static [Table], steps: &'static [Step], choice: Id) -> Calculator {
    Calculator {
        key: "bare",
        label: "Bare",
        question: "Does it fit?",
        specs,
        tables,
        steps,
        choice,
        sentence: |_, _| Sentence { verdict: Verdict::Within, pieces: Vec::new() },
        scene: None,
        charts: &[],
        listing: None,
        diagrams: None,
        proofs: &[],
        cautions: &[],
        letters: &[],
        leaves_out: &[],
    }
}

/// Fails, naming the source, unless `got` is within `tolerance` (same unit, absolute) of what the source prints.
///
/// A tolerance wider than 5 % of the expected value, or a millionth where that is nothing, is refused: a wrong answer could
/// pass it.
#[track_caller]
pub fn agrees(got: f64, expected: f64, tolerance: f64, source: &str) {
    let narrow = if expected == 0.0 { tolerance <= 1e-6 } else { tolerance <= 0.05 * expected.abs() };
    assert!(narrow, "the tolerance {tolerance} is too wide for {expected} ({source})");
    assert!((got - expected).abs() <= tolerance, "got {got}, expected {expected} ± {tolerance} by {source}");
}

/// Like [`agrees`], with the tolerance as a share of the expected value.
#[track_caller]
pub fn agrees_within(got: f64, expected: f64, share: f64, source: &str) {
    agrees(got, expected, share * expected.abs(), source);
}
