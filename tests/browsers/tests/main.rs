//! The built app in a real browser. Run by `cargo verify --only browsers`, which says where app and browser are.

mod access;
mod bits;
mod cited;
mod combine;
mod cost;
mod desk;
mod engine;
mod engines;
mod first_run;
mod hands;
mod house;
mod kept;
mod keys;
mod links;
mod measure;
mod network;
mod page;
mod pictures;
mod refused;
mod rows;
mod session;
mod sheet;
mod shelves;
mod tools;
mod typing;
mod whole;
