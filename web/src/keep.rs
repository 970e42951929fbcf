//! What the device keeps: each build as stored text under `trialfit.build.N`, which of them is on the bench, settings.
//!
//! Nothing is ever written over what this page has not read: a build that another tab changed meanwhile stays, and this
//! page's goes under a new number. Text that could not be read whole is put aside before anything replaces it.

use trialfit_core::build::Build;
use trialfit_core::calculators::car;
use trialfit_core::share::link::Link;
use trialfit_core::share::stored::{self, Stored};

const CURRENT: &str = "trialfit.current";
const BUILD: &str = "trialfit.build.";
const DAMAGED: &str = "trialfit.damaged.";

/// Key of the settings.
pub const SETTINGS: &str = "trialfit.settings";

/// Key of the build that is held as fitted.
pub const HELD: &str = "trialfit.held";

/// Key of the stopwatch's runs.
pub const WATCH: &str = "trialfit.watch";

/// Before the ids of shelves, each kept as the text of its file.
pub const SHELF: &str = "trialfit.shelf.";

/// Why something was not kept.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Fault {
    /// The browser gives no storage: a private window, or the user's choice.
    Blocked,
    /// No room is left.
    Full,
}

/// Keeps texts by key: local storage, or a stand-in for tests.
pub trait Store {
    fn get(&self, key: &str) -> Result<Option<String>, Fault>;
    fn set(&self, key: &str, text: &str) -> Result<(), Fault>;
    fn remove(&self, key: &str) -> Result<(), Fault>;
    /// Every key there is.
    fn keys(&self) -> Result<Vec<String>, Fault>;
}

/// A build read from the device.
#[derive(Debug)]
pub struct Found {
    pub build: Build,
    /// What was wrong with it, each in a sentence.
    pub problems: Vec<String>,
}

/// A build listed.
#[derive(Clone, PartialEq, Debug)]
pub struct Listed {
    pub number: u32,
    pub name: String,
}

/// What became of a save.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Saved {
    Done,
    /// Another tab saved the same build since: nothing was written.
    Changed,
}

/// Keeps the build on the bench.
#[derive(Debug)]
pub struct Keeper<S> {
    store: S,
    number: u32,
    revision: u64,
    /// The text last read or written there; anything else in its place is somebody else's.
    last: Option<String>,
}

impl<S: Store> Keeper<S> {
    /// The build that was on the bench last; none on a first visit.
    pub fn open(store: S) -> (Self, Result<Option<Found>, Fault>) {
        let number = store.get(CURRENT).ok().flatten().and_then(|text| text.trim().parse().ok()).unwrap_or(1);
        let mut keeper = Self { store, number, revision: 0, last: None };
        let found = keeper.take(number);
        (keeper, found)
    }

    /// Number of the build on the bench.
    pub fn number(&self) -> u32 {
        self.number
    }

    /// Puts the build of this number on the bench.
    pub fn take(&mut self, number: u32) -> Result<Option<Found>, Fault> {
        let text = self.store.get(&key(number))?;
        (self.number, self.revision, self.last) = (number, 0, text.clone());
        // Which one was last on the bench is a convenience; the builds themselves do not hang on it.
        let _ = self.store.set(CURRENT, &number.to_string());
        let Some(text) = text else { return Ok(None) };
        match stored::read(&text) {
            Ok((stored, problems)) => {
                self.revision = stored.revision;
                if !problems.is_empty() {
                    self.put_aside(&text);
                }
                let problems = problems.iter().map(ToString::to_string).collect();
                Ok(Some(Found { build: stored.link.build, problems }))
            }
            Err(why) => {
                self.put_aside(&text);
                Ok(Some(Found { build: Build::default(), problems: vec![why.to_string()] }))
            }
        }
    }

    /// Copies text that could not be read whole to where nothing writes. Where there is no room for a copy, the text
    /// stays where it is and the build goes elsewhere.
    fn put_aside(&mut self, text: &str) {
        let kept = self.damaged().iter().any(|key| self.store.get(key).ok().flatten().as_deref() == Some(text));
        if kept || self.store.set(&format!("{DAMAGED}{}", self.free(DAMAGED)), text).is_ok() {
            return;
        }
        self.leave();
    }

    /// Gives the build on the bench a number of its own, not yet written.
    fn leave(&mut self) {
        (self.number, self.revision, self.last) = (self.free(BUILD), 0, None);
    }

    /// Keeps the build as it is now.
    pub fn save(&mut self, build: &Build) -> Result<Saved, Fault> {
        let there = self.store.get(&key(self.number))?;
        if there.is_some() && there != self.last {
            return Ok(Saved::Changed);
        }
        let text = stored::write(&Stored { name: name(build), revision: self.revision + 1, link: Link::from(build.clone()) });
        self.store.set(&key(self.number), &text)?;
        if there.is_none() {
            let _ = self.store.set(CURRENT, &self.number.to_string());
        }
        self.revision += 1;
        self.last = Some(text);
        Ok(Saved::Done)
    }

    /// Keeps the build under a new number, which becomes the one on the bench.
    pub fn save_anew(&mut self, build: &Build) -> Result<Saved, Fault> {
        let before = (self.number, self.revision, self.last.take());
        self.leave();
        let saved = self.save(build);
        if saved.is_err() {
            (self.number, self.revision, self.last) = before;
        }
        saved
    }

    /// The text another tab has put in place of the build on the bench, if it did.
    pub fn changed_elsewhere(&self) -> bool {
        self.store.get(&key(self.number)).is_ok_and(|there| there.is_some() && there != self.last)
    }

    /// Every build kept, in the order of their numbers.
    pub fn list(&self) -> Vec<Listed> {
        let listed = |number: u32| {
            let text = self.store.get(&key(number)).ok().flatten()?;
            let name = stored::read(&text).map(|(stored, _)| stored.name).unwrap_or_default();
            Some(Listed { number, name })
        };
        self.numbers(BUILD).into_iter().filter_map(listed).collect()
    }

    /// Throws the build of this number away, unless it is on the bench.
    pub fn throw_away(&mut self, number: u32) -> Result<(), Fault> {
        if number == self.number { Ok(()) } else { self.store.remove(&key(number)) }
    }

    /// Keys of texts that could not be read.
    pub fn damaged(&self) -> Vec<String> {
        self.numbers(DAMAGED).into_iter().map(|number| format!("{DAMAGED}{number}")).collect()
    }

    /// Any text kept.
    pub fn text(&self, key: &str) -> Option<String> {
        self.store.get(key).ok().flatten()
    }

    /// Every text kept under a key that begins so.
    pub fn texts_under(&self, start: &str) -> Vec<String> {
        let mut keys = self.store.keys().unwrap_or_default();
        keys.retain(|key| key.starts_with(start));
        keys.sort();
        keys.iter().filter_map(|key| self.text(key)).collect()
    }

    /// Keeps any text.
    pub fn keep_text(&self, key: &str, text: &str) -> Result<(), Fault> {
        self.store.set(key, text)
    }

    /// Throws a text that could not be read away.
    pub fn discard(&self, key: &str) -> Result<(), Fault> {
        self.store.remove(key)
    }

    /// True for the key of the build on the bench, or for all keys at once.
    pub fn concerns(&self, key_changed: Option<&str>) -> bool {
        key_changed.is_none_or(|changed| changed == key(self.number))
    }

    fn numbers(&self, prefix: &str) -> Vec<u32> {
        let keys = self.store.keys().unwrap_or_default();
        let mut numbers: Vec<u32> = keys.iter().filter_map(|key| key.strip_prefix(prefix)?.parse().ok()).collect();
        numbers.sort_unstable();
        numbers
    }

    fn free(&self, prefix: &str) -> u32 {
        self.numbers(prefix).last().map_or(1, |last| last + 1)
    }
}

fn key(number: u32) -> String {
    format!("{BUILD}{number}")
}

/// What the car is called.
pub fn name(build: &Build) -> String {
    build.text(car::NAME.id.into()).to_owned()
}

#[cfg(test)]
mod tests;
