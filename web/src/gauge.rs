//! The gauge mark: a pointer inside, at, or past two limit ticks; none where nothing is known. Always beside its word.

use crate::dom::{El, el, svg};
use trialfit_core::spec::Verdict;

/// The mark alone.
pub fn mark(verdict: Verdict) -> El {
    // The ticks stand at 9 and 31 of 40.
    let pointer = match verdict {
        Verdict::Within => "M20 12L17 1H23Z",
        Verdict::Near => "M31 12L28 1H34Z",
        Verdict::Beyond => "M37 12L34 1H40Z",
        Verdict::Unknown => "",
    };
    let line = |class: &str, d: &str| svg("path").class(class).set("d", d);
    let mark = svg("svg").class("mark").set("data-verdict", verdict.word()).set("viewBox", "0 0 40 16").set("width", "40");
    let mark = mark.set("height", "16").set("aria-hidden", "true").set("focusable", "false");
    let mark = mark.child(line("scale", "M1 14H39")).child(line("ticks", "M9 14V4M31 14V4"));
    if pointer.is_empty() { mark } else { mark.child(line("pointer", pointer)) }
}

/// The mark and its word.
pub fn verdict(verdict: Verdict) -> El {
    let word = el("span").class("word").text(verdict.word());
    el("span").class("verdict").set("data-verdict", verdict.word()).child(mark(verdict)).child(word)
}
