//! Tools over any inputs and outputs of the build: an input swept over a range, a target reached, tolerances
//! spread, parts combined.
//!
//! Each is made when it is opened, and works in pieces, so that the page stays alive.

pub mod combine;
mod map;
mod runner;
mod solve;
mod spread;
mod sweep;

use crate::bench::{Bench, plan, spec_of};
use crate::dom::{El, button, el, folded, put_value, value_in};
use crate::figure::unit;
use crate::language;
use crate::signal::{Memo, State, memo};
use crate::stops::Stops;
use crate::words;
use leptos::prelude::untrack;
use trialfit_core::build::Build;
use trialfit_core::calculators::ALL;
use trialfit_core::entry::read_end;
use trialfit_core::order::Order;
use trialfit_core::quantity::Unit;
use trialfit_core::show;
use trialfit_core::spec::{Id, Kind, Place, Role};

/// The tools, folded.
pub fn tools(calculator: u8) -> El {
    el("section")
        .class("results tools")
        .id("tools")
        .set("aria-labelledby", "tools-title")
        .child(el("h2").id("tools-title").text(words::TOOLS))
        .child(folded(summary("sweep", words::SWEEP), move || sweep::sweep(calculator)))
        .child(folded(summary("map", words::MAP), move || map::map(calculator)))
        .child(folded(summary("solve", words::SOLVE), move || solve::solve(calculator)))
        .child(folded(summary("spread", words::SPREAD), move || spread::spread(calculator)))
}

fn summary(id: &str, title: &str) -> El {
    el("details").class("row-more").id(id).child(el("summary").child(el("h3").text(title)))
}

/// Inputs that can be turned, by calculator, the one looked at first.
fn turned_by_hand(build: &Build, calculator: u8) -> Vec<Place> {
    let mut places: Vec<Place> =
        build.layout().places(Role::Input).filter(|place| !matches!(spec_of(*place).kind, Kind::Text(_))).collect();
    places.order_by_key(|place| place.id.calculator != calculator);
    places
}

fn is_quantity(place: Place) -> bool {
    matches!(spec_of(place).kind, Kind::Quantity { .. })
}

/// Answers of a calculator that are numbers, judged ones first, those of rows last.
fn numbers(build: &Build, calculator: u8) -> Vec<Place> {
    let is = |place: &Place| place.id.calculator == calculator && is_quantity(*place);
    let mut places: Vec<Place> = build.layout().places(Role::Output).filter(is).collect();
    places.order_by_key(|place| (place.row.is_some(), !spec_of(*place).is_judged()));
    places
}

/// What is watched until somebody picks: the first of those that hangs on the choice, rather something to measure than a
/// share or a chance.
fn watched(calculator: u8) -> Place {
    let turned = choice(calculator);
    let mut hang = Bench::get().build().with_untracked(|build| numbers(build, calculator));
    hang.retain(|place| plan().feeds(turned.id, place.id));
    let is_share = |place: &&Place| matches!(spec_of(**place).kind, Kind::Quantity { unit, .. } if unit.symbol == "%");
    let measured = hang.iter().find(|place| !is_share(place));
    measured.or(hang.first()).copied().unwrap_or(turned)
}

/// The one choice of a calculator, in its first row if it is made in rows.
fn choice(calculator: u8) -> Place {
    let id: Id = ALL[usize::from(calculator)].choice;
    let row = spec_of(id.into()).table.and_then(|table| Bench::get().build().with_untracked(|build| build.rows(table).first().copied()));
    Place { id, row }
}

/// A list to pick an input from; `then` is told of another.
fn pick_input(id: &str, calculator: u8, picked: State<Place>, then: impl Fn(Place) + 'static) -> El {
    pick(id, words::TURN, picked, move |build| turned_by_hand(build, calculator), then)
}

/// A list to pick an answer from; `then` is told of another.
fn pick_answer(id: &str, calculator: u8, picked: State<Place>, then: impl Fn(Place) + 'static) -> El {
    pick(id, words::WATCH, picked, move |build| numbers(build, calculator), then)
}

/// Places to pick from: key, calculator and label of each.
type Listed = Vec<(String, u8, String)>;

fn listed(places: impl Fn(&Build) -> Vec<Place> + Send + Sync + 'static) -> Memo<Listed> {
    memo(move || {
        Bench::get().build().with(|build| {
            let named = |place: Place| (build.layout().key(place), place.id.calculator, show::label(build, place));
            places(build).into_iter().map(named).collect()
        })
    })
}

fn grouped_by_calculator(listed: &Listed) -> Vec<El> {
    let groups = listed.chunk_by(|one, other| one.1 == other.1);
    let option = |(key, _, label): &(String, u8, String)| el("option").set("value", key).text(label);
    groups.map(|group| el("optgroup").set("label", ALL[usize::from(group[0].1)].label).children(group.iter().map(option))).collect()
}

fn pick(
    id: &str,
    label: &str,
    picked: State<Place>,
    places: impl Fn(&Build) -> Vec<Place> + Send + Sync + 'static,
    then: impl Fn(Place) + 'static,
) -> El {
    let bench = Bench::get();
    let listed = listed(places);
    let list = el("select")
        .id(id)
        .many(move || listed.with(grouped_by_calculator))
        .value(move || {
            listed.with(|_| ());
            bench.key(picked.get())
        })
        .on("change", move |event| {
            let place = bench.build().with_untracked(|build| build.layout().place_by_key(&value_in(&event)));
            if let Some(place) = place {
                picked.set(place);
                then(place);
            }
            put_value(&event, &bench.key(picked.get_untracked()));
        });
    el("p").class("asked").child(el("label").set("for", id).text(label)).child(list)
}

/// The unit in which a place's numbers are shown now, if it is a quantity. Tracked.
fn unit_of(place: Place) -> Option<&'static Unit> {
    match spec_of(place).kind {
        Kind::Quantity { dimension, unit } => Some(Bench::get().system().unit(dimension, unit)),
        Kind::Choice(_) | Kind::Text(_) => None,
    }
}

/// From one end of the range to the other that a slider of this input would have, and on to where it stands; SI, or
/// ordinals.
fn range_of(place: Place) -> [f64; 2] {
    let spec = spec_of(place);
    match spec.kind {
        Kind::Quantity { unit, .. } => {
            let stops = Stops::of(spec, untrack(|| Bench::get().system()));
            let [low, high] = stops.map_or_else(|| spec.possible.map(|end| unit.to_si(end)), |stops| [stops.at(0), stops.at(stops.last())]);
            let now = Bench::get().value_now(place).unwrap_or(low);
            [low.min(now), high.max(now)]
        }
        Kind::Choice(choices) => [0.0, choices.len().saturating_sub(1) as f64],
        Kind::Text(_) => [0.0; 2],
    }
}

/// The ends of a range: what was asked for, else the whole of it.
fn ends(place: State<Place>, asked: [Option<f64>; 2]) -> [State<Asked>; 2] {
    let [low, high] = range_of(place.get_untracked());
    [asked[0].unwrap_or(low), asked[1].unwrap_or(high)].map(|end| State::new(Ok(end)))
}

/// A number to be typed, SI; or the text that could not be read, and why.
type Asked = Result<f64, (String, String)>;

/// A number of a place's kind to be typed; what cannot be read says why below, and no number stands in for it.
fn asked(id: &str, label: &str, place: State<Place>, value: State<Asked>) -> El {
    let note = format!("{id}.note");
    let shown = move || match (value.get(), unit_of(place.get())) {
        (Ok(number), Some(unit)) => language::number(&show::input(number, unit).number).into_owned(),
        (Ok(number), None) => number.to_string(),
        (Err((text, _)), _) => text,
    };
    let why = move || value.with(|value| value.as_ref().err().map(|(_, why)| why.clone()));
    let take = move |text: String| {
        let read = match (spec_of(place.get_untracked()).kind, untrack(|| unit_of(place.get()))) {
            (Kind::Quantity { dimension, .. }, Some(unit)) => read_end(&text, dimension, unit).map_err(|why| why.to_string()),
            _ => text.trim().parse().map_err(|_| words::NO_NUMBER.to_owned()),
        };
        value.set(read.map_err(|why| (text, why)));
    };
    let field = el("input")
        .class("number")
        .id(id)
        .set("type", "text")
        .set("inputmode", "decimal")
        .set("autocomplete", "off")
        .set("aria-describedby", &note)
        .flag("aria-invalid", move || why().is_some())
        .value(shown)
        .on("change", move |event| take(value_in(&event)));
    let symbol = move || unit_of(place.get()).map(|symbol| unit(symbol.symbol));
    el("p")
        .class("asked")
        .child(el("label").set("for", id).text(label).text(" ").maybe(symbol))
        .child(field)
        .child(el("span").class("problem").id(&note).says(move || why().unwrap_or_default()))
}

/// A button that starts work, and while it goes on how far it is and one that stops it.
fn going<T: Send + Sync + 'static>(id: &str, start: &str, runner: runner::Runner<T>, go: impl Fn() + 'static) -> El {
    let start = button("", id).text(start).on_press(go);
    let stop = move || {
        let bar = el("progress")
            .set("max", "1")
            .set("aria-label", words::WORKING_IT_OUT)
            .bind("value", move || runner.share().map(|share| format!("{share:.3}")));
        el("span").class("acts").child(bar).child(button("quiet", "stop").text(words::STOP).on_press(move || runner.stop()))
    };
    el("p").class("acts").child(start).when(move || runner.share().is_some(), stop)
}
