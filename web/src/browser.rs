//! The browser's local storage, which may be blocked or full, whether it is promised to stay, and the clock.

use crate::keep::{Fault, Store};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::Storage;

#[wasm_bindgen]
extern "C" {
    type Places;
    /// Not every browser can promise, and none outside https and localhost.
    #[wasm_bindgen(thread_local_v2, js_namespace = navigator, js_name = storage)]
    static PLACES: Option<Places>;
    #[wasm_bindgen(method, catch)]
    fn persist(this: &Places) -> Result<js_sys::Promise, JsValue>;
    #[wasm_bindgen(method, catch)]
    fn persisted(this: &Places) -> Result<js_sys::Promise, JsValue>;
}

/// Asks the browser to keep what is kept here when it runs short of room. Whatever comes of it stands in the menu.
pub fn ask_to_keep() {
    _ = PLACES.with(|places| places.as_ref().map(Places::persist));
}

/// Whether it promised; none where it cannot say.
pub async fn promised() -> Option<bool> {
    let promise = PLACES.with(|places| places.as_ref().and_then(|places| places.persisted().ok()))?;
    JsFuture::from(promise).await.ok()?.as_bool()
}

/// The day where the reader is: `2026-03-01`.
pub fn today() -> String {
    let now = js_sys::Date::new_0();
    format!("{}-{:02}-{:02}", now.get_full_year(), now.get_month() + 1, now.get_date())
}

/// The day and the time there: `2026-03-01 14:05`.
pub fn now() -> String {
    let now = js_sys::Date::new_0();
    format!("{} {:02}:{:02}", today(), now.get_hours(), now.get_minutes())
}

/// Key of the number of the build on the bench.
const BENCH: &str = "trialfit.current";

/// Local storage.
#[derive(Clone, Copy, Debug)]
pub struct Browser;

impl Browser {
    /// Asked for each time: people may block it while the page is open.
    fn storage(self) -> Result<Storage, Fault> {
        web_sys::window().and_then(|window| window.local_storage().ok().flatten()).ok_or(Fault::Blocked)
    }

    /// What this tab alone remembers, until it is closed.
    fn of_tab(self) -> Option<Storage> {
        web_sys::window().and_then(|window| window.session_storage().ok().flatten())
    }
}

impl Store for Browser {
    fn get(&self, key: &str) -> Result<Option<String>, Fault> {
        self.storage()?.get_item(key).map_err(|_| Fault::Blocked)
    }

    fn set(&self, key: &str, text: &str) -> Result<(), Fault> {
        self.storage()?.set_item(key, text).map_err(|_| Fault::Full)
    }

    fn remove(&self, key: &str) -> Result<(), Fault> {
        self.storage()?.remove_item(key).map_err(|_| Fault::Blocked)
    }

    fn keys(&self) -> Result<Vec<String>, Fault> {
        let storage = self.storage()?;
        let count = storage.length().map_err(|_| Fault::Blocked)?;
        Ok((0..count).filter_map(|at| storage.key(at).ok().flatten()).collect())
    }

    fn bench(&self) -> Option<u32> {
        let of = |storage: Storage| storage.get_item(BENCH).ok().flatten()?.trim().parse().ok();
        self.of_tab().and_then(of).or_else(|| self.storage().ok().and_then(of))
    }

    fn set_bench(&self, number: u32) {
        for storage in [self.of_tab(), self.storage().ok()].into_iter().flatten() {
            _ = storage.set_item(BENCH, &number.to_string());
        }
    }
}
