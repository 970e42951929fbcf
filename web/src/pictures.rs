//! Drawing, charts and working of a calculator: where their values come from, and what taking hold of them changes.

use crate::bench::{Bench, plan};
use crate::drawing::Drawing;
use crate::history::Gesture;
use crate::plot::Plot;
use crate::words;
use crate::working::Working;
use leptos::prelude::*;
use trialfit_core::build::Build;
use trialfit_core::calculators::{ALL, Draw, Plot as MakeChart};
use trialfit_core::chart::{Axis, Chart};
use trialfit_core::quantity::Ratio;
use trialfit_core::quantity::unit::ONE;
use trialfit_core::report::{Report, Unknown};
use trialfit_core::spec::Place;

/// The drawing, if the calculator has one.
#[component]
pub fn TheDrawing(calculator: u8) -> impl IntoView {
    ALL[usize::from(calculator)].scene.map(|draw| view! { <Drawn draw/> })
}

#[component]
fn Drawn(draw: Draw) -> impl IntoView {
    let bench = Bench::get();
    let scene = Memo::new(move |_| bench.look(|build, report| draw(build, report).map_err(|why| reason(why, report))));
    view! {
        <section class="slot" aria-labelledby="drawing-title">
            <h2 id="drawing-title" class="apart">{words::DRAWING}</h2>
            <Drawing
                scene=scene
                units=Signal::derive(move || bench.system())
                value_of=move |place: Place| bench.report().with(|report| report.value(place)).ok()
                on_begin=move |()| bench.finish()
                on_change=move |(place, value)| bench.set(Gesture::Dragging, place, value)
                on_end=move |()| bench.finish()
                on_cancel=move |()| bench.call_off(Gesture::Dragging)
            />
        </section>
    }
}

/// The charts, if the calculator has any.
#[component]
pub fn Charts(calculator: u8) -> impl IntoView {
    let charts = ALL[usize::from(calculator)].charts;
    (!charts.is_empty()).then(|| {
        view! {
            <section class="charts" id="charts" aria-labelledby="charts-title">
                <h2 id="charts-title">{words::CHARTS}</h2>
                <div class="plots">{charts.iter().map(|&make| view! { <OneChart make/> }).collect_view()}</div>
            </section>
        }
    })
}

/// A chart is worked out a moment after the answer, which must not wait for it.
#[component]
fn OneChart(make: MakeChart) -> impl IntoView {
    let bench = Bench::get();
    let make = move |build: &Build, report: &Report| make(plan(), build, report).map_err(|why| reason(why, report));
    let found = Memo::new(move |_| {
        bench.when_calm();
        bench.look_now(make)
    });
    let why = move || found.with(|found| found.as_ref().err().cloned()).map(|why| view! { <p class="note">{why}</p> });
    let known = Memo::new(move |_| found.with(Result::is_ok));
    view! {
        <div class="plot-slot">
            {why}
            <Show when=move || known.get()>
                <Shown found/>
            </Show>
        </div>
    }
}

#[component]
fn Shown(found: Memo<Result<Chart, String>>) -> impl IntoView {
    let bench = Bench::get();
    let chart = Memo::new(move |old: Option<&Chart>| match (found.get(), old) {
        (Ok(chart), _) => chart,
        // The chart is about to go from the page; until then it stays as it was.
        (Err(_), old) => old.cloned().unwrap_or_else(empty),
    });
    let take = move |sets: Vec<(Place, f64)>| {
        bench.edit(Gesture::Once, words::TAKING, move |build| {
            for (place, value) in sets {
                _ = build.set(place, value);
            }
        });
    };
    view! { <Plot chart=chart units=Signal::derive(move || bench.system()) on_take=take/> }
}

fn empty() -> Chart {
    let axis = Axis { label: "", dimension: Ratio::DIMENSION, unit: ONE };
    Chart {
        title: String::new(),
        finding: String::new(),
        x: axis,
        y: axis,
        curves: Vec::new(),
        edges: Vec::new(),
        spots: Vec::new(),
        present: None,
        bands: Vec::new(),
    }
}

/// How an answer came about, worked out when it is opened.
#[component]
pub fn ShowWorking(place: Place, #[prop(into)] key: String) -> impl IntoView {
    let bench = Bench::get();
    let open = RwSignal::new(false);
    let lines = Memo::new(move |_| {
        bench.when_calm();
        bench.report().with_untracked(|report| plan().working(report, place).lines)
    });
    let label = words::act_of(words::SHOW_WORKING, crate::bench::spec_of(place).label);
    view! {
        <button type="button" class="quiet" id=format!("{key}.working") aria-expanded=move || open.get().to_string() aria-label=label
            on:click=move |_| open.update(|open| *open = !*open)>
            {words::SHOW_WORKING}
        </button>
        <Show when=move || open.get()>
            <Working lines=lines units=Signal::derive(move || bench.system())/>
        </Show>
    }
}

fn reason(why: Unknown, report: &Report) -> String {
    why.reason(report.layout())
}
