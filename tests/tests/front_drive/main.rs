//! Front drive against worked examples, standards and independent numeric paths.

mod alternator;
mod belt_path;
mod calculator;
mod grip;
mod pump;
mod speeds;
mod two_pulleys;
