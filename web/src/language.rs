//! The reader's language. The page's texts are English up to here; the doors of `dom.rs` bring each before the reader by way
//! of [`says`]. What somebody typed does not come this way.

use crate::bench::Bench;
use crate::keep::LANGUAGE;
use std::borrow::Cow;
use std::cell::RefCell;
use trialfit_core::build::Build;
use trialfit_core::language::{FIGURE, Language};
use wasm_bindgen::JsValue;

thread_local! {
    /// None for the language everything is written in.
    static READ: RefCell<Option<Language<'static>>> = const { RefCell::new(None) };
}

/// Where the loader puts the texts of the language it loaded.
const TEXTS: &str = "trialfitTexts";

/// The language the page is written in, by its code and its own name.
const SOURCE: (&str, &str) = ("en", "English");

/// On the root: the languages there are, and the one that could not be loaded.
const LANGUAGES: &str = "data-languages";
const LACKS: &str = "data-lacks";

/// Takes up the texts that were loaded before the page is made.
pub fn begin() {
    let texts = js_sys::Reflect::get(&js_sys::global(), &JsValue::from_str(TEXTS)).ok().and_then(|texts| texts.as_string());
    if let Some(texts) = texts.filter(|texts| !texts.is_empty()) {
        // For as long as the page is there.
        READ.set(Some(Language::read(Box::leak(texts.into_boxed_str()))));
    }
}

fn of_root(name: &str) -> String {
    leptos::prelude::document().document_element().and_then(|root| root.get_attribute(name)).unwrap_or_default()
}

/// Languages to choose from, by code and own name.
pub fn all() -> Vec<(String, String)> {
    let listed = of_root(LANGUAGES);
    let one = |it: &str| {
        let mut words = it.splitn(3, ' ');
        Some((words.next()?.to_owned(), words.nth(1)?.to_owned()))
    };
    core::iter::once((SOURCE.0.to_owned(), SOURCE.1.to_owned())).chain(listed.split(';').filter_map(one)).collect()
}

/// The code of the one in use.
pub fn code() -> String {
    with(|language| language.code().to_owned()).unwrap_or_else(|| SOURCE.0.to_owned())
}

/// The language that was wanted and could not be loaded, by its own name.
pub fn lacking() -> Option<String> {
    let code = of_root(LACKS);
    all().into_iter().find(|(known, _)| *known == code).map(|(_, name)| name)
}

/// Reads the page in another language: it is loaded again, and everything on it stays.
pub fn choose(code: &str) {
    let bench = Bench::get();
    if let Err(fault) = bench.with_keeper(|keeper| keeper.keep_text(LANGUAGE, code)) {
        return bench.tell(crate::bench::Notice::NotKept(fault));
    }
    bench.keep_steps();
    _ = leptos::prelude::window().location().reload();
}

fn with<T>(read: impl FnOnce(&mut Language<'static>) -> T) -> Option<T> {
    READ.with(|language| language.borrow_mut().as_mut().map(read))
}

/// Whether the page is read in the language it is written in.
pub fn is_source() -> bool {
    with(|_| ()).is_none()
}

/// A text in the reader's language.
pub fn says(text: &str) -> Cow<'_, str> {
    with(|language| language.translate(text).text).map_or(Cow::Borrowed(text), Cow::Owned)
}

/// The same for a narrow place: with soft hyphens where words may be broken, if the catalogue has it so. Its key ends with one.
pub fn narrow(text: &str) -> Cow<'_, str> {
    with(|language| language.whole(&format!("{text}\u{AD}"))).flatten().map_or_else(|| says(text), Cow::Borrowed)
}

/// The same, to be handed on.
pub fn said(text: &str) -> String {
    says(text).into_owned()
}

/// A number as the reader writes it.
pub fn number(text: &str) -> Cow<'_, str> {
    with(|language| language.numbers(text)).map_or(Cow::Borrowed(text), Cow::Owned)
}

/// An equation: one with words in it has other words in another language, and the same letters.
pub fn equation(text: &'static str) -> &'static str {
    with(|language| language.whole(text)).flatten().unwrap_or(text)
}

/// From here on the words that somebody gave these builds stay as they are.
pub fn leave_words_of<'a>(builds: impl IntoIterator<Item = &'a Build>) {
    if !is_source() {
        let own = builds.into_iter().flat_map(Build::own_words).collect();
        with(|language| language.set_own(own));
    }
}

/// A part of a text whose figures were set apart.
pub enum Part<'a> {
    Words(&'a str),
    /// By its place among the figures of the text.
    Figure(usize),
}

/// Stands for a figure in a text while it is translated, so that it can be set apart after.
pub fn stands_for(figure: usize) -> char {
    u32::try_from(figure).ok().and_then(|at| char::from_u32(u32::from(FIGURE) + at)).unwrap_or(FIGURE)
}

/// A translated text with its figures apart again.
pub fn parts(text: &str) -> Vec<Part<'_>> {
    let is_figure = |letter: char| (FIGURE..='\u{F8FF}').contains(&letter);
    let mut parts = Vec::new();
    let mut rest = text;
    while let Some(at) = rest.find(is_figure) {
        let figure = rest[at..].chars().next().unwrap_or(FIGURE);
        parts.extend((at > 0).then_some(Part::Words(&rest[..at])));
        parts.push(Part::Figure((u32::from(figure) - u32::from(FIGURE)) as usize));
        rest = &rest[at + figure.len_utf8()..];
    }
    parts.extend((!rest.is_empty()).then_some(Part::Words(rest)));
    parts
}
