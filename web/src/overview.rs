//! The car as a whole: how every calculator stands, what feeds what, and what the last change turned.

use crate::answer::{answer, lacks};
use crate::bench::{Bench, plan};
use crate::beside::{Trial, at_a_glance, beside};
use crate::dom::{El, button, el};
use crate::figure::pieces;
use crate::follow::{Turn, during};
use crate::gauge;
use crate::page::focus_later;
use crate::parts::parts;
use crate::proofs::proofs;
use crate::route::Screen;
use crate::signal::{Memo, memo};
use crate::words;
use trialfit_core::build::Build;
use trialfit_core::calculators::ALL;
use trialfit_core::changed::Turned;
use trialfit_core::order::Order;
use trialfit_core::overview::{Link, OVERVIEW, Overall, calculators, links};
use trialfit_core::report::Report;
use trialfit_core::sentence::{Piece, Sentence};
use trialfit_core::spec::Verdict;

/// The worst of all, in a sentence.
pub fn whole(build: &Build, report: &Report) -> Sentence {
    let worst = calculators(build, report).into_iter().reduce(|one, other| if other.line.verdict > one.line.verdict { other } else { one });
    let Some(Overall { calculator, line, .. }) = worst else { return Sentence { verdict: Verdict::Unknown, pieces: Vec::new() } };
    let lead: Piece = format!("{}: ", ALL[usize::from(calculator)].label).into();
    Sentence { verdict: line.verdict, pieces: core::iter::once(lead).chain(line.pieces).collect() }
}

/// The screen.
pub fn overview() -> El {
    let title = el("div")
        .class("title-block")
        .child(answer(Screen::Overview, words::OVERVIEW_QUESTION))
        .child(during(Turn::Soon, || turned(usize::MAX)))
        .child(undo_and_redo());
    let bench = Bench::get();
    let all = memo(move || bench.look(calculators));
    let one = move |it: &Overall| {
        let at = ALL[usize::from(it.calculator)];
        let name = el("a").set("href", &format!("#{}", at.key)).text(at.label);
        let line = el("p").children(pieces(&it.line.pieces, Bench::get().system()));
        let lacking = |place| bench.look_now(|_, report| lacks(report, place)).unwrap_or(place);
        let line = match it.worst.map(lacking) {
            Some(place) => el("a").class("worst").set("href", &format!("#{}", bench.key(place))).child(line),
            None => line,
        };
        let head = el("p").class("says").child(name).text(" ").child(gauge::verdict(it.line.verdict));
        el("li").set("data-calculator", at.key).set("data-verdict", it.line.verdict.word()).child(head).child(line)
    };
    let list = el("ul").class("side-by-side").many(move || all.with(|all| all.iter().map(one).collect()));
    let side = el("section")
        .class("results")
        .set("aria-labelledby", "side-title")
        .child(el("h2").id("side-title").text(words::SIDE_BY_SIDE))
        .child(list)
        .child(el("p").class("caution").text(words::RULES_FIRST));
    let trial = Trial::now();
    let column = during(Turn::Late, || el("div").class("column").child(at_a_glance(trial))).child(side);
    let sheet = el("div").class("sheet").child(title).child(column);
    during(Turn::Late, || sheet.later(parts).later(move || beside(trial)).later(proofs).later(feeds))
}

/// Undo and redo in words: here no choice is at hand beside which they could stand.
fn undo_and_redo() -> El {
    let bench = Bench::get();
    let act = |id: &'static str, word: &'static str, what: Memo<Option<String>>, act: fn(Bench)| {
        let there = move || what.with(Option::is_some);
        (there, move || {
            button("quiet", id).says(move || words::acts_on(word, what.get())).on_press(move || {
                act(bench);
                // The button may go with what it did.
                focus_later(id.into());
            })
        })
    };
    let undo = act("undo", words::UNDO, bench.undoes(), Bench::undo);
    let redo = act("redo", words::REDO, bench.redoes(), Bench::redo);
    el("p").class("acts").when(undo.0, undo.1).when(redo.0, redo.1)
}

/// What each calculator hands to the others, with the figures of now.
fn feeds() -> El {
    let bench = Bench::get();
    let handed = memo(move || {
        bench.when_calm();
        bench.look_now(|build, report| links(plan(), build, report))
    });
    let line = |link: &Link| {
        let to = ALL[usize::from(link.to)];
        let to = el("a").set("href", &format!("#{}", to.key)).text(to.label);
        el("li").child(to).text(": ").children(pieces(&link.line.pieces, Bench::get().system()))
    };
    let group = move |from: u8| {
        let lines = handed.with(|all| all.iter().filter(|link| link.from.calculator == from).map(line).collect::<Vec<El>>());
        (!lines.is_empty())
            .then(|| el("section").class("feeds").child(el("h3").text(ALL[usize::from(from)].label)).child(el("ul").children(lines)))
    };
    el("section")
        .class("results")
        .id("feeds")
        .set("aria-labelledby", "feeds-title")
        .child(el("h2").id("feeds-title").text(words::FEEDS))
        .many(move || (0..ALL.len() as u8).filter_map(group).collect())
}

/// Verdicts that the last change turned, at most so many, and one tap to take it back.
pub fn turned(most: usize) -> El {
    let bench = Bench::get();
    let lines = memo(move || {
        let mut lines = bench.changes().verdicts;
        // Of this screen only what got worse, and what passes its limit is told with its caution anyway; what is on none would
        // be missed.
        if let Screen::Of(here) = bench.looking.get() {
            let told = |it: &Turned| it.after <= it.before || it.after == Some(Verdict::Beyond);
            lines.retain(|it| it.place.id.calculator != here || !told(it));
            lines.order_by_key(|it| it.place.id.calculator == here);
        }
        lines
    });
    let line = move |it: &Turned| {
        let key = bench.key(it.place);
        let at = ALL[usize::from(it.place.id.calculator)].label;
        let link = el("a").set("href", &format!("#{key}")).text(at);
        el("li")
            .set("data-key", &key)
            .child(gauge::mark(it.line.verdict))
            .text(" ")
            .child(link)
            .text(": ")
            .children(pieces(&it.line.pieces, bench.system()))
    };
    let more = move || {
        let rest = lines.with(Vec::len).saturating_sub(most);
        (rest > 0).then(|| el("a").set("href", &format!("#{OVERVIEW}")).text(&words::more(rest)))
    };
    let back = move || {
        button("quiet", "take-back").text(words::TAKE_BACK).on_press(move || {
            bench.undo();
            // The button goes with what it took back.
            focus_later("main".into());
        })
    };
    let told = move || {
        el("section")
            .class("turned")
            .set("aria-label", words::TURNED)
            .child(el("ul").many(move || lines.with(|lines| lines.iter().take(most).map(line).collect())))
            .child(el("p").class("acts").maybe(more).child(back()))
    };
    el("div").when(move || !lines.with(Vec::is_empty), told)
}
