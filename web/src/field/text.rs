//! A field of words.

use crate::bench::{Bench, spec_of};
use crate::history::Gesture;
use leptos::prelude::*;
use trialfit_core::spec::Place;

/// Words, at most as many letters as were declared.
#[component]
pub fn TextInput(place: Place, most: u16, id: String, note: String) -> impl IntoView {
    let bench = Bench::get();
    let words = Memo::new(move |_| bench.build().with(|build| build.text(place).to_owned()));
    let take = move |text: String| {
        // Control characters go; the length is held by the field itself.
        let kept: String = text.chars().take(usize::from(most)).collect();
        bench.edit(Gesture::Typing(place), spec_of(place).label, move |build| _ = build.set_text(place, &kept));
    };
    view! {
        <input
            class="words"
            id=id
            type="text"
            dir="auto"
            autocomplete="off"
            maxlength=most.to_string()
            prop:value=move || words.get()
            aria-describedby=note
            on:input:target=move |event| take(event.target().value())
            on:blur=move |_| bench.finish()
        />
    }
}
