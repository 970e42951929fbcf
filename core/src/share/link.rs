//! The link, version 1: what differs from an edition of the defaults, in letters that forums and chats leave alone.
//!
//! ```text
//! link    = "1." edition *( "/" item ) "/end"       ; no /end = cut short: the last item is dropped
//!         / "1z." edition "/" base62 "/end"         ; the items and "end", deflated, with a checksum (RFC 1950)
//! item    = key "=" value / key ".pm=" number [ unit ] / key ".dist=" shape / "note=" text / "show=" key
//!         ; of show, besides inputs, answers, tables and calculators: "overview", and calculator ".whole-method"
//!         / "units=" base *( "." sort "-" way )     ; the units it is shown in: "metric" or "imperial", and what is otherwise
//!         / "part." count "=" id "." id "." id      ; a part fitted: its shelf, slot and own id; counted from 1
//!         / key ".part." count "=" value            ; what that part sets, over the key's own value
//!         / "of-the-car=gone"                       ; of what belongs to the particular car nothing is known but what is said
//!         / "shelf=" text                           ; where the shelf is published, from this page
//!         / "show=" tool                            ; sweep, map, solve, spread, combine, beside or parts; of it, each once:
//!         / "turn=" key / "watch=" key / "across=" key       ; inputs turned (across: the second, of a map); output watched
//!         / "from=" number [ unit ] / "to=" number [ unit ]  ; of the input turned; "across-from=", "across-to=" of the other
//!         / "target=" number [ unit ]               ; of the output watched
//!         / "slots=" id *( "." id ) / "empty=" id *( "." id ) ; of combine: the slots searched, those that may stay empty
//!         / "aim." count "=" ( "least." / "most." ) ( key / "price." currency / "mass" )
//!         / "limit." count "=" ( "at-most." / "at-least." ) key / "limit." count ".is=" number [ unit ]
//!         / "waive." count "=" key                  ; an answer that may be past its limits
//!         / "b2" / "b3" / "b4"                      ; what follows is a build held beside, by what differs from the first
//!         / key ".pm=follow" / key ".dist=follow"   ; held: no tolerance of its own
//!         / key ".own=follow"                       ; held: the usual words, where any value is words
//!         / "part=gone"                             ; held: without the first's parts; those that follow count from 1
//! key     = word *( "." word )                      ; a row's cell: calculator.table.ROW.column
//! value   = number [ unit ] / choice / "follow" / "gone" / rows / text       ; the key decides which
//! rows    = number *( "." number ) / "gone"         ; the table's rows in order, when they are not the usual ones
//! shape   = "normal" [ "-" number ] / "uniform" / "triangular"              ; of the half-width: so many sigmas, else 2
//! number  = ["-"] 1*digit ["." 1*digit] ["e" ["-"] 1*digit]
//! ```
//!
//! A number without a unit is in the input's own; the writer adds one (the SI unit) only where no decimal of the
//! input's own unit gives the same bits. `gone` says that a value is not known, `follow` that the usual one stands.
//! A key's own value stands under its parts' values and comes back when they go; of several parts the later stands over
//! the earlier. A link so opens alike with its shelf at hand and without.
//! `.pm` is a tolerance's half-width, in the input's unit. A key in a held part puts all that stands there, parts' values
//! included, in the place of what stands in the first; what cannot be read there is as usual. Frozen: links are out in the world.

mod asked;
mod read;
mod sought;
mod write;

use crate::build::Build;
use crate::show::System;

pub use asked::{Asked, Tool};
pub use read::{read, read_for};
pub use sought::{MOST_LIMITS, Sought};
pub use write::{differing, packed, plain, write};

/// The version written, and the latest read in full.
pub const VERSION: u32 = 1;

/// Longest note, in characters.
pub const NOTE: u16 = 500;

/// So many builds may be held beside the first.
pub const MOST_HELD: usize = 3;

/// Says, once, that what belongs to the particular car is not known.
const OF_THE_CAR: &str = "of-the-car";

/// A packed link may grow to this many bytes and no further; a plain one may be as long.
pub(super) const LONGEST: usize = 256 * 1024;

/// What a link carries.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Link {
    /// The inputs.
    pub build: Build,
    /// Words of whoever made it; empty for none.
    pub note: String,
    /// Key of the input, answer, calculator or method to open at; empty for none.
    pub show: String,
    /// A tool to open instead, with its settings.
    pub asked: Option<Asked>,
    /// What a search among parts is asked, where that is the tool.
    pub sought: Sought,
    /// Address of a shelf published beside the app, from the page's own, see [`is_beside`]; empty for none.
    pub shelf: String,
    /// The units to show it in; none leaves that to the reader.
    pub units: Option<System>,
    /// Builds held beside it, at most [`MOST_HELD`].
    pub held: Vec<Build>,
}

/// Longest address of a shelf, in characters.
pub const SHELF: u16 = 200;

/// Whether an address leads to something beside the page: relative, downwards, and without anything a browser would take
/// for another host.
#[must_use]
pub fn is_beside(address: &str) -> bool {
    let plain = |letter: char| letter.is_ascii_alphanumeric() || matches!(letter, '-' | '_' | '.' | '/');
    !address.is_empty()
        && address.len() <= usize::from(SHELF)
        && address.chars().all(plain)
        && !address.starts_with('/')
        && !address.split('/').any(|folder| folder.is_empty() || folder == "." || folder == "..")
}

impl From<Build> for Link {
    fn from(build: Build) -> Self {
        // Not the rest of the default link: that would make the demo build each time a build is kept.
        Self {
            build,
            note: String::new(),
            show: String::new(),
            asked: None,
            sought: Sought::default(),
            shelf: String::new(),
            units: None,
            held: Vec::new(),
        }
    }
}

/// A link that was opened, and all that was wrong with it.
#[derive(Clone, Debug, PartialEq)]
pub struct Opened {
    /// What could be used.
    pub link: Link,
    /// What could not.
    pub problems: Vec<super::LinkProblem>,
}
