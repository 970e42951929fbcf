//! What does each remedy buy of the least room standing?
//!
//! Each is done to the engine as it stands, and the least room of all points taken again: a cut helps until another point
//! is the tightest, thinner packers tip the engine about the gearbox's mount, a tilt about its own mounts.

use super::above::Least;
use super::room::{Bonnet, Point, Standing, rest};
use super::space::tip;
use super::{
    BUYS_CUT, BUYS_DROP, BUYS_PACKER, BUYS_RAISE, BUYS_TILT, GEARBOX_MOUNT, POINTS, TRY_CUT, TRY_DROP, TRY_PACKER, TRY_RAISE, TRY_TILT,
};
use crate::plan::{Case, Line};
use crate::quantity::Length;
use crate::quantity::unit::MM;
use crate::report::Unknown;
use crate::spec::Source;

static GAIN: Line = Line { equation: "Δ = s' − s", terms: &[("s'", MM), ("s", MM)], unit: MM, source: Source::Definition };

/// The least room of all points after each remedy, and before any.
struct Lefts {
    now: Least,
    second: Result<f64, Unknown>,
    tightest: usize,
    packed: Least,
    tilted: Least,
    raised: Least,
}

pub(super) fn buys(case: &mut Case<'_>, standing: Result<Standing, Unknown>, bonnet: Result<&Bonnet, Unknown>) {
    let lefts = lefts(case, standing, bonnet);
    let cut = cut(case, standing, bonnet, &lefts);
    let drop = case.of(TRY_DROP);
    let answers = [
        (BUYS_CUT, cut),
        (BUYS_PACKER, lefts.packed.0),
        // Whatever is over a point, a lower engine is as much further from it.
        (BUYS_DROP, drop.and_then(|drop| Ok(lefts.now.0? + drop.si()))),
        (BUYS_TILT, lefts.tilted.0),
        (BUYS_RAISE, lefts.raised.0),
    ];
    for (output, left) in answers {
        case.answer(output, |case| {
            let (left, now) = (left?, lefts.now.0?);
            Ok(case.say(&GAIN, &[left, now], Length::from_si(left - now)))
        });
    }
}

fn lefts(case: &mut Case<'_>, standing: Result<Standing, Unknown>, bonnet: Result<&Bonnet, Unknown>) -> Lefts {
    let (packer, base, tilt, raise) = (case.of(TRY_PACKER), case.of(GEARBOX_MOUNT), case.of(TRY_TILT), case.of(TRY_RAISE));
    let packed = standing.and_then(|standing| Ok(standing.moved(-packer?.si(), -tip(packer?, base?).si())));
    let tilted = standing.and_then(|standing| Ok(standing.moved(0.0, tilt?.si())));
    let mut lefts = Lefts {
        now: Least::new(),
        second: Ok(f64::INFINITY),
        tightest: 0,
        packed: Least::new(),
        tilted: Least::new(),
        raised: Least::new(),
    };
    for row in 0..case.rows(POINTS) {
        let point = Point::read(case, row);
        let now = standing.and_then(|standing| Ok(rest(&standing.stance, bonnet?, &point?)?.gap));
        let before = lefts.now.0;
        if lefts.now.take(now) {
            (lefts.tightest, lefts.second) = (row, before);
        } else if let (Ok(second), Ok(now)) = (lefts.second, now) {
            lefts.second = Ok(second.min(now));
        }
        lefts.packed.take(packed.and_then(|stance| Ok(rest(&stance, bonnet?, &point?)?.gap)));
        lefts.tilted.take(tilted.and_then(|stance| Ok(rest(&stance, bonnet?, &point?)?.gap)));
        lefts.raised.take(point.and_then(|point| Ok(now? + if point.ceiling.is_none() { raise?.si() } else { 0.0 })));
    }
    lefts
}

fn cut(case: &mut Case<'_>, standing: Result<Standing, Unknown>, bonnet: Result<&Bonnet, Unknown>, lefts: &Lefts) -> Result<f64, Unknown> {
    lefts.now.0?;
    let mut point = Point::read(case, lefts.tightest)?;
    point.at[2] -= case.of(TRY_CUT)?.si();
    Ok(rest(&standing?.stance, bonnet?, &point)?.gap.min(lefts.second?))
}
