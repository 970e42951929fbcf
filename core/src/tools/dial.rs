//! One input turned from value to value, everything that hangs on it worked out again each time.

use crate::build::{Build, Refusal};
use crate::order::Order;
use crate::plan::{Actions, Plan};
use crate::report::{Report, Unknown, lower_first};
use crate::show;
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

    /// Values to be tried from one to another, both among them: every way of a choice, else at most so many, evenly laid, of
    /// a count whole ones.
    pub(super) fn points(&self, [from, to]: [f64; 2], most: u32) -> Vec<f64> {
        let (stepped, most) = (self.is_stepped(), most.max(2));
        let count = match self.spec().kind {
            Kind::Choice(_) => (to - from) as u32 + 1,
            _ if stepped => most.min((to - from) as u32 + 1),
            _ => most,
        };
        let between = |step: u32| from + (to - from) * f64::from(step) / f64::from(count - 1);
        let at = |step: u32| if stepped { between(step).round() } else { between(step) };
        (1..count).map(|step| at(step - 1)).chain([to]).collect()
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

    /// All of these that are past a limit or not known.
    pub(super) fn stops(&self, judged: impl IntoIterator<Item = Place>) -> Vec<Stop> {
        let stops = |place: Place| match self.report.verdict(&self.build, place) {
            Verdict::Beyond => Some(Stop { place, unknown: false }),
            Verdict::Unknown if self.report.concerns(place) => Some(Stop { place, unknown: true }),
            _ => None,
        };
        judged.into_iter().filter_map(stops).collect()
    }

    /// Every judged output, parted: those whose verdict can change with one of these inputs, and what stops of the others,
    /// whatever the inputs are.
    pub(super) fn judged(&self, plan: &Plan, inputs: &[Id]) -> (Vec<Place>, Vec<Stop>) {
        let layout = self.build.layout();
        let hangs = |output: &Id| {
            let spec = layout.spec(*output);
            inputs.iter().any(|&input| plan.feeds(input, *output))
                || spec.judged_by().any(|other| inputs.iter().any(|&input| input == other || plan.feeds(input, other)))
        };
        let judged = |id: &Id| layout.spec(*id).is_judged();
        let (hanging, others): (Vec<Id>, Vec<Id>) = layout.ids().filter(judged).partition(hangs);
        let places = |ids: Vec<Id>| ids.into_iter().flat_map(|id| layout.places_of(id).collect::<Vec<_>>());
        (places(hanging).collect(), self.stops(places(others)))
    }

    /// Whether a place answers for another row than this input's: unknown there, it waits for what is not this input.
    fn is_of_another_row(&self, place: Place) -> bool {
        let table = |place: Place| place.row.and(self.build.layout().table_of(place.id));
        place.row != self.place.row && table(place).is_some() && table(place) == table(self.place)
    }
}

/// What stands in the way of all being within limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Stop {
    /// Which output.
    pub place: Place,
    /// It is not known; else past its limit.
    pub unknown: bool,
}

/// What can hang on inputs by its declaration, but stops all the same wherever they were turned to: each as it was at the
/// first point.
#[derive(Clone, Debug)]
pub(super) struct Still(Option<Vec<(Stop, Option<u64>)>>);

impl Still {
    pub(super) const fn new() -> Self {
        Self(None)
    }

    /// What stops here.
    pub(super) fn take(&mut self, dials: &[Dial], stops: &[Stop]) {
        let [dial, ..] = dials else { return };
        let value = |stop: &Stop| dial.value(stop.place).ok().map(f64::to_bits);
        match &mut self.0 {
            Some(still) => still.retain(|(stop, was)| stops.contains(stop) && *was == value(stop)),
            None => {
                let of_another = |stop: &Stop| dials.iter().all(|dial| dial.is_of_another_row(stop.place));
                let whatever = stops.iter().filter(|stop| !stop.unknown || of_another(stop));
                self.0 = Some(whatever.map(|stop| (*stop, value(stop))).collect());
            }
        }
    }

    pub(super) fn found(self) -> Vec<Stop> {
        self.0.into_iter().flatten().map(|(stop, _)| stop).collect()
    }
}

/// `Apart from it, margin over torque is past its limit.`
pub(super) fn apart(build: &Build, from: &str, anyway: &[Stop]) -> String {
    let label = |stop: &Stop| lower_first(&show::label(build, stop.place));
    // What is past its limit comes before what waits for a number.
    let Some(first) = anyway.iter().min_by_key(|stop| stop.unknown) else { return String::new() };
    match anyway.len() - 1 {
        0 if first.unknown => format!(" Apart from {from}, {} is not known.", label(first)),
        0 => format!(" Apart from {from}, {} is past its limit.", label(first)),
        more => format!(" Apart from {from}, {} and {more} more are past a limit or not known.", label(first)),
    }
}

/// What stops at most of these points, and whether at all of them.
pub(super) fn most<'a>(points: impl Iterator<Item = &'a Vec<Stop>>) -> Option<(Stop, bool)> {
    let mut count = 0;
    let mut all: Vec<Stop> = points.inspect(|_| count += 1).flatten().copied().collect();
    all.order_by(Ord::cmp);
    // Of equals the first in order.
    let most = all.chunk_by(|one, other| one == other).rev().max_by_key(|its| its.len())?;
    Some((most[0], most.len() == count))
}
