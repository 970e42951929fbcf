//! Lists to work from, such as what to cut and what stands on its labels, as plain data.

use crate::sentence::Piece;

/// A list that a calculator makes of the build.
#[derive(Clone, Debug, PartialEq)]
pub struct Listing {
    /// What it is.
    pub title: &'static str,
    /// How to use it.
    pub help: &'static str,
    /// What stands over each column.
    pub head: &'static [&'static str],
    /// A cell for each column, in words and figures; an empty one says nothing.
    pub rows: Vec<Vec<Vec<Piece>>>,
    /// Texts for strips of labels, each as often as it is wanted.
    pub labels: Vec<String>,
}
