//! What there is to tell above the answer: whose car this is, what was not kept, a newer version.

use crate::bench::{Bench, Notice};
use crate::history::Gesture;
use crate::visit::Visit;
use crate::words;
use gloo_events::EventListener;
use leptos::prelude::*;
use trialfit_core::build::Build;
use trialfit_core::calculators::{ALL, car};
use web_sys::CustomEvent;

/// From the loader: a newer version waits; and to it: take it now.
const UPDATE_WAITING: &str = "trialfit-update-waiting";
const UPDATE_TAKE: &str = "trialfit-update-take";

/// All there is to tell.
#[component]
pub fn Banners() -> impl IntoView {
    let bench = Bench::get();
    view! {
        <section class="banners" aria-label=words::TOLD>
            <CameWith/>
            <Ask/>
            <For each=move || bench.notices.get() key=|notice| format!("{notice:?}") let:notice>
                <Told notice/>
            </For>
            <NewVersion/>
            {move || (bench.is_demo() && bench.visit.with(Option::is_none)).then(|| view! { <Demo/> })}
        </section>
    }
}

/// The demo says that it is one; one tap clears it.
#[component]
fn Demo() -> impl IntoView {
    let bench = Bench::get();
    let clear = move |_| {
        bench.edit(Gesture::Once, words::CLEARING, |build| *build = own_car());
        // The button is gone with the demo.
        crate::page::focus_later("main".into());
    };
    view! {
        <p class="banner demo" id="demo">
            <span>{words::DEMO}</span>
            <button type="button" class="quiet" id="clear-demo" on:click=clear>{words::DEMO_CLEAR}</button>
        </p>
    }
}

/// A car of which nothing particular is known yet.
pub fn own_car() -> Build {
    let mut build = Build::cleared(ALL);
    _ = build.set_text(car::NAME.id.into(), words::MY_CAR);
    build
}

/// Over a car that came by link, whatever part of the page is looked at.
#[component]
pub fn VisitBar() -> impl IntoView {
    let bench = Bench::get();
    let leave = move |done: fn(Bench)| {
        move |_| {
            done(bench);
            forget_link();
            crate::page::focus_later("main".into());
        }
    };
    let bar = move || {
        view! {
            <section class="banner visit" id="visit" aria-label=words::FROM_A_LINK>
                <p>{words::FROM_A_LINK}</p>
                <p class="acts">
                    <button type="button" class="quiet" id="keep-mine" on:click=leave(Bench::keep_mine)>{words::KEEP_MINE}</button>
                    <button type="button" class="quiet" id="take-theirs" on:click=leave(Bench::take_theirs)>{words::TAKE_IT}</button>
                    <button type="button" class="quiet" id="keep-both" on:click=leave(Bench::keep_both)>{words::KEEP_BOTH}</button>
                </p>
            </section>
        }
    };
    let visiting = Memo::new(move |_| bench.visit.with(Option::is_some));
    move || visiting.get().then(bar)
}

/// What came with the link besides the car: words, and what could not be used.
#[component]
fn CameWith() -> impl IntoView {
    let bench = Bench::get();
    let came = move |visit: Visit| {
        let problems = visit.problems.into_iter().map(|problem| view! { <li><bdi>{problem}</bdi></li> }).collect_view();
        let has_problems = !problems.is_empty();
        (has_problems || !visit.note.is_empty()).then(|| {
            view! {
                <div class="banner came">
                    {(!visit.note.is_empty()).then(|| view! { <p id="visit-note">{words::NOTE_SAYS} " " <q><bdi>{visit.note}</bdi></q></p> })}
                    {has_problems.then(|| view! { <p>{words::LINK_PROBLEMS}</p> <ul id="visit-problems">{problems}</ul> })}
                </div>
            }
        })
    };
    move || bench.visit.get().map(came)
}

/// At the first change of a car that came by link.
#[component]
fn Ask() -> impl IntoView {
    let bench = Bench::get();
    let answer = move |done: fn(Bench)| {
        move |_| {
            done(bench);
            if bench.visit.with_untracked(Option::is_none) {
                forget_link();
            }
        }
    };
    view! {
        <crate::dialog::Question id="ask" title=words::ASK_TITLE asked=bench.asking refused=move || bench.answer_pending(false)>
            <p>{words::ASK_WORDS}</p>
            <p class="acts stacked">
                <button type="button" id="ask-both" on:click=answer(Bench::keep_both)>{words::ASK_BOTH}</button>
                <button type="button" id="ask-take" on:click=answer(Bench::take_theirs)>{words::ASK_TAKE}</button>
                <button type="button" id="ask-look" on:click=answer(|bench| bench.answer_pending(false))>{words::ASK_LOOK}</button>
            </p>
        </crate::dialog::Question>
    }
}

/// The address no longer names the link; what it names instead is where one is.
fn forget_link() {
    let key = ALL[usize::from(expect_context::<crate::page::Looking>().0.get_untracked())].key;
    if let Ok(history) = window().history() {
        _ = history.replace_state_with_url(&wasm_bindgen::JsValue::NULL, "", Some(&format!("#{key}")));
    }
}

/// One notice, until it is read.
#[component]
fn Told(notice: Notice) -> impl IntoView {
    let bench = Bench::get();
    let id = match notice {
        Notice::NotKept(_) => "not-kept",
        Notice::Damaged(_) => "damaged",
        Notice::NoLink(_) => "no-link",
        Notice::Copied(_) => "copied",
        Notice::Adopted => "adopted",
    };
    let text = notice.text();
    let list = if let Notice::Damaged(problems) = &notice { problems.clone() } else { Vec::new() };
    let list =
        (!list.is_empty()).then(|| view! { <ul>{list.into_iter().map(|line| view! { <li><bdi>{line}</bdi></li> }).collect_view()}</ul> });
    view! {
        <div class="banner notice" id=id>
            <p><bdi>{text}</bdi></p>
            {list}
            <button type="button" class="quiet" on:click=move |_| bench.withdraw(|other| *other == notice)>{words::DISMISS}</button>
        </div>
    }
}

/// Offers a newer version; nothing changes until it is taken.
#[component]
fn NewVersion() -> impl IntoView {
    let bench = Bench::get();
    let root = document().document_element();
    let already = root.and_then(|root| root.get_attribute("data-update")).is_some_and(|state| state == "waiting");
    let waiting = RwSignal::new(already);
    EventListener::new(&window(), UPDATE_WAITING, move |_| waiting.set(true)).forget();
    let take = move |_| {
        if bench.visit.with_untracked(Option::is_none) {
            bench.keep();
        }
        if let Ok(event) = CustomEvent::new(UPDATE_TAKE) {
            _ = window().dispatch_event(&event);
        }
    };
    move || {
        waiting.get().then(|| {
            view! {
                <p class="banner update" id="update">
                    <span>{words::NEW_VERSION}</span>
                    <button type="button" class="quiet" id="take-update" on:click=take>{words::TAKE_VERSION}</button>
                </p>
            }
        })
    }
}
