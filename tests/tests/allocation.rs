//! Evaluation allocates nothing once the report exists: counted, in a process whose allocator counts.

use allocation_counter::{AllocationInfo, measure};
use std::hint::black_box;
use trialfit_core::build::Build;
use trialfit_core::calculators::ALL;
use trialfit_core::plan::Plan;
use trialfit_core::report::Report;
use trialfit_core::spec::{Place, Role, TableId};

#[track_caller]
fn nothing(counted: AllocationInfo, what: &str) {
    assert_eq!((counted.count_total, counted.bytes_total), (0, 0), "allocations in {what}");
}

#[test]
fn the_counter_counts() {
    assert!(measure(|| drop(black_box(vec![1_u8; 10]))).count_total > 0);
}

#[test]
fn evaluating_the_demo_allocates_nothing() {
    let (plan, build) = (Plan::default(), Build::default());
    let mut report = Report::new(&build);
    nothing(measure(|| plan.evaluate(&build, &mut report)), "the demo build");
    black_box(&report);
}

#[test]
fn evaluating_a_cleared_build_allocates_nothing() {
    let (plan, build) = (Plan::default(), Build::cleared(ALL));
    let mut report = Report::new(&build);
    nothing(measure(|| plan.evaluate(&build, &mut report)), "a build with most of it unknown");
}

#[test]
fn evaluating_full_tables_allocates_nothing() {
    let (plan, mut build) = (Plan::default(), Build::default());
    for (calculator, it) in (0_u8..).zip(ALL) {
        for table in 0..it.tables.len() as u8 {
            while build.add_row(TableId { calculator, table }).is_some() {}
        }
    }
    let mut report = Report::new(&build);
    nothing(measure(|| plan.evaluate(&build, &mut report)), "a build with every row there can be");
}

#[test]
fn evaluating_after_a_change_allocates_nothing() {
    let (plan, mut build) = (Plan::default(), Build::default());
    let mut report = Report::new(&build);
    plan.evaluate(&build, &mut report);
    let places: Vec<Place> = build.layout().places(Role::Input).collect();
    for place in places {
        let spec = build.layout().spec(place.id);
        for end in spec.usual {
            if build.set(place, spec.to_cell(end)).is_ok() {
                nothing(measure(|| plan.evaluate_after(&build, &mut report, &[place])), spec.label);
            }
        }
    }
}
