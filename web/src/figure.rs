//! A value on the page: tabular figures, groups of three set apart by style, the unit smaller.

use crate::dom::{El, el};
use crate::language::{self, Part};
use trialfit_core::sentence::{Piece, Sentence};
use trialfit_core::show::{self, Shown, System};

/// Between groups in a shown number; screen readers would split the number there, so style makes the gap instead.
const GROUP: char = '\u{202F}';

/// A value with its unit.
pub fn figure(shown: &Shown) -> El {
    let mut groups = shown.number.split(GROUP);
    let number = el("b").text(groups.next().unwrap_or_default());
    let number = number.children(groups.map(|group| el("span").class("thousands").text(group)));
    let figure = el("span").class("figure").child(number);
    match shown.unit {
        "" => figure,
        "°" => figure.child(unit("°")),
        symbol => figure.text("\u{A0}").child(unit(symbol)),
    }
}

/// A unit, smaller and paler than its number.
pub fn unit(symbol: &str) -> El {
    el("span").class("unit").text(symbol)
}

/// A sentence with its figures set off. Another language may want them in another order.
pub fn pieces(pieces: &[Piece], system: System) -> Vec<El> {
    let shown = |piece: &Piece| match piece {
        Piece::Words(words) => el("bdi").own(words),
        Piece::Figure { value, unit, digits } => figure(&show::figure(*value, unit, *digits, system)),
    };
    if language::is_source() {
        return pieces.iter().map(shown).collect();
    }
    let figures: Vec<&Piece> = pieces.iter().filter(|piece| matches!(piece, Piece::Figure { .. })).collect();
    let mut count = 0..;
    let text: String = pieces
        .iter()
        .map(|piece| match piece {
            Piece::Words(words) => words.to_string(),
            Piece::Figure { .. } => language::stands_for(count.next().unwrap_or_default()).to_string(),
        })
        .collect();
    let said = language::says(&text);
    let one = |part: Part| match part {
        Part::Words(words) => Some(el("bdi").own(words)),
        Part::Figure(at) => figures.get(at).map(|piece| shown(piece)),
    };
    language::parts(&said).into_iter().filter_map(one).collect()
}

/// A sentence as a voice reads it.
pub fn spoken(sentence: &Sentence, system: System) -> String {
    let mut text = String::new();
    for piece in &sentence.pieces {
        match piece {
            Piece::Words(words) => text.push_str(words),
            Piece::Figure { value, unit, digits } => text.push_str(&show::figure(*value, unit, *digits, system).spoken),
        }
    }
    text
}
