//! Two builds side by side: every answer that differs, better or worse where a limit says which, and what it comes from.

use crate::build::Build;
use crate::changed::{Changes, Evaluated, What, by_turn};
use crate::order::Order;
use crate::plan::Plan;
use crate::report::{Report, Unknown};
use crate::spec::{Place, Role, Sense, Verdict};

/// Which way an answer went, where a limit gives it a direction.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Way {
    /// Away from its limit.
    Better,
    /// Towards its limit, or further past it.
    Worse,
}

/// One answer that differs.
#[derive(Clone, Debug, PartialEq)]
pub struct Difference {
    /// Which.
    pub place: Place,
    /// The one build's (SI, or a choice's ordinal), or why there is none.
    pub before: Result<f64, Unknown>,
    /// The other's.
    pub after: Result<f64, Unknown>,
    /// How it stands in either.
    pub verdicts: [Verdict; 2],
    /// Which way it went; none where no limit says, as one that only forbids what lies past it, or the limit went along.
    pub way: Option<Way>,
    /// What changed it, by its place in [`Changes::inputs`]: each without which it would be another. Where every one of
    /// several would be enough alone, all that can change it.
    pub causes: Vec<usize>,
}

/// Every answer of both builds that differs: those whose verdict got worse first, the worst of them first, then those whose
/// verdict got better, then judged ones, then the rest, each in their order.
/// `changes` is what [`changes`](crate::changed::changes) finds of the same two.
#[must_use]
pub fn differences(plan: &Plan, before: Evaluated<'_>, after: Evaluated<'_>, changes: &Changes) -> Vec<Difference> {
    let layout = after.0.layout();
    let without = taken_back(plan, before.0, after.0, changes);
    let places = layout.places(Role::Output).filter(|place| before.0.layout().find(*place).is_some());
    let mut found: Vec<Difference> = places
        .filter_map(|place| {
            let (was, is) = (before.1.value(place), after.1.value(place));
            let verdicts = [before, after].map(|(build, report)| report.verdict(build, place));
            (was.map(f64::to_bits) != is.map(f64::to_bits) || verdicts[0] != verdicts[1]).then(|| Difference {
                place,
                before: was,
                after: is,
                verdicts,
                way: way(before, after, place, verdicts),
                causes: causes(plan, after, &without, changes, place),
            })
        })
        .collect();
    found.order_by_key(|it| {
        let [stood, stands] = it.verdicts;
        let turned = (stood != stands).then(|| by_turn(stood, stands));
        (turned.is_none(), turned, !layout.spec(it.place.id).is_judged())
    });
    found
}

fn way(before: Evaluated<'_>, after: Evaluated<'_>, place: Place, verdicts: [Verdict; 2]) -> Option<Way> {
    // What nobody can judge is neither.
    if verdicts.contains(&Verdict::Unknown) {
        return None;
    }
    let [stood, stands] = verdicts;
    if stood != stands {
        return Some(if stands < stood { Way::Better } else { Way::Worse });
    }
    let layout = after.0.layout();
    let limits = || layout.spec(place.id).limits.into_iter().flatten();
    let limit = limits().next()?;
    // Between two limits neither way is better by itself; past or near one of them, away from that is.
    let limit = if limits().any(|other| other.sense != limit.sense) {
        let [one, other] = [before, after].map(|(build, report)| report.standing(build, place));
        one.limit.filter(|_| stood > Verdict::Within && !one.estimate && !other.estimate && one.limit == other.limit)?
    } else {
        limit
    };
    // Where nothing is near, inside is inside: a pedal that comes back by itself is no better for a stronger spring.
    if limit.near.is_none() && stood != Verdict::Beyond {
        return None;
    }
    let mark = layout.beside(limit.beyond, place);
    let up = after.1.value(place).ok()? - before.1.value(place).ok()?;
    let moved = after.1.value(mark).ok()? - before.1.value(mark).ok()?;
    // A limit that went along as far or further says nothing of the answer.
    if up == 0.0 || moved * up > 0.0 && moved.abs() >= up.abs() {
        return None;
    }
    Some(if (up < 0.0) == (limit.sense == Sense::AtMost) { Way::Better } else { Way::Worse })
}

/// So many changes are taken back one by one; of more, whatever can change an output counts as its cause.
const TAKEN_BACK: usize = 64;

/// The second build with one change taken back at a time: what that changes, the change had caused.
fn taken_back(plan: &Plan, before: &Build, after: &Build, changes: &Changes) -> Vec<(Build, Report)> {
    let without = |what: What| {
        let mut build = after.clone();
        what.carry(before, &mut build);
        let mut report = Report::new(&build);
        plan.evaluate(&build, &mut report);
        (build, report)
    };
    let inputs: &[_] = if changes.inputs.len() > TAKEN_BACK { &[] } else { &changes.inputs };
    inputs.iter().map(|input| without(input.what)).collect()
}

/// The changes that made an output what it is. Where none does alone, all that can.
fn causes(plan: &Plan, after: Evaluated<'_>, without: &[(Build, Report)], changes: &Changes, output: Place) -> Vec<usize> {
    let stands = |(build, report): Evaluated<'_>| (report.value(output).map(f64::to_bits), report.verdict(build, output));
    let alone: Vec<usize> = (0..without.len()).filter(|&at| stands((&without[at].0, &without[at].1)) != stands(after)).collect();
    if !alone.is_empty() {
        return alone;
    }
    let layout = after.0.layout();
    let feeds = |what: What| match what {
        What::Cell(place) => plan.feeds(place.id, output.id),
        What::Added(table, _) | What::Removed(table, _) | What::Moved(table) => {
            layout.ids().any(|id| layout.table_of(id) == Some(table) && plan.feeds(id, output.id))
        }
    };
    (0..changes.inputs.len()).filter(|&at| feeds(changes.inputs[at].what)).collect()
}
