//! Sentence, drawing and curves.

use super::{demo, set};
use core::f64::consts::PI;
use trialfit_core::build::Build;
use trialfit_core::calculators::flywheel::*;
use trialfit_core::calculators::{ALL, car};
use trialfit_core::chart::Chart;
use trialfit_core::plan::Plan;
use trialfit_core::quantity::per_minute;
use trialfit_core::scene::{Scene, Shape};
use trialfit_core::show::{self, System};
use trialfit_core::spec::Verdict;
use trialfit_tests::{agrees, agrees_within, evaluated};

/// The sentence with plain spaces, as one reads it.
fn said(build: &Build) -> (Verdict, String) {
    let sentence = (FLYWHEEL.sentence)(build, &evaluated(build));
    (sentence.verdict, show::sentence(&sentence, System::Metric).replace(['\u{A0}', '\u{202F}'], " "))
}

/// The demo with these changes, and accessories that do not hang on the front drive's demo.
fn with(changes: &[(&str, f64)]) -> Build {
    let mut build = demo();
    set(&mut build, "flywheel.accessories", 0.010);
    for &(key, value) in changes {
        set(&mut build, key, value);
    }
    build
}

#[track_caller]
fn check(build: &Build, verdict: Verdict, words: &str) {
    assert_eq!(said(build), (verdict, words.to_owned()));
}

#[test]
fn the_worst_verdict_leads_the_sentence() {
    check(&with(&[]), Verdict::Near, "Rim factor 3.1 if it is carbon steel. Revs 22 % quicker, idles 1.3× as uneven.");
    check(&with(&[("flywheel.material", 1.0)]), Verdict::Within, "Revs 22 % quicker, idles 1.3× as uneven. Rim factor 5.7 on yield.");
    check(
        &with(&[("flywheel.material", 0.0), ("flywheel.factor-near", 3.5)]),
        Verdict::Near,
        "Rim close: factor 3.1 on yield, 3.5 wanted. Revs 22 % quicker, idles 1.3× as uneven.",
    );
    check(
        &with(&[("flywheel.material", 0.0), ("flywheel.hole-factor", 3.0)]),
        Verdict::Near,
        "A missed shift, 11 200 min⁻¹, would stretch it. Revs 22 % quicker, idles 1.3× as uneven.",
    );
    // 1.7 times the redline is more than any missed shift of the demo's gears.
    check(
        &with(&[("flywheel.material", 0.0), ("flywheel.hole-factor", 3.0), ("flywheel.overspeed-margin", 1.7)]),
        Verdict::Near,
        "The overspeed, 11 600 min⁻¹, would stretch it. Revs 22 % quicker, idles 1.3× as uneven.",
    );
    check(&with(&[("flywheel.strength", 150e6)]), Verdict::Beyond, "Beyond: do not run it. Rim factor 1.3 at 6800 min⁻¹, 2.0 wanted.");
    check(
        &with(&[("flywheel.material", 3.0), ("flywheel.factor-wanted", 1.0)]),
        Verdict::Beyond,
        "Beyond: do not run it. A missed shift, 11 200 min⁻¹, cracks it.",
    );
    check(
        &with(&[("flywheel.material", 3.0), ("car.redline", per_minute(4000.0).si())]),
        Verdict::Within,
        "Revs 22 % quicker, idles 1.3× as uneven. Rim factor 5.6 on breaking.",
    );
    // With two digits both were 3.1.
    check(
        &with(&[("flywheel.material", 0.0), ("flywheel.factor-wanted", 3.08)]),
        Verdict::Beyond,
        "Beyond: do not run it. Rim factor 3.06 at 6800 min⁻¹, 3.08 wanted.",
    );
    check(
        &with(&[("flywheel.material", 1.0), ("flywheel.launch-speed", per_minute(1200.0).si())]),
        Verdict::Beyond,
        "Beyond: it stalls. A dump at 1200 min⁻¹ leaves 404 min⁻¹.",
    );
    check(
        &with(&[("flywheel.material", 1.0), ("flywheel.launch-speed", per_minute(2000.0).si())]),
        Verdict::Near,
        "Near a stall: a dump at 2000 min⁻¹ leaves 673 min⁻¹. Revs 22 % quicker, idles 1.3× as uneven.",
    );
    let mut build = with(&[]);
    build.forget(MATERIAL.id.into());
    check(&build, Verdict::Unknown, "Unknown: rim strength. Needs the material. Revs 22 % quicker, idles 1.3× as uneven.");
    let (verdict, words) = said(&Build::cleared(ALL));
    assert_eq!(verdict, Verdict::Unknown);
    assert!(words.starts_with("Unknown: "), "{words}");
    // Heavier than the reference.
    let heavier = with(&[("flywheel.material", 1.0), ("flywheel.mass", 12.0)]);
    assert_eq!(said(&heavier).1, "Revs 22 % slower, idles 0.82× as uneven. Rim factor 5.7 on yield.");
}

fn charts(build: &Build) -> Vec<Chart> {
    let (plan, report) = (Plan::default(), evaluated(build));
    FLYWHEEL.charts.iter().map(|plot| plot(&plan, build, &report).expect("drawn")).collect()
}

#[test]
fn curves_end_where_the_figures_say() {
    let build = demo();
    let (report, charts) = (evaluated(&build), charts(&build));
    let last = |chart: usize, curve: usize| {
        let (x, y) = *charts[chart].curves[curve].points.last().expect("points");
        (x, y.expect("no gap"))
    };
    let to = report.of(REV_TO).expect("known").si();
    for (curve, time) in [(0, REV_TIME), (1, REFERENCE_REV_TIME)] {
        let (x, y) = last(0, curve);
        agrees_within(x, report.of(time).expect("known").si(), 1e-12, "the same integral");
        agrees_within(y, to, 1e-12, "the upper speed");
    }
    assert!(charts[0].curves[1].dashed && !charts[0].curves[0].dashed, "the reference is dashed");
    for (curve, gear) in (2..).zip(0..4) {
        let (x, y) = last(1, curve);
        agrees_within(x, report.cell(SHIFT_TIME, gear).expect("known").si(), 1e-12, "the shift into the next gear");
        agrees_within(y, report.cell(SHIFT_TO, gear).expect("known").si(), 1e-12, "the speed it asks for");
    }
    for (curve, time) in (0..10).zip([GEAR_TIME, REFERENCE_GEAR_TIME].into_iter().cycle()) {
        let (x, y) = last(2, curve);
        agrees_within(x, report.cell(time, curve / 2).expect("known").si(), 1e-12, "pulled through the range");
        let road = report.cell(car::SPEED_PER_THOUSAND, curve / 2).expect("known").si() * 6.0;
        agrees_within(y, road, 1e-12, "road speed at 6000");
    }
    for (curve, time, left) in [(0, DUMP_TIME, LAUNCH_LEFT), (2, REFERENCE_DUMP_TIME, REFERENCE_LAUNCH_LEFT)] {
        assert_eq!(last(3, curve), last(3, curve + 1), "engine and gearbox end alike");
        let (x, y) = last(3, curve);
        agrees_within(x, report.of(time).expect("known").si(), 1e-12, "the slip's time");
        agrees_within(y, report.of(left).expect("known").si(), 1e-12, "the speed left");
    }
    for (curve, uneven) in [(0, UNEVENNESS), (1, REFERENCE_UNEVENNESS)] {
        let speeds = || charts[4].curves[curve].points.iter().filter_map(|point| point.1);
        let (least, most) = (speeds().fold(f64::MAX, f64::min), speeds().fold(f64::MIN, f64::max));
        // Highest less lowest by the mean; the mean of the two is the idle but for the square of that.
        agrees_within((most - least) / per_minute(850.0).si(), report.of(uneven).expect("known").si(), 2e-3, "coefficient of fluctuation");
    }
    for chart in &charts {
        for curve in &chart.curves {
            assert!(curve.points.iter().all(|(x, y)| x.is_finite() && y.is_some_and(f64::is_finite)), "{}: {}", chart.title, curve.label);
            assert!(curve.points.windows(2).all(|pair| pair[0].0 <= pair[1].0), "{}: {}", chart.title, curve.label);
        }
    }
    assert_eq!(charts[5].finding, "101 J swing into the wheel and out; 120 J without the pistons' inertia.");
}

fn scene(build: &Build) -> Scene {
    (FLYWHEEL.scene.expect("a drawing"))(build, &evaluated(build)).expect("drawn")
}

/// First moment of a closed path about the axis, x = 0, by the shoelace rule.
fn moment(points: &[trialfit_core::scene::Point]) -> f64 {
    let next = points.iter().skip(1).chain(points.first());
    points.iter().zip(next).map(|(from, to)| (from.x * to.y - to.x * from.y) * (from.x + to.x) / 6.0).sum::<f64>().abs()
}

/// Pappus: a section turned about the axis sweeps 2π times its first moment. Without holes that is all the metal.
#[test]
fn the_drawn_section_weighs_what_the_sizes_weigh() {
    let mut build = demo();
    set(&mut build, "flywheel.bolt-circle", 0.072);
    build.set_rows(HOLES, &[]).expect("none is allowed");
    let sections = |scene: &Scene| -> f64 {
        let hatched = |shape: &Shape| match shape {
            Shape::Path { points, hatched: true, .. } => moment(points),
            _ => 0.0,
        };
        2.0 * PI * scene.shapes.iter().map(hatched).sum::<f64>() * 1e-9
    };
    let mass = evaluated(&build).of(MASS_FROM_SECTIONS).expect("known").in_kilograms();
    agrees_within(7850.0 * sections(&scene(&build)), mass, 1e-12, "Pappus and Guldin");
    // With its holes the cut runs through them: each ring of metal there is gone from the section.
    let ring = |circle: f64, diameter: f64, depth: f64| 2.0 * PI * (circle / 2.0) * diameter * depth * 1e-9;
    let gone = ring(72.0, 11.0, 10.0) + ring(252.0, 8.0, 8.0) + ring(131.0, 20.0, 6.0);
    let left = 7850.0 * sections(&scene(&demo()));
    agrees_within(mass - left, 7850.0 * gone, 1e-9, "rings of the holes' size");
}

#[test]
fn blind_holes_are_notches_from_the_clutchs_side() {
    let mut build = demo();
    build.set(super::row(HOLE_DEPTH.id, 2), 5e-3).expect("in range");
    let through = scene(&demo()).shapes.iter().filter(|shape| matches!(shape, Shape::Path { hatched: true, .. })).count();
    let notched = scene(&build);
    let pieces: Vec<_> = notched
        .shapes
        .iter()
        .filter_map(|shape| match shape {
            Shape::Path { points, hatched: true, .. } => Some(points.len()),
            _ => None,
        })
        .collect();
    assert_eq!(pieces.len(), through - 1, "the rim stays in one piece");
    assert!(pieces.contains(&8), "four corners, and four of the notch");
}

#[test]
fn handles_move_what_they_stand_on() {
    let build = demo();
    let before = scene(&build);
    for (at, handle) in before.handles.iter().enumerate() {
        // Half a millimetre along the way the handle goes; what it changes must carry it there.
        let (along, per) = if handle.per_millimetre.x != 0.0 { (0, handle.per_millimetre.x) } else { (1, handle.per_millimetre.y) };
        let mut moved = build.clone();
        let value = build.own_value(handle.place).expect("given");
        moved.set(handle.place, value + 0.5 * per).expect("in range");
        let after = &scene(&moved).handles[at];
        let went = [after.at.x - handle.at.x, after.at.y - handle.at.y][along];
        agrees(went, 0.5, 1e-9, "the drawing is to scale");
    }
    let names: Vec<&str> = before.handles.iter().map(|handle| handle.label.as_str()).collect();
    assert!(names.contains(&"rim, width") && names.contains(&"ring gear, outer diameter"), "{names:?}");
}

/// Grey cast iron breaks without yielding: what stands beside its factor must be true of it as well.
#[test]
fn no_label_calls_a_brittle_metals_strength_its_yield() {
    let build = with(&[("flywheel.material", 3.0)]);
    for output in [FACTOR.id, OVERSPEED_FACTOR.id, MATERIAL_STRENGTH.id] {
        let label = build.layout().spec(output).label;
        assert!(label.to_lowercase().contains("strength") && !label.contains("ield"), "{label}");
    }
}
