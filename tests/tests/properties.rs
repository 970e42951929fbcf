//! Laws of the mechanism over every input of every calculator, whatever it is set to.

use proptest::prelude::*;
use std::cell::Cell;
use std::sync::LazyLock;
use trialfit_core::build::{Build, Refusal};
use trialfit_core::calculators::{ALL, wiring};
use trialfit_core::report::Report;
use trialfit_core::spec::{Kind, Place, Role, Verdict};
use trialfit_core::tolerance::Shape;
use trialfit_tests::{PLAN, evaluated, laws};

static INPUTS: LazyLock<Vec<Place>> = LazyLock::new(|| Build::default().layout().places(Role::Input).collect());

/// One change of the demo build.
#[derive(Clone, Debug)]
enum Change {
    /// Somewhere in the usual range, or on a corner of what is possible.
    To(f64),
    Low,
    High,
    Forget,
    /// Off by this share of what is possible, in one of three shapes.
    Off(f64, u8),
}

fn changes() -> impl Strategy<Value = Vec<(usize, Change)>> {
    let change = prop_oneof![
        6 => (0.0..=1.0).prop_map(Change::To),
        1 => Just(Change::Low),
        1 => Just(Change::High),
        1 => Just(Change::Forget),
        1 => (0.0..0.1, 0..3_u8).prop_map(|(share, shape)| Change::Off(share, shape)),
    ];
    prop::collection::vec((0..INPUTS.len(), change), 0..40)
}

fn changed(changes: &[(usize, Change)]) -> (Build, Vec<Place>) {
    let mut build = Build::default();
    let touched = change(&mut build, changes);
    (build, touched)
}

fn change(build: &mut Build, changes: &[(usize, Change)]) -> Vec<Place> {
    let mut touched = Vec::new();
    for (at, change) in changes {
        let place = INPUTS[*at];
        let spec = build.layout().spec(place.id);
        if let (Kind::Quantity { unit, .. }, Change::Off(share, shape)) = (spec.kind, change) {
            let shape = [Shape::Normal { sigmas: 2.0 }, Shape::Uniform, Shape::Triangular][usize::from(*shape)];
            build.set_half_width(place, Some(share * (unit.to_si(spec.possible[1]) - unit.to_si(spec.possible[0])))).expect("in range");
            build.set_shape(place, Some(shape)).expect("a shape");
            touched.push(place);
            continue;
        }
        let value = match (spec.kind, change) {
            (_, Change::Forget | Change::Off(..)) | (Kind::Text(_), _) => None,
            (Kind::Choice(choices), Change::To(share)) => Some((share * (choices.len() - 1) as f64).round()),
            (Kind::Choice(_), Change::Low) => Some(0.0),
            (Kind::Choice(choices), Change::High) => Some((choices.len() - 1) as f64),
            (Kind::Quantity { unit, .. }, Change::To(share)) => {
                Some(spec.settled(unit.to_si(spec.usual[0] + share * (spec.usual[1] - spec.usual[0]))))
            }
            (Kind::Quantity { unit, .. }, Change::Low) => Some(unit.to_si(spec.possible[0])),
            (Kind::Quantity { unit, .. }, Change::High) => Some(unit.to_si(spec.possible[1])),
        };
        match value {
            Some(value) => build.set(place, value).expect("inside the declared range"),
            None => build.forget(place),
        }
        touched.push(place);
    }
    touched
}

fn bits(report: &Report) -> Vec<Result<u64, String>> {
    let layout = report.layout();
    let value = |place| report.value(place).map(f64::to_bits).map_err(|why| why.reason(layout));
    layout.places(Role::Input).chain(layout.places(Role::Output)).map(value).collect()
}

/// One input after the other moved a little: every output that stands otherwise for it does so too when only that output
/// is worked out, be it for its own value or for a limit that moved.
#[test]
fn what_leads_to_a_limit_is_worked_out_with_the_answer() {
    let build = Build::default();
    let base = evaluated(&build);
    let outputs: Vec<Place> = build.layout().places(Role::Output).collect();
    let (mut turned, mut by_limit) = (0, 0);
    for &input in INPUTS.iter() {
        let mut other = build.clone();
        let now = base.value(input).unwrap_or(1.0);
        if [1.3, 0.7].iter().all(|share| other.set(input, now * share).is_err()) {
            continue;
        }
        let whole = evaluated(&other);
        for &place in outputs.iter().filter(|place| base.standing(&build, **place) != whole.standing(&other, **place)) {
            let mut report = base.clone();
            PLAN.evaluate_towards(&other, &mut report, &[input], PLAN.towards(other.layout(), [place]));
            assert_eq!(
                report.standing(&other, place),
                whole.standing(&other, place),
                "{} by {}",
                other.layout().key(place),
                other.layout().key(input)
            );
            turned += 1;
            by_limit += usize::from(base.value(place) == whole.value(place));
        }
    }
    assert!(turned > 50 && by_limit > 0, "{turned} turned, {by_limit} of them by their limit");
}

proptest! {
    #![proptest_config(laws(512))]

    #[test]
    fn nothing_set_panics_gives_no_number_as_a_value_or_calls_the_unknown_within(changes in changes()) {
        let (build, _) = changed(&changes);
        let report = evaluated(&build);
        for place in build.layout().places(Role::Output) {
            let key = build.layout().key(place);
            match report.value(place) {
                Ok(value) => prop_assert!(value.is_finite(), "{key} is {value}"),
                Err(_) => prop_assert_eq!(report.verdict(&build, place), Verdict::Unknown, "{}", key),
            }
            let _ = PLAN.working(&report, place);
        }
        for calculator in ALL {
            let _ = (calculator.sentence)(&build, &report);
            if let Some(draw) = calculator.scene {
                let _ = draw(&build, &report);
            }
        }
    }

    #[test]
    fn partial_evaluation_equals_full_evaluation(changes in changes()) {
        let (build, touched) = changed(&changes);
        let mut report = evaluated(&Build::default());
        PLAN.evaluate_after(&build, &mut report, &touched);
        prop_assert_eq!(bits(&report), bits(&evaluated(&build)));
    }

    #[test]
    fn a_build_worked_out_since_another_equals_one_worked_out_anew(
        changes in changes(), further in changes(), few in 0..10_usize, back in 0..INPUTS.len(), with_a_row in prop::bool::weighted(0.1)
    ) {
        let (before, touched) = changed(&changes);
        let mut build = before.clone();
        change(&mut build, &further[..few.min(further.len())]);
        for place in touched.into_iter().take(few).chain([INPUTS[back]]) {
            build.put_back(place);
        }
        if with_a_row {
            build.add_row(wiring::BRANCHES).expect("room for one more");
        }
        let mut report = evaluated(&before);
        PLAN.evaluate_since(&before, &build, &mut report);
        prop_assert_eq!(bits(&report), bits(&evaluated(&build)));
    }

    #[test]
    fn a_build_worked_out_in_slices_equals_one_worked_out_at_once(changes in changes(), long in 1..50_usize) {
        let (build, _) = changed(&changes);
        let mut report = Report::new(&build);
        let (mut at, mut slices) = (Some(0), 0);
        while let Some(from) = at {
            let done = Cell::new(0);
            at = PLAN.evaluate_on(&build, &mut report, from, || done.replace(done.get() + 1) + 1 < long);
            slices += 1;
        }
        prop_assert!(slices > 1, "all of it in {} slices of {}", slices, long);
        prop_assert_eq!(bits(&report), bits(&evaluated(&build)));
    }

    #[test]
    fn what_leads_to_an_answer_is_enough_for_its_value_and_verdict(changes in changes(), which in any::<proptest::sample::Index>()) {
        let (build, touched) = changed(&changes);
        let whole = evaluated(&build);
        let outputs: Vec<Place> = build.layout().places(Role::Output).collect();
        let place = outputs[which.index(outputs.len())];
        let mut report = evaluated(&Build::default());
        // A build with other rows is worked out anew, whatever is wanted.
        PLAN.evaluate_towards(&build, &mut report, &touched, PLAN.towards(build.layout(), [place]));
        prop_assert_eq!(report.value(place).map(f64::to_bits), whole.value(place).map(f64::to_bits));
        prop_assert_eq!(report.standing(&build, place), whole.standing(&build, place));
    }

    #[test]
    fn traced_and_reported_results_have_the_same_bits(changes in changes()) {
        let (build, _) = changed(&changes);
        let (traced, traces) = PLAN.evaluate_traced(&build);
        prop_assert_eq!(bits(&traced), bits(&evaluated(&build)));
        for (step, trace) in traces {
            for id in &trace.reads {
                prop_assert!(step.reads.contains(id), "“{}” reads {} unsaid", step.name, build.layout().spec(*id).label);
            }
        }
    }

    #[test]
    fn no_number_whatever_gets_past_the_door(at in 0..1000_usize, value in any::<f64>()) {
        let mut build = Build::default();
        let place = INPUTS[at % INPUTS.len()];
        let before = build.clone();
        match build.set(place, value) {
            Ok(()) => prop_assert!(value.is_finite() && bits(&evaluated(&build)).len() > INPUTS.len()),
            Err(why) => {
                prop_assert!(build == before);
                prop_assert!(value.is_finite() || why == Refusal::NotFinite || why == Refusal::NotThere);
            }
        }
    }
}
