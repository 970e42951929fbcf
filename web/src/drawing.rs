//! A calculator's drawing: to scale, and a control.
//!
//! Each handle is a button over the drawing with the manners of a slider: arrow keys nudge it. A tap arms the nearest
//! one; the armed one can be dragged, and a strip with its value, − and + and the way to its neighbours appears. A mouse
//! drags at once. Esc or a second finger puts back what was.

mod dimension;
mod fit;
mod grip;
mod hold;
mod sheet;

pub(crate) use dimension::arrow;

use crate::picture::{At, Frame, frame_of, nearest, pointer_in};
use hold::Hold;
use leptos::ev::{KeyboardEvent, PointerEvent};
use leptos::html::Div;
use leptos::prelude::*;
use sheet::{Grip, Sheet};
use trialfit_core::scene::Scene;
use trialfit_core::show::{Shown, System, cell};
use trialfit_core::spec::{Kind, Place};
use wasm_bindgen::JsCast;

/// How far from a handle a tap still means it, in pixels.
const REACH: f64 = 26.0;
/// A finger that moved less than this has tapped.
const TAP: f64 = 8.0;

/// Which handle: its number in the scene and what it changes. Both, as scenes come and go under a gesture.
type Key = (usize, Place);

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
        if hold.with_value(|held| held.as_ref().is_some_and(|held| held.pointer.is_none())) {
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
        <div class="drawing" node_ref=node on:pointerdown=pressed on:pointermove=moved on:pointerup=released on:pointercancel=stopped
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

/// A step, in the sense of the input or of the screen.
#[derive(Clone, Copy)]
enum Nudge {
    /// So many steps more (or less).
    By(i32),
    /// So many steps in this direction on the screen.
    Toward(At, i32),
}

impl Nudge {
    fn of_key(event: &KeyboardEvent) -> Option<Self> {
        if event.alt_key() || event.ctrl_key() || event.meta_key() {
            return None;
        }
        let toward = |x, y| Some(Self::Toward(At::new(x, y), if event.shift_key() { 10 } else { 1 }));
        match event.key().as_str() {
            "ArrowRight" => toward(1.0, 0.0),
            "ArrowLeft" => toward(-1.0, 0.0),
            "ArrowUp" => toward(0.0, -1.0),
            "ArrowDown" => toward(0.0, 1.0),
            "PageUp" => Some(Self::By(10)),
            "PageDown" => Some(Self::By(-10)),
            _ => None,
        }
    }
}

/// What handles and the strip have in common.
#[derive(Clone, Copy)]
struct Control {
    sheet: Memo<Result<Sheet, String>>,
    armed: RwSignal<Option<Key>>,
    value_of: Callback<Place, Option<f64>>,
}

impl Control {
    fn read<T>(self, of: impl FnOnce(&Sheet) -> T) -> Option<T> {
        self.sheet.with_untracked(|sheet| sheet.as_ref().ok().map(of))
    }

    /// Something of a handle, while it is there.
    fn grip<T>(self, (index, place): Key, of: impl FnOnce(&Grip) -> T) -> Option<T> {
        self.sheet.with(|sheet| sheet.as_ref().ok()?.grips.get(index).filter(|grip| grip.place == place).map(of))
    }

    fn nearest(self, at: At, preferred: Option<usize>) -> Option<Key> {
        let found = |sheet: &Sheet| {
            let index = nearest(sheet.grips.iter().map(|grip| grip.at), at, REACH, preferred)?;
            Some((index, sheet.grips[index].place))
        };
        self.read(found).flatten()
    }

    /// Whether two handles stand at one spot.
    fn together(self, one: Key, other: Key) -> bool {
        let at = |key| self.grip(key, |grip| grip.at);
        one == other || at(one).zip(at(other)).is_some_and(|(one, other)| (one - other).length() < 1.5)
    }

    /// Handles that stand where this one does, itself first.
    fn spot(self, key: Key) -> Vec<(Place, trialfit_core::scene::Point)> {
        let all = |sheet: &Sheet| {
            let mine = sheet.grips.get(key.0).map(|grip| (grip.place, grip.per));
            let others = sheet.grips.iter().enumerate().filter(|&(index, grip)| index != key.0 && self.together(key, (index, grip.place)));
            mine.into_iter().chain(others.map(|(_, grip)| (grip.place, grip.per))).collect()
        };
        self.read(all).unwrap_or_default()
    }

    fn hold(self, key: Key, pointer: i32, at: At, one_only: bool) -> Option<Hold> {
        let fit = self.read(|sheet| sheet.fit)?;
        let valued = self.spot(key).into_iter().filter_map(|(place, per)| Some((place, per, self.value_of.run(place)?)));
        Some(Hold::new(pointer, at, fit, valued, one_only))
    }

    fn nudged(self, key: Key, way: Nudge) -> Option<(Place, f64)> {
        let spot = self.spot(key);
        let ((place, _), steps) = match way {
            Nudge::By(steps) => (*spot.first()?, steps),
            Nudge::Toward(direction, steps) => {
                let ways: Vec<_> = spot.iter().map(|&(_, per)| per).collect();
                let (which, sign) = grip::by_key(&ways, direction)?;
                (spot[which], sign * steps)
            }
        };
        let value = self.value_of.run(place)?;
        let new = grip::nudged(grip::spec_of(place.id)?, value, steps);
        (new != value).then_some((place, new))
    }

    /// Arms a handle and gives it the focus.
    fn arm(self, node: NodeRef<Div>, key: Key) {
        self.armed.set(Some(key));
        let found = node.get_untracked().and_then(|node| node.query_selector(&format!("[data-grip=\"{}\"]", key.0)).ok().flatten());
        if let Some(button) = found.and_then(|found| found.dyn_into::<web_sys::HtmlElement>().ok()) {
            let _ = button.focus();
        }
    }

    /// The value in force as text and as a voice says it.
    fn shown(self, place: Place, system: System) -> Option<Shown> {
        Some(cell(grip::spec_of(place.id)?, self.value_of.run(place)?, system))
    }
}

/// The handle whose button lies under a pointer.
fn grip_under(event: &PointerEvent) -> Option<usize> {
    let element = event.target()?.dyn_into::<web_sys::Element>().ok()?;
    element.closest("[data-grip]").ok()??.get_attribute("data-grip")?.parse().ok()
}

/// One handle: a punch mark with room for a thumb around it.
#[component]
fn Handle(
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
fn Strip(
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
