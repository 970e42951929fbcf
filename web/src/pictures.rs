//! Drawing, charts and working of a calculator: where their values come from, and what taking hold of them changes.

use crate::bench::{Bench, plan, spec_of};
use crate::cite::cite;
use crate::dom::{El, button, el, folded};
use crate::drawing::{Hands, drawing};
use crate::history::Gesture;
use crate::language;
use crate::picture::say;
use crate::plot::{Taking, plot};
use crate::signal::{Memo, State, memo, memo_from};
use crate::working::working;
use crate::{save, words};
use leptos::prelude::*;
use std::borrow::Cow;
use trialfit_core::build::Build;
use trialfit_core::calculators::{ALL, Plot as MakeChart};
use trialfit_core::chart::{Axis, Chart, Spot};
use trialfit_core::quantity::Ratio;
use trialfit_core::quantity::unit::ONE;
use trialfit_core::report::{Report, Unknown};
use trialfit_core::scene::{Scene, Shape};
use trialfit_core::show::{self, System};
use trialfit_core::spec::Place;

/// The drawing, if the calculator has one.
pub fn the_drawing(calculator: u8) -> Option<El> {
    let bench = Bench::get();
    let draw = ALL[usize::from(calculator)].scene?;
    let scene = memo(move || -> Result<Scene, String> {
        let scene = bench.look(|build, report| draw(build, report).map_err(|why| reason(why, report)))?;
        let fitted = bench.fitted.with(|fitted| fitted.as_ref().and_then(|it| draw(&it.build, &it.report).ok()));
        Ok(fitted.iter().fold(scene, Scene::beside))
    });
    let hands = Hands {
        value_of: Callback::new(move |place: Place| bench.report().with(|report| report.value(place)).ok()),
        begin: Callback::new(move |()| bench.finish()),
        change: Callback::new(move |(place, value)| bench.set(Gesture::Dragging, place, value)),
        end: Callback::new(move |()| bench.finish()),
        call_off: Callback::new(move |()| bench.call_off(Gesture::Dragging)),
    };
    let title = el("h2").id("drawing-title").class("apart").text(words::DRAWING);
    let slot = el("section").class("slot").set("aria-labelledby", "drawing-title").child(title);
    Some(slot.child(drawing(scene, units(), hands)))
}

/// The drawing as a file or for a message.
pub fn drawing_saves(calculator: u8) -> Option<El> {
    let sheet = document().query_selector(".slot .drawing-sheet").ok().flatten()?;
    let called = move || format!("{} {}", words::DRAWING, ALL[usize::from(calculator)].label);
    Some(save::saves(words::SAVE_DRAWING, called, &sheet, || None).class("plot-list in-words"))
}

/// What the drawing shows, in words and figures: for whoever does not see it.
pub fn drawn(calculator: u8) -> Option<El> {
    let bench = Bench::get();
    let draw = ALL[usize::from(calculator)].scene?;
    let inside = move || {
        bench.when_calm();
        let Ok(scene) = bench.look_now(draw) else { return Vec::new() };
        let system = bench.system();
        let words = scene.shapes.iter().filter_map(|shape| match shape {
            Shape::Dimension { label, .. } | Shape::Label { label, .. } => Some(say(label, system)),
            _ => None,
        });
        let held = scene.handles.iter().map(|it| {
            let value =
                bench.value_now(it.place).map_or_else(|_| "?".to_owned(), |value| show::cell(spec_of(it.place), value, system).to_string());
            language::said(&format!("{}: {value}", it.label))
        });
        let mut all: Vec<String> = Vec::new();
        for words in words.chain(held) {
            if !all.contains(&words) {
                all.push(words);
            }
        }
        vec![el("p").text(&scene.description), el("ul").children(all.iter().map(|words| el("li").child(el("bdi").own(words))))]
    };
    let whole = el("details").class("plot-list in-words").id("drawing-in-words").child(el("summary").text(words::DRAWING_IN_WORDS));
    Some(folded(whole, move || el("div").many(inside)))
}

/// The units the reader wants.
pub fn units() -> Memo<System> {
    memo(|| Bench::get().system())
}

/// The charts, if the calculator has any.
pub fn charts(calculator: u8) -> Option<El> {
    let charts = ALL[usize::from(calculator)].charts;
    let plots = || charts.iter().fold(el("div").class("plots"), |plots, &make| plots.later(move || one_chart(make)));
    let section = || el("section").class("charts").id("charts").set("aria-labelledby", "charts-title");
    let title = || el("h2").id("charts-title").text(words::CHARTS);
    (!charts.is_empty()).then(|| section().child(title()).child(plots()))
}

/// A chart is worked out a moment after the answer, which must not wait for it.
fn one_chart(make: MakeChart) -> El {
    let bench = Bench::get();
    let make = move |build: &Build, report: &Report| make(plan(), build, report).map_err(|why| reason(why, report));
    let fitted = memo(move || bench.fitted.with(|fitted| fitted.as_ref().and_then(|it| make(&it.build, &it.report).ok())));
    let found = memo(move || -> Result<Chart, String> {
        bench.when_calm();
        let chart = bench.look_now(make)?;
        Ok(fitted.with(|fitted| fitted.iter().fold(chart, Chart::beside)))
    });
    let chart = memo_from(move |old: Option<&Chart>| match (found.get(), old) {
        (Ok(chart), _) => chart,
        // The chart is about to go from the page; until then it stays as it was.
        (Err(_), old) => old.cloned().unwrap_or_else(empty),
    });
    el("div")
        .class("plot-slot")
        .maybe(move || found.with(|found| found.as_ref().err().map(|why| el("p").class("note").text(why))))
        .when(move || found.with(Result::is_ok), move || plot(chart, taking()))
}

/// A point that is taken sets its inputs, as one step.
pub fn taking() -> Taking {
    let take = Callback::new(|spot: Spot| {
        Bench::get().edit(Gesture::Once, words::TAKING, move |build| {
            for (place, value) in spot.sets {
                _ = build.set(place, value);
            }
        });
    });
    Taking { units: units(), take }
}

/// No chart yet.
pub fn empty() -> Chart {
    let axis = Axis { label: Cow::Borrowed(""), dimension: Ratio::DIMENSION, unit: ONE };
    Chart::on(axis.clone(), axis)
}

/// How an answer came about, worked out when it is opened.
pub fn show_working(place: Place, key: &str) -> [El; 2] {
    let bench = Bench::get();
    let open = State::new(false);
    let lines = move || {
        bench.when_calm();
        working(&bench.report().with_untracked(|report| plan().working(report, place).lines), bench.system())
    };
    let word = move || if open.get() { words::HIDE_WORKING } else { words::SHOW_WORKING };
    let turn = button("quiet", &format!("{key}.working"))
        .bind("aria-expanded", move || Some(open.get().to_string()))
        .bind("aria-label", move || Some(words::act_of(word(), spec_of(place).label)))
        .says(move || word().to_owned())
        .on_press(move || open.update(|open| *open = !*open));
    let key = key.to_owned();
    let inside = move || el("div").child(el("ol").class("working").many(lines)).child(cite(place, &key));
    [turn, el("div").when(move || open.get(), inside)]
}

fn reason(why: Unknown, report: &Report) -> String {
    why.reason(report.layout())
}
