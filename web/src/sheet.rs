//! The build sheet: the whole car on one page of paper, for the folder, the bench and the customer.

use crate::bench::{Bench, spec_of};
use crate::browser::today;
use crate::dom::{El, el};
use crate::drawing::still;
use crate::gauge;
use crate::listing::print_alone;
use crate::page::{called, version};
use crate::parts::{shelves, total};
use crate::send::{address_of, code};
use crate::words;
use leptos::prelude::{document, untrack};
use trialfit_core::build::Build;
use trialfit_core::calculators::ALL;
use trialfit_core::report::{Report, lower_first};
use trialfit_core::share::link::Link;
use trialfit_core::share::markup::Line;
use trialfit_core::share::text::{Section, given};
use trialfit_core::shelf;
use trialfit_core::spec::Role;

/// Width and height a drawing is laid out in, in CSS pixels.
const DRAWING: (f64, f64) = (330.0, 200.0);

/// So many lines of so many letters fit under the drawings at the usual size of letters, on the shorter of the papers.
const LINES: usize = 116;
const LETTERS: usize = 46;

/// So many figures of a calculator that are not known are named.
const NAMED: usize = 3;

/// Nobody types a longer link off paper.
const LONGEST: usize = 300;

/// Makes the sheet of the car shown and prints it.
pub fn print() {
    let sheet = Bench::get().look_now(sheet);
    if let Some(body) = document().body() {
        _ = body.append_child(sheet.element());
    }
    print_alone("sheet", move || sheet.element().remove());
}

fn sheet(build: &Build, report: &Report) -> El {
    let bench = Bench::get();
    let system = untrack(|| bench.system());
    let sections = Section::all(build, report, system);
    let given = given(build, report, system);
    let guesses = guesses(build, report);
    let watched: Vec<_> = sections.iter().map(watched).collect();
    let cautions = cautions(&sections);
    let said = |line: &Line| matches!(line, Line::Caution(words) if sections.iter().any(|section| section.cautions.contains(words)));
    let drawn = ALL.iter().zip(&sections).map(|(it, section)| {
        // What has no drawing has room for the code.
        let beside = it.scene.map_or_else(
            || opens(build),
            |draw| match draw(build, report) {
                Ok(scene) => still(&scene, DRAWING.0, DRAWING.1, system),
                Err(why) => el("p").text(&why.reason(report.layout())),
            },
        );
        el("article")
            .child(el("h2").text(it.label).text(" ").children(section.verdict.map(gauge::verdict)))
            .child(el("p").text(&section.sentence))
            .child(beside)
    });
    let lists = el("div")
        .class("sheet-lists")
        .child(listed(words::SHEET_GIVEN, given.iter().filter(|line| !said(line)).filter_map(given_line)))
        .children(kit(build))
        .child(of_each(words::SHEET_WATCH, &watched, if watched.iter().all(Vec::is_empty) { words::SHEET_ALL_WITHIN } else { "" }))
        .child(of_each(words::CAUTIONS, &cautions, words::RULES_FIRST))
        .children(guesses.iter().any(|of| !of.is_empty()).then(|| of_each(words::SHEET_GUESSES, &guesses, "")));
    let dense = lines_of(&lists) > LINES;
    el("section")
        .class(if dense { "build-sheet dense" } else { "build-sheet" })
        .id("build-sheet")
        .child(title())
        .child(el("div").class("sheet-drawings").children(drawn))
        .child(lists)
}

/// What is not within its limits; many figures of which nobody can tell are counted.
fn watched(section: &Section) -> Vec<String> {
    let unknown = match section.unknown.len() {
        count if count > NAMED => vec![words::not_known_yet(count)],
        _ => section.unknown.clone(),
    };
    section.others.iter().cloned().chain(unknown).collect()
}

/// The cautions of each calculator; what two of them say, once.
fn cautions(sections: &[Section]) -> Vec<Vec<String>> {
    let mut said: Vec<&'static str> = Vec::new();
    let mut all = Vec::new();
    for section in sections {
        let fresh: Vec<_> = section.cautions.iter().copied().filter(|words| !said.contains(words)).collect();
        all.push(fresh.iter().map(ToString::to_string).collect());
        said.extend(fresh);
    }
    all
}

/// About so many lines of paper.
fn lines_of(lists: &El) -> usize {
    let list = lists.element().query_selector_all("li, h2").ok();
    let texts = list.into_iter().flat_map(|list| (0..list.length()).filter_map(move |at| list.get(at)?.text_content()));
    texts.map(|text| text.chars().count().div_ceil(LETTERS)).sum()
}

/// What the sheet is of, with the fields of a drawing's title block (ISO 7200).
fn title() -> El {
    let field = |title: &str, what: &str| el("div").child(el("dt").text(title)).child(el("dd").text(what));
    el("header")
        .child(el("h1").child(el("bdi").own(&untrack(called))))
        .child(el("dl").child(field(words::SHEET, words::APP)).child(field(words::DATE, &today())).child(field(words::VERSION, &version())))
}

fn listed(title: &str, items: impl Iterator<Item = El>) -> El {
    el("section").child(el("h2").text(title)).child(el("ul").children(items))
}

fn given_line(line: &Line) -> Option<El> {
    match line {
        Line::Item(words) | Line::Words(words) => Some(el("li").child(el("bdi").text(words))),
        Line::Caution(words) => Some(el("li").class("caution").text(words)),
        Line::Heading(..) | Line::Note(_) | Line::Address { .. } | Line::Blank => None,
    }
}

/// The lines of each calculator that has any, under its name; what stands after them, or instead.
fn of_each(title: &str, lines: &[Vec<String>], after: &str) -> El {
    let mut items = Vec::new();
    for (it, lines) in ALL.iter().zip(lines).filter(|(_, lines)| !lines.is_empty()) {
        items.push(el("li").class("of").text(it.label));
        items.extend(lines.iter().map(|words| el("li").child(el("bdi").text(words))));
    }
    if !after.is_empty() {
        items.push(el("li").text(after));
    }
    listed(title, items.into_iter())
}

/// Parts with what they cost and weigh, and what their rules still ask.
fn kit(build: &Build) -> Option<El> {
    let kit = shelf::kit(&shelves(), build);
    let line = |line: &shelf::Line| {
        let price = line.price.map(|price| format!(", {price}")).unwrap_or_default();
        el("li").text(&line.slot).text(": ").child(el("bdi").own(&line.fitted.name)).text(&price)
    };
    let troubles = kit.troubles.iter().map(|it| el("li").class("caution").child(el("bdi").text(&it.words)));
    let lines = kit.lines.iter().map(line).chain(troubles).chain([el("li").text(&total(&kit))]);
    (!kit.lines.is_empty()).then(|| listed(words::KIT, lines))
}

/// Inputs that figures rest on and nobody measured, of each calculator as one paragraph.
fn guesses(build: &Build, report: &Report) -> Vec<Vec<String>> {
    let layout = build.layout();
    let mut all = vec![Vec::<String>::new(); ALL.len()];
    for id in layout.ids().filter(|id| layout.spec(*id).role == Role::Output) {
        for on in report.guesses(build, id) {
            let (of, label) = (&mut all[usize::from(on.calculator)], lower_first(spec_of(on.into()).label));
            if !of.contains(&label) {
                of.push(label);
            }
        }
    }
    for of in all.iter_mut().filter(|of| !of.is_empty()) {
        *of = vec![of.join("; ")];
    }
    all
}

/// The link, for a camera and, where that is not too much, for eyes.
fn opens(build: &Build) -> El {
    let address = address_of(&Link::from(build.clone()));
    let short = (address.chars().count() <= LONGEST).then(|| el("span").class("link").own(&address));
    let words = || el("p").text(words::SHEET_OPENS).children(short);
    el("div").class("opens").children(match code(&address) {
        Ok(code) => vec![code, words()],
        Err(why) => vec![why],
    })
}
