//! How strong is the engine at the flywheel?
//!
//! A torque curve may be brake torque already (makers, benches), indicated torque (friction still to come off), or
//! torque at the wheels referred to the engine (losses of the driveline to be put back).

use super::{
    CURVE_POWER, CURVE_SPEED, CURVE_TORQUE, DISPLACEMENT, DRIVELINE_EFFICIENCY, FLYWHEEL_TORQUE, FRICTION_FACTOR, HIGHEST_SPEED, IDLE,
    OVERSHOOT, PEAK_POWER, PEAK_POWER_SPEED, PEAK_TORQUE, PEAK_TORQUE_SPEED, REDLINE, TORQUE_BASIS, TORQUE_CURVE, TorqueBasis,
};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{BAR, CM3, KW, NM, ONE, RPM};
use crate::quantity::{Power, Pressure, RotationalSpeed, Torque, Value, Volume, bar};
use crate::report::Unknown;
use crate::spec::Source;
use core::f64::consts::PI;

const FRICTION_FIT: Source = Source::FromMemory("Barnes-Moss 1975, in Heywood, Internal Combustion Engine Fundamentals, eq. 13.6");

static FRICTION_PRESSURE: Line =
    Line { equation: "p = 0.97 + 0.15 · n / 1000 + 0.05 · (n / 1000)²", terms: &[("n", RPM)], unit: BAR, source: FRICTION_FIT };
static FRICTION_TORQUE: Line =
    Line { equation: "M_f = k · p · V / (4 · π)", terms: &[("k", ONE), ("p", BAR), ("V", CM3)], unit: NM, source: Source::Definition };
static NET_OF_FRICTION: Line =
    Line { equation: "M = M_i − M_f", terms: &[("M_i", NM), ("M_f", NM)], unit: NM, source: Source::Definition };
static BEFORE_DRIVELINE: Line = Line { equation: "M = M_w / η", terms: &[("M_w", NM), ("η", ONE)], unit: NM, source: Source::Definition };
static POWER: Line = Line { equation: "P = M · 2 · π · n", terms: &[("M", NM), ("n", RPM)], unit: KW, source: Source::Definition };
static HIGHEST_LINE: Line =
    Line { equation: "n_max = n_r + Δn", terms: &[("n_r", RPM), ("Δn", RPM)], unit: RPM, source: Source::Definition };

/// Mean effective pressure of a motored four-stroke's total friction: 0.97 + 0.15·n + 0.05·n² bar, n in 1000 min⁻¹.
/// Fitted on engines of 845 to 2000 cm³ at wide-open throttle (Barnes-Moss 1975, in Heywood eq. 13.6, from memory).
#[must_use]
pub fn friction_mean_pressure(speed: RotationalSpeed) -> Pressure {
    let thousands = speed.in_per_minute() / 1000.0;
    bar(0.97 + 0.15 * thousands + 0.05 * thousands * thousands)
}

/// Torque of a mean effective pressure in a four-stroke: p·V/4π, by the work of one cycle over two turns.
#[must_use]
pub fn torque_of_mean_pressure(pressure: Pressure, displacement: Volume) -> Torque {
    Torque::from_si(pressure.si() * displacement.si() / (4.0 * PI))
}

pub(super) const FLYWHEEL: Step = Step {
    name: "torque at the flywheel",
    reads: &[CURVE_SPEED.id, CURVE_TORQUE.id, TORQUE_BASIS.id, FRICTION_FACTOR.id, DISPLACEMENT.id, DRIVELINE_EFFICIENCY.id],
    writes: &[FLYWHEEL_TORQUE.id, CURVE_POWER.id],
    run: |case| {
        for row in 0..case.rows(TORQUE_CURVE) {
            case.answer_row(FLYWHEEL_TORQUE, row, |case| at_flywheel(case, row));
            case.answer_row(CURVE_POWER, row, |case| {
                let (torque, speed) = (at_flywheel(case, row)?, case.cell(CURVE_SPEED, row)?);
                Ok(case.say(&POWER, &[torque.si(), speed.si()], torque * speed))
            });
        }
    },
};

fn at_flywheel(case: &mut Case<'_>, row: usize) -> Result<Torque, Unknown> {
    let given = case.cell(CURVE_TORQUE, row)?;
    match case.of(TORQUE_BASIS)? {
        TorqueBasis::Flywheel => Ok(given),
        TorqueBasis::Indicated => {
            let (speed, factor, displacement) = (case.cell(CURVE_SPEED, row)?, case.of(FRICTION_FACTOR)?, case.of(DISPLACEMENT)?);
            let pressure = case.say(&FRICTION_PRESSURE, &[speed.si()], friction_mean_pressure(speed));
            let friction = torque_of_mean_pressure(pressure * factor.si(), displacement);
            let friction = case.say(&FRICTION_TORQUE, &[factor.si(), pressure.si(), displacement.si()], friction);
            Ok(case.say(&NET_OF_FRICTION, &[given.si(), friction.si()], given - friction))
        }
        TorqueBasis::Wheels => {
            let efficiency = case.of(DRIVELINE_EFFICIENCY)?;
            Ok(case.say(&BEFORE_DRIVELINE, &[given.si(), efficiency.si()], given / efficiency.si()))
        }
    }
}

pub(super) const PEAKS: Step = Step {
    name: "peaks of the torque curve",
    reads: &[CURVE_SPEED.id, FLYWHEEL_TORQUE.id, CURVE_POWER.id, HIGHEST_SPEED.id],
    writes: &[PEAK_TORQUE.id, PEAK_TORQUE_SPEED.id, PEAK_POWER.id, PEAK_POWER_SPEED.id],
    run: |case| {
        let torque = highest(case, reached_torque).and_then(|(row, most)| Ok((row, pulls(most.ok_or(OUT_OF_REACH)?)?)));
        let power = highest(case, reached_power).and_then(|(row, most)| Ok((row, pulls(most.ok_or(OUT_OF_REACH)?)?)));
        case.answer(PEAK_TORQUE, |_| Ok(torque?.1));
        case.answer(PEAK_TORQUE_SPEED, |case| case.cell(CURVE_SPEED, torque?.0));
        case.answer(PEAK_POWER, |_| Ok(power?.1));
        case.answer(PEAK_POWER_SPEED, |case| case.cell(CURVE_SPEED, power?.0));
    },
};

const OUT_OF_REACH: Unknown = Unknown::NoSolution("All points of the torque curve lie above the highest engine speed.");

/// A peak of an engine that turns by itself; indicated torque may be less than what its friction takes.
fn pulls<V: Value>(most: V) -> Result<V, Unknown> {
    if most.to_cell() > 0.0 {
        return Ok(most);
    }
    Err(Unknown::NoSolution("No torque is left at the flywheel: check the torque curve and where it was measured."))
}

/// Torque of a point the engine reaches.
fn reached_torque(case: &mut Case<'_>, row: usize) -> Result<Option<Torque>, Unknown> {
    let (speed, torque) = (case.cell(CURVE_SPEED, row)?, case.cell(FLYWHEEL_TORQUE, row)?);
    match case.of(HIGHEST_SPEED) {
        // Torque peaks well below any redline: one that nobody gave is not asked for.
        Err(Unknown::NotGiven(_)) => Ok(Some(torque)),
        most => Ok((speed <= most?).then_some(torque)),
    }
}

/// Power of a point the engine reaches.
fn reached_power(case: &mut Case<'_>, row: usize) -> Result<Option<Power>, Unknown> {
    let (speed, most, power) = (case.cell(CURVE_SPEED, row)?, case.of(HIGHEST_SPEED)?, case.cell(CURVE_POWER, row)?);
    Ok((speed <= most).then_some(power))
}

/// Row and value of the largest; unknown while any row is, as it might be the one.
fn highest<V: PartialOrd + Copy>(
    case: &mut Case<'_>,
    value: impl Fn(&mut Case<'_>, usize) -> Result<V, Unknown>,
) -> Result<(usize, V), Unknown> {
    let mut best = (0, value(case, 0)?);
    for row in 1..case.rows(TORQUE_CURVE) {
        let next = value(case, row)?;
        if next > best.1 {
            best = (row, next);
        }
    }
    Ok(best)
}

/// An engine speed asked for, which the limiter and its overshoot must let the engine reach; `why` says which one they do not.
pub(in super::super) fn under_limiter(
    asked: Result<RotationalSpeed, Unknown>,
    highest: Result<RotationalSpeed, Unknown>,
    why: &'static str,
) -> Result<RotationalSpeed, Unknown> {
    let asked = asked?;
    match highest {
        // A redline nobody gave holds nothing back; one that cannot be does.
        Err(Unknown::NotGiven(_)) => Ok(asked),
        Err(why) => Err(why),
        Ok(highest) if asked > highest => Err(Unknown::NoSolution(why)),
        Ok(_) => Ok(asked),
    }
}

pub(super) const HIGHEST: Step = Step {
    name: "highest engine speed",
    reads: &[IDLE.id, REDLINE.id, OVERSHOOT.id],
    writes: &[HIGHEST_SPEED.id],
    run: |case| {
        case.answer(HIGHEST_SPEED, |case| {
            let (redline, overshoot) = (case.of(REDLINE)?, case.of(OVERSHOOT)?);
            let highest = case.say(&HIGHEST_LINE, &[redline.si(), overshoot.si()], redline + overshoot);
            // An idle nobody gave is asked for where it counts.
            let above = case.of(IDLE).is_ok_and(|idle| idle > highest);
            if above { Err(Unknown::NoSolution("The engine idles above its highest speed: check both.")) } else { Ok(highest) }
        });
    },
};
