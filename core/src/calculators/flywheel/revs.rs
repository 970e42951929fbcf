//! How fast does it rev?
//!
//! Out of gear all torque at the flywheel goes into spinning: J·dω/dt = M, so t = J·∫dω/M. The curve's torque is net
//! of the engine's own friction already, which is not taken off again.

use super::curve::{REVS_LIMITED, TorqueCurve, reached};
use super::{ENGINE_INERTIA, REFERENCE_ENGINE_INERTIA, REFERENCE_REV_TIME, REV_FROM, REV_GAIN, REV_TIME, REV_TO};
use crate::calculators::car::{CURVE_SPEED, FLYWHEEL_TORQUE, HIGHEST_SPEED};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{KG_M2, PERCENT, RPM, S};
use crate::quantity::{Inertia, Ratio, RotationalSpeed, Time, kilogram_square_metres, ratio};
use crate::report::Unknown;
use crate::spec::Source;

static REV_LINE: Line = Line {
    equation: "t = J · ∫ dω / M, n_1 to n_2",
    terms: &[("J", KG_M2), ("n_1", RPM), ("n_2", RPM)],
    unit: S,
    source: Source::Definition,
};
pub(super) static GAIN_LINE: Line =
    Line { equation: "1 − t / t_0", terms: &[("t", S), ("t_0", S)], unit: PERCENT, source: Source::Definition };

/// Time for an inertia to spin up along a torque curve. Closed form in each piece; exact but for rounding.
///
/// # Errors
/// When the curve does not reach over the range, or has no torque somewhere in it.
pub fn rev_time(curve: &TorqueCurve, inertia: Inertia, from: RotationalSpeed, to: RotationalSpeed) -> Result<Time, Unknown> {
    let mut sum = 0.0;
    for piece in curve.between(from, to)? {
        if piece.first.min(piece.last).si() <= 0.0 {
            return Err(Unknown::NoSolution("The engine makes no torque somewhere in this range."));
        }
        sum += super::curve::integral_of_reciprocal(piece.width().si(), piece.first.si(), piece.last.si(), 0.0);
    }
    Ok(Time::from_si(inertia.si() * sum))
}

/// Share of the reference's time that is saved; negative when it takes longer.
pub(super) fn gain(case: &mut Case<'_>, time: Time, reference: Time) -> Ratio {
    case.say(&GAIN_LINE, &[time.si(), reference.si()], ratio(1.0 - time / reference))
}

pub(super) const REVS: Step = Step {
    name: "free revs",
    reads: &[CURVE_SPEED.id, FLYWHEEL_TORQUE.id, HIGHEST_SPEED.id, REV_FROM.id, REV_TO.id, ENGINE_INERTIA.id, REFERENCE_ENGINE_INERTIA.id],
    writes: &[REV_TIME.id, REFERENCE_REV_TIME.id, REV_GAIN.id],
    run: |case| {
        // Time goes with the inertia: the curve is integrated once for both wheels.
        let unit = unit_time(case);
        let limited = reached(case, REV_TO, REVS_LIMITED);
        let (chosen, reference) = (case.of(ENGINE_INERTIA), case.of(REFERENCE_ENGINE_INERTIA));
        let time = |case: &mut Case<'_>, inertia: Result<Inertia, Unknown>| -> Result<Time, Unknown> {
            let ((from, to, unit), inertia) = (unit?, inertia?);
            Ok(case.say(&REV_LINE, &[inertia.si(), from.si(), to.si()], unit * inertia.si()))
        };
        case.answer(REV_TIME, |case| limited.and_then(|_| time(case, chosen)));
        case.answer(REFERENCE_REV_TIME, |case| limited.and_then(|_| time(case, reference)));
        // The share saved hangs on the inertias alone: as far as the limiter lets the engine, it is known.
        case.answer(REV_GAIN, |case| {
            let (chosen, reference) = (time(case, chosen)?, time(case, reference)?);
            Ok(gain(case, chosen, reference))
        });
    },
};

/// The range as far as the limiter lets the engine, and its time for one unit of inertia.
fn unit_time(case: &mut Case<'_>) -> Result<(RotationalSpeed, RotationalSpeed, Time), Unknown> {
    let (curve, from, to) = (TorqueCurve::of(case)?, case.of(REV_FROM)?, case.of(REV_TO)?);
    let to = match case.of(HIGHEST_SPEED) {
        Err(Unknown::NotGiven(_)) => to,
        highest => to.min(highest?),
    };
    Ok((from, to, rev_time(&curve, kilogram_square_metres(1.0), from, to)?))
}
