//! The wiring's answer in words: the worst circuit, or whatever else is worse.

use super::branches::UNSIZED_BESIDE;
use super::choices::{Check, Guard};
use super::{
    ALLOWED, BALANCE_AT_CRUISE, BALANCE_AT_IDLE, CHECK, CIRCUITS, DRAIN_AT_CRUISE, DRAIN_AT_IDLE, DROP, GUARD, LASTING, NAME, SIZE,
    SMALLEST, WIRE_TEMPERATURE,
};
use crate::build::Build;
use crate::order::Order;
use crate::quantity::Value;
use crate::quantity::unit::{CELSIUS, CONDUCTOR, HOUR, V};
use crate::report::{Report, Unknown, lower_first};
use crate::sentence::{Piece, Sentence};
use crate::spec::{Kind, Place, Sense, Verdict};

/// What a name is called where none was given.
pub(super) fn name(build: &Build, at: usize) -> String {
    let row = build.rows(CIRCUITS).get(at).copied();
    let name = build.text(Place { id: NAME.id, row });
    if name.is_empty() { format!("circuit {}", at + 1) } else { name.to_owned() }
}

/// How a circuit stands, by the worst of its judged outputs.
pub(super) fn verdict(build: &Build, report: &Report, at: usize) -> Verdict {
    let row = build.rows(CIRCUITS).get(at).copied();
    report.verdict(build, Place { id: CHECK.id, row })
}

/// Share of the voltage it may lose that a circuit loses; nothing where that is not known.
fn share(report: &Report, at: usize) -> f64 {
    let share = report.cell(DROP, at).and_then(|lost| Ok(lost / report.cell(ALLOWED, at)?));
    share.unwrap_or(0.0)
}

/// Circuits, worst first: by verdict, then by the share of the allowed voltage they lose, then in their order.
pub(super) fn by_need(build: &Build, report: &Report) -> Vec<usize> {
    let mut rows: Vec<usize> = (0..build.rows(CIRCUITS).len()).collect();
    // Of those of which nobody can tell, one that lacks something itself.
    let need = |at: usize| ((verdict(build, report, at), report.cell(CHECK, at) != Err(UNSIZED_BESIDE)), share(report, at));
    rows.order_by(|&left, &right| {
        let ((one, much), (other, less)) = (need(left), need(right));
        other.cmp(&one).then(less.total_cmp(&much))
    });
    rows
}

pub(super) fn sentence(build: &Build, report: &Report) -> Sentence {
    let calculator = CHECK.id.calculator;
    let rows = by_need(build, report);
    let of_circuits = rows.first().map_or(Verdict::Within, |&at| verdict(build, report, at));
    let worst = report.worst(build, calculator).unwrap_or((Verdict::Within, CHECK.id.into()));
    if worst.0 > of_circuits {
        return other(build, report, worst.1, rows.len(), of_circuits);
    }
    let Some(&at) = rows.first() else {
        return Sentence { verdict: worst.0, pieces: vec!["No circuits listed yet. Add the first one.".into()] };
    };
    let failing = rows.iter().filter(|&&at| verdict(build, report, at) == of_circuits).count();
    Sentence { verdict: of_circuits, pieces: circuit(build, report, at, rows.len(), failing) }
}

/// The circuit that stands worst.
fn circuit(build: &Build, report: &Report, at: usize, all: usize, failing: usize) -> Vec<Piece> {
    let name = name(build, at);
    let volts = |value: Result<f64, Unknown>| Piece::figure(value.unwrap_or(f64::NAN), V);
    let lost = || volts(report.cell(DROP, at).map(Value::to_cell));
    let allowed = || volts(report.cell(ALLOWED, at).map(Value::to_cell));
    match report.cell(CHECK, at) {
        Err(why) => {
            let needs = match why {
                Unknown::NotGiven(id) => format!("{name} needs “{}”.", report.layout().spec(id).label),
                _ => format!("{name}: {}", lower_first(&why.reason(report.layout()))),
            };
            vec![format!("Unknown: {failing} of {all}. {needs}").into()]
        }
        Ok(Check::Passes) => {
            let all = if all == 1 { "The one circuit passes".into() } else { format!("All {all} circuits pass") };
            vec![format!("{all}. Closest: {name}, ").into(), lost(), " lost of ".into(), allowed(), " allowed.".into()]
        }
        Ok(Check::Close) => {
            let only_just = format!("All {all} pass, {name} only just: ");
            match report.cell(GUARD, at) {
                Ok(Guard::LongOverload) => vec![only_just.into(), "a long overload can cook its wire before the fuse opens.".into()],
                Ok(Guard::SlowAtEnd) => vec![only_just.into(), "a short at its end opens the fuse late.".into()],
                _ => vec![only_just.into(), lost(), " lost, ".into(), allowed(), " allowed.".into()],
            }
        }
        Ok(Check::NoSize) => {
            let why = report.cell(SIZE, at).map_or_else(|why| why.reason(report.layout()), |_| String::new());
            vec![format!("Beyond: {failing} of {all}. {name}: {}", lower_first(&why)).into()]
        }
        Ok(why) => {
            let mut pieces = vec![format!("Beyond: {failing} of {all}. {name} ").into()];
            match why {
                Check::TooHot => {
                    let reached = report.cell(WIRE_TEMPERATURE, at).map_or(f64::NAN, Value::to_cell);
                    let stands = report.cell(LASTING, at).map_or(f64::NAN, Value::to_cell);
                    pieces.extend([
                        "gets ".into(),
                        Piece::figure(reached, CELSIUS),
                        " warm, its insulation stands ".into(),
                        Piece::figure(stands, CELSIUS),
                    ]);
                }
                Check::FuseFails => pieces.push(
                    match report.cell(GUARD, at) {
                        Ok(Guard::TooSmall) => "has a fuse too small for its load",
                        Ok(Guard::TooLarge) => "burns before its fuse opens",
                        Ok(Guard::MayNeverOpen) => "may not blow its fuse when shorted at its end",
                        _ => "has no fuse",
                    }
                    .into(),
                ),
                _ => pieces.extend(["loses ".into(), lost(), ", allowed ".into(), allowed()]),
            }
            // Only where a thicker wire is the cure.
            match (report.cell(SMALLEST, at), report.cell(SIZE, at), report.cell(GUARD, at)) {
                (Ok(smallest), Ok(size), guard) if smallest > size && !matches!(guard, Ok(Guard::TooSmall | Guard::Unfused)) => {
                    pieces.extend(["; ".into(), Piece::figure(smallest.si(), CONDUCTOR), " passes.".into()]);
                }
                _ => pieces.push(".".into()),
            }
            pieces
        }
    }
}

/// What is worse than every circuit: a heavy cable, an earth, the battery.
fn other(build: &Build, report: &Report, place: Place, circuits: usize, of_circuits: Verdict) -> Sentence {
    let layout = report.layout();
    let spec = layout.spec(place.id);
    let standing = report.standing(build, place);
    let label = lower_first(spec.label);
    let mut pieces: Vec<Piece> = Vec::new();
    // Its limit may be what is not known.
    match (report.undecided(build, place).map_or_else(|| report.value(place), Err), spec.kind) {
        (Err(why), _) => pieces.push(format!("Unknown: {label}. {}", why.reason(layout)).into()),
        (Ok(value), Kind::Choice(choices)) => {
            let found = choices.get(value as usize).map_or("", |choice| choice.label);
            let word = if standing.verdict == Verdict::Beyond { "Beyond" } else { "Only just" };
            pieces.push(format!("{word}: {label}: {found}.").into());
        }
        (Ok(value), Kind::Quantity { unit, .. }) if standing.estimate => {
            pieces.extend([format!("By estimate: {label} ").into(), Piece::Figure { value, unit, digits: spec.digits }, ".".into()]);
        }
        (Ok(value), Kind::Quantity { unit, .. }) => {
            let beyond = standing.verdict == Verdict::Beyond;
            pieces.push(if beyond { format!("Beyond: {label} ") } else { format!("Only just: {label} ") }.into());
            pieces.push(Piece::Figure { value, unit, digits: spec.digits });
            if let Some(limit) = standing.limit {
                let mark = report.value(if beyond { limit.beyond } else { limit.near.unwrap_or(limit.beyond) }.into());
                let words = match (limit.sense, beyond) {
                    (Sense::AtMost, true) => ", allowed ",
                    (Sense::AtLeast, true) => ", wanted ",
                    (_, false) => ", better ",
                };
                if let Ok(mark) = mark {
                    pieces.extend([words.into(), Piece::Figure { value: mark, unit, digits: spec.digits }]);
                }
            }
            pieces.push(".".into());
            let drain = [(BALANCE_AT_IDLE, DRAIN_AT_IDLE), (BALANCE_AT_CRUISE, DRAIN_AT_CRUISE)];
            let drain = drain.iter().find(|(balance, _)| balance.id == place.id).map(|(_, drain)| report.of(*drain));
            if let Some(Ok(lasts)) = drain {
                pieces.extend([" The battery lasts ".into(), Piece::figure(lasts.si(), HOUR), ".".into()]);
            }
        }
        (Ok(_), Kind::Text(_)) => {}
    }
    if circuits > 0 && of_circuits == Verdict::Within {
        pieces.push(format!(" All {circuits} circuits pass.").into());
    }
    Sentence { verdict: standing.verdict, pieces }
}
