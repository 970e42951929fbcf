//! How hot does a launch make it?
//!
//! The heat is the flywheel's question, since what turns with the engine and the speed let in at decide it; here it goes
//! into the metal next to the facings, nothing lost meanwhile.

use super::{DUMP_HEAT, DUMP_RISE, FACINGS_STAND, LAUNCHES, SLIP_HEAT, SLIP_RISE, WARM_BEFORE};
use crate::calculators::flywheel::{HEAT_CAPACITY, HEAT_MASS, launch};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{CELSIUS, J, J_PER_KG_K, KG, ONE, RISE};
use crate::quantity::{Energy, Ratio, Temperature, TemperatureRise, ratio};
use crate::report::Unknown;
use crate::spec::{Input, Source};

static RISE_LINE: Line =
    Line { equation: "ΔT = Q / (m · c)", terms: &[("Q", J), ("m", KG), ("c", J_PER_KG_K)], unit: RISE, source: Source::Definition };
static LAUNCHES_LINE: Line = Line {
    equation: "N = (θ_h − θ_0) / ΔT",
    terms: &[("θ_h", CELSIUS), ("θ_0", CELSIUS), ("ΔT", RISE)],
    unit: ONE,
    source: Source::Definition,
};

/// How many times the metal may warm by `rise` before it is at `most` (a number; none when it is hotter from the start).
#[must_use]
pub fn launches(start: Temperature, most: Temperature, rise: TemperatureRise) -> Ratio {
    ratio(((most.si() - start.si()) / rise.si()).max(0.0))
}

pub(super) const LAUNCH_STEP: Step = Step {
    name: "heat of a launch",
    reads: &[DUMP_HEAT.id, SLIP_HEAT.id, HEAT_MASS.id, HEAT_CAPACITY.id, WARM_BEFORE.id, FACINGS_STAND.id],
    writes: &[DUMP_RISE.id, SLIP_RISE.id, LAUNCHES.id],
    run: |case| {
        case.answer(DUMP_RISE, |case| warmed(case, DUMP_HEAT));
        case.answer(SLIP_RISE, |case| warmed(case, SLIP_HEAT));
        case.answer(LAUNCHES, |case| {
            let (start, most, rise) = (case.of(WARM_BEFORE)?, case.of(FACINGS_STAND)?, warmed(case, SLIP_HEAT)?);
            Ok(case.say(&LAUNCHES_LINE, &[most.si(), start.si(), rise.si()], launches(start, most, rise)))
        });
    },
};

fn warmed(case: &mut Case<'_>, heat: Input<Energy>) -> Result<TemperatureRise, Unknown> {
    let (heat, mass, capacity) = (case.of(heat)?, case.of(HEAT_MASS)?, case.of(HEAT_CAPACITY)?);
    Ok(case.say(&RISE_LINE, &[heat.si(), mass.si(), capacity.si()], launch::rise(heat, mass, capacity)))
}
