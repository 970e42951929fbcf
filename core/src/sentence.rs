//! The answer in words, with its figures kept as numbers so that the screen shows them in the reader's units.

use crate::quantity::Unit;
use crate::spec::Verdict;
use std::borrow::Cow;

/// A piece of a sentence or label.
#[derive(Clone, Debug, PartialEq)]
pub enum Piece {
    /// Words as they stand.
    Words(Cow<'static, str>),
    /// A figure, SI, shown in this unit or its imperial counterpart.
    Figure {
        /// SI number.
        value: f64,
        /// The metric unit it is shown in.
        unit: &'static Unit,
        /// Significant digits.
        digits: u8,
    },
}

impl Piece {
    /// A figure of three significant digits.
    #[must_use]
    pub const fn figure(value: f64, unit: &'static Unit) -> Self {
        Self::Figure { value, unit, digits: 3 }
    }
}

impl From<&'static str> for Piece {
    fn from(words: &'static str) -> Self {
        Self::Words(Cow::Borrowed(words))
    }
}

impl From<String> for Piece {
    fn from(words: String) -> Self {
        Self::Words(Cow::Owned(words))
    }
}

/// A calculator's answer: worst verdict first, three lines on a phone at most.
#[derive(Clone, Debug, PartialEq)]
pub struct Sentence {
    /// The worst verdict it speaks of.
    pub verdict: Verdict,
    /// Words and figures in order; figures bring no space of their own.
    pub pieces: Vec<Piece>,
}
