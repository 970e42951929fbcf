//! A car that came by link is looked at over one's own, which stays untouched until its owner decides.

use crate::bench::{Bench, Notice};
use crate::history::{Gesture, History};
use crate::language;
use crate::moment::Moment;
use crate::words;
use trialfit_core::build::{Build, Origin};
use trialfit_core::calculators::ALL;
use trialfit_core::calculators::car::NAME;
use trialfit_core::changed::{self, What};
use trialfit_core::share::link::{self, Asked, Opened, Sought};
use trialfit_core::show::System;
use trialfit_core::spec::Role;

/// The car set aside, and what came with the link besides the car.
#[derive(Clone, Debug)]
pub struct Visit {
    pub own: Build,
    pub history: History<Moment>,
    /// One's own build held as fitted, while one of the link stands in its place.
    pub held: Option<Vec<Build>>,
    /// Where the shelf of its parts is, from the page's own address; empty for none.
    pub shelf: String,
    /// Words of whoever made the link.
    pub note: String,
    /// The units it is to be shown in, until its reader wants others.
    pub units: Option<System>,
    /// What of it could not be used.
    pub problems: Vec<String>,
}

/// What a link wants opened: a key, or a tool.
#[derive(Clone, Debug)]
pub enum Shown {
    Key(String),
    Tool(Asked, Sought),
}

/// The calculator that all is about that a link gives, where it is one.
fn about(build: &Build) -> Option<Shown> {
    let mut given =
        build.layout().places(Role::Input).filter(|&place| build.origin(place) != Origin::Usual).map(|place| place.id.calculator);
    let first = given.next()?;
    given.all(|other| other == first).then(|| Shown::Key(ALL[usize::from(first)].key.to_owned()))
}

impl Bench {
    /// Shows what a link carries; gives what it wants opened.
    pub fn visit(self, text: &str) -> Option<Shown> {
        let Opened { link, problems } = match link::read(text) {
            Ok(opened) => opened,
            Err(why) => {
                self.tell(Notice::NoLink(why.to_string()));
                return None;
            }
        };
        self.withdraw(|notice| matches!(notice, Notice::NoLink(_)));
        self.keep_steps();
        let held = || self.held.get_untracked();
        let (own, history, own_held) = match self.visit.get_untracked() {
            Some(visit) => (visit.own, visit.history, visit.held.unwrap_or_else(held)),
            None => (self.build().get_untracked(), self.swap_history(History::default()), held()),
        };
        let theirs = link.held;
        let held = (!theirs.is_empty()).then(|| own_held.clone());
        let problems = problems.iter().map(ToString::to_string).collect();
        self.visit.set(Some(Visit { own, history, held, shelf: link.shelf.clone(), note: link.note, units: link.units, problems }));
        let about = about(&link.build);
        self.replace(link.build, History::default());
        self.held.set(if theirs.is_empty() { own_held } else { theirs });
        self.fetch_shelf(link.shelf);
        let shown = (!link.show.is_empty()).then_some(Shown::Key(link.show)).or(about);
        link.asked.map(|asked| Shown::Tool(asked, link.sought)).or(shown)
    }

    /// Whether there is a car of one's own here: else it is the demo car, untouched. Tracked.
    pub fn has_own(self) -> bool {
        self.visit.with(|visit| visit.as_ref().is_none_or(|it| it.own != Build::default() || it.history.undoes().is_some()))
            || self.with_keeper(|keeper| keeper.count()) > 1
    }

    /// Back to one's own car.
    pub fn keep_mine(self) {
        if let Some(visit) = self.end_visit() {
            self.held_again(visit.held);
            self.came.set(None);
            self.replace(visit.own, visit.history);
        }
        self.answer_pending(false);
    }

    /// Some of what the link changes, taken into one's own car as one step.
    pub fn take_some(self, some: Vec<What>) {
        let theirs = self.build().get_untracked();
        self.keep_mine();
        self.edit(Gesture::Once, words::TAKE_SOME, move |build| changed::take(build, &theirs, &some));
    }

    /// The car of the link in place of one's own; undo brings that back.
    pub fn take_theirs(self) {
        self.take_over();
        self.answer_pending(true);
    }

    /// The same, with nothing that waits for it.
    pub(crate) fn take_over(self) {
        if let Some(mut visit) = self.end_visit() {
            self.name_theirs(false);
            let theirs = visit.held.is_some().then(|| self.held.get_untracked());
            visit.history.record(Gesture::Once, words::TAKE_THEIRS, Moment { build: visit.own, held: visit.held });
            self.swap_history(visit.history);
            self.keep();
            self.keep_steps();
            self.keep_shelf(&visit.shelf);
            if let Some(held) = theirs {
                self.keep_held(held);
            }
        }
    }

    /// The car of the link beside one's own. Where there is no room for both, the visit goes on.
    pub fn keep_both(self) {
        self.name_theirs(true);
        let saved = self.with_keeper(|keeper| self.build().with_untracked(|build| keeper.save_anew(build)));
        match saved {
            Ok(_) => {
                let visit = self.end_visit();
                // Nothing of one's own is lost with both kept: what is held for it stays so.
                self.keep_shelf(visit.as_ref().map_or("", |visit| &visit.shelf));
                let came = visit.is_some_and(|visit| visit.held.is_some());
                self.keep_held(if came { self.held.get_untracked() } else { Vec::new() });
                self.answer_pending(true);
            }
            Err(fault) => {
                self.tell(Notice::NotKept(fault));
                self.answer_pending(false);
            }
        }
    }

    /// A car that came without a name has one once it is kept: else it would pass for the demo. Beside others it has one of
    /// its own.
    fn name_theirs(self, beside: bool) {
        let mut build = self.build().get_untracked();
        let unnamed = build.origin(NAME.id.into()) == Origin::Usual;
        if unnamed {
            _ = build.set_text(NAME.id.into(), &language::says(words::FROM_A_LINK_NAME));
        }
        if unnamed || beside {
            self.with_keeper(|keeper| keeper.tell_apart(&mut build));
            self.show(build);
        }
    }

    /// One's own build as fitted, where a link's stood in its place.
    fn held_again(self, held: Option<Vec<Build>>) {
        if let Some(held) = held {
            self.held.set(held);
        }
    }

    fn end_visit(self) -> Option<Visit> {
        self.visit.update(Option::take)
    }
}
