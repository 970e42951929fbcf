//! A car that came by link is looked at over one's own, which stays untouched until its owner decides.

use crate::bench::{Bench, Notice};
use crate::history::{Gesture, History};
use crate::words;
use trialfit_core::build::Build;
use trialfit_core::share::link::{self, Opened};

/// The car set aside, and what came with the link besides the car.
#[derive(Clone, Debug)]
pub struct Visit {
    pub own: Build,
    pub history: History<Build>,
    /// Words of whoever made the link.
    pub note: String,
    /// What of it could not be used.
    pub problems: Vec<String>,
}

impl Bench {
    /// Shows what a link carries; gives the key it wants shown.
    pub fn visit(self, text: &str) -> Option<String> {
        let Opened { link, problems } = match link::read(text) {
            Ok(opened) => opened,
            Err(why) => {
                self.tell(Notice::NoLink(why.to_string()));
                return None;
            }
        };
        self.withdraw(|notice| matches!(notice, Notice::NoLink(_)));
        let (own, history) = match self.visit.get_untracked() {
            Some(visit) => (visit.own, visit.history),
            None => (self.build().get_untracked(), self.swap_history(History::default())),
        };
        let problems = problems.iter().map(ToString::to_string).collect();
        self.visit.set(Some(Visit { own, history, note: link.note, problems }));
        self.replace(link.build);
        (!link.show.is_empty()).then_some(link.show)
    }

    /// Back to one's own car.
    pub fn keep_mine(self) {
        if let Some(visit) = self.end_visit() {
            self.replace(visit.own);
            self.swap_history(visit.history);
        }
        self.answer_pending(false);
    }

    /// The car of the link in place of one's own; undo brings that back.
    pub fn take_theirs(self) {
        if let Some(mut visit) = self.end_visit() {
            visit.history.record(Gesture::Once, words::TAKE_THEIRS, visit.own);
            self.swap_history(visit.history);
            self.keep();
        }
        self.answer_pending(true);
    }

    /// The car of the link beside one's own. Where there is no room for both, the visit goes on.
    pub fn keep_both(self) {
        let saved = self.with_keeper(|keeper| self.build().with_untracked(|build| keeper.save_anew(build)));
        match saved {
            Ok(_) => {
                self.end_visit();
                self.answer_pending(true);
            }
            Err(fault) => {
                self.tell(Notice::NotKept(fault));
                self.answer_pending(false);
            }
        }
    }

    fn end_visit(self) -> Option<Visit> {
        self.visit.update(Option::take)
    }
}
