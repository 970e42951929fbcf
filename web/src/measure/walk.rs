//! A table's numbers one by one: where to measure, a large field, on to the next.

use crate::bench::{Bench, spec_of};
use crate::dom::{El, as_event, button, el};
use crate::field::entry::Entry;
use crate::field::number::number_input;
use crate::field::{note, shown};
use crate::figure;
use crate::page::focus_later;
use crate::signal::{State, memo};
use crate::table::{columns, row_name, rows_of};
use crate::words;
use leptos::prelude::*;
use trialfit_core::build::Origin;
use trialfit_core::measure::Guide;
use trialfit_core::report::lower_first;
use trialfit_core::spec::{Place, Role, TableId};
use web_sys::KeyboardEvent;

/// The walk through a table, from `place` on.
pub(super) fn walk(table: TableId, place: Place) -> Vec<El> {
    let bench = Bench::get();
    let rows = rows_of(table);
    let columns = columns(table.calculator, table, Role::Input);
    let walked: Vec<_> = columns.into_iter().filter(|&id| spec_of(id.into()).guide == Some(Guide::Walk(table))).collect();
    let first = walked.first().copied();
    let stops = memo(move || {
        let in_row = |row| walked.iter().map(move |&id| Place { id, row: Some(row) });
        rows.with(|rows| rows.iter().flat_map(|&row| in_row(row)).collect::<Vec<Place>>())
    });
    let at = State::new(stops.with_untracked(|stops| stops.iter().position(|stop| *stop == place).unwrap_or(0)));
    let now = memo(move || stops.with(|stops| stops.get(at.get()).copied()));
    let last = move || at.get() + 1 >= stops.with(Vec::len);
    let go = move |on: bool| {
        let to = if on { at.get_untracked() + 1 } else { at.get_untracked().wrapping_sub(1) };
        if to < stops.with_untracked(Vec::len) {
            at.set(to);
            focus_later("measure.value".into());
        }
    };
    let measured = move || {
        let own = |stop: &&Place| matches!(bench.origin(**stop), Origin::Own | Origin::Part(_));
        stops.with(|stops| words::measured(stops.iter().filter(own).count(), stops.len()))
    };
    // Where the row lies, while another of its numbers is asked.
    let lies = move |place: Place| {
        let place = Place { id: first.filter(|&id| id != place.id)?, ..place };
        Some(format!(", {} {}", lower_first(spec_of(place).label), shown(place)?))
    };
    let row = move || {
        let Some((place, row)) = now.get().and_then(|place| Some((place, place.row?))) else { return String::new() };
        row_name(table, row) + &lies(place).unwrap_or_default()
    };
    let step = |id: &str, word: &'static str, on: bool| {
        let ends = move || if on { last() } else { at.get() == 0 };
        button("", id).flag("aria-disabled", ends).text(word).on_press(move || untrack(|| go(on)))
    };
    let forwards = move |event: &KeyboardEvent| {
        if event.key() == "Enter" {
            untrack(|| go(true));
        }
    };
    vec![
        el("p")
            .class("count")
            .id("measure.progress")
            .says(move || format!("{} {}", words::stop_of(at.get() + 1, stops.with(Vec::len)), measured())),
        el("p").child(el("bdi").says(row)),
        el("div")
            .class("walk")
            .on("keydown", move |event| forwards(as_event(&event)))
            .maybe(move || now.get().map(|place| untrack(|| stop(place)))),
        el("p").class("steps").child(step("measure.back", words::PREVIOUS, false)).child(step("measure.on", words::NEXT, true)),
    ]
}

/// One number.
fn stop(place: Place) -> El {
    let spec = spec_of(place);
    let entry = Entry::of(place);
    let said = memo(move || note(place, entry));
    let unit = move || entry.map(|entry| figure::unit(entry.unit(Bench::get().system()).symbol));
    el("div")
        .class_when("wrong", move || said.with(|(wrong, _)| *wrong))
        .child(el("label").set("for", "measure.value").text(spec.label).text(" ").maybe(unit))
        .child(el("p").class("help").text(spec.help))
        .children(super::sketch(place))
        .children(entry.map(|entry| number_input(entry, "measure.value", "measure.note")))
        .child(el("span").class("note").id("measure.note").says(move || said.with(|(_, said)| said.clone())))
}
