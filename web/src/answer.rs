//! The answer: the calculator's sentence with its verdict, what it does not use of what was typed, and, when a limit is
//! passed, the caution that belongs to it.

use crate::bench::{Bench, Typed, spec_of};
use crate::dom::{El, el, item};
use crate::field::shown;
use crate::figure::{figure, pieces, spoken};
use crate::follow::{Turn, during};
use crate::gauge;
use crate::history::History;
use crate::overview;
use crate::page::focus_later;
use crate::route::Screen;
use crate::signal::{State, memo};
use crate::words;
use leptos::prelude::*;
use trialfit_core::build::Origin;
use trialfit_core::calculators::ALL;
use trialfit_core::report::{Report, Unknown};
use trialfit_core::sentence::{Piece, Sentence};
use trialfit_core::show::{self, System};
use trialfit_core::spec::{Place, Role, Verdict};
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::*;
use web_sys::{Element, Event, IntersectionObserver, IntersectionObserverEntry};

/// The answer of a screen, tracked.
pub fn sentence(screen: Screen) -> Sentence {
    Bench::get().look(|build, report| match screen {
        Screen::Of(calculator) => (ALL[usize::from(calculator)].sentence)(build, report),
        Screen::Overview => overview::whole(build, report),
    })
}

/// What fields hold that was not taken, and what stands in force instead. Tracked.
pub fn unused() -> Vec<String> {
    let bench = Bench::get();
    let wrong = |(&place, typed): (&Place, &Typed)| typed.problem.is_some().then_some(place);
    let places: Vec<Place> = bench.typed.with(|typed| typed.iter().filter_map(wrong).collect());
    let here = bench.looking.get();
    let line = |place: Place| {
        let uses = words::uses(&bench.build().with(|build| show::label(build, place)), shown(place).as_ref());
        let elsewhere = here != Screen::Of(place.id.calculator);
        if elsewhere { format!("{}: {uses}", ALL[usize::from(place.id.calculator)].label) } else { uses }
    };
    places.into_iter().map(line).collect()
}

/// The worst of a calculator's verdicts and its sentence's. Tracked.
pub fn worst(calculator: u8) -> Verdict {
    let said = sentence(Screen::Of(calculator)).verdict;
    let worst = Bench::get().look(|build, report| report.worst(build, calculator));
    worst.map_or(said, |(verdict, _)| verdict.max(said))
}

/// The answer of a screen, to the question it is there for.
pub fn answer(screen: Screen, question: &str) -> El {
    let bench = Bench::get();
    let said = memo(move || sentence(screen));
    // Seen and heard apart: units have names that a voice would not guess.
    let shown = el("p").class("sentence").set("aria-hidden", "true");
    let shown = shown
        .maybe(move || Some(said.with(mark)))
        .text(" ")
        .child(el("span").id("answer").many(move || said.with(|said| pieces(&said.pieces, bench.system()))));
    let heard = el("p").class("apart").id("answer-spoken").says(move || said.with(|said| heard(said, bench.system())));
    let answer = el("section").class("answer").set("aria-labelledby", "answer-title").set("data-key", &format!("{}.answer", screen.key()));
    let answer = answer.bind("data-verdict", move || Some(said.with(|said| said.verdict.word()).to_owned()));
    let answer = answer
        .child(el("h2").id("answer-title").class("apart").text(words::ANSWER))
        .child(el("p").class("question").text(question))
        .child(shown)
        .child(heard)
        .child(during(Turn::Soon, || el("div").maybe(move || ask_for(screen, said.with(|said| said.verdict) == Verdict::Unknown))))
        .many(|| unused().iter().map(|words| el("p").class("problem").text(words)).collect());
    tell_when_away(answer.element(), bench.away);
    answer
}

/// So many of the numbers that are missing are asked for at once.
const ASKED: usize = 4;

/// The missing input that keeps a place without a value: of a column, in the first row that lacks it.
pub fn lacks(report: &Report, place: Place) -> Option<Place> {
    let Err(Unknown::NotGiven(id)) = report.value(place) else { return None };
    report.layout().places_of(id).find(|&input| report.value(input).is_err())
}

/// The first numbers that a screen's answers wait for, each a tap away: all that nobody knows where the answer itself is
/// unknown, with where the car before this one is; else what was never said of a car of one's own. Tracked.
fn ask_for(screen: Screen, unknown: bool) -> Option<El> {
    let bench = Bench::get();
    let mut links = Vec::new();
    bench.look(|build, report| {
        let wanted = |input: &Place| unknown || spec_of(*input).of_the_car && build.origin(*input) == Origin::Missing;
        let mut missing = Vec::new();
        for place in report.layout().places(Role::Output) {
            let here = screen == Screen::Overview || screen == Screen::Of(place.id.calculator);
            let room = missing.len() < if unknown { ASKED } else { ASKED / 2 };
            let input = lacks(report, place).filter(|input| here && room && wanted(input) && !missing.contains(input));
            if let Some(input) = input {
                missing.push(input);
                links.push(el("a").set("href", &format!("#{}", bench.key(input))).text(&show::label(build, input)));
            }
        }
    });
    let before = match bench.history.with(History::undoes).as_deref() {
        _ if !unknown => "",
        Some(words::CLEARING) => words::DEMO_IS_BACK,
        None if bench.with_keeper(|keeper| keeper.count()) > 1 => words::OTHERS_ARE,
        _ => "",
    };
    let asked = if unknown { words::ENTER_FIRST } else { words::STILL_MISSING };
    (unknown || !links.is_empty()).then(|| {
        // Where numbers do not fit together, none is missing.
        let asked = (!links.is_empty()).then(|| el("p").class("needs").child(el("span").text(asked)).children(links));
        el("div").children(asked).child(el("p").class("note").text(before))
    })
}

/// The same in one line, for while the answer is scrolled away or a keypad covers most of the screen. Tracked.
pub fn one_line(screen: Screen) -> El {
    el("p").class("one-line").set("aria-hidden", "true").children(seen(&sentence(screen), Bench::get().system()))
}

/// A sentence with its mark, as the eye reads it.
pub fn seen(said: &Sentence, system: System) -> Vec<El> {
    [mark(said), el("span").text(" ")].into_iter().chain(pieces(&said.pieces, system)).collect()
}

/// Whether a sentence begins with the word of its verdict anyway.
fn says_verdict(said: &Sentence) -> bool {
    let word = said.verdict.word();
    let first = match said.pieces.first() {
        Some(Piece::Words(words)) => words.get(..word.len()).unwrap_or_default(),
        _ => "",
    };
    first.eq_ignore_ascii_case(word)
}

/// The gauge mark, with the word where the sentence does not say it.
fn mark(said: &Sentence) -> El {
    if says_verdict(said) { gauge::mark(said.verdict) } else { gauge::verdict(said.verdict) }
}

/// The sentence as a voice reads it, verdict first.
pub fn heard(said: &Sentence, system: System) -> String {
    let sentence = spoken(said, system);
    if says_verdict(said) { sentence } else { format!("{}: {sentence}", words::capital(said.verdict.word())) }
}

/// Keeps `away` true while the element is out of sight.
fn tell_when_away(element: &Element, away: State<bool>) {
    let seen = Closure::<dyn FnMut(js_sys::Array)>::new(move |entries: js_sys::Array| {
        let last = entries.iter().last().and_then(|entry| entry.dyn_into::<IntersectionObserverEntry>().ok());
        away.set(last.is_some_and(|entry| !entry.is_intersecting()));
    });
    let Ok(observer) = IntersectionObserver::new(seen.as_ref().unchecked_ref()) else { return };
    observer.observe(element);
    let kept = StoredValue::new_local(Some((observer, seen)));
    on_cleanup(move || {
        if let Some((observer, _)) = kept.try_update_value(Option::take).flatten() {
            observer.disconnect();
        }
        away.set(false);
    });
}

/// So many passed limits stand over the drawing, unless more of them have a caution of their own.
const PASSED: usize = 3;

/// The first with each caution, then others; and how many are left out.
fn foremost(passed: impl Iterator<Item = Place>) -> (Vec<Place>, usize) {
    let (mut first, mut others) = (Vec::<Place>::new(), Vec::new());
    for place in passed {
        let caution = spec_of(place).caution;
        if caution.is_empty() || first.iter().any(|&other| spec_of(other).caution == caution) {
            others.push(place);
        } else {
            first.push(place);
        }
    }
    let room = PASSED.saturating_sub(first.len()).min(others.len());
    let left = others.len() - room;
    first.extend(others.into_iter().take(room));
    (first, left)
}

/// Limits that are passed, with their cautions, where nobody can miss them.
pub fn passed(calculator: u8) -> El {
    let bench = Bench::get();
    let passed = memo(move || {
        bench.look(|build, report| {
            let outputs = report.layout().places(Role::Output).filter(|place| place.id.calculator == calculator);
            foremost(outputs.filter(|&place| report.verdict(build, place) == Verdict::Beyond))
        })
    });
    let line = move |place: Place| {
        let spec = spec_of(place);
        el("li")
            .child(
                el("a").set("href", &format!("#{}", bench.key(place))).says(move || bench.build().with(|build| show::label(build, place))),
            )
            .text(" ")
            .maybe(move || shown(place).map(|shown| figure(&shown)))
            .text(if spec.caution.is_empty() { "" } else { ": " })
            .child(el("span").class("caution").text(spec.caution))
    };
    let lines = move || passed.get().0.into_iter().map(|place| item(bench.key(place), move || line(place))).collect();
    let left = move || {
        let left = passed.with(|&(_, left)| left);
        (left > 0).then(|| el("li").child(el("a").set("href", "#results").text(&words::more(left)).on("click", to_results)))
    };
    let any = move || passed.with(|(first, _)| !first.is_empty());
    el("div").class("limits").when(any, move || el("ul").class("passed").set("aria-label", words::PASSED).each(lines).maybe(left))
}

/// The fragment is the calculator's; the focus moves alone.
fn to_results(event: Event) {
    event.prevent_default();
    focus_later("results".into());
}
