//! Work in pieces between which the page paints and listens.

use crate::bench::plan;
use crate::follow::slice_of;
use crate::signal::State;
use leptos::prelude::*;
use std::cell::{Cell, RefCell};
use std::collections::VecDeque;
use std::ops::ControlFlow;
use std::rc::Rc;
use trialfit_core::tools::Job;
use wasm_bindgen::prelude::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{MessageChannel, MessagePort};

/// A piece takes about so many milliseconds.
const PIECE: f64 = 12.0;

/// So many evaluations are done between looks at the clock: a phone does them in a few milliseconds.
const AT_ONCE: u32 = 50;

/// One piece of some size; the share that is done, or none at the end.
type Piece = Box<dyn FnMut(u32) -> Option<f32>>;

/// One kind of work: what it found last, and how far it is.
#[derive(Debug)]
pub(super) struct Runner<T> {
    found: State<Option<T>>,
    share: State<Option<f32>>,
    /// Which run is under way; pieces of others find that they are not wanted.
    turn: StoredValue<Rc<Cell<u32>>, LocalStorage>,
}

impl<T> Clone for Runner<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Runner<T> {}

impl<T: Send + Sync + 'static> Runner<T> {
    /// Nothing found yet.
    pub(super) fn new() -> Self {
        let turn = Rc::new(Cell::new(0));
        let gone = StoredValue::new_local(Rc::clone(&turn));
        on_cleanup(move || _ = gone.try_with_value(|turn| turn.set(turn.get() + 1)));
        Self { found: State::new(None), share: State::new(None), turn: StoredValue::new_local(turn) }
    }

    /// Reads what was found. Tracked.
    pub(super) fn with<R>(self, read: impl FnOnce(Option<&T>) -> R) -> R {
        self.found.with(|found| read(found.as_ref()))
    }

    /// How far it is, while it is under way. Tracked.
    pub(super) fn share(self) -> Option<f32> {
        self.share.get()
    }

    /// Begins anew.
    pub(super) fn start<J: Job<Answer = T> + 'static>(self, mut job: J) {
        let (turn, mine) = self.next();
        self.share.set(Some(0.0));
        let piece = move |size| match job.advance(plan(), size) {
            ControlFlow::Continue(share) => Some(share),
            ControlFlow::Break(found) => {
                self.found.set(Some(found));
                None
            }
        };
        go_on(Box::new(piece), turn, mine, self.share);
    }

    /// Stops. What was found before stays.
    pub(super) fn stop(self) {
        self.next();
        self.share.set(None);
    }

    /// Stops, and forgets what was found: it was of another build.
    pub(super) fn forget(self) {
        self.stop();
        self.found.set(None);
    }

    fn next(self) -> (Rc<Cell<u32>>, u32) {
        self.turn.with_value(|turn| {
            turn.set(turn.get() + 1);
            (Rc::clone(turn), turn.get())
        })
    }
}

/// What waits for its turn after painting and input. Messages to oneself come sooner than timers, which browsers hold
/// back by milliseconds.
struct Turns {
    to_self: MessagePort,
    waiting: RefCell<VecDeque<Box<dyn FnOnce()>>>,
}

thread_local! {
    static TURNS: Option<Turns> = turns();
}

fn turns() -> Option<Turns> {
    let channel = MessageChannel::new().ok()?;
    let next = Closure::<dyn FnMut()>::new(|| {
        let next = TURNS.with(|turns| turns.as_ref()?.waiting.borrow_mut().pop_front());
        if let Some(next) = next {
            next();
        }
    });
    channel.port1().set_onmessage(Some(next.into_js_value().unchecked_ref()));
    Some(Turns { to_self: channel.port2(), waiting: RefCell::default() })
}

fn soon(act: impl FnOnce() + 'static) {
    TURNS.with(|turns| {
        if let Some(turns) = turns {
            turns.waiting.borrow_mut().push_back(Box::new(act));
            _ = turns.to_self.post_message(&JsValue::NULL);
        }
    });
}

fn go_on(mut piece: Piece, turn: Rc<Cell<u32>>, mine: u32, share: State<Option<f32>>) {
    soon(move || {
        if turn.get() != mine {
            return;
        }
        let goes_on = slice_of(PIECE);
        let mut done = piece(AT_ONCE);
        while done.is_some() && goes_on() {
            done = piece(AT_ONCE);
        }
        share.set(done);
        if done.is_some() {
            go_on(piece, turn, mine, share);
        }
    });
}
