//! The method of a calculator: what it leaves out at once; inputs, equations, limits and sources when opened, and on paper
//! alone. It has an address of its own, to be cited.

use crate::bench::{Bench, plan};
use crate::dom::{El, button, el, folded};
use crate::listing::print;
use crate::mathml::{equation, letter};
use crate::page::version;
use crate::send::page_address;
use crate::words;
use trialfit_core::calculators::ALL;
use trialfit_core::method::{Entry, Letter, Section, in_unit, key_of, method as sections};

/// Of one calculator.
pub fn method(calculator: u8) -> El {
    let it = ALL[usize::from(calculator)];
    let summary = el("summary").id(&key_of(it.key)).child(el("h3").text(words::WHOLE_METHOD));
    el("section")
        .class("method")
        .id("method")
        .set("aria-labelledby", "method-title")
        .child(el("h2").id("method-title").text(words::METHOD))
        .child(el("h3").text(words::LEAVES_OUT))
        .child(el("ul").children(it.leaves_out.iter().map(|words| el("li").text(words))))
        .child(folded(el("details").class("row-more").child(summary), move || el("div").maybe(move || Some(whole(calculator)))))
}

/// What the method is called where it is cited.
pub fn title(calculator: u8) -> String {
    words::method_of(ALL[usize::from(calculator)].label, &version())
}

fn whole(calculator: u8) -> El {
    let address = format!("{}#{}", page_address(), key_of(ALL[usize::from(calculator)].key));
    let acts = el("p").class("acts").child(button("quiet", "print-method").text(words::PRINT_METHOD).on_press(|| print("method")));
    el("div")
        .class("whole-method")
        .child(el("p").class("cited").child(el("b").text(&title(calculator))).text(" ").child(el("span").class("address").text(&address)))
        .child(acts)
        .children(sections(plan(), ALL, calculator, Bench::get().system()).iter().flat_map(section))
}

fn section(it: &Section) -> [El; 2] {
    [el("h4").text(&it.title), el("ul").children(it.entries.iter().map(entry))]
}

/// Its lines, each a text of its own.
fn said(whole: El, it: &Entry) -> El {
    it.lines.iter().fold(whole, |whole, line| whole.text(" ").text(line))
}

fn entry(it: &Entry) -> El {
    let whole = el("li");
    let Some(line) = it.equation else {
        let name = (!it.name.is_empty()).then(|| el("b").text(&it.name));
        return said(whole.children(name), it);
    };
    let set = el("div").class("equation").child(equation(line));
    // Longer ones than a phone is wide can be moved, by keys too.
    let set = match line.equation.chars().count() > FITS {
        true => set.set("tabindex", "0").set("role", "group").set("aria-label", line.equation),
        false => set,
    };
    let one = |Letter { letter: name, unit, means }: &Letter| {
        let head = el("dt").child(crate::dom::math("math").child(letter(name))).text(&in_unit(unit));
        [head, el("dd").text(means)]
    };
    let letters = (!it.letters.is_empty()).then(|| el("dl").children(it.letters.iter().flat_map(one)));
    whole.child(set).children(letters).child(said(el("p").class("help"), it))
}

/// So many letters of an equation are sure to fit.
const FITS: usize = 28;
