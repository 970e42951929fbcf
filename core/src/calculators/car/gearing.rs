//! How fast is the car in each gear?
//!
//! Road speed = engine speed · rolling radius / (gear · final drive). The loaded tyre rolls a little less than its
//! girth: circumference ≈ 0.97·π·D (from memory; the tyre makers' convention is 3.05·D).

use super::{
    CRUISE_ENGINE_SPEED, FINAL_DRIVE, GEAR_RATIO, GEARS, MOTORWAY_SPEED, POWER_SPEED, REDLINE, RIM, ROLLING_RADIUS,
    ROLLING_RADIUS_FROM_SIZE, SPEED_AT_POWER, SPEED_AT_REDLINE, SPEED_PER_THOUSAND, TYRE_ASPECT, TYRE_DIAMETER, TYRE_WIDTH,
};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{KM_PER_H, MM, ONE, RPM};
use crate::quantity::{Length, Ratio, RotationalSpeed, Velocity, per_minute, rim_speed};
use crate::report::Unknown;
use crate::spec::Source;

/// Share of the unloaded girth that a loaded tyre rolls in one turn.
const ROLLED_SHARE: f64 = 0.97;

static DIAMETER: Line = Line {
    equation: "D = d + 2 · W · A",
    terms: &[("d", MM), ("W", MM), ("A", ONE)],
    unit: MM,
    source: Source::Standard("ISO 4000-1, tyre designation"),
};
static ROLLED: Line = Line {
    equation: "r = 0.97 · D / 2",
    terms: &[("D", MM)],
    unit: MM,
    source: Source::FromMemory("tyre makers' convention for the rolling circumference"),
};
static ROAD_SPEED: Line = Line {
    equation: "v = 2 · π · n · r / (i · i_f)",
    terms: &[("n", RPM), ("r", MM), ("i", ONE), ("i_f", ONE)],
    unit: KM_PER_H,
    source: Source::Definition,
};
static ENGINE_SPEED: Line = Line {
    equation: "n = v · i · i_f / (2 · π · r)",
    terms: &[("v", KM_PER_H), ("i", ONE), ("i_f", ONE), ("r", MM)],
    unit: RPM,
    source: Source::Definition,
};

/// Unloaded diameter of a tyre by its designation: rim + 2·width·aspect (ISO 4000-1).
#[must_use]
pub fn tyre_diameter(width: Length, aspect: Ratio, rim: Length) -> Length {
    rim + width * (2.0 * aspect.si())
}

/// Road speed at an engine speed, without slip.
#[must_use]
pub fn road_speed(engine: RotationalSpeed, radius: Length, gear: Ratio, final_drive: Ratio) -> Velocity {
    rim_speed(engine, radius) / (gear.si() * final_drive.si())
}

pub(super) const TYRE: Step = Step {
    name: "tyre",
    reads: &[TYRE_WIDTH.id, TYRE_ASPECT.id, RIM.id],
    writes: &[TYRE_DIAMETER.id, ROLLING_RADIUS_FROM_SIZE.id],
    run: |case| {
        case.answer(TYRE_DIAMETER, diameter);
        case.answer(ROLLING_RADIUS_FROM_SIZE, |case| {
            let diameter = diameter(case)?;
            Ok(case.say(&ROLLED, &[diameter.si()], diameter * (ROLLED_SHARE / 2.0)))
        });
    },
};

fn diameter(case: &mut Case<'_>) -> Result<Length, Unknown> {
    let (width, aspect, rim) = (case.of(TYRE_WIDTH)?, case.of(TYRE_ASPECT)?, case.of(RIM)?);
    Ok(case.say(&DIAMETER, &[rim.si(), width.si(), aspect.si()], tyre_diameter(width, aspect, rim)))
}

pub(super) const SPEEDS: Step = Step {
    name: "road speeds",
    reads: &[ROLLING_RADIUS.id, GEAR_RATIO.id, FINAL_DRIVE.id, POWER_SPEED.id, REDLINE.id, MOTORWAY_SPEED.id],
    writes: &[SPEED_PER_THOUSAND.id, SPEED_AT_POWER.id, SPEED_AT_REDLINE.id, CRUISE_ENGINE_SPEED.id],
    run: |case| {
        for row in 0..case.rows(GEARS) {
            case.answer_row(SPEED_PER_THOUSAND, row, |case| speed(case, row, per_minute(1000.0)));
            for (output, engine) in [(SPEED_AT_POWER, POWER_SPEED), (SPEED_AT_REDLINE, REDLINE)] {
                case.answer_row(output, row, |case| {
                    let engine = case.of(engine)?;
                    speed(case, row, engine)
                });
            }
        }
        case.answer(CRUISE_ENGINE_SPEED, |case| {
            let (gear, axle) = (top(case)?, case.of(FINAL_DRIVE)?);
            let (radius, road) = (case.of(ROLLING_RADIUS)?, case.of(MOTORWAY_SPEED)?);
            let engine = RotationalSpeed::from_si(road.si() / radius.si() * gear.si() * axle.si());
            Ok(case.say(&ENGINE_SPEED, &[road.si(), gear.si(), axle.si(), radius.si()], engine))
        });
    },
};

/// The ratio of first gear: the largest, in whichever order they are listed.
pub(in crate::calculators) fn first(case: &mut Case<'_>) -> Result<Ratio, Unknown> {
    extreme(case, Ratio::max)
}

/// The ratio of top gear: the least.
pub(in crate::calculators) fn top(case: &mut Case<'_>) -> Result<Ratio, Unknown> {
    extreme(case, Ratio::min)
}

/// Unknown while any gear is, as it might be the one.
fn extreme(case: &mut Case<'_>, pick: fn(Ratio, Ratio) -> Ratio) -> Result<Ratio, Unknown> {
    let mut found = case.cell(GEAR_RATIO, 0)?;
    for row in 1..case.rows(GEARS) {
        found = pick(found, case.cell(GEAR_RATIO, row)?);
    }
    Ok(found)
}

fn speed(case: &mut Case<'_>, row: usize, engine: RotationalSpeed) -> Result<Velocity, Unknown> {
    let (radius, gear, axle) = (case.of(ROLLING_RADIUS)?, case.cell(GEAR_RATIO, row)?, case.of(FINAL_DRIVE)?);
    let numbers = [engine.si(), radius.si(), gear.si(), axle.si()];
    Ok(case.say(&ROAD_SPEED, &numbers, road_speed(engine, radius, gear, axle)))
}
