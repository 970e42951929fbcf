//! How fast does it fall with the throttle shut, and so how long does each upshift want?
//!
//! J·dω/dt = −(k·p_f + Δp)·V/4π: the friction of the motored fit and the work of pumping against the shut throttle. In
//! a shift the clutch is down, so the driven plate stays with the gearbox; the car's own slowing is left out.

use super::curve::{NO_RANGE, REVS_LIMITED, SHIFT_LIMITED, integral_of_reciprocal, reached};
use super::{
    DROP_TIME, ENGINE_INERTIA, LAG, PLATE_INERTIA, PUMPING, REFERENCE_DROP_TIME, REFERENCE_ENGINE_INERTIA, REFERENCE_SHIFT_TIME, REV_FROM,
    REV_TO, SHIFT_SPEED, SHIFT_TIME, SHIFT_TO,
};
use crate::calculators::car::engine::{friction_mean_pressure, torque_of_mean_pressure};
use crate::calculators::car::{DISPLACEMENT, FRICTION_FACTOR, GEAR_RATIO, GEARS, HIGHEST_SPEED};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{BAR, CM3, KG_M2, ONE, RPM, S};
use crate::quantity::{Inertia, Pressure, Ratio, RotationalSpeed, Time, Torque, Volume, kilogram_square_metres};
use crate::report::Unknown;
use crate::spec::Source;

const FRICTION_FIT: Source = Source::FromMemory("Barnes-Moss 1975, in Heywood, Internal Combustion Engine Fundamentals, eq. 13.6");
static DROP_LINE: Line = Line {
    equation: "t = J · ∫ 4 · π / ((k · p_f + Δp) · V) dω, n_1 to n_2",
    terms: &[("J", KG_M2), ("k", ONE), ("Δp", BAR), ("V", CM3), ("n_1", RPM), ("n_2", RPM)],
    unit: S,
    source: FRICTION_FIT,
};
static WITH_LAG: Line = Line { equation: "t = t_l + t_d", terms: &[("t_l", S), ("t_d", S)], unit: S, source: Source::Definition };
static MATCHED: Line =
    Line { equation: "n_2 = n_1 · i_2 / i_1", terms: &[("n_1", RPM), ("i_2", ONE), ("i_1", ONE)], unit: RPM, source: Source::Definition };

/// What slows an engine whose throttle is shut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EngineDrag {
    /// Share of the usual friction fit that this engine has (dimensionless).
    pub friction: Ratio,
    /// Mean effective pressure of pumping against the shut throttle, over that of an open one.
    pub pumping: Pressure,
    /// Swept volume of all cylinders.
    pub displacement: Volume,
}

impl EngineDrag {
    /// Torque that slows the engine at this speed.
    #[must_use]
    pub fn at(&self, speed: RotationalSpeed) -> Torque {
        torque_of_mean_pressure(friction_mean_pressure(speed) * self.friction.si() + self.pumping, self.displacement)
    }

    /// Time for an inertia to fall from one speed to a lower one. Exact: the drag is a quadratic.
    ///
    /// # Errors
    /// When it would not fall at all, or the range has no width.
    pub fn fall_time(&self, inertia: Inertia, from: RotationalSpeed, to: RotationalSpeed) -> Result<Time, Unknown> {
        if to >= from {
            return Err(NO_RANGE);
        }
        let (first, middle, last) = (self.at(to).si(), self.at((from + to) / 2.0).si(), self.at(from).si());
        if first <= 0.0 {
            return Err(Unknown::NoSolution("Without friction or pumping the engine does not slow down."));
        }
        let bow = 2.0 * (first + last - 2.0 * middle);
        Ok(Time::from_si(inertia.si() * integral_of_reciprocal((from - to).si(), first, last, bow)))
    }
}

/// Engine speed that the next gear asks for at the same road speed: n·i₂/i₁.
#[must_use]
pub fn speed_after_shift(speed: RotationalSpeed, gear: Ratio, next: Ratio) -> RotationalSpeed {
    speed * (next / gear)
}

pub(super) fn drag(case: &mut Case<'_>) -> Result<EngineDrag, Unknown> {
    Ok(EngineDrag { friction: case.of(FRICTION_FACTOR)?, pumping: case.of(PUMPING)?, displacement: case.of(DISPLACEMENT)? })
}

/// Time of a fall that takes one unit of inertia `unit`; says its line.
fn fall(case: &mut Case<'_>, drag: &EngineDrag, inertia: Inertia, unit: Time, [from, to]: [RotationalSpeed; 2]) -> Time {
    let numbers = [inertia.si(), drag.friction.si(), drag.pumping.si(), drag.displacement.si(), from.si(), to.si()];
    case.say(&DROP_LINE, &numbers, unit * inertia.si())
}

/// A fall that the two wheels' inertias multiply: what drags, between which speeds, and how long one unit takes.
type Fall = Result<(EngineDrag, [RotationalSpeed; 2], Time), Unknown>;

fn unit_fall(drag: Result<EngineDrag, Unknown>, from: Result<RotationalSpeed, Unknown>, to: Result<RotationalSpeed, Unknown>) -> Fall {
    let (drag, from, to) = (drag?, from?, to?);
    Ok((drag, [from, to], drag.fall_time(kilogram_square_metres(1.0), from, to)?))
}

fn shifts(case: &mut Case<'_>) -> Result<RotationalSpeed, Unknown> {
    reached(case, SHIFT_SPEED, SHIFT_LIMITED)
}

/// Speed that the gear after a row's asks for, with the numbers its line names.
fn matched(case: &mut Case<'_>, row: usize) -> Result<(RotationalSpeed, [f64; 3]), Unknown> {
    if row + 1 >= case.rows(GEARS) {
        return Err(Unknown::NoSolution("There is no higher gear."));
    }
    let (speed, gear, next) = (shifts(case)?, case.cell(GEAR_RATIO, row)?, case.cell(GEAR_RATIO, row + 1)?);
    if next >= gear {
        return Err(Unknown::NoSolution("The next gear in the list is not a higher one."));
    }
    Ok((speed_after_shift(speed, gear, next), [speed.si(), next.si(), gear.si()]))
}

pub(super) const SHUT: Step = Step {
    name: "falling with the throttle shut",
    reads: &[
        FRICTION_FACTOR.id,
        PUMPING.id,
        DISPLACEMENT.id,
        HIGHEST_SPEED.id,
        REV_FROM.id,
        REV_TO.id,
        SHIFT_SPEED.id,
        LAG.id,
        GEAR_RATIO.id,
        PLATE_INERTIA.id,
        ENGINE_INERTIA.id,
        REFERENCE_ENGINE_INERTIA.id,
    ],
    writes: &[DROP_TIME.id, REFERENCE_DROP_TIME.id, SHIFT_TO.id, SHIFT_TIME.id, REFERENCE_SHIFT_TIME.id],
    run: |case| {
        let (drag, lag, plate) = (drag(case), case.of(LAG), case.of(PLATE_INERTIA));
        let (chosen, reference) = (case.of(ENGINE_INERTIA), case.of(REFERENCE_ENGINE_INERTIA));
        let drop = unit_fall(drag, reached(case, REV_TO, REVS_LIMITED), case.of(REV_FROM));
        let time = |case: &mut Case<'_>, inertia: Result<Inertia, Unknown>| {
            let (drag, range, unit) = drop?;
            Ok(fall(case, &drag, inertia?, unit, range))
        };
        case.answer(DROP_TIME, |case| time(case, chosen));
        case.answer(REFERENCE_DROP_TIME, |case| time(case, reference));
        let from = shifts(case);
        for row in 0..case.rows(GEARS) {
            let matched = matched(case, row);
            case.answer_row(SHIFT_TO, row, |case| {
                let (to, numbers) = matched?;
                Ok(case.say(&MATCHED, &numbers, to))
            });
            let drop = unit_fall(drag, from, matched.map(|(to, _)| to));
            let shift = |case: &mut Case<'_>, inertia: Result<Inertia, Unknown>| {
                let ((drag, range, unit), lag) = (drop?, lag?);
                let falling = fall(case, &drag, inertia? - plate?, unit, range);
                Ok(case.say(&WITH_LAG, &[lag.si(), falling.si()], lag + falling))
            };
            case.answer_row(SHIFT_TIME, row, |case| shift(case, chosen));
            case.answer_row(REFERENCE_SHIFT_TIME, row, |case| shift(case, reference));
        }
    },
};
