//! The page.
use leptos::prelude::*;

fn main() {
    mount_to_body(|| view! { <h1>"Trialfit"</h1> });
}
