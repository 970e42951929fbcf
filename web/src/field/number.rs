//! The text field of a number, with a row of keys that phones' keypads lack.

use super::entry::Entry;
use crate::bench::Bench;
use crate::dom::{El, as_event, button, el, value_in};
use crate::signal::State;
use crate::words;
use wasm_bindgen::JsCast;
use web_sys::{HtmlInputElement, KeyboardEvent, SelectionMode};

/// A field to type a quantity into, and its keys; `note` is the id of the line that says what is wrong with it.
pub fn number_input(entry: Entry, id: &str, note: &str) -> El {
    let bench = Bench::get();
    let focused = State::new(false);
    let letters = State::new(false);
    let input = el("input")
        .class("number")
        .id(id)
        .set("type", "text")
        .set("enterkeyhint", "done")
        .set("autocomplete", "off")
        .set("autocapitalize", "off")
        .set("spellcheck", "false")
        .set("aria-describedby", note)
        .bind("inputmode", move || Some(if letters.get() { "text" } else { "decimal" }.to_owned()))
        .bind("placeholder", move || entry.value.get().is_err().then(|| words::NOT_GIVEN.to_owned()))
        .flag("aria-invalid", move || entry.problem().is_some())
        .value(move || entry.text())
        .on("input", move |event| {
            if !bench.typing.get_untracked() {
                bench.typing.set(true);
            }
            entry.take(value_in(&event));
        })
        .on("focus", move |_| {
            focused.set(true);
            bench.typing.set(true);
        })
        .on("blur", move |_| {
            focused.set(false);
            letters.set(false);
            bench.typing.set(false);
            entry.leave();
        })
        .on("keydown", move |event| match as_event::<KeyboardEvent>(&event).key().as_str() {
            key @ ("ArrowUp" | "ArrowDown") => {
                event.prevent_default();
                entry.nudge(key == "ArrowUp");
            }
            // Not every keypad's key for that leaves the field; the ways on from here come back all the same.
            "Enter" => {
                entry.leave();
                bench.typing.set(false);
            }
            "Escape" => entry.drop_text(),
            _ => {}
        });
    let node: HtmlInputElement = input.element().clone().unchecked_into();
    el("span").class("entry").child(input).when(move || focused.get(), move || keys(entry, &node, letters))
}

/// Sign, slash, space, units, and a way to the keypad with letters. Shown where the pointer is a finger.
fn keys(entry: Entry, input: &HtmlInputElement, letters: State<bool>) -> El {
    let key = |sign: &str, spoken: &str, press: Box<dyn Fn(&HtmlInputElement)>| {
        let input = input.clone();
        // Spoken as it is written where that is letters.
        let name = if sign.starts_with(char::is_alphabetic) { words::act_of(sign, spoken) } else { spoken.to_owned() };
        // The focus stays in the field. Not in the tab order: a keyboard has these keys already.
        button("", "")
            .set("tabindex", "-1")
            .set("aria-label", &name)
            .text(sign)
            .on("pointerdown", |event| event.prevent_default())
            .on("mousedown", |event| event.prevent_default())
            .on_press(move || press(&input))
    };
    let write = |what: &'static str| -> Box<dyn Fn(&HtmlInputElement)> {
        Box::new(move |input| {
            let end = |at: Result<Option<u32>, _>| at.ok().flatten().unwrap_or_else(|| input.value().encode_utf16().count() as u32);
            let (from, to) = (end(input.selection_start()), end(input.selection_end()));
            _ = input.set_range_text_with_start_and_end_and_selection_mode(what, from, to, SelectionMode::End);
            entry.take(input.value());
        })
    };
    let turn_sign = move |input: &HtmlInputElement| {
        let text = input.value();
        let bare = text.trim_start().trim_start_matches(['-', '−']);
        input.set_value(&if bare.len() == text.trim_start().len() { format!("-{bare}") } else { bare.to_owned() });
        entry.take(input.value());
    };
    let to_letters = move |input: &HtmlInputElement| {
        letters.update(|letters| *letters = !*letters);
        // The keypad changes only when the field is entered anew.
        _ = input.blur().and_then(|()| input.focus());
    };
    let units = entry.units(Bench::get().system()).into_iter().filter(|unit| !unit.symbol.is_empty());
    el("span")
        .class("keys")
        .child(key("−", words::MINUS_KEY, Box::new(turn_sign)))
        .child(key("/", words::SLASH_KEY, write("/")))
        .child(key("␣", words::SPACE_KEY, write(" ")))
        .children(units.map(|unit| key(unit.symbol, unit.spoken, write(unit.symbol))))
        .child(key("abc", words::LETTERS_KEY, Box::new(to_letters)))
}
