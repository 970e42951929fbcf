//! A build on its way: as a link, as stored on a device, as text for people.

pub mod base62;
pub mod bits;
pub mod editions;
pub mod link;
pub mod markup;
pub mod problem;
pub mod qr;
pub mod stored;
pub mod text;
mod words;

pub use problem::{LinkProblem, Unreadable};
