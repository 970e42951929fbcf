//! What a drawing's handles, their strip and its pointer have in common.

use super::grip;
use super::hold::Hold;
use super::sheet::{Grip, Sheet};
use crate::dom::El;
use crate::picture::{At, nearest};
use crate::signal::{Memo, State};
use leptos::prelude::*;
use trialfit_core::scene::Point;
use trialfit_core::show::{Shown, System, cell};
use trialfit_core::spec::Place;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, KeyboardEvent, PointerEvent};

/// Which handle: its number in the scene and what it changes. Both, as scenes come and go under a gesture.
pub(super) type Key = (usize, Place);

/// How far from a handle a tap still means it, in pixels.
const REACH: f64 = 26.0;

/// A step, in the sense of the input or of the screen.
#[derive(Clone, Copy)]
pub(super) enum Nudge {
    /// So many steps more (or less).
    By(i32),
    /// So many steps in this direction on the screen.
    Toward(At, i32),
}

impl Nudge {
    pub(super) fn of_key(event: &KeyboardEvent) -> Option<Self> {
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
pub(super) struct Control {
    /// The element the picture stands in.
    pub(super) stands: StoredValue<El, LocalStorage>,
    pub(super) sheet: Memo<Result<Sheet, String>>,
    pub(super) armed: State<Option<Key>>,
    pub(super) value_of: Callback<Place, Option<f64>>,
}

impl Control {
    pub(super) fn read<T>(self, of: impl FnOnce(&Sheet) -> T) -> Option<T> {
        self.sheet.with_untracked(|sheet| sheet.as_ref().ok().map(of))
    }

    /// Something of a handle, while it is there.
    pub(super) fn grip<T>(self, (index, place): Key, of: impl FnOnce(&Grip) -> T) -> Option<T> {
        self.sheet.with(|sheet| sheet.as_ref().ok()?.grips.get(index).filter(|grip| grip.place == place).map(of))
    }

    pub(super) fn nearest(self, at: At, preferred: Option<usize>) -> Option<Key> {
        let found = |sheet: &Sheet| {
            let index = nearest(sheet.grips.iter().map(|grip| grip.at), at, REACH, preferred)?;
            Some((index, sheet.grips[index].place))
        };
        self.read(found).flatten()
    }

    /// The first handle of an input.
    pub(super) fn key_of(self, place: Place) -> Option<Key> {
        self.read(|sheet| sheet.grips.iter().position(|grip| grip.place == place)).flatten().map(|index| (index, place))
    }

    /// Whether two handles stand at one spot.
    pub(super) fn together(self, one: Key, other: Key) -> bool {
        let at = |key| self.grip(key, |grip| grip.at);
        one == other || at(one).zip(at(other)).is_some_and(|(one, other)| (one - other).length() < 1.5)
    }

    /// Handles that stand where this one does, itself first.
    pub(super) fn spot(self, key: Key) -> Vec<(Place, Point)> {
        let all = |sheet: &Sheet| {
            let mine = sheet.grips.get(key.0).map(|grip| (grip.place, grip.per));
            let others = sheet.grips.iter().enumerate().filter(|&(index, grip)| index != key.0 && self.together(key, (index, grip.place)));
            mine.into_iter().chain(others.map(|(_, grip)| (grip.place, grip.per))).collect()
        };
        self.read(all).unwrap_or_default()
    }

    pub(super) fn hold(self, key: Key, pointer: i32, at: At, one_only: bool) -> Option<Hold> {
        let fit = self.read(|sheet| sheet.fit)?;
        let valued = self.spot(key).into_iter().filter_map(|(place, per)| Some((place, per, self.value_of.run(place)?)));
        Some(Hold::new(pointer, at, fit, valued, one_only))
    }

    pub(super) fn nudged(self, key: Key, way: Nudge) -> Option<(Place, f64)> {
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
    pub(super) fn arm(self, key: Key) {
        self.armed.set(Some(key));
        self.focus(&format!("[data-grip=\"{}\"]", key.0));
    }

    /// Focuses the first of the picture's elements that `selector` finds.
    pub(super) fn focus(self, selector: &str) {
        let found = self.stands.with_value(|stands| stands.element().query_selector(selector).ok().flatten());
        if let Some(button) = found.and_then(|found| found.dyn_into::<HtmlElement>().ok()) {
            _ = button.focus();
        }
    }

    /// The value in force as text and as a voice says it.
    pub(super) fn shown(self, place: Place, system: System) -> Option<Shown> {
        Some(cell(grip::spec_of(place.id)?, self.value_of.run(place)?, system))
    }
}

/// The handle whose button lies under a pointer.
pub(super) fn grip_under(event: &PointerEvent) -> Option<usize> {
    let element = event.target()?.dyn_into::<Element>().ok()?;
    element.closest("[data-grip]").ok()??.get_attribute("data-grip")?.parse().ok()
}
