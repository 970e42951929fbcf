//! The browser's local storage, which may be blocked or full.

use crate::keep::{Fault, Store};
use web_sys::Storage;

/// Local storage.
#[derive(Clone, Copy, Debug)]
pub struct Browser;

impl Browser {
    /// Asked for each time: people may block it while the page is open.
    fn storage(self) -> Result<Storage, Fault> {
        web_sys::window().and_then(|window| window.local_storage().ok().flatten()).ok_or(Fault::Blocked)
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
}
