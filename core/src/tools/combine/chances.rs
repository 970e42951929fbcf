//! How likely each must of a search fails once every tolerance is counted: random samples of one build, such as one that a
//! search found. The search itself judges the values as they are.

use super::Must;
use crate::build::Build;
use crate::plan::Plan;
use crate::report::Unknown;
use crate::spec::Verdict;
use crate::tools::Job;
use crate::tools::spread::{Chance, Spread};
use core::ops::ControlFlow;

/// Samples of each combination looked at: an error of half a per cent at most.
pub const CHANCES: u32 = 10_000;

/// How likely what was asked fails.
#[derive(Clone, Debug, PartialEq)]
pub struct Chances {
    /// Samples drawn.
    pub samples: u32,
    /// Each must, in the order asked. A sample without the answer fails it; only being *beyond* fails a verdict.
    pub each: Vec<Chance>,
    /// Any of them.
    pub any: Chance,
}

/// The work of finding them.
#[derive(Debug)]
pub struct Chancing {
    spread: Spread,
    musts: Vec<Must>,
    samples: u32,
    drawn: u32,
    failed: Vec<u32>,
    any: u32,
}

impl Chancing {
    /// Samples this build, every input with a tolerance that matters to a must varied. The seed is that of every spread
    /// that is shown, so that the same build has the same chances everywhere.
    ///
    /// # Errors
    /// When the tolerance of such an input is itself not known.
    pub fn new(plan: &Plan, build: &Build, musts: &[Must], samples: u32, seed: u64) -> Result<Self, Unknown> {
        let places: Vec<_> = musts.iter().map(|must| must.place()).collect();
        let spread = Spread::new(plan, build, &places, samples, seed)?;
        Ok(Self { spread, musts: musts.to_vec(), samples, drawn: 0, failed: vec![0; musts.len()], any: 0 })
    }

    /// The inputs that vary.
    #[must_use]
    pub fn inputs(&self) -> &[crate::spec::Place] {
        self.spread.inputs()
    }
}

impl Job for Chancing {
    type Answer = Chances;

    fn advance(&mut self, plan: &Plan, evaluations: u32) -> ControlFlow<Chances, f32> {
        let Self { spread, musts, failed, any, .. } = self;
        spread.each(plan, evaluations, |build, report| {
            let mut all_hold = true;
            for (must, failed) in musts.iter().zip(&mut *failed) {
                let holds = match *must {
                    Must::Stand(place, _) => !report.concerns(place) || report.verdict(build, place) < Verdict::Beyond,
                    _ => must.holds(build, report),
                };
                *failed += u32::from(!holds);
                all_hold &= holds;
            }
            *any += u32::from(!all_hold);
        });
        self.drawn = self.samples.min(self.drawn.saturating_add(evaluations));
        if self.drawn < self.samples {
            return ControlFlow::Continue(self.drawn as f32 / self.samples as f32);
        }
        let chance = |failed: u32| Chance::of(failed, self.samples).unwrap_or(Chance { share: 0.0, error: 1.0 });
        let each = self.failed.iter().copied().map(chance).collect();
        ControlFlow::Break(Chances { samples: self.samples, each, any: chance(self.any) })
    }
}
