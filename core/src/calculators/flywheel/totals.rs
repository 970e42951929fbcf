//! How hard is everything on the engine's side to spin, and what is that worth in mass of the car?
//!
//! The flywheel's inertia by the way chosen; with crank, cover, plate, pulley and accessories; and the mass that would
//! hold the car back as much in a gear: η·J·G²/r² (Gillespie, Fundamentals of Vehicle Dynamics, ch. 2, from memory).

use super::sections::Body;
use super::{
    ACCESSORIES, BORE, COVER_INERTIA, CRANK_INERTIA, ENGINE_INERTIA, EQUIVALENT_MASS, EQUIVALENT_SHARE, FRONT_PULLEY, GYRATION, INERTIA,
    INERTIA_FROM_GYRATION, INERTIA_FROM_SECTIONS, INERTIA_FROM_SWING, InertiaMethod, MASS_FROM_SECTIONS, MASS_SAVED, METHOD, OUTER,
    PLATE_INERTIA, REFERENCE_ENGINE_INERTIA, REFERENCE_EQUIVALENT_MASS, REFERENCE_EQUIVALENT_SHARE, REFERENCE_FROM_GYRATION,
    REFERENCE_GYRATION, REFERENCE_INERTIA, REFERENCE_MASS, SCALES, SCALES_TOLERANCE, WEIGHED, WHEEL_MASS,
};
use crate::calculators::car::{DRIVELINE_EFFICIENCY, FINAL_DRIVE, GEAR_RATIO, GEARS, MASS, ROLLING_RADIUS};
use crate::choices;
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{KG, KG_M2, MM, ONE, PERCENT};
use crate::quantity::{Inertia, Length, Mass, Ratio, kilograms, ratio};
use crate::report::Unknown;
use crate::spec::Source;

choices! {
    /// Mass by the sections against the scales.
    Agreement {
        Agrees "agrees" "sizes and scales agree"
        Differs "differs" "sizes and scales differ: a size is off, or the metal is another"
        NotUsed "not-used" "the sizes do not make the inertia"
    }
}

static GYRATION_LINE: Line = Line { equation: "J = m · k²", terms: &[("m", KG), ("k", MM)], unit: KG_M2, source: Source::Definition };
static CHOSEN_LINE: Line = Line { equation: "J by the way chosen", terms: &[], unit: KG_M2, source: Source::Definition };
static MASS_LINE: Line = Line { equation: "m by the way chosen", terms: &[], unit: KG, source: Source::Definition };
static SAVED_LINE: Line = Line { equation: "Δm = m_0 − m", terms: &[("m_0", KG), ("m", KG)], unit: KG, source: Source::Definition };
static TOTAL_LINE: Line = Line {
    equation: "J = J_w + J_c + J_k + J_p + J_f + J_a",
    terms: &[("J_w", KG_M2), ("J_c", KG_M2), ("J_k", KG_M2), ("J_p", KG_M2), ("J_f", KG_M2), ("J_a", KG_M2)],
    unit: KG_M2,
    source: Source::Definition,
};
static EQUIVALENT_LINE: Line = Line {
    equation: "m_e = η · J · (i · i_f)² / r²",
    terms: &[("η", ONE), ("J", KG_M2), ("i", ONE), ("i_f", ONE), ("r", MM)],
    unit: KG,
    source: Source::FromMemory("Gillespie, Fundamentals of Vehicle Dynamics, ch. 2"),
};
static SHARE_LINE: Line = Line { equation: "m_e / m", terms: &[("m_e", KG), ("m", KG)], unit: PERCENT, source: Source::Definition };

/// Mass that would hold the car back as much as this inertia turning with the engine: η·J·G²/r², G the gear times the
/// final drive. The efficiency is there because what speeds the engine up never passes the driveline (ratio 1: no loss).
#[must_use]
pub fn equivalent_mass(inertia: Inertia, overall: Ratio, radius: Length, efficiency: Ratio) -> Mass {
    let per_metre = overall.si() / radius.si();
    kilograms(efficiency.si() * inertia.si() * per_metre * per_metre)
}

/// The wheel and all that turns with it while the clutch holds.
fn total(case: &mut Case<'_>, wheel: Inertia) -> Result<Inertia, Unknown> {
    let (crank, cover, plate) = (case.of(CRANK_INERTIA)?, case.of(COVER_INERTIA)?, case.of(PLATE_INERTIA)?);
    let (pulley, accessories) = (case.of(FRONT_PULLEY)?, case.of(ACCESSORIES)?);
    let whole = wheel + crank + cover + plate + pulley + accessories;
    let numbers = [wheel.si(), crank.si(), cover.si(), plate.si(), pulley.si(), accessories.si()];
    Ok(case.say(&TOTAL_LINE, &numbers, whole))
}

pub(super) const WHEELS: Step = Step {
    name: "inertia of the flywheels",
    reads: &[
        METHOD.id,
        WEIGHED.id,
        GYRATION.id,
        INERTIA_FROM_SECTIONS.id,
        INERTIA_FROM_SWING.id,
        MASS_FROM_SECTIONS.id,
        SCALES_TOLERANCE.id,
        OUTER.id,
        BORE.id,
        REFERENCE_MASS.id,
        REFERENCE_GYRATION.id,
    ],
    writes: &[INERTIA_FROM_GYRATION.id, INERTIA.id, WHEEL_MASS.id, MASS_SAVED.id, SCALES.id, REFERENCE_FROM_GYRATION.id],
    run: |case| {
        let by_gyration = |case: &mut Case<'_>, mass, radius| -> Result<Inertia, Unknown> {
            let (mass, radius): (Mass, Length) = (case.of::<Mass>(mass)?, case.of::<Length>(radius)?);
            Ok(case.say(&GYRATION_LINE, &[mass.si(), radius.si()], Body::of_gyration(mass, radius).inertia))
        };
        let method = case.of(METHOD);
        let mass = match method {
            Ok(InertiaMethod::Sections) => case.of(MASS_FROM_SECTIONS),
            Ok(InertiaMethod::Gyration | InertiaMethod::Swing) => case.of(WEIGHED),
            Err(why) => Err(why),
        };
        case.answer(INERTIA_FROM_GYRATION, |case| by_gyration(case, WEIGHED, GYRATION));
        case.answer(REFERENCE_FROM_GYRATION, |case| by_gyration(case, REFERENCE_MASS, REFERENCE_GYRATION));
        case.answer(INERTIA, |case| {
            let inertia = match method? {
                InertiaMethod::Gyration => by_gyration(case, WEIGHED, GYRATION)?,
                InertiaMethod::Sections => case.of(INERTIA_FROM_SECTIONS)?,
                InertiaMethod::Swing => case.of(INERTIA_FROM_SWING)?,
            };
            if let Ok(mass) = mass {
                let radius = Body { mass, inertia }.radius_of_gyration();
                // No metal lies further out than the rim, none further in than the bore.
                if case.of(OUTER).is_ok_and(|outer| radius > outer / 2.0) {
                    return Err(Unknown::NoSolution("That is more than its mass at its outside would have: check mass, radius and times."));
                }
                if case.of(BORE).is_ok_and(|bore| radius < bore / 2.0) {
                    return Err(Unknown::NoSolution("That is less than its mass at its bore would have: check mass, radius and times."));
                }
            }
            Ok(case.say(&CHOSEN_LINE, &[], inertia))
        });
        case.answer(WHEEL_MASS, |case| Ok(case.say(&MASS_LINE, &[], mass?)));
        case.answer(MASS_SAVED, |case| {
            let (mass, reference) = (mass?, case.of(REFERENCE_MASS)?);
            Ok(case.say(&SAVED_LINE, &[reference.si(), mass.si()], reference - mass))
        });
        case.answer(SCALES, |case| {
            if method? != InertiaMethod::Sections {
                return Ok(Agreement::NotUsed);
            }
            let (weighed, computed, tolerance) = (case.of(WEIGHED)?, case.of(MASS_FROM_SECTIONS)?, case.of(SCALES_TOLERANCE)?);
            let off = (computed - weighed).abs() / weighed;
            Ok(if off <= tolerance.si() { Agreement::Agrees } else { Agreement::Differs })
        });
    },
};

pub(super) const TOTALS: Step = Step {
    name: "inertia on the engine's side",
    reads: &[INERTIA.id, REFERENCE_INERTIA.id, CRANK_INERTIA.id, COVER_INERTIA.id, PLATE_INERTIA.id, FRONT_PULLEY.id, ACCESSORIES.id],
    writes: &[ENGINE_INERTIA.id, REFERENCE_ENGINE_INERTIA.id],
    run: |case| {
        case.answer(ENGINE_INERTIA, |case| {
            let wheel = case.of(INERTIA)?;
            total(case, wheel)
        });
        case.answer(REFERENCE_ENGINE_INERTIA, |case| {
            let wheel = case.of(REFERENCE_INERTIA)?;
            total(case, wheel)
        });
    },
};

/// Equivalent mass of an inertia through a driveline (efficiency, final drive, rolling radius); says its line.
fn in_gear(case: &mut Case<'_>, inertia: Inertia, gear: Ratio, (efficiency, axle, radius): (Ratio, Ratio, Length)) -> Mass {
    let mass = equivalent_mass(inertia, ratio(gear.si() * axle.si()), radius, efficiency);
    case.say(&EQUIVALENT_LINE, &[efficiency.si(), inertia.si(), gear.si(), axle.si(), radius.si()], mass)
}

pub(super) const EQUIVALENTS: Step = Step {
    name: "what the inertia weighs in each gear",
    reads: &[
        ENGINE_INERTIA.id,
        REFERENCE_ENGINE_INERTIA.id,
        DRIVELINE_EFFICIENCY.id,
        GEAR_RATIO.id,
        FINAL_DRIVE.id,
        ROLLING_RADIUS.id,
        MASS.id,
    ],
    writes: &[EQUIVALENT_MASS.id, REFERENCE_EQUIVALENT_MASS.id, EQUIVALENT_SHARE.id, REFERENCE_EQUIVALENT_SHARE.id],
    run: |case| {
        let driveline = driveline(case);
        let (chosen, reference, car) = (case.of(ENGINE_INERTIA), case.of(REFERENCE_ENGINE_INERTIA), case.of(MASS));
        let share = |case: &mut Case<'_>, mass: Mass, car: Mass| case.say(&SHARE_LINE, &[mass.si(), car.si()], ratio(mass / car));
        for row in 0..case.rows(GEARS) {
            let gear = case.cell(GEAR_RATIO, row);
            let of = |case: &mut Case<'_>, inertia: Result<Inertia, Unknown>| Ok(in_gear(case, inertia?, gear?, driveline?));
            case.answer_row(EQUIVALENT_MASS, row, |case| of(case, chosen));
            case.answer_row(REFERENCE_EQUIVALENT_MASS, row, |case| of(case, reference));
            case.answer_row(EQUIVALENT_SHARE, row, |case| {
                let mass = of(case, chosen)?;
                Ok(share(case, mass, car?))
            });
            case.answer_row(REFERENCE_EQUIVALENT_SHARE, row, |case| {
                let mass = of(case, reference)?;
                Ok(share(case, mass, car?))
            });
        }
    },
};

fn driveline(case: &mut Case<'_>) -> Result<(Ratio, Ratio, Length), Unknown> {
    Ok((case.of(DRIVELINE_EFFICIENCY)?, case.of(FINAL_DRIVE)?, case.of(ROLLING_RADIUS)?))
}
