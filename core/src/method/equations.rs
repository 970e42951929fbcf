//! Which equations a calculator uses, and what their letters stand for: found by working builds out and looking which
//! declared value each number is.

use crate::build::Build;
use crate::calculators::Calculator;
use crate::order::Order;
use crate::plan::{Line, Plan, Step, Trace};
use crate::quantity::Unit;
use crate::report::Report;
use crate::spec::{Follow, Id, Kind, Place, Role};

/// One equation, and the declared values its numbers were.
#[derive(Debug)]
pub(super) struct Explained {
    pub line: &'static Line,
    /// The answers it gives.
    pub result: Vec<Id>,
    /// In the order of the line's terms.
    pub terms: Vec<Term>,
}

#[derive(Clone, Debug, Default)]
pub(super) struct Term {
    pub ids: Vec<Id>,
    /// It is what another line came to.
    pub above: bool,
    /// It is at times nothing declared.
    pub undeclared: bool,
}

/// The equations of each step that has any, in the order they are worked out.
///
/// Tried are the usual build, one with all that is usually not given, and each way of every choice the steps read: together
/// they come by every equation, as a test holds. Their numbers are moved a little, each its own way, so that no two declared
/// values are the same by chance.
pub(super) fn explained(plan: &Plan, calculators: &'static [&'static Calculator], it: &Calculator) -> Vec<(&'static str, Vec<Explained>)> {
    let mut found: Vec<(&'static Step, Vec<Explained>)> =
        plan.steps().filter(|step| it.steps.iter().any(|own| own == *step)).map(|step| (step, Vec::new())).collect();
    let usual = moved(Build::new(calculators), false);
    let filled = moved(Build::new(calculators), true);
    let mut choices: Vec<Id> = found.iter().flat_map(|(step, _)| step.reads).copied().collect();
    choices.order_by(Ord::cmp);
    choices.dedup();
    for base in [usual, filled] {
        try_one(plan, &base, &mut found);
        for &id in &choices {
            let spec = base.layout().spec(id);
            let (Role::Input, Kind::Choice(ways)) = (spec.role, spec.kind) else { continue };
            for way in 0..ways.len() {
                let mut build = base.clone();
                let places: Vec<Place> = build.layout().places_of(id).collect();
                places.into_iter().for_each(|place| _ = build.set(place, way as f64));
                try_one(plan, &build, &mut found);
            }
        }
    }
    found.into_iter().filter(|(_, lines)| !lines.is_empty()).map(|(step, lines)| (step.name, lines)).collect()
}

/// Moves every number given by something of its own; where wanted, gives what is not given.
fn moved(mut build: Build, fill: bool) -> Build {
    let places: Vec<Place> = build.layout().places(Role::Input).collect();
    for (at, place) in places.into_iter().enumerate() {
        let spec = build.layout().spec(place.id);
        let Kind::Quantity { unit, .. } = spec.kind else { continue };
        if build.following(place).is_some() || (spec.default.is_nan() && spec.follows != Follow::Nothing) {
            continue;
        }
        let usual = if spec.usual[0].is_finite() { spec.usual } else { spec.possible };
        let value = match build.own_value(place) {
            Some(value) => value,
            None if fill => unit.to_si(0.5 * (usual[0] + usual[1])),
            None => continue,
        };
        let part = 1e-3 * (1.0 + at as f64 / 997.0);
        // Nought is moved too, and what stands at an end of what is usual or possible the other way.
        let step = if value == 0.0 { (unit.to_si(usual[1]) - unit.to_si(usual[0])) * part } else { value * part };
        if spec.whole {
            // What may not stand shows all the same which letter it is.
            if let Some(slot) = build.layout().find(place) {
                build.vary(slot, value + step);
            }
            continue;
        }
        if value == unit.to_si(usual[1]) || build.set(place, value + step).is_err() {
            _ = build.set(place, value - step);
        }
    }
    build
}

fn try_one(plan: &Plan, build: &Build, found: &mut [(&'static Step, Vec<Explained>)]) {
    let mut report = Report::new(build);
    plan.evaluate(build, &mut report);
    for (step, lines) in found {
        note(plan.traced(&report, step), step, &report, lines);
    }
}

fn note(trace: Trace, step: &Step, report: &Report, lines: &mut Vec<Explained>) {
    let layout = report.layout();
    let is = |id: Id, number: f64, unit: &Unit| {
        let Kind::Quantity { dimension, .. } = layout.kind(id) else { return false };
        dimension.has(unit) && layout.places_of(id).any(|place| report.value(place).is_ok_and(|value| value.to_bits() == number.to_bits()))
    };
    for (at, said) in trace.lines.iter().enumerate() {
        let known = lines.iter().position(|other| core::ptr::eq(other.line, said.line));
        let known = known.unwrap_or_else(|| {
            lines.push(Explained { line: said.line, result: Vec::new(), terms: vec![Term::default(); said.line.terms.len()] });
            lines.len() - 1
        });
        let explained = &mut lines[known];
        if let Some(place) = said.of
            && report.value(place).is_ok_and(|value| value.to_bits() == said.result.to_bits())
            && !explained.result.contains(&place.id)
        {
            explained.result.push(place.id);
        }
        for ((term, &number), (_, unit)) in explained.terms.iter_mut().zip(&said.numbers).zip(said.line.terms) {
            // Nought and one are too many things.
            if number == 0.0 || number == 1.0 || term.ids.iter().any(|&id| is(id, number, unit)) {
                continue;
            }
            match step.reads.iter().chain(step.writes).find(|&&id| is(id, number, unit)) {
                Some(&id) => term.ids.push(id),
                None if trace.lines[..at].iter().any(|other| other.result.to_bits() == number.to_bits()) => term.above = true,
                None => term.undeclared = true,
            }
        }
    }
}
