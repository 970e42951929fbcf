//! Solve: Brent's method on published functions, every root a scan separates, jumps, gaps, steps, and the nearest.

use proptest::prelude::*;
use std::sync::LazyLock;
use trialfit_core::build::{Build, Refusal};
use trialfit_core::calculators::{Calculator, bonnet_line, clutch, front_drive};
use trialfit_core::declare;
use trialfit_core::plan::{Plan, Step};
use trialfit_core::quantity::{Length, Ratio, ratio};
use trialfit_core::report::{Report, Unknown};
use trialfit_core::spec::{Id, Place, Source};
use trialfit_core::tools::brent::{Brent, Next};
use trialfit_core::tools::solve::{Obstacle, Solve, Solved};
use trialfit_tests::{PLAN as WHOLE, agrees, bare, done, evaluated, laws};

/// Root and evaluations, both ends' included.
fn closed_in(function: impl Fn(f64) -> f64, low: f64, high: f64, tolerance: f64) -> (f64, u32) {
    let mut brent = Brent::new((low, function(low)), (high, function(high)), tolerance).expect("signs differ");
    let mut evaluations = 2;
    loop {
        match brent.ask() {
            Next::Try(at) => {
                assert!((low..=high).contains(&at), "{at} outside the bracket");
                brent.tell(function(at));
                evaluations += 1;
            }
            Next::Done { root, .. } => return (root, evaluations),
        }
        assert!(evaluations < 3000);
    }
}

#[test]
fn published_roots_are_found() {
    let [power, exponential] = [|x: f64| x * x * x - 2.0 * x - 5.0, |x: f64| x * libm::exp(x) - 1.0];
    for (got, expected, source) in [
        (closed_in(power, 2.0, 3.0, 0.0), 2.094_551_481_542_326_6, "Wallis's cubic, OEIS A007493, from memory"),
        (closed_in(|x| libm::cos(x) - x, 0.0, 1.0, 0.0), 0.739_085_133_215_160_6, "OEIS A003957, from memory"),
        (closed_in(exponential, 0.0, 1.0, 0.0), 0.567_143_290_409_784, "omega constant, OEIS A030178, from memory"),
        // Alefeld, Potra & Shi, ACM TOMS 21 (1995), Algorithm 748, its first test function; from memory.
        (
            closed_in(|x| libm::sin(x) - 0.5 * x, core::f64::consts::FRAC_PI_2, core::f64::consts::PI, 0.0),
            1.895_494_267_033_981,
            "Algorithm 748, no. 1, from memory",
        ),
        // The same, no. 4: xⁿ − a.
        (closed_in(|x| libm::pow(x, 4.0) - 0.2, 0.0, 5.0, 0.0), 0.668_740_304_976_422, "Algorithm 748, no. 4: 0.2^(1/4)"),
        (closed_in(|x| libm::pow(x, 12.0) - 1.0, 0.0, 5.0, 0.0), 1.0, "Algorithm 748, no. 4: 1"),
    ] {
        agrees(got.0, expected, 1e-14 * expected, source);
        // Brent promises to be at least not much worse than halving, and says about ten for such; halving takes over 50.
        assert!(got.1 <= 20, "{} evaluations for {source}", got.1);
    }
}

/// Where the secant and the parabola mislead: a flat ninth power, and a step of a thousandth's width. Never more than
/// about the square of halving's steps (Brent 1973, ch. 4).
#[test]
fn hard_functions_end_too() {
    let ninth = |x: f64| {
        let cube = x * x * x;
        cube * cube * cube
    };
    let (root, evaluations) = closed_in(ninth, -1.0, 4.0, 1e-10);
    assert!(root.abs() <= 1e-10 && evaluations < 35 * 35, "{root} after {evaluations}");
    let (root, evaluations) = closed_in(|x| libm::tanh(1e3 * (x - 0.3)), 0.0, 1.0, 1e-12);
    agrees(root, 0.3, 1e-12, "by definition");
    assert!(evaluations < 60, "{evaluations}");
    assert!(Brent::new((0.0, 1.0), (1.0, 2.0), 0.0).is_none(), "no change of sign");
}

/// Better than linear: near a root each step takes off more digits than the one before.
#[test]
fn closing_in_goes_faster_and_faster() {
    let function = |x: f64| libm::exp(x) - 2.0;
    let mut brent = Brent::new((0.0, function(0.0)), (2.0, function(2.0)), 0.0).expect("signs differ");
    let mut off = Vec::new();
    while let Next::Try(at) = brent.ask() {
        off.push((at - core::f64::consts::LN_2).abs());
        brent.tell(function(at));
    }
    let good: Vec<f64> = off.into_iter().filter(|off| *off > 1e-14).collect();
    let orders: Vec<f64> = good.windows(2).map(|pair| libm::log(pair[1]) / libm::log(pair[0])).collect();
    let last = orders.last().expect("several steps");
    assert!(*last > 1.3, "{orders:?}: superlinear, at the latest with the last step");
}

declare! {
    calculator 0;
    tables {}
    input AT: Ratio, "", "at", "At", "Where." { default(2.0, Source::Definition) possible(-100.0, 100.0) usual(0.0, 10.0, 0.1) }
    input WIDE: Length, "mm", "wide", "Wide", "In whole millimetres." { default(50.0, Source::Definition) possible(1.0, 100.0) usual(1.0, 100.0, 1.0) }
    input SOLD: Length, "mm", "sold", "Sold", "In sizes." { default(19.05, Source::Definition) possible(1.0, 100.0) usual(1.0, 100.0, 1.0) sizes(&[15.875, 19.05, 22.225, 25.4]) }
    output WAVE: Ratio, "", "wave", "Wave", "A sine." {}
    output JUMPS: Ratio, "", "jumps", "Jumps", "A line with a step up at four." {}
    output POLE: Ratio, "", "pole", "Pole", "One over from five." {}
    output BOWL: Ratio, "", "bowl", "Bowl", "A square, and one." {}
    output PARTLY: Ratio, "", "partly", "Partly", "A line where it is over three." {}
    output FLAT: Ratio, "", "flat", "Flat", "A tenth, level from four on." {}
    output AREA: Ratio, "", "area", "Area", "Of both squares, mm²." {}
}

const LOW: Unknown = Unknown::NoSolution("Too low.");

const STEPS: &[Step] = &[
    Step {
        name: "shapes",
        reads: &[AT.id],
        writes: &[WAVE.id, JUMPS.id, POLE.id, BOWL.id, PARTLY.id, FLAT.id],
        run: |case| {
            let at = case.of(AT).map(|at| at.si());
            case.answer(WAVE, |_| Ok(ratio(libm::sin(at?))));
            case.answer(JUMPS, |_| Ok(ratio(if at? < 4.0 { at? } else { at? + 3.0 })));
            case.answer(POLE, |_| Ok(ratio(1.0 / (at? - 5.0))));
            case.answer(BOWL, |_| Ok(ratio((at? - 3.3) * (at? - 3.3) + 1.0)));
            case.answer(FLAT, |_| Ok(ratio(at?.min(4.0) / 10.0)));
            case.answer(PARTLY, |_| if at? > 3.0 { Ok(ratio(at?)) } else { Err(LOW) });
        },
    },
    Step {
        name: "area",
        reads: &[WIDE.id, SOLD.id],
        writes: &[AREA.id],
        run: |case| {
            case.answer(AREA, |case| {
                let (wide, sold) = (case.of(WIDE)?.in_millimetres(), case.of(SOLD)?.in_millimetres());
                Ok(ratio(wide * wide + sold * sold))
            });
        },
    },
];

static SHAPES: Calculator = bare(SPECS, TABLES, STEPS, AT.id);
static ALONE: &[&Calculator] = &[&SHAPES];
static PLAN: LazyLock<Plan> = LazyLock::new(|| Plan::new(ALONE).expect("no cycle"));

fn solved(input: Id, range: [f64; 2], output: Id, target: f64, scan: u32) -> Solved {
    let build = Build::new(ALONE);
    done(&PLAN, Solve::new(&PLAN, &build, input.into(), range, output.into(), target, scan).expect("a range"), 5)
}

fn inputs(found: &Solved) -> Vec<f64> {
    found.solutions.iter().map(|had| had.input).collect()
}

#[test]
fn every_root_a_scan_separates_is_found() {
    let found = solved(AT.id, [0.1, 20.0], WAVE.id, 0.5, 200);
    // sin x = ½ at π/6, 5π/6 and on by 2π.
    let sixth = core::f64::consts::PI / 6.0;
    let roots: Vec<f64> =
        (0..4).flat_map(|turn| [1.0, 5.0].map(|at| (at + 12.0 * f64::from(turn)) * sixth)).filter(|at| *at < 20.0).collect();
    assert_eq!(found.solutions.len(), roots.len());
    for (got, expected) in inputs(&found).into_iter().zip(roots) {
        agrees(got, expected, 1e-11, "closed form");
    }
    assert!(found.obstacles.is_empty() && found.scanned == 200, "{:?}", found.obstacles);
    let coarse = solved(AT.id, [0.1, 20.0], WAVE.id, 0.5, 3);
    assert!(coarse.solutions.len() < found.solutions.len() && coarse.scanned == 3, "what a scan cannot separate it says it scanned with");
}

#[test]
fn a_jump_is_no_root() {
    let found = solved(AT.id, [0.0, 10.0], JUMPS.id, 5.5, 50);
    assert!(found.solutions.is_empty());
    match found.obstacles.as_slice() {
        [Obstacle::Jump { at, between: [low, high] }] => {
            agrees(*at, 4.0, 1e-11, "by definition");
            agrees(*low, 4.0, 1e-11, "by definition");
            agrees(*high, 7.0, 1e-11, "by definition");
        }
        other => panic!("{other:?}"),
    }
    // Either side of the jump is 1.5 off; below it nothing is nearer than just under four.
    agrees(found.nearest.expect("known").input, 4.0, 1e-9, "by definition");
    // A target on either side of the step is met beside it.
    assert_eq!(inputs(&solved(AT.id, [0.0, 10.0], JUMPS.id, 3.0, 50)).len(), 1);
    let pole = solved(AT.id, [0.0, 10.0], POLE.id, 0.0, 50);
    // A pole is either jumped across or met, where it has no value.
    assert!(
        pole.solutions.is_empty() && matches!(pole.obstacles.as_slice(), [Obstacle::Jump { .. } | Obstacle::Unknown { .. }]),
        "{pole:?}"
    );
}

#[test]
fn out_of_reach_names_the_nearest() {
    let found = solved(AT.id, [0.0, 10.0], BOWL.id, 0.5, 20);
    assert!(found.solutions.is_empty());
    let nearest = found.nearest.expect("known");
    agrees(nearest.input, 3.3, 1e-3, "the bowl's bottom");
    agrees(nearest.output, 1.0, 1e-6, "the bowl's bottom");
    assert!(
        matches!(found.obstacles.as_slice(), [Obstacle::OutOfReach { reach: [low, high] }] if *low >= 1.0 && (*high - 45.89).abs() < 1e-9)
    );
    assert_eq!(inputs(&solved(AT.id, [0.0, 10.0], BOWL.id, 2.0, 20)).len(), 2);
}

/// The scan's own values stay over 1.09; the bowl goes down to one.
#[test]
fn a_crest_between_two_values_of_the_scan_is_not_stepped_over() {
    let found = solved(AT.id, [0.0, 10.0], BOWL.id, 1.04, 11);
    assert_eq!(found.solutions.len(), 2, "{found:?}");
    for (got, expected) in inputs(&found).into_iter().zip([3.1, 3.5]) {
        agrees(got, expected, 1e-9, "closed form");
    }
    assert!(found.obstacles.is_empty(), "{:?}", found.obstacles);
    assert_eq!((found.range, found.to_be_had.len()), ([0.0, 10.0], 2));
}

/// A level typed in another unit is off by its last bits.
#[test]
fn a_level_is_met_but_for_its_last_bits() {
    let found = solved(AT.id, [0.0, 10.0], FLAT.id, 0.4_f64.next_up(), 11);
    assert_eq!((found.stretches.as_slice(), inputs(&found)), (&[[4.0, 10.0]][..], vec![4.0, 10.0]));
    assert!(found.obstacles.is_empty(), "{:?}", found.obstacles);
}

#[test]
fn where_there_is_no_answer_it_says_why() {
    let found = solved(AT.id, [0.0, 10.0], PARTLY.id, 2.0, 11);
    assert!(found.solutions.is_empty());
    // No further than the nearest that is told, which the scan alone did not come to.
    let nearest = found.nearest.expect("known");
    assert_eq!(found.obstacles[0], Obstacle::OutOfReach { reach: [nearest.output, 10.0] });
    assert_eq!(found.obstacles[1], Obstacle::Unknown { from: 0.0, to: 3.0, why: LOW });
    agrees(nearest.input, 3.0, 1e-3, "just over three");
    assert_eq!(inputs(&solved(AT.id, [0.0, 10.0], PARTLY.id, 8.0, 11)), [8.0]);
}

#[test]
fn what_is_had_comes_in_steps_and_sizes() {
    let found = solved(WIDE.id, [0.001, 0.1], AREA.id, 3000.0, 50);
    let root = (3000.0 - 19.05_f64 * 19.05).sqrt();
    agrees(found.solutions[0].input, root * 1e-3, 1e-13, "closed form");
    let mut steps: Vec<f64> = found.to_be_had.iter().map(|had| had.input * 1e3).map(f64::round).collect();
    assert!(found.to_be_had.iter().all(|had| (had.input * 1e3).fract().abs() < 1e-9), "whole millimetres");
    let off = |had: &trialfit_core::tools::solve::Had| (had.output - 3000.0).abs();
    assert!(off(&found.to_be_had[0]) <= off(&found.to_be_had[1]), "the nearer first");
    steps.sort_by(f64::total_cmp);
    assert_eq!(steps, [root.floor(), root.ceil()]);
    let found = solved(SOLD.id, [0.001, 0.1], AREA.id, 2500.0 + 400.0, 50);
    agrees(found.solutions[0].input, 0.020, 1e-13, "closed form");
    assert_eq!(found.to_be_had.iter().map(|had| had.input).collect::<Vec<_>>(), [0.01905, 0.022_225]);
    // Met by a size itself: that one alone.
    let found = solved(SOLD.id, [0.001, 0.1], AREA.id, 2500.0 + 22.225 * 22.225, 50);
    assert_eq!(found.to_be_had.iter().map(|had| had.input).collect::<Vec<_>>(), [0.022_225]);
    // A tenth's steps are tenths, not sums of them.
    let found = solved(AT.id, [0.0, 10.0], PARTLY.id, 3.25, 50);
    let mut tenths: Vec<f64> = found.to_be_had.iter().map(|had| had.input).collect();
    tenths.sort_by(f64::total_cmp);
    assert_eq!(tenths, [3.2, 3.3]);
}

#[test]
fn choices_are_all_tried() {
    let build = Build::default();
    let solve = Solve::new(&WHOLE, &build, clutch::LINING.id.into(), [0.0, 1.0], clutch::CAPACITY.id.into(), 330.0, 50);
    let found = done(&WHOLE, solve.expect("choices"), 100);
    assert_eq!(found.to_be_had.len(), 2);
    // 0.35 · 2 · 5000 N · 378 mm / 4 for sintered, 0.27 for organic.
    agrees(found.to_be_had[0].output, 0.35 * 2.0 * 5000.0 * 0.378 / 4.0, 1e-9, "by hand");
    assert_eq!((found.to_be_had[0].input, found.solutions.len()), (1.0, 0));
}

#[test]
fn counts_are_tried_whole() {
    let build = Build::default();
    let solve = Solve::new(&WHOLE, &build, clutch::SURFACES.id.into(), [1.0, 8.0], clutch::CAPACITY.id.into(), 640.0, 50);
    let found = done(&WHOLE, solve.expect("counts"), 100);
    // 0.27 · n · 5000 N · 378 mm / 4: 510 N·m for four, 638 for five, 765 for six.
    assert_eq!((found.solutions.len(), found.to_be_had[0].input), (0, 5.0));
    agrees(found.to_be_had[0].output, 0.27 * 5.0 * 5000.0 * 0.378 / 4.0, 1e-9, "by hand");
    assert!(found.to_be_had.iter().all(|had| had.input.fract() == 0.0));
}

/// A height that leaves no chance of contact has many neighbours that do: they are one stretch, not a list.
#[test]
fn a_stretch_that_meets_it_throughout_is_said_as_one() {
    let build = Build::default();
    let chance = bonnet_line::CHANCE_ANY.id.into();
    let solve = Solve::new(&WHOLE, &build, bonnet_line::HEIGHT.id.into(), [0.02, 0.1], chance, 0.0, 400);
    let found = done(&WHOLE, solve.expect("a range"), 50);
    let [[from, to]] = found.stretches[..] else { panic!("{:?}", found.stretches) };
    assert_eq!(found.solutions.iter().map(|had| had.input).collect::<Vec<_>>(), [from, to]);
    for share in [0.0, 0.31, 0.77, 1.0] {
        let mut build = build.clone();
        build.set(bonnet_line::HEIGHT.id.into(), from + (to - from) * share).expect("possible");
        assert_eq!(evaluated(&build).value(chance), Ok(0.0));
    }
}

/// The margin of a clutch does not know how it is released.
#[test]
fn what_does_not_hang_on_it_is_not_searched() {
    let build = Build::default();
    let solve = Solve::new(&WHOLE, &build, clutch::SLAVE_BORE.id.into(), [0.015, 0.030], clutch::MARGIN.id.into(), 1.5, 400);
    let found = done(&WHOLE, solve.expect("a range"), 1);
    assert_eq!((found.obstacles.as_slice(), found.scanned), (&[Obstacle::Apart][..], 0));
    assert!(found.solutions.is_empty() && found.nearest.is_none() && found.to_be_had.is_empty());
}

#[test]
fn refusals_are_said() {
    let build = Build::new(ALONE);
    let refused = |input: Id, range, target| Solve::new(&PLAN, &build, input.into(), range, WAVE.id.into(), target, 10).err();
    assert_eq!(refused(WAVE.id, [0.0, 1.0], 0.0), Some(Refusal::NotThere));
    assert_eq!(refused(AT.id, [0.0, 200.0], 0.0), Some(Refusal::OutOfRange([-100.0, 100.0])));
    assert_eq!(refused(AT.id, [0.0, 1.0], f64::NAN), Some(Refusal::NotFinite));
}

proptest! {
    #![proptest_config(laws(48))]

    /// On the real car: setting a solution gives the target, and the work's pieces do not matter.
    #[test]
    fn setting_a_solution_meets_the_target(share in 0.02..0.98_f64, at_once in 1..30_u32, which in 0..3_usize) {
        let build = Build::default();
        let (input, range, output): (Id, [f64; 2], Place) = [
            (clutch::CLAMP_LOAD.id, [3000.0, 8000.0], clutch::MARGIN.id.into()),
            (clutch::SLAVE_BORE.id, [0.015, 0.030], clutch::PEDAL_FORCE.id.into()),
            (front_drive::ALTERNATOR_PULLEY.id, [0.045, 0.080], front_drive::ALTERNATOR_IDLE.id.into()),
        ][which];
        let at = |value: f64| {
            let mut set = build.clone();
            set.set(input.into(), value).expect("in range");
            let mut report = Report::new(&set);
            WHOLE.evaluate(&set, &mut report);
            report.value(output)
        };
        let there = range[0] + (range[1] - range[0]) * share;
        let target = at(there).expect("known");
        let solve = || Solve::new(&WHOLE, &build, input.into(), range, output, target, 40).expect("a range");
        let found = done(&WHOLE, solve(), at_once);
        prop_assert_eq!(&found, &done(&WHOLE, solve(), 10_000));
        prop_assert!(found.solutions.iter().any(|had| (had.input - there).abs() <= 1e-9 * there), "{} not among {:?}", there, found.solutions);
        for had in &found.solutions {
            prop_assert!((at(had.input).expect("known") - target).abs() <= 1e-9 * target.abs());
        }
        for had in &found.to_be_had {
            prop_assert_eq!(at(had.input).map(f64::to_bits), Ok(had.output.to_bits()));
        }
    }
}
