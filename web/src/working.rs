//! How an answer came about: each equation, its numbers, its result and where it comes from.

mod substitute;

use crate::dom::{El, el};
use crate::language;
use substitute::{Bit, equation, result, says_it_all, substituted};
use trialfit_core::plan::Said;
use trialfit_core::show::System;
use trialfit_core::spec::Source;

/// The lines of a working, those shared by several answers first. Results in the reader's units; equations keep their own.
pub fn working(lines: &[Said], units: System) -> Vec<El> {
    in_order(lines).into_iter().map(|said| row(said, units)).collect()
}

/// Shared lines first, each once, otherwise as they were worked out.
fn in_order(lines: &[Said]) -> Vec<&Said> {
    let mut ordered: Vec<&Said> = Vec::with_capacity(lines.len());
    for shared in [true, false] {
        for said in lines.iter().filter(|said| said.of.is_none() == shared) {
            if !ordered.contains(&said) {
                ordered.push(said);
            }
        }
    }
    ordered
}

fn row(said: &Said, system: System) -> El {
    let numbers = substituted(said).map(|bits| show("working-numbers", bits));
    let (own, other) = result(said, system);
    let result = (!says_it_all(said)).then(|| {
        let result = el("span").class("working-result").text("= ").child(el("b").text(&own.to_string()));
        other.iter().fold(result, |result, other| result.text(&format!(" ({other})")))
    });
    let source = said.line.source;
    let class = if is_weak(source) { "working-source working-weak" } else { "working-source" };
    el("li")
        .child(show("working-equation", equation(said)))
        .children(numbers)
        .children(result)
        .child(el("small").class(class).text(&source.to_string()))
}

/// Whether a source is one that nobody can look up.
fn is_weak(source: Source) -> bool {
    matches!(source, Source::FromMemory(_) | Source::CommonPractice | Source::Judgement)
}

fn show(class: &str, bits: Vec<Bit>) -> El {
    bits.into_iter().fold(el("span").class(class), |line, bit| match bit {
        Bit::Plain(text) => line.own(&language::number(&text)),
        Bit::Letter(letter, index) if index.is_empty() => line.child(el("var").own(&letter)),
        Bit::Letter(letter, index) => line.child(el("var").own(&letter).child(el("sub").own(&index))),
        Bit::Number(text) => line.child(el("span").class("working-number").own(&language::number(&text))),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use trialfit_core::plan::Line;
    use trialfit_core::quantity::unit::ONE;
    use trialfit_core::spec::{Id, Place};

    #[test]
    fn shared_lines_come_first_and_once() {
        static LINE: Line = Line { equation: "a = b", terms: &[("b", ONE)], unit: ONE, source: Source::Definition };
        let place = Place::from(Id { calculator: 0, ordinal: 0 });
        let said = |of: Option<Place>, result: f64| Said { of, line: &LINE, numbers: Box::new([result]), result };
        let lines = [said(Some(place), 1.0), said(None, 2.0), said(Some(place), 3.0), said(None, 2.0)];
        let results: Vec<f64> = in_order(&lines).into_iter().map(|said| said.result).collect();
        assert_eq!(results, [2.0, 1.0, 3.0]);
    }
}
