//! One input over a range: the curve of an answer, the band within limits, gaps with their reasons.

use super::runner::Runner;
use super::{asked, choice, ends, pick_answer, pick_input, range_of, unit_of, watched};
use crate::bench::{Bench, plan, spec_of};
use crate::dom::{El, el};
use crate::figure::pieces;
use crate::follow::effect;
use crate::pictures::{empty, taking};
use crate::plot::plot;
use crate::signal::{State, memo_from};
use crate::words;
use trialfit_core::chart::Chart;
use trialfit_core::report::Unknown;
use trialfit_core::share::link::{Asked, Tool};
use trialfit_core::show;
use trialfit_core::spec::{Kind, Place};
use trialfit_core::tools::sweep::{Sweep, Swept};

/// Most points of a curve.
const MOST: u32 = 160;

/// Pick, range and curve.
pub(super) fn sweep(calculator: u8) -> El {
    let bench = Bench::get();
    let asked_for = bench.wanted(Tool::Sweep).unwrap_or(Asked::of(Tool::Sweep));
    let input = State::new(asked_for.turn.unwrap_or_else(|| choice(calculator)));
    let output = State::new(asked_for.watch.unwrap_or_else(|| watched(calculator)));
    let [from, to] = ends(input, asked_for.range);
    bench.knows(Tool::Sweep, move || {
        let range = [from, to].map(|end| end.get().ok());
        Asked { turn: Some(input.get()), watch: Some(output.get()), range, ..Asked::of(Tool::Sweep) }
    });
    let runner = Runner::<Swept>::new();
    // The same sweep of what is held as fitted.
    let fitted = Runner::<Swept>::new();
    let problem = State::new(None::<String>);
    effect(move |_| {
        let sweep = bench.held.with(|held| {
            let (Ok(from), Ok(to)) = (from.get(), to.get()) else { return None };
            Sweep::new(plan(), held.first()?, input.get(), [from, to], &[output.get()], MOST).ok()
        });
        match sweep {
            Some(job) => fitted.start(job),
            None => fitted.forget(),
        }
    });
    effect(move |_| {
        bench.when_calm();
        let (input, outputs, ends) = (input.get(), [output.get()], (from.get(), to.get()));
        // What could not be read says so at its field.
        let (Ok(from), Ok(to)) = ends else {
            problem.set(None);
            return runner.forget();
        };
        match bench.look_now(|build, _| Sweep::new(plan(), build, input, [from, to], &outputs, MOST)) {
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
        let made =
            runner.with(|found| fitted.with(|fitted| bench.look_now(|build, report| found?.chart(plan(), build, report, 0, fitted))));
        made.map(|chart| Chart { finding: String::new(), ..chart }).or_else(|| old.cloned()).unwrap_or_else(empty)
    });
    // Choices stand in no order that could be drawn: what each gives is listed.
    let any = |found: &Swept| found.points.iter().any(|point| point.values[0].is_ok());
    let drawn = move || runner.with(|found| found.is_some_and(|found| unit_of(found.input).is_some() && any(found)));
    let listed = move || {
        runner.with(|found| {
            let found = found.filter(|found| unit_of(found.input).is_none() && any(found))?;
            let gives = |(input, value): (f64, Option<f64>)| Some(words::gives(&at(found.input, input), &at(found.outputs[0], value?)));
            Some(el("ul").class("differs").children(found.curve(0).into_iter().filter_map(gives).map(|line| el("li").text(&line))))
        })
    };
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
    // Another input has another range. The ways of a choice have no range to give: all are tried.
    let range = move |place: Place| {
        let [low, high] = range_of(place);
        from.set(Ok(low));
        to.set(Ok(high));
    };
    let fields = move || match unit_of(input.get()) {
        Some(_) => vec![asked("sweep-from", words::FROM, input, from), asked("sweep-to", words::TO, input, to)],
        None => Vec::new(),
    };
    el("div")
        .class("tool")
        .child(el("p").class("help").text(words::SWEEP_HELP))
        .child(pick_input("sweep-input", calculator, input, range))
        .many(fields)
        .child(pick_answer("sweep-output", calculator, output, |_| ()))
        .maybe(move || problem.get().map(|why| el("p").class("problem").text(&why)))
        .many(finding)
        .maybe(listed)
        .when(drawn, move || plot(chart, taking()))
}

/// A value of a place in the reader's units.
pub(super) fn at(place: Place, value: f64) -> String {
    in_digits(place, value, 3)
}

/// The same in so many digits.
pub(super) fn in_digits(place: Place, value: f64, digits: u8) -> String {
    let (spec, system) = (spec_of(place), Bench::get().system());
    match spec.kind {
        Kind::Quantity { unit, .. } if !spec.whole => show::figure(value, unit, digits, system).to_string(),
        _ => show::cell(spec, value, system).to_string(),
    }
}
