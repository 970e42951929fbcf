//! What do the accessories take from the engine?

use crate::calculators::car::{CRUISE, HIGHEST_SPEED, IDLE};
use crate::calculators::front_drive::alternator;
use crate::calculators::front_drive::declared::{
    ACCESSORY_POWER_CRUISE, ACCESSORY_POWER_HIGH, ACCESSORY_POWER_IDLE, ACCESSORY_TORQUE_CRUISE, ACCESSORY_TORQUE_HIGH,
    ACCESSORY_TORQUE_IDLE, CRUISE_SPEED, DUTY, Duty, HIGH_SPEED, IDLE_SPEED, LOAD, PULLEYS, PUMP_POWER_CRUISE, PUMP_POWER_HIGH,
    PUMP_POWER_IDLE, SHAFT_POWER_CRUISE, SHAFT_POWER_HIGH, SHAFT_POWER_IDLE,
};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{NM, RPM, W};
use crate::quantity::{Power, RotationalSpeed, Torque};
use crate::report::Unknown;
use crate::spec::{Output, OutputColumn, Single, Source};

static SUM: Line = Line {
    equation: "P = P_alternator + P_pump + P_other",
    terms: &[("P_alternator", W), ("P_pump", W), ("P_other", W)],
    unit: W,
    source: Source::Definition,
};
static AT_CRANK: Line = Line { equation: "M = P / ( 2 · π · n )", terms: &[("P", W), ("n", RPM)], unit: NM, source: Source::Definition };
pub(in super::super) const ACCESSORIES: Step = Step {
    name: "accessory power and torque",
    reads: &[
        DUTY.id,
        LOAD.id,
        IDLE_SPEED.id,
        CRUISE_SPEED.id,
        HIGH_SPEED.id,
        SHAFT_POWER_IDLE.id,
        SHAFT_POWER_CRUISE.id,
        SHAFT_POWER_HIGH.id,
        PUMP_POWER_IDLE.id,
        PUMP_POWER_CRUISE.id,
        PUMP_POWER_HIGH.id,
        IDLE.id,
        CRUISE.id,
        HIGHEST_SPEED.id,
    ],
    writes: &[
        ACCESSORY_POWER_IDLE.id,
        ACCESSORY_POWER_CRUISE.id,
        ACCESSORY_POWER_HIGH.id,
        ACCESSORY_TORQUE_IDLE.id,
        ACCESSORY_TORQUE_CRUISE.id,
        ACCESSORY_TORQUE_HIGH.id,
    ],
    run: |case| {
        let powers = [
            (ACCESSORY_POWER_IDLE, (SHAFT_POWER_IDLE, PUMP_POWER_IDLE, IDLE_SPEED)),
            (ACCESSORY_POWER_CRUISE, (SHAFT_POWER_CRUISE, PUMP_POWER_CRUISE, CRUISE_SPEED)),
            (ACCESSORY_POWER_HIGH, (SHAFT_POWER_HIGH, PUMP_POWER_HIGH, HIGH_SPEED)),
        ];
        for (output, at) in powers {
            case.answer(output, |case| taken(case, at));
        }
        let (idle, cruise, high) = (powers[0].1, powers[1].1, powers[2].1);
        case.answer(ACCESSORY_TORQUE_IDLE, |case| at_crank(case, idle, IDLE));
        case.answer(ACCESSORY_TORQUE_CRUISE, |case| at_crank(case, cruise, CRUISE));
        case.answer(ACCESSORY_TORQUE_HIGH, |case| at_crank(case, high, HIGHEST_SPEED));
    },
};

/// Alternator's and pump's power, and the column of speeds, at one engine speed.
pub(super) type At = (Output<Power>, Output<Power>, OutputColumn<RotationalSpeed>);

fn taken(case: &mut Case<'_>, (alternator, pump, speeds): At) -> Result<Power, Unknown> {
    let (mut charging, mut pumping, mut other) = (Power::ZERO, Power::ZERO, Power::ZERO);
    for row in 0..case.rows(PULLEYS) {
        match case.cell(DUTY, row)? {
            Duty::Alternator => charging = charging + case.of(alternator)?,
            Duty::Pump => pumping = pumping + case.of(pump)?,
            Duty::Crank => {}
            Duty::Idler | Duty::Tensioner | Duty::Other => other = other + case.cell(LOAD, row)? * case.cell(speeds, row)?,
        }
    }
    Ok(case.say(&SUM, &[charging.si(), pumping.si(), other.si()], charging + pumping + other))
}

fn at_crank(case: &mut Case<'_>, at: At, engine: impl Single<RotationalSpeed>) -> Result<Torque, Unknown> {
    let (power, engine) = (taken(case, at)?, case.of(engine)?);
    Ok(case.say(&AT_CRANK, &[power.si(), engine.si()], alternator::torque(power, engine)))
}
