//! A shelf published beside the page, fetched for a link that names it. Nothing else is ever fetched by the page itself.

use crate::bench::{Bench, Notice};
use crate::keep::SHELF;
use crate::words;
use leptos::prelude::*;
use trialfit_core::share::link::is_beside;
use trialfit_core::shelf;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use wasm_bindgen_futures::spawn_local;
use web_sys::{ReadableStreamDefaultReader, RequestCredentials, RequestInit, RequestMode, RequestRedirect, Response};

/// No shelf is larger, in bytes.
const LARGEST: usize = 2 * 1024 * 1024;

impl Bench {
    /// Fetches the shelf that the visited car's link names.
    pub fn fetch_shelf(self, address: String) {
        self.came.set(None);
        if !is_beside(&address) {
            return;
        }
        spawn_local(async move {
            let text = text_of(&address).await;
            // The visit may be over, or another one.
            if self.visit.with_untracked(|visit| visit.as_ref().is_none_or(|visit| visit.shelf != address)) {
                return;
            }
            if text.is_none() && self.has_shelf_of(&address) {
                // Without a network, what was kept of an earlier visit does as well.
                return;
            }
            let why = || words::no_shelf(&address);
            if text.is_none() {
                // Told with all that is wrong with the link, and where the shelves are.
                self.visit.update(|visit| visit.iter_mut().for_each(|visit| visit.problems.push(why())));
            }
            self.came.set(Some(text.ok_or_else(why)));
        });
    }

    /// Keeps that shelf on the device, with the car it came with.
    pub fn keep_shelf(self, address: &str) {
        let Some(Ok(text)) = self.came.get_untracked() else { return };
        let Ok(read) = shelf::read(&text) else { return };
        if let Err(fault) = self.with_keeper(|keeper| keeper.keep_text(&format!("{SHELF}{}", read.shelf.id), &text)) {
            return self.tell(Notice::NotKept(fault));
        }
        self.keep_address(&read.shelf.id, Some(address));
        self.came.set(None);
    }
}

/// What stands at an address beside the page, if it can be had, is text and no larger than a shelf.
async fn text_of(address: &str) -> Option<String> {
    let how = RequestInit::new();
    how.set_mode(RequestMode::SameOrigin);
    how.set_credentials(RequestCredentials::Omit);
    how.set_redirect(RequestRedirect::Error);
    let response = JsFuture::from(window().fetch_with_str_and_init(address, &how)).await.ok()?;
    let response: Response = response.dyn_into().ok()?;
    if !response.ok() {
        return None;
    }
    let reader: ReadableStreamDefaultReader = response.body()?.get_reader().dyn_into().ok()?;
    let mut bytes = Vec::new();
    loop {
        let piece = JsFuture::from(reader.read()).await.ok()?;
        let of = |key: &str| js_sys::Reflect::get(&piece, &JsValue::from_str(key)).ok();
        if of("done")?.is_truthy() {
            return String::from_utf8(bytes).ok();
        }
        bytes.extend(js_sys::Uint8Array::new(&of("value")?).to_vec());
        if bytes.len() > LARGEST {
            // Whatever more there is need not come.
            _ = reader.cancel();
            return None;
        }
    }
}
