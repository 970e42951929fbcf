//! ± on any inputs → how far outputs spread, how likely a limit is passed, and what it hangs on.
//!
//! Two ways side by side: to first order (GUM, JCGM 100:2008, 5.1, each input moved by its standard uncertainty to either
//! side), and by random samples (JCGM 101:2008). Inputs vary independently. The numbers of a sample depend on the seed and
//! the sample's place alone, so that the answer is the same however the work is cut up.

mod found;
mod heap;
mod random;

pub use found::{Chance, Found, Outcome, Share};

use crate::build::Build;
use crate::plan::{Actions, Plan};
use crate::report::{Report, Unknown};
use crate::spec::{Id, Kind, Place, Role};
use crate::tolerance::Tolerance;
use crate::tools::Job;
use core::ops::ControlFlow;
use found::Tally;
use random::{Random, WORDS};

/// Samples of a spread that is shown: an error of 0.3 % in a chance of one half.
pub const SAMPLES: u32 = 100_000;

/// Where random numbers of a spread that is shown begin. Any will do; it is the same everywhere, and so are the figures.
pub const SEED: u64 = 2500;

/// An input that varies.
#[derive(Clone, Copy, Debug)]
pub(in crate::tools) struct Varied {
    pub(in crate::tools) place: Place,
    slot: usize,
    nominal: f64,
    pub(in crate::tools) tolerance: Tolerance,
    possible: [f64; 2],
}

/// A spread under way: first each input to either side of its value, then the samples.
#[derive(Debug)]
pub struct Spread {
    build: Build,
    report: Report,
    inputs: Vec<Varied>,
    places: Vec<Place>,
    wanted: Actions,
    /// In which bin of its range the present sample has each input.
    bins: Vec<u8>,
    tallies: Vec<Tally>,
    seed: u64,
    samples: u32,
    next: u32,
    held_back: u32,
}

impl Spread {
    /// Spreads these outputs over every input that feeds one of them, or a limit of one, and has a tolerance, given or
    /// usual. Inputs without a value stay as they are.
    ///
    /// # Errors
    /// When the tolerance of such an input is itself not known.
    pub fn new(plan: &Plan, build: &Build, outputs: &[Place], samples: u32, seed: u64) -> Result<Self, Unknown> {
        let mut build = build.clone();
        let mut report = Report::new(&build);
        plan.evaluate(&build, &mut report);
        let layout = build.layout().clone();
        let matters = |input: Id, output: Id| {
            let mut marks = layout.spec(output).limits.iter().flatten().map(|limit| limit.beyond);
            plan.feeds(input, output) || marks.any(|mark| mark == input || plan.feeds(input, mark))
        };
        let mut inputs = Vec::new();
        for place in layout.places(Role::Input) {
            let spec = layout.spec(place.id);
            let (Kind::Quantity { unit, .. }, Some(slot), Ok(nominal)) = (spec.kind, layout.find(place), report.value(place)) else {
                continue;
            };
            if (spec.tolerance.is_none() && build.tolerance(place).half_width.is_none())
                || !outputs.iter().any(|output| matters(place.id, output.id))
            {
                continue;
            }
            let tolerance = report.tolerance(place)?;
            if tolerance.half_width > 0.0 {
                inputs.push(Varied { place, slot, nominal, tolerance, possible: spec.possible.map(|end| unit.to_si(end)) });
            }
        }
        // From here on each stands for itself, whatever it followed.
        for input in &inputs {
            build.vary(input.slot, input.nominal);
        }
        let tally = |&place: &Place| Tally::new(place, &report, inputs.iter().map(|input| matters(input.place.id, place.id)).collect());
        Ok(Self {
            tallies: outputs.iter().map(tally).collect(),
            places: inputs.iter().map(|input| input.place).collect(),
            wanted: plan.towards(&layout, outputs.iter().copied()),
            bins: vec![0; inputs.len()],
            build,
            report,
            inputs,
            seed,
            samples,
            next: 0,
            held_back: 0,
        })
    }

    /// The inputs that vary.
    #[must_use]
    pub fn inputs(&self) -> &[Place] {
        &self.places
    }

    /// Nothing but samples, one by one, for another tool's questions: draws the next so many and shows each.
    pub(in crate::tools) fn each(&mut self, plan: &Plan, samples: u32, mut show: impl FnMut(&Build, &Report)) {
        let end = self.samples.min(self.next.saturating_add(samples));
        let mut random = self.random(self.next);
        while self.next < end {
            self.draw(plan, &mut random);
            show(&self.build, &self.report);
            self.next += 1;
        }
    }

    /// Random numbers from this sample on.
    fn random(&self, sample: u32) -> Random {
        Random::new(self.seed, WORDS * self.inputs.len() as u64 * u64::from(sample))
    }

    /// Evaluations in all.
    #[must_use]
    pub fn evaluations(&self) -> u32 {
        self.samples.saturating_add(self.sides())
    }

    fn sides(&self) -> u32 {
        2 * self.inputs.len() as u32
    }

    /// One input to one side by its standard uncertainty.
    fn side(&mut self, plan: &Plan, at: usize, up: bool) {
        let Varied { place, slot, nominal, tolerance, possible } = self.inputs[at];
        let step = if up { tolerance.deviation() } else { -tolerance.deviation() };
        let moved = (nominal + step).clamp(possible[0], possible[1]);
        self.build.vary(slot, moved);
        plan.evaluate_towards(&self.build, &mut self.report, &[place], self.wanted);
        for tally in &mut self.tallies {
            tally.side(at, moved, self.report.value(tally.place).ok());
        }
        self.build.vary(slot, nominal);
        if up {
            plan.evaluate_towards(&self.build, &mut self.report, &[place], self.wanted);
        }
    }

    /// Draws one sample and works out what is wanted of it.
    fn draw(&mut self, plan: &Plan, random: &mut Random) {
        for (input, bin) in self.inputs.iter().zip(&mut self.bins) {
            let share = random.draw(input.tolerance.shape);
            *bin = found::bin(input.tolerance.shape, share);
            let drawn = input.nominal + share * input.tolerance.half_width;
            let kept = drawn.clamp(input.possible[0], input.possible[1]);
            self.held_back += u32::from(kept != drawn);
            self.build.vary(input.slot, kept);
        }
        plan.evaluate_towards(&self.build, &mut self.report, &self.places, self.wanted);
    }

    fn sample(&mut self, plan: &Plan, random: &mut Random) {
        self.draw(plan, random);
        for tally in &mut self.tallies {
            tally.sample(&self.bins, &self.report);
        }
    }
}

impl Job for Spread {
    type Answer = Found;

    fn advance(&mut self, plan: &Plan, evaluations: u32) -> ControlFlow<Found, f32> {
        let (sides, all) = (self.sides(), self.evaluations());
        let end = all.min(self.next.saturating_add(evaluations));
        let mut random = self.random(self.next.saturating_sub(sides));
        while self.next < end {
            if self.next < sides {
                self.side(plan, (self.next / 2) as usize, self.next % 2 == 1);
            } else {
                self.sample(plan, &mut random);
            }
            self.next += 1;
        }
        if self.next < all {
            return ControlFlow::Continue(self.next as f32 / all as f32);
        }
        let outcomes = core::mem::take(&mut self.tallies).into_iter().map(|tally| tally.outcome(&self.inputs)).collect();
        ControlFlow::Break(Found { samples: self.samples, held_back: self.held_back, outcomes })
    }
}
