//! The ways back and forth: what a step of undo goes back to, and that it goes on after the page was loaded again.

use crate::bench::{Bench, Notice, plan};
use crate::history::{AsText, Gesture, History};
use crate::keep::Steps;
use crate::signal::{Memo, memo};
use crate::words;
use leptos::prelude::*;
use trialfit_core::build::Build;
use trialfit_core::changed::{self, Changes};
use trialfit_core::report::Report;
use trialfit_core::share::link::{self, Link};
use trialfit_core::share::stored::{self, Stored};

/// What stood on the bench at some time.
#[derive(Clone, PartialEq, Debug)]
pub struct Moment {
    pub build: Build,
    /// What was held as fitted and beside it, where the step is about that.
    pub held: Option<Vec<Build>>,
}

/// First line of a moment that is about what was held.
const WITH_HELD: &str = "held\n";

impl From<Build> for Moment {
    fn from(build: Build) -> Self {
        Self { build, held: None }
    }
}

impl AsText for Moment {
    fn text(&self) -> String {
        let link = Link { held: self.held.clone().unwrap_or_default(), ..self.build.clone().into() };
        let start = if self.held.is_some() { WITH_HELD } else { "" };
        format!("{start}{}", stored::write(&Stored { name: String::new(), revision: 0, link }))
    }

    fn read(text: &str) -> Option<Self> {
        let (with_held, text) = text.strip_prefix(WITH_HELD).map_or((false, text), |text| (true, text));
        let (stored, problems) = stored::read(text).ok()?;
        let Link { build, held, .. } = stored.link;
        problems.is_empty().then_some(Self { build, held: with_held.then_some(held) })
    }
}

impl Moment {
    /// What was kept of the steps of a build. Where the build was kept after its steps, nothing can be redone.
    pub fn steps(kept: Option<Steps>) -> History<Self> {
        let Some(Steps { text, whole }) = kept else { return History::default() };
        let steps = History::read(&text);
        if whole { steps } else { steps.only_past() }
    }
}

/// The builds that a text holds.
pub(crate) fn held(text: Option<String>) -> Vec<Build> {
    let link = text.and_then(|text| link::read(&text).ok()).map(|opened| opened.link);
    link.map(|link| core::iter::once(link.build).chain(link.held).collect()).unwrap_or_default()
}

impl Bench {
    /// A gesture was called off: everything as before it.
    pub fn call_off(self, gesture: Gesture) {
        if let Some(before) = self.history.update(|history| history.call_off(gesture)) {
            self.show(before.build);
            self.to_keep.set(true);
        }
    }

    pub fn undo(self) {
        self.travel(History::undo);
    }

    pub fn redo(self) {
        self.travel(History::redo);
    }

    fn travel(self, go: impl FnOnce(&mut History<Moment>, Box<dyn FnOnce(&Moment) -> Moment>) -> Option<Moment>) {
        let (build, held) = (self.build().get_untracked(), self.held.get_untracked());
        let now = move |there: &Moment| Moment { build, held: there.held.is_some().then_some(held) };
        if let Some(there) = self.history.update(|history| go(history, Box::new(now))) {
            if let Some(held) = there.held {
                self.keep_held(held);
            }
            self.show(there.build);
            self.keep();
        }
    }

    /// What the last step changed, told a moment after it. Tracked.
    pub fn changes(self) -> Changes {
        self.when_calm();
        self.history.with_untracked(|history| {
            let cleared = history.undoes().as_deref() == Some(words::CLEARING);
            // The demo was nobody's: what it lost tells nothing.
            let Some(Moment { build: before, .. }) = history.before_last().filter(|_| !cleared) else { return Changes::default() };
            let mut was = Report::new(before);
            plan().evaluate(before, &mut was);
            self.look_now(|build, report| changed::changes((before, &was), (build, report)))
        })
    }

    /// What undo would undo.
    pub fn undoes(self) -> Memo<Option<String>> {
        memo(move || self.history.with(History::undoes))
    }

    /// What redo would bring back.
    pub fn redoes(self) -> Memo<Option<String>> {
        memo(move || self.history.with(History::redoes))
    }

    /// Holds these builds, the first as fitted. One's own steps, set aside while a link's car is looked at, stay as they are.
    pub fn hold(self, builds: Vec<Build>) {
        match self.visit.get_untracked() {
            None => {
                // What this tab has not heard of yet becomes a step of its own.
                self.adopt(None);
                let before = Moment { build: self.build().get_untracked(), held: Some(self.held.get_untracked()) };
                self.history.update(|history| history.record(Gesture::Once, words::HOLDING, before));
                self.keep_held(builds);
                self.keep();
                self.keep_steps();
            }
            Some(mut visit) => {
                // It stays held, whichever car is kept.
                visit.held = Some(builds.clone());
                self.visit.set(Some(visit));
                self.keep_held(builds);
            }
        }
    }

    /// Changes the build on trial: what stands is held as fitted beside it, unless something is.
    pub fn try_out(self, what: &'static str, change: impl FnOnce(&mut Build) + 'static) {
        // What another tab holds, unheard of yet, is not written over.
        self.adopt(None);
        let starts = self.held.with_untracked(Vec::is_empty);
        self.change(Gesture::Once, what, Box::new(change), starts.then(Vec::new));
    }

    /// Holds what the device keeps as held for the car on the bench.
    pub(crate) fn hold_again(self) {
        self.held.set(held(self.with_keeper(|keeper| keeper.held())));
    }

    /// Holds what another tab holds for it since, if anything; undo here brings its own back.
    pub(crate) fn adopt_held(self, key: Option<&str>) {
        if self.visit.with_untracked(Option::is_some) || !self.with_keeper(|keeper| keeper.held_elsewhere(key)) {
            return;
        }
        let before = Moment { build: self.build().get_untracked(), held: Some(self.held.get_untracked()) };
        self.history.update(|history| history.record(Gesture::Once, words::OTHER_TAB, before));
        self.hold_again();
        self.tell(Notice::Adopted);
    }

    /// Holds these builds for the car on the bench; the device keeps them.
    pub(crate) fn keep_held(self, builds: Vec<Build>) {
        // The others as a link has them: by what differs from the first.
        let text = builds.split_first().map(|(first, others)| {
            let held = others.iter().take(link::MOST_HELD - 1).cloned().collect();
            link::write(&Link { held, ..first.clone().into() })
        });
        let kept = self.with_keeper(|keeper| keeper.keep_held(text.as_deref()));
        if let Err(fault) = kept {
            self.tell(Notice::NotKept(fault));
        }
        self.held.set(builds);
    }

    /// Keeps what undo knows, where that is newer than what is kept. Without room undo ends with the page, which is no loss
    /// to tell.
    pub fn keep_steps(self) {
        self.keep_if_due();
        if self.visit.with_untracked(Option::is_none) && self.steps_to_keep.get_value() {
            self.steps_to_keep.set_value(false);
            let text = self.history.with_untracked(History::text);
            self.with_keeper(|keeper| keeper.keep_steps(&text));
        }
    }

    /// What undo knows, to be set aside during a visit.
    pub fn swap_history(self, other: History<Moment>) -> History<Moment> {
        self.history.update(|history| core::mem::replace(history, other))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::history::Gesture;
    use trialfit_core::calculators::ALL;
    use trialfit_core::calculators::car::NAME;
    use trialfit_core::calculators::clutch::{PEDAL_RATIO, SLAVE_BORE};

    fn with(build: &Build, change: impl FnOnce(&mut Build)) -> Build {
        let mut build = build.clone();
        change(&mut build);
        build
    }

    #[test]
    fn steps_kept_as_text_go_back_and_forth_to_the_same_cars() {
        let demo = Build::default();
        let bore = with(&demo, |build| build.set(SLAVE_BORE.id.into(), 0.020_637_5).unwrap());
        let ratio = with(&bore, |build| build.set(PEDAL_RATIO.id.into(), 5.5).unwrap());
        let named = with(&ratio, |build| build.set_text(NAME.id.into(), "<Blau> é\n>x").unwrap());
        let cleared = Build::cleared(ALL);
        let all = [demo, bore, ratio, named, cleared];
        let mut history = History::default();
        for build in &all[..4] {
            history.record(Gesture::Once, "step", Moment::from(build.clone()));
        }
        for now in [&all[4], &all[3]] {
            history.undo(|_| now.clone().into());
        }
        let mut again = History::<Moment>::read(&history.text());
        assert_eq!(again.redo(|_| all[2].clone().into()).map(|it| it.build), Some(all[3].clone()));
        assert_eq!(again.redo(|_| all[3].clone().into()).map(|it| it.build), Some(all[4].clone()));
        for before in all[..4].iter().rev() {
            assert_eq!(again.undo(|_| Build::default().into()).map(|it| it.build), Some(before.clone()));
        }
    }

    #[test]
    fn what_was_held_goes_along_where_the_step_is_about_that() {
        let build = with(&Build::default(), |build| build.set(PEDAL_RATIO.id.into(), 5.5).unwrap());
        for held in [None, Some(Vec::new()), Some(vec![Build::default(), Build::cleared(ALL)])] {
            let moment = Moment { build: build.clone(), held };
            assert_eq!(Moment::read(&moment.text()), Some(moment));
        }
    }
}
