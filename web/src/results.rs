//! Results: every answer of a calculator with its verdict, its reason when unknown, and its caution beside it.

use crate::bench::{Bench, spec_of};
use crate::field::shown;
use crate::figure::figure;
use crate::gauge;
use crate::pictures::ShowWorking;
use crate::table::{columns, declared, row_name};
use crate::words;
use leptos::prelude::*;
use trialfit_core::build::{Build, Origin};
use trialfit_core::calculators::ALL;
use trialfit_core::report::{Report, Unknown};
use trialfit_core::show;
use trialfit_core::spec::{Id, Place, Role, RowId, Source, Spec, TableId, Verdict};

/// The outputs of a calculator: judged ones first, then what leads to them, then each table's.
#[component]
pub fn Results(calculator: u8) -> impl IntoView {
    let specs = ALL[usize::from(calculator)].specs;
    let single = (0..specs.len()).map(|ordinal| Id { calculator, ordinal: ordinal as u8 });
    let single = single.filter(|id| specs[usize::from(id.ordinal)].role == Role::Output && specs[usize::from(id.ordinal)].table.is_none());
    let (judged, others): (Vec<Id>, Vec<Id>) = single.partition(|&id| spec_of(id.into()).is_judged());
    let headed = !judged.is_empty() && !others.is_empty();
    let list = |ids: Vec<Id>| view! { <div class="outcomes">{ids.into_iter().map(|id| view! { <Outcome place=id.into()/> }).collect_view()}</div> };
    let mut tables: Vec<TableId> = Vec::new();
    for table in specs.iter().filter(|spec| spec.role == Role::Output).filter_map(|spec| spec.table) {
        if !tables.contains(&table) {
            tables.push(table);
        }
    }
    view! {
        <section class="results" id="results" aria-labelledby="results-title">
            <h2 id="results-title">{words::RESULTS}</h2>
            {list(judged)}
            {headed.then(|| view! { <h3>{words::ON_THE_WAY}</h3> })}
            {list(others)}
            {tables.into_iter().map(|table| view! { <OutcomesByRow calculator table/> }).collect_view()}
            <p class="caution">{words::RULES_FIRST}</p>
        </section>
    }
}

#[component]
fn OutcomesByRow(calculator: u8, table: TableId) -> impl IntoView {
    let bench = Bench::get();
    let key = bench.build().with_untracked(|build| build.layout().table_key(table));
    let rows = Memo::new(move |_| bench.build().with(|build| build.rows(table).to_vec()));
    let outputs = columns(calculator, table, Role::Output);
    let judged: Vec<Id> = outputs.iter().copied().filter(|&id| spec_of(id.into()).is_judged()).collect();
    let worst = Memo::new(move |_| {
        bench.look(|build, report| {
            let places = judged.iter().flat_map(|&id| build.layout().places_of(id));
            places.map(|place| report.verdict(build, place)).max()
        })
    });
    let in_row = move |row: RowId| {
        let outcomes = outputs.iter().map(|&id| view! { <Outcome place=Place { id, row: Some(row) }/> }).collect_view();
        let name = Memo::new(move |_| row_name(table, row));
        view! { <section class="by-row"><h4><bdi>{move || name.get()}</bdi></h4><div class="outcomes">{outcomes}</div></section> }
    };
    view! {
        <details class="row-more" data-key=format!("{key}.results")>
            <summary>
                <h3>{declared(table).label}</h3>
                <span class="count">{move || words::rows(rows.with(Vec::len))}</span>
                {move || worst.get().map(gauge::verdict)}
            </summary>
            <For each=move || rows.get() key=|row| row.0 let:row>
                {in_row(row)}
            </For>
        </details>
    }
}

/// One answer.
#[component]
pub fn Outcome(place: Place) -> impl IntoView {
    let bench = Bench::get();
    let spec = spec_of(place);
    let key = bench.key(place);
    let found = Memo::new(move |_| bench.look(|build, report| (report.value(place), report.standing(build, place))));
    let value = move || match found.get().0 {
        Ok(value) => figure(&show::cell(spec, value, bench.system())),
        Err(_) => view! { <span class="figure"><b>"?"</b></span> }.into_any(),
    };
    let verdict = move || {
        let verdict = found.get().1.verdict;
        (spec.is_judged() || verdict == Verdict::Unknown).then(|| gauge::verdict(verdict))
    };
    let notes = Memo::new(move |_| bench.look(|build, report| notes(place, build, report)));
    view! {
        <article class="outcome" id=key.clone() data-key=key.clone() tabindex="-1" data-verdict=move || found.get().1.verdict.word()>
            <p class="says"><span class="what">{spec.label}</span> " " {value} " " {verdict}</p>
            <p class="help">{spec.help}</p>
            {move || notes.get().into_iter().map(|note| view! { <p class="note">{note}</p> }).collect_view()}
            {(!spec.caution.is_empty()).then(|| view! { <p class="caution">{spec.caution}</p> })}
            <ShowWorking place key=key.clone()/>
        </article>
    }
}

/// Why it is unknown, what limits it, and what it rests on that nobody measured. Tracked.
fn notes(place: Place, build: &Build, report: &Report) -> Vec<String> {
    let spec = spec_of(place);
    let mut notes = Vec::new();
    if let Err(why) = report.value(place) {
        notes.push(reason(why, report));
    }
    for limit in spec.limits.iter().flatten() {
        let mark = |id: Id| shown(Place { id, row: place.row.filter(|_| spec_of(id.into()).table.is_some()) });
        notes.push(words::limit(limit.sense, mark(limit.beyond).as_ref(), limit.near.and_then(mark).as_ref()));
    }
    let guessed = guesses(spec, build);
    if !guessed.is_empty() {
        notes.push(words::rests_on(&guessed));
    }
    if spec.estimate {
        notes.push(words::ESTIMATE.to_owned());
    }
    notes
}

/// Labels of the inputs it rests on that still hold a default.
fn guesses(spec: &Spec, build: &Build) -> Vec<&'static str> {
    let guessed = |&&id: &&Id| {
        let mut places = build.layout().places_of(id);
        places.any(|place| build.origin(place) == Origin::Usual && build.following(place).is_none())
    };
    spec.rests_on.iter().filter(guessed).map(|&id| spec_of(id.into()).label).collect()
}

fn reason(why: Unknown, report: &Report) -> String {
    why.reason(report.layout())
}

/// What the method leaves out, and where the usual values come from.
#[component]
pub fn Method(calculator: u8) -> impl IntoView {
    let it = ALL[usize::from(calculator)];
    let mut sources: Vec<(String, Vec<&'static str>)> = Vec::new();
    for spec in it.specs.iter().filter(|spec| spec.role == Role::Input && spec.source != Source::Definition) {
        let source = spec.source.to_string();
        match sources.iter_mut().find(|(other, _)| *other == source) {
            Some((_, labels)) => labels.push(spec.label),
            None => sources.push((source, vec![spec.label])),
        }
    }
    let sources = sources.into_iter().map(|(source, labels)| view! { <dt>{source}</dt><dd>{labels.join(", ")}</dd> }).collect_view();
    view! {
        <section class="method" id="method" aria-labelledby="method-title">
            <h2 id="method-title">{words::METHOD}</h2>
            <h3>{words::LEAVES_OUT}</h3>
            <ul>{it.leaves_out.iter().map(|words| view! { <li>{*words}</li> }).collect_view()}</ul>
            <details class="row-more"><summary><h3>{words::SOURCES}</h3></summary><dl>{sources}</dl></details>
        </section>
    }
}
