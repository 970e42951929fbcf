//! Cells, and sentences with figures in them, as text.

use super::{Shown, System, answer, gauge, input};
use crate::quantity::{DIMENSIONS, Unit};
use crate::report::{Report, is_past};
use crate::sentence::{Piece, Sentence};
use crate::spec::{Kind, Place, Role, Sense, Spec};

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

/// What stands at a place, an answer in digits that tell it from its limits; none where nothing does.
#[must_use]
pub fn at(report: &Report, place: Place, system: System) -> Option<Shown> {
    let (spec, value) = (report.layout().spec(place.id), report.value(place).ok()?);
    match spec.kind {
        Kind::Quantity { dimension, unit } if spec.role == Role::Output && !system.shows_gauges(unit) => {
            let unit = system.unit(dimension, unit);
            Some(answer(value, unit, digits_of(report, place, unit)))
        }
        _ => Some(cell(spec, value, system)),
    }
}

/// The digits in which an answer is shown: as declared, or as many more as tell it from a limit that it is not.
#[must_use]
pub(crate) fn digits_of(report: &Report, place: Place, unit: &'static Unit) -> u8 {
    let spec = report.layout().spec(place.id);
    let Ok(value) = report.value(place) else { return spec.digits };
    let marks = spec.limits.iter().flatten().flat_map(|limit| core::iter::once(limit.beyond).chain(limit.near));
    let marks = marks.filter_map(|id| report.value(report.layout().beside(id, place)).ok());
    let reads = |number: f64, digits: u8| answer(number, unit, digits).number;
    let tells = |digits: &u8, mark: f64| reads(value, *digits) != reads(mark, *digits);
    let others = marks.filter(|&mark| is_past(value, Sense::AtMost, mark) || is_past(value, Sense::AtLeast, mark));
    others.filter_map(|mark| (spec.digits..=6).find(|digits| tells(digits, mark))).max().unwrap_or(spec.digits)
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
    let instead = dimension.map_or(unit, |dimension| system.unit(dimension, unit));
    // Few digits are enough for a round number of its own unit alone.
    let shown = answer(value, instead, if instead == unit { digits } else { digits.max(3) });
    if system.shows_gauges(unit) { gauge::of(value).unwrap_or(shown) } else { shown }
}

/// A piece of a sentence in plain text.
#[must_use]
pub fn piece(piece: &Piece, system: System) -> String {
    match piece {
        Piece::Words(words) => words.to_string(),
        Piece::Figure { value, unit, digits } => figure(*value, unit, *digits, system).to_string(),
    }
}

/// A sentence in plain text.
#[must_use]
pub fn sentence(sentence: &Sentence, system: System) -> String {
    let mut text: String = sentence.pieces.iter().map(|it| piece(it, system)).collect();
    text.truncate(text.trim_end().len());
    text
}
