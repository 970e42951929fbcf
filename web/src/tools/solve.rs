//! The value of an input that brings an answer to a target.

use super::runner::Runner;
use super::sweep::{at, in_digits};
use super::{asked, choice, going, pick_answer, pick_input, range_of, unit_of, watched};
use crate::bench::{Bench, plan, spec_of};
use crate::dom::{El, button, el};
use crate::follow::effect;
use crate::history::Gesture;
use crate::signal::State;
use crate::words;
use trialfit_core::share::link::{Asked, Tool};
use trialfit_core::spec::{Kind, Place};
use trialfit_core::tools::solve::{Had, Obstacle, Solve, Solved};

/// So many values are listed at once.
const LISTED: usize = 8;

/// Values that are looked through.
const SCAN: u32 = 400;

/// Pick, target and what meets it.
pub(super) fn solve(calculator: u8) -> El {
    let bench = Bench::get();
    let asked_for = bench.wanted(Tool::Solve).unwrap_or(Asked::of(Tool::Solve));
    let input = State::new(asked_for.turn.unwrap_or_else(|| choice(calculator)));
    let output = State::new(asked_for.watch.unwrap_or_else(|| watched(calculator)));
    let now = move |place: Place| bench.value_now(place).unwrap_or(0.0);
    let target = State::new(Ok(asked_for.target.unwrap_or_else(|| now(output.get_untracked()))));
    bench.knows(Tool::Solve, move || Asked {
        turn: Some(input.get()),
        watch: Some(output.get()),
        target: target.get().ok(),
        ..Asked::of(Tool::Solve)
    });
    let runner = Runner::<Solved>::new();
    let problem = State::new(None::<String>);
    effect(move |first| {
        bench.when_calm();
        output.with(|_| ());
        input.with(|_| ());
        target.with(|_| ());
        if !first {
            runner.forget();
        }
    });
    let go = move || {
        // What could not be read says so at its field.
        let Ok(target) = target.get_untracked() else { return };
        let (input, output) = (input.get_untracked(), output.get_untracked());
        match bench.look_now(|build, _| Solve::new(plan(), build, input, range_of(input), output, target, SCAN)) {
            Ok(job) => {
                problem.set(None);
                runner.start(job);
            }
            Err(_) => problem.set(Some(words::NO_RANGE.to_owned())),
        }
    };
    if asked_for.target.is_some() {
        go();
    }
    el("div")
        .class("tool")
        .child(el("p").class("help").text(words::SOLVE_HELP))
        .child(pick_answer("solve-output", calculator, output, move |place| target.set(Ok(now(place)))))
        .child(asked("solve-target", words::TARGET, output, target))
        .child(pick_input("solve-input", calculator, input, |_| ()))
        .child(going("solve-go", words::FIND, runner, go))
        .maybe(move || problem.get().map(|why| el("p").class("problem").text(&why)))
        .many(move || runner.with(|found| found.map(found_lines).unwrap_or_default()))
}

/// An output in as many digits as tell it from the target, where it is not that.
fn output(found: &Solved, value: f64) -> String {
    if (value - found.target).abs() <= 1e-9 * found.target.abs() + 1e-12 {
        return at(found.output, found.target);
    }
    let told = |digits: &u8| in_digits(found.output, value, *digits) != in_digits(found.output, found.target, *digits);
    in_digits(found.output, value, (3..=8).find(told).unwrap_or(8))
}

/// What the values beside those that meet it are: sizes that are sold, choices, or the steps of the slider.
fn beside_words(found: &Solved) -> Option<&'static str> {
    let spec = spec_of(found.input);
    match spec.kind {
        _ if !spec.sizes.is_empty() => Some(words::TO_BE_HAD),
        // Steps are round in their own unit alone.
        Kind::Quantity { unit, .. } => unit_of(found.input).is_some_and(|shown| shown == unit).then_some(words::IN_STEPS),
        Kind::Choice(_) | Kind::Text(_) => Some(words::EACH_OF_THEM),
    }
}

/// What meets the target, what the trade has near it, and what stands in the way.
fn found_lines(found: &Solved) -> Vec<El> {
    let one = |had: &Had| {
        let (input, value) = (found.input, had.input);
        let take = button("quiet", "")
            .set("aria-label", &words::act_of(words::TAKE, &at(input, value)))
            .text(words::TAKE)
            .on_press(move || Bench::get().edit(Gesture::Once, spec_of(input).label, move |build| _ = build.set(input, value)));
        el("li").text(&words::gives(&at(input, value), &output(found, had.output))).child(take)
    };
    let list = |title: &str, all: &[Had]| {
        let left = all.len().saturating_sub(LISTED);
        let rest = (left > 0).then(|| el("li").text(&words::more(left)));
        [el("h4").text(title), el("ul").class("takes").children(all.iter().take(LISTED).map(one)).children(rest)]
    };
    if found.obstacles == [Obstacle::Apart] {
        return vec![el("p").class("found").text(words::APART)];
    }
    let stretch = |[from, to]: &[f64; 2]| words::met_throughout(&at(found.input, *from), &at(found.input, *to));
    let mut lines: Vec<El> = found.stretches.iter().map(|ends| el("p").class("found").text(&stretch(ends))).collect();
    if found.solutions.is_empty() {
        let looked = unit_of(found.input).map(|_| found.range.map(|end| at(found.input, end)));
        lines.push(el("p").class("found").text(&looked.map_or_else(|| words::NONE_MEETS.to_owned(), |ends| words::none_meets(&ends))));
        lines.extend(found.nearest.iter().flat_map(|nearest| list(words::NEAREST, &[*nearest])));
    } else {
        lines.extend(list(words::MEETS, &found.solutions));
    }
    if let (Some(title), false) = (beside_words(found), found.to_be_had.is_empty()) {
        lines.extend(list(title, &found.to_be_had));
    }
    lines.extend(found.obstacles.iter().map(|obstacle| el("p").class("note").text(&obstacle_words(found, obstacle))));
    lines
}

fn obstacle_words(found: &Solved, obstacle: &Obstacle) -> String {
    match obstacle {
        Obstacle::Apart => words::APART.to_owned(),
        Obstacle::OutOfReach { reach } => words::out_of_reach(&reach.map(|end| at(found.output, end))),
        Obstacle::Jump { at: place, between } => words::jump(&at(found.input, *place), &between.map(|end| at(found.output, end))),
        Obstacle::Unknown { from, to, why } => {
            let why = Bench::get().look_now(|_, report| why.reason(report.layout()));
            words::gap(&[*from, *to].map(|end| at(found.input, end)), &why)
        }
    }
}
