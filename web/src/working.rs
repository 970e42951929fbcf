//! How an answer came about: each equation, its numbers, its result and where it comes from.

mod substitute;

use leptos::prelude::*;
use substitute::{Bit, equation, result, says_it_all, substituted};
use trialfit_core::plan::Said;
use trialfit_core::show::System;
use trialfit_core::spec::Source;

/// The lines of a working, those shared by several answers first.
#[component]
pub fn Working(
    /// As traced.
    #[prop(into)]
    lines: Signal<Vec<Said>>,
    /// Units of the results; equations keep their own.
    #[prop(into)]
    units: Signal<System>,
) -> impl IntoView {
    let rows = move || lines.with(|lines| in_order(lines).into_iter().map(|said| row(said, units.get())).collect_view());
    view! { <ol class="working">{rows}</ol> }
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

fn row(said: &Said, system: System) -> impl IntoView + use<> {
    let numbers = substituted(said).map(|bits| view! { <span class="working-numbers">{show(bits)}</span> });
    let (own, other) = result(said, system);
    let other = other.map(|other| format!(" ({other})"));
    let source = said.line.source;
    let result = (!says_it_all(said)).then(|| view! { <span class="working-result">"= "<b>{own.to_string()}</b>{other}</span> });
    view! {
        <li>
            <span class="working-equation">{show(equation(said))}</span>
            {numbers}
            {result}
            <small class="working-source" class:working-weak=is_weak(source)>{source.to_string()}</small>
        </li>
    }
}

/// Whether a source is one that nobody can look up.
fn is_weak(source: Source) -> bool {
    matches!(source, Source::FromMemory(_) | Source::CommonPractice | Source::Judgement)
}

fn show(bits: Vec<Bit>) -> impl IntoView {
    let one = |bit: Bit| match bit {
        Bit::Plain(text) => text.into_any(),
        Bit::Letter(letter, index) if index.is_empty() => view! { <var>{letter}</var> }.into_any(),
        Bit::Letter(letter, index) => view! { <var>{letter}<sub>{index}</sub></var> }.into_any(),
        Bit::Number(text) => view! { <span class="working-number">{text}</span> }.into_any(),
    };
    bits.into_iter().map(one).collect_view()
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
