//! A value on the page: tabular figures, groups of three set apart by style, the unit smaller.

use leptos::prelude::*;
use trialfit_core::sentence::{Piece, Sentence};
use trialfit_core::show::{self, Shown, System};

/// Between groups in a shown number; screen readers would split the number there, so style makes the gap instead.
const GROUP: char = '\u{202F}';

/// A value with its unit.
pub fn figure(shown: &Shown) -> AnyView {
    let mut groups = shown.number.split(GROUP).map(str::to_owned);
    let first = groups.next().unwrap_or_default();
    let others = groups.map(|group| view! { <span class="group">{group}</span> }).collect_view();
    let unit = match shown.unit {
        "" => None,
        "°" => Some(view! { <span class="unit">"°"</span> }.into_any()),
        unit => Some(view! { "\u{A0}" <span class="unit">{unit}</span> }.into_any()),
    };
    view! { <span class="figure"><b>{first}{others}</b>{unit}</span> }.into_any()
}

/// A sentence with its figures set off.
pub fn pieces(pieces: &[Piece], system: System) -> Vec<AnyView> {
    let view = |piece: &Piece| match piece {
        Piece::Words(words) => view! { <bdi>{words.clone().into_owned()}</bdi> }.into_any(),
        Piece::Figure { value, unit, digits } => figure(&show::figure(*value, unit, *digits, system)),
    };
    pieces.iter().map(view).collect()
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
