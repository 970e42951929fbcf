//! The order of evaluation: steps with declared reads and writes, following inputs between them.

use crate::build::{Build, Origin};
use crate::calculators::{self, Calculator};
use crate::layout::Layout;
use crate::quantity::{Unit, Value};
use crate::report::{Report, Unknown, Values};
use crate::spec::{Follow, Id, PerRow, Place, Role, Single, Source, TableId};
use crate::tolerance::Off;
use std::sync::Arc;

/// One equation of the working.
#[derive(Debug, PartialEq)]
pub struct Line {
    /// As a book prints it: `n₂ = n₁ · d₁ / d₂`. The letters of `terms` stand in it as words of their own.
    pub equation: &'static str,
    /// Each letter and the unit its number is shown in, in the order numbers are said.
    pub terms: &'static [(&'static str, &'static Unit)],
    /// Unit of the result.
    pub unit: &'static Unit,
    /// Where the equation comes from.
    pub source: Source,
}

/// One line of working with its numbers.
#[derive(Clone, Debug, PartialEq)]
pub struct Said {
    /// The output it belongs to; none for a line that several share.
    pub of: Option<Place>,
    /// The equation.
    pub line: &'static Line,
    /// SI numbers of the line's terms.
    pub numbers: Box<[f64]>,
    /// SI number of the result.
    pub result: f64,
}

/// What a traced step said and touched.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Trace {
    /// Lines in the order they were worked out.
    pub lines: Vec<Said>,
    /// Every declaration read.
    pub reads: Vec<Id>,
    /// Every declaration written.
    pub writes: Vec<Id>,
    of: Option<Place>,
}

impl Trace {
    #[cold]
    fn record(&mut self, line: &'static Line, numbers: &[f64], result: f64) {
        self.lines.push(Said { of: self.of, line, numbers: numbers.into(), result });
    }
}

/// One step: reads some declarations, writes others.
#[derive(Debug)]
pub struct Step {
    /// In words, for messages about the order.
    pub name: &'static str,
    /// Everything it may read.
    pub reads: &'static [Id],
    /// Everything it writes.
    pub writes: &'static [Id],
    /// The physics.
    pub run: fn(&mut Case<'_>),
}

/// What a step sees: values in force, and where its results go.
pub struct Case<'a> {
    layout: &'a Layout,
    values: &'a mut Values,
    trace: Option<&'a mut Trace>,
}

impl Case<'_> {
    /// The value in force.
    ///
    /// # Errors
    /// The first cause, when it is unknown.
    #[inline]
    pub fn of<V: Value>(&mut self, handle: impl Single<V>) -> Result<V, Unknown> {
        self.note_read(handle.id());
        self.values.get(self.layout.slot(handle.id(), 0)).map(V::from_cell)
    }

    /// The value in force in the `row`-th row, counted from 0.
    ///
    /// # Errors
    /// The first cause, when it is unknown.
    #[inline]
    pub fn cell<V: Value>(&mut self, handle: impl PerRow<V>, row: usize) -> Result<V, Unknown> {
        self.note_read(handle.id());
        self.values.get(self.layout.slot(handle.id(), row)).map(V::from_cell)
    }

    /// What an input may be off by: as given for it alone, else as `usual` for it.
    #[inline]
    pub fn off_by<V: Value>(&mut self, handle: impl Single<V>, usual: Off) -> Off {
        self.off(handle.id(), 0, usual)
    }

    /// What the `row`-th row of a column (counted from 0) may be off by.
    #[inline]
    pub fn off_by_at<V: Value>(&mut self, handle: impl PerRow<V>, row: usize, usual: Off) -> Off {
        self.off(handle.id(), row, usual)
    }

    #[inline]
    fn off(&mut self, id: Id, row: usize, usual: Off) -> Off {
        if let Some(trace) = &mut self.trace {
            trace.reads.push(id);
        }
        self.values.given(self.layout, id, row).map_or(usual, |given| usual.unless(given))
    }

    /// Number of rows of a table.
    #[must_use]
    pub fn rows(&self, table: TableId) -> usize {
        self.layout.rows(table).len()
    }

    #[inline]
    fn note_read(&mut self, id: Id) {
        #[cold]
        fn note(trace: &mut Trace, id: Id) {
            trace.reads.push(id);
        }
        if let Some(trace) = &mut self.trace {
            note(trace, id);
        }
    }

    /// Works out an output. Lines said inside belong to its working; a result that is not finite becomes unknown.
    #[inline]
    pub fn answer<V: Value>(&mut self, output: crate::spec::Output<V>, work: impl FnOnce(&mut Self) -> Result<V, Unknown>) {
        self.work(output.id, 0, work);
    }

    /// Works out an output of the `row`-th row, counted from 0.
    #[inline]
    pub fn answer_row<V: Value>(
        &mut self,
        output: crate::spec::OutputColumn<V>,
        row: usize,
        work: impl FnOnce(&mut Self) -> Result<V, Unknown>,
    ) {
        self.work(output.id, row, work);
    }

    #[inline]
    fn work<V: Value>(&mut self, id: Id, row: usize, work: impl FnOnce(&mut Self) -> Result<V, Unknown>) {
        #[cold]
        fn begin(trace: &mut Trace, layout: &Layout, id: Id, row: usize) {
            let name = layout.table_of(id).and_then(|table| layout.rows(table).get(row).copied());
            trace.of = Some(Place { id, row: name });
            trace.writes.push(id);
        }
        if let Some(trace) = &mut self.trace {
            begin(trace, self.layout, id, row);
        }
        let found = work(self).map(V::to_cell);
        if let Some(trace) = &mut self.trace {
            trace.of = None;
        }
        self.values.set(self.layout.slot(id, row), id, found);
    }

    /// Passes a result on, and records how it came about when somebody asked for the working.
    #[inline]
    pub fn say<V: Value>(&mut self, line: &'static Line, numbers: &[f64], result: V) -> V {
        if let Some(trace) = &mut self.trace {
            trace.record(line, numbers, result.to_cell());
        }
        result
    }

    /// The same with numbers that the working alone needs, and that cost something.
    #[inline]
    pub fn say_with<V: Value, const N: usize>(&mut self, line: &'static Line, numbers: impl FnOnce() -> [f64; N], result: V) -> V {
        if let Some(trace) = &mut self.trace {
            trace.record(line, &numbers(), result.to_cell());
        }
        result
    }
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Action {
    Follow(Id),
    Run(&'static Step),
}

impl PartialEq for Step {
    fn eq(&self, other: &Self) -> bool {
        core::ptr::eq(self, other)
    }
}

/// Some of a plan's actions: one bit each.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Actions(u128);

/// All steps and following inputs in an order in which each comes after what it reads.
#[derive(Debug)]
pub struct Plan {
    order: Vec<Action>,
    /// Per declaration (flat): actions that hang on it.
    downstream: Vec<Actions>,
    /// Per declaration: actions that it hangs on.
    upstream: Vec<Actions>,
    /// Per calculator: where its declarations begin in these.
    bases: Vec<usize>,
}

impl Default for Plan {
    /// The plan of all calculators, whose order a test holds.
    fn default() -> Self {
        Self::new(calculators::ALL).unwrap_or(Self { order: Vec::new(), downstream: Vec::new(), upstream: Vec::new(), bases: Vec::new() })
    }
}

impl Plan {
    /// Orders the steps of these calculators.
    ///
    /// # Errors
    /// Names of the steps and inputs that wait for one another, when there is a cycle.
    pub fn new(all: &'static [&'static Calculator]) -> Result<Self, Vec<&'static str>> {
        let layout = Layout::new(all);
        let mut waiting: Vec<Action> = Vec::new();
        for id in layout.ids() {
            if layout.spec(id).role == Role::Input && layout.spec(id).follows != Follow::Nothing {
                waiting.push(Action::Follow(id));
            }
        }
        waiting.extend(all.iter().flat_map(|calculator| calculator.steps).map(Action::Run));
        let reads = |action: Action| -> Vec<Id> {
            match action {
                Action::Run(step) => step.reads.to_vec(),
                Action::Follow(id) => match layout.spec(id).follows {
                    Follow::Nothing => Vec::new(),
                    Follow::The(target) => vec![target],
                    Follow::ByChoice(column, targets) => targets.iter().map(|&(_, id)| id).chain([column]).collect(),
                },
            }
        };
        let writes = |action: Action| -> Vec<Id> {
            match action {
                Action::Run(step) => step.writes.to_vec(),
                Action::Follow(id) => vec![id],
            }
        };
        let mut bases = Vec::new();
        let mut next = 0;
        for calculator in all {
            bases.push(next);
            next += calculator.specs.len();
        }
        let flat = |id: Id| bases[id.calculator as usize] + id.ordinal as usize;
        let mut pending = vec![false; next];
        waiting.iter().flat_map(|&action| writes(action)).for_each(|id| pending[flat(id)] = true);
        let mut order = Vec::new();
        while !waiting.is_empty() {
            let Some(at) = waiting.iter().position(|&action| reads(action).iter().all(|id| !pending[flat(*id)])) else {
                return Err(waiting
                    .iter()
                    .map(|action| match action {
                        Action::Run(step) => step.name,
                        Action::Follow(id) => layout.spec(*id).label,
                    })
                    .collect());
            };
            let action = waiting.remove(at);
            writes(action).into_iter().for_each(|id| pending[flat(id)] = false);
            order.push(action);
        }
        assert!(order.len() <= 128, "one bit for each action");
        let mut plan = Self { downstream: vec![Actions::default(); next], upstream: vec![Actions::default(); next], bases, order };
        // Backwards: what hangs on an action's writes is already known when its reads are visited.
        for (bit, &action) in plan.order.iter().enumerate().rev() {
            let mut mask = 1_u128 << bit;
            for id in writes(action) {
                mask |= plan.downstream[plan.flat(id)].0;
            }
            for id in reads(action).into_iter().chain(writes(action)) {
                let flat = plan.flat(id);
                plan.downstream[flat].0 |= mask;
            }
        }
        for (bit, &action) in plan.order.iter().enumerate() {
            let before = reads(action).into_iter().fold(0, |before, id| before | plan.upstream[plan.flat(id)].0);
            for id in writes(action) {
                let flat = plan.flat(id);
                plan.upstream[flat].0 |= before | 1_u128 << bit;
            }
        }
        Ok(plan)
    }

    /// Works out everything. Allocates only when the rows changed since the report was made.
    pub fn evaluate(&self, build: &Build, report: &mut Report) {
        if Arc::ptr_eq(build.layout(), &report.layout) || build.layout() == &report.layout {
            report.values.restart(build);
        } else {
            *report = Report::new(build);
        }
        self.run(build, report, Actions(u128::MAX));
    }

    /// Works out everything in a new report of this build, from the action at `at` on and for as long as it goes on; gives
    /// where it stopped if anything is left. For whoever may not be held up by all of it at once.
    pub fn evaluate_on(&self, build: &Build, report: &mut Report, at: usize, goes_on: impl Fn() -> bool) -> Option<usize> {
        for (at, action) in self.order.iter().enumerate().skip(at) {
            act(build, report, *action);
            if !goes_on() {
                return Some(at + 1).filter(|&next| next < self.order.len());
            }
        }
        None
    }

    /// Works out again only what hangs on these inputs; all else must be up to date for the same rows.
    pub fn evaluate_after(&self, build: &Build, report: &mut Report, changed: &[Place]) {
        self.evaluate_towards(build, report, changed, Actions(u128::MAX));
    }

    /// The same for whatever differs between two builds; the report is that of the first.
    pub fn evaluate_since(&self, before: &Build, build: &Build, report: &mut Report) {
        match build.changed_since(before) {
            Some(changed) => self.evaluate_after(build, report, &changed),
            None => self.evaluate(build, report),
        }
    }

    /// Works out again only what hangs on these inputs and leads to what is wanted, see [`Plan::towards`]. All else of the
    /// report is out of date from then on.
    pub fn evaluate_towards(&self, build: &Build, report: &mut Report, changed: &[Place], wanted: Actions) {
        if build.layout() != &report.layout {
            return self.evaluate(build, report);
        }
        report.values.take_tolerances(build);
        let mut dirty = 0;
        for place in changed {
            if let Some(slot) = report.layout.find(*place) {
                report.values.set(slot, place.id, given(build, slot, place.id));
                dirty |= self.downstream[self.flat(place.id)].0;
            }
        }
        self.run(build, report, Actions(dirty & wanted.0));
    }

    /// What has to be worked out for the values and verdicts of these.
    #[must_use]
    pub fn towards(&self, layout: &Layout, places: impl IntoIterator<Item = Place>) -> Actions {
        let of = |id: Id| self.upstream[self.flat(id)].0;
        let whole = |id: Id| layout.spec(id).judged_by().fold(of(id), |all, other| all | of(other));
        Actions(places.into_iter().fold(0, |all, place| all | whole(place.id)))
    }

    fn flat(&self, id: Id) -> usize {
        self.bases[id.calculator as usize] + id.ordinal as usize
    }

    /// Whether a declaration (an output, or an input that follows) can change with an input, or with its tolerance.
    #[must_use]
    pub fn feeds(&self, input: Id, other: Id) -> bool {
        self.downstream[self.flat(input)].0 & self.upstream[self.flat(other)].0 != 0
    }

    fn run(&self, build: &Build, report: &mut Report, dirty: Actions) {
        for (bit, action) in self.order.iter().enumerate() {
            if dirty.0 >> bit & 1 != 0 {
                act(build, report, *action);
            }
        }
    }

    /// Runs again, traced, the step that writes a place: its lines, and what it read and wrote.
    #[must_use]
    pub fn working(&self, report: &Report, place: Place) -> Trace {
        let step = self.steps().find(|step| step.writes.contains(&place.id));
        let mut trace = step.map(|step| self.traced(report, step)).unwrap_or_default();
        trace.lines.retain(|said| said.of.is_none_or(|of| of == place));
        trace
    }

    /// Runs one step again, traced.
    #[must_use]
    pub fn traced(&self, report: &Report, step: &Step) -> Trace {
        let mut trace = Trace::default();
        let mut values = report.values.clone();
        (step.run)(&mut Case { layout: &report.layout, values: &mut values, trace: Some(&mut trace) });
        trace
    }

    /// Runs every step traced and gives the report it makes: for checks that number and working agree.
    #[must_use]
    pub fn evaluate_traced(&self, build: &Build) -> (Report, Vec<(&'static Step, Trace)>) {
        let mut report = Report::new(build);
        let mut traces = Vec::new();
        for action in &self.order {
            match action {
                Action::Follow(id) => follow(build, &mut report, *id),
                Action::Run(step) => {
                    let mut trace = Trace::default();
                    (step.run)(&mut Case { layout: &report.layout, values: &mut report.values, trace: Some(&mut trace) });
                    traces.push((*step, trace));
                }
            }
        }
        (report, traces)
    }

    /// Steps in the order they run.
    pub fn steps(&self) -> impl Iterator<Item = &'static Step> + '_ {
        self.order.iter().filter_map(|action| match action {
            Action::Run(step) => Some(*step),
            Action::Follow(_) => None,
        })
    }
}

/// Once in the module, which is loaded over slow lines, and not in each loop.
#[inline(never)]
fn act(build: &Build, report: &mut Report, action: Action) {
    match action {
        Action::Run(step) => (step.run)(&mut Case { layout: &report.layout, values: &mut report.values, trace: None }),
        Action::Follow(id) => follow(build, report, id),
    }
}

/// Copies in what an input follows, in each row where nobody gave a value. Where somebody did, it stands there already; where
/// somebody said that it is not known, that is the reason again, and not why what it once followed was unknown.
fn follow(build: &Build, report: &mut Report, id: Id) {
    let Report { layout, values } = report;
    let rows = layout.table_of(id).map_or(1, |table| layout.rows(table).len());
    let (own, follows) = (layout.column(id), layout.spec(id).follows);
    for row in 0..rows {
        let slot = own.slot(row);
        let target = match (build.origins[slot], follows) {
            (Origin::Missing, _) => None,
            // A single value serves every row.
            (Origin::Usual, Follow::The(target)) => Some(target),
            (Origin::Usual, Follow::ByChoice(column, targets)) => {
                let choice = values.get(layout.slot(column, row)).map_or(u8::MAX, |choice| choice as u8);
                targets.iter().find(|(ordinal, _)| *ordinal == choice).map(|&(_, target)| target)
            }
            _ => continue,
        };
        match target {
            Some(target) => values.copy(layout.slot(target, row), slot),
            None => values.set(slot, id, given(build, slot, id)),
        }
    }
}

/// What the build itself says about an input.
fn given(build: &Build, slot: usize, id: Id) -> Result<f64, Unknown> {
    let value = build.cells[slot];
    if value.is_nan() { Err(Unknown::NotGiven(id)) } else { Ok(value) }
}
