//! Copying a field's text: by the clipboard where the browser lets us, else it is marked for the reader to copy.

use crate::words;
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{HtmlInputElement, HtmlTextAreaElement};

#[wasm_bindgen]
extern "C" {
    /// Absent outside https and localhost.
    #[wasm_bindgen(thread_local_v2, js_namespace = navigator, js_name = clipboard)]
    static CLIPBOARD: Option<web_sys::Clipboard>;
}

/// Copies the text of the field with this id; `copied` becomes true when it was, false when only marked.
pub fn copy(id: String, copied: RwSignal<Option<bool>>) {
    let Some(element) = document().get_element_by_id(&id) else { return };
    let text = match element.dyn_ref::<HtmlTextAreaElement>() {
        Some(area) => {
            area.select();
            area.value()
        }
        None => element
            .dyn_ref::<HtmlInputElement>()
            .map(|input| {
                input.select();
                input.value()
            })
            .unwrap_or_default(),
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

/// What became of it.
#[component]
pub fn Copied(copied: RwSignal<Option<bool>>) -> impl IntoView {
    move || {
        copied
            .get()
            .map(|copied| view! { <span class="note" role="status">{if copied { words::COPIED } else { words::COPY_BY_HAND }}</span> })
    }
}
