//! How fast does it pull through the speeds in each gear?
//!
//! (m + 4·J_w/r² + m_e)·dv/dt = η·M·G/r − f·m·g − ½·ρ·c_wA·v²: torque at the wheels less rolling and air drag moves the
//! car, its wheels and what the engine's inertia is worth in that gear.

use super::curve::{GEAR_LIMITED, TorqueCurve, integral_of_reciprocal, reached};
use super::{
    EQUIVALENT_MASS, GEAR_FROM, GEAR_GAIN, GEAR_TIME, GEAR_TO, REFERENCE_EQUIVALENT_MASS, REFERENCE_GEAR_TIME, WHEEL_INERTIA, revs,
};
use crate::calculators::car::{
    AIR_TEMPERATURE, ALTITUDE, CURVE_SPEED, DRAG_AREA, DRIVELINE_EFFICIENCY, FINAL_DRIVE, FLYWHEEL_TORQUE, GEAR_RATIO, GEARS,
    HIGHEST_SPEED, MASS, ROLLING_RADIUS, ROLLING_RESISTANCE,
};
use crate::data::atmosphere;
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{KG, KG_M2, MM, N, ONE, RPM, S};
use crate::quantity::{
    Area, Density, Force, Inertia, Length, Mass, Ratio, RotationalSpeed, STANDARD_GRAVITY, Time, Torque, Velocity, kilograms, ratio,
    rim_speed,
};
use crate::report::Unknown;
use crate::spec::{OutputColumn, Source};

static MOVED_LINE: Line = Line {
    equation: "m_m = m + 4 · J_w / r² + m_e",
    terms: &[("m", KG), ("J_w", KG_M2), ("r", MM), ("m_e", KG)],
    unit: KG,
    source: Source::Definition,
};
static TIME_LINE: Line = Line {
    equation: "t = m_m · ∫ dv / (η · M · i · i_f / r − F_r − F_a), n_1 to n_2",
    terms: &[("m_m", KG), ("η", ONE), ("i", ONE), ("i_f", ONE), ("r", MM), ("F_r", N), ("n_1", RPM), ("n_2", RPM)],
    unit: S,
    source: Source::Definition,
};

/// What holds the car back on the level.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RoadLoad {
    /// Rolling drag, the same at any speed.
    pub rolling: Force,
    /// Air's density times the drag area, halved: force per velocity squared, kg/m.
    drag: f64,
}

impl RoadLoad {
    /// From the car's mass and rolling resistance (dimensionless), the air and the drag area.
    #[must_use]
    pub fn new(mass: Mass, rolling_resistance: Ratio, air: Density, drag_area: Area) -> Self {
        let rolling = Force::from_si(mass.si() * STANDARD_GRAVITY * rolling_resistance.si());
        Self { rolling, drag: 0.5 * air.si() * drag_area.si() }
    }

    /// Rolling and air drag together at a road speed.
    #[must_use]
    pub fn at(&self, speed: Velocity) -> Force {
        self.rolling + Force::from_si(self.drag * speed.si() * speed.si())
    }
}

/// From the flywheel to the road.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Driveline {
    /// Gear times final drive (dimensionless).
    pub overall: Ratio,
    /// Rolling radius.
    pub radius: Length,
    /// Share of the power that reaches the road (dimensionless).
    pub efficiency: Ratio,
}

impl Driveline {
    /// Road speed at an engine speed.
    #[must_use]
    pub fn road_speed(&self, engine: RotationalSpeed) -> Velocity {
        rim_speed(engine, self.radius) / self.overall.si()
    }

    /// Time to pull `moved`, the car's mass with all that is worth mass, from one engine speed to another.
    ///
    /// Closed form in each piece of the curve; exact but for rounding.
    ///
    /// # Errors
    /// When the curve does not reach over the range, or the car would not get through it.
    pub fn time(
        &self,
        curve: &TorqueCurve,
        load: &RoadLoad,
        moved: Mass,
        from: RotationalSpeed,
        to: RotationalSpeed,
    ) -> Result<Time, Unknown> {
        let (pull, way) = (self.efficiency.si() * self.overall.si() / self.radius.si(), self.radius.si() / self.overall.si());
        let (rolling, drag) = (load.rolling.si(), load.drag * way * way);
        let net = |torque: Torque, speed: RotationalSpeed| torque.si() * pull - rolling - drag * speed.si() * speed.si();
        let mut sum = 0.0;
        for piece in curve.between(from, to)? {
            let (first, last, width) = (net(piece.first, piece.from), net(piece.last, piece.to), piece.width().si());
            if first.min(last) <= 0.0 {
                return Err(Unknown::NoSolution("The engine cannot pull the car through this range in this gear."));
            }
            sum += integral_of_reciprocal(width, first, last, -drag * width * width);
        }
        Ok(Time::from_si(moved.si() * way * sum))
    }
}

/// Mass of the car with its four wheels' turning counted in: m + 4·J/r².
#[must_use]
pub fn with_wheels(mass: Mass, wheel: Inertia, radius: Length) -> Mass {
    mass + kilograms(4.0 * wheel.si() / (radius.si() * radius.si()))
}

/// What every gear shares.
#[derive(Clone, Copy)]
struct Run {
    curve: TorqueCurve,
    load: RoadLoad,
    mass: Mass,
    wheel: Inertia,
    radius: Length,
    axle: Ratio,
    efficiency: Ratio,
    from: RotationalSpeed,
    to: RotationalSpeed,
}

fn run(case: &mut Case<'_>) -> Result<Run, Unknown> {
    let (altitude, temperature, mass) = (case.of(ALTITUDE)?, case.of(AIR_TEMPERATURE)?, case.of(MASS)?);
    let air = atmosphere::density(altitude, temperature).ok_or(Unknown::OutsideModel(ALTITUDE.id))?;
    Ok(Run {
        curve: TorqueCurve::of(case)?,
        load: RoadLoad::new(mass, case.of(ROLLING_RESISTANCE)?, air, case.of(DRAG_AREA)?),
        mass,
        wheel: case.of(WHEEL_INERTIA)?,
        radius: case.of(ROLLING_RADIUS)?,
        axle: case.of(FINAL_DRIVE)?,
        efficiency: case.of(DRIVELINE_EFFICIENCY)?,
        from: case.of(GEAR_FROM)?,
        to: reached(case, GEAR_TO, GEAR_LIMITED)?,
    })
}

impl Run {
    /// Time for one kilogram, which the gear's two masses multiply.
    fn unit_time(&self, gear: Ratio) -> Result<Time, Unknown> {
        let overall = ratio(gear.si() * self.axle.si());
        let driveline = Driveline { overall, radius: self.radius, efficiency: self.efficiency };
        driveline.time(&self.curve, &self.load, kilograms(1.0), self.from, self.to)
    }

    fn time(&self, case: &mut Case<'_>, gear: Ratio, unit: Time, equivalent: Mass) -> Time {
        let moved = with_wheels(self.mass, self.wheel, self.radius) + equivalent;
        case.say(&MOVED_LINE, &[self.mass.si(), self.wheel.si(), self.radius.si(), equivalent.si()], moved);
        let pull = [self.efficiency.si(), gear.si(), self.axle.si(), self.radius.si()];
        let numbers = [moved.si(), pull[0], pull[1], pull[2], pull[3], self.load.rolling.si(), self.from.si(), self.to.si()];
        case.say(&TIME_LINE, &numbers, unit * moved.si())
    }
}

pub(super) const IN_GEAR: Step = Step {
    name: "pulling through the gears",
    reads: &[
        CURVE_SPEED.id,
        FLYWHEEL_TORQUE.id,
        HIGHEST_SPEED.id,
        ALTITUDE.id,
        AIR_TEMPERATURE.id,
        MASS.id,
        ROLLING_RESISTANCE.id,
        DRAG_AREA.id,
        GEAR_RATIO.id,
        FINAL_DRIVE.id,
        ROLLING_RADIUS.id,
        DRIVELINE_EFFICIENCY.id,
        GEAR_FROM.id,
        GEAR_TO.id,
        WHEEL_INERTIA.id,
        EQUIVALENT_MASS.id,
        REFERENCE_EQUIVALENT_MASS.id,
    ],
    writes: &[GEAR_TIME.id, REFERENCE_GEAR_TIME.id, GEAR_GAIN.id],
    run: |case| {
        let run = run(case);
        for row in 0..case.rows(GEARS) {
            let found = match (&run, case.cell(GEAR_RATIO, row)) {
                (Ok(run), Ok(gear)) => run.unit_time(gear).map(|unit| (run, gear, unit)),
                (Err(why), _) => Err(*why),
                (_, Err(why)) => Err(why),
            };
            let time = |case: &mut Case<'_>, of: OutputColumn<Mass>| -> Result<Time, Unknown> {
                let ((run, gear, unit), equivalent) = (found?, case.cell(of, row)?);
                Ok(run.time(case, gear, unit, equivalent))
            };
            case.answer_row(GEAR_TIME, row, |case| time(case, EQUIVALENT_MASS));
            case.answer_row(REFERENCE_GEAR_TIME, row, |case| time(case, REFERENCE_EQUIVALENT_MASS));
            case.answer_row(GEAR_GAIN, row, |case| {
                let (chosen, reference) = (time(case, EQUIVALENT_MASS)?, time(case, REFERENCE_EQUIVALENT_MASS)?);
                Ok(revs::gain(case, chosen, reference))
            });
        }
    },
};
