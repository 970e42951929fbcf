//! What there is to tell above the answer: whose car this is, what was not kept, a newer version.

use crate::bench::{Bench, Notice};
use crate::dialog::question;
use crate::differs::differs;
use crate::dom::{El, button, el, item};
use crate::history::Gesture;
use crate::language;
use crate::page::focus_later;
use crate::signal::State;
use crate::words;
use gloo_events::EventListener;
use leptos::prelude::*;
use trialfit_core::build::Build;
use trialfit_core::calculators::{ALL, car};
use wasm_bindgen::JsValue;
use web_sys::{CustomEvent, Event};

/// From the loader: a newer version waits; and to it: take it now.
const UPDATE_WAITING: &str = "trialfit-update-waiting";
const UPDATE_TAKE: &str = "trialfit-update-take";

/// All there is to tell.
pub fn banners() -> El {
    let bench = Bench::get();
    let notices = move || bench.notices.get().into_iter().map(|notice| item(format!("{notice:?}"), move || told(notice))).collect();
    let waiting = new_version_waits();
    el("section")
        .class("banners")
        .set("aria-label", words::TOLD)
        .maybe(came_with)
        .child(ask())
        .each(notices)
        .when(move || waiting.get(), new_version)
        .when(move || bench.is_demo() && bench.visit.with(Option::is_none), demo)
}

/// The demo says that it is one; one tap clears it.
fn demo() -> El {
    let clear = button("quiet", "clear-demo").text(words::DEMO_CLEAR).on_press(|| {
        Bench::get().edit(Gesture::Once, words::CLEARING, |build| *build = own_car());
        // The button is gone with the demo.
        focus_later("main".into());
    });
    el("p").class("banner demo").id("demo").child(el("span").text(words::DEMO)).child(clear)
}

/// A car of which nothing particular is known yet.
pub fn own_car() -> Build {
    let mut build = Build::cleared(ALL);
    _ = build.set_text(car::NAME.id.into(), &language::says(words::MY_CAR));
    Bench::get().with_keeper(|keeper| keeper.tell_apart(&mut build));
    build
}

/// Over a car that came by link, whatever part of the page is looked at.
pub fn visit_bar() -> El {
    let choice = |id: &str, label: &str, done: fn(Bench)| {
        button("quiet", id).text(label).on_press(move || {
            done(Bench::get());
            forget_link();
            focus_later("main".into());
        })
    };
    let bar = move || {
        let own = Bench::get().has_own();
        let [says, mine, take] = if own {
            [words::FROM_A_LINK, words::KEEP_MINE, words::TAKE_IT]
        } else {
            [words::FIRST_LINK, words::BACK_TO_DEMO, words::TAKE_FIRST]
        };
        let both = own.then(|| choice("keep-both", words::KEEP_BOTH, Bench::keep_both));
        let choices = el("p")
            .class("acts")
            .child(choice("keep-mine", mine, Bench::keep_mine))
            .child(choice("take-theirs", take, Bench::take_theirs))
            .children(both);
        let bar = el("section").class("banner visit").id("visit").set("aria-label", says);
        bar.child(el("p").text(says)).child(choices).maybe(note)
    };
    el("div").class("visits").when(|| Bench::get().visit.with(Option::is_some), bar)
}

/// Words of whoever made the link, wherever it leads; long ones scroll.
fn note() -> Option<El> {
    let note = Bench::get().visit.get()?.note;
    let said = el("q").child(el("bdi").own(&note));
    (!note.is_empty()).then(|| el("p").id("visit-note").set("tabindex", "0").text(words::NOTE_SAYS).text(" ").child(said))
}

/// What came with the link besides car and words: what could not be used, what of it differs from one's own.
fn came_with() -> Option<El> {
    let bench = Bench::get();
    let visit = bench.visit.get()?;
    let own = bench.has_own();
    if visit.units.is_none() && visit.problems.is_empty() && !own {
        return None;
    }
    let problems = || [el("p").text(words::LINK_PROBLEMS), lines(&visit.problems).id("visit-problems")];
    let units = || {
        let mine = button("quiet", "my-units").text(words::MY_UNITS).on_press(|| {
            Bench::get().in_own_units();
            focus_later("main".into());
        });
        el("p").class("acts").id("visit-units").child(el("span").text(words::UNITS_OF_LINK)).child(mine)
    };
    let came = el("div").class("banner came").children(visit.units.map(|_| units()));
    let came = came.children((!visit.problems.is_empty()).then(problems).into_iter().flatten());
    Some(came.children(own.then(differs)))
}

/// Lines from outside, each kept to itself whatever its direction of writing.
fn lines(lines: &[String]) -> El {
    el("ul").children(lines.iter().map(|line| el("li").child(el("bdi").text(line))))
}

/// At the first change of a car that came by link.
fn ask() -> El {
    let bench = Bench::get();
    let answer = |id: &str, label: &str, done: fn(Bench)| {
        button("", id).text(label).on_press(move || {
            done(bench);
            if bench.visit.with_untracked(Option::is_none) {
                forget_link();
            }
        })
    };
    let answers = el("p")
        .class("acts stacked")
        .child(answer("ask-both", words::ASK_BOTH, Bench::keep_both))
        .child(answer("ask-take", words::ASK_TAKE, Bench::take_theirs))
        .child(answer("ask-look", words::ASK_LOOK, |bench| bench.answer_pending(false)));
    let window = question("ask", words::ASK_TITLE, bench.asking, move || bench.answer_pending(false));
    window.child(el("p").text(words::ASK_WORDS)).child(answers)
}

/// The address no longer names the link; what it names instead is where one is.
pub fn forget_link() {
    let key = Bench::get().looking.get_untracked().key();
    if let Ok(history) = window().history() {
        _ = history.replace_state_with_url(&JsValue::NULL, "", Some(&format!("#{key}")));
    }
    // Nobody else tells what follows the address.
    if let Ok(event) = Event::new("hashchange") {
        _ = window().dispatch_event(&event);
    }
}

/// One notice, until it is read.
fn told(notice: Notice) -> El {
    let id = match notice {
        Notice::NotKept(_) => "not-kept",
        Notice::Damaged(_) => "damaged",
        Notice::NoLink(_) => "no-link",
        Notice::Copied(_) => "copied",
        Notice::Adopted => "adopted",
        Notice::Gone => "gone",
        Notice::NoLanguage(_) => "no-language",
    };
    let list = if let Notice::Damaged(problems) = &notice { Some(lines(problems)) } else { None };
    let told = el("div").class("banner notice").id(id).child(el("p").child(el("bdi").text(&notice.text()))).children(list);
    told.child(button("quiet", "").text(words::DISMISS).on_press(move || {
        Bench::get().withdraw(|other| *other == notice);
        focus_later("main".into());
    }))
}

fn new_version_waits() -> State<bool> {
    let root = document().document_element();
    let already = root.and_then(|root| root.get_attribute("data-update")).is_some_and(|state| state == "waiting");
    let waiting = State::new(already);
    EventListener::new(&window(), UPDATE_WAITING, move |_| waiting.set(true)).forget();
    waiting
}

/// Offers a newer version; nothing changes until it is taken.
fn new_version() -> El {
    let take = button("quiet", "take-update").text(words::TAKE_VERSION).on_press(|| {
        let bench = Bench::get();
        if bench.visit.with_untracked(Option::is_none) {
            bench.keep();
        }
        if let Ok(event) = CustomEvent::new(UPDATE_TAKE) {
            _ = window().dispatch_event(&event);
        }
    });
    el("p").class("banner update").id("update").child(el("span").text(words::NEW_VERSION)).child(take)
}
