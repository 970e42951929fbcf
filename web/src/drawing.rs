//! A calculator's drawing: to scale, and a control.
//!
//! Each handle is a button over the drawing with the manners of a slider: arrow keys nudge it. A tap arms the nearest
//! one; the armed one can be dragged, and a strip with its value, − and + and the way to its neighbours appears. A mouse
//! drags at once. Esc or a second finger puts back what was.

mod control;
mod dimension;
mod fit;
mod grip;
mod handle;
mod hold;
mod sheet;

pub(crate) use dimension::arrow;

use crate::picture::{At, frame_of, pointer_in};
use control::{Control, Key, Nudge, grip_under};
use fit::Extent;
use handle::{Handle, Strip};
use hold::Hold;
use leptos::ev::{KeyboardEvent, PointerEvent};
use leptos::html::Div;
use leptos::prelude::*;
use sheet::Sheet;
use trialfit_core::scene::Scene;
use trialfit_core::show::System;
use trialfit_core::spec::Place;

/// A finger that moved less than this has tapped.
const TAP: f64 = 8.0;

/// A finger that went down and may turn out to tap; on a handle or beside all of them.
#[derive(Clone, Copy)]
struct Touch {
    pointer: i32,
    from: At,
    key: Option<Key>,
}

/// The drawing of a scene, in the height its container gives it.
///
/// Between `on_begin` and `on_end` lies one gesture, to be undone at once; `on_change` carries the input's new value, SI.
/// `on_cancel` ends a gesture in its place when it was called off: everything is to stand as before `on_begin`.
#[component]
pub fn Drawing(
    /// What to draw, or why there is nothing to.
    #[prop(into)]
    scene: Signal<Result<Scene, String>>,
    /// Units of its figures.
    #[prop(into)]
    units: Signal<System>,
    /// The value in force of a handle's input, SI.
    #[prop(into)]
    value_of: Callback<Place, Option<f64>>,
    /// A gesture begins.
    #[prop(into)]
    on_begin: Callback<()>,
    /// The input takes this value, SI.
    #[prop(into)]
    on_change: Callback<(Place, f64)>,
    /// The gesture is done.
    #[prop(into)]
    on_end: Callback<()>,
    /// The gesture was called off.
    #[prop(into)]
    on_cancel: Callback<()>,
) -> impl IntoView {
    let node = NodeRef::<Div>::new();
    let frame = frame_of(node);
    let kept = RwSignal::new(None);
    let sheet = Memo::new(move |_| {
        let lay_out = |scene: &Scene| sheet::lay_out(scene, frame.get(), units.get(), kept.get());
        scene.with(|scene| scene.as_ref().map(lay_out).map_err(Clone::clone))
    });
    let armed = RwSignal::new(None::<Key>);
    let touch = StoredValue::new(None::<Touch>);
    let hold = StoredValue::new(None::<Hold>);
    let wide = Memo::new(move |was: Option<&bool>| {
        let was = was.copied().unwrap_or(false);
        scene.with(|scene| scene.as_ref().map_or(was, |scene| Extent::of(scene).is_wide(was)))
    });
    let control = Control { sheet, armed, value_of };

    let begin = move || {
        kept.set(control.read(|sheet| sheet.fit));
        on_begin.run(());
    };
    let end = move || {
        kept.set(None);
        on_end.run(());
    };
    let let_go = move |called_off: bool| {
        let held = hold.try_update_value(Option::take).flatten();
        if held.is_some_and(|held| held.moved()) {
            if called_off {
                kept.set(None);
                on_cancel.run(());
            } else {
                end();
            }
        }
    };
    let nudge = move |key: Key, way: Nudge| {
        if let Some((place, value)) = control.nudged(key, way) {
            let alone = hold.with_value(Option::is_none);
            if alone {
                begin();
            }
            on_change.run((place, value));
            if alone {
                end();
            }
        }
    };

    let pressed = move |event: PointerEvent| {
        if hold.with_value(|held| held.as_ref().is_some_and(|held| held.pointer != Some(event.pointer_id()))) {
            touch.set_value(None);
            return let_go(true);
        }
        let Some(at) = pointer_in(node, &event).filter(|_| event.is_primary() && event.button() == 0) else { return };
        let key = control.nearest(at, grip_under(&event));
        let at_once = event.pointer_type() != "touch";
        let holdable = key.filter(|&key| at_once || armed.get_untracked().is_some_and(|armed| control.together(armed, key)));
        if let Some(key) = holdable {
            // The page must not scroll, select or move the focus elsewhere while a handle is held.
            event.prevent_default();
            if let Some(element) = node.get_untracked() {
                let _ = element.set_pointer_capture(event.pointer_id());
            }
            let key = armed.get_untracked().filter(|&armed| control.together(armed, key)).unwrap_or(key);
            control.arm(node, key);
            hold.set_value(control.hold(key, event.pointer_id(), at, !at_once));
        } else {
            touch.set_value(Some(Touch { pointer: event.pointer_id(), from: at, key }));
        }
    };
    let moved = move |event: PointerEvent| {
        let Some(at) = pointer_in(node, &event) else { return };
        let mine = |held: &&mut Hold| held.pointer == Some(event.pointer_id());
        let step = hold.try_update_value(|held| held.as_mut().filter(mine).map(|held| (!held.moved(), held.moved_to(at))));
        let Some((first, changes)) = step.flatten() else { return };
        if first && hold.with_value(|held| held.as_ref().is_some_and(Hold::moved)) {
            begin();
            // A finger has chosen one of the handles at the spot by the way it set out: that one is armed from here on.
            if let [(place, _)] = changes[..]
                && let Some(key) = control.key_of(place)
            {
                control.arm(node, key);
            }
        }
        for change in changes {
            on_change.run(change);
        }
    };
    let released = move |event: PointerEvent| {
        let_go(false);
        let Some(tap) = touch.try_update_value(Option::take).flatten().filter(|tap| tap.pointer == event.pointer_id()) else { return };
        let Some(at) = pointer_in(node, &event) else { return };
        if (at - tap.from).length() < TAP {
            match tap.key {
                Some(key) => control.arm(node, key),
                None => armed.set(None),
            }
        }
    };
    let stopped = move |_: PointerEvent| {
        touch.set_value(None);
        let_go(true);
    };
    let escape = move |event: KeyboardEvent| {
        if event.key() == "Escape" && armed.get_untracked().is_some() {
            event.prevent_default();
            if hold.with_value(Option::is_none) {
                armed.set(None);
            }
            let_go(true);
        }
    };
    // One press of a key held down is one gesture: it begins at the first nudge and ends when the key comes up.
    let key_down = move |key: Key, event: &KeyboardEvent| {
        let Some(way) = Nudge::of_key(event) else { return };
        event.prevent_default();
        armed.set(Some(key));
        if hold.with_value(Option::is_none) && control.nudged(key, way).is_some() {
            hold.set_value(Some(Hold::by_key()));
            begin();
        }
        nudge(key, way);
    };
    let key_up = move || {
        // Also called when the focus is lost because the drawing goes away, its state before it.
        if hold.try_with_value(|held| held.as_ref().is_some_and(|held| held.pointer.is_none())) == Some(true) {
            let_go(false);
        }
    };

    let title = move || scene.with(|scene| scene.as_ref().map_or_else(|_| String::new(), |scene| scene.title.clone()));
    let description = move || scene.with(|scene| scene.as_ref().map_or_else(|_| String::new(), |scene| scene.description.clone()));
    let reason = move || sheet.with(|sheet| sheet.as_ref().err().cloned());
    let keys = move || {
        let grips = |sheet: &Sheet| sheet.grips.iter().map(|grip| grip.place).enumerate().collect::<Vec<Key>>();
        sheet.with(|sheet| sheet.as_ref().map(grips).unwrap_or_default())
    };
    view! {
        <div class="drawing" class:drawing-wide=wide node_ref=node on:pointerdown=pressed on:pointermove=moved on:pointerup=released on:pointercancel=stopped
            on:keydown=escape>
            <svg class="drawing-sheet" class:drawing-empty=move || reason().is_some() role="img" aria-label=title viewBox=move || frame.get().view_box()>
                <desc>{description}</desc>
                <g inner_html=move || sheet.with(|sheet| sheet.as_ref().map(|sheet| sheet.svg.clone()).unwrap_or_default())></g>
            </svg>
            <p class="drawing-words">{description}</p>
            {move || reason().map(|why| view! { <p class="drawing-none">{why}</p> })}
            <For each=keys key=|key| *key let:key>
                <Handle key control units armed on_key=key_down on_key_up=key_up/>
            </For>
            {move || armed.get().filter(|&key| control.grip(key, |_| ()).is_some()).map(|key| view! {
                <Strip key control units frame armed node on_nudge=move |way| nudge(key, way)/>
            })}
        </div>
    }
}
