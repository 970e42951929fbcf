//! The one choice that matters in a calculator: a slider through the trade's steps, buttons that repeat, a field to type
//! in, and undo beside what it undoes.

use crate::bench::{Bench, spec_of};
use crate::dom::{El, button, el, item, value_in};
use crate::field::entry::Entry;
use crate::field::input;
use crate::field::slider::{slider, step_button};
use crate::figure::{figure, unit};
use crate::page::focus_later;
use crate::signal::{State, memo};
use crate::table::{declared, row_name};
use crate::words;
use trialfit_core::calculators::ALL;
use trialfit_core::spec::{Id, Place, RowId, TableId};

/// The choice of a calculator. Where it is made in each row of a table, of the row that is worst off, or another.
pub fn the_choice(calculator: u8) -> Vec<El> {
    let id = ALL[usize::from(calculator)].choice;
    match spec_of(id.into()).table {
        None => vec![choice_at(id.into())],
        Some(table) => choice_in_rows(id, table),
    }
}

fn choice_in_rows(id: Id, table: TableId) -> Vec<El> {
    let bench = Bench::get();
    let rows = memo(move || bench.build().with(|build| build.rows(table).to_vec()));
    let worst = bench.look_now(|build, report| report.worst(build, id.calculator));
    let worst = worst.filter(|(_, place)| spec_of(*place).table == Some(table)).and_then(|(_, place)| place.row);
    let picked = State::new(worst);
    // The picked row may have gone since.
    let row = memo(move || rows.with(|rows| picked.get().filter(|row| rows.contains(row)).or(rows.first().copied())));
    let option = move |row: RowId| el("option").set("value", &row.0.to_string()).says(move || row_name(table, row));
    let options = move || rows.get().into_iter().map(|row| item(row.0, move || option(row))).collect();
    let label = el("label").class("apart").set("for", "choice-row").text(&words::act_of(words::WHICH_ROW, declared(table).label));
    let pick = el("select")
        .class("choice-row")
        .id("choice-row")
        .each(options)
        .value(move || row.get().map(|row| row.0.to_string()).unwrap_or_default())
        .on("change", move |event| picked.set(value_in(&event).parse().ok().map(RowId)));
    let choice = el("div").class("chosen").maybe(move || row.get().map(|row| choice_at(Place { id, row: Some(row) })));
    vec![label, pick, choice]
}

fn choice_at(place: Place) -> El {
    let bench = Bench::get();
    let spec = spec_of(place);
    let entry = Entry::of(place);
    let turn = entry.and_then(|entry| {
        let slider = slider(entry, "choice-slider")?;
        let turn = el("div").class("turn").child(step_button(entry, false, "choice-less"));
        Some(turn.child(slider).child(step_button(entry, true, "choice-more")))
    });
    let redoes = bench.redoes();
    let symbol = move || entry.filter(|entry| !entry.brings_unit()).map(|entry| unit(entry.after()));
    let line = el("div")
        .class("line")
        .child(el("label").set("for", "choice").text(spec.label))
        .child(input(place, entry, "choice", "choice-note"))
        .maybe(symbol)
        // The way forth, while there is one, takes its room.
        .maybe(move || entry.and_then(Entry::beside).filter(|_| redoes.get().is_none()).map(|beside| figure(&beside)))
        .child(undo_and_redo());
    let problem = move || entry.and_then(Entry::problem).unwrap_or_default();
    el("section")
        .class("choice")
        .set("data-choice", &bench.key(place))
        .set("aria-label", spec.label)
        .children(turn)
        .child(line)
        .child(el("p").class("problem").id("choice-note").says(problem))
}

/// Takes the last gesture back, or brings it back.
fn undo_and_redo() -> El {
    let bench = Bench::get();
    let (undoes, redoes) = (bench.undoes(), bench.redoes());
    let sign = |sign: &str| el("span").set("aria-hidden", "true").text(sign);
    let undo = button("quiet", "undo")
        .bind("aria-label", move || Some(words::acts_on(words::UNDO, undoes.get())))
        .flag("aria-disabled", move || undoes.get().is_none())
        .child(sign("↶"))
        .on_press(move || bench.undo());
    let redo = button("quiet", "redo")
        .bind("aria-label", move || Some(words::acts_on(words::REDO, redoes.get())))
        .bind("hidden", move || redoes.get().is_none().then(String::new))
        .child(sign("↷"))
        .on_press(move || {
            bench.redo();
            if redoes.get_untracked().is_none() {
                focus_later("undo".into());
            }
        });
    // In this order, so that the way back stays where it is when the way forth comes and goes.
    el("span").class("acts").child(redo).child(undo)
}
