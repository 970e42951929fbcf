//! A slider over the usual range, and the buttons beside it that repeat while they are held.

use super::entry::Entry;
use crate::bench::Bench;
use crate::dom::{El, as_event, button, el, put_value, value_in};
use crate::history::Gesture;
use crate::signal::memo;
use crate::stops::Stops;
use crate::words;
use gloo_timers::callback::{Interval, Timeout};
use leptos::prelude::*;
use trialfit_core::quantity::{Length, Value};
use trialfit_core::show;
use trialfit_core::spec::Kind;
use web_sys::PointerEvent;

/// Held for so many milliseconds, a button begins to repeat, once every so many.
const HELD: u32 = 400;
const AGAIN: u32 = 110;

/// A slider. Its track takes no taps; the thumb is dragged, arrow keys step.
pub fn slider(entry: Entry, id: &str) -> Option<El> {
    let bench = Bench::get();
    let place = entry.place;
    entry.stops()?;
    let last = move || entry.stops().map_or(0, Stops::last);
    let stop = memo(move || match (entry.stops(), entry.value.get()) {
        (Some(stops), Ok(value)) => stops.nearest(value),
        _ => last() / 2,
    });
    let slider = el("input")
        .class("slider")
        .class_when("unset", move || entry.value.get().is_err())
        .id(id)
        .set("type", "range")
        .set("min", "0")
        .bind("max", move || Some(last().to_string()))
        .set("step", "1")
        .set("aria-label", entry.spec.label)
        .bind("aria-valuetext", move || Some(spoken(entry)))
        .value(move || stop.get().to_string())
        .on("input", move |event| {
            if let (Ok(index), Some(stops)) = (value_in(&event).parse(), untrack(|| entry.stops())) {
                bench.set(Gesture::Sliding(place), place, stops.at(index));
            }
            // Where the change was not taken, the thumb goes back.
            put_value(&event, &stop.get_untracked().to_string());
        })
        .on("change", move |_| bench.finish());
    Some(slider)
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
pub fn step_button(entry: Entry, up: bool, id: &str) -> El {
    let bench = Bench::get();
    let holding = StoredValue::new_local(None::<Timeout>);
    let repeating = StoredValue::new_local(None::<Interval>);
    let held = StoredValue::new(false);
    let start = move || {
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
    let tap = move || {
        // The click that ends a hold is not one more step.
        if !held.try_update_value(core::mem::take).unwrap_or(false) {
            entry.nudge(up);
            bench.finish();
        }
    };
    let at_end = move || {
        entry.value.with(|_| ());
        entry.next(up).is_none()
    };
    let (sign, word) = if up { ("+", words::MORE) } else { ("−", words::LESS) };
    button("step", id)
        .set("aria-label", &words::act_of(word, entry.spec.label))
        .child(el("span").set("aria-hidden", "true").text(sign))
        .flag("aria-disabled", at_end)
        .on("pointerdown", move |event| {
            if as_event::<PointerEvent>(&event).button() == 0 {
                start();
            }
        })
        .on("pointerup", move |_| stop())
        .on("pointercancel", move |_| stop())
        .on("pointerleave", move |_| stop())
        .on("contextmenu", |event| event.prevent_default())
        .on_press(tap)
}
