//! Choices: chips where there are few and their words short, a list otherwise.

use crate::bench::{Bench, spec_of};
use crate::dom::{El, el, put_value, value_in};
use crate::history::Gesture;
use crate::language;
use crate::words;
use trialfit_core::spec::{Choice, Place};

/// Most chips, and most letters of one.
const CHIPS: usize = 4;
const LETTERS: usize = 14;

/// The ways of a choice to choose from.
pub fn options(place: Place, choices: &'static [Choice], id: &str, note: &str) -> El {
    if choices.len() <= CHIPS && choices.iter().all(|choice| language::says(choice.label).chars().count() <= LETTERS) {
        chips(place, choices, id, note)
    } else {
        list(place, choices, id, note)
    }
}

/// One radio button that looks like a chip.
pub fn chip(name: &str, id: &str, label: &str, now: impl Fn() -> bool + 'static) -> (El, El) {
    named_chip(name, id, el("span").text(label), now)
}

/// The same with a label of one's own making.
pub fn named_chip(name: &str, id: &str, label: El, now: impl Fn() -> bool + 'static) -> (El, El) {
    let radio = el("input").set("type", "radio").set("name", name).id(id).prop("checked", move || now().into());
    (el("label").class("chip").child(radio.clone()).child(label), radio)
}

fn chips(place: Place, choices: &'static [Choice], id: &str, note: &str) -> El {
    let bench = Bench::get();
    let value = bench.value(place);
    let chip = |(ordinal, choice): (usize, &Choice)| {
        let number = ordinal as f64;
        let (chip, radio) = chip(id, &format!("{id}.{}", choice.key), choice.label, move || value.get() == Ok(number));
        _ = radio.set("data-choice", choice.key).on("click", move |event| {
            bench.set(Gesture::Once, place, number);
            if bench.value_now(place) != Ok(number) {
                event.prevent_default(); // not taken: the chip goes back
            }
        });
        chip
    };
    el("span")
        .class("chips")
        .id(id)
        .set("role", "radiogroup")
        .set("aria-label", spec_of(place).label)
        .set("aria-describedby", note)
        .children(choices.iter().enumerate().map(chip))
}

fn list(place: Place, choices: &'static [Choice], id: &str, note: &str) -> El {
    let bench = Bench::get();
    let value = bench.value(place);
    let ordinal = move |value: Result<f64, _>| value.map_or_else(|_| String::new(), |value| (value as usize).to_string());
    let option =
        |(at, choice): (usize, &Choice)| el("option").set("value", &at.to_string()).set("data-choice", choice.key).text(choice.label);
    // Always there: a property can only take the value of an option that is.
    let none = el("option").set("value", "").bind("hidden", move || value.get().is_ok().then(String::new)).text(words::NOT_GIVEN);
    el("select")
        .id(id)
        .set("aria-describedby", note)
        .child(none)
        .children(choices.iter().enumerate().map(option))
        .value(move || ordinal(value.get()))
        .on("change", move |event| {
            if let Ok(number) = value_in(&event).parse() {
                bench.set(Gesture::Once, place, number);
            }
            put_value(&event, &ordinal(bench.value_now(place)));
        })
}
