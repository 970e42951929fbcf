//! What does the loom ask of the alternator, and how long does the battery last without it?

use super::{
    AVERAGE_AT_CRUISE, AVERAGE_AT_IDLE, BALANCE_AT_CRUISE, BALANCE_AT_IDLE, CAPACITY, CIRCUITS, DRAIN_AT_CRUISE, DRAIN_AT_IDLE,
    LOAD_AT_CRUISE, LOAD_AT_IDLE, MADE_AT_CRUISE, MADE_AT_IDLE, OTHER_LOAD_AT_CRUISE, OTHER_LOAD_AT_IDLE, STANDING_CURRENT, STANDING_TIME,
    USABLE,
};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{A, AH, DAY, HOUR, ONE};
use crate::quantity::{Charge, Current, Ratio, Time};
use crate::report::Unknown;
use crate::spec::{Input, Output, OutputColumn, Source};

static SUM: Line = Line { equation: "I = Σ I_av + I_o", terms: &[("Σ", A), ("I_o", A)], unit: A, source: Source::Definition };
static OVER: Line = Line { equation: "ΔI = I_made − I", terms: &[("I_made", A), ("I", A)], unit: A, source: Source::Definition };
static LASTS: Line = Line { equation: "t = s · C / I", terms: &[("s", ONE), ("C", AH), ("I", A)], unit: HOUR, source: Source::Definition };
static STANDS: Line = Line { equation: "t = s · C / I", terms: &[("s", ONE), ("C", AH), ("I", A)], unit: DAY, source: Source::Definition };

const CHARGES: Unknown = Unknown::NoSolution("The alternator carries the load: the battery is not drained.");

/// How long a battery gives a current before its usable share is gone.
#[must_use]
pub fn lasts(capacity: Charge, usable: Ratio, current: Current) -> Time {
    capacity * usable.si() / current
}

pub(super) const LOAD: Step = Step {
    name: "the loom's load",
    reads: &[AVERAGE_AT_IDLE.id, AVERAGE_AT_CRUISE.id, OTHER_LOAD_AT_IDLE.id, OTHER_LOAD_AT_CRUISE.id],
    writes: &[LOAD_AT_IDLE.id, LOAD_AT_CRUISE.id],
    run: run_load,
};

fn run_load(case: &mut Case<'_>) {
    load(case, LOAD_AT_IDLE, AVERAGE_AT_IDLE, OTHER_LOAD_AT_IDLE);
    load(case, LOAD_AT_CRUISE, AVERAGE_AT_CRUISE, OTHER_LOAD_AT_CRUISE);
}

fn load(case: &mut Case<'_>, output: Output<Current>, average: OutputColumn<Current>, other: Input<Current>) {
    case.answer(output, |case| {
        let mut sum = Current::ZERO;
        for row in 0..case.rows(CIRCUITS) {
            sum = sum + case.cell(average, row)?;
        }
        let other = case.of(other)?;
        Ok(case.say(&SUM, &[sum.si(), other.si()], sum + other))
    });
}

pub(super) const BALANCE: Step = Step {
    name: "balance of the load",
    reads: &[LOAD_AT_IDLE.id, LOAD_AT_CRUISE.id, MADE_AT_IDLE.id, MADE_AT_CRUISE.id, CAPACITY.id, USABLE.id],
    writes: &[BALANCE_AT_IDLE.id, BALANCE_AT_CRUISE.id, DRAIN_AT_IDLE.id, DRAIN_AT_CRUISE.id],
    run: run_balance,
};

fn run_balance(case: &mut Case<'_>) {
    balance(case, (BALANCE_AT_IDLE, DRAIN_AT_IDLE), MADE_AT_IDLE, LOAD_AT_IDLE);
    balance(case, (BALANCE_AT_CRUISE, DRAIN_AT_CRUISE), MADE_AT_CRUISE, LOAD_AT_CRUISE);
}

fn balance(case: &mut Case<'_>, (over, drain): (Output<Current>, Output<Time>), made: Input<Current>, load: Output<Current>) {
    let made = case.of(made);
    let load = case.of(load);
    case.answer(over, |case| {
        let (made, load) = (made?, load?);
        Ok(case.say(&OVER, &[made.si(), load.si()], made - load))
    });
    case.answer(drain, |case| {
        let short = load? - made?;
        if short <= Current::ZERO {
            return Err(CHARGES);
        }
        let (capacity, usable) = (case.of(CAPACITY)?, case.of(USABLE)?);
        Ok(case.say(&LASTS, &[usable.si(), capacity.si(), short.si()], lasts(capacity, usable, short)))
    });
}

pub(super) const STANDING: Step =
    Step { name: "standing", reads: &[STANDING_CURRENT.id, CAPACITY.id, USABLE.id], writes: &[STANDING_TIME.id], run: run_standing };

fn run_standing(case: &mut Case<'_>) {
    case.answer(STANDING_TIME, |case| {
        let (current, capacity, usable) = (case.of(STANDING_CURRENT)?, case.of(CAPACITY)?, case.of(USABLE)?);
        Ok(case.say(&STANDS, &[usable.si(), capacity.si(), current.si()], lasts(capacity, usable, current)))
    });
}
