//! Pieces of a label as one string, values of inputs as text.

use core::fmt::Write as _;
use trialfit_core::quantity::{DIMENSIONS, Unit};
use trialfit_core::sentence::Piece;
use trialfit_core::show::{Shown, System, answer, input};
use trialfit_core::spec::{Kind, Spec};

/// The unit shown to this reader instead of `unit`.
pub(crate) fn unit_for(unit: &'static Unit, system: System) -> &'static Unit {
    DIMENSIONS.iter().find(|dimension| dimension.units.contains(unit)).map_or(unit, |dimension| system.unit(dimension, unit))
}

/// Words and figures as they stand on the picture, in the reader's units.
pub(crate) fn say(pieces: &[Piece], system: System) -> String {
    let mut text = String::new();
    for piece in pieces {
        match piece {
            Piece::Words(words) => text.push_str(words),
            // Writing to a string cannot fail.
            Piece::Figure { value, unit, digits } => _ = write!(text, "{}", answer(*value, unit_for(unit, system), *digits)),
        }
    }
    text
}

/// The value of an input as its field shows it; none for choices and words.
pub(crate) fn of_input(spec: &Spec, value: f64, system: System) -> Option<Shown> {
    match spec.kind {
        Kind::Quantity { dimension, unit } => Some(input(value, system.unit(dimension, unit))),
        Kind::Choice(_) | Kind::Text(_) => None,
    }
}
