//! Will it hold the engine's torque?
//!
//! Two idealised facings bound the truth: bedded in, pressure times radius is even (uniform wear, the lower figure);
//! brand new, the pressure itself is even (uniform pressure). Shigley, Mechanical Engineering Design, ch. 16, eqs. 16-23
//! to 16-28: T = N·μ·F·(D + d)/4 and T = N·μ·F·(D³ − d³)/(3·(D² − d²)).

use super::{
    CAPACITY, CAPACITY_NEW_FACINGS, CAPACITY_WORN, CLAMP_NEW, CLAMP_WANTED, CLAMP_WORN, FACING_INNER, FACING_OUTER, FACING_PRESSURE,
    FACING_PRESSURE_EDGE, FACING_PRESSURE_OUTER, FRICTION, MARGIN, MARGIN_LEAST, MARGIN_NEW_FACINGS, MARGIN_WORN, Refusal, SURFACES,
    TORQUE_TO_HOLD, is_not_negative, is_positive,
};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{KPA, MM, N, NM, ONE};
use crate::quantity::{Force, Length, Pressure, Ratio, Torque, circle, ratio};
use crate::report::Unknown;
use crate::spec::Source;
use core::f64::consts::PI;

const SHIGLEY: Source = Source::FromMemory("Shigley, Mechanical Engineering Design, ch. 16, eqs. 16-23 to 16-28");
const GRIP_TERMS: &[(&str, &crate::quantity::Unit)] = &[("z", ONE), ("μ", ONE), ("F", N), ("D", MM), ("d", MM)];

static WORN_IN: Line = Line { equation: "M = z · μ · F · (D + d) / 4", terms: GRIP_TERMS, unit: NM, source: SHIGLEY };
static NEW_FACINGS: Line =
    Line { equation: "M = z · μ · F · (D · D + D · d + d · d) / (3 · (D + d))", terms: GRIP_TERMS, unit: NM, source: SHIGLEY };
static OVER: Line = Line { equation: "m = M / M_w", terms: &[("M", NM), ("M_w", NM)], unit: ONE, source: Source::Definition };
static WANTED: Line = Line {
    equation: "F = 4 · m · M / (z · μ · (D + d))",
    terms: &[("m", ONE), ("M", NM), ("z", ONE), ("μ", ONE), ("D", MM), ("d", MM)],
    unit: N,
    source: SHIGLEY,
};
static MEAN: Line =
    Line { equation: "p = 4 · F / (π · (D · D − d · d))", terms: &[("F", N), ("D", MM), ("d", MM)], unit: KPA, source: SHIGLEY };
static OUTER_EDGE: Line =
    Line { equation: "p = 2 · F / (π · D · (D − d))", terms: &[("F", N), ("D", MM), ("d", MM)], unit: KPA, source: SHIGLEY };
static EDGE: Line =
    Line { equation: "p = 2 · F / (π · d · (D − d))", terms: &[("F", N), ("d", MM), ("D", MM)], unit: KPA, source: SHIGLEY };

/// The ring of lining on each side of the plate, and what it rubs like.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Facing {
    outer: Length,
    inner: Length,
    surfaces: f64,
    friction: f64,
}

impl Facing {
    /// `surfaces` is how many pairs of faces rub (a number; a single plate has 2), `friction` the coefficient μ.
    ///
    /// # Errors
    /// When the ring has no width, or nothing to rub.
    pub fn new(outer: Length, inner: Length, surfaces: f64, friction: f64) -> Result<Self, Refusal> {
        if !is_positive(inner.si()) || !is_positive(outer.si()) || inner >= outer {
            return Err("The facing's outer diameter must be larger than its inner one.");
        }
        if !is_positive(surfaces) || !is_not_negative(friction) {
            return Err("A facing needs at least one rubbing surface and a friction coefficient.");
        }
        Ok(Self { outer, inner, surfaces, friction })
    }

    /// Torque held by facings that have bedded in.
    #[must_use]
    pub fn torque_worn_in(&self, clamp: Force) -> Torque {
        self.grip(clamp) * self.radius_worn_in()
    }

    /// Torque held by facings pressed evenly, as when new.
    #[must_use]
    pub fn torque_new(&self, clamp: Force) -> Torque {
        self.grip(clamp) * self.radius_new()
    }

    /// Clamp load at which bedded-in facings hold `torque`. Without end where there is no friction.
    #[must_use]
    pub fn clamp_to_hold(&self, torque: Torque) -> Force {
        torque / self.radius_worn_in() / (self.surfaces * self.friction)
    }

    /// Highest pressure on bedded-in facings, at their inner edge: 2F/(πd(D − d)).
    #[must_use]
    pub fn pressure_at_inner_edge(&self, clamp: Force) -> Pressure {
        clamp * 2.0 / (self.inner * (self.outer - self.inner) * PI)
    }

    /// Lowest pressure on bedded-in facings, at their outer edge: 2F/(πD(D − d)).
    #[must_use]
    pub fn pressure_at_outer_edge(&self, clamp: Force) -> Pressure {
        clamp * 2.0 / (self.outer * (self.outer - self.inner) * PI)
    }

    /// Clamp load over the whole facing: 4F/(π(D² − d²)), the pressure of new facings.
    #[must_use]
    pub fn pressure_mean(&self, clamp: Force) -> Pressure {
        clamp / (circle(self.outer) - circle(self.inner))
    }

    fn grip(&self, clamp: Force) -> Force {
        clamp * (self.surfaces * self.friction)
    }

    fn radius_worn_in(&self) -> Length {
        (self.outer + self.inner) / 4.0
    }

    fn numbers(&self, clamp: Force) -> [f64; 5] {
        [self.surfaces, self.friction, clamp.si(), self.outer.si(), self.inner.si()]
    }

    // (D³ − d³)/(D² − d²) with D − d divided out, so that a narrow ring keeps its digits.
    fn radius_new(&self) -> Length {
        let (outer, inner) = (self.outer, self.inner);
        (outer * outer + outer * inner + inner * inner) / (outer + inner) / 3.0
    }
}

pub(super) const CAPACITY_STEP: Step = Step {
    name: "torque capacity",
    reads: &[FACING_OUTER.id, FACING_INNER.id, SURFACES.id, FRICTION.id, CLAMP_NEW.id, CLAMP_WORN.id, TORQUE_TO_HOLD.id, MARGIN_LEAST.id],
    writes: &[
        CAPACITY.id,
        CAPACITY_NEW_FACINGS.id,
        CAPACITY_WORN.id,
        MARGIN.id,
        MARGIN_NEW_FACINGS.id,
        MARGIN_WORN.id,
        CLAMP_WANTED.id,
        FACING_PRESSURE.id,
        FACING_PRESSURE_EDGE.id,
        FACING_PRESSURE_OUTER.id,
    ],
    run: |case| {
        case.answer(CAPACITY, |case| worn_in(case, CLAMP_NEW));
        case.answer(CAPACITY_NEW_FACINGS, new_facings);
        case.answer(CAPACITY_WORN, |case| worn_in(case, CLAMP_WORN));
        case.answer(MARGIN, |case| {
            let held = worn_in(case, CLAMP_NEW)?;
            over(case, held)
        });
        case.answer(MARGIN_NEW_FACINGS, |case| {
            let held = new_facings(case)?;
            over(case, held)
        });
        case.answer(MARGIN_WORN, |case| {
            let held = worn_in(case, CLAMP_WORN)?;
            over(case, held)
        });
        case.answer(CLAMP_WANTED, |case| {
            let (facing, margin, torque) = (facing(case)?, case.of(MARGIN_LEAST)?, case.of(TORQUE_TO_HOLD)?);
            let Facing { outer, inner, surfaces, friction } = facing;
            let clamp = facing.clamp_to_hold(torque * margin.si());
            Ok(case.say(&WANTED, &[margin.si(), torque.si(), surfaces, friction, outer.si(), inner.si()], clamp))
        });
        case.answer(FACING_PRESSURE, |case| {
            let (facing, clamp) = (facing(case)?, case.of(CLAMP_NEW)?);
            Ok(case.say(&MEAN, &[clamp.si(), facing.outer.si(), facing.inner.si()], facing.pressure_mean(clamp)))
        });
        case.answer(FACING_PRESSURE_EDGE, |case| {
            let (facing, clamp) = (facing(case)?, case.of(CLAMP_NEW)?);
            Ok(case.say(&EDGE, &[clamp.si(), facing.inner.si(), facing.outer.si()], facing.pressure_at_inner_edge(clamp)))
        });
        case.answer(FACING_PRESSURE_OUTER, |case| {
            let (facing, clamp) = (facing(case)?, case.of(CLAMP_NEW)?);
            Ok(case.say(&OUTER_EDGE, &[clamp.si(), facing.outer.si(), facing.inner.si()], facing.pressure_at_outer_edge(clamp)))
        });
    },
};

fn facing(case: &mut Case<'_>) -> Result<Facing, Unknown> {
    let (surfaces, friction) = (case.of(SURFACES)?, case.of(FRICTION)?);
    Facing::new(case.of(FACING_OUTER)?, case.of(FACING_INNER)?, surfaces.si(), friction.si()).map_err(Unknown::NoSolution)
}

fn worn_in(case: &mut Case<'_>, clamp: crate::spec::Output<Force>) -> Result<Torque, Unknown> {
    let (facing, clamp) = (facing(case)?, case.of(clamp)?);
    Ok(case.say(&WORN_IN, &facing.numbers(clamp), facing.torque_worn_in(clamp)))
}

fn new_facings(case: &mut Case<'_>) -> Result<Torque, Unknown> {
    let (facing, clamp) = (facing(case)?, case.of(CLAMP_NEW)?);
    Ok(case.say(&NEW_FACINGS, &facing.numbers(clamp), facing.torque_new(clamp)))
}

fn over(case: &mut Case<'_>, held: Torque) -> Result<Ratio, Unknown> {
    let wanted = case.of(TORQUE_TO_HOLD)?;
    Ok(case.say(&OVER, &[held.si(), wanted.si()], ratio(held / wanted)))
}
