//! The paths through the built app stand in `tests/`: they need a browser.
