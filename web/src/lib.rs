//! The page's parts: pictures drawn from core's plain shapes and numbers.
//!
//! What can be worked out without a browser is plain functions, tested natively; components only show it.

pub mod drawing;
mod picture;
pub mod plot;
pub mod working;
