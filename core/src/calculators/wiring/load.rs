//! What does each circuit draw: on average for the battery, rms for the wire's heat, at its peak for the voltage lost?
//!
//! | pattern | average | rms | peak |
//! |---|---|---|---|
//! | steady, on a share d of the time, for minutes | I·d | I | I |
//! | pulsed, on a share d of each cycle | I·d | I·√d | I |
//! | ramp from nothing to I in a share d of the time | ½·I·d | I·√((2·k − 1)·d/3 − N + N²/(3·d²)) | I·(k − N/d) |
//!
//! Coils whose ramps fill more than the whole time overlap, k = ⌈d⌉ at once, evenly staggered: when one is at its top the
//! others are j/d of theirs short of it. N = k·(k − 1)/2.

use super::choices::{LoadBy, Pattern};
use super::{
    AVERAGE_AT_CRUISE, AVERAGE_AT_IDLE, CIRCUITS, COIL_DUTY_AT_CRUISE, COIL_DUTY_AT_IDLE, COIL_DUTY_AT_MOST, CURRENT, CURRENT_OF_POWER,
    CYLINDERS, DUTY_AT_CRUISE, DUTY_AT_IDLE, DUTY_AT_MOST, DWELL, FUSE_BOX_AIR, FUSE_SHARE, LEAST_FUSE, LOAD_BY, PATTERN, PEAK, POWER, RMS,
    SUGGESTED_FUSE,
};
use crate::calculators::car::{CRUISE, IDLE, REDLINE, SYSTEM_VOLTAGE};
use crate::data::fuses::{CARRIED, Fuse};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{A, CELSIUS, MS, ONE, RPM, V, W};
use crate::quantity::{Current, Ratio, RotationalSpeed, Temperature, TemperatureRise, Time, celsius, ratio};
use crate::report::Unknown;
use crate::spec::{Column, Input, Output, Source};
use core::f64::consts::PI;

static STEADY_RMS: Line = Line { equation: "I_rms = I", terms: &[("I", A)], unit: A, source: Source::Definition };
static PULSED_RMS: Line = Line { equation: "I_rms = I · √d", terms: &[("I", A), ("d", ONE)], unit: A, source: Source::Definition };
static RAMP_RMS: Line = Line {
    equation: "I_rms = I · √((2 · k − 1) · d / 3 − N + N² / (3 · d²))",
    terms: &[("I", A), ("k", ONE), ("d", ONE), ("N", ONE)],
    unit: A,
    source: Source::Definition,
};
static PEAK_LINE: Line = Line { equation: "I_p = I", terms: &[("I", A)], unit: A, source: Source::Definition };
static RAMP_PEAK: Line =
    Line {
        equation: "I_p = I · (k − N / d)", terms: &[("I", A), ("k", ONE), ("N", ONE), ("d", ONE)], unit: A, source: Source::Definition
    };
static AVERAGE: Line = Line { equation: "I_av = I · d", terms: &[("I", A), ("d", ONE)], unit: A, source: Source::Definition };
static RAMP_AVERAGE: Line = Line { equation: "I_av = I · d / 2", terms: &[("I", A), ("d", ONE)], unit: A, source: Source::Definition };
static OF_POWER: Line = Line { equation: "I = P / U", terms: &[("P", W), ("U", V)], unit: A, source: Source::Definition };
static COIL_DUTY: Line =
    Line { equation: "d = t_d · n · z / 2", terms: &[("t_d", MS), ("n", RPM), ("z", ONE)], unit: ONE, source: Source::Definition };
static PULSED_FUSE: Line = Line {
    equation: "I_n ≥ max(I_rms, s · I_p / 1.1) / (s · (1 − 0.1 · (θ − 25) / 55))",
    terms: &[("I_rms", A), ("I_p", A), ("s", ONE), ("θ", CELSIUS)],
    unit: A,
    source: Source::CommonPractice,
};
static FUSE_NEEDED: Line = Line {
    equation: "I_n ≥ I_rms / (s · (1 − 0.1 · (θ − 25) / 55))",
    terms: &[("I_rms", A), ("s", ONE), ("θ", CELSIUS)],
    unit: A,
    source: Source::CommonPractice,
};

pub(super) const NO_FUSE_SOLD: Unknown = Unknown::NoSolution("No fuse of the list carries this load.");

const TOO_LONG: Unknown = Unknown::NoSolution("It cannot be on for more than all the time.");

/// What a circuit draws while it is on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Draw {
    /// Largest at any moment.
    pub peak: Current,
    /// As far as heat goes, at its longest duty.
    pub rms: Current,
    /// Ramps at once; 1 for other patterns.
    pub overlap: f64,
}

impl Draw {
    /// Pairs among the ramps at once.
    fn pairs(&self) -> f64 {
        self.overlap * (self.overlap - 1.0) / 2.0
    }
}

/// Peak and rms of a current of this pattern, on for a share of the time (a pure number).
#[must_use]
pub fn draw(pattern: Pattern, current: Current, duty: Ratio) -> Draw {
    match pattern {
        Pattern::Steady => Draw { peak: current, rms: current, overlap: 1.0 },
        Pattern::Pulsed => Draw { peak: current, rms: current * duty.si().sqrt(), overlap: 1.0 },
        Pattern::Ramp => {
            let duty = duty.si();
            let single = Draw { peak: current, rms: current, overlap: duty.ceil().max(1.0) };
            let (overlap, pairs) = (single.overlap, single.pairs());
            let short = pairs / duty.max(1.0);
            let square = (2.0 * overlap - 1.0) * duty / 3.0 - pairs + short * short / 3.0;
            Draw { peak: current * (overlap - short), rms: current * square.sqrt(), overlap }
        }
    }
}

/// Average of a current of this pattern, on for a share of the time.
#[must_use]
pub fn average(pattern: Pattern, current: Current, duty: Ratio) -> Current {
    match pattern {
        Pattern::Steady | Pattern::Pulsed => current * duty.si(),
        Pattern::Ramp => current * (0.5 * duty.si()),
    }
}

/// Share of the time the coils of a four-stroke charge, all together: each fires once in two turns.
#[must_use]
pub fn coil_duty(dwell: Time, speed: RotationalSpeed, cylinders: Ratio) -> Ratio {
    ratio(dwell.si() * speed.si() / (2.0 * PI) * cylinders.si() / 2.0)
}

/// Share of its rating that a fuse carries for hours in a warm box: the usual share at 25 °C, a tenth less at 80 °C
/// (common practice, no source).
#[must_use]
pub fn fuse_share(usual: Ratio, air: Temperature) -> Ratio {
    const COOL: Temperature = celsius(25.0);
    const SPAN: TemperatureRise = crate::quantity::kelvin_rise(55.0);
    usual * (1.0 - 0.1 * ((air.si() - COOL.si()) / SPAN.si()).max(0.0)).max(0.1)
}

/// What a fuse must carry for hours. How long a pulse lasts is not asked, so its peak may not pass what a fuse never
/// opens at; ramps are over in milliseconds.
#[must_use]
pub fn through_fuse(pattern: Pattern, rms: Current, peak: Current, share: Ratio) -> Current {
    match pattern {
        Pattern::Pulsed => rms.max(peak * (share.si() / CARRIED)),
        Pattern::Steady | Pattern::Ramp => rms,
    }
}

pub(super) const OF_POWERS: Step = Step {
    name: "currents of powers",
    reads: &[LOAD_BY.id, POWER.id, SYSTEM_VOLTAGE.id],
    writes: &[CURRENT_OF_POWER.id],
    run: run_of_powers,
};

fn run_of_powers(case: &mut Case<'_>) {
    let voltage = case.of(SYSTEM_VOLTAGE);
    for row in 0..case.rows(CIRCUITS) {
        case.answer_row(CURRENT_OF_POWER, row, |case| {
            if case.cell(LOAD_BY, row)? == LoadBy::Current {
                return Err(Unknown::NoSolution("This load is given by its current."));
            }
            let (power, voltage) = (case.cell(POWER, row)?, voltage?);
            Ok(case.say(&OF_POWER, &[power.si(), voltage.si()], power / voltage))
        });
    }
}

pub(super) const COILS: Step = Step {
    name: "share of the time the coils charge",
    reads: &[DWELL.id, CYLINDERS.id, IDLE.id, CRUISE.id, REDLINE.id],
    writes: &[COIL_DUTY_AT_IDLE.id, COIL_DUTY_AT_CRUISE.id, COIL_DUTY_AT_MOST.id],
    run: run_coils,
};

fn run_coils(case: &mut Case<'_>) {
    let duties: [(Output<Ratio>, Input<RotationalSpeed>); 3] =
        [(COIL_DUTY_AT_IDLE, IDLE), (COIL_DUTY_AT_CRUISE, CRUISE), (COIL_DUTY_AT_MOST, REDLINE)];
    for (output, speed) in duties {
        case.answer(output, |case| {
            let (dwell, speed, cylinders) = (case.of(DWELL)?, case.of(speed)?, case.of(CYLINDERS)?);
            Ok(case.say(&COIL_DUTY, &[dwell.si(), speed.si(), cylinders.si()], coil_duty(dwell, speed, cylinders)))
        });
    }
}

pub(super) const LOADS: Step = Step {
    name: "what each circuit draws",
    reads: &[
        CURRENT.id,
        LOAD_BY.id,
        CURRENT_OF_POWER.id,
        PATTERN.id,
        DUTY_AT_IDLE.id,
        DUTY_AT_CRUISE.id,
        DUTY_AT_MOST.id,
        FUSE_SHARE.id,
        FUSE_BOX_AIR.id,
        LEAST_FUSE.id,
    ],
    writes: &[RMS.id, PEAK.id, AVERAGE_AT_IDLE.id, AVERAGE_AT_CRUISE.id, SUGGESTED_FUSE.id],
    run: run_loads,
};

fn run_loads(case: &mut Case<'_>) {
    let box_air = case.of(FUSE_BOX_AIR);
    let share = case.of(FUSE_SHARE);
    let carried = share.and_then(|share| Ok(fuse_share(share, box_air?)));
    let least = case.of(LEAST_FUSE);
    for row in 0..case.rows(CIRCUITS) {
        // A current typed before its power was asked for is not what it draws.
        let current = match case.cell(LOAD_BY, row) {
            Ok(LoadBy::Power) => case.cell(CURRENT_OF_POWER, row),
            _ => case.cell(CURRENT, row),
        };
        let pattern = case.cell(PATTERN, row);
        let on = |case: &mut Case<'_>, duty: Column<Ratio>| {
            let duty = case.cell(duty, row)?;
            // Only ramps, of several coils together, fill more than the whole time.
            if duty > ratio(1.0) && pattern? != Pattern::Ramp { Err(TOO_LONG) } else { Ok(duty) }
        };
        let most = on(case, DUTY_AT_MOST);
        let drawn = current.and_then(|current| Ok(draw(pattern?, current, most?)));
        case.answer_row(RMS, row, |case| {
            let (drawn, current, duty) = (drawn?, current?, most?);
            Ok(match pattern? {
                Pattern::Steady => case.say(&STEADY_RMS, &[current.si()], drawn.rms),
                Pattern::Pulsed => case.say(&PULSED_RMS, &[current.si(), duty.si()], drawn.rms),
                Pattern::Ramp => case.say(&RAMP_RMS, &[current.si(), drawn.overlap, duty.si(), drawn.pairs()], drawn.rms),
            })
        });
        case.answer_row(PEAK, row, |case| {
            let (drawn, current, duty) = (drawn?, current?, most?);
            Ok(match pattern? {
                Pattern::Ramp => case.say(&RAMP_PEAK, &[current.si(), drawn.overlap, drawn.pairs(), duty.si()], drawn.peak),
                Pattern::Steady | Pattern::Pulsed => case.say(&PEAK_LINE, &[current.si()], drawn.peak),
            })
        });
        for (output, duty) in [(AVERAGE_AT_IDLE, DUTY_AT_IDLE), (AVERAGE_AT_CRUISE, DUTY_AT_CRUISE)] {
            case.answer_row(output, row, |case| {
                let (pattern, current, duty) = (pattern?, current?, on(case, duty)?);
                let line = if pattern == Pattern::Ramp { &RAMP_AVERAGE } else { &AVERAGE };
                Ok(case.say(line, &[current.si(), duty.si()], average(pattern, current, duty)))
            });
        }
        case.answer_row(SUGGESTED_FUSE, row, |case| {
            let (Draw { rms, peak, .. }, pattern, share, air) = (drawn?, pattern?, share?, box_air?);
            let fuse = Fuse::at_least((through_fuse(pattern, rms, peak, share) / carried?.si()).max(least?)).ok_or(NO_FUSE_SOLD)?;
            Ok(match pattern {
                Pattern::Pulsed => case.say(&PULSED_FUSE, &[rms.si(), peak.si(), share.si(), air.si()], fuse.rating),
                Pattern::Steady | Pattern::Ramp => case.say(&FUSE_NEEDED, &[rms.si(), share.si(), air.si()], fuse.rating),
            })
        });
    }
}
