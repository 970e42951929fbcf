//! Does the charge reach the battery, and does the charge cable live? Alternator to starter to battery, and back by the
//! engine.

use super::bundle::Way;
use super::cables::{CABLE_SOURCE, DROP_LINE, Link, NOT_IN_TABLE, cable, joints};
use super::choices::Guard;
use super::drop::loop_drop;
use super::protection::Tried;
use super::sizing::{Demand, NOTHING_PASSES, fails_every_size, sizes};
use super::{
    ALTERNATOR_CURRENT, BAY_AIR, CHARGE_ALLOWED, CHARGE_CABLE, CHARGE_DROP, CHARGE_FUSE, CHARGE_GUARD, CHARGE_LASTING, CHARGE_RETURN_DROP,
    CHARGE_SIZE, CHARGE_SMALLEST, CHARGE_TEMPERATURE, EARTH_CABLE, EARTH_SIZE, ENGINE_PATH, HEAVY_INSULATION, JOINT_RESISTANCE, JOINTS,
    LEAST_SIZE, SIZE_RANGE, STARTER_CABLE, STARTER_SIZE, STRAP, STRAP_DROP, STRAP_LENGTH, STRAP_SIZE, STRAY_RESISTANCE,
    SUGGESTED_CHARGE_FUSE,
};
use crate::data::conductors::{self, Conductor};
use crate::data::fuses::Fuse;
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{A, CELSIUS, CONDUCTOR, M, MILLIOHM, MILLIOHM_PER_M, V};
use crate::quantity::{HeatPerLength, Resistance, Temperature, ThermalResistance, Voltage};
use crate::report::Unknown;
use crate::spec::Source;

static QUARTER_OVER: Line = Line { equation: "I_n ≥ 1.25 · I", terms: &[("I", A)], unit: A, source: Source::CommonPractice };
static CHARGE_LOSS: Line = Line {
    equation: "U = I · (R_20 · (1 + 0.00393 · (θ − 20)) · l + R_o)",
    terms: &[("I", A), ("R_20", MILLIOHM_PER_M), ("θ", CELSIUS), ("l", M), ("R_o", MILLIOHM)],
    unit: V,
    source: CABLE_SOURCE,
};
static SETTLED: Line = Line {
    equation: "I² · R(θ) = loss(S, θ, θ_a)",
    terms: &[("I", A), ("S", CONDUCTOR), ("θ_a", CELSIUS)],
    unit: CELSIUS,
    source: Source::Published("Churchill & Chu, Int. J. Heat Mass Transfer 18 (1975); resistance by ISO 6722-1, from memory"),
};

const NO_FUSE_SOLD: Unknown = Unknown::NoSolution("No fuse of the list carries this output.");
const NO_END: Unknown = Unknown::NoSolution("This cable heats itself up without end.");

/// Rating wanted over the alternator's output (common practice, no source).
const OVER_OUTPUT: f64 = 1.25;

pub(super) const FUSES: Step =
    Step { name: "charge fuse", reads: &[ALTERNATOR_CURRENT.id], writes: &[SUGGESTED_CHARGE_FUSE.id], run: run_fuses };

fn run_fuses(case: &mut Case<'_>) {
    case.answer(SUGGESTED_CHARGE_FUSE, |case| {
        let output = case.of(ALTERNATOR_CURRENT)?;
        let fuse = Fuse::at_least(output * OVER_OUTPUT).ok_or(NO_FUSE_SOLD)?;
        Ok(case.say(&QUARTER_OVER, &[output.si()], fuse.rating))
    });
}

/// Everything of the charge's way but its own wire: its joints, and the starter's cable from there on.
fn others(case: &mut Case<'_>) -> Result<Resistance, Unknown> {
    Ok(joints(case)? * 2.0 + cable(case, STARTER_CABLE, STARTER_SIZE)?)
}

fn demand(case: &mut Case<'_>) -> Result<Demand, Unknown> {
    let (output, others) = (case.of(ALTERNATOR_CURRENT)?, others(case)?);
    Ok(Demand {
        rms: output,
        peak: output,
        allowed: case.of(CHARGE_ALLOWED)?,
        others: output * others,
        length: case.of(CHARGE_CABLE)?,
        insulation: case.of(HEAVY_INSULATION)?.stands(),
        // How much is lost does not hang on it.
        fuse: None,
    })
}

pub(super) const SIZES: Step = Step {
    name: "charge cable",
    reads: &[
        ALTERNATOR_CURRENT.id,
        CHARGE_ALLOWED.id,
        CHARGE_CABLE.id,
        CHARGE_FUSE.id,
        HEAVY_INSULATION.id,
        STARTER_CABLE.id,
        STARTER_SIZE.id,
        BAY_AIR.id,
        JOINTS.id,
        JOINT_RESISTANCE.id,
        SIZE_RANGE.id,
        LEAST_SIZE.id,
    ],
    writes: &[CHARGE_SMALLEST.id, CHARGE_LASTING.id],
    run: run_sizes,
};

fn run_sizes(case: &mut Case<'_>) {
    case.answer(CHARGE_LASTING, |case| Ok(case.of(HEAVY_INSULATION)?.stands().lasting));
    case.answer(CHARGE_SMALLEST, |case| {
        let (demand, range, least) = (demand(case)?, case.of(SIZE_RANGE)?, case.of(LEAST_SIZE)?);
        let fuse = Fuse::new(case.of(CHARGE_FUSE)?);
        let range = sizes(range);
        let air = case.of(BAY_AIR)?;
        let (first, _) = demand.smallest_alone(range, least, air)?;
        let mut wires = range[first..].iter().map(|&at| &conductors::SIZES[usize::from(at)]);
        let wire = wires.find(|wire| guarded(&demand, fuse, wire, air)).ok_or(NOTHING_PASSES)?;
        Ok(demand.say(case, wire))
    });
}

/// The charge cable in force, settled at full output.
#[derive(Clone, Copy)]
struct Settled {
    demand: Demand,
    wire: Conductor,
    way: Way,
    temperature: Temperature,
}

/// The cable's way out and its temperature at full output; none when it never settles.
fn settle(demand: &Demand, wire: &Conductor, air: Temperature) -> Option<(Way, Temperature)> {
    let way = Way::alone(wire, air);
    let (cold, inner) = (HeatPerLength::from_si(demand.cold(wire)), ThermalResistance::from_si(wire.insulation));
    Some((way, way.cylinder.settle(cold, inner)?.copper))
}

/// Whether the fuse guards this size.
fn guarded(demand: &Demand, fuse: Fuse, wire: &Conductor, air: Temperature) -> bool {
    let Some((way, temperature)) = settle(demand, wire, air) else { return false };
    Tried { wire, insulation: demand.insulation, way, running: temperature.si() }.guard(fuse) == Guard::Guards
}

fn settled(case: &mut Case<'_>) -> Result<Settled, Unknown> {
    // Where no size passes the thickest shows by how much.
    let size = match case.of(CHARGE_SIZE) {
        Err(why) if fails_every_size(why) => conductors::SIZES[conductors::SIZES.len() - 1].area,
        size => size?,
    };
    let (demand, air) = (demand(case)?, case.of(BAY_AIR)?);
    let wire = Conductor::of(size).ok_or(NOT_IN_TABLE)?;
    let (way, temperature) = settle(&demand, &wire, air).ok_or(NO_END)?;
    Ok(Settled { demand, wire, way, temperature })
}

pub(super) const CHARGING: Step = Step {
    name: "charging",
    reads: &[
        ALTERNATOR_CURRENT.id,
        CHARGE_ALLOWED.id,
        CHARGE_CABLE.id,
        CHARGE_FUSE.id,
        CHARGE_SIZE.id,
        HEAVY_INSULATION.id,
        STARTER_CABLE.id,
        STARTER_SIZE.id,
        EARTH_CABLE.id,
        EARTH_SIZE.id,
        ENGINE_PATH.id,
        STRAP.id,
        STRAP_LENGTH.id,
        STRAP_SIZE.id,
        STRAY_RESISTANCE.id,
        BAY_AIR.id,
        JOINTS.id,
        JOINT_RESISTANCE.id,
    ],
    writes: &[CHARGE_DROP.id, CHARGE_RETURN_DROP.id, STRAP_DROP.id, CHARGE_TEMPERATURE.id, CHARGE_GUARD.id],
    run: run_charging,
};

fn run_charging(case: &mut Case<'_>) {
    let (settled, others) = (settled(case), others(case));
    let settled = settled.as_ref().map_err(|why| *why);
    case.answer(CHARGE_TEMPERATURE, |case| {
        let (Settled { demand, wire, temperature, .. }, air) = (settled?, case.of(BAY_AIR)?);
        Ok(case.say(&SETTLED, &[demand.rms.si(), wire.area.si(), air.si()], *temperature))
    });
    case.answer(CHARGE_DROP, |case| {
        let (Settled { demand, wire, temperature, .. }, others) = (settled?, others?);
        let lost = loop_drop(demand.peak, wire.resistance_at(*temperature), demand.length, others, Voltage::ZERO);
        let numbers = [demand.peak.si(), wire.resistance.si(), temperature.si(), demand.length.si(), others.si()];
        Ok(case.say(&CHARGE_LOSS, &numbers, lost))
    });
    case.answer(CHARGE_GUARD, |case| {
        let (Settled { demand, wire, way, temperature }, fuse) = (settled?, Fuse::new(case.of(CHARGE_FUSE)?));
        if fuse.rating.si() < demand.rms.si() * OVER_OUTPUT * (1.0 - 1e-12) {
            return Ok(Guard::TooSmall);
        }
        Ok(Tried { wire, insulation: demand.insulation, way: *way, running: temperature.si() }.guard(fuse))
    });
    case.answer(CHARGE_RETURN_DROP, |case| {
        let (output, path) = (case.of(ALTERNATOR_CURRENT)?, case.of(ENGINE_PATH)?);
        let back = path + cable(case, EARTH_CABLE, EARTH_SIZE)?;
        Ok(case.say(&DROP_LINE, &[output.si(), back.si()], output * back))
    });
    case.answer(STRAP_DROP, |case| {
        let (output, link, air) = (case.of(ALTERNATOR_CURRENT)?, Link::read(case)?, case.of(BAY_AIR)?);
        let strap = link.at(air);
        Ok(case.say(&DROP_LINE, &[output.si(), strap.si()], output * strap))
    });
}
