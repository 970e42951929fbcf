//! What the pump moves, and the engine speed at which it begins to cavitate.

use super::first;
use super::speeds::reference_ratio;
use crate::calculators::car::{ALTITUDE, HIGHEST_SPEED};
use crate::calculators::front_drive::declared::{
    AIR_PRESSURE, BACK_TO_CORD, CAP, CAP_PLACE, CAVITATION_RESERVE, CLEAR_SPEED, COOLANT_DENSITY, COOLANT_VOLUME, DUTY, Duty,
    FILL_TEMPERATURE, FLOW_HIGH, FLOW_IDLE, FLOW_IDLE_REFERENCE, GAS_VOLUME, GLYCOL, HEADER_HEIGHT, HEAT_IDLE, IDLE_RISE,
    IDLE_RISE_REFERENCE, INLET_TEMPERATURE, LINE_DIFFERENCE, NPSH_AVAILABLE, NPSH_REQUIRED, ONSET, ONSET_OPEN, ONSET_REFERENCE,
    ONSET_WARM_UP, PUMP_CRUISE, PUMP_FLOW, PUMP_HIGH, PUMP_IDLE, PUMP_IDLE_REFERENCE, PUMP_NPSH, PUMP_POWER, PUMP_POWER_CRUISE,
    PUMP_POWER_HIGH, PUMP_POWER_IDLE, PUMP_RATED_SPEED, RADIATOR_LOSS, RATIO, REFERENCE_CRANK_PULLEY, REFERENCE_PUMP_PULLEY, SIDE, SLIP,
    STANDING_HEAD, SUCTION_LOSS, SYSTEM_PRESSURE, VAPOUR_PRESSURE, WARM_UP_WORST,
};
use crate::calculators::front_drive::pump::{self, Suction, System, Warmth};
use crate::data::{atmosphere, coolant};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{CELSIUS, J_PER_KG_K, KG_PER_M3, KPA, KW, L_PER_MIN, LITRE, M, ONE, PERCENT, RISE, RPM};
use crate::quantity::{Density, Flow, Length, Pressure, Ratio, RotationalSpeed, TemperatureRise};
use crate::report::Unknown;
use crate::spec::{Output, Source};

const HYDRAULICS: Source = Source::Published("Munson, Young and Okiishi, Fundamentals of Fluid Mechanics, 12.4");

static FLOW_LINE: Line = Line {
    equation: "Q = Q_ref · n / n_ref",
    terms: &[("Q_ref", L_PER_MIN), ("n", RPM), ("n_ref", RPM)],
    unit: L_PER_MIN,
    source: HYDRAULICS,
};
static POWER_LINE: Line =
    Line { equation: "P = P_ref · ( n / n_ref )³", terms: &[("P_ref", KW), ("n", RPM), ("n_ref", RPM)], unit: KW, source: HYDRAULICS };
static RISE_LINE: Line = Line {
    equation: "ΔT = P / ( ρ · c · Q )",
    terms: &[("P", KW), ("ρ", KG_PER_M3), ("c", J_PER_KG_K), ("Q", L_PER_MIN)],
    unit: RISE,
    source: Source::Definition,
};
static AIR_LINE: Line = Line {
    equation: "p_air = 101.325 · ( 1 − 0.0065 · H / 288.15 )^5.256",
    terms: &[("H", M)],
    unit: KPA,
    source: Source::FromMemory("ISO 2533"),
};
static VAPOUR_LINE: Line = Line {
    equation: "p_v = x_w · p_sat",
    terms: &[("x_w", ONE), ("p_sat", KPA)],
    unit: KPA,
    source: Source::Standard("IAPWS R7-97, and Raoult's law"),
};
static DENSITY_LINE: Line = Line {
    equation: "ρ = ρ( T ; glycol )",
    terms: &[("T", CELSIUS), ("glycol", PERCENT)],
    unit: KG_PER_M3,
    source: Source::Published("IAPWS SR1-86 and Melinder, IIR 2010"),
};
static SHUT_IN_LINE: Line = Line {
    equation: "p = least of p_0 · V / ( V − ΔV ) · T / T_0 and p_0 + p_cap",
    terms: &[("p_0", KPA), ("V", LITRE), ("ΔV", LITRE), ("T", CELSIUS), ("T_0", CELSIUS), ("p_cap", KPA)],
    unit: KPA,
    source: Source::Definition,
};
static STANDING_LINE: Line = Line {
    equation: "A_0 = ( p − p_v ) / ( ρ · g ) + z",
    terms: &[("p", KPA), ("p_v", KPA), ("ρ", KG_PER_M3), ("z", M)],
    unit: M,
    source: HYDRAULICS,
};
static AVAILABLE_LINE: Line = Line {
    equation: "NPSH_a = A_0 − h_ref · ( n / n_ref )²",
    terms: &[("A_0", M), ("h_ref", M), ("n", RPM), ("n_ref", RPM)],
    unit: M,
    source: HYDRAULICS,
};
static REQUIRED_LINE: Line = Line {
    equation: "NPSH_r = NPSH_ref · ( n / n_ref )²",
    terms: &[("NPSH_ref", M), ("n", RPM), ("n_ref", RPM)],
    unit: M,
    source: HYDRAULICS,
};
static ONSET_LINE: Line = Line {
    equation: "n_pump = n_ref · √( A_0 / ( NPSH_ref + h_ref ) )",
    terms: &[("n_ref", RPM), ("A_0", M), ("NPSH_ref", M), ("h_ref", M)],
    unit: RPM,
    source: HYDRAULICS,
};
static AT_CRANK_LINE: Line =
    Line { equation: "n = n_pump / i", terms: &[("n_pump", RPM), ("i", ONE)], unit: RPM, source: Source::Definition };
static CLEAR_LINE: Line =
    Line { equation: "n_clear = n_most · ( 1 + r )", terms: &[("n_most", RPM), ("r", PERCENT)], unit: RPM, source: Source::Definition };

pub(in super::super) const FLOW: Step = Step {
    name: "pump flow and power",
    reads: &[
        PUMP_RATED_SPEED.id,
        PUMP_FLOW.id,
        PUMP_POWER.id,
        PUMP_IDLE.id,
        PUMP_CRUISE.id,
        PUMP_HIGH.id,
        PUMP_IDLE_REFERENCE.id,
        HEAT_IDLE.id,
        GLYCOL.id,
        INLET_TEMPERATURE.id,
    ],
    writes: &[
        FLOW_IDLE.id,
        FLOW_IDLE_REFERENCE.id,
        FLOW_HIGH.id,
        IDLE_RISE.id,
        IDLE_RISE_REFERENCE.id,
        PUMP_POWER_IDLE.id,
        PUMP_POWER_CRUISE.id,
        PUMP_POWER_HIGH.id,
    ],
    run: |case| {
        for (output, speed) in [(FLOW_IDLE, PUMP_IDLE), (FLOW_IDLE_REFERENCE, PUMP_IDLE_REFERENCE), (FLOW_HIGH, PUMP_HIGH)] {
            case.answer(output, |case| flow(case, speed));
        }
        for (output, speed) in [(IDLE_RISE, PUMP_IDLE), (IDLE_RISE_REFERENCE, PUMP_IDLE_REFERENCE)] {
            case.answer(output, |case| rise(case, speed));
        }
        for (output, speed) in [(PUMP_POWER_IDLE, PUMP_IDLE), (PUMP_POWER_CRUISE, PUMP_CRUISE), (PUMP_POWER_HIGH, PUMP_HIGH)] {
            case.answer(output, |case| {
                let (speed, rated, power) = (case.of(speed)?, case.of(PUMP_RATED_SPEED)?, case.of(PUMP_POWER)?);
                Ok(case.say(&POWER_LINE, &[power.si(), speed.si(), rated.si()], pump::power_at(speed, rated, power)))
            });
        }
    },
};

fn flow(case: &mut Case<'_>, speed: Output<RotationalSpeed>) -> Result<Flow, Unknown> {
    let (speed, rated, flow) = (case.of(speed)?, case.of(PUMP_RATED_SPEED)?, case.of(PUMP_FLOW)?);
    Ok(case.say(&FLOW_LINE, &[flow.si(), speed.si(), rated.si()], pump::flow_at(speed, rated, flow)))
}

fn rise(case: &mut Case<'_>, speed: Output<RotationalSpeed>) -> Result<TemperatureRise, Unknown> {
    let (heat, flow) = (case.of(HEAT_IDLE)?, flow(case, speed)?);
    let (glycol, temperature) = (case.of(GLYCOL)?, case.of(INLET_TEMPERATURE)?);
    let density = known(coolant::density(glycol, temperature))?;
    let specific = known(coolant::specific_heat(glycol, temperature))?;
    let rise = pump::coolant_rise(heat, flow, density, specific);
    Ok(case.say(&RISE_LINE, &[heat.si(), density.si(), specific.si(), flow.si()], rise))
}

/// A property of air or coolant, or why there is none.
fn known<V>(property: Option<V>) -> Result<V, Unknown> {
    property.ok_or(Unknown::NoSolution("Coolant is known from 0 to 130 °C with up to 60 % glycol, air from −500 to 5000 m."))
}

/// Everything the onset hangs on besides the pressure over the coolant, read once.
#[derive(Clone, Copy)]
struct Circuit {
    suction: Suction,
    /// Of the coolant's surface above the pump.
    height: Length,
    /// The coolant at work.
    work: Warmth,
}

impl Circuit {
    fn standing_head(&self, pressure: Pressure, warm: Warmth) -> Length {
        pump::npsh_available(pressure, warm.vapour, warm.density, self.height, Length::ZERO)
    }

    /// Pump speed at which cavitation begins with this pressure over the coolant.
    fn onset(&self, pressure: Pressure, warm: Warmth) -> Result<RotationalSpeed, Unknown> {
        let onset = self.suction.onset(self.standing_head(pressure, warm), warm.density);
        onset.ok_or(Unknown::NoSolution("Without suction head or losses the pump never cavitates."))
    }
}

fn air(case: &mut Case<'_>) -> Result<Pressure, Unknown> {
    let altitude = case.of(ALTITUDE)?;
    known(atmosphere::pressure(altitude))
}

fn system(case: &mut Case<'_>) -> Result<System, Unknown> {
    let (air, glycol, filled) = (air(case)?, case.of(GLYCOL)?, case.of(FILL_TEMPERATURE)?);
    Ok(System {
        air,
        cap: case.of(CAP)?,
        coolant: case.of(COOLANT_VOLUME)?,
        gas: case.of(GAS_VOLUME)?,
        filled: known(Warmth::of(glycol, filled))?,
        height: case.of(HEADER_HEIGHT)?,
    })
}

fn suction(case: &mut Case<'_>) -> Result<Suction, Unknown> {
    Ok(Suction {
        rated: case.of(PUMP_RATED_SPEED)?,
        required: case.of(PUMP_NPSH)?,
        pipe_loss: case.of(SUCTION_LOSS)?,
        radiator_loss: case.of(RADIATOR_LOSS)?,
        cap: case.of(CAP_PLACE)?,
    })
}

/// The coolant at work.
fn work(case: &mut Case<'_>) -> Result<Warmth, Unknown> {
    let (glycol, temperature) = (case.of(GLYCOL)?, case.of(INLET_TEMPERATURE)?);
    known(Warmth::of(glycol, temperature))
}

pub(in super::super) const CAVITATION: Step = Step {
    name: "cavitation",
    reads: &[
        ALTITUDE.id,
        CAP.id,
        GLYCOL.id,
        COOLANT_VOLUME.id,
        GAS_VOLUME.id,
        FILL_TEMPERATURE.id,
        HEADER_HEIGHT.id,
        PUMP_RATED_SPEED.id,
        PUMP_NPSH.id,
        SUCTION_LOSS.id,
        RADIATOR_LOSS.id,
        CAP_PLACE.id,
        INLET_TEMPERATURE.id,
        DUTY.id,
        RATIO.id,
        SIDE.id,
        REFERENCE_PUMP_PULLEY.id,
        REFERENCE_CRANK_PULLEY.id,
        LINE_DIFFERENCE.id,
        BACK_TO_CORD.id,
        SLIP.id,
        PUMP_HIGH.id,
        HIGHEST_SPEED.id,
        CAVITATION_RESERVE.id,
    ],
    writes: &[
        AIR_PRESSURE.id,
        SYSTEM_PRESSURE.id,
        VAPOUR_PRESSURE.id,
        COOLANT_DENSITY.id,
        STANDING_HEAD.id,
        NPSH_AVAILABLE.id,
        NPSH_REQUIRED.id,
        CLEAR_SPEED.id,
        ONSET.id,
        ONSET_REFERENCE.id,
        ONSET_OPEN.id,
        ONSET_WARM_UP.id,
        WARM_UP_WORST.id,
    ],
    run: |case| {
        let (system, work) = (system(case), work(case));
        heads(case, system, work);
        onsets(case, system, work);
    },
};

fn heads(case: &mut Case<'_>, system: Result<System, Unknown>, work: Result<Warmth, Unknown>) {
    case.answer(AIR_PRESSURE, |case| {
        let (altitude, air) = (case.of(ALTITUDE)?, air(case)?);
        Ok(case.say(&AIR_LINE, &[altitude.si()], air))
    });
    case.answer(SYSTEM_PRESSURE, |case| Ok(pressure(case, system?, work?)));
    case.answer(VAPOUR_PRESSURE, |case| vapour(case, work?));
    case.answer(COOLANT_DENSITY, |case| density(case, work?));
    case.answer(STANDING_HEAD, |case| standing(case, system?, work?));
    case.answer(NPSH_AVAILABLE, |case| {
        let (standing, suction) = (standing(case, system?, work?)?, suction(case)?);
        let (speed, rated, loss) = (case.of(PUMP_HIGH)?, suction.rated, suction.losses(work?.density));
        let available = standing - pump::head_at(speed, rated, loss);
        Ok(case.say(&AVAILABLE_LINE, &[standing.si(), loss.si(), speed.si(), rated.si()], available))
    });
    case.answer(NPSH_REQUIRED, |case| {
        let (required, speed, rated) = (case.of(PUMP_NPSH)?, case.of(PUMP_HIGH)?, case.of(PUMP_RATED_SPEED)?);
        Ok(case.say(&REQUIRED_LINE, &[required.si(), speed.si(), rated.si()], pump::head_at(speed, rated, required)))
    });
}

fn pressure(case: &mut Case<'_>, system: System, work: Warmth) -> Pressure {
    let numbers = || {
        let (growth, warm, filled) = (system.growth(work), work.temperature, system.filled.temperature);
        [system.air.si(), system.gas.si(), growth.si(), warm.si(), filled.si(), system.cap.si()]
    };
    case.say_with(&SHUT_IN_LINE, numbers, system.pressure(work))
}

fn vapour(case: &mut Case<'_>, work: Warmth) -> Result<Pressure, Unknown> {
    let glycol = case.of(GLYCOL)?;
    let share = known(coolant::water_mole_share(glycol))?;
    Ok(case.say(&VAPOUR_LINE, &[share.si(), work.vapour.si() / share.si()], work.vapour))
}

fn density(case: &mut Case<'_>, work: Warmth) -> Result<Density, Unknown> {
    let glycol = case.of(GLYCOL)?;
    Ok(case.say(&DENSITY_LINE, &[work.temperature.si(), glycol.si()], work.density))
}

fn standing(case: &mut Case<'_>, system: System, work: Warmth) -> Result<Length, Unknown> {
    let pressure = pressure(case, system, work);
    let (vapour, density) = (vapour(case, work)?, density(case, work)?);
    let numbers = [pressure.si(), vapour.si(), density.si(), system.height.si()];
    Ok(case.say(&STANDING_LINE, &numbers, system.standing_head(pressure, work)))
}

fn onsets(case: &mut Case<'_>, system: Result<System, Unknown>, work: Result<Warmth, Unknown>) {
    let pump = first(case, Duty::Pump);
    let fitted = pump.and_then(|pump| case.cell(RATIO, pump));
    let circuit = fitted.and_then(|_| Ok(Circuit { suction: suction(case)?, height: case.of(HEADER_HEIGHT)?, work: work? }));
    case.answer(CLEAR_SPEED, |case| {
        let (most, reserve) = (case.of(HIGHEST_SPEED)?, case.of(CAVITATION_RESERVE)?);
        Ok(case.say(&CLEAR_LINE, &[most.si(), reserve.si()], most * (1.0 + reserve.si())))
    });
    for (output, reference) in [(ONSET, false), (ONSET_REFERENCE, true)] {
        case.answer(output, |case| {
            let circuit = circuit?;
            let pressure = pressure(case, system?, circuit.work);
            let ratio = if reference { reference_ratio(case, pump)? } else { fitted? };
            onset(case, circuit, pressure, circuit.work, ratio)
        });
    }
    case.answer(ONSET_OPEN, |case| {
        let (circuit, air) = (circuit?, system.map(|system| system.air).or_else(|_| air(case))?);
        onset(case, circuit, air, circuit.work, fitted?)
    });
    let worst = circuit.and_then(|circuit| worst(case, circuit, system?));
    case.answer(ONSET_WARM_UP, |case| {
        let (circuit, warm) = (circuit?, worst?);
        onset(case, circuit, system?.pressure(warm), warm, fitted?)
    });
    case.answer(WARM_UP_WORST, |_| Ok(worst?.temperature));
}

/// Engine speed of the onset with pulleys of this ratio.
fn onset(case: &mut Case<'_>, circuit: Circuit, pressure: Pressure, warm: Warmth, ratio: Ratio) -> Result<RotationalSpeed, Unknown> {
    let suction = circuit.suction;
    let standing = || circuit.standing_head(pressure, warm);
    let numbers = || [suction.rated.si(), standing().si(), suction.required.si(), suction.losses(warm.density).si()];
    let own = case.say_with(&ONSET_LINE, numbers, circuit.onset(pressure, warm)?);
    Ok(case.say(&AT_CRANK_LINE, &[own.si(), ratio.si()], own / ratio.si()))
}

/// The coolant at that temperature of the warm-up, of several between filling and work, where cavitation begins soonest.
fn worst(case: &mut Case<'_>, circuit: Circuit, system: System) -> Result<Warmth, Unknown> {
    const STEPS: u8 = 8;
    let (glycol, from, to) = (case.of(GLYCOL)?, system.filled, circuit.work);
    let mut worst = (from, circuit.onset(system.pressure(from), from)?);
    for step in 1..=STEPS {
        let temperature = from.temperature + (to.temperature - from.temperature) * (f64::from(step) / f64::from(STEPS));
        let warm = if step == STEPS { to } else { known(Warmth::of(glycol, temperature))? };
        let onset = circuit.onset(system.pressure(warm), warm)?;
        if onset < worst.1 {
            worst = (warm, onset);
        }
    }
    Ok(worst.0)
}
