//! Front drive: the belt, the alternator and the water pump.

pub mod adjuster;
pub mod alternator;
pub mod belt_path;
pub mod clearance;
pub mod designation;
pub mod grip;
pub mod pump;
pub mod speeds;
mod tangent;

pub use tangent::{Hand, Point, Round, Span, tangent};
