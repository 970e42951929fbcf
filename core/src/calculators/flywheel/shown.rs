//! The flywheel's answer in words.

use super::material::{Material, figures};
use super::{
    BURST_FACTOR, BURST_SPEED, BURST_WANTED, FACTOR, FACTOR_NEAR, FACTOR_WANTED, INERTIA, LAUNCH_LEFT, LAUNCH_SPEED, MATERIAL,
    MISSED_SHIFT, OVERSPEED, OVERSPEED_OUTCOME, REV_GAIN, RING_JOINED, ROUGHER,
};
use crate::build::Build;
use crate::calculators::car::REDLINE;
use crate::quantity::Value;
use crate::quantity::unit::{ONE, PERCENT, RPM};
use crate::report::{Report, Unknown};
use crate::sentence::{Piece, Sentence};
use crate::spec::{Domain, Id, Place, Verdict};

type Said = Result<Vec<Piece>, Unknown>;

/// `Revs 24 % quicker, idles 1.3× as uneven. Rim factor 3.1 on yield.` The worst verdict leads. Cast iron does not yield:
/// what it breaks at counts.
pub(super) fn sentence(build: &Build, report: &Report) -> Sentence {
    let worst = report.worst(build, INERTIA.id.calculator);
    let Some((verdict, place)) = worst else { return Sentence { verdict: Verdict::Within, pieces: livelier(report) } };
    let said = match verdict {
        Verdict::Within => rim(report).and_then(|rim| {
            let on = if brittle(report)? { " on breaking." } else { " on yield." };
            Ok([livelier(report), rim, vec![on.into()]].concat())
        }),
        Verdict::Near => near(build, report, place).map(|lead| [lead, livelier(report)].concat()),
        Verdict::Beyond => beyond(report, place.id),
        Verdict::Unknown => Ok([unknown(build, report, place), livelier(report)].concat()),
    };
    // What a verdict speaks of is known; were it not, the rest still is.
    let mut pieces = said.unwrap_or_else(|_| livelier(report));
    if let Some(Piece::Words(last)) = pieces.last_mut() {
        *last = last.trim_end().to_owned().into();
    }
    Sentence { verdict, pieces }
}

/// `Revs 24 % quicker, idles 1.3× as uneven. ` as far as known.
fn livelier(report: &Report) -> Vec<Piece> {
    let mut pieces = Vec::new();
    let gain = report.of(REV_GAIN).ok();
    if let Some(gain) = gain {
        let share = Piece::Figure { value: gain.si().abs(), unit: PERCENT, digits: 2 };
        pieces.extend(["Revs ".into(), share, if gain.si() < 0.0 { " slower".into() } else { " quicker".into() }]);
    }
    if let Ok(rougher) = report.of(ROUGHER) {
        pieces.push(if gain.is_some() { ", idles ".into() } else { "Idles ".into() });
        pieces.extend([figure(rougher.si(), 2), "× as uneven".into()]);
    }
    if !pieces.is_empty() {
        pieces.push(". ".into());
    }
    pieces
}

fn figure(value: f64, digits: u8) -> Piece {
    Piece::Figure { value, unit: ONE, digits }
}

fn brittle(report: &Report) -> Result<bool, Unknown> {
    report.of(MATERIAL).map(|metal| figures(metal).brittle)
}

fn rim(report: &Report) -> Said {
    Ok(vec!["Rim factor ".into(), figure(report.of(FACTOR)?.si(), 2)])
}

fn near(build: &Build, report: &Report, place: Place) -> Said {
    let estimate = report.standing(build, place).estimate;
    if estimate {
        let metal = report.of(MATERIAL)?;
        return Ok([rim(report)?, vec![" if it is ".into(), label(metal).into(), ". ".into()]].concat());
    }
    Ok(match place.id {
        id if id == FACTOR.id => {
            let [found, wanted] = Piece::apart([report.of(FACTOR)?.si(), report.of(FACTOR_NEAR)?.si()], ONE, 2);
            let on = if brittle(report)? { " on breaking, " } else { " on yield, " };
            vec!["Rim close: factor ".into(), found, on.into(), wanted, " wanted. ".into()]
        }
        id if id == BURST_FACTOR.id => {
            vec!["Rim close: bursts at ".into(), Piece::figure(report.of(BURST_SPEED)?.si(), RPM), ". ".into()]
        }
        id if id == OVERSPEED_OUTCOME.id => {
            vec![overspeed(report)?.into(), Piece::figure(report.of(OVERSPEED)?.si(), RPM), ", would stretch it. ".into()]
        }
        id if id == LAUNCH_LEFT.id => vec![
            "Near a stall: a dump at ".into(),
            Piece::figure(report.of(LAUNCH_SPEED)?.si(), RPM),
            " leaves ".into(),
            Piece::figure(report.of(LAUNCH_LEFT)?.si(), RPM),
            ". ".into(),
        ],
        id if id == RING_JOINED.id => vec!["A ring touches no other: check the sizes. ".into()],
        _ => vec!["Sizes and scales differ: check the sizes. ".into()],
    })
}

/// Which of the two the overspeed is.
fn overspeed(report: &Report) -> Result<&'static str, Unknown> {
    Ok(if report.of(OVERSPEED)? > report.of(MISSED_SHIFT)? { "The overspeed, " } else { "A missed shift, " })
}

fn beyond(report: &Report, id: Id) -> Said {
    Ok(match id {
        id if id == FACTOR.id => {
            let [found, wanted] = Piece::apart([report.of(FACTOR)?.si(), report.of(FACTOR_WANTED)?.si()], ONE, 2);
            let at = Piece::figure(report.of(REDLINE)?.si(), RPM);
            vec!["Beyond: do not run it. Rim factor ".into(), found, " at ".into(), at, ", ".into(), wanted, " wanted.".into()]
        }
        id if id == BURST_FACTOR.id => {
            let wanted = report.of(OVERSPEED)? * report.of(BURST_WANTED)?.si();
            let [bursts, wanted] = Piece::apart([report.of(BURST_SPEED)?.si(), wanted.si()], RPM, 3);
            vec!["Beyond: do not run it. Bursts at ".into(), bursts, ", ".into(), wanted, " wanted.".into()]
        }
        id if id == OVERSPEED_OUTCOME.id => {
            let at = Piece::figure(report.of(OVERSPEED)?.si(), RPM);
            vec!["Beyond: do not run it. ".into(), overspeed(report)?.into(), at, ", cracks it.".into()]
        }
        _ => vec![
            "Beyond: it stalls. A dump at ".into(),
            Piece::figure(report.of(LAUNCH_SPEED)?.si(), RPM),
            " leaves ".into(),
            Piece::figure(report.of(LAUNCH_LEFT)?.si(), RPM),
            ".".into(),
        ],
    })
}

/// `Unknown: rim strength. Needs the material. ` with the reason as the report gives it.
fn unknown(build: &Build, report: &Report, place: Place) -> Vec<Piece> {
    let what = match place.id {
        id if id == FACTOR.id || id == BURST_FACTOR.id || id == OVERSPEED_OUTCOME.id => "rim strength",
        id if id == LAUNCH_LEFT.id => "the launch",
        _ => "mass by the sizes",
    };
    let reason = match report.undecided(build, place) {
        Some(Unknown::NotGiven(id)) if id == MATERIAL.id => "Needs the material.".to_owned(),
        Some(why) => why.reason(report.layout()),
        None => String::new(),
    };
    vec![format!("Unknown: {what}. {reason} ").into()]
}

fn label(metal: Material) -> &'static str {
    match Material::DOMAIN {
        Domain::Choices(choices) => choices.get(metal as usize).map_or("", |choice| choice.label),
        Domain::Dimension(_) => "",
    }
}
