//! A build as kept on the device or in a file: a few lines of text, the last of them its link in readable form.
//!
//! ```text
//! Trialfit build 1
//! name: Blue two-seater
//! revision: 12
//! rows named: wiring.circuits=17/car.gears=6
//! 1.1/clutch.slave-bore=22.2/end
//! ```
//!
//! A file of several has one after another, each from its first line on.
//!
//! `rows named` stands there only when the last rows of a table are gone: their names are not given again, since links and
//! notes may still speak of them.

use super::link::{self, Link, Opened};
use super::{LinkProblem, Unreadable};
use crate::build::Build;
use crate::entry::clean;
use crate::spec::{RowId, TableId};

/// First line, without the version of the form.
const HEADER: &str = "Trialfit build";

/// Begins the line of row names.
const NAMED: &str = "rows named:";

/// Version of the form written.
const VERSION: u32 = 1;

/// Longest name, in characters.
pub const NAME: usize = 60;

/// A build with what the device knows of it.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Stored {
    /// As listed among the builds of the device.
    pub name: String,
    /// Goes up by one with each save: of two copies, the one with the lower number is the older.
    pub revision: u64,
    /// The build with its note and the place last looked at.
    pub link: Link,
}

/// What a stored build may have wrong with it.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum StoredProblem {
    /// Stored by a later version.
    #[error("It was stored by a later version ({0}); what this one does not know was left out.")]
    LaterVersion(u32),
    /// A line that says nothing known.
    #[error("The line “{0}” could not be read; it was left out.")]
    Line(String),
    /// Another build after the first.
    #[error("It holds more than one build; only the first was read.")]
    More,
    /// In the link.
    #[error("{0}")]
    Link(#[from] LinkProblem),
}

/// The stored form.
#[must_use]
pub fn write(stored: &Stored) -> String {
    let name = clean(&stored.name, NAME);
    let mut text = format!("{HEADER} {VERSION}\nname: {name}\nrevision: {}\n", stored.revision);
    let named = named(&stored.link.build);
    if !named.is_empty() {
        text.push_str(&format!("{NAMED} {named}\n"));
    }
    text.push_str(&link::plain(&stored.link));
    text.push('\n');
    text
}

/// The last names of tables whose rows do not tell them.
fn named(build: &Build) -> String {
    let mut items = Vec::new();
    for (calculator, it) in build.layout().calculators().iter().enumerate() {
        for (table, declared) in it.tables.iter().enumerate() {
            let table = TableId { calculator: calculator as u8, table: table as u8 };
            let (RowId(last), usual) = (build.last_name(table), declared.rows.len() as u16);
            let told = build.rows(table).iter().fold(usual, |highest, row| highest.max(row.0));
            if last > told {
                items.push(format!("{}={last}", build.layout().table_key(table)));
            }
        }
    }
    items.join("/")
}

/// Takes one of these items; none when it says nothing known.
fn keep(build: &mut Build, item: &str) -> Option<()> {
    let (key, last) = item.split_once('=')?;
    let table = build.layout().table_by_key(key)?;
    build.keep_names(table, RowId(last.parse().ok()?));
    Some(())
}

/// The texts of a file of stored builds, each to be read by itself: damage in one leaves the others whole.
pub fn split(text: &str) -> impl Iterator<Item = &str> {
    let starts = text.match_indices(HEADER).map(|(at, _)| at).filter(|&at| text[..at].ends_with(['\n', '\r', '\u{FEFF}']) || at == 0);
    let ends = starts.clone().filter(|&at| at > 0).chain([text.len()]);
    // What stands before the first header may be a bare link.
    let starts = core::iter::once(0).chain(starts.filter(|&at| at > 0));
    starts.zip(ends).map(|(start, end)| &text[start..end]).filter(|text| !text.trim_matches(['\u{FEFF}', ' ', '\n', '\r', '\t']).is_empty())
}

/// Reads a stored build; a bare link or address will do.
///
/// # Errors
/// [`Unreadable`], when no link is left in it. All lesser damage is in the list.
pub fn read(text: &str) -> Result<(Stored, Vec<StoredProblem>), Unreadable> {
    let mut stored = Stored::default();
    let mut problems = Vec::new();
    let mut opened: Option<Opened> = None;
    let mut named = "";
    let text = text.trim_start_matches(['\u{FEFF}', ' ', '\n', '\r']);
    if !text.starts_with(HEADER) {
        let Opened { link, problems } = link::read(text)?;
        return Ok((Stored { link, ..stored }, problems.into_iter().map(Into::into).collect()));
    }
    for line in text.lines().map(str::trim).filter(|line| !line.is_empty()) {
        // Names and rows of the next are not this one's.
        if opened.is_some() && line.starts_with(HEADER) {
            problems.push(StoredProblem::More);
            break;
        }
        if let Some(version) = line.strip_prefix(HEADER) {
            match version.trim().parse() {
                Ok(version) if version > VERSION => problems.push(StoredProblem::LaterVersion(version)),
                Ok(_) => {}
                Err(_) => problems.push(bad_line(line)),
            }
        } else if let Some(name) = line.strip_prefix("name:") {
            stored.name = clean(name, NAME);
        } else if let Some(items) = line.strip_prefix(NAMED) {
            named = items.trim();
        } else if let Some(revision) = line.strip_prefix("revision:") {
            match revision.trim().parse() {
                Ok(revision) => stored.revision = revision,
                Err(_) => problems.push(bad_line(line)),
            }
        } else {
            match link::read(line) {
                Ok(read) if opened.is_none() => opened = Some(read),
                _ if problems.len() < MOST_PROBLEMS => problems.push(bad_line(line)),
                _ => {}
            }
        }
    }
    let Some(read) = opened else {
        return Err(Unreadable::Damaged);
    };
    stored.link = read.link;
    // Only now are there tables to name.
    for item in named.split('/').filter(|item| !item.is_empty()).take(MOST_ITEMS) {
        if keep(&mut stored.link.build, item).is_none() && problems.len() < MOST_PROBLEMS {
            problems.push(bad_line(item));
        }
    }
    problems.extend(read.problems.into_iter().map(StoredProblem::Link));
    Ok((stored, problems))
}

/// Far more tables than there are.
const MOST_ITEMS: usize = 256;

/// A file of another kind would have a problem in each line.
const MOST_PROBLEMS: usize = 20;

fn bad_line(line: &str) -> StoredProblem {
    StoredProblem::Line(clean(line, 48))
}
