//! The answer in words, with its figures kept as numbers so that the screen shows them in the reader's units.

use crate::quantity::Unit;
use crate::show;
use crate::spec::{Kind, Role, Spec, Verdict};
use std::borrow::Cow;

/// A piece of a sentence or label.
#[derive(Clone, Debug, PartialEq)]
pub enum Piece {
    /// Words as they stand.
    Words(Cow<'static, str>),
    /// A figure, SI, shown in this unit or what its reader has instead.
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

    /// A figure and its limit, with so many digits or as many more as tell the two apart.
    #[must_use]
    pub fn apart(values: [f64; 2], unit: &'static Unit, digits: u8) -> [Self; 2] {
        let differ = |&digits: &u8| {
            let [one, other] = values.map(|value| show::answer(value, unit, digits).number);
            one != other
        };
        let digits = (digits..=6).find(differ).unwrap_or(digits);
        values.map(|value| Self::Figure { value, unit, digits })
    }

    /// The number of a cell (SI, or a choice's ordinal): an input with all its digits, an output with as many as it is
    /// shown with.
    #[must_use]
    pub fn cell(spec: &Spec, value: f64) -> Self {
        match spec.kind {
            Kind::Quantity { unit, .. } => {
                let digits = if spec.role == Role::Input { show::digits(value, unit) } else { spec.digits };
                Self::Figure { value, unit, digits }
            }
            Kind::Choice(choices) => choices.get(value as usize).map_or("", |choice| choice.label).into(),
            Kind::Text(_) => "".into(),
        }
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
