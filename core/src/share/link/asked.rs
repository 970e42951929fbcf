//! What a link asks a tool of the page: which one, over what, how far.

use crate::layout::Layout;
use crate::spec::{Kind, Place};

/// A tool, or a section of the overview.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Tool {
    /// One input over a range.
    Sweep,
    /// Two inputs over their ranges.
    Map,
    /// An input that brings an output to a target.
    Solve,
    /// An output by the tolerances of all inputs.
    Spread,
    /// Combinations of parts.
    Combine,
    /// What is held beside what is on trial.
    Beside,
    /// The shelves and the kit list.
    Parts,
}

impl Tool {
    /// All of them.
    pub const ALL: [Self; 7] = [Self::Sweep, Self::Map, Self::Solve, Self::Spread, Self::Combine, Self::Beside, Self::Parts];

    /// Its word in a link.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Sweep => "sweep",
            Self::Map => "map",
            Self::Solve => "solve",
            Self::Spread => "spread",
            Self::Combine => "combine",
            Self::Beside => "beside",
            Self::Parts => "parts",
        }
    }

    /// The tool of a word.
    #[must_use]
    pub fn by_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|tool| tool.key() == key)
    }
}

/// A tool with its settings; what is none, the tool picks. Numbers are SI, of the kind of the place they belong to.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Asked {
    /// Which.
    pub tool: Tool,
    /// The input turned: of a sweep or a solution, or upwards on a map.
    pub turn: Option<Place>,
    /// From and to, of that.
    pub range: [Option<f64>; 2],
    /// The input across a map.
    pub across: Option<Place>,
    /// From and to, of that.
    pub across_range: [Option<f64>; 2],
    /// The output watched: of a sweep, a solution, or a spread.
    pub watch: Option<Place>,
    /// What that is brought to.
    pub target: Option<f64>,
}

impl Asked {
    /// A tool as it opens by itself.
    #[must_use]
    pub fn of(tool: Tool) -> Self {
        Self { tool, turn: None, range: [None; 2], across: None, across_range: [None; 2], watch: None, target: None }
    }

    /// Its settings as a link has them, key and value, those that were given.
    #[must_use]
    pub fn items(&self, layout: &Layout) -> Vec<(&'static str, String)> {
        let places = [("turn", self.turn), ("across", self.across), ("watch", self.watch)];
        let places = places.into_iter().filter_map(|(key, place)| Some((key, layout.key(place?))));
        let numbers = [
            ("from", self.turn, self.range[0]),
            ("to", self.turn, self.range[1]),
            ("across-from", self.across, self.across_range[0]),
            ("across-to", self.across, self.across_range[1]),
            ("target", self.watch, self.target),
        ];
        let number = |(key, place, value): (&'static str, Option<Place>, Option<f64>)| match layout.kind(place?.id) {
            Kind::Quantity { dimension, unit } => Some((key, super::write::number(value?, dimension, unit))),
            Kind::Choice(_) | Kind::Text(_) => None,
        };
        places.chain(numbers.into_iter().filter_map(number)).collect()
    }
}
