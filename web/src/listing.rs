//! A calculator's list to work from, and its strips of labels, on the screen and on paper.

use crate::bench::Bench;
use crate::dom::{El, button, el};
use crate::drawing::still;
use crate::figure::pieces;
use crate::signal::memo;
use crate::words;
use gloo_events::EventListener;
use leptos::prelude::{document, window};
use trialfit_core::calculators::ALL;
use trialfit_core::listing::Listing;
use trialfit_core::sentence::Piece;

/// On the root while only a part of the page goes on paper.
const ALONE: &str = "data-print";

/// The list, if the calculator has one.
pub fn listing(calculator: u8) -> Option<El> {
    let bench = Bench::get();
    let make = ALL[usize::from(calculator)].listing?;
    let found = memo(move || {
        bench.when_calm();
        bench.look_now(make)
    });
    let title = el("h2").id("listing-title").says(move || found.with(|it| it.title.to_owned()));
    let acts = el("p")
        .class("acts")
        .child(button("quiet", "print-list").text(words::PRINT_LIST).on_press(move || print_list(calculator)))
        .child(button("quiet", "print-labels").text(words::PRINT_LABELS).on_press(|| print("labels")));
    let strips = move || found.with(|it| it.labels.iter().map(|label| el("li").child(el("bdi").text(label))).collect());
    let section = el("section")
        .class("results listing")
        .id("listing")
        .set("aria-labelledby", "listing-title")
        .child(title)
        .child(el("p").class("help").says(move || found.with(|it| it.help.to_owned())))
        .maybe(move || Some(found.with(table)))
        .child(acts)
        // On paper only: on the screen the table says the same.
        .child(el("ul").class("strips").set("aria-hidden", "true").many(strips));
    Some(section)
}

fn table(it: &Listing) -> El {
    let system = Bench::get().system();
    let cell = |(at, cell): (usize, &Vec<Piece>)| {
        let whole = if at == 0 { el("th").set("scope", "row") } else { el("td") };
        whole.children(pieces(cell, system))
    };
    let row = |row: &Vec<Vec<Piece>>| el("tr").children(row.iter().enumerate().map(cell));
    let head = it.head.iter().map(|words| el("th").set("scope", "col").text(words));
    let table = el("table")
        .child(el("caption").class("apart").text(it.title))
        .child(el("thead").child(el("tr").children(head)))
        .child(el("tbody").children(it.rows.iter().map(row)));
    el("div").class("plot-values").set("tabindex", "0").set("role", "group").set("aria-label", it.title).child(table)
}

/// Width of a diagram on paper and height of its rows, in CSS pixels: A4 and Letter, less their margins.
const DIAGRAM: (f64, f64) = (640.0, 46.0);

/// The list, then its diagrams, which are made for paper alone.
fn print_list(calculator: u8) {
    let bench = Bench::get();
    let Some(list) = document().get_element_by_id("listing") else { return };
    let make = ALL[usize::from(calculator)].diagrams;
    let scenes = bench.look_now(|build, report| make.map_or_else(Vec::new, |make| make(build, report)));
    let diagrams = el("div").class("diagrams").children(scenes.iter().map(|scene| {
        let high = scene.rows.map_or(1, |rows| rows.count + 1) as f64 * DIAGRAM.1;
        el("figure").child(el("figcaption").text(&scene.title)).child(still(scene, DIAGRAM.0, high, bench.system()))
    }));
    _ = list.append_child(diagrams.element());
    print_alone("list", move || diagrams.element().remove());
}

/// Prints a part of the page alone.
pub fn print(part: &str) {
    print_alone(part, || ());
}

/// The same; then does something.
pub fn print_alone(part: &str, then: impl FnOnce() + 'static) {
    let Some(root) = document().document_element() else { return };
    _ = root.set_attribute(ALONE, part);
    let after = EventListener::once(&window(), "afterprint", move |_| {
        _ = root.remove_attribute(ALONE);
        then();
    });
    after.forget();
    _ = window().print();
}
