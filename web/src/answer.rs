//! The answer: the calculator's sentence with its verdict, what it does not use of what was typed, and, when a limit is
//! passed, the caution that belongs to it.

use crate::bench::{Bench, spec_of};
use crate::field::shown;
use crate::figure::{pieces, spoken};
use crate::gauge;
use crate::words;
use leptos::prelude::*;
use trialfit_core::calculators::ALL;
use trialfit_core::sentence::Sentence;
use trialfit_core::spec::{Place, Role, Verdict};

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
    view! {
        <section class="answer" aria-labelledby="answer-title" data-key=format!("{}.answer", it.key) data-verdict=move || said.get().verdict.word()>
            <h2 id="answer-title" class="apart">{words::ANSWER}</h2>
            <p class="question">{it.question}</p>
            {move || gauge::verdict(said.get().verdict)}
            // Seen and heard apart: units have names that a voice would not guess.
            <p class="sentence" id="answer" aria-hidden="true">{move || pieces(&said.get().pieces, bench.system())}</p>
            <p class="apart" id="answer-spoken">{move || spoken(&said.get(), bench.system())}</p>
            {move || unused.get().into_iter().map(|words| view! { <p class="problem">{words}</p> }).collect_view()}
        </section>
    }
}

/// The same in one line, for while a keypad covers most of the screen.
#[component]
pub fn OneLine(calculator: u8) -> impl IntoView {
    let bench = Bench::get();
    let said = Memo::new(move |_| sentence(calculator));
    view! {
        <p class="one-line" aria-hidden="true">
            {move || gauge::mark(said.get().verdict)} {move || pieces(&said.get().pieces, bench.system())}
        </p>
    }
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
