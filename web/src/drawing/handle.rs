//! A handle on the page, and the strip of the armed one.

use super::control::{Control, Key, Nudge};
use super::grip;
use crate::dom::{El, as_event, button, el};
use crate::picture::{At, Frame};
use crate::signal::{Memo, State};
use crate::words;
use leptos::prelude::*;
use trialfit_core::show::System;
use trialfit_core::spec::Kind;
use web_sys::{KeyboardEvent, MouseEvent};

/// One handle: a punch mark with room for a thumb around it.
pub(super) fn handle(
    key: Key,
    control: Control,
    units: Memo<System>,
    on_key: impl Fn(Key, &KeyboardEvent) + 'static,
    on_key_up: impl Fn() + Copy + 'static,
) -> El {
    let (index, place) = key;
    let armed = control.armed;
    let at = move |of: fn(At) -> f64| control.grip(key, |grip| format!("{:.1}px", of(grip.at))).unwrap_or_default();
    let now = move || match grip::spec_of(place.id)?.kind {
        Kind::Quantity { unit, .. } => Some(unit.from_si(control.value_of.run(place)?).to_string()),
        Kind::Choice(_) | Kind::Text(_) => None,
    };
    let bound = |which: usize| grip::spec_of(place.id).map(|spec| spec.possible[which]).filter(|bound| bound.is_finite());
    let handle = button("drawing-handle", "").set("role", "slider").set("data-grip", &index.to_string());
    let handle = [("aria-valuemin", bound(0)), ("aria-valuemax", bound(1))].into_iter().fold(handle, |handle, (name, bound)| match bound {
        Some(bound) => handle.set(name, &bound.to_string()),
        None => handle,
    });
    handle
        .class_when("drawing-armed", move || armed.get() == Some(key))
        .style("left", move || at(|at| at.x))
        .style("top", move || at(|at| at.y))
        .bind("aria-label", move || control.grip(key, |grip| grip.label.clone()))
        .bind("aria-valuenow", now)
        .bind("aria-valuetext", move || control.shown(place, units.get()).map(|shown| shown.spoken))
        .on("keydown", move |event| on_key(key, as_event(&event)))
        .on("keyup", move |_| on_key_up())
        .on("blur", move |_| on_key_up())
        .on("click", move |event| {
            // A voice or a switch presses without a pointer before it; a tap has armed the nearest already.
            if as_event::<MouseEvent>(&event).detail() == 0 {
                armed.set(Some(key));
            }
        })
}

/// The armed handle's name, value, nudges and neighbours.
pub(super) fn strip(key: Key, control: Control, units: Memo<System>, frame: State<Frame>, on_nudge: impl Fn(Nudge) + Copy + 'static) -> El {
    // Away from the handle it speaks of.
    let low = move || control.grip(key, |grip| grip.at.y < frame.get().height / 2.0).unwrap_or(true);
    let count = move || control.sheet.with(|sheet| sheet.as_ref().map_or(0, |sheet| sheet.grips.len()));
    let several = move || count() > 1;
    let step = move |by: usize| {
        let count = untrack(count).max(1);
        let index = (key.0 + by) % count;
        if let Some(place) = control.read(|sheet| sheet.grips.get(index).map(|grip| grip.place)).flatten() {
            control.armed.set(Some((index, place)));
        }
    };
    let label = move || control.grip(key, |grip| grip.label.clone()).unwrap_or_default();
    let value = move || control.shown(key.1, units.get()).map(|shown| shown.to_string()).unwrap_or_default();
    let act = |name: &str, sign: &str| button("", "").set("aria-label", name).text(sign);
    let nudge = move |by: i32, sign: &str, what: &'static str| {
        let named = move || Some(words::act_of(what, &label()));
        button("", "").bind("aria-label", named).text(sign).on_press(move || on_nudge(Nudge::By(by)))
    };
    let shown = el("span").class("drawing-value").child(el("span").says(label)).text(" ").child(el("b").says(value));
    el("div")
        .class("drawing-strip")
        .class_when("drawing-strip-low", low)
        .on("pointerdown", |event| event.stop_propagation())
        .when(several, move || act(words::PREVIOUS_HANDLE, "‹").on_press(move || step(untrack(count).max(1) - 1)))
        .child(nudge(-1, "−", words::LESS))
        .child(shown)
        .child(nudge(1, "+", words::MORE))
        .when(several, move || act(words::NEXT_HANDLE, "›").on_press(move || step(1)))
        .child(act(words::DONE, "×").on_press(move || {
            control.armed.set(None);
            // The strip goes away under the focus; it stays on the drawing.
            control.focus(".drawing-handle");
        }))
}
