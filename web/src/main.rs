//! Puts the page on the screen.

fn main() {
    leptos::mount::mount_to_body(trialfit_web::page::App);
}
