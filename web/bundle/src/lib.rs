//! From sources to a folder any static host can serve, and the checks on the way.
//!
//! In the order a build goes: [`toolchain`] finds a compiler that can make WebAssembly (or gets one, [`debian`]),
//! [`build`] runs it, [`language`] reads what the page is translated by, [`naming`] gives every file a name made from its content, [`dist`] writes the folder with its
//! compressed twins and [`headers`], [`budget`] weighs it, [`server`] serves it, [`check`] looks at it where it is
//! published. [`verify`] runs every check, the last of them in [`browsers`] and under [`lighthouse`].

pub mod browsers;
pub mod budget;
pub mod build;
pub mod check;
pub mod debian;
pub mod dist;
pub mod headers;
pub mod language;
pub mod lighthouse;
pub mod naming;
pub mod server;
pub mod steps;
pub mod toolchain;
pub mod verify;
pub mod workspace;
