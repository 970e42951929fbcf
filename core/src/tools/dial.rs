//! One input turned from value to value, everything that hangs on it worked out again each time.

use crate::build::{Build, Refusal};
use crate::plan::{Actions, Plan};
use crate::report::{Report, Unknown};
use crate::spec::{Id, Kind, Place, Role, Spec, Verdict};

/// An input under the hand.
#[derive(Clone, Debug)]
pub(super) struct Dial {
    build: Build,
    report: Report,
    place: Place,
    slot: usize,
    /// Where it stood, if it had a value.
    pub(super) present: Option<f64>,
    wanted: Actions,
}

impl Dial {
    /// Takes hold of an input of this build.
    ///
    /// # Errors
    /// When it is no input with a number.
    pub(super) fn new(plan: &Plan, build: &Build, place: Place) -> Result<Self, Refusal> {
        let spec = build.layout().spec(place.id);
        let slot = build.layout().find(place).filter(|_| spec.role == Role::Input && !matches!(spec.kind, Kind::Text(_)));
        let slot = slot.ok_or(Refusal::NotThere)?;
        let mut report = Report::new(build);
        plan.evaluate(build, &mut report);
        Ok(Self { present: report.value(place).ok(), build: build.clone(), report, place, slot, wanted: Actions::default() })
    }

    pub(super) fn spec(&self) -> &'static Spec {
        self.build.layout().spec(self.place.id)
    }

    /// True where nothing may stand between one value and the next: ways of a choice, counts.
    pub(super) fn is_stepped(&self) -> bool {
        self.spec().whole || matches!(self.spec().kind, Kind::Choice(_))
    }

    /// The values to be tried from one to another: every way of a choice; of a count at most so many, both ends among them.
    pub(super) fn stepped(&self, [from, to]: [f64; 2], most: u32) -> Vec<f64> {
        let all = (to - from) as u32 + 1;
        let count = if self.spec().whole { all.min(most.max(2)) } else { all };
        let at = |step: u32| (from + (to - from) * f64::from(step) / f64::from(count - 1)).round();
        (0..count).map(at).collect()
    }

    pub(super) fn place(&self) -> Place {
        self.place
    }

    /// Whether it may be turned from one of these to the other.
    pub(super) fn check(&self, [from, to]: [f64; 2]) -> Result<(), Refusal> {
        self.build.check(self.place, from)?;
        self.build.check(self.place, to)?;
        if from < to { Ok(()) } else { Err(Refusal::OutOfRange([from, to])) }
    }

    /// From here on the values and verdicts of these alone are worked out.
    pub(super) fn want(&mut self, plan: &Plan, places: impl IntoIterator<Item = Place>) {
        self.wanted = plan.towards(self.build.layout(), places);
    }

    /// Turns it, without working anything out.
    pub(super) fn set(&mut self, value: f64) {
        self.build.vary(self.slot, value);
    }

    /// Turns it and works out what is wanted.
    pub(super) fn turn(&mut self, plan: &Plan, value: f64) {
        self.set(value);
        plan.evaluate_towards(&self.build, &mut self.report, &[self.place], self.wanted);
    }

    /// Turns another input of the same build along, and works out what is wanted.
    pub(super) fn turn_both(&mut self, plan: &Plan, value: f64, other: &Self, second: f64) {
        self.set(value);
        self.build.vary(other.slot, second);
        plan.evaluate_towards(&self.build, &mut self.report, &[self.place, other.place], self.wanted);
    }

    pub(super) fn value(&self, output: Place) -> Result<f64, Unknown> {
        self.report.value(output)
    }

    /// The first of these that is past a limit or not known.
    pub(super) fn stops(&self, judged: &[Place]) -> Option<Place> {
        let stops = |place: &Place| matches!(self.report.verdict(&self.build, *place), Verdict::Beyond | Verdict::Unknown);
        judged.iter().copied().find(|place| stops(place) && self.report.concerns(*place))
    }

    /// Every judged output, parted: those whose verdict can change with one of these inputs, and those that are past a
    /// limit or unknown whatever they are.
    pub(super) fn judged(&self, plan: &Plan, inputs: &[Id]) -> (Vec<Place>, Vec<Place>) {
        let layout = self.build.layout();
        let hangs = |output: &Id| {
            let spec = layout.spec(*output);
            inputs.iter().any(|&input| plan.feeds(input, *output))
                || spec.judged_by().any(|other| inputs.iter().any(|&input| input == other || plan.feeds(input, other)))
        };
        let judged = |id: &Id| layout.spec(*id).is_judged();
        let (hanging, others): (Vec<Id>, Vec<Id>) = layout.ids().filter(judged).partition(hangs);
        let places = |ids: Vec<Id>| ids.into_iter().flat_map(|id| layout.places_of(id).collect::<Vec<_>>());
        let anyway = places(others).filter(|place| self.stops(&[*place]).is_some()).collect();
        (places(hanging).collect(), anyway)
    }
}
