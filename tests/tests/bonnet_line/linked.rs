//! Evaluations of the linked calculators.

use trialfit_core::build::Build;
pub(crate) use trialfit_core::calculators::ALL as LINKED;
use trialfit_core::plan::Plan;
use trialfit_core::report::Report;

/// Made once by whoever evaluates often.
pub(crate) fn plan() -> Plan {
    Plan::new(LINKED).expect("no cycle")
}

pub(crate) fn evaluated(build: &Build) -> Report {
    let mut report = Report::new(build);
    plan().evaluate(build, &mut report);
    report
}
