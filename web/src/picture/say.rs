//! Pieces of a label as one string.

use trialfit_core::sentence::Piece;
use trialfit_core::show::{System, brief};

/// Words and figures as they stand on the picture, in the reader's units.
pub(crate) fn say(pieces: &[Piece], system: System) -> String {
    let one = |piece: &Piece| match piece {
        Piece::Words(words) => words.to_string(),
        Piece::Figure { value, unit, digits } => brief(*value, unit, *digits, system).to_string(),
    };
    pieces.iter().map(one).collect()
}
