//! The tools from a script: what they find, as JSON. Numbers are SI, as in `--json`.

use super::combining::{Combining, words};
use serde_json::{Map, Value, json};
use std::ops::ControlFlow;
use trialfit_core::build::{Build, Refusal};
use trialfit_core::entry::read_quantity;
use trialfit_core::layout::Layout;
use trialfit_core::plan::Plan;
use trialfit_core::report::Report;
use trialfit_core::show::{self, System};
use trialfit_core::spec::{Kind, Place, Role};
use trialfit_core::tools::Job;
use trialfit_core::tools::solve::{Had, Obstacle, Solve};
use trialfit_core::tools::spread::{Outcome, SEED, Share, Spread};
use trialfit_core::tools::sweep::Sweep;

/// One tool and what it is asked, as typed.
pub(crate) enum Tool {
    Sweep {
        input: String,
        from: String,
        to: String,
        most: u32,
    },
    Solve {
        input: String,
        output: String,
        target: String,
    },
    /// Of every judged figure, or of these outputs.
    Spread {
        samples: u32,
        of: Option<String>,
    },
    Combine(Combining),
}

/// Values that a search scans.
const SCAN: u32 = 400;

impl Tool {
    /// Runs it on a build.
    pub(crate) fn run(&self, plan: &Plan, build: &Build) -> Result<String, String> {
        let mut report = Report::new(build);
        plan.evaluate(build, &mut report);
        let asked = Asked { plan, build, layout: build.layout(), report };
        let found = match self {
            Self::Sweep { input, from, to, most } => asked.sweep(input, from, to, *most),
            Self::Solve { input, output, target } => asked.solve(input, output, target),
            Self::Spread { samples, of } => asked.spread(*samples, of.as_deref()),
            Self::Combine(combining) => combining.run(&asked),
        }?;
        Ok(serde_json::to_string_pretty(&found).unwrap_or_default())
    }
}

pub(crate) struct Asked<'a> {
    pub(crate) plan: &'a Plan,
    pub(crate) build: &'a Build,
    pub(crate) layout: &'a Layout,
    report: Report,
}

pub(crate) fn done<J: Job>(plan: &Plan, mut job: J) -> J::Answer {
    loop {
        if let ControlFlow::Break(answer) = job.advance(plan, 10_000) {
            return answer;
        }
    }
}

impl Asked<'_> {
    pub(crate) fn place(&self, key: &str) -> Result<Place, String> {
        let place = self.layout.place_by_key(key).filter(|place| self.layout.find(*place).is_some());
        place.ok_or_else(|| format!("“{key}” is no key of this build; --keys lists them."))
    }

    /// A number with or without a unit, or a choice by its key; SI.
    pub(crate) fn number(&self, place: Place, typed: &str) -> Result<f64, String> {
        match self.layout.kind(place.id) {
            Kind::Quantity { dimension, unit } => read_quantity(typed, dimension, unit).map_err(|why| format!("“{typed}”: {why}")),
            Kind::Choice(choices) => {
                let found = choices.iter().position(|choice| choice.key == typed);
                found.map(|at| at as f64).ok_or_else(|| format!("“{typed}” is no choice of {}.", self.layout.key(place)))
            }
            Kind::Text(_) => Err(format!("{} holds words.", self.layout.key(place))),
        }
    }

    fn refused(&self, place: Place, why: Refusal) -> String {
        let key = self.layout.key(place);
        match why {
            Refusal::OutOfRange([lowest, highest]) => format!("{key} goes from {lowest} to {highest}, the lower first."),
            _ => format!("{key} is no input that can be turned."),
        }
    }

    pub(crate) fn unit(&self, place: Place) -> &'static str {
        match self.layout.kind(place.id) {
            Kind::Quantity { dimension, .. } => dimension.units[0].symbol,
            Kind::Choice(_) | Kind::Text(_) => "",
        }
    }

    fn key(&self, place: Option<Place>) -> Value {
        place.map_or(Value::Null, |place| self.layout.key(place).into())
    }

    fn sweep(&self, input: &str, from: &str, to: &str, most: u32) -> Result<Value, String> {
        let place = self.place(input)?;
        let range = [self.number(place, from)?, self.number(place, to)?];
        let hangs = |output: &Place| self.plan.feeds(place.id, output.id) && !matches!(self.layout.kind(output.id), Kind::Text(_));
        let outputs: Vec<Place> = self.layout.places(Role::Output).filter(hangs).collect();
        let sweep = Sweep::new(self.plan, self.build, place, range, &outputs, most).map_err(|why| self.refused(place, why))?;
        let found = done(self.plan, sweep);
        let curves: Map<String, Value> = outputs
            .iter()
            .enumerate()
            .map(|(at, output)| {
                let values: Vec<Value> = found.curve(at).into_iter().map(|(_, value)| value.into()).collect();
                let gap = |(ends, why): &([f64; 2], trialfit_core::report::Unknown)| json!({"from": ends[0], "to": ends[1], "reason": why.reason(self.layout)});
                let gaps: Vec<Value> = found.gaps(at).iter().map(gap).collect();
                (self.layout.key(*output), json!({"unit": self.unit(*output), "values": values, "gaps": gaps}))
            })
            .collect();
        let band = |band: &trialfit_core::tools::sweep::Band| {
            let [below, above] = band.stopped_by;
            json!({"from": band.ends[0], "to": band.ends[1], "stopped_below_by": self.key(below), "stopped_above_by": self.key(above)})
        };
        Ok(json!({
            "input": input, "unit": self.unit(place), "present": found.present,
            "at": found.points.iter().map(|point| point.at).collect::<Vec<_>>(),
            "stopped_by": found.points.iter().map(|point| self.key(point.stops.first().map(|stop| stop.place))).collect::<Vec<_>>(),
            "outputs": curves,
            "bands": found.bands.iter().map(band).collect::<Vec<_>>(),
            "not_within_anyway": found.anyway.iter().map(|stop| self.layout.key(stop.place)).collect::<Vec<_>>(),
            "finding": show::sentence(&found.finding(self.build), System::Metric),
        }))
    }

    /// Over the input's usual range, or as far as its present value where that lies outside.
    fn solve(&self, input: &str, output: &str, target: &str) -> Result<Value, String> {
        let (place, of) = (self.place(input)?, self.place(output)?);
        let target = self.number(of, target)?;
        let spec = self.layout.spec(place.id);
        let mut range = match spec.kind {
            Kind::Choice(choices) => [0.0, choices.len() as f64 - 1.0],
            _ => spec.usual.map(|end| spec.to_cell(end)),
        };
        if let Ok(present) = self.report.value(place) {
            range = [range[0].min(present), range[1].max(present)];
        }
        let solve = Solve::new(self.plan, self.build, place, range, of, target, SCAN).map_err(|why| self.refused(place, why))?;
        let found = done(self.plan, solve);
        let had = |had: &Had| json!({"input": had.input, "output": had.output});
        let obstacle = |obstacle: &Obstacle| match obstacle {
            Obstacle::Apart => json!({"kind": "apart"}),
            Obstacle::OutOfReach { reach: [low, high] } => json!({"kind": "out of reach", "lowest": low, "highest": high}),
            Obstacle::Jump { at, between: [low, high] } => json!({"kind": "jump", "at": at, "low": low, "high": high}),
            Obstacle::Unknown { from, to, why } => json!({"kind": "unknown", "from": from, "to": to, "reason": why.reason(self.layout)}),
        };
        Ok(json!({
            "input": input, "input_unit": self.unit(place), "output": output, "output_unit": self.unit(of), "target": target,
            "present": found.present, "from": range[0], "to": range[1], "scanned": found.scanned,
            "solutions": found.solutions.iter().map(had).collect::<Vec<_>>(),
            "stretches": found.stretches,
            "to_be_had": found.to_be_had.iter().map(had).collect::<Vec<_>>(),
            "nearest": found.nearest.as_ref().map(had),
            "obstacles": found.obstacles.iter().map(obstacle).collect::<Vec<_>>(),
        }))
    }

    /// Of these outputs, or of every judged figure that something with a tolerance feeds.
    fn spread(&self, samples: u32, of: Option<&str>) -> Result<Value, String> {
        let outputs = match of {
            Some(keys) => words(keys).map(|key| self.place(key)).collect::<Result<Vec<Place>, String>>()?,
            None => self.can_spread(),
        };
        let spread = Spread::new(self.plan, self.build, &outputs, samples, SEED).map_err(|why| why.reason(self.layout))?;
        let inputs: Vec<String> = spread.inputs().iter().map(|place| self.layout.key(*place)).collect();
        let found = done(self.plan, spread);
        let outcomes: Map<String, Value> =
            found.outcomes.iter().map(|outcome| (self.layout.key(outcome.place), self.outcome(outcome))).collect();
        Ok(json!({"samples": found.samples, "seed": SEED, "held_back": found.held_back, "inputs": inputs, "outputs": outcomes}))
    }

    fn can_spread(&self) -> Vec<Place> {
        let off: Vec<Place> = self
            .layout
            .places(Role::Input)
            .filter(|place| self.report.tolerance(*place).is_ok_and(|tolerance| tolerance.half_width > 0.0))
            .collect();
        let judged =
            |place: &Place| self.layout.spec(place.id).limits[0].is_some() && off.iter().any(|input| self.plan.feeds(input.id, place.id));
        self.layout.places(Role::Output).filter(judged).collect()
    }

    fn outcome(&self, outcome: &Outcome) -> Value {
        let chances = outcome.past.iter().filter_map(|(limit, chance)| {
            let row = outcome.place.row.filter(|_| self.layout.table_of(limit.beyond).is_some());
            let mark = self.report.value(Place { id: limit.beyond, row }).ok()?;
            Some(json!({"limit": self.layout.key(Place { id: limit.beyond, row }), "at": mark, "share": chance.share, "error": chance.error}))
        });
        let share = |share: &Share| json!({"input": self.layout.key(share.place), "of_variance": share.of_variance, "first_order": share.first_order});
        json!({
            "unit": self.unit(outcome.place), "nominal": outcome.nominal, "unknown": outcome.unknown,
            "mean": outcome.mean, "deviation": outcome.deviation,
            "first_order_deviation": outcome.first_order.map(|stack| stack.deviation()),
            "q05": outcome.quantile(0.05), "median": outcome.quantile(0.5), "q95": outcome.quantile(0.95),
            "beyond": chances.collect::<Vec<_>>(),
            "shares": outcome.shares.iter().map(share).collect::<Vec<_>>(),
        })
    }
}
