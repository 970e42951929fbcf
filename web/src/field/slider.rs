//! A slider over the usual range, and the buttons beside it that repeat while they are held.

use super::entry::Entry;
use crate::bench::Bench;
use crate::history::Gesture;
use crate::stops::Stops;
use crate::words;
use gloo_timers::callback::{Interval, Timeout};
use leptos::ev::{MouseEvent, PointerEvent};
use leptos::prelude::*;
use trialfit_core::quantity::{Length, Value};
use trialfit_core::show;
use trialfit_core::spec::Kind;

/// Held for so many milliseconds, a button begins to repeat, once every so many.
const HELD: u32 = 400;
const AGAIN: u32 = 110;

/// A slider. Its track takes no taps; the thumb is dragged, arrow keys step.
#[component]
pub fn Slider(entry: Entry, stops: Stops, id: String) -> impl IntoView {
    let bench = Bench::get();
    let place = entry.place;
    let stop = Memo::new(move |_| entry.number().map_or(stops.last() / 2, |number| stops.nearest(number)));
    let slide = move |index: u32| bench.set(Gesture::Sliding(place), place, entry.spec.to_cell(stops.at(index)));
    view! {
        <input
            class="slider"
            id=id
            type="range"
            min="0"
            max=stops.last().to_string()
            step="1"
            aria-label=entry.spec.label
            aria-valuetext=move || spoken(entry)
            prop:value=move || stop.get().to_string()
            on:input:target=move |event| {
                let input = event.target();
                if let Ok(index) = input.value().parse() {
                    slide(index);
                }
                // Where the change was not taken, the thumb goes back.
                input.set_value(&stop.get_untracked().to_string());
            }
            on:change=move |_| bench.finish()
        />
    }
}

/// `22.2 millimetres, 7 eighths of an inch`.
fn spoken(entry: Entry) -> String {
    let Some(shown) = entry.shown() else { return words::NOT_GIVEN.to_owned() };
    match fraction(entry) {
        Some(fraction) => format!("{}, {}", shown.spoken, fraction.spoken),
        None => shown.spoken,
    }
}

/// The trade's name of a length, beside its millimetres.
pub fn fraction(entry: Entry) -> Option<show::Shown> {
    let Kind::Quantity { dimension, .. } = entry.spec.kind else { return None };
    let value = entry.value.get().ok().filter(|_| dimension == Length::DIMENSION)?;
    show::inch_fraction(Length::from_cell(value))
}

/// One step down or up, again and again while held; one hold is one undo.
#[component]
pub fn StepButton(entry: Entry, up: bool, id: String) -> impl IntoView {
    let bench = Bench::get();
    let holding = StoredValue::new_local(None::<Timeout>);
    let repeating = StoredValue::new_local(None::<Interval>);
    let held = StoredValue::new(false);
    let start = move |event: PointerEvent| {
        if event.button() != 0 {
            return;
        }
        held.set_value(false);
        holding.set_value(Some(Timeout::new(HELD, move || {
            held.set_value(true);
            repeating.set_value(Some(Interval::new(AGAIN, move || entry.nudge(up))));
        })));
    };
    let stop = move || {
        holding.set_value(None);
        repeating.set_value(None);
        bench.finish();
    };
    let tap = move |_: MouseEvent| {
        // The click that ends a hold is not one more step.
        if !held.try_update_value(core::mem::take).unwrap_or(false) {
            entry.nudge(up);
            bench.finish();
        }
    };
    let at_end = Memo::new(move |_| {
        entry.value.track();
        entry.next(up).is_none()
    });
    let (sign, word) = if up { ("+", words::MORE) } else { ("−", words::LESS) };
    view! {
        <button
            type="button"
            class="step"
            id=id
            aria-label=words::act_of(word, entry.spec.label)
            aria-disabled=move || at_end.get().then_some("true")
            on:pointerdown=start
            on:pointerup=move |_| stop()
            on:pointercancel=move |_| stop()
            on:pointerleave=move |_| stop()
            on:contextmenu=|event| event.prevent_default()
            on:click=tap
        >
            <span aria-hidden="true">{sign}</span>
        </button>
    }
}
