//! Choices: chips where there are few and their words short, a list otherwise.

use crate::bench::{Bench, spec_of};
use crate::history::Gesture;
use crate::words;
use leptos::ev::MouseEvent;
use leptos::prelude::*;
use trialfit_core::spec::{Choice, Place};

/// Most chips, and most letters of one.
const CHIPS: usize = 4;
const LETTERS: usize = 14;

/// The ways of a choice to choose from.
#[component]
pub fn Options(place: Place, choices: &'static [Choice], id: String, note: String) -> impl IntoView {
    if choices.len() <= CHIPS && choices.iter().all(|choice| choice.label.chars().count() <= LETTERS) {
        view! { <Chips place choices id note/> }.into_any()
    } else {
        view! { <List place choices id note/> }.into_any()
    }
}

#[component]
fn Chips(place: Place, choices: &'static [Choice], id: String, note: String) -> impl IntoView {
    let bench = Bench::get();
    let value = bench.value(place);
    let chips = choices.iter().enumerate().map(|(ordinal, choice)| {
        let number = ordinal as f64;
        let take = move |event: MouseEvent| {
            bench.set(Gesture::Once, place, number);
            if bench.value_now(place) != Ok(number) {
                event.prevent_default(); // not taken: the chip goes back
            }
        };
        view! {
            <label class="chip">
                <input
                    type="radio"
                    name=id.clone()
                    id=format!("{id}.{}", choice.key)
                    data-choice=choice.key
                    prop:checked=move || value.get() == Ok(number)
                    on:click=take
                />
                <span>{choice.label}</span>
            </label>
        }
    });
    view! {
        <span class="chips" id=id.clone() role="radiogroup" aria-label=spec_of(place).label aria-describedby=note>
            {chips.collect_view()}
        </span>
    }
}

#[component]
fn List(place: Place, choices: &'static [Choice], id: String, note: String) -> impl IntoView {
    let bench = Bench::get();
    let value = bench.value(place);
    let ordinal = Memo::new(move |_| value.get().map_or(String::new(), |value| (value as usize).to_string()));
    let options = choices.iter().enumerate().map(|(at, choice)| {
        view! { <option value=at.to_string() data-choice=choice.key>{choice.label}</option> }
    });
    let none = move || value.get().is_err().then(|| view! { <option value="">{words::NOT_GIVEN}</option> });
    view! {
        <select
            id=id
            prop:value=move || ordinal.get()
            aria-describedby=note
            on:change:target=move |event| {
                let select = event.target();
                if let Ok(number) = select.value().parse() {
                    bench.set(Gesture::Once, place, number);
                }
                select.set_value(&ordinal.get_untracked());
            }
        >
            {none}
            {options.collect_view()}
        </select>
    }
}
