//! The wiring against standards' tables, worked examples, an independent heat balance and what fitters expect.

#![expect(clippy::disallowed_methods, reason = "expected values need not have the same digits everywhere")]

mod cables;
mod copper;
mod fuses;
mod heat;
mod whole;
