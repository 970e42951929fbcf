//! Every combination of the parts of chosen slots that the rules allow → those that pass, and of these the ones that no
//! other betters: the front of up to three aims.
//!
//! Slots are filled one after the other. A part that cannot stand with those before it ends that branch, and so does a
//! must that fails and hangs on no slot still to come: it would fail however they are filled. What a slot sets is worked
//! out again only when its part changes. Kept are the front and some counts, however many combinations there are; which
//! one comes next depends on the ones before it alone, so that the pieces of the work do not matter.

mod chances;
mod feeding;
mod found;
mod slots;

pub use chances::{CHANCES, Chances, Chancing};
pub use feeding::{judged, needed, slots_for};

pub use found::{Combined, Front, Trade};
pub use slots::Search;

use super::Job;
use crate::build::{Build, Origin};
use crate::plan::{Actions, Plan};
use crate::quantity::Mass;
use crate::report::{Report, is_past};
use crate::shelf::{At, Currency, Kit, Shelf, kit};
use crate::spec::{Place, Sense, Verdict};
use core::ops::ControlFlow;
use slots::Slots;

/// Most aims at once.
pub const AIMS: usize = 3;

/// What is looked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum What {
    /// An output.
    Output(Place),
    /// What the parts cost together, in this currency; combinations with a price in another or none are not compared.
    Price(Currency),
    /// What the parts weigh together, less what comes off the engine; combinations with a mass that is not known are not
    /// compared.
    Mass,
}

impl What {
    /// The output, if it is one.
    #[must_use]
    pub const fn output(self) -> Option<Place> {
        if let Self::Output(place) = self { Some(place) } else { None }
    }
}

/// An aim: little or much of something.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Aim {
    /// Of what.
    pub what: What,
    /// Much is better.
    pub most: bool,
}

/// What an output must be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Must {
    /// No worse than this verdict: [`Verdict::Within`] or [`Verdict::Near`].
    Stand(Place, Verdict),
    /// At most this, SI.
    AtMost(Place, f64),
    /// At least this, SI.
    AtLeast(Place, f64),
}

impl Must {
    /// The output it is about.
    #[must_use]
    pub const fn place(self) -> Place {
        match self {
            Self::Stand(place, _) | Self::AtMost(place, _) | Self::AtLeast(place, _) => place,
        }
    }

    /// Whether it can turn with an input.
    fn hangs_on(self, plan: &Plan, build: &Build, input: Place) -> bool {
        let spec = build.layout().spec(self.place().id);
        let marks = matches!(self, Self::Stand(..)).then(|| spec.judged_by()).into_iter().flatten();
        marks.chain([self.place().id]).any(|other| other == input.id || plan.feeds(input.id, other))
    }

    fn holds(self, build: &Build, report: &Report) -> bool {
        match self {
            // What is no part of the car is not judged.
            Self::Stand(place, worst) => !report.concerns(place) || report.verdict(build, place) <= worst.min(Verdict::Near),
            Self::AtMost(place, most) => report.value(place).is_ok_and(|value| !is_past(value, Sense::AtMost, most)),
            Self::AtLeast(place, least) => report.value(place).is_ok_and(|value| !is_past(value, Sense::AtLeast, least)),
        }
    }
}

/// Why a search cannot begin.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Cannot {
    /// No aim, or too many.
    #[error("A search wants one to three aims.")]
    Aims,
    /// No slot to search.
    #[error("A search wants slots with parts that fit this build.")]
    Slots,
}

/// Money and mass of the parts so far; none once a part says none.
#[derive(Clone, Copy, Debug)]
struct Sums {
    thousandths: Option<u64>,
    mass: Option<Mass>,
}

/// A search under way.
#[derive(Debug)]
pub struct Combine {
    build: Build,
    report: Report,
    slots: Slots,
    /// What is fitted in slots that are not searched.
    fixed: Sums,
    currency: Option<Currency>,
    aims: Vec<Aim>,
    musts: Vec<Must>,
    /// Per number of slots filled: the musts that hang on the last of these and on none after it.
    settled: Vec<Vec<usize>>,
    wanted: Actions,
    /// Slots whose inputs have changed since the report was filled.
    stale: Vec<bool>,
    changed: Vec<Place>,
    first: bool,
    found: Combined,
}

impl Combine {
    /// Searches these slots. What else is fitted to the build stays, and counts for rules, price and mass if it is on one
    /// of these shelves; what is fitted in the slots searched is taken off first.
    ///
    /// # Errors
    /// When there is nothing to search, or nothing to look for.
    pub fn new(plan: &Plan, build: &Build, shelves: &[Shelf], search: &[Search], aims: &[Aim], musts: &[Must]) -> Result<Self, Cannot> {
        if aims.is_empty() || aims.len() > AIMS {
            return Err(Cannot::Aims);
        }
        let mut build = build.clone();
        clear(&mut build, search);
        let mut report = Report::new(&build);
        plan.evaluate(&build, &mut report);
        let (slots, left_out) = Slots::new(&build, shelves, search);
        if slots.is_empty() {
            return Err(Cannot::Slots);
        }
        let currency = aims.iter().find_map(|aim| if let What::Price(currency) = aim.what { Some(currency) } else { None });
        let mut found = Combined::new(slots.rest(0), aims, musts.len());
        found.left_out = left_out;
        let mut settled = vec![Vec::new(); slots.len() + 1];
        for (at, must) in musts.iter().enumerate() {
            let hangs = |slot: &usize| slots.touches(*slot).iter().any(|input| must.hangs_on(plan, &build, *input));
            settled[(0..slots.len()).rev().find(hangs).map_or(0, |slot| slot + 1)].push(at);
        }
        Ok(Self {
            fixed: fixed(&kit(shelves, &build), currency),
            stale: vec![true; slots.len()],
            settled,
            changed: Vec::new(),
            wanted: plan
                .towards(build.layout(), musts.iter().map(|must| must.place()).chain(aims.iter().filter_map(|aim| aim.what.output()))),
            aims: aims.to_vec(),
            musts: musts.to_vec(),
            currency,
            first: true,
            build,
            report,
            slots,
            found,
        })
    }

    /// Combinations in all, those that rules forbid included. A number, since it may be beyond counting.
    #[must_use]
    pub fn combinations(&self) -> f64 {
        self.found.combinations
    }

    /// Sets what the parts in the slots filled set, and works out what hangs on what changed.
    fn evaluate(&mut self, plan: &Plan, filled: usize) {
        self.changed.clear();
        for (slot, stale) in self.stale[..filled].iter_mut().enumerate() {
            if core::mem::take(stale) {
                self.changed.extend_from_slice(self.slots.touches(slot));
            }
        }
        for place in &self.changed {
            let (value, origin) = self.slots.value(*place);
            if let Some(cell) = self.build.layout().find(*place) {
                self.build.cells[cell] = value;
                self.build.origins[cell] = origin;
            }
        }
        plan.evaluate_towards(&self.build, &mut self.report, &self.changed, self.wanted);
    }

    /// The first must that fails of those settled with so many slots filled.
    fn fails(&self, filled: usize) -> Option<usize> {
        self.settled[filled].iter().copied().find(|must| !self.musts[*must].holds(&self.build, &self.report))
    }

    /// Keeps the combination that stands if nothing betters it.
    fn offer(&mut self) {
        let sums = self.slots.sums(self.fixed, self.currency);
        let mut figures = [0.0; AIMS];
        for (figure, aim) in figures.iter_mut().zip(&self.aims) {
            let of = match aim.what {
                What::Output(place) => self.report.value(place).ok(),
                What::Price(_) => sums.thousandths.map(|thousandths| thousandths as f64 / 1000.0),
                What::Mass => sums.mass.map(Mass::si),
            };
            let Some(of) = of else {
                self.found.not_compared += 1;
                return;
            };
            *figure = of;
        }
        self.found.passed += 1;
        self.found.front.offer(&figures[..self.aims.len()], || self.slots.chosen());
    }
}

/// What the parts that stay come to; those on no shelf here do not count.
fn fixed(kit: &Kit, currency: Option<Currency>) -> Sums {
    let known = || kit.lines.iter().filter(|line| line.at.is_some());
    let thousandths = known().map(|line| line.price.filter(|price| Some(price.currency) == currency).map(|price| price.thousandths)).sum();
    let mut mass = Some(Mass::default());
    for line in known() {
        mass = mass.zip(line.mass).map(|(all, one)| all + one - line.removed());
    }
    Sums { thousandths, mass }
}

impl Job for Combine {
    type Answer = Combined;

    fn advance(&mut self, plan: &Plan, evaluations: u32) -> ControlFlow<Combined, f32> {
        if core::mem::take(&mut self.first) {
            // What no slot changes decides at once.
            if self.slots.at_odds() {
                self.found.forbidden = self.found.combinations;
                return ControlFlow::Break(core::mem::take(&mut self.found));
            }
            if let Some(must) = self.fails(0) {
                self.found.failed[must] = self.found.combinations;
                return ControlFlow::Break(core::mem::take(&mut self.found));
            }
        }
        for _ in 0..evaluations {
            let Some((filled, stands)) = self.slots.next(&mut self.stale) else {
                return ControlFlow::Break(core::mem::take(&mut self.found).finish());
            };
            let whole = filled == self.slots.len();
            if !stands {
                self.found.forbidden += self.slots.rest(filled);
            } else if whole || !self.settled[filled].is_empty() {
                self.evaluate(plan, filled);
                self.found.worked_out += 1;
                match self.fails(filled) {
                    Some(must) => {
                        self.found.failed[must] += self.slots.rest(filled);
                        self.slots.cut(filled);
                    }
                    None if whole => self.offer(),
                    None => {}
                }
            }
        }
        ControlFlow::Continue(self.slots.done().min(0.999))
    }
}

/// A part's value stands as one that was given.
const FITTED: Origin = Origin::Own;

/// Takes off what is fitted in these slots.
pub fn clear(build: &mut Build, search: &[Search]) {
    for slot in search {
        if let Some(at) = build.part_in(&slot.slot) {
            build.remove_part(at);
        }
    }
}

/// The parts of a combination fitted to a build, in the order of the slots searched; what was fitted there goes. Gives
/// what could not be set, which is nothing for a combination that was found for this build.
pub fn fit(shelves: &[Shelf], search: &[Search], trade: &Trade, build: &mut Build) -> Vec<(Place, crate::build::Refusal)> {
    clear(build, search);
    let parts = trade.parts.iter().flatten();
    parts.filter_map(|at: &At| at.of(shelves).map(|part| shelves[at.shelf].choose(part, build))).flatten().collect()
}
