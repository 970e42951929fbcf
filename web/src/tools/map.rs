//! Two inputs at once: the field in which everything is within limits.

use super::runner::Runner;
use super::{asked, choice, ends, is_quantity, pick, range_of, turned_by_hand};
use crate::bench::{Bench, plan, spec_of};
use crate::dom::{El, el};
use crate::follow::effect;
use crate::pictures::{empty, taking};
use crate::plot::plot;
use crate::signal::{State, memo_from};
use crate::words;
use trialfit_core::build::Build;
use trialfit_core::chart::Chart;
use trialfit_core::plan::Plan;
use trialfit_core::share::link::{Asked, Tool};
use trialfit_core::spec::{Id, Place};
use trialfit_core::tools::sweep::{Map, Mapped};

/// Points of a map, across and up: the border is as fine as they lie.
const POINTS: [u32; 2] = [41, 33];

/// Points that can be taken, across and up: as many as fingers can tell apart on a phone.
const TAKEN: [usize; 2] = [8, 8];

/// Pick two, their ranges, and the field.
pub(super) fn map(calculator: u8) -> El {
    let bench = Bench::get();
    let asked_for = bench.wanted(Tool::Map).unwrap_or(Asked::of(Tool::Map));
    let across = State::new(asked_for.across.unwrap_or_else(|| first(calculator)));
    let partner = || partner(plan(), &bench.build().get_untracked(), across.get_untracked());
    let up = State::new(asked_for.turn.unwrap_or_else(partner));
    let ranges = [ends(across, asked_for.across_range), ends(up, asked_for.range)];
    bench.knows(Tool::Map, move || {
        let [across_range, range] = ranges.map(|ends| ends.map(|end| end.get().ok()));
        Asked { turn: Some(up.get()), range, across: Some(across.get()), across_range, ..Asked::of(Tool::Map) }
    });
    let runner = Runner::<Mapped>::new();
    let problem = State::new(None::<String>);
    effect(move |_| {
        bench.when_calm();
        let inputs = [across.get(), up.get()];
        let [[Ok(left), Ok(right)], [Ok(low), Ok(high)]] = ranges.map(|ends| ends.map(State::get)) else {
            // What could not be read says so at its field.
            problem.set(None);
            return runner.forget();
        };
        match bench.look_now(|build, _| Map::new(plan(), build, inputs, [[left, right], [low, high]], None, POINTS)) {
            Ok(job) => {
                problem.set(None);
                runner.start(job);
            }
            Err(_) => {
                runner.forget();
                problem.set(Some(words::NO_FIELD.to_owned()));
            }
        }
    });
    let chart = memo_from(move |old: Option<&Chart>| {
        let made = runner.with(|found| bench.look_now(|build, _| found?.chart(build, TAKEN)));
        made.or_else(|| old.cloned()).unwrap_or_else(empty)
    });
    let drawn = move || runner.with(|found| found.is_some());
    let range = move |at: usize| {
        move |place: Place| {
            for (state, end) in ranges[at].into_iter().zip(range_of(place)) {
                state.set(Ok(end));
            }
        }
    };
    let quantities = move |build: &Build| turned_by_hand(build, calculator).into_iter().filter(|place| is_quantity(*place)).collect();
    el("div")
        .class("tool")
        .child(el("p").class("help").text(words::MAP_HELP))
        .child(pick("map-across", words::ACROSS, across, quantities, range(0)))
        .child(asked("map-left", words::FROM, across, ranges[0][0]))
        .child(asked("map-right", words::TO, across, ranges[0][1]))
        .child(pick("map-up", words::UPWARDS, up, quantities, range(1)))
        .child(asked("map-low", words::FROM, up, ranges[1][0]))
        .child(asked("map-high", words::TO, up, ranges[1][1]))
        .maybe(move || problem.get().map(|why| el("p").class("problem").text(&why)))
        .when(drawn, move || plot(chart, taking()))
}

/// The one choice of a calculator if it is a quantity, else the first input that is.
fn first(calculator: u8) -> Place {
    let choice = choice(calculator);
    let places = || Bench::get().build().with_untracked(|build| turned_by_hand(build, calculator));
    if is_quantity(choice) { choice } else { places().into_iter().find(|place| is_quantity(*place)).unwrap_or(choice) }
}

/// Another input of the same calculator that has to do with the most of what this one has.
fn partner(plan: &Plan, build: &Build, of: Place) -> Place {
    let judged: Vec<Id> = build.layout().ids().filter(|id| build.layout().spec(*id).is_judged() && plan.feeds(of.id, *id)).collect();
    let places = turned_by_hand(build, of.id.calculator);
    // Limits and tolerances say how the others are judged.
    let judges = |place: &Place| {
        let specs = build.layout().ids().map(|id| build.layout().spec(id));
        specs.into_iter().any(|spec| spec.judged_by().chain(spec.tolerance.map(|(width, _)| width)).any(|id| id == place.id))
    };
    let ours = |place: &Place| place.id.calculator == of.id.calculator && is_quantity(*place) && *place != of && !judges(place);
    let others = places.into_iter().filter(ours);
    let shared = |place: &Place| {
        // A bore goes with a bore, a pulley with a pulley, and those that come first in the form matter most.
        let (one, other) = (spec_of(*place), spec_of(of));
        let alike = one.kind == other.kind && one.sizes.is_empty() == other.sizes.is_empty();
        (alike, place.row.is_none(), one.matters, judged.iter().filter(|id| plan.feeds(place.id, **id)).count())
    };
    // The earliest of equals.
    others.rev().max_by_key(shared).unwrap_or(of)
}
