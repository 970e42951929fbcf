//! The pure core of Trialfit: build → report. No I/O, clock, web type or outside randomness.
//!
//! [`build::Build`] holds every input, [`plan::Plan::evaluate`] fills a [`report::Report`] with every output.
#![forbid(unsafe_code)]
#![warn(missing_docs)]

pub mod build;
pub mod calculators;
pub mod changed;
pub mod chart;
pub mod compare;
pub mod data;
pub mod entry;
pub mod language;
pub mod layout;
pub mod listing;
pub mod measure;
pub mod method;
pub mod order;
pub mod overview;
pub mod plan;
pub mod proofs;
pub mod quantity;
pub mod report;
pub mod scene;
pub mod sentence;
pub mod share;
pub mod shelf;
pub mod show;
pub mod spec;
pub mod tolerance;
pub mod tools;
