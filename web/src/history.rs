//! Undo and redo: one gesture is one step; kept as text, they go on after the page was loaded again.

use std::borrow::Cow;
use std::sync::OnceLock;
use trialfit_core::spec::Place;

/// Steps kept.
const MOST: usize = 100;

/// Bytes of what differs that are kept, for all steps back and forth: a small part of what a browser gives.
const ROOM: usize = 200_000;

/// Before the name of a step that can be taken back, and of one that was.
const PAST: char = '<';
const FUTURE: char = '>';

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

/// What can be kept as text, no line of which begins like the name of a step.
pub trait AsText: Sized {
    fn text(&self) -> String;
    /// None where it cannot be read.
    fn read(text: &str) -> Option<Self>;
}

#[derive(Clone, Debug)]
struct Step<T> {
    /// What stood before it (or, among what can be redone, after it): what it is, its text, or both. One is made of the
    /// other when it is first asked for, and many never are.
    other: OnceLock<Option<T>>,
    text: OnceLock<String>,
    what: Cow<'static, str>,
}

impl<T: AsText> Step<T> {
    fn new(other: T, what: Cow<'static, str>) -> Self {
        Self { other: OnceLock::from(Some(other)), text: OnceLock::new(), what }
    }

    fn kept(what: &str, text: &str) -> Self {
        Self { other: OnceLock::new(), text: OnceLock::from(text.to_owned()), what: what.to_owned().into() }
    }

    fn other(&self) -> Option<&T> {
        self.other.get_or_init(|| self.text.get().and_then(|text| T::read(text))).as_ref()
    }

    fn text(&self) -> &str {
        self.text.get_or_init(|| self.other().map(T::text).unwrap_or_default())
    }

    fn into_other(self) -> Option<T> {
        self.other();
        self.other.into_inner().flatten()
    }
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

impl<T: AsText> History<T> {
    /// Notes that `before` is about to change; `what` names the change.
    pub fn record(&mut self, gesture: Gesture, what: &'static str, before: T) {
        self.future.clear();
        if gesture == Gesture::Once || self.open != Some(gesture) {
            if self.past.len() == MOST {
                self.past.remove(0);
            }
            self.past.push(Step::new(before, what.into()));
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
        open.then(|| self.past.pop()).flatten()?.into_other()
    }

    /// Takes the last step back: gives what stood before it. `now` is asked what stands, for the way forth again.
    pub fn undo(&mut self, now: impl FnOnce(&T) -> T) -> Option<T> {
        self.open = None;
        take(&mut self.past, &mut self.future, now)
    }

    /// Takes back the taking back.
    pub fn redo(&mut self, now: impl FnOnce(&T) -> T) -> Option<T> {
        self.open = None;
        take(&mut self.future, &mut self.past, now)
    }

    /// What stood before the last step, once that is done and while it is not taken back.
    pub fn before_last(&self) -> Option<&T> {
        let held = matches!(self.open, Some(Gesture::Sliding(_) | Gesture::Dragging));
        let done = !held && self.future.is_empty();
        self.past.last().filter(|_| done)?.other()
    }

    /// What undo would undo.
    pub fn undoes(&self) -> Option<String> {
        self.past.last().map(|step| step.what.to_string())
    }

    /// What redo would bring back.
    pub fn redoes(&self) -> Option<String> {
        self.future.last().map(|step| step.what.to_string())
    }

    /// All of it as text, what is nearest to now first, as far as there is room. Of each only what differs from the one
    /// before: how many bytes at either end are the same, and what stands between.
    pub fn text(&self) -> String {
        let mut kept = String::new();
        let mut last = "";
        for (sign, steps) in [(PAST, &self.past), (FUTURE, &self.future)] {
            for step in steps.iter().rev() {
                let text = step.text();
                let [start, end] = same(last, text);
                let differs = &text[start..text.len() - end];
                if kept.len() + differs.len() > ROOM {
                    break;
                }
                kept.push_str(&format!("{sign}{}\n{start} {end} {differs}\n", step.what));
                last = text;
            }
        }
        kept
    }

    /// From that text. Where it is damaged, what comes after is left out.
    pub fn read(text: &str) -> Self {
        let mut history = Self::default();
        let starts = text.match_indices([PAST, FUTURE]).map(|(at, _)| at).filter(|&at| at == 0 || text[..at].ends_with('\n'));
        let starts: Vec<usize> = starts.take(2 * MOST).collect();
        let mut last = String::new();
        for (number, &start) in starts.iter().enumerate() {
            let block = &text[start..starts.get(number + 1).copied().unwrap_or(text.len())];
            let Some((what, text)) = block[1..].split_once('\n').and_then(|(what, text)| Some((what, whole(&last, text)?))) else { break };
            let steps = if block.starts_with(PAST) { &mut history.past } else { &mut history.future };
            steps.push(Step::kept(what, &text));
            last = text;
        }
        history.past.reverse();
        history.future.reverse();
        history
    }

    /// Forgets what was taken back.
    pub fn only_past(mut self) -> Self {
        self.future.clear();
        self
    }
}

/// So many bytes at the start and at the end are the same, and are whole letters in both.
fn same(one: &str, other: &str) -> [usize; 2] {
    let alike = |pair: &(u8, u8)| pair.0 == pair.1;
    let mut start = one.bytes().zip(other.bytes()).take_while(alike).count();
    while !(one.is_char_boundary(start) && other.is_char_boundary(start)) {
        start -= 1;
    }
    let mut end = one[start..].bytes().rev().zip(other[start..].bytes().rev()).take_while(alike).count();
    while !one.is_char_boundary(one.len() - end) {
        end -= 1;
    }
    [start, end]
}

/// The text of which this is what differs from the last.
fn whole(last: &str, kept: &str) -> Option<String> {
    let mut parts = kept.strip_suffix('\n')?.splitn(3, ' ');
    let mut count = || parts.next()?.parse::<usize>().ok();
    let (start, end) = (count()?, count()?);
    let end = last.len().checked_sub(end).filter(|&end| end >= start)?;
    Some([last.get(..start)?, parts.next()?, last.get(end..)?].concat())
}

/// Takes the last of `from` that can still be read, and puts what stands now on `to`.
fn take<T: AsText>(from: &mut Vec<Step<T>>, to: &mut Vec<Step<T>>, now: impl FnOnce(&T) -> T) -> Option<T> {
    loop {
        let step = from.pop()?;
        let what = step.what.clone();
        if let Some(other) = step.into_other() {
            to.push(Step::new(now(&other), what));
            return Some(other);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use trialfit_core::calculators::car::{IDLE, REDLINE};

    impl AsText for usize {
        fn text(&self) -> String {
            self.to_string()
        }

        fn read(text: &str) -> Option<Self> {
            text.trim().parse().ok()
        }
    }

    #[test]
    fn a_gesture_is_one_step() {
        let mut history = History::default();
        let idle = Gesture::Typing(IDLE.id.into());
        history.record(idle, "idle", 0);
        history.record(idle, "idle", 1);
        assert_eq!(history.undo(|_| 2), Some(0));
        assert_eq!(history.redo(|_| 0), Some(2));
        assert_eq!(history.undo(|_| 2), Some(0));
        assert_eq!(history.undo(|_| 0), None);
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
        while let Some(before) = history.undo(|_| now) {
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
        assert_eq!((history.redoes(), history.undo(|_| 1)), (None, Some(0)));
    }

    #[test]
    fn a_new_step_ends_what_could_be_redone() {
        let mut history = History::default();
        history.record(Gesture::Once, "one", 0);
        assert_eq!(history.undo(|_| 1), Some(0));
        assert_eq!((history.undoes(), history.redoes()), (None, Some("one".to_owned())));
        history.record(Gesture::Once, "two", 0);
        assert_eq!(history.redo(|_| 2), None);
    }

    #[test]
    fn the_oldest_step_goes_first() {
        let mut history = History::default();
        for step in 0..MOST + 5 {
            history.record(Gesture::Once, "step", step);
        }
        let mut now = MOST + 5;
        while let Some(before) = history.undo(|_| now) {
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
        assert_eq!(history.undo(|_| 2), Some(1));
        assert_eq!(history.before_last(), None, "taken back");
    }

    fn undone(history: &mut History<usize>, mut now: usize) -> Vec<usize> {
        let mut undone = Vec::new();
        while let Some(before) = history.undo(|_| now) {
            undone.push(before);
            now = before;
        }
        undone
    }

    #[test]
    fn kept_as_text_it_goes_on_where_it_was() {
        let mut history = History::default();
        for step in 0..5 {
            history.record(Gesture::Once, if step == 3 { "bore" } else { "idle" }, step);
        }
        history.undo(|_| 5);
        history.undo(|_| 4);
        let mut again = History::<usize>::read(&history.text());
        assert_eq!((again.undoes().as_deref(), again.redoes().as_deref()), (Some("idle"), Some("bore")));
        assert_eq!(again.redo(|_| 3), Some(4));
        assert_eq!(again.redo(|_| 4), Some(5));
        assert_eq!(again.redo(|_| 5), None);
        assert_eq!(undone(&mut again, 5), [4, 3, 2, 1, 0]);
        assert_eq!(History::<usize>::read(&history.text()).only_past().redo(|_| 3), None);
    }

    #[test]
    fn damaged_text_gives_what_can_be_read() {
        let mut history = History::<usize>::read("rubbish\n<idle\n0 0 34\n<bore\n1 0 x\n<bore\n1 0 5\n>x\n9 9 \n<cut\n0 0 3");
        assert_eq!(history.redo(|_| 9), None);
        assert_eq!(undone(&mut history, 4), [34, 35], "what cannot be read is passed over, and nothing follows damage");
        for text in ["", "<", "<a\n", "<a\n1 0 x\n", "<a\n0 1 x\n", "<a\n99999999999999999999 0 x\n", ">é\n0 0 é\n<b\n1 0 \n"] {
            assert!(undone(&mut History::read(text), 0).is_empty(), "{text}");
        }
    }

    #[test]
    fn steps_take_the_room_of_what_differs() {
        let texts = ["1.1/car.name=é/end", "1.1/car.name=è/end", "", "1.1/car.name=èé/a=1/end", "1.1/end", "1.1/end"];
        for (one, other) in texts.iter().flat_map(|one| texts.iter().map(move |other| (one, other))) {
            let [start, end] = same(one, other);
            let kept = format!("{start} {end} {}\n", &other[start..other.len() - end]);
            assert_eq!(whole(one, &kept).as_deref(), Some(*other), "{one} {kept}");
        }
        assert_eq!(same("1.1/a=10/b=2/end", "1.1/a=11/b=2/end"), [7, 8]);
    }

    #[test]
    fn what_is_kept_is_bounded() {
        let mut history = History::default();
        for step in 0..50 {
            history.record(Gesture::Once, "step", Long(step));
        }
        let text = history.text();
        assert!(text.len() <= ROOM + 1000, "{}", text.len());
        let mut again = History::<Long>::read(&text);
        assert_eq!(again.undo(|_| Long(50)), Some(Long(49)), "the newest stay");
    }

    /// Text of which every bit differs from that of another.
    #[derive(Clone, PartialEq, Debug)]
    struct Long(usize);

    impl AsText for Long {
        fn text(&self) -> String {
            format!("{} {} {}", self.0, self.0.to_string().repeat(ROOM / 10), self.0)
        }

        fn read(text: &str) -> Option<Self> {
            text.split(' ').next()?.parse().ok().map(Long)
        }
    }
}
