//! How evenly does it idle?
//!
//! A four fires twice a turn: gas torque swings about its mean as A·sin 2θ. The pistons' own inertia works against it,
//! −m·r²·ω²·(2·sin 2θ + λ²·sin 4θ) for four cylinders (the odd orders cancel; Taylor, The Internal-Combustion Engine,
//! from memory). The energy that this hands to the flywheel and takes back, over J·ω², is the coefficient of
//! fluctuation of speed. Combustion that differs from stroke to stroke is left out: the figure is a floor.

use super::{
    ENGINE_INERTIA, EVEN_IDLE, GAS_TORQUE, IDLE_SWING, RECIPROCATING, REFERENCE_ENGINE_INERTIA, REFERENCE_UNEVENNESS, ROD_RATIO, ROUGHER,
    STROKE, UNEVENNESS,
};
use crate::calculators::car::IDLE;
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{J, KG, KG_M2, MM, NM, ONE, PERCENT, RPM};
use crate::quantity::{Angle, Energy, Inertia, Length, Mass, Ratio, RotationalSpeed, Torque, ratio};
use crate::report::Unknown;
use crate::spec::{Output, Source};

static SECOND_LINE: Line = Line {
    equation: "M_2 = 2 · m · (s / 2)² · ω²",
    terms: &[("m", KG), ("s", MM), ("ω", RPM)],
    unit: NM,
    source: Source::FromMemory("Taylor, The Internal-Combustion Engine: inertia torque"),
};
static SWING_LINE: Line = Line {
    equation: "ΔE = greatest less least of ∫ (A − M_2) · sin 2θ − λ² / 2 · M_2 · sin 4θ dθ",
    terms: &[("A", NM), ("M_2", NM), ("λ", ONE)],
    unit: J,
    source: Source::Definition,
};
static UNEVEN_LINE: Line = Line {
    equation: "C_s = ΔE / (J · ω²)",
    terms: &[("ΔE", J), ("J", KG_M2), ("ω", RPM)],
    unit: PERCENT,
    source: Source::Published("Khurmi & Gupta, Theory of Machines, ch. 16"),
};
static ROUGHER_LINE: Line =
    Line { equation: "C_s / C_s0", terms: &[("C_s", PERCENT), ("C_s0", PERCENT)], unit: ONE, source: Source::Definition };
static EVEN_LINE: Line = Line {
    equation: "n = √(A / (M_2 / ω_0² + C_s0 · J))",
    terms: &[("A", NM), ("M_2", NM), ("ω_0", RPM), ("C_s0", PERCENT), ("J", KG_M2)],
    unit: RPM,
    source: Source::Definition,
};

/// What swings the torque of a four-cylinder four-stroke about its mean.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Four {
    /// Gas torque's swing to either side of its mean.
    pub gas: Torque,
    /// Reciprocating mass of one cylinder.
    pub reciprocating: Mass,
    /// Half the stroke.
    pub crank_radius: Length,
    /// Crank radius by connecting rod length, λ (dimensionless).
    pub rod_ratio: Ratio,
}

impl Four {
    /// Amplitude of the pistons' second-order inertia torque at this speed, 2·m·r²·ω².
    #[must_use]
    pub fn second_order(&self, speed: RotationalSpeed) -> Torque {
        let rim = self.crank_radius.si() * speed.si();
        Torque::from_si(2.0 * self.reciprocating.si() * rim * rim)
    }

    /// Amplitude of their fourth-order inertia torque, λ²·m·r²·ω².
    #[must_use]
    pub fn fourth_order(&self, speed: RotationalSpeed) -> Torque {
        self.second_order(speed) * (0.5 * self.rod_ratio.si() * self.rod_ratio.si())
    }

    /// Torque above its mean with the crank at this angle past a top dead centre.
    #[must_use]
    pub fn excess(&self, crank: Angle, speed: RotationalSpeed) -> Torque {
        let second = (self.gas - self.second_order(speed)) * libm::sin(2.0 * crank.si());
        second - self.fourth_order(speed) * libm::sin(4.0 * crank.si())
    }

    /// Energy the wheel holds above its mean with the crank at this angle: the integral of [`Four::excess`].
    #[must_use]
    pub fn stored(&self, crank: Angle, speed: RotationalSpeed) -> Energy {
        Energy::from_si(self.stored_at(libm::cos(2.0 * crank.si()), speed))
    }

    /// By u = cos 2θ: −P·u/2 + Q·(2u² − 1)/4, P the second and Q the fourth order's amplitude.
    fn stored_at(&self, u: f64, speed: RotationalSpeed) -> f64 {
        let (second, fourth) = ((self.gas - self.second_order(speed)).si(), self.fourth_order(speed).si());
        -0.5 * second * u + 0.25 * fourth * (2.0 * u * u - 1.0)
    }

    /// Energy that goes into the flywheel and out again twice a turn. Exact: its extremes are at u = ±1, and between
    /// them where u = P/2Q is one.
    #[must_use]
    pub fn energy_swing(&self, speed: RotationalSpeed) -> Energy {
        let (second, fourth) = ((self.gas - self.second_order(speed)).si(), self.fourth_order(speed).si());
        let stored = |u: f64| self.stored_at(u, speed);
        let (one, other) = (stored(1.0), stored(-1.0));
        let (mut least, mut most) = (one.min(other), one.max(other));
        let turn = second / (2.0 * fourth);
        if turn.abs() < 1.0 {
            let between = stored(turn);
            (least, most) = (least.min(between), most.max(between));
        }
        Energy::from_si(most - least)
    }
}

/// Coefficient of fluctuation of speed: highest less lowest, by the mean (ΔE = J·ω²·C_s).
#[must_use]
pub fn unevenness(swing: Energy, inertia: Inertia, speed: RotationalSpeed) -> Ratio {
    ratio(swing.si() / (inertia.si() * speed.si() * speed.si()))
}

fn four(case: &mut Case<'_>) -> Result<Four, Unknown> {
    Ok(Four {
        gas: case.of(GAS_TORQUE)?,
        reciprocating: case.of(RECIPROCATING)?,
        crank_radius: case.of(STROKE)? / 2.0,
        rod_ratio: case.of(ROD_RATIO)?,
    })
}

/// An engine at its idle, and the energy that swings there.
type Idling = (Four, RotationalSpeed, Energy);

fn idling(case: &mut Case<'_>) -> Result<Idling, Unknown> {
    let (four, speed) = (four(case)?, case.of(IDLE)?);
    let numbers = [four.reciprocating.si(), four.crank_radius.si() * 2.0, speed.si()];
    case.say(&SECOND_LINE, &numbers, four.second_order(speed));
    Ok((four, speed, four.energy_swing(speed)))
}

fn uneven(case: &mut Case<'_>, (_, speed, swing): Idling, of: Output<Inertia>) -> Result<Ratio, Unknown> {
    let inertia = case.of(of)?;
    Ok(case.say(&UNEVEN_LINE, &[swing.si(), inertia.si(), speed.si()], unevenness(swing, inertia, speed)))
}

/// Idle speed at which the chosen wheel is as even as the reference is at the idle given, by the second order alone.
fn even_idle(case: &mut Case<'_>, idling: Idling) -> Result<RotationalSpeed, Unknown> {
    let (wanted, inertia) = (uneven(case, idling, REFERENCE_ENGINE_INERTIA)?, case.of(ENGINE_INERTIA)?);
    let (four, speed, _) = idling;
    let per_square = four.second_order(speed).si() / (speed.si() * speed.si());
    let even = RotationalSpeed::from_si((four.gas.si() / (per_square + wanted.si() * inertia.si())).sqrt());
    // Else the fourth order has its say, and the equation is another.
    if four.gas - four.second_order(even) < four.fourth_order(even) * 2.0 {
        return Err(Unknown::NoSolution("The pistons' inertia outweighs the gas there: no idle speed matches the reference."));
    }
    let numbers = [four.gas.si(), four.second_order(speed).si(), speed.si(), wanted.si(), inertia.si()];
    Ok(case.say(&EVEN_LINE, &numbers, even))
}

/// The engine of a report, for its turning moment drawn out.
pub(super) fn reported(report: &crate::report::Report) -> Result<Four, Unknown> {
    Ok(Four {
        gas: report.of(GAS_TORQUE)?,
        reciprocating: report.of(RECIPROCATING)?,
        crank_radius: report.of(STROKE)? / 2.0,
        rod_ratio: report.of(ROD_RATIO)?,
    })
}

pub(super) const IDLING: Step = Step {
    name: "evenness at idle",
    reads: &[GAS_TORQUE.id, RECIPROCATING.id, STROKE.id, ROD_RATIO.id, IDLE.id, ENGINE_INERTIA.id, REFERENCE_ENGINE_INERTIA.id],
    writes: &[IDLE_SWING.id, UNEVENNESS.id, REFERENCE_UNEVENNESS.id, ROUGHER.id, EVEN_IDLE.id],
    run: |case| {
        let idling = idling(case);
        case.answer(IDLE_SWING, |case| {
            let (four, speed, swing) = idling?;
            let numbers = [four.gas.si(), four.second_order(speed).si(), four.rod_ratio.si()];
            Ok(case.say(&SWING_LINE, &numbers, swing))
        });
        case.answer(UNEVENNESS, |case| uneven(case, idling?, ENGINE_INERTIA));
        case.answer(REFERENCE_UNEVENNESS, |case| uneven(case, idling?, REFERENCE_ENGINE_INERTIA));
        case.answer(ROUGHER, |case| {
            let idling = idling?;
            let (chosen, reference) = (uneven(case, idling, ENGINE_INERTIA)?, uneven(case, idling, REFERENCE_ENGINE_INERTIA)?);
            Ok(case.say(&ROUGHER_LINE, &[chosen.si(), reference.si()], ratio(chosen / reference)))
        });
        case.answer(EVEN_IDLE, |case| even_idle(case, idling?));
    },
};
