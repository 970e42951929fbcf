//! The mechanism itself: order, declared reads and writes, number and working from one path.

use trialfit_core::build::{Build, Fitted, Origin, Refusal};
use trialfit_core::calculators::{ALL, car};
use trialfit_core::plan::Plan;
use trialfit_core::quantity::{newton_metres, per_minute};
use trialfit_core::report::Unknown;
use trialfit_core::share::stored::{self, Stored};
use trialfit_core::spec::{Kind, Place, Role, RowId};
use trialfit_tests::evaluated;

#[test]
fn every_calculator_stands_where_its_declarations_say() {
    for (place, calculator) in ALL.iter().enumerate() {
        assert_eq!(usize::from(calculator.choice.calculator), place, "{}", calculator.label);
    }
}

#[test]
fn steps_have_an_order() {
    Plan::new(ALL).expect("no cycle among the steps");
}

#[test]
fn every_output_is_written_by_exactly_one_step() {
    let (build, plan) = (Build::default(), Plan::default());
    for id in build.layout().ids().filter(|&id| build.layout().spec(id).role == Role::Output) {
        let writers: Vec<_> = plan.steps().filter(|step| step.writes.contains(&id)).map(|step| step.name).collect();
        assert_eq!(writers.len(), 1, "{} is written by {writers:?}", build.layout().spec(id).label);
    }
}

#[test]
fn steps_touch_only_what_they_declare_and_write_all_of_it() {
    let build = Build::default();
    let (_, traces) = Plan::default().evaluate_traced(&build);
    for (step, trace) in traces {
        for id in &trace.reads {
            assert!(step.reads.contains(id), "“{}” reads {} without saying so", step.name, build.layout().spec(*id).label);
        }
        for id in &trace.writes {
            assert!(step.writes.contains(id), "“{}” writes {} without saying so", step.name, build.layout().spec(*id).label);
        }
        for id in step.writes {
            let rows = build.layout().places_of(*id).count();
            let written = trace.writes.iter().filter(|written| *written == id).count();
            assert_eq!(written, rows, "“{}” and {}", step.name, build.layout().spec(*id).label);
        }
    }
}

#[test]
fn traced_and_reported_results_have_the_same_bits() {
    let (build, plan) = (Build::default(), Plan::default());
    let report = evaluated(&build);
    let (traced, _) = plan.evaluate_traced(&build);
    for place in build.layout().places(Role::Output) {
        let (one, other) = (report.value(place), traced.value(place));
        assert_eq!(one.map(f64::to_bits), other.map(f64::to_bits), "{}", build.layout().key(place));
        if let Some(last) = plan.working(&report, place).lines.iter().rfind(|said| said.of == Some(place)) {
            assert_eq!(Ok(last.result.to_bits()), one.map(f64::to_bits), "working of {}", build.layout().key(place));
        }
    }
}

#[test]
fn partial_evaluation_equals_full_evaluation() {
    let plan = Plan::default();
    let base = Build::default();
    for place in base.layout().clone().places(Role::Input) {
        let Kind::Quantity { unit, .. } = base.layout().kind(place.id) else { continue };
        let [lowest, highest] = base.layout().spec(place.id).usual;
        let mut build = base.clone();
        let mut report = evaluated(&base);
        if build.set(place, unit.to_si(0.5 * (lowest + highest))).is_err() {
            continue;
        }
        plan.evaluate_after(&build, &mut report, &[place]);
        let full = evaluated(&build);
        for other in build.layout().places(Role::Output).chain(build.layout().places(Role::Input)) {
            let (part, whole) = (report.value(other).map(f64::to_bits), full.value(other).map(f64::to_bits));
            assert_eq!(part, whole, "{} after a change of {}", build.layout().key(other), build.layout().key(place));
        }
    }
}

#[test]
fn defaults_lie_in_their_ranges_and_keys_are_unlike_and_kebab_case() {
    let build = Build::default();
    let mut keys = Vec::new();
    for id in build.layout().ids() {
        let spec = build.layout().spec(id);
        let key = build.layout().key(Place { id, row: None });
        assert!(spec.key.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-'), "{key}");
        assert!(!spec.label.is_empty() && !spec.help.is_empty(), "{key} has a label and a help line");
        assert!(!keys.contains(&key), "{key} twice");
        if let (Role::Input, Kind::Quantity { .. }) = (spec.role, spec.kind) {
            let ([lowest, highest], [low, high]) = (spec.possible, spec.usual);
            assert!(lowest.is_finite() && highest.is_finite(), "{key} says what is possible");
            assert!(lowest <= low && low < high && high <= highest && spec.step > 0.0, "{key} says what is usual");
            for place in build.layout().places_of(id) {
                if let (Some(value), None) = (build.own_value(place), build.following(place)) {
                    assert_eq!(build.check(place, value), Ok(()), "default of {}", build.layout().key(place));
                }
            }
        }
        keys.push(key);
    }
}

#[test]
fn counts_are_whole_and_what_stood_stays() {
    let mut build = Build::default();
    let counts = build.layout().ids().filter(|id| build.layout().spec(*id).whole).map(|id| build.layout().key(id.into()));
    let counts: Vec<String> = counts.collect();
    assert_eq!(counts.len(), 5, "{counts:?}");
    let ribs = Place::from(trialfit_core::calculators::front_drive::RIBS.id);
    build.set(ribs, 7.0).expect("whole");
    assert_eq!(build.set(ribs, 6.4), Err(Refusal::NotWhole));
    assert_eq!(build.own_value(ribs), Some(7.0));
}

#[test]
fn every_place_is_found_by_its_key() {
    let build = Build::default();
    for role in [Role::Input, Role::Output] {
        for place in build.layout().places(role) {
            let key = build.layout().key(place);
            assert_eq!(build.layout().place_by_key(&key), Some(place), "{key}");
        }
    }
}

#[test]
fn what_is_not_given_is_unknown_with_its_reason_and_nothing_falls_back() {
    let mut build = Build::default();
    let place = Place { id: car::CURVE_TORQUE.id, row: Some(RowId(4)) };
    build.forget(place);
    assert_eq!(evaluated(&build).of(car::PEAK_TORQUE), Err(Unknown::NotGiven(car::CURVE_TORQUE.id)));
    build.set(place, newton_metres(250.0).si()).expect("in range");
    assert_eq!(evaluated(&build).of(car::PEAK_TORQUE), Ok(newton_metres(250.0)));
}

#[test]
fn a_refused_value_leaves_the_build_as_it_was() {
    let mut build = Build::default();
    let before = build.clone();
    let place = Place::from(car::IDLE.id);
    assert_eq!(build.set(place, f64::NAN), Err(Refusal::NotFinite));
    assert!(matches!(build.set(place, per_minute(1e9).si()), Err(Refusal::OutOfRange(_))));
    assert_eq!(build.set(car::PEAK_TORQUE.id.into(), 1.0), Err(Refusal::NotThere));
    assert!(build == before);
}

#[test]
fn a_part_sets_an_input_and_gives_it_back() {
    let mut build = Build::default();
    let place = Place::from(car::REDLINE.id);
    build.set(place, per_minute(7000.0).si()).expect("in range");
    let before = build.clone();
    let at = build.fit(part("springs")).expect("room");
    build.set_from_part(place, per_minute(7400.0).si(), at).expect("in range");
    assert_eq!(build.origin(place), Origin::Part(at));
    build.remove_part(at);
    assert_eq!((build.own_value(place), build.origin(place)), (Some(per_minute(7000.0).si()), Origin::Own));
    assert!(build == before);
}

fn part(slot: &str) -> Fitted {
    Fitted { shelf: "ours".into(), slot: slot.into(), id: format!("the-{slot}").into(), name: "".into() }
}

/// Two parts over one input and one of them over another: whichever goes first, the other's values stand, and in the end
/// what was there at first.
#[test]
fn parts_go_in_any_order() {
    let (redline, mass) = (Place::from(car::REDLINE.id), Place::from(car::MASS.id));
    let mut start = Build::default();
    start.set(redline, per_minute(7000.0).si()).expect("in range");
    start.forget(mass);
    let with = |slots: &[&str]| {
        let mut build = start.clone();
        for slot in slots {
            let at = build.fit(part(slot)).expect("room");
            let more = f64::from(slot.len() as u32);
            build.set_from_part(redline, per_minute(7000.0 + more).si(), at).expect("in range");
            build.set_from_part(mass, 700.0 + more, at).expect("in range");
        }
        build
    };
    let slots = ["cam", "springs", "exhaust-pipe"];
    for gone in 0..3 {
        let mut build = with(&slots);
        build.remove_part(build.part_in(slots[gone]).expect("fitted"));
        let left: Vec<&str> = (0..3).filter(|&at| at != gone).map(|at| slots[at]).collect();
        assert!(build == with(&left), "without {}", slots[gone]);
        for slot in left {
            build.remove_part(build.part_in(slot).expect("fitted"));
        }
        assert!(build == start);
    }
    // The same slot again: one part in the place of the other.
    let mut build = with(&["cam", "springs"]);
    let at = build.fit(Fitted { id: "another".into(), ..part("cam") }).expect("room");
    assert_eq!((build.parts().len(), build.part_in("cam"), build.parts()[usize::from(at)].to_string()), (2, Some(at), "another".into()));
}

#[test]
fn typing_over_a_part_detaches_that_input_alone() {
    let (redline, mass) = (Place::from(car::REDLINE.id), Place::from(car::MASS.id));
    let mut build = Build::default();
    let at = build.fit(part("cam")).expect("room");
    build.set_from_part(redline, per_minute(7400.0).si(), at).expect("in range");
    build.set_from_part(mass, 700.0, at).expect("in range");
    build.set(redline, per_minute(6500.0).si()).expect("in range");
    assert_eq!((build.origin(redline), build.origin(mass)), (Origin::Own, Origin::Part(at)));
    build.remove_part(at);
    let mut typed = Build::default();
    typed.set(redline, per_minute(6500.0).si()).expect("in range");
    assert!(build == typed);
}

#[test]
fn row_names_are_never_given_twice() {
    let mut build = Build::default();
    let first = build.add_row(car::GEARS).expect("room for a gear");
    let kept: Vec<_> = build.rows(car::GEARS).iter().copied().filter(|&row| row != first).collect();
    build.set_rows(car::GEARS, &kept).expect("fewer rows");
    assert_ne!(build.add_row(car::GEARS), Some(first));
}

#[test]
fn nor_after_the_build_was_put_away() {
    let mut build = Build::default();
    let usual = build.rows(car::GEARS).to_vec();
    let added = [(); 2].map(|()| build.add_row(car::GEARS).expect("room for a gear"));
    let put_away = |build: &Build| {
        let text = stored::write(&Stored { link: build.clone().into(), ..Stored::default() });
        let (read, problems) = stored::read(&text).expect("a build");
        assert_eq!(problems, [], "{text}");
        (text, read.link.build)
    };
    build.set_rows(car::GEARS, &usual).expect("fewer rows");
    let (text, mut back) = put_away(&build);
    assert!(text.contains("rows named: car.gears="), "{text}");
    // Put away twice, it is still known; and the demo's own last row keeps its name.
    back.set_rows(car::GEARS, &usual[1..]).expect("fewer rows");
    let (_, mut back) = put_away(&back);
    let next = back.add_row(car::GEARS).expect("room for a gear");
    assert!(!added.contains(&next) && !usual.contains(&next), "{next:?}");
    // While the last row stands, there is nothing to say.
    assert!(!put_away(&back).0.contains("rows named"));
    assert!(!stored::write(&Stored::default()).contains("rows named"));
}
