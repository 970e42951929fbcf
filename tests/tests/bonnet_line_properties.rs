//! What must hold for every engine under every bonnet.

use core::ops::ControlFlow;
use proptest::prelude::*;
use trialfit_core::build::Build;
use trialfit_core::calculators::bonnet_line::*;
use trialfit_core::quantity::Length;
use trialfit_core::scene::Shape as Drawn;
use trialfit_core::show::{self, System};
use trialfit_core::spec::{Kind, Output, OutputColumn, Place, Role, Verdict};
use trialfit_core::tolerance::Shape;
use trialfit_core::tools::Job;
use trialfit_core::tools::spread::Spread;
use trialfit_tests::{PLAN, evaluated, laws};

fn inputs(build: &Build) -> Vec<Place> {
    let own = |place: &Place| place.id.calculator == BONNET_LINE.choice.calculator;
    build.layout().places(Role::Input).filter(own).collect()
}

/// Any build with some inputs of the bonnet line elsewhere: in their usual range, or (`wild`) anywhere possible.
fn builds(wild: bool) -> impl Strategy<Value = Build> {
    prop::collection::vec((any::<prop::sample::Index>(), 0.0..=1.0_f64), 0..14).prop_map(move |changes| {
        let mut build = Build::default();
        let places = inputs(&build);
        for (at, share) in changes {
            let place = *at.get(&places);
            let spec = build.layout().spec(place.id);
            let value = match spec.kind {
                Kind::Choice(choices) => (share * choices.len() as f64).floor().min(choices.len() as f64 - 1.0),
                Kind::Text(_) => continue,
                Kind::Quantity { .. } => {
                    let [lowest, highest] = if wild { spec.possible } else { spec.usual };
                    spec.settled(spec.to_cell(lowest + share * (highest - lowest)))
                }
            };
            build.set(place, value).expect("inside the range");
        }
        build
    })
}

/// With tolerances of their own on some inputs, all bounded.
fn bounded() -> impl Strategy<Value = Build> {
    let own = prop::collection::vec((any::<prop::sample::Index>(), 0.0..=1.0_f64, any::<bool>()), 0..8);
    (builds(false), own, any::<bool>()).prop_map(|(mut build, own, uniform)| {
        build.set(SPREAD.id.into(), if uniform { 2.0 } else { 3.0 }).expect("a choice");
        let toleranced: Vec<Place> = inputs(&build).into_iter().filter(|place| build.layout().spec(place.id).tolerance.is_some()).collect();
        for (at, share, uniform) in own {
            let place = *at.get(&toleranced);
            let [low, high] = build.layout().spec(place.id).usual;
            let width = build.layout().spec(place.id).to_cell(share * (high - low) * 0.1);
            build.set_half_width(place, Some(width)).expect("in range");
            build.set_shape(place, Some(if uniform { Shape::Uniform } else { Shape::Triangular })).expect("a shape");
        }
        build
    })
}

/// The corners are where it is worst: every dimension at one end of its tolerance or the other.
fn to_corners(build: &Build, corners: &[u64]) -> impl Iterator<Item = Build> {
    let report = evaluated(build);
    let toleranced = inputs(build).into_iter().filter(|place| build.layout().spec(place.id).tolerance.is_some());
    let ends: Vec<(Place, f64, f64)> =
        toleranced.filter_map(|place| Some((place, build.own_value(place)?, report.tolerance(place).expect("known").half_width))).collect();
    corners.iter().map(move |corner| {
        let mut moved = build.clone();
        for (at, &(place, value, width)) in ends.iter().enumerate() {
            let side = if corner.rotate_left((at as u32 * 7) % 61) & 1 == 0 { 1.0 } else { -1.0 };
            _ = moved.set(place, value + side * width);
        }
        moved
    })
}

fn without_tolerances(build: &mut Build) {
    for id in [MEASURING.id, BONNET_VARIES.id, PITCH_READING.id] {
        build.set(id.into(), 0.0).expect("in range");
    }
    let own: Vec<Place> = build.tolerances().map(|(place, _)| place).collect();
    for place in own {
        build.set_half_width(place, None).expect("an input");
    }
}

const ROOMS: [OutputColumn<Length>; 4] = [CLEARANCE, WORKING, WORST, RSS];
const LEASTS: [Output<Length>; 4] = [LEAST, LEAST_WORKING, LEAST_WORST, LEAST_RSS];

proptest! {
    #![proptest_config(laws(96))]

    #[test]
    fn raising_the_engine_never_adds_room_above(build in builds(false), up in 0.0..0.1_f64) {
        let mut raised = build.clone();
        let height = build.own_value(HEIGHT.id.into()).expect("given");
        raised.set(HEIGHT.id.into(), height + up).expect("in range");
        let (low, high) = (evaluated(&build), evaluated(&raised));
        for row in 0..build.rows(POINTS).len() {
            for output in ROOMS {
                if let (Ok(low), Ok(high)) = (low.cell(output, row), high.cell(output, row)) {
                    prop_assert!(high.si() <= low.si() + 1e-12, "{low:?} {high:?}");
                }
            }
            if let (Ok(low), Ok(high)) = (low.cell(CHANCE, row), high.cell(CHANCE, row)) {
                prop_assert!(high.si() >= low.si() - 1e-15, "{low:?} {high:?}");
            }
        }
        for output in LEASTS {
            if let (Ok(low), Ok(high)) = (low.of(output), high.of(output)) {
                prop_assert!(high.si() <= low.si() + 1e-12, "{low:?} {high:?}");
            }
        }
        // And never takes any below.
        if let (Ok(low), Ok(high)) = (low.of(LEAST_UNDER), high.of(LEAST_UNDER)) {
            prop_assert!(high.si() >= low.si() - 1e-12, "{low:?} {high:?}");
        }
    }

    #[test]
    fn squares_never_take_more_than_the_worst_case(build in builds(false)) {
        let report = evaluated(&build);
        for row in 0..build.rows(POINTS).len() {
            if let (Ok(working), Ok(rss), Ok(worst)) = (report.cell(WORKING, row), report.cell(RSS, row), report.cell(WORST, row)) {
                prop_assert!(worst.si() <= rss.si() + 1e-12 && rss.si() <= working.si() + 1e-12, "{worst:?} {rss:?} {working:?}");
            }
        }
        for row in 0..build.rows(UNDER).len() {
            if let (Ok(rss), Ok(worst)) = (report.cell(UNDER_RSS, row), report.cell(UNDER_WORST, row)) {
                prop_assert!(worst.si() <= rss.si() + 1e-12, "{worst:?} {rss:?}");
            }
        }
    }

    /// For bounded distributions only: a normal one has no worst.
    #[test]
    fn the_worst_case_holds_every_sample(build in bounded(), seed in any::<u64>()) {
        let outputs = [LEAST_WORKING.id.into()];
        let report = evaluated(&build);
        let worst = report.of(LEAST_WORST);
        prop_assume!(worst.is_ok());
        let mut job = Spread::new(&PLAN, &build, &outputs, 300, seed).map_err(|why| TestCaseError::fail(format!("{why:?}")))?;
        let ControlFlow::Break(found) = job.advance(&PLAN, u32::MAX) else { return Err(TestCaseError::fail("asked for all of it")) };
        if let Some([least, _]) = found.outcomes[0].ends {
            prop_assert!(least >= worst.expect("assumed").si() - 1e-12, "{least} under {worst:?}");
        }
    }

    #[test]
    fn the_worst_case_holds_the_corners(build in bounded(), corners in prop::collection::vec(any::<u64>(), 40)) {
        let worst = evaluated(&build).of(LEAST_WORST);
        prop_assume!(worst.is_ok());
        for moved in to_corners(&build, &corners) {
            if let Ok(room) = evaluated(&moved).of(LEAST_WORKING) {
                prop_assert!(room.si() >= worst.expect("assumed").si() - 1e-12, "{room:?} under {worst:?}");
            }
        }
    }

    #[test]
    fn the_worst_case_below_holds_the_corners(build in bounded(), spans in prop::collection::vec(0.0..1.0_f64, 12), corners in prop::collection::vec(any::<u64>(), 20)) {
        // Parts anywhere along the engine, often one over another.
        let mut build = build;
        let ends = |id| Build::default().layout().places_of(id).collect::<Vec<Place>>();
        for (place, share) in ends(LOWER_FROM.id).into_iter().chain(ends(LOWER_TO.id)).chain(ends(LOWER_TOP.id)).zip(spans) {
            build.set(place, if place.id == LOWER_TOP.id { -0.3 + 0.1 * share } else { share - 0.4 }).expect("in range");
        }
        let worst = evaluated(&build).of(LEAST_UNDER_WORST);
        prop_assume!(worst.is_ok());
        for mut moved in to_corners(&build, &corners) {
            without_tolerances(&mut moved);
            if let Ok(room) = evaluated(&moved).of(LEAST_UNDER_WORST) {
                prop_assert!(room.si() >= worst.expect("assumed").si() - 1e-12, "{room:?} under {worst:?}");
            }
        }
    }

    #[test]
    fn without_tolerances_all_rooms_are_one(mut build in builds(false)) {
        without_tolerances(&mut build);
        let report = evaluated(&build);
        for row in 0..build.rows(POINTS).len() {
            if let Ok(working) = report.cell(WORKING, row) {
                for output in [WORST, RSS] {
                    prop_assert!((report.cell(output, row).expect("known").si() - working.si()).abs() < 1e-12);
                }
                prop_assert_eq!(report.cell(CHANCE, row).expect("known").si(), f64::from(working < Length::ZERO));
            }
        }
    }

    /// Wherever the sentence asks to move the engine, moving it so passes no limit of room, road or joints.
    #[test]
    fn the_move_helps(build in builds(false)) {
        let report = evaluated(&build);
        if let Ok(up) = report.of(MOVE) {
            let mut moved = build.clone();
            let height = build.own_value(HEIGHT.id.into()).expect("given");
            // A hair inside.
            let inward = if up > Length::ZERO { 1e-6 } else { -1e-6 };
            if report.of(BAND).is_ok_and(|band| band.si() > 1e-4) && moved.set(HEIGHT.id.into(), height + up.si() + inward * f64::from(up != Length::ZERO)).is_ok() {
                let after = evaluated(&moved);
                for id in [CLEARANCE.id, WORST.id, CHANCE_ANY.id, UNDER_CLEARANCE.id, UNDER_WORST.id, ROAD.id, ROAD_BUMP.id, SHAKE.id] {
                    for place in moved.layout().places_of(id) {
                        prop_assert_ne!(after.verdict(&moved, place), Verdict::Beyond, "{}", moved.layout().key(place));
                    }
                }
                for joint in [FRONT_JOINT, REAR_JOINT] {
                    if let (Ok(bent), Ok(least), Ok(most)) = (after.of(joint), after.of(JOINT_STRAIGHT), after.of(JOINT_MOST)) {
                        prop_assert!(least <= bent && bent <= most, "{bent:?} not from {least:?} to {most:?}");
                    }
                }
            }
        }
    }

    #[test]
    fn whatever_is_given_nothing_panics_and_what_is_shown_is_fit_to_be(build in builds(true), forget in prop::option::of(any::<prop::sample::Index>())) {
        let mut build = build;
        if let Some(forget) = forget {
            let place = *forget.get(&inputs(&build));
            build.forget(place);
        }
        let report = evaluated(&build);
        for place in build.layout().places(Role::Output) {
            match report.value(place) {
                Ok(value) => prop_assert!(value.is_finite()),
                Err(_) => prop_assert_eq!(report.verdict(&build, place), Verdict::Unknown),
            }
        }
        let sentence = (BONNET_LINE.sentence)(&build, &report);
        let words = show::sentence(&sentence, System::Metric);
        prop_assert!(words.chars().count() <= 130, "{} letters: {words}", words.chars().count());
        let start = match sentence.verdict {
            Verdict::Beyond => "Beyond: ",
            Verdict::Unknown => "Unknown: ",
            Verdict::Near => "Only just: ",
            Verdict::Within => "Clears by ",
        };
        prop_assert!(words.starts_with(start), "{words}");
        prop_assert_eq!(Some(sentence.verdict), report.worst(&build, BONNET_LINE.choice.calculator).map(|worst| worst.0));
        if let Ok(scene) = BONNET_LINE.scene.expect("a drawing")(&build, &report) {
            let mut numbers: Vec<f64> = scene.handles.iter().flat_map(|handle| [handle.at.x, handle.at.y, handle.per_millimetre.y]).collect();
            for shape in &scene.shapes {
                match shape {
                    Drawn::Path { points, .. } => numbers.extend(points.iter().flat_map(|point| [point.x, point.y])),
                    Drawn::Circle { centre, radius, .. } => numbers.extend([centre.x, centre.y, *radius]),
                    Drawn::Arc { radius, from, sweep, .. } => numbers.extend([*radius, *from, *sweep]),
                    Drawn::Dimension { from, to, .. } => numbers.extend([from.x, from.y, to.x, to.y]),
                    Drawn::Label { at, .. } => numbers.extend([at.x, at.y]),
                }
            }
            prop_assert!(numbers.iter().all(|number| number.is_finite()));
        }
        for chart in BONNET_LINE.charts.iter().filter_map(|chart| chart(&PLAN, &build, &report).ok()) {
            let points = chart.curves.iter().flat_map(|curve| &curve.points).map(|&(x, y)| (x, y.unwrap_or(0.0)));
            prop_assert!(points.chain(chart.bands.iter().copied()).all(|(x, y)| x.is_finite() && y.is_finite()));
        }
    }
}
