//! Tools that work on any build through the declarations alone, whatever the calculators are.

pub mod brent;
pub mod combine;
mod dial;
pub mod solve;
pub mod spread;
pub mod sweep;

use crate::plan::Plan;
use core::ops::ControlFlow;

/// Work in pieces, so that whoever runs it can show progress, stop it, and do other things in between.
pub trait Job {
    /// What it finds.
    type Answer;
    /// Does as many evaluations and gives the answer, or the share that is done. The answer does not depend on the sizes
    /// of the pieces.
    fn advance(&mut self, plan: &Plan, evaluations: u32) -> ControlFlow<Self::Answer, f32>;
}
