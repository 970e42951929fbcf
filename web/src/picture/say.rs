//! Pieces of a label as one string.

use crate::language;
use trialfit_core::sentence::Piece;
use trialfit_core::show::{System, brief};

/// Words and figures as they stand on the picture, in the reader's language and units.
pub(crate) fn say(pieces: &[Piece], system: System) -> String {
    let one = |piece: &Piece| match piece {
        Piece::Words(words) => words.to_string(),
        Piece::Figure { value, unit, digits } => brief(*value, unit, *digits, system).to_string(),
    };
    language::says(&pieces.iter().map(one).collect::<String>()).into_owned()
}
