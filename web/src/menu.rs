//! Units, colours, the cars this browser keeps, a place to paste a link, and damaged texts put aside.

use crate::banners::own_car;
use crate::bench::{Bench, Notice};
use crate::copy::{Copied, copy};
use crate::keep::Listed;
use crate::settings::{Theme, system_key};
use crate::words;
use leptos::prelude::*;
use trialfit_core::show::System;

/// The menu.
#[component]
pub fn Menu() -> impl IntoView {
    let bench = Bench::get();
    let system = |system: System| {
        let set = move |_| bench.settings.update(|settings| settings.system = system);
        let now = Signal::derive(move || bench.system() == system);
        chip("units", system_key(system), words::system(system), now, set)
    };
    let theme = |theme: Theme| {
        let set = move |_| bench.settings.update(|settings| settings.theme = theme);
        let now = Signal::derive(move || bench.settings.with(|settings| settings.theme == theme));
        chip("colours", theme.key(), words::theme(theme), now, set)
    };
    let print = |_| _ = window().print();
    view! {
        <h2>{words::MENU}</h2>
        <fieldset class="chips"><legend>{words::MENU_UNITS}</legend>{[System::Metric, System::Imperial].map(system)}</fieldset>
        <fieldset class="chips"><legend>{words::MENU_COLOURS}</legend>{Theme::ALL.map(theme)}</fieldset>
        <Cars/>
        <Paste/>
        <p class="acts"><button type="button" class="quiet" id="print" on:click=print>{words::PRINT}</button></p>
        <Damaged/>
    }
}

fn chip(
    name: &'static str,
    key: &'static str,
    label: &'static str,
    now: Signal<bool>,
    set: impl FnMut(leptos::ev::Event) + 'static,
) -> impl IntoView {
    view! {
        <label class="chip">
            <input type="radio" name=name id=format!("{name}-{key}") prop:checked=now on:change=set/>
            <span>{label}</span>
        </label>
    }
}

/// The cars kept here. One is on the bench; another can be put there, or thrown away.
#[component]
fn Cars() -> impl IntoView {
    let bench = Bench::get();
    let list = move || bench.with_keeper(|keeper| (keeper.number(), keeper.list()));
    let cars = RwSignal::new(list());
    let open = move |number: u32| {
        if bench.visit.with_untracked(Option::is_some) {
            bench.keep_mine();
        }
        match bench.with_keeper(|keeper| keeper.take(number)) {
            Ok(Some(found)) => {
                if !found.problems.is_empty() {
                    bench.tell(Notice::Damaged(found.problems));
                }
                bench.replace(found.build);
            }
            Ok(None) => {}
            Err(fault) => bench.tell(Notice::NotKept(fault)),
        }
        cars.set(list());
    };
    let throw = move |number: u32| {
        if let Err(fault) = bench.with_keeper(|keeper| keeper.throw_away(number)) {
            bench.tell(Notice::NotKept(fault));
        }
        cars.set(list());
    };
    let another = move |_| {
        if bench.visit.with_untracked(Option::is_some) {
            bench.keep_mine();
        }
        let build = own_car();
        match bench.with_keeper(|keeper| keeper.save_anew(&build)) {
            Ok(_) => bench.replace(build),
            Err(fault) => bench.tell(Notice::NotKept(fault)),
        }
        cars.set(list());
    };
    let car = move |Listed { number, name }: Listed| {
        let on_bench = move || cars.with(|(current, _)| *current == number);
        let called = if name.is_empty() { words::NO_NAME.to_owned() } else { name };
        let (opens, throws) = (words::act_of(words::OPEN, &called), words::act_of(words::THROW_AWAY, &called));
        view! {
            <li data-car=number.to_string()>
                <bdi>{called}</bdi> " "
                {move || if on_bench() {
                    view! { <span class="note">{words::ON_THE_BENCH}</span> }.into_any()
                } else {
                    view! {
                        <button type="button" class="quiet" aria-label=opens.clone() on:click=move |_| open(number)>{words::OPEN}</button> " "
                        <button type="button" class="quiet" aria-label=throws.clone() on:click=move |_| throw(number)>{words::THROW_AWAY}</button>
                    }
                    .into_any()
                }}
            </li>
        }
    };
    view! {
        <h3>{words::MENU_CARS}</h3>
        <p class="note">{words::KEPT_HERE}</p>
        <ul class="cars" id="cars">
            <For each=move || cars.get().1 key=|listed| (listed.number, listed.name.clone()) let:listed>{car(listed)}</For>
        </ul>
        <p class="acts"><button type="button" class="quiet" id="another-car" on:click=another>{words::NEW_CAR}</button></p>
    }
}

/// For a home-screen app, which no link opens.
#[component]
fn Paste() -> impl IntoView {
    let open = |text: String| {
        let fragment = text.trim().rsplit_once('#').map_or(text.trim(), |(_, fragment)| fragment).to_owned();
        if !fragment.is_empty() {
            _ = window().location().set_hash(&fragment);
        }
    };
    view! {
        <h3><label for="paste">{words::PASTE}</label></h3>
        <p class="note" id="paste-note">{words::PASTE_HELP}</p>
        <input class="words" id="paste" type="text" autocomplete="off" spellcheck="false" aria-describedby="paste-note"
            on:change:target=move |event| open(event.target().value())/>
    }
}

/// Texts that could not be read, to copy out.
#[component]
fn Damaged() -> impl IntoView {
    let bench = Bench::get();
    let keys = RwSignal::new(bench.with_keeper(|keeper| keeper.damaged()));
    let text = move |key: String| {
        let text = bench.with_keeper(|keeper| keeper.text(&key)).unwrap_or_default();
        let copied = RwSignal::new(None);
        let discard = {
            let key = key.clone();
            move |_| {
                _ = bench.with_keeper(|keeper| keeper.discard(&key));
                keys.set(bench.with_keeper(|keeper| keeper.damaged()));
            }
        };
        let id = key.replace('.', "-");
        let from = id.clone();
        view! {
            <li>
                <textarea id=id readonly rows="3" aria-label=words::DAMAGED_TEXTS prop:value=text></textarea>
                <button type="button" class="quiet" on:click=move |_| copy(from.clone(), copied)>{words::COPY}</button> " "
                <button type="button" class="quiet" on:click=discard>{words::THROW_AWAY}</button>
                <Copied copied/>
            </li>
        }
    };
    view! {
        <Show when=move || !keys.with(Vec::is_empty)>
            <h3>{words::DAMAGED_TEXTS}</h3>
            <ul class="damaged"><For each=move || keys.get() key=String::clone let:key>{text(key)}</For></ul>
        </Show>
    }
}
