//! Sweep: curves, gaps and bands against closed forms, maps against a circle, and every point against setting it.

use proptest::prelude::*;
use std::sync::LazyLock;
use trialfit_core::build::{Build, Refusal};
use trialfit_core::calculators::{ALL, Calculator, clutch, front_drive, wiring};
use trialfit_core::declare;
use trialfit_core::plan::{Plan, Step};
use trialfit_core::quantity::{Ratio, ratio};
use trialfit_core::report::{Report, Unknown};
use trialfit_core::show::{self, System};
use trialfit_core::spec::{Id, Place, Source, Verdict};
use trialfit_core::tools::sweep::{Map, Stop, Sweep, Swept};
use trialfit_tests::{PLAN as WHOLE, agrees, bare, done, laws};

declare! {
    calculator 0;
    tables {}
    input ACROSS: Ratio, "", "across", "Across", "From left to right." { default(2.0, Source::Definition) possible(-100.0, 100.0) usual(0.0, 10.0, 1.0) }
    input UP: Ratio, "", "up", "Up", "From the bottom." { default(0.0, Source::Definition) possible(-100.0, 100.0) usual(0.0, 10.0, 1.0) }
    input LINE_MOST: Ratio, "", "line-most", "Line at most", "A limit." { default(12.0, Source::Definition) possible(0.0, 100.0) usual(0.0, 50.0, 1.0) }
    input APART_LEAST: Ratio, "", "apart-least", "Apart at least", "A limit." { default(1.0, Source::Definition) possible(0.0, 100.0) usual(0.0, 50.0, 1.0) }
    input RADIUS_MOST: Ratio, "", "radius-most", "Radius at most", "A limit." { default(1e2, Source::Definition) possible(0.0, 100.0) usual(0.0, 50.0, 1.0) }
    input AWAY_MOST: Ratio, "", "away-most", "Away at most", "A limit." { default(0.5, Source::Definition) possible(0.0, 100.0) usual(0.0, 50.0, 1.0) }
    output LINE: Ratio, "", "line", "Line", "Twice." { at_most(LINE_MOST.id, None) }
    output APART: Ratio, "", "apart", "Apart", "From three." { at_least(APART_LEAST.id, None) }
    output RADIUS: Ratio, "", "radius", "Radius", "From the corner." { at_most(RADIUS_MOST.id, None) }
    output AWAY: Ratio, "", "away", "Away", "Hangs on nothing." { at_most(AWAY_MOST.id, None) }
    output STEEP: Ratio, "", "steep", "Steep", "Steep in the middle." {}
    output ROOT: Ratio, "", "root", "Root", "None of what is negative." {}
}

const NEGATIVE: Unknown = Unknown::NoSolution("It is negative.");

const STEPS: &[Step] = &[
    Step {
        name: "shapes",
        reads: &[ACROSS.id, UP.id],
        writes: &[LINE.id, APART.id, RADIUS.id, STEEP.id, ROOT.id],
        run: |case| {
            case.answer(LINE, |case| Ok(case.of(ACROSS)? * 2.0));
            case.answer(APART, |case| Ok(ratio((case.of(ACROSS)?.si() - 3.0).abs())));
            case.answer(RADIUS, |case| Ok(ratio(libm::hypot(case.of(ACROSS)?.si(), case.of(UP)?.si()))));
            case.answer(STEEP, |case| Ok(ratio(steep(case.of(ACROSS)?.si()))));
            case.answer(ROOT, |case| {
                let across = case.of(ACROSS)?.si() - 4.0;
                if across < 0.0 { Err(NEGATIVE) } else { Ok(ratio(across.sqrt())) }
            });
        },
    },
    Step { name: "away", reads: &[], writes: &[AWAY.id], run: |case| case.answer(AWAY, |_| Ok(ratio(1.0))) },
];

static SHAPES: Calculator = bare(SPECS, TABLES, STEPS, ACROSS.id);
static ALONE: &[&Calculator] = &[&SHAPES];
static PLAN: LazyLock<Plan> = LazyLock::new(|| Plan::new(ALONE).expect("no cycle"));

fn steep(across: f64) -> f64 {
    libm::atan(20.0 * (across - 5.0))
}

fn swept(outputs: &[Place], most: u32) -> Swept {
    let build = Build::new(ALONE);
    done(&PLAN, Sweep::new(&PLAN, &build, ACROSS.id.into(), [0.0, 10.0], outputs, most).expect("a range"), 7)
}

fn beyond(output: Id) -> Stop {
    Stop { place: output.into(), unknown: false }
}

fn said(found: &Swept, build: &Build) -> String {
    show::sentence(&found.finding(build), System::Metric).replace(['\u{a0}', '\u{202f}'], " ")
}

fn found(build: &Build, input: Place, range: [f64; 2]) -> Swept {
    done(&WHOLE, Sweep::new(&WHOLE, build, input, range, &[], 160).expect("a range"), 50)
}

/// The demo's clutch slips: its margin shares a step with what the release has to do with, but never moves with that.
#[test]
fn what_stops_and_never_moves_is_told_apart() {
    let build = Build::default();
    let margin = beyond(clutch::MARGIN.id);
    let swept = found(&build, clutch::BEARING_LOAD.id.into(), [1000.0, 2500.0]);
    assert!(swept.anyway.contains(&margin) && !swept.bands.is_empty(), "{}", said(&swept, &build));
    assert_eq!(
        said(&swept, &build),
        "From 1150 N to 2250 N everything that hangs on it is within limits, below stopped by pedal force at its peak, above stopped by \
         pedal force at its peak, plate worn. Apart from it, margin over torque is past its limit."
    );
    // The clamp load moves it.
    let swept = found(&build, clutch::CLAMP_LOAD.id.into(), [3000.0, 5000.0]);
    assert!(swept.bands.is_empty() && !swept.anyway.contains(&margin));
    assert_eq!(
        said(&swept, &build),
        "Nowhere in this range is everything that hangs on it within limits: margin over torque is past its limit throughout."
    );
    // So it is of two.
    let (inputs, ranges) = ([clutch::BEARING_LOAD.id.into(), clutch::SLAVE_BORE.id.into()], [[1000.0, 2500.0], [0.019, 0.0254]]);
    let map = done(&WHOLE, Map::new(&WHOLE, &build, inputs, ranges, None, [9, 9]).expect("ranges"), 7);
    assert!(map.anyway.contains(&margin) && map.cells.iter().any(|cell| cell.stops.is_empty()), "{}", map.finding(&build));
    assert!(!map.stops_now.contains(&margin));
}

/// What stops at one end alone is not what stops it.
#[test]
fn what_stops_most_is_named() {
    // From five to nine: the line is past its limit from six on, and comes first; less than seven from three are all.
    let mut build = Build::new(ALONE);
    for (limit, value) in [(LINE_MOST.id, 12.0), (APART_LEAST.id, 7.0)] {
        build.set(limit.into(), value).expect("in range");
    }
    let sweep = Sweep::new(&PLAN, &build, ACROSS.id.into(), [5.0, 9.0], &[], 50).expect("a range");
    let nowhere = "Nowhere in this range is everything that hangs on it within limits: ";
    assert_eq!(
        said(&done(&PLAN, sweep, 3), &build),
        nowhere.to_owned() + "apart is past its limit throughout. Apart from it, away is past its limit."
    );
}

/// In an empty car nothing is past a limit, and another circuit's missing wire is nothing of this one's.
#[test]
fn what_is_not_known_is_not_said_to_be_past_a_limit() {
    let build = Build::cleared(ALL);
    let swept = found(&build, clutch::BEARING_LOAD.id.into(), [1000.0, 2500.0]);
    let words = said(&swept, &build);
    assert!(
        words.starts_with("Nowhere in this range can it be told whether everything that hangs on it is within limits: ")
            && words.contains(" is not known. Apart from it, alternator at idle and "),
        "{words}"
    );
    let mut build = Build::default();
    let row = |at: usize| Build::default().rows(wiring::CIRCUITS)[at];
    build.forget(Place { id: wiring::LENGTH.id, row: Some(row(0)) });
    let swept = found(&build, Place { id: wiring::CONTACTS.id, row: Some(row(7)) }, [0.0, 4.0]);
    let of_first = |stop: &&Stop| stop.unknown && stop.place.row == Some(row(0));
    assert!(swept.anyway.iter().any(|stop| of_first(&stop)), "{:?}", swept.anyway);
    assert!(swept.points.iter().all(|point| point.stops.iter().all(|stop| !of_first(&stop))));
}

#[test]
fn choices_are_named_not_ranged() {
    let build = Build::default();
    let swept = found(&build, clutch::LINING.id.into(), [0.0, 1.0]);
    assert_eq!(
        said(&swept, &build),
        "Everything that hangs on it is within limits with sintered metal. Margin over torque is past its limit with organic."
    );
    let swept = found(&build, front_drive::CAP_PLACE.id.into(), [0.0, 1.0]);
    assert!(said(&swept, &build).starts_with("With each of them everything that hangs on it is within limits."));
}

/// The range's finest share is 1/8192; an edge lies in an interval no wider than twice that.
const FINE: f64 = 10.0 / 4096.0;

#[test]
fn points_stand_where_the_curve_bends() {
    let found = swept(&[STEEP.id.into()], 120);
    let worst = |points: &[(f64, Option<f64>)]| {
        let height = 2.0 * libm::atan(100.0);
        let off = |pair: &[(f64, Option<f64>)], share: f64| {
            let ((from, low), (to, high)) = ((pair[0].0, pair[0].1.expect("known")), (pair[1].0, pair[1].1.expect("known")));
            ((low + (high - low) * share) - steep(from + (to - from) * share)).abs() / height
        };
        points.windows(2).flat_map(|pair| (1..8).map(move |part| off(pair, f64::from(part) / 8.0))).fold(0.0, f64::max)
    };
    let even: Vec<(f64, Option<f64>)> = (0..120).map(|at| f64::from(at) * 10.0 / 119.0).map(|at| (at, Some(steep(at)))).collect();
    let (adaptive, evenly) = (worst(&found.curve(0)), worst(&even));
    assert!(adaptive < 1e-3 && adaptive < evenly / 20.0, "{adaptive} against {evenly}");
}

#[test]
fn bands_end_where_the_closed_form_says() {
    // |x − 3| ≥ 1 and 2x ≤ 12: from 0 to 2 and from 4 to 6.
    let found = swept(&[LINE.id.into()], 200);
    assert_eq!(found.bands.len(), 2);
    for (band, [low, high]) in found.bands.iter().zip([[0.0, 2.0], [4.0, 6.0]]) {
        agrees(band.ends[0], low, FINE.min(if low == 0.0 { 1e-12 } else { FINE }), "closed form");
        agrees(band.ends[1], high, FINE, "closed form");
        // Within, never just outside.
        assert!(band.ends[0] >= low && band.ends[1] <= high);
    }
    assert_eq!(found.bands[0].stopped_by, [None, Some(APART.id.into())]);
    assert_eq!(found.bands[1].stopped_by, [Some(APART.id.into()), Some(LINE.id.into())]);
    assert_eq!(found.anyway, [beyond(AWAY.id)], "what hangs on nothing is told apart");
    let words = show::sentence(&found.finding(&Build::new(ALONE)), System::Metric);
    assert_eq!(
        words,
        "From 0 to 2.00 everything that hangs on it is within limits, above stopped by apart; from 4.00 to 6.00, \
         below stopped by apart, above stopped by line. Apart from it, away is past its limit."
    );
}

#[test]
fn a_limit_that_is_the_input_itself_is_swept_too() {
    let build = Build::new(ALONE);
    let sweep = Sweep::new(&PLAN, &build, LINE_MOST.id.into(), [0.0, 10.0], &[], 100).expect("a range");
    // Twice two is four.
    let found = done(&PLAN, sweep, 1000);
    assert_eq!(found.bands.len(), 1);
    agrees(found.bands[0].ends[0], 4.0, FINE, "closed form");
}

#[test]
fn a_gap_has_its_ends_and_its_reason() {
    let found = swept(&[ROOT.id.into(), STEEP.id.into()], 150);
    let gaps = found.gaps(0);
    assert_eq!(gaps.len(), 1);
    let ([from, to], why) = gaps[0];
    assert_eq!((from, why), (0.0, NEGATIVE));
    assert!(to < 4.0 && to > 4.0 - FINE, "{to}");
    assert!(found.gaps(1).is_empty());
    assert!(found.curve(0).iter().all(|(at, value)| value.is_some() == (*at >= 4.0)));
}

#[test]
fn refusals_are_said() {
    let build = Build::new(ALONE);
    let refused = |place: Place, range| Sweep::new(&PLAN, &build, place, range, &[], 10).err();
    assert_eq!(refused(LINE.id.into(), [0.0, 1.0]), Some(Refusal::NotThere));
    assert_eq!(refused(ACROSS.id.into(), [0.0, 101.0]), Some(Refusal::OutOfRange([-100.0, 100.0])));
    assert_eq!(refused(ACROSS.id.into(), [2.0, 1.0]), Some(Refusal::OutOfRange([2.0, 1.0])));
    assert_eq!(refused(ACROSS.id.into(), [f64::NAN, 1.0]), Some(Refusal::NotFinite));
}

#[test]
fn a_map_holds_the_circle() {
    let mut build = Build::new(ALONE);
    build.set(RADIUS_MOST.id.into(), 4.0).expect("in range");
    // Out of the way of the other two.
    build.set(APART_LEAST.id.into(), 0.0).expect("in range");
    let inputs = [ACROSS.id.into(), UP.id.into()];
    let map = Map::new(&PLAN, &build, inputs, [[0.0, 6.0], [-5.0, 5.0]], Some(RADIUS.id.into()), [61, 51]).expect("ranges");
    let found = done(&PLAN, map, 100);
    assert_eq!(found.cells.len(), 61 * 51);
    for (at, cell) in found.cells.iter().enumerate() {
        let (across, up) = (found.at[0][at % 61], found.at[1][at / 61]);
        let radius = libm::hypot(across, up);
        assert_eq!(cell.value, Ok(radius));
        assert_eq!(cell.stops, Vec::from_iter((radius > 4.0).then_some(beyond(RADIUS.id))));
    }
    let outline = found.outline();
    let half_step = 0.5 * libm::hypot(0.1, 0.2);
    for [(x, y), (to_x, to_y)] in &outline {
        let middle = libm::hypot(0.5 * (x + to_x), 0.5 * (y + to_y));
        assert!((middle - 4.0).abs() <= half_step, "{middle}");
    }
    // The half circle's staircase goes across and back, and up once: 4 + 4 + 8.
    let length: f64 = outline.iter().map(|[(x, y), (to_x, to_y)]| (to_x - x).abs() + (to_y - y).abs()).sum();
    agrees(length, 16.0, 0.7, "a staircase is as long as its box");
    // Drawn: points to take that stand as their cells do, on both ends, and the build as it is.
    let chart = found.chart(&build, [6, 10]).expect("two quantities");
    let (now, taken): (Vec<_>, Vec<_>) = chart.spots.iter().partition(|spot| spot.present);
    assert_eq!((now.len(), taken.len()), (1, 7 * 11));
    assert!(chart.spots.iter().all(|spot| spot.good == (libm::hypot(spot.at.0, spot.at.1) <= 4.0)));
    assert!(taken.iter().any(|spot| spot.at == (6.0, 5.0)) && taken.iter().any(|spot| spot.at == (0.0, -5.0)));
    assert!(taken.iter().all(|spot| spot.sets == [(inputs[0], spot.at.0), (inputs[1], spot.at.1)]));
    // A half circle of radius 4 in a field of 6 by 10: 42 % of it.
    assert!(chart.finding.starts_with("Within limits on 4"), "{}", chart.finding);
    assert_eq!(Map::new(&PLAN, &build, [inputs[0]; 2], [[0.0, 1.0]; 2], None, [3, 3]).err(), Some(Refusal::NotThere));
}

#[test]
fn choices_have_nothing_between() {
    let build = Build::default();
    let sweep = Sweep::new(&WHOLE, &build, clutch::LINING.id.into(), [0.0, 1.0], &[clutch::CAPACITY.id.into()], 50).expect("choices");
    let found = done(&WHOLE, sweep, 3);
    assert_eq!(found.points.iter().map(|point| point.at).collect::<Vec<_>>(), [0.0, 1.0]);
}

/// Nobody fits half a rib: nothing between is tried, drawn or offered.
#[test]
fn counts_have_nothing_between() {
    let build = Build::default();
    let (ribs, grip) = (front_drive::RIBS.id.into(), clutch::CAPACITY.id.into());
    let sweep = Sweep::new(&WHOLE, &build, ribs, [3.0, 8.0], &[grip], 50).expect("counts");
    let at: Vec<f64> = done(&WHOLE, sweep, 3).points.iter().map(|point| point.at).collect();
    assert_eq!(at, [3.0, 4.0, 5.0, 6.0, 7.0, 8.0]);
    let sweep = Sweep::new(&WHOLE, &build, ribs, [1.0, 20.0], &[grip], 8).expect("counts");
    let at: Vec<f64> = done(&WHOLE, sweep, 3).points.iter().map(|point| point.at).collect();
    assert!(at.len() >= 8 && at.iter().all(|at| at.fract() == 0.0) && at[0] == 1.0 && at.last() == Some(&20.0), "{at:?}");
    assert_eq!(Sweep::new(&WHOLE, &build, ribs, [3.5, 8.0], &[grip], 50).err(), Some(Refusal::NotWhole));
    let inputs = [ribs, clutch::CLAMP_LOAD.id.into()];
    let map = Map::new(&WHOLE, &build, inputs, [[3.0, 8.0], [4000.0, 6000.0]], Some(grip), [31, 21]).expect("ranges");
    let found = done(&WHOLE, map, 100);
    assert_eq!((found.at[0].as_slice(), found.at[1].len()), ([3.0, 4.0, 5.0, 6.0, 7.0, 8.0].as_slice(), 21));
}

/// The pulley's band is what the calculator's own closed forms say, where only those are asked.
#[test]
fn the_alternators_band_is_its_own_closed_form() {
    let build = Build::default();
    let mut report = Report::new(&build);
    WHOLE.evaluate(&build, &mut report);
    let (least, most) =
        (report.of(front_drive::LEAST_ALTERNATOR_PULLEY).expect("known"), report.of(front_drive::MOST_ALTERNATOR_PULLEY).expect("known"));
    let outputs = [front_drive::ALTERNATOR_HIGH_MEASURED.id.into(), front_drive::ALTERNATOR_IDLE.id.into()];
    let range = [0.045, 0.080];
    let sweep = Sweep::new(&WHOLE, &build, front_drive::ALTERNATOR_PULLEY.id.into(), range, &outputs, 400).expect("a range");
    let found = done(&WHOLE, sweep, 50);
    let at = |value: f64, curve: &[(f64, Option<f64>)]| {
        let after = curve.partition_point(|(at, _)| *at < value);
        let ((from, low), (to, high)) = (curve[after - 1], curve[after]);
        let (low, high) = (low.expect("known"), high.expect("known"));
        low + (high - low) * (value - from) / (to - from)
    };
    let limit = report.of(front_drive::ALTERNATOR_LIMIT).expect("known").si();
    agrees(at(least.si(), &found.curve(0)), limit, 1e-3 * limit, "the least pulley turns at the limit");
    let wanted = report.of(front_drive::IDLE_WANTED).expect("known").si();
    agrees(at(most.si(), &found.curve(1)), wanted, 1e-3 * wanted, "the largest pulley turns as fast as wanted at idle");
}

proptest! {
    #![proptest_config(laws(24))]

    /// However the work is cut up, and whatever was worked out before it: each point is what setting the input gives.
    #[test]
    fn every_point_is_what_setting_it_gives(at_once in 1..40_u32, input in 0..3_usize) {
        let build = Build::default();
        let (input, range) = [
            (clutch::SLAVE_BORE.id, [0.015, 0.030]),
            (front_drive::ALTERNATOR_PULLEY.id, [0.045, 0.080]),
            (clutch::CLAMP_LOAD.id, [3000.0, 8000.0]),
        ][input];
        let outputs = [clutch::PEDAL_FORCE.id.into(), clutch::MARGIN.id.into(), front_drive::BALANCE_IDLE.id.into()];
        let sweep = || Sweep::new(&WHOLE, &build, input.into(), range, &outputs, 60).expect("a range");
        let found = done(&WHOLE, sweep(), at_once);
        prop_assert_eq!(&found, &done(&WHOLE, sweep(), 1000));
        prop_assert!(found.points.len() <= 60 && found.points.windows(2).all(|pair| pair[0].at < pair[1].at));
        for point in &found.points {
            let mut set = build.clone();
            set.set(input.into(), point.at).expect("in range");
            let mut report = Report::new(&set);
            WHOLE.evaluate(&set, &mut report);
            for (output, value) in outputs.iter().zip(&point.values) {
                prop_assert_eq!(report.value(*output).map(f64::to_bits), value.map(f64::to_bits));
            }
            for stop in &point.stops {
                prop_assert_eq!(report.verdict(&set, stop.place), if stop.unknown { Verdict::Unknown } else { Verdict::Beyond });
            }
        }
    }
}
