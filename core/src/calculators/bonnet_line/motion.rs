//! How does the engine sit, bounce, roll and grow?

use super::mounts::{Mounts, Sink, grip_torque, roll, weight};
use super::{
    BOUNCE, BOUNCE_G, BOUNCE_GEARBOX, CENTRE, CLUTCH_TORQUE, DRIVEN_SHARE, DYNAMIC, GEAR_TORQUE, GEARBOX_MOUNT, GEARBOX_STIFFNESS, GRIP,
    GRIP_TORQUE, GROWTH, HALF_SPACING, HEIGHT, MEASURED_ON, METAL, MOUNT_STIFFNESS, MeasuredOn, MountMetal, PITCH, REST_HEIGHT, REST_PITCH,
    ROLL, ROLL_CLUTCH, ROLL_ENGINE, ROLL_FULL, ROLL_LIMIT, ROLL_TORQUE, RollLimit, SAG, SAG_GEARBOX, WARM_UP, WEIGHT,
};
use crate::calculators::car;
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{DEG, KG, MM, N_PER_MM, NM, ONE, PERCENT, RISE};
use crate::quantity::{Angle, Length, Ratio, Torque};
use crate::report::Unknown;
use crate::spec::Source;

const STATICS: Source = Source::Definition;

static SAGS: Line = Line {
    equation: "s = m · g · (1 − c / l) / (2 · k)",
    terms: &[("m", KG), ("c", MM), ("l", MM), ("k", N_PER_MM)],
    unit: MM,
    source: STATICS,
};
static SAGS_BEHIND: Line =
    Line {
        equation: "s = m · g · c / (l · k_g)", terms: &[("m", KG), ("c", MM), ("l", MM), ("k_g", N_PER_MM)], unit: MM, source: STATICS
    };
static SAT: Line = Line { equation: "s = 0", terms: &[], unit: MM, source: STATICS };
static BOUNCES: Line = Line { equation: "b = Δ · s / f", terms: &[("Δ", ONE), ("s", MM), ("f", ONE)], unit: MM, source: STATICS };
static RESTS: Line = Line { equation: "h = h₀ − s", terms: &[("h₀", MM), ("s", MM)], unit: MM, source: STATICS };
static TIPS: Line =
    Line {
        equation: "θ = θ₀ + atan((s_g − s) / l)", terms: &[("θ₀", DEG), ("s_g", MM), ("s", MM), ("l", MM)], unit: DEG, source: STATICS
    };
static GEARED: Line = Line { equation: "M = M_e · i", terms: &[("M_e", NM), ("i", ONE)], unit: NM, source: STATICS };
static GRIPPED: Line = Line {
    equation: "M = μ · w · m · g · r / i_f",
    terms: &[("μ", ONE), ("w", PERCENT), ("m", KG), ("r", MM), ("i_f", ONE)],
    unit: NM,
    source: STATICS,
};
static ROLLS: Line =
    Line { equation: "φ = M / (2 · k · a²)", terms: &[("M", NM), ("k", N_PER_MM), ("a", MM)], unit: DEG, source: STATICS };
static GROWS: Line = Line {
    equation: "e = α · ΔT",
    terms: &[("α", ONE), ("ΔT", RISE)],
    unit: PERCENT,
    source: Source::FromMemory("handbooks of materials: 23.1·10⁻⁶ aluminium, 12·10⁻⁶ iron"),
};

fn mounts(case: &mut Case<'_>) -> Result<Mounts, Unknown> {
    Ok(Mounts {
        engine: case.of(MOUNT_STIFFNESS)?,
        half_spacing: case.of(HALF_SPACING)?,
        gearbox: case.of(GEARBOX_STIFFNESS)?,
        gearbox_at: case.of(GEARBOX_MOUNT)?,
    })
}

pub(super) const SIT_STEP: Step = Step {
    name: "sag and bounce",
    reads: &[
        MOUNT_STIFFNESS.id,
        HALF_SPACING.id,
        GEARBOX_STIFFNESS.id,
        GEARBOX_MOUNT.id,
        WEIGHT.id,
        CENTRE.id,
        MEASURED_ON.id,
        HEIGHT.id,
        PITCH.id,
        BOUNCE_G.id,
        DYNAMIC.id,
        METAL.id,
        WARM_UP.id,
    ],
    writes: &[SAG.id, SAG_GEARBOX.id, REST_HEIGHT.id, REST_PITCH.id, BOUNCE.id, BOUNCE_GEARBOX.id, GROWTH.id],
    run: |case| {
        case.answer(SAG, |case| sag(case, false));
        case.answer(SAG_GEARBOX, |case| sag(case, true));
        case.answer(REST_HEIGHT, |case| {
            let (height, sag) = (case.of(HEIGHT)?, sag(case, false)?);
            Ok(case.say(&RESTS, &[height.si(), sag.si()], height - sag))
        });
        case.answer(REST_PITCH, |case| {
            let (pitch, sag, behind, base) = (case.of(PITCH)?, sag(case, false)?, sag(case, true)?, case.of(GEARBOX_MOUNT)?);
            let found = pitch + super::space::tip(behind - sag, base);
            Ok(case.say(&TIPS, &[pitch.si(), behind.si(), sag.si(), base.si()], found))
        });
        case.answer(BOUNCE, |case| bounce(case, false));
        case.answer(BOUNCE_GEARBOX, |case| bounce(case, true));
        case.answer(GROWTH, |case| {
            let (metal, warmer): (MountMetal, _) = (case.of(METAL)?, case.of(WARM_UP)?);
            let found = Ratio::from_si(metal.expansion() * warmer.si());
            Ok(case.say(&GROWS, &[metal.expansion(), warmer.si()], found))
        });
    },
};

/// What its own weight sinks an end by, whether or not that has happened when it was measured.
fn sink(case: &mut Case<'_>, gearbox: bool) -> Result<Length, Unknown> {
    let (mounts, mass, centre) = (mounts(case)?, case.of(WEIGHT)?, case.of(CENTRE)?);
    let Sink { engine, gearbox: behind } = mounts.sink(weight(mass, 1.0), centre);
    let (line, stiffness, found) = if gearbox { (&SAGS_BEHIND, mounts.gearbox, behind) } else { (&SAGS, mounts.engine, engine) };
    Ok(case.say(line, &[mass.si(), centre.si(), mounts.gearbox_at.si(), stiffness.si()], found))
}

fn sag(case: &mut Case<'_>, gearbox: bool) -> Result<Length, Unknown> {
    match case.of(MEASURED_ON)? {
        MeasuredOn::Mounts => Ok(case.say(&SAT, &[], Length::ZERO)),
        MeasuredOn::Slung => sink(case, gearbox),
    }
}

fn bounce(case: &mut Case<'_>, gearbox: bool) -> Result<Length, Unknown> {
    let (sink, gravities, stiffer) = (sink(case, gearbox)?, case.of(BOUNCE_G)?, case.of(DYNAMIC)?);
    let found = sink.abs() * (gravities.si() / stiffer.si());
    Ok(case.say(&BOUNCES, &[gravities.si(), sink.abs().si(), stiffer.si()], found))
}

pub(super) const ROLL_STEP: Step = Step {
    name: "roll under torque",
    reads: &[
        ROLL_ENGINE.id,
        ROLL_CLUTCH.id,
        car::GEAR_RATIO.id,
        car::FINAL_DRIVE.id,
        car::ROLLING_RADIUS.id,
        car::MASS.id,
        GRIP.id,
        DRIVEN_SHARE.id,
        MOUNT_STIFFNESS.id,
        HALF_SPACING.id,
    ],
    writes: &[GEAR_TORQUE.id, CLUTCH_TORQUE.id, GRIP_TORQUE.id, ROLL_TORQUE.id, ROLL_LIMIT.id, ROLL.id, ROLL_FULL.id],
    run: |case| {
        // Said for all of them: each hangs on the three.
        let (engine, clutch, tyres) = (geared(case, ROLL_ENGINE), geared(case, ROLL_CLUTCH), gripped(case));
        let least = engine.and_then(|engine| Ok(least(engine, clutch?, tyres?)));
        case.answer(GEAR_TORQUE, |_| engine);
        case.answer(CLUTCH_TORQUE, |_| clutch);
        case.answer(GRIP_TORQUE, |_| tyres);
        case.answer(ROLL_TORQUE, |_| least.map(|least| least.0));
        case.answer(ROLL_LIMIT, |_| least.map(|least| least.1));
        case.answer(ROLL, |case| rolled(case, least?.0));
        case.answer(ROLL_FULL, |case| rolled(case, engine?.min(clutch?)));
    },
};

fn rolled(case: &mut Case<'_>, torque: Torque) -> Result<Angle, Unknown> {
    let (engine, half_spacing) = (case.of(MOUNT_STIFFNESS)?, case.of(HALF_SPACING)?);
    Ok(case.say(&ROLLS, &[torque.si(), engine.si(), half_spacing.si()], roll(torque, engine, half_spacing)))
}

/// Behind the gearbox in its lowest gear.
fn geared(case: &mut Case<'_>, torque: crate::spec::Input<Torque>) -> Result<Torque, Unknown> {
    let (torque, lowest) = (case.of(torque)?, car::gearing::first(case)?.si());
    Ok(case.say(&GEARED, &[torque.si(), lowest], torque * lowest))
}

fn gripped(case: &mut Case<'_>) -> Result<Torque, Unknown> {
    let (grip, share, mass) = (case.of(GRIP)?.si(), case.of(DRIVEN_SHARE)?.si(), case.of(car::MASS)?);
    let (radius, axle) = (case.of(car::ROLLING_RADIUS)?, case.of(car::FINAL_DRIVE)?.si());
    let found = grip_torque(mass, share, grip, radius, axle);
    Ok(case.say(&GRIPPED, &[grip, share, mass.si(), radius.si(), axle], found))
}

fn least(engine: Torque, clutch: Torque, tyres: Torque) -> (Torque, RollLimit) {
    if engine <= clutch && engine <= tyres {
        (engine, RollLimit::Engine)
    } else if clutch <= tyres {
        (clutch, RollLimit::Clutch)
    } else {
        (tyres, RollLimit::Tyres)
    }
}
