//! Does it charge, and what does that cost at the shaft?

use crate::calculators::car::SYSTEM_VOLTAGE;
use crate::calculators::front_drive::alternator::{self, Output, Rating};
use crate::calculators::front_drive::declared::{
    ALTERNATOR_CRUISE, ALTERNATOR_HIGH, ALTERNATOR_IDLE, BALANCE_CRUISE, BALANCE_IDLE, CURRENT_CRUISE, CURRENT_IDLE, CURVE_CEILING,
    CURVE_RISE, CUT_IN, EFFICIENCY, HOT_FACTOR, LOAD_CRUISE, LOAD_IDLE, LOW_CURRENT, LOW_SPEED, RATED_CURRENT, RATED_SPEED,
    SHAFT_POWER_CRUISE, SHAFT_POWER_HIGH, SHAFT_POWER_IDLE, SHAFT_TORQUE_HIGH, SHAFT_TORQUE_IDLE,
};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{A, NM, ONE, RPM, V, W};
use crate::quantity::{Current, Power, RotationalSpeed, Torque};
use crate::report::Unknown;
use crate::spec::{self, Source};

static RISE: Line = Line {
    equation: "I_2 / I_1 = ( 1 − e^( −( n_2 − n_0 ) / τ ) ) / ( 1 − e^( −( n_1 − n_0 ) / τ ) )",
    terms: &[("n_0", RPM), ("n_1", RPM), ("I_1", A), ("n_2", RPM), ("I_2", A)],
    unit: RPM,
    source: Source::CommonPractice,
};
static CEILING: Line = Line {
    equation: "I_max = I_1 / ( 1 − e^( −( n_1 − n_0 ) / τ ) )",
    terms: &[("I_1", A), ("n_1", RPM), ("n_0", RPM), ("τ", RPM)],
    unit: A,
    source: Source::CommonPractice,
};
static COLD: Line = Line {
    equation: "I = I_max · ( 1 − e^( −( n − n_0 ) / τ ) )",
    terms: &[("I_max", A), ("n", RPM), ("n_0", RPM), ("τ", RPM)],
    unit: A,
    source: Source::CommonPractice,
};
static HOT: Line = Line { equation: "I_hot = k · I", terms: &[("k", ONE), ("I", A)], unit: A, source: Source::CommonPractice };
static BALANCE: Line =
    Line { equation: "ΔI = I_hot − I_load", terms: &[("I_hot", A), ("I_load", A)], unit: A, source: Source::Definition };
static POWER: Line = Line { equation: "P = U · I / η", terms: &[("U", V), ("I", A), ("η", ONE)], unit: W, source: Source::Definition };
static TORQUE: Line = Line { equation: "M = P / ( 2 · π · n )", terms: &[("P", W), ("n", RPM)], unit: NM, source: Source::Definition };

pub(in super::super) const OUTPUT: Step = Step {
    name: "alternator output",
    reads: &[
        CUT_IN.id,
        LOW_SPEED.id,
        LOW_CURRENT.id,
        RATED_SPEED.id,
        RATED_CURRENT.id,
        HOT_FACTOR.id,
        EFFICIENCY.id,
        SYSTEM_VOLTAGE.id,
        ALTERNATOR_IDLE.id,
        ALTERNATOR_CRUISE.id,
        ALTERNATOR_HIGH.id,
        LOAD_IDLE.id,
        LOAD_CRUISE.id,
    ],
    writes: &[
        CURVE_RISE.id,
        CURVE_CEILING.id,
        CURRENT_IDLE.id,
        CURRENT_CRUISE.id,
        BALANCE_IDLE.id,
        BALANCE_CRUISE.id,
        SHAFT_POWER_IDLE.id,
        SHAFT_POWER_CRUISE.id,
        SHAFT_POWER_HIGH.id,
        SHAFT_TORQUE_IDLE.id,
        SHAFT_TORQUE_HIGH.id,
    ],
    run: |case| {
        let curve = curve(case);
        case.answer(CURVE_RISE, |case| {
            let (curve, low, high) = (curve?, rating(case, LOW_SPEED, LOW_CURRENT)?, rating(case, RATED_SPEED, RATED_CURRENT)?);
            let numbers = [curve.cut_in.si(), low.speed.si(), low.current.si(), high.speed.si(), high.current.si()];
            Ok(case.say(&RISE, &numbers, curve.rise))
        });
        case.answer(CURVE_CEILING, |case| {
            let (curve, low) = (curve?, rating(case, LOW_SPEED, LOW_CURRENT)?);
            let numbers = [low.current.si(), low.speed.si(), curve.cut_in.si(), curve.rise.si()];
            Ok(case.say(&CEILING, &numbers, curve.most))
        });
        for (output, speed) in [(CURRENT_IDLE, ALTERNATOR_IDLE), (CURRENT_CRUISE, ALTERNATOR_CRUISE)] {
            case.answer(output, |case| made(case, curve?, speed));
        }
        for (output, speed, load) in [(BALANCE_IDLE, ALTERNATOR_IDLE, LOAD_IDLE), (BALANCE_CRUISE, ALTERNATOR_CRUISE, LOAD_CRUISE)] {
            case.answer(output, |case| {
                let (made, drawn) = (made(case, curve?, speed)?, case.of(load)?);
                Ok(case.say(&BALANCE, &[made.si(), drawn.si()], alternator::balance(made, drawn)))
            });
        }
        let shafts = [(SHAFT_POWER_IDLE, ALTERNATOR_IDLE), (SHAFT_POWER_CRUISE, ALTERNATOR_CRUISE), (SHAFT_POWER_HIGH, ALTERNATOR_HIGH)];
        for (output, speed) in shafts {
            case.answer(output, |case| power(case, curve?, speed));
        }
        for (output, speed) in [(SHAFT_TORQUE_IDLE, ALTERNATOR_IDLE), (SHAFT_TORQUE_HIGH, ALTERNATOR_HIGH)] {
            case.answer(output, |case| torque(case, curve?, speed));
        }
    },
};

fn rating(case: &mut Case<'_>, speed: spec::Input<RotationalSpeed>, current: spec::Input<Current>) -> Result<Rating, Unknown> {
    Ok(Rating { speed: case.of(speed)?, current: case.of(current)? })
}

fn curve(case: &mut Case<'_>) -> Result<Output, Unknown> {
    let (low, high) = (rating(case, LOW_SPEED, LOW_CURRENT)?, rating(case, RATED_SPEED, RATED_CURRENT)?);
    Output::through(case.of(CUT_IN)?, low, high).map_err(|why| Unknown::NoSolution(why.reason()))
}

fn made(case: &mut Case<'_>, curve: Output, speed: spec::Output<RotationalSpeed>) -> Result<Current, Unknown> {
    let (speed, factor) = (case.of(speed)?, case.of(HOT_FACTOR)?);
    let numbers = [curve.most.si(), speed.si(), curve.cut_in.si(), curve.rise.si()];
    let cold = case.say(&COLD, &numbers, curve.at(speed));
    Ok(case.say(&HOT, &[factor.si(), cold.si()], cold * factor.si()))
}

fn power(case: &mut Case<'_>, curve: Output, speed: spec::Output<RotationalSpeed>) -> Result<Power, Unknown> {
    let (current, voltage, efficiency) = (made(case, curve, speed)?, case.of(SYSTEM_VOLTAGE)?, case.of(EFFICIENCY)?);
    let power = alternator::shaft_power(voltage, current, efficiency.si());
    Ok(case.say(&POWER, &[voltage.si(), current.si(), efficiency.si()], power))
}

fn torque(case: &mut Case<'_>, curve: Output, speed: spec::Output<RotationalSpeed>) -> Result<Torque, Unknown> {
    let (power, speed) = (power(case, curve, speed)?, case.of(speed)?);
    Ok(case.say(&TORQUE, &[power.si(), speed.si()], alternator::torque(power, speed)))
}
