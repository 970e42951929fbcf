//! The gauge mark: a pointer inside, at, or past two limit ticks; none where nothing is known. Always beside its word.

use leptos::prelude::*;
use trialfit_core::spec::Verdict;

/// The mark alone.
pub fn mark(verdict: Verdict) -> AnyView {
    // The ticks stand at 9 and 31 of 40.
    let pointer = match verdict {
        Verdict::Within => Some(20),
        Verdict::Near => Some(31),
        Verdict::Beyond => Some(37),
        Verdict::Unknown => None,
    };
    let pointer = pointer.map(|x| {
        let needle = format!("M{x} 12L{} 1H{}Z", x - 3, x + 3);
        view! { <path class="pointer" d=needle></path> }
    });
    view! {
        <svg class="mark" data-verdict=verdict.word() viewBox="0 0 40 16" width="40" height="16" aria-hidden="true" focusable="false">
            <path class="scale" d="M1 14H39"></path>
            <path class="ticks" d="M9 14V4M31 14V4"></path>
            {pointer}
        </svg>
    }
    .into_any()
}

/// The mark and its word.
pub fn verdict(verdict: Verdict) -> AnyView {
    view! { <span class="verdict" data-verdict=verdict.word()>{mark(verdict)}<span class="word">{verdict.word()}</span></span> }.into_any()
}
