//! Does the belt hold, at idle and in a free rev?

use super::accessories::At;
use super::belt::arc;
use super::first;
use crate::calculators::car::{CURVE_SPEED, FLYWHEEL_TORQUE, HIGHEST_SPEED, IDLE, PEAK_TORQUE, TORQUE_CURVE};
use crate::calculators::front_drive::belt_path::{MOST_PULLEYS, Side};
use crate::calculators::front_drive::declared::{
    ADJUSTER, ADJUSTER_TYPE, ALTERNATOR_RATIO, ALTERNATOR_ROTOR, AdjusterType, BEARING_LOAD, BELT_LINE, BELT_RUNS, BELT_SPEED, BELT_STATE,
    BeltRuns, BeltState, CENTRIFUGAL, CRANK_ACCELERATION, DUTY, Duty, ENGINE_INERTIA, FRICTION_DRY, FRICTION_WET, GRIP_HIGH, GRIP_IDLE,
    HIGH_SPEED, IDLE_SPEED, LEAST_GRIP, LEAST_GRIP_FOUND, LOAD, LONGEST_TONE, MOST_TENSION_RATIO, PULLEYS, PUMP_BEARING, PUMP_POWER_HIGH,
    PUMP_POWER_IDLE, RATIO, RIB_MASS, RIB_TENSION, RIBS, ROTOR, SHAFT_POWER_HIGH, SHAFT_POWER_IDLE, SIDE, SPAN, SPIN_UP_TORQUE,
    TENSION_HIGH, TENSION_IDLE, TENSION_NEEDED, TENSION_SET, TONE, WET_GRIP, WRAP,
};
use crate::calculators::front_drive::grip::{self, Demand, Lie, Surface, Tensions, Tightening};
use crate::calculators::front_drive::{alternator, speeds};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{DEG, HZ, KG_M2, KG_PER_M, M_PER_S, MM, N, NM, ONE, RAD_PER_S2};
use crate::quantity::{AngularAcceleration, Force, LinearDensity, Ratio, Velocity, ratio};
use crate::report::Unknown;
use crate::spec::Source;

const BELT_FRICTION: Source = Source::Published("Euler and Eytelwein, in Shigley, Mechanical Engineering Design, chapter 17");

static FREE_REV: Line = Line { equation: "α = M / J", terms: &[("M", NM), ("J", KG_M2)], unit: RAD_PER_S2, source: Source::Definition };
static SPIN_UP: Line =
    Line { equation: "M = J · i · α", terms: &[("J", KG_M2), ("i", ONE), ("α", RAD_PER_S2)], unit: NM, source: Source::Definition };
static CENTRIFUGAL_LINE: Line =
    Line { equation: "F_c = z · m · v²", terms: &[("z", ONE), ("m", KG_PER_M), ("v", M_PER_S)], unit: N, source: BELT_FRICTION };
static SET_LINE: Line = Line { equation: "F = z · F_rib", terms: &[("z", ONE), ("F_rib", N)], unit: N, source: Source::Definition };
static TONE_LINE: Line = Line {
    equation: "f = √( F / ( z · m ) ) / ( 2 · L )",
    terms: &[("F", N), ("z", ONE), ("m", KG_PER_M), ("L", MM)],
    unit: HZ,
    source: Source::Definition,
};
static USABLE: Line = Line {
    equation: "R = least of e^( μ · θ / sin β ) and R_trust ^ ( min(θ, 180°) / 180° )",
    terms: &[("μ", ONE), ("θ", DEG), ("R_trust", ONE)],
    unit: ONE,
    source: Source::CommonPractice,
};
static MARGIN: Line =
    Line { equation: "s = R · F_slack / F_tight", terms: &[("R", ONE), ("F_slack", N), ("F_tight", N)], unit: ONE, source: BELT_FRICTION };
static CARRIED: Line = Line { equation: "F = F_eff + F_c", terms: &[("F_eff", N), ("F_c", N)], unit: N, source: BELT_FRICTION };
static BEARING: Line = Line {
    equation: "F = √( F_1² + F_2² − 2 · F_1 · F_2 · cos θ )",
    terms: &[("F_1", N), ("F_2", N), ("θ", DEG)],
    unit: N,
    source: Source::Definition,
};
static NEEDED: Line =
    Line { equation: "F_set = larger of F_idle and F_rev", terms: &[("F_idle", N), ("F_rev", N)], unit: N, source: BELT_FRICTION };

pub(in super::super) const TENSIONS: Step = Step {
    name: "tension and grip",
    reads: &[
        DUTY.id,
        SIDE.id,
        LOAD.id,
        ROTOR.id,
        RATIO.id,
        BELT_LINE.id,
        SPAN.id,
        WRAP.id,
        BELT_RUNS.id,
        IDLE_SPEED.id,
        HIGH_SPEED.id,
        SHAFT_POWER_IDLE.id,
        SHAFT_POWER_HIGH.id,
        PUMP_POWER_IDLE.id,
        PUMP_POWER_HIGH.id,
        PEAK_TORQUE.id,
        CURVE_SPEED.id,
        FLYWHEEL_TORQUE.id,
        ENGINE_INERTIA.id,
        ALTERNATOR_RATIO.id,
        ALTERNATOR_ROTOR.id,
        BELT_SPEED.id,
        IDLE.id,
        HIGHEST_SPEED.id,
        RIBS.id,
        RIB_MASS.id,
        RIB_TENSION.id,
        BELT_STATE.id,
        FRICTION_DRY.id,
        FRICTION_WET.id,
        MOST_TENSION_RATIO.id,
        LEAST_GRIP.id,
        ADJUSTER_TYPE.id,
        ADJUSTER.id,
    ],
    writes: &[
        CRANK_ACCELERATION.id,
        SPIN_UP_TORQUE.id,
        CENTRIFUGAL.id,
        TENSION_SET.id,
        TENSION_NEEDED.id,
        TONE.id,
        LONGEST_TONE.id,
        TENSION_IDLE.id,
        TENSION_HIGH.id,
        GRIP_IDLE.id,
        GRIP_HIGH.id,
        BEARING_LOAD.id,
        LEAST_GRIP_FOUND.id,
        WET_GRIP.id,
        PUMP_BEARING.id,
    ],
    run: |case| {
        let drive = drive(case);
        let drive = drive.as_ref().map_err(|why| *why);
        forces(case);
        tones(case);
        for row in 0..case.rows(PULLEYS) {
            one(case, row, drive);
        }
        whole(case, drive);
    },
};

/// The belt under load: at rest, at idle, and in a free rev: just above idle, where an alternator has much to make up, and
/// through the highest speed. Each part of it as far as what it hangs on is given.
struct Drive {
    count: usize,
    idle: Result<Tensions, Unknown>,
    start: Result<Tensions, Unknown>,
    high: Result<Tensions, Unknown>,
    tightening: Tightening,
    set: Result<Force, Unknown>,
    surface: Result<Surface, Unknown>,
    /// Ratio each pulley may be trusted with as the belt is, and wet.
    usable: Usable,
    usable_wet: Usable,
}

type Usable = Result<[f64; MOST_PULLEYS], Unknown>;

fn drive(case: &mut Case<'_>) -> Result<Drive, Unknown> {
    let count = case.rows(PULLEYS).min(MOST_PULLEYS);
    let lie = lie(case, count)?;
    let crank = first(case, Duty::Crank)?;
    let as_listed = case.of(BELT_RUNS)? == BeltRuns::AsListed;
    let set = set(case);
    // How much slacker or tighter one span is than another does not hang on the setting.
    let level = set.unwrap_or(Force::ZERO);
    let tightening = match case.of(ADJUSTER_TYPE)? {
        AdjusterType::Locked => Tightening::Locked(level),
        AdjusterType::Sprung => {
            let duty = case.of(ADJUSTER)?;
            Tightening::Sprung(first(case, duty)?, level)
        }
    };
    let run = |pulls: Result<[Force; MOST_PULLEYS], Unknown>, centrifugal: Result<Force, Unknown>| {
        let demand = Demand { crank, pulls: &pulls?[..count], as_listed, centrifugal: centrifugal? };
        grip::tensions(&lie, &demand, tightening).ok_or(Unknown::NoSolution("The adjuster is not among the pulleys."))
    };
    let (fast, slow) = (centrifugal(case), centrifugal_at_idle(case, crank));
    let idling = pulls(case, count, (SHAFT_POWER_IDLE, PUMP_POWER_IDLE, IDLE_SPEED), AngularAcceleration::ZERO);
    let from_idle = from_idle(case);
    let starting = from_idle.and_then(|engine| pulls(case, count, (SHAFT_POWER_IDLE, PUMP_POWER_IDLE, IDLE_SPEED), engine));
    let engine = free_rev(case);
    let revving = engine.and_then(|engine| pulls(case, count, (SHAFT_POWER_HIGH, PUMP_POWER_HIGH, HIGH_SPEED), engine));
    let wet = surface(case, true);
    let usable_wet = usable_ratios(case, count, wet);
    let (surface, usable) = match case.of(BELT_STATE)? {
        BeltState::Wet => (wet, usable_wet),
        BeltState::Dry => {
            let dry = surface(case, false);
            (dry, usable_ratios(case, count, dry))
        }
    };
    Ok(Drive {
        count,
        idle: run(idling, slow),
        start: run(starting, slow),
        high: run(revving, fast),
        tightening,
        set,
        surface,
        usable,
        usable_wet,
    })
}

fn surface(case: &mut Case<'_>, wet: bool) -> Result<Surface, Unknown> {
    let friction = if wet { case.of(FRICTION_WET)? } else { case.of(FRICTION_DRY)? };
    Ok(Surface { friction: friction.si(), most_ratio: case.of(MOST_TENSION_RATIO)?.si(), wet })
}

fn usable_ratios(case: &mut Case<'_>, count: usize, surface: Result<Surface, Unknown>) -> Usable {
    let (surface, mut usable) = (surface?, [1.0; MOST_PULLEYS]);
    for (row, usable) in usable.iter_mut().enumerate().take(count) {
        let (side, wrap): (Side, _) = (case.cell(SIDE, row)?, case.cell(WRAP, row)?);
        *usable = surface.usable_ratio(side, wrap);
    }
    Ok(usable)
}

fn lie(case: &mut Case<'_>, count: usize) -> Result<Lie, Unknown> {
    let mut parts = [Default::default(); MOST_PULLEYS];
    for (row, part) in parts.iter_mut().enumerate().take(count) {
        *part = (case.cell(SPAN, row)?, arc(case.cell(BELT_LINE, row)?, case.cell(WRAP, row)?));
    }
    Ok(Lie::new(parts.into_iter().take(count)))
}

/// Pull of every pulley on the belt: what it drives, and spinning its rotor up.
fn pulls(
    case: &mut Case<'_>,
    count: usize,
    (alternator, pump, speeds): At,
    engine: AngularAcceleration,
) -> Result<[Force; MOST_PULLEYS], Unknown> {
    let mut all = [Force::ZERO; MOST_PULLEYS];
    for (row, pull) in all.iter_mut().enumerate().take(count) {
        let working = match case.cell(DUTY, row)? {
            Duty::Crank => continue,
            Duty::Alternator => alternator::torque(case.of(alternator)?, case.cell(speeds, row)?),
            Duty::Pump => alternator::torque(case.of(pump)?, case.cell(speeds, row)?),
            Duty::Idler | Duty::Tensioner | Duty::Other => case.cell(LOAD, row)?,
        };
        let spinning = alternator::spin_up(case.cell(ROTOR, row)?, case.cell(RATIO, row)?.si(), engine);
        *pull = grip::pull(working + spinning, case.cell(BELT_LINE, row)?);
    }
    Ok(all)
}

fn set(case: &mut Case<'_>) -> Result<Force, Unknown> {
    let (ribs, each) = (case.of(RIBS)?, case.of(RIB_TENSION)?);
    Ok(case.say(&SET_LINE, &[ribs.si(), each.si()], each * ribs.si()))
}

fn mass(case: &mut Case<'_>) -> Result<LinearDensity, Unknown> {
    Ok(case.of(RIB_MASS)? * case.of(RIBS)?.si())
}

fn centrifugal(case: &mut Case<'_>) -> Result<Force, Unknown> {
    let (ribs, each, speed): (_, _, Velocity) = (case.of(RIBS)?, case.of(RIB_MASS)?, case.of(BELT_SPEED)?);
    let force = grip::centrifugal(each * ribs.si(), speed);
    Ok(case.say(&CENTRIFUGAL_LINE, &[ribs.si(), each.si(), speed.si()], force))
}

fn centrifugal_at_idle(case: &mut Case<'_>, crank: usize) -> Result<Force, Unknown> {
    let (mass, speed) = (mass(case)?, speeds::belt(case.of(IDLE)?, case.cell(BELT_LINE, crank)?));
    Ok(grip::centrifugal(mass, speed))
}

fn free_rev(case: &mut Case<'_>) -> Result<AngularAcceleration, Unknown> {
    let (torque, inertia) = (case.of(PEAK_TORQUE)?, case.of(ENGINE_INERTIA)?);
    Ok(case.say(&FREE_REV, &[torque.si(), inertia.si()], torque / inertia))
}

/// The same with the torque of the slowest point of the curve: what there is just above idle.
fn from_idle(case: &mut Case<'_>) -> Result<AngularAcceleration, Unknown> {
    let mut slowest = (case.of(HIGHEST_SPEED)?, case.of(PEAK_TORQUE)?);
    for row in 0..case.rows(TORQUE_CURVE) {
        let speed = case.cell(CURVE_SPEED, row)?;
        if speed < slowest.0 {
            slowest = (speed, case.cell(FLYWHEEL_TORQUE, row)?);
        }
    }
    Ok(slowest.1 / case.of(ENGINE_INERTIA)?)
}

fn forces(case: &mut Case<'_>) {
    case.answer(CRANK_ACCELERATION, free_rev);
    case.answer(SPIN_UP_TORQUE, |case| {
        let (rotor, ratio, engine) = (case.of(ALTERNATOR_ROTOR)?, case.of(ALTERNATOR_RATIO)?, free_rev(case)?);
        let torque = alternator::spin_up(rotor, ratio.si(), engine);
        Ok(case.say(&SPIN_UP, &[rotor.si(), ratio.si(), engine.si()], torque))
    });
    case.answer(CENTRIFUGAL, centrifugal);
    case.answer(TENSION_SET, set);
}

fn tones(case: &mut Case<'_>) {
    for row in 0..case.rows(PULLEYS) {
        case.answer_row(TONE, row, |case| tone(case, row));
    }
    case.answer(LONGEST_TONE, |case| {
        let mut longest = 0;
        for row in 1..case.rows(PULLEYS) {
            if case.cell(SPAN, row)? > case.cell(SPAN, longest)? {
                longest = row;
            }
        }
        tone(case, longest)
    });
}

fn tone(case: &mut Case<'_>, row: usize) -> Result<crate::quantity::Frequency, Unknown> {
    let (tension, mass, span) = (set(case)?, mass(case)?, case.cell(SPAN, row)?);
    let (ribs, each) = (case.of(RIBS)?, case.of(RIB_MASS)?);
    let tone = grip::span_frequency(tension, mass, span);
    Ok(case.say(&TONE_LINE, &[tension.si(), ribs.si(), each.si(), span.si()], tone))
}

impl Drive {
    /// Tensions at one moment: with the setting, which they hang on.
    fn at<'a>(&self, moment: &'a Result<Tensions, Unknown>) -> Result<&'a Tensions, Unknown> {
        self.set?;
        moment.as_ref().map_err(|why| *why)
    }

    fn moments(&self) -> Result<[&Tensions; 3], Unknown> {
        Ok([self.at(&self.idle)?, self.at(&self.start)?, self.at(&self.high)?])
    }

    /// The moment of a free rev at which this pulley grips least.
    fn rev(&self, row: usize, usable: f64) -> Result<&Tensions, Unknown> {
        let (start, high) = (self.at(&self.start)?, self.at(&self.high)?);
        Ok(if there(start.margin(row, usable))? < there(high.margin(row, usable))? { start } else { high })
    }
}

type Driven<'a> = Result<&'a Drive, Unknown>;

/// There is such a row: the table and the tensions were made together.
fn there<T>(found: Option<T>) -> Result<T, Unknown> {
    found.ok_or(Unknown::NotComputed)
}

fn one(case: &mut Case<'_>, row: usize, drive: Driven<'_>) {
    for (output, high) in [(TENSION_IDLE, false), (TENSION_HIGH, true)] {
        case.answer_row(output, row, |case| {
            let drive = drive?;
            let run = drive.at(if high { &drive.high } else { &drive.idle })?;
            // A loose span presses on nothing, and still carries its own pull.
            let (effective, own) = (there(run.spans().get(row))?.max(Force::ZERO), run.centrifugal());
            Ok(case.say(&CARRIED, &[effective.si(), own.si()], effective + own))
        });
    }
    for (output, high) in [(GRIP_IDLE, false), (GRIP_HIGH, true)] {
        case.answer_row(output, row, |case| {
            let drive = drive?;
            let usable = usable(case, row, drive)?;
            let run = if high { drive.rev(row, usable)? } else { drive.at(&drive.idle)? };
            let (slack, tight) = there(run.sides(row))?;
            Ok(case.say(&MARGIN, &[usable, slack.si(), tight.si()], ratio(there(run.margin(row, usable))?)))
        });
    }
    case.answer_row(BEARING_LOAD, row, |case| bearing(case, row, drive?));
}

fn usable(case: &mut Case<'_>, row: usize, drive: &Drive) -> Result<f64, Unknown> {
    let (wrap, surface, found) = (case.cell(WRAP, row)?, drive.surface?, *there(drive.usable?.get(row))?);
    let trusted = if surface.wet { surface.most_ratio / 2.0 } else { surface.most_ratio };
    Ok(case.say(&USABLE, &[surface.friction, wrap.si(), trusted], ratio(found)).si())
}

fn bearing(case: &mut Case<'_>, row: usize, drive: &Drive) -> Result<Force, Unknown> {
    let wrap = case.cell(WRAP, row)?;
    let set = drive.set?;
    let mut worst = (set, set, grip::bearing_load(set, set, wrap));
    for run in drive.moments()? {
        let (slack, tight) = there(run.sides(row))?;
        let load = there(run.bearing_load(row, wrap))?;
        if load > worst.2 {
            worst = (slack, tight, load);
        }
    }
    Ok(case.say(&BEARING, &[worst.0.si(), worst.1.si(), wrap.si()], worst.2))
}

fn whole(case: &mut Case<'_>, drive: Driven<'_>) {
    case.answer(TENSION_NEEDED, |case| {
        let (drive, least) = (drive?, case.of(LEAST_GRIP)?.si());
        let usable = drive.usable?.map(|usable| usable / least);
        let needed = |run: &Result<Tensions, Unknown>| {
            let slips = Unknown::NoSolution("At no tension does every pulley that carries load grip as asked.");
            run.as_ref().map_err(|why| *why)?.needed(&usable[..drive.count], drive.tightening).ok_or(slips)
        };
        let (idle, high) = (needed(&drive.idle)?, needed(&drive.high)?.max(needed(&drive.start)?));
        Ok(case.say(&NEEDED, &[idle.si(), high.si()], idle.max(high)))
    });
    case.answer(LEAST_GRIP_FOUND, |_| {
        let drive = drive?;
        least(drive, drive.usable)
    });
    case.answer(WET_GRIP, |_| {
        let drive = drive?;
        least(drive, drive.usable_wet)
    });
    case.answer(PUMP_BEARING, |case| {
        let (row, drive) = (first(case, Duty::Pump)?, drive?);
        bearing(case, row, drive)
    });
}

/// The smallest margin of any pulley, at idle or in a free rev.
fn least(drive: &Drive, usable: Usable) -> Result<Ratio, Unknown> {
    let (moments, mut least) = (drive.moments()?, f64::INFINITY);
    for (row, usable) in usable?.into_iter().enumerate().take(drive.count) {
        for run in moments {
            least = least.min(there(run.margin(row, usable))?);
        }
    }
    Ok(ratio(least))
}
