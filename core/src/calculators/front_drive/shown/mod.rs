//! The front drive's answer in words, its drawing and its charts.

mod charts;
mod drawing;
mod words;

pub(super) use charts::{alternator_band, warm_up};
pub(super) use drawing::scene;
pub(super) use words::sentence;
