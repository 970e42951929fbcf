//! How fast does every pulley turn?

use super::first;
use crate::calculators::car::engine::under_limiter;
use crate::calculators::car::{CRUISE, HIGHEST_SPEED, IDLE};
use crate::calculators::front_drive::belt_path::Side;
use crate::calculators::front_drive::declared::{
    ALTERNATOR_CRUISE, ALTERNATOR_HIGH, ALTERNATOR_HIGH_MEASURED, ALTERNATOR_IDLE, ALTERNATOR_LIMIT, ALTERNATOR_RATIO, BACK_TO_CORD,
    BELT_LINE, BELT_SPEED, CRUISE_SPEED, DIAMETER, DUTY, Duty, FITTED, HIGH_SPEED, IDLE_SPEED, IDLE_WANTED, LEAST_ALTERNATOR_PULLEY,
    LEAST_GROOVED, LINE_DIFFERENCE, LINE_DIFFERENCE_MEASURED, MOST_ALTERNATOR_PULLEY, PULLEYS, PUMP_CRUISE, PUMP_HIGH, PUMP_HIGH_REFERENCE,
    PUMP_IDLE, PUMP_IDLE_REFERENCE, PUMP_SHARE, RATIO, REFERENCE_CRANK_PULLEY, REFERENCE_PUMP_PULLEY, REFLECTED_INERTIA, ROTOR, SIDE, SLIP,
};
use crate::calculators::front_drive::{alternator, speeds};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{KG_M2, M_PER_S, MM, ONE, PERCENT, RPM};
use crate::quantity::{Inertia, Length, Ratio, RotationalSpeed, ratio};
use crate::report::Unknown;
use crate::spec::{Input, Source};

static ON_RIBS: Line =
    Line { equation: "d_p = d_e + 2 · b", terms: &[("d_e", MM), ("b", MM)], unit: MM, source: Source::Standard("ISO 9981:2020, 5.4") };
static ON_BACK: Line = Line { equation: "d_p = d + 2 · h", terms: &[("d", MM), ("h", MM)], unit: MM, source: Source::Definition };
static RATIO_LINE: Line = Line {
    equation: "i = d_crank / d_p · ( 1 − s )",
    terms: &[("d_crank", MM), ("d_p", MM), ("s", PERCENT)],
    unit: ONE,
    source: Source::Definition,
};
static SPEED: Line = Line { equation: "n_2 = n · i", terms: &[("n", RPM), ("i", ONE)], unit: RPM, source: Source::Definition };
static BELT_RUN: Line =
    Line { equation: "v = π · n · d_p", terms: &[("n", RPM), ("d_p", MM)], unit: M_PER_S, source: Source::Definition };
static DIAMETER_FOR: Line = Line {
    equation: "d_e = d_crank · n / n_2 · ( 1 − s ) − 2 · b",
    terms: &[("d_crank", MM), ("n", RPM), ("n_2", RPM), ("s", PERCENT), ("b", MM)],
    unit: MM,
    source: Source::Definition,
};
static LARGER: Line =
    Line { equation: "d = larger of d_e and d_least", terms: &[("d_e", MM), ("d_least", MM)], unit: MM, source: Source::Definition };
static SHARE: Line = Line { equation: "q = i / i_ref", terms: &[("i", ONE), ("i_ref", ONE)], unit: PERCENT, source: Source::Definition };
static REFLECTED: Line =
    Line { equation: "J_crank = J · i² + …", terms: &[("J", KG_M2), ("i", ONE)], unit: KG_M2, source: Source::Definition };

/// Belt line on a pulley, by the line difference given.
fn belt_line(case: &mut Case<'_>, row: usize, difference: Input<Length>) -> Result<Length, Unknown> {
    let diameter = case.cell(DIAMETER, row)?;
    let side = case.cell(SIDE, row)?;
    on(case, diameter, side, difference)
}

fn on(case: &mut Case<'_>, diameter: Length, side: Side, difference: Input<Length>) -> Result<Length, Unknown> {
    match side {
        Side::Ribs => {
            let difference = case.of(difference)?;
            let line = speeds::on_ribs(diameter, difference);
            Ok(case.say(&ON_RIBS, &[diameter.si(), difference.si()], line))
        }
        Side::Back => {
            let back = case.of(BACK_TO_CORD)?;
            Ok(case.say(&ON_BACK, &[diameter.si(), back.si()], speeds::on_back(diameter, back)))
        }
    }
}

fn turns(case: &mut Case<'_>, crank: Length, own: Length) -> Result<Ratio, Unknown> {
    let slip = case.of(SLIP)?;
    let one = RotationalSpeed::from_si(1.0);
    let value = ratio(speeds::driven(one, crank, own, slip.si()).si());
    Ok(case.say(&RATIO_LINE, &[crank.si(), own.si(), slip.si()], value))
}

fn ratio_of(case: &mut Case<'_>, crank: Result<usize, Unknown>, row: usize, difference: Input<Length>) -> Result<Ratio, Unknown> {
    let crank = crank?;
    if row == crank {
        return Ok(ratio(1.0));
    }
    let (crank, own) = (belt_line(case, crank, difference)?, belt_line(case, row, difference)?);
    turns(case, crank, own)
}

fn speed(case: &mut Case<'_>, engine: RotationalSpeed, ratio: Ratio) -> RotationalSpeed {
    case.say(&SPEED, &[engine.si(), ratio.si()], engine * ratio.si())
}

const CRUISES_ABOVE: &str = "The engine cruises above its highest speed: check both.";

pub(in super::super) const RATIOS: Step = Step {
    name: "ratios of the pulleys",
    reads: &[DUTY.id, DIAMETER.id, SIDE.id, LINE_DIFFERENCE.id, BACK_TO_CORD.id, SLIP.id],
    writes: &[BELT_LINE.id, FITTED.id, RATIO.id],
    run: |case| {
        let crank = first(case, Duty::Crank);
        for row in 0..case.rows(PULLEYS) {
            case.answer_row(BELT_LINE, row, |case| belt_line(case, row, LINE_DIFFERENCE));
            case.answer_row(FITTED, row, |case| case.cell(DIAMETER, row));
            case.answer_row(RATIO, row, |case| ratio_of(case, crank, row, LINE_DIFFERENCE));
        }
    },
};

pub(in super::super) const ROWS: Step = Step {
    name: "speeds of the pulleys",
    reads: &[DUTY.id, BELT_LINE.id, RATIO.id, ROTOR.id, IDLE.id, CRUISE.id, HIGHEST_SPEED.id],
    writes: &[IDLE_SPEED.id, CRUISE_SPEED.id, HIGH_SPEED.id, BELT_SPEED.id, REFLECTED_INERTIA.id],
    run: |case| {
        for row in 0..case.rows(PULLEYS) {
            for (output, engine) in [(IDLE_SPEED, IDLE), (CRUISE_SPEED, CRUISE)] {
                case.answer_row(output, row, |case| {
                    let engine = under_limiter(case.of(engine), case.of(HIGHEST_SPEED), CRUISES_ABOVE)?;
                    let ratio = case.cell(RATIO, row)?;
                    Ok(speed(case, engine, ratio))
                });
            }
            case.answer_row(HIGH_SPEED, row, |case| {
                let (engine, ratio) = (case.of(HIGHEST_SPEED)?, case.cell(RATIO, row)?);
                Ok(speed(case, engine, ratio))
            });
        }
        case.answer(BELT_SPEED, |case| {
            let (engine, crank) = (case.of(HIGHEST_SPEED)?, first(case, Duty::Crank)?);
            let line = case.cell(BELT_LINE, crank)?;
            Ok(case.say(&BELT_RUN, &[engine.si(), line.si()], speeds::belt(engine, line)))
        });
        case.answer(REFLECTED_INERTIA, |case| {
            let mut sum = Inertia::ZERO;
            for row in 0..case.rows(PULLEYS) {
                let (rotor, ratio) = (case.cell(ROTOR, row)?, case.cell(RATIO, row)?);
                if rotor > Inertia::ZERO {
                    sum = case.say(&REFLECTED, &[rotor.si(), ratio.si()], sum + alternator::reflected(rotor, ratio.si()));
                }
            }
            Ok(sum)
        });
    },
};

pub(in super::super) const ALTERNATOR: Step = Step {
    name: "speeds of the alternator",
    reads: &[
        DUTY.id,
        DIAMETER.id,
        SIDE.id,
        RATIO.id,
        IDLE_SPEED.id,
        CRUISE_SPEED.id,
        HIGH_SPEED.id,
        BELT_LINE.id,
        LINE_DIFFERENCE.id,
        LINE_DIFFERENCE_MEASURED.id,
        BACK_TO_CORD.id,
        SLIP.id,
        IDLE.id,
        HIGHEST_SPEED.id,
        ALTERNATOR_LIMIT.id,
        LEAST_GROOVED.id,
        IDLE_WANTED.id,
    ],
    writes: &[
        ALTERNATOR_RATIO.id,
        ALTERNATOR_IDLE.id,
        ALTERNATOR_CRUISE.id,
        ALTERNATOR_HIGH.id,
        ALTERNATOR_HIGH_MEASURED.id,
        LEAST_ALTERNATOR_PULLEY.id,
        MOST_ALTERNATOR_PULLEY.id,
    ],
    run: |case| {
        let (crank, alternator) = (first(case, Duty::Crank), first(case, Duty::Alternator));
        case.answer(ALTERNATOR_RATIO, |case| case.cell(RATIO, alternator?));
        for (output, column) in [(ALTERNATOR_IDLE, IDLE_SPEED), (ALTERNATOR_CRUISE, CRUISE_SPEED), (ALTERNATOR_HIGH, HIGH_SPEED)] {
            case.answer(output, |case| case.cell(column, alternator?));
        }
        case.answer(ALTERNATOR_HIGH_MEASURED, |case| {
            let (row, engine) = (alternator?, case.of(HIGHEST_SPEED)?);
            let ratio = ratio_of(case, crank, row, LINE_DIFFERENCE_MEASURED)?;
            Ok(speed(case, engine, ratio))
        });
        case.answer(LEAST_ALTERNATOR_PULLEY, |case| {
            let (engine, limit, least) = (case.of(HIGHEST_SPEED)?, case.of(ALTERNATOR_LIMIT)?, case.of(LEAST_GROOVED)?);
            // Belts show a smaller line difference than the nominal one, and then the alternator turns faster.
            let (nominal, measured) = (
                diameter_for(case, crank, engine, limit, LINE_DIFFERENCE)?,
                diameter_for(case, crank, engine, limit, LINE_DIFFERENCE_MEASURED)?,
            );
            let slow = nominal.max(measured);
            Ok(case.say(&LARGER, &[slow.si(), least.si()], slow.max(least)))
        });
        case.answer(MOST_ALTERNATOR_PULLEY, |case| {
            let (engine, wanted) = (case.of(IDLE)?, case.of(IDLE_WANTED)?);
            diameter_for(case, crank, engine, wanted, LINE_DIFFERENCE)
        });
    },
};

/// Effective diameter of a grooved alternator pulley that turns at `wanted` at this engine speed.
fn diameter_for(
    case: &mut Case<'_>,
    crank: Result<usize, Unknown>,
    engine: RotationalSpeed,
    wanted: RotationalSpeed,
    difference: Input<Length>,
) -> Result<Length, Unknown> {
    let (crank, slip, difference) = (belt_line(case, crank?, difference)?, case.of(SLIP)?, case.of(difference)?);
    let line = speeds::diameter_for(wanted, engine, crank) * (1.0 - slip.si());
    let numbers = [crank.si(), engine.si(), wanted.si(), slip.si(), difference.si()];
    Ok(case.say(&DIAMETER_FOR, &numbers, line - difference * 2.0))
}

pub(in super::super) const PUMP: Step = Step {
    name: "speeds of the pump",
    reads: &[
        DUTY.id,
        SIDE.id,
        RATIO.id,
        IDLE_SPEED.id,
        CRUISE_SPEED.id,
        HIGH_SPEED.id,
        REFERENCE_PUMP_PULLEY.id,
        REFERENCE_CRANK_PULLEY.id,
        LINE_DIFFERENCE.id,
        BACK_TO_CORD.id,
        SLIP.id,
        IDLE.id,
        HIGHEST_SPEED.id,
    ],
    writes: &[PUMP_IDLE.id, PUMP_CRUISE.id, PUMP_HIGH.id, PUMP_IDLE_REFERENCE.id, PUMP_HIGH_REFERENCE.id, PUMP_SHARE.id],
    run: |case| {
        let pump = first(case, Duty::Pump);
        for (output, column) in [(PUMP_IDLE, IDLE_SPEED), (PUMP_CRUISE, CRUISE_SPEED), (PUMP_HIGH, HIGH_SPEED)] {
            case.answer(output, |case| case.cell(column, pump?));
        }
        case.answer(PUMP_IDLE_REFERENCE, |case| {
            let (engine, ratio) = (case.of(IDLE)?, reference_ratio(case, pump)?);
            Ok(speed(case, engine, ratio))
        });
        case.answer(PUMP_HIGH_REFERENCE, |case| {
            let (engine, ratio) = (case.of(HIGHEST_SPEED)?, reference_ratio(case, pump)?);
            Ok(speed(case, engine, ratio))
        });
        case.answer(PUMP_SHARE, |case| {
            let (own, reference) = (case.cell(RATIO, pump?)?, reference_ratio(case, pump)?);
            Ok(case.say(&SHARE, &[own.si(), reference.si()], ratio(own / reference)))
        });
    },
};

/// Ratio of the pulleys the pump was made for, on the side of the belt it runs on here.
pub(super) fn reference_ratio(case: &mut Case<'_>, pump: Result<usize, Unknown>) -> Result<Ratio, Unknown> {
    let (side, pump, crank) = (case.cell(SIDE, pump?)?, case.of(REFERENCE_PUMP_PULLEY)?, case.of(REFERENCE_CRANK_PULLEY)?);
    let crank = on(case, crank, Side::Ribs, LINE_DIFFERENCE)?;
    let pump = on(case, pump, side, LINE_DIFFERENCE)?;
    turns(case, crank, pump)
}
