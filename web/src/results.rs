//! Results: every answer of a calculator with its verdict, its reason when unknown, and its caution beside it.

use crate::bench::{Bench, spec_of};
use crate::dom::{El, el, folded, item};
use crate::field::{beside, shown};
use crate::figure::figure;
use crate::gauge;
use crate::pictures::show_working;
use crate::signal::memo;
use crate::table::{columns, declared, row_name, rows_of};
use crate::words;
use trialfit_core::build::Build;
use trialfit_core::calculators::ALL;
use trialfit_core::report::Report;
use trialfit_core::show;
use trialfit_core::spec::{Id, Place, Role, RowId, TableId, Verdict};

/// The outputs of a calculator: judged ones first, then what leads to them, then each table's.
pub fn results(calculator: u8) -> El {
    let specs = ALL[usize::from(calculator)].specs;
    let outputs = specs.iter().enumerate().filter(|(_, spec)| spec.role == Role::Output);
    let (mut judged, mut others, mut tables) = (Vec::new(), Vec::new(), Vec::new());
    for (ordinal, spec) in outputs {
        let place = Place::from(Id { calculator, ordinal: ordinal as u8 });
        match spec.table {
            None if spec.is_judged() => judged.push(place),
            None => others.push(place),
            Some(table) if tables.contains(&table) => {}
            Some(table) => tables.push(table),
        }
    }
    let headed = !judged.is_empty() && !others.is_empty();
    let list = |places: Vec<Place>| places.into_iter().fold(el("div").class("outcomes"), |list, place| list.later(move || outcome(place)));
    el("section")
        .class("results")
        .id("results")
        .set("tabindex", "-1")
        .set("aria-labelledby", "results-title")
        .child(el("h2").id("results-title").text(words::RESULTS))
        .child(list(judged))
        .children(headed.then(|| el("h3").text(words::ON_THE_WAY)))
        .child(list(others))
        .children(tables.into_iter().map(|table| outcomes_by_row(calculator, table)))
        .child(el("p").class("caution").text(words::RULES_FIRST))
}

/// The answers a calculator gives for each row of a table. Made when opened: a table may have many rows.
fn outcomes_by_row(calculator: u8, table: TableId) -> El {
    let bench = Bench::get();
    // By the calculator that answers, as the keys of the answers are.
    let key = format!("{}.{}.results", ALL[usize::from(calculator)].key, declared(table).key);
    let rows = rows_of(table);
    let worst = memo(move || {
        let judged = columns(calculator, table, Role::Output).into_iter().filter(|&id| spec_of(id.into()).is_judged());
        bench.look(|build, report| {
            let verdicts = judged.flat_map(|id| build.layout().places_of(id).map(|place| report.verdict(build, place)).max());
            verdicts.max()
        })
    });
    let in_row = move |row: RowId| {
        let outcomes = columns(calculator, table, Role::Output).into_iter().map(|id| outcome(Place { id, row: Some(row) }));
        el("section")
            .class("by-row")
            .child(el("h4").child(el("bdi").says(move || row_name(table, row))))
            .child(el("div").class("outcomes").children(outcomes))
    };
    let all = move || rows.get().into_iter().map(|row| item(row.0, move || in_row(row))).collect();
    let summary = el("summary")
        .child(el("h3").text(declared(table).label))
        .child(el("span").class("count").says(move || words::rows(rows.with(Vec::len))))
        .maybe(move || worst.get().map(gauge::verdict));
    let details = el("details").class("row-more").set("data-key", &key).child(summary);
    folded(details, move || el("div").each(all))
}

/// One answer.
pub fn outcome(place: Place) -> El {
    let bench = Bench::get();
    let spec = spec_of(place);
    let key = bench.key(place);
    let found = memo(move || bench.look(|build, report| (report.value(place).ok(), report.verdict(build, place))));
    let value = move || {
        Some(match found.get().0 {
            Some(value) => figure(&show::cell(spec, value, bench.system())),
            None => el("span").class("figure").child(el("b").text("?")),
        })
    };
    let verdict = move || {
        let verdict = found.get().1;
        (spec.is_judged() || verdict == Verdict::Unknown).then(|| gauge::verdict(verdict))
    };
    let notes = memo(move || bench.look(|build, report| notes(place, build, report)));
    let says = el("p").class("says").child(el("span").class("what").text(spec.label));
    el("article")
        .class("outcome")
        .id(&key)
        .set("data-key", &key)
        .set("tabindex", "-1")
        .bind("data-verdict", move || Some(found.get().1.word().to_owned()))
        .child(says.text(" ").maybe(value).text(" ").maybe(verdict))
        .child(el("p").class("help").text(spec.help))
        .many(move || notes.get().iter().map(|note| el("p").class("note").text(note)).collect())
        .children((!spec.caution.is_empty()).then(|| el("p").class("caution").text(spec.caution)))
        .children(show_working(place, &key))
}

/// Why it is unknown, what limits it, and what it rests on that nobody measured. Tracked.
fn notes(place: Place, build: &Build, report: &Report) -> Vec<String> {
    let spec = spec_of(place);
    let mut notes = Vec::new();
    if let Err(why) = report.value(place) {
        notes.push(why.reason(report.layout()));
    }
    for limit in spec.limits.iter().flatten() {
        let mark = |id: Id| shown(beside(id, place));
        notes.push(words::limit(limit.sense, mark(limit.beyond).as_ref(), limit.near.and_then(mark).as_ref()));
    }
    let guessed = report.guesses(build, place.id);
    if !guessed.is_empty() {
        notes.push(words::rests_on(&guessed.into_iter().map(|id| spec_of(id.into()).label).collect::<Vec<_>>()));
    }
    if spec.estimate {
        notes.push(words::ESTIMATE.to_owned());
    }
    notes
}
