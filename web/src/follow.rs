//! What follows values: done when it is made, and again when something it read has changed, in turns.
//!
//! All that hangs on a key is more than fits between the key and the next frame. What is made under [`Turn::Now`] is done
//! before that frame, the rest after it, in slices short enough that the next key never waits. leptos would do all of it at
//! once, so its values and owners are used here, and its effects are not.

use crate::signal::Gives;
use leptos::prelude::{Owner, StoredValue, window};
use leptos::reactive::graph::{AnySource, AnySubscriber, ReactiveNode, Source, Subscriber, WithObserver};
use send_wrapper::SendWrapper;
use std::cell::{Cell, RefCell};
use std::collections::VecDeque;
use std::sync::{Arc, Weak};
use wasm_bindgen::prelude::*;
use web_sys::MessageChannel;

/// When what follows has its turn.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Turn {
    /// Before the next frame: the answer.
    Now,
    /// First after it: what the hands are on.
    Soon,
    /// Whenever there is time.
    Late,
}

/// A slice ends after so many milliseconds.
const SLICE: f64 = 5.0;

/// A page that is not shown has no frames; it goes on after so many milliseconds without one.
const NO_FRAME: i32 = 100;

thread_local! {
    static TURNS: Turns = Turns::new();
}

/// Those who wait, and who comes next.
struct Turns {
    /// That of what is made now.
    turn: Cell<Turn>,
    waiting: [RefCell<VecDeque<Weak<Follower>>>; 3],
    /// Those of now are about to be done.
    due: Cell<bool>,
    /// A slice is to come, the first of them after a frame.
    slicing: Cell<bool>,
    before_frame: Cell<bool>,
    /// What is done once nobody waits.
    at_last: RefCell<Vec<Box<dyn FnOnce()>>>,
    /// A message comes after what the browser has to do first.
    messages: MessageChannel,
    on_frame: Closure<dyn Fn()>,
}

impl Turns {
    fn new() -> Self {
        let messages = MessageChannel::new().expect("every browser has channels");
        let slice = Closure::<dyn Fn()>::new(|| TURNS.with(Self::slice)).into_js_value();
        messages.port1().set_onmessage(Some(slice.unchecked_ref()));
        let on_frame = Closure::new(|| TURNS.with(Self::after_frame));
        Self {
            turn: Cell::new(Turn::Now),
            waiting: Default::default(),
            due: Cell::default(),
            slicing: Cell::default(),
            before_frame: Cell::default(),
            at_last: RefCell::default(),
            messages,
            on_frame,
        }
    }

    fn post(&self) {
        _ = self.messages.port2().post_message(&JsValue::NULL);
    }

    /// Lets a follower wait for its turn.
    fn wait(&self, follower: Weak<Follower>, turn: Turn) {
        self.waiting[turn as usize].borrow_mut().push_back(follower);
        if !self.due.replace(true) {
            // Once whoever changes something has changed all of it.
            wasm_bindgen_futures::spawn_local(async { TURNS.with(Self::now) });
        }
    }

    fn next(&self, last: Turn) -> Option<Weak<Follower>> {
        self.waiting[..=last as usize].iter().find_map(|waiting| waiting.borrow_mut().pop_front())
    }

    /// Before the frame.
    fn now(&self) {
        self.due.set(false);
        self.run(Turn::Now, || true);
        if self.is_done() || self.slicing.replace(true) {
            return;
        }
        self.before_frame.set(true);
        let on_frame = self.on_frame.as_ref().unchecked_ref();
        _ = window().request_animation_frame(on_frame);
        _ = window().set_timeout_with_callback_and_timeout_and_arguments_0(on_frame, NO_FRAME);
    }

    fn after_frame(&self) {
        if self.before_frame.replace(false) {
            self.post();
        }
    }

    /// After it.
    fn slice(&self) {
        self.run(Turn::Late, slice());
        if self.is_done() {
            self.slicing.set(false);
        } else {
            self.post();
        }
    }

    fn run(&self, last: Turn, goes_on: impl Fn() -> bool) {
        while let Some(next) = self.next(last) {
            if let Some(follower) = next.upgrade() {
                follower.turn();
            }
            if !goes_on() {
                break;
            }
        }
    }

    fn is_done(&self) -> bool {
        let is_done = || self.waiting.iter().all(|waiting| waiting.borrow().is_empty());
        is_done() && {
            self.at_last.take().into_iter().for_each(|act| act());
            is_done()
        }
    }
}

/// Whether there is time left of a slice that begins now.
pub fn slice() -> impl Fn() -> bool {
    slice_of(SLICE)
}

/// The same, of a slice of so many milliseconds; by a clock that nobody sets.
pub fn slice_of(most: f64) -> impl Fn() -> bool {
    let clock = window().performance();
    let now = move || clock.as_ref().map_or(0.0, web_sys::Performance::now);
    let start = now();
    move || now() - start < most
}

/// Makes something that follows in that turn, as does whatever it makes.
pub fn during<T>(turn: Turn, make: impl FnOnce() -> T) -> T {
    let before = TURNS.with(|turns| turns.turn.replace(turn));
    let made = make();
    TURNS.with(|turns| turns.turn.set(before));
    made
}

/// Runs now, and again in its turn whenever something it read has changed.
pub fn follow(run: impl Fn() + 'static) {
    Follower::new(Box::new(run)).turn();
}

/// The same, but the first time too in its turn: told whether it is the first.
pub fn effect(run: impl Fn(bool) + 'static) {
    let first = Cell::new(true);
    Follower::new(Box::new(move || run(first.replace(false)))).wait();
}

/// Does all that still waits, for whoever has to find it done: to print it, to scroll to it.
pub fn settle() {
    TURNS.with(|turns| turns.run(Turn::Late, || true));
}

/// Does something once nobody waits for a turn.
pub fn at_last(act: impl FnOnce() + 'static) {
    TURNS.with(|turns| turns.at_last.borrow_mut().push(Box::new(act)));
}

/// Something that is done whenever what it read has changed. It goes with its owner.
struct Follower {
    itself: Weak<Self>,
    inner: SendWrapper<Inner>,
}

struct Inner {
    act: Box<dyn Gives<()>>,
    turn: Turn,
    owner: Owner,
    sources: RefCell<Vec<AnySource>>,
    /// Something it read is another; else something may be.
    changed: Cell<bool>,
    waits: Cell<bool>,
}

impl Follower {
    fn new(act: Box<dyn Gives<()>>) -> Arc<Self> {
        let inner = Inner {
            act,
            turn: TURNS.with(|turns| turns.turn.get()),
            owner: Owner::new(),
            sources: RefCell::default(),
            changed: Cell::new(true),
            waits: Cell::new(false),
        };
        let follower = Arc::new_cyclic(|itself| Self { itself: itself.clone(), inner: SendWrapper::new(inner) });
        StoredValue::new_local(follower.clone());
        follower
    }

    fn subscriber(&self) -> AnySubscriber {
        AnySubscriber(self.itself.as_ptr() as usize, self.itself.clone())
    }

    fn wait(&self) {
        if !self.inner.waits.replace(true) {
            TURNS.with(|turns| turns.wait(self.itself.clone(), self.inner.turn));
        }
    }

    /// Does it, if what it read has changed.
    fn turn(&self) {
        self.inner.waits.set(false);
        let subscriber = self.subscriber();
        if !subscriber.with_observer(|| self.update_if_necessary()) {
            return;
        }
        let before = self.inner.sources.take();
        during(self.inner.turn, || self.inner.owner.with_cleanup(|| subscriber.with_observer(|| self.inner.act.give())));
        // What it reads again it never left: leaving a list and joining it again takes as long as the list is.
        let now = self.inner.sources.borrow();
        before.into_iter().filter(|source| !now.contains(source)).for_each(|source| {
            source.remove_subscriber(&subscriber);
        });
    }
}

impl ReactiveNode for Follower {
    fn mark_dirty(&self) {
        self.inner.changed.set(true);
        self.wait();
    }

    fn mark_check(&self) {
        self.wait();
    }

    fn mark_subscribers_check(&self) {}

    fn update_if_necessary(&self) -> bool {
        // A source that is worked out anew may join or leave the list.
        let sources = || self.inner.sources.borrow().clone();
        self.inner.changed.take() || sources().iter().any(ReactiveNode::update_if_necessary)
    }
}

impl Subscriber for Follower {
    fn add_source(&self, source: AnySource) {
        let mut sources = self.inner.sources.borrow_mut();
        if !sources.contains(&source) {
            sources.push(source);
        }
    }

    fn clear_sources(&self, subscriber: &AnySubscriber) {
        self.inner.sources.take().iter().for_each(|source| source.remove_subscriber(subscriber));
    }
}
