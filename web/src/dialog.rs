//! Windows over the page, as the browser makes them: it holds the focus inside and gives it back, and Esc closes.

use crate::words;
use leptos::html;
use leptos::prelude::*;

/// A button and the window it opens. What stands in the window is made when it opens.
#[component]
pub fn Dialog(id: &'static str, label: &'static str, children: ChildrenFn) -> impl IntoView {
    let node = NodeRef::<html::Dialog>::new();
    let open = RwSignal::new(false);
    let show = move |_| {
        open.set(true);
        if let Some(dialog) = node.get_untracked() {
            _ = dialog.show_modal();
        }
    };
    let close = move |_| {
        if let Some(dialog) = node.get_untracked() {
            dialog.close();
        }
    };
    let children = StoredValue::new(children);
    view! {
        <button type="button" class="quiet" id=format!("open-{id}") aria-haspopup="dialog" on:click=show>{label}</button>
        <dialog id=id node_ref=node aria-label=label on:close=move |_| open.set(false)>
            <Show when=move || open.get()>{children.with_value(|children| children())}</Show>
            <p class="acts"><button type="button" id=format!("close-{id}") on:click=close>{words::CLOSE}</button></p>
        </dialog>
    }
}

/// A window that opens and closes with `asked`; closing it by Esc is a refusal.
#[component]
pub fn Question(
    id: &'static str,
    title: &'static str,
    asked: RwSignal<bool>,
    refused: impl Fn() + 'static,
    children: Children,
) -> impl IntoView {
    let node = NodeRef::<html::Dialog>::new();
    Effect::new(move |_| {
        let Some(dialog) = node.get() else { return };
        match (asked.get(), dialog.open()) {
            (true, false) => _ = dialog.show_modal(),
            (false, true) => dialog.close(),
            _ => {}
        }
    });
    let close = move |_| {
        if asked.get_untracked() {
            refused();
        }
    };
    let heading = format!("{id}-title");
    view! {
        <dialog id=id node_ref=node aria-labelledby=heading.clone() on:close=close>
            <h2 id=heading.clone()>{title}</h2>
            {children()}
        </dialog>
    }
}
