//! Spread: tolerances in, distributions out, against exact answers and whatever the pieces of the work.

use core::ops::ControlFlow;
use std::sync::LazyLock;
use trialfit_core::build::Build;
use trialfit_core::calculators::{Calculator, clutch};
use trialfit_core::declare;
use trialfit_core::plan::{Case, Plan, Step};
use trialfit_core::quantity::{Length, Ratio};
use trialfit_core::report::Unknown;
use trialfit_core::spec::{Id, Place, Source, Verdict};
use trialfit_core::tolerance::Shape;
use trialfit_core::tools::Job;
use trialfit_core::tools::combine::{Chances, Chancing, Must};
use trialfit_core::tools::spread::{Found, Outcome, Spread};
use trialfit_tests::{agrees, agrees_within, bare};

declare! {
    calculator 0;
    tables {}
    input FIRST: Length, "mm", "first", "First", "Of the stack." { default(420.0, Source::Definition) possible(-1000.0, 1000.0) usual(0.0, 500.0, 1.0) }
    input SECOND: Length, "mm", "second", "Second", "Of the stack." { default(310.0, Source::Definition) possible(-1000.0, 1000.0) usual(0.0, 500.0, 1.0) }
    input THIRD: Length, "mm", "third", "Third", "Of the stack." { default(65.0, Source::Definition) possible(-1000.0, 1000.0) usual(0.0, 500.0, 1.0) }
    input FOURTH: Length, "mm", "fourth", "Fourth", "Follows the third's neighbour." { possible(-1000.0, 1000.0) usual(0.0, 500.0, 1.0) follows(USUAL_FOURTH.id) }
    input ELSEWHERE: Length, "mm", "elsewhere", "Elsewhere", "In nothing." { default(1.0, Source::Definition) possible(0.0, 10.0) usual(0.0, 5.0, 1.0) }
    input LOW: Length, "mm", "low", "Low", "A limit of the gap." { default(20.0, Source::Definition) possible(-100.0, 100.0) usual(0.0, 50.0, 1.0) }
    input LESS: Length, "mm", "less", "Less", "Another." { default(22.0, Source::Definition) possible(-100.0, 100.0) usual(0.0, 50.0, 1.0) }
    output USUAL_FOURTH: Length, "mm", "usual-fourth", "Usual fourth", "Twenty." {}
    output GAP: Length, "mm", "gap", "Gap", "First less the others." { at_least(LOW.id, None) at_least(LESS.id, None) }
    output GAP_AGAIN: Length, "mm", "gap-again", "Gap again", "The same, which must not be more." { at_most(LESS.id, None) }
    output LOSS: Ratio, "", "loss", "Loss", "Squares of two, as of a mismatch." {}
    output BENT: Ratio, "", "bent", "Bent", "A square: nothing to first order." {}
    output SOMETIMES: Length, "mm", "sometimes", "Sometimes", "The gap, while the first is above its middle." {}
}

fn gap(case: &mut Case<'_>) -> Result<Length, Unknown> {
    Ok(case.of(FIRST)? - case.of(SECOND)? - case.of(THIRD)? - case.of(FOURTH)?)
}

const STEPS: &[Step] = &[
    Step {
        name: "usual",
        reads: &[],
        writes: &[USUAL_FOURTH.id],
        run: |case| case.answer(USUAL_FOURTH, |_| Ok(trialfit_core::quantity::millimetres(20.0))),
    },
    Step {
        name: "gap",
        reads: &[FIRST.id, SECOND.id, THIRD.id, FOURTH.id],
        writes: &[GAP.id, GAP_AGAIN.id, LOSS.id, BENT.id, SOMETIMES.id],
        run: |case| {
            case.answer(GAP, gap);
            case.answer(GAP_AGAIN, gap);
            case.answer(LOSS, |case| {
                let [one, other] = [case.of(FIRST)?.si() - 0.42, case.of(SECOND)?.si() - 0.31];
                Ok(Ratio::from_si(one * one + other * other))
            });
            case.answer(BENT, |case| {
                let off = case.of(FIRST)?.in_millimetres() - 420.0;
                Ok(Ratio::from_si(off * off))
            });
            case.answer(SOMETIMES, |case| {
                if case.of(FIRST)?.in_millimetres() < 420.0 {
                    return Err(Unknown::NoSolution("Below its middle."));
                }
                gap(case)
            });
        },
    },
];

static CHAIN: Calculator = bare(SPECS, TABLES, STEPS, FIRST.id);
static ALONE: &[&Calculator] = &[&CHAIN];
static PLAN: LazyLock<Plan> = LazyLock::new(|| Plan::new(ALONE).expect("no cycle"));

const SAMPLES: u32 = 200_000;
const SEED: u64 = 20_240_501;

/// T2: 420 ± 3 − 310 ± 2 − 65 ± 1.5 − 20 ± 2.5 mm.
fn chain(shape: Shape) -> Build {
    let mut build = Build::new(ALONE);
    for (id, half_width) in [(FIRST.id, 3.0), (SECOND.id, 2.0), (THIRD.id, 1.5), (FOURTH.id, 2.5)] {
        build.set_half_width(id.into(), Some(half_width * 1e-3)).expect("in range");
        build.set_shape(id.into(), Some(shape)).expect("a shape");
    }
    build
}

fn run(build: &Build, outputs: &[Id], samples: u32, seed: u64, piece: u32) -> Found {
    let places: Vec<Place> = outputs.iter().map(|&id| id.into()).collect();
    let mut spread = Spread::new(&PLAN, build, &places, samples, seed).expect("tolerances are known");
    let mut before = 0.0;
    loop {
        match spread.advance(&PLAN, piece) {
            ControlFlow::Break(found) => return found,
            ControlFlow::Continue(done) => {
                assert!(done > before && done < 1.0, "{done} after {before}");
                before = done;
            }
        }
    }
}

fn gap_of(shape: Shape) -> Outcome {
    run(&chain(shape), &[GAP.id], SAMPLES, SEED, 10_000).outcomes.remove(0)
}

/// Four standard errors of a mean, a deviation and a share.
#[track_caller]
fn within_its_error(outcome: &Outcome, mean: f64, deviation: f64, chances: &[f64], source: &str) {
    let count = f64::from(SAMPLES);
    assert_eq!(outcome.known, SAMPLES);
    assert_eq!(outcome.heaps.iter().map(|(_, count)| count).sum::<u32>(), SAMPLES);
    agrees(outcome.mean * 1e3, mean, 4.0 * deviation / count.sqrt(), source);
    agrees_within(outcome.deviation * 1e3, deviation, 4.0 / (2.0 * count).sqrt(), source);
    for ((_, found), chance) in outcome.past.iter().zip(chances) {
        let error = (chance * (1.0 - chance) / count).sqrt();
        assert!((found.share - chance).abs() <= 4.0 * error, "{} and {chance} by {source}", found.share);
        assert!(found.error > 0.3 * error && found.error < 3.0 * error, "said to be within {}", found.error);
    }
}

#[test]
fn normal_chains_spread_as_the_normal_law_says() {
    let outcome = gap_of(Shape::Normal { sigmas: 3.0 });
    let again = run(&chain(Shape::Normal { sigmas: 3.0 }), &[GAP_AGAIN.id], SAMPLES, SEED, SAMPLES);
    let [below, above] = [outcome.past[1].1.share, again.outcomes[0].past[0].1.share];
    assert!((below + above - 1.0).abs() < 1e-12, "{below} below and {above} above the same");
    within_its_error(&outcome, 25.0, 1.545_603, &[6.082_494e-4, 0.026_129_750], "scipy.stats.norm.cdf");
    // 0.135 and 99.865 %: three deviations to either side (T5); a quantile's own error is σ·√(p(1−p)/N)/φ(3)·σ.
    for (share, expected) in [(0.001_35, 20.363), (0.5, 25.0), (0.998_65, 29.637)] {
        let found = outcome.quantile(share).expect("samples") * 1e3;
        agrees(found, expected, 0.12, "25 ± 3·1.545603, exact");
    }
}

#[test]
fn uniform_and_triangular_chains_spread_as_their_sums_do() {
    let outcome = gap_of(Shape::Uniform);
    // 17/576: inclusion and exclusion of a sum of uniforms.
    within_its_error(&outcome, 25.0, 2.677_063, &[17.0 / 576.0, 0.138_657_407], "sum of uniforms, exact");
    assert!(outcome.ends.is_some_and(|[least, most]| least >= 0.016 && most <= 0.034), "16 to 34 mm at worst");
    let outcome = gap_of(Shape::Triangular);
    within_its_error(&outcome, 25.0, 1.892_969, &[], "Σt²/6, computed");
    assert!(outcome.ends.is_some_and(|[least, most]| least >= 0.016 && most <= 0.034), "16 to 34 mm at worst");
}

/// T7: two equal uniforms of ± 1 fall below −1 together one time in eight.
#[test]
fn two_uniforms_make_a_triangle() {
    let mut build = Build::new(ALONE);
    for id in [FIRST.id, SECOND.id] {
        build.set_half_width(id.into(), Some(1e-3)).expect("in range");
        build.set_shape(id.into(), Some(Shape::Uniform)).expect("a shape");
    }
    build.set(LOW.id.into(), 24e-3).expect("in range");
    let outcome = run(&build, &[GAP.id], SAMPLES, SEED, 50_000).outcomes.remove(0);
    within_its_error(&outcome, 25.0, (2.0_f64 / 3.0).sqrt(), &[0.125], "triangular law, exact");
}

#[test]
fn the_first_order_is_exact_for_a_chain() {
    for (shape, deviation) in [(Shape::Normal { sigmas: 3.0 }, 1.545_603), (Shape::Uniform, 2.677_063), (Shape::Triangular, 1.892_969)] {
        let first = gap_of(shape).first_order.expect("all known");
        agrees(first.deviation() * 1e3, deviation, 5e-7, "√Σσ², computed");
        agrees(first.worst_case() * 1e3, 9.0, 1e-9, "Σ|t|");
        agrees(first.root_sum_square() * 1e3, 4.636_809, 5e-7, "√Σt², computed");
    }
}

#[test]
fn shares_of_variance_are_those_of_the_squares() {
    for shape in [Shape::Normal { sigmas: 2.0 }, Shape::Uniform, Shape::Triangular] {
        let outcome = gap_of(shape);
        let expected = [(FIRST.id, 9.0), (FOURTH.id, 6.25), (SECOND.id, 4.0), (THIRD.id, 2.25)];
        for (share, (id, square)) in outcome.shares.iter().zip(expected) {
            assert_eq!(share.place, Place::from(id), "most first");
            agrees(share.of_variance, square / 21.5, 0.005, "t²/Σt², exact");
            agrees(share.first_order.expect("all known"), square / 21.5, 1e-9, "t²/Σt², exact");
        }
    }
}

/// A square of a uniform ± t about its middle: mean t²/3, variance 4t⁴/45, all of it from the one input; to first order none.
#[test]
fn what_the_first_order_does_not_see_the_samples_do() {
    let found = run(&chain(Shape::Uniform), &[BENT.id], SAMPLES, SEED, 7_777);
    let outcome = &found.outcomes[0];
    agrees_within(outcome.mean, 3.0, 0.01, "t²/3, exact");
    agrees_within(outcome.deviation, (4.0_f64 * 81.0 / 45.0).sqrt(), 0.01, "√(4t⁴/45), exact");
    assert_eq!(outcome.shares[0].place, FIRST.id.into());
    agrees_within(outcome.shares[0].of_variance, 1.0, 0.01, "all of it");
    assert!(outcome.shares[1..].iter().all(|share| share.of_variance < 1e-3), "{:?}", outcome.shares);
    assert!(outcome.first_order.expect("all known").deviation() < 1e-9);
}

/// A comparison loss x₁² + x₂² of two standard uncertainties of 0.005 about nought: to first order no uncertainty at all,
/// by samples mean and deviation 50·10⁻⁶ and 95 % of them below 150·10⁻⁶ (JCGM 101:2008, 9.4.3.2 and table 6, from memory;
/// by hand: exponential with mean 2u², 95 % below 2u²·ln 20).
#[test]
fn a_comparison_loss_spreads_as_in_the_guide() {
    let mut build = Build::new(ALONE);
    for id in [FIRST.id, SECOND.id] {
        build.set_half_width(id.into(), Some(0.01)).expect("in range");
        build.set_shape(id.into(), Some(Shape::Normal { sigmas: 2.0 })).expect("a shape");
    }
    let outcome = run(&build, &[LOSS.id], SAMPLES, SEED, 30_000).outcomes.remove(0);
    agrees_within(outcome.mean, 50e-6, 0.01, "2u²");
    agrees_within(outcome.deviation, 50e-6, 0.02, "2u²");
    agrees_within(outcome.quantile(0.95).expect("samples"), 50e-6 * libm::log(20.0), 0.01, "2u²·ln 20");
    agrees_within(outcome.quantile(0.5).expect("samples"), 50e-6 * libm::log(2.0), 0.01, "2u²·ln 2");
    assert!(outcome.first_order.expect("all known").deviation() < 1e-12);
}

/// Ten times the samples, the same room: what is kept of an outcome does not grow with them.
#[test]
fn many_samples_take_no_more_room_and_give_the_same_quantiles() {
    let build = chain(Shape::Normal { sigmas: 3.0 });
    let [few, many] = [50_000, 500_000].map(|samples| run(&build, &[GAP.id], samples, SEED, samples).outcomes.remove(0));
    assert!(few.heaps.len() <= 4096 && many.heaps.len() <= 4096, "{} and {}", few.heaps.len(), many.heaps.len());
    // Quantiles of the normal law; the error of one is √(p(1−p)/N)/φ, and a heap is 0.005 deviations wide at most.
    for (share, off, density) in [(0.05, -1.644_854, 0.103_136), (0.5, 0.0, 0.398_942), (0.95, 1.644_854, 0.103_136)] {
        let error = (share * (1.0 - share) / 500_000.0_f64).sqrt() / density + 0.005;
        let found = many.quantile(share).expect("samples") * 1e3;
        agrees(found, 25.0 + off * 1.545_603, 4.0 * error * 1.545_603, "standard normal table, from memory");
    }
}

#[test]
fn a_limit_that_moves_is_passed_where_it_stands_in_the_sample() {
    let mut build = chain(Shape::Normal { sigmas: 2.0 });
    for id in [SECOND.id, THIRD.id, FOURTH.id] {
        build.set_half_width(id.into(), Some(0.0)).expect("in range");
    }
    // The gap is 25 ± 3 mm, its limit 24 ± 4 mm: the difference is 1 mm with a deviation of √(1.5² + 2²) = 2.5 mm.
    build.set(LOW.id.into(), 24e-3).expect("in range");
    build.set_half_width(LOW.id.into(), Some(4e-3)).expect("in range");
    build.set_shape(LOW.id.into(), Some(Shape::Normal { sigmas: 2.0 })).expect("a shape");
    let outcome = run(&build, &[GAP.id], SAMPLES, SEED, 50_000).outcomes.remove(0);
    agrees(outcome.past[0].1.share, 0.344_578, 0.005, "scipy.stats.norm.cdf(-0.4), from memory");
}

fn chances(build: &Build, musts: &[Must], samples: u32, piece: u32) -> Chances {
    let mut job = Chancing::new(&PLAN, build, musts, samples, SEED).expect("tolerances are known");
    loop {
        if let ControlFlow::Break(found) = job.advance(&PLAN, piece) {
            return found;
        }
    }
}

#[test]
fn what_is_asked_of_a_chain_fails_as_the_normal_law_says() {
    let build = chain(Shape::Normal { sigmas: 3.0 });
    let gap = Place::from(GAP.id);
    // The gap is 25 mm with a deviation of 1.545603; it stands while it is 22 at least, and 28 is as far above.
    let musts = [Must::AtLeast(gap, 20e-3), Must::Stand(gap, Verdict::Near), Must::AtMost(gap, 28e-3), Must::AtMost(gap, 1.0)];
    let found = chances(&build, &musts, SAMPLES, 10_000);
    let tail = 0.026_129_750;
    let close = |found: trialfit_core::tools::spread::Chance, chance: f64| {
        let error = (chance * (1.0 - chance) / f64::from(SAMPLES)).sqrt();
        assert!((found.share - chance).abs() <= 4.0 * error, "{found:?} and {chance} by scipy.stats.norm.cdf");
        assert!(found.error > 0.3 * error && found.error < 3.0 * error, "{found:?}");
    };
    for (chance, expected) in found.each.iter().zip([6.082_494e-4, tail, tail]) {
        close(*chance, expected);
    }
    close(found.any, 2.0 * tail);
    assert_eq!((found.each[3].share, found.each[3].error), (0.0, 3.0 / f64::from(SAMPLES)));
    // The same samples as the spread draws, and the same answer in any pieces.
    let spread = run(&build, &[GAP.id], SAMPLES, SEED, SAMPLES);
    assert_eq!(found.each[1], spread.outcomes[0].past[1].1);
    assert_eq!(chances(&build, &musts, 3_000, 1), chances(&build, &musts, 3_000, 1_999));
    // Where there is no answer, what is asked of it does not hold.
    let sometimes = chances(&build, &[Must::AtLeast(SOMETIMES.id.into(), -1.0)], 20_000, 20_000);
    agrees(sometimes.any.share, 0.5, 0.015, "half of them");
}

#[test]
fn the_answer_does_not_depend_on_the_pieces() {
    let build = chain(Shape::Normal { sigmas: 2.0 });
    let outputs = [GAP.id, BENT.id];
    let whole = run(&build, &outputs, 5_000, 7, u32::MAX);
    for piece in [1, 7, 1_000, 4_999] {
        assert_eq!(run(&build, &outputs, 5_000, 7, piece), whole, "in pieces of {piece}");
    }
    assert_ne!(run(&build, &outputs, 5_000, 8, 5_000), whole, "another seed");
    // More samples begin with the same ones.
    let [few, more] = [500, 1_000].map(|samples| run(&build, &outputs, samples, 7, 300).outcomes.remove(0).heaps);
    assert!(few.iter().all(|value| more.contains(value)));
}

#[test]
fn samples_without_a_value_are_counted_and_left_out() {
    let found = run(&chain(Shape::Uniform), &[SOMETIMES.id], 20_000, SEED, 20_000);
    let outcome = &found.outcomes[0];
    assert_eq!(outcome.unknown + outcome.known, 20_000);
    agrees_within(f64::from(outcome.unknown), 10_000.0, 0.03, "half of them");
    assert!(outcome.first_order.is_none(), "to one side there is no value");
}

#[test]
fn only_what_feeds_the_output_and_may_be_off_varies() {
    let mut build = chain(Shape::Uniform);
    build.set_half_width(ELSEWHERE.id.into(), Some(1e-3)).expect("in range");
    build.set_half_width(THIRD.id.into(), Some(0.0)).expect("in range");
    let spread = Spread::new(&PLAN, &build, &[GAP.id.into()], 10, 0).expect("tolerances are known");
    assert_eq!(spread.inputs(), [FIRST.id, SECOND.id, FOURTH.id].map(Place::from));
    assert_eq!(spread.evaluations(), 16);
    // Without any, everything stands still.
    let found = run(&Build::new(ALONE), &[GAP.id], 100, 0, 10);
    let outcome = &found.outcomes[0];
    assert_eq!((outcome.deviation, outcome.heaps.len(), found.held_back), (0.0, 100, 0));
    assert_eq!(outcome.nominal.map(|nominal| [nominal; 2]), outcome.ends);
}

#[test]
fn inputs_are_held_back_where_they_end() {
    let mut build = Build::new(ALONE);
    build.set(FIRST.id.into(), 0.9995).expect("in range");
    build.set_half_width(FIRST.id.into(), Some(1e-3)).expect("in range");
    build.set_shape(FIRST.id.into(), Some(Shape::Uniform)).expect("a shape");
    let found = run(&build, &[GAP.id], 10_000, 3, 999);
    agrees_within(f64::from(found.held_back), 2_500.0, 0.05, "a quarter lies past the end");
    let [_, most] = found.outcomes[0].ends.expect("samples");
    agrees(most, 1.0 - 0.395, 1e-12, "the end of what is possible");
}

/// The same tool on another calculator: what ± 0.1 mm of each bore makes of the pedal force, to first order and by samples.
#[test]
fn any_linked_build_can_be_spread() {
    let (plan, mut build) = (Plan::default(), Build::default());
    for id in [clutch::SLAVE_BORE.id, clutch::MASTER_BORE.id] {
        build.set_half_width(id.into(), Some(0.1e-3)).expect("in range");
        build.set_shape(id.into(), Some(Shape::Uniform)).expect("a shape");
    }
    let mut spread = Spread::new(&plan, &build, &[clutch::PEDAL_FORCE.id.into()], 20_000, 1).expect("tolerances are known");
    let found = match spread.advance(&plan, u32::MAX) {
        ControlFlow::Break(found) => found,
        ControlFlow::Continue(_) => unreachable!("asked for all of it"),
    };
    let outcome = &found.outcomes[0];
    let first = outcome.first_order.expect("all known");
    agrees_within(outcome.deviation, first.deviation(), 0.02, "nearly straight over so little: two routes to one number");
    // F = (L'/A_s + p₀)·A_m/(R·η) + 10 N: both go with 2/d, the slave without the 50 kPa that stick at the seals.
    let (over_springs, sticks) = (outcome.nominal.expect("known") - 10.0, 0.05 * 285.022_957 / 6.0 / 0.97);
    let weight = (22.225 / 19.05) * over_springs / (over_springs - sticks);
    let ratio = outcome.shares[0].first_order.unwrap_or(0.0) / outcome.shares[1].first_order.unwrap_or(1.0);
    assert_eq!(outcome.shares[0].place, clutch::MASTER_BORE.id.into());
    agrees_within(ratio, weight * weight, 1e-3, "2F/d for each bore, by hand");
}
