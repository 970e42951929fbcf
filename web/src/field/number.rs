//! The text field of a number, with a row of keys that phones' keypads lack.

use super::entry::Entry;
use crate::bench::Bench;
use crate::words;
use leptos::ev::{FocusEvent, KeyboardEvent, PointerEvent};
use leptos::html;
use leptos::prelude::*;
use web_sys::{HtmlInputElement, SelectionMode};

/// A field to type a quantity into; `note` is the id of the line that says what is wrong with it.
#[component]
pub fn NumberInput(entry: Entry, id: String, note: String) -> impl IntoView {
    let bench = Bench::get();
    let node = NodeRef::<html::Input>::new();
    let focused = RwSignal::new(false);
    let letters = RwSignal::new(false);
    let leave = move |_: FocusEvent| {
        focused.set(false);
        letters.set(false);
        bench.typing.set(false);
        entry.leave();
    };
    let press = move |event: KeyboardEvent| match event.key().as_str() {
        "ArrowUp" | "ArrowDown" => {
            event.prevent_default();
            entry.nudge(event.key() == "ArrowUp");
        }
        "Enter" => entry.leave(),
        "Escape" => entry.drop_text(),
        _ => {}
    };
    view! {
        <input
            node_ref=node
            class="number"
            id=id
            type="text"
            inputmode=move || if letters.get() { "text" } else { "decimal" }
            enterkeyhint="done"
            autocomplete="off"
            autocapitalize="off"
            spellcheck="false"
            placeholder=move || entry.value.get().is_err().then_some(words::NOT_GIVEN)
            prop:value=move || entry.text()
            aria-describedby=note
            aria-invalid=move || entry.problem().is_some().then_some("true")
            on:input:target=move |event| entry.take(event.target().value())
            on:focus=move |_| {
                focused.set(true);
                bench.typing.set(true);
            }
            on:blur=leave
            on:keydown=press
        />
        <Show when=move || focused.get()>
            <Keys entry node letters/>
        </Show>
    }
}

/// Sign, slash, space, units, and a way to the keypad with letters. Shown where the pointer is a finger.
#[component]
fn Keys(entry: Entry, node: NodeRef<html::Input>, letters: RwSignal<bool>) -> impl IntoView {
    let system = Bench::get().settings.with_untracked(|settings| settings.system);
    let (unit, other) = entry.units(system);
    let write = move |what: &'static str| {
        with_input(node, |input| {
            let end = |at: Result<Option<u32>, _>| at.ok().flatten().unwrap_or_else(|| input.value().encode_utf16().count() as u32);
            let (from, to) = (end(input.selection_start()), end(input.selection_end()));
            _ = input.set_range_text_with_start_and_end_and_selection_mode(what, from, to, SelectionMode::End);
            entry.take(input.value());
        });
    };
    let turn_sign = move || {
        with_input(node, |input| {
            let text = input.value();
            let bare = text.trim_start().trim_start_matches(['-', '−']);
            input.set_value(&if bare.len() == text.trim_start().len() { format!("-{bare}") } else { bare.to_owned() });
            entry.take(input.value());
        });
    };
    let to_letters = move || {
        letters.update(|letters| *letters = !*letters);
        // The keypad changes only when the field is entered anew.
        with_input(node, |input| _ = input.blur().and_then(|()| input.focus()));
    };
    let units = [Some(unit), other].into_iter().flatten().filter(|unit| !unit.symbol.is_empty());
    let units = units.map(|unit| key(unit.symbol, unit.spoken, move || write(unit.symbol))).collect_view();
    view! {
        <span class="keys">
            {key("−", words::MINUS_KEY, turn_sign)} {key("/", words::SLASH_KEY, move || write("/"))}
            {key("␣", words::SPACE_KEY, move || write(" "))} {units} {key("abc", words::LETTERS_KEY, to_letters)}
        </span>
    }
}

fn with_input(node: NodeRef<html::Input>, act: impl FnOnce(&HtmlInputElement)) {
    if let Some(input) = node.get_untracked() {
        act(&input);
    }
}

/// A key that leaves the focus in the field. It is not in the tab order: a keyboard has it already.
fn key(sign: &'static str, spoken: &'static str, press: impl Fn() + 'static) -> AnyView {
    let stay = |event: PointerEvent| event.prevent_default();
    view! {
        <button type="button" tabindex="-1" aria-label=spoken on:pointerdown=stay on:mousedown=|event| event.prevent_default() on:click=move |_| press()>
            {sign}
        </button>
    }
    .into_any()
}
