//! Numbers that come from the car: a window that leads through the measurement of one, and the sketch of where.

mod stopwatch;
mod tone;
mod walk;

pub use stopwatch::Watch;

use crate::bench::{Bench, spec_of};
use crate::dom::{El, button, el};
use crate::drawing::resting;
use crate::follow::follow;
use crate::pictures::units;
use crate::table::declared;
use crate::words;
use leptos::prelude::*;
use trialfit_core::measure::Guide;
use trialfit_core::spec::Place;
use wasm_bindgen::JsCast;
use web_sys::HtmlDialogElement;

/// The button that begins a measurement, where the input has one.
pub fn offer(place: Place) -> Option<El> {
    let bench = Bench::get();
    spec_of(place).guide.map(|_| {
        button("", &format!("{}.measure", bench.key(place)))
            .set("aria-haspopup", "dialog")
            .set("aria-label", &words::act_of(words::MEASURE_IT, spec_of(place).label))
            .text(words::MEASURE_IT)
            .on_press(move || bench.measuring.set(Some(place)))
    })
}

/// Where to measure, where words are not enough.
pub fn sketch(place: Place) -> Option<El> {
    spec_of(place).sketch.map(|sketch| resting(sketch.scene(place.id), units()))
}

/// The window of whatever is being measured.
pub fn window() -> El {
    let bench = Bench::get();
    let measuring = bench.measuring;
    let inside = move || measuring.get().map(|place| untrack(|| leads(place))).unwrap_or_default();
    let window = el("dialog").id("measure").set("aria-labelledby", "measure-title").many(inside);
    let shown: HtmlDialogElement = window.element().clone().unchecked_into();
    let window = window.on("close", move |_| close());
    // A phone's way back leaves the screen, and the window with it.
    follow(move || {
        bench.looking.with(|_| ());
        untrack(close);
    });
    follow(move || match (measuring.with(Option::is_some), shown.open()) {
        (true, false) => _ = shown.show_modal(),
        (false, true) => shown.close(),
        _ => {}
    });
    window
}

fn close() {
    let measuring = Bench::get().measuring;
    if measuring.with_untracked(Option::is_some) {
        measuring.set(None);
    }
}

fn leads(place: Place) -> Vec<El> {
    let spec = spec_of(place);
    let Some(guide) = spec.guide else { return Vec::new() };
    let (title, steps) = match guide {
        Guide::Stopwatch { count, time, doubt } => (words::STOPWATCH, stopwatch::stopwatch(count.into(), time.into(), doubt.into())),
        Guide::Walk(table) => (declared(table).label, walk::walk(table, place)),
        Guide::Tone => (words::BY_EAR, tone::tone(place)),
    };
    let caution = (!spec.caution.is_empty()).then(|| el("p").class("caution").text(spec.caution));
    let close = button("quiet", "close-measure").text(words::CLOSE).on_press(close);
    let head = el("h2").id("measure-title").text(title);
    core::iter::once(head).chain(caution).chain(steps).chain([el("p").class("acts").child(close)]).collect()
}
