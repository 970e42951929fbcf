//! Undo and redo: one gesture is one step.

use trialfit_core::spec::Place;

/// Steps kept.
const MOST: usize = 100;

/// What belongs together: changes of the same gesture are undone at once.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Gesture {
    /// Complete in itself.
    Once,
    /// Letters typed into one field, until it is left.
    Typing(Place),
    /// One drag, until it is let go.
    Sliding(Place),
    /// One drag in the drawing, which may move two inputs.
    Dragging,
    /// What another tab did to the same car, letter by letter, until something is done here.
    Elsewhere,
}

#[derive(Clone, Debug)]
struct Step<T> {
    /// What stood before it (or, among what can be redone, after it).
    other: T,
    what: &'static str,
}

/// What was, and what could be again.
#[derive(Clone, Debug)]
pub struct History<T> {
    past: Vec<Step<T>>,
    future: Vec<Step<T>>,
    open: Option<Gesture>,
}

impl<T> Default for History<T> {
    fn default() -> Self {
        Self { past: Vec::new(), future: Vec::new(), open: None }
    }
}

impl<T> History<T> {
    /// Notes that `before` is about to change; `what` names the change.
    pub fn record(&mut self, gesture: Gesture, what: &'static str, before: T) {
        self.future.clear();
        if gesture == Gesture::Once || self.open != Some(gesture) {
            if self.past.len() == MOST {
                self.past.remove(0);
            }
            self.past.push(Step { other: before, what });
        }
        self.open = (gesture != Gesture::Once).then_some(gesture);
    }

    /// The gesture is over: whatever comes next is another step.
    pub fn finish(&mut self) {
        self.open = None;
    }

    /// Calls the gesture off: gives what stood before it, if it changed anything.
    pub fn call_off(&mut self, gesture: Gesture) -> Option<T> {
        let open = self.open.take() == Some(gesture);
        open.then(|| self.past.pop()).flatten().map(|step| step.other)
    }

    /// Takes the last step back: gives what stood before it.
    pub fn undo(&mut self, now: T) -> Option<T> {
        self.open = None;
        let Step { other, what } = self.past.pop()?;
        self.future.push(Step { other: now, what });
        Some(other)
    }

    /// Takes back the taking back.
    pub fn redo(&mut self, now: T) -> Option<T> {
        self.open = None;
        let Step { other, what } = self.future.pop()?;
        self.past.push(Step { other: now, what });
        Some(other)
    }

    /// What stood before the last step, once that is done and while it is not taken back.
    pub fn before_last(&self) -> Option<&T> {
        let held = matches!(self.open, Some(Gesture::Sliding(_) | Gesture::Dragging));
        let done = !held && self.future.is_empty();
        self.past.last().filter(|_| done).map(|step| &step.other)
    }

    /// What undo would undo.
    pub fn undoes(&self) -> Option<&'static str> {
        self.past.last().map(|step| step.what)
    }

    /// What redo would bring back.
    pub fn redoes(&self) -> Option<&'static str> {
        self.future.last().map(|step| step.what)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use trialfit_core::calculators::car::{IDLE, REDLINE};

    #[test]
    fn a_gesture_is_one_step() {
        let mut history = History::default();
        let idle = Gesture::Typing(IDLE.id.into());
        history.record(idle, "idle", 0);
        history.record(idle, "idle", 1);
        assert_eq!(history.undo(2), Some(0));
        assert_eq!(history.redo(0), Some(2));
        assert_eq!(history.undo(2), Some(0));
        assert_eq!(history.undo(0), None);
    }

    #[test]
    fn gestures_end_when_finished_and_where_another_begins() {
        let (idle, redline) = (Gesture::Typing(IDLE.id.into()), Gesture::Sliding(REDLINE.id.into()));
        let mut history = History::default();
        history.record(idle, "idle", 0);
        history.finish();
        history.record(idle, "idle", 1);
        history.record(redline, "redline", 2);
        history.record(Gesture::Once, "clear", 3);
        history.record(Gesture::Once, "clear", 4);
        let mut undone = Vec::new();
        let mut now = 5;
        while let Some(before) = history.undo(now) {
            undone.push(before);
            now = before;
        }
        assert_eq!(undone, [4, 3, 2, 1, 0]);
    }

    #[test]
    fn a_gesture_called_off_leaves_nothing_behind() {
        let mut history = History::default();
        history.record(Gesture::Once, "one", 0);
        assert_eq!(history.call_off(Gesture::Dragging), None);
        history.record(Gesture::Dragging, "idle", 1);
        history.record(Gesture::Dragging, "redline", 2);
        assert_eq!(history.call_off(Gesture::Dragging), Some(1));
        assert_eq!((history.redoes(), history.undo(1)), (None, Some(0)));
    }

    #[test]
    fn a_new_step_ends_what_could_be_redone() {
        let mut history = History::default();
        history.record(Gesture::Once, "one", 0);
        assert_eq!(history.undo(1), Some(0));
        assert_eq!((history.undoes(), history.redoes()), (None, Some("one")));
        history.record(Gesture::Once, "two", 0);
        assert_eq!(history.redo(2), None);
    }

    #[test]
    fn the_oldest_step_goes_first() {
        let mut history = History::default();
        for step in 0..MOST + 5 {
            history.record(Gesture::Once, "step", step);
        }
        let mut now = MOST + 5;
        while let Some(before) = history.undo(now) {
            now = before;
        }
        assert_eq!(now, 5);
    }

    #[test]
    fn what_was_before_is_known_once_the_step_is_done() {
        let mut history = History::default();
        assert_eq!(history.before_last(), None);
        history.record(Gesture::Dragging, "idle", 1);
        assert_eq!(history.before_last(), None, "still held");
        history.finish();
        assert_eq!(history.before_last(), Some(&1));
        assert_eq!(history.undo(2), Some(1));
        assert_eq!(history.before_last(), None, "taken back");
    }
}
