//! Copying a field's text: by the clipboard where the browser lets us, else it is marked for the reader to copy.

use crate::dom::{El, el};
use crate::signal::State;
use crate::words;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use wasm_bindgen_futures::spawn_local;
use web_sys::{HtmlInputElement, HtmlTextAreaElement};

#[wasm_bindgen]
extern "C" {
    /// Absent outside https and localhost.
    #[wasm_bindgen(thread_local_v2, js_namespace = navigator, js_name = clipboard)]
    static CLIPBOARD: Option<web_sys::Clipboard>;
}

/// Copies the text of the field with this id; `copied` becomes true when it was, false when only marked.
pub fn copy(id: &str, copied: State<Option<bool>>) {
    let Some(element) = document().get_element_by_id(id) else { return };
    let text = match element.dyn_ref::<HtmlTextAreaElement>() {
        Some(area) => {
            area.select();
            area.value()
        }
        None => {
            let select = |input: &HtmlInputElement| {
                input.select();
                input.value()
            };
            element.dyn_ref().map(select).unwrap_or_default()
        }
    };
    let Some(clipboard) = CLIPBOARD.with(Clone::clone) else {
        copied.set(Some(false));
        return;
    };
    spawn_local(async move {
        let written = JsFuture::from(clipboard.write_text(&text)).await;
        copied.set(Some(written.is_ok()));
    });
}

/// What became of it. Stands in a window, where the page's own live region is not heard.
pub fn copied_or_not(copied: State<Option<bool>>) -> El {
    el("span").class("note").set("role", "status").says(move || match copied.get() {
        Some(true) => words::COPIED.to_owned(),
        Some(false) => words::COPY_BY_HAND.to_owned(),
        None => String::new(),
    })
}
