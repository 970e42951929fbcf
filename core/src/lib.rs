//! The pure core of Trialfit: build → report. No I/O, clock, web type or outside randomness.
#![forbid(unsafe_code)]
#![warn(missing_docs)]

pub mod calculators;
pub mod data;
pub mod quantity;
