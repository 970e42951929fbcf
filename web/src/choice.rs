//! The one choice that matters in a calculator: a slider through the trade's steps, buttons that repeat, a field to type
//! in, and undo beside what it undoes.

use crate::bench::{Bench, spec_of};
use crate::field::entry::Entry;
use crate::field::number::NumberInput;
use crate::field::options::Options;
use crate::field::slider::{Slider, StepButton, fraction};
use crate::stops::Stops;
use crate::words;
use leptos::prelude::*;
use trialfit_core::calculators::ALL;
use trialfit_core::spec::Kind;

/// The choice of a calculator.
#[component]
pub fn TheChoice(calculator: u8) -> impl IntoView {
    let bench = Bench::get();
    let place = ALL[usize::from(calculator)].choice.into();
    let spec = spec_of(place);
    let entry = Entry::of(place);
    let turn = entry.zip(Stops::of(spec)).map(|(entry, stops)| {
        view! {
            <div class="turn">
                <StepButton entry up=false id="choice-less".into()/>
                <Slider entry stops id="choice-slider".into()/>
                <StepButton entry up=true id="choice-more".into()/>
            </div>
        }
    });
    let input = match (spec.kind, entry) {
        (Kind::Choice(choices), _) => view! { <Options place choices id="choice".into() note="choice-note".into()/> }.into_any(),
        (_, Some(entry)) => view! { <NumberInput entry id="choice".into() note="choice-note".into()/> }.into_any(),
        _ => ().into_any(),
    };
    let unit = move || entry.map(|entry| entry.units(bench.system()).0.symbol);
    let named = move || entry.and_then(fraction).map(|fraction| crate::figure::figure(&fraction));
    view! {
        <section class="choice" data-choice=bench.key(place) aria-label=spec.label>
            {turn}
            <div class="line">
                <label for="choice">{spec.label}</label>
                <span class="entry">{input}</span>
                <span class="unit">{unit}</span>
                {named}
                <UndoRedo/>
            </div>
            <p class="problem" id="choice-note">{move || entry.and_then(Entry::problem)}</p>
        </section>
    }
}

/// Takes the last gesture back, or brings it back.
#[component]
fn UndoRedo() -> impl IntoView {
    let bench = Bench::get();
    let (undoes, redoes) = (bench.undoes(), bench.redoes());
    let redo = move |_| {
        bench.redo();
        if redoes.get_untracked().is_none() {
            crate::page::focus_later("undo".into());
        }
    };
    view! {
        <span class="acts">
            <button type="button" class="quiet" id="undo" aria-label=move || words::acts_on(words::UNDO, undoes.get())
                aria-disabled=move || undoes.get().is_none().then_some("true") on:click=move |_| bench.undo()>
                <span aria-hidden="true">"↶"</span>
            </button>
            <button type="button" class="quiet" id="redo" hidden=move || redoes.get().is_none() aria-label=move || words::acts_on(words::REDO, redoes.get())
                on:click=redo>
                <span aria-hidden="true">"↷"</span>
            </button>
        </span>
    }
}
