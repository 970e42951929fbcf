//! What evaluation found: every input in force and every output, or why there is none; and how each stands.

use crate::build::{Build, Origin};
use crate::layout::Layout;
use crate::quantity::Value;
use crate::spec::{Id, Kind, Limit, PerRow, Place, Role, Sense, Single, Verdict};
use crate::tolerance::{Distribution, Given, Tolerance};
use std::sync::Arc;

/// Why there is no number.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Unknown {
    /// An input, here or upstream, was not given.
    NotGiven(Id),
    /// The numbers lead outside what the method of this output covers.
    OutsideModel(Id),
    /// What was given cannot be, or has no answer; in words.
    NoSolution(&'static str),
    /// What it is asked of is no part of this car; in words. Nothing is judged by it.
    NotHere(&'static str),
    /// Not evaluated yet.
    NotComputed,
}

impl Unknown {
    /// The reason as a sentence.
    #[must_use]
    pub fn reason(self, layout: &Layout) -> String {
        match self {
            Self::NotGiven(id) => format!("Needs “{}”.", layout.spec(id).label),
            Self::OutsideModel(id) => {
                format!("The numbers lead outside what “{}” can be worked out for.", layout.spec(id).label)
            }
            Self::NoSolution(words) | Self::NotHere(words) => words.to_owned(),
            Self::NotComputed => "Not worked out yet.".to_owned(),
        }
    }
}

/// A label inside a sentence: its first letter small, unless the word is an abbreviation.
#[must_use]
pub fn lower_first(label: &str) -> String {
    let mut letters = label.chars();
    match (letters.next(), letters.clone().next()) {
        (Some(first), Some(second)) if second.is_lowercase() || second == ' ' => first.to_lowercase().chain(letters).collect(),
        _ => label.to_owned(),
    }
}

/// How an output stands, and why.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Standing {
    /// The word.
    pub verdict: Verdict,
    /// The limit that decides, if one does.
    pub limit: Option<Limit>,
    /// True when it is held back from *within* because it rests on a guess or an estimate.
    pub estimate: bool,
}

/// Whether a number is past a limit by more than its rounding: what comes out exactly at a limit holds it.
pub(crate) fn is_past(value: f64, sense: Sense, mark: f64) -> bool {
    let over = match sense {
        Sense::AtMost => value - mark,
        Sense::AtLeast => mark - value,
    };
    over > 1e-9 * value.abs().max(mark.abs()) + 1e-12
}

/// Every value of one evaluation.
#[derive(Clone, Debug)]
pub struct Report {
    pub(crate) layout: Arc<Layout>,
    pub(crate) values: Values,
}

/// Numbers by slot, and the reason where there is none: a number costs its reader one load and one comparison.
#[derive(Clone, Debug)]
pub(crate) struct Values {
    /// NaN where there is no number.
    numbers: Vec<f64>,
    /// Read only where the number is NaN.
    reasons: Vec<Unknown>,
    /// Tolerances given, by slot; empty when there are none.
    pub(crate) given: Arc<Vec<Given>>,
}

impl Values {
    fn new(build: &Build) -> Self {
        let layout = build.layout();
        let mut reasons = vec![Unknown::NotComputed; layout.len()];
        for place in layout.places(Role::Input) {
            if let Some(slot) = layout.find(place) {
                reasons[slot] = Unknown::NotGiven(place.id);
            }
        }
        Self { numbers: build.cells.clone(), reasons, given: build.given.clone() }
    }

    /// Starts again from the build's own numbers, laid out alike.
    pub(crate) fn restart(&mut self, build: &Build) {
        self.numbers.copy_from_slice(&build.cells);
        self.take_tolerances(build);
    }

    pub(crate) fn take_tolerances(&mut self, build: &Build) {
        if !Arc::ptr_eq(&self.given, &build.given) {
            self.given = build.given.clone();
        }
    }

    /// What was given for a cell's tolerance, if anything was given for any.
    #[inline]
    pub(crate) fn given(&self, layout: &Layout, id: Id, row: usize) -> Option<Given> {
        if self.given.is_empty() { None } else { self.given.get(layout.slot(id, row)).copied() }
    }

    /// The tolerance in force: as given for the cell, else as usual for its declaration, else none.
    fn tolerance(&self, layout: &Layout, id: Id, row: usize) -> Result<Tolerance, Unknown> {
        let given = self.given.get(layout.slot(id, row)).copied().unwrap_or_default();
        if let Given { half_width: Some(half_width), shape: Some(shape) } = given {
            return Ok(Tolerance { half_width, shape });
        }
        let usual = match layout.spec(id).tolerance {
            None => Tolerance::NONE,
            Some((width, distribution)) => Tolerance {
                half_width: self.get(layout.slot(width, 0))?,
                shape: Distribution::from_cell(self.get(layout.slot(distribution, 0))?).shape(),
            },
        };
        Ok(Tolerance { half_width: given.half_width.unwrap_or(usual.half_width), shape: given.shape.unwrap_or(usual.shape) })
    }

    #[inline]
    pub(crate) fn get(&self, slot: usize) -> Result<f64, Unknown> {
        match self.numbers.get(slot) {
            Some(number) if !number.is_nan() => Ok(*number),
            _ => Err(self.reason(slot)),
        }
    }

    #[cold]
    fn reason(&self, slot: usize) -> Unknown {
        self.reasons.get(slot).copied().unwrap_or(Unknown::NotComputed)
    }

    /// Takes over what stands in another slot.
    #[inline]
    pub(crate) fn copy(&mut self, from: usize, to: usize) {
        let found = self.numbers.get(from).copied().unwrap_or(f64::NAN);
        if let Some(number) = self.numbers.get_mut(to) {
            *number = found;
        }
        if found.is_nan() {
            self.lack(to, self.reason(from));
        }
    }

    /// Sets what was found; a number that is not finite is outside what `id` can be worked out for.
    #[inline]
    pub(crate) fn set(&mut self, slot: usize, id: Id, found: Result<f64, Unknown>) {
        let Some(number) = self.numbers.get_mut(slot) else { return };
        match found {
            Ok(value) if value.is_finite() => *number = value,
            Ok(_) => self.lack(slot, Unknown::OutsideModel(id)),
            Err(why) => self.lack(slot, why),
        }
    }

    /// Notes why there is no number.
    #[cold]
    fn lack(&mut self, slot: usize, why: Unknown) {
        if let (Some(number), Some(reason)) = (self.numbers.get_mut(slot), self.reasons.get_mut(slot)) {
            (*number, *reason) = (f64::NAN, why);
        }
    }
}

impl Report {
    /// Room for the values of this build; filled by [`Plan::evaluate`](crate::plan::Plan::evaluate).
    #[must_use]
    pub fn new(build: &Build) -> Self {
        Self { layout: build.layout().clone(), values: Values::new(build) }
    }

    /// Where its values stand.
    #[must_use]
    pub fn layout(&self) -> &Arc<Layout> {
        &self.layout
    }

    /// The number in force or computed at a place: SI, or a choice's ordinal.
    ///
    /// # Errors
    /// Why there is none.
    pub fn value(&self, place: Place) -> Result<f64, Unknown> {
        self.layout.find(place).map_or(Err(Unknown::NotComputed), |slot| self.values.get(slot))
    }

    /// The tolerance in force at an input.
    ///
    /// # Errors
    /// What it waits for.
    pub fn tolerance(&self, place: Place) -> Result<Tolerance, Unknown> {
        let row = match (self.layout.table_of(place.id), place.row) {
            (Some(table), Some(row)) => self.layout.rows(table).iter().position(|&id| id == row).ok_or(Unknown::NotComputed)?,
            _ => 0,
        };
        self.values.tolerance(&self.layout, place.id, row)
    }

    /// The typed value of a single cell.
    ///
    /// # Errors
    /// Why there is none.
    pub fn of<V: Value>(&self, handle: impl Single<V>) -> Result<V, Unknown> {
        self.values.get(self.layout.slot(handle.id(), 0)).map(V::from_cell)
    }

    /// The typed value of a cell in the `row`-th row, counted from 0.
    ///
    /// # Errors
    /// Why there is none.
    pub fn cell<V: Value>(&self, handle: impl PerRow<V>, row: usize) -> Result<V, Unknown> {
        let slot = self.layout.slot(handle.id(), row);
        self.values.get(slot).map(V::from_cell)
    }

    /// How an output stands against its limits. Inputs and outputs without limits are *within* when known.
    #[must_use]
    pub fn standing(&self, build: &Build, place: Place) -> Standing {
        let spec = self.layout.spec(place.id);
        let unknown = Standing { verdict: Verdict::Unknown, limit: None, estimate: false };
        let Ok(value) = self.value(place) else { return unknown };
        let mut worst = Standing { verdict: Verdict::Within, limit: None, estimate: false };
        if let (Kind::Choice(_), Some(&verdict)) = (spec.kind, spec.verdicts.get(value as usize)) {
            worst.verdict = verdict;
        }
        let mark = |id: Id| self.value(self.layout.beside(id, place));
        for limit in spec.limits.into_iter().flatten() {
            let Ok(beyond) = mark(limit.beyond) else { return unknown };
            let past = |mark: f64| is_past(value, limit.sense, mark);
            let verdict = if past(beyond) {
                Verdict::Beyond
            } else {
                match limit.near.map(mark) {
                    Some(Ok(near)) if past(near) => Verdict::Near,
                    Some(Err(_)) => return unknown,
                    _ => Verdict::Within,
                }
            };
            if verdict > worst.verdict || worst.limit.is_none() {
                worst = Standing { verdict: verdict.max(worst.verdict), limit: Some(limit), estimate: false };
            }
        }
        let estimate = spec.estimate
            || spec.estimate_while.is_some_and(|(input, choice)| self.is_chosen(input, choice))
            || self.rests_on(place.id).any(|id| self.is_guess(build, id));
        if worst.verdict == Verdict::Within && estimate {
            worst = Standing { verdict: Verdict::Near, estimate: true, ..worst };
        }
        worst
    }

    fn is_chosen(&self, input: Id, choice: u8) -> bool {
        self.value(input.into()) == Ok(f64::from(choice))
    }

    /// What an output cannot be *within* without.
    fn rests_on(&self, output: Id) -> impl Iterator<Item = Id> {
        let spec = self.layout.spec(output);
        let more = spec.rests_on_while.filter(|&(input, choice, _)| self.is_chosen(input, choice)).map(|(.., on)| on);
        spec.rests_on.iter().copied().chain(more)
    }

    /// Whether an input holds its default anywhere, or follows what rests on a guess in turn.
    fn is_guess(&self, build: &Build, input: Id) -> bool {
        self.layout.places_of(input).filter(|place| build.origin(*place) == Origin::Usual).any(|place| match build.following(place) {
            None => true,
            Some(from) => self.rests_on(from).any(|id| self.is_guess(build, id)),
        })
    }

    /// The inputs that still hold a default of those an output rests on.
    #[must_use]
    pub fn guesses(&self, build: &Build, output: Id) -> Vec<Id> {
        let mut found = Vec::new();
        for input in self.rests_on(output) {
            let mut places = self.layout.places_of(input).filter(|place| build.origin(*place) == Origin::Usual);
            match places.find_map(|place| build.following(place)) {
                Some(from) => found.extend(self.guesses(build, from)),
                None if self.is_guess(build, input) => found.push(input),
                None => {}
            }
        }
        found
    }

    /// Why nobody can tell how a place stands: it has no value, or a limit of it has none. None where one can tell.
    #[must_use]
    pub fn undecided(&self, build: &Build, place: Place) -> Option<Unknown> {
        if self.verdict(build, place) != Verdict::Unknown {
            return None;
        }
        let spec = self.layout.spec(place.id);
        let mark = |id: Id| self.value(self.layout.beside(id, place));
        let limits = spec.limits.into_iter().flatten().flat_map(|limit| core::iter::once(limit.beyond).chain(limit.near));
        self.value(place).err().or_else(|| limits.into_iter().find_map(|id| mark(id).err()))
    }

    /// Whether there is anything to judge at a place.
    #[must_use]
    pub fn concerns(&self, place: Place) -> bool {
        !matches!(self.value(place), Err(Unknown::NotHere(_)))
    }

    /// The word alone.
    #[must_use]
    pub fn verdict(&self, build: &Build, place: Place) -> Verdict {
        self.standing(build, place).verdict
    }

    /// The worst verdict of a calculator, and the output that has it (the first such in order of declaration).
    #[must_use]
    pub fn worst(&self, build: &Build, calculator: u8) -> Option<(Verdict, Place)> {
        let judged = |id: &Id| id.calculator == calculator && self.layout.spec(*id).is_judged();
        let places = self.layout.ids().filter(judged).flat_map(|id| self.layout.places_of(id).collect::<Vec<_>>());
        let places = places.filter(|place| self.concerns(*place));
        places.map(|place| (self.verdict(build, place), place)).reduce(|worst, next| if next.0 > worst.0 { next } else { worst })
    }
}
