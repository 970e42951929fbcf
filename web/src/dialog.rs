//! Windows over the page, as the browser makes them: it holds the focus inside and gives it back, and Esc closes.

use crate::dom::{El, button, el};
use crate::follow::follow;
use crate::signal::State;
use crate::words;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlDialogElement;

/// A button and the window it opens. What stands in the window is made when it opens.
pub fn dialog(id: &'static str, label: &'static str, inside: impl Fn() -> Vec<El> + 'static) -> [El; 2] {
    let open = State::new(false);
    let window = el("dialog").id(id).set("aria-label", label);
    let shown: HtmlDialogElement = window.element().clone().unchecked_into();
    let closed = shown.clone();
    let open_it = button("quiet", &format!("open-{id}")).set("aria-haspopup", "dialog").text(label).on_press(move || {
        open.set(true);
        _ = shown.show_modal();
    });
    let close = button("", &format!("close-{id}")).text(words::CLOSE).on_press(move || closed.close());
    let window = window
        .many(move || if open.get() { untrack(&inside) } else { Vec::new() })
        .child(el("p").class("acts").child(close))
        .on("close", move |_| open.set(false));
    [open_it, window]
}

/// Closes such a window.
pub fn close(id: &str) {
    if let Some(window) = document().get_element_by_id(id) {
        window.unchecked_into::<HtmlDialogElement>().close();
    }
}

/// A window that opens and closes with `asked`; closing it by Esc is a refusal.
pub fn question(id: &'static str, title: &str, asked: State<bool>, refused: impl Fn() + 'static) -> El {
    let heading = format!("{id}-title");
    // The focus is on no answer: a key that was meant for a field would give it.
    let head = el("h2").id(&heading).set("tabindex", "-1").set("autofocus", "").text(title);
    let window = el("dialog").id(id).set("aria-labelledby", &heading).child(head);
    let window = window.on("close", move |_| {
        if asked.get_untracked() {
            refused();
        }
    });
    let shown: HtmlDialogElement = window.element().clone().unchecked_into();
    follow(move || match (asked.get(), shown.open()) {
        (true, false) => _ = shown.show_modal(),
        (false, true) => shown.close(),
        _ => {}
    });
    window
}
