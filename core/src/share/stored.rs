//! A build as kept on the device or in a file: a few lines of text, the last of them its link in readable form.
//!
//! ```text
//! Trialfit build 1
//! name: Blue two-seater
//! revision: 12
//! 1.1/clutch.slave-bore=22.2/end
//! ```

use super::link::{self, Link, Opened};
use super::{LinkProblem, Unreadable};
use crate::entry::clean;

/// First line, without the version of the form.
const HEADER: &str = "Trialfit build";

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
    /// In the link.
    #[error("{0}")]
    Link(#[from] LinkProblem),
}

/// The stored form.
#[must_use]
pub fn write(stored: &Stored) -> String {
    let name = clean(&stored.name, NAME);
    format!("{HEADER} {VERSION}\nname: {name}\nrevision: {}\n{}\n", stored.revision, link::plain(&stored.link))
}

/// Reads a stored build; a bare link or address will do.
///
/// # Errors
/// [`Unreadable`], when no link is left in it. All lesser damage is in the list.
pub fn read(text: &str) -> Result<(Stored, Vec<StoredProblem>), Unreadable> {
    let mut stored = Stored::default();
    let mut problems = Vec::new();
    let mut opened: Option<Opened> = None;
    let text = text.trim_start_matches(['\u{FEFF}', ' ', '\n', '\r']);
    if !text.starts_with(HEADER) {
        let Opened { link, problems } = link::read(text)?;
        return Ok((Stored { link, ..stored }, problems.into_iter().map(Into::into).collect()));
    }
    for line in text.lines().map(str::trim).filter(|line| !line.is_empty()) {
        if let Some(version) = line.strip_prefix(HEADER) {
            match version.trim().parse() {
                Ok(version) if version > VERSION => problems.push(StoredProblem::LaterVersion(version)),
                Ok(_) => {}
                Err(_) => problems.push(bad_line(line)),
            }
        } else if let Some(name) = line.strip_prefix("name:") {
            stored.name = clean(name, NAME);
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
    problems.extend(read.problems.into_iter().map(StoredProblem::Link));
    Ok((stored, problems))
}

/// A file of another kind would have a problem in each line.
const MOST_PROBLEMS: usize = 20;

fn bad_line(line: &str) -> StoredProblem {
    StoredProblem::Line(clean(line, 48))
}
