//! What the device keeps: each build as stored text under `trialfit.build.N`, which of them is on the bench, settings.
//!
//! Nothing is ever written over what this page has not read: a build that another tab changed meanwhile stays, and this
//! page's goes under a new number. Text that could not be read whole is put aside before anything replaces it. Where room
//! runs out, what undo knows gives way to builds, and so do cars thrown away. What is held as fitted and what is ticked are
//! kept by car, and stay while that can be put back.

use trialfit_core::build::Build;
use trialfit_core::calculators::car;
use trialfit_core::order::Order;
use trialfit_core::share::link::Link;
use trialfit_core::share::stored::{self, Stored};

const BUILD: &str = "trialfit.build.";
const DAMAGED: &str = "trialfit.damaged.";
const STEPS: &str = "trialfit.steps.";
const THROWN: &str = "trialfit.thrown.";
const HELD: &str = "trialfit.held.";
const DONE: &str = "trialfit.done.";

/// Where versions before kept what is held, whatever car was on the bench.
const HELD_ONCE: &str = "trialfit.held";

/// So many cars thrown away can be put back.
const MOST_THROWN: usize = 5;

/// Key of the settings.
pub const SETTINGS: &str = "trialfit.settings";

/// The language chosen in the menu; the loader reads it before there is a page.
pub const LANGUAGE: &str = "trialfit.language";

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
    /// Which build this tab had on its bench, else the one any tab had there last.
    fn bench(&self) -> Option<u32>;
    /// Notes that. It is a convenience; the builds themselves do not hang on it.
    fn set_bench(&self, number: u32);
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
    /// Nothing is wrong with its text.
    pub whole: bool,
}

/// What undo knew of a build when its steps were kept.
#[derive(Clone, PartialEq, Debug)]
pub struct Steps {
    pub text: String,
    /// The build was not kept again since.
    pub whole: bool,
}

/// What became of a file of builds.
#[derive(Clone, PartialEq, Default, Debug)]
pub struct Imported {
    /// So many are kept now.
    pub count: usize,
    /// What was wrong: with which of them, and what, in a sentence.
    pub problems: Vec<(String, String)>,
    /// Why it ended before the end.
    pub stopped: Option<Fault>,
    /// So many were more than a file may have.
    pub left_out: usize,
}

/// Far more cars than anyone has on a device.
const MOST_IN_A_FILE: usize = 500;

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
    /// The same of what is held for it.
    held: Option<String>,
    /// What is on the bench was to be kept, and could not be.
    unsaved: bool,
}

impl<S: Store> Keeper<S> {
    /// The build that was on the bench last, or any where that is gone; none on a first visit.
    pub fn open(store: S) -> (Self, Result<Option<Found>, Fault>) {
        let number = store.bench().unwrap_or(1);
        let mut keeper = Self { store, number, revision: 0, last: None, held: None, unsaved: false };
        let mut found = keeper.take(number);
        if let (Ok(None), Some(&last)) = (&found, keeper.numbers(BUILD).last()) {
            found = keeper.take(last);
        }
        keeper.take_over();
        (keeper, found)
    }

    /// Number of the build on the bench.
    pub fn number(&self) -> u32 {
        self.number
    }

    /// Puts the build of this number on the bench, if there is one.
    pub fn take(&mut self, number: u32) -> Result<Option<Found>, Fault> {
        let Some(text) = self.store.get(&key(number))? else { return Ok(None) };
        (self.number, self.revision, self.last, self.unsaved) = (number, 0, Some(text.clone()), false);
        self.store.set_bench(number);
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

    /// What a version before held is held for the car on the bench.
    fn take_over(&mut self) {
        let Some(text) = self.text(HELD_ONCE) else { return };
        // Gone first, as it is where there is hardly any room.
        if self.discard(HELD_ONCE).is_ok() && self.keep_held(Some(&text)).is_err() {
            _ = self.keep_text(HELD_ONCE, &text);
        }
    }

    /// What is held as fitted for the car on the bench.
    pub fn held(&mut self) -> Option<String> {
        self.held = self.text(&self.held_key());
        self.held.clone()
    }

    /// Holds that for it, or nothing.
    pub fn keep_held(&mut self, text: Option<&str>) -> Result<(), Fault> {
        text.map_or_else(|| self.discard(&self.held_key()), |text| self.set_making_room(&self.held_key(), text))?;
        self.held = text.map(str::to_owned);
        Ok(())
    }

    /// Whether another tab holds something else for it since; `key_changed`, or nobody knows which. Then nothing there may
    /// as well mean that all was cleared away.
    pub fn held_elsewhere(&self, key_changed: Option<&str>) -> bool {
        let there = self.text(&self.held_key());
        there != self.held && key_changed.map_or(there.is_some(), |changed| changed == self.held_key())
    }

    fn held_key(&self) -> String {
        format!("{HELD}{}", self.number)
    }

    /// What was ticked of the car on the bench; nothing where nobody knows.
    pub fn done(&self) -> String {
        self.text(&format!("{DONE}{}", self.number)).unwrap_or_default()
    }

    /// Keeps that.
    pub fn keep_done(&self, text: &str) -> Result<(), Fault> {
        self.set_making_room(&format!("{DONE}{}", self.number), text)
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
        self.unsaved = true;
        let there = self.store.get(&key(self.number))?;
        if there.is_some() && there != self.last {
            return Ok(Saved::Changed);
        }
        let text = written(build, self.revision + 1);
        self.set_making_room(&key(self.number), &text)?;
        if there.is_none() {
            self.store.set_bench(self.number);
        }
        self.revision += 1;
        (self.last, self.unsaved) = (Some(text), false);
        Ok(Saved::Done)
    }

    /// Writes a text. Where there is no room, what can be missed gives way.
    fn set_making_room(&self, key: &str, text: &str) -> Result<(), Fault> {
        for gives_way in [STEPS, THROWN] {
            match self.store.set(key, text) {
                Err(Fault::Full) => self.numbers(gives_way).into_iter().for_each(|it| _ = self.forget(gives_way, it)),
                done => return done,
            }
        }
        self.store.set(key, text)
    }

    /// Removes what can be missed; with a car thrown away also what was held for it, unless it is here all the same.
    fn forget(&self, what: &str, number: u32) -> Result<(), Fault> {
        self.store.remove(&format!("{what}{number}"))?;
        if what == THROWN && number != self.number && self.store.get(&key(number))?.is_none() {
            self.store.remove(&format!("{STEPS}{number}"))?;
            self.store.remove(&format!("{HELD}{number}"))?;
            self.store.remove(&format!("{DONE}{number}"))?;
        }
        Ok(())
    }

    /// Keeps a build under a number of its own; the bench stays as it is.
    pub fn file(&self, mut build: Build) -> Result<u32, Fault> {
        self.tell_apart(&mut build);
        self.file_as_named(&build)
    }

    fn file_as_named(&self, build: &Build) -> Result<u32, Fault> {
        let number = self.beside();
        self.set_making_room(&key(number), &written(build, 1))?;
        Ok(number)
    }

    /// Numbers the name of a build to come where one that is kept is called the same.
    pub fn tell_apart(&self, build: &mut Build) {
        tell_apart(build, &self.names());
    }

    fn names(&self) -> Vec<String> {
        self.list().into_iter().map(|car| car.name).collect()
    }

    /// The build of this number, if its text is whole.
    pub fn read(&self, number: u32) -> Option<Build> {
        let (stored, problems) = stored::read(&self.text(&key(number))?).ok()?;
        problems.is_empty().then_some(stored.link.build)
    }

    /// The text of a build, as it is.
    pub fn text_of(&self, number: u32) -> Option<String> {
        self.text(&key(number))
    }

    /// Calls a build that is not on the bench something else, if its text is whole.
    pub fn rename(&self, number: u32, name: &str) -> Result<(), Fault> {
        let stored = self.text_of(number).and_then(|text| stored::read(&text).ok());
        if let Some((Stored { revision, link, .. }, problems)) = stored {
            let mut build = link.build;
            if problems.is_empty() && number != self.number && build.set_text(car::NAME.id.into(), name).is_ok() {
                return self.set_making_room(&key(number), &written(&build, revision + 1));
            }
        }
        Ok(())
    }

    /// What undo knew of the build on the bench; none where that is of another build.
    pub fn steps(&self) -> Option<Steps> {
        let text = self.text(&format!("{STEPS}{}", self.number))?;
        let (revision, text) = text.split_once('\n')?;
        let revision: u64 = revision.parse().ok()?;
        (revision <= self.revision).then(|| Steps { text: text.to_owned(), whole: revision == self.revision })
    }

    /// Keeps what undo knows of the build on the bench, if there is room.
    pub fn keep_steps(&self, text: &str) {
        _ = self.store.set(&format!("{STEPS}{}", self.number), &format!("{}\n{text}", self.revision));
    }

    /// Keeps the build under a new number, which becomes the one on the bench.
    pub fn save_anew(&mut self, build: &Build) -> Result<Saved, Fault> {
        let before = (self.number, self.revision, self.last.take(), self.unsaved);
        self.leave();
        let saved = self.save(build);
        if saved.is_err() {
            (self.number, self.revision, self.last, self.unsaved) = before;
        }
        saved
    }

    /// The build that another tab has put in place of the one on the bench, once all of this one's is kept. What a later
    /// version wrote, or what is damaged, is none to show: it stays unread, and this page's build goes elsewhere when it is
    /// kept next.
    pub fn adopt(&mut self) -> Option<Build> {
        let there = self.text(&key(self.number)).filter(|there| !self.unsaved && Some(there) != self.last.as_ref())?;
        let (stored, problems) = stored::read(&there).ok()?;
        problems.is_empty().then(|| {
            (self.revision, self.last) = (stored.revision, Some(there));
            stored.link.build
        })
    }

    /// Whether another tab has thrown away the build on the bench.
    pub fn is_gone(&self) -> bool {
        self.last.is_some() && self.store.get(&key(self.number)).is_ok_and(|there| there.is_none())
    }

    /// Whether what is on the bench was to be kept and could not be.
    pub fn is_unsaved(&self) -> bool {
        self.unsaved
    }

    /// Whether the build on the bench was kept for the first time.
    pub fn is_first(&self) -> bool {
        self.revision == 1
    }

    /// So many builds are kept.
    pub fn count(&self) -> usize {
        self.numbers(BUILD).len()
    }

    /// Every build kept, in the order of their numbers.
    pub fn list(&self) -> Vec<Listed> {
        self.listed(BUILD)
    }

    /// Those thrown away that can be put back.
    pub fn thrown(&self) -> Vec<Listed> {
        self.listed(THROWN)
    }

    fn listed(&self, prefix: &str) -> Vec<Listed> {
        let listed = |number: u32| {
            let read = stored::read(&self.text(&format!("{prefix}{number}"))?);
            let whole = read.as_ref().is_ok_and(|(_, problems)| problems.is_empty());
            Some(Listed { number, name: read.map(|(stored, _)| stored.name).unwrap_or_default(), whole })
        };
        self.numbers(prefix).into_iter().filter_map(listed).collect()
    }

    /// Throws the build of this number away, unless it is on the bench; it can be put back.
    pub fn throw_away(&self, number: u32) -> Result<(), Fault> {
        let Some(text) = self.store.get(&key(number))?.filter(|_| number != self.number) else { return Ok(()) };
        let before = self.numbers(THROWN);
        for old in before.iter().take((before.len() + 1).saturating_sub(MOST_THROWN)) {
            self.forget(THROWN, *old)?;
        }
        // Gone first: the same text needs no more room than it had. Where there is none all the same, it comes back.
        self.store.remove(&key(number))?;
        let thrown = self.store.set(&format!("{THROWN}{number}"), &text);
        if thrown.is_err() {
            self.store.set(&key(number), &text)?;
        }
        thrown
    }

    /// Puts back what was thrown away: under its number, or another where that is taken.
    pub fn put_back(&self, number: u32) -> Result<(), Fault> {
        let thrown = format!("{THROWN}{number}");
        let Some(text) = self.store.get(&thrown)? else { return Ok(()) };
        let taken = self.store.get(&key(number))?.is_some() || number == self.number && self.last.is_none();
        let there = if taken { self.beside() } else { number };
        self.store.remove(&thrown)?;
        let put = self.store.set(&key(there), &text);
        if put.is_err() {
            self.store.set(&thrown, &text)?;
        }
        put
    }

    /// Files every build of a text that was saved as a file, each under a number of its own: nothing is written over.
    pub fn import(&self, text: &str) -> Imported {
        let mut imported = Imported::default();
        let mut names = self.names();
        let mut blocks = stored::split(text);
        for (at, block) in blocks.by_ref().take(MOST_IN_A_FILE).enumerate() {
            let (read, problems) = match stored::read(block) {
                Ok(read) => read,
                Err(why) => {
                    imported.problems.push((format!("{}", at + 1), why.to_string()));
                    continue;
                }
            };
            let called = if read.name.is_empty() { format!("{}", at + 1) } else { format!("“{}”", read.name) };
            imported.problems.extend(problems.iter().map(|problem| (called.clone(), problem.to_string())));
            let mut build = read.link.build;
            if name(&build).is_empty() && !read.name.is_empty() {
                _ = build.set_text(car::NAME.id.into(), &read.name);
            }
            tell_apart(&mut build, &names);
            names.push(name(&build));
            match self.file_as_named(&build) {
                Ok(_) => imported.count += 1,
                Err(fault) => {
                    imported.stopped = Some(fault);
                    return imported;
                }
            }
        }
        imported.left_out = blocks.count();
        imported
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
        keys.order_by(Ord::cmp);
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
        numbers.order_by(Ord::cmp);
        numbers
    }

    /// A free number for a build beside the one on the bench, which may not be kept yet.
    fn beside(&self) -> u32 {
        self.free(BUILD).max(self.number.saturating_add(1))
    }

    /// A number nothing has under this prefix, nor had and may have again.
    fn free(&self, prefix: &str) -> u32 {
        let mut taken = self.numbers(prefix);
        taken.extend([THROWN, HELD, DONE].into_iter().flat_map(|other| self.numbers(other)));
        taken.into_iter().max().map_or(1, |last| last.saturating_add(1))
    }
}

/// Numbers the name of a build where another is called the same.
fn tell_apart(build: &mut Build, names: &[String]) {
    let called = name(build);
    // The end of a long name gives way to the number.
    let start: String = called.chars().take(stored::NAME - 5).collect();
    let (mut free, mut at) = (called.clone(), 1);
    while !free.is_empty() && names.contains(&free) {
        at += 1;
        free = format!("{start} {at}");
    }
    if at > 1 {
        _ = build.set_text(car::NAME.id.into(), &free);
    }
}

fn key(number: u32) -> String {
    format!("{BUILD}{number}")
}

/// The text of a build.
pub fn written(build: &Build, revision: u64) -> String {
    stored::write(&Stored { name: name(build), revision, link: Link::from(build.clone()) })
}

/// What the car is called.
pub fn name(build: &Build) -> String {
    build.text(car::NAME.id.into()).to_owned()
}

#[cfg(test)]
mod tests;
