//! Puts the page on the screen.

fn main() {
    trialfit_web::page::show();
}
