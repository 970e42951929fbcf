//! A table of rows: a card for each, to fill in, move and remove; rows keep their identity throughout.

use crate::bench::{Bench, spec_of};
use crate::field::{Field, shown};
use crate::history::Gesture;
use crate::page::focus_later;
use crate::words;
use leptos::prelude::*;
use trialfit_core::calculators::ALL;
use trialfit_core::spec::{Id, Kind, Place, Role, RowId, Table, TableId};

/// With more inputs than this in a row, a card shows a line and opens on demand.
const ALWAYS_OPEN: usize = 3;

/// What was declared of a table.
pub fn declared(table: TableId) -> &'static Table {
    &ALL[usize::from(table.calculator)].tables[usize::from(table.table)]
}

/// Columns of one role that a calculator declares, in the order of declaration; the table may be another's.
pub fn columns(calculator: u8, table: TableId, role: Role) -> Vec<Id> {
    let specs = ALL[usize::from(calculator)].specs.iter().enumerate();
    let columns = specs.filter(|(_, spec)| spec.table == Some(table) && spec.role == role);
    columns.map(|(ordinal, _)| Id { calculator, ordinal: ordinal as u8 }).collect()
}

/// What a row is called: its words where it has some, else its number in the table. Tracked.
pub fn row_name(table: TableId, row: RowId) -> String {
    let bench = Bench::get();
    let is_text = |id: &Id| matches!(spec_of((*id).into()).kind, Kind::Text(_));
    let words = columns(table.calculator, table, Role::Input).into_iter().find(is_text);
    bench.build().with(|build| {
        let number = build.rows(table).iter().position(|&other| other == row).map_or(0, |at| at + 1);
        let words = words.map(|id| build.text(Place { id, row: Some(row) })).filter(|words| !words.is_empty());
        words.map_or_else(|| number.to_string(), |words| format!("{number} {words}"))
    })
}

/// The rows of a table as cards, with the columns of one calculator. Rows come, go and move where the table is declared.
#[component]
pub fn Rows(calculator: u8, table: TableId) -> impl IntoView {
    let bench = Bench::get();
    let Table { label, help, least, most, .. } = *declared(table);
    let key = bench.build().with_untracked(|build| build.layout().table_key(table));
    let rows = Memo::new(move |_| bench.build().with(|build| build.rows(table).to_vec()));
    let full = move || rows.with(Vec::len) >= usize::from(most);
    let add = {
        let key = key.clone();
        move |_| {
            if full() {
                return;
            }
            bench.edit(Gesture::Once, label, move |build| _ = build.add_row(table));
            let last = rows.with_untracked(|rows| rows.last().copied());
            if let (Some(row), Some(&first)) = (last, columns(calculator, table, Role::Input).first()) {
                focus_later(format!("{key}.{}.{}", row.0, spec_of(first.into()).key));
            }
        }
    };
    let own = calculator == table.calculator;
    let (add_id, table_key) = (format!("{key}.add"), key.clone());
    view! {
        <div class="table" data-key=table_key role="group" aria-label=label>
            <h4>{label} " " <span class="count">{move || words::rows(rows.with(Vec::len))}</span></h4>
            <p class="help">{help}</p>
            <ol class="rows">
                <For each=move || rows.get() key=|row| row.0 let:row>
                    <Row calculator table row rows least key=key.clone()/>
                </For>
            </ol>
            {own.then(|| view! { <button type="button" class="quiet" id=add_id aria-label=words::act_of(words::ADD_ROW, label)
                aria-disabled=move || full().then_some("true") on:click=add>
                {words::ADD_ROW}
            </button> })}
        </div>
    }
}

#[component]
fn Row(calculator: u8, table: TableId, row: RowId, rows: Memo<Vec<RowId>>, least: u16, key: String) -> impl IntoView {
    let bench = Bench::get();
    let columns = columns(calculator, table, Role::Input);
    let name = Memo::new(move |_| row_name(table, row));
    let key = format!("{key}.{}", row.0);
    let fields = columns.iter().map(|&id| view! { <Field place=Place { id, row: Some(row) }/> }).collect_view();
    let card = if columns.len() > ALWAYS_OPEN {
        let line = Memo::new(move |_| summary(calculator, table, row));
        view! {
            <details class="row-more" data-key=format!("{key}.row")>
                <summary><b><bdi>{move || name.get()}</bdi></b> " " <span class="note">{move || line.get()}</span></summary>
                <div class="fields">{fields}</div>
            </details>
        }
        .into_any()
    } else {
        view! { <b class="row-name"><bdi>{move || name.get()}</bdi></b> <div class="fields">{fields}</div> }.into_any()
    };
    let place_in = move || rows.with(|rows| rows.iter().position(|&other| other == row).unwrap_or(0));
    let at_end = move |up: bool| if up { place_in() == 0 } else { place_in() + 1 >= rows.with(Vec::len) };
    let step = move |up: bool, id: String| {
        let from = untrack(place_in);
        let to = if up { from.checked_sub(1) } else { Some(from + 1) };
        let Some(to) = to else { return };
        let mut order = rows.get_untracked();
        if to < order.len() {
            order.swap(from, to);
            bench.edit(Gesture::Once, declared(table).label, move |build| _ = build.set_rows(table, &order));
        }
        focus_later(id);
    };
    let fewest = move || rows.with(Vec::len) <= usize::from(least);
    let remove = {
        let table_key = key.rsplit_once('.').map_or_else(String::new, |(table, _)| table.to_owned());
        move |_| {
            if untrack(fewest) {
                return;
            }
            let at = untrack(place_in);
            let rest: Vec<RowId> = rows.get_untracked().into_iter().filter(|&other| other != row).collect();
            // The focus goes on to the row that takes this one's place.
            let next = rest.get(at.min(rest.len().saturating_sub(1))).map(|next| format!("{table_key}.{}.remove", next.0));
            bench.edit(Gesture::Once, declared(table).label, move |build| _ = build.set_rows(table, &rest));
            focus_later(next.unwrap_or_else(|| format!("{table_key}.add")));
        }
    };
    let mover = |up: bool, sign: &'static str, act: &'static str, id: String| {
        let to = id.clone();
        view! {
            <button type="button" class="quiet" id=id aria-label=move || words::act_of(act, &name.get())
                aria-disabled=move || at_end(up).then_some("true") on:click=move |_| step(up, to.clone())>
                <span aria-hidden="true">{sign}</span>
            </button>
        }
    };
    view! {
        <li class="row" data-key=key.clone()>
            {card}
            {(calculator == table.calculator).then(|| view! { <p class="acts">
                {mover(true, "↑", words::MOVE_UP, format!("{key}.up"))}
                {mover(false, "↓", words::MOVE_DOWN, format!("{key}.down"))}
                <button type="button" class="quiet" id=format!("{key}.remove") aria-label=move || words::act_of(words::REMOVE_ROW, &name.get())
                    aria-disabled=move || fewest().then_some("true") on:click=remove>
                    {words::REMOVE_ROW}
                </button>
            </p> })}
        </li>
    }
}

/// The first values of a row in a line.
fn summary(calculator: u8, table: TableId, row: RowId) -> String {
    let numbers = columns(calculator, table, Role::Input).into_iter().filter(|&id| !matches!(spec_of(id.into()).kind, Kind::Text(_)));
    let shown = numbers.take(ALWAYS_OPEN).filter_map(|id| shown(Place { id, row: Some(row) }));
    shown.map(|shown| shown.to_string()).collect::<Vec<_>>().join(" · ")
}
