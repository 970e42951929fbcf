//! One input: its label, its field, where its value comes from, and everything that can be done about it.

pub mod entry;
pub mod number;
pub mod options;
pub mod slider;
pub mod text;
pub mod tolerance;

use crate::bench::{Bench, calculator_of, spec_of};
use crate::dom::{El, button, el};
use crate::figure;
use crate::history::Gesture;
use crate::measure;
use crate::page::focus_later;
use crate::parts::shelves;
use crate::signal::{State, memo};
use crate::table::declared;
use crate::words;
use entry::Entry;
use leptos::prelude::*;
use number::number_input;
use options::options;
use slider::slider;
use text::text_input;
use tolerance::tolerance;
use trialfit_core::build::{Build, Origin};
use trialfit_core::shelf;
use trialfit_core::show::{self, Shown};
use trialfit_core::spec::{Id, Kind, Place};

/// One input of the job card.
pub fn field(place: Place) -> El {
    let bench = Bench::get();
    let spec = spec_of(place);
    let key = bench.key(place);
    let note_id = format!("{key}.note");
    let entry = Entry::of(place);
    let said = memo(move || note(place, entry));
    let open = State::new(false);
    let unit = move || {
        let unit = entry.filter(|entry| !entry.brings_unit())?.unit(bench.system());
        (!unit.symbol.is_empty()).then(|| figure::unit(unit.symbol))
    };
    // Words, lists and chips take a line of their own.
    let class = if entry.is_some() { "field" } else { "field wide" };
    let more = button("more", &format!("{key}.more"))
        .bind("aria-expanded", move || Some(open.get().to_string()))
        // Says what stands there, then what it is of.
        .bind("aria-label", move || Some(said.with(|(_, said)| words::act_of(said, spec.label))))
        .child(el("span").id(&note_id).class("note").set("dir", "auto").says(move || said.with(|(_, said)| said.clone())))
        .on_press(move || open.update(|open| *open = !*open));
    el("div")
        .class(class)
        .set("data-key", &key)
        .class_when("wrong", move || said.with(|(wrong, _)| *wrong))
        .class_when("own", move || bench.origin(place) != Origin::Usual)
        .child(el("label").set("for", &key).text(spec.label).text(" ").maybe(unit))
        .child(input(place, entry, &key, &note_id))
        .child(el("span").class("under").child(more).when(move || can_put_back(place), move || put_back_button(place)))
        .when(move || open.get(), move || more_about(place, entry))
}

/// What an input is given with: a field, chips, a list.
pub fn input(place: Place, entry: Option<Entry>, id: &str, note: &str) -> El {
    match (spec_of(place).kind, entry) {
        (Kind::Quantity { .. }, Some(entry)) => number_input(entry, id, note),
        (Kind::Choice(choices), _) => el("span").class("entry").child(options(place, choices, id, note)),
        (Kind::Text(most), _) => el("span").class("entry").child(text_input(place, most, id, note)),
        (Kind::Quantity { .. }, None) => el("span").class("entry"),
    }
}

/// What the line under the field says: what is wrong with it, or where its value comes from.
pub fn note(place: Place, entry: Option<Entry>) -> (bool, String) {
    match entry.and_then(Entry::problem) {
        Some(problem) => (true, problem),
        None => (false, origin(place)),
    }
}

fn origin(place: Place) -> String {
    let bench = Bench::get();
    let spec = spec_of(place);
    let follows = bench.build().with(|build| build.following(place));
    match (bench.origin(place), follows) {
        (Origin::Own, _) => words::whose(bench.visit.with(Option::is_some)).to_owned(),
        (Origin::Missing, _) => words::NOT_GIVEN.to_owned(),
        (Origin::Part(at), _) => {
            let name = bench.build().with(|build| build.parts().get(usize::from(at)).map(ToString::to_string));
            words::from_part(&name.unwrap_or_default())
        }
        (Origin::Usual, Some(id)) => {
            let target = beside(id, place);
            words::follows(spec_of(target).label, shown(target).as_ref())
        }
        (Origin::Usual, None) => match spec.kind {
            Kind::Text(_) => spec.help.to_owned(),
            _ if spec.of_the_car && is_new(place) => words::OF_A_NEW_ROW.to_owned(),
            _ if spec.of_the_car => words::OF_THE_DEMO.to_owned(),
            _ => words::usual(&spec.source.to_string()),
        },
    }
}

/// Whether its row is one that the demo car has not.
fn is_new(place: Place) -> bool {
    let rows = spec_of(place).table.map_or(0, |table| declared(table).rows.len());
    place.row.is_some_and(|row| usize::from(row.0) > rows)
}

/// The place of a declaration that one in this place's row follows.
pub fn beside(id: Id, place: Place) -> Place {
    Place { id, row: place.row.filter(|_| spec_of(id.into()).table.is_some()) }
}

/// What stands in force at a place, in the reader's units.
pub fn shown(place: Place) -> Option<Shown> {
    let bench = Bench::get();
    let system = bench.system();
    bench.report().with(|report| show::at(report, place, system))
}

/// What would stand there if nobody had given anything.
fn usual_value(place: Place) -> Option<Shown> {
    let bench = Bench::get();
    let system = bench.system();
    let (follows, own) = bench.build().with(|build| {
        let mut usual = build.clone();
        usual.put_back(place);
        (usual.following(place), usual.own_value(place))
    });
    match follows {
        Some(id) => shown(beside(id, place)),
        None => own.map(|value| show::cell(spec_of(place), value, system)),
    }
}

fn can_put_back(place: Place) -> bool {
    Bench::get().origin(place) == Origin::Own && !is_text(place)
}

fn is_text(place: Place) -> bool {
    matches!(spec_of(place).kind, Kind::Text(_))
}

/// Brings back what stood there before somebody typed over it.
fn put_back_button(place: Place) -> El {
    button("quiet put-back", &format!("{}.put-back", Bench::get().key(place)))
        .set("aria-label", &words::act_of(words::PUT_BACK, spec_of(place).label))
        .text(words::PUT_BACK)
        .on_press(move || {
            let fits = Bench::get().build().with_untracked(|build| !build.parts().is_empty());
            let shelves = if fits { shelves() } else { Vec::new() };
            put_back(place, move |build| shelf::put_back(&shelves, build, place));
        })
}

fn put_back(place: Place, how: impl FnOnce(&mut Build) + 'static) {
    let bench = Bench::get();
    bench.edit(Gesture::Once, spec_of(place).label, how);
    // The button that was pressed is gone; the field is what it spoke of.
    focus_later(bench.key(place));
}

/// Opened on demand: how to measure it, the slider, and the ways not to know it.
fn more_about(place: Place, entry: Option<Entry>) -> El {
    let bench = Bench::get();
    let spec = spec_of(place);
    let key = bench.key(place);
    let id = move |act: &str| format!("{}.{act}", bench.key(place));
    let dont_know = move || {
        let usual = (!is_text(place) && bench.origin(place) != Origin::Usual).then(|| usual_value(place)).flatten()?;
        let what = if spec.of_the_car { words::LIKE_THE_DEMO } else { words::DONT_KNOW };
        let words = words::back_to(what, Some(&usual));
        Some(button("quiet", &id("dont-know")).text(&words).on_press(move || put_back(place, move |build| build.put_back(place))))
    };
    let not_given = move || {
        (!is_text(place) && bench.origin(place) != Origin::Missing).then(|| {
            button("quiet", &id("not-given"))
                .set("aria-label", &words::act_of(words::NOT_GIVEN, spec.label))
                .text(words::NOT_GIVEN)
                .on_press(move || {
                    bench.edit(Gesture::Once, spec.label, move |build| build.forget(place));
                    focus_later(bench.key(place));
                })
        })
    };
    let follows = move || {
        let target = beside(bench.build().with(|build| build.following(place))?, place);
        let words = format!("{}: {}", calculator_of(target).label, spec_of(target).label);
        Some(el("a").set("href", &format!("#{}", bench.key(target))).text(&words))
    };
    let slide = entry.and_then(|entry| slider(entry, &format!("{key}.slider")));
    el("div")
        .class("about")
        .child(el("p").class("help").text(spec.help))
        .children((!spec.caution.is_empty()).then(|| el("p").class("caution").text(spec.caution)))
        .children(measure::sketch(place))
        .children(measure::offer(place).map(|offer| el("p").class("acts").child(offer)))
        .children(slide)
        .children(entry.map(tolerance))
        .child(el("p").class("acts").maybe(dont_know).maybe(not_given).maybe(follows))
}
