//! The page as a program. Its loader takes it up step by step: see `open` in `page.rs`.

use trialfit_web as _;

fn main() {}
