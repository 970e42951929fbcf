//! One input over a range: the curve of an answer, the band within limits, gaps with their reasons.

use super::runner::Runner;
use super::{asked, choice, numbers, pick, range_of, turned_by_hand, unit_of};
use crate::bench::{Bench, plan};
use crate::dom::{El, el};
use crate::figure::pieces;
use crate::history::Gesture;
use crate::pictures::{empty, units};
use crate::plot::{Taking, plot};
use crate::signal::{State, effect, memo_from};
use crate::words;
use leptos::prelude::Callback;
use trialfit_core::chart::Chart;
use trialfit_core::report::Unknown;
use trialfit_core::show;
use trialfit_core::spec::Place;
use trialfit_core::tools::sweep::{Sweep, Swept};

/// Most points of a curve.
const MOST: u32 = 160;

/// Pick, range and curve.
pub(super) fn sweep(calculator: u8) -> El {
    let bench = Bench::get();
    let input = State::new(choice(calculator));
    let first = bench.build().with_untracked(|build| numbers(build, calculator).first().copied());
    let output = State::new(first.unwrap_or_else(|| choice(calculator)));
    let [from, to] = range_of(input.get_untracked()).map(State::new);
    let runner = Runner::<Swept>::new();
    let problem = State::new(None::<String>);
    // Another input has another range.
    let last = State::new(input.get_untracked());
    effect(move |_| {
        let place = input.get();
        if last.get_untracked() != place {
            last.set(place);
            let [low, high] = range_of(place);
            from.set(low);
            to.set(high);
        }
    });
    effect(move |_| {
        bench.when_calm();
        let (input, outputs, range) = (input.get(), [output.get()], [from.get(), to.get()]);
        match bench.look_now(|build, _| Sweep::new(plan(), build, input, range, &outputs, MOST)) {
            Ok(job) => {
                problem.set(None);
                runner.start(job);
            }
            Err(_) => {
                runner.forget();
                problem.set(Some(words::NO_RANGE.to_owned()));
            }
        }
    });
    // What is about to go from the page stays as it was until then. The finding stands above, in the reader's units.
    let chart = memo_from(move |old: Option<&Chart>| {
        let made = runner.with(|found| bench.look_now(|build, report| found?.chart(plan(), build, report, 0)));
        made.map(|chart| Chart { finding: String::new(), ..chart }).or_else(|| old.cloned()).unwrap_or_else(empty)
    });
    let drawn = move || runner.with(|found| found.is_some_and(|found| found.points.iter().any(|point| point.values[0].is_ok())));
    let finding = move || {
        runner.with(|found| {
            let Some(found) = found else { return Vec::new() };
            let said = bench.look_now(|build, _| found.finding(build));
            let gap = |(ends, why): &([f64; 2], Unknown)| {
                let ends = ends.map(|end| at(found.input, end));
                let why = bench.look_now(|_, report| why.reason(report.layout()));
                el("p").class("note").text(&words::gap(&ends, &why))
            };
            let line = el("p").class("found").children(pieces(&said.pieces, bench.system()));
            core::iter::once(line).chain(found.gaps(0).iter().map(gap)).collect()
        })
    };
    let take = Callback::new(move |sets: Vec<(Place, f64)>| {
        bench.edit(Gesture::Once, words::TAKING, move |build| {
            for (place, value) in sets {
                _ = build.set(place, value);
            }
        });
    });
    el("div")
        .class("tool")
        .child(el("p").class("help").text(words::SWEEP_HELP))
        .child(pick("sweep-input", words::TURN, input, move |build| turned_by_hand(build, calculator)))
        .child(asked("sweep-from", words::FROM, input, from))
        .child(asked("sweep-to", words::TO, input, to))
        .child(pick("sweep-output", words::WATCH, output, move |build| numbers(build, calculator)))
        .maybe(move || problem.get().map(|why| el("p").class("problem").text(&why)))
        .many(finding)
        .when(drawn, move || plot(chart, Taking { units: units(), take }))
}

/// A value of an input in the reader's units.
pub(super) fn at(place: Place, value: f64) -> String {
    match unit_of(place) {
        Some(unit) => show::answer(value, unit, 3).to_string(),
        None => show::cell(crate::bench::spec_of(place), value, Bench::get().system()).to_string(),
    }
}
