//! What does each remedy buy of the least room standing?
//!
//! Each is done to the engine as it stands, and the least room of all points taken again: a cut helps until another point
//! is the tightest, thinner packers tip the engine about the gearbox's mount, a tilt about its own mounts.

use super::above::{Least, MOST_POINTS};
use super::placed::{Bonnet, Point, Standing};
use super::room::rest;
use super::space::{Stance, tip};
use super::{BUYS_CUT, BUYS_DROP, BUYS_PACKER, BUYS_RAISE, BUYS_TILT, GEARBOX_MOUNT, TRY_CUT, TRY_DROP, TRY_PACKER, TRY_RAISE, TRY_TILT};
use crate::plan::{Case, Line};
use crate::quantity::Length;
use crate::quantity::unit::MM;
use crate::report::Unknown;
use crate::spec::Source;

static GAIN: Line = Line { equation: "Δ = s' − s", terms: &[("s'", MM), ("s", MM)], unit: MM, source: Source::Definition };

/// Points with their room standing, in the order of their rows.
type Rooms = [Option<(Point, f64)>; MOST_POINTS];

/// `now` is the least room of all points; while it is not known, nothing else is.
pub(super) fn buys(
    case: &mut Case<'_>,
    standing: Result<Standing, Unknown>,
    bonnet: Result<&Bonnet, Unknown>,
    now: Result<f64, Unknown>,
    rooms: &Rooms,
) {
    let least = |stance: &Stance| -> Result<f64, Unknown> {
        let mut least = Least::new();
        for (point, _) in rooms.iter().flatten() {
            least.take(Ok(rest(stance, bonnet?, point)?.gap));
        }
        least.0
    };
    let (cut, drop) = (case.of(TRY_CUT), case.of(TRY_DROP));
    let (packer, base, tilt, raise) = (case.of(TRY_PACKER), case.of(GEARBOX_MOUNT), case.of(TRY_TILT), case.of(TRY_RAISE));
    let packed = now.and_then(|_| {
        let (packer, base) = (packer?, base?);
        least(&standing?.moved(-packer.si(), -tip(packer, base).si()))
    });
    let answers = [
        (BUYS_CUT, now.and_then(|_| after_cut(&standing?.stance, bonnet?, cut?.si(), rooms))),
        (BUYS_PACKER, packed),
        // Whatever is over a point, a lower engine is as much further from it.
        (BUYS_DROP, now.and_then(|now| Ok(now + drop?.si()))),
        (BUYS_TILT, now.and_then(|_| least(&standing?.moved(0.0, tilt?.si())))),
        (BUYS_RAISE, now.and_then(|_| Ok(after_raise(raise?.si(), rooms)))),
    ];
    for (output, left) in answers {
        case.answer(output, |case| {
            let (left, now) = (left?, now?);
            Ok(case.say(&GAIN, &[left, now], Length::from_si(left - now)))
        });
    }
}

fn after_cut(stance: &Stance, bonnet: &Bonnet, cut: f64, rooms: &Rooms) -> Result<f64, Unknown> {
    let mut tightest: Option<(Point, f64)> = None;
    let mut second = f64::INFINITY;
    for &(point, gap) in rooms.iter().flatten() {
        match tightest {
            Some((_, least)) if gap >= least => second = second.min(gap),
            _ => {
                second = tightest.map_or(second, |(_, least)| least);
                tightest = Some((point, gap));
            }
        }
    }
    let (mut point, _) = tightest.ok_or(Unknown::NotComputed)?;
    point.at[2] -= cut;
    Ok(rest(stance, bonnet, &point)?.gap.min(second))
}

fn after_raise(raise: f64, rooms: &Rooms) -> f64 {
    let raised = |&(point, gap): &(Point, f64)| gap + if point.ceiling.is_none() { raise } else { 0.0 };
    rooms.iter().flatten().map(raised).fold(f64::INFINITY, f64::min)
}
