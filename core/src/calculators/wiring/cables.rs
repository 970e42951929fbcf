//! Will it crank, and does the charge reach the battery? Starter cable, earths, engine strap, charge cable.
//!
//! While cranking the battery's resistance and every cable's share one current: U = U_0 − I·(R_b + R_+ + R_−). What the
//! strap does not carry goes through whatever else joins engine and body.

use super::choices::{EarthTo, Joints, SensorEarth, Strap};
use super::{
    ALTERNATOR_CURRENT, BATTERY_RESISTANCE, BAY_AIR, BODY_PATH, BODY_RESISTANCE, COLD_FACTOR, CRANK_COLD, CRANK_CURRENT, CRANK_WARM,
    DIP_VOLTAGE, EARTH_CABLE, EARTH_SIZE, EARTH_TO, ENGINE_PATH, INRUSH, JOINT_RESISTANCE, JOINTS, LOAD_AT_IDLE, POSITIVE_DROP,
    REST_VOLTAGE, RETURN_DROP, SENSOR_EARTH, SENSOR_ERROR, SOURCE_RESISTANCE, START_TEMPERATURE, STARTER_CABLE, STARTER_SIZE,
    STARTER_VOLTAGE, STRAP, STRAP_LENGTH, STRAP_SIZE, STRAY_CURRENT, STRAY_RESISTANCE,
};
use crate::data::conductors::Conductor;
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{A, CELSIUS, MILLIOHM, ONE, V};
use crate::quantity::{Area, Current, Length, Ratio, Resistance, Temperature, Voltage, celsius};
use crate::report::Unknown;
use crate::spec::{Input, Source};

pub(super) const CABLE_SOURCE: Source = Source::FromMemory("ISO 6722-1:2011 and IEC 60028");

static BATTERY: Line = Line {
    equation: "R_b = R_25 · max(½, 1 + (k − 1) · (25 − θ) / 35)",
    terms: &[("R_25", MILLIOHM), ("k", ONE), ("θ", CELSIUS)],
    unit: MILLIOHM,
    source: Source::CommonPractice,
};
static SOURCE_LINE: Line =
    Line { equation: "R_s = R_b + R_e", terms: &[("R_b", MILLIOHM), ("R_e", MILLIOHM)], unit: MILLIOHM, source: Source::Definition };
static PATH: Line = Line {
    equation: "R = R_body + R_strap · R_stray / (R_strap + R_stray)",
    terms: &[("R_body", MILLIOHM), ("R_strap", MILLIOHM), ("R_stray", MILLIOHM)],
    unit: MILLIOHM,
    source: Source::Definition,
};
static CRANKING_CURRENT: Line = Line {
    equation: "I = max(½ · I_20, I_20 + (I_−10 − I_20) · (20 − θ) / 30)",
    terms: &[("I_20", A), ("I_−10", A), ("θ", CELSIUS)],
    unit: A,
    source: Source::CommonPractice,
};
static COLD_DROP: Line =
    Line { equation: "U_c = I · R( θ )", terms: &[("I", A), ("R", MILLIOHM), ("θ", CELSIUS)], unit: V, source: CABLE_SOURCE };
static HOT_DROP: Line =
    Line {
        equation: "U_h = I_20 · R( θ_bay )", terms: &[("I_20", A), ("R", MILLIOHM), ("θ_bay", CELSIUS)], unit: V, source: CABLE_SOURCE
    };
static WORSE_DROP: Line = Line { equation: "U = max(U_c, U_h)", terms: &[("U_c", V), ("U_h", V)], unit: V, source: Source::Definition };
pub(super) static DROP_LINE: Line = Line { equation: "U = I · R", terms: &[("I", A), ("R", MILLIOHM)], unit: V, source: CABLE_SOURCE };
static COLD_LEFT: Line = Line {
    equation: "U_c = U_0 − I · (R_b + R_+( θ ) + R_r( θ ))",
    terms: &[("U_0", V), ("I", A), ("R_b", MILLIOHM), ("R_+", MILLIOHM), ("R_r", MILLIOHM), ("θ", CELSIUS)],
    unit: V,
    source: Source::Definition,
};
static HOT_LEFT: Line = Line {
    equation: "U_h = U_0 − I_20 · (R_b + R_+( θ_bay ) + R_r( θ_bay ))",
    terms: &[("U_0", V), ("I_20", A), ("R_b", MILLIOHM), ("R_+", MILLIOHM), ("R_r", MILLIOHM), ("θ_bay", CELSIUS)],
    unit: V,
    source: Source::Definition,
};
static WORSE_LEFT: Line = Line { equation: "U = min(U_c, U_h)", terms: &[("U_c", V), ("U_h", V)], unit: V, source: Source::Definition };
static DIP: Line =
    Line { equation: "U = U_0 − I · R_b", terms: &[("U_0", V), ("I", A), ("R_b", MILLIOHM)], unit: V, source: Source::Definition };
static STRAY: Line = Line {
    equation: "I_s = I · R_strap / (R_strap + R_stray)",
    terms: &[("I", A), ("R_strap", MILLIOHM), ("R_stray", MILLIOHM)],
    unit: A,
    source: Source::Definition,
};
static COLD_STRAY: Line = Line {
    equation: "I_c = I · R_strap( θ ) / (R_strap( θ ) + R_stray)",
    terms: &[("I", A), ("R_strap", MILLIOHM), ("θ", CELSIUS), ("R_stray", MILLIOHM)],
    unit: A,
    source: Source::Definition,
};
static HOT_STRAY: Line = Line {
    equation: "I_h = I_20 · R_strap( θ_bay ) / (R_strap( θ_bay ) + R_stray)",
    terms: &[("I_20", A), ("R_strap", MILLIOHM), ("θ_bay", CELSIUS), ("R_stray", MILLIOHM)],
    unit: A,
    source: Source::Definition,
};
static WORSE_STRAY: Line = Line { equation: "I_s = max(I_c, I_h)", terms: &[("I_c", A), ("I_h", A)], unit: A, source: Source::Definition };
static ALL_STARTER: Line = Line { equation: "I_s = max(I, I_20)", terms: &[("I", A), ("I_20", A)], unit: A, source: Source::Definition };
pub(super) const NOT_IN_TABLE: Unknown = Unknown::NoSolution("Cable of this size is not in the table.");

/// Inner resistance of a battery at a temperature: straight from 25 °C to −10 °C, where it is `cold` times as much
/// (common practice, no source); never under half of it.
#[must_use]
pub fn battery_resistance(at_25: Resistance, cold: Ratio, at: Temperature) -> Resistance {
    at_25 * (1.0 + (cold.si() - 1.0) * (25.0 - at.in_celsius()) / 35.0).max(0.5)
}

/// Voltage left at the starter.
#[must_use]
pub fn left_at_starter(rest: Voltage, current: Current, battery: Resistance, positive: Resistance, back: Resistance) -> Voltage {
    rest - current * (battery + positive + back)
}

/// The share of a current that goes past the strap.
#[must_use]
pub fn past_the_strap(current: Current, strap: Resistance, stray: Resistance) -> Current {
    current * (strap / (strap + stray))
}

/// A cable with a joint at each end.
#[derive(Clone, Copy)]
struct Cable {
    wire: Conductor,
    length: Length,
    joint: Resistance,
}

impl Cable {
    fn read(case: &mut Case<'_>, length: Input<Length>, size: Input<Area>) -> Result<Self, Unknown> {
        let (length, size) = (case.of(length)?, case.of(size)?);
        let wire = Conductor::of(size).ok_or(NOT_IN_TABLE)?;
        Ok(Self { wire, length, joint: joints(case)? })
    }

    fn at(&self, copper: Temperature) -> Resistance {
        self.wire.resistance_at(copper) * self.length + self.joint * 2.0
    }
}

/// A cable with a joint at each end, its copper at the bay's temperature.
pub(super) fn cable(case: &mut Case<'_>, length: Input<Length>, size: Input<Area>) -> Result<Resistance, Unknown> {
    let (cable, air) = (Cable::read(case, length, size)?, case.of(BAY_AIR)?);
    Ok(cable.at(air))
}

pub(super) fn joints(case: &mut Case<'_>) -> Result<Resistance, Unknown> {
    let worse = match case.of(JOINTS)? {
        Joints::Clean => 1.0,
        Joints::Corroded => 10.0,
    };
    Ok(case.of(JOINT_RESISTANCE)? * worse)
}

fn battery(case: &mut Case<'_>) -> Result<Resistance, Unknown> {
    let at = case.of(START_TEMPERATURE)?;
    battery_at(case, at)
}

fn battery_at(case: &mut Case<'_>, at: Temperature) -> Result<Resistance, Unknown> {
    let (at_25, cold) = (case.of(BATTERY_RESISTANCE)?, case.of(COLD_FACTOR)?);
    Ok(case.say(&BATTERY, &[at_25.si(), cold.si(), at.si()], battery_resistance(at_25, cold, at)))
}

/// What joins engine and body: the strap, if there is one, and everything else.
pub(super) struct Link {
    strap: Option<Cable>,
    stray: Resistance,
}

impl Link {
    pub(super) fn read(case: &mut Case<'_>) -> Result<Self, Unknown> {
        let strap = match case.of(STRAP)? {
            Strap::Fitted => Some(Cable::read(case, STRAP_LENGTH, STRAP_SIZE)?),
            Strap::Missing => None,
        };
        Ok(Self { strap, stray: case.of(STRAY_RESISTANCE)? })
    }

    pub(super) fn at(&self, copper: Temperature) -> Resistance {
        match self.strap.map(|strap| strap.at(copper)) {
            Some(strap) => self.stray * (strap / (strap + self.stray)),
            None => self.stray,
        }
    }
}

pub(super) const PATHS: Step = Step {
    name: "ways back to the battery",
    reads: &[
        BAY_AIR.id,
        JOINTS.id,
        JOINT_RESISTANCE.id,
        EARTH_CABLE.id,
        EARTH_SIZE.id,
        EARTH_TO.id,
        STRAP.id,
        STRAP_LENGTH.id,
        STRAP_SIZE.id,
        STRAY_RESISTANCE.id,
        BODY_RESISTANCE.id,
        BATTERY_RESISTANCE.id,
        COLD_FACTOR.id,
        START_TEMPERATURE.id,
    ],
    writes: &[SOURCE_RESISTANCE.id, BODY_PATH.id, ENGINE_PATH.id],
    run: run_paths,
};

fn run_paths(case: &mut Case<'_>) {
    case.answer(SOURCE_RESISTANCE, |case| {
        let (battery, earth) = (battery(case)?, cable(case, EARTH_CABLE, EARTH_SIZE)?);
        Ok(case.say(&SOURCE_LINE, &[battery.si(), earth.si()], battery + earth))
    });
    for (output, here) in [(BODY_PATH, EarthTo::Body), (ENGINE_PATH, EarthTo::Engine)] {
        case.answer(output, |case| {
            let body = case.of(BODY_RESISTANCE)?;
            // Where the battery's cable ends, nothing but the body's own metal lies between; else the strap too.
            if case.of(EARTH_TO)? == here {
                return Ok(if here == EarthTo::Body { body } else { Resistance::ZERO });
            }
            let (link, air) = (Link::read(case)?, case.of(BAY_AIR)?);
            let strap = link.strap.map_or(f64::INFINITY, |strap| strap.at(air).si());
            Ok(case.say(&PATH, &[body.si(), strap, link.stray.si()], body + link.at(air)))
        });
    }
}

fn cranking(case: &mut Case<'_>) -> Result<Current, Unknown> {
    let (warm, cold, at) = (case.of(CRANK_WARM)?, case.of(CRANK_COLD)?, case.of(START_TEMPERATURE)?);
    let current = crank_current(warm, cold, at);
    Ok(case.say(&CRANKING_CURRENT, &[warm.si(), cold.si(), at.si()], current))
}

/// What the starter draws at a temperature: straight through what it draws at 20 and −10 °C, not under half of the former.
#[must_use]
pub fn crank_current(warm: Current, cold: Current, at: Temperature) -> Current {
    (warm + (cold - warm) * ((20.0 - at.in_celsius()) / 30.0)).max(warm * 0.5)
}

pub(super) const CRANKING: Step = Step {
    name: "cranking",
    reads: &[
        BAY_AIR.id,
        JOINTS.id,
        JOINT_RESISTANCE.id,
        STARTER_CABLE.id,
        STARTER_SIZE.id,
        EARTH_CABLE.id,
        EARTH_SIZE.id,
        EARTH_TO.id,
        STRAP.id,
        STRAP_LENGTH.id,
        STRAP_SIZE.id,
        STRAY_RESISTANCE.id,
        BODY_RESISTANCE.id,
        BATTERY_RESISTANCE.id,
        COLD_FACTOR.id,
        START_TEMPERATURE.id,
        CRANK_WARM.id,
        CRANK_COLD.id,
        INRUSH.id,
        REST_VOLTAGE.id,
        ALTERNATOR_CURRENT.id,
        LOAD_AT_IDLE.id,
        SENSOR_EARTH.id,
    ],
    writes: &[CRANK_CURRENT.id, POSITIVE_DROP.id, RETURN_DROP.id, STARTER_VOLTAGE.id, DIP_VOLTAGE.id, STRAY_CURRENT.id, SENSOR_ERROR.id],
    run: run_cranking,
};

/// One start: what the starter draws, and how warm its cables are.
#[derive(Clone, Copy)]
struct Start {
    current: Current,
    cables: Temperature,
}

/// The temperature at which the starter draws what it draws warm.
const WARM: Temperature = celsius(20.0);

/// A start at the temperature given, everything that cold; and one with the bay hot, when the starter draws no more than at
/// 20 °C. The worse counts.
fn starts(case: &mut Case<'_>) -> Result<[Start; 2], Unknown> {
    let cold = Start { current: cranking(case)?, cables: case.of(START_TEMPERATURE)? };
    Ok([cold, Start { current: case.of(CRANK_WARM)?, cables: case.of(BAY_AIR)? }])
}

/// What the worse start loses over this.
fn worse_drop(case: &mut Case<'_>, way: impl Fn(Temperature) -> Resistance) -> Result<Voltage, Unknown> {
    let [cold, hot] = starts(case)?.map(|start| (start, way(start.cables)));
    let lost = |case: &mut Case<'_>, line, (Start { current, cables }, way): (Start, Resistance)| {
        case.say(line, &[current.si(), way.si(), cables.si()], current * way)
    };
    let (cold, hot) = (lost(case, &COLD_DROP, cold), lost(case, &HOT_DROP, hot));
    Ok(case.say(&WORSE_DROP, &[cold.si(), hot.si()], cold.max(hot)))
}

fn run_cranking(case: &mut Case<'_>) {
    case.answer(CRANK_CURRENT, cranking);
    let positive = Cable::read(case, STARTER_CABLE, STARTER_SIZE);
    let back = way_back(case);
    case.answer(POSITIVE_DROP, |case| {
        let positive = positive?;
        worse_drop(case, |at| positive.at(at))
    });
    case.answer(RETURN_DROP, |case| {
        let back = back.as_ref().map_err(|why| *why)?;
        worse_drop(case, |at| back.at(at))
    });
    case.answer(STARTER_VOLTAGE, |case| {
        let (rest, positive, back) = (case.of(REST_VOLTAGE)?, positive?, back.as_ref().map_err(|why| *why)?);
        let [cold, hot] = starts(case)?;
        let left = |case: &mut Case<'_>, line, Start { current, cables }: Start, battery: Resistance| {
            let (positive, back) = (positive.at(cables), back.at(cables));
            let left = left_at_starter(rest, current, battery, positive, back);
            case.say(line, &[rest.si(), current.si(), battery.si(), positive.si(), back.si(), cables.si()], left)
        };
        let battery = battery(case)?;
        let cold = left(case, &COLD_LEFT, cold, battery);
        let battery = battery_at(case, WARM)?;
        let hot = left(case, &HOT_LEFT, hot, battery);
        Ok(case.say(&WORSE_LEFT, &[cold.si(), hot.si()], cold.min(hot)))
    });
    case.answer(DIP_VOLTAGE, |case| {
        let (rest, inrush, battery) = (case.of(REST_VOLTAGE)?, case.of(INRUSH)?, battery(case)?);
        Ok(case.say(&DIP, &[rest.si(), inrush.si(), battery.si()], rest - inrush * battery))
    });
    case.answer(STRAY_CURRENT, stray);
    case.answer(SENSOR_ERROR, |case| {
        let link = Link::read(case)?;
        let current = match case.of(SENSOR_EARTH)? {
            SensorEarth::ControlUnit => Current::ZERO,
            // While the starter turns nothing is charged: bolted to the engine, the strap brings back what the body's loads draw.
            SensorEarth::Engine if case.of(EARTH_TO)? == EarthTo::Engine => case.of(LOAD_AT_IDLE)?,
            SensorEarth::Engine => return worse_drop(case, |at| link.at(at)),
        };
        let air = case.of(BAY_AIR)?;
        Ok(case.say(&DROP_LINE, &[current.si(), link.at(air).si()], current * link.at(air)))
    });
}

/// What goes past the strap at its heaviest: of the starter's current, or, where the battery's cable goes to the engine, of
/// the current of everything on the body.
fn stray(case: &mut Case<'_>) -> Result<Current, Unknown> {
    let link = Link::read(case)?;
    if case.of(EARTH_TO)? == EarthTo::Engine {
        let (current, air) = (case.of(ALTERNATOR_CURRENT)?, case.of(BAY_AIR)?);
        return Ok(match link.strap.map(|strap| strap.at(air)) {
            Some(strap) => {
                let past = past_the_strap(current, strap, link.stray);
                case.say(&STRAY, &[current.si(), strap.si(), link.stray.si()], past)
            }
            None => current,
        });
    }
    let [cold, hot] = starts(case)?;
    let Some(strap) = link.strap else {
        return Ok(case.say(&ALL_STARTER, &[cold.current.si(), hot.current.si()], cold.current.max(hot.current)));
    };
    let past = |case: &mut Case<'_>, line, Start { current, cables }: Start| {
        let strap = strap.at(cables);
        case.say(line, &[current.si(), strap.si(), cables.si(), link.stray.si()], past_the_strap(current, strap, link.stray))
    };
    let (cold, hot) = (past(case, &COLD_STRAY, cold), past(case, &HOT_STRAY, hot));
    Ok(case.say(&WORSE_STRAY, &[cold.si(), hot.si()], cold.max(hot)))
}

/// From the starter's body to the battery.
struct Back {
    /// What lies between the engine and where the battery's cable ends.
    path: Option<(Resistance, Link)>,
    earth: Cable,
}

fn way_back(case: &mut Case<'_>) -> Result<Back, Unknown> {
    let path = match case.of(EARTH_TO)? {
        EarthTo::Engine => None,
        EarthTo::Body => Some((case.of(BODY_RESISTANCE)?, Link::read(case)?)),
    };
    Ok(Back { path, earth: Cable::read(case, EARTH_CABLE, EARTH_SIZE)? })
}

impl Back {
    fn at(&self, copper: Temperature) -> Resistance {
        self.path.as_ref().map_or(Resistance::ZERO, |(body, link)| *body + link.at(copper)) + self.earth.at(copper)
    }
}
