//! One input: its label, its field, where its value comes from, and everything that can be done about it.

pub mod entry;
pub mod number;
pub mod options;
pub mod slider;
pub mod text;

use crate::bench::{Bench, calculator_of, spec_of};
use crate::history::Gesture;
use crate::stops::Stops;
use crate::words;
use entry::Entry;
use leptos::prelude::*;
use number::NumberInput;
use options::Options;
use slider::Slider;
use text::TextInput;
use trialfit_core::build::Origin;
use trialfit_core::show::{self, Shown};
use trialfit_core::spec::{Id, Kind, Place};

/// One input of the job card.
#[component]
pub fn Field(place: Place) -> impl IntoView {
    let bench = Bench::get();
    let spec = spec_of(place);
    let key = bench.key(place);
    let note = format!("{key}.note");
    let entry = Entry::of(place);
    let input = match (spec.kind, entry) {
        (Kind::Choice(choices), _) => view! { <Options place choices id=key.clone() note=note.clone()/> }.into_any(),
        (Kind::Text(most), _) => view! { <TextInput place most id=key.clone() note=note.clone()/> }.into_any(),
        (Kind::Quantity { .. }, Some(entry)) => view! { <NumberInput entry id=key.clone() note=note.clone()/> }.into_any(),
        (Kind::Quantity { .. }, None) => ().into_any(),
    };
    let unit = move || {
        let system = bench.system();
        entry.map(|entry| entry.units(system).0.symbol).filter(|symbol| !symbol.is_empty())
    };
    let said = Memo::new(move |_| self::note(place, entry));
    let own = Memo::new(move |_| bench.build().with(|build| !matches!(build.origin(place), Origin::Usual)));
    let open = RwSignal::new(false);
    let wide = !matches!(spec.kind, Kind::Quantity { .. });
    let more = key.clone();
    let more_id = format!("{key}.more");
    // Says what stands there, then what it is of.
    let said_of = move || words::act_of(&said.get().1, spec.label);
    view! {
        <div class="field" data-key=key.clone() class:wrong=move || said.get().0 class:wide=wide class:own=move || own.get()>
            <label for=key.clone()>
                {spec.label} {move || unit().map(|unit| view! { " " <span class="unit">{unit}</span> })}
            </label>
            <span class="entry">{input}</span>
            <span class="under">
                <button type="button" class="more" id=more_id aria-expanded=move || open.get().to_string() aria-label=said_of
                    on:click=move |_| open.update(|open| *open = !*open)>
                    <span id=note class="note" dir="auto">{move || said.get().1}</span>
                </button>
                <PutBack place/>
            </span>
            <Show when=move || open.get()>
                <More place entry key=more.clone()/>
            </Show>
        </div>
    }
}

/// What the line under the field says: what is wrong with it, or where its value comes from.
fn note(place: Place, entry: Option<Entry>) -> (bool, String) {
    match entry.and_then(Entry::problem) {
        Some(problem) => (true, problem),
        None => (false, origin(place)),
    }
}

fn origin(place: Place) -> String {
    let bench = Bench::get();
    let spec = spec_of(place);
    let (origin, follows) = bench.build().with(|build| (build.origin(place), build.following(place)));
    match (origin, follows) {
        (Origin::Own, _) => words::YOURS.to_owned(),
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
            Kind::Quantity { .. } if spec.of_the_car && bench.is_demo() => words::OF_THE_DEMO.to_owned(),
            _ => words::usual(&spec.source.to_string()),
        },
    }
}

/// The place of a declaration that one in this place's row follows.
fn beside(id: Id, place: Place) -> Place {
    Place { id, row: place.row.filter(|_| spec_of(id.into()).table.is_some()) }
}

/// What stands in force at a place, in the reader's units.
pub fn shown(place: Place) -> Option<Shown> {
    let bench = Bench::get();
    let system = bench.system();
    bench.report().with(|report| report.value(place)).ok().map(|value| show::cell(spec_of(place), value, system))
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

/// Brings back what stood there before somebody typed over it.
#[component]
fn PutBack(place: Place) -> impl IntoView {
    let bench = Bench::get();
    let spec = spec_of(place);
    let key = bench.key(place);
    let own = bench.origin(place);
    move || {
        let act = move |_| put_back(bench, place);
        (own.get() == Origin::Own && !matches!(spec.kind, Kind::Text(_))).then(|| {
            view! {
                <button type="button" class="quiet put-back" id=format!("{key}.put-back") aria-label=words::act_of(words::PUT_BACK, spec.label) on:click=act>
                    {words::PUT_BACK}
                </button>
            }
        })
    }
}

fn put_back(bench: Bench, place: Place) {
    bench.edit(Gesture::Once, spec_of(place).label, move |build| build.put_back(place));
    // The button that was pressed is gone; the field is what it spoke of.
    crate::page::focus_later(bench.key(place));
}

/// Opened on demand: how to measure it, the slider, and the ways not to know it.
#[component]
fn More(place: Place, entry: Option<Entry>, key: String) -> impl IntoView {
    let bench = Bench::get();
    let spec = spec_of(place);
    let slider = entry.and_then(|entry| {
        let stops = Stops::of(spec)?;
        Some(view! { <Slider entry stops id=format!("{key}.slider")/> })
    });
    let origin = bench.origin(place);
    let is_text = matches!(spec.kind, Kind::Text(_));
    let dont_know = move || {
        let usual = (!is_text && origin.get() != Origin::Usual).then(|| usual_value(place)).flatten()?;
        let id = format!("{}.dont-know", bench.key(place));
        Some(view! {
            <button type="button" class="quiet" id=id on:click=move |_| put_back(bench, place)>
                {words::back_to(words::DONT_KNOW, Some(&usual))}
            </button>
        })
    };
    let forget = move |_| {
        bench.edit(Gesture::Once, spec.label, move |build| build.forget(place));
        crate::page::focus_later(bench.key(place));
    };
    let not_given = move || {
        let id = format!("{}.not-given", bench.key(place));
        (!is_text && origin.get() != Origin::Missing).then(|| {
            view! {
                <button type="button" class="quiet" id=id aria-label=words::act_of(words::NOT_GIVEN, spec.label) on:click=forget>
                    {words::NOT_GIVEN}
                </button>
            }
        })
    };
    let follows = move || {
        let id = bench.build().with(|build| build.following(place))?;
        let target = beside(id, place);
        let there = format!("#{}", bench.key(target));
        Some(view! { <a href=there>{format!("{}: {}", calculator_of(target).label, spec_of(target).label)}</a> })
    };
    view! {
        <div class="about">
            <p class="help">{spec.help}</p>
            {slider}
            <p class="acts">{dont_know} {not_given} {follows}</p>
        </div>
    }
}
