//! When a two-mass flywheel gives way to a solid one, where does the gearbox rattle?
//!
//! The driven plate's springs tie gearbox to engine: f = √(k·(J₁ + J₂)/(J₁·J₂))/2π (two masses on a spring). A four
//! shakes them twice a turn, so the worst engine speed is 30·f.

use super::{ENGINE_INERTIA, GEARBOX_INERTIA, PLATE_RATE, RATTLE_FREQUENCY, RATTLE_SPEED};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{HZ, KG_M2, NM_PER_RAD, RPM};
use crate::quantity::{Frequency, Inertia, RotationalSpeed, TorsionalStiffness, hertz};
use crate::report::Unknown;
use crate::spec::Source;
use core::f64::consts::PI;

static FREQUENCY_LINE: Line = Line {
    equation: "f = √(k · (J_1 + J_2) / (J_1 · J_2)) / (2 · π)",
    terms: &[("k", NM_PER_RAD), ("J_1", KG_M2), ("J_2", KG_M2)],
    unit: HZ,
    source: Source::FromMemory("any text on torsional vibration: two masses on a spring"),
};
static SPEED_LINE: Line = Line { equation: "n = f / 2", terms: &[("f", HZ)], unit: RPM, source: Source::Definition };

/// Frequency at which two inertias swing against each other on a torsion spring.
#[must_use]
pub fn natural_frequency(rate: TorsionalStiffness, one: Inertia, other: Inertia) -> Frequency {
    hertz((rate.si() * (1.0 / one.si() + 1.0 / other.si())).sqrt() / (2.0 * PI))
}

/// Engine speed at which a four's firing meets a frequency: two pulses a turn.
#[must_use]
pub fn second_order_speed(frequency: Frequency) -> RotationalSpeed {
    RotationalSpeed::from_si(frequency.si() / 2.0 * 2.0 * PI)
}

fn frequency(case: &mut Case<'_>) -> Result<Frequency, Unknown> {
    let (rate, engine, gearbox) = (case.of(PLATE_RATE)?, case.of(ENGINE_INERTIA)?, case.of(GEARBOX_INERTIA)?);
    Ok(case.say(&FREQUENCY_LINE, &[rate.si(), engine.si(), gearbox.si()], natural_frequency(rate, engine, gearbox)))
}

pub(super) const RATTLE: Step = Step {
    name: "rattle of the gearbox",
    reads: &[PLATE_RATE.id, ENGINE_INERTIA.id, GEARBOX_INERTIA.id],
    writes: &[RATTLE_FREQUENCY.id, RATTLE_SPEED.id],
    run: |case| {
        case.answer(RATTLE_FREQUENCY, frequency);
        case.answer(RATTLE_SPEED, |case| {
            let frequency = frequency(case)?;
            Ok(case.say(&SPEED_LINE, &[frequency.si()], second_order_speed(frequency)))
        });
    },
};
