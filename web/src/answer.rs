//! The answer: the calculator's sentence with its verdict, what it does not use of what was typed, and, when a limit is
//! passed, the caution that belongs to it.

use crate::bench::{Bench, spec_of};
use crate::field::shown;
use crate::figure::{pieces, spoken};
use crate::gauge;
use crate::words;
use leptos::html;
use leptos::prelude::*;
use trialfit_core::calculators::ALL;
use trialfit_core::sentence::{Piece, Sentence};
use trialfit_core::show::System;
use trialfit_core::spec::{Place, Role, Verdict};
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::*;
use web_sys::{IntersectionObserver, IntersectionObserverEntry};

/// The calculator's answer, tracked.
pub fn sentence(calculator: u8) -> Sentence {
    Bench::get().look(|build, report| (ALL[usize::from(calculator)].sentence)(build, report))
}

/// What fields hold that was not taken, and what stands in force instead. Tracked.
pub fn unused() -> Vec<String> {
    let bench = Bench::get();
    let wrong = |(&place, typed): (&Place, &crate::bench::Typed)| typed.problem.is_some().then_some(place);
    let places: Vec<Place> = bench.typed.with(|typed| typed.iter().filter_map(wrong).collect());
    places.into_iter().map(|place| words::uses(spec_of(place).label, shown(place).as_ref())).collect()
}

/// The worst of a calculator's verdicts and its sentence's.
pub fn worst(calculator: u8) -> Verdict {
    let said = sentence(calculator).verdict;
    let worst = Bench::get().look(|build, report| report.worst(build, calculator));
    worst.map_or(said, |(verdict, _)| verdict.max(said))
}

/// The answer of a calculator.
#[component]
pub fn Answer(calculator: u8) -> impl IntoView {
    let bench = Bench::get();
    let it = ALL[usize::from(calculator)];
    let said = Memo::new(move |_| sentence(calculator));
    let unused = Memo::new(move |_| unused());
    let node = NodeRef::<html::Section>::new();
    tell_when_away(node, bench.away);
    view! {
        <section class="answer" node_ref=node aria-labelledby="answer-title" data-key=format!("{}.answer", it.key) data-verdict=move || said.get().verdict.word()>
            <h2 id="answer-title" class="apart">{words::ANSWER}</h2>
            <p class="question">{it.question}</p>
            // Seen and heard apart: units have names that a voice would not guess.
            <p class="sentence" aria-hidden="true">
                {move || said.with(mark)} " " <span id="answer">{move || pieces(&said.get().pieces, bench.system())}</span>
            </p>
            <p class="apart" id="answer-spoken">{move || said.with(|said| heard(said, bench.system()))}</p>
            {move || unused.get().into_iter().map(|words| view! { <p class="problem">{words}</p> }).collect_view()}
        </section>
    }
}

/// The same in one line, for while the answer is scrolled away or a keypad covers most of the screen.
#[component]
pub fn OneLine(calculator: u8) -> impl IntoView {
    let bench = Bench::get();
    let said = Memo::new(move |_| sentence(calculator));
    view! {
        <p class="one-line" aria-hidden="true">
            {move || said.with(mark)} " " {move || pieces(&said.get().pieces, bench.system())}
        </p>
    }
}

/// Whether a sentence begins with the word of its verdict anyway.
fn says_verdict(said: &Sentence) -> bool {
    let word = said.verdict.word();
    let first = match said.pieces.first() {
        Some(Piece::Words(words)) => words.get(..word.len()).unwrap_or_default(),
        _ => "",
    };
    first.eq_ignore_ascii_case(word)
}

/// The gauge mark, with the word where the sentence does not say it.
fn mark(said: &Sentence) -> AnyView {
    if says_verdict(said) { gauge::mark(said.verdict) } else { gauge::verdict(said.verdict) }
}

/// The sentence as a voice reads it, verdict first.
pub fn heard(said: &Sentence, system: System) -> String {
    let sentence = spoken(said, system);
    if says_verdict(said) { sentence } else { format!("{}: {sentence}", words::capital(said.verdict.word())) }
}

/// Keeps `away` true while the element is out of sight.
fn tell_when_away(node: NodeRef<html::Section>, away: RwSignal<bool>) {
    let seen = Closure::<dyn FnMut(js_sys::Array)>::new(move |entries: js_sys::Array| {
        let last = entries.iter().last().and_then(|entry| entry.dyn_into::<IntersectionObserverEntry>().ok());
        away.set(last.is_some_and(|entry| !entry.is_intersecting()));
    });
    let Ok(observer) = IntersectionObserver::new(seen.as_ref().unchecked_ref()) else { return };
    let watching = observer.clone();
    Effect::new(move |_| {
        if let Some(element) = node.get() {
            watching.observe(&element);
        }
    });
    let kept = StoredValue::new_local(Some((observer, seen)));
    on_cleanup(move || {
        if let Some((observer, _)) = kept.try_update_value(Option::take).flatten() {
            observer.disconnect();
        }
        away.set(false);
    });
}

/// Limits that are passed, with their cautions, where nobody can miss them.
#[component]
pub fn Passed(calculator: u8) -> impl IntoView {
    let bench = Bench::get();
    let passed = Memo::new(move |_| {
        bench.look(|build, report| {
            let outputs = report.layout().places(Role::Output).filter(|place| place.id.calculator == calculator);
            outputs.filter(|&place| report.verdict(build, place) == Verdict::Beyond).collect::<Vec<Place>>()
        })
    });
    let line = move |place: Place| {
        let spec = spec_of(place);
        let there = format!("#{}", bench.key(place));
        view! {
            <li>
                <a href=there>{spec.label}</a> " "
                {move || shown(place).map(|shown| crate::figure::figure(&shown))} " "
                <span class="caution">{spec.caution}</span>
            </li>
        }
    };
    move || {
        (!passed.with(Vec::is_empty)).then(|| {
            view! {
                <ul class="passed" aria-label=words::PASSED>
                    <For each=move || passed.get() key=|place| *place let:place>{line(place)}</For>
                </ul>
            }
        })
    }
}
