//! The one choice that matters in a calculator: a slider through the trade's steps, buttons that repeat, a field to type
//! in, and undo beside what it undoes.

use crate::bench::{Bench, spec_of};
use crate::field::entry::Entry;
use crate::field::number::NumberInput;
use crate::field::options::Options;
use crate::field::slider::{Slider, StepButton, fraction};
use crate::stops::Stops;
use crate::table::{declared, row_name};
use crate::words;
use leptos::prelude::*;
use trialfit_core::calculators::ALL;
use trialfit_core::spec::{Id, Kind, Place, RowId, TableId};

/// The choice of a calculator. Where it is made in each row of a table, of the row that is worst off, or another.
#[component]
pub fn TheChoice(calculator: u8) -> impl IntoView {
    let id = ALL[usize::from(calculator)].choice;
    match spec_of(id.into()).table {
        None => view! { <ChoiceAt place=id.into()/> }.into_any(),
        Some(table) => view! { <ChoiceInRows id table/> }.into_any(),
    }
}

#[component]
fn ChoiceInRows(id: Id, table: TableId) -> impl IntoView {
    let bench = Bench::get();
    let rows = Memo::new(move |_| bench.build().with(|build| build.rows(table).to_vec()));
    let worst = bench.look_now(|build, report| report.worst(build, id.calculator));
    let worst = worst.filter(|(_, place)| spec_of(*place).table == Some(table)).and_then(|(_, place)| place.row);
    let picked = RwSignal::new(worst);
    // The picked row may have gone since.
    let row = Memo::new(move |_| rows.with(|rows| picked.get().filter(|row| rows.contains(row)).or(rows.first().copied())));
    let option = move |row: RowId| view! { <option value=row.0.to_string()>{move || row_name(table, row)}</option> };
    view! {
        <label class="apart" for="choice-row">{words::act_of(words::WHICH_ROW, declared(table).label)}</label>
        <select class="choice-row" id="choice-row" prop:value=move || row.get().map(|row| row.0.to_string())
            on:change:target=move |event| picked.set(event.target().value().parse().ok().map(RowId))>
            <For each=move || rows.get() key=|row| row.0 let:row>{option(row)}</For>
        </select>
        {move || row.get().map(|row| view! { <ChoiceAt place=Place { id, row: Some(row) }/> })}
    }
}

#[component]
fn ChoiceAt(place: Place) -> impl IntoView {
    let bench = Bench::get();
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
