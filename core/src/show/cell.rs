//! Cells, and sentences with figures in them, as text.

use super::{Shown, System, answer, gauge, input};
use crate::quantity::{DIMENSIONS, Unit};
use crate::sentence::{Piece, Sentence};
use crate::spec::{Kind, Role, Spec};

/// The number of a cell (SI, or a choice's ordinal) as its declaration shows it; words have no number.
#[must_use]
pub fn cell(spec: &Spec, value: f64, system: System) -> Shown {
    match spec.kind {
        Kind::Quantity { dimension, unit } => {
            let instead = system.unit(dimension, unit);
            let shown = match spec.role {
                Role::Input => input(value, instead),
                Role::Output => answer(value, instead, spec.digits),
            };
            if system.shows_gauges(unit) { gauge::or_thicker(value, gauge::of(value).unwrap_or(shown)) } else { shown }
        }
        Kind::Choice(choices) => {
            let label = choices.get(value as usize).map_or("", |choice| choice.label);
            Shown { number: label.into(), unit: "", spoken: label.into() }
        }
        Kind::Text(_) => Shown { number: String::new(), unit: "", spoken: String::new() },
    }
}

/// A figure of a sentence.
#[must_use]
pub fn figure(value: f64, unit: &'static Unit, digits: u8, system: System) -> Shown {
    let shown = brief(value, unit, digits, system);
    if system.shows_gauges(unit) { gauge::or_thicker(value, shown) } else { shown }
}

/// The same where room is short, as in a drawing: without what may be taken instead of a conductor that is no gauge.
#[must_use]
pub fn brief(value: f64, unit: &'static Unit, digits: u8, system: System) -> Shown {
    let dimension = DIMENSIONS.iter().find(|dimension| dimension.has(unit));
    let shown = answer(value, dimension.map_or(unit, |dimension| system.unit(dimension, unit)), digits);
    if system.shows_gauges(unit) { gauge::of(value).unwrap_or(shown) } else { shown }
}

/// A sentence in plain text.
#[must_use]
pub fn sentence(sentence: &Sentence, system: System) -> String {
    let mut text = String::new();
    for piece in &sentence.pieces {
        match piece {
            Piece::Words(words) => text.push_str(words),
            Piece::Figure { value, unit, digits } => text.push_str(&figure(*value, unit, *digits, system).to_string()),
        }
    }
    text.truncate(text.trim_end().len());
    text
}
