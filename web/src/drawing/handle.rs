//! A handle on the page, and the strip of the armed one.
#![expect(unreachable_pub, reason = "what the component macro writes")]

use super::control::{Control, Key, Nudge};
use super::grip;
use crate::picture::{At, Frame};
use leptos::ev::KeyboardEvent;
use leptos::html::Div;
use leptos::prelude::*;
use trialfit_core::show::System;
use trialfit_core::spec::Kind;
use wasm_bindgen::JsCast;

/// One handle: a punch mark with room for a thumb around it.
#[component]
pub(super) fn Handle(
    key: Key,
    control: Control,
    units: Signal<System>,
    armed: RwSignal<Option<Key>>,
    on_key: impl Fn(Key, &KeyboardEvent) + Copy + 'static,
    on_key_up: impl Fn() + Copy + 'static,
) -> impl IntoView {
    let (index, place) = key;
    let at = move |of: fn(At) -> f64| control.grip(key, |grip| format!("{:.1}px", of(grip.at))).unwrap_or_default();
    let shown = move || control.shown(place, units.get());
    let now = move || match grip::spec_of(place.id)?.kind {
        Kind::Quantity { unit, .. } => Some(unit.from_si(control.value_of.run(place)?).to_string()),
        Kind::Choice(_) | Kind::Text(_) => None,
    };
    let bound = move |which: usize| grip::spec_of(place.id).map(|spec| spec.possible[which]).filter(|bound| bound.is_finite());
    view! {
        <button type="button" class="drawing-handle" class:drawing-armed=move || armed.get() == Some(key) role="slider"
            data-grip=index style:left=move || at(|at| at.x) style:top=move || at(|at| at.y)
            aria-label=move || control.grip(key, |grip| grip.label.clone())
            aria-valuenow=now aria-valuemin=bound(0) aria-valuemax=bound(1)
            aria-valuetext=move || shown().map(|shown| shown.spoken)
            on:keydown=move |event| on_key(key, &event) on:keyup=move |_| on_key_up() on:blur=move |_| on_key_up()
            on:click=move |event| {
                // A voice or a switch presses without a pointer before it; a tap has armed the nearest already.
                if event.detail() == 0 {
                    armed.set(Some(key));
                }
            }>
        </button>
    }
}

/// The armed handle's name, value, nudges and neighbours.
#[component]
pub(super) fn Strip(
    key: Key,
    control: Control,
    units: Signal<System>,
    frame: Signal<Frame>,
    armed: RwSignal<Option<Key>>,
    node: NodeRef<Div>,
    on_nudge: impl Fn(Nudge) + Copy + 'static,
) -> impl IntoView {
    // Away from the handle it speaks of.
    let low = move || control.grip(key, |grip| grip.at.y < frame.get().height / 2.0).unwrap_or(true);
    let count = move || control.read(|sheet| sheet.grips.len()).unwrap_or(0);
    let several = move || count() > 1;
    let step = move |by: usize| {
        let index = (key.0 + by) % count().max(1);
        if let Some(place) = control.read(|sheet| sheet.grips.get(index).map(|grip| grip.place)).flatten() {
            armed.set(Some((index, place)));
        }
    };
    let label = move || control.grip(key, |grip| grip.label.clone());
    let value = move || control.shown(key.1, units.get()).map(|shown| shown.to_string());
    let named = move |what: &str| format!("{what} {}", label().unwrap_or_default());
    let less = move || named("less");
    let more = move || named("more");
    view! {
        <div class="drawing-strip" class:drawing-strip-low=low on:pointerdown=|event| event.stop_propagation()>
            <Show when=several>
                <button type="button" aria-label="previous handle" on:click=move |_| step(count() - 1)>"‹"</button>
            </Show>
            <button type="button" aria-label=less on:click=move |_| on_nudge(Nudge::By(-1))>"−"</button>
            <span class="drawing-value"><span>{label}</span>" "<b>{value}</b></span>
            <button type="button" aria-label=more on:click=move |_| on_nudge(Nudge::By(1))>"+"</button>
            <Show when=several>
                <button type="button" aria-label="next handle" on:click=move |_| step(1)>"›"</button>
            </Show>
            <button type="button" aria-label="done" on:click=move |_| { armed.set(None); focus(node); }>"×"</button>
        </div>
    }
}

/// Leaves the focus on the drawing when the strip goes away under it.
fn focus(node: NodeRef<Div>) {
    let handle = node.get_untracked().and_then(|node| node.query_selector(".drawing-handle").ok().flatten());
    if let Some(handle) = handle.and_then(|found| found.dyn_into::<web_sys::HtmlElement>().ok()) {
        let _ = handle.focus();
    }
}
