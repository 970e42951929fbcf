//! The calculators side by side: the worst figure of each, and what feeds what.

use crate::build::Build;
use crate::order::Order;
use crate::plan::Plan;
use crate::report::{Report, lower_first};
use crate::sentence::{Piece, Sentence};
use crate::show;
use crate::spec::{Follow, Id, Kind, Place, Role, Sense, Verdict};

/// The key of all calculators side by side, where a link names what to show.
pub const OVERVIEW: &str = "overview";

/// How one calculator stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Overall {
    /// Its place in the list of calculators.
    pub calculator: u8,
    /// The output that stands worst; none where nothing is judged.
    pub worst: Option<Place>,
    /// That figure against its limit, in one line.
    pub line: Sentence,
}

/// Every calculator of a build, in their order.
#[must_use]
pub fn calculators(build: &Build, report: &Report) -> Vec<Overall> {
    let one = |calculator: u8| {
        let worst = worst(build, report, calculator);
        let nothing = || {
            // Where nothing can be said either, that is worse than nothing judged.
            let said = (build.layout().calculators()[usize::from(calculator)].sentence)(build, report);
            let judged = || Sentence { verdict: Verdict::Within, pieces: vec!["Nothing here is judged.".into()] };
            if said.verdict == Verdict::Unknown { said } else { judged() }
        };
        Overall { calculator, worst, line: worst.map_or_else(nothing, |place| against_limit(build, report, place)) }
    };
    (0..build.layout().calculators().len() as u8).map(one).collect()
}

/// The output with the worst verdict; among those alike, one that is so by its figure before one that is an estimate, then the
/// one furthest past its limit, or nearest to it.
#[must_use]
pub fn worst(build: &Build, report: &Report, calculator: u8) -> Option<Place> {
    let layout = build.layout();
    let judged = |id: &Id| id.calculator == calculator && layout.spec(*id).is_judged();
    let places = layout.ids().filter(judged).flat_map(|id| layout.places_of(id).collect::<Vec<_>>());
    let rank = |place: Place| {
        let standing = report.standing(build, place);
        (standing.verdict, !standing.estimate, past(build, report, place), place)
    };
    let ranked = places.filter(|place| report.concerns(*place)).map(rank);
    // The first of those that are alike in all stays.
    type Rank = (Verdict, bool, f64, Place);
    let worse = |one: &Rank, other: &Rank| (other.0, other.1).cmp(&(one.0, one.1)).then(other.2.total_cmp(&one.2)).is_gt();
    ranked.reduce(|one, other| if worse(&one, &other) { other } else { one }).map(|(.., place)| place)
}

/// How far an output is past the limit that decides, as a share of it (a number; negative: inside). An outcome has no
/// degree: beyond, it comes before every figure, else after.
pub(crate) fn past(build: &Build, report: &Report, place: Place) -> f64 {
    let standing = report.standing(build, place);
    let marks = standing.limit.and_then(|limit| {
        let beyond = report.value(build.layout().beside(limit.beyond, place)).ok()?;
        let near = limit.near.and_then(|id| report.value(build.layout().beside(id, place)).ok());
        Some((limit.sense, beyond, near))
    });
    let (Ok(value), Some((sense, beyond, near))) = (report.value(place), marks) else {
        return if standing.verdict == Verdict::Beyond { f64::INFINITY } else { f64::NEG_INFINITY };
    };
    let over = match sense {
        Sense::AtMost => value - beyond,
        Sense::AtLeast => beyond - value,
    };
    // A limit of nothing has no share; the room up to where it begins to be near stands in.
    let scale = [beyond.abs(), near.map_or(0.0, |near| (near - beyond).abs()), value.abs(), 1.0];
    over / scale.into_iter().find(|scale| *scale > 0.0).unwrap_or(1.0)
}

/// `Alternator at idle: 1 650 min⁻¹, at least 1 800 min⁻¹.`
#[must_use]
pub fn against_limit(build: &Build, report: &Report, place: Place) -> Sentence {
    let layout = build.layout();
    let standing = report.standing(build, place);
    let mut pieces: Vec<Piece> = vec![show::label(build, place).into(), ": ".into()];
    match report.value(place) {
        Err(why) => pieces.push(lower_first(&why.reason(layout)).into()),
        Ok(value) => {
            pieces.push(match layout.kind(place.id) {
                Kind::Quantity { unit, .. } => Piece::Figure { value, unit, digits: show::digits_of(report, place, unit) },
                _ => Piece::cell(layout.spec(place.id), value),
            });
            if let Some(limit) = standing.limit {
                let near = limit.near.filter(|_| standing.verdict == Verdict::Near && !standing.estimate);
                let id = near.unwrap_or(limit.beyond);
                if let Ok(mark) = report.value(layout.beside(id, place)) {
                    let words = match (limit.sense, near.is_some()) {
                        (Sense::AtMost, false) => ", at most ",
                        (Sense::AtLeast, false) => ", at least ",
                        (Sense::AtMost, true) => ", better at most ",
                        (Sense::AtLeast, true) => ", better at least ",
                    };
                    pieces.extend([words.into(), Piece::cell(layout.spec(id), mark)]);
                }
            }
            pieces.push(match report.undecided(build, place) {
                // Its limit is what is not known.
                Some(why) => format!(": {}", lower_first(&why.reason(layout))).into(),
                None if standing.estimate => ", an estimate.".into(),
                None => ".".into(),
            });
        }
    }
    Sentence { verdict: standing.verdict, pieces }
}

/// How one calculator hands something to another.
#[derive(Clone, Debug, PartialEq)]
pub enum By {
    /// An input there takes it unless somebody gives another.
    Following {
        /// That input.
        input: Id,
        /// Whether it does now (for a column: in any row).
        now: bool,
    },
    /// Steps there read it, named in words.
    Steps(Vec<&'static str>),
}

/// One thing that one calculator hands to another.
#[derive(Clone, Debug, PartialEq)]
pub struct Link {
    /// What is handed over: an output or an input of the one.
    pub from: Id,
    /// The other.
    pub to: u8,
    /// How it takes it.
    pub by: By,
    /// `Peak torque 240 N·m → torque to hold.`
    pub line: Sentence,
}

/// Everything that calculators hand to one another, as steps and inputs declare it, in the order of who gives, then who
/// takes.
#[must_use]
pub fn links(plan: &Plan, build: &Build, report: &Report) -> Vec<Link> {
    let layout = build.layout();
    let mut links: Vec<(Id, u8, By)> = Vec::new();
    for input in layout.ids().filter(|&id| layout.spec(id).role == Role::Input) {
        let targets = match layout.spec(input).follows {
            Follow::Nothing => Vec::new(),
            Follow::The(target) => vec![target],
            Follow::ByChoice(column, targets) => targets.iter().map(|&(_, target)| target).chain([column]).collect(),
        };
        for from in targets.into_iter().filter(|from| from.calculator != input.calculator) {
            let now = layout.places_of(input).any(|place| build.following(place) == Some(from));
            links.push((from, input.calculator, By::Following { input, now }));
        }
    }
    for step in plan.steps() {
        let Some(to) = step.writes.first().map(|id| id.calculator) else { continue };
        for &from in step.reads.iter().filter(|from| from.calculator != to) {
            let known = links.iter_mut().find_map(|(known, taker, by)| match by {
                By::Steps(steps) if *known == from && *taker == to => Some(steps),
                _ => None,
            });
            match known {
                Some(steps) if steps.contains(&step.name) => {}
                Some(steps) => steps.push(step.name),
                None => links.push((from, to, By::Steps(vec![step.name]))),
            }
        }
    }
    links.order_by_key(|(from, to, _)| (from.calculator, *to, from.ordinal));
    links.into_iter().map(|(from, to, by)| Link { line: handed(build, report, from, &by), from, to, by }).collect()
}

fn handed(build: &Build, report: &Report, from: Id, by: &By) -> Sentence {
    let layout = build.layout();
    let mut pieces: Vec<Piece> = vec![layout.spec(from).label.into()];
    if layout.table_of(from).is_none() {
        match report.value(from.into()) {
            Ok(value) => pieces.extend([" ".into(), Piece::cell(layout.spec(from), value)]),
            Err(_) => pieces.push(", not known,".into()),
        }
    }
    pieces.push(" → ".into());
    match by {
        By::Steps(steps) => pieces.push(steps.join(", ").into()),
        By::Following { input, now } => {
            pieces.push(lower_first(layout.spec(*input).label).into());
            if !now {
                match report.value((*input).into()) {
                    Ok(value) if layout.table_of(*input).is_none() => {
                        pieces.extend([", now given: ".into(), Piece::cell(layout.spec(*input), value)]);
                    }
                    _ => pieces.push(", now given".into()),
                }
            }
        }
    }
    pieces.push(".".into());
    Sentence { verdict: Verdict::Within, pieces }
}
