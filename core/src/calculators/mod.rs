//! The calculators: physics only. Each states its questions, its inputs, its steps.

pub mod clutch;
pub mod front_drive;
