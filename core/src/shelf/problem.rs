//! What a shelf file may have wrong with it, by part, in sentences. The rest of it loads all the same.

use crate::entry::EntryError;

/// Nothing of it can be opened.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Unreadable {
    /// Not JSON.
    #[error("This is no JSON: it goes wrong in line {line}, column {column}.")]
    NotJson {
        /// Counted from 1.
        line: usize,
        /// Counted from 1.
        column: usize,
    },
    /// JSON of something else.
    #[error("This is no shelf: a shelf begins with {{\"trialfit-shelf\": 1.")]
    NotAShelf,
    /// Longer than any shelf.
    #[error("This is too long for a shelf: at most {most} bytes.")]
    TooLong {
        /// As many as are read.
        most: usize,
    },
}

/// One thing that is wrong, and with which part.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{}{fault}", self.prefix())]
pub struct ShelfProblem {
    /// Name or id of the part (or slot), else its number; empty for the shelf as a whole.
    pub part: String,
    /// What.
    pub fault: Fault,
}

impl ShelfProblem {
    fn prefix(&self) -> String {
        if self.part.is_empty() { String::new() } else { format!("{}: ", self.part) }
    }
}

/// What may be wrong.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Fault {
    /// Made by a later version.
    #[error("The shelf is of a later version ({0}); what this one does not know was left out.")]
    LaterVersion(u32),
    /// A field nobody knows.
    #[error("“{0}” is nothing this version knows; it was left out.")]
    Field(String),
    /// A field that stands twice.
    #[error("“{0}” stands more than once; the first was taken.")]
    FieldTwice(String),
    /// A field with something else in it.
    #[error("What stands in “{0}” does not belong there; it was left out.")]
    Kind(String),
    /// An entry that is no object.
    #[error("It is no entry in braces; it was left out.")]
    NotAnEntry,
    /// Something it cannot do without.
    #[error("It has no {0}; it was left out.")]
    Lacks(&'static str),
    /// Letters an id does not have.
    #[error("“{0}” is no id: small letters, digits and single hyphens, at most 40. It was left out.")]
    Id(String),
    /// The id of something else.
    #[error("“{0}” is the id of another already; this one was left out.")]
    Duplicate(String),
    /// No such slot declared.
    #[error("“{0}” is not among the slots; it was added to them.")]
    Slot(String),
    /// Longer than is kept.
    #[error("“{field}” is longer than {most} characters; the rest was cut.")]
    Long {
        /// Which field.
        field: &'static str,
        /// As many as are kept.
        most: usize,
    },
    /// Characters that cannot be shown.
    #[error("“{0}” had characters that cannot be shown; they were taken out.")]
    Hidden(&'static str),
    /// No input.
    #[error("“{key}” is no input this version knows; it is not set.{}", did_you_mean(nearest))]
    Key {
        /// As written.
        key: String,
        /// A key much like it.
        nearest: Option<String>,
    },
    /// An output.
    #[error("“{0}” is not set: it is worked out, not given.")]
    Output(String),
    /// Set twice.
    #[error("It sets “{0}” more than once; the first was taken.")]
    KeyTwice(String),
    /// Not a value of the input.
    #[error("“{key}” is not set: {why}")]
    Entry {
        /// Which input.
        key: String,
        /// What is wrong with it.
        why: EntryError,
    },
    /// Neither a number nor a text.
    #[error("“{0}” is not set: it wants a number, or a text such as one types.")]
    Value(String),
    /// Outside what physics allows.
    #[error("“{key}” is not set: {value} is outside {lowest} to {highest}.")]
    Range {
        /// Which input.
        key: String,
        /// As shown.
        value: String,
        /// The range's end.
        lowest: String,
        /// The range's other end.
        highest: String,
    },
    /// No such way to choose.
    #[error("“{key}” is not set: “{value}” is none of {choices}.")]
    Choice {
        /// Which input.
        key: String,
        /// As written.
        value: String,
        /// All there are.
        choices: String,
    },
    /// An input of words.
    #[error("“{0}” is not set: it holds words, which no part sets.")]
    Words(String),
    /// No mass.
    #[error("Its {what} is no mass: {why}")]
    Mass {
        /// Which.
        what: String,
        /// As written.
        why: EntryError,
    },
    /// A mass that cannot be.
    #[error("Its {0} is no mass: it must be nothing or more, and less than ten tonnes.")]
    MassRange(String),
    /// No number of money.
    #[error("“{0}” is no price: a number of at most three decimals, such as 48.50. It has none now.")]
    Price(String),
    /// A price of which nobody knows where its decimals begin.
    #[error("“{0}” may be thousands or decimals: write thousands without a mark, such as 1234.00. It has no price now.")]
    PriceMark(String),
    /// No currency.
    #[error("“{0}” is no currency: three letters, such as EUR. It has no price now.")]
    Currency(String),
    /// An address that leads nowhere it may.
    #[error("“{0}” is no link: https://…, or a path on this app's own host. It was left out.")]
    Link(String),
    /// A rule that says nothing.
    #[error("A rule of it names nothing; it was left out.")]
    EmptyRule,
    /// A rule whose name is not there.
    #[error("A rule names “{0}”, which is no part or slot of this shelf.")]
    NoSuchName(String),
    /// A rule that names itself.
    #[error("A rule names the part itself; that name was left out.")]
    Itself,
    /// A slot allows all of its parts.
    #[error("“only-with” names the slot “{0}”, which forbids nothing; that name was left out.")]
    OnlyWithSlot(String),
    /// No choice of parts fulfils its rules.
    #[error("Its rules can never hold, whatever else is chosen.")]
    NeverHolds,
    /// Parts that need one another.
    #[error("Its needs come round to itself: {0}. They can only be chosen together.")]
    Cycle(String),
    /// More parts than are read.
    #[error("The shelf has more than {0} of these; the rest was left out.")]
    TooMany(usize),
    /// More problems than anyone would read.
    #[error("And {0} more like these.")]
    More(usize),
}

fn did_you_mean(nearest: &Option<String>) -> String {
    nearest.as_ref().map_or_else(String::new, |nearest| format!(" Did you mean “{nearest}”?"))
}

/// As many as are listed one by one.
const LISTED: usize = 200;

/// Problems in the order they were met; beyond a number nobody reads, counted only.
#[derive(Debug, Default)]
pub(super) struct Problems {
    list: Vec<ShelfProblem>,
    more: usize,
}

impl Problems {
    pub(super) fn add(&mut self, part: &str, fault: Fault) {
        if self.list.len() < LISTED {
            self.list.push(ShelfProblem { part: part.into(), fault });
        } else {
            self.more += 1;
        }
    }

    /// True while another problem would still be listed.
    pub(super) fn wanted(&self) -> bool {
        self.list.len() < LISTED
    }

    pub(super) fn finish(mut self) -> Vec<ShelfProblem> {
        if self.more > 0 {
            self.list.push(ShelfProblem { part: String::new(), fault: Fault::More(self.more) });
        }
        self.list
    }
}
