//! What the page works out, to the bit, for whoever compares it with another machine.

use crate::bench::plan;
use trialfit_core::share::bits;
use wasm_bindgen::prelude::*;

/// Every figure of a link's build in [`bits::of_link`]'s form; why not, if it cannot be opened. It changes nothing.
#[wasm_bindgen]
#[must_use]
pub fn evaluated(link: &str) -> String {
    bits::of_link(plan(), link).unwrap_or_else(|why| why.to_string())
}
