//! Sending the car: a link that carries it, with the answer in words, to copy or hand to the device's own way of sharing.

use crate::answer::sentence;
use crate::bench::Bench;
use crate::copy::{Copied, copy};
use crate::words;
use leptos::prelude::*;
use leptos::task::spawn_local;
use trialfit_core::calculators::ALL;
use trialfit_core::share::link::{self, Link, NOTE};
use trialfit_core::show;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(js_name = Navigator)]
    type Sharer;
    /// The device's own way of sharing; not every browser has one.
    #[wasm_bindgen(thread_local_v2, js_name = navigator)]
    static SHARER: Sharer;
    #[wasm_bindgen(method, getter, js_name = share)]
    fn can_share(this: &Sharer) -> Option<js_sys::Function>;
    #[wasm_bindgen(method)]
    fn share(this: &Sharer, what: &web_sys::ShareData) -> js_sys::Promise;
}

/// The address of this page that carries a link.
pub fn address_of(link: Link) -> String {
    let page = window().location().href().unwrap_or_default();
    format!("{}#{}", page.split('#').next().unwrap_or_default(), link::write(&link))
}

/// The window to send from.
#[component]
pub fn Send(looking: RwSignal<u8>) -> impl IntoView {
    let bench = Bench::get();
    let note = RwSignal::new(String::new());
    let show = RwSignal::new(String::new());
    let address = Memo::new(move |_| {
        let show = show.get();
        let show = if show.is_empty() { ALL[usize::from(looking.get())].key.to_owned() } else { show };
        address_of(Link { build: bench.build().get(), note: note.get(), show })
    });
    let text = Memo::new(move |_| {
        let it = ALL[usize::from(looking.get())];
        format!("{}: {}\n{}", it.label, show::sentence(&sentence(looking.get()), bench.system()), address.get())
    });
    let copied = RwSignal::new(None);
    let can_share = SHARER.with(|sharer| sharer.can_share().is_some());
    let share = move |_| {
        let what = web_sys::ShareData::new();
        what.set_title(words::APP);
        what.set_text(&text.get_untracked());
        let shared = JsFuture::from(SHARER.with(|sharer| sharer.share(&what)));
        // Whoever breaks it off needs no message.
        spawn_local(async move { _ = shared.await });
    };
    let places = move || {
        let at = looking.get();
        let declared = ALL[usize::from(at)].specs.iter().enumerate().filter(|(_, spec)| spec.table.is_none());
        let option = |(ordinal, spec): (usize, &trialfit_core::spec::Spec)| {
            let id = trialfit_core::spec::Id { calculator: at, ordinal: ordinal as u8 };
            view! { <option value=bench.key(id.into())>{spec.label}</option> }
        };
        declared.map(option).collect_view()
    };
    view! {
        <h2>{words::SEND_TITLE}</h2>
        <p class="note">{words::SEND_WORDS}</p>
        <label for="send-note">{words::SEND_NOTE}</label>
        <input class="words" id="send-note" type="text" dir="auto" maxlength=NOTE.to_string() on:input:target=move |event| note.set(event.target().value())/>
        <label for="send-show">{words::SEND_SHOW}</label>
        <select id="send-show" on:change:target=move |event| show.set(event.target().value())>
            <option value="">{words::SEND_SHOW_NOTHING}</option>
            {places}
        </select>
        <label for="send-link">{words::SEND_LINK}</label>
        <input class="words" id="send-link" type="text" readonly prop:value=move || address.get()/>
        <label for="send-text">{words::SEND_TEXT}</label>
        <textarea id="send-text" rows="4" readonly prop:value=move || text.get()></textarea>
        <p class="acts">
            <button type="button" id="copy-link" on:click=move |_| copy("send-link".into(), copied)>{words::COPY_LINK}</button>
            <button type="button" id="copy-words" on:click=move |_| copy("send-text".into(), copied)>{words::COPY_WORDS}</button>
            {can_share.then(|| view! { <button type="button" id="share" on:click=share>{words::SHARE}</button> })}
            <Copied copied/>
        </p>
    }
}
