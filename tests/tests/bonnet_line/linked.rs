//! The calculators linked with the bonnet line at their numbers; one that is not needed here holds its place.

use trialfit_core::build::Build;
use trialfit_core::calculators::{Calculator, bonnet_line, car, clutch, flywheel, front_drive};
use trialfit_core::plan::Plan;
use trialfit_core::report::Report;
use trialfit_core::sentence::Sentence;
use trialfit_core::spec::Verdict;

static HELD: Calculator = Calculator {
    key: "held",
    label: "Held",
    question: "",
    specs: &[],
    tables: &[],
    steps: &[],
    choice: car::REDLINE.id,
    sentence: |_, _| Sentence { verdict: Verdict::Within, pieces: Vec::new() },
    scene: None,
    charts: &[],
    leaves_out: &[],
};
pub(crate) static LINKED: &[&Calculator] =
    &[&car::CAR, &front_drive::FRONT_DRIVE, &clutch::CLUTCH, &flywheel::FLYWHEEL, &HELD, &bonnet_line::BONNET_LINE];

/// Made once by whoever evaluates often.
pub(crate) fn plan() -> Plan {
    Plan::new(LINKED).expect("no cycle")
}

pub(crate) fn evaluated(build: &Build) -> Report {
    let mut report = Report::new(build);
    plan().evaluate(build, &mut report);
    report
}
