//! Where does the engine speed go when the clutch comes in, and how much heat does that make?
//!
//! Two ways of leaving, the extremes of what a foot does. A *dump*: the clutch bites without help from the engine and
//! both sides settle at ω·J₁/(J₁ + J₂), ½·J₁·J₂/(J₁ + J₂)·ω² gone to heat. A *slip* at held engine speed: the plate
//! carries M_c until the car has caught up, ½·J₂·ω²·M_c/(M_c − M_r) gone to heat. J₂ is the car's mass at the clutch.

use super::curve::{LAUNCH_LIMITED, TorqueCurve, reached};
use super::{
    CLUTCH_TORQUE, DUMP_HEAT, DUMP_TIME, ENGINE_INERTIA, HEAT_CAPACITY, HEAT_MASS, LAUNCH_LEFT, LAUNCH_SPEED, PLATE_INERTIA, PLATE_RISE,
    REFERENCE_DUMP_HEAT, REFERENCE_DUMP_TIME, REFERENCE_ENGINE_INERTIA, REFERENCE_LAUNCH_LEFT, SLIP_HEAT, SLIP_TORQUE, TORQUE_AT_LAUNCH,
};
use crate::calculators::car::gearing::first;
use crate::calculators::car::{
    CURVE_SPEED, FINAL_DRIVE, FLYWHEEL_TORQUE, GEAR_RATIO, HIGHEST_SPEED, MASS, ROLLING_RADIUS, ROLLING_RESISTANCE,
};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{J, J_PER_KG_K, KG, KG_M2, MM, NM, ONE, RAD_PER_S, RISE, RPM, S};
use crate::quantity::{
    Energy, Force, Inertia, Length, Mass, Ratio, RotationalSpeed, STANDARD_GRAVITY, SpecificHeat, TemperatureRise, Time, Torque, ratio,
};
use crate::report::Unknown;
use crate::spec::Source;

static CAR_LINE: Line = Line {
    equation: "J_2 = m · r² / (i · i_f)² + J_p",
    terms: &[("m", KG), ("r", MM), ("i", ONE), ("i_f", ONE), ("J_p", KG_M2)],
    unit: KG_M2,
    source: Source::Definition,
};
const IMPACT: Source = Source::Published("Khurmi & Gupta, Theory of Machines, ch. 3: two flywheels and a clutch");
static SETTLES_LINE: Line =
    Line { equation: "n = n_1 · J_1 / (J_1 + J_2)", terms: &[("n_1", RPM), ("J_1", KG_M2), ("J_2", KG_M2)], unit: RPM, source: IMPACT };
static DUMP_LINE: Line = Line {
    equation: "Q = ½ · J_1 · J_2 / (J_1 + J_2) · ω²",
    terms: &[("J_1", KG_M2), ("J_2", KG_M2), ("ω", RAD_PER_S)],
    unit: J,
    source: IMPACT,
};
static TIME_LINE: Line = Line {
    equation: "t = ω · J_1 · J_2 / ((J_1 + J_2) · M_c)",
    terms: &[("ω", RAD_PER_S), ("J_1", KG_M2), ("J_2", KG_M2), ("M_c", NM)],
    unit: S,
    source: IMPACT,
};
static SLIP_LINE: Line = Line {
    equation: "Q = ½ · J_2 · ω² · M_c / (M_c − M_r)",
    terms: &[("J_2", KG_M2), ("ω", RAD_PER_S), ("M_c", NM), ("M_r", NM)],
    unit: J,
    source: Source::Definition,
};
static CURVE_LINE: Line = Line { equation: "M of the curve at n", terms: &[("n", RPM)], unit: NM, source: Source::Definition };
static RISE_LINE: Line =
    Line { equation: "ΔT = Q / (m · c)", terms: &[("Q", J), ("m", KG), ("c", J_PER_KG_K)], unit: RISE, source: Source::Definition };

/// What a clutch makes of two turning masses that it joins.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Joined {
    /// Speed of both when it stops slipping.
    pub speed: RotationalSpeed,
    /// Heat made on the way.
    pub heat: Energy,
}

/// Joins two inertias that turn freely at two speeds; no matter how hard the clutch bites.
#[must_use]
pub fn join(driver: Inertia, driver_speed: RotationalSpeed, driven: Inertia, driven_speed: RotationalSpeed) -> Joined {
    let sum = driver + driven;
    let speed = driver_speed * (driver / sum) + driven_speed * (driven / sum);
    let slip = (driver_speed - driven_speed).si();
    Joined { speed, heat: Energy::from_si(0.5 * driver.si() * (driven / sum) * slip * slip) }
}

/// How long the clutch slips while it joins them, carrying the same torque all the time.
///
/// # Errors
/// When it carries none.
pub fn joining_time(driver: Inertia, driven: Inertia, slip: RotationalSpeed, clutch: Torque) -> Result<Time, Unknown> {
    if clutch <= Torque::ZERO {
        return Err(Unknown::NoSolution("A clutch that carries nothing joins nothing."));
    }
    let together = driver * (driven / (driver + driven));
    Ok(Time::from_si(slip.si().abs() * together.si() / clutch.si()))
}

/// Heat of bringing an inertia from rest to the speed at which its driver is held, the clutch carrying `clutch` and
/// `resisting` holding it back.
///
/// # Errors
/// When the clutch carries too little to move it.
pub fn slip_heat(driven: Inertia, speed: RotationalSpeed, clutch: Torque, resisting: Torque) -> Result<Energy, Unknown> {
    if clutch <= resisting {
        return Err(Unknown::NoSolution("So little torque does not move the car."));
    }
    Ok(Energy::from_si(0.5 * driven.si() * speed.si() * speed.si() * (clutch / (clutch - resisting))))
}

/// The car's mass as an inertia at the clutch: m·r²/G².
#[must_use]
pub fn car_at_clutch(mass: Mass, radius: Length, overall: Ratio) -> Inertia {
    let per_radian = radius.si() / overall.si();
    Inertia::from_si(mass.si() * per_radian * per_radian)
}

/// How much this heat warms the metal: ΔT = Q/(m·c), nothing lost.
#[must_use]
pub fn rise(heat: Energy, mass: Mass, capacity: SpecificHeat) -> TemperatureRise {
    TemperatureRise::from_si(heat.si() / (mass.si() * capacity.si()))
}

/// What every way of leaving shares: the car's side of the clutch, the speed the clutch comes in at, the driven plate.
#[derive(Clone, Copy)]
struct Start {
    mass: Mass,
    radius: Length,
    gear: Ratio,
    axle: Ratio,
    plate: Inertia,
    speed: RotationalSpeed,
}

fn launches(case: &mut Case<'_>) -> Result<RotationalSpeed, Unknown> {
    reached(case, LAUNCH_SPEED, LAUNCH_LIMITED)
}

fn start(case: &mut Case<'_>) -> Result<Start, Unknown> {
    Ok(Start {
        mass: case.of(MASS)?,
        radius: case.of(ROLLING_RADIUS)?,
        gear: first(case)?,
        axle: case.of(FINAL_DRIVE)?,
        plate: case.of(PLATE_INERTIA)?,
        speed: launches(case)?,
    })
}

impl Start {
    fn car(&self, case: &mut Case<'_>) -> Inertia {
        let car = car_at_clutch(self.mass, self.radius, ratio(self.gear.si() * self.axle.si())) + self.plate;
        case.say(&CAR_LINE, &[self.mass.si(), self.radius.si(), self.gear.si(), self.axle.si(), self.plate.si()], car)
    }

    fn settles(&self, case: &mut Case<'_>, engine: Inertia) -> RotationalSpeed {
        let (engine, car) = (engine - self.plate, self.car(case));
        let joined = join(engine, self.speed, car, RotationalSpeed::ZERO);
        case.say(&SETTLES_LINE, &[self.speed.si(), engine.si(), car.si()], joined.speed)
    }

    fn dump(&self, case: &mut Case<'_>, engine: Inertia) -> Energy {
        let (engine, car) = (engine - self.plate, self.car(case));
        let joined = join(engine, self.speed, car, RotationalSpeed::ZERO);
        case.say(&DUMP_LINE, &[engine.si(), car.si(), self.speed.si()], joined.heat)
    }

    fn slips_for(&self, case: &mut Case<'_>, engine: Inertia) -> Result<Time, Unknown> {
        let (engine, car, clutch) = (engine - self.plate, self.car(case), case.of(CLUTCH_TORQUE)?);
        let time = joining_time(engine, car, self.speed, clutch)?;
        Ok(case.say(&TIME_LINE, &[self.speed.si(), engine.si(), car.si(), clutch.si()], time))
    }

    fn slip(&self, case: &mut Case<'_>) -> Result<Energy, Unknown> {
        let (car, clutch, rolling) = (self.car(case), case.of(SLIP_TORQUE)?, case.of(ROLLING_RESISTANCE)?);
        let drag = Force::from_si(self.mass.si() * STANDARD_GRAVITY * rolling.si());
        let resisting = drag * self.radius / (self.gear.si() * self.axle.si());
        let heat = slip_heat(car, self.speed, clutch, resisting)?;
        Ok(case.say(&SLIP_LINE, &[car.si(), self.speed.si(), clutch.si(), resisting.si()], heat))
    }
}

pub(super) const TORQUE: Step = Step {
    name: "torque at the launch speed",
    reads: &[CURVE_SPEED.id, FLYWHEEL_TORQUE.id, HIGHEST_SPEED.id, LAUNCH_SPEED.id],
    writes: &[TORQUE_AT_LAUNCH.id],
    run: |case| {
        case.answer(TORQUE_AT_LAUNCH, |case| {
            let speed = launches(case)?;
            let torque = TorqueCurve::of(case)?.at(speed)?;
            Ok(case.say(&CURVE_LINE, &[speed.si()], torque))
        });
    },
};

pub(super) const LAUNCH: Step = Step {
    name: "launch",
    reads: &[
        ENGINE_INERTIA.id,
        REFERENCE_ENGINE_INERTIA.id,
        PLATE_INERTIA.id,
        MASS.id,
        ROLLING_RADIUS.id,
        ROLLING_RESISTANCE.id,
        GEAR_RATIO.id,
        FINAL_DRIVE.id,
        HIGHEST_SPEED.id,
        LAUNCH_SPEED.id,
        SLIP_TORQUE.id,
        CLUTCH_TORQUE.id,
        HEAT_MASS.id,
        HEAT_CAPACITY.id,
    ],
    writes: &[
        LAUNCH_LEFT.id,
        REFERENCE_LAUNCH_LEFT.id,
        DUMP_TIME.id,
        REFERENCE_DUMP_TIME.id,
        DUMP_HEAT.id,
        REFERENCE_DUMP_HEAT.id,
        SLIP_HEAT.id,
        PLATE_RISE.id,
    ],
    run: |case| {
        let start = start(case);
        let (chosen, reference) = (case.of(ENGINE_INERTIA), case.of(REFERENCE_ENGINE_INERTIA));
        case.answer(LAUNCH_LEFT, |case| Ok(start?.settles(case, chosen?)));
        case.answer(REFERENCE_LAUNCH_LEFT, |case| Ok(start?.settles(case, reference?)));
        case.answer(DUMP_TIME, |case| start?.slips_for(case, chosen?));
        case.answer(REFERENCE_DUMP_TIME, |case| start?.slips_for(case, reference?));
        case.answer(DUMP_HEAT, |case| Ok(start?.dump(case, chosen?)));
        case.answer(REFERENCE_DUMP_HEAT, |case| Ok(start?.dump(case, reference?)));
        case.answer(SLIP_HEAT, |case| start?.slip(case));
        case.answer(PLATE_RISE, |case| {
            let (heat, mass, capacity) = (start?.slip(case)?, case.of(HEAT_MASS)?, case.of(HEAT_CAPACITY)?);
            Ok(case.say(&RISE_LINE, &[heat.si(), mass.si(), capacity.si()], rise(heat, mass, capacity)))
        });
    },
};
