//! What a link or a stored build may have wrong with it, in sentences. The rest of it opens all the same.

use crate::entry::EntryError;

/// Nothing of it can be opened.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Unreadable {
    /// No version at its start.
    #[error("“{text}” is no build: a build's link has #1.1/ in it.")]
    NotALink {
        /// What was given.
        text: String,
    },
    /// Version or edition 0.
    #[error("“{head}” names no edition of the usual values: a build's link begins with #1.1/.")]
    NoEdition {
        /// As written.
        head: String,
    },
    /// An address without its fragment.
    #[error("This address carries no build: what should stand after # is missing.")]
    NoFragment,
    /// Nothing can be had from its packed part, or its link is gone.
    #[error("This is damaged: no build can be read from it.")]
    Damaged,
    /// Packed in a way of some later version.
    #[error("This link was made by a later version in a form this one cannot unpack.")]
    LaterForm,
    /// Much longer than any build.
    #[error("This is too long for a build.")]
    TooLong,
}

/// What in a link could not be used.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum LinkProblem {
    /// Cut short on its way.
    #[error("The link was cut short; its last part was dropped, and more may be missing.")]
    Truncated,
    /// Made by a later version.
    #[error("The link was made by a later version ({version}); what this one does not know was left out.")]
    LaterVersion {
        /// That version.
        version: u32,
    },
    /// Against defaults this version does not have.
    #[error("The link counts on defaults of a later edition ({edition}); values it does not carry are today's and may differ.")]
    LaterEdition {
        /// That edition.
        edition: u32,
    },
    /// No such key.
    #[error("“{key}” is no input this version knows; it was left out.{}", did_you_mean(nearest))]
    UnknownKey {
        /// As written.
        key: String,
        /// A key much like it.
        nearest: Option<String>,
    },
    /// Names an output.
    #[error("{label} is worked out, not given; “{key}” was left out.")]
    NotAnInput {
        /// As written.
        key: String,
        /// Its label.
        label: &'static str,
    },
    /// Names a row that is not in its table.
    #[error("“{key}” names a row that is not there; it was left out.")]
    NoSuchRow {
        /// As written.
        key: String,
    },
    /// No number where one belongs.
    #[error("{label}: {why} {stands} (“{key}”).")]
    NotAQuantity {
        /// Its key.
        key: String,
        /// Its label.
        label: &'static str,
        /// What stands in its place.
        stands: Stands,
        /// What is wrong with it.
        why: EntryError,
    },
    /// Outside what physics allows.
    #[error("{label}: {value} is outside {lowest} to {highest}. {stands} (“{key}”).")]
    OutOfRange {
        /// Its key.
        key: String,
        /// Its label.
        label: &'static str,
        /// What stands in its place.
        stands: Stands,
        /// As written.
        value: String,
        /// The range's end.
        lowest: String,
        /// The range's other end.
        highest: String,
    },
    /// No such way to choose.
    #[error("{label}: “{value}” is none of {choices}. {stands} (“{key}”).")]
    NoSuchChoice {
        /// Its key.
        key: String,
        /// Its label.
        label: &'static str,
        /// What stands in its place.
        stands: Stands,
        /// As written.
        value: String,
        /// All there are.
        choices: String,
    },
    /// Not a list of row numbers, or too few or too many of them.
    #[error("{label}: “{value}” does not list {least} to {most} rows. The usual rows stand (“{key}”).")]
    Rows {
        /// The table's key.
        key: String,
        /// Its label.
        label: &'static str,
        /// As written.
        value: String,
        /// Fewest rows.
        least: u16,
        /// Most rows.
        most: u16,
    },
    /// Set by a part that is not among the link's.
    #[error("The part of “{key}” is not in the link; its value stands as your own.")]
    NoPart {
        /// As written.
        key: String,
    },
    /// Words with parts that could not be read, or were not fit to show.
    #[error("The words of “{key}” had characters that cannot be shown; they were taken out.")]
    Words {
        /// Its key.
        key: String,
    },
    /// More words than the field takes.
    #[error("The words of “{key}” are longer than {most} characters; the rest was cut.")]
    LongWords {
        /// Its key.
        key: String,
        /// As many as fit.
        most: u16,
    },
    /// The same key again.
    #[error("“{key}” stands more than once; the first was taken.")]
    Twice {
        /// As written.
        key: String,
    },
    /// Neither a value nor anything else.
    #[error("“{item}” could not be read; it was left out.")]
    Item {
        /// As written.
        item: String,
    },
    /// Units that are none.
    #[error("The link wants units this version does not know (“{word}”); that was left out.")]
    Units {
        /// As written.
        word: String,
    },
    /// A shelf somewhere else.
    #[error("The link names a shelf at “{address}”, which is not beside this page; it was left out.")]
    NotBeside {
        /// As written.
        address: String,
    },
    /// Something later versions do.
    #[error("The link carries {what} (“{item}”), which this version does not have; it was left out.")]
    LaterFeature {
        /// Its name.
        what: &'static str,
        /// As written.
        item: String,
    },
    /// More items than any build has.
    #[error("The link has far more parts than a build; only the first {most} were read.")]
    TooManyItems {
        /// As many as were read.
        most: usize,
    },
    /// The packed part is not what was packed.
    #[error("The link is damaged: only a part could be unpacked, and its values may be wrong.")]
    Damaged,
    /// More problems than anyone would read.
    #[error("And {count} more like these.")]
    More {
        /// So many.
        count: usize,
    },
}

/// What stands where a value could not be taken.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Stands {
    /// The usual value.
    Usual,
    /// Nothing: of this car it was not known before.
    Nothing,
}

impl core::fmt::Display for Stands {
    fn fmt(&self, out: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        out.write_str(match self {
            Self::Usual => "Its usual value stands",
            Self::Nothing => "It stays not known",
        })
    }
}

fn did_you_mean(nearest: &Option<String>) -> String {
    nearest.as_ref().map_or_else(String::new, |nearest| format!(" Did you mean “{nearest}”?"))
}

/// Problems in the order they were met; beyond a number nobody reads, counted only.
#[derive(Debug, Default)]
pub(super) struct Problems {
    list: Vec<LinkProblem>,
    more: usize,
}

/// As many as are listed one by one.
const LISTED: usize = 40;

impl Problems {
    pub(super) fn add(&mut self, problem: LinkProblem) {
        if self.list.len() < LISTED {
            self.list.push(problem);
        } else {
            self.more += 1;
        }
    }

    /// True while another problem would still be listed: finding suggestions for more is wasted work.
    pub(super) fn wanted(&self) -> bool {
        self.list.len() < LISTED
    }

    pub(super) fn finish(mut self) -> Vec<LinkProblem> {
        if self.more > 0 {
            self.list.push(LinkProblem::More { count: self.more });
        }
        self.list
    }
}
