//! Values that are followed: those kept, and those worked out of others.
//!
//! They are leptos' signals and memos. Its code is written once for each type of value; here all values stand behind one
//! door, so that the phone loads that code once.

use leptos::prelude::{Get, GetUntracked, Notify, RwSignal, Set, UpdateUntracked};
use std::any::Any;
use std::fmt;
use std::marker::PhantomData;
use std::sync::Arc;

type Kept = Arc<dyn Any + Send + Sync>;

/// A value that is kept and may be changed. A handle: copies speak of the same value.
pub struct State<T> {
    signal: RwSignal<Kept>,
    of: PhantomData<fn() -> T>,
}

impl<T> Copy for State<T> {}

impl<T> Clone for State<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> fmt::Debug for State<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.signal.fmt(f)
    }
}

impl<T: Default + Send + Sync + 'static> Default for State<T> {
    fn default() -> Self {
        Self::new(T::default())
    }
}

impl<T: Send + Sync + 'static> State<T> {
    /// Keeps a value until its owner goes.
    pub fn new(value: T) -> Self {
        Self { signal: signal(Arc::new(value)), of: PhantomData }
    }

    /// Reads it; whoever follows is told of changes.
    pub fn with<R>(self, read: impl FnOnce(&T) -> R) -> R {
        read(of(&*tracked(self.signal)))
    }

    /// Reads it as it is now.
    pub fn with_untracked<R>(self, read: impl FnOnce(&T) -> R) -> R {
        read(of(&*untracked(self.signal)))
    }

    /// Puts another in its place.
    pub fn set(self, value: T) {
        put(self.signal, Arc::new(value));
    }

    /// Changes it in its place.
    pub fn update<R>(self, change: impl FnOnce(&mut T) -> R) -> R {
        let result = self.update_untracked(change);
        tell(self.signal);
        result
    }

    /// Changes it without telling anybody.
    pub fn update_untracked<R>(self, change: impl FnOnce(&mut T) -> R) -> R {
        let mut kept = take(self.signal);
        let value = Arc::get_mut(&mut kept).and_then(|kept| kept.downcast_mut());
        let result = change(value.expect("nobody reads a value while it is changed"));
        put_back(self.signal, kept);
        result
    }
}

impl<T: Clone + Send + Sync + 'static> State<T> {
    /// A copy of it; whoever follows is told of changes.
    pub fn get(self) -> T {
        self.with(T::clone)
    }

    /// A copy of it as it is now.
    pub fn get_untracked(self) -> T {
        self.with_untracked(T::clone)
    }
}

fn of<T: 'static>(kept: &(dyn Any + Send + Sync)) -> &T {
    kept.downcast_ref().expect("a state keeps its type")
}

fn signal(kept: Kept) -> RwSignal<Kept> {
    RwSignal::new(kept)
}

fn tracked(signal: RwSignal<Kept>) -> Kept {
    signal.get()
}

fn untracked(signal: RwSignal<Kept>) -> Kept {
    signal.get_untracked()
}

fn put(signal: RwSignal<Kept>, kept: Kept) {
    signal.set(kept);
}

fn put_back(signal: RwSignal<Kept>, kept: Kept) {
    signal.update_untracked(|there| *there = kept);
}

fn tell(signal: RwSignal<Kept>) {
    signal.notify();
}

fn take(signal: RwSignal<Kept>) -> Kept {
    signal.try_update_untracked(|kept| core::mem::replace(kept, Arc::new(()))).expect("a state is used while its owner is there")
}

/// A value worked out, known by whether it differs from the last.
trait Answer: Any + Send + Sync {
    fn is_same(&self, other: &dyn Answer) -> bool;
}

impl<T: PartialEq + Send + Sync + 'static> Answer for T {
    fn is_same(&self, other: &dyn Answer) -> bool {
        (other as &dyn Any).downcast_ref() == Some(self)
    }
}

#[derive(Clone)]
struct Found(Arc<dyn Answer>);

impl PartialEq for Found {
    fn eq(&self, other: &Self) -> bool {
        self.0.is_same(&*other.0)
    }
}

impl Found {
    fn get<T: 'static>(&self) -> &T {
        (&*self.0 as &dyn Any).downcast_ref().expect("a memo keeps its type")
    }
}

/// Makes an answer, given the last one.
trait Works: Send + Sync {
    fn work(&self, last: Option<&Found>) -> Found;
}

struct Work<T, F>(F, PhantomData<fn() -> T>);

impl<T: PartialEq + Send + Sync + 'static, F: Fn(Option<&T>) -> T + Send + Sync> Works for Work<T, F> {
    fn work(&self, last: Option<&Found>) -> Found {
        Found(Arc::new(self.0(last.map(Found::get))))
    }
}

/// What gives a value whenever it is asked. Closures stand behind this and not behind `dyn Fn`, with which each would bring
/// two more functions along: to be called once, and to be called as if it changed something.
pub trait Gives<T> {
    /// The value.
    fn give(&self) -> T;
}

impl<T, F: Fn() -> T> Gives<T> for F {
    fn give(&self) -> T {
        self()
    }
}

/// A value worked out of others when one of them has changed; whoever follows it is told when it differs. A handle.
pub struct Memo<T> {
    memo: leptos::prelude::Memo<Found>,
    of: PhantomData<fn() -> T>,
}

impl<T> Copy for Memo<T> {}

impl<T> Clone for Memo<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> fmt::Debug for Memo<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.memo.fmt(f)
    }
}

/// Works a value out, and again when it has to be.
pub fn memo<T: PartialEq + Send + Sync + 'static>(work: impl Fn() -> T + Send + Sync + 'static) -> Memo<T> {
    memo_from(move |_| work())
}

/// The same, from the last one too.
pub fn memo_from<T: PartialEq + Send + Sync + 'static>(work: impl Fn(Option<&T>) -> T + Send + Sync + 'static) -> Memo<T> {
    fn boxed(work: Box<dyn Works>) -> leptos::prelude::Memo<Found> {
        leptos::prelude::Memo::new(move |last| work.work(last))
    }
    Memo { memo: boxed(Box::new(Work(work, PhantomData))), of: PhantomData }
}

impl<T: 'static> Memo<T> {
    /// Reads it; whoever follows is told when it differs.
    pub fn with<R>(self, read: impl FnOnce(&T) -> R) -> R {
        fn tracked(memo: leptos::prelude::Memo<Found>) -> Found {
            memo.get()
        }
        read(tracked(self.memo).get())
    }

    /// Reads it as it is now.
    pub fn with_untracked<R>(self, read: impl FnOnce(&T) -> R) -> R {
        fn untracked(memo: leptos::prelude::Memo<Found>) -> Found {
            memo.get_untracked()
        }
        read(untracked(self.memo).get())
    }
}

impl<T: Clone + 'static> Memo<T> {
    /// A copy of it as it is now, unless it has gone with its owner.
    pub fn try_get_untracked(self) -> Option<T> {
        self.memo.try_get_untracked().map(|found| found.get::<T>().clone())
    }

    /// A copy of it; whoever follows is told when it differs.
    pub fn get(self) -> T {
        self.with(T::clone)
    }

    /// A copy of it as it is now.
    pub fn get_untracked(self) -> T {
        self.with_untracked(T::clone)
    }
}
