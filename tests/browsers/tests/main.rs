//! The built app in a real browser. Run by `cargo verify --only browsers`, which says where app and browser are.

mod house;
mod session;
