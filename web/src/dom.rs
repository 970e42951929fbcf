//! Elements of the page, made by plain calls.
//!
//! A view macro gives every element a type of its own, and the compiler writes code for each of them once more. Here each
//! kind of binding is compiled once, whatever it stands on: closures are boxed at the door of every method. That is most of
//! what a first visit does not have to load.
//!
//! Whatever is bound here follows the signals it reads until its owner goes: the page, a region made anew, or an item of a
//! list.

use crate::follow::{effect, follow};
use crate::language;
use crate::signal::{Gives, State, memo};
use leptos::prelude::{Owner, document, untrack};
use std::cell::{Cell, RefCell};
use wasm_bindgen::prelude::*;
use web_sys::{Element, Event, HtmlElement, Node};

/// An element, being put together or already on the page.
#[derive(Clone, Debug)]
pub struct El(Element);

/// Makes one element of a list when it is new there.
pub type Make = Box<dyn FnOnce() -> El>;

/// What is done when an event comes, for the reason of [`Gives`].
trait Hears {
    fn hear(&self, event: Event);
}

impl<F: Fn(Event)> Hears for F {
    fn hear(&self, event: Event) {
        self(event);
    }
}

/// An element of HTML.
pub fn el(tag: &str) -> El {
    El(document().create_element(tag).expect("tags are words"))
}

/// An element of SVG.
pub fn svg(tag: &str) -> El {
    El(document().create_element_ns(Some("http://www.w3.org/2000/svg"), tag).expect("tags are words"))
}

/// An element of MathML.
pub fn math(tag: &str) -> El {
    El(document().create_element_ns(Some("http://www.w3.org/1998/Math/MathML"), tag).expect("tags are words"))
}

/// A button that submits nothing.
pub fn button(class: &str, id: &str) -> El {
    el("button").set("type", "button").class(class).id(id)
}

/// A `details` whose inside is made while it is open: long lists would cost at every change.
pub fn folded(details: El, inside: impl Fn() -> El + 'static) -> El {
    let open = State::new(false);
    let element = details.element().clone();
    details.on("toggle", move |_| open.set(element.has_attribute("open"))).when(move || open.get(), inside)
}

/// An item of [`El::each`].
pub fn item(key: impl ToString, make: impl FnOnce() -> El + 'static) -> (String, Make) {
    (key.to_string(), Box::new(make))
}

impl El {
    /// The element itself.
    pub fn element(&self) -> &Element {
        &self.0
    }

    /// The element as one of HTML.
    pub fn html(&self) -> &HtmlElement {
        self.0.unchecked_ref()
    }

    /// Sets an attribute once and for all, in the reader's language if it is read out or shown.
    pub fn set(self, name: &str, value: &str) -> Self {
        let said = if is_said(name) { language::says(value) } else { value.into() };
        _ = self.0.set_attribute(name, &said);
        self
    }

    /// Sets its class.
    pub fn class(self, names: &str) -> Self {
        if names.is_empty() { self } else { self.set("class", names) }
    }

    /// Sets its id.
    pub fn id(self, id: &str) -> Self {
        if id.is_empty() { self } else { self.set("id", id) }
    }

    /// An attribute that follows; none takes it away.
    pub fn bind(self, name: &'static str, value: impl Fn() -> Option<String> + 'static) -> Self {
        fn boxed(element: Element, name: &'static str, value: Box<dyn Gives<Option<String>>>) {
            follow(move || {
                let said = |value: String| if is_said(name) { language::says(&value).into_owned() } else { value };
                let (old, new) = (element.get_attribute(name), value.give().map(said));
                if old != new {
                    _ = match new {
                        Some(new) => element.set_attribute(name, &new),
                        None => element.remove_attribute(name),
                    };
                }
            });
        }
        boxed(self.0.clone(), name, Box::new(value));
        self
    }

    /// An attribute that is `true` or not there.
    pub fn flag(self, name: &'static str, value: impl Fn() -> bool + 'static) -> Self {
        self.bind(name, move || value().then(|| "true".to_owned()))
    }

    /// One name of its class that comes and goes.
    pub fn class_when(self, name: &'static str, is: impl Fn() -> bool + 'static) -> Self {
        fn boxed(element: Element, name: &'static str, is: Box<dyn Gives<bool>>) {
            follow(move || {
                let list = element.class_list();
                _ = if is.give() { list.add_1(name) } else { list.remove_1(name) };
            });
        }
        boxed(self.0.clone(), name, Box::new(is));
        self
    }

    /// A property of its style that follows. By way of the object: a style attribute is against the page's own policy.
    pub fn style(self, name: &'static str, value: impl Fn() -> String + 'static) -> Self {
        let element = self.clone();
        follow(move || _ = element.html().style().set_property(name, &value()));
        self
    }

    /// A property that follows, such as `value` or `checked`; it is written only where it differs, so that a caret stays.
    pub fn prop(self, name: &'static str, value: impl Fn() -> JsValue + 'static) -> Self {
        fn boxed(element: Element, name: &'static str, value: Box<dyn Gives<JsValue>>) {
            let name = JsValue::from_str(name);
            follow(move || {
                let new = value.give();
                if js_sys::Reflect::get(&element, &name).is_ok_and(|old| old != new) {
                    _ = js_sys::Reflect::set(&element, &name, &new);
                }
            });
        }
        boxed(self.0.clone(), name, Box::new(value));
        self
    }

    /// What stands in a field, following.
    pub fn value(self, value: impl Fn() -> String + 'static) -> Self {
        self.prop("value", move || JsValue::from_str(&value()))
    }

    /// Markup of its content, which follows. Only for what this program drew itself.
    pub fn drawn(self, markup: impl Fn() -> String + 'static) -> Self {
        let element = self.0.clone();
        follow(move || element.set_inner_html(&markup()));
        self
    }

    /// Does something when told of an event.
    pub fn on(self, event: &'static str, act: impl Fn(Event) + 'static) -> Self {
        fn boxed(element: &Element, event: &'static str, act: Box<dyn Hears>) {
            // It goes with the element, not with its owner: a field that is taken away under the focus is still left.
            let act = Closure::<dyn Fn(Event)>::new(move |event| act.hear(event)).into_js_value();
            _ = element.add_event_listener_with_callback(event, act.unchecked_ref());
        }
        boxed(&self.0, event, Box::new(act));
        self
    }

    /// Does something when pressed, by pointer or key.
    pub fn on_press(self, act: impl Fn() + 'static) -> Self {
        self.on("click", move |_| act())
    }

    /// Adds words, in the reader's language.
    pub fn text(self, words: &str) -> Self {
        let said = language::says(words);
        self.own(&said)
    }

    /// Adds words as they stand: somebody's own, or of a language already.
    pub fn own(self, words: &str) -> Self {
        _ = self.0.append_with_str_1(words);
        self
    }

    /// Adds words that follow, in the reader's language.
    pub fn says(self, words: impl Fn() -> String + 'static) -> Self {
        self.says_own(move || language::says(&words()).into_owned())
    }

    /// Adds words that follow, as they stand.
    pub fn says_own(self, words: impl Fn() -> String + 'static) -> Self {
        fn boxed(element: &Element, words: Box<dyn Gives<String>>) {
            let node = document().create_text_node("");
            _ = element.append_child(&node);
            follow(move || {
                let words = words.give();
                if node.data() != words {
                    node.set_data(&words);
                }
            });
        }
        boxed(&self.0, Box::new(words));
        self
    }

    /// Adds an element.
    pub fn child(self, child: El) -> Self {
        _ = self.0.append_child(&child.0);
        self
    }

    /// Adds an element that is made in its turn.
    pub fn later(self, make: impl FnOnce() -> El + 'static) -> Self {
        self.all_later(|| [make()])
    }

    /// Adds elements that are made in their turn.
    pub fn all_later<All: IntoIterator<Item = El>>(self, make: impl FnOnce() -> All + 'static) -> Self {
        fn boxed(element: &Element, make: Box<dyn FnOnce() -> Vec<El>>) {
            let end = mark(element);
            let make = Cell::new(Some(make));
            effect(move |_| {
                let made = make.take().map(untrack);
                made.into_iter().flatten().for_each(|made| insert(&made.0, &end));
            });
        }
        boxed(&self.0, Box::new(|| make().into_iter().collect()));
        self
    }

    /// Adds elements.
    pub fn children(self, children: impl IntoIterator<Item = El>) -> Self {
        children.into_iter().fold(self, Self::child)
    }

    /// Adds elements made anew whenever something read in making them has changed.
    pub fn many(self, make: impl Fn() -> Vec<El> + 'static) -> Self {
        fn boxed(element: &Element, make: Box<dyn Gives<Vec<El>>>) {
            let end = mark(element);
            let shown = RefCell::new(Vec::<El>::new());
            follow(move || {
                let new = make.give();
                for old in shown.replace(new) {
                    old.0.remove();
                }
                for new in shown.borrow().iter() {
                    insert(&new.0, &end);
                }
            });
        }
        boxed(&self.0, Box::new(make));
        self
    }

    /// Adds an element made anew whenever something read in making it has changed, if there is one.
    pub fn maybe(self, make: impl Fn() -> Option<El> + 'static) -> Self {
        self.many(move || make().into_iter().collect())
    }

    /// Adds an element while something is so; it is made anew only when that turns.
    pub fn when(self, is: impl Fn() -> bool + Send + Sync + 'static, make: impl Fn() -> El + 'static) -> Self {
        let is = memo(is);
        self.maybe(move || is.get().then(|| untrack(&make)))
    }

    /// Adds the elements of a list that follows. One whose key stays stays itself, wherever it moves.
    pub fn each(self, items: impl Fn() -> Vec<(String, Make)> + 'static) -> Self {
        fn boxed(element: &Element, items: Box<dyn Gives<Vec<(String, Make)>>>) {
            let end = mark(element);
            let shown = RefCell::new(Vec::<(String, El, Owner)>::new());
            let owner = Owner::current().unwrap_or_default();
            follow(move || {
                let mut old = shown.take();
                let mut new = Vec::new();
                for (key, make) in items.give() {
                    let kept = old.iter().position(|(other, ..)| *other == key).map(|at| old.swap_remove(at));
                    new.push(kept.unwrap_or_else(|| {
                        let owner = owner.child();
                        let made = owner.with(|| untrack(make));
                        (key, made, owner)
                    }));
                }
                for (_, gone, owner) in old {
                    gone.0.remove();
                    owner.cleanup();
                }
                // From the end, each before the next: what is in its place already is not touched, and keeps the focus.
                let mut next: Node = end.clone();
                for (_, El(element), _) in new.iter().rev() {
                    if element.next_sibling().as_ref() != Some(&next) {
                        insert(element, &next);
                    }
                    next = element.clone().into();
                }
                shown.replace(new);
            });
        }
        boxed(&self.0, Box::new(items));
        self
    }
}

/// Whether an attribute is words for the reader.
fn is_said(name: &str) -> bool {
    matches!(name, "aria-label" | "aria-valuetext" | "aria-description" | "title" | "placeholder" | "alt" | "label")
}

/// A place among an element's children that stays when what stands before it comes and goes.
fn mark(element: &Element) -> Node {
    let mark: Node = document().create_comment("").into();
    _ = element.append_child(&mark);
    mark
}

fn insert(element: &Element, before: &Node) {
    if let Some(parent) = before.parent_node() {
        _ = parent.insert_before(element, Some(before));
    }
}

/// What stands in the field an event is of.
pub fn value_in(event: &Event) -> String {
    let value = event.target().and_then(|target| js_sys::Reflect::get(&target, &"value".into()).ok());
    value.and_then(|value| value.as_string()).unwrap_or_default()
}

/// Puts a text into the field an event is of.
pub fn put_value(event: &Event, value: &str) {
    if let Some(target) = event.target() {
        _ = js_sys::Reflect::set(&target, &"value".into(), &value.into());
    }
}

/// The event as one of a pointer or mouse, a key …; the caller knows which it listens to.
pub fn as_event<T: JsCast>(event: &Event) -> &T {
    event.unchecked_ref()
}
