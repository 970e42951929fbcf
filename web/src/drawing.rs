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

use crate::dom::{El, as_event, el, item, svg};
use crate::picture::{At, Frame, frame_of, pointer_in};
use crate::signal::{Memo, State, memo, memo_from};
use control::{Control, Key, Nudge, grip_under};
use fit::Extent;
use handle::{handle, strip};
use hold::Hold;
use leptos::prelude::*;
use sheet::Sheet;
use trialfit_core::scene::Scene;
use trialfit_core::show::System;
use trialfit_core::spec::Place;
use web_sys::{KeyboardEvent, PointerEvent};

/// A finger that moved less than this has tapped.
const TAP: f64 = 8.0;

/// A finger that went down and may turn out to tap; on a handle or beside all of them.
#[derive(Clone, Copy)]
struct Touch {
    pointer: i32,
    from: At,
    key: Option<Key>,
}

/// What a drawing asks and tells.
///
/// Between `begin` and `end` lies one gesture, to be undone at once. `call_off` ends a gesture in the place of `end`:
/// everything is to stand as before `begin`.
#[derive(Clone, Copy)]
pub struct Hands {
    /// The value in force of a handle's input, SI.
    pub value_of: Callback<Place, Option<f64>>,
    pub begin: Callback<()>,
    /// The input takes this value, SI.
    pub change: Callback<(Place, f64)>,
    pub end: Callback<()>,
    pub call_off: Callback<()>,
}

/// The drawing of a scene, or why there is none, in the height its container gives it.
pub fn drawing(scene: Memo<Result<Scene, String>>, units: Memo<System>, hands: Hands) -> El {
    let whole = el("div").class("drawing");
    let frame = frame_of(&whole);
    let kept = State::new(None);
    let sheet = memo(move || {
        let lay_out = |scene: &Scene| sheet::lay_out(scene, frame.get(), units.get(), kept.get());
        scene.with(|scene| scene.as_ref().map(lay_out).map_err(Clone::clone))
    });
    let armed = State::new(None::<Key>);
    let touch = StoredValue::new(None::<Touch>);
    let hold = StoredValue::new(None::<Hold>);
    let wide = memo_from(move |was: Option<&bool>| {
        let was = was.copied().unwrap_or(false);
        scene.with(|scene| scene.as_ref().map_or(was, |scene| Extent::of(scene).is_wide(was)))
    });
    let stands = StoredValue::new_local(whole.clone());
    let control = Control { stands, sheet, armed, value_of: hands.value_of };
    let at = move |event: &PointerEvent| stands.with_value(|stands| pointer_in(stands, event));

    let begin = move || {
        kept.set(control.read(|sheet| sheet.fit));
        hands.begin.run(());
    };
    let end = move || {
        kept.set(None);
        hands.end.run(());
    };
    let let_go = move |called_off: bool| {
        let held = hold.try_update_value(Option::take).flatten();
        if held.is_some_and(|held| held.moved()) {
            if called_off {
                kept.set(None);
                hands.call_off.run(());
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
            hands.change.run((place, value));
            if alone {
                end();
            }
        }
    };

    let pressed = move |event: &PointerEvent| {
        if hold.with_value(|held| held.as_ref().is_some_and(|held| held.pointer != Some(event.pointer_id()))) {
            touch.set_value(None);
            return let_go(true);
        }
        if !event.is_primary() || event.button() != 0 {
            return;
        }
        let at = at(event);
        let key = control.nearest(at, grip_under(event));
        let at_once = event.pointer_type() != "touch";
        let holdable = key.filter(|&key| at_once || armed.get_untracked().is_some_and(|armed| control.together(armed, key)));
        if let Some(key) = holdable {
            // The page must not scroll, select or move the focus elsewhere while a handle is held.
            event.prevent_default();
            stands.with_value(|stands| _ = stands.element().set_pointer_capture(event.pointer_id()));
            let key = armed.get_untracked().filter(|&armed| control.together(armed, key)).unwrap_or(key);
            control.arm(key);
            hold.set_value(control.hold(key, event.pointer_id(), at, !at_once));
        } else {
            touch.set_value(Some(Touch { pointer: event.pointer_id(), from: at, key }));
        }
    };
    let moved = move |event: &PointerEvent| {
        let mine = |held: &&mut Hold| held.pointer == Some(event.pointer_id());
        let step = hold.try_update_value(|held| held.as_mut().filter(mine).map(|held| (!held.moved(), held.moved_to(at(event)))));
        let Some((first, changes)) = step.flatten() else { return };
        if first && hold.with_value(|held| held.as_ref().is_some_and(Hold::moved)) {
            begin();
            // A finger has chosen one of the handles at the spot by the way it set out: that one is armed from here on.
            if let [(place, _)] = changes[..]
                && let Some(key) = control.key_of(place)
            {
                control.arm(key);
            }
        }
        for change in changes {
            hands.change.run(change);
        }
    };
    let released = move |event: &PointerEvent| {
        let_go(false);
        let Some(tap) = touch.try_update_value(Option::take).flatten().filter(|tap| tap.pointer == event.pointer_id()) else { return };
        if (at(event) - tap.from).length() < TAP {
            match tap.key {
                Some(key) => control.arm(key),
                None => armed.set(None),
            }
        }
    };
    let stopped = move || {
        touch.set_value(None);
        let_go(true);
    };
    let escape = move |event: &KeyboardEvent| {
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

    let of_scene = move |of: fn(&Scene) -> &String| scene.with(|scene| scene.as_ref().map(|scene| of(scene).clone()).unwrap_or_default());
    let described = move || of_scene(|scene| &scene.description);
    let reason = move || sheet.with(|sheet| sheet.as_ref().err().cloned());
    let handles = move || {
        let grips = |sheet: &Sheet| sheet.grips.iter().map(|grip| grip.place).enumerate().collect::<Vec<Key>>();
        let keys = sheet.with(|sheet| sheet.as_ref().map(grips).unwrap_or_default());
        keys.into_iter().map(|key| item(grip_key(key), move || handle(key, control, units, key_down, key_up))).collect()
    };
    // Made anew for another handle, not when its value changes.
    let present = memo(move || armed.get().filter(|&key| control.grip(key, |_| ()).is_some()));
    let picture = svg("svg")
        .class("drawing-sheet")
        .class_when("drawing-empty", move || reason().is_some())
        .set("role", "img")
        .bind("aria-label", move || Some(of_scene(|scene| &scene.title)))
        .bind("viewBox", move || Some(frame.get().view_box()))
        .child(svg("desc").says(described))
        .child(svg("g").drawn(move || sheet.with(|sheet| sheet.as_ref().map(|sheet| sheet.svg.clone()).unwrap_or_default())));
    whole
        .class_when("drawing-wide", move || wide.get())
        .on("pointerdown", move |event| pressed(as_event(&event)))
        .on("pointermove", move |event| moved(as_event(&event)))
        .on("pointerup", move |event| released(as_event(&event)))
        .on("pointercancel", move |_| stopped())
        .on("keydown", move |event| escape(as_event(&event)))
        .child(picture)
        .child(el("p").class("drawing-words").says(described))
        .maybe(move || reason().map(|why| el("p").class("drawing-none").text(&why)))
        .each(handles)
        .maybe(move || {
            let key = present.get()?;
            Some(untrack(|| strip(key, control, units, frame, move |way| nudge(key, way))))
        })
}

/// The drawing of a scene that nobody takes hold of, in a frame of this size.
pub fn still(scene: &Scene, width: f64, height: f64, system: System) -> El {
    let frame = Frame { width, height, em: 10.0 };
    let scene = Scene { handles: Vec::new(), ..scene.clone() };
    svg("svg")
        .class("drawing-sheet")
        .set("role", "img")
        .set("aria-label", &scene.title)
        .set("viewBox", &frame.view_box())
        .child(svg("desc").text(&scene.description))
        .child(svg("g").drawn(move || sheet::lay_out(&scene, frame, system, None).svg))
}

/// A picture that is only looked at.
pub fn resting(scene: Scene, units: Memo<System>) -> El {
    let whole = el("div").class("drawing still");
    let frame = frame_of(&whole);
    let picture = svg("svg")
        .class("drawing-sheet")
        .set("role", "img")
        .set("aria-label", &scene.title)
        .bind("viewBox", move || Some(frame.get().view_box()))
        .child(svg("desc").text(&scene.description))
        .child(svg("g").drawn(move || sheet::lay_out(&scene, frame.get(), units.get(), None).svg));
    whole.child(picture)
}

/// A handle's name among the others, the same from one scene to the next.
fn grip_key((index, place): Key) -> String {
    format!("{index} {} {} {}", place.id.calculator, place.id.ordinal, place.row.map_or(0, |row| row.0))
}
