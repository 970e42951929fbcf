//! The built app in a real browser. Run by `cargo verify --only browsers`, which says where app and browser are.

mod desk;
mod first_run;
mod hands;
mod house;
mod kept;
mod links;
mod page;
mod pictures;
mod refused;
mod session;
mod typing;
