//! The frame a picture stands in, as the browser lays it out.

use super::At;
use crate::dom::El;
use crate::signal::State;
use leptos::prelude::*;
use wasm_bindgen::prelude::*;
use web_sys::{Element, MouseEvent, ResizeObserver};

/// Size of a picture and of its words, in CSS pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Frame {
    pub(crate) width: f64,
    pub(crate) height: f64,
    /// Size of the letters.
    pub(crate) em: f64,
}

impl Frame {
    /// Before the browser has said anything: the narrow screen the page is designed for.
    pub(crate) const USUAL: Self = Self { width: 328.0, height: 300.0, em: 13.0 };

    fn of(element: &Element) -> Self {
        let style = window().get_computed_style(element).ok().flatten();
        let em = style.and_then(|style| style.get_property_value("font-size").ok()?.trim_end_matches("px").parse().ok());
        let (width, height) = (f64::from(element.client_width()), f64::from(element.client_height()));
        // Nothing is laid out smaller than this; it then shows scaled down.
        Self { width: width.max(120.0), height: height.max(90.0), em: em.unwrap_or(Self::USUAL.em) }
    }

    pub(crate) fn view_box(self) -> String {
        format!("0 0 {} {}", self.width, self.height)
    }
}

/// Watches an element's size for as long as it is kept.
struct Watch {
    observer: ResizeObserver,
    _told: Closure<dyn FnMut()>,
}

impl Drop for Watch {
    fn drop(&mut self) {
        self.observer.disconnect();
    }
}

/// The size of an element, kept current.
pub(crate) fn frame_of(stands: &El) -> State<Frame> {
    let frame = State::new(Frame::USUAL);
    let element = stands.element().clone();
    let told = Closure::<dyn FnMut()>::new(move || {
        let now = Frame::of(&element);
        // Hidden, or not yet in the page: keep what was.
        if element.client_width() > 0 && frame.get_untracked() != now {
            frame.set(now);
        }
    });
    if let Ok(observer) = ResizeObserver::new(told.as_ref().unchecked_ref()) {
        observer.observe(stands.element());
        StoredValue::new_local(Watch { observer, _told: told });
    }
    frame
}

/// Where in an element a pointer is.
pub(crate) fn pointer_in(stands: &El, event: &MouseEvent) -> At {
    let corner = stands.element().get_bounding_client_rect();
    At::new(f64::from(event.client_x()) - corner.left(), f64::from(event.client_y()) - corner.top())
}
