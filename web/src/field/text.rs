//! A field of words.

use crate::bench::{Bench, spec_of};
use crate::dom::{El, el, value_in};
use crate::history::Gesture;
use crate::language;
use trialfit_core::build::Origin;
use trialfit_core::spec::Place;

/// Words, at most as many letters as were declared.
pub fn text_input(place: Place, most: u16, id: &str, note: &str) -> El {
    let bench = Bench::get();
    el("input")
        .class("words")
        .id(id)
        .set("type", "text")
        .set("dir", "auto")
        .set("autocomplete", "off")
        .set("maxlength", &most.to_string())
        .set("aria-describedby", note)
        .value(move || match bench.origin(place) {
            Origin::Usual => language::says(&bench.text(place)).into_owned(),
            _ => bench.text(place),
        })
        .on("input", move |event| {
            // Control characters go; the length is held by the field itself.
            let kept: String = value_in(&event).chars().take(usize::from(most)).collect();
            bench.edit(Gesture::Typing(place), spec_of(place).label, move |build| _ = build.set_text(place, &kept));
        })
        .on("blur", move |_| bench.finish())
}
